"""What the tool really takes: from readings with their dial settings to the last cuts, and how sure they are.

A light lathe springs, so a cut takes less than its dial says. A straight line through the readings tells what it
takes for each mm of the dial, and the line's own uncertainty tells how far to trust the next setting.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, sqrt
from statistics import NormalDist

from engine.base.records import dataclass, replace
from engine.base.words import Text, counted, figures, say, shown
from engine.indexing.dials import DialSetting, Towards, slide_setting
from engine.jobs.measuring import GROWING, Kind
from engine.jobs.slides import owned_slide
from engine.jobs.springs import LEAST, MOST
from engine.shop.model import Shop, Slide

READING_ERROR = 0.005  # mm either way: a micrometer with lines of 0.01 mm, read to the nearest; common practice
SETTING_ERROR = 0.25  # of a line either way: how near a dial is set to a line; common practice, no source
TWICE = 2.0  # standard uncertainties either way, about 19 times in 20; JCGM 100:2008, 6.3.3
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

    slide: str
    readings: int
    share: float
    share_give_or_take: float
    cuts: tuple[PlannedCut, ...] = ()
    likely: float = 0.0
    problem: Text = ""
    thin: bool = False


def fit_line(points: Sequence[tuple[float, float]], *, known: float = 0.0) -> Line:
    """Fit a straight line by least squares.

    points: Two or more, not all at one x.
    known: Standard uncertainty of each y, as far as it is known beforehand; the scatter about the line takes its place
        where it is larger. [as y]
    Returns: Slope, means, and the standard deviation of a point.
    Raises: ValueError if there are fewer than two points, or all stand at one x.
    Source: JCGM 100:2008 (Guide to the expression of uncertainty in measurement), H.3.2.

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
    slide: str,
    shop: Shop,
    reading_error: float = READING_ERROR,
    target: float | None = None,
    takes: tuple[float, float] | None = None,
) -> CutPlan:
    """Plan the last cuts from readings with their dial settings.

    readings: Where the slide stood from its zero [mm of the slide], and the size measured there [mm]; two or more,
        oldest first, or one where `takes` is known. All of them from one zero.
    low, high: Smallest and largest permissible size. [mm]
    kind: As for engine.jobs.measuring.judge.
    slide, shop: The slide whose dial was read, and what is owned.
    reading_error: How far off a reading may be, either way. [mm]
    target: The size that the last cut is to end at; None: the middle. [mm]
    takes: What the tool takes of what the dial says, give or take, as learned before. [-]
    Returns: One cut, or two equal ones with a reading between where one would not be sure enough.
    Raises: BadInput if the slide is not owned or cannot change such a measure.
    Source: JCGM 100:2008: 4.3.7 (limits of error as a standard uncertainty), 5.1.2 (combining), H.3 (the line). Two
        equal last cuts, so that the spring is equal: common practice, no source.

    >>> from engine.shop.file import sample
    >>> plan = plan_cuts([(0.5, 21.00), (1.0, 20.10)], low=19.55, high=19.65, kind="diameter", slide="cross",
    ...                  shop=sample("metric"))
    >>> plan.share, len(plan.cuts), plan.cuts[-1].travel
    (0.9, 1, 1.277)

    What was learned before serves from the first reading on.

    >>> plan_cuts([(1.0, 20.10)], low=19.55, high=19.65, kind="diameter", slide="cross", shop=sample("metric"),
    ...           takes=(0.9, 0.02)).cuts[-1].travel
    1.277
    """
    owned, ratio = owned_slide(slide, kind, shop)
    sign = 1.0 if kind in GROWING else -1.0
    # A dial may fall as the cut goes on (boring, a tool behind the work): then count the way it has gone.
    falls = readings[-1][0] < readings[0][0] if len(readings) > 1 else kind == "bore"
    way = -1 if falls else 1
    points = [(way * travel, size) for travel, size in readings]
    by_dial, known = _uncertainties(ratio * float(owned.travel_per_turn / owned.divisions), reading_error)
    try:
        one = _known_line(points[0], takes, sign * ratio, known) if takes and len(points) == 1 else None
        line = one or fit_line(points, known=known)
    except ValueError:
        return CutPlan(slide, len(points), 0, 0, problem="Two readings at two dial settings are needed.")
    share = sign * line.slope / ratio
    doubt = TWICE * line.slope_uncertainty / ratio
    refusal = _refusal(share, doubt, points[-1][1], low, high, sign)
    if refusal:
        return CutPlan(slide, len(points), share, doubt, problem=refusal)
    now = points[-1][0]
    aim = (low + high) / 2 if target is None else target
    last = line.mean_x + (aim - line.mean_y) / line.slope
    room = high - aim if sign > 0 else aim - low  # to the limit that is not to be passed
    sure_enough = TWICE * sqrt(line.uncertainty_at(last) ** 2 + by_dial**2) <= room
    stops = (last,) if sure_enough else (now + (last - now) / 2, last)
    cuts = _cuts(stops, line, points, owned, way, by_dial)
    chance = NormalDist(cuts[-1].expected, cuts[-1].give_or_take / TWICE)
    likely = chance.cdf(high) - chance.cdf(low)
    return CutPlan(slide, len(points), share, doubt, cuts, likely, thin=(last - now) / len(stops) < _RUBS)


