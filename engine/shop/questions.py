"""The shop as questions in groups, asked one at a time; what an answer changes in the file; how far one has got.

A question is `yours` once its owner has said it (also that there is none), `sample` while the file still says what the
sample bench says, `open` where nothing is said. Nothing becomes the owner's by being passed by.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Any, Literal

import tomlkit

from engine.base.declare import asks, is_empty
from engine.base.files import Place
from engine.base.kinds import Ask
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.tables import rows as table_rows
from engine.shop import edit, short
from engine.shop.model import Shop

Form = Literal["have", "answer", "line", "lines"]
State = Literal["yours", "sample", "open"]

NONE = "none"
SAME = "="  # as the sample bench has it
_LAST = "Everything else"
_LISTS = ("drills", "words", "counts", "groups", "lengths")


@dataclass(frozen=True, slots=True)
class Question:
    """One thing that a person is asked. `asked`: it comes up by itself; the others wait to be looked for."""

    group: str
    place: Place
    form: Form
    label: str
    ask: Ask
    typed: str
    state: State
    asked: bool = True

    @property
    def optional(self) -> bool:
        """Whether there may be none of it: a part, or a list."""
        return not self.ask.required and (self.ask.part is not None or self.ask.kind in _LISTS)


@dataclass(frozen=True, slots=True)
class Group:
    """Questions that are asked together, and how many of them are answered."""

    title: str
    questions: tuple[Question, ...]

    @property
    def asked(self) -> tuple[Question, ...]:
        """Those that come up by themselves."""
        return tuple(q for q in self.questions if q.asked)

    @property
    def progress(self) -> str:
        """How far one has got, in words: yours, sample, 2 of 6 yours."""
        states = [q.state for q in self.asked]
        if not states:
            return "when it is wanted"
        yours = states.count("yours")
        if yours == len(states):
            return "yours"
        if yours:
            return f"{yours} of {len(states)} yours"
        return "sample" if "sample" in states else "not told"


def groups(text: str) -> tuple[Group, ...]:
    """Every question about a shop file, in the order in which one goes round the shop.

    >>> [g.title for g in groups('name = "Shed"')][:3]
    ['Plates on the machines', 'Drills and reamers', 'Taps and dies']
    """
    found = questions(text)
    titles = dict.fromkeys([row["group"] for row in table_rows("shop/questions.csv")] + [_LAST])
    every = (Group(title, tuple(q for q in found if q.group == title)) for title in titles)
    return tuple(group for group in every if group.questions)


@lru_cache(maxsize=2)  # reading a shop file so that it can be changed is slow: each key in a form would wait for it
def questions(text: str) -> tuple[Question, ...]:
    """Every question about a shop file: those that come up by themselves, then the rest of its rows.

    >>> [q.label for q in questions('name = "Shed"') if q.state == "yours"]
    ['Name']
    """
    document = tomlkit.parse(text)
    without = edit.said_none(document)
    asked = []
    for row in table_rows("shop/questions.csv"):
        place: Place = tuple(row["place"].split("."))
        if _reached(document, place):
            asked.append(_question(document, row, place, without))
    covered = {*_covered(asked), ("none_of",)}
    rest = [
        Question(_home(row.place), row.place, "answer", _full_label(row.place), row.ask, row.typed,
                 "sample" if row.sample else "yours" if row.owned else "open", asked=False)
        for row in edit.rows(text)
        if row.ask.part is None and row.place not in covered
    ]  # fmt: skip
    return (*asked, *rest)


def _reached(document: Any, place: Place) -> bool:
    """Whether the part that a question belongs to is there."""
    table: Any = document
    for name in place[:-1]:
        table = table.get(name) if isinstance(table, Mapping) else None
        if table is None:
            return False
    return True


def _covered(asked: Iterable[Question]) -> Iterable[Place]:
    """The places whose answers stand in a question."""
    for question in asked:
        yield question.place
        part = question.ask.part
        if question.form == "line" and part is not None:
            yield from ((*question.place, name) for name in short.order(part))
        elif question.form == "lines" and part is not None:
            for i in range(len(short.several(question.typed))):
                yield from ((*question.place, i, name) for name in short.order(part))


def _question(document: Any, row: Mapping[str, str], place: Place, without: set[str]) -> Question:
    form = row["form"]
    table = edit.table_at(document, place[:-1])
    name = str(place[-1])
    ask = edit.asks_at(place[:-1])[name]
    there = name in table
    none = ".".join(map(str, place)) in without and not there
    if form == "have":
        typed = "yes" if there else "no" if none else ""
        sample = there and edit.headed_sample(table[name])
    elif form == "answer":
        value = table.get(name)
        typed = "" if value is None else edit.as_typed(value.unwrap() if hasattr(value, "unwrap") else value)
        sample = edit.is_sample(table, name)
    else:
        parts = [] if not there else list(table[name]) if form == "lines" else [table[name]]
        assert ask.part is not None
        typed = "; ".join(short.written(one, ask.part, _typed) for one in parts)
        sample = any(edit.is_sample(one, field) for one in parts for field in short.order(ask.part))
    if none and form != "have":
        typed = NONE
    state: State = "yours" if none or (typed and not sample) else "sample" if sample else "open"
    return Question(row["group"], place, form, row["label"], ask, typed, state, row["asked"] == "yes")  # type: ignore[arg-type]


def _typed(value: Any) -> str:
    return edit.as_typed(value.unwrap() if hasattr(value, "unwrap") else value)


def _home(place: Place) -> str:
    """The group of a row that is not asked by itself: where most of its part is asked."""
    known = [(row["place"].split("."), row["group"]) for row in table_rows("shop/questions.csv")]
    names = [str(p) for p in place if isinstance(p, str)]
    for size in range(len(names), 0, -1):
        for where, group in known:
            if where == names[:size] and size > (1 if len(names) > 1 and where[0] == "lathe" else 0):
                return group
    return _LAST


def _full_label(place: Place) -> str:
    """A row's label behind those of the parts that it stands in."""
    labels: list[str] = []
    model: type = Shop
    for name in place:
        if isinstance(name, int):
            labels[-1] += f" {name + 1}"
            continue
        ask = asks(model)[name]
        labels.append(ask.label)
        model = ask.part or model
    return ": ".join(labels)


