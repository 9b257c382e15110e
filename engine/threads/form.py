"""The form of a thread: its angle, its heights, its crest and root, in millimetres for the pitch it has."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import radians, tan
from typing import Literal

from engine.threads.thread import Thread

Profile = Literal["60 degree", "Whitworth", "BA", "cycle", "trapezoidal", "Acme", "taper pipe"]

_ACME_COARSE = Fraction(254, 100)  # mm; ASME B1.5 gives 10 threads per inch and coarser the larger clearance


@dataclass(frozen=True, slots=True)
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
    crest_flat: float
    root_flat: float
    crest_radius: float
    root_radius: float
    depth: float
    nut_depth: float
    source: str
    rule: str

    @property
    def half_angle(self) -> float:
        """Angle between a flank and the plane square to the axis. [deg]"""
        return self.included_angle / 2


def form(thread: Thread) -> Form:
    """Return the form of a thread.

    Parameters
    ----------
    thread : Thread
        Any thread.

    Returns
    -------
    form : Form
        Its form at its pitch. [mm, deg]

    Sources
    -------
    ISO 68-1 and ISO 724 (metric, Unified), BS 84 (Whitworth, ME, brass, G and R), BS 93, BS 811, ISO 2904, ASME B1.5,
    ASME B1.20.1.

    Examples
    --------
    M10: H 0.866025 P, depth of the screw 0.613435 P (ISO 724).

    >>> from engine.threads.designation import parse
    >>> m10 = form(parse("M10"))
    >>> round(m10.height, 4), round(m10.depth, 4), m10.included_angle
    (1.299, 0.9202, 60.0)
    """
    pitch = float(thread.pitch)
    if thread.family in ("metric", "unified"):
        return _sixty(pitch, "ISO 68-1 and ISO 724" if thread.family == "metric" else "ASME B1.1")
    if thread.family == "tr":
        return _trapezoidal(pitch, 30.0, clearance(thread), "ISO 2904", "trapezoidal")
    if thread.family == "acme":
        return _trapezoidal(pitch, 29.0, clearance(thread), "ASME B1.5", "Acme")
    if thread.family == "ba":
        # BS 93 rounds the depth to 0.005 mm; the triangle and the radii follow the pitch.
        depth = round(0.6 * pitch / 0.005 + 1e-9) * 0.005
        return _rounded(
            pitch, 47.5, 1.136336, depth, 0.1808346, "BS 93", "BA", "0.6 P to the nearest 0.005 mm"
        )
    if thread.family == "cycle":
        return _rounded(pitch, 60.0, 0.866025, 0.532692 * pitch, 1 / 6, "BS 811", "cycle", "0.532692 P")
    if thread.family == "npt":
        return _npt(pitch)
    source = {"g": "ISO 228-1", "r": "ISO 7-1"}.get(thread.family, "BS 84")
    return _rounded(pitch, 55.0, 0.960491, 0.640327 * pitch, 0.137329, source, "Whitworth", "0.640327 P")


def clearance(thread: Thread) -> float:
    """Return the clearance at crest and root of a trapezoidal or Acme thread, on one side.

    Parameters
    ----------
    thread : Thread
        Any thread; 0 for the families without such a clearance.

    Returns
    -------
    clearance : float
        The clearance, half of what the diameters differ by. [mm]

    Sources
    -------
    ISO 2904 (ac by pitch); ASME B1.5 (0.020 in on diameter for 10 threads per inch and coarser, 0.010 in for finer).

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> clearance(parse("Tr12x3")), clearance(parse("3/4-6 ACME"))
    (0.25, 0.254)
    """
    if thread.family == "acme":
        return 0.254 if thread.pitch >= _ACME_COARSE else 0.127
    if thread.family != "tr":
        return 0.0
    pitch = thread.pitch
    return 0.15 if pitch < 2 else 0.25 if pitch <= 5 else 0.5 if pitch <= 12 else 1.0


def _sixty(pitch: float, source: str) -> Form:
    height = 0.866025404 * pitch
    return Form(
        profile="60 degree",
        included_angle=60.0,
        height=height,
        basic_depth=height * 5 / 8,
        crest_truncation=height / 8,
        root_truncation=height / 4,
        crest_flat=pitch / 8,
        root_flat=pitch / 4,
        crest_radius=0.0,
        root_radius=height / 6,
        depth=height * 17 / 24,
        nut_depth=height * 5 / 8,
        source=f"{source}: root rounded with H/6",
        rule="17/24 of H = 0.613435 P",
    )


def _rounded(
    pitch: float,
    angle: float,
    height_factor: float,
    depth: float,
    radius_factor: float,
    source: str,
    profile: Profile,
    rule: str,
) -> Form:
    """A form with rounded crest and root: Whitworth, BA, cycle."""
    height = height_factor * pitch
    truncation = (height - depth) / 2
    return Form(
        profile=profile,
        included_angle=angle,
        height=height,
        basic_depth=depth,
        crest_truncation=truncation,
        root_truncation=truncation,
        crest_flat=0.0,
        root_flat=0.0,
        crest_radius=radius_factor * pitch,
        root_radius=radius_factor * pitch,
        depth=depth,
        nut_depth=depth,
        source=f"{source}: crest and root rounded",
        rule=rule,
    )


def _trapezoidal(pitch: float, angle: float, gap: float, source: str, profile: Profile) -> Form:
    slope = tan(radians(angle / 2))
    height = pitch / (2 * slope)
    truncation = (height - pitch / 2) / 2
    crest = pitch / 2 - pitch / 2 * slope
    return Form(
        profile=profile,
        included_angle=angle,
        height=height,
        basic_depth=pitch / 2,
        crest_truncation=truncation,
        root_truncation=truncation,
        crest_flat=crest,
        root_flat=crest - 2 * gap * slope,
        crest_radius=0.0,
        root_radius=0.0,
        depth=pitch / 2 + gap,
        nut_depth=pitch / 2 + gap,
        source=f"{source}: half the pitch and the clearance",
        rule="P ÷ 2 + clearance",
    )


def _npt(pitch: float) -> Form:
    height = 0.866025404 * pitch
    depth = 0.8 * pitch
    truncation = (height - depth) / 2
    flat = 2 * truncation * tan(radians(30))
    return Form(
        profile="taper pipe",
        included_angle=60.0,
        height=height,
        basic_depth=depth,
        crest_truncation=truncation,
        root_truncation=truncation,
        crest_flat=flat,
        root_flat=flat,
        crest_radius=0.0,
        root_radius=0.0,
        depth=depth,
        nut_depth=depth,
        source="ASME B1.20.1: depth 0.8 p",
        rule="0.8 P",
    )
