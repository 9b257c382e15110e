"""A part while it is typed: lines of a head and of features, as much of it a part as can be read by now.

A line that cannot be read keeps its place and says why. `M14x1` alone is a thread through the part, `scale 0.05` takes
the part's thread: what a line was completed to is written back, so that it is seen.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from engine.base.files import BadFile
from engine.base.records import dataclass, field, replace
from engine.base.refusals import BadInput
from engine.part.file import read, value_text
from engine.part.lines import Keys, Short, lines_of, read_line, with_line
from engine.part.part import Part, PartFile
from engine.part.remarks import Remark, Where, remarks, written

HEAD = ("title", "material", "bar", "make", "unit")  # what is asked of every part, in this order
LABELS = {"title": "Title", "material": "Material", "bar": "Bar", "make": "How many", "unit": "Unit"}
_MORE = ("blank", "length", "edges", "general", "about")  # head lines that are typed among the features
_SHARED = ("unit", "material", "bar", "blank", "edges", "general")  # so for every piece from one bar
_LISTS = ("outside", "inside", "across")
_ENDS = ("front", "back")
_UNITS = {"in": "inch", "inches": "inch", '"': "inch", "mm.": "mm", "millimetres": "mm", "metric": "mm"}
_SCALED = ("diameter", "bar", "taper")  # outside features that lines are cut on


@dataclass(frozen=True, slots=True)
class Row:
    """One line. `head` names what it gives of the head; `part` begins another piece; "" is a feature's line.

    `keys` are those a file has for it, where the line cannot be read back from its own words.
    """

    text: str
    head: str = ""
    short: Short | None = None
    remarks: tuple[Remark, ...] = ()  # the file's comments at it


@dataclass(frozen=True, slots=True)
class Draft:
    """The lines of a part file. `comments` stand above them; `kept` are tables of each piece that no line shows."""

    rows: tuple[Row, ...]
    comments: tuple[str, ...] = ()
    kept: tuple[Mapping[str, Any], ...] = ()


@dataclass(frozen=True, slots=True)
class Worked:
    """What the lines make: the file's text, what is wrong (by line), the parts if nothing is, where features stand."""

    text: str
    problems: Mapping[int, str]
    file: PartFile | None
    names: Mapping[int, tuple[int, str]]  # line -> the piece (from 0) and the name of the feature it gives
    unread: bool  # whether a line cannot be read, so that the text lacks it


def blank(*, unit: str, material: str = "", bar: str = "") -> Draft:
    """A part with nothing in it yet.

    >>> [row.text for row in blank(unit="mm", material="brass").rows]
    ['', 'brass', '', '1', 'mm', '']
    """
    texts = {"title": "", "material": material, "bar": bar, "make": "1", "unit": unit}
    return Draft((*(Row(texts[name], name) for name in HEAD), Row("")))


# Lines of a file


def opened(text: str) -> Draft:
    """The lines of a part file's text; BadInput if it is no TOML."""
    from engine.base.files import parse_toml

    document = parse_toml("part file", Path("part.toml"), text)
    comments, said = remarks(text)
    shared = {key: value for key, value in document.items() if key not in ("part_version", "part")}
    pieces = document.get("part")
    every = [one for one in pieces if isinstance(one, dict)] if isinstance(pieces, list) else [{}]
    rows: list[Row] = []
    for number, piece in enumerate(every):
        rows += _rows({**shared, **piece}, number, said)
    kept = [{key: value for key, value in {**shared, **one}.items() if _is_kept(key, value)} for one in every]
    return Draft((*rows, Row("")), comments, tuple(kept))


def _is_kept(key: str, value: Any) -> bool:
    return key not in (*HEAD, *_MORE, *_LISTS, *_ENDS) and isinstance(value, str | dict)


