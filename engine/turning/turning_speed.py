"""Turning speed: the lathe's own speed for a cut, its feed, and what it asks of the motor."""

from __future__ import annotations

from math import pi, sqrt
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure, info, to_set
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import law
from engine.base.words import Text, general, say, shown, write
from engine.base.words import figures as places
from engine.cutting.feeds import feed
from engine.cutting.forces import turning_force
from engine.cutting.materials import of_shop
from engine.cutting.speeds import Tool
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning import pace as paces
from engine.turning.cut_figures import DIALS
from engine.turning.cut_pictures import speed_picture
from engine.turning.cut_plan import dial_after
from engine.turning.stiffness import ratio_limit

_LIGHT_CUT = 0.5  # mm on the radius: a roughing cut for a light lathe; common practice
_NOSE = 0.4  # mm: a usual nose radius; common practice
_REAL = 2.0  # a light lathe leaves 1.5 to 3 times the roughness of the sum: common practice, no source
_ROUGHNESS = (
    "Ra = feed² ÷ (32 x nose radius), geometry; a light lathe leaves 1.5 to 3 times that (common practice, no source); "
    "good for feeds from 0.05 mm to nose radius ÷ 1.6"
)
_LEAST_FEED = 0.05  # mm a turn: below it the edge, not the feed, makes the finish; common practice
_NOSE_OVER_FEED = 1.6  # least nose radius over feed: an insert maker's finishing page


@dataclass(frozen=True, slots=True, kw_only=True)
class TurningSpeedInputs:
    """What `turning-speed` is told.

    diameter: Of the work where it is cut.
    material: What is turned.
    tool: High-speed steel, or a carbide insert.
    cut: On the radius.
    feed: How far the saddle moves in one turn.
    way: Rough, or leave the finish that is wanted.
    roughness: Average roughness when finishing: decides the feed with the nose radius.
    nose: Decides the finish for a feed.
    stick_out: To the far end of the cut: above three diameters a slower step is taken.
    in_by: From where the tool touches, such as for a chamfer or a facing cut: it is set on the dial.
    in_with: The slide that brings the tool in.
    """

    diameter: float = ask.length("Diameter", low=0.1, high=1000, example="20")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    tool: str = ask.choice("Tool", ("hss", "carbide"), default="hss", example="hss")
    cut: float = ask.length("Depth of cut", default=_LIGHT_CUT, low=0.005, high=20, example="0.5")
    feed: float | None = ask.length(
        "Feed per turn", low=0.005, high=3, example="0.1", empty="low end of the published range"
    )
    way: str = ask.choice("Cut to", ("rough", "finish"), default="rough", example="finish")
    roughness: float | None = ask.quantity(
        "Finish wanted, Ra", "roughness", low=0.1, high=25, example="1.6", empty="not asked"
    )
    nose: float = ask.length("Nose radius", default=_NOSE, low=0.02, high=5, example="0.4")
    stick_out: float | None = ask.length("Out of the jaws", high=2000, example="40", empty="not far")
    rear: float | None = paces.rear()
    in_by: float | None = ask.length("In from touch", low=0.005, high=50, example="0.4", empty="no dial")
    in_with: str = ask.choice(
        "In with", ("cross slide", "top slide", "saddle"), default="cross slide", example="cross slide"
    )


def _rate(inputs: TurningSpeedInputs, tool: Tool) -> tuple[float, Figure]:
    """The feed and how it came about."""
    if inputs.feed is not None:
        return inputs.feed, paces.feed_figure(inputs.feed, None)
    kind = "finishing" if inputs.way == "finish" else "turning"
    published = feed(kind=kind, diameter=inputs.diameter, tool=tool)  # type: ignore[arg-type]
    if inputs.way != "finish" or inputs.roughness is None:
        return published.chosen, paces.feed_figure(published.chosen, published)
    wanted = sqrt(32 * inputs.nose * inputs.roughness / _REAL / 1000)
    rate = min(max(wanted, _LEAST_FEED), inputs.nose / _NOSE_OVER_FEED)
    words = say("square root of (32 x nose {nose} mm x {ra} µm ÷ {real} ÷ 1000)", nose=general(inputs.nose),
        ra=general(inputs.roughness), real=general(_REAL))  # fmt: skip
    if rate != wanted:
        words = say("{sum} = {sought}, kept within what the sum is good for: {rate}", sum=words, sought=general(wanted),
                    rate=general(rate))  # fmt: skip
    return rate, figure("feed", "Feed", law(rate, "feed", write(words)), _ROUGHNESS)


def _finish_figures(inputs: TurningSpeedInputs, rate: float) -> list[Figure]:
    if inputs.way != "finish":
        return []
    words = say("1000 x {rate}² ÷ (32 x {nose})", rate=general(rate), nose=general(inputs.nose))
    ra = 1000 * rate**2 / (32 * inputs.nose)
    return [figure("roughness", "Finish by that sum, Ra", law(ra, "roughness", write(words)), _ROUGHNESS)]


