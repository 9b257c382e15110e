"""The typed side of the shop screen: one row in hand, saved as soon as it is left. No Textual here."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from engine.base.files import BadFile, Place, Unreadable, read_written, write_safely
from engine.base.kinds import Ask
from engine.base.refusals import BadInput
from engine.shop.edit import Row, as_own, begun_text, own_text, rows, with_answer, with_part, without_part
from engine.shop.file import parse
from tui.editing import LineEdit

LONGEST = 400  # characters of one answer: a long list of drills


class ShopEditor:
    """A shop file under the editor's hand."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.rows: tuple[Row, ...] = ()
        self.at = 0
        self.line = LineEdit(longest=LONGEST)
        self.refusal = ""
        self.broken: tuple[str, ...] = ()  # every mistake of a file that cannot be used; it is never written
        self.read()

    @property
    def exists(self) -> bool:
        """Whether there is a file yet."""
        return bool(self.rows) or bool(self.broken)

    @property
    def row(self) -> Row:
        """The row in hand."""
        return self.rows[self.at]

    @property
    def changed(self) -> bool:
        """Whether something was typed that is not in the file."""
        return self.row.ask.part is None and self.text.strip() != self.row.typed

    def read(self) -> None:
        """Read the file as it is on the disk; a broken one is only looked at."""
        self.broken = ()
        if not self.path.exists():
            self.rows = ()
            return
        try:
            self.rows = rows(self._sound())
        except BadFile as refusal:
            self.rows, self.broken = (), tuple(str(p) for p in refusal.problems)
            return
        self.at = min(self.at, len(self.rows) - 1)
        self._take()

    def _sound(self) -> str:
        try:
            text = read_written(self.path)
        except Unreadable as error:
            raise _unusable(self.path, str(error)) from None
        parse(text, self.path)
        return text

    def begin(self, bench: str, own: bool) -> str:
        """Make the file from a sample bench; return what to say."""
        if not own:
            return self._write(begun_text(bench))
        text = own_text(bench)
        return self._write(with_answer("# My bench.\n" + text.split("\n", 1)[1], ("name",), "My shop"))

    # Moving

    def go(self, index: int, own: bool = False) -> str:
        """Keep what was typed, then take another row in hand; stay if it cannot be kept. `own`: the answer is taken as
        one's own even where nothing was typed."""
        said = self.keep()
        if own and not said and not self.refusal and self.row.sample:
            said = self._edit(as_own)
        if not self.refusal:
            self.at = min(max(index, 0), len(self.rows) - 1)
            self._take()
        return said

    def _take(self) -> None:
        self.line.put(self.row.typed)
        self.refusal = ""

    def undo(self) -> None:
        """Forget what was typed in this row."""
        self._take()

    # Typing

    @property
    def text(self) -> str:
        """What stands in the row in hand."""
        return self.line.text

    def key(self, key: str, character: str | None = None) -> bool:
        """Act on an editing key, unless the row is a part; True if it was one."""
        return self.row.ask.part is None and self.line.key(key, character)

    def insert(self, typed: str) -> None:
        """Type or paste characters."""
        if self.row.ask.part is None:
            self.line.insert(typed)

    def cycle(self) -> None:
        """Put the next of a few choices in."""
        ring = list(self.row.ask.choices)
        now = ring.index(self.text) if self.text in ring else -1
        self.line.put(ring[(now + 1) % len(ring)])

    # Keeping

    def keep(self) -> str:
        """Save what was typed, if anything was; return what to say."""
        if not self.changed:
            return ""
        return self._edit(lambda text, place: with_answer(text, place, self.text))

    def add(self) -> str:
        """Put the part in hand in, filled from the sample bench; return what to say."""
        return self._edit(with_part)

    def remove(self) -> str:
        """Take the part in hand out; return what to say."""
        return self._edit(without_part)

    def _edit(self, change: Callable[[str, Place], str]) -> str:
        """Apply a change to the file as it now is on the disk, so that nobody's other edit is lost."""
        try:
            fresh = change(self._sound(), self.row.place)
        except BadFile as refusal:
            self.read()
            return str(refusal.problems[0])
        except BadInput as refusal:
            self.refusal = str(refusal)
            return ""
        return self._write(fresh)

    def _write(self, text: str) -> str:
        try:
            write_safely(self.path, text)
        except OSError as error:
            self.refusal = f"This cannot be saved: {error.strerror}. The file is as it was."
            return ""
        self.refusal = ""
        self.read()
        return "Saved."


def _unusable(path: Path, reason: str) -> BadFile:
    from engine.base.files import Problem

    return BadFile("shop file", path, (Problem(str(path), None, f"this cannot be read: {reason}."),))


def title(place: Place, ask: Ask) -> str:
    """What a row is called: the question's label, with its number in a list of parts."""
    return f"{ask.label} {place[-1] + 1}" if isinstance(place[-1], int) else ask.label