def _rows(piece: Mapping[str, Any], number: int, said: Mapping[Where, tuple[Remark, ...]]) -> Iterator[Row]:
    """The lines of one piece, each with the comments that stood at it."""
    first, head = number == 0, said.get((number, "", 0), ())
    if first:
        own = {name: tuple(one for one in head if one.key == name) for name in HEAD}
        rest = tuple(one for one in head if one.key not in HEAD)
        own["title"] += rest
        yield from (Row(_plain(piece.get(name, "1" if name == "make" else "")), name, None, own[name]) for name in HEAD)
    else:
        yield Row(_plain(piece.get("title", "")), "part", None, head)
        yield Row(f"make {_plain(piece.get('make', 1))}")
    for name in _MORE:
        if name in piece and (first or name not in _SHARED):
            yield Row(f"{name} {_plain(piece[name])}")
    for name in _LISTS:
        for place, keys in enumerate(piece.get(name, ())):
            line, *others = _feature_rows(name, keys)
            yield replace(line, remarks=said.get((number, name, place), ()))
            yield from others
    for end in _ENDS:
        if end in piece:
            for place, text in enumerate(lines_of(end, piece[end])):
                own_keys = Short(end, _end_keys(piece[end], text))  # type: ignore[arg-type]
                yield Row(text, "", own_keys, said.get((number, end, 0), ()) if place == 0 else ())


def _feature_rows(name: str, keys: Keys) -> Iterator[Row]:
    """A feature and what stands on it; the keys go along, should a line say less than the file did."""
    lines = lines_of(name, keys)
    own = {key: value for key, value in keys.items() if not isinstance(value, Mapping)}
    yield Row(lines[0], "", Short(name, own))  # type: ignore[arg-type]
    tables = {key: value for key, value in keys.items() if isinstance(value, Mapping)}
    for line in lines[1:]:
        word = line.split()[0]
        key = "mate" if word == "fits" else word
        if key in tables:
            yield Row(line, "", Short("on", {key: tables[key]}))
        elif key == "figures":  # of a scale: they went with it
            continue


def _end_keys(keys: Keys, line: str) -> Keys:
    word = line.split()[0]
    return {word: keys[word]} if word in keys else {}


def _plain(value: Any) -> str:
    return str(value)


# What the lines say


def completed(row: Row, rows: Sequence[Row], unit: str) -> str:
    """A feature's line with what it may leave out: `M14x1`, `thread M14x1`, `scale 0.05`.

    >>> completed(Row("M14x1"), (), "mm"), completed(Row("scale 0.05"), (Row("M14x1"),), "mm")
    ('thread M14x1 through', 'scale 0.05 on M14x1')
    >>> completed(Row("20 lines"), (Row("M14x1"),), "mm"), completed(Row("50 lines"), (Row("1/2-20"),), "inch")
    ('scale 0.05 on M14x1', 'scale 0.001 on 1/2-20')
    >>> completed(Row("M14x1 x 25 chamfer 1"), (), "mm")
    'thread M14x1 x 25 chamfer 1'
    >>> completed(Row("1/4-20 depth 5/8"), (), "inch")
    'thread 1/4-20 depth 5/8'
    """
    text = " ".join(row.text.split())
    if row.head or not text:
        return row.text
    whole = _as_thread(text, unit)
    if (count := _COUNTED.fullmatch(text)) and (thread := _thread_of(row, rows, unit)):
        return _by_count(int(count[1]), thread, unit) or row.text
    if re.fullmatch(r"(?i)scale \S+", whole) and (thread := _thread_of(row, rows, unit)):
        return f"{whole} on {thread}"
    return row.text if whole == text else whole


_COUNTED = re.compile(r"(?i)(?:scale )?([1-9]\d{0,2}) (?:scale )?lines?")


def _by_count(lines: int, thread: str, unit: str) -> str:
    """The line of a scale of so many lines round; "" where what one is worth is no plain decimal."""
    from engine.part.build import travel
    from engine.part.sizes import number
    from engine.threads.designation import parse

    lead = parse(thread).lead
    each = number(float(lead) / lines, unit, 5)
    return f"scale {each} on {thread}" if travel("per_line", each, unit) * lines == lead else ""


