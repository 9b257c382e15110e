"""Changing a shop file one answer at a time. Comments and order stay; a change that would break the file is refused."""

from __future__ import annotations

from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.items import AoT

from engine.base.declare import asks, is_empty
from engine.base.files import Place
from engine.base.kinds import Ask
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.shop.file import SAMPLES, parse
from engine.shop.model import Shop

_SAMPLE = "sample"
_NONE_OF = "none_of"
_SLIDE = ("backlash",)
# What hurts if it is invented, by the part it belongs to: unknown until it is read off the machine.
_SAFETY: dict[str, tuple[str, ...]] = {
    "lathe": ("spindle_bore",),
    "chuck": ("marked_speed", "body_diameter", "jaw_length", "screwed"),
    "chucks": ("marked_speed",),
    "blade": ("reach",),
    **dict.fromkeys(("cross_slide", "top_slide", "saddle", "tailstock", "x", "y", "z"), _SLIDE),
}


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the shop editor: an answer, or the heading of a part (`ask.part` is set).

    `place` leads to it in the file. `owned`: whether the file has it; `typed`: as the file writes it;
    `sample`: it still says what the sample bench says, and nobody has said that it is so here.
    """

    place: Place
    ask: Ask
    owned: bool
    typed: str
    sample: bool = False

    @property
    def depth(self) -> int:
        """How far in it stands: 0 for the shop's own answers."""
        return len(self.place) - 1


def sample_text(name: str) -> str:
    """Return the file of a sample bench, to begin one's own from.

    >>> "leadscrew" in sample_text("metric")
    True
    """
    if name not in SAMPLES:
        raise BadInput("bench", name, "metric or inch")
    return files("engine.shop").joinpath(f"{name}.toml").read_text(encoding="utf-8")


def own_text(bench: str) -> str:
    """Return a file to make one's own bench from: the sample's answers marked as such, and none of those that a person
    is hurt by if they are wrong.

    >>> shop = parse(own_text("metric"))
    >>> shop.lathe.chuck.marked_speed, shop.lathe.spindle_bore, float(shop.lathe.leadscrew)
    (None, None, 3.0)
    """
    document = tomlkit.parse(sample_text(bench))
    del document["name"]
    _mark(document, unknown=True)
    return tomlkit.dumps(document)


def begun_text(bench: str) -> str:
    """Return a sample bench as a file, every answer marked as the sample's.

    >>> any(row.sample for row in rows(begun_text("metric")))
    True
    """
    document = tomlkit.parse(sample_text(bench))
    _mark(document, unknown=False)
    return tomlkit.dumps(document)


def _mark(table: Any, unknown: bool, of: str = "") -> None:
    """Write behind each answer that it is the sample's; leave the numbers of safety out where they are unknown."""
    for name in list(table):
        value = table[name]
        if isinstance(value, Mapping):
            _mark(value, unknown, name)
            table.item(name).comment(_SAMPLE)
        elif isinstance(value, AoT):
            for one in value:
                _mark(one, unknown, name)
        elif unknown and name in _SAFETY.get(of, ()):
            del table[name]
        else:
            table.item(name).comment(_SAMPLE)


def is_sample(table: Any, name: str) -> bool:
    """Whether an answer still says what the sample bench says.

    >>> document = tomlkit.parse('name = "Shed"\\nunit = "mm"  # sample')
    >>> is_sample(document, "name"), is_sample(document, "unit")
    (False, True)
    """
    item = table.item(name) if name in table else None
    return item is not None and item.trivia.comment.strip() == f"# {_SAMPLE}"


def as_own(text: str, place: Place) -> str:
    """Return the file with an answer of the sample taken as one's own.

    >>> as_own('name = "Shed"  # sample', ("name",))
    'name = "Shed"'
    """
    document = tomlkit.parse(text)
    unmark(table_at(document, place[:-1]).item(place[-1]))
    return tomlkit.dumps(document)


def headed_sample(part: Any) -> bool:
    """Whether nobody has said yet that there is this part: its heading is marked."""
    return bool(part.trivia.comment.strip() == f"# {_SAMPLE}")


def unmark(item: Any) -> None:
    """Take an answer, or a part, as its owner's."""
    item.trivia.comment = item.trivia.comment_ws = ""


def rows(text: str) -> tuple[Row, ...]:
    """Return every question about the shop in order, with what the file says.

    >>> [r.typed for r in rows('name = "Shed"') if r.place == ("name",)]
    ['Shed']
    """
    return tuple(_rows(Shop, tomlkit.parse(text), ()))


