"""The operation `solder`: does the heat of a solder spoil what it joins?"""

from __future__ import annotations

from dataclasses import dataclass

from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Note, Table
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.tables import source
from engine.joining import solders
from engine.joining.solders import Alloy, HeatedPart
from engine.shop.model import Shop

_MECHANICAL = "press, stake or retaining compound"


@dataclass(frozen=True, slots=True, kw_only=True)
class SolderInputs:
    """What `solder` is told."""

    alloy: str = ask.text(
        "Solder",
        example="63/37",
        help="By its parts (63/37), its name (SAC305, BAg-7) or its kind (silver solder).",
    )
    part: str = ask.text(
        "What is heated",
        default="ball",
        example="ball",
        help="Ball, bearing, silver steel, high-speed steel, magnet, brass, mild steel.",
    )
    temper: float | None = ask.quantity(
        "Tempered at",
        "temperature",
        low=20,
        high=1200,
        required=False,
        example="150 °C",
        empty="what that kind of part bears while nothing better is known",
        help="The temperature the part was tempered at: more heat than that softens it.",
    )


def _work(inputs: SolderInputs, shop: Shop) -> Answer:
    alloy, part = solders.alloy(inputs.alloy), solders.part(inputs.part)
    limit = inputs.temper if inputs.temper is not None else part.limit
    limit_source = "given" if inputs.temper is not None else part.source
    softens = alloy.working > limit
    return Answer(
        figures=_figures(shop, alloy, part, limit, limit_source, softens),
        tables=(_table(limit),),
        notes=tuple(_notes(shop, alloy, part, limit, softens)),
    )


def _figures(
    shop: Shop, alloy: Alloy, part: HeatedPart, limit: float, limit_source: str, softens: bool
) -> tuple[Figure, ...]:
    unit = shop.unit
    joint, bears = show(alloy.working, "temperature", unit), show(limit, "temperature", unit)
    above = solders.WORKING_MARGIN * (1.8 if unit == "inch" else 1)  # a difference: 32 °F plays no part in it
    degrees = "°F" if unit == "inch" else "°C"
    margin = (
        f"{above:g} {degrees} above the liquidus at the joint: common practice, no source; "
        "an iron's tip is far hotter"
    )
    figures = [
        Figure(
            "softens",
            f"Does it soften the part ({part.name})?",
            None,
            "text",
            margin,
            f"joint at {joint}, the part bears {bears}",
            text="yes" if softens else "no",
        ),
        Figure(
            "liquidus",
            f"{alloy.name} is liquid at",
            alloy.liquidus,
            "temperature",
            alloy.source,
            f"row {alloy.name} ({alloy.kind}): solidus {show(alloy.solidus, 'temperature', unit)}, "
            f"liquidus {show(alloy.liquidus, 'temperature', unit)}",
        ),
        Figure(
            "working",
            "The joint reaches about",
            alloy.working,
            "temperature",
            margin,
            f"{worked(alloy.liquidus, unit, 'temperature')} + {above:g}",
        ),
        Figure("limit", "The part bears", limit, "temperature", limit_source, f"{part.name}: {bears}"),
    ]
    if softens:
        figures.append(
            Figure(
                "instead",
                "Instead",
                None,
                "text",
                margin,
                f"solders whose joint stays at or below {bears}",
                text=_instead(limit),
            )
        )
    if part.hardened_steel and part.name != "high-speed steel":
        hottest = max(alloy.working, limit)
        figures.append(
            Figure(
                "hardness",
                "Hardness left where it gets that hot",
                None,
                "text",
                "a steel maker's tempering data for O1, a guide for silver steel and ball steel",
                f"next row of the table at or above {show(hottest, 'temperature', unit)}",
                text=solders.hardness_after(hottest),
            )
        )
    if alloy.cadmium:
        figures.append(
            Figure("cadmium", "Cadmium in it", alloy.cadmium, "percent", alloy.source, f"row {alloy.name}")
        )
    return tuple(figures)


def _instead(limit: float) -> str:
    fitting = solders.cooler(limit)
    if not fitting:
        return f"no solder here is cool enough: {_MECHANICAL}"
    return ", ".join(a.name for a in reversed(fitting[-3:])) + f"; or {_MECHANICAL}"


def _table(limit: float) -> Table:
    columns = (
        Column("alloy", "Solder"),
        Column("kind", "Kind"),
        Column("solidus", "Solidus", "temperature"),
        Column("liquidus", "Liquidus", "temperature"),
        Column("working", "At the joint", "temperature"),
        Column("softens", "Softens it"),
    )
    rows = tuple(
        (
            a.name + (f", {a.cadmium:.0f} % cadmium" if a.cadmium else ""),
            a.kind,
            a.solidus,
            a.liquidus,
            a.working,
            "yes" if a.working > limit else "no",
        )
        for a in solders.alloys()
    )
    return Table("alloys", "Solders, the coolest first", columns, rows, source=source("joining/alloys.csv"))


def _notes(shop: Shop, alloy: Alloy, part: HeatedPart, limit: float, softens: bool) -> list[Note]:
    notes = []
    if alloy.cadmium:
        notes.append(Note("warning", f"{alloy.name} holds cadmium: do not melt it. Take a cadmium-free one."))
    if softens and part.hardened_steel:
        over = show(alloy.working, "temperature", shop.unit)
        notes.append(
            Note(
                "warning",
                f"The joint reaches about {over}; a short heat softens it too. A wet rag or a heat sink helps only "
                "what it touches.",
            )
        )
    if softens and part.hardened_steel and alloy.kind == "silver brazing alloy":
        notes.append(
            Note(
                "warning",
                "Silver solder takes all the hardness: join first and harden after, or do not heat it.",
            )
        )
    if alloy.name == "BAg-7" and limit < alloy.working:
        notes.append(Note("info", "BAg-7 is the coolest of the cadmium-free silver solders listed."))
    return notes


OPERATIONS = {
    "solder": Operation(
        id="solder",
        inputs=SolderInputs,
        work=_work,
        hazards=("soldering", "brazing", "heat"),
        example={"alloy": "63/37", "part": "ball", "temper": "150 °C"},
        help="Sets a solder's heat against the temper of what is heated, and names what is cool enough.",
    )
}
