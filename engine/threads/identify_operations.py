"""`identify-thread`: which thread is this?"""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.answer import Answer, Column, Figure, Note, Table
from engine.base.declare import angle, choice, length, number
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.shop.model import Shop
from engine.threads.form import form
from engine.threads.identify import (
    ANGLE_ERROR,
    PITCH_ERROR,
    PLATING,
    WEAR,
    Candidate,
    Side,
    identify,
    read_pitch,
    tell_apart,
)
from engine.threads.thread import FAMILY_NAMES

_SOURCE = (
    "published series of every family; allowances for wear, plating and reading: common practice, no source"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class IdentifyThreadInputs:
    """What `identify-thread` is told."""

    major: float = length(
        "Diameter over the crests",
        low=0.2,
        high=400,
        example="6.3",
        help="Of a screw: over its threads, where it is least worn. Of a nut: its bore.",
    )
    pitch: float = length(
        "Pitch",
        low=0.05,
        high=30,
        example="1.25",
        empty="not measured",
        help="From one crest to the next: measure over ten and divide, or read a thread gauge.",
    )
    tpi: float = number(
        "Threads per inch",
        low=1,
        high=400,
        dimension="tpi",
        example="20",
        empty="not counted",
        help="Instead of the pitch, when that is what the gauge says.",
    )
    side: str = choice(
        "Screw or nut",
        ("screw", "nut", "external", "internal"),
        default="screw",
        example="screw",
        help="What was measured: a screw (external) or a nut (internal).",
    )
    included_angle: float = angle(
        "Angle of the thread",
        low=20,
        high=100,
        example="60",
        empty="not measured",
        help="60, 55, 47.5, 30 or 29 degrees, by form gauges. Tells the families apart.",
    )


def _work(inputs: IdentifyThreadInputs, shop: Shop) -> Answer:
    pitch = read_pitch(inputs.pitch, inputs.tpi)
    side: Side = "nut" if inputs.side in ("nut", "internal") else "screw"
    found = identify(diameter=inputs.major, pitch=pitch, side=side, included_angle=inputs.included_angle)
    if not found:
        raise BadInput(
            "major",
            f"{inputs.major:g}",
            "sizes nearer to a published thread",
            f"major: no published thread has a {'bore' if side == 'nut' else 'major diameter'} near "
            f"{show(inputs.major, 'length', shop.unit)}"
            f"{' with a pitch near ' + show(pitch, 'length', shop.unit) if pitch else ''}; "
            "measure again, or it is special.",
        )
    best = found[0]
    figures = [
        Figure(
            "best",
            "Most likely",
            None,
            "text",
            _SOURCE,
            _working(best, inputs, pitch, shop.unit),
            text=str(best.thread),
        ),
        Figure(
            "family",
            "Family",
            None,
            "text",
            _SOURCE,
            f"of {best.thread}",
            text=FAMILY_NAMES[best.thread.family],
        ),
    ]
    if len(found) > 1:
        words = tell_apart(best.thread, found[1].thread, side, shop.unit)
        figures.append(
            Figure("measure_next", "To be sure", None, "text", "arithmetic on the two sizes",
                   f"{best.thread} against {found[1].thread}", text=words)
        )  # fmt: skip
    figures += _differences(best, inputs.major, pitch, side, shop.unit)
    return Answer(
        figures=tuple(figures),
        tables=(_table(found, side, shop.unit),),
        notes=_notes(found, inputs, pitch, shop.unit),
    )


def _working(best: Candidate, inputs: IdentifyThreadInputs, pitch: float | None, unit: str) -> str:
    allowed = (
        f"limits widened by {WEAR:g} of the pitch for wear and {show(PLATING, 'length', unit)} for plating"
    )
    seen = f"{show(inputs.major, 'length', unit)} measured, " + (
        f"pitch {show(pitch, 'length', unit, decimals=4)} within {PITCH_ERROR:.1%}, " if pitch else ""
    )
    return f"{seen}{allowed}: {best.thread} fits best"


def _differences(best: Candidate, major: float, pitch: float | None, side: Side, unit: str) -> list[Figure]:
    what = "Bore" if side == "nut" else "Major"
    nominal = worked(major - best.diameter_difference, unit)
    figures = [
        Figure(
            "major_difference", f"{what}: measured less nominal", best.diameter_difference, "length", _SOURCE,
            f"{worked(major, unit)} - {nominal}; measured less nominal of {best.thread}",
        )
    ]  # fmt: skip
    if best.pitch_difference is not None and pitch is not None:
        figures.append(
            Figure(
                "pitch_difference", "Pitch: measured less nominal", best.pitch_difference, "length", _SOURCE,
                f"{worked(pitch, unit)} - {worked(float(best.thread.pitch), unit)}",
                decimals=4,
            )
        )  # fmt: skip
    return figures


def _table(found: tuple[Candidate, ...], side: Side, unit: str) -> Table:
    """Every candidate; each row says how it is told from the likeliest one."""
    best = found[0].thread
    rows = []
    for place, candidate in enumerate(found):
        other = found[1].thread if place == 0 and len(found) > 1 else best
        words = (
            tell_apart(candidate.thread, other, side, unit) if len(found) > 1 else "nothing else comes near"
        )
        rows.append(
            (
                str(candidate.thread),
                FAMILY_NAMES[candidate.thread.family],
                candidate.diameter_difference,
                candidate.pitch_difference,
                form(candidate.thread).included_angle,
                words,
            )
        )
    columns = (
        Column("size", "Thread"),
        Column("family", "Family"),
        Column("major_difference", "Bore off" if side == "nut" else "Major off", "length", 3),
        Column("pitch_difference", "Pitch off", "length", 4),
        Column("included_angle", "Angle", "angle", 1),
        Column("measure_next", "Told from the likeliest by"),
    )
    return Table("candidates", "Candidates, likeliest first", columns, tuple(rows), source=_SOURCE)


def _notes(
    found: tuple[Candidate, ...], inputs: IdentifyThreadInputs, pitch: float | None, unit: str
) -> tuple[Note, ...]:
    notes = []
    if pitch is None:
        notes.append(
            Note("info", "without the pitch many threads fit: measure over ten threads and divide by ten")
        )
    if found[0].outside > 0:
        beyond = show(found[0].outside, "length", unit)
        notes.append(
            Note("warning", f"even with wear and plating the size lies {beyond} outside: look again")
        )
    if inputs.included_angle is not None and len({form(c.thread).included_angle for c in found}) > 1:
        notes.append(
            Note(
                "info",
                f"form gauges tell angles {2 * ANGLE_ERROR:g}° apart, not closer: 29° and 30° look alike",
            )
        )
    return tuple(notes)


OPERATIONS = {
    "identify-thread": Operation(
        id="identify-thread",
        inputs=IdentifyThreadInputs,
        work=_work,
        hazards=("measuring",),
        example={"major": "6.3", "tpi": "20"},
        help="Ranks the threads that a measured screw or nut may be, and says what to measure to be sure.",
    )
}
