"""How deep the drill and the reamer go for a reamed depth, and where the handwheel stands then."""

from __future__ import annotations

from engine.base.answer import Figure, figure, to_set
from engine.base.sums import Sum, larger, leaf, mm, num
from engine.base.tool import Tool
from engine.drilling.bench import Machine, setting_on
from engine.drilling.holes import point_length
from engine.drilling.reach import reamer_length

_CP = "common practice, no source"
_CHAMFER = 0.15  # diameters of lead at the front of a machine reamer, chamfered at 45 degrees: common practice
_TAPER = 0.25  # of its flutes that a hand reamer is tapered for: from memory, unconfirmed
_SOME = 1.5  # diameters of taper where the flutes of a hand reamer are not known: common practice


def lead_of(diameter: float, kind: str) -> Sum:
    """Length at a reamer's front that does not cut full size yet.

    diameter: of the reamer [mm]
    kind: `machine`, `carbide` or `hand`
    Returns: a length. [mm]
    Source: 0.15 diameters where it is chamfered: common practice, no source; a quarter of a hand reamer's flutes: from
        memory, unconfirmed.

    >>> float(lead_of(8, "machine")), float(lead_of(8, "hand"))
    (1.2, 14.5)
    """
    if kind != "hand":
        return num(_CHAMFER) * mm(diameter)
    flutes = reamer_length(Tool("", diameter), "hand")
    return num(_TAPER) * mm(flutes, "flutes {}") if flutes else num(_SOME) * mm(diameter)


def depth_figures(
    *, depth: float, through: bool, diameter: float, drill: float, kind: str, machine: Machine
) -> tuple[Figure, Figure]:
    """How far in the reamer's front goes, then the drill's tip: settings where the machine has a dial.

    The drill leaves room for the reamer's lead, and for its chips where it does not come out: behind a through hole
    there may be more of the bar.
    """
    lead, room = lead_of(diameter, kind).known(), larger(mm(0.5), num(0.1) * mm(diameter)).known()
    full = mm(depth) + leaf(float(lead), "length", "lead {}")
    point = leaf(point_length(diameter=drill, angle=118.0), "length", "point {}")
    spare = leaf(float(room), "length", "past it {}" if through else "for chips {}")
    ream = full + spare if through else full
    drilled = full + spare + point
    by_hand = kind == "hand"
    return (
        _set("ream_to", "Ream to", ream, None if by_hand else machine, through),
        _set("drill_to", "Drill to, tip", drilled, machine, through),
    )


def _set(name: str, label: str, travel: Sum, machine: Machine | None, through: bool) -> Figure:
    stands = setting_on(machine, float(travel), towards="past" if through else "short") if machine else None
    if stands is None:
        return figure(name, label, travel, _CP, decimals=1)
    return to_set(name, label, stands, f"the {machine.name}'s own dial; {_CP}" if machine else _CP, travel)
