"""Which collet holds a bar, and whether it goes through the spindle."""

from __future__ import annotations

from engine.base.answer import Figure, words
from engine.base.tool import Tool
from engine.base.words import say, shown
from engine.drilling.sizes import label
from engine.shop.model import Collets, Shop

_OVER = 0.03  # mm by which a bar may be thicker than the collet's size: common practice, no source


def size_for(kit: Collets, diameter: float) -> Tool | None:
    """The smallest collet of a set that closes on a diameter, if one does. [mm]

    >>> kit = Collets(sizes=(Tool("8", 8.0), Tool("9", 9.0)), closes=1)
    >>> size_for(kit, 8.4).name, size_for(kit, 8.02).name, size_for(kit, 9.5)
    ('9', '8', None)
    """
    held = (one for one in kit.sizes if diameter - _OVER <= one.diameter <= diameter + kit.closes)
    return min(held, key=lambda one: one.diameter, default=None)


def collet_for(diameter: float, shop: Shop) -> str:
    """The shop's collet that a diameter is held in, by its set and size; nothing if none closes on it. [mm]

    >>> collet_for(8.4, Shop(collets=(Collets(kind="ER25", sizes=(Tool("8", 8.0), Tool("9", 9.0)), closes=1),)))
    'ER25 9 mm'
    """
    found = [(size.diameter, f"{kit.kind} {label(size)}") for kit in shop.collets if (size := size_for(kit, diameter))]
    return min(found, default=(0.0, ""))[1]


def collet_figure(diameter: float, shop: Shop) -> Figure:
    """Which of the shop's collets a bar of that diameter is held in. [mm]"""
    found = collet_for(diameter, shop) or "none of yours"
    return words("collet", "Collet", found, "the shop's collets", shown(diameter))


def through_figure(diameter: float, shop: Shop) -> Figure:
    """Whether a bar of that diameter goes through the spindle. [mm]"""
    bore = shop.lathe.spindle_bore if shop.lathe else None
    source = "the shop's spindle bore"
    if bore is None:
        return words("through_spindle", "Through the spindle", "bore not told", source)
    goes = "yes" if diameter <= bore else "no"
    said = say("{goes}: the bore is {bore}", goes=goes, bore=shown(bore, decimals=1, side="down"))
    return words("through_spindle", "Through the spindle", said, source, shown(diameter))
