"""The words of the trade that this shop uses. Every text passes through `spoken` at the door where it is shown."""

from __future__ import annotations

from functools import lru_cache

from engine.base.words import in_words

_words = "british"


def speak(words: str) -> None:
    """Use `british` or `american` words from now on."""
    global _words
    _words = words


def spoken(text: str) -> str:
    """A text in the words of the shop.

    >>> spoken("Clamp it in the vice")
    'Clamp it in the vice'
    """
    return text if _words == "british" else _american(text)


@lru_cache(8192)
def _american(text: str) -> str:
    return in_words(text, "american")
