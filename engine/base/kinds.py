"""The kinds of input, a class each: how it is read, what it takes in words, what a bare number in it means, how it is
written in a file; and the question that has one. A new kind is one class here (and its reader, where that belongs to a
family)."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from importlib import import_module
from typing import Any

from engine.base.quantity import DIMENSIONS
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.rounding import significant
from engine.base.words import Text, plain

# Patterns are compiled when they are first used: most answers need none of them, and compiling takes longer than reading.
_BARE = r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?|(?:\d+[\s-]+)?\d+\s*/\s*\d+"
_RANGE = r"(?<![\d./])(\d+(?:\.\d+)?)(\s*(?:-|–|to)\s*)(\d+(?:\.\d+)?)(\s*[x×]\s*)(\d+(?:\.\d+)?)(?![\d./])"
_WHOLE = r"[+-]?(?:0|[1-9][0-9]{0,9})"
_DECIMAL = r"[+-]?(?:0|[1-9][0-9]{0,9})\.[0-9]{1,9}"


LONGEST = 2000  # characters of an answer: a list of every drill that a shop may have
# More digits, and powers of ten farther from one, than any number of the bench has.
_ABSURD = r"\d{41}|\d[.,]?[eE][+-]?0*(?:1[6-9]|[2-9]\d|\d{3})"


@cache
def _reader(place: str) -> Callable[[object, Ask, str], Any]:
    module, function = place.split(":")
    found: Callable[[object, Ask, str], Any] = getattr(import_module(module), function)
    return found


class Kind:
    """One kind of input.

    `reader` is where the function that reads it lives, loaded when first used, so that asking for a length does not load
    the threads. `what` says what it takes. `bounded`: its bounds are said too. `a_size`: nought is a mistake unless the
    question says that it may be meant. `in_unit`: a bare number is in the unit of the screen. `between` splits a list.
    """

    name = ""
    reader = ""
    what = "a value"
    takes = ""  # what a form says it takes, where that is more than `what`
    bounded = False
    a_size = False
    in_unit = False
    between = ""

    def read(self, given: object, ask: Ask, unit: str) -> Any:
        """The value that was meant; BadInput if it cannot be."""
        return _reader(self.reader)(given, ask, unit)

    def default_words(self, default: Any) -> Text:
        """What an empty answer is taken as."""
        return significant(default) if isinstance(default, float | int) else str(default)

    def with_unit(self, text: str, ask: Ask, unit: str) -> str:
        """What was typed with the unit behind each bare number, so that it stays true in another unit."""
        dimension = DIMENSIONS[ask.dimension or "length"]
        if not self.in_unit or dimension.metric == dimension.inch:
            return text
        name = (dimension.inch if unit == "inch" else dimension.metric).strip()
        pieces = re.split(self.between, text) if self.between else [text.strip()]
        return "".join(f"{p} {name}" if self._bare(p.strip()) else p for p in pieces)

    def _bare(self, piece: str) -> bool:
        """Whether a piece is a number without its unit; a bare fraction is inches everywhere."""
        return bool(re.fullmatch(_BARE, piece)) and "/" not in piece

    def as_toml(self, typed: str, ask: Ask) -> Any:
        """The answer as a written file holds it."""
        return typed


class Number(Kind):
    """A bare number."""

    name, reader, what, bounded = "number", "engine.base.reading:read_number", "a number", True

    def as_toml(self, typed: str, ask: Ask) -> Any:
        """A plain number stays a number in the file."""
        return int(typed) if re.fullmatch(_WHOLE, typed) else float(typed) if re.fullmatch(_DECIMAL, typed) else typed


class Count(Number):
    """A whole number."""

    name, reader, what = "count", "engine.base.reading:read_count", "a whole number"


class Angle(Number):
    """An angle: `24d 30m`."""

    name, reader, what = "angle", "engine.base.reading:read_angle", "an angle"

    def default_words(self, default: Any) -> Text:
        """In degrees."""
        return f"{significant(default)}°"


class Quantity(Number):
    """A number of another dimension: a force, a power, a temperature."""

    name, reader, in_unit = "quantity", "engine.base.reading:read_other", True


class Length(Number):
    """A length: `17`, `3/8`, `40 thou`."""

    name, reader, what = "length", "engine.base.reading:read_length", "a length"
    a_size = in_unit = True

    def default_words(self, default: Any) -> Text:
        """In the unit of the screen."""
        return plain(float(default))


class Diameter(Length):
    """A length, or a drill's name."""

    name, reader = "diameter", "engine.base.reading:read_diameter"


class Travel(Length):
    """A travel per turn or a lead, exactly: `2`, `8 tpi`."""

    name, reader, bounded = "travel", "engine.base.reading:read_travel", False
    takes = "a length, or threads per inch"


