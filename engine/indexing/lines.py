"""The lines of a scale, on a drum or a strip: their classes and lengths, the feed of each, and its figures."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import floor
from typing import Any, Protocol

from engine.base import declare as ask
from engine.base.answer import Cell, Column, Figure, Note, Table, figure, heads, info, to_set, warning, words
from engine.base.quantity import INCH_MM
from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.setting import Setting
from engine.base.sums import Sum, mm, num
from engine.base.tables import rows
from engine.base.words import Text, put, say, shown
from engine.indexing import scales
from engine.indexing.dials import DialSetting, dial_setting, on_dial, turns_and_lines
from engine.indexing.scales import Kind
from engine.shop.model import Slide

KINDS: tuple[Kind, ...] = ("long", "middle", "short")
_PRACTICE = "common practice, no source"
_LENGTHS = (
    "heights 0.22, 0.16 and 0.09 in read from 28 in, a military design handbook (from memory, unconfirmed), "
    "scaled to 350 mm"
)
_ON_TURNS = f"{_LENGTHS}; taken to whole and half turns of the feed, so that nothing is read while counting"
_LONGEST = 5.0  # mm: numbered lines of hand dials are 3 to 5 mm long; common practice, no source
_FEED = "each length from one zero at the edge, arriving the same way (common practice, no source)"
_MOST_MOVED = 2 / 3  # of its length: a class that turns would change by more keeps its proportion; judgement
WIDTH, GAP = 0.65, 0.25  # of a figure, and between two figures, over its height
_ROOM = 0.8  # of the way from number to number that a number may fill
_SHAPE = (
    "figure 0.65 of its height wide (3 to 5 at least: DOD-HDBK-791), a quarter of it apart, within 0.8 of the way from "
    "number to number; heights by common practice, no source"
)


def punches() -> Any:
    """Ask for the set of punches."""
    return ask.choice("Punches", ("metric", "inch"), empty="as the shop's unit", default="metric",
        from_shop=lambda shop: "inch" if shop.standard == "asme" else "metric",
        help="Which set of figure punches the height is chosen from.")  # fmt: skip


class Asked(Protocol):
    """What every scale is told of its lines and figures."""

    @property
    def long_every(self) -> int | None: ...

    @property
    def middle_every(self) -> int | None: ...

    @property
    def long_length(self) -> float | None: ...

    @property
    def middle_length(self) -> float | None: ...

    @property
    def short_length(self) -> float | None: ...

    @property
    def figure_height(self) -> float | None: ...

    @property
    def punches(self) -> str: ...


@dataclass(frozen=True, slots=True)
class Size:
    """The lines of one class: how long, on whose word, and how the feed is set for them."""

    length: float
    source: str
    working: Text
    feed: DialSetting
    setting: Setting


@dataclass(frozen=True, slots=True)
class Classes:
    """Which lines are long, middle and short. `middle_every` 0: there are no middle ones."""

    long_every: int
    middle_every: int
    sizes: Mapping[Kind, Size]
    wheel: str

    def kind(self, line: int) -> Kind:
        """Whether a line (from 0) is long, middle or short."""
        return scales.kind_of(line, long_every=self.long_every, middle_every=self.middle_every)


def classes(asked: Asked, spaces: int, wheel: str, slide: Slide) -> Classes:
    """The classes of so many spaces' lines, fed by a handwheel.

    Lengths that nobody gave lie on whole and half turns of the handwheel when that can be: each class keeps its rank
    and the longest stays within 5 mm. Else they are the handbook's proportions, to a line of the dial.
    """
    long_every = asked.long_every or scales.usual_long_every(spaces)
    middle = asked.middle_every
    if middle is None:
        middle = long_every // 2 if long_every % 2 == 0 and long_every > 2 else 0
    usual = _usual_lengths(asked)
    half = slide.travel_per_turn / 2
    turned = _on_half_turns(asked, usual, half, bool(middle))
    sizes: dict[Kind, Size] = {}
    for kind in KINDS:
        given = getattr(asked, f"{kind}_length") is not None
        size, source, working = usual[kind], _LENGTHS, _usual_words(asked, usual, kind)
        if given:
            source, working = "as told", "as told"
        elif kind in turned:
            size, source = float(turned[kind] * half), _ON_TURNS
            working = say("{sum}, the half turns nearest to {usual}",
                          sum=num(turned[kind]) * mm(slide.travel_per_turn) / 2, usual=put(usual[kind]))  # fmt: skip
        stands = dial_setting(distance=size, travel_per_turn=slide.travel_per_turn, divisions=slide.divisions)
        shows_twice = slide.reads_diameter
        setting = on_dial(wheel.capitalize(), stands, slide.travel_per_turn, slide.divisions,
                          reads_diameter=shows_twice, distance=size)  # fmt: skip
        sizes[kind] = Size(size, source, working, stands, setting)
    return Classes(long_every, middle, sizes, wheel)


def _usual_lengths(asked: Asked) -> dict[Kind, float]:
    """Line lengths: those given, the others in the proportion of the handbook's heights."""
    given = asked.long_length or (asked.short_length or 0.0) / scales.SHORT * scales.LONG
    long = round(given, 4) or scales.LONG
    short = asked.short_length or round(long * scales.SHORT / scales.LONG, 1) or long
    between = (long + short) / 2 if asked.short_length else long * scales.MIDDLE / scales.LONG
    middle = asked.middle_length or min(max(round(between, 1), short), long)
    if not short <= middle <= long:
        field = "middle_length" if asked.middle_length else "short_length"
        sizes = {name: shown(size, decimals=2) for name, size in (("a", long), ("b", middle), ("c", short))}
        text = say("{field}: lines of {a}, {b} and {c} are not long, middle and short.", field=field, **sizes)
        raise BadInput(field, say("{b}", **sizes), "long lines longest and short lines shortest", text)
    return {"long": long, "middle": middle, "short": short}


