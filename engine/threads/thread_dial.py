"""The thread dial: on which lines the half-nuts may be closed so that the tool falls into its own groove."""

from __future__ import annotations

from fractions import Fraction
from math import gcd
from typing import TYPE_CHECKING, Literal

from engine.base.records import dataclass

if TYPE_CHECKING:
    from engine.shop.model import ThreadDial


@dataclass(frozen=True, slots=True)
class DialRule:
    """When to close the half-nuts.

    `kind`: `anywhere`; `lines`: on every `every`-th line of the dial; `closed`: never open them between passes.
    `teeth` is the wheel the dial must run on (0 when it does not matter).
    """

    kind: Literal["anywhere", "lines", "closed"]
    every: int = 0
    teeth: int = 0

    def lines_of(self, lines: int) -> tuple[int, ...]:
        """The lines that serve if the first pass was started on line 1."""
        return tuple(range(1, lines + 1, self.every)) if self.kind == "lines" else ()


def common_multiple(a: Fraction, b: Fraction) -> Fraction:
    """Smallest length that is a whole multiple of both leads.

    >>> common_multiple(Fraction(3), Fraction(7, 4))
    Fraction(21, 1)
    """
    bottom = a.denominator * b.denominator // gcd(a.denominator, b.denominator)
    first, second = int(a * bottom), int(b * bottom)
    return Fraction(first * second // gcd(first, second), bottom)


def dial_rule(*, lead: Fraction, leadscrew: Fraction, teeth: tuple[int, ...], lines: int) -> DialRule:
    """The rule for a lead that the train cuts exactly as given.

    The tool falls into its groove when the saddle has moved a whole number of leads of the work, and the half-nuts
    close when it has moved a whole number of leads of the (single-start) leadscrew. The dial's wheel turns by one
    tooth for each lead of the leadscrew.

    lead, leadscrew: Lead that the train really cuts, and of the leadscrew, above 0. [mm]
    teeth: Teeth of the wheels the dial can run on; empty when the lathe has no dial.
    lines: Lines on the dial.
    Returns: With the wheel that gives most lines to close on.
    Source: Turning and Boring, 1914, pp. 141-143; the general rule is derived.

    A 6 tpi leadscrew, a 24-tooth wheel and 8 lines (Turning and Boring): an odd count of threads an inch on every second line.

    >>> inch = Fraction(127, 5)
    >>> dial_rule(lead=inch / 7, leadscrew=inch / 6, teeth=(24,), lines=8)
    DialRule(kind='lines', every=2, teeth=24)
    >>> dial_rule(lead=inch / 12, leadscrew=inch / 6, teeth=(24,), lines=8).kind
    'anywhere'
    """
    repeat = common_multiple(lead, leadscrew)
    if repeat == leadscrew:
        return DialRule("anywhere")
    best = DialRule("closed")
    for wheel in teeth:
        line = wheel * leadscrew / lines
        every = int(common_multiple(line, repeat) / line)
        # When a whole turn of the dial is not enough the lines alone cannot tell one turn from the next.
        if lines % every == 0 and (best.kind == "closed" or every < best.every):
            best = DialRule("lines", every, wheel)
    return best


def start_lines(
    *, lead: Fraction, starts: int, leadscrew: Fraction, teeth: int, lines: int
) -> tuple[tuple[int, ...], ...] | None:
    """The lines of the dial on which the half-nuts are closed for each start of a thread, the first from line 1.

    Closing them a line later moves the tool along by the saddle's travel for a line; where that is a whole number of
    leadscrew leads, and of pitches but not of leads, the tool falls into the next start's groove.

    lead: Lead that the train really cuts, above 0. [mm]
    starts: Starts of the thread, 2 or more.
    leadscrew: Lead of the leadscrew, above 0. [mm]
    teeth: Teeth of the wheel that the dial runs on.
    lines: Lines on the dial.
    Returns: Of every start; None if the dial does not reach every start.
    Source: Derived from the rule of Turning and Boring, 1914, pp. 141-143.

    Two starts of 4 tpi, 1/2 in lead, on a 4 tpi screw with 16 teeth and 8 lines: odd and even lines.

    >>> inch = Fraction(127, 5)
    >>> start_lines(lead=inch / 2, starts=2, leadscrew=inch / 4, teeth=16, lines=16)
    ((1, 3, 5, 7, 9, 11, 13, 15), (2, 4, 6, 8, 10, 12, 14, 16))
    """
    if teeth * leadscrew % lead:
        return None  # a whole turn of the dial does not come back to the same start
    line, pitch = teeth * leadscrew / lines, lead / starts
    serving = [n for n in range(lines) if n * line % leadscrew == 0]
    found = tuple(tuple(n + 1 for n in serving if (n * line - k * pitch) % lead == 0) for k in range(starts))
    return found if all(found) else None


def lines_of_starts(
    lead: Fraction, starts: int, leadscrew: Fraction, dial: ThreadDial | None
) -> tuple[tuple[int, ...], ...] | None:
    """The same on the first wheel of a lathe's dial that reaches every start."""
    for teeth in dial.teeth if dial else ():
        lines = dial.lines if dial else 1
        if found := start_lines(lead=lead, starts=starts, leadscrew=leadscrew, teeth=teeth, lines=lines):
            return found
    return None