def _as_thread(text: str, unit: str) -> str:
    from engine.threads.designation import is_thread

    try:
        read_line(text, unit)
    except BadInput:
        told = text.lower().startswith("thread ")
        head = re.split(r"(?i) (?:x|depth|through|class) ", f"{text} ")[0].strip()
        whole = text if told else f"thread {text}" if is_thread(head) else ""
        return next((one for one in (whole, f"{whole} through") if whole and _is_line(one, unit)), text)
    return text


def _is_line(text: str, unit: str) -> bool:
    try:
        read_line(text, unit)
    except BadInput:
        return False
    return True


def _thread_of(row: Row, rows: Sequence[Row], unit: str) -> str:
    """The part's own thread, for a scale that does not say which: the first inside one, else the first outside."""
    found: dict[str, str] = {}
    for one in rows:
        if one is row or one.head or not re.search(r"(?i)thread|^\s*(m|tr|g|w)\d|\d-\d", one.text):
            continue
        try:
            short = read_line(_as_thread(" ".join(one.text.split()), unit), unit)
        except BadInput:
            continue
        if short.keys.get("is") == "thread":
            found.setdefault(short.where, str(short.keys["size"]))
    return found.get("inside") or found.get("outside", "")


@dataclass
class _Piece:
    """One piece while its lines are gathered; a feature is its list, its keys and the lines that gave them."""

    head: dict[str, tuple[str, int]] = field(default_factory=dict)
    features: list[tuple[str, Keys, list[int]]] = field(default_factory=list)
    ends: dict[str, tuple[Keys, list[int]]] = field(default_factory=dict)


def worked(draft: Draft) -> Worked:
    """Make a part file of the lines.

    >>> rows = [Row(t, h) for t, h in (("Nut", "title"), ("brass", "material"), ("28", "bar"), ("2", "make"))]
    >>> found = worked(Draft((*rows, Row("mm", "unit"), Row("25x5"), Row("scale 0.05"), Row("M14x1"))))
    >>> found.problems, found.file.part.outside[0].scale.lines, found.names[6]
    ({}, 20, (0, 'outside.1.scale'))
    """
    problems: dict[int, str] = {}
    unit = next((unit_meant(row.text.strip()) for row in draft.rows if row.head == "unit"), "mm")
    pieces = _gathered(draft.rows, unit if unit in ("mm", "inch") else "mm", problems)
    text, lines = _written(draft, pieces)
    unread, file = bool(problems), None
    problems |= _unread_scales(draft, pieces)
    made = any(where == "outside" for piece in pieces for where, _, _ in piece.features)
    try:
        file = read(text)
    except BadFile as wrong:
        for one in wrong.problems:
            if not made and one.text.startswith("outside:"):  # not wrong, not typed yet
                problems.setdefault(
                    len(draft.rows) - 1, "no outside feature is given yet, such as 25 x 5 or knurl 26 x 8."
                )
                continue
            row = lines.get(one.line or 0, 0)
            problems.setdefault(row, _misplaced(one.text) or one.text)
    except BadInput as wrong_text:
        problems.setdefault(0, str(wrong_text))
    return Worked(text, problems, file, dict(_names(pieces, draft.rows)), unread)


def _misplaced(problem: str) -> str:
    """What a line that stands on a feature which cannot have it says, in words of the trade; "" for any other problem."""
    found = re.match(r"\S+\.(\w+): this is not a key of (?:outside|inside|across) (.+?)\.", problem)
    if not found:
        return ""
    ends = ", or says which end it goes across, as slot 1.5 x 2 across back" if found[1] == "slot" else ""
    return (
        f"a {found[2]} cannot have {found[1].replace('_', ' ')}: its line follows that of the feature it is on{ends}."
    )