class Choice(Kind):
    """One of a few words."""

    name, reader, bounded = "choice", "engine.base.reading:read_choice", True


class Flag(Kind):
    """Yes or no."""

    name, reader, what = "flag", "engine.base.reading:read_flag", "yes or no"

    def default_words(self, default: Any) -> Text:
        """In words."""
        return "yes" if default else "no"

    def as_toml(self, typed: str, ask: Ask) -> Any:
        """A truth value."""
        return ask.read("", typed, "mm")


class Words(Kind):
    """A short line of words."""

    name, reader, what = "text", "engine.base.reading:read_text", "a word"


class Counts(Kind):
    """Whole numbers: `20 25 30, 65`."""

    name, reader, what = "counts", "engine.base.lists:read_counts", "whole numbers with commas between"


class Groups(Kind):
    """Groups of whole numbers: `15,16,17;21,23`."""

    name, reader = "groups", "engine.base.lists:read_groups"
    what = "whole numbers with commas between, groups with semicolons"


class Lengths(Kind):
    """Lengths: `1-10 x 0.5, 10.2`."""

    name, reader, what = "lengths", "engine.base.lists:read_lengths", "lengths with commas between"
    a_size = in_unit = True
    between = r"(\s*[;,]\s*)"

    def with_unit(self, text: str, ask: Ask, unit: str) -> str:
        """The unit behind each number of a range too."""
        one = super().with_unit
        pieces = (one(piece, ask, unit) for piece in re.split(_RANGE, text))
        return one("".join(pieces), ask, unit)


class Drills(Lengths):
    """Drills by size or name."""

    name, reader, what, a_size = ("drills", "engine.base.lists:read_drills", "drills with commas between", False)


class List(Kind):
    """Words with commas between."""

    name, reader, what = "words", "engine.base.lists:read_words", "words with commas between"


class Speeds(Kind):
    """Spindle speeds."""

    name, reader, what = "speeds", "engine.base.lists:read_numbers", "speeds with commas between"


class ThreadKind(Kind):
    """A thread in any usual writing."""

    name, reader = "thread", "engine.threads.designation:read"
    what = "a thread in any usual writing"


class MaterialKind(Kind):
    """A material by the words people use."""

    name, reader, what = "material", "engine.cutting.materials:read", "a material by its usual name"


class HandwheelKind(Kind):
    """A handwheel of the shop, or travel per turn / lines."""

    name, reader, what = ("handwheel", "engine.indexing.handwheel:read", "a handwheel, or travel per turn / lines")


class Moves(Lengths):
    """A chain of moves: `3, 4.5, -2`."""

    between = r"(\s*;\s*|,\s+)"
    name, reader, what, a_size = ("moves", "engine.indexing.handwheel:read_moves", "moves with commas between", False)


class Pair(Lengths):
    """One length or two: `10`, `10 x 40`."""

    name, reader, what = "pair", "engine.base.reading:read_pair", "a diameter, or diameter x reach"
    between = r"(\s*[x×]\s*)"


class Part(Kind):
    """A nested model: a lathe in a shop."""

    name = "part"


KINDS: dict[str, Kind] = {
    kind.name: kind()
    for kind in (
        Number, Count, Angle, Quantity, Length, Diameter, Travel, Choice, Flag, Words, Counts, Groups, Lengths, Drills,
        List, Speeds, ThreadKind, MaterialKind, HandwheelKind, Moves, Pair, Part,
    )
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Ask:
    """One question: what it is called, what it takes, what an empty answer means."""

    label: str
    kind: str
    help: str
    example: str
    required: bool
    empty: Text = ""
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    dimension: str = ""
    from_shop: Callable[[Any], Any] | None = None
    part: type | None = None
    many: bool = False
    coarse: bool = False  # a bare size in inches is its coarse Unified thread

    @property
    def sort(self) -> Kind:
        """How this kind of input is read, said and written."""
        return KINDS[self.kind]

    def read(self, name: str, given: object, unit: str) -> Any:
        """The value that was meant; BadInput, naming the field, if it cannot be."""
        if isinstance(given, str) and (len(given) > LONGEST or re.search(_ABSURD, given)):
            shown = given if len(given) <= 40 else f"{given[:40]}…"
            raise BadInput(name, shown, f"at most {LONGEST} characters, and numbers between 1e-15 and 1e15")
        try:
            return self.sort.read(given, self, unit)
        except BadInput as refusal:
            if refusal.field == name:
                raise
            raise BadInput(name, refusal.given, refusal.accepted, _retitled(refusal, name)) from None


def _retitled(refusal: BadInput, name: str) -> str:
    """A refusal's own sentence under the field's name, so that the sentence always names the field."""
    sentence = str(refusal)
    own = f"{refusal.field}: "
    return f"{name}: " + (sentence.removeprefix(own) if sentence.startswith(own) else sentence)