def _known_line(point: tuple[float, float], takes: tuple[float, float], change: float, known: float) -> Line:
    """The line through one reading with a slope that was learned before."""
    share, doubt = takes
    slope_uncertainty = max(doubt, 1e-3) / TWICE * abs(change)
    return Line(share * change, *point, (known / slope_uncertainty) ** 2, 1, known)


def _uncertainties(change_by_line: float, reading_error: float) -> tuple[float, float]:
    """Standard uncertainty of a size from the dial's setting alone, and from dial and gauge together."""
    # An error of at most so much either way counts as that over the square root of three (4.3.7).
    by_dial = change_by_line * SETTING_ERROR / sqrt(3)
    return by_dial, sqrt((reading_error / sqrt(3)) ** 2 + by_dial**2)


def _cuts(
    stops: tuple[float, ...], line: Line, points: Sequence[tuple[float, float]], owned: Slide, way: int, by_dial: float
) -> tuple[PlannedCut, ...]:
    """Each stop on a line of the dial, with the size to expect; no cut but the last goes past its stop."""
    found = []
    for number, stop in enumerate(stops, 1):
        is_last = number == len(stops)
        setting = _setting(owned, way * stop, "nearest" if is_last else "short" if way > 0 else "past")
        set_at = stop + way * setting.error
        spread = sqrt(line.uncertainty_at(set_at) ** 2 + by_dial**2)
        found.append(PlannedCut(way * stop, setting, line.at(set_at), TWICE * spread))
        # The reading to be taken after this cut makes the line surer for the next one.
        line = replace(fit_line([*points, (set_at, line.at(set_at))]), scatter=line.scatter)
    return tuple(found)


def teaches(plan: CutPlan) -> bool:
    """Whether the readings behind a plan tell what the tool takes, well enough to be kept.

    >>> teaches(CutPlan("cross", 2, 0.8, 0.04)), teaches(CutPlan("cross", 2, 0.8, 0.5))
    (True, False)
    """
    return plan.readings > 1 and LEAST <= plan.share <= MOST and plan.share_give_or_take <= plan.share / 3


def _setting(owned: Slide, travel: float, towards: Towards) -> DialSetting:
    """As slide_setting; below the dial's zero the turns come out negative."""
    turn = float(owned.travel_per_turn)
    below = ceil(-travel / turn) if travel < 0 else 0
    setting = slide_setting(owned, round(travel + below * turn, 9), towards=towards)
    return replace(setting, turns=setting.turns - below)


def _refusal(share: float, doubt: float, newest: float, low: float, high: float, sign: float) -> Text:
    """Why nothing can be planned, or nothing."""
    if not LEAST <= share <= MOST:
        text = "The readings say that the tool takes {share} of what the dial says: that is no spring. "
        text += "See that the dial was read at the right turn and from the same zero."
        return say(text, share=figures(share, 2))
    if doubt > share / 3:
        return "The readings lie too close together to tell: take one more cut and measure."
    if low <= newest <= high:
        return "The part is in limits: nothing is left to come off."
    if (newest - (low if sign < 0 else high)) * -sign < 0:
        return "The part is over-cut: nothing is left to come off."
    return ""


def _turns(turns: int) -> str:
    if turns == 0:
        return ""
    count = f"{abs(turns)} turn{'' if abs(turns) == 1 else 's'}"
    return f"{count} and " if turns > 0 else f"{count} below zero and "


def plan_words(plan: CutPlan) -> tuple[Text, ...]:
    """Return a plan in words.

    >>> plan_words(CutPlan("cross", 2, 0, 0, problem="Two readings are needed."))
    ('Two readings are needed.',)
    """
    if plan.problem:
        return (plan.problem,)
    source = f"{plan.readings} readings" if plan.readings > 1 else "as learned before"
    text = "The tool takes {share} of what the dial says, give or take {doubt} ({source})."
    share, doubt = figures(plan.share, 2), figures(plan.share_give_or_take, 2)
    lines: list[Text] = [say(text, share=share, doubt=doubt, source=source)]
    for number, cut in enumerate(plan.cuts, 1):
        name = "Last cut" if number == len(plan.cuts) else "First cut, then measure again"
        turns, to_line = _turns(cut.setting.turns), counted(cut.setting.lines, "line")
        text = "{name}: dial to {turns}{lines} ({reading}); expect {expected}, give or take {around}."
        sizes = {"reading": cut.setting.reading, "expected": cut.expected, "around": cut.give_or_take}
        parts = {key: shown(size) for key, size in sizes.items()}
        lines.append(say(text, name=name, turns=turns, lines=to_line, **parts))
    # Ninety-nine is as sure as two readings and a straight line can be.
    lines.append(f"In limits about {min(99, int(plan.likely * 100))} times in 100.")
    if plan.thin:
        rubs = "That is a cut of less than {rubs}: a tool that is not keen rubs instead of cutting."
        lines.append(say(rubs, rubs=shown(_RUBS)))
    return tuple(lines)
