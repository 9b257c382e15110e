"""Reading lists as people write them: `20 25 30, 65, 127`, `1-10 x 0.5, 10.2`, `15,16,17;21,23`."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from engine.base.refusals import BadInput
from engine.base.rounding import significant
from engine.base.tool import Tool
from engine.base.units import parse_length

if TYPE_CHECKING:
    from engine.base.kinds import Ask

_LONGEST = 2000  # more entries than any shop owns; beyond it a range was mistyped


def _entries(given: object, ask: Ask) -> list[object]:
    if isinstance(given, list | tuple):
        return list(given)
    if isinstance(given, int | float) and not isinstance(given, bool):
        return [given]
    text = _join_decimal_lists(str(given)).replace(";", ",").replace("\n", ",")
    return [part for part in text.split(",") if part.strip()]


def _join_decimal_lists(text: str) -> str:
    """A list written with blanks alone gets commas; one with commas or ranges is left as it is."""
    pieces = text.split()
    return ",".join(pieces) if len(pieces) > 1 and text.isascii() and all(map(str.isdecimal, pieces)) else text


def _too_long(ask: Ask, given: object) -> BadInput:
    return BadInput(ask.label.lower(), given, f"a list of at most {_LONGEST} entries")


def read_counts(given: object, ask: Ask, unit: str) -> tuple[int, ...]:
    """Read whole numbers; `20-65 x 5` is a range, an entry may be written twice.

    >>> from engine.base.kinds import Ask
    >>> read_counts("20-35 x 5, 127, 20", Ask("Wheels", "counts", "", "", True, low=1, high=500), "mm")
    (20, 25, 30, 35, 127, 20)
    """
    found: list[int] = []
    for entry in _entries(given, ask):
        for piece in _count_pieces(entry):
            low, high = ask.low or 0, ask.high or 100_000
            if piece is None or not low <= piece <= high:
                span = f"{significant(low)} to {significant(high)}"
                what = f"whole numbers from {span} with commas between (such as {ask.example or '20, 25'})"
                raise BadInput(ask.label.lower(), entry, what)
            found.append(piece)
        if len(found) > _LONGEST:
            raise _too_long(ask, given)
    return tuple(found)


def _count_pieces(entry: object) -> list[int | None]:
    if isinstance(entry, int) and not isinstance(entry, bool):
        return [entry]
    text = str(entry).strip()
    if text.isascii() and text.isdecimal() and len(text) <= 6:  # most are; a pattern takes longer
        return [int(text)]
    span = re.fullmatch(r"([0-9]{1,6})\s*(?:-|–|to)\s*([0-9]{1,6})(?:\s*[x×]\s*([0-9]{1,6}))?", text)
    if span:
        step = int(span[3] or 1)
        wide = int(span[2]) - int(span[1])
        if step == 0 or wide < 0 or wide / step > _LONGEST:
            return [None]
        return list(range(int(span[1]), int(span[2]) + 1, step))
    if re.fullmatch(r"[0-9]{1,6}(?:\s+[0-9]{1,6})*", text):
        return [int(part) for part in text.split()]
    return [None]


def read_groups(given: object, ask: Ask, unit: str) -> tuple[tuple[int, ...], ...]:
    """Read groups of whole numbers, with semicolons between groups (index plates).

    >>> from engine.base.kinds import Ask
    >>> read_groups("15,16;21", Ask("Plates", "groups", "", "", True, low=2, high=500), "mm")
    ((15, 16), (21,))
    """
    parts: list[Any] = list(given) if isinstance(given, list | tuple) else list(str(given).split(";"))
    if parts and all(isinstance(p, int) for p in parts):
        parts = [parts]
    if len(parts) > 60:
        raise BadInput(ask.label.lower(), given, "at most 60 groups")
    groups = tuple(read_counts(p, ask, unit) for p in parts if not (isinstance(p, str) and not p.strip()))
    if not groups or not all(groups):
        raise BadInput(ask.label.lower(), given, f"numbers, groups between semicolons (such as {ask.example})")
    return groups


def _spread(entry: str, unit: str) -> list[Fraction] | None:
    """The sizes of a range such as `1-10 x 0.5`, exactly; None if it is no range."""
    span = re.fullmatch(r"(.+?)\s*(?:-|–|to)\s*(.+?)\s*[x×]\s*(.+)", entry)
    if not span:
        return None
    ends = [parse_length(part, unit) for part in span.groups()]
    if any(e is None for e in ends):
        return None
    first, last, step = (e for e in ends if e is not None)
    if step <= 0 or last < first or (last - first) / step > _LONGEST:
        return None
    return [first + i * step for i in range(int((last - first) / step) + 1)]


def read_lengths(given: object, ask: Ask, unit: str) -> tuple[float, ...]:
    """Read lengths; `1-10 x 0.5` is a range.

    >>> from engine.base.kinds import Ask
    >>> read_lengths("1-2 x 0.5, 3/8in", Ask("Wires", "lengths", "", "", True, low=0.0, high=50), "mm")
    (1.0, 1.5, 2.0, 9.525)
    """
    return tuple(tool.diameter for tool in read_drills(given, ask, unit))


def read_drills(given: object, ask: Ask, unit: str) -> tuple[Tool, ...]:
    """Read drills by size or name, in the order given, each with the name it was written by: `1-10 x 0.5, 10.2, #1-#60, A-Z,
    1/16-1/2 x 1/64` (number and letter sizes: ASME B94.11M, see engine.drilling.sizes).

    >>> from engine.base.kinds import Ask
    >>> [t.name for t in read_drills("1-2 x 0.5, 3/8", Ask("Drills", "drills", "", "", True, high=50), "mm")]
    ['1', '1.5', '2', '3/8']
    >>> [t.name for t in read_drills("1/16 5/64 #7 F", Ask("Drills", "drills", "", "", True, high=50), "inch")]
    ['1/16', '5/64', '#7', 'F']
    """
    found: list[Tool] = []
    for entry in _entries(given, ask):
        tools = _named_range(entry) or _sizes(entry, unit) or _apart(entry, unit)
        low, high = ask.low or 0.0, ask.high or 1000.0
        if not tools or not all(low < t.diameter <= high for t in tools):
            raise BadInput(ask.label.lower(), entry, f"sizes or ranges with commas between (such as {ask.example})")
        found.extend(tools)
        if len(found) > _LONGEST:
            raise _too_long(ask, given)
    return tuple(found)


def _apart(entry: object, unit: str) -> list[Tool]:
    """Sizes with blanks alone between them, if each is one by itself; `1 1/4` is one size and may not stand among them."""
    pieces = str(entry).split()
    whole = any(a.isdecimal() and "/" in b for a, b in pairwise(pieces))
    if whole or len(pieces) < 2 or len(pieces) > _LONGEST:
        return []
    each = [_named_range(piece) or _sizes(piece, unit) for piece in pieces]
    return [tool for tools in each for tool in tools] if all(each) else []


def _named_range(entry: object) -> list[Tool]:
    text = str(entry).strip()
    if not text[:1].isalpha() and text[:1] != "#":
        return []
    span = re.fullmatch(r"(#\s*[0-9]{1,3}|[A-Za-z])(?:\s*(?:-|–|to)\s*(#?\s*[0-9]{1,3}|[A-Za-z]))?", text)
    if not span:
        return []
    from engine.drilling.sizes import named_between

    return [Tool(name, diameter) for name, diameter in named_between(span[1], span[2] or span[1])]


def _sizes(entry: object, unit: str) -> list[Tool]:
    if isinstance(entry, str) and (spread := _spread(entry.strip(), unit)):
        inch = "/" in entry
        return [Tool(_name(size, inch, unit), float(size)) for size in spread]
    size = parse_length(entry, unit)
    if size is None:
        return []
    return [Tool(str(entry).strip(), float(size))]


def _name(size: Fraction, inch_fraction: bool, unit: str) -> str:
    if inch_fraction:
        inches = size / Fraction(127, 5)
        whole, rest = divmod(inches, 1)
        return " ".join(filter(None, [str(whole) if whole else "", str(rest) if rest else ""]))
    shown = size / Fraction(127, 5) if unit == "inch" else size
    return significant(float(shown))


def read_words(given: object, ask: Ask, unit: str) -> tuple[str, ...]:
    """Read words with commas between.

    >>> from engine.base.kinds import Ask
    >>> read_words("M4, M5 ,1/4 UNC", Ask("Taps", "words", "", "", True), "mm")
    ('M4', 'M5', '1/4 UNC')
    """
    entries = [str(e).strip() for e in _entries(given, ask)]
    if len(entries) > _LONGEST:
        raise _too_long(ask, given)
    for entry in entries:
        if not entry.isprintable() or len(entry) > 60:
            raise BadInput(ask.label.lower(), ascii(entry[:40]), "short words with commas between")
    return tuple(entries)


def read_numbers(given: object, ask: Ask, unit: str) -> tuple[float, ...]:
    """Read plain numbers (spindle speeds), in rising order.

    >>> from engine.base.kinds import Ask
    >>> read_numbers("130 300, 1000", Ask("Speeds", "speeds", "", "", True, low=1, high=20000), "mm")
    (130.0, 300.0, 1000.0)
    """
    found: list[float] = []
    for entry in _entries(given, ask):
        for word in str(entry).split():
            low, high = ask.low or 0, ask.high or 1e6
            good = re.fullmatch(r"[0-9]{1,6}(?:\.[0-9]{1,3})?", word) and low <= float(word) <= high
            if not good:
                span = f"{significant(low)} to {significant(high)}"
                raise BadInput(ask.label.lower(), word, f"numbers from {span} (such as {ask.example})")
            found.append(float(word))
    if len(found) > _LONGEST:
        raise _too_long(ask, given)
    return tuple(sorted(found))
