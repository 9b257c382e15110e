"""A picture as a real image, through Pillow, and as what a terminal takes: the kitty graphics protocol or sixel.

Only loaded where a terminal has said that it shows images (tui/pictures.py) and Pillow is installed.
"""

from __future__ import annotations

from base64 import standard_b64encode
from collections.abc import Callable
from contextlib import suppress
from functools import cache
from io import BytesIO
from typing import Any

from PIL import Image, ImageDraw, ImageFont

from engine.base.answer import Picture, Shape
from engine.base.layout import Area, Disc, Head, Mark, Paper, Stroke, Words, laid_out
from engine.base.outlines import hatching

_INKS = {"dark": ((0, 0, 0), (255, 255, 255), (0, 180, 200), (0, 200, 90)),
         "light": ((255, 255, 255), (0, 0, 0), (0, 70, 160), (0, 140, 60))}  # fmt: skip
_FONTS = ("DejaVuSans.ttf", "LiberationSans-Regular.ttf")
_WHOLE = ("DejaVu Sans", "Liberation Sans")
_OTHERWISE = str.maketrans(
    {"Ø": "dia ", "→": ">", "←": "<", "↑": "^", "↓": "v", "µ": "u", "÷": "/", "≤": "<", "≥": ">"}
)
_HATCH = 9.0  # dots between the lines of a cut face, across
_CHUNK = 4096  # bytes of a piece: the kitty graphics protocol's most


def image(
    picture: Picture, size: tuple[int, int], cell: tuple[int, int], said: Callable[[Shape], str], row: int, look: str
) -> Image.Image | None:
    """Draw a picture in so many dots; the row in hand in a colour and its lines twice as heavy."""
    high = cell[1]
    paper = Paper(size[0] - 2, size[1] - 2, 0.62 * high * 0.8, 1.05 * high)
    sheet = laid_out(picture, paper, said, row)
    if sheet is None:
        return None
    ground, ink, fine, mark = _INKS.get(look, _INKS["dark"])
    made = Image.new("RGB", size, ground)
    off = (size[0] - sheet.width) / 2, (size[1] - sheet.height) / 2
    pen = _Pen(ImageDraw.Draw(made), _font(max(round(0.8 * high), 8)), off, (ground, ink, fine, mark), row)
    for one in sorted(sheet.marks, key=lambda m: (isinstance(m, Words), bool(row) and getattr(m, "row", 0) == row)):
        pen.draw(one)
    return made


@cache
def _font(size: int) -> Any:
    """A font of the system, which has every glyph that is used here; else the one in Pillow, which lacks a few."""
    for name in _FONTS:
        with suppress(OSError):
            return ImageFont.truetype(name, size)
    return ImageFont.load_default(size)


