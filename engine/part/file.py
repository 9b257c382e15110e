"""Part files: read strictly, every mistake with its line; written back so that comments and order stay.

`[[part]]` in a file holds several different pieces from one bar; what stands above them is so for each.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.base.files import (
    BadFile,
    Place,
    Problem,
    Unreadable,
    line_numbers,
    parse_toml,
    place_name,
    problems_of,
    read_written,
)
from engine.base.refusals import BadInput
from engine.part.keys import Keys, keys_of
from engine.part.part import Part, PartFile

if TYPE_CHECKING:
    from engine.part.schema import FeatureKeys, PartKeys

LARGEST = 64 * 1024  # characters
MOST_PARTS = 8
_DEEPEST = 6
_FIELD = "part file"
_LISTS = ("outside", "inside", "across")


def is_part(document: Mapping[str, Any]) -> bool:
    """Whether a parsed file is a part file: it says so by its version.

    >>> is_part({"part_version": 1}), is_part({"schema_version": 2})
    (True, False)
    """
    return "part_version" in document


def read_file(path: Path) -> tuple[PartFile, str]:
    """Read a part file, and return it with its text; BadInput if it cannot be opened, BadFile with every
    mistake.
    """
    try:
        text = read_written(path)
    except Unreadable as reason:
        name = place_name((path.name,))
        sentence = f"{_FIELD}: {name} cannot be read: {reason}."
        raise BadInput(_FIELD, path, "a part file", sentence) from None
    return read(text, path), text


def read(text: str, path: Path = Path("part.toml")) -> PartFile:
    """Read a part file's text; BadFile with every mistake and its line.

    >>> nut = 'part_version = 1\\ntitle = "Ring"\\nunit = "mm"\\nmaterial = "brass"\\nbar = "20"\\n'
    >>> ring = read(nut + '[[outside]]\\nis = "diameter"\\nsize = "18"\\nlength = "6"')
    >>> ring.part.overall, ring.part.outside[0].name
    (6.0, 'outside.1')
    """
    if len(text) > LARGEST:
        problem = Problem(path.name, None, f"a part file is at most {LARGEST // 1024} kB long.")
        raise BadFile(_FIELD, path, (problem,))
    document = parse_toml(_FIELD, path, text)
    return _Reader(path, line_numbers(text)).file(document)


def read_keys(keys: Mapping[str, Any]) -> Part:
    """Read one part from its keys, as a screen holds them; BadFile with every mistake."""
    return _Reader(Path("part"), {}).file({"part_version": 1, **keys}).part


class _Reader:
    """Reads the tables of one file and gathers every mistake."""

    def __init__(self, path: Path, lines: Mapping[Place, int]) -> None:
        self.path, self.lines = path, lines
        self.problems: list[Problem] = []

    def file(self, document: dict[str, Any]) -> PartFile:
        self.version(document)
        self.shallow(document)
        shared = {key: value for key, value in document.items() if key not in ("part_version", "part")}
        if "part" not in document:
            pieces: list[tuple[Place, dict[str, Any]]] = [((), shared)]
        else:
            pieces = [(("part", i), {**shared, **one}) for i, one in enumerate(self.pieces(document, shared))]
        parts = [part for place, piece in pieces if (part := self.part(place, piece))]
        if self.problems:
            raise BadFile(_FIELD, self.path, tuple(sorted(self.problems, key=lambda p: p.line or 0)[:30]))
        return PartFile(parts=tuple(parts))

    def pieces(self, document: Mapping[str, Any], shared: Mapping[str, Any]) -> list[dict[str, Any]]:
        given = document["part"]
        if not isinstance(given, list) or not all(isinstance(one, dict) for one in given):
            self.say(("part",), "several pieces in one file are written as [[part]] tables.")
            return []
        for name in (*_LISTS, "front", "back", "length"):
            if name in shared:
                self.say((name,), "with [[part]] in the file this stands under a part, as [[part.outside]].")
        if len(given) > MOST_PARTS:
            self.say(("part",), f"at most {MOST_PARTS} different pieces come from one file.")
        return given[:MOST_PARTS]

    def version(self, document: Mapping[str, Any]) -> None:
        from engine.part.schema import PART_VERSION

        version = document.get("part_version")
        if version == PART_VERSION and not isinstance(version, bool):
            return
        text = f"this is needed and is {PART_VERSION}."
        if isinstance(version, int) and version > PART_VERSION:
            text = (
                f"this file is of version {version}; this program reads up to {PART_VERSION}. A "
                "newer program is needed."
            )
        self.say(("part_version",), text)
        raise BadFile(_FIELD, self.path, tuple(self.problems))

    def shallow(self, document: object) -> None:
        level: list[object] = [document]
        for _ in range(_DEEPEST):
            level = [
                inner
                for outer in level
                if isinstance(outer, dict | list)
                for inner in (outer.values() if isinstance(outer, dict) else outer)
            ]
        if any(isinstance(inner, dict | list) for inner in level):
            problem = Problem(self.path.name, None, "it is nested deeper than a part file is.")
            raise BadFile(_FIELD, self.path, (problem,))

    def say(self, place: Place, text: str) -> None:
        line = next((self.lines[place[:n]] for n in range(len(place), 0, -1) if place[:n] in self.lines), None)
        self.problems.append(Problem(self.path.name, line, f"{place_name(place)}: {text}"))

    def part(self, place: Place, piece: dict[str, Any]) -> Part | None:
        from engine.part.build import build
        from engine.part.checks import problems as problems_of_part
        from engine.part.checks import with_truths

        before = len(self.problems)
        keys = self.keys(place, piece)
        features = {name: self.features(place, name, piece) for name in _LISTS}
        if keys is None or len(self.problems) > before:
            return None
        made, wrong = build(keys, features)
        found = [(one.field, str(one)) for one in wrong] or problems_of_part(made)
        for name, sentence in found:
            self.say((*place, *_place_of(name)), sentence.removeprefix(f"{name}: "))
        return None if found else with_truths(made)

    def keys(self, place: Place, piece: dict[str, Any]) -> PartKeys | None:
        from pydantic import ValidationError

        from engine.part.schema import PartKeys, keys_of

        try:
            return PartKeys.model_validate(piece, context={"unit": _unit(piece)})
        except ValidationError as error:
            self.translate(error, place, keys_of(PartKeys), "a key of a part file")
        return None

    def features(self, place: Place, name: str, piece: Mapping[str, Any]) -> list[FeatureKeys]:
        given = piece.get(name, [])
        found = []
        for index, one in enumerate(given if isinstance(given, list) else []):
            if isinstance(one, dict) and (feature := self.feature((*place, name, index), name, one, _unit(piece))):
                found.append(feature)
        return found

    def feature(self, place: Place, name: str, given: dict[str, Any], unit: str) -> FeatureKeys | None:
        from difflib import get_close_matches

        from pydantic import ValidationError

        from engine.part.schema import KINDS, keys_of

        kind = str(given.get("is", ""))[:40]
        model = KINDS[name].get(kind)
        if model is None:
            near = get_close_matches(kind, KINDS[name], n=1)
            hint = f"Did you mean {near[0]!r}?" if near else f"There are: {', '.join(KINDS[name])}."
            self.say((*place, "is"), f"{kind or 'nothing'} is no feature of {name}. {hint}")
            return None
        try:
            return model.model_validate(given, context={"unit": unit})
        except ValidationError as error:
            self.translate(error, place, keys_of(model), f"a key of {name} {kind}")
        return None

    def translate(self, error: Any, place: Place, known: tuple[str, ...], what: str) -> None:
        self.problems.extend(
            problems_of(error, file=self.path.name, lines=self.lines, known=known, what=what, under=place)
        )


def _unit(piece: Mapping[str, Any]) -> str:
    unit = piece.get("unit")
    return unit if unit in ("mm", "inch") else "mm"


def _place_of(name: str) -> Place:
    """Where a feature stands in its file: `outside.1.scale` is the key `scale` of the first outside
    feature.
    """
    return tuple(int(part) - 1 if part.isdigit() else part for part in name.split("."))


def write(file: PartFile) -> str:
    """Write a part file from its parts, in the one order that files have.

    What all parts have alike stands above them.
    """
    if len(file.parts) == 1:
        return "part_version = 1\n" + _toml(keys_of(file.part), "")
    every = [keys_of(part) for part in file.parts]
    alike = {k: v for k, v in every[0].items() if k in _SHARED and all(one.get(k) == v for one in every)}
    text = "part_version = 1\n" + _toml(alike, "")
    for keys in every:
        own = {key: value for key, value in keys.items() if key not in alike}
        text += "\n[[part]]\n" + _toml(own, "part.")
    return text


_SHARED = ("unit", "material", "bar", "blank", "general", "edges", "finish", "heat", "stock")


def _toml(keys: Keys, prefix: str) -> str:
    """Keys first, then tables and lists of tables."""
    text = "".join(f"{k} = {value_text(v)}\n" for k, v in keys.items() if not isinstance(v, dict | list))
    for key, value in keys.items():
        if isinstance(value, dict):
            text += f"\n[{prefix}{key}]\n" + "".join(f"{k} = {value_text(v)}\n" for k, v in value.items())
        elif isinstance(value, list):
            for one in value:
                text += f"\n[[{prefix}{key}]]\n" + "".join(f"{k} = {value_text(v)}\n" for k, v in one.items())
    return text


def value_text(value: Any) -> str:
    """How a value stands in a part file."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {value_text(one)}" for key, one in value.items()) + " }"
    escaped = str(value).replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def with_key(text: str, place: Place, value: Any) -> str:
    """Return the file's text with one key changed, such as ("outside", 0, "size"); None or "" takes it out.

    The text is not checked: a screen keeps what is being typed and says what is wrong with it.
    """
    import tomlkit

    document = tomlkit.parse(text)
    table: Any = document
    for step in place[:-1]:
        if isinstance(step, str) and step not in table:
            table[step] = tomlkit.table()
        table = table[step]
    if value in (None, "", {}):
        table.pop(place[-1], None)
    else:
        table[place[-1]] = _item(value)
    return tomlkit.dumps(document)


