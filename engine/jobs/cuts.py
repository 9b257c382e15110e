"""What the tool really takes: from readings with their dial settings to the last cuts, and how sure they are.

A light lathe springs, so a cut takes less than its dial says. A straight line through the readings tells what it
takes for each mm of the dial, and the line's own uncertainty tells how far to trust the next setting.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import NormalDist
from typing import TYPE_CHECKING

from engine.indexing.dials import DialSetting, slide_setting
from engine.jobs.measuring import GROWING
from engine.jobs.slides import SlideName, owned_slide
from engine.quantity import show
from engine.shop.model import Shop

if TYPE_CHECKING:
    from engine.jobs.schema import Kind

READING_ERROR = (
    0.005  # mm either way: a micrometer with lines of 0.01 mm, read to the nearest; common practice
)
SETTING_ERROR = 0.25  # of a line either way: how near a dial is set to a line; common practice, no source
TWICE = 2.0  # standard uncertainties either way, about 19 times in 20; JCGM 100:2008, 6.3.3
_LEAST_SHARE, _MOST_SHARE = (
    0.3,
    1.25,
)  # outside these the dial was misread, not the lathe sprung; common practice
_RUBS = 0.02  # mm of depth under which a tool may rub and not cut; common practice, no source


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line through points, with the uncertainty of a value on it."""

    slope: float
    mean_x: float
    mean_y: float
    spread: float
    points: int
    scatter: float

    def at(self, x: float) -> float:
        """The line's value."""
        return self.mean_y + self.slope * (x - self.mean_x)

    @property
    def slope_uncertainty(self) -> float:
        """Standard uncertainty of the slope."""
        return self.scatter / sqrt(self.spread)

    def uncertainty_at(self, x: float) -> float:
        """Standard uncertainty of the line's value."""
        return self.scatter * sqrt(1 / self.points + (x - self.mean_x) ** 2 / self.spread)


@dataclass(frozen=True, slots=True)
class PlannedCut:
    """One cut: where to set the dial (from its zero), the size to expect, give or take, 19 times in 20. [mm]"""

    travel: float
    setting: DialSetting
    expected: float
    give_or_take: float


@dataclass(frozen=True, slots=True)
class CutPlan:
    """The last cuts. `share` is what the tool takes of what the dial says, `share_give_or_take` its doubt.

    `likely` is the chance, 0 to 1, that the part is in limits after the last cut. `problem` says why nothing can be
    planned; then there are no cuts.
    """

    slide: SlideName
    readings: int
    share: float
    share_give_or_take: float
    cuts: tuple[PlannedCut, ...] = ()
    likely: float = 0.0
    problem: str = ""
    thin: bool = False


def fit_line(points: Sequence[tuple[float, float]], *, known: float = 0.0) -> Line:
    """Fit a straight line by least squares.

    Parameters
    ----------
    points : sequence of (float, float)
        Two or more, not all at one x.
    known : float
        Standard uncertainty of each y, as far as it is known beforehand; the scatter about the line takes its
        place where it is larger. [as y]

    Returns
    -------
    line : Line
        Slope, means, and the standard deviation of a point.

    Raises
    ------
    ValueError
        If there are fewer than two points, or all stand at one x.

    Sources
    -------
    JCGM 100:2008 (Guide to the expression of uncertainty in measurement), H.3.2.

    Examples
    --------
    >>> line = fit_line([(0, 22.0), (0.5, 21.1), (1.0, 20.2)])
    >>> line.slope, line.at(1.5)
    (-1.8, 19.3)
    """
    count = len(points)
    mean_x = sum(x for x, _ in points) / count if count else 0.0
    mean_y = sum(y for _, y in points) / count if count else 0.0
    spread = sum((x - mean_x) ** 2 for x, _ in points)
    if count < 2 or spread <= 0:
        raise ValueError("a line needs two points at two places")
    slope = sum((x - mean_x) * (y - mean_y) for x, y in points) / spread
    scatter = known
    if count > 2:
        left_over = sum((y - mean_y - slope * (x - mean_x)) ** 2 for x, y in points)
        scatter = max(known, sqrt(left_over / (count - 2)))
    return Line(slope, mean_x, mean_y, spread, count, scatter)


