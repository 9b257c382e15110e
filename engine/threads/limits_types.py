"""What the limits of a thread are: the record that every family's rules fill in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

# The sizes of a record, in the order they are shown: name, label, how it is rounded when shown.
SIZES = (
    ("ext_major_max", "Screw: major, largest", "down"),
    ("ext_major_min", "Screw: major, smallest", "up"),
    ("ext_pitch_max", "Screw: pitch diameter, largest", "down"),
    ("ext_pitch_min", "Screw: pitch diameter, smallest", "up"),
    ("ext_minor_max", "Screw: minor, largest", "down"),
    ("ext_minor_min", "Screw: minor, smallest", "up"),
    ("int_minor_min", "Nut: minor, smallest", "up"),
    ("int_minor_max", "Nut: minor, largest", "down"),
    ("int_pitch_min", "Nut: pitch diameter, smallest", "up"),
    ("int_pitch_max", "Nut: pitch diameter, largest", "down"),
    ("int_major_min", "Nut: major, smallest", "up"),
)


@dataclass(frozen=True, slots=True)
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
    notes: tuple[str, ...] = ()
    sources: Mapping[str, str] = field(default_factory=dict, compare=False)
    working: Mapping[str, str] = field(default_factory=dict, compare=False)

    def size(self, name: str) -> float | None:
        """One size by the name it has in SIZES."""
        value: float | None = getattr(self, name)
        return value

    def source_of(self, name: str) -> str:
        """Where one size comes from."""
        return self.sources.get(name, self.source)
