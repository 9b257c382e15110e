"""A true-size picture as SVG: print it at 100 %, wrap it round the drum, check the lines or follow them by hand."""

from __future__ import annotations

from html import escape

from engine.answer import Circle, Line, Picture, Polygon, Shape

_MARGIN = 8.0  # mm of paper round the drawing
_GAUGE = 50.0  # mm, to check the printer by
_HEIGHT = 2.2  # mm, of figures
_WIDTHS = {0: 0.12, 1: 0.2, 2: 0.08}  # mm, by weight of a line
_INK = "#000"


def strip_svg(picture: Picture) -> str:
    """Write a picture as an SVG document in millimetres, with a gauge line to check the printer by.

    Parameters
    ----------
    picture : Picture
        Shapes in millimetres, y upwards; its title and words may be any text: they are escaped.

    Returns
    -------
    svg : str
        A whole document; width and height are true millimetres.

    Sources
    -------
    W3C Scalable Vector Graphics 1.1: width and height in mm with a viewBox of the same numbers print at true size.

    Examples
    --------
    >>> svg = strip_svg(Picture("strip", "a < b", (Line(0, 0, 40, 0),), "A line."))
    >>> 'width="66.000mm"' in svg, "a &lt; b" in svg
    (True, True)
    """
    points = [point for shape in picture.shapes for point in _corners(shape)] or [(0.0, 0.0)]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, top = min(y for _, y in points), max(y for _, y in points)
    width = max(right - left, _GAUGE) + 2 * _MARGIN
    height = top - low + 2 * _MARGIN + 10
    gauge = height - _MARGIN - 4
    drawn = [_drawn(shape, _MARGIN - left, _MARGIN + top) for shape in picture.shapes]
    words = f"{picture.title}: {right - left:.2f} mm long; the line above is {_GAUGE:g} mm"
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm" '
            f'viewBox="0 0 {width:.3f} {height:.3f}">',
            f"<title>{_safe(picture.title)}</title>",
            f'<g fill="none" stroke="{_INK}" font-family="sans-serif" font-size="{_HEIGHT:g}">',
            *drawn,
            f'<line x1="{_MARGIN:g}" y1="{gauge:.3f}" x2="{_MARGIN + _GAUGE:g}" y2="{gauge:.3f}" stroke-width="0.2"/>',
            _text(_MARGIN, gauge + 4, words, "start"),
            "</g></svg>",
        ]
    )


def _corners(shape: Shape) -> list[tuple[float, float]]:
    if isinstance(shape, Line):
        return [(shape.x1, shape.y1), (shape.x2, shape.y2)]
    if isinstance(shape, Circle):
        return [
            (shape.x - shape.radius, shape.y - shape.radius),
            (shape.x + shape.radius, shape.y + shape.radius),
        ]
    return list(shape.points) if isinstance(shape, Polygon) else []


def _drawn(shape: Shape, dx: float, dy: float) -> str:
    """One shape, moved on to the paper and turned to SVG's downward y."""
    if isinstance(shape, Line):
        ends = f'x1="{shape.x1 + dx:.4f}" y1="{dy - shape.y1:.4f}" x2="{shape.x2 + dx:.4f}" y2="{dy - shape.y2:.4f}"'
        dashes = ' stroke-dasharray="3 1 0.5 1"' if shape.weight == 2 else ""
        return f'<line {ends} stroke-width="{_WIDTHS.get(shape.weight, 0.12):g}"{dashes}/>'
    if isinstance(shape, Circle):
        fill = _INK if shape.filled else "none"
        place = f'cx="{shape.x + dx:.4f}" cy="{dy - shape.y:.4f}" r="{shape.radius:.4f}"'
        return f'<circle {place} fill="{fill}" stroke-width="0.12"/>'
    if isinstance(shape, Polygon):
        points = " ".join(f"{x + dx:.4f},{dy - y:.4f}" for x, y in shape.points)
        return f'<polygon points="{points}" fill="{_INK if shape.filled else "none"}" stroke-width="0.1"/>'
    return _text(shape.x + dx, dy - shape.y + _HEIGHT / 3, shape.text, shape.anchor)


def _text(x: float, y: float, words: str, anchor: str) -> str:
    return f'<text x="{x:.3f}" y="{y:.3f}" text-anchor="{anchor}" fill="{_INK}" stroke="none">{_safe(words)}</text>'


def _safe(words: str) -> str:
    return escape("".join(c if c.isprintable() else "?" for c in words))
