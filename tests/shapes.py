"""What tests ask of a picture: its edges, its dimensions, its words."""

from engine.base.answer import Label, Line, Picture, Pointer, Polygon, Size
from engine.base.words import write


def edges(picture: Picture) -> list[Line]:
    """Every straight edge: lines as they are, the sides of outlines (those of cut metal are heavy)."""
    found = []
    for shape in picture.shapes:
        if isinstance(shape, Line):
            found.append(shape)
        elif isinstance(shape, Polygon):
            ends = zip(shape.points, (*shape.points[1:], shape.points[0]), strict=True)
            found += [Line(x1, y1, x2, y2, 1 if shape.cut else 0, shape.row) for (x1, y1), (x2, y2) in ends]
    return found


def sizes(picture: Picture, row: int | None = None) -> dict[str, float]:
    """What each dimension says, and how far apart the points are that it measures."""
    found = {}
    for shape in picture.shapes:
        if isinstance(shape, Size) and (row is None or shape.row == row):
            flat = shape.side in ("above", "below")
            found[write(shape.text)] = abs(shape.x2 - shape.x1) if flat else abs(shape.y2 - shape.y1)
    return found


def said(picture: Picture) -> list[str]:
    """Every word in it."""
    return [write(shape.text) for shape in picture.shapes if isinstance(shape, Label | Size | Pointer)]
