"""Every key once, with the one meaning it has on every screen. Screens bind from here; the foot, F1, `tommybar --keys`,
the manual page and the README's table are written from here.

Each row is a meaning. Its keys are Textual's names: those that work inside a field first, the one that is named outside
one last. Letters, signs and Ctrl keys stand in one row only; the keys that move (Enter, Space, PgUp, PgDn, Backspace,
arrows) go on or back, whatever the screen shows.
"""

from __future__ import annotations

import os

from engine.base.records import dataclass
from engine.base.register import PANES


@dataclass(frozen=True, slots=True)
class Meaning:
    """What some keys do, wherever they do something."""

    id: str
    keys: tuple[str, ...]
    says: str

    @property
    def letter(self) -> str:
        """The key that is named outside a field."""
        return self.keys[-1]


_ROWS: tuple[tuple[str, str, str], ...] = (
    ("on", "pagedown enter space", "this is done, kept, opened or started: on to what follows; a foot pedal's keys"),
    ("back", "ctrl+z pageup z backspace", "take the last thing back: a line, a step, a change, an answer"),
    ("leave", "escape ctrl+y", "out of the field, the view, the screen; nothing else"),
    ("measure", "m", "a reading: measured, and judged by its limits"),
    ("aim", "f", "what a cut aims at, how the part goes on its mate, what the tool takes of what its dial says"),
    (
        "goto",
        "ctrl+g g slash",
        "go to a line, a step or a hole of the job; to a question of the shop; to an operation by a size or by words",
    ),
    ("overview", "ctrl+o o", "all there is in order: the pane's operations, the steps of a job, the plan of a part"),
    ("cautions", "f11 ctrl+k c", "the cautions in full, with their questions"),
    ("yes", "y", "yes, to the question that stands on the screen"),
    ("no", "n", "no, to the question that stands on the screen"),
    ("set_up", "ctrl+a s", "how the work is held: grip, stick-out, support, power"),
    ("in_hand", "ctrl+b h", "what is being made: material, bar, thread"),
    ("why", "ctrl+w w", "why: how a figure was worked out, why a step stands where it does, with the source"),
    ("all", "ctrl+v v", "all of it: the figures behind the card, all the words of a step, all that has to lie ready"),
    ("table", "ctrl+r r", "the table"),
    ("picture", "ctrl+p p", "the picture, the drawing"),
    ("trouble", "ctrl+t t", "what goes wrong, what to check first; the next mistake in a text"),
    ("large", "ctrl+l l", "the setting in letters that fill the screen"),
    ("words", "quotation_mark", "words of your own: a note to the line, the step or the job in hand"),
    ("history", "k", "what was kept of the job: all that happened, and your notes"),
    ("write", "ctrl+s i", "write a file: a job's sheet to print, a recipe's text"),
    ("add", "ctrl+n a", "add one: a part, a line, a step, the open operation to a recipe"),
    ("edit", "ctrl+e e", "change what stands there: the last reading, a recipe's text"),
    ("take_out", "ctrl+x x", "take it out: a line, a step, a machine, a job from the list"),
    ("again", "asterisk", "once more: the job for the next part, the step"),
    ("earlier", "less_than_sign", "move the line or the step one place earlier"),
    ("later", "greater_than_sign", "move the line or the step one place later"),
    ("next", "plus", "the pane's next operation"),
    ("previous", "shift+f2 shift+f3 shift+f4 shift+f5 shift+f6 shift+f7 minus", "the pane's operation before"),
    ("clear", "ctrl+f 0", "an empty form; once more brings back what was typed"),
    ("help", "f1 question_mark", "what is open, explained; every key"),
    ("jobs", "f8 j", "the jobs"),
    ("units", "f9 u", "millimetres or inches"),
    ("quit", "f10 ctrl+q q", "leave the program"),
    ("shop", "f12 b", "the shop: what machines and tools you have"),
    ("voice", "exclamation_mark", "the next setting aloud, or quiet again"),
    ("look", "ctrl+d d", "the dark look or the light one"),
)
_PANES = {f"pane-{one.id}": Meaning(f"pane-{one.id}", (one.key,), one.title) for one in PANES}
MEANINGS = {name: Meaning(name, tuple(keys.split()), says) for name, keys, says in _ROWS} | _PANES
MOVING = frozenset(("enter", "space", "pagedown", "pageup", "backspace", "escape"))

