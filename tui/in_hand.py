"""The part in hand at the bench: its material, bar and thread, told once, taken by every operation. No Textual here."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING

from engine.base.declare import material, read, text, thread
from engine.base.files import Unreadable, read_written, write_safely
from engine.base.kinds import Ask
from engine.base.records import asdict, dataclass, replace
from engine.base.refusals import BadInput
from engine.set_up import SetUp, as_kept
from engine.shop.file import data_file, data_folder

if TYPE_CHECKING:
    from pathlib import Path

    from engine.part.part import Part

_OF_THE_BAR = ("Diameter of the bar", "Diameter gripped")
_OF_THE_WORK = ("From diameter", "Diameter")  # of what is cut: there the material is asked too
_BARE = r"\d+(?:[.,]\d*)?|\d*[.,]\d+|\d+/\d+"


@dataclass(frozen=True, slots=True, kw_only=True)
class InHandInputs:
    """What the person is asked."""

    material: object = material("Material", required=False, empty="not told", example="free-cutting brass")
    bar: str = text("Bar", required=False, empty="not told", example="28", help="Its diameter, or hex 17, square 20.")
    thread: object = thread("Thread", required=False, empty="not told", example="M12x1.5")


@dataclass(frozen=True, slots=True, kw_only=True)
class InHand:
    """As typed; what is not told is empty."""

    material: str = ""
    bar: str = ""
    thread: str = ""

    def words(self) -> str:
        """All of it on one line."""
        return " · ".join(filter(None, (self.material, f"bar {self.bar}" if self.bar else "", self.thread)))

    def fills(self, asks: Mapping[str, Ask]) -> dict[str, str]:
        """What an operation's empty inputs take: its material; the thread it needs; a round bar's diameter.

        >>> from engine.base.declare import asks
        >>> from engine.base.register import load
        >>> held = InHand(material="brass", bar="28 mm", thread="M14x1")
        >>> held.fills(asks(load("turn-to-size").inputs)), held.fills(asks(load("thread-limits").inputs))
        ({'from': '28 mm', 'material': 'brass'}, {'size': 'M14x1'})
        """
        found = {name: self._for(name, ask, "material" in asks) for name, ask in asks.items()}
        return {name: told for name, told in found.items() if told}

    def _for(self, name: str, ask: Ask, worked: bool) -> str:
        if ask.kind == "material" and name == "material":
            return self.material
        if ask.kind == "thread" and ask.required:
            return self.thread
        begins = ask.label in _OF_THE_BAR or (ask.label in _OF_THE_WORK and ask.required and worked)
        return self.bar if begins and self.bar[:1].isdecimal() else ""

    def offered(self, asks: Mapping[str, Ask], typed: Mapping[str, str]) -> InHand:
        """With the material and the thread that were typed in an operation, where none was in hand."""
        found = self
        for name, told in typed.items():
            ask = asks.get(name)
            if ask and ask.kind == "material" and name == "material" and not self.material:
                found = replace(found, material=told.strip())
            elif ask and ask.kind == "thread" and ask.required and not self.thread:
                found = replace(found, thread=told.strip())
        return found


def with_units(held: InHand, unit: str) -> InHand:
    """The bar with its unit, so that it stays true when another unit is shown.

    >>> with_units(InHand(bar="28"), "mm").bar, with_units(InHand(bar="hex 17"), "mm").bar
    ('28 mm', 'hex 17 mm')
    """
    if not held.bar or not re.fullmatch(_BARE, held.bar.split()[-1]):
        return held
    return replace(held, bar=f"{held.bar} {'in' if unit == 'inch' else 'mm'}")


def checked(given: Mapping[str, str], unit: str) -> InHand:
    """What was typed; BadInput, naming the field, if it cannot be."""
    from engine.part.sizes import read_bar

    read(InHandInputs, given, unit=unit)
    held = with_units(InHand(**{name: given.get(name, "").strip() for name in ("material", "bar", "thread")}), unit)
    if held.bar:
        try:
            read_bar(held.bar, unit)
        except BadInput as refusal:
            raise BadInput("bar", held.bar, refusal.accepted) from None
    return held


def of_part(part: Part) -> InHand:
    """The part in hand where it has been planned: its first inside thread, else its first outside one."""
    from engine.part.part import InsideThread, OutsideThread

    inside = (one.size for one in part.inside if isinstance(one, InsideThread))
    outside = (one.size for one in part.outside if isinstance(one, OutsideThread))
    first = next(inside, None) or next(outside, None)
    held = InHand(material=part.material, bar=part.bar.written, thread=str(first) if first else "")
    return with_units(held, part.unit)


def of_file(path: Path) -> tuple[str, InHand]:
    """The title of a part file's first part, and the part in hand that it gives; BadInput if it cannot be read."""
    from engine.part.file import read_file

    part = read_file(path)[0].part
    return part.title, of_part(part)


def load() -> tuple[InHand, SetUp]:
    """What was in hand when the program was left, and how it was held; nothing where that cannot be read."""
    try:
        text_of = read_written(data_file("in-hand.json"))
        import json  # once there is something to read

        kept = json.loads(text_of)
        held = InHand(**{name: str(kept[name]) for name in ("material", "bar", "thread")})
        return held, read(SetUp, dict(kept["set_up"]))
    except (Unreadable, OSError, ValueError, KeyError, TypeError):
        return InHand(), SetUp()


def save(held: InHand, set_up: SetUp) -> None:
    """Keep it; a disk that refuses only costs the memory of it."""
    import json

    text = json.dumps({**asdict(held), "set_up": as_kept(set_up)}, ensure_ascii=False)
    try:
        write_safely(data_folder() / "in-hand.json", text)
    except OSError:
        return
