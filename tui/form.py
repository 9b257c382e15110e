"""One operation's form: what is typed in each field, where the caret is, and the editing of it. No Textual here.

Until something is typed the form holds the operation's example, so that there is an answer on the screen at once.
The first key typed clears the example from every field: a figure of somebody else's job can never slip into an answer.
"""

from __future__ import annotations

import re

from engine.base.declare import Ask, asks
from engine.base.operation import Operation
from engine.base.quantity import DIMENSIONS

LONGEST = 200  # characters in a field
_BARE = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)")
_UNIT_KINDS = ("length", "diameter", "travel", "quantity", "lengths", "drills")


def with_unit(text: str, ask: Ask, unit: str) -> str:
    """What was typed, with the unit written behind each bare number, so that it stays true when the display
    unit is switched.

    >>> from engine.base.declare import Ask
    >>> with_unit("1,5; 3/8", Ask("Wires", "lengths", "", "", True, dimension="length"), "mm")
    '1,5 mm; 3/8'
    """
    if ask.kind not in _UNIT_KINDS:
        return text
    dimension = DIMENSIONS[ask.dimension or "length"]
    if dimension.metric == dimension.inch:
        return text
    name = dimension.inch if unit == "inch" else dimension.metric
    if ask.kind in ("lengths", "drills"):
        pieces = re.split(r"(\s*;\s*|,\s+)", text)
        return "".join(f"{p} {name}" if _BARE.fullmatch(p) else p for p in pieces)
    return f"{text.strip()} {name}" if _BARE.fullmatch(text.strip()) else text


class Form:
    """The typed side of an operation."""

    def __init__(self, operation: Operation, unit: str = "mm") -> None:
        self.operation = operation
        self.asks = asks(operation.inputs)
        self.names = list(self.asks)
        self.example = {k: str(v) for k, v in operation.example.items() if k in self.asks}
        if unit != "mm":
            self.example = {k: with_unit(v, self.asks[k], "mm") for k, v in self.example.items()}
        self.texts: dict[str, str] = {}
        self.touched = False
        self.at = 0
        self.caret = 0
        self.fresh = True
        self._put_aside: dict[str, str] = {}

    @property
    def name(self) -> str:
        """The field in hand."""
        return self.names[self.at]

    @property
    def ask(self) -> Ask:
        """The question of the field in hand."""
        return self.asks[self.name]

    def text(self, name: str) -> str:
        """What a field shows."""
        return (self.texts if self.touched else self.example).get(name, "")

    def given(self) -> dict[str, str]:
        """What the operation is told."""
        source = self.texts if self.touched else self.example
        return {name: text for name, text in source.items() if text.strip()}

    def fill(self, given: dict[str, str]) -> None:
        """Put values in as if they had been typed."""
        self.texts = {name: text[:LONGEST] for name, text in given.items() if name in self.asks}
        self.touched = True
        self.at = next((i for i, name in enumerate(self.names) if name in self.texts), 0)
        self._arrive()

    # Moving between fields

    def go(self, index: int) -> None:
        """Take another field in hand; what it holds is replaced by the next thing typed, or edited after an arrow."""
        self.at = index % len(self.names)
        self._arrive()

    def step(self, by: int) -> None:
        """The next field, or the one before."""
        self.go(self.at + by)

    def _arrive(self) -> None:
        self.caret = len(self.text(self.name))
        self.fresh = True

    # Editing

    def insert(self, text: str) -> None:
        """Type characters at the caret; in a field just arrived at they replace what is there."""
        typed = "".join(c if c.isprintable() else " " for c in text)
        self._own(keep=not self.fresh)
        now = self.texts.get(self.name, "")
        room = LONGEST - len(now)
        typed = typed[: max(room, 0)]
        self.texts[self.name] = now[: self.caret] + typed + now[self.caret :]
        self.caret += len(typed)

    def _own(self, keep: bool) -> None:
        """Make the field the person's own: the example goes, save the field being edited."""
        kept = self.text(self.name) if keep else ""
        if not self.touched:
            self.texts, self.touched = {}, True
        self.texts[self.name] = kept
        self.caret = min(self.caret, len(kept))
        self.fresh = False

    def move(self, to: str) -> None:
        """Move the caret: `left`, `right`, `home` or `end`."""
        now = len(self.text(self.name))
        steps = {"left": max(self.caret - 1, 0), "right": min(self.caret + 1, now), "home": 0, "end": now}
        self.caret = steps[to]
        self.fresh = False

    def rub_out(self, forward: bool = False) -> None:
        """Backspace, or Delete (which empties a field just arrived at)."""
        if not self.text(self.name):
            return
        wipe = forward and self.fresh
        self._own(keep=not wipe)
        now, at = self.texts[self.name], self.caret
        if wipe:
            return
        if forward:
            self.texts[self.name] = now[:at] + now[at + 1 :]
        elif at:
            self.texts[self.name] = now[: at - 1] + now[at:]
            self.caret -= 1

    def wipe(self) -> None:
        """Empty the field in hand."""
        self._own(keep=False)

    def clear(self) -> None:
        """Empty the whole form, so that it shows the example again; once more brings back what was typed."""
        if self.touched:
            self._put_aside, self.texts, self.touched = self.texts, {}, False
        elif self._put_aside:
            self.texts, self._put_aside, self.touched = self._put_aside, {}, True
        self._arrive()

    def cycle(self, choices: tuple[str, ...], by: int = 1) -> None:
        """Put the next of a few choices in the field in hand; after the last it is empty again."""
        ring = ["", *choices]
        now = self.text(self.name).strip().casefold() if self.touched else ""
        place = next((i for i, c in enumerate(ring) if now and c.casefold().startswith(now)), 0)
        self._own(keep=False)
        self.texts[self.name] = ring[(place + by) % len(ring)]
        self._arrive()

    def change_unit(self, old: str) -> None:
        """Write the old unit behind every bare number before the display unit changes."""
        self.texts = {n: with_unit(t, self.asks[n], old) for n, t in self.texts.items()}
        self.example = {n: with_unit(t, self.asks[n], old) for n, t in self.example.items()}
        self._arrive()
