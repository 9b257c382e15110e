"""Published tables, kept as CSV under engine/data; the first lines of each file name its source."""

from __future__ import annotations

import os.path
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

# pathlib and importlib.resources would take longer to load than the tables of a first answer
_FOLDER = os.path.join(os.path.dirname(os.path.dirname(__file__)), "data")


def _text(name: str) -> str:
    with open(os.path.join(_FOLDER, name), encoding="utf-8") as file:
        return file.read()


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """Every row of a table under engine/data (`threads/iso261.csv`) as a mapping of column to text, in file order. They are
    shared: treat them as read-only.

    >>> rows("example.csv")[0]["name"]
    'alpha'
    """
    return tuple(rows_once(name))


def rows_once(name: str) -> Iterator[dict[str, str]]:
    """The same of a table whose rows somebody else keeps in a form of their own.

    >>> next(rows_once("example.csv"))["name"]
    'alpha'
    """
    head, *lines = [line for line in _text(name).splitlines() if line and not line.startswith("#")]
    if any('"' in line for line in lines):
        import csv  # only quoted cells need its reader, which is slower to load and to read

        cells: Iterable[list[str]] = csv.reader(lines)
    else:
        cells = (line.split(",") for line in lines)
    columns = head.split(",")
    return (dict(zip(columns, row, strict=True)) for row in cells)


def source(name: str) -> str:
    """The source that a table's first comment lines name, joined into one.

    >>> source("example.csv")
    'Source: none; a two-row table for the documentation of engine/base/tables.py.'
    """
    return " ".join(line[1:].strip() for line in _text(name).splitlines() if line.startswith("#"))
