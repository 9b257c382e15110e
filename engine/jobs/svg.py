"""A picture as SVG with its sizes in millimetres, so that what is drawn 1:1 is printed 1:1."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

from engine.base.answer import Label, Picture, Pointer, Shape, Size
from engine.base.layout import Area, Disc, Head, Mark, Paper, Sheet, Words, laid_out
from engine.base.outlines import hatching
from engine.base.rounding import short
from engine.base.words import write

WIDEST = 180.0  # mm: what A4 and Letter both leave between margins of 15 mm
_FILE = 120.0  # mm: how high a picture in a file of its own may be
TALLEST = 70.0  # mm: a picture that is not at true size leaves room for its step
TEXT = 2.6  # mm: height of words on paper
_LETTER = 0.62  # of it: how wide a letter is, a little more than most
_ROW = 1.6  # of it: from one row of words to the next
MARGIN = 1.0  # mm of paper round the drawing, so that no line is cut off
STROKES = {0: 0.13, 1: 0.35, 2: 0.13, 3: 0.3}  # mm: thin, heavy, centre line, detail
HATCH = 2.4  # mm between the lines of a cut face, measured across
HEAD = (2.0, 0.35)  # mm: length and half width of an arrow's head


def svg(
    picture: Picture, unit: str = "mm", *, widest: float = WIDEST, tallest: float = TALLEST, text: float = TEXT
) -> tuple[str, ...]:
    """Return a picture as SVG elements: one, or several side by side where it is true to size and wider than paper.

    picture: what to draw; anything not finite is left out
    unit: `mm` or `inch`: what its words are written in
    widest: how wide it may be; a true strip is cut into pieces that are [mm]
    tallest: how high a picture that is not at true size may be [mm]
    text: how high its words are [mm]

    Returns: each a whole `<svg>` with width and height in mm, its words escaped

    Source: SVG 2 (W3C): width and height in mm, the viewBox in millimetres of paper.

    >>> from engine.base.answer import Polygon
    >>> square = Picture("p", "Square", (Polygon(((0, 0), (10, 0), (10, 10), (0, 10))),), "A square.", true_size=True)
    >>> 'width="12mm"' in svg(square)[0]
    True
    """
    sheet = sheet_of(picture, unit, widest, tallest, text)
    if sheet is None:
        return ()
    alt = write(picture.alt, unit)
    cuts = pieces(picture, sheet, widest)
    titles = [alt if len(cuts) == 1 else f"{alt} Piece {n} of {len(cuts)}." for n in range(1, len(cuts) + 1)]
    return tuple(_element(sheet, *cut, title, text) for cut, title in zip(cuts, titles, strict=True))


def sheet_of(picture: Picture, unit: str, widest: float, tallest: float, text: float = TEXT) -> Sheet | None:
    """A picture laid out for so much paper, in mm of it. None where nothing is drawn."""
    scale = 1.0 if picture.true_size else 0.0
    paper = Paper(widest - 2 * MARGIN, tallest - 2 * MARGIN, _LETTER * text, _ROW * text, scale=scale)
    return laid_out(picture, paper, lambda shape: _said(shape, unit))


def pieces(picture: Picture, sheet: Sheet, widest: float) -> tuple[tuple[float, float], ...]:
    """Where on its sheet each piece of a picture begins and how wide it is: one, or more of a long true strip. [mm]"""
    width = sheet.width + 2 * MARGIN
    count = min(max(1, -int(-width // widest)) if picture.true_size else 1, 20)
    if count == 1:
        return ((-MARGIN, width),)
    return tuple((n * widest - MARGIN, min(widest, width - n * widest)) for n in range(count))


def drawing_file(pictures: Sequence[Picture], unit: str = "mm") -> str:
    """Pictures as one SVG file, one under the other, on white; what is true to size is so, however long.

    >>> from engine.base.answer import Polygon
    >>> square = Picture("p", "Square", (Polygon(((0, 0), (10, 0), (10, 10), (0, 10))),), "A square.", true_size=True)
    >>> drawing_file([square, square]).count("<svg")
    3
    """
    found: list[str] = []
    wide, down = 0.0, 0.0
    for picture in pictures:
        sheet = sheet_of(picture, unit, WIDEST, _FILE)
        if sheet is None:
            continue
        width, height = sheet.width + 2 * MARGIN, sheet.height + 2 * MARGIN
        found.append(_element(sheet, -MARGIN, width, write(picture.alt, unit), TEXT, down=down))
        wide, down = max(wide, width), down + height + MARGIN
    size = f'width="{_mm(wide)}mm" height="{_mm(down)}mm" viewBox="0 0 {_mm(wide)} {_mm(down)}"'
    white = '<rect width="100%" height="100%" fill="white"/>'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{white}{"".join(found)}</svg>'


def _said(shape: Shape, unit: str) -> str:
    return write(shape.text, unit) if isinstance(shape, Label | Size | Pointer) else ""


def _element(sheet: Sheet, start: float, wide: float, title: str, text: float, *, down: float | None = None) -> str:
    """One element; `down` places it inside another one whose unit is a millimetre."""
    high = sheet.height + 2 * MARGIN
    mm, place = ("mm", "") if down is None else ("", f'y="{_mm(down)}" ')
    order = sorted(sheet.marks, key=lambda mark: isinstance(mark, Words))
    drawn = "".join(part for mark in order for part in _drawn(mark, text))
    return (
        f'<svg role="img" xmlns="http://www.w3.org/2000/svg" {place}width="{_mm(wide)}{mm}" height="{_mm(high)}{mm}" '
        f'viewBox="{_mm(start)} {_mm(-MARGIN)} {_mm(wide)} {_mm(high)}" font-size="{_mm(text)}" '
        f'font-family="sans-serif"><title>{escape(title)}</title>{drawn}</svg>'
    )


def _mm(number: float) -> str:
    return short(number, 4)


def _drawn(mark: Mark, text: float) -> Iterable[str]:
    """One mark; words have a white ground, so that a line under them ends before them."""
    if isinstance(mark, Words):
        yield from _words(mark, text)
    elif isinstance(mark, Disc):
        yield f'<circle cx="{_mm(mark.x)}" cy="{_mm(mark.y)}" r="{_mm(mark.radius)}" {_pen(mark.filled)}/>'
    elif isinstance(mark, Area):
        points = " ".join(f"{_mm(x)},{_mm(y)}" for x, y in mark.points)
        yield f'<polygon points="{points}" {_pen(mark.filled, 1 if mark.cut else 0)}/>'
        for line in hatching(mark.points, HATCH) if mark.cut else ():
            yield _line(*line, _pen(False))
    elif isinstance(mark, Head):
        yield _head(mark)
    else:
        yield _line(mark.x1, mark.y1, mark.x2, mark.y2, _pen(False, mark.weight))


def _pen(filled: bool, weight: int = 0) -> str:
    dashes = ' stroke-dasharray="2 0.7"' if weight == 2 else ""
    fill = "black" if filled else "none"
    return f'fill="{fill}" stroke="black" stroke-width="{_mm(STROKES[weight])}"{dashes}'


def _line(x1: float, y1: float, x2: float, y2: float, pen: str) -> str:
    return f'<line x1="{_mm(x1)}" y1="{_mm(y1)}" x2="{_mm(x2)}" y2="{_mm(y2)}" {pen}/>'


def _head(mark: Head) -> str:
    long, half = HEAD
    back = mark.x - mark.across * long, mark.y - mark.down * long
    side = (0.0, half) if mark.across else (half, 0.0)
    corners = (mark.x, mark.y), (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])
    return f'<polygon points="{" ".join(f"{_mm(x)},{_mm(y)}" for x, y in corners)}" fill="black"/>'


def _words(mark: Words, text: float) -> Iterable[str]:
    if not mark.text.strip():
        return
    width = 0.53 * text * len(mark.text)
    start = mark.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor] * width
    yield (
        f'<rect x="{_mm(start - 0.2)}" y="{_mm(mark.y - 0.52 * text)}" width="{_mm(width + 0.4)}" '
        f'height="{_mm(1.04 * text)}" fill="white"/>'
    )
    at = f'x="{_mm(mark.x)}" y="{_mm(mark.y + 0.35 * text)}" text-anchor="{mark.anchor}"'
    yield f"<text {at}>{escape(mark.text)}</text>"
    if mark.ringed:
        left, top, wide, high = ring(mark, text)
        at = f'x="{_mm(left)}" y="{_mm(top)}" width="{_mm(wide)}" height="{_mm(high)}" rx="{_mm(high / 2)}"'
        yield f"<rect {at} {_pen(False, 1)}/>"


def ring(mark: Words, text: float) -> tuple[float, float, float, float]:
    """The ring round a size that matters: left, top, width and height round words of that height. [mm]"""
    wide, high = (0.56 * len(mark.text) + 1.0) * text, 1.6 * text
    left = mark.x - {"start": 0.5 * text, "middle": wide / 2, "end": wide - 0.5 * text}[mark.anchor]
    return left, mark.y - high / 2, wide, high
