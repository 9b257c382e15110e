"""Every command once: keys, foot line, help and the line that finds things are all read from here.

A command has keys that work inside a field (function keys and Ctrl) and a letter that works outside one.
"""

from __future__ import annotations

import os

from engine.base.records import dataclass
from engine.base.register import PANES

EVERYWHERE = "everywhere"
BENCH = "bench"


@dataclass(frozen=True, slots=True)
class Command:
    """One thing the person can do. `keys` are Textual's names, those that work inside a field first."""

    id: str
    keys: tuple[str, ...]
    label: str
    help: str
    where: str = BENCH
    action: str = ""  # Textual's action, where it is not the id

    def key(self, inside: bool) -> str:
        """The key to show: for inside a field, or the letter for outside one; never one that the terminal keeps."""
        if not inside:
            return key_name(self.keys[-1])
        there = [key for key in self.keys if _inside(key) and (key not in _KEPT or key in _ARRIVED)]
        return key_name(there[0]) if there else f"Esc {key_name(self.keys[-1])}"


# What the terminal of a desktop may keep for its own menu, help and full screen; a console has every key.
_KEPT = frozenset(("f1", "f10", "f11"))
_CONSOLES = ("linux", "vt100", "vt220", "")
_ARRIVED: set[str] = set(_KEPT) if os.environ.get("TERM", "") in _CONSOLES else set()


def arrived(key: str) -> None:
    """A key has reached the program: from now on it is named."""
    _ARRIVED.add(key)


def _inside(key: str) -> bool:
    """Whether a key is a command inside a field too."""
    return key.startswith("ctrl+") or key == "escape" or (key[0] == "f" and key[1:].isdigit())


_KEY_NAMES = {
    "slash": "/", "question_mark": "?", "plus": "+", "minus": "-", "escape": "Esc", "pageup": "PgUp",
    "pagedown": "PgDn", "shift+tab": "Shift+Tab", "tab": "Tab", "enter": "Enter", "space": "Space",
    "up": "↑", "down": "↓", "backspace": "Backspace",
}  # fmt: skip


def key_name(key: str) -> str:
    """A key as it is written for a person.

    >>> key_name("f1"), key_name("ctrl+w"), key_name("slash")
    ('F1', 'Ctrl+W', '/')
    """
    if key.startswith("ctrl+"):
        return "Ctrl+" + key[5:].upper()
    if len(key) > 1 and key[0] == "f" and key[1:].isdigit():
        return key.upper()
    return _KEY_NAMES.get(key, key)


def _pane_commands() -> tuple[Command, ...]:
    return tuple(
        Command(
            f"pane-{pane.id}",
            (pane.key,),
            pane.title,
            f"Go to {pane.title.lower()}; pressed again, to its next operation.",
            EVERYWHERE,
            f"pane('{pane.id}')",
        )
        for pane in PANES
    )


COMMANDS: tuple[Command, ...] = (
    Command("help", ("f1", "question_mark"), "Help", "Explain the field in hand and the open operation; list keys.",
            EVERYWHERE),
    *_pane_commands(),
    Command("jobs", ("f8", "j"), "Jobs", "Make a part from a plan, one step at a time.", EVERYWHERE),
    Command("units", ("f9", "u"), "mm/inch", "Show millimetres or inches; what was typed keeps its meaning.",
            EVERYWHERE),
    Command("quit", ("f10", "ctrl+q", "q"), "Quit", "Leave the program.", EVERYWHERE),
    Command("cautions", ("f11", "ctrl+k", "c"), "Cautions", "Show the cautions in full and answer their questions."),
    Command("shop", ("f12", "b"), "Shop", "Say what machines and tools you have.", EVERYWHERE),
    Command("set_up", ("ctrl+a", "s"), "Set-up", "Say how the work is held: grip, stick-out, support, power."),
    Command("in_hand", ("ctrl+b", "h"), "In hand", "Say once what is being made: material, bar, thread."),
    Command("goto", ("ctrl+g", "slash"), "Go to",
            "Type M10, #7, div 37 or plain words such as “how deep”, and go there.", EVERYWHERE),
    Command("leave", ("escape", "ctrl+y"), "Letter keys",
            "Leave the field, so that letters give commands; close a view."),
    Command("working", ("ctrl+w", "w"), "Working", "Show how each figure was worked out, and its source."),
    Command("unfold", ("ctrl+v", "v"), "All figures", "Show the figures that the card keeps behind, or fold them again."),
    Command("rows", ("ctrl+r", "r"), "Table", "Show a table of the answer in full; again for the next one."),
    Command("picture", ("ctrl+p", "p"), "Picture", "Show the picture that belongs to the answer."),
    Command("trouble", ("ctrl+t", "t"), "Trouble", "Show what goes wrong with this work and what to check first."),
    Command("large", ("ctrl+l", "l"), "Large", "Show the main figure large enough to read from two metres."),
    Command("operations", ("ctrl+o", "o"), "Operations", "List this pane's operations."),
    Command("next_operation", ("ctrl+n", "plus"), "Next", "Open the pane's next operation."),
    Command("previous_operation", ("ctrl+e", "minus"), "Previous", "Open the pane's previous operation."),
    Command("clear", ("ctrl+f", "0"), "Clear", "Empty the form; once more brings back what was typed."),
    Command("add_to_recipe", ("ctrl+s", "a"), "Add to recipe",
            "Add the open operation, as the form has it, to a recipe of yours."),
    Command("look", ("ctrl+d", "d"), "Dark or light", "Change between the dark and the light look.", EVERYWHERE),
)  # fmt: skip


def command(command_id: str) -> Command:
    """One command by its id."""
    return next(c for c in COMMANDS if c.id == command_id)