def _on_half_turns(asked: Asked, usual: Mapping[Kind, float], half: Fraction, has_middle: bool) -> dict[Kind, int]:
    """Half turns of each class that nobody gave; empty when they cannot keep their rank."""
    found: dict[Kind, int] = {}
    before = 0.0
    order: tuple[Kind, ...] = ("short", "middle", "long") if has_middle else ("short", "long")
    for kind in order:
        if getattr(asked, f"{kind}_length") is not None:
            size = usual[kind]
        else:
            found[kind] = max(floor(usual[kind] / float(half) + 0.5), floor(before / float(half) + 1e-9) + 1)
            size = float(found[kind] * half)
        if size <= before or (kind in found and (size > _LONGEST or abs(size / usual[kind] - 1) > _MOST_MOVED)):
            return {}
        before = size
    return found


def _usual_words(asked: Asked, usual: Mapping[Kind, float], kind: Kind) -> Text:
    """How a length that was not given came about; the sums are those of _usual_lengths."""
    long, short, tenth = mm(usual["long"]), mm(usual["short"]), put(0.1)
    standard = {"long": scales.LONG, "middle": scales.MIDDLE, "short": scales.SHORT}
    if kind == "long":
        if asked.short_length:
            return short * mm(scales.LONG) / mm(scales.SHORT)
        return say("{height} x 350 ÷ 710, to {tenth}", height=mm(0.22 * INCH_MM), tenth=tenth)
    sum_of: Sum = long * mm(standard[kind]) / mm(scales.LONG)
    if kind == "middle" and asked.short_length:
        sum_of = (long + short) / 2
    return say("{sum}, to {tenth}", sum=sum_of, tenth=tenth)


def class_figures(asked: Asked, found: Classes, slide: Slide) -> list[Figure]:
    """The feed's handwheel, and for each class its length and its setting."""
    dial = say("{turn} a turn in {lines} lines", turn=shown(float(slide.travel_per_turn)), lines=slide.divisions)
    figures = [words("feed_with", "Feed with", found.wheel, _PRACTICE, dial)]
    for kind in KINDS:
        if kind == "middle" and not found.middle_every:
            continue
        size = found.sizes[kind]
        off = say("{size} on {dial}: off by {off}", size=mm(size.length), dial=dial,
                  off=shown(size.feed.error, decimals=4))  # fmt: skip
        figures += [
            Figure(f"{kind}_length", f"{kind.capitalize()} lines", size.length, "length", size.source, size.working,
                   decimals=2),
            Figure(f"{kind}_feed", f"Feed, {kind}", None, "text", _FEED, off, text=turns_and_lines(size.feed),
                   setting=size.setting),
        ]  # fmt: skip
    return figures


def first_figures(found: Classes, done: int, last: int) -> list[Figure]:
    """The line that is cut next leads: its class and how the feed is set for it."""
    if done >= last:
        return []
    kind = found.kind(done)
    size = found.sizes[kind]
    long = say("{length} from the edge", length=mm(size.length))
    return [to_set("line_setting", f"Line {done + 1}, {kind}", size.setting, "the table of lines", long)]


LINE_COLUMNS = (Column("feed", "Feed"), Column("class", "Class"), *heads(label="Stamp", length=("Length", "length", 2)))


def line_cells(found: Classes, line: int, label: str) -> tuple[Cell, ...]:
    """What LINE_COLUMNS hold for a line (from 0)."""
    kind = found.kind(line)
    size = found.sizes[kind]
    return (size.setting, kind, label, size.length)


@dataclass(frozen=True, slots=True)
class Numbers:
    """The figures that are stamped: their height, the widest number, whether it fits, and where their foot stands."""

    height: float
    width: float
    characters: int
    room: float
    foot: float

    @property
    def fits(self) -> bool:
        """Whether the widest number leaves a gap to the next."""
        return self.width <= _ROOM * self.room


