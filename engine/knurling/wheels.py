"""Knurl wheels: how much blank diameter one tooth takes, from a pitch, a diametral pitch or a counted wheel."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.sums import INCH, PI, cos, deg, mm, num
from engine.base.tables import rows
from engine.base.words import Text, general, put, say, shown

if TYPE_CHECKING:
    from engine.shop.model import KnurlWheel

STANDARD_HELIX = 30.0  # degrees; DIN 82:1973 forms RBL, RBR, RGE, RGV


@dataclass(frozen=True, slots=True)
class Wheel:
    """A wheel as it meets the blank.

    `pitch` is square to its teeth, `step` the blank diameter that one tooth takes, both in mm; `working` and
    `pitch_working` say how they were found. `counted`: from a tooth count, not from a nominal pitch. `tolerance` is the
    published tolerance of a blank for it, plus and minus [mm], None where none is published.
    """

    name: Text
    pitch: float
    step: float
    working: Text
    pitch_working: Text
    source: str
    counted: bool = False
    tolerance: float | None = None


def from_pitch(*, pitch: float, helix: float, name: Text = "", pitch_working: Text = "") -> Wheel:
    """A wheel known by its nominal pitch.

    pitch: Pitch square to the teeth, above 0. [mm]
    helix: Angle of the knurl's lines to the axis, 0 to 60. [deg]
    name: What to call it.
    pitch_working: Where the pitch is from.
    Returns: One tooth takes pitch / (pi cos helix) of blank diameter.
    Raises: OutOfRange if the pitch or the angle lies outside its range.
    Source: DIN 403:1973 (tooth counts, cosine of 30 degrees for the diagonal forms).

    >>> from_pitch(pitch=0.8, helix=0).step, from_pitch(pitch=0.8, helix=30).step
    (0.2546, 0.2940)
    """
    check_range("pitch", pitch, low=1e-6, unit="mm")
    check_range("helix", helix, low=0, high=60, unit="deg")
    step = mm(pitch) / (PI * cos(deg(helix))) if helix else mm(pitch) / PI
    return Wheel(name or say("pitch {pitch}", pitch=shown(pitch)), pitch, float(step),
        say("{sum} = {step}", sum=step, step=step.known()),
        pitch_working or say("{pitch}, the pitch it is known by", pitch=put(pitch)),
        "blank circumference over pitch (DIN 403:1973)")  # fmt: skip


def from_count(*, teeth: int, diameter: float, wheel_helix: float, helix: float, name: Text = "") -> Wheel:
    """A wheel whose teeth were counted and whose outside diameter was measured.

    teeth: Teeth of the wheel, 5 or more.
    diameter: Its outside diameter, above 0. [mm]
    wheel_helix: Angle of the wheel's own teeth to its axis, 0 for a straight one. [deg]
    helix: Angle of the knurl's lines to the axis of the work. [deg]
    name: What to call it.
    Returns: True pitch = pi x diameter / teeth x cos(wheel_helix).
    Raises: OutOfRange if a number lies outside its range.
    Source: Geometry; DIN 403:1973 shows why it matters (its 15 mm wheel of pitch 1 has 48 teeth).

    >>> from_count(teeth=48, diameter=15, wheel_helix=0, helix=0).pitch
    0.982
    """
    check_range("wheel_teeth", teeth, low=5)
    check_range("wheel_diameter", diameter, low=1e-6, unit="mm")
    pitch = PI * mm(diameter) / num(teeth)
    if wheel_helix:
        pitch = pitch * cos(deg(wheel_helix))
    plain = from_pitch(pitch=float(pitch), helix=helix)
    true = say("true pitch {sum} = {pitch}", sum=pitch, pitch=pitch.known())
    return Wheel(name or say("{teeth} teeth on {diameter}", teeth=teeth, diameter=shown(diameter)), float(pitch),
        plain.step, say("{true}; {step}", true=true, step=plain.working), true,
        "teeth counted and outside diameter measured: pitch = circumference ÷ teeth (geometry)",
        counted=True)  # fmt: skip


def from_diametral_pitch(*, diametral_pitch: float, helix: float, swivelled: bool) -> Wheel:
    """A wheel of the diametral pitch system.

    diametral_pitch: Teeth on one inch of blank diameter, 10 to 400. [1/in]
    helix: Angle of the knurl's lines to the axis. [deg]
    swivelled: The wheel is a straight one, swivelled to the angle: fewer teeth go round by its cosine.
    Returns: One tooth takes 1/P inch of blank (1/(P cos helix) swivelled).
    Raises: OutOfRange if the diametral pitch lies outside its range.
    Source: ASME B94.6 (Machinery's Handbook, 31st ed., p. 1059).

    >>> from_diametral_pitch(diametral_pitch=96, helix=0, swivelled=False).step / 25.4 * 96
    1.0
    """
    check_range("diametral_pitch", diametral_pitch, low=10, high=400, unit="teeth an inch of diameter")
    turned = swivelled and helix
    step = INCH / (num(diametral_pitch) * cos(deg(helix))) if turned else INCH / num(diametral_pitch)
    pitch = PI * step.known() * cos(deg(helix)) if helix else PI * step.known()
    published = {float(r["diametral_pitch"]): float(r["plus_minus_in"]) for r in rows("knurling/blank_tolerance.csv")}
    tolerance = published.get(diametral_pitch)
    return Wheel(say("{pitch} diametral pitch", pitch=general(diametral_pitch)), float(pitch), float(step),
        say("{sum} = {step}", sum=step, step=step.known()), pitch,
        "ASME B94.6: teeth = blank diameter x diametral pitch (Machinery's Handbook, 31st ed., p. 1059)",
        tolerance=None if tolerance is None else tolerance * float(INCH))  # fmt: skip


def owned(wheel: KnurlWheel, helix: float, *, swivelled: bool = False) -> Wheel:
    """An owned wheel as it meets the blank, by its counted teeth when they are known.

    >>> from engine.shop.model import KnurlWheel
    >>> owned(KnurlWheel(pitch=0.8, diameter=20, teeth=78), 0).pitch
    0.8055
    """
    name = say("{form} wheel, pitch {pitch}", form=wheel.form, pitch=shown(wheel.pitch))
    if not wheel.teeth or not wheel.diameter:
        return from_pitch(pitch=wheel.pitch, helix=helix, name=name)
    own = 0.0 if wheel.form == "straight" or swivelled else helix
    counted = say("{name}, {teeth} teeth", name=name, teeth=wheel.teeth)
    return from_count(teeth=wheel.teeth, diameter=wheel.diameter, wheel_helix=own, helix=helix, name=counted)


def makes(wheel: KnurlWheel, form: str) -> bool:
    """Whether a wheel can make a form; a straight one makes the slanting forms too, when it is swivelled. (DIN 82:1973)

    >>> from engine.shop.model import KnurlWheel
    >>> makes(KnurlWheel(pitch=1.0), "diamond"), makes(KnurlWheel(pitch=1.0), "crossed")
    (True, False)
    """
    return form != "crossed" and (wheel.form == "straight" or form in ("diagonal", "diamond"))


def only_swivelled(wheel: KnurlWheel, form: str) -> bool:
    """Whether a form is beyond a wheel unless it is swivelled: a straight one for slanting lines."""
    return wheel.form == "straight" and form in ("diagonal", "diamond")