def _rows(model: type, given: Any, place: Place) -> list[Row]:
    found: list[Row] = []
    for name, ask in asks(model).items():
        here = (*place, name)
        value = given.get(name)
        if ask.part is None:
            plain = value.unwrap() if hasattr(value, "unwrap") else value
            typed = "" if plain is None else as_typed(plain)
            found.append(Row(here, ask, value is not None, typed, is_sample(given, name)))
        elif ask.many:
            found.append(Row(here, ask, bool(value), ""))
            for i, one in enumerate(value or []):
                found.append(Row((*here, i), ask, True, ""))
                found.extend(_rows(ask.part, one, (*here, i)))
        else:
            found.append(Row(here, ask, value is not None, ""))
            if value is not None:
                found.extend(_rows(ask.part, value, here))
    return found


def as_typed(value: Any) -> str:
    """A value of the file as it would be typed.

    >>> as_typed(True), as_typed([1, 2])
    ('yes', '1, 2')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        groups = any(isinstance(v, list) for v in value)
        return ("; " if groups else ", ").join(as_typed(v) for v in value)
    return str(value)


def with_answer(text: str, place: Place, typed: str) -> str:
    """Return the file with one answer changed; an empty answer takes it out.

    >>> print(with_answer('# my shed\\nname = "Shed"  # old\\n', ("name",), "Barn"))
    # my shed
    name = "Barn"  # old
    """
    document = tomlkit.parse(text)
    name = str(place[-1])
    ask = asks_at(place[:-1])[name]
    unit = str(document.get("unit", "mm"))
    if place == ("unit",) and typed.strip() in ask.choices:
        document = tomlkit.parse(_with_units_said(text, unit)) if typed.strip() != unit else document
        unit = typed.strip()
    table = table_at(document, place[:-1])
    if is_empty(typed):
        if ask.required:
            example = f" (such as {ask.example})" if ask.example else ""
            raise BadInput(name, "", ask.label.lower() + example, f"{name}: {ask.label.lower()} is needed{example}.")
        table.pop(name, None)
    else:
        ask.read(name, typed, unit if unit in ("mm", "inch") else "mm")
        sample = is_sample(table, name)
        table[name] = ask.sort.as_toml(typed.strip(), ask)
        if sample:
            unmark(table.item(name))
    return checked(tomlkit.dumps(document))


def _with_units_said(text: str, unit: str) -> str:
    """The file with its unit behind every bare length, so that each stays true in another unit."""
    document = tomlkit.parse(text)
    for row in rows(text):
        said = row.ask.sort.with_unit(row.typed, row.ask, unit) if row.typed and row.ask.part is None else row.typed
        if said != row.typed:
            table, name = table_at(document, row.place[:-1]), row.place[-1]
            table[name] = said
            if row.sample:
                table.item(name).comment(_SAMPLE)
    return tomlkit.dumps(document)


def with_part(text: str, place: Place, put_away: str = "") -> str:
    """Return the file with a part put in: as it was when it was taken out (`put_away`, as part_text gave it), else
    filled from the sample bench of its unit, for its owner to change.

    >>> parse(with_part('unit = "inch"', ("rotary_table",))).rotary_table.ratio
    90
    """
    document = tomlkit.parse(text)
    ask = asks_at(place[:-1])[str(place[-1])]
    if ask.part is None:
        raise BadInput(str(place[-1]), "", "a part of the shop, such as mill")
    table = table_at(document, place[:-1])
    name = str(place[-1])
    if not ask.many and name in table:
        raise BadInput(name, name, "a part that is not there yet")
    if put_away:
        table[name] = tomlkit.parse(put_away)[name]
        return checked(tomlkit.dumps(document))
    part = tomlkit.item(_seed(place, str(document.get("unit", "mm"))))
    _mark(part, unknown=True, of=name)
    if ask.many:
        if name not in table:
            table[name] = tomlkit.aot()
        entries = table[name]
        assert isinstance(entries, AoT)
        entries.append(part)
    else:
        table[name] = part
    return checked(tomlkit.dumps(document))


def without_part(text: str, place: Place) -> str:
    """Return the file with a part, or one entry of a list of parts, taken out.

    >>> parse(without_part(sample_text("metric"), ("mill",))).mill is None
    True
    """
    document = tomlkit.parse(text)
    name = next(str(p) for p in reversed(place) if isinstance(p, str))
    owner = place[: -2 if isinstance(place[-1], int) else -1]
    ask = asks_at(owner)[name]
    if ask.required:
        raise BadInput(name, "", f"{ask.label.lower()}: a {owner[-1]} cannot be without it")
    table = table_at(document, owner)
    if isinstance(place[-1], int):
        del table[name][place[-1]]
    if not isinstance(place[-1], int) or not table[name]:
        del table[name]
    return checked(tomlkit.dumps(document))


def part_text(text: str, place: Place) -> str:
    """Return a part, or a list of parts, as it stands in the file, to be kept while it is put away; "" if there is none.

    >>> print(part_text('[mill]\\nmotor = 450  # mine\\n', ("mill",)).strip())
    [mill]
    motor = 450  # mine
    """
    table, name = table_at(tomlkit.parse(text), place[:-1]), str(place[-1])
    if name not in table:
        return ""
    alone = tomlkit.document()
    alone[name] = table[name]
    return tomlkit.dumps(alone)


def said_none(document: Any) -> set[str]:
    """The places, with full stops between, of which the owner has said that there is none."""
    return {word.strip() for word in str(document.get(_NONE_OF, "")).split(",") if word.strip()}


def with_none(text: str, place: Place) -> str:
    """Return the file in which its owner has said that there is none of a part or a list.

    >>> print(with_none('reamers = "3, 4"', ("reamers",)).strip())
    none_of = "reamers"
    """
    document = tomlkit.parse(text)
    ask = asks_at(place[:-1])[str(place[-1])]
    if ask.required:
        raise BadInput(str(place[-1]), "none", ask.label.lower())
    table_at(document, place[:-1]).pop(str(place[-1]), None)
    document[_NONE_OF] = ", ".join(sorted(said_none(document) | {".".join(map(str, place))}))
    return checked(tomlkit.dumps(document))


def without_none(text: str, place: Place) -> str:
    """Return the file in which it is no longer said that there is none of something.

    >>> without_none('none_of = "reamers"', ("reamers",))
    ''
    """
    document = tomlkit.parse(text)
    left = said_none(document) - {".".join(map(str, place))}
    if _NONE_OF not in document or left == said_none(document):
        return text
    if left:
        document[_NONE_OF] = ", ".join(sorted(left))
    else:
        del document[_NONE_OF]
    return tomlkit.dumps(document)


def with_part_said(text: str, place: Place, put_away: str = "") -> str:
    """Return the file in which its owner has said that there is this part: what it holds is still the sample's, or what
    it held when it was taken out."""
    name = str(place[-1])
    if name not in table_at(tomlkit.parse(text), place[:-1]):
        text = with_part(text, place, put_away)
    document = tomlkit.parse(text)
    part = table_at(document, place[:-1])[name]
    if not isinstance(part, AoT):
        unmark(part)
    return tomlkit.dumps(document)


def sample_answer(place: Place, unit: str) -> str:
    """Return what the sample bench of a unit answers, as typed; "" where it says nothing, or where it must not be
    believed.

    >>> sample_answer(("lathe", "leadscrew"), "mm"), sample_answer(("lathe", "chuck", "marked_speed"), "mm")
    ('3', '')
    """
    if len(place) > 1 and place[-1] in _SAFETY.get(str(place[-2]), ()):
        return ""
    found: Any = tomlkit.parse(sample_text("inch" if unit == "inch" else "metric")).unwrap()
    for step in place:
        found = found.get(step) if isinstance(found, Mapping) else None
    return "" if found is None or isinstance(found, Mapping) else as_typed(found)


def asks_at(place: Place) -> Mapping[str, Ask]:
    """The questions of the part at a place; those of the shop itself at ()."""
    model: type = Shop
    for name in place:
        if isinstance(name, str):
            part = asks(model)[name].part
            assert part is not None
            model = part
    return asks(model)


def table_at(document: Any, place: Place) -> Any:
    """What a file holds at a place."""
    table = document
    for step in place:
        table = table[step]
    return table


def _seed(place: Place, unit: str) -> Mapping[str, Any]:
    """The same part of the sample bench of this unit, else of the other, else its questions' own examples."""
    for name in ("inch", "metric") if unit == "inch" else ("metric", "inch"):
        found: Any = tomlkit.parse(sample_text(name)).unwrap()
        for step in place:
            found = found.get(step, {}) if isinstance(found, Mapping) else found[0]
        found = found[0] if isinstance(found, list) else found
        if found:
            same = (name == "inch") == (unit == "inch")
            return found if same else _with_units(found, "in" if name == "inch" else "mm")
    ask = asks_at(place[:-1])[str(place[-1])]
    assert ask.part is not None
    wanted = {key: one for key, one in asks(ask.part).items() if one.required}
    lengths = {key for key, one in wanted.items() if one.sort.in_unit and one.dimension == "length"}
    return {key: f"{one.example} mm" if key in lengths else one.example for key, one in wanted.items()}


def _with_units(part: Mapping[str, Any], unit: str) -> dict[str, Any]:
    """Lengths of the other sample bench, with their unit written out."""
    lengths = {"diameter", "width", "pitch", "reach", "flute_length", "travel_per_turn", "backlash"}
    return {k: f"{v} {unit}" if k in lengths and isinstance(v, int | float) else v for k, v in part.items()}


def checked(text: str) -> str:
    """The text, if it is a shop file without mistakes; else BadFile."""
    parse(text, Path("shop.toml"))
    return text
