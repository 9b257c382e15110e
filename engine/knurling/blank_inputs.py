"""What `knurl-blank` is told, and which wheel that means."""

from __future__ import annotations

from typing import Any

from engine.base import declare as ask
from engine.base.quantity import show
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.knurling.wheels import STANDARD_HELIX, Wheel, from_count, from_diametral_pitch, from_pitch
from engine.shop.model import KnurlWheel, Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class KnurlBlankInputs:
    """What `knurl-blank` is told."""

    near: float = ask.length(
        "Diameter wanted",
        high=1000,
        example="18",
        help="Roughly how big the blank (or finished knurl) is to be.",
    )
    pitch: float | None = ask.length(
        "Pitch of the wheel",
        low=0.2,
        high=5,
        required=False,
        example="0.8",
        empty="an owned wheel, by its counted teeth",
        help="Across the teeth, as stamped. Left empty, your own wheel is used with its true pitch.",
    )
    tpi: float | None = ask.number(
        "Teeth an inch of the wheel",
        low=5,
        high=130,
        required=False,
        example="33",
        empty="not given so",
        help="Instead of the pitch: teeth an inch, square to the teeth.",
    )
    diametral_pitch: float | None = ask.number(
        "Diametral pitch of the wheel",
        low=10,
        high=400,
        required=False,
        example="96",
        empty="not given so",
        help="Instead of the pitch: teeth on one inch of blank diameter (64, 96, 128, 160).",
    )
    form: str = ask.choice(
        "Form",
        ("axial", "diagonal", "diamond", "crossed"),
        default="axial",
        example="axial",
        help="Lines along the bar, slanting, slanting both ways, or along and round.",
    )
    method: str = ask.choice(
        "Method",
        ("form", "cut"),
        default="form",
        example="form",
        help="Form: rolled in under pressure, the diameter grows. Cut: the wheel takes metal away.",
    )
    material: Any = ask.material(
        "Material",
        required=False,
        example="free-cutting brass",
        empty="not given",
        help="Says whether the material can be rolled at all.",
    )
    points: str = ask.choice(
        "Points",
        ("raised", "indented"),
        default="raised",
        example="raised",
        help="Diamond and crossed knurls: points that stand up, or points pressed in.",
    )
    near_is: str = ask.choice(
        "The diameter wanted is",
        ("blank", "finished"),
        default="blank",
        example="blank",
        help="Of the turned blank, or of the finished knurl.",
    )
    wheel: int | None = ask.count(
        "Owned wheel",
        low=1,
        high=100,
        required=False,
        example="1",
        empty="the first that makes the form",
        help="Which of your wheels, by its place in the shop's list.",
    )
    wheel_teeth: int | None = ask.count(
        "Teeth counted on the wheel",
        low=10,
        high=400,
        required=False,
        example="78",
        empty="not counted",
        help="With the wheel's diameter it gives the true pitch: the stamped one is nominal.",
    )
    wheel_diameter: float | None = ask.length(
        "Outside diameter of the wheel",
        low=3,
        high=100,
        required=False,
        example="20",
        empty="not measured",
        help="With the teeth counted it gives the true pitch.",
    )
    helix: float = ask.angle(
        "Angle of slanting lines",
        default=STANDARD_HELIX,
        low=5,
        high=60,
        example="30",
        help="Diagonal and diamond: from the bar's axis.",
    )
    swivelled: bool = ask.flag(
        "Straight wheels swivelled",
        default=False,
        example="no",
        help="Diagonal and diamond: yes when straight wheels are swivelled to the angle.",
    )


def slant(inputs: KnurlBlankInputs) -> float:
    """Return the angle of the knurl's lines to the axis.

    Parameters
    ----------
    inputs : KnurlBlankInputs
        What was asked.

    Returns
    -------
    angle : float
        The helix for diagonal and diamond knurls, else 0. [deg]

    Sources
    -------
    DIN 82:1973 forms.

    Examples
    --------
    >>> slant(KnurlBlankInputs(near=18, form="diamond")), slant(KnurlBlankInputs(near=18))
    (30.0, 0.0)
    """
    return inputs.helix if inputs.form in ("diagonal", "diamond") else 0.0


