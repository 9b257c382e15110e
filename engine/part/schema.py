"""What a part file may say. Strict: a part leads to a cutter, so nothing is guessed and nothing is evaluated.

This module loads Pydantic; engine.part.file imports it when a part is read, never before.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    PlainValidator,
    StringConstraints,
    ValidationInfo,
    create_model,
    model_validator,
)

from engine.base.declare import asks
from engine.base.kinds import Ask
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.part import sizes
from engine.part.part import Bar, Size
from engine.threads.designation import parse
from engine.threads.thread import Thread

PART_VERSION = 1
MOST_FEATURES = 60


def _printable(text: str) -> str:
    if not text.isprintable():
        raise ValueError("only printable characters can be used, on one line.")
    return text


def as_text(value: object) -> str:
    """A value of the file as if it were typed."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        value = repr(value)
    if not isinstance(value, str) or len(value) > 200:
        raise ValueError("this must be text as it would be typed, of at most 200 characters, or a number.")
    return _printable(value)


def _typed(read: Callable[[str, str], Any]) -> PlainValidator:
    """A validator that reads a value as typed, bare numbers in the file's unit."""

    def validate(given: object, info: ValidationInfo) -> Any:
        try:
            return read(as_text(given), str((info.context or {}).get("unit", "mm")))
        except BadInput as refusal:
            raise ValueError(str(refusal).removeprefix(f"{refusal.field}: ")) from None

    return PlainValidator(validate)


def _asked(ask: Ask) -> Callable[[str, str], Any]:
    return lambda text, unit: ask.read("value", text, unit)


_LENGTH = Ask("Length", "length", "", "2.5", True, low=0.0, high=5000.0, dimension="length")
_ANGLE = Ask("Angle", "angle", "", "90", True, low=-360.0, high=360.0, dimension="angle")
_OPEN = Ask("Angle", "angle", "", "90", True, low=10.0, high=170.0, dimension="angle")


def _hole_size(text: str, unit: str) -> Size:
    """A hole's size: as any, or a drill's name."""
    if text.startswith("#") or (len(text) == 1 and text.isalpha()):
        return Size(float(Ask("Hole", "diameter", "", "", True, low=0.0).read("value", text, unit)), written=text)
    return sizes.read_size(text, unit)


def _material(text: str, unit: str) -> str:
    from engine.cutting.materials import find

    find(text)
    return text.strip()


def _fit(text: str, unit: str) -> str:
    sizes.with_fit(Size(10.0, written="10"), text)
    return text


def _whole(low: int, high: int) -> PlainValidator:
    return _typed(_asked(Ask("Number", "count", "", "", True, low=low, high=high, dimension="count")))


def _mouth(text: str, unit: str) -> tuple[float, float] | None:
    """A countersunk mouth: `12.4`, `12.4 x 90`, or `none`."""
    if text.strip().lower() == "none":
        return None
    across, _, angle = text.replace("×", "x").partition(" x ")
    try:
        return (float(_LENGTH.read("value", across, unit)), float(_OPEN.read("value", angle, unit)) if angle else 90.0)
    except BadInput:
        raise BadInput("value", text, "the diameter of the mouth and its angle, as 12.4 x 90, or none") from None


Line = Annotated[
    str, StringConstraints(strict=True, min_length=1, max_length=300, strip_whitespace=True), AfterValidator(_printable)
]
SizeKey = Annotated[Size, _typed(sizes.read_size)]
PlaceKey = Annotated[Size, _typed(lambda text, unit: sizes.read_size(text, unit, nought=True))]
HoleKey = Annotated[Size, _typed(_hole_size)]
LengthKey = Annotated[float, _typed(_asked(_LENGTH))]
AngleKey = Annotated[float, _typed(_asked(_ANGLE))]
OpenKey = Annotated[float, _typed(_asked(_OPEN))]
EdgeKey = Annotated[sizes.Edge, _typed(sizes.read_edge)]
ConeKey = Annotated[sizes.Cone, _typed(lambda text, unit: sizes.read_cone(text))]
ThreadKey = Annotated[Thread, _typed(lambda text, unit: parse(text))]
FitKey = Annotated[str, _typed(_fit)]
TextKey = Annotated[str, _typed(lambda text, unit: text.strip())]
MouthKey = Annotated[tuple[float, float] | None, _typed(_mouth)]
EndKey = Literal["front", "back"]
FeatureName = Annotated[
    str, StringConstraints(strict=True, pattern=r"^(outside|inside|across)\.[1-9][0-9]?$|^(front|back)$")
]


