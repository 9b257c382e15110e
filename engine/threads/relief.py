"""Run-out and relief of threads, by the pitch rows of DIN 76-1."""

from __future__ import annotations

from functools import cache
from typing import Any, Literal

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.tables import rows
from engine.base.words import own, plain, say
from engine.threads.form import clearance, form
from engine.threads.thread import Thread

Side = Literal["screw", "nut"]


_GROOVE = {"width": "g2", "floor": "g1", "width_short": "g2_short", "floor_short": "g1_short", "radius": "r"}
_RUN_OUTS = {"run_out": "x1", "run_out_short": "x2", "to_shoulder": "a1"}
_UNCONFIRMED = "from memory, unconfirmed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Relief:
    """The row of DIN 76-1 for a thread, put to its diameter. Lengths in mm.

    `width` is the groove over all, largest; `floor` its smallest flat floor; the `short` ones are for tight places.
    `run_out` (screw) is the incomplete thread, `to_shoulder` from the last full thread to the shoulder: None for a
    nut. `overrun` (nut) is how much deeper a blind hole is drilled than the full thread. `row_pitch` is the pitch of
    the row that was taken, `exact` whether it is the thread's own.
    """

    width: float
    floor: float
    width_short: float
    floor_short: float
    diameter: float
    radius: float
    run_out: float | None = None
    run_out_short: float | None = None
    to_shoulder: float | None = None
    overrun: float
    overrun_short: float
    chamfer: float
    row_pitch: float
    exact: bool
    source: str
    overrun_source: str


@cache
def _rows(name: str) -> tuple[tuple[float, dict[str, str]], ...]:
    return tuple((float(row["pitch"]), row) for row in rows(f"threads/{name}.csv"))


def _row(name: str, thread: Thread) -> tuple[float, dict[str, str]]:
    """The row of the thread's pitch, or of the next larger one."""
    pitch = float(thread.pitch)
    for tabled, row in _rows(name):
        if tabled >= pitch - 1e-9:
            return tabled, row
    most = own(plain(_rows(name)[-1][0]), "mm")
    text = "size: {thread} has a pitch of {pitch}; DIN 76-1 gives relief up to {most}."
    refusal = say(text, thread=str(thread), pitch=plain(pitch), most=most)
    raise BadInput("size", str(thread), say("a pitch up to {most}", most=most), refusal)


def relief(thread: Thread, side: Side = "screw") -> Relief:
    """Return the relief, run-out and chamfer of a thread.

    thread: A parallel thread with a pitch up to 6 mm.
    side: `screw` or `nut`.
    Returns: From the row of its pitch; for a pitch between two rows from the larger. [mm]
    Raises: BadInput for taper pipe threads and for pitches over 6 mm.
    Source: DIN 76-1:2016, much of it from memory. For threads that are not ISO metric the row of the next larger pitch
        is common practice, no source.

    M10: groove 5.2 mm wide, 7.7 mm in diameter.

    >>> from engine.threads.designation import parse
    >>> found = relief(parse("M10"))
    >>> found.width, found.diameter
    (5.2, 7.7)
    """
    if thread.taper:
        text = f"size: {thread} is a taper thread, which runs out on its own taper; DIN 76-1 gives it no relief."
        raise BadInput("size", str(thread), "a parallel thread", text)
    own, nut_row = _row("din76_nut", thread)
    _, screw_row = _row("din76_screw", thread)
    screw, outside = side == "screw", thread.diameter
    row, run_outs = (screw_row, _RUN_OUTS) if screw else (nut_row, {})
    sizes: dict[str, Any] = {name: float(row[column]) for name, column in (_GROOVE | run_outs).items()}
    # In a trapezoidal or Acme nut the groove is reckoned from its root diameter, which is larger than D. A screw's end
    # chamfer goes down to its root, a nut's countersink up to 1.05 D.
    diameter = round(outside + (0.0 if screw else 2 * clearance(thread)) + float(row["dg"]), 4)
    memory = (
        "from memory, part of the row confirmed" if screw and screw_row["standing"] != "unconfirmed" else _UNCONFIRMED
    )
    return Relief(
        **sizes,
        diameter=diameter,
        overrun=float(nut_row["e1"]),
        overrun_short=float(nut_row["e2"]),
        chamfer=outside - 2 * form(thread).depth if screw else 1.05 * outside,
        row_pitch=own,
        exact=thread.kind.reliefs and abs(own - float(thread.pitch)) < 1e-9,
        source=f"DIN 76-1:2016, {memory}",
        overrun_source="DIN 76-1:2016, e1",
    )
