"""The commands of the bench and of every screen; what a command of any screen is.

A command says what it does here; its keys are those of its meaning in tui/keys.py, and no others.
"""

from __future__ import annotations

from engine.base.records import dataclass
from engine.base.register import PANES
from tui.keys import MEANINGS, inside, key_name

EVERYWHERE = "everywhere"
BENCH = "bench"


@dataclass(frozen=True, slots=True)
class Command:
    """One thing the person can do. `means` is its meaning in tui/keys.py, where that is not the id."""

    id: str
    label: str
    help: str
    where: str = BENCH
    means: str = ""
    action: str = ""  # Textual's action, where it is not the id

    @property
    def keys(self) -> tuple[str, ...]:
        """Textual's names of its keys, those that work inside a field first."""
        return MEANINGS[self.means or self.id].keys

    def key(self, within: bool) -> str:
        """The key to show: for inside a field, or the letter for outside one; never one that the terminal keeps."""
        return inside(self.keys) if within else key_name(self.keys[-1])


def _pane_commands() -> tuple[Command, ...]:
    return tuple(
        Command(
            f"pane-{pane.id}",
            pane.title,
            f"Go to {pane.title.lower()}; pressed again, to its next operation.",
            EVERYWHERE,
            action=f"pane('{pane.id}')",
        )
        for pane in PANES
    )


COMMANDS: tuple[Command, ...] = (
    Command("help", "Help", "Explain the field in hand and the open operation; list keys.", EVERYWHERE),
    *_pane_commands(),
    Command("jobs", "Jobs", "Make a part from a plan, one step at a time.", EVERYWHERE),
    Command("units", "mm/inch", "Show millimetres or inches; what was typed keeps its meaning.", EVERYWHERE),
    Command("quit", "Quit", "Leave the program.", EVERYWHERE),
    Command("cautions", "Cautions", "Show the cautions in full and answer their questions."),
    Command("shop", "Shop", "Say what machines and tools you have.", EVERYWHERE),
    Command("set_up", "Set-up", "Say how the work is held: grip, stick-out, support, power."),
    Command("in_hand", "In hand", "Say once what is being made: material, bar, thread."),
    Command("goto", "Go to", "Type M10, #7, div 37 or plain words such as “how deep”, and go there.", EVERYWHERE),
    Command("leave", "Letter keys", "Leave the field, so that letters give commands; close a view."),
    Command("working", "Working", "Show how each figure was worked out, and its source.", means="why"),
    Command("unfold", "All figures", "Show the figures that the card keeps behind, or fold them again.", means="all"),
    Command("rows", "Table", "Show a table of the answer in full; again for the next one.", means="table"),
    Command("picture", "Picture", "Show the picture that belongs to the answer."),
    Command("trouble", "Trouble", "Show what goes wrong with this work and what to check first."),
    Command("large", "Large", "Show the main figure large enough to read from two metres."),
    Command("operations", "Operations", "List this pane's operations.", means="overview"),
    Command("next_operation", "Next", "Open the pane's next operation.", means="next"),
    Command("previous_operation", "Previous", "Open the pane's previous operation.", means="previous"),
    Command("clear", "Clear", "Empty the form; once more brings back what was typed."),
    Command("add_to_recipe", "Add to recipe", "Add the open operation, as the form has it, to a recipe of yours.",
            means="add"),
    Command("voice", "Voice", "Say the next setting aloud, by a speech program of this machine; a bell at a count's end.",
            EVERYWHERE),
    Command("look", "Dark or light", "Change between the dark and the light look.", EVERYWHERE),
)  # fmt: skip


_BY_ID = {one.id: one for one in COMMANDS}


def command(command_id: str) -> Command:
    """One command by its id."""
    return _BY_ID[command_id]
