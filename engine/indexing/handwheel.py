"""Which handwheel is meant, and chains of moves on it, as people write them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from engine.base.reading import read_travel
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.units import parse_length
from engine.shop.model import Shop, Slide

if TYPE_CHECKING:
    from engine.base.kinds import Ask

NAMES = ("saddle", "top slide", "cross slide", "tailstock", "mill x", "mill y", "mill z")
_MOST_MOVES = 200
_ACCEPTED = f"one of {', '.join(NAMES)}, or travel per turn / lines (such as 2/100 or 0.1in/100)"


@dataclass(frozen=True, slots=True)
class Handwheel:
    """A handwheel: its name in the shop, or a slide described outright (then `name` is how it was written)."""

    name: str
    slide: Slide | None = None

    def __str__(self) -> str:
        return self.name


def read(given: object, ask: Ask, unit: str) -> Handwheel:
    """Read which handwheel is meant.

    >>> from engine.base.kinds import Ask
    >>> ask = Ask("Handwheel of the feed", "handwheel", "", "", False)
    >>> read("top", ask, "mm").name, read("2/100", ask, "mm").slide.divisions
    ('top slide', 100)
    """
    if isinstance(given, Handwheel):
        return given
    text = " ".join(str(given).replace("-", " ").casefold().split())
    near = [name for name in NAMES if text and name.startswith(text)]
    if text in NAMES or len(near) == 1:
        return Handwheel(text if text in NAMES else near[0])
    found = re.fullmatch(r"(.{1,30}?)\s*[/;x×]\s*([0-9]{1,4})(?:\s*lines?)?", str(given).strip())
    if found and 1 <= int(found[2]) <= 2000:
        try:
            travel = read_travel(found[1], _travel_ask(ask), unit)
        except BadInput:
            travel = None
        if travel is not None:
            return Handwheel(str(given).strip(), Slide(travel_per_turn=travel, divisions=int(found[2])))
    raise BadInput(ask.label.lower(), given, _ACCEPTED)


def _travel_ask(ask: Ask) -> Ask:
    from engine.base.records import replace

    return replace(ask, kind="travel", dimension="length", low=0.01, high=50)


def slide_of(shop: Shop, name: str) -> Slide | None:
    """Return a slide of the shop by its handwheel's name; None if it is not owned.

    >>> from engine.shop.file import sample
    >>> slide_of(sample("metric"), "mill x").divisions
    100
    """
    machine, _, part = name.partition(" ")
    if machine == "mill":
        return getattr(shop.mill, part) if shop.mill else None
    slide: Slide | None = getattr(shop.lathe, name.replace(" ", "_")) if shop.lathe else None
    return slide


def named_slide(shop: Shop, chosen: Handwheel | None, usual: Sequence[str], field: str) -> tuple[str, Slide] | None:
    """The handwheel asked for, else the first of the usual ones that the shop has, else None; BadInput if the one
    asked for is not owned.

    >>> from engine.shop.file import sample
    >>> named_slide(sample("metric"), None, ("mill y", "saddle"), "feed_dial")[0]
    'mill y'
    """
    if chosen is not None:
        slide = chosen.slide or slide_of(shop, chosen.name)
        if slide is None:
            text = f"{field}: the shop has no {chosen.name}; name another, or give travel per turn / lines (2/100)."
            raise BadInput(field, chosen.name, "a handwheel of the shop", text)
        return chosen.name, slide
    owned = ((name, slide_of(shop, name)) for name in usual)
    return next(((name, slide) for name, slide in owned if slide is not None), None)


def read_moves(given: object, ask: Ask, unit: str) -> tuple[Fraction, ...]:
    """Read a chain of moves.

    >>> from engine.base.kinds import Ask
    >>> [float(m) for m in read_moves("3, 1/8in, -2", Ask("Moves", "moves", "", "", False), "mm")]
    [3.0, 3.175, -2.0]
    """
    entries = list(given) if isinstance(given, list | tuple) else re.split(r"[,;\n]", str(given))
    found = []
    for entry in entries[: _MOST_MOVES + 1]:
        length = parse_length(entry, unit)
        if length is None or not 0 < abs(length) <= 10_000:
            raise BadInput(ask.label.lower(), entry, "lengths with commas between (such as 3, 4.5, -2)")
        found.append(length)
    if len(found) > _MOST_MOVES:
        raise BadInput(ask.label.lower(), given, f"at most {_MOST_MOVES} moves")
    return tuple(found)
