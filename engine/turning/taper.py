"""Taper: how the top slide or the tailstock is set, and what the work measures along it."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, Table, figure, heads, info, to_set, warning, words
from engine.base.operation import Operation
from engine.base.reading import read_angle
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import INCH, Sum, arctan, cos, deg, mm, num, sin, tan
from engine.base.tables import rows
from engine.base.words import Text, say, shown
from engine.cutting.materials import of_shop
from engine.cutting.speeds import Tool
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning import pace as paces
from engine.turning.cut_pictures import taper_picture
from engine.turning.cut_plan import dial_after, line_of

_GEOMETRY = "geometry: half the taper on the diameter is the tangent of the angle to the axis"
_NAVY = "set-over = length between centres x taper ÷ 2: US Navy training manual 14345, lathe chapter"
_SET_OVER = 0.02  # of the length between centres: more lifts the centres out of their holes; common practice
_TRAVEL = 60.0  # mm of travel that a small top slide has; common practice
_NOISE = 1e-6  # of a line: a float within it stands on the line
_READINGS = 4  # equal parts that the check divides the length into


@dataclass(frozen=True, slots=True, kw_only=True)
class TaperInputs:
    """What `taper` is told: a standard taper, or enough of both ends, the length and the taper.

    from: Diameter at one end; the large end where only one is given.
    to: Diameter at the other end.
    length: Along the axis, from end to end.
    angle: 1 in 20, 0.6 in/ft, 7:24, or an angle: the whole one, both sides together (60°).
    standard: By its name: Morse 2, Jarno 6, 1:50, taper pin.
    where: On the outside, or in a bore.
    between_centres: Length of the whole work, from centre to centre, for the tailstock's set-over.
    scale_zero: Whether the swivel reads 0 with the slide along the bed or square across it.
    gauge: How much further the gauge, socket or mate has to go on: says what to take off.
    material: Decides the speed.
    tool: Decides the speed.
    """

    from_: float | None = ask.length(
        "From diameter", low=0, high=1000, example="20", empty="worked out, or the standard's large end"
    )
    to: float | None = ask.length("To diameter", low=-1e-9, high=1000, example="18", empty="worked out")
    length: float | None = ask.length(
        "Length of the taper", high=2000, example="40", empty="worked out, or the standard's"
    )
    angle: str | None = ask.text("Taper or angle", example="1 in 20", empty="from both ends and the length")
    standard: str | None = ask.text("Standard taper", example="Morse 2", empty="none")
    where: str = ask.choice("Cut", ("outside", "bore"), default="outside", example="outside")
    between_centres: float | None = ask.length(
        "Between the centres", high=3000, example="150", empty="not between centres"
    )
    scale_zero: str = ask.choice("Top slide's 0 lies", ("along", "across"), default="along", example="along")
    gauge: float | None = ask.length("Gauge still to go", high=200, example="1.5", empty="not tried")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    tool: Tool = ask.choice("Tool", ("hss", "carbide"), default="hss", example="hss")


@dataclass(frozen=True, slots=True)
class _Cone:
    """A taper settled: `rate` is the change of diameter over length."""

    large: Sum
    small: Sum
    length: Sum
    rate: Sum
    source: str


@dataclass(frozen=True, slots=True)
class _Standard:
    name: str
    rate: Sum
    large: Sum | None
    length: Sum | None
    source: str


_RATIO = re.compile(r"([\d.]+)\s*(?:in|:)\s*([\d.]+)", re.IGNORECASE)
_PER_FOOT = re.compile(r"([\d.]+|\d+/\d+)\s*(?:in(?:ch)?\s*)?(?:/|per|to the|a)\s*(?:ft|foot)", re.IGNORECASE)


def _known_as(text: str) -> str:
    plain = re.sub(r"(?<=[a-z])[-. ]+", "", text.lower().replace("number", "no"))
    return "".join(re.findall(r"[a-z0-9:/-]+", plain))


@cache
def _standards() -> dict[str, dict[str, str]]:
    return {_known_as(name): row for row in rows("turning/tapers.csv") for name in (row["name"],
        *row["words"].split(";"))
            if name}  # fmt: skip


def _standard(name: str) -> _Standard:
    row = _standards().get(_known_as(name))
    if row is None:
        from difflib import get_close_matches

        near = get_close_matches(_known_as(name), _standards(), n=3, cutoff=0.5)
        known = dict.fromkeys(_standards()[n]["name"] for n in near)
        raise BadInput("standard", name, " or ".join(known) or "a standard taper, such as Morse 2, Jarno 6 or 1:50")
    if row["per_foot"]:
        rate = num(float(row["per_foot"])) / num(12)
    elif row["ratio"]:
        rate = _ratio(row["ratio"])
    else:
        rate = 2 * tan(deg(float(row["half_angle"])))
    large, length = (num(float(row[end])) * INCH if row[end] else None for end in ("large", "length"))
    return _Standard(row["name"], rate, large, length, row["source"])


def _ratio(text: str) -> Sum:
    top, bottom = _RATIO.fullmatch(text).groups()  # type: ignore[union-attr]
    return num(float(top)) / num(float(bottom))


def _rate_of(text: str) -> Sum:
    """A taper as it is written: 1 in 20, 0.6 in/ft, or the whole angle."""
    plain = " ".join(text.split())
    found = _RATIO.fullmatch(plain)
    try:
        if found and float(found[2]) > 0 and float(found[1]) > 0:
            return _ratio(plain)
        foot = _PER_FOOT.fullmatch(plain)
        if foot:
            top, _, bottom = foot[1].partition("/")
            return num(float(top)) / num(float(bottom or 1)) / num(12) if bottom else num(float(top)) / num(12)
        angle = read_angle(plain, ask.asks(_AngleAlone)["angle"], "mm")
    except (ValueError, ZeroDivisionError):
        raise BadInput("angle", text, "a taper (1 in 20, 0.6 in/ft) or an angle above 0 and below 170°") from None
    whole: Sum = 2 * tan(deg(angle) / 2)
    return whole


@dataclass(frozen=True, slots=True, kw_only=True)
class _AngleAlone:
    angle: float = ask.angle("Taper or angle", low=0.01, high=170, example="60")


def _cone(inputs: TaperInputs) -> _Cone:
    standard = _standard(inputs.standard) if inputs.standard else None
    if standard and inputs.angle:
        raise BadInput("angle", inputs.angle, f"nothing, as {standard.name} is given")
    rate = standard.rate if standard else _rate_of(inputs.angle) if inputs.angle else None
    one = mm(inputs.from_) if inputs.from_ is not None else None
    other = mm(max(inputs.to, 0.0)) if inputs.to is not None else None
    length = mm(inputs.length) if inputs.length is not None else None
    if standard:
        if one is None and other is None:
            one = standard.large
        if length is None and (one is None or other is None):
            length = standard.length
    source = standard.source if standard else "as told"
    if rate is None:
        return _by_ends(inputs, one, other, length)
    if one is not None and other is not None and length is not None:
        raise BadInput("length", shown(length), "nothing, as both ends and the taper are given")
    if one is not None and other is not None:
        _differ(inputs, one, other)
        large, small = (one, other) if one.value > other.value else (other, one)
        return _Cone(large, small, (large - small) / rate, rate, source)
    if length is None or (one is None and other is None):
        missing = "length" if length is None else "from"
        raise BadInput(missing, "", "two of both ends and the length",
                       f"{missing}: with a taper give two of from, to and length.")  # fmt: skip
    if one is not None:
        small = one - length * rate
        if small.value < 0:
            most = say("up to {long}, where this taper comes to a point", long=shown(one.value / float(rate)))
            raise BadInput("length", shown(length), most)
        return _Cone(one, small, length, rate, source)
    assert other is not None
    return _Cone(other + length * rate, other, length, rate, source)


def _by_ends(inputs: TaperInputs, one: Sum | None, other: Sum | None, length: Sum | None) -> _Cone:
    for name, given in (("from", one), ("to", other), ("length", length)):
        if given is None:
            raise BadInput(name, "", "both ends and the length, or a taper",
                           f"{name}: give from, to and length, or a taper (1 in 20) with two of them.")  # fmt: skip
    assert one is not None and other is not None and length is not None
    _differ(inputs, one, other)
    large, small = (one, other) if one.value > other.value else (other, one)
    return _Cone(large, small, length, (large - small) / length, "as told")


def _differ(inputs: TaperInputs, one: Sum, other: Sum) -> None:
    if one.value == other.value:
        raise BadInput("to", shown(other), "another diameter than at the first end")


def _work(inputs: TaperInputs, shop: Shop) -> Answer:
    cone = _cone(inputs)
    if inputs.between_centres is not None and inputs.where == "bore":
        raise BadInput("between_centres", shown(inputs.between_centres), "nothing for a bore: it has no centre")
    if inputs.between_centres is not None and inputs.between_centres < float(cone.length) - 1e-9:
        least = say("at least the taper's length of {long}", long=shown(cone.length))
        raise BadInput("between_centres", shown(inputs.between_centres), least)
    found = paces.pace(shop, inputs.material, "turning", inputs.tool, float(cone.large))
    figures = [*_slide_figures(inputs, shop, cone), *_tailstock_figures(inputs, cone), *_end_figures(cone)]
    figures[:0] = _gauge_figures(inputs, shop, cone)
    figures.append(paces.speed_figures(found)[0])
    moment = Situation(machine="lathe", spindle_speed=found.chosen, work_diameter=float(cone.large),
        material=inputs.material.name,
        held_by="between centres" if inputs.between_centres is not None else "")  # fmt: skip
    notes = (*_notes(inputs, shop, cone), *paces.speed_notes(found))
    large, small, half = float(cone.large), float(cone.small), float(arctan(float(cone.rate) / 2))
    drawn = taper_picture(large, small, float(cone.length), half, inside=inputs.where == "bore")
    return Answer(tuple(figures), (_checks(inputs, cone),), (drawn,), notes, moments=(moment,))


def _slide_figures(inputs: TaperInputs, shop: Shop, cone: _Cone) -> list[Figure]:
    half = arctan(cone.rate.known() / 2)
    travel = INCH if shop.standard == "asme" else mm(25)
    figures = [
        figure("slide_angle", "Set the top slide to", half, _GEOMETRY, decimals=2),
        words("slide_angle_minutes", "That is", _minutes(float(half)), "1 degree = 60 minutes", half),
    ]
    if inputs.scale_zero == "across":
        scale = deg(90) - half.known()
        figures.append(figure("scale_setting", "Its scale then reads", scale,
            "Turning and Boring, 1914: a scale that is 0 square to the axis", decimals=2))  # fmt: skip
    figures += [
        figure("clock_top", "Clock, top slide moved", travel * sin(half.known()),
               "geometry: sine, as the travel is along the slide", say("{sum}: clock on a true bar, over {travel} of "
               "the top slide", sum=travel * sin(half.known()), travel=shown(travel))),
        figure("clock_saddle", "Clock, saddle moved", travel * tan(half.known()),
               "geometry: tangent, as the travel is along the axis", say("{sum}: clock on the slide or a finished "
               "taper, over {travel} of the saddle", sum=travel * tan(half.known()), travel=shown(travel))),
        figure("slide_travel", "Top slide travels", cone.length.known() / cos(half.known()), "geometry", decimals=2,
               side="up"),
    ]  # fmt: skip
    return figures


def _minutes(angle: float) -> Text:
    whole, minutes = divmod(int(angle * 60 + 0.5), 60)
    return f"{whole}° {minutes}'"


def _tailstock_figures(inputs: TaperInputs, cone: _Cone) -> list[Figure]:
    if inputs.between_centres is None:
        return []
    over = mm(inputs.between_centres) * cone.rate.known() / 2
    return [figure("set_over", "Set the tailstock over", over, _NAVY, decimals=2)]


def _gauge_figures(inputs: TaperInputs, shop: Shop, cone: _Cone) -> list[Figure]:
    """What is still to come off where a gauge has to go further, and the cross slide's move for it."""
    if inputs.gauge is None:
        return []
    off = mm(inputs.gauge) * cone.rate.known()
    source = "geometry: the way that the gauge has to go, times the taper"
    figures = [figure("take_off", "Still off the diameter", off, source)]
    if shop.lathe:
        inside, half = inputs.where == "bore", float(off) / 2
        slide = shop.lathe.cross_slide
        lines = int(half / float(line_of(slide)) + _NOISE)
        setting = dial_after(slide, "Cross slide", float(lines * line_of(slide)), away=inside)
        words_ = say("{sum}, in whole lines short of it", sum=off.known() / 2)
        figures.insert(0, to_set("gauge_set", "Cross slide then", setting, source, words_))
    return figures


