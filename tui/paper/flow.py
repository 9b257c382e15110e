"""Blocks of marks set one under the other on pages. No file format is known here. Lengths in mm, y downwards."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from engine.base.layout import Sheet
from engine.base.records import dataclass, field, replace


@dataclass(frozen=True, slots=True)
class Words:
    """A text on one line; x is its start, its middle or its end, y its base line."""

    x: float
    y: float
    text: str
    size: float
    bold: bool = False
    anchor: Literal["start", "middle", "end"] = "start"


@dataclass(frozen=True, slots=True)
class Rule:
    """A straight line of a width, dashed or not."""

    x1: float
    y1: float
    x2: float
    y2: float
    width: float = 0.13
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Box:
    """A box to tick, crossed where it is ticked."""

    x: float
    y: float
    wide: float
    high: float
    ticked: bool = False


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture laid out, or so much of it from `start` on as is `wide`; x and y are the corner of its margin."""

    x: float
    y: float
    sheet: Sheet
    start: float
    wide: float
    text: float


Mark = Words | Rule | Box | Drawn


@dataclass(frozen=True, slots=True)
class Block:
    """Marks that stay together, from y = 0 down; `keep`: the next block has to begin on the same page."""

    high: float
    marks: tuple[Mark, ...]
    keep: bool = False


@dataclass(slots=True)
class Paper:
    """A kind of paper and what is left free on it."""

    name: str
    wide: float
    high: float
    side: float = 7.0
    top: float = 6.5
    foot: float = 10.0

    @property
    def room(self) -> tuple[float, float]:
        """Width and height that can be written on."""
        return self.wide - 2 * self.side, self.high - self.top - self.foot


A4 = Paper("A4", 210.0, 297.0)
LETTER = Paper("Letter", 215.9, 279.4)
BROWSER = Paper("Letter", 215.9, 267.4)  # what a browser makes of the shorter of the two with its own letters


@dataclass(slots=True)
class _Pages:
    paper: Paper
    top: Block | None
    done: list[list[Mark]] = field(default_factory=lambda: [[]])
    y: float = 0.0

    def put(self, run: list[Block]) -> None:
        """A run of blocks that stay together, on a new page where they do not fit on this one."""
        high = self.paper.room[1]
        need = sum(block.high for block in run)
        if self.y and self.y + need > high + 1e-6:
            self.turn()
        for block in run:
            if self.y and self.y + block.high > high + 1e-6:  # a run that is longer than a page
                self.turn()
            self.place(block)

    def turn(self) -> None:
        """Begin a page, with what stands at the top of each but the first."""
        self.done.append([])
        self.y = 0.0
        if self.top:
            self.place(self.top)

    def place(self, block: Block) -> None:
        """The next block on this page."""
        self.done[-1] += [moved(mark, self.paper.side, self.paper.top + self.y) for mark in block.marks]
        self.y += block.high


def pages(blocks: Iterable[Block], paper: Paper, top: Block | None = None) -> list[list[Mark]]:
    """The marks of each page; `top` stands at the head of each but the first.

    >>> [len(page) for page in pages([Block(200, (Rule(0, 0, 1, 0),)), Block(100, (Rule(0, 0, 1, 0),))], A4)]
    [1, 1]
    """
    found, run = _Pages(paper, top), list[Block]()
    for block in blocks:
        run.append(block)
        if not block.keep:
            found.put(run)
            run = []
    if run:
        found.put(run)
    return found.done


def moved(mark: Mark, x: float, y: float) -> Mark:
    """A mark at another place."""
    if isinstance(mark, Rule):
        return replace(mark, x1=mark.x1 + x, y1=mark.y1 + y, x2=mark.x2 + x, y2=mark.y2 + y)
    return replace(mark, x=mark.x + x, y=mark.y + y)


def stacked(groups: Iterable[tuple[float, tuple[Mark, ...]]]) -> tuple[float, tuple[Mark, ...]]:
    """Groups of marks, each so high, one under the other as one group."""
    y, marks = 0.0, list[Mark]()
    for high, ones in groups:
        marks += [moved(mark, 0.0, y) for mark in ones]
        y += high
    return y, tuple(marks)
