"""Drill sizes: what size a drill is, what else comes near, and whether it is owned."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, Table, figure, heads, info, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.sums import INCH, mm, num
from engine.base.words import Text, own, put, say, shown
from engine.drilling.hole_pictures import near_picture
from engine.drilling.sizes import SAME, SERIES, Drill, label, nearest, owned
from engine.shop.model import Shop

_SERIES_WORDS = {"number": "number", "letter": "letter", "fraction": "fraction, inch", "metric": "metric"}
_SERIES_SOURCES = dict.fromkeys(("number", "letter", "fraction"), "ASME B94.11M")
_SERIES_SOURCES["metric"] = "metric steps BS 328 (as ISO 235 from memory)"
_SERIES_SOURCE = "ASME B94.11M; " + _SERIES_SOURCES["metric"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillSizeInputs:
    """What `drill-size` is told.

    size: Such as #7, F, 13/64, 5.2.
    """

    size: float = ask.diameter("Drill or diameter", high=500, example="#7")


def _work(inputs: DrillSizeInputs, shop: Shop) -> Answer:
    size = inputs.size
    mine = owned(size, shop.drills)
    near = min(shop.drills, key=lambda tool: abs(tool.diameter - size), default=None)
    same = [d for d in (nearest(size, of=name) for name in SERIES) if abs(d.diameter - size) <= SAME]
    source, working = _diameter_from(size, same)
    figures = [
        Figure("diameter", "Diameter", size, "length", source, working, decimals=4),
        figure("inch", "In inches", mm(size) / INCH, "1 in = 25.4 mm exactly", decimals=4),
    ]
    if same:
        names = ", ".join(label(drill) for drill in same)
        sources = "; ".join(dict.fromkeys(_SERIES_SOURCES[drill.series] for drill in same))
        figures.append(words("drill", "Drill of this size", names, sources, "the same size"))
    text = label(mine) if mine else "no" + (f", the nearest is {label(near)}" if near else "")
    figures.append(words("owned", "Owned", text, "the shop's drills", "looked up"))
    drawn = near_picture(
        size, list({label(d): d.diameter for d in (nearest(size, of=name) for name in SERIES)}.items())
    )
    return Answer(tuple(figures), (_nearest_table(size, shop),), (drawn,), tuple(_notes(size)))


def _diameter_from(size: float, same: Sequence[Drill]) -> tuple[str, Text]:
    """Source and working of a diameter: an inch drill's own decimal size, or what was asked."""
    for drill in same:
        if drill.series == "metric":
            return _SERIES_SOURCES["metric"], f"the {label(drill)} drill"
        inches: Text = num(float((mm(drill.diameter) / INCH).value)) * INCH
        if drill.series == "fraction":
            inches = say("{name} x {inch}", name=drill.name, inch=own(put(INCH.value), "mm"))
        return _SERIES_SOURCES[drill.series], say("{name}: {inches}", name=label(drill), inches=inches)
    both = say("{mm}, {inch}", mm=own(shown(size, decimals=4), "mm"), inch=own(shown(size, decimals=4), "inch"))
    return "as asked; no drill of these series has it", both


def _notes(size: float) -> list[Note]:
    drill = nearest(size, of="number")
    if drill.memory and abs(drill.diameter - size) <= SAME:
        return [info(f"The size of {drill.name} is from memory, unconfirmed.")]
    return []


def _nearest_table(size: float, shop: Shop) -> Table:
    columns = (
        *heads(series="Series", drill="Nearest", diameter=("Diameter", "length", 4)),
        *heads(difference=("Differs by", "length", 4), owned="Owned"),
    )
    rows = []
    for name in SERIES:
        drill = nearest(size, of=name)
        has = "yes" if owned(drill.diameter, shop.drills) else "no"
        rows.append((_SERIES_WORDS[name], label(drill), drill.diameter, drill.diameter - size, has))
    return Table("nearest", "Nearest in each series", columns, tuple(rows), source=_SERIES_SOURCE)


OPERATION = Operation(
    id="drill-size",
    pane="drilling",
    place=20,
    title="Drill sizes",
    words="number letter fraction metric nearest wire gauge gage decimal equivalent chart convert conversion inch mm "
    "twist drill bit",
    inputs=DrillSizeInputs,
    work=_work,
    hazards=(),
    example={"size": "#7"},
    troubles={"TP-01": None, "DR-01": None, "DR-02": None},
    help="Says what size a drill is, what else comes near, and whether you own it.",
)