# Answering


def answered(text: str, question: Question, typed: str, put_away: str = "") -> str:
    """The file with a question answered by its owner; BadInput, by the question's label, if that cannot be.

    `typed` may be `=` for what the sample bench says, `none` where there is none. `put_away`: a part that was taken out
    earlier, as text, which comes back as it was.

    >>> drills = next(q for q in questions('unit = "mm"') if q.place == ("drills",))
    >>> answered('unit = "mm"', drills, "3, 4.2")
    'unit = "mm"\\ndrills = "3, 4.2"\\n'
    """
    try:
        return _answered(text, question, typed.strip(), put_away)
    except BadInput as refusal:
        raise _named(refusal, question) from None


def _answered(text: str, question: Question, typed: str, put_away: str) -> str:
    if typed == SAME:
        return _as_sample(text, question, put_away)
    if question.optional and (typed.lower() == NONE or (question.form == "have" and typed in ("n", "no"))):
        return edit.with_none(text, question.place)
    text = edit.without_none(text, question.place)
    if question.form == "answer":
        return edit.with_answer(text, question.place, typed)
    if question.form == "have":
        if typed not in ("y", "yes"):
            raise BadInput(question.label, typed, "y or n")
        return edit.with_part_said(text, question.place, put_away)
    return _with_lines(text, question, typed)


