"""A voice, if it is wanted: what is to be set next, said by a speech program of this machine; a bell at a count's end.

Nothing waits for it: the program is started and left to itself, and what it still says is cut off by the next words.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from subprocess import Popen

# Speech programs by their command, each told the words as its last argument.
PROGRAMS = ("espeak-ng", "spd-say", "espeak", "say")
_LONGEST = 300  # characters that are spoken: more would outlast the cut
_READ_AS = (
    (r"\brev/min\b", "revs a minute"), (r"\bmm/rev\b", "millimetres a rev"), (r"\bmm\b", "millimetres"),
    (r"°", " degrees"), (r"Ø", "diameter "), (r"→", ", "), (r"×", " times "), (r"±", " plus or minus "),
    (r"(?<=\d)%", " percent"), (r" \+ ", " plus "), (r" · ", ", "), (r"#(?=\d)", "number "), (r"\s+", " "),
)  # fmt: skip


class Aloud(NamedTuple):
    """What a screen would say: what is in hand and its row (spoken again only when they change), the words, whether
    the row is a count's last, and whether a bell is to say so at once (where nothing comes after it)."""

    place: tuple[object, int]
    words: str
    last: bool = False
    rings: bool = False


def read_as(text: str) -> str:
    """Words as a voice reads them.

    >>> read_as("Cross slide in: 1 turn + 13 holes of 39, Ø12.5 mm")
    'Cross slide in: 1 turn plus 13 holes of 39, diameter 12.5 millimetres'
    """
    for written, said in _READ_AS:
        text = re.sub(written, said, text)
    return text.strip().lstrip("-")[:_LONGEST]


def installed() -> str:
    """The first speech program found on this machine, as its path; "" if there is none."""
    from shutil import which

    return next((path for name in PROGRAMS if (path := which(name))), "")


class Voice:
    """Whether it speaks, and what it said last."""

    def __init__(self, on: bool = False, ring: Callable[[], object] = lambda: None) -> None:
        self.on = on
        self._ring = ring
        self._said: Aloud | None = None
        self._started: list[Popen[Any]] = []

    def switch(self) -> str:
        """On or off; return what to say of it."""
        self.on, self._said = not self.on, None
        if not self.on:
            self._hush()
            return "The voice is off."
        program = installed()
        if not program:
            found = ", ".join(PROGRAMS[:-1])
            return f"No speech program is installed ({found} or {PROGRAMS[-1]}): only the bell at a count's end."
        return f"The voice is on: {program.rpartition('/')[2]} says what is to be set next; a bell ends a count."

    def follow(self, now: Aloud | None) -> None:
        """Say what has come up, if it is not what was said last; ring where a count has ended."""
        if not self.on or now is None:
            return
        before, self._said = self._said, now
        if before is not None and before.place == now.place:
            return
        if now.rings or (before is not None and before.last and now.place[0] != before.place[0]):
            self._ring()
        self._say(read_as(now.words))

    def _say(self, words: str) -> None:
        from subprocess import DEVNULL, Popen

        self._hush()
        program = installed()
        if not program or not words:
            return
        try:
            self._started.append(Popen([program, words], stdin=DEVNULL, stdout=DEVNULL, stderr=DEVNULL))
        except OSError:  # it went away since it was found: the screen says the same
            return

    def _hush(self) -> None:
        """Cut off what is still being said; one that does not listen is let go."""
        for one in self._started:
            if one.poll() is None:
                one.terminate()
        self._started = [one for one in self._started if one.poll() is None]
