"""A drawing as DXF, in millimetres at true size: scale strips, holes on a circle, a part. Layers: OUTLINE, THIN, CENTRE, TEXT.

The file is made by ezdxf, which comes with `pip install '.[dxf]'` and is loaded when a drawing is asked for.
"""

from __future__ import annotations

from collections.abc import Iterable
from io import StringIO
from typing import Any

from engine.base.answer import Circle, Label, Line, Polygon, Shape
from engine.base.layout import sound
from engine.base.refusals import BadInput
from engine.base.words import write

_LAYERS = {0: "THIN", 1: "OUTLINE", 2: "CENTRE", 3: "THIN"}  # by weight
_COLOURS = {"OUTLINE": 7, "THIN": 8, "CENTRE": 1, "TEXT": 3}  # numbers of the format's own colours
TRUE = ("strip", "holes")  # pictures that are drawings to work from
_MILLIMETRES = 4  # $INSUNITS
_ALIGN = {"start": "MIDDLE_LEFT", "middle": "MIDDLE_CENTER", "end": "MIDDLE_RIGHT"}


def dxf(shapes: Iterable[Shape], unit: str = "mm", *, words: float = 2.5) -> str:
    """Write shapes as the text of a DXF file.

    shapes: what to draw, in millimetres; anything not finite is left out
    unit: `mm` or `inch`: what words in it are written in; the drawing itself is in millimetres
    words: height of words [mm]
    Raises: BadInput if the library is not installed
    Source: DXF reference, release 2010 (AC1024): LINE, CIRCLE, LWPOLYLINE, TEXT; $INSUNITS 4 is millimetres.

    >>> dxf([Line(0, 0, 10, 0, 1)]).split().count("LINE")
    1
    """
    document = _new()
    space = document.modelspace()
    for shape in sound(shapes):
        if not getattr(shape, "if_marked", False):
            _add(space, shape, unit, words)
    held = StringIO()
    document.write(held)
    return held.getvalue()


def _new() -> Any:
    try:
        from ezdxf.filemanagement import new
    except ImportError:
        said = "--dxf: DXF needs ezdxf, which is not installed: pip install ezdxf."
        raise BadInput("--dxf", "", "an installation with ezdxf", said) from None
    document = new("R2010")
    document.header["$INSUNITS"] = _MILLIMETRES
    for name, colour in _COLOURS.items():
        document.layers.add(name, color=colour)
    return document


def _add(space: Any, shape: Shape, unit: str, words: float) -> None:
    if isinstance(shape, Line):
        space.add_line((shape.x1, shape.y1), (shape.x2, shape.y2), dxfattribs={"layer": _LAYERS[shape.weight]})
    elif isinstance(shape, Circle):
        space.add_circle((shape.x, shape.y), shape.radius, dxfattribs={"layer": "OUTLINE"})
    elif isinstance(shape, Polygon):
        space.add_lwpolyline(shape.points, close=True, dxfattribs={"layer": "OUTLINE"})
    elif isinstance(shape, Label):
        _write(space, write(shape.text, unit), shape.x, shape.y, shape.anchor, words)


def _write(space: Any, text: str, x: float, y: float, anchor: str, high: float) -> None:
    from ezdxf.enums import TextEntityAlignment

    made = space.add_text(text, height=high, dxfattribs={"layer": "TEXT"})
    made.set_placement((x, y), align=TextEntityAlignment[_ALIGN[anchor]])
