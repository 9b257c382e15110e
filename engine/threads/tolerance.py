"""Tolerance classes as they are written: `6g`, `6H/6g`, `2A`, `close`, `7e`. Each family says how it writes its own."""

from __future__ import annotations

import re
from functools import cache

from engine.base.refusals import BadInput
from engine.threads.thread import Grammar, family
from engine.threads.told import Classes


@cache
def _patterns(grammar: Grammar) -> tuple[re.Pattern[str], re.Pattern[str]]:
    flags = re.IGNORECASE if grammar.letters else re.NOFLAG
    return re.compile(grammar.screw or "(?!)", flags), re.compile(grammar.nut or "(?!)", flags)


def accepted(name: str) -> str:
    """Which classes a family has, in words; "" if it has none.

    >>> accepted("ba"), accepted("npt")
    ('close or normal', '')
    """
    grammar = family(name).classes
    return grammar.accepted if grammar else ""


def read_tolerance(name: str, text: str) -> Classes:
    """Read a class of a family, for the screw, the nut or both (with a stroke between).

    BadInput, field `tolerance`, if it is none of that family's.

    >>> read_tolerance("metric", "6H/5g6g"), read_tolerance("unified", "2a")
    (Classes(screw='5g6g', nut='6H'), Classes(screw='2A', nut=None))
    """
    grammar = family(name).classes
    if grammar is None:
        one = f"tolerance: {family(name).name} threads have one class only; leave it empty."
        raise BadInput("tolerance", text, "none", one)
    parts = "".join(text.split()).split("/")
    found = [_one(grammar, part) for part in parts[:2]]
    if len(parts) > 2 or (None, None) in found:
        raise BadInput("tolerance", text, grammar.accepted)
    if len(parts) == 1:
        return Classes(*found[0])
    for (screw, _), (_, nut) in (found, found[::-1]):
        if screw and nut:
            return Classes(screw, nut)
    raise BadInput("tolerance", text, f"one class for the screw and one for the nut: {grammar.accepted}")


def write_classes(name: str, classes: Classes) -> str:
    """Classes as a designation ends with them: ISO writes the nut first, the others the screw.

    >>> write_classes("metric", Classes("6g", "6H")), write_classes("unified", Classes("2A", None))
    ('6H/6g', '2A')
    """
    if classes.screw == classes.nut or not (classes.screw and classes.nut):
        return classes.screw or classes.nut or ""
    grammar = family(name).classes
    first, second = (classes.nut, classes.screw) if grammar and grammar.nut_first else (classes.screw, classes.nut)
    return f"{first}/{second}"


def _one(grammar: Grammar, part: str) -> tuple[str | None, str | None]:
    screw, nut = _patterns(grammar)
    written = getattr(part, grammar.letters)() if grammar.letters else part
    return (written if screw.fullmatch(part) else None, written if nut.fullmatch(part) else None)
