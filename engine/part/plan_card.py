"""What the plan of a part gives to the card of its job: drawings, stock, what to lay out, tools, room before the jaws."""

from __future__ import annotations

from collections.abc import Iterable

from engine.base.answer import Label, Picture
from engine.base.records import fields, replace
from engine.base.refusals import BadInput
from engine.jobs.card import LaidOut, Planned
from engine.part.detail import detail
from engine.part.drawing import also_words, drawing_and_rest, row_of
from engine.part.file import read
from engine.part.part import Part, Size
from engine.part.plan_drawn import moments_of
from engine.part.sizes import limits_text
from engine.part.together import needs_together, plan_all
from engine.part.words import notes
from engine.part.work import step_drawing
from engine.shop.model import Shop

_PAPER = {"one": (38, 11), "long": (74, 10), "several": (40, 12)}  # letters across and lines down of a drawing
_LONG = 2.2  # times as long as thick: a drawing that gets more width


def planned(part_text: str, shop: Shop, ids: Iterable[str]) -> Planned:
    """What the plan knows of the steps of these ids; empty where there is no part file or no plan of it in this shop.

    >>> from engine.shop.file import sample
    >>> head = 'part_version = 1\\ntitle = "Pin"\\nunit = "mm"\\nmaterial = "mild steel"\\nbar = "16"\\n'
    >>> text = head + '[[outside]]\\nis = "diameter"\\nsize = "12"\\nlength = "20"'
    >>> found = planned(text, sample("metric"), ["finish-outside-1"])
    >>> found.stock, found.tools
    (('mild steel, 16 round, 52 long (what the jaws hold counted)',), {'finish-outside-1': 'finishing tool'})
    """
    try:
        plans = plan_all(read(part_text).parts, shop) if part_text else ()
    except BadInput:
        return Planned()
    if not plans:
        return Planned()
    stock, *rest = needs_together(plans)
    drawn = list(moments_of(plans, ids))
    parts = [
        (one, *drawing_and_rest(one, paper=_paper(one, len(plans)), with_notes=False))
        for one in (made.part for made in plans)
    ]
    told = (
        line for part, _, rest in parts for line in (*([also_words(rest)] if rest else ()), *notes(part, why=False))
    )
    return Planned(
        tuple(ringed(picture, part) for part, picture, _ in parts),
        tuple(dict.fromkeys(told)),
        plans[0].part.unit,
        (stock.what,),
        tuple(LaidOut(need.what, need.owned, need.instead) for need in rest),
        {name: step_drawing(moment, words=False) for name, _, moment in drawn},
        {name: made for name, step, moment in drawn if (made := detail(step, moment))},
        {name: step.kind for name, step, _ in drawn},
        {name: step.tool.removeprefix("circle ").removeprefix("cross ") for name, step, _ in drawn if step.tool},
        {name: moment.room for name, _, moment in drawn if moment.room is not None},
    )


def _paper(part: Part, count: int) -> tuple[int, int]:
    """How many letters and lines the drawing of a part has on the card of so many."""
    return _PAPER["several" if count > 1 else "long" if part.overall > _LONG * part.largest else "one"]


def ringed(picture: Picture, part: Part) -> Picture:
    """A part's drawing with a ring round the sizes that matter: those with limits of their own."""
    texts: dict[int, list[str]] = {0: [limits_text(part.length, part.unit)] if part.length else []}
    for feature in part.features():
        sizes = [getattr(feature, field.name) for field in fields(feature)]
        close = [size for size in sizes if isinstance(size, Size) and size.low is not None and not size.general]
        texts[row_of(part, feature.name)] = [limits_text(size, part.unit) for size in close]
    shapes = tuple(
        replace(shape, ringed=True)
        if isinstance(shape, Label) and any(text in str(shape.text) for text in texts.get(shape.row, ()))
        else shape
        for shape in picture.shapes
    )
    return replace(picture, shapes=shapes)
