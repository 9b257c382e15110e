"""What a V cutter does with the spindle still: it is drawn along like a planer's tool and leaves a line."""

from __future__ import annotations

from math import ceil, radians, tan
from typing import Any

from engine.base.answer import Answer
from engine.base.refusals import OutOfRange, check_range
from engine.base.sums import Sum, deg, mm
from engine.base.sums import tan as tan_of
from engine.base.tables import rows
from engine.base.words import Text, plain, say, shown
from engine.cutting.materials import Material
from engine.shop.model import Shop

MOST_STROKES = 30  # a line that takes more is a groove: mill it with the spindle running
_TABLE = "indexing/scribe_rules.csv"
_RUN_OUT = 0.02  # mm of run-out taken as an example


def v_depth(width: float, included_angle: float, tip_flat: float = 0.0) -> Sum:
    """Depth at which a V cutter makes a line of a width, below the touched surface.

    width: Width of the line. [mm]
    included_angle: Angle of the cutter, flank to flank. [deg]
    tip_flat: Flat on the cutter's tip. [mm]
    Returns: Wide lines come out a little narrower on a round drum, by less than a thousandth of a millimetre. [mm]
    Raises: OutOfRange if the tip is as wide as the line.
    Source: Geometry: width = tip flat + 2 x depth x tan(half the angle).

    >>> v_depth(0.1155, 60).value
    0.1000
    """
    if tip_flat >= width:
        raise OutOfRange("line_width", width, tip_flat, None, "mm", "wider than the cutter's tip")
    slope: Sum = tan_of(deg(included_angle) / 2)
    return (mm(width) - mm(tip_flat)) / (2 * slope)


def v_width(depth: float, included_angle: float, tip_flat: float = 0.0) -> float:
    """Width of the line that a V cutter leaves at a depth. [mm, deg]

    >>> v_width(0.1, 60)
    0.1155
    """
    return tip_flat + 2 * depth * tan(radians(included_angle / 2))


def deepest_stroke(material: Material) -> float:
    """The infeed that a stroke bears in a material. [mm]

    >>> from engine.cutting.materials import find
    >>> deepest_stroke(find("brass")), deepest_stroke(find("mild steel"))
    (0.1, 0.05)
    """
    table = {row["group"]: float(row["infeed"]) for row in rows(_TABLE)}
    return table.get(material.group, table["other"])


def strokes_for(depth: float, deepest: float) -> int:
    """Strokes of equal infeed that reach a depth, none deeper than is borne; a groove is refused. [mm]

    >>> strokes_for(0.104, 0.1), strokes_for(0.3, 0.1)
    (2, 3)
    """
    check_range("deepest", deepest, low=1e-9, unit="mm")
    strokes = max(ceil(depth / deepest - 1e-9), 1)
    if strokes > MOST_STROKES:
        least = depth / MOST_STROKES
        raise OutOfRange("deepest", deepest, least, None, "mm", f"at most {MOST_STROKES} strokes; mill a groove")
    return strokes


def chip(above: float, below: float, included_angle: float, tip_flat: float = 0.0) -> float:
    """Area of the chip that a stroke takes between two depths. [mm, deg; mm²]

    >>> chip(0.1, 0.2, 90)
    0.03
    """
    slope = tan(radians(included_angle / 2))
    return tip_flat * (below - above) + slope * (below**2 - above**2)


def run_out_widens(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """What a little run-out of the rim does to the width of its lines: twice it times the tangent of half the angle."""
    wider, angle = v_width(_RUN_OUT, inputs.cutter_angle), plain(inputs.cutter_angle, "angle")
    text = "{out} of run-out makes lines {wider} wider on a {angle} cutter"
    return say(text, out=shown(_RUN_OUT), wider=shown(wider), angle=angle)
