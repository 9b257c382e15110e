"""The vocabulary that every calculation answers in. It knows what a number is, never how it is drawn."""

from __future__ import annotations

from typing import Literal

from engine.base.records import dataclass, replace
from engine.base.rounding import Side
from engine.base.setting import Setting
from engine.base.sums import Sum
from engine.base.words import Text, say
from engine.situation import Situation

Level = Literal["info", "warning"]
Word = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
Side4 = Literal["above", "below", "left", "right"]
Cell = float | int | Text | Setting | None


@dataclass(frozen=True, slots=True)
class Figure:
    """One number (or word) a machinist may act on, with where it comes from. `figure` and `words` below make them.

    `dimension` is a key of engine.base.quantity.DIMENSIONS; `value` is unrounded in that dimension's engine unit.
    A figure of dimension "text" has `value` None and its words in `text`.
    `decimals` counts the decimals worth showing in the metric unit (None: as the dimension usually has).
    `side` is how the number is rounded when shown: "down" for a largest size, "up" for a smallest.
    `was` is its name in the version before, which written recipes and readers of the JSON may still use.
    """

    name: str
    label: str
    value: float | int | None
    dimension: str
    source: str
    working: Text
    low: float | None = None
    high: float | None = None
    decimals: int | None = None
    side: Side = "nearest"
    text: Text = ""
    setting: Setting | None = None
    was: str = ""

    def named(self, name: str) -> bool:
        """Whether it goes by this name, or did in the version before."""
        return name in (self.name, self.was)


def figure(
    name: str, label: str, value: Sum, source: str, working: Text = "", *, dimension: str = "",
    low: float | None = None, high: float | None = None, decimals: int | None = None, side: Side = "nearest",
) -> Figure:  # fmt: skip
    """A figure from the sum that gave it: value, dimension and working are one expression.

    `working` says more than the sum alone does (a template that holds it); `dimension` is named where the sum's own
    is not the one it is shown under: a ratio shown as a percentage or a count.
    """
    shown: float | int = value.value if isinstance(value.value, int) else float(value.value)
    kind = dimension or value.dimension
    return Figure(name, label, shown, kind, source, working or value, low, high, decimals, side)


def words(name: str, label: str, text: Text, source: str, working: Text = "") -> Figure:
    """A figure that is words: a drill's name, a state, a way of holding."""
    return Figure(name, label, None, "text", source, working, text=text)


def to_set(name: str, label: str, setting: Setting, source: str, working: Text = "") -> Figure:
    """A figure that is set on the machine: handwheel, turns and dial line. Its value is the distance it moves."""
    return Figure(name, label, setting.distance, setting.dimension, source, working, setting=setting)


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table; `dimension` as for a Figure."""

    name: str
    label: str
    dimension: str = "text"
    decimals: int | None = None


def heads(**named: str | tuple[str, str] | tuple[str, str, int]) -> tuple[Column, ...]:
    """Columns by name: each a label, or a label with its dimension and decimals."""
    return tuple(Column(name, *((head,) if isinstance(head, str) else head)) for name, head in named.items())


@dataclass(frozen=True, slots=True)
class Table:
    """Rows to read, or (when `count_noun` is given) to be done one at a time.

    `count_noun` is the singular word for one row: "line", "hole", "pass", "cut". A countable table's
    first column numbers its rows from 1. `setting` names the columns that are set on the machine for a row, most
    important first: a job shows the first of them in large characters. `aside`: a dry run, printed only when it is
    the one that is counted.
    """

    name: str
    label: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    count_noun: str = ""
    setting: tuple[str, ...] = ()
    source: str = ""
    aside: bool = False

    def column(self, name: str) -> tuple[Cell, ...]:
        """Every cell of one column, top to bottom."""
        index = [c.name for c in self.columns].index(name)
        return tuple(row[index] for row in self.rows)


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line. `weight`: 0 thin, 1 heavy, 2 a fine dashed centre line, 3 heavy but too small for the glyphs of
    a console; `row` as for a Circle."""

    x1: float
    y1: float
    x2: float
    y2: float
    weight: int = 0
    row: int = 0


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle; `row` ties it to a row (from 1) of the countable table that the picture belongs to."""

    x: float
    y: float
    radius: float
    filled: bool = False
    row: int = 0


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed outline. `filled`: a body seen whole; `cut`: metal that is cut through, and so hatched."""

    points: tuple[tuple[float, float], ...]
    filled: bool = False
    cut: bool = False
    row: int = 0


