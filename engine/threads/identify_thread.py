"""`identify-thread`: which thread is this?"""

from __future__ import annotations

from collections.abc import Iterator

from engine.base.answer import Answer, Column, Figure, Note, Table, figure, words
from engine.base.declare import angle, choice, length, number
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import mm
from engine.base.words import Text, general, say, shown
from engine.shop.model import Shop
from engine.threads.form import form
from engine.threads.identify import ANGLE_ERROR, PITCH_ERROR, PLATING, WEAR, Candidate, Side, read_pitch, tell_apart
from engine.threads.identify import identify as threads_near
from engine.threads.owned import taps_cut
from engine.threads.section_pictures import known_picture

_SOURCE = (
    "published series of every family; allowances for wear, plating and reading, and which of two that fit alike "
    "is the commoner: common practice, no source"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class IdentifyThreadInputs:
    """What `identify-thread` is told.

    major: Of a screw: over the threads, where least worn. Of a nut: its bore.
    pitch: From one crest to the next: measure over ten and divide, or read a thread gauge.
    tpi: Instead of the pitch, when that is what the gauge says.
    side: What was measured: a screw (external) or a nut (internal).
    included_angle: 60, 55, 47.5, 30 or 29 degrees, by form gauges. Tells the families apart.
    """

    major: float = length("Over the crests", low=0.2, high=400, example="6.3")
    pitch: float = length("Pitch", low=0.05, high=30, example="1.25", empty="not measured")
    tpi: float = number("Threads per inch", low=1, high=400, dimension="tpi", example="20", empty="not counted")
    side: str = choice("Screw or nut", ("screw", "nut", "external", "internal"), default="screw", example="screw")
    included_angle: float = angle("Angle of the thread", low=20, high=100, example="60", empty="not measured")


def _work(inputs: IdentifyThreadInputs, shop: Shop) -> Answer:
    pitch = read_pitch(inputs.pitch, inputs.tpi)
    side: Side = "nut" if inputs.side in ("nut", "internal") else "screw"
    across, degrees, owned = inputs.major, inputs.included_angle, taps_cut(shop)
    found = threads_near(across, pitch, side, included_angle=degrees, owned=owned, standard=shop.standard)
    if not found:
        raise _nothing_near(inputs.major, pitch, side)
    best = found[0]
    figures = [
        words("best", "Most likely", str(best.thread), _SOURCE, _working(best, inputs, pitch)),
        words("family", "Family", best.thread.kind.name, _SOURCE, f"of {best.thread}"),
    ]
    if len(found) > 1:
        told, against = tell_apart(best.thread, found[1].thread, side), f"{best.thread} against {found[1].thread}"
        figures.append(words("measure_next", "To be sure", told, "arithmetic on the two sizes", against))
    figures += _differences(best, inputs.major, pitch, side)
    drawn = known_picture(best.thread)
    return Answer(tuple(figures), (_table(found, side),), (drawn,), tuple(_notes(found, inputs, pitch)))


def _nothing_near(major: float, pitch: float | None, side: Side) -> BadInput:
    near = say(" with a pitch near {pitch}", pitch=shown(pitch)) if pitch else ""
    text = f"major: no published thread has a {'bore' if side == 'nut' else 'major diameter'} near {{major}}{{pitch}}; "
    refusal = say(text + "measure again, or it is special.", major=shown(major), pitch=near)
    return BadInput("major", say("{major}", major=shown(major)), "sizes nearer to a published thread", refusal)


def _working(best: Candidate, inputs: IdentifyThreadInputs, pitch: float | None) -> Text:
    within = shown(100 * PITCH_ERROR, "percent", decimals=1)
    measured = say("pitch {pitch} within {within}, ", pitch=shown(pitch, decimals=4), within=within) if pitch else ""
    text = "{major} measured, {pitch}limits widened by {wear} of the pitch for wear and {plating} for plating: "
    wear, plating = general(WEAR), shown(PLATING)
    text += f"{best.thread} fits best"
    return say(text, major=shown(inputs.major), pitch=measured, wear=wear, plating=plating)


def _differences(best: Candidate, major: float, pitch: float | None, side: Side) -> list[Figure]:
    what = "Bore" if side == "nut" else "Major"
    over = mm(major) - mm(major - best.diameter_difference)
    working = say("{sum}; measured less nominal of {thread}", sum=over, thread=str(best.thread))
    label = f"{what}: measured less nominal"
    figures = [Figure("major_difference", label, best.diameter_difference, "length", _SOURCE, working)]
    if pitch is not None:
        apart = mm(pitch) - mm(float(best.thread.pitch))
        figures.append(figure("pitch_difference", "Pitch: measured less nominal", apart, _SOURCE, decimals=4))
    return figures


def _table(found: tuple[Candidate, ...], side: Side) -> Table:
    """Every candidate; each row says how it is told from the likeliest one."""
    best = found[0].thread
    rows = []
    for place, candidate in enumerate(found):
        thread = candidate.thread
        other = found[1].thread if place == 0 and len(found) > 1 else best
        told = tell_apart(thread, other, side) if len(found) > 1 else "nothing else comes near"
        differences = candidate.diameter_difference, candidate.pitch_difference
        rows.append((str(thread), thread.kind.name, *differences, form(thread).included_angle, told))
    across = "Bore difference" if side == "nut" else "Major difference"
    columns = (
        *(Column("size", "Thread"), Column("family", "Family"), Column("major_difference", across, "length", 3)),
        *(Column("pitch_difference", "Pitch difference", "length", 4), Column("included_angle", "Angle", "angle", 1)),
        Column("measure_next", "How to tell them apart"),
    )
    return Table("candidates", "Candidates, likeliest first", columns, tuple(rows), source=_SOURCE)


def _notes(found: tuple[Candidate, ...], inputs: IdentifyThreadInputs, pitch: float | None) -> Iterator[Note]:
    if pitch is None:
        many = "without the pitch many threads fit: measure over ten threads and divide by ten"
        yield Note("info", many)
    if found[0].outside > 0:
        text = "even with wear and plating the size lies {beyond} outside: look again"
        yield Note("warning", say(text, beyond=shown(found[0].outside)))
    if inputs.included_angle is not None and len({form(c.thread).included_angle for c in found}) > 1:
        text = "form gauges tell angles {apart}° apart, not closer: 29° and 30° look alike"
        yield Note("info", say(text, apart=general(2 * ANGLE_ERROR)))


def _ten_threads(inputs: IdentifyThreadInputs, answer: Answer, shop: Shop) -> Text:
    """What ten threads of the pitch should measure, where the pitch is known."""
    pitch = read_pitch(inputs.pitch, inputs.tpi)
    return "" if pitch is None else say("ten threads measure {ten}", ten=shown(10 * pitch))


OPERATION = Operation(
    id="identify-thread",
    pane="threads",
    place=20,
    title="Which thread is this?",
    words="unknown identify recognise gauge measure what find name old screw bolt nut tap pitch tpi whitworth metric "
    "unified 55 60 degrees mystery recognize",
    inputs=IdentifyThreadInputs,
    work=_work,
    hazards=(),
    example={"major": "6.3", "tpi": "20"},
    troubles={"TH-01": _ten_threads, "TH-07": _ten_threads},
    help="Ranks the threads that a measured screw or nut may be, and says what to measure to be sure.",
)
