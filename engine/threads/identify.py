"""Finding which thread a measured one is, over every family, and what to measure next."""

from __future__ import annotations

from collections.abc import Collection
from functools import cache
from math import ceil
from typing import Literal

from engine.base.quantity import MM_PER_INCH
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.tables import rows
from engine.base.words import Text, general, plain, say, shown
from engine.threads.form import form
from engine.threads.limits import limits
from engine.threads.owned import Cut, cut_by
from engine.threads.series import entries, named
from engine.threads.thread import FAMILIES, Thread
from engine.threads.told import Entry

Side = Literal["screw", "nut"]

# Common practice, no source:
PLATING = 0.03  # mm that plating may add to a diameter, 8 to 15 micrometres on each face
WEAR = 0.1  # of the pitch that wear or a filed crest may take off a diameter
PITCH_ERROR = 0.025  # of the pitch: reading a thread gauge, or a rule over several threads
ANGLE_ERROR = 2.0  # degrees: form gauges tell 55 from 60, not 29 from 30
_MOST = 12
_RAREST = 5
_APART = 8.0  # mm: between the two places that show a taper


@dataclass(frozen=True, slots=True)
class Candidate:
    """A thread that may be the measured one. Differences in mm, measured less nominal; None if not measured.

    `outside` is how far the measured diameter lies beyond its limits, wear and plating allowed for.
    """

    thread: Thread
    diameter_difference: float
    pitch_difference: float | None
    outside: float
    score: float


def identify(
    diameter: float, pitch: float | None = None, side: Side = "screw", *, included_angle: float | None = None,
    owned: Collection[Cut] = (), standard: str = "iso",
) -> tuple[Candidate, ...]:  # fmt: skip
    """Return the threads that a measured one may be, likeliest first.

    Those that fit alike are ranked by the taps owned, then by how common they are on this bench.

    diameter: Measured over the crests: of a screw its major diameter, of a nut its bore. [mm]
    pitch: Measured pitch; None if it was not. [mm]
    side: `screw` or `nut`.
    included_angle: Measured angle of the form; None if it was not. [deg]
    owned: What the taps of the shop cut.
    standard: `iso` or `asme`: whose threads are common on this bench.
    Returns: At most twelve; none if nothing published comes near.
    Source: The published series (engine/data/threads); allowances for wear, plating and reading are common practice, no
        source.

    >>> [str(c.thread) for c in identify(diameter=6.30, pitch=1.27)][:2]
    ['1/4-20 UNC', '1/4-20 BSW']
    """
    near = (e for family in FAMILIES for e in entries(family) if _may_fit(e, diameter, pitch, side))
    fitting = (_candidate(entry, diameter, pitch, side, included_angle) for entry in near)
    found = [candidate for candidate in fitting if candidate is not None]
    order = _order(standard)

    def rank(one: Candidate) -> tuple[object, ...]:
        foreign_to_taps = cut_by(one.thread) not in owned
        return round(one.score, 2), foreign_to_taps, *_rarity(one.thread, order), abs(one.diameter_difference)

    return tuple(sorted(found, key=rank)[:_MOST])


@cache
def _ranks() -> dict[str, int]:
    table = rows("threads/commonness.csv")
    return {thread: int(row["rank"]) for row in table for thread in row["threads"].split("; ")}


@cache
def _order(standard: str) -> tuple[str, ...]:
    """Series from the commonest on a bench to the rarest."""
    series = next(row["series"] for row in rows("threads/commonness_series.csv") if row["bench"] == standard)
    return tuple(series.split())


def _rarity(thread: Thread, order: tuple[str, ...]) -> tuple[bool, int, int, int]:
    """How rare a thread is on a bench: a series that is foreign there comes after all others."""
    foreign = thread.series not in order
    place = len(order) if foreign else order.index(thread.series)
    return foreign, _ranks().get(str(thread), _RAREST), place, FAMILIES.index(thread.family)


def _may_fit(entry: Entry, diameter: float, pitch: float | None, side: Side) -> bool:
    """A quick look, so that limits are worked out for the near ones only."""
    size, own = float(entry.diameter), float(entry.pitch)
    if pitch is not None and abs(own - pitch) > PITCH_ERROR * own:
        return False
    if side == "nut":
        return size - 1.6 * own < diameter < size
    return size - 0.5 * own - 0.1 < diameter < size + 0.1 * own + 0.1


def _crests(thread: Thread, side: Side) -> tuple[float, float, float]:
    """What is measured over the crests: nominal, smallest, largest."""
    found = limits(thread)
    if side == "nut":
        low, high, nominal = found.int_minor_min, found.int_minor_max, found.minor_basic
    else:
        low, high, nominal = found.ext_major_min, found.ext_major_max, found.major_basic
    slack = 0.1 * float(thread.pitch)
    return nominal, nominal - slack if low is None else low, nominal + slack if high is None else high


