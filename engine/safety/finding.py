"""What a rule is, and what it says of a caution."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal

from engine.base.records import dataclass, field
from engine.base.words import Shown, Text, shown
from engine.situation import NAMES, Situation

Kind = Literal["raised", "asked", "stands"]


@dataclass(frozen=True, slots=True)
class Finding:
    """What a rule says of a caution that is not out of the question; `values` go into the caution's words.

    `raised`: the numbers say so, by `degree` times the limit. `asked`: a fact that only the person can know is missing.
    `stands`: it belongs to the work whatever the numbers are; `tell` names what of the set-up would let it be worked out.
    `measured`: an asked one that, once answered yes, can name its number.
    """

    kind: Kind
    values: Mapping[str, Text] = field(default_factory=dict)
    measured: bool = False
    degree: float = 1.0
    tell: tuple[str, ...] = ()


STANDS = Finding("stands")


def raised(degree: float = 1.0, **values: Text) -> Finding:
    """The numbers raise it."""
    return Finding("raised", values, degree=degree)


def asked(**values: Text) -> Finding:
    """A fact that only the person can know is missing."""
    return Finding("asked", values)


def measured_but(**values: Text) -> Finding:
    """One fact is missing, the number is at hand: a yes raises it with its number."""
    return Finding("asked", values, measured=True)


def unless_told(*names: str) -> Finding:
    """It stands until the set-up says more."""
    return Finding("stands", tell=names)


Judge = Callable[[Situation], Finding | None]


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of caution: the fields of the situation it needs, and what it makes of them."""

    name: str
    needs: tuple[str, ...]
    judge: Judge


RULES: dict[str, Rule] = {}


def rule(name: str, *needs: str) -> Callable[[Judge], Judge]:
    """Enter a rule under the name that rows of the table give; it may read the fields it names and no others."""
    assert name not in RULES and set(needs) <= set(NAMES), name

    def enter(judge: Judge) -> Judge:
        RULES[name] = Rule(name, needs, judge)
        return judge

    return enter


def belongs(name: str, test: Callable[[Situation], bool], *needs: str) -> None:
    """Enter a rule that only says whether a caution belongs to the work: it stands where the test holds."""
    rule(name, *needs)(lambda s: STANDS if test(s) else None)


def tenth(value: float) -> Shown:
    """A length to a tenth of a millimetre."""
    return shown(value, decimals=1)


def at_most(value: float) -> Shown:
    """The same as an upper limit."""
    return shown(value, decimals=1, side="down")


def at_least(value: float) -> Shown:
    """The same as a lower limit."""
    return shown(value, decimals=1, side="up")