@dataclass(frozen=True, slots=True)
class Label:
    """Words in a picture, placed at a point; `anchor` says which part of the words stands there.

    `ringed`: a size that matters, with a ring round it on paper.
    """

    x: float
    y: float
    text: Text
    anchor: Literal["start", "middle", "end"] = "middle"
    row: int = 0
    ringed: bool = False


@dataclass(frozen=True, slots=True)
class Size:
    """A dimension between two points. `side` says where its line stands, clear of the drawing: above and below it
    measures across, left and right upwards. Who draws it finds the room and keeps words off lines. `if_marked`: drawn
    only while its row is in hand."""

    x1: float
    y1: float
    x2: float
    y2: float
    text: Text
    side: Side4 = "below"
    row: int = 0
    if_marked: bool = False


@dataclass(frozen=True, slots=True)
class Pointer:
    """Words beside the drawing with a thin line to the point they are about; as a Size otherwise."""

    x: float
    y: float
    text: Text
    side: Side4 = "right"
    row: int = 0
    if_marked: bool = False


Shape = Line | Circle | Polygon | Label | Size | Pointer


@dataclass(frozen=True, slots=True)
class Picture:
    """Something to draw, in millimetres of the work, x to the right and y upwards.

    The app draws the shapes in character cells, the sheet in SVG. `true_size`: worth printing 1:1 (a strip to
    wrap round a drum). `alt` says the same in one sentence, for a screen reader. `table` names the countable table
    whose row in hand is marked in it.
    """

    name: str
    title: str
    shapes: tuple[Shape, ...]
    alt: Text
    true_size: bool = False
    table: str = ""


@dataclass(frozen=True, slots=True)
class Note:
    """Something that this answer's numbers made worth saying (not a hazard: those are cautions)."""

    level: Level
    text: Text


def info(text: Text, /, **parts: Text | int) -> Note:
    """Something worth knowing: a text, or a template with what stands in its braces."""
    return Note("info", say(text, **parts) if parts and isinstance(text, str) else text)


def warning(text: Text, /, **parts: Text | int) -> Note:
    """Something to be minded, as `info` otherwise."""
    return Note("warning", say(text, **parts) if parts and isinstance(text, str) else text)


@dataclass(frozen=True, slots=True)
class Caution:
    """A hazard of the open operation, in one line; `because` holds the number that raised it.

    `question` is set while a fact that matters is unknown: the person answers it with yes or no. `tell` names what of
    the set-up is not told and would let it be worked out. `harm`: 1 kills or maims ... 4 is worth knowing; `phase`: when
    it counts.
    `acknowledge`: the step may not start before the person has said that the line is read. `brief` is the hazard and
    its control alone, for where the consequence has no room.
    """

    id: str
    word: Word
    text: Text
    because: Text = ""
    source: str = ""
    question: Text = ""
    acknowledge: bool = False
    harm: int = 2
    phase: Literal["before", "during", "after"] = "during"
    tell: tuple[str, ...] = ()
    brief: Text = ""


@dataclass(frozen=True, slots=True)
class Answer:
    """What an operation says: the first figure is the lead figure, the one shown largest.

    `moments` say what is so at the machine while it is done, one for each row or phase that differs; cautions read
    them.
    """

    figures: tuple[Figure, ...]
    tables: tuple[Table, ...] = ()
    pictures: tuple[Picture, ...] = ()
    notes: tuple[Note, ...] = ()
    cautions: tuple[Caution, ...] = ()
    moments: tuple[Situation, ...] = ()

    @property
    def lead(self) -> Figure:
        """The figure shown largest."""
        return self.figures[0]

    def figure(self, name: str) -> Figure:
        """One figure by name; KeyError if this answer does not have it."""
        for figure in self.figures:
            if figure.named(name):
                return figure
        raise KeyError(name)

    def has(self, name: str) -> bool:
        """Whether this answer has a figure of that name."""
        return any(figure.named(name) for figure in self.figures)

    def table(self, name: str) -> Table:
        """One table by name; KeyError if this answer does not have it."""
        for table in self.tables:
            if table.name == name:
                return table
        raise KeyError(name)

    def with_cautions(self, cautions: tuple[Caution, ...]) -> Answer:
        """The same answer with its cautions put in."""
        return replace(self, cautions=cautions)
