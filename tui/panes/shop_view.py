"""The shop as lines: the choice of a bench, the groups with how far one has got, one question at a time."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.declare import asks
from engine.shop.questions import NONE, Question
from engine.shop.short import example, order
from tui.editing import LineEdit, edited
from tui.glyphs import own, plain
from tui.lines import Line, cut, fitted, heading, line, wrapped
from tui.panes.form_view import accepts, empty_means
from tui.shop_editor import ShopEditor, put_back_words

_LABEL = 30
_VALUE = 20  # cells that an answer has at least beside its label
# (bench, whether it is the person's own, what the choice says)
BENCHES = (
    ("metric", False, "A metric bench, ready made, to look round"),
    ("inch", False, "An inch bench, ready made, to look round"),
    ("metric", True, "Mine, one question at a time, in millimetres"),
    ("inch", True, "Mine, one question at a time, in inches"),
)


def choices_lines(path: str, choice: int, width: int) -> list[Line]:
    """The first choice: a ready-made bench or one's own."""
    out = [heading("Your shop", width), line()]
    out += wrapped("Every drill, wire, wheel, plate and dial that a number depends on. Until you choose, the metric "
                   "sample bench is used.", width - 2, first="  ")  # fmt: skip
    out.append(line())
    for i, (_, _, says) in enumerate(BENCHES):
        on = i == choice
        out.append([(f"{'>' if on else ' '} {i + 1}  {says} ", "on" if on else "text")])
    out.append(line())
    return [*out, *wrapped(f"It is kept in {path}", width - 2, "hint", first="  ")]


def mistakes_lines(problems: Sequence[str], width: int) -> list[Line]:
    """A file that cannot be used, with every mistake."""
    out = [heading("This shop file cannot be used", width, role="warning")]
    out += wrapped("It is left as it is. Mend it in an editor, then press Enter. Until then the metric sample bench is "
                   "used.", width - 2, first="  ")  # fmt: skip
    out.append(line())
    for problem in problems[:60]:
        out += wrapped(problem, width - 2, first="- ")
    return out