def wheel_meant(inputs: KnurlBlankInputs, shop: Shop) -> Wheel:
    """Return the wheel that was meant.

    Parameters
    ----------
    inputs : KnurlBlankInputs
        What was asked: a pitch, teeth an inch, a diametral pitch, a counted wheel, an owned one, or nothing.
    shop : Shop
        Whose first fitting wheel is taken when nothing was said.

    Returns
    -------
    wheel : Wheel
        As it meets the blank.

    Raises
    ------
    BadInput
        If it was said in two ways, by halves, or no owned wheel makes the form.

    Sources
    -------
    As for engine.knurling.wheels.

    Examples
    --------
    >>> from engine.shop.file import sample
    >>> wheel_meant(KnurlBlankInputs(near=18), sample("metric")).pitch
    0.8055
    """
    helix = slant(inputs)
    ways = [n for n in ("pitch", "tpi", "diametral_pitch", "wheel") if getattr(inputs, n) is not None]
    if len(ways) > 1:
        text = f"{ways[1]}: give the wheel by its {ways[0]} or by its {ways[1]}, not by both."
        raise BadInput(ways[1], getattr(inputs, ways[1]), f"nothing, as {ways[0]} is given", text)
    if (inputs.wheel_teeth is None) != (inputs.wheel_diameter is None):
        missing = "wheel_teeth" if inputs.wheel_teeth is None else "wheel_diameter"
        raise BadInput(missing, "", "the wheel's teeth and its outside diameter together")
    if inputs.wheel_teeth is not None and inputs.wheel_diameter is not None:
        own = 0.0 if inputs.swivelled else helix
        return from_count(
            teeth=inputs.wheel_teeth,
            diameter=inputs.wheel_diameter,
            wheel_helix=own,
            helix=helix,
            unit=shop.unit,
        )
    if inputs.pitch is not None:
        return from_pitch(pitch=inputs.pitch, helix=helix, unit=shop.unit)
    if inputs.tpi is not None:
        name = f"{inputs.tpi:g} teeth an inch"
        return from_pitch(pitch=25.4 / inputs.tpi, helix=helix, name=name, unit=shop.unit)
    if inputs.diametral_pitch is not None:
        return from_diametral_pitch(
            diametral_pitch=inputs.diametral_pitch, helix=helix, swivelled=inputs.swivelled, unit=shop.unit
        )
    return owned(_chosen(inputs, shop), helix, swivelled=inputs.swivelled, unit=shop.unit)


def owned(wheel: KnurlWheel, helix: float, *, swivelled: bool = False, unit: str = "mm") -> Wheel:
    """Return an owned wheel as it meets the blank, by its counted teeth when they are known.

    Parameters
    ----------
    wheel : KnurlWheel
        From the shop.
    helix : float
        Angle of the knurl's lines to the axis. [deg]
    swivelled : bool
        The wheel is swivelled to that angle although it is no straight one.
    unit : str
        `mm` or `inch`: how its name writes the stamped pitch.

    Returns
    -------
    wheel : Wheel
        With its true pitch, or the nominal one when the teeth were never counted.

    Raises
    ------
    OutOfRange
        If the wheel's numbers cannot be.

    Sources
    -------
    As for engine.knurling.wheels.

    Examples
    --------
    >>> owned(KnurlWheel(pitch=0.8, diameter=20, teeth=78), 0).pitch
    0.8055
    """
    name = f"{wheel.form} wheel, pitch {show(wheel.pitch, 'length', unit)}"
    if not wheel.teeth or not wheel.diameter:
        return from_pitch(pitch=wheel.pitch, helix=helix, name=name, unit=unit)
    own = 0.0 if wheel.form == "straight" or swivelled else helix
    return from_count(
        teeth=wheel.teeth,
        diameter=wheel.diameter,
        wheel_helix=own,
        helix=helix,
        name=f"{name}, {wheel.teeth} teeth",
        unit=unit,
    )


def makes(wheel: KnurlWheel, form: str) -> bool:
    """Say whether a wheel can make a form; a straight one makes the slanting forms too, when it is swivelled.

    Parameters
    ----------
    wheel : KnurlWheel
        From the shop.
    form : str
        `axial`, `diagonal`, `diamond` or `crossed`.

    Returns
    -------
    answer : bool
        Whether it can.

    Sources
    -------
    DIN 82:1973 and DIN 403:1973 (which wheels make which form).

    Examples
    --------
    >>> makes(KnurlWheel(pitch=1.0), "diamond"), makes(KnurlWheel(pitch=1.0), "crossed")
    (True, False)
    """
    return form != "crossed" and (wheel.form == "straight" or form in ("diagonal", "diamond"))


def _chosen(inputs: KnurlBlankInputs, shop: Shop) -> KnurlWheel:
    if inputs.wheel is not None:
        if inputs.wheel > len(shop.knurls):
            raise BadInput("wheel", inputs.wheel, f"1 to {len(shop.knurls)}, the wheels of the shop")
        wheel = shop.knurls[inputs.wheel - 1]
        if not makes(wheel, inputs.form):
            raise BadInput("form", inputs.form, f"a form that a {wheel.form} wheel makes")
        return wheel
    for wheel in shop.knurls:
        if makes(wheel, inputs.form):
            return wheel
    raise BadInput(
        "pitch",
        "",
        "a pitch such as 0.8",
        f"pitch: no owned wheel makes a knurl of form {inputs.form}; give a pitch, tpi or diametral_pitch.",
    )
