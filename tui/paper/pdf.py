"""Pages of marks as PDF, by pydyf: a small library that writes PDF's own objects and nothing else.

The letters are Helvetica, which every reader and printer brings: no font is put into the file.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from importlib import import_module
from typing import Any

from engine.base import layout
from engine.base.outlines import hatching
from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.jobs.svg import HATCH, HEAD, MARGIN, STROKES, ring
from tui.paper.flow import Box, Drawn, Mark, Paper, Rule, Words
from tui.paper.letters import POINT, printable, width

NEEDED = "PDF: the package pydyf is not there; `pip install pydyf` brings it, or -o FILE.html prints from a browser."
_ROUND = 0.5523  # of a radius: where the handles of a quarter circle's curve lie


def as_pdf(pages: Sequence[Sequence[Mark]], paper: Paper, title: str) -> bytes:
    """The file of these pages. BadInput where the library is not installed."""
    pydyf = _library()
    document = pydyf.PDF()
    document.info["Title"] = pydyf.String(title)
    document.info["Producer"] = pydyf.String("Tommybar")
    fonts = {name: _font(document, base) for name, base in (("F0", "Helvetica"), ("F1", "Helvetica-Bold"))}
    resources = pydyf.Dictionary({"Font": pydyf.Dictionary({name: font.reference for name, font in fonts.items()})})
    for marks in pages:
        _page(document, resources, marks, paper)
    out = io.BytesIO()
    document.write(out, version=b"1.7", compress=False)
    return out.getvalue()


def _library() -> Any:
    """The library, which has no types; it is no part of what is always installed."""
    try:
        return import_module("pydyf")
    except ImportError:
        raise BadInput("sheet", "pdf", "", NEEDED) from None


def _font(document: Any, base: str) -> Any:
    pydyf = _library()
    font = pydyf.Dictionary(
        {"Type": "/Font", "Subtype": "/Type1", "BaseFont": f"/{base}", "Encoding": "/WinAnsiEncoding"}
    )
    document.add_object(font)
    return font


def _page(document: Any, resources: Any, marks: Sequence[Mark], paper: Paper) -> None:
    pydyf = _library()
    pen = _Pen(pydyf.Stream(compress=True), paper.high)
    for mark in marks:
        pen.mark(mark)
    document.add_object(pen.stream)
    page = pydyf.Dictionary(
        {
            "Type": "/Page",
            "Parent": document.pages.reference,
            "MediaBox": pydyf.Array([0, 0, round(paper.wide / POINT, 2), round(paper.high / POINT, 2)]),
            "Contents": pen.stream.reference,
            "Resources": resources,
        }
    )
    document.add_page(page)


class _Pen:
    """Draws marks into the stream of a page: mm from the upper left corner become points from the lower left."""

    def __init__(self, stream: Any, high: float) -> None:
        self.stream, self.high = stream, high

    def at(self, x: float, y: float) -> tuple[float, float]:
        return round(x / POINT, 3), round((self.high - y) / POINT, 3)

    def mark(self, mark: Mark) -> None:
        if isinstance(mark, Words):
            self.words(mark)
        elif isinstance(mark, Rule):
            self.line(mark.x1, mark.y1, mark.x2, mark.y2, mark.width)
        elif isinstance(mark, Box):
            self.box(mark)
        else:
            self.drawn(mark)

    def words(self, mark: Words) -> None:
        text = printable(mark.text)
        start = mark.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor] * width(text, mark.size, mark.bold)
        self.stream.begin_text()
        self.stream.set_font_size("F1" if mark.bold else "F0", round(mark.size, 2))
        self.stream.set_text_matrix(1, 0, 0, 1, *self.at(start, mark.y))
        self.stream.show_text_string(text.encode("cp1252", "replace"))
        self.stream.end_text()

    def line(self, x1: float, y1: float, x2: float, y2: float, thick: float, dashes: Sequence[float] = ()) -> None:
        self.stream.set_line_width(round(thick / POINT, 3))
        self.stream.set_dash([round(dash / POINT, 2) for dash in dashes], 0)
        self.stream.move_to(*self.at(x1, y1))
        self.stream.line_to(*self.at(x2, y2))
        self.stream.stroke()

    def box(self, mark: Box) -> None:
        x1, y1, x2, y2 = mark.x, mark.y, mark.x + mark.wide, mark.y + mark.high
        self.outline([(x1, y1), (x2, y1), (x2, y2), (x1, y2)], 0.2, filled=False)
        if mark.ticked:
            self.line(x1, y1, x2, y2, 0.3)
            self.line(x1, y2, x2, y1, 0.3)

    def outline(self, points: Sequence[tuple[float, float]], thick: float, *, filled: bool) -> None:
        self.stream.set_line_width(round(thick / POINT, 3))
        self.stream.set_dash([], 0)
        self.stream.move_to(*self.at(*points[0]))
        for point in points[1:]:
            self.stream.line_to(*self.at(*point))
        self.stream.close()
        if filled:
            self.stream.fill_and_stroke()
        else:
            self.stream.stroke()

    # Pictures

    def drawn(self, mark: Drawn) -> None:
        high = mark.sheet.height + 2 * MARGIN
        self.stream.push_state()
        self.stream.rectangle(*self.at(mark.x, mark.y + high), round(mark.wide / POINT, 3), round(high / POINT, 3))
        self.stream.clip()
        self.stream.end()
        x, y = mark.x - mark.start, mark.y + MARGIN
        for one in sorted(mark.sheet.marks, key=lambda one: isinstance(one, layout.Words)):
            self.one(one, x, y, mark.text)
        self.stream.pop_state()

    def one(self, mark: layout.Mark, x: float, y: float, text: float) -> None:
        """One mark of a picture, whose upper left corner is at x, y."""
        if isinstance(mark, layout.Words):
            self.picture_words(replace(mark, x=mark.x + x, y=mark.y + y), text)
        elif isinstance(mark, layout.Disc):
            self.circle(mark.x + x, mark.y + y, mark.radius, filled=mark.filled)
        elif isinstance(mark, layout.Area):
            points = [(a + x, b + y) for a, b in mark.points]
            self.outline(points, STROKES[1 if mark.cut else 0], filled=mark.filled)
            for x1, y1, x2, y2 in hatching(points, HATCH) if mark.cut else ():
                self.line(x1, y1, x2, y2, STROKES[0])
        elif isinstance(mark, layout.Head):
            self.head(mark.x + x, mark.y + y, mark.across, mark.down)
        else:
            dashes = (2.0, 0.7) if mark.weight == 2 else ()
            self.line(mark.x1 + x, mark.y1 + y, mark.x2 + x, mark.y2 + y, STROKES[mark.weight], dashes)

    def head(self, x: float, y: float, across: int, down: int) -> None:
        long, half = HEAD
        back = x - across * long, y - down * long
        side = (0.0, half) if across else (half, 0.0)
        corners = [(x, y), (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])]
        self.outline(corners, STROKES[0], filled=True)

    def picture_words(self, mark: layout.Words, text: float) -> None:
        """Words on a white ground, so that a line under them ends before them."""
        if not mark.text.strip():
            return
        size = text / POINT
        wide = width(mark.text, size)
        start = mark.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor] * wide
        self.stream.set_color_rgb(1, 1, 1)
        corner = self.at(start - 0.2, mark.y + 0.52 * text)
        self.stream.rectangle(*corner, round((wide + 0.4) / POINT, 3), round(1.04 * text / POINT, 3))
        self.stream.fill()
        self.stream.set_color_rgb(0, 0, 0)
        self.words(Words(start, mark.y + 0.35 * text, mark.text, size))
        if mark.ringed:
            self.ringed(*ring(mark, text))

    def ringed(self, x: float, y: float, wide: float, high: float) -> None:
        """A ring: two lines and two half circles."""
        r = high / 2
        self.stream.set_line_width(round(STROKES[1] / POINT, 3))
        self.stream.set_dash([], 0)
        self.stream.move_to(*self.at(x + r, y))
        self.stream.line_to(*self.at(x + wide - r, y))
        for curve in _half(x + wide - r, y + r, r, 1):
            self.stream.curve_to(*(number for point in curve for number in self.at(*point)))
        self.stream.line_to(*self.at(x + r, y + high))
        for curve in _half(x + r, y + r, r, -1):
            self.stream.curve_to(*(number for point in curve for number in self.at(*point)))
        self.stream.stroke_and_close()

    def circle(self, x: float, y: float, r: float, *, filled: bool) -> None:
        self.stream.set_line_width(round(STROKES[0] / POINT, 3))
        self.stream.set_dash([], 0)
        self.stream.move_to(*self.at(x, y - r))
        for curve in (*_half(x, y, r, 1), *_half(x, y, r, -1)):
            self.stream.curve_to(*(number for point in curve for number in self.at(*point)))
        if filled:
            self.stream.fill_and_stroke()
        else:
            self.stream.stroke()


def _half(x: float, y: float, r: float, way: int) -> Iterator[tuple[tuple[float, float], ...]]:
    """Half a circle as two curves: from the top over the right (way 1) to the bottom, or from the bottom back over the left."""
    k = _ROUND * r
    yield (x + way * k, y - way * r), (x + way * r, y - way * k), (x + way * r, y)
    yield (x + way * r, y + way * k), (x + way * k, y + way * r), (x, y + way * r)
