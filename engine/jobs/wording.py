"""Figures named in a recipe's words: `Turn to {blank.blank_diameter}` is shown with this shop's own number."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

_NAMED = re.compile(r"\{(?:([a-z][a-z0-9_-]{0,39})\.)?([a-z][a-z0-9_]{0,39})\}")


@dataclass(frozen=True, slots=True)
class From:
    """A figure taken by name from a step; `step` is empty where the step itself is meant."""

    step: str
    figure: str


def named_figures(text: str) -> tuple[From, ...]:
    """Return the figures that a line names.

    Examples
    --------
    >>> named_figures("Turn to {blank.blank_diameter}, at {rpm} {or so}.")
    (From(step='blank', figure='blank_diameter'), From(step='', figure='rpm'))
    """
    return tuple(From(found[1] or "", found[2]) for found in _NAMED.finditer(text))


def filled(text: str, words: Callable[[From], str]) -> str:
    """Return a line with every figure it names written out.

    Examples
    --------
    >>> filled("Turn to {blank.blank_diameter}.", lambda named: "25.897 mm")
    'Turn to 25.897 mm.'
    """
    return _NAMED.sub(lambda found: words(From(found[1] or "", found[2])), text)
