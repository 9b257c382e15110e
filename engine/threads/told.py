"""What is told of a thread: the records that the rules of a family fill in, and that everything else reads."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import pi
from typing import Literal

from engine.base.records import dataclass, field
from engine.base.sums import Sum, num
from engine.base.words import Said, Text, say

_PI = num(pi, words="pi")

Profile = Literal["60 degree", "Whitworth", "BA", "cycle", "trapezoidal", "Acme", "square", "taper pipe"]


@dataclass(frozen=True, slots=True)
class Written:
    """A writing whose marks for the hand, the starts and `special` have been taken out of `body`."""

    text: str
    body: str
    left_hand: bool
    special: bool
    starts: int


@dataclass(frozen=True, slots=True)
class Entry:
    """One pair of a published series. Diameter and pitch in mm, exact; `size` as the standard names it.

    `listed` is "memory", "formula" or "trade list" where the membership does not come from a readable standard.
    """

    family: str
    series: str
    size: str
    diameter: Fraction
    pitch: Fraction
    listed: str = ""


@dataclass(frozen=True, slots=True)
class Classes:
    """A class for the screw and one for the nut; None where none was written."""

    screw: str | None
    nut: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A thread's form. Lengths in mm, angles in degrees; `half_angle` is that of either flank. `rule` says how `depth`
    follows from the pitch P.

    `height` is that of the sharp triangle. `crest_truncation` and `root_truncation` are what is cut from its apex and
    from its base. `basic_depth` is (basic major - basic minor) / 2, where screw and nut overlap in full.
    `depth` is how deep a screw is cut from its nominal major diameter, `nut_depth` how deep a nut is cut from its
    basic minor diameter. Crest and root are the screw's: a flat or a radius, the other is 0.
    """

    profile: Profile
    included_angle: float
    height: float
    basic_depth: float
    crest_truncation: float
    root_truncation: float
    crest_flat: float = 0.0
    root_flat: float = 0.0
    crest_radius: float = 0.0
    root_radius: float = 0.0
    depth: float
    nut_depth: float
    source: str
    rule: str
    rule_sum: Sum

    @property
    def working(self) -> Said:
        """How `depth` follows from the pitch, as a rule and in numbers."""
        return say("{rule} = {sum}", rule=self.rule, sum=self.rule_sum)

    @property
    def half_angle(self) -> float:
        """Angle between a flank and the plane square to the axis. [deg]"""
        return self.included_angle / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Limits of size of a screw and a nut, in mm; None where a figure does not apply.

    Taper threads have theirs at the gauge plane. `source` holds for every size that `sources` does not name;
    `working` gives the sum behind each size; `notes` are facts worth showing beside them.
    """

    screw_class: str
    nut_class: str
    major_basic: float
    pitch_basic: float
    minor_basic: float
    source: str
    ext_major_max: float | None = None
    ext_major_min: float | None = None
    ext_pitch_max: float | None = None
    ext_pitch_min: float | None = None
    ext_minor_max: float | None = None
    ext_minor_min: float | None = None
    int_minor_min: float | None = None
    int_minor_max: float | None = None
    int_pitch_min: float | None = None
    int_pitch_max: float | None = None
    int_major_min: float | None = None
    allowance: float | None = None
    notes: tuple[Text, ...] = ()
    sources: Mapping[str, str] = field(default_factory=dict, compare=False)
    working: Mapping[str, Text] = field(default_factory=dict, compare=False)

    def size(self, name: str) -> float | None:
        """One size by the name it has in SIZES."""
        value: float | None = getattr(self, name)
        return value

    def source_of(self, name: str) -> str:
        """Where one size comes from."""
        return self.sources.get(name, self.source)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """The lengths of a taper pipe thread, in mm: where its diameters hold and how far they may shift.

    `length` is from the small end of the screw to the gauge plane, `shift` how far the plane may lie either way on
    the screw and `nut_shift` in the nut; `useful_length` is the full thread the screw needs.
    """

    length: float
    shift: float
    shift_turns: float
    nut_shift: float
    nut_shift_turns: float
    useful_length: float
    useful: Text
    source: str


@dataclass(frozen=True, slots=True)
class Area:
    """An area in mm² (or mm² for each mm of engagement), with where it comes from."""

    value: float
    source: str
    working: Text

    @classmethod
    def of_circle(cls, across: Sum, source: str) -> Area:
        """The area of a circle, by its diameter."""
        area = _PI / 4 * across**2
        return cls(float(area), source, area)
