"""What a thread is: its family, sizes and form. Every module of the threads family takes one of these."""

from __future__ import annotations

from dataclasses import field
from fractions import Fraction
from math import atan, degrees, pi
from typing import TYPE_CHECKING

from engine.base.records import dataclass

if TYPE_CHECKING:
    from engine.threads.family import Family


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread as designated. Lengths in mm; pitch and lead exact.

    `family` is the id of its family (`metric`), `kind` the family itself: ask it for what differs from one family to
    the next. `series` is the standard's series name where there is one (`coarse`, `UNC`, `BSW`, `BSF`, `BA`, `Rp`).
    `tolerance` is the class as written ("" when none was). `special`: its diameter and pitch are no pair of the
    standard's. `designation` is the standard's own writing, what `str()` gives. `size` is the nominal size as the
    standard names it (`10`, `1/4`, `#10`, `4` of 4 BA). `engagement` is the length group S, N or L as written.
    """

    family: str
    series: str
    diameter: float
    pitch: Fraction
    starts: int
    left_hand: bool
    tolerance: str
    special: bool
    designation: str
    size: str = field(default="", compare=False)
    engagement: str = ""

    @property
    def kind(self) -> Family:
        """The family itself; its file loads when the first of its threads asks for it."""
        from engine.threads.family import family

        return family(self.family)

    @property
    def lead(self) -> Fraction:
        """Advance in one turn. [mm]"""
        return self.pitch * self.starts

    @property
    def threads_per_inch(self) -> Fraction:
        """Threads (not starts' leads) in an inch. [1/in]"""
        return Fraction(127, 5) / self.pitch

    @property
    def taper(self) -> Fraction:
        """Taper on diameter: 1/16 for taper pipe threads, else 0. [mm/mm]"""
        kind = self.kind
        return Fraction(0) if self.series in kind.parallel else kind.taper

    @property
    def inch(self) -> bool:
        """Whether its standard gives its sizes in inches."""
        return self.kind.inch

    def lead_angle(self, diameter: float) -> float:
        """Angle of the helix at a diameter of the thread, from the plane square to its axis. [deg]"""
        return degrees(atan(float(self.lead) / (pi * diameter)))

    def __str__(self) -> str:
        return self.designation
