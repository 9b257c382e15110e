"""The rules of order: small facts about what comes before what, read from a table and asked of a part's tasks.

A rule is a row: kinds of work, the conditions under which it holds, and what breaking it costs or mends. Conditions
are functions of `engine.part.rules_conditions`, looked up by name.
"""

from __future__ import annotations

from functools import cache
from typing import Literal

from engine.base import tables
from engine.base.records import dataclass

_RULES = "planning/rules.csv"
_WORDS = "planning/vocabulary.csv"
_TIMES = "planning/times.csv"
_HOLDING = "planning/holding.csv"

LET_GO = "let_go"  # not a task: the end of a setting


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of order.

    It holds between every task of a kind in `before` and every one in `after` for which all of `when` and none
    of `unless` are so. `mend` is the kind of task that makes good what breaking it does.
    """

    id: str
    before: tuple[str, ...]
    after: tuple[str, ...]
    hard: bool
    when: tuple[str, ...]
    unless: tuple[str, ...]
    mend: str
    cost_minutes: float
    why: str
    basis: str
    source: str

    def text(self, before: str, after: str) -> str:
        """The rule in a sentence for two kinds of work.

        >>> rules_by_id()["R016"].text("drill", "tap")
        'drilling before tapping: the tap needs its hole'
        """
        kinds = vocabulary()
        if after == LET_GO:
            return f"{kinds[before].words} is proved before the work is let go: {self.why}"
        return f"{kinds[before].words} before {kinds[after].words}: {self.why}"


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of work: its words, the tool that does it, and where that tool is held."""

    kind: str
    words: str
    tool: str
    station: Literal["tool post", "tailstock", "mill", "bench", "none"]


@dataclass(frozen=True, slots=True)
class Minutes:
    """How long an element of work takes: typically, and between what. [min]"""

    low: float
    typical: float
    high: float


@dataclass(frozen=True, slots=True)
class HoldingFact:
    """What a way of holding is planned with until the owner has measured it. [mm; grip in diameters]"""

    run_out: float
    low: float
    high: float
    least_grip: float
    marks: bool
    source: str


def _names(cell: str) -> tuple[str, ...]:
    return tuple(cell.split())


@cache
def rules() -> tuple[Rule, ...]:
    """Every rule, in the order of the table.

    Source: engine/data/planning/rules.csv, each row with its own.

    >>> first = rules()[0]
    >>> first.id, first.hard, first.when
    ('R001', True, ('same_visit',))
    """
    return tuple(
        Rule(
            row["id"],
            _names(row["before"]),
            _names(row["after"]),
            row["strength"] == "hard",
            _names(row["when"]),
            _names(row["unless"]),
            row["mend"],
            float(row["cost_minutes"] or 0),
            row["why"],
            row["basis"],
            row["source"],
        )
        for row in tables.rows(_RULES)
    )


@cache
def rules_by_id() -> dict[str, Rule]:
    """Every rule by its id."""
    return {rule.id: rule for rule in rules()}


@cache
def rules_between() -> dict[tuple[str, str], tuple[Rule, ...]]:
    """The rules for a pair of kinds of work: looked at for every pair of tasks, so made once."""
    found: dict[tuple[str, str], tuple[Rule, ...]] = {}
    for rule in rules():
        for before in rule.before:
            for after in rule.after:
                found[before, after] = (*found.get((before, after), ()), rule)
    return found


@cache
def vocabulary() -> dict[str, Kind]:
    """Every kind of work by its name.

    >>> vocabulary()["tap"].station
    'tailstock'
    """
    return {row["kind"]: Kind(**row) for row in tables.rows(_WORDS)}  # type: ignore[arg-type]


@cache
def _times() -> dict[str, Minutes]:
    return {
        row["id"]: Minutes(float(row["low"]), float(row["typical"]), float(row["high"])) for row in tables.rows(_TIMES)
    }


def minutes(element: str) -> Minutes:
    """How long an element of work takes.

    Source: engine/data/planning/times.csv, each row with its own; nearly all common practice.

    >>> minutes("carry").typical
    4.0
    """
    return _times()[element]


@cache
def _holdings() -> dict[str, HoldingFact]:
    return {
        row["holding"]: HoldingFact(
            float(row["run_out"]),
            float(row["low"]),
            float(row["high"]),
            float(row["least_grip"]),
            row["marks"] == "yes",
            row["source"],
        )
        for row in tables.rows(_HOLDING)
    }


def holding_fact(holding: str) -> HoldingFact:
    """What a way of holding is planned with.

    Source: engine/data/planning/holding.csv, each row with its own.

    >>> holding_fact("three-jaw").run_out
    0.1
    """
    return _holdings()[holding]
