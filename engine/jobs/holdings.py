"""What belongs to a holding of the work: what is to be found out before it is let go, what the clock showed after it was
taken up, and how much of the allowance is left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from engine.base.kinds import Ask
from engine.base.records import dataclass
from engine.base.words import Text, say, shown

if TYPE_CHECKING:
    from engine.jobs.run import WorkedStep

Clocked = Mapping[int, float]


@dataclass(frozen=True, slots=True)
class Allowance:
    """How true to the first holding this one has to be. [mm]

    `within` is what may lie between the two, `used` what the clock showed in the holdings between (as planned where it was
    not read), `planned` what is planned for this one, `read` what the clock showed in it, or None.
    """

    within: float
    used: float
    planned: float
    read: float | None

    @property
    def left(self) -> float:
        """What is left for the clock to show here, or for the holdings after it once it was read; below 0 it is passed."""
        return self.within - self.used - (self.read or 0.0)


def closes(steps: Sequence[WorkedStep], number: int) -> bool:
    """Whether the work is let go after a step, from 1: the next one frees it or holds it anew, or there is none."""
    here = steps[number - 1]
    if here.holding == 0 or number == len(steps):
        return here.holding > 0
    following = steps[number]
    return following.holding != here.holding or "part" in following.step.makes


def gate_key(holding: int, words: str) -> str:
    """What is found out before a holding is let go is kept with."""
    return f"{holding} {words}"


def gates(steps: Sequence[WorkedStep], number: int, found: Mapping[str, str]) -> tuple[str, ...]:
    """What has still to be found out before the work is let go after a step, from 1."""
    here = steps[number - 1]
    if here.held is None or not closes(steps, number):
        return ()
    return tuple(words for words in here.held.gate if gate_key(here.holding, words) not in found)


def read_clock(text: str, unit: str) -> float:
    """What a clock shows in one turn of the work, as typed. [mm]

    >>> read_clock("0.03", "mm")
    0.03
    """
    ask = Ask("Clock", "length", "", "0.03", True, low=-1e-9, high=10, dimension="length")
    return float(ask.read("clock", text, unit))


def clock_due(steps: Sequence[WorkedStep], number: int) -> bool:
    """Whether a step begins a holding for which it is said what the clock may show."""
    here = steps[number - 1]
    begins = number == 1 or steps[number - 2].holding != here.holding
    return begins and here.held is not None and here.held.run_out is not None


def allowance(steps: Sequence[WorkedStep], number: int, clocked: Clocked, unit: str) -> Allowance | None:
    """What the clock may show in the holding of a step, from 1: of the same piece, from the holding on that it counts from."""
    here = steps[number - 1]
    if here.held is None or here.held.run_out is None:
        return None
    planned: dict[int, float] = {}
    homes: dict[object, int] = {}  # place in the recipe's list -> the holding of this piece
    asked: list[tuple[float, int | None]] = []
    for one in steps:
        if one.step.piece not in (0, here.step.piece) or one.held is None or one.holding in planned:
            continue
        planned[one.holding] = read_clock(one.held.run_out, unit) if one.held.run_out is not None else 0.0
        homes.setdefault(one.step.set_up, one.holding)
        if one.held.within is not None and one.holding >= here.holding:
            asked.append((read_clock(one.held.within, unit), one.held.since))
    counted = [
        (within, homes.get(since, min(planned)) if since is not None else min(planned)) for within, since in asked
    ]
    within, first = min((one for one in counted if one[1] < here.holding), default=(0.0, 0))
    if not first:
        return None
    between = [h for h in planned if first < h < here.holding]
    used = sum(clocked.get(h, planned[h]) for h in between)
    return Allowance(within, used, planned[here.holding], clocked.get(here.holding))


def allowance_words(found: Allowance) -> Text:
    """What the clock may show, or what is left now that it was read.

    >>> from engine.base.words import write
    >>> write(allowance_words(Allowance(0.05, 0.0, 0.02, None)))
    'Clock it: 0.050 mm in all may lie between the holdings, 0.050 mm of it is left for this one.'
    >>> write(allowance_words(Allowance(0.05, 0.02, 0.02, 0.01)))
    'The clock showed 0.010 mm: 0.020 mm of the 0.050 mm allowed is left.'
    >>> write(allowance_words(Allowance(0.05, 0.02, 0.02, 0.04)))
    'The clock showed 0.040 mm: 0.010 mm more than is left of the 0.050 mm allowed. Set the work true before it is cut.'
    """
    if found.read is None:
        text = "Clock it: {within} in all may lie between the holdings, {left} of it is left for this one."
        return say(text, within=shown(found.within), left=shown(max(found.left, 0.0)))
    if found.left < -1e-9:
        text = "The clock showed {read}: {over} more than is left of the {within} allowed. Set the work true before it is cut."
        return say(text, read=shown(found.read), over=shown(-found.left), within=shown(found.within))
    text = "The clock showed {read}: {left} of the {within} allowed is left."
    return say(text, read=shown(found.read), left=shown(max(found.left, 0.0)), within=shown(found.within))
