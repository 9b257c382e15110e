"""One operation's form: what is typed in each field, where the caret is, and the editing of it. No Textual here.

Until something is typed the form holds the operation's example, so that there is an answer on the screen at once.
The first key typed clears the example from every field: a figure of somebody else's job can never slip into an answer.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from engine.base.declare import asks
from engine.base.kinds import Ask
from tui.editing import LONGEST, MOVES, LineEdit
from tui.kept import Kept
from tui.wording import spoken


def labelled(said: str, questions: Mapping[str, Ask]) -> str:
    """A refusal with the form's labels for the names that the shell has for its fields.

    >>> from engine.indexing.hand_dial import HandDialInputs
    >>> labelled("divisions: wide cannot be used.", asks(HandDialInputs))
    'Lines on the dial: wide cannot be used.'
    """
    head, colon, rest = said.partition(": ")
    if colon and head in questions:
        said = f"{questions[head].label}: {rest}"
    for name in (name for name in questions if "_" in name and name in said):
        label = questions[name].label
        said = re.sub(rf"\b{name}\b", label[:1].lower() + label[1:], said)
    return said


class Form:
    """The typed side of what is declared: an operation's inputs, a set-up."""

    def __init__(self, inputs: type, example: Mapping[str, str], unit: str = "mm") -> None:
        self.asks = asks(inputs)
        self.names = list(self.asks)
        self.example = {k: str(v) for k, v in example.items() if k in self.asks}
        if unit != "mm":
            self.example = {k: self.asks[k].sort.with_unit(v, self.asks[k], "mm") for k, v in self.example.items()}
        self.texts: dict[str, str] = {}
        self.hand: Mapping[str, str] = {}  # what empty fields take from the part in hand
        self.touched = False
        self.as_left = False  # whether it holds what an earlier run left, and nothing else was typed yet
        self.unit = unit
        self.at = 0
        self.line = LineEdit()  # the field in hand
        self._put_aside: dict[str, str] = {}
        self._arrive()

    @property
    def name(self) -> str:
        """The field in hand."""
        return self.names[self.at]

    @property
    def ask(self) -> Ask:
        """The question of the field in hand."""
        return self.asks[self.name]

    def take(self, hand: Mapping[str, str]) -> None:
        """Let empty fields take what is in hand; the example goes where that says all it needs."""
        example = self.shows_example
        self.hand = hand
        if self.shows_example != example:
            self._arrive()

    @property
    def shows_example(self) -> bool:
        """Whether the example stands in the form: nothing is typed, and the part in hand does not say all it needs."""
        if self.touched:
            return False
        needed = (name for name, ask in self.asks.items() if ask.required and ask.from_shop is None)
        return not self.hand or any(name not in self.hand for name in needed)

    def text(self, name: str) -> str:
        """What a field shows."""
        return (self.example if self.shows_example else self.texts).get(name, "")

    def filled(self) -> dict[str, str]:
        """What empty fields take from the part in hand."""
        if self.shows_example:
            return {}
        return {name: told for name, told in self.hand.items() if not self.texts.get(name, "").strip()}

    def given(self) -> dict[str, str]:
        """What the operation is told."""
        source = self.example if self.shows_example else self.texts
        return {name: text for name, text in source.items() if text.strip()} | self.filled()

    def fill(self, given: dict[str, str]) -> None:
        """Put values in as if they had been typed."""
        self.as_left = False
        self.texts = {name: text[:LONGEST] for name, text in given.items() if name in self.asks}
        self.touched = True
        self.at = next((i for i, name in enumerate(self.names) if name in self.texts), 0)
        self._arrive()

    def take_up(self, kept: Kept) -> None:
        """Begin with what was typed in an earlier run; a bare number keeps the unit it was typed in."""
        texts = {name: text for name, text in kept.texts.items() if name in self.asks}
        if kept.unit != self.unit:
            texts = {n: self.asks[n].sort.with_unit(t, self.asks[n], kept.unit) for n, t in texts.items()}
        if texts:
            self.fill(texts)
            self.as_left = True

    # Moving between fields

    def go(self, index: int) -> None:
        """Take another field in hand; what it holds is replaced by the next thing typed, or edited after an arrow."""
        self.at = index % len(self.names)
        self._arrive()

    def step(self, by: int) -> None:
        """The next field, or the one before."""
        self.go(self.at + by)

    def _arrive(self) -> None:
        self.line.put(self.text(self.name))

    # Editing

    @property
    def fresh(self) -> bool:
        """Whether the next character typed replaces what the field in hand holds."""
        return self.line.fresh

    def key(self, key: str, character: str | None = None) -> bool:
        """Act on an editing key in the field in hand; True if it was one."""
        before = self.line.text
        used = self.line.key(key, character)
        idle = key == "space" and before == self.line.text
        if used and key not in MOVES and not idle and (before or self.line.text):
            self._own()
        return used

    def insert(self, text: str) -> None:
        """Type or paste characters into the field in hand."""
        self.line.insert(text)
        self._own()

    def _own(self) -> None:
        """What the field holds is the person's own: the example goes from every other."""
        self.as_left = False
        if not self.touched:
            self.texts, self.touched = {}, True
        self.texts[self.name] = self.line.text

    def clear(self) -> None:
        """Empty the whole form, so that it shows the example again; once more brings back what was typed."""
        self.as_left = False
        if self.touched:
            self._put_aside, self.texts, self.touched = self.texts, {}, False
        elif self._put_aside:
            self.texts, self._put_aside, self.touched = self._put_aside, {}, True
        self._arrive()

    def cycle(self, choices: tuple[str, ...], by: int = 1) -> None:
        """Put the next of a few choices in the field in hand; after the last it is empty again."""
        ring = ["", *map(spoken, choices)]
        now = self.text(self.name).strip().casefold() if self.touched else ""
        place = next((i for i, c in enumerate(ring) if now and c.casefold().startswith(now)), 0)
        self.line.put(ring[(place + by) % len(ring)])
        self._own()

    def change_unit(self, old: str) -> None:
        """Write the old unit behind every bare number before the display unit changes."""
        self.unit = "inch" if old == "mm" else "mm"
        self.texts = {n: self.asks[n].sort.with_unit(t, self.asks[n], old) for n, t in self.texts.items()}
        self.example = {n: self.asks[n].sort.with_unit(t, self.asks[n], old) for n, t in self.example.items()}
        self._arrive()
