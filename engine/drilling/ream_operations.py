"""The operation `ream`."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note
from engine.base.operation import Operation
from engine.base.refusals import BadInput
from engine.cutting.feeds import feed
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import SpeedRange, SpindleSpeed, surface_speed
from engine.cutting.speeds import Tool as Cutter
from engine.drilling.bench import MACHINES, Machine, machine_of, speed_notes, speed_on
from engine.drilling.figures import said, speed_figure
from engine.drilling.reaming import KINDS, Kind, PreDrill, flutes_of, pre_drill
from engine.drilling.sizes import label, owned
from engine.joining.iso286 import Deviations, limits_of
from engine.shop.model import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class ReamInputs:
    """What `ream` is told."""

    diameter: float = ask.diameter(
        "Finished diameter", low=0.2, high=200, example="8", help="Nominal size of the reamer."
    )
    tolerance: str = ask.text(
        "Tolerance", default="H7", example="H7", help="A hole's code of ISO 286, such as H7, H8 or G7."
    )
    material: Material = ask.material(
        "Material",
        from_shop=of_shop,
        empty="the shop's first",
        example="mild steel",
        help="Decides the speed; light metals want more left for the reamer.",
    )
    kind: str = ask.choice(
        "Reamer",
        KINDS,
        default="machine",
        example="machine",
        help="Machine: high-speed steel. Carbide: tipped. Hand: turned with a wrench, takes least.",
    )
    machine: str | None = ask.choice(
        "On the",
        MACHINES,
        required=False,
        empty="lathe, else mill",
        example="lathe",
        help="Whose speeds are used.",
    )


def _work(inputs: ReamInputs, shop: Shop) -> Answer:
    kind: Kind = "carbide" if inputs.kind == "carbide" else "hand" if inputs.kind == "hand" else "machine"
    deviations = limits_of(inputs.tolerance, inputs.diameter)
    if not deviations.is_hole:
        raise BadInput("tolerance", inputs.tolerance, "a hole's code, with a capital letter (such as H7)")
    drill = pre_drill(diameter=inputs.diameter, material=inputs.material, kind=kind, drills=shop.drills)
    return Answer(
        figures=(
            *_drill_figures(inputs, drill, shop.unit),
            *_speed_figures(inputs, shop, kind),
            *_limits(inputs, deviations, shop.unit),
        ),
        notes=tuple(_notes(inputs, shop, drill, kind)),
    )


def _drill_figures(inputs: ReamInputs, drill: PreDrill, unit: str) -> list[Figure]:
    kept, source = drill.allowance, drill.allowance.source
    low, high = said(kept.low, unit), said(kept.high, unit)
    whose = "owned" if drill.owned else "none owned will do"
    size = said(inputs.diameter, unit)
    return [
        Figure(
            "pre_drill",
            "Drill first",
            drill.tool.diameter,
            "length",
            "the shop's drills" if drill.owned else "drill series: ASME B94.11M; metric as BS 328",
            f"the {label(drill.tool)} drill",
        ),
        Figure(
            "drill",
            "Drill",
            None,
            "text",
            source,
            f"{whose}; nearest to {size} less {low} to {high}",
            text=label(drill.tool) + ("" if drill.owned else " (not owned)"),
        ),
        Figure(
            "allowance",
            "Left for the reamer, on diameter",
            drill.left,
            "length",
            source,
            f"{size} - {said(drill.tool.diameter, unit)}",
            low=kept.low,
            high=kept.high,
        ),
    ]


def _speed_figures(inputs: ReamInputs, shop: Shop, kind: Kind) -> list[Figure]:
    if kind == "hand":
        return []
    machine = machine_of(shop, inputs.machine)
    published, speed = _speed(inputs, machine, kind)
    rate = feed(kind="reaming", diameter=inputs.diameter)
    flutes = flutes_of(inputs.diameter)
    return [
        speed_figure(machine, published, speed, diameter=inputs.diameter, unit=shop.unit),
        Figure(
            "feed",
            "Feed",
            rate.chosen * flutes,
            "feed",
            rate.source,
            f"{said(rate.chosen, shop.unit)} a flute x {flutes} flutes (their count: common practice)",
        ),
    ]


def _speed(inputs: ReamInputs, machine: Machine, kind: Kind) -> tuple[SpeedRange, SpindleSpeed]:
    tool: Cutter = "carbide" if kind == "carbide" else "hss"
    published = surface_speed(material=inputs.material, operation="reaming", tool=tool)
    return published, speed_on(machine, diameter=inputs.diameter, surface_speed=published.chosen)


def _limits(inputs: ReamInputs, deviations: Deviations, unit: str) -> list[Figure]:
    code, size = "".join(inputs.tolerance.split()), said(inputs.diameter, unit)
    lower = inputs.diameter + deviations.lower
    upper = inputs.diameter + deviations.upper
    low = f"{size} {_signed(deviations.lower, unit)}"
    high = f"{size} {_signed(deviations.upper, unit)}"
    return [
        Figure("limit_low", f"{code}, smallest", lower, "length", deviations.source, low, side="up"),
        Figure("limit_high", f"{code}, largest", upper, "length", deviations.source, high, side="down"),
    ]


def _signed(deviation: float, unit: str) -> str:
    return f"{'-' if deviation < 0 else '+'} {said(abs(deviation), unit)}"


def _notes(inputs: ReamInputs, shop: Shop, drill: PreDrill, kind: Kind) -> list[Note]:
    notes = []
    if owned(inputs.diameter, shop.reamers) is None:
        notes.append(Note("warning", "The shop has no reamer of this size."))
    if not drill.owned:
        notes.append(
            Note("warning", f"The shop has no {label(drill.tool)} drill, nor one that leaves the allowance.")
        )
    if kind == "hand":
        notes.append(Note("info", "By hand: turn it one way only, in and out, with oil; never back."))
        return notes
    machine = machine_of(shop, inputs.machine)
    notes += speed_notes(machine, _speed(inputs, machine, kind)[1], "reamer")
    notes.append(Note("info", "Let the reamer float, feed it steadily and withdraw it turning the same way."))
    return notes


OPERATIONS = {
    "ream": Operation(
        id="ream",
        inputs=ReamInputs,
        work=_work,
        hazards=("drilling",),
        example={"diameter": "8", "tolerance": "H7"},
        help="Chooses the drill before a reamer, its speed, and the limits of the finished hole.",
    )
}