def groups_lines(editor: ShopEditor, find: LineEdit, at: int, width: int, height: int) -> list[Line]:
    """The groups with their progress; or, once something is typed, the questions that hold the words."""
    yours, every = editor.counts()
    out = [heading("Your shop", width, f"{yours} of {every} yours")]
    out.append([("  Find ", "label"), *edited(find, min(width - 8, 40), "a word, such as taps")])
    out.append(line())
    if find.text.strip():
        hits = editor.found(find.text)
        wide = _label_width(hits, width)
        rows = [_question_row(q, width, wide, i == at) for i, q in enumerate(hits)]
        rows = rows or wrapped("Nothing is found by these words. Fewer letters find more.", width - 2, first="  ")
    else:
        rows = [_group_row(editor, i, width, i == at) for i in range(len(editor.groups))]
        if at < len(editor.groups):
            rows += [line(), *_group_says(editor, at, width)]
    room = height - len(out)
    top = min(max(at - room // 2, 0), max(len(rows) - room, 0))
    return [*out, *rows[top : top + room]]


def _group_row(editor: ShopEditor, number: int, width: int, on: bool) -> Line:
    group = editor.groups[number]
    title = f"{'>' if on else ' '} {plain(group.title):<{_LABEL}}"
    refused = sum(1 for q in group.questions if q.place in editor.refused)
    said = f"{group.progress}" + (f"; {refused} typed and not kept" if refused else "")
    return fitted([(title, "on" if on else "head"), (f" {said}", _role(group.progress))], width)


def _role(progress: str) -> str:
    return "value" if progress == "yours" else "warning" if progress == "sample" else "text"


def _group_says(editor: ShopEditor, number: int, width: int) -> list[Line]:
    """What is asked in the group in hand, and how far each is."""
    said = "; ".join(f"{plain(q.label)}: {_state(q)}" for q in editor.groups[number].asked)
    more = len(editor.groups[number].questions) - len(editor.groups[number].asked)
    sentences = [f"{said}." if said else "", f"{more} more by ↓ or by their words." if more else ""]
    return wrapped(" ".join(filter(None, sentences)), width - 2, "hint", first="  ")


def _state(question: Question) -> str:
    if question.state == "yours":
        return "none" if question.typed == NONE else "no" if question.typed == "no" else "yours"
    return "sample" if question.state == "sample" else "not told"


def _label_width(questions: Sequence[Question], width: int) -> int:
    """As wide as the labels are; a value has some room beside them all the same."""
    return min(max((len(plain(q.label)) for q in questions), default=0), width - _VALUE)


def _typed(question: Question) -> str:
    """What is said, in the person's own words where it is none of a few."""
    return plain(question.typed) if question.ask.choices else own(question.typed)


def _question_row(question: Question, width: int, wide: int, on: bool) -> Line:
    label = cut(plain(question.label), wide)
    state = _state(question)
    mark = [] if state == "yours" else [(f" {state}", "warning" if state == "sample" else "hint")]
    used = wide + 3 + sum(len(t) for t, _ in mark)
    value = "" if question.typed in (NONE, state) else _shortened(_typed(question), max(width - used - 1, 6))
    return [
        (f"{'>' if on else ' '} {label:<{wide}}", "on" if on else "label"),
        (f" {value}", "value" if state == "yours" else "hint"),
        *mark,
    ]


def question_lines(editor: ShopEditor, width: int, height: int) -> list[Line]:
    """The question in hand, its field, what it takes, and the others of its group."""
    question, group = editor.question, editor.group
    number = [q.place for q in group.questions].index(question.place) + 1
    title = f"Your shop: {group.title}"
    out = [heading(title, width, f"{number} of {len(group.questions)} · {_state(question)}"), line()]
    out += wrapped(plain(question.label), width - 2, "lead", first="  ")
    if question.form == "have":
        out += [[("  y or n?", "strong")]]
    else:
        out.append([("! " if editor.refusal else "  ", "bad" if editor.refusal else "text"),
                    *edited(editor.line, width - 2, _hint(question, editor.unit))])  # fmt: skip
    if editor.refusal:
        out += wrapped(f"! {editor.refusal}", width - 2, "bad", first="  ")
    elif question.state == "sample":
        shown = _typed(question) if question.form != "have" else "yes"
        out += wrapped(f"The sample bench says {shown}. It counts until you say otherwise.", width - 4, "warning",
                       first="  ")  # fmt: skip
    out += [line(), *_about(editor, width)]
    label = _label_width(group.questions, width)
    rows = [_question_row(q, width, label, q.place == question.place) for q in group.questions]
    room = height - len(out) - 2
    if room < 3:
        return out[:height]
    return [*out, line(), heading("In this group", width), *_around(rows, number - 1, room)]


def _shortened(text: str, room: int) -> str:
    """A list cut between two of its entries, never inside one."""
    if len(text) <= room:
        return text
    kept = text[: room - 1].rpartition(" ")[0]
    return f"{kept} …" if kept else cut(text, room)


def _around(rows: list[Line], at: int, room: int) -> list[Line]:
    top = min(max(at - room // 2, 0), max(len(rows) - room, 0))
    return rows[top : top + room]


def _hint(question: Question, unit: str) -> str:
    if question.typed == NONE:
        return "none"
    if question.state == "sample":
        return ""
    return f"not told; {empty_means(question.ask, unit)}" if question.form == "answer" else "not told"


def _about(editor: ShopEditor, width: int) -> list[Line]:
    """What the question takes, and the keys that answer it without typing."""
    question, unit = editor.question, editor.unit
    out = wrapped(question.ask.help, width - 2, first="  ") if question.ask.help else []
    if question.form == "answer":
        takes = f"Takes {accepts(question.ask, unit)}."
    elif question.form == "have":
        takes = ""
    else:
        assert question.ask.part is not None
        parts = asks(question.ask.part)
        names = " x ".join(parts[name].label.lower() for name in order(question.ask.part))
        several = "; a semicolon between one and the next" if question.form == "lines" else ""
        takes = f"Takes {names}, such as {example(question.ask.part, unit)}{several}."
    out += wrapped(takes, width - 2, "hint", first="  ") if takes else []
    keys = [put_back_words(editor)]
    if question.optional and question.form != "have":
        keys.append(f"{NONE} says that there is none.")
    if question.ask.choices and question.form == "answer":
        keys.append("Space goes through the choices.")
    return [*out, *wrapped(" ".join(filter(None, keys)), width - 2, "hint", first="  ")] if any(keys) else out
