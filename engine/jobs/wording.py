"""Figures named in a recipe's words: `Turn to {blank.blank_diameter}` is shown with this shop's own number."""

from __future__ import annotations

import re
from collections.abc import Callable

from engine.base.records import dataclass
from engine.base.words import Text, joined, shown, write  # noqa: F401 (an example uses the last two)


@dataclass(frozen=True, slots=True)
class Size:
    """A size of the recipe taken by name: its reading where there is one, else as it was planned."""

    name: str


SIZES = "sizes"  # `{sizes.margin}` names a size of the recipe, not a figure of a step

_NAMED = re.compile(r"\{(?:([a-z][a-z0-9_-]{0,39})\.)?([a-z][a-z0-9_]{0,39})\}")


@dataclass(frozen=True, slots=True)
class From:
    """A figure taken by name from a step; `step` is empty where the step itself is meant."""

    step: str
    figure: str


def named_figures(text: str) -> tuple[From, ...]:
    """Return the figures that a line names.

    >>> named_figures("Turn to {blank.blank_diameter}, at {rpm} {or so}.")
    (From(step='blank', figure='blank_diameter'), From(step='', figure='rpm'))
    """
    return tuple(From(found[1] or "", found[2]) for found in _NAMED.finditer(text))


def filled(text: str, words: Callable[[From], Text]) -> Text:
    """Return a line with every figure it names put in.

    >>> write(filled("Turn to {blank.blank_diameter}.", lambda named: shown(25.897)), "inch")
    'Turn to 1.0196 in.'
    """
    parts: list[Text] = []
    end = 0
    for found in _NAMED.finditer(text):
        parts += [text[end : found.start()], words(From(found[1] or "", found[2]))]
        end = found.end()
    return joined((*parts, text[end:]), "") if parts else text