def _end_figures(cone: _Cone) -> list[Figure]:
    whole = 2 * arctan(cone.rate.known() / 2)
    return [
        figure("large", "Large end", cone.large, cone.source),
        figure("small", "Small end", cone.small, cone.source),
        figure("length", "Length of the taper", cone.length, cone.source, decimals=2),
        figure("taper", "Taper on the diameter", cone.rate, cone.source, decimals=5),
        figure("one_in", "Which is 1 in", num(1) / cone.rate.known(), "arithmetic", decimals=3),
        figure("included_angle", "Angle, both sides", whole, _GEOMETRY, decimals=3),
    ]


def _checks(inputs: TaperInputs, cone: _Cone) -> Table:
    """What a micrometer and a clock read at equal steps: from the small end outside, from the mouth in a bore."""
    large, small, length, rate = (float(x) for x in (cone.large, cone.small, cone.length, cone.rate))
    found = []
    for i in range(_READINGS + 1):
        along = length * i / _READINGS
        across = large - rate * along if inputs.where == "bore" else small + rate * along
        if i == _READINGS:
            across = small if inputs.where == "bore" else large
        found.append((i + 1, along, across, rate * along / 2))
    end = "mouth" if inputs.where == "bore" else "small end"
    columns = (
        *heads(number=("No.", "count"), along=(f"From the {end}", "length", 2), diameter=("Diameter", "length")),
        *heads(clock=("Clock has moved", "length")),
    )
    return Table("checks", f"Along the taper, from the {end}", columns, tuple(found), source=_GEOMETRY)