class Strict(BaseModel):
    """A table of the file: unknown keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


def _one_of(model: Strict, *names: str) -> None:
    given = [name for name in names if getattr(model, name, None) not in (None, False)]
    if len(given) != 1:
        what = "these exclude each other" if given else "one of these is needed"
        raise ValueError(f"{what}: {', '.join(names)}.")


class MateKeys(Strict):
    """`mate`: what it is made to fit."""

    part: Line
    feature: FeatureName
    aim: Line | None = None


class FiguresKeys(Strict):
    """`figures`: stamped or engraved."""

    every: TextKey | None = None
    height: LengthKey | None = None
    reads: TextKey | None = None
    text: TextKey | None = None


def _operation_keys(operation: str, title: str, leave_out: tuple[str, ...], **more: Any) -> type[Strict]:
    """The inputs of an operation as keys, kept as typed, without those that the part itself knows."""
    fields: dict[str, Any] = {}
    for name, ask in asks(load(operation).inputs).items():
        if name not in (*leave_out, *more):
            kind = Annotated[str, _typed(_kept(ask))]
            fields[name] = (kind, ...) if ask.required else (kind | None, None)
    return create_model(title, __base__=Strict, **fields, **more)


def _kept(ask: Ask) -> Callable[[str, str], str]:
    def read(text: str, unit: str) -> str:
        ask.read("value", text, unit)
        return text

    return read


ScaleKeys = _operation_keys(
    "scale-lines", "ScaleKeys", ("diameter", "done", "by"),
    figures=(FiguresKeys | None, None), turned=(AngleKey | None, None),
)  # fmt: skip
_SLOT = ("diameter", "material", "place", "bore", "length")
SlotKeys = _operation_keys(
    "slot", "SlotKeys", _SLOT,
    width=(SizeKey, ...), depth=(SizeKey, ...), length=(SizeKey | None, None), turned=(AngleKey | None, None),
)  # fmt: skip
KeywayKeys = _operation_keys(
    "slot", "KeywayKeys", _SLOT,
    width=(SizeKey, ...), depth=(SizeKey, ...), length=(SizeKey | None, None), at=(PlaceKey | None, None),
    turned=(AngleKey | None, None),
)  # fmt: skip
FlatsKeys = _operation_keys(
    "flats", "FlatsKeys", ("diameter", "by"),
    across_flats=(SizeKey, ...), length=(SizeKey | None, None), turned=(AngleKey | None, None),
)  # fmt: skip


class _True(Strict):
    """`true_to` and `within`, which belong together."""

    true_to: FeatureName | None = None
    within: LengthKey | None = None

    @model_validator(mode="after")
    def _both(self) -> _True:
        if self.within is not None and self.true_to is None and type(self).__name__ != "HoleCircleKeys":
            raise ValueError('within needs true_to, the feature it is true to (true_to = "inside.1").')
        if self.true_to is not None and self.within is None:
            raise ValueError('true_to needs within, how far it may run out (within = "0.02").')
        return self


class FeatureKeys(_True):
    """What any feature may say."""

    is_: str = Field(alias="is")
    turned: AngleKey | None = None
    off_axis: SizeKey | None = None
    mate: MateKeys | None = None


class OutsideKeys(FeatureKeys):
    """What any outside feature may say."""

    chamfer: EdgeKey | None = None
    chamfer_back: EdgeKey | None = None
    radius: LengthKey | None = None
    fillet: LengthKey | None = None
    finish: TextKey | None = None
    scale: ScaleKeys | None = None  # type: ignore[valid-type]
    figures: FiguresKeys | None = None
    flats: FlatsKeys | None = None  # type: ignore[valid-type]
    slot: SlotKeys | None = None  # type: ignore[valid-type]
    keyway: KeywayKeys | None = None  # type: ignore[valid-type]


class _Limited(Strict):
    """Limits beside a size: a class, or a low and a high size."""

    fit: FitKey | None = None
    low: LengthKey | None = None
    high: LengthKey | None = None

    @model_validator(mode="after")
    def _limits(self) -> _Limited:
        size = self.size  # type: ignore[attr-defined]
        ways = [size.low is not None, self.fit is not None, self.low is not None or self.high is not None]
        if sum(ways) > 1:
            raise ValueError("limits are given once: in the size, as fit, or as low and high.")
        if (self.low is None) != (self.high is None) or (
            self.low is not None and self.high is not None and self.low >= self.high
        ):
            raise ValueError("low and high are both needed, low below high.")
        return self


class DiameterKeys(OutsideKeys, _Limited):
    """`is = "diameter"`."""

    size: SizeKey
    length: SizeKey


class BarKeys(OutsideKeys):
    """`is = "bar"`: left as bought."""

    length: SizeKey


class TaperKeys(OutsideKeys):
    """`is = "taper"`: any three of from, to, length and angle."""

    from_: SizeKey | None = Field(default=None, alias="from")
    to: SizeKey | None = None
    length: SizeKey | None = None
    angle: ConeKey | None = None

    @model_validator(mode="after")
    def _three(self) -> TaperKeys:
        if sum(one is not None for one in (self.from_, self.to, self.length, self.angle)) != 3:
            raise ValueError("a taper is given by three of these: from, to, length, angle.")
        return self


class ThreadKeys(OutsideKeys):
    """`is = "thread"` outside."""

    size: ThreadKey
    length: SizeKey
    tolerance: TextKey | None = None
    relief: bool | Literal["short"] = False
    runout: SizeKey | None = None


class KnurlKeys(OutsideKeys):
    """`is = "knurl"`."""

    near: SizeKey
    length: SizeKey
    form: Literal["axial", "diamond", "crossed"] | None = None
    pitch: TextKey | None = None
    tpi: TextKey | None = None
    diametral_pitch: TextKey | None = None
    near_is: Literal["finished", "blank"] = "finished"

    @model_validator(mode="after")
    def _one_pitch(self) -> KnurlKeys:
        if sum(one is not None for one in (self.pitch, self.tpi, self.diametral_pitch)) > 1:
            raise ValueError("these exclude each other: pitch, tpi, diametral_pitch.")
        return self


class GrooveKeys(OutsideKeys, _Limited):
    """`is = "groove"` outside."""

    size: SizeKey
    width: SizeKey


class DomeKeys(OutsideKeys):
    """`is = "dome"`: the first or the last feature."""

    radius: LengthKey
    size: SizeKey | None = None
    length: SizeKey | None = None


class InsideKeys(FeatureKeys):
    """What any inside feature may say."""

    end: EndKey = "front"
    finish: TextKey | None = None


class _Deep(InsideKeys):
    depth: SizeKey | None = None
    through: bool = False

    @model_validator(mode="after")
    def _depth(self) -> _Deep:
        _one_of(self, "depth", "through")
        return self


class HoleKeys(_Deep, _Limited):
    """`is = "hole"`."""

    size: HoleKey
    hole_depth: SizeKey | None = None
    bottom: Literal["flat", "point"] = "point"
    keyway: KeywayKeys | None = None  # type: ignore[valid-type]
    chamfer: EdgeKey | None = None
    chamfer_back: EdgeKey | None = None


class InsideThreadKeys(_Deep):
    """`is = "thread"` inside."""

    size: ThreadKey
    tolerance: TextKey | None = None
    hole_depth: SizeKey | None = None
    mouth: MouthKey | None = None
    mouth_back: MouthKey | None = None


class CounterboreKeys(InsideKeys):
    """`is = "counterbore"`: for a screw, or a diameter and a depth."""

    size: ThreadKey | None = None
    diameter: SizeKey | None = None
    depth: SizeKey | None = None
    chamfer: EdgeKey | None = None

    @model_validator(mode="after")
    def _sizes(self) -> CounterboreKeys:
        _one_of(self, "size", "diameter")
        if self.diameter is not None and self.depth is None:
            raise ValueError("a counterbore of a given diameter needs a depth.")
        return self


class CountersinkKeys(InsideKeys):
    """`is = "countersink"`: for a screw, or a diameter and an angle."""

    size: ThreadKey | None = None
    diameter: SizeKey | None = None
    angle: OpenKey | None = None

    @model_validator(mode="after")
    def _sizes(self) -> CountersinkKeys:
        _one_of(self, "size", "diameter")
        return self


class InsideTaperKeys(InsideKeys):
    """`is = "taper"` inside: from the diameter at its face; three of from, to, depth (or through) and
    angle.
    """

    from_: SizeKey | None = Field(default=None, alias="from")
    to: SizeKey | None = None
    depth: SizeKey | None = None
    through: bool = False
    angle: ConeKey | None = None

    @model_validator(mode="after")
    def _three(self) -> InsideTaperKeys:
        deep = self.depth is not None or self.through
        given = sum((self.from_ is not None, self.to is not None, deep, self.angle is not None))
        if given != 3 or (self.depth is not None and self.through):
            raise ValueError("a taper is given by three of these: from, to, depth (or through), angle.")
        return self


class InsideGrooveKeys(InsideKeys):
    """`is = "groove"` inside: its bottom's diameter, or how deep it is cut into the bore."""

    width: SizeKey
    depth: SizeKey | None = None
    size: SizeKey | None = None
    at: PlaceKey
    at_from: FeatureName = "front"

    @model_validator(mode="after")
    def _one_depth(self) -> InsideGrooveKeys:
        _one_of(self, "depth", "size")
        return self


