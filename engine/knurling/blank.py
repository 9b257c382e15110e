"""The blank for a knurl: a diameter that takes a whole number of teeth, and what the knurl makes of it."""

from __future__ import annotations

from math import floor

from engine.base.records import dataclass
from engine.base.refusals import BadInput, OutOfRange, check_range
from engine.base.tables import rows
from engine.knurling.wheels import Wheel

FEWEST_TEETH = 8  # fewer are splines, not a knurl: common practice
TRACKS_WITHIN = 0.1  # of a tooth: class I of ASME B94.6 allows 8 to 10 % of a tooth on its blanks
DOUBLES_BEYOND = 0.25  # of a tooth: a roll maker's page allows a third of a tooth, half that "to be more certain"
DIN_PITCHES = (0.5, 1.6)  # mm, DIN 82:1973


@dataclass(frozen=True, slots=True)
class Form:
    """A form of knurl of DIN 82: its code, how far the form raises the diameter in pitches, its wheels."""

    code: str
    growth_factor: float
    wheels: str


@dataclass(frozen=True, slots=True)
class Blank:
    """A blank that takes a whole number of teeth. Lengths in mm."""

    teeth: int
    diameter: float
    finished: float


def form_of(*, form: str, points: str) -> Form:
    """Return a form of knurl as DIN 82 has it.

    form: `axial`, `diagonal`, `diamond` or `crossed`.
    points: `raised` or `indented` (diamond and crossed only).
    Returns: Code, growth in pitches and the wheels that make it.
    Raises: BadInput if the form has no indented kind.
    Source: DIN 82:1973-01, clause 2.4.

    >>> form_of(form="diamond", points="raised").code
    'RGE'
    """
    for row in rows("knurling/forms.csv"):
        if row["form"] == form and row["points"] == points:
            return Form(row["code"], float(row["growth_factor"]), row["wheels"])
    raise BadInput("points", points, f"raised for a knurl of form {form}")


def growth_of(form: Form, *, pitch: float, method: str) -> float:
    """Return how far a full knurl raises the diameter.

    form: The form of knurl.
    pitch: Pitch square to the teeth. [mm]
    method: `form` (rolled in, metal pushed up) or `cut` (metal taken away: no growth counted).
    Returns: On the diameter. [mm]
    Raises: OutOfRange if the pitch is not above 0.
    Source: DIN 82:1973-01, clause 2.4, for a full 90 degree profile. No growth when cut: common practice, no source.

    >>> growth_of(form_of(form="axial", points="raised"), pitch=0.8, method="form")
    0.4
    """
    check_range("pitch", pitch, low=1e-6, unit="mm")
    return form.growth_factor * pitch if method == "form" else 0.0


def blank_near(*, near: float, wheel: Wheel, growth: float) -> Blank:
    """Return the blank nearest a diameter that takes a whole number of teeth.

    near: Diameter wanted for the blank. [mm]
    wheel: The wheel.
    growth: What the knurl adds to the diameter. [mm]
    Returns: Teeth, blank and finished diameter.
    Raises: OutOfRange if the diameter is too small to take eight teeth.
    Source: DIN 403:1973; ASME B94.6: teeth = circumference / pitch, a whole number.

    A published one: 160 diametral pitch wheels swivelled 30 degrees, near 1 inch: 139 teeth or 138 on 0.996 in.

    >>> from engine.knurling.wheels import from_diametral_pitch
    >>> wheel = from_diametral_pitch(diametral_pitch=160, helix=30, swivelled=True)
    >>> blank_of(138, wheel=wheel, growth=0).diameter / 25.4
    0.996
    """
    smallest = FEWEST_TEETH * wheel.step
    if not near >= smallest:
        raise OutOfRange("near", near, round(smallest, 2), None, "mm", f"{FEWEST_TEETH} teeth of this wheel")
    return blank_of(floor(near / wheel.step + 0.5), wheel=wheel, growth=growth)


def blank_of(teeth: int, *, wheel: Wheel, growth: float) -> Blank:
    """Return the blank for a count of teeth.

    teeth: Teeth on the work.
    wheel: The wheel.
    growth: What the knurl adds to the diameter. [mm]
    Returns: Teeth, blank and finished diameter.
    Raises: OutOfRange if there are fewer than eight teeth.
    Source: As for `blank_near`.

    A published one: 31 teeth by a wheel of 47 teeth on 0.750 + 0.007 in: 0.499 in.

    >>> from engine.knurling.wheels import from_count
    >>> wheel = from_count(teeth=47, diameter=0.757 * 25.4, wheel_helix=0, helix=0)
    >>> blank_of(31, wheel=wheel, growth=0).diameter / 25.4
    0.499
    """
    check_range("teeth", teeth, low=FEWEST_TEETH)
    diameter = teeth * wheel.step
    return Blank(teeth, diameter, diameter + growth)


def tolerance_of(wheel: Wheel) -> float:
    """Return how far a blank may lie from its whole count of teeth and surely track.

    wheel: The wheel.
    Returns: Plus and minus, on the diameter. [mm]
    Source: ASME B94.6 class I for its wheels; else a tenth of a tooth, which those tolerances come to.

    >>> from engine.knurling.wheels import from_pitch
    >>> tolerance_of(from_pitch(pitch=1.0, helix=0))
    0.0318
    """
    return wheel.tolerance if wheel.tolerance is not None else TRACKS_WITHIN * wheel.step
