"""Finish by hand: the speed to file, polish or take edges off, and how much is left for it."""

from __future__ import annotations

from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure, info, warning
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.sums import PI, factor, leaf, mm, num
from engine.base.tables import rows
from engine.base.words import say, span
from engine.cutting.materials import of_shop
from engine.cutting.speeds import chosen_step, spindle_speed, surface_speed
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning.cut_pictures import edge_picture

_OTHER = ("brass", "bronze", "copper", "aluminium", "magnesium", "acetal", "nylon", "titanium")  # groups without iron
_FILE = (
    "Left-handed grip, arm clear of the chuck; a handle on the tang; tool post off, sleeves up, no rings. Long slow "
    "strokes at 10 degrees, several turns of the work in each; never hold still. Card the file, chalk stops pinning."
)
_STRIP = (
    "Never wrap it round the work or a finger, never hold it by hand: clamp it in a holder in the tool post. Cover the "
    "bed from the grit. Polish first, then touch the edges: they are lost under it."
)
_GRITS = "Grades 240, 400, 600, 1200 with oil; stop at 400 where it is to be gripped. Move along to cross the lines."
_DEBURR = (
    "A fine file or a stone just touching, work turning slowly away from you; inside edges with a scraper, the spindle "
    "stopped."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishByHandInputs:
    """What `finish-by-hand` is told.

    diameter: Of the work.
    material: Decides the speed.
    way: A file, abrasive strip in a holder, or edges taken off.
    """

    diameter: float = ask.length("Diameter", low=0.5, high=1000, example="20")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    way: str = ask.choice("By", ("file", "strip", "deburr"), default="file", example="file")


def _row(way: str, kind: str, what: str) -> tuple[float, float, str]:
    for row in rows("turning/finishing.csv"):
        if row["way"] in (way, "any") and row["for"] in (kind, "any") and row["what"] == what:
            return float(row["low"]), float(row["high"]), row["source"]
    raise KeyError(what)


def _work(inputs: FinishByHandInputs, shop: Shop) -> Answer:
    low, high, source = _row(inputs.way, "other" if inputs.material.group in _OTHER else "ferrous", "times")
    rough = surface_speed(material=inputs.material, operation="turning")
    lathe = shop.lathe
    mark = lathe.chuck.marked_speed if lathe else None
    spindle = spindle_speed(diameter=inputs.diameter, surface_speed=low * rough.low,
        steps=lathe.speeds if lathe else (), ceiling=mark, top=high * rough.high)  # fmt: skip
    wanted = num(low) * leaf(rough.low, "surface_speed")
    ideal = (factor(1000, 12) * wanted / (PI * mm(inputs.diameter))).as_("speed")
    words = say("{ideal} at the least; {step}", ideal=ideal, step=chosen_step(spindle, "lathe", ceiling=mark))
    takes = _row(inputs.way, "any", "leave")
    edge, handled = _row(inputs.way, "any", "edge"), _row("any", "any", "handled")
    figures = [
        Figure("rpm", "Set the spindle to", spindle.chosen, "speed", source, words),
        figure("ideal_rpm", "Ideal speed", ideal, f"{source}; {rough.source}"),
        Figure("edge", "Edges, 45 degrees", 0.2, "length", edge[2], span(edge[0], edge[1]), edge[0], edge[1],
               decimals=1),
        Figure("handled_edge", "Edges that are handled", 0.4, "length", handled[2], span(*handled[:2]), handled[0],
               handled[1], decimals=1),
    ]  # fmt: skip
    if takes[1]:
        left = Figure(
            "leave", "Leave on the diameter", takes[0], "length", takes[2], "the least of the range", takes[0], takes[1]
        )
        figures.insert(1, left)
    moment = Situation(
        machine="lathe", spindle_speed=spindle.chosen, work_diameter=inputs.diameter, material=inputs.material.name
    )
    drawn = edge_picture(low=edge[0], high=edge[1], handled=handled[:2])
    return Answer(tuple(figures), pictures=(drawn,), notes=_notes(inputs, mark), moments=(moment,))


def _notes(inputs: FinishByHandInputs, mark: float | None) -> tuple[Note, ...]:
    said = {
        "file": [warning(_FILE), info("It takes out tool marks and eases a size; it does not replace a good cut.")],
        "strip": [warning(_STRIP), info(_GRITS)],
        "deburr": [info(_DEBURR)],
    }[inputs.way]
    if mark is None:
        said.append(warning("No marked speed of the chuck is known: read it off the chuck and do not pass it."))
    return tuple(said)


OPERATION = Operation(
    id="finish-by-hand",
    pane="turning",
    place=80,
    title="Finish by hand",
    words="file filing polish polishing emery abrasive strip cloth deburr burr edge chamfer grit finish by hand smooth",
    machine="lathe",
    inputs=FinishByHandInputs,
    work=_work,
    tool="file or abrasive strip",
    hazards=("filing", "polishing", "deburring", "chuck"),
    example={"diameter": "20", "material": "mild steel", "way": "file"},
    troubles={"TU-03": tells("ideal {ideal_rpm}, set {rpm}")},
    help="Speed to file, polish or take edges off in the lathe, how much to leave for it, and how to keep hands out of it.",
)