class BallKeys(InsideKeys):
    """`is = "ball"`."""

    ball: LengthKey
    stand_out: SizeKey
    hold: Literal["press", "glue", "stake", "solder"] | None = None
    hole: HoleKey | None = None


class AcrossKeys(FeatureKeys):
    """What holes off the axis may say."""

    thread: ThreadKey | None = None
    tolerance: TextKey | None = None
    countersink: MouthKey | None = None
    fit: FitKey | None = None


class HoleCircleKeys(AcrossKeys):
    """`is = "hole-circle"`."""

    holes: Annotated[int, _whole(1, 360)]
    diameter: SizeKey
    hole: HoleKey | None = None
    depth: SizeKey | None = None
    through: bool = False
    end: EndKey = "front"

    @model_validator(mode="after")
    def _what(self) -> HoleCircleKeys:
        _one_of(self, "hole", "thread")
        _one_of(self, "depth", "through")
        return self


class CrossHoleKeys(AcrossKeys):
    """`is = "cross-hole"`."""

    size: HoleKey | None = None
    at: PlaceKey
    at_from: FeatureName = "front"
    walls: Literal["one", "both"] = "both"
    depth: SizeKey | None = None

    @model_validator(mode="after")
    def _what(self) -> CrossHoleKeys:
        _one_of(self, "size", "thread")
        return self