def unit_meant(text: str) -> str:
    """The unit as a part's file says it, from what people type: the screen itself writes `in`."""
    return _UNITS.get(text.lower(), text)


def _unread_scales(draft: Draft, pieces: Sequence[_Piece]) -> dict[int, str]:
    """The lines of scales whose screw is not given yet, each with what would give it."""
    said = "the screw that this scale reads is still to be given: a thread's line, such as M12x1.5; or scale 0.05 on M12x1.5."
    found = ((lines, keys.get("scale")) for piece in pieces for _, keys, lines in piece.features)
    return {
        row: said
        for lines, scale in found
        if isinstance(scale, Mapping) and not {"size", "lead"} & set(scale)
        for row in lines
        if draft.rows[row].text.strip().lower().startswith("scale")
    }


def _gathered(rows: Sequence[Row], unit: str, problems: dict[int, str]) -> list[_Piece]:
    pieces = [_Piece()]
    for index, row in enumerate(rows):
        text = row.text.strip()
        word, _, rest = text.partition(" ")
        if row.head == "part" or (not row.head and word.lower() == "part" and rest.strip()):
            pieces.append(_Piece(head={"title": (text if row.head else rest.strip(), index)}))
        elif row.head:
            pieces[-1].head[row.head] = (unit_meant(text) if row.head == "unit" else text), index
        elif word.lower() in (*_MORE, "make") and rest.strip():
            pieces[-1].head[word.lower()] = rest.strip(), index
        elif text:
            try:
                short = row.short or read_line(completed(row, rows, unit), unit)
                _put(pieces[-1], short, index)
            except BadInput as refusal:
                problems[index] = str(refusal).removeprefix("line: ")
    return pieces


def _put(piece: _Piece, short: Short, index: int) -> None:
    if short.where in _ENDS:
        keys, lines = piece.ends.setdefault(short.where, ({}, []))
        keys |= short.keys
        lines.append(index)
        return
    if short.where == "on":
        place = _carrier(piece, short)
        before = [piece.features[place][1]] if piece.features else []
        keys = with_line(before, short)[-1]
        where, _, lines = piece.features[place]
        piece.features[place] = (where, keys, [*lines, index])
        return
    piece.features.append((short.where, dict(short.keys), [index]))


def _carrier(piece: _Piece, short: Short) -> int:
    """The feature that a line stands on: the one before it; a scale that follows a knurl or a thread is meant for the
    plain feature before those."""
    scaled = [i for i, (_, keys, _) in enumerate(piece.features) if "scale" in keys]
    if scaled and "every" in short.keys.get("figures", {}):  # at lines of the scale
        return scaled[-1]
    if "scale" not in short.keys:
        return -1
    plain = [i for i, (where, keys, _) in enumerate(piece.features) if where == "outside" and keys["is"] in _SCALED]
    return plain[-1] if plain else -1


def _written(draft: Draft, pieces: Sequence[_Piece]) -> tuple[str, dict[int, int]]:
    """The file's text, and which line of it (from 1) came from which row."""
    out: list[str] = [*draft.comments, "part_version = 1"]
    lines: dict[int, int] = {}

    def put(text: str, row: int) -> None:
        out.append(text)
        lines[len(out)] = row

    several = len(pieces) > 1
    prefix = "part." if several else ""
    for number, piece in enumerate(pieces):
        shared = [k for k in piece.head if not several or k in _SHARED] if number == 0 else []
        kept = draft.kept[number] if number < len(draft.kept) else {}
        for key in shared:
            _put_head(put, draft, key, *piece.head[key])
        if several:
            out += ["", "[[part]]"]
        for key in piece.head:
            if key not in shared:
                _put_head(put, draft, key, *piece.head[key])
        for key, value in kept.items():
            if isinstance(value, str):
                out.append(f"{key} = {value_text(value)}")
        for name in _LISTS:
            for where, keys, rows in piece.features:
                if where == name:
                    out.append("")
                    table = [("", f"[[{prefix}{name}]]"), *((k, f"{k} = {value_text(v)}") for k, v in keys.items())]
                    owners = [rows[0], *(_row_of(key, value, rows, draft) for key, value in keys.items())]
                    kept_at = [one for row in rows for one in draft.rows[row].remarks]
                    for text, place in written(table, kept_at):
                        put(text, owners[place])
        for end, (keys, rows) in piece.ends.items():
            out.append("")
            table = [("", f"[{prefix}{end}]"), *((k, f"{k} = {value_text(v)}") for k, v in keys.items())]
            for text, place in written(table, [one for row in rows for one in draft.rows[row].remarks]):
                put(text, rows[0] if place == 0 else rows[-1])
        for key, value in kept.items():
            if isinstance(value, dict):
                out += ["", f"[{prefix}{key}]", *(f"{k} = {value_text(v)}" for k, v in value.items())]
    return "\n".join(out) + "\n", lines


