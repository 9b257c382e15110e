"""The line of known length: whoever measures it knows whether what is printed beside it is true to size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from engine.base.answer import Line, Picture
from engine.base.quantity import show
from engine.base.rounding import short

LENGTH = 100.0  # mm
TRUE_TEXT = 2.2  # mm: the height of words in what is true to size


def _line() -> Picture:
    ends = (Line(0, 0, LENGTH, 0, 1), Line(0, -2, 0, 2, 1), Line(LENGTH, -2, LENGTH, 2, 1))
    return Picture("line", "Line", ends, f"A line {short(LENGTH)} mm long.", true_size=True)


def true_strips(strips: Iterable[Picture], unit: str) -> Iterator[tuple[Picture, str]]:
    """What is printed 1:1, each with its words: the line first; nothing where there is no strip.

    >>> [words for _, words in true_strips([_line()], "inch")][0]
    'Measure this line: at true size it is 3.94 in long. Print at 100 %, not fitted to the page.'
    """
    found = tuple(strips)
    if found:
        length = show(LENGTH, "length", unit, decimals=0 if unit == "mm" else 2)
        yield _line(), f"Measure this line: at true size it is {length} long. Print at 100 %, not fitted to the page."
    yield from ((one, f"{one.title}, true to size when printed at 100 %.") for one in found)
