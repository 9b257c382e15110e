"""How the bench is looked at, and what a view gives back: known to every view, none of which it loads."""

from __future__ import annotations

from engine.base.answer import Caution
from engine.base.records import dataclass, field
from tui.lines import Line


@dataclass(frozen=True, slots=True)
class View:
    """What a view shows: its lines, title, a word at the right of that; and where it scrolls itself to, if it does."""

    lines: list[Line]
    title: str
    note: str = ""
    top: int | None = None
    asked: Caution | None = None
    asked_at: int | None = None  # in which line the question stands, where the view scrolls


@dataclass
class BenchState:
    """How the bench is looked at: which view is open, whether a field is being typed in."""

    view: str = "answer"
    editing: bool = True
    unfolded: bool = False  # whether the figures behind the card are shown too
    scroll: dict[str, int] = field(default_factory=dict)
    question: int = 0  # which of the cautions' questions is in hand
    follow: bool = False  # whether the view is to scroll to it, until it has been painted
    asked: Caution | None = None  # the question that can be read on the screen: y and n answer it

    @property
    def typing(self) -> bool:
        """Whether letters go into a field."""
        return self.editing and self.view not in ("help", "cautions", "large")