class _Pen:
    def __init__(self, draw: Any, font: Any, off: tuple[float, float], inks: tuple[Any, ...], row: int) -> None:
        self.canvas, self.font, self.off, self.row = draw, font, off, row
        self.ground, self.ink, self.fine, self.marked = inks

    def at(self, x: float, y: float) -> tuple[float, float]:
        return x + self.off[0], y + self.off[1]

    def draw(self, mark: Mark) -> None:
        on = bool(self.row) and mark.row == self.row
        if isinstance(mark, Stroke):
            self._line(mark, on)
        elif isinstance(mark, Disc):
            x, y = self.at(mark.x, mark.y)
            box = (x - mark.radius, y - mark.radius, x + mark.radius, y + mark.radius)
            ink = self.marked if on else self.ink
            self.canvas.ellipse(box, outline=ink, fill=ink if mark.filled or on else None)
        elif isinstance(mark, Area):
            self._area(mark, on)
        elif isinstance(mark, Head):
            self._head(mark)
        else:
            self._words(mark, on)

    def _line(self, mark: Stroke, on: bool) -> None:
        ink = self.marked if on else self.fine if mark.size or mark.weight == 2 else self.ink
        width = (2 if mark.weight in (1, 3) else 1) + on
        (x1, y1), (x2, y2) = self.at(mark.x1, mark.y1), self.at(mark.x2, mark.y2)
        if mark.weight != 2:
            self.canvas.line((x1, y1, x2, y2), fill=ink, width=width)
            return
        steps = max(int(max(abs(x2 - x1), abs(y2 - y1)) // 6), 1)
        for i in range(0, steps, 2):
            a, b = i / steps, min((i + 1) / steps, 1.0)
            self.canvas.line((x1 + (x2 - x1) * a, y1 + (y2 - y1) * a, x1 + (x2 - x1) * b, y1 + (y2 - y1) * b), fill=ink)

    def _area(self, mark: Area, on: bool) -> None:
        points, ink = [self.at(x, y) for x, y in mark.points], self.marked if on else self.ink
        if mark.filled:
            self.canvas.polygon(points, fill=ink)
            return
        for line in hatching(points, _HATCH) if mark.cut else ():
            self.canvas.line(line, fill=self.fine)
        self.canvas.line([*points, points[0]], fill=ink, width=(2 if mark.cut else 1) + on)

    def _head(self, mark: Head) -> None:
        x, y = self.at(mark.x, mark.y)
        back, side = (x - 7 * mark.across, y - 7 * mark.down), (0, 2) if mark.across else (2, 0)
        corners = [(x, y), (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])]
        self.canvas.polygon(corners, fill=self.fine)

    def _words(self, mark: Words, on: bool) -> None:
        at, text = self.at(mark.x, mark.y), mark.text
        if self.font.getname()[0] not in _WHOLE:
            text = text.translate(_OTHERWISE)
        anchor = {"start": "lm", "middle": "mm", "end": "rm"}[mark.anchor]
        box = self.canvas.textbbox(at, text, font=self.font, anchor=anchor)
        self.canvas.rectangle((box[0] - 1, box[1] - 1, box[2] + 1, box[3] + 1), fill=self.ground)
        self.canvas.text(at, text, fill=self.marked if on else self.ink, font=self.font, anchor=anchor)


def kitty(made: Image.Image, columns: int, rows: int) -> str:
    """The image for the kitty graphics protocol: PNG in pieces, placed at the cursor, no answer wanted.

    Source: the kitty graphics protocol: a=T transmits and shows, f=100 is PNG, C=1 leaves the cursor, q=2 asks nothing.
    """
    held = BytesIO()
    made.save(held, "PNG")
    data = standard_b64encode(held.getvalue()).decode()
    pieces = [data[i : i + _CHUNK] for i in range(0, len(data), _CHUNK)]
    out = []
    for n, piece in enumerate(pieces):
        more = int(n < len(pieces) - 1)
        keys = f"a=T,f=100,c={columns},r={rows},C=1,q=2,m={more}" if n == 0 else f"m={more}"
        out.append(f"\x1b_G{keys};{piece}\x1b\\")
    return "".join(out)


KITTY_GONE = "\x1b_Ga=d,d=A,q=2\x1b\\"  # every image on the screen, and what was kept of it


def sixel(made: Image.Image) -> str:
    """The image as sixel graphics: bands of six rows, each colour of a band in a run of its own.

    Source: DEC STD 070, sixel: DCS q, " aspect and size, # colour; 2; red; green; blue in hundredths, ! repeat, $ - .
    """
    flat = made.quantize(8)
    wide, high = flat.size
    palette, dots = flat.getpalette() or [], flat.tobytes()
    used = sorted(set(dots))
    out = [f'\x1bP0;1q"1;1;{wide};{high}']
    out += [f"#{c};2;" + ";".join(str(round(v / 2.55)) for v in palette[3 * c : 3 * c + 3]) for c in used]
    for top in range(0, high, 6):
        rows = [dots[y * wide : (y + 1) * wide] for y in range(top, min(top + 6, high))]
        present = set(b"".join(rows))
        for colour in present:
            columns = bytes(63 + sum(1 << bit for bit, row in enumerate(rows) if row[x] == colour) for x in range(wide))
            out.append(f"#{colour}{_runs(columns)}$")
        out.append("-")
    return "".join(out) + "\x1b\\"


def _runs(columns: bytes) -> str:
    """Bytes with repeats counted."""
    out, start = [], 0
    for x in range(1, len(columns) + 1):
        if x == len(columns) or columns[x] != columns[start]:
            count, glyph = x - start, chr(columns[start])
            out.append(f"!{count}{glyph}" if count > 3 else glyph * count)
            start = x
    return "".join(out)