def _notes(inputs: TaperInputs, shop: Shop, cone: _Cone) -> list[Note]:
    notes = []
    step = 1.0 if shop.standard == "iso" else 0.04 * float(INCH)
    gauge = "plug gauge" if inputs.where == "bore" else "ring gauge or the mating socket"
    text = say("Try it with a {gauge} while it is still tight: for each {step} that it must go further take {off} off "
        "the diameter.", gauge=gauge, step=shown(step, decimals=2), off=shown(step * float(cone.rate)))  # fmt: skip
    notes.append(info(text))
    notes.append(info("A top slide's scale bears a quarter of a degree: set it by the clock, tool at centre "
        "height exactly, or the taper comes out curved and thin."))  # fmt: skip
    along = float(cone.length) / float(cos(arctan(float(cone.rate) / 2)))
    if along > _TRAVEL:
        far = shown(along, decimals=1, side="up")
        notes.append(warning("The top slide has to travel {far}: see that yours does, or use the tailstock "
            "or a taper attachment.", far=far))  # fmt: skip
    if inputs.between_centres is not None:
        over = inputs.between_centres * float(cone.rate) / 2
        if over > _SET_OVER * inputs.between_centres:
            tips = "{over} of set-over tips the centres in their holes: use ball centres or the top slide."
            notes.append(warning(tips, over=shown(over, decimals=1)))
        alike = (
            "Every piece must have the same length between centres; towards you makes the tailstock end small. Set the "
            "tailstock back true afterwards."
        )
        notes.append(info(alike))
    return notes


def _tenth_of_a_degree(inputs: TaperInputs, answer: Answer, shop: Shop) -> Text:
    off = 2 * (answer.figure("length").value or 0.0) * float(tan(0.1))
    return say("a tenth of a degree is {off} on the diameter over this length", off=shown(off))


OPERATION = Operation(
    id="taper",
    pane="turning",
    place=50,
    title="Turn a taper",
    words="taper cone conical angle top slide compound set over tailstock offset morse jarno socket arbor pin half per "
    "foot gauge",
    machine="lathe",
    inputs=TaperInputs,
    work=_work,
    tool="turning tool",
    hazards=("turning", "chuck", "swarf"),
    example={"from": "20", "to": "18", "length": "40"},
    troubles={"TU-01": _tenth_of_a_degree, "TU-03": None},
    help="Sets top slide or tailstock for a taper, by ends, angle or name, and says what to measure along it.",
)
