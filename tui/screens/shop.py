"""The shop: a first choice of bench, then every answer about it, each saved as it is left."""

from __future__ import annotations

from textual import events

from engine.shop.edit import Row
from engine.shop.file import shop_path
from tui.commands import Command
from tui.editing import edited
from tui.glyphs import plain
from tui.lines import Line, beside, cut, fitted, heading, line, wrapped
from tui.panes import frame
from tui.panes.form_view import accepts, empty_means
from tui.screens.page import Page
from tui.shop_editor import ShopEditor, title

# (bench, whether it is the person's own, what the choice says)
BENCHES = (
    ("metric", False, "A metric bench, ready made, to look round"),
    ("inch", False, "An inch bench, ready made, to look round"),
    ("metric", True, "Mine, step by step, in millimetres"),
    ("inch", True, "Mine, step by step, in inches"),
)
_LABEL_WIDTH = 30


class ShopScreen(Page):
    """What this person owns, one row at a time."""

    PLACE = "shop"
    COMMANDS = (
        Command("close", ("escape", "ctrl+y"), "Back", "Keep what was typed and go back.", "shop"),
        Command("take_out", ("ctrl+x",), "Take out", "Take the part in hand out of the shop.", "shop"),
        Command("undo", ("ctrl+z",), "Undo", "Bring back what the file says in this row.", "shop"),
    )

    def __init__(self) -> None:
        super().__init__()
        self.editor: ShopEditor | None = None
        self.choice = 0
        self.sure = False  # a part is taken out at the second press

    @property
    def hand(self) -> ShopEditor:
        """The editor, reading the file when the screen is first drawn."""
        if self.editor is None:
            self.editor = ShopEditor(self.session.shop_file or shop_path())
        return self.editor

    # Drawing

    def body(self, width: int, height: int) -> list[Line]:
        """The choice of a bench, the mistakes of a broken file, or the rows."""
        top = [frame.tabs("shop", width, "")]
        keys = [("↑ ↓", "Move"), ("Enter", "Keep, next"), ("Ctrl+X", "Take out"), ("Ctrl+Z", "Undo"), ("Esc", "Back")]
        if self.hand.broken:
            middle, keys = self._mistakes(width), [("Enter", "Read it again"), ("Esc", "Back")]
        elif not self.hand.exists:
            middle, keys = self._choices(width), [("1-4", "Choose"), ("Enter", "Take it"), ("Esc", "Back")]
        else:
            middle = self._rows(width, height - 2)
        said = self.hand.refusal or self.message
        foot = frame.keys(keys, width)
        if said and not (self.hand.exists and self.hand.refusal):  # a row shows its refusal itself
            foot = fitted([(f" {plain(said)}", "bar-strong")], width, "bar")
        room = height - 2
        return [*top, *middle[:room], *[line()] * max(room - len(middle), 0), foot]

    def _choices(self, width: int) -> list[Line]:
        out = [heading("Your shop", width), line()]
        out += wrapped(
            "Every drill, wire, wheel, plate and dial that a number depends on. Until you choose, the metric "
            "sample bench is used.", width - 2, first="  ",
        )  # fmt: skip
        out.append(line())
        for i, (_, _, says) in enumerate(BENCHES):
            on = i == self.choice
            out.append([(f"{'>' if on else ' '} {i + 1}  {says} ", "on" if on else "text")])
        out.append(line())
        return [*out, *wrapped(f"It is kept in {self.hand.path}", width - 2, "hint", first="  ")]

    def _mistakes(self, width: int) -> list[Line]:
        out = [heading("This shop file cannot be used", width, role="warning")]
        out += wrapped(
            "It is left as it is. Mend it in an editor, then press Enter. Until then the metric sample bench is "
            "used.", width - 2, first="  ",
        )  # fmt: skip
        out.append(line())
        for problem in self.hand.broken[:60]:
            out += wrapped(problem, width - 2, first="- ")
        return out

    def _rows(self, width: int, height: int) -> list[Line]:
        wide = width >= 110
        list_width = 70 if wide else width
        help_height = 0 if wide else 6
        room = height - 1 - help_height
        top = min(max(self.hand.at - room // 2, 0), max(len(self.hand.rows) - room, 0))
        shown = range(top, min(top + room, len(self.hand.rows)))
        where = f"{self.hand.at + 1} of {len(self.hand.rows)}"
        rows = [heading("Your shop", list_width, where), *(self._row(i, list_width) for i in shown)]
        if wide:
            about = self._about(width - list_width - 3)
            return beside([(rows, list_width), ([*about], width - list_width - 1)], height)
        return [*rows, *[line()] * (room - len(shown)), *self._about(width)[:help_height]]

    def _row(self, index: int, width: int) -> Line:
        row = self.hand.rows[index]
        here = index == self.hand.at
        name = "  " * row.depth + plain(title(row.place, row.ask))
        if len(name) > _LABEL_WIDTH:
            name = name[: _LABEL_WIDTH - 1] + "…"
        mark = "!" if here and self.hand.refusal else ">" if here else " "
        runs: Line = [(f"{mark} ", "bad" if mark == "!" else "strong")]
        if row.ask.part is not None:
            says = "" if isinstance(row.place[-1], int) else self._part_says(row)
            return [*runs, (f"{name:<{_LABEL_WIDTH}} ", "on" if here else "head"), (says, "hint")]
        runs.append((f"{name:<{_LABEL_WIDTH}} ", "label"))
        room = max(width - _LABEL_WIDTH - 5, 6)
        if here:
            return [*runs, *edited(self.hand.line, room + 2)]
        value = plain(row.typed)
        if value and row.sample:  # nobody has said yet that it is so here
            return [*runs, (" ", "text"), (cut(value, room - 8), "hint"), (" sample", "warning")]
        if value:
            return [*runs, (" ", "text"), (cut(value, room), "value")]
        return [*runs, (f" ({empty_means(row.ask, self._shown())})"[: room + 1], "hint")]

    def _part_says(self, row: Row) -> str:
        if row.ask.many:
            return "Enter adds one"
        if not row.owned:
            return "not yours; Enter puts it in"
        inside = (one for one in self.hand.rows if one.place[: len(row.place)] == row.place)
        return f"{'sample' if any(one.sample for one in inside) else 'yours'}; Ctrl+X takes it out"

    def _shown(self) -> str:
        """The unit that this shop reads bare numbers in."""
        return "inch" if self._unit() == "inch" else "mm"

    def _about(self, width: int) -> list[Line]:
        row = self.hand.row
        out = [heading(title(row.place, row.ask), width)]
        if self.hand.refusal:
            return [*out, *wrapped(f"! {self.hand.refusal}", width, "bad", rest="  ")]
        out += wrapped(row.ask.help, width)
        if row.ask.part is None:
            unit = self._shown()
            out += wrapped(f"Takes {accepts(row.ask, unit)}. Empty: {empty_means(row.ask, unit)}.", width, "hint")
        if row.ask.choices:
            out += wrapped("Space goes through the choices.", width, "hint")
        if row.sample and not self.hand.changed:
            out.append(line("The sample bench's answer: Enter takes it as yours.", "warning"))
        if self.hand.changed:
            out.append(line("Typed, not yet saved: Enter saves it.", "warning"))
        return out

    def _unit(self) -> str:
        return next(row.typed for row in self.hand.rows if row.place == ("unit",))

    # Keys

    def typed(self, event: events.Key) -> bool:
        """Editing keys for the row in hand; digits and arrows for the choice."""
        key = event.key
        sure, self.sure = self.sure, False
        if self.hand.broken:
            if key == "enter":
                self._after(self._read_again())
                return True
            return False
        if not self.hand.exists:
            return self._choice_key(key)
        if key == "ctrl+x":
            self.sure = sure
            return False
        return self._edit_key(event)

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

    def _edit_key(self, event: events.Key) -> bool:
        key, hand = event.key, self.hand
        steps = {"down": 1, "tab": 1, "up": -1, "shift+tab": -1, "pagedown": 10, "pageup": -10}
        if key in steps:
            self._after(hand.go(hand.at + steps[key]))
        elif key == "enter":
            part = hand.row.ask.part is not None and not isinstance(hand.row.place[-1], int)
            adds = part and (hand.row.ask.many or not hand.row.owned)
            self._after(hand.add() if adds else hand.go(hand.at + 1, own=True))
        elif key == "space" and hand.row.ask.choices:
            hand.cycle()
        else:
            return hand.key(key, event.character)
        return True

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text is typed."""
        if self.hand.exists and not self.hand.broken:
            self.hand.insert(event.text.replace("\n", ", "))
            self.redraw()

    def _read_again(self) -> str:
        self.hand.read()
        return "" if self.hand.broken else "Read."

    def _after(self, said: str) -> None:
        """Show what was said; the whole program answers anew for the changed shop."""
        self.message = said
        if said:
            unit = self.session.shop.unit
            self.session.reload_shop()
            if self.session.shop.unit != unit:
                self.session.unit = self.session.shop.unit

    def action_take_out(self) -> None:
        """Take a part out at the second press."""
        hand = self.hand
        if hand.broken or not hand.exists or hand.row.ask.part is None or not hand.row.owned:
            self.message = "Only a part, such as a mill, can be taken out. An answer is emptied by typing."
        elif not self.sure:
            self.sure, self.message = True, "Press Ctrl+X once more to take this part out of the file."
        else:
            self.sure = False
            self._after(hand.remove())
        self.redraw()

    def action_undo(self) -> None:
        """Forget what was typed in this row."""
        if self.hand.exists and not self.hand.broken:
            self.hand.undo()
            self.redraw()

    def action_close(self) -> None:
        """Keep what was typed; a row that cannot be kept is said, and nothing typed is lost."""
        if self.hand.exists and not self.hand.broken:
            said = self.hand.keep()
            self._after(said)
            if self.hand.refusal:
                self.redraw()
                return
        self.dismiss()