class EndKeys(_True):
    """`[front]` and `[back]`."""

    slot: SlotKeys | None = None  # type: ignore[valid-type]
    centre: Literal["stays", "may stay", "none"] | None = None
    figures: FiguresKeys | None = None
    finish: TextKey | None = None


class HeatKeys(Strict):
    """`[heat]`."""

    way: Line
    where: Line | None = None
    hardness: Line | None = None


class StockKeys(Strict):
    """`[stock]`."""

    length: LengthKey | None = None
    bore: LengthKey | None = None
    coating: Line | None = None
    temper: Line | None = None


Features = Annotated[tuple[dict[str, Any], ...], Field(max_length=MOST_FEATURES)]


class PartKeys(Strict):
    """The whole of one part; the features are read one by one, by what they are."""

    title: Annotated[Line, StringConstraints(max_length=80)]
    unit: Literal["mm", "inch"]
    material: Annotated[str, _typed(_material)]
    bar: Annotated[Bar, _typed(sizes.read_bar)] | None = None
    blank: Annotated[sizes.Blank, _typed(sizes.read_blank)] | None = None
    make: Annotated[int, _whole(1, 1000)] = 1
    length: SizeKey | None = None
    edges: SizeKey | None = None
    general: Literal["f", "m", "c", "v"] | None = None
    about: Line | None = None
    finish: TextKey | None = None
    outside: Features = ()
    inside: Features = ()
    across: Features = ()
    front: EndKeys = EndKeys()
    back: EndKeys = EndKeys()
    heat: HeatKeys | None = None
    stock: StockKeys = StockKeys()


KINDS: dict[str, dict[str, type[FeatureKeys]]] = {
    "outside": {
        "diameter": DiameterKeys, "bar": BarKeys, "taper": TaperKeys, "thread": ThreadKeys, "knurl": KnurlKeys,
        "groove": GrooveKeys, "dome": DomeKeys,
    },
    "inside": {
        "hole": HoleKeys, "thread": InsideThreadKeys, "counterbore": CounterboreKeys,
        "countersink": CountersinkKeys, "taper": InsideTaperKeys, "groove": InsideGrooveKeys, "ball": BallKeys,
    },
    "across": {"hole-circle": HoleCircleKeys, "cross-hole": CrossHoleKeys},
}  # fmt: skip


def keys_of(model: type[BaseModel]) -> tuple[str, ...]:
    """Every key that a table may hold, as the file writes it."""
    return tuple(field.alias or name for name, field in model.model_fields.items())