def with_feature(text: str, name: str, index: int, keys: Keys, *, under: Place = ()) -> str:
    """Return the text with a feature put in before position `index` (from 0) of a list; `under` is its
    [[part]].
    """
    import tomlkit

    document = tomlkit.parse(text)
    holder: Any = document
    for step in under:
        holder = holder[step]
    every = list(holder.get(name, []))
    table = tomlkit.table()
    for key, value in keys.items():
        table.add(key, _item(value))
    table.add(tomlkit.nl())
    every.insert(index, table)
    _set_list(holder, name, every)
    return tomlkit.dumps(document)


def without_feature(text: str, name: str, index: int, *, under: Place = ()) -> str:
    """Return the text with one feature of a list taken out."""
    return _rearranged(text, name, under, lambda every: every.pop(index))


def moved_feature(text: str, name: str, index: int, to: int, *, under: Place = ()) -> str:
    """Return the text with one feature of a list moved to another position."""
    return _rearranged(text, name, under, lambda every: every.insert(to, every.pop(index)))


def with_feature_keys(text: str, name: str, index: int, keys: Keys, *, under: Place = ()) -> str:
    """Return the text with the keys of a feature set to these; comments and keys that stay the same are
    kept.
    """
    import tomlkit

    document = tomlkit.parse(text)
    holder: Any = document
    for step in under:
        holder = holder[step]
    table = holder[name][index]
    for key in [key for key in table if key not in keys]:
        table.pop(key)
    for key, value in keys.items():
        if key not in table or table[key] != value:
            table[key] = _item(value)
    return tomlkit.dumps(document)


def _rearranged(text: str, name: str, under: Place, change: Any) -> str:
    import tomlkit

    document = tomlkit.parse(text)
    holder: Any = document
    for step in under:
        holder = holder[step]
    every = list(holder[name])
    change(every)
    _set_list(holder, name, every)
    return tomlkit.dumps(document)


def _set_list(holder: Any, name: str, every: list[Any]) -> None:
    import tomlkit

    if not every:
        holder.pop(name, None)
        return
    listed = tomlkit.aot()
    for one in every:
        listed.append(one)
    holder[name] = listed


def _item(value: Any) -> Any:
    import tomlkit

    if isinstance(value, dict):
        table = tomlkit.inline_table()
        table.update(value)
        return table
    return value
