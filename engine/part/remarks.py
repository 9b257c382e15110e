"""The comments of a part file while its lines are changed: each stays with the table or the key it was written to."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from engine.base.records import dataclass

_TABLE = re.compile(r"\s*\[{1,2}(?:part\.)?([a-z_]+)\]{1,2}")
_KEY = re.compile(r"\s*([a-z_]+)\s*=")
_LISTS = ("outside", "inside", "across")

Where = tuple[int, str, int]  # the piece, its list or table ("" for the head), the place in it; all from 0


@dataclass(frozen=True, slots=True)
class Remark:
    """Comments at one key of a table, "" for its heading: lines above it, and what stands beside it."""

    key: str
    above: tuple[str, ...] = ()
    beside: str = ""


def remarks(text: str) -> tuple[tuple[str, ...], Mapping[Where, tuple[Remark, ...]]]:
    """The comments at the head of a file, and those of each table.

    >>> head, found = remarks("# Ours.\\npart_version = 1\\n# Thin.\\n[[outside]] # the rim\\nsize = '5' # close\\n")
    >>> head, [(one.key, one.above, one.beside) for one in found[0, "outside", 0]]
    (('# Ours.',), [('', ('# Thin.',), '# the rim'), ('size', (), '# close')])
    """
    found: dict[Where, list[Remark]] = {}
    head: tuple[str, ...] | None = None
    above: list[str] = []
    here: Where = (0, "", 0)
    counts: dict[tuple[int, str], int] = {}
    pieces = 0
    for line in text.splitlines():
        stripped = line.strip()
        if stripped.startswith("#"):
            above.append(stripped)
        if not stripped or stripped.startswith("#"):
            continue
        table, key = _TABLE.match(line), _KEY.match(line)
        if table and table[1] == "part":
            pieces += 1
            here = (pieces - 1, "", 0)
        elif table:
            piece = max(pieces - 1, 0)
            at = counts.get((piece, table[1]), 0)
            counts[piece, table[1]] = at + 1
            here = (piece, table[1], at if table[1] in _LISTS else 0)
        if head is None:
            head, above = tuple(above), []
        name = "" if table or key is None else key[1]
        if above or _beside(line):
            found.setdefault(here, []).append(Remark(name, tuple(above), _beside(line)))
        above = []
    if above and head is not None:
        found.setdefault(here, []).append(Remark("", tuple(above)))
    return head or tuple(above), {where: tuple(every) for where, every in found.items()}


def _beside(line: str) -> str:
    """The comment behind a value; a hash in quotes is none."""
    quote = ""
    for place, sign in enumerate(line):
        if quote:
            quote = "" if sign == quote else quote
        elif sign in "\"'":
            quote = sign
        elif sign == "#":
            return line[place:].strip()
    return ""


def written(lines: Sequence[tuple[str, str]], kept: Sequence[Remark]) -> Iterator[tuple[str, int]]:
    """The lines of a table, each with its key ("" for the heading), and their comments; and from which line each comes.
    Those of a key that is gone stand above the table."""
    keys = {key for key, _ in lines}
    for number, (key, text) in enumerate(lines):
        mine = [one for one in kept if one.key == key or (number == 0 and one.key not in keys)]
        for one in mine:
            gone = [one.beside] if one.key != key and one.beside else []
            yield from ((words, number) for words in (*one.above, *gone))
        beside = "".join(f"  {one.beside}" for one in mine if one.key == key and one.beside)
        yield text + beside, number
