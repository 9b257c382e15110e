"""The typed side of the shop screen: one question in hand, saved as soon as it is answered. No Textual here."""

from __future__ import annotations

from pathlib import Path

from engine.base.files import BadFile, Place, Problem, Unreadable, read_written, write_safely
from engine.base.refusals import BadInput
from engine.shop import put_away
from engine.shop.edit import begun_text, own_text, part_text
from engine.shop.file import parse
from engine.shop.questions import NONE, SAME, Group, Question, answered, found, groups, unit_of
from tui.editing import LineEdit

LONGEST = 400  # characters of one answer: a long list of drills


class ShopEditor:
    """A shop file under the editor's hand: its groups of questions, and the one in hand."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.text = ""
        self.groups: tuple[Group, ...] = ()
        self.at = 0  # the question in hand
        self.line = LineEdit(longest=LONGEST)
        self.refusal = ""
        self.refused: dict[Place, str] = {}  # what was typed and could not be kept, by its question
        self.broken: tuple[str, ...] = ()  # every mistake of a file that cannot be used; it is never written
        self.undone: list[tuple[str, str, Place]] = []  # the file before and after each change, and the question
        self.read()

    # Reading

    @property
    def exists(self) -> bool:
        """Whether there is a file yet."""
        return bool(self.groups) or bool(self.broken)

    @property
    def questions(self) -> list[Question]:
        """Every question in order."""
        return [question for group in self.groups for question in group.questions]

    @property
    def question(self) -> Question:
        """The question in hand."""
        return self.questions[self.at]

    @property
    def group(self) -> Group:
        """The group of the question in hand."""
        return next(group for group in self.groups if group.title == self.question.group)

    @property
    def changed(self) -> bool:
        """Whether something was typed that is not in the file."""
        return self.line.text.strip() != self._standing()

    @property
    def unit(self) -> str:
        """What a bare number in the file means."""
        return unit_of(self.text)

    def counts(self) -> tuple[int, int]:
        """How many of the questions that come up are the owner's, and how many there are."""
        asked = [q for q in self.questions if q.asked]
        return sum(q.state == "yours" for q in asked), len(asked)

    def read(self) -> None:
        """Read the file as it is on the disk; a broken one is only looked at."""
        self.broken = ()
        if not self.path.exists():
            self.groups = ()
            return
        try:
            self.text = self._sound()
        except BadFile as refusal:
            self.groups, self.broken = (), tuple(str(p) for p in refusal.problems)
            return
        here = self.question.place if self.groups else ()
        self.groups = groups(self.text)
        places = [q.place for q in self.questions]
        self.at = places.index(here) if here in places else min(self.at, len(places) - 1)
        self._take()

    def _sound(self) -> str:
        try:
            text = read_written(self.path)
        except Unreadable as error:
            problem = Problem(str(self.path), None, f"this cannot be read: {error}.")
            raise BadFile("shop file", self.path, (problem,)) from None
        parse(text, self.path)
        return text

    def begin(self, bench: str, own: bool) -> str:
        """Make the file from a sample bench; return what to say."""
        if not own:
            return self._write(begun_text(bench))
        rows = [row for row in own_text(bench).splitlines() if not row.startswith("#")]
        said = self._write("\n".join(["# My bench.", *rows, ""]))
        return "Begun. What nobody has said yet stands as the sample bench has it." if said else ""

    # Moving

    def next_group(self) -> int:
        """The first group with a question that nobody has answered."""
        open_ones = (i for i, group in enumerate(self.groups) if any(q.state != "yours" for q in group.asked))
        return next(open_ones, 0)

    def open_group(self, number: int) -> None:
        """Take the first question of a group in hand that nobody has answered, else its first."""
        group = self.groups[number]
        first = next((q for q in group.asked if q.state != "yours"), group.questions[0])
        self.open(first.place)

    def open(self, place: Place) -> None:
        """Take a question in hand."""
        self.at = next(i for i, q in enumerate(self.questions) if q.place == place)
        self._take()

    def found(self, typed: str) -> list[Question]:
        """The questions that hold every word typed."""
        return found(self.questions, typed)

    def step(self, by: int, asked: bool = False) -> tuple[str, bool]:
        """Leave the question for another: what was typed is kept if it can be, else remembered. `asked`: the next one
        that comes up by itself. Returns what to say, and whether there was another."""
        said = self.leave()
        at = self.at + by
        while asked and 0 <= at < len(self.questions) and not self.questions[at].asked:
            at += by
        if not 0 <= at < len(self.questions):
            return said, False
        self.at = at
        self._take()
        return said, True

    def leave(self) -> str:
        """Keep what was typed; what cannot be kept is remembered for when the question is opened again."""
        if not self.changed or self.question.form == "have":
            return ""
        said = self._answer(self.line.text)
        if self.refusal:
            self.refused[self.question.place] = self.line.text
            said = f"Not kept, the file is as it was: {self.refusal}"
        return said

    def _standing(self) -> str:
        """What stands in the field of the question in hand before anything is typed: the sample's answer is no word of
        the owner's."""
        question = self.question
        return question.typed if question.state == "yours" and question.form != "have" else ""

    def _take(self) -> None:
        typed = self.refused.pop(self.question.place, None)
        self.line.put(self._standing() if typed is None else typed)
        self.line.fresh = self.line.fresh and typed is None
        self.refusal = "" if typed is None else "this was typed and could not be kept."

    # Answering

    def key(self, key: str, character: str | None = None) -> bool:
        """Act on an editing key; True if it was one."""
        if self.question.form == "have":
            return False
        self.refusal = ""
        return self.line.key(key, character)

    def insert(self, typed: str) -> None:
        """Type or paste characters."""
        if self.question.form != "have":
            self.line.insert(typed)

    def cycle(self) -> None:
        """Put the next of a few choices in."""
        ring = list(self.question.ask.choices)
        now = ring.index(self.line.text) if self.line.text in ring else -1
        self.line.put(ring[(now + 1) % len(ring)])

    def keep(self) -> str:
        """Answer with what was typed, if anything was; return what to say."""
        return self._answer(self.line.text) if self.changed else ""

    def say(self, word: str) -> str:
        """Answer with y, n, `=` (as it was, or as the sample bench has it) or none."""
        return self._answer(word)

    def _answer(self, typed: str) -> str:
        """Apply an answer to the file as it now is on the disk, so that nobody's other edit is lost."""
        question, self.refusal = self.question, ""
        try:
            text = self._sound()
            away = put_away.kept(self.path, question.place, self.unit) if question.ask.part is not None else ""
            fresh = answered(text, question, typed, away)
            gone = question.ask.part is not None and not part_text(fresh, question.place)
            if gone:
                put_away.keep(self.path, question.place, self.unit, part_text(text, question.place))
        except BadFile as refusal:
            self.read()
            return str(refusal.problems[0])
        except BadInput as refusal:
            self.refusal = str(refusal)
            return ""
        except OSError as error:
            self.refusal = f"This cannot be saved: {error.strerror}. The file is as it was."
            return ""
        said = self._write(fresh, text)
        if said and gone and part_text(text, question.place):
            return "Taken out and kept: = puts it back as it was." if question.form != "have" else (
                "Taken out and kept: y puts it back as it was.")  # fmt: skip
        return said

    def undo(self) -> str:
        """Forget what is typed; else take the last change of this session back; return what to say."""
        if self.changed:
            self.line.put(self._standing())
            self.refusal = ""
            return ""
        if not self.undone:
            return "Nothing was changed since the shop was opened."
        before, after, place = self.undone.pop()
        try:
            now = self._sound()
        except BadFile as refusal:
            self.read()
            return str(refusal.problems[0])
        if now != after:
            self.undone.clear()
            return "Another program has changed the file since: nothing is taken back."
        if not self._write(before):
            return ""
        back = next((q for q in self.questions if q.place == place), None)
        if back is None:
            return "Taken back."
        self.open(place)
        return f"Taken back: {back.label}."

    def _write(self, text: str, before: str = "") -> str:
        try:
            write_safely(self.path, text)
        except OSError as error:
            self.refusal = f"This cannot be saved: {error.strerror}. The file is as it was."
            return ""
        if before:
            self.undone.append((before, text, self.question.place))
        self.refusal = ""
        self.read()
        return "Saved."


def put_back_words(editor: ShopEditor) -> str:
    """What `=` would do for the question in hand; "" where it does nothing."""
    question = editor.question
    gone = question.form != "have" and question.ask.part is not None and question.typed in ("", NONE)
    if gone and put_away.kept(editor.path, question.place, editor.unit):
        return f"It was taken out; {SAME} puts it back as it was."
    return f"{SAME} says that it is so here." if question.state == "sample" else ""
