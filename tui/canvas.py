"""The one widget of every screen: it paints lines, and repaints only those that changed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, cast

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from tui.lines import Line, fitted
from tui.widgets.shown_image import PREFIX, found, gone, written

if TYPE_CHECKING:
    from tui.owner import Owner


class Canvas(Widget):
    """A grid of cells. A message per field or a widget per figure would cost two frames a key; this costs one line."""

    DEFAULT_CSS = "Canvas { width: 100%; height: 100%; }"

    def __init__(self) -> None:
        super().__init__()
        self._styles: dict[str, Style] = {}
        self._shown: list[Line] = []
        self._images_due = False

    def restyle(self, styles: dict[str, Style]) -> None:
        """Use another look from now on."""
        self._styles = styles
        if self.is_mounted:
            self.refresh()

    def show(self, lines: Sequence[Line]) -> None:
        """Show these lines; only the rows that differ are painted again."""
        old, new = self._shown, list(lines)
        self._shown = new
        width = max(self.size.width, 1)
        changed: list[Region] = []  # rows under one another in one: each region costs a repaint of its own
        for y in range(max(len(old), len(new))):
            if y < len(old) and y < len(new) and old[y] == new[y]:
                continue
            if changed and changed[-1].bottom == y:
                changed[-1] = changed[-1].grow((0, 0, 1, 0))
            else:
                changed.append(Region(0, y, width, 1))
        if changed:
            self.refresh(*changed)
        owner = cast("Owner", self.app)
        in_front = self.is_attached and self.screen is self.app.screen  # a list may come in for a screen that was left
        if in_front and owner.images and owner.images != found(new):
            owner.to_terminal(gone())
            owner.images = ()

    def _images_wanted(self) -> None:
        """Have the images written once what is being painted now has been."""
        if not self._images_due:
            self._images_due = True
            self.call_after_refresh(self._show_images)

    def _show_images(self) -> None:
        """Write the images that stand here, once the cells under them are painted."""
        self._images_due = False
        owner = cast("Owner", self.app)
        if self.screen is self.app.screen:
            owner.images = found(self._shown)
            for placed in owner.images:
                owner.to_terminal(written(placed, owner.look))

    @property
    def text(self) -> str:
        """What is shown, without roles (for tests and reports)."""
        return "\n".join("".join(text for text, _ in runs).rstrip() for runs in self._shown)

    def render_line(self, y: int) -> Strip:
        """One row, as Textual asks for it."""
        width = self.size.width
        base = self._styles["text"]
        if y >= len(self._shown):
            return Strip([Segment(" " * width, base)], width)
        runs = fitted(self._shown[y], width)
        if any(role.startswith(PREFIX) for _, role in runs):  # its cells are painted over it
            self._images_wanted()
        return Strip([Segment(text, self._styles.get(role, base)) for text, role in runs if text], width)