def _candidate(entry: Entry, diameter: float, pitch: float | None, side: Side, angle: float | None) -> Candidate | None:
    thread = named(entry)
    own = float(thread.pitch)
    nominal, low, high = _crests(thread, side)
    # A size written rather than measured is the nominal one: it counts as inside.
    low, high = min(low, nominal), max(high, nominal)
    if side == "screw":
        outside = max(low - WEAR * own - diameter, diameter - high - PLATING, 0.0)
    else:
        outside = max(low - PLATING - diameter, diameter - high - WEAR * own, 0.0)
    beyond = max(low - diameter, diameter - high, 0.0) / (WEAR * own)
    off_pitch = abs(pitch - own) / (PITCH_ERROR * own) if pitch is not None else 0.0
    off_angle = abs(angle - form(thread).included_angle) / ANGLE_ERROR if angle is not None else 0.0
    if outside > WEAR * own or off_pitch > 1 or off_angle > 1:
        return None
    score = beyond + 2 * off_pitch + off_angle + 10 * outside / own
    difference = None if pitch is None else pitch - own
    return Candidate(thread, diameter - nominal, difference, outside, score)


def tell_apart(first: Thread, second: Thread, side: Side = "screw") -> Text:
    """Which further measurement tells two threads apart, in one instruction with the two values to expect.

    Arithmetic on the two designations; the order of the means (taper, angle, pitch over a length, diameters) is common
    practice, no source.

    >>> from engine.base.words import write
    >>> from engine.threads.designation import parse
    >>> write(tell_apart(parse("1/4-20 UNC"), parse("1/4-20 BSW")))
    'try form gauges on the flanks: 60° for 1/4-20 UNC, 55° for 1/4-20 BSW'
    """
    for means in (_by_taper, _by_angle, _by_pitch, _by_diameter):
        if words := means(first, second, side):
            return words
    return f"nothing that can be measured: {first} and {second} have one size and form"


def _by_taper(first: Thread, second: Thread, side: Side) -> Text:
    if bool(first.taper) == bool(second.taper):
        return ""
    tapered, parallel = (first, second) if first.taper else (second, first)
    text = f"measure the diameter at two places {{apart}} apart: {tapered} changes by {{step}}, {parallel} does not"
    return say(text, apart=shown(_APART, decimals=1), step=shown(_APART / 16, decimals=2))


def _by_angle(first: Thread, second: Thread, side: Side) -> Text:
    one, two = form(first).included_angle, form(second).included_angle
    if abs(one - two) < 2 * ANGLE_ERROR:
        return ""
    text = f"try form gauges on the flanks: {{one}} for {first}, {{two}} for {second}"
    return say(text, one=plain(one, "angle"), two=plain(two, "angle"))


def _by_pitch(first: Thread, second: Thread, side: Side) -> Text:
    one, two = float(first.pitch), float(second.pitch)
    if abs(one - two) < 1e-9:
        return ""
    threads = max(5, ceil(0.25 / abs(one - two)))
    if threads * max(one, two) > 4 * first.diameter:
        return ""
    over_one, over_two = (shown(threads * pitch, decimals=2) for pitch in (one, two))
    text = f"measure over {threads} pitches: {{one}} for {first}, {{two}} for {second}"
    return say(text, one=over_one, two=over_two)


def _by_diameter(first: Thread, second: Thread, side: Side) -> Text:
    """Crests first, then the pitch diameter over wires, where the two differ by more than their tolerances blur."""
    one, two = _crests(first, side)[0], _crests(second, side)[0]
    pitch_one, pitch_two = limits(first).pitch_basic, limits(second).pitch_basic
    sizes = f": {{one}} for {first}, {{two}} for {second}"
    if abs(one - two) >= max(abs(pitch_one - pitch_two), 0.01):
        what = "bore" if side == "nut" else "major diameter"
        return say(f"measure the {what} of an unworn part{sizes}", one=shown(one), two=shown(two))
    if abs(pitch_one - pitch_two) >= 0.01:
        how = "try plug gauges" if side == "nut" else "measure the pitch diameter over wires"
        return say(how + sizes, one=shown(pitch_one), two=shown(pitch_two))
    return ""


def read_pitch(pitch: float | None, threads_per_inch: float | None) -> float | None:
    """One pitch in mm from a pitch, threads per inch, or both; BadInput if they disagree by more than 1 %.

    >>> read_pitch(None, 20)
    1.27
    """
    if threads_per_inch is None:
        return pitch
    counted = float(MM_PER_INCH) / threads_per_inch
    if pitch is not None and abs(counted - pitch) > pitch / 100:
        text = "tpi: {tpi} threads per inch is a pitch of {counted}, not {pitch}; give one."
        refusal = say(text, tpi=general(threads_per_inch), counted=shown(counted), pitch=plain(pitch))
        raise BadInput("tpi", threads_per_inch, "the pitch or the threads per inch, not two that disagree", refusal)
    return counted
