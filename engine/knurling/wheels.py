"""Knurl wheels: how much blank diameter one tooth takes, from a pitch, a diametral pitch or a counted wheel."""

from __future__ import annotations

from math import cos, pi, radians

from engine.base.quantity import show, worked
from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.tables import rows

STANDARD_HELIX = 30.0  # degrees; DIN 82:1973 forms RBL, RBR, RGE, RGV


@dataclass(frozen=True, slots=True)
class Wheel:
    """A wheel as it meets the blank.

    `pitch` is square to its teeth, `step` the blank diameter that one tooth takes, both in mm. `working` says how
    the step was found. `counted`: from a tooth count, not from a nominal pitch. `tolerance` is the published
    tolerance of a blank for it, plus and minus [mm], None where none is published.
    """

    name: str
    pitch: float
    step: float
    working: str
    source: str
    counted: bool = False
    tolerance: float | None = None


def from_pitch(*, pitch: float, helix: float, name: str = "", unit: str = "mm") -> Wheel:
    """Return a wheel known by its nominal pitch.

    Parameters
    ----------
    pitch : float
        Pitch square to the teeth, above 0. [mm]
    helix : float
        Angle of the knurl's lines to the axis, 0 to 60. [deg]
    name : str
        What to call it.
    unit : str
        `mm` or `inch`: what its words are in.

    Returns
    -------
    wheel : Wheel
        One tooth takes pitch / (pi cos helix) of blank diameter.

    Raises
    ------
    OutOfRange
        If the pitch or the angle lies outside its range.

    Sources
    -------
    DIN 403:1973 (tooth counts, cosine of 30 degrees for the diagonal forms).

    Examples
    --------
    >>> from_pitch(pitch=0.8, helix=0).step, from_pitch(pitch=0.8, helix=30).step
    (0.2546, 0.2940)
    """
    check_range("pitch", pitch, low=1e-6, unit="mm")
    check_range("helix", helix, low=0, high=60, unit="deg")
    step = pitch / (pi * cos(radians(helix)))
    over = f"(3.14159 x cos {helix:g}°)" if helix else "3.14159"
    return Wheel(
        name or f"pitch {show(pitch, 'length', unit)}",
        pitch,
        step,
        f"{worked(pitch, unit)} ÷ {over} = {worked(step, unit)}",
        "blank circumference over pitch (DIN 403:1973)",
    )


def from_count(
    *, teeth: int, diameter: float, wheel_helix: float, helix: float, name: str = "", unit: str = "mm"
) -> Wheel:
    """Return a wheel whose teeth were counted and whose outside diameter was measured.

    Parameters
    ----------
    teeth : int
        Teeth of the wheel, 5 or more.
    diameter : float
        Its outside diameter, above 0. [mm]
    wheel_helix : float
        Angle of the wheel's own teeth to its axis, 0 for a straight one. [deg]
    helix : float
        Angle of the knurl's lines to the axis of the work. [deg]
    name : str
        What to call it.
    unit : str
        `mm` or `inch`: what its words are in.

    Returns
    -------
    wheel : Wheel
        True pitch = pi x diameter / teeth x cos(wheel_helix).

    Raises
    ------
    OutOfRange
        If a number lies outside its range.

    Sources
    -------
    Geometry; DIN 403:1973 shows why it matters (its 15 mm wheel of pitch 1 has 48 teeth).

    Examples
    --------
    >>> from_count(teeth=48, diameter=15, wheel_helix=0, helix=0).pitch
    0.982
    """
    check_range("wheel_teeth", teeth, low=5)
    check_range("wheel_diameter", diameter, low=1e-6, unit="mm")
    pitch = pi * diameter / teeth * cos(radians(wheel_helix))
    plain = from_pitch(pitch=pitch, helix=helix, unit=unit)
    across = worked(diameter, unit)
    turned = f" x cos {wheel_helix:g}°" if wheel_helix else ""
    return Wheel(
        name or f"{teeth} teeth on {show(diameter, 'length', unit)}",
        pitch,
        plain.step,
        f"true pitch 3.14159 x {across}{turned} ÷ {teeth} = {worked(pitch, unit)}; {plain.working}",
        "teeth counted and outside diameter measured: pitch = circumference ÷ teeth (geometry)",
        counted=True,
    )


def from_diametral_pitch(*, diametral_pitch: float, helix: float, swivelled: bool, unit: str = "mm") -> Wheel:
    """Return a wheel of the diametral pitch system.

    Parameters
    ----------
    diametral_pitch : float
        Teeth on one inch of blank diameter, 10 to 400. [1/in]
    helix : float
        Angle of the knurl's lines to the axis. [deg]
    swivelled : bool
        The wheel is a straight one, swivelled to the angle: fewer teeth go round by its cosine.
    unit : str
        `mm` or `inch`: what its words are in.

    Returns
    -------
    wheel : Wheel
        One tooth takes 1/P inch of blank (1/(P cos helix) swivelled).

    Raises
    ------
    OutOfRange
        If the diametral pitch lies outside its range.

    Sources
    -------
    ASME B94.6 (Machinery's Handbook, 31st ed., p. 1059).

    Examples
    --------
    >>> from_diametral_pitch(diametral_pitch=96, helix=0, swivelled=False).step / 25.4 * 96
    1.0
    """
    check_range("diametral_pitch", diametral_pitch, low=10, high=400, unit="teeth an inch of diameter")
    cosine = cos(radians(helix))
    step = 25.4 / (diametral_pitch * (cosine if swivelled else 1.0))
    published = {float(r["diametral_pitch"]): float(r["plus_minus_in"]) for r in _tolerances()}
    tolerance = published.get(diametral_pitch)
    below = f"({diametral_pitch:g} x cos {helix:g}°)" if swivelled and helix else f"{diametral_pitch:g}"
    return Wheel(
        f"{diametral_pitch:g} diametral pitch",
        pi * step * cosine,
        step,
        f"{worked(25.4, unit)} ÷ {below} = {worked(step, unit)}",
        "ASME B94.6: teeth = blank diameter x diametral pitch (Machinery's Handbook, 31st ed., p. 1059)",
        tolerance=None if tolerance is None else tolerance * 25.4,
    )


def _tolerances() -> tuple[dict[str, str], ...]:
    return rows("knurling/blank_tolerance.csv")
