"""`thread-relief`: the groove, the run-out and the chamfers of a thread."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.answer import Answer, Figure, Note
from engine.base.declare import choice, thread
from engine.base.operation import Operation
from engine.base.quantity import worked
from engine.base.rounding import Side as Rounding
from engine.shop.model import Shop
from engine.threads.form import form
from engine.threads.relief import Relief, Side, relief
from engine.threads.sides import is_nut
from engine.threads.thread import Thread


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadReliefInputs:
    """What `thread-relief` is told."""

    size: Thread = thread("Thread", example="M10", help="Any parallel thread, as it is written.")
    side: Side | None = choice(
        "Screw or nut",
        ("screw", "nut"),
        example="screw",
        empty="as the class says, else the screw",
        help="What the groove is turned in.",
    )


def _work(inputs: ThreadReliefInputs, shop: Shop) -> Answer:
    side: Side = inputs.side or ("nut" if is_nut(inputs.size, None) else "screw")
    found = relief(inputs.size, side)
    notes = []
    if not found.exact:
        notes.append(
            Note(
                "info",
                f"taken from the row for a pitch of {found.row_pitch:g} mm: DIN 76-1 is for ISO metric threads",
            )
        )
    figures = [
        *_groove(inputs.size, side, found, shop.unit),
        *_run_out(found),
        _chamfer(inputs.size, side, found, shop.unit),
        _size("blind_overrun", "Blind nut: hole deeper than the full thread", found.overrun, found.overrun_source,
              f"e1 {_row(found, found.overrun)}; the drill's point comes on top", "up"),
        _size("blind_overrun_short", "Blind nut: short overrun of the hole", found.overrun_short,
              "DIN 76-1:2016, e2, from memory", f"e2 {_row(found, found.overrun_short)}", "up"),
    ]  # fmt: skip
    return Answer(figures=tuple(figures), notes=tuple(notes))


def _size(
    name: str, label: str, value: float, source: str, working: str, side: Rounding = "nearest"
) -> Figure:
    return Figure(name, label, value, "length", source, working, decimals=2, side=side)


def _row(found: Relief, value: float) -> str:
    """Where a value stands in the standard, in the millimetres of its table whatever is on the screen."""
    return f"of the row for {found.row_pitch:g} mm = {value:g} mm"


def _groove(size: Thread, side: Side, found: Relief, unit: str) -> tuple[Figure, ...]:
    step = found.diameter - size.diameter
    wide = ("A", "B") if side == "screw" else ("C", "D")
    sign = "-" if step < 0 else "+"
    source = found.source
    return (
        _size(
            "relief_width",
            f"Groove, widest over all (form {wide[0]})",
            found.width,
            source,
            f"g2 {_row(found, found.width)}",
            "down",
        ),
        _size(
            "relief_diameter",
            "Groove diameter",
            found.diameter,
            source,
            f"{worked(size.diameter, unit)} {sign} {worked(abs(step), unit)}",
        ),
        _size(
            "relief_floor",
            "Groove, smallest flat floor",
            found.floor,
            source,
            f"g1 {_row(found, found.floor)}",
            "up",
        ),
        _size(
            "relief_radius", "Corner radius, about", found.radius, source, f"r {_row(found, found.radius)}"
        ),
        _size(
            "relief_width_short",
            f"Short groove, widest (form {wide[1]})",
            found.width_short,
            source,
            f"g2 {_row(found, found.width_short)}",
            "down",
        ),
        _size(
            "relief_floor_short",
            "Short groove, smallest floor",
            found.floor_short,
            source,
            f"g1 {_row(found, found.floor_short)}",
            "up",
        ),
    )


def _run_out(found: Relief) -> tuple[Figure, ...]:
    """The incomplete thread of a screw without a groove."""
    if found.run_out is None or found.run_out_short is None or found.to_shoulder is None:
        return ()
    return (
        _size(
            "run_out",
            "Without a groove: run-out at most",
            found.run_out,
            found.source,
            f"x1 {_row(found, found.run_out)}",
            "down",
        ),
        _size(
            "run_out_short",
            "Without a groove: short run-out at most",
            found.run_out_short,
            found.source,
            f"x2 {_row(found, found.run_out_short)}",
            "down",
        ),
        _size(
            "to_shoulder",
            "Last full thread to the shoulder",
            found.to_shoulder,
            found.source,
            f"a1 {_row(found, found.to_shoulder)}",
            "down",
        ),
    )


def _chamfer(size: Thread, side: Side, found: Relief, unit: str) -> Figure:
    outside = worked(size.diameter, unit)
    if side == "nut":
        return _size(
            "chamfer_diameter", "Countersink the mouth, 120°, to at most", found.chamfer,
            "DIN 76-1:2016, from memory, unconfirmed: 1 to 1.05 D", f"1.05 x {outside}", "down",
        )  # fmt: skip
    return _size(
        "chamfer_diameter", "Chamfer the end, 45°, down to", found.chamfer,
        "ISO 4753, from memory: at or below the root",
        f"{outside} - 2 x {worked(form(size).depth, unit)}; twice the depth of the thread", "down",
    )  # fmt: skip


OPERATIONS = {
    "thread-relief": Operation(
        id="thread-relief",
        inputs=ThreadReliefInputs,
        work=_work,
        hazards=("turning", "chuck"),
        example={"size": "M10"},
        help="The groove that lets the tool run out, the run-out without one, chamfers, and a blind hole's overrun.",
    )
}
