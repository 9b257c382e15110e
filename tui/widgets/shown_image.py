"""Where images stand on the screen: lines of blanks that say which, and what is written to the terminal for them.

A screen stays lines of text. A picture that is to be an image is blanks whose role names it; the canvas finds them,
wherever the screen put them, and has the image written there after its cells.
"""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Label, Picture, Pointer, Shape, Size
from engine.base.records import dataclass
from engine.base.words import write
from tui import pictures
from tui.glyphs import plain
from tui.lines import Line

PREFIX = "image "
_KEPT = 8  # pictures whose images are kept: more are never on one screen


@dataclass(frozen=True, slots=True)
class Wanted:
    """A picture to be shown as an image in so many cells."""

    picture: Picture
    width: int
    height: int
    unit: str
    row: int


@dataclass(frozen=True, slots=True)
class Placed:
    """An image on the screen: the role that names it, and its cell."""

    role: str
    column: int
    line: int


_wanted: dict[str, Wanted] = {}
_count = 0


def blanks(picture: Picture, width: int, height: int, unit: str, row: int) -> list[Line]:
    """The lines that stand for an image."""
    global _count
    wanted = Wanted(picture, width, height, unit, row)
    role = next((name for name, one in _wanted.items() if one == wanted), "")
    if not role:
        _count += 1
        role = f"{PREFIX}{_count}"
        _wanted[role] = wanted
        while len(_wanted) > _KEPT:
            del _wanted[next(iter(_wanted))]
    return [[(" " * width, role)] for _ in range(height)]


def found(lines: Sequence[Line]) -> tuple[Placed, ...]:
    """The images of a screen that stand on it whole."""
    places: dict[str, list[tuple[int, int, int]]] = {}
    for y, runs in enumerate(lines):
        x = 0
        for text, role in runs:
            if role.startswith(PREFIX):
                places.setdefault(role, []).append((x, y, len(text)))
            x += len(text)
    whole = []
    for role, cells in places.items():
        wanted = _wanted.get(role)
        if wanted and len(cells) == wanted.height and all(cell[2] == wanted.width for cell in cells):
            whole.append(Placed(role, cells[0][0], cells[0][1]))
    return tuple(whole)


def written(placed: Placed, look: str) -> str:
    """What the terminal is sent for an image, the cursor kept where it is."""
    from tui.widgets import raster

    wanted = _wanted.get(placed.role)
    if wanted is None:
        return ""

    def said(shape: Shape) -> str:
        return plain(write(shape.text, wanted.unit)) if isinstance(shape, Label | Size | Pointer) else ""

    wide, high = pictures.cell()
    size = wanted.width * wide, wanted.height * high
    made = raster.image(wanted.picture, size, (wide, high), said, wanted.row, look)
    if made is None:
        return ""
    kitty = pictures.means() == "kitty"
    data = raster.kitty(made, wanted.width, wanted.height) if kitty else raster.sixel(made)
    return f"\x1b7\x1b[{placed.line + 1};{placed.column + 1}H{data}\x1b8"


def gone() -> str:
    """What takes images off the screen: cells written over them do it for sixel."""
    from tui.widgets.raster import KITTY_GONE

    return KITTY_GONE if pictures.means() == "kitty" else ""