def _set_in(inputs: TurningSpeedInputs, shop: Shop) -> list[Figure]:
    """How far the tool goes in, on the dial of its slide: what the hand sets, so it leads."""
    slide = getattr(shop.lathe, inputs.in_with.replace(" ", "_")) if shop.lathe else None
    if inputs.in_by is None or slide is None:
        return []
    setting = dial_after(slide, inputs.in_with.capitalize(), inputs.in_by)
    return [to_set("in_by", "In from touch", setting, DIALS, "as told")]


def _notes(inputs: TurningSpeedInputs, shop: Shop, found: paces.Pace, share: float) -> list[Note]:
    notes = []
    steps = shop.lathe.speeds if shop.lathe else ()
    quicker = min((step for step in steps if step > found.chosen), default=None)
    top = 1000 * found.published.high / (pi * inputs.diameter)
    if quicker is not None and quicker <= top and not found.why and (found.mark is None or quicker <= found.mark):
        text = say(
            "The next step, {step} rev/min, is still inside the published range if all is stiff.", step=general(quicker)
        )
        notes.append(info(text))
    notes += paces.speed_notes(found)
    wanted = share * found.spindle.chosen / found.chosen
    if wanted > 1:
        text = say("At {step} rev/min the motor bears a cut {depth} deep at most; {asked} asks for {share} times the "
            "motor.", step=general(found.spindle.chosen), depth=shown(inputs.cut / wanted, decimals=2, side="down"),
            asked=shown(inputs.cut, decimals=2), share=places(wanted, 1))  # fmt: skip
        notes.append(Note("warning" if share > 1 else "info", text))
    return notes


def _work(inputs: TurningSpeedInputs, shop: Shop) -> Answer:
    if inputs.cut >= inputs.diameter / 2:
        most = say("less than half the diameter of {across}", across=shown(inputs.diameter))
        raise BadInput("cut", shown(inputs.cut), most)
    tool: Tool = "carbide" if inputs.tool == "carbide" else "hss"
    rate, feed_figure = _rate(inputs, tool)
    limit, _ = ratio_limit("chuck")
    found = paces.pace(shop, inputs.material, "turning", tool, inputs.diameter,
        force=turning_force(material=inputs.material, depth=inputs.cut, feed=rate), slower="stick-out"
        if inputs.stick_out is not None and inputs.stick_out > limit * inputs.diameter else "")  # fmt: skip
    load = paces.load_figures(shop, inputs.material, inputs.cut, rate, found, "depth")
    share = next((float(f.value or 0) for f in load if f.name == "share_of_motor"), 0.0)
    figures = (*_set_in(inputs, shop), *paces.speed_figures(found), feed_figure, *_finish_figures(inputs, rate), *load)
    moment = Situation(machine="lathe", spindle_speed=found.chosen, work_diameter=inputs.diameter, feed=rate,
        stick_out=inputs.stick_out, rear=inputs.rear, material=inputs.material.name)  # fmt: skip
    drawn = speed_picture(diameter=inputs.diameter, cut=inputs.cut, rpm=found.chosen, feed=rate)
    return Answer(figures, pictures=(drawn,), notes=tuple(_notes(inputs, shop, found, share)), moments=(moment,))


def _three_diameters(inputs: TurningSpeedInputs, answer: Answer, shop: Shop) -> Text:
    return say("three diameters are {far}", far=shown(3 * inputs.diameter, decimals=1, side="down"))


def _motor(inputs: TurningSpeedInputs, answer: Answer, shop: Shop) -> Text:
    if not answer.has("share_of_motor"):
        return ""
    power, share = answer.figure("power").value, answer.figure("share_of_motor").value
    return say(
        "{power}, {share} of the motor", power=shown(power or 0, "power"), share=shown(100 * (share or 0), "percent")
    )


def _ideal(inputs: TurningSpeedInputs, answer: Answer, shop: Shop) -> Text:
    ideal, speed = answer.figure("ideal_rpm").value, answer.figure("rpm").value
    return say("ideal {ideal}, set {speed}", ideal=places(ideal or 0), speed=shown(speed or 0, "speed"))


OPERATION = Operation(
    id="turning-speed",
    pane="turning",
    place=10,
    title="Turning speed",
    words="rpm surface speed cutting feed force power speeds feeds turn lathe spindle revolutions motor load roughing "
    "finishing finish roughness nose radius carbide",
    machine="lathe",
    inputs=TurningSpeedInputs,
    work=_work,
    tool="turning tool",
    hazards=("turning", "chuck", "swarf"),
    example={"diameter": "20", "material": "mild steel", "cut": "0.5"},
    troubles={"TU-01": _three_diameters, "TU-02": _motor, "TU-03": _ideal},
    help="Chooses the lathe's own speed for a cut, never above the chuck's mark, and what it asks of the motor.",
)