def plan_cuts(
    readings: Sequence[tuple[float, float]],
    *,
    low: float,
    high: float,
    kind: Kind,
    slide: SlideName,
    shop: Shop,
    reading_error: float = READING_ERROR,
) -> CutPlan:
    """Plan the last cuts from readings with their dial settings.

    Parameters
    ----------
    readings : sequence of (float, float)
        Where the slide stood from its zero [mm of the slide], and the size measured there [mm]; two or more.
    low : float
        Smallest permissible size. [mm]
    high : float
        Largest permissible size. [mm]
    kind : str
        As for engine.jobs.measuring.judge.
    slide : str
        The slide whose dial was read.
    shop : Shop
        What is owned.
    reading_error : float
        How far off a reading may be, either way. [mm]

    Returns
    -------
    plan : CutPlan
        One cut, or two equal ones with a reading between where one would not be sure enough.

    Raises
    ------
    BadInput
        If the slide is not owned or cannot change such a measure.

    Sources
    -------
    JCGM 100:2008: 4.3.7 (limits of error as a standard uncertainty), 5.1.2 (combining), H.3 (the line).
    Two equal last cuts, so that the spring is equal: common practice, no source.

    Examples
    --------
    >>> from engine.shop.file import sample
    >>> plan = plan_cuts([(0.5, 21.00), (1.0, 20.10)], low=19.55, high=19.65, kind="diameter", slide="cross",
    ...                  shop=sample("metric"))
    >>> plan.share, len(plan.cuts), plan.cuts[-1].travel
    (0.9, 1, 1.277)
    """
    owned, ratio = owned_slide(slide, kind, shop)
    dial_line = float(owned.travel_per_turn / owned.divisions)
    sign = 1.0 if kind in GROWING else -1.0
    # A limit of error either way counts as its third root in standard uncertainties (4.3.7).
    by_dial = ratio * dial_line * SETTING_ERROR / sqrt(3)
    known = sqrt((reading_error / sqrt(3)) ** 2 + by_dial**2)
    try:
        line = fit_line(readings, known=known)
    except ValueError:
        return CutPlan(slide, len(readings), 0, 0, problem="Two readings at two dial settings are needed.")
    share = sign * line.slope / ratio
    doubt = TWICE * line.slope_uncertainty / ratio
    refusal = _refusal(share, doubt, readings, low, high, sign)
    if refusal:
        return CutPlan(slide, len(readings), share, doubt, problem=refusal)
    middle = (low + high) / 2
    now = max(x for x, _ in readings)
    last = line.mean_x + (middle - line.mean_y) / line.slope
    half_band = (high - low) / 2
    sure_enough = TWICE * sqrt(line.uncertainty_at(last) ** 2 + by_dial**2) <= half_band
    travels = (last,) if sure_enough else (now + (last - now) / 2, last)
    cuts: list[PlannedCut] = []
    for travel in travels:
        setting = slide_setting(owned, travel, towards="short" if travel is not last else "nearest")
        set_at = travel + setting.error
        spread = sqrt(line.uncertainty_at(set_at) ** 2 + by_dial**2)
        cuts.append(PlannedCut(travel, setting, line.at(set_at), TWICE * spread))
        # The reading to be taken after this cut makes the line surer for the next.
        line = fit_line([*readings, (set_at, line.at(set_at))], known=known) if travel is not last else line
    chance = NormalDist(cuts[-1].expected, cuts[-1].give_or_take / TWICE)
    likely = chance.cdf(high) - chance.cdf(low)
    thin = (last - now) / len(travels) < _RUBS
    return CutPlan(slide, len(readings), share, doubt, tuple(cuts), likely, thin=thin)


def _refusal(
    share: float, doubt: float, readings: Sequence[tuple[float, float]], low: float, high: float, sign: float
) -> str:
    """Why nothing can be planned, or nothing."""
    if not _LEAST_SHARE <= share <= _MOST_SHARE:
        return (
            f"The readings say that the tool takes {share:.2f} of what the dial says: that is no spring. "
            "See that the dial was read at the right turn and from the same zero."
        )
    if doubt > share / 3:
        return "The readings lie too close together to tell: take one more cut and measure."
    newest = max(readings)[1]
    if low <= newest <= high:
        return "The part is in limits: nothing is left to come off."
    if (newest - (low if sign < 0 else high)) * -sign < 0:
        return "The part is over-cut: nothing is left to come off."
    return ""


def plan_words(plan: CutPlan, unit: str) -> tuple[str, ...]:
    """Return a plan in words.

    Parameters
    ----------
    plan : CutPlan
        From `plan_cuts`.
    unit : str
        `mm` or `inch`.

    Returns
    -------
    lines : tuple of str
        A sentence each.

    Sources
    -------
    None: writing.

    Examples
    --------
    >>> print(plan_words(CutPlan("cross", 2, 0, 0, problem="Two readings are needed."), "mm")[0])
    Two readings are needed.
    """
    if plan.problem:
        return (plan.problem,)
    lines = [
        f"The tool takes {plan.share:.2f} of what the dial says, give or take {plan.share_give_or_take:.2f} "
        f"({plan.readings} readings)."
    ]
    for number, cut in enumerate(plan.cuts, 1):
        name = "Last cut" if number == len(plan.cuts) else "First cut, then measure again"
        turns = (
            f"{cut.setting.turns} turn{'s' if cut.setting.turns > 1 else ''} and "
            if cut.setting.turns
            else ""
        )
        expected, around = (show(x, "length", unit) for x in (cut.expected, cut.give_or_take))
        lines.append(
            f"{name}: dial to {turns}{cut.setting.lines} line{'' if cut.setting.lines == 1 else 's'} "
            f"({show(cut.setting.reading, 'length', unit)}); expect {expected}, give or take {around}."
        )
    # Ninety-nine is as sure as two readings and a straight line can be.
    lines.append(f"In limits about {min(99, int(plan.likely * 100))} times in 100.")
    if plan.thin:
        rubs = show(_RUBS, "length", unit)
        lines.append(f"That is a cut of less than {rubs}: a tool that is not keen rubs instead of cutting.")
    return tuple(lines)
