"""What a plan is made of: holdings, steps, and why a step stands where it does."""

from __future__ import annotations

from engine.base.records import dataclass
from engine.part.part import End, Holding

OWN = "own"  # the kind of a step that the person put in


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """One rule that puts a step where it stands; `step` is the one that stands against it, where one does."""

    rule: str
    text: str
    source: str
    broken: bool = False
    step: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """How the work is held for a run of steps. `run_out` is what it is planned with, `limit` what the truth allows in all
    since the set-up `since`, where what it has to run true to was made."""

    machine: str
    held_by: Holding
    grips: str
    grip_length: float
    grip_from: float
    grip_to: float
    grip_diameter: float
    between: str
    stick_out: float | None
    support: str
    turned_round: bool
    reached: End | None
    zero: str
    run_out: float
    measured: bool
    limit: float | None
    since: int
    driven_by: Holding | None
    carried: bool
    gates: tuple[Why, ...] = ()
    gate_words: tuple[str, ...] = ()
    minutes: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the plan: an operation with its inputs or work by hand, and why it stands here."""

    id: str
    title: str
    set_up: int
    round: int
    each: str
    kind: str
    about: str
    operation: str | None
    inputs: tuple[tuple[str, str], ...]
    makes: tuple[str, ...]
    why: tuple[Why, ...]
    do: tuple[str, ...] = ()
    count: str = ""
    counts: int = 1
    measure: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    minutes: float = 0.0
    start: float = 0.0
    stop: float = 0.0
    diameter: float = 0.0
    tool: str = ""
    out: float | None = None  # how far the work stands out for it, where that is less than the set-up says
    now: tuple[tuple[str, float], ...] = ()  # what is turned smaller than the bar by its end, and to what
