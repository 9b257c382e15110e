"""The shop: a first choice of bench, then what one has, in groups, one question at a time, each saved as it is said."""

from __future__ import annotations

from textual import events

from engine.shop.file import shop_path
from engine.shop.questions import SAME
from tui import pictures
from tui.commands import Command
from tui.editing import LineEdit
from tui.glyphs import plain
from tui.lines import Line, fitted, line
from tui.panes import frame
from tui.panes.shop_view import BENCHES, choices_lines, groups_lines, mistakes_lines, question_lines
from tui.screens.page import Page
from tui.shop_editor import ShopEditor

_MOVES = {"down": 1, "up": -1, "pagedown": 10, "pageup": -10}


class ShopScreen(Page):
    """What this person owns: the groups, or one question of one of them."""

    PLACE = "shop"
    MANY_LINES = True
    COMMANDS = (
        Command("close", "Back", "Keep what was typed and go back.", "shop", means="leave"),
        Command("find", "Find", "The groups, and a line that finds a question by its words.", "shop", means="goto"),
        Command("undo", "Undo", "Forget what is typed; then take back what was changed.", "shop", means="back"),
    )

    def __init__(self, find: str = "") -> None:
        super().__init__()
        self.editor: ShopEditor | None = None
        self.choice = 0
        self.asking = False  # whether one question is open, or the groups
        self.kept = False  # whether the last key answered by itself: an Enter after it is no other answer
        self.find = LineEdit(find)
        self.at = 0  # the group or the found question in hand

    @property
    def hand(self) -> ShopEditor:
        """The editor, reading the file when the screen is first drawn."""
        if self.editor is None:
            self.editor = ShopEditor(self.session.shop_file or shop_path())
            self.at = 0 if self.find.text or not self.editor.groups else self.editor.next_group()
        return self.editor

    # Drawing

    def body(self, width: int, height: int) -> list[Line]:
        """The choice of a bench, the mistakes of a broken file, the groups, or a question."""
        hand = self.hand
        room = height - 2
        if hand.broken:
            middle, keys = mistakes_lines(hand.broken, width), [("Enter", "Read it again"), ("Esc", "Back")]
        elif not hand.exists:
            middle = choices_lines(str(hand.path), self.choice, width)
            keys = [("Enter", "Choose"), ("Esc", "Back")]
        elif self.asking:
            middle, keys = question_lines(hand, width, room), self._question_keys()
        else:
            middle = groups_lines(hand, self.find, self.at, width, room)
            keys = [("Enter", "Open"), ("↑ ↓", "Choose"), ("Ctrl+Z", "Undo"), ("Esc", "Back")]
        said = self.message or ("" if self.asking else hand.refusal)
        foot = frame.said(plain(said), width) if said else [frame.keys(keys, width)]
        room = height - 1 - len(foot)
        middle = [fitted(runs, width) for runs in middle[:room]]
        return [frame.tabs("shop", width, ""), *middle, *[line()] * max(room - len(middle), 0), *foot]

    def _question_keys(self) -> list[tuple[str, str]]:
        hand = self.hand
        keys = [("y", "Yes"), ("n", "No")] if hand.question.form == "have" else [("Enter", "Keep, next")]
        keys += [(SAME, "As the sample")] if hand.question.state == "sample" else []
        keys += [("Tab", "Skip"), ("↑ ↓", "Every question"), ("Ctrl+G", "Find"), ("Ctrl+Z", "Undo")]
        return [*keys, ("Esc", "Groups")]

    # Keys

    def typed(self, event: events.Key) -> bool:
        """Keys of the choice, the groups or the question."""
        if self.hand.broken:
            if event.key != "enter":
                return False
            self.hand.read()
            self._after("" if self.hand.broken else "Read.")
            return True
        if not self.hand.exists:
            return self._choice_key(event.key)
        return self._question_key(event) if self.asking else self._group_key(event)

    def _choice_key(self, key: str) -> bool:
        if key in ("up", "down", "tab", "shift+tab"):
            self.choice = (self.choice + (1 if key in ("down", "tab") else -1)) % len(BENCHES)
        elif key in ("1", "2", "3", "4"):
            self.choice = int(key) - 1
            self._begin()
        elif key == "enter":
            self._begin()
        else:
            return False
        return True

    def _begin(self) -> None:
        bench, own, _ = BENCHES[self.choice]
        self._after(self.hand.begin(bench, own))
        self.session.unit = self.session.shop.unit
        if own and self.hand.exists:
            self.hand.open_group(0)
            self.asking = True

    def _group_key(self, event: events.Key) -> bool:
        key, typed = event.key, self.find.text.strip()
        hits = self.hand.found(typed) if typed else []
        last = max(len(hits) if typed else len(self.hand.groups), 1) - 1
        step = {"tab": 1, "shift+tab": -1, **_MOVES}.get(key)
        if step:
            self.at = min(max(self.at + step, 0), last)
        elif key == "enter":
            if typed and hits:
                self.hand.open(hits[min(self.at, last)].place)
            elif not typed:
                self.hand.open_group(self.at)
            self.asking = bool(hits) or not typed
        elif self.find.key(key, event.character):
            self.at = 0
        else:
            return False
        return True

    def _question_key(self, event: events.Key) -> bool:
        key, hand = event.key, self.hand
        kept, self.kept = self.kept, False
        if kept and key == "enter" and not hand.changed:
            self.message = "That was kept as you pressed it. Enter once more passes this one by."
            return True
        said = True  # whether the answer is complete, so that the next question comes up
        if key in _MOVES:
            self._after(hand.step(_MOVES[key])[0])
            return True
        if key in ("tab", "shift+tab"):
            self._next(-1 if key == "shift+tab" else 1)
            return True
        if key == "enter":
            self._after(hand.keep())
        elif hand.question.form == "have" and key in ("y", "n"):
            self._after(hand.say(key))
            self.kept = True
        elif event.character == SAME and (not hand.line.text or hand.question.form == "have"):
            self._after(hand.say(SAME))
            self.kept = True
        elif key == "space" and hand.question.ask.choices and hand.question.form == "answer":
            hand.cycle()
            said = False
        else:
            return hand.key(key, event.character)
        if said and not hand.refusal and not hand.broken:
            self._next(1)
        return True

    def _next(self, by: int) -> None:
        """The next question that comes up by itself; after the last one the groups."""
        message = self.message
        said, more = self.hand.step(by, asked=True)
        self._after(said)
        self.message = said or message
        if not more:
            self._to_groups()

    def _to_groups(self) -> None:
        group = self.hand.question.group
        self.asking, self.kept, self.find = False, False, LineEdit()
        self.at = next(i for i, one in enumerate(self.hand.groups) if one.title == group)

    def pasted(self, text: str) -> None:
        """Pasted text is typed, lines as a list."""
        if self.hand.exists and not self.hand.broken:
            (self.hand if self.asking else self.find).insert(text.replace("\n", ", "))

    def _after(self, said: str) -> None:
        """Show what was said; the whole program answers anew for the changed shop."""
        self.message = said
        if said:
            unit = self.session.shop.unit
            self.session.reload_shop()
            self.owner.to_terminal(pictures.begin(self.session.shop.pictures))
            self.owner.voice.on = self.session.shop.voice or self.owner.voice.on
            if self.session.shop.unit != unit:
                self.session.unit = self.session.shop.unit

    def action_undo(self) -> None:
        """Forget what was typed, or take the last change back."""
        if self.hand.exists and not self.hand.broken:
            self._after(self.hand.undo())
            self.redraw()

    def action_find(self) -> None:
        """Back to the groups and their line."""
        if self.asking:
            self._after(self.hand.leave())
            self._to_groups()
        self.redraw()

    def action_close(self) -> None:
        """From a question to the groups, from there to where one was; what was typed is kept, or remembered and said."""
        if self.asking:
            self._after(self.hand.leave())
            self._to_groups()
            self.redraw()
            return
        self.dismiss()