# What the terminal of a desktop may keep for its own menu, help and full screen; a console has every key.
_KEPT = frozenset(("f1", "f10", "f11"))
_CONSOLES = ("linux", "vt100", "vt220", "")
_ARRIVED: set[str] = set(_KEPT) if os.environ.get("TERM", "") in _CONSOLES else set()


def arrived(key: str) -> None:
    """A key has reached the program: from now on it is named."""
    _ARRIVED.add(key)


_NAMES = {
    "slash": "/", "question_mark": "?", "plus": "+", "minus": "-", "escape": "Esc", "pageup": "PgUp",
    "pagedown": "PgDn", "shift+tab": "Shift+Tab", "tab": "Tab", "enter": "Enter", "space": "Space",
    "up": "↑", "down": "↓", "backspace": "Backspace", "quotation_mark": '"', "asterisk": "*",
    "exclamation_mark": "!", "less_than_sign": "<", "greater_than_sign": ">",
}  # fmt: skip


def key_name(key: str) -> str:
    """A key as it is written for a person.

    >>> key_name("f1"), key_name("ctrl+w"), key_name("slash")
    ('F1', 'Ctrl+W', '/')
    """
    if key.startswith("ctrl+"):
        return "Ctrl+" + key[5:].upper()
    if key.startswith("shift+f"):
        return "Shift+F" + key[7:]
    if len(key) > 1 and key[0] == "f" and key[1:].isdigit():
        return key.upper()
    return _NAMES.get(key, key)


def named(meaning: str) -> str:
    """The key of a meaning, as it is named outside a field.

    >>> named("history"), named("words")
    ('k', '"')
    """
    return key_name(MEANINGS[meaning].letter)


def inside(keys: tuple[str, ...]) -> str:
    """The first of some keys that works inside a field and that the terminal does not keep; else Esc before the last."""
    there = [key for key in keys if works_inside(key) and (key not in _KEPT or key in _ARRIVED)]
    return key_name(there[0]) if there else f"Esc {key_name(keys[-1])}"


def works_inside(key: str) -> bool:
    """Whether a key is a command inside a field too."""
    return key.startswith(("ctrl+", "shift+f")) or key == "escape" or (key[0] == "f" and key[1:].isdigit())


def listed() -> list[tuple[str, str]]:
    """Every key with what it means; those of one meaning stand together, the letter first.

    >>> [keys for keys, _ in listed()[:3]]
    ['F2 to F7', 'Space Enter PgDn', 'Backspace z PgUp Ctrl+Z']
    """
    rows = [("F2 to F7", "the panes; pressed again, the pane's next operation")]
    for one in (one for one in MEANINGS.values() if one.id not in _PANES):
        each = [key_name(key) for key in reversed(one.keys)]
        rows.append((" ".join(each) if len(each) < 6 else f"{each[0]} {each[-1]} to {each[1]}", one.says))
    return rows


def print_keys(words: list[str]) -> int:
    """Print every key: `tommybar --keys`; return the exit code."""
    import sys
    from textwrap import wrap

    from engine.base.refusals import BadInput
    from tui.wording import speak_as_shop, spoken

    if words:
        print(BadInput("--keys", " ".join(words), "nothing behind it"), file=sys.stderr)
        return 2
    speak_as_shop(None)
    for keys, says in listed():
        print("\n".join(wrap(spoken(says), 100, initial_indent=f"{keys:<26}", subsequent_indent=" " * 26)))
    return 0