def _put_head(put: Any, draft: Draft, key: str, text: str, row: int) -> None:
    if text and not (key == "make" and text == "1"):
        for said, _ in written([(key, f"{key} = {value_text(text)}")], draft.rows[row].remarks):
            put(said, row)


def _row_of(key: str, value: Any, rows: Sequence[int], draft: Draft) -> int:
    """The line that a key came from: that of what stands on the feature, else the feature's own."""
    word = "fits" if key == "mate" else key
    if isinstance(value, Mapping):
        return next((row for row in rows if draft.rows[row].text.lower().startswith(word)), rows[0])
    return rows[0]


def _names(pieces: Sequence[_Piece], rows: Sequence[Row]) -> Iterator[tuple[int, tuple[int, str]]]:
    """The name of what each line gives, as the part has it."""
    for number, piece in enumerate(pieces):
        counts = dict.fromkeys(_LISTS, 0)
        for where, keys, lines in piece.features:
            counts[where] += 1
            name = f"{where}.{counts[where]}"
            for line in lines:
                word = rows[line].text.split()[0].lower() if rows[line].text.split() else ""
                stands = line != lines[0] and word in keys
                yield line, (number, f"{name}.{word}" if stands else name)
        for end, (_, lines) in piece.ends.items():
            for line in lines:
                yield line, (number, f"{end}.{rows[line].text.split()[0].lower()}")


# Changing the lines


def with_row(draft: Draft, index: int, text: str) -> Draft:
    """Another text in a line; what a file had for it goes with the old one."""
    old = draft.rows[index]
    if old.text == text:
        return draft
    return replace(draft, rows=(*draft.rows[:index], replace(old, text=text, short=None), *draft.rows[index + 1 :]))


def inserted(draft: Draft, index: int) -> Draft:
    """An empty line before another."""
    return replace(draft, rows=(*draft.rows[:index], Row(""), *draft.rows[index:]))


def without(draft: Draft, index: int) -> Draft:
    """Take a line out; a line of the head is emptied."""
    if draft.rows[index].head and draft.rows[index].head != "part":
        return with_row(draft, index, "")
    rows = (*draft.rows[:index], *draft.rows[index + 1 :])
    return replace(draft, rows=rows if rows[-1].text == "" else (*rows, Row("")))


def moved(draft: Draft, index: int, by: int) -> tuple[Draft, int]:
    """Move a line up or down by one, not into the head; and where it is then."""
    to = index + by
    rows = list(draft.rows)
    if rows[index].head or not 0 <= to < len(rows) or rows[to].head in HEAD or not rows[index].text:
        return draft, index
    rows.insert(to, rows.pop(index))
    return replace(draft, rows=tuple(rows)), to


def part_at(found: Worked, index: int) -> tuple[Part | None, str]:
    """The part that a line belongs to, and the name of what it gives."""
    number, name = found.names.get(index, (0, ""))
    if found.file is None or number >= len(found.file.parts):
        return None, name
    return found.file.parts[number], name
