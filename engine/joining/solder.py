"""Solder: what a solder's heat does to what it joins, the gap it wants, and what is cool enough."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Note, Table, figure, info, warning, words
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.sums import leaf, mm
from engine.base.tables import source
from engine.base.words import Text, put, say, shown
from engine.base.words import figures as places
from engine.joining import solders
from engine.joining.joint_pictures import heat_picture
from engine.joining.solders import Alloy, HeatedPart
from engine.shop.model import Shop
from engine.situation import Situation

_MECHANICAL = "press, stake or retaining compound"
_STILL_HARD = 58.0  # HRC: hard enough to be rolled or rubbed on; ASM International on 52100: 58 to 64


@dataclass(frozen=True, slots=True, kw_only=True)
class SolderInputs:
    """What `solder` is told.

    alloy: Parts (63/37), name (SAC305, BAg-7, Ag 155) or kind (silver solder).
    part: Ball, bearing, silver steel, high-speed steel, magnet, brass, mild steel.
    temper: The temperature the part was tempered at: more heat than that softens it.
    """

    alloy: str = ask.text("Solder", example="63/37")
    part: str = ask.text("What is heated", default="ball", example="ball")
    temper: float | None = ask.quantity(
        "Tempered at",
        "temperature",
        low=20,
        high=1200,
        example="150 °C",
        empty="what that kind of part bears while nothing better is known",
    )


def _work(inputs: SolderInputs, shop: Shop) -> Answer:
    alloy, part = solders.alloy(inputs.alloy), solders.part(inputs.part)
    limit = inputs.temper if inputs.temper is not None else part.limit
    limit_source = "given" if inputs.temper is not None else part.source
    moment = Situation(
        machine="bench", part=inputs.part or part.name, hold="solder", temper=inputs.temper, bears=part.limit,
        alloy=inputs.alloy, liquidus=alloy.liquidus,  # as it was named: a name of its kind alone may hide cadmium
    )  # fmt: skip
    drawn = heat_picture(alloy=alloy.name, solidus=alloy.solidus, liquidus=alloy.liquidus, working=alloy.working,
        part=part.name, limit=limit)  # fmt: skip
    figures, notes = _figures(alloy, part, limit, limit_source), tuple(_notes(alloy, part, limit))
    return Answer(figures, (_table(limit),), (drawn,), notes, moments=(moment,))


def _figures(alloy: Alloy, part: HeatedPart, limit: float, limit_source: str) -> tuple[Figure, ...]:
    softens = alloy.working > limit
    margin = "about 30 °C above the liquidus at the joint: common practice, no source; an iron's tip is far hotter"
    bears = shown(limit, "temperature")
    gap = solders.gap_of(alloy.kind)
    least, most = 2 * mm(gap.low), 2 * mm(gap.high)
    figures = [
        words("softens", f"Softens the {part.name}", "yes" if softens else "no", margin,
               say("joint at {joint}, the part bears {bears}", joint=shown(alloy.working, "temperature"), bears=bears)),
        Figure("liquidus", f"{alloy.name} is liquid at", alloy.liquidus, "temperature", alloy.source,
               say("row {name} ({kind}): solidus {solidus}, liquidus {liquidus}", name=alloy.name, kind=alloy.kind,
               solidus=shown(alloy.solidus, "temperature"), liquidus=shown(alloy.liquidus, "temperature"))),
        Figure("working", "The joint reaches about", alloy.working, "temperature", margin, say("{liquidus} + {above}",
               liquidus=put(alloy.liquidus, "temperature"), above=put(solders.WORKING_MARGIN, "warmer"))),
        Figure("limit", "The part bears", limit, "temperature", limit_source,
               say("{part}: {bears}", part=part.name, bears=bears)),
        figure("gap_low", "Gap, diameter, least", least, gap.source, say("{sum}, each side", sum=least), decimals=2,
               side="up"),
        figure("gap_high", "Gap, diameter, most", most, gap.source, say("{sum}, each side", sum=most), decimals=2,
               side="down"),
    ]  # fmt: skip
    if softens:
        figures.append(words("instead", "Instead", _instead(limit), margin,
                             say("solders whose joint stays at or below {bears}", bears=bears)))  # fmt: skip
    if part.steel:
        figures.append(_hardness(part, max(alloy.working, limit)))
    if alloy.cadmium:
        figures.append(
            figure("cadmium", "Cadmium in it", leaf(alloy.cadmium, "percent"), alloy.source, f"row {alloy.name}")
        )
    return tuple(figures)


def _hardness(part: HeatedPart, hottest: float) -> Figure:
    source_ = {
        "O1": "a steel maker's tempering data for O1, a guide for silver steel",
        "52100": "two stockists' tempering table of EN31 / 52100 / 100Cr6",
    }[part.steel]
    working = say("on the line between the rows of the table at {hot}", hot=shown(hottest, "temperature"))
    return words("hardness", "Hardness left", solders.hardness_after(hottest, part.steel), source_, working)


def _instead(limit: float) -> str:
    fitting = solders.cooler(limit)
    if not fitting:
        return f"no solder here is cool enough: {_MECHANICAL}"
    return ", ".join(a.name for a in reversed(fitting[-3:])) + f"; or {_MECHANICAL}"


def _table(limit: float) -> Table:
    columns = (
        Column("alloy", "Solder"), Column("kind", "Kind"), Column("solidus", "Solidus", "temperature"),
        Column("liquidus", "Liquidus", "temperature"), Column("working", "At the joint", "temperature"),
        Column("softens", "Softens it"),
    )  # fmt: skip
    rows = tuple(
        (_with_cadmium(a), a.kind, a.solidus, a.liquidus, a.working, "yes" if a.working > limit else "no")
        for a in solders.alloys()
    )
    return Table("alloys", "Solders, the coolest first", columns, rows, source=source("joining/alloys.csv"))


def _with_cadmium(alloy: Alloy) -> Text:
    if not alloy.cadmium:
        return alloy.name
    return say("{name}, {share} cadmium", name=alloy.name, share=shown(alloy.cadmium, "percent"))


def _notes(alloy: Alloy, part: HeatedPart, limit: float) -> list[Note]:
    notes = []
    softens, brazing = alloy.working > limit, alloy.kind != "soft solder"
    if alloy.cadmium:
        notes.append(warning(f"{alloy.name} holds cadmium: do not melt it. Take a cadmium-free one."))
    kept = solders.hardness_between(alloy.working, part.steel) if part.steel else None
    before = solders.hardness_between(max(limit, 20.0), part.steel) if part.steel else None
    if softens and kept and before and kept[0] >= _STILL_HARD:
        notes.append(info("It loses about {lost} HRC and keeps {left}: still hard enough to run on, if the joint gets "
            "no hotter.", lost=places(before[1] - kept[1]), left=places(kept[0])))  # fmt: skip
    elif softens and part.hardened_steel:
        over = shown(alloy.working, "temperature")
        notes.append(warning("The joint reaches about {over}; a short heat softens it too. A wet rag or a heat sink "
            "helps only what it touches.", over=over))  # fmt: skip
    if softens and part.hardened_steel and brazing:
        notes.append(warning("Silver solder takes all the hardness: join first and harden after, or do not heat it."))
    if alloy.kind == "copper-phosphorus brazing alloy":
        notes.append(warning("For copper and brass only: on steel its joint is brittle."))
    notes.append(info("Never a press fit: the solder has to be drawn in, and a piece held tight stays dry inside."))
    if alloy.name == "BAg-7" and limit < alloy.working:
        notes.append(info("BAg-7 is the coolest of the usual cadmium-free silver solders listed."))
    return notes


OPERATION = Operation(
    id="solder",
    pane="joining",
    place=50,
    title="Solder",
    words="silver soft brazing braze temper heat liquidus melting joint gap flux lead-free cadmium hardness alloy tin BAg",
    machine="bench",
    inputs=SolderInputs,
    work=_work,
    tool="torch, solder, flux",
    hazards=("brazing", "soldering", "heat"),
    example={"alloy": "63/37", "part": "ball", "temper": "150 °C"},
    troubles={"SO-01": tells("joint {working}, the part bears {limit}")},
    help="Sets a solder's heat against the temper of what is heated, says the gap, and names what is cool enough.",
)
