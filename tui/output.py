"""What the doors print, whatever the encoding of the terminal, the pipe or the log they print to."""

from __future__ import annotations

import codecs
import sys

# What a stream without the glyph gets instead.
_INSTEAD = {
    "°": " deg", "±": "+/-", "×": "x", "·": "-", "÷": "/", "≤": "<=", "≥": ">=", "≈": "~", "½": "1/2", "¼": "1/4",
    "¾": "3/4", "²": "^2", "³": "^3", "µ": "u", "Ø": "dia ", "ø": "dia ", "–": "-", "—": "-", "−": "-", "…": "...",
    "‘": "'", "’": "'", "“": '"', "”": '"', "■": "#", "─": "-", "→": "->", "←": "<-", "↑": "^", "↓": "v",
}  # fmt: skip


def _nearest(error: UnicodeError) -> tuple[str, int]:
    """For the codecs: the nearest that can be written, for characters that cannot."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    missing = error.object[error.start : error.end]
    return "".join(_INSTEAD.get(c, "?") for c in missing), error.end


def fit_output() -> None:
    """Let stdout and stderr write what they can of every text, and something near it for the rest."""
    codecs.register_error("nearest", _nearest)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="nearest")
