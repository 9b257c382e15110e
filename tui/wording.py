"""The words of the trade that this shop uses. Every text passes through `spoken` at the door where it is shown."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from engine.base.refusals import BadInput
from engine.base.words import in_words

if TYPE_CHECKING:
    from pathlib import Path

_words = "british"


def speak(words: str) -> None:
    """Use `british` or `american` words from now on."""
    global _words
    _words = words


def speak_as_shop(file: Path | None, unit: str = "") -> None:
    """Use the words of a shop file (None: the person's own) from now on, on a screen in `unit`, else in its own; those in
    use stay where it cannot be read, which is said by whoever needs it."""
    from engine.shop.file import load

    try:
        shop = load(file)
    except BadInput:
        return
    speak(shop.words_for(unit or shop.unit))


def spoken(text: str) -> str:
    """A text in the words of the shop.

    >>> spoken("Clamp it in the vice")
    'Clamp it in the vice'
    """
    return text if _words == "british" else _american(text)


@lru_cache(8192)
def _american(text: str) -> str:
    return in_words(text, "american")
