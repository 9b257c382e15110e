"""Where the program writes: how large it is, and what it can write whatever its encoding."""

from __future__ import annotations

import codecs
import os
import sys
from collections.abc import Mapping

# What a stream without the glyph gets instead.
_INSTEAD = {
    "°": " deg", "±": "+/-", "×": "x", "·": "-", "÷": "/", "≤": "<=", "≥": ">=", "≈": "~", "½": "1/2", "¼": "1/4",
    "¾": "3/4", "²": "^2", "³": "^3", "µ": "u", "Ø": "dia ", "ø": "dia ", "–": "-", "—": "-", "−": "-", "…": "...",
    "‘": "'", "’": "'", "“": '"', "”": '"', "■": "#", "─": "-", "→": "->", "←": "<-", "↑": "^", "↓": "v",
    "│": "|", "═": "=", "║": "|", "•": "o", "░": ".", "▒": ":", "█": "#", **dict.fromkeys("┌┐└┘├┤┬┴┼", "+"),
}  # fmt: skip


def _nearest(error: UnicodeError) -> tuple[str, int]:
    """For the codecs: the nearest that can be written, for characters that cannot."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    missing = error.object[error.start : error.end]
    return "".join(_INSTEAD.get(c, "?") for c in missing), error.end


codecs.register_error("nearest", _nearest)


def nearest(text: str, encoding: str = "ascii") -> str:
    """A text in the characters of an encoding, the nearest of them for those it has not.

    >>> nearest("Ø 12 ±0.05 × 90°")
    'dia  12 +/-0.05 x 90 deg'
    """
    return text.encode(encoding, "nearest").decode(encoding)


def fit_output() -> None:
    """Let stdout and stderr write what they can of every text, and something near it for the rest."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="nearest")


def size(environ: Mapping[str, str] = os.environ) -> tuple[int, int]:
    """Columns and rows as Textual finds them out: the environment may say, else the terminal."""
    told = [int(word) if word.isdecimal() else 0 for word in (environ.get("COLUMNS", ""), environ.get("LINES", ""))]
    try:
        seen = os.get_terminal_size(sys.__stdout__.fileno() if sys.__stdout__ else 1)
    except (OSError, ValueError):
        seen = os.terminal_size((80, 24))
    return told[0] or seen.columns or 80, told[1] or seen.lines or 24