def _as_sample(text: str, question: Question, put_away: str) -> str:
    """What the sample bench says is so here."""
    document = tomlkit.parse(text)
    name = str(question.place[-1])
    if name not in edit.table_at(document, question.place[:-1]):
        if question.form == "answer":
            typed = edit.sample_answer(question.place, str(document.get("unit", "mm")))
            if not typed:
                raise BadInput(question.label, SAME, "an answer of its own: the sample bench says nothing of it")
            return _answered(text, question, typed, put_away)
        text = edit.without_none(edit.with_part_said(text, question.place, put_away), question.place)
        document = tomlkit.parse(text)
    table = edit.table_at(document, question.place[:-1])
    if question.form == "answer":
        edit.unmark(table.item(name))
    elif question.form == "have":
        edit.unmark(table[name])
    else:
        assert question.ask.part is not None
        for one in table[name] if question.form == "lines" else [table[name]]:
            for field in short.order(question.ask.part):
                if edit.is_sample(one, field):
                    edit.unmark(one.item(field))
    return edit.checked(tomlkit.dumps(document))


def _with_lines(text: str, question: Question, typed: str) -> str:
    """The file with a part, or several, as their line says; what a part says beside stays where the line is the same."""
    model = question.ask.part
    assert model is not None
    if is_empty(typed):
        if question.ask.required:
            raise BadInput(question.label, "", short.example(model, "mm"))
        return edit.without_part(text, question.place) if question.typed else text
    document = tomlkit.parse(text)
    unit = str(document.get("unit", "mm"))
    name = str(question.place[-1])
    table = edit.table_at(document, question.place[:-1])
    if question.form == "line":
        if name not in table:
            table[name] = tomlkit.table()
        _say(table[name], model, short.understood(typed, model, unit))
        return edit.checked(tomlkit.dumps(document))
    old = {short.written(one, model, _typed): one for one in table.get(name, [])}
    entries = tomlkit.aot()
    for line in short.several(typed):
        said = short.understood(line, model, unit)
        one = old.get(line) or tomlkit.table()
        _say(one, model, said)
        entries.append(one)
    table[name] = entries
    return edit.checked(tomlkit.dumps(document))


def _say(part: Any, model: type, said: Mapping[str, str]) -> None:
    """Write what a line says into a part, as its owner's."""
    for field in short.order(model):
        if field not in said:
            part.pop(field, None)
            continue
        part[field] = asks(model)[field].sort.as_toml(said[field], asks(model)[field])
        edit.unmark(part.item(field))


def _named(refusal: BadInput, question: Question) -> BadInput:
    """The refusal under the question's own label."""
    said = str(refusal)
    for name in (refusal.field, str(question.place[-1])):
        said = said.removeprefix(f"{name}: ")
    return BadInput(question.label, refusal.given, refusal.accepted, f"{question.label}: {said}")


@lru_cache(maxsize=2)
def unit_of(text: str) -> str:
    """What a bare number in a shop file means.

    >>> unit_of('unit = "inch"'), unit_of('name = "Shed"')
    ('inch', 'mm')
    """
    return "inch" if tomlkit.parse(text).get("unit") == "inch" else "mm"


def said(text: str, place: Place) -> str:
    """What a shop file says at a place, in one line, and whether it is the sample's; nothing where that is no question.

    >>> said('[lathe]\\nspindle_bore = 21', ("lathe", "spindle_bore")), said('name = "Shed"', ("collets",))
    ('21 mm', 'not told')
    """
    there = next((q for q in questions(text) if q.place == place), None)
    if there is None:
        return ""
    if not there.typed:
        return "not told"
    unit = unit_of(text)
    one = there.form == "answer" and there.ask.kind not in _LISTS
    typed = there.ask.sort.with_unit(there.typed, there.ask, unit) if one else there.typed
    return f"{typed} · sample" if there.state == "sample" else typed


def found(every: Iterable[Question], typed: str) -> list[Question]:
    """The questions that hold every word typed, by label, group or help; those that come up by themselves first.

    >>> [q.label for q in found(questions('name = "Shed"'), "tap")][:1]
    ['Taps']
    """
    words = re.findall(r"[^\s:,;()]+", typed.lower())
    hits = []
    for question in every:
        label = question.label.lower()
        rest = f"{label} {question.ask.label} {question.group} {question.ask.help}".lower()
        if all(word in rest for word in words):
            hits.append((not all(word in label for word in words), not question.asked, question))
    return [q for *_, q in sorted(hits, key=lambda hit: hit[:2])]