def number_width(characters: int, height: float) -> float:
    """Width of a number of so many characters.

    characters: Figures and points, 1 or more; a point is taken as wide as a figure, so that a number with one errs
        wide.
    height: Of the figures. [mm]
    Returns: 0.65 of the height each, a quarter of it between. [mm]
    Source: Width to height 3:5 to 1:1: DOD-HDBK-791 (AM), 6-5.3.2. The gap: common practice, no source.

    >>> number_width(2, 1.5), number_width(2, 2.0)
    (2.325, 3.100)
    """
    return characters * WIDTH * height + (characters - 1) * GAP * height


def numbers(asked: Asked, labels: Sequence[str], room: float, diameter: float, long: float) -> Numbers:
    """The figures of a scale: the punch for its drum (0: a strip), a smaller one if the widest number has no room."""
    characters = max(map(len, labels))
    owned = [float(row["height"]) for row in rows("indexing/punch_sets.csv") if row["set"] == asked.punches]
    usual = next(
        float(row["height"])
        for row in rows("indexing/figure_heights.csv")
        if float(row["over"]) < diameter <= float(row["to"]) or diameter == float(row["to"]) == 0
    )
    fitting = [h for h in owned if h <= usual and number_width(characters, h) <= _ROOM * room]
    height = asked.figure_height or (max(fitting) if fitting else owned[0])
    return Numbers(height, number_width(characters, height), characters, room, long + height / 2)


def number_figures(found: Numbers, asked: Asked, diameter: float) -> list[Figure]:
    """Height, width, room and place of the figures."""
    h, n = mm(found.height), found.characters
    chosen: Text = "as told"
    if asked.figure_height is None:
        on = say("a drum of {d}", d=shown(diameter)) if diameter else "a strip"
        chosen = say("the usual punch for {on} or the next smaller whose numbers have room", on=on)
    wide = num(n) * num(WIDTH) * h + num(n - 1) * num(GAP) * h
    fits = say("{width} of {room}, at most {share}", width=shown(found.width, decimals=2),
               room=shown(found.room, decimals=2), share=shown(_ROOM * found.room, decimals=2))  # fmt: skip
    foot = mm(found.foot - found.height / 2) + h / 2
    return [
        Figure("figure_height", "Height of figures", found.height, "length", _SHAPE, chosen, decimals=2),
        figure("number_width", "Widest number", wide, _SHAPE, decimals=2),
        words("numbers_fit", "Numbers fit", "yes" if found.fits else "no", _SHAPE, fits),
        figure("figure_foot", "Foot of figures at", foot, "half their height beyond the line's end (common practice, "
               "no source)", say("{sum} from the edge", sum=foot), decimals=2),
        figure("figure_step", "Figure to figure", num(WIDTH + GAP) * h, _SHAPE, decimals=2),
    ]  # fmt: skip


def numbers_table(
    found: Numbers, labels: Sequence[str], columns: Sequence[Column], place: Callable[[int], tuple[Cell, ...]]
) -> Table:
    """The numbers in the order they are stamped, each centred on its line; `place` says where a line (from 0) is."""
    head = (
        *heads(number=("No.", "count"), label="Stamp", line=("At line", "count")),
        *heads(first_at=("First figure left by", "length", 2), foot_at=("Foot at", "length", 2)),
        *columns,
    )
    made: list[tuple[Cell, ...]] = []
    for line, label in enumerate(labels):
        if label:
            left = (number_width(len(label), found.height) - WIDTH * found.height) / 2
            made.append((len(made) + 1, label, line + 1, left, found.foot, *place(line)))
    source = "centred on the line, figures upright with the line below them (common practice, no source)"
    return Table("numbers", "Numbers to stamp", head, tuple(made), "number", ("label", "line", "foot_at"), source)


def with_feet(table: Table, numbers: Numbers, labels: Sequence[str]) -> Table:
    """The table of lines with where the foot of each line's figure stands, counted from the edge as the lines are."""
    made = tuple((*row, numbers.foot if label else None) for row, label in zip(table.rows, labels, strict=True))
    columns = (*table.columns, Column("foot_at", "Its foot at", "length", 2))
    return replace(table, columns=columns, rows=made, setting=(*table.setting, "foot_at"))


def order_table(kind: str) -> Table:
    """The order of work on a `drum` or a `strip`."""
    every = [row["what"] for row in rows("indexing/marking_order.csv") if row["kind"] in (kind, "both")]
    columns = (Column("number", "No.", "count"), Column("what", "Order of work"))
    source = "amateur notes on dial making; common practice, no source"
    return Table("order", "Order of work", columns, tuple(enumerate(every, 1)), source=source)


def number_notes(found: Numbers) -> list[Note]:
    """Room, and which way the figures run."""
    notes = []
    if not found.fits:
        wide, room = shown(found.width, decimals=2), shown(found.room, decimals=2)
        notes.append(warning("The widest number takes {wide} of {room} from number to number: number fewer lines, or "
            "take smaller punches.", wide=wide, room=room))  # fmt: skip
    way = "Before the first blow: which way is it read, and does the reading rise as the part is turned to advance?"
    return [*notes, info(way)]
