"""Bore to size: the cuts of a boring bar from a hole to a bore, and whether the bar is stiff enough."""

from __future__ import annotations

from math import pi
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Note, figure, info, warning
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import larger, law, mm, num
from engine.base.words import Text, general, put, say, shown, write
from engine.base.words import figures as places
from engine.cutting.feeds import feed
from engine.cutting.forces import turning_force
from engine.cutting.materials import of_shop
from engine.cutting.speeds import Tool
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning import cut_figures as cuts
from engine.turning import pace as paces
from engine.turning.cut_pictures import bored_picture
from engine.turning.cut_plan import depths, line_of
from engine.turning.stiffness import RADIAL_SHARE, bend

_HALF = 0.5  # feed and depth when boring, of those when turning: common practice, no source
_CLEAR = 3.0  # mm that a bar reaches beyond the depth; common practice
_FILLS = 0.7  # of the hole: the largest bar that clears the chips, 0.6 to 0.7; common practice
_TOO_FULL = 0.8  # of the hole: a bar that leaves no room for chips; common practice
_RATIO = 4.0  # reach over diameter of a steel bar: an insert maker's boring guide
_STEEL = 206_000.0  # MPa: shop handbooks
_BAR_ERROR = 0.01  # mm on the diameter that the bar may spring under the last cut; common practice
_BAR_SOURCE = (
    "reach ÷ 4 for a steel bar: an insert maker's boring guide; or where the last cut springs it 0.01 mm on the diameter: "
    "beam theory"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreToSizeInputs:
    """What `bore-to-size` is told.

    hole: Diameter as it is, drilled or bored.
    to: The bore wanted; the nominal size with a fit.
    depth: From the face to the end of the bore.
    fit: A hole's code on the size wanted.
    low: With the upper limit: aims between.
    high: With the lower limit: aims between.
    bar: Its diameter, and how far it stands out if that is known.
    reach: From its holder to the edge.
    material: Decides speed and cuts.
    tool: High-speed steel, or a carbide insert.
    first_cut: On the radius: no cut is heavier.
    last_cut: On the radius, left for the finishing cut.
    touch: What the cross slide shows where the tool just touches the hole.
    takes: Of what the dial says, as learned: a light lathe springs. Less than 1 sets the dial farther in.
    """

    hole: float = ask.length("Hole now", low=0.5, high=1000, example="16")
    to: float | None = ask.length("To diameter", low=0.5, high=1000, example="18", empty="the middle of the limits")
    depth: float = ask.length("Depth bored", high=1000, example="20")
    fit: str | None = ask.text("Fit", example="H7", empty="none")
    low: float | None = ask.length("Lower limit", high=1000, example="18", empty="none")
    high: float | None = ask.length("Upper limit", high=1000, example="18.02", empty="none")
    bar: tuple[float, float | None] | None = ask.pair(
        "Boring bar", example="10 x 40", empty="one you own, or 0.7 of the hole"
    )
    reach: float | None = ask.length("Bar stands out", high=1000, example="40", empty="the depth and 3 mm")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    tool: Tool = ask.choice("Tool", ("hss", "carbide"), default="hss", example="hss")
    first_cut: float | None = ask.length(
        "Most at once", low=0.01, high=20, example="0.25", empty="half of turning's, less for the bar"
    )
    last_cut: float | None = ask.length("Last cut", low=0.005, high=5, example="0.1", empty="by the tool")
    touch: float = ask.length("Dial reads at touch", default=0.0, low=-1e-9, high=100, example="0")
    takes: float = ask.number("Tool takes", default=1.0, low=0.3, high=1.25, example="0.85")


@dataclass(frozen=True, slots=True)
class _Bar:
    """A boring bar: diameter and reach [mm], and where it is from."""

    diameter: float
    reach: float
    source: str


def _bar(inputs: BoreToSizeInputs, shop: Shop) -> _Bar:
    needed = inputs.reach if inputs.reach is not None else inputs.depth + _CLEAR
    if inputs.bar is None:
        owned = [t for t in shop.boring_tools if t.least_bore <= inputs.hole and t.reach >= needed - 1e-9]
        if owned:
            best = max(owned, key=lambda tool: tool.diameter)
            return _Bar(best.diameter, needed, "yours")
        return _Bar(_FILLS * inputs.hole, needed, "0.7 of the hole: common practice, no source")
    across, long = inputs.bar
    if across >= inputs.hole:
        raise BadInput("bar", shown(across), say("thinner than the hole of {hole}", hole=shown(inputs.hole)))
    return _Bar(across, long if long is not None else needed, "as told")


@dataclass(frozen=True, slots=True)
class _Job(cuts.Settled):
    """A boring job settled."""

    finish_feed: float
    bar: _Bar
    push: float
    spring: float


def _job(inputs: BoreToSizeInputs, shop: Shop) -> _Job:
    target, low, high, source = cuts.target_of(inputs, hole=True)
    if inputs.hole >= target:
        raise BadInput("to", shown(target), say("more than the hole of {now}", now=shown(inputs.hole)))
    bar = _bar(inputs, shop)
    if bar.reach < inputs.depth - 1e-9:
        raise BadInput("reach", shown(bar.reach), say("at least the depth of {d}", d=shown(inputs.depth)))
    tool = inputs.tool
    stuff, slide = inputs.material, shop.lathe.cross_slide if shop.lathe else None
    rough = _HALF * feed(kind="turning", diameter=target, tool=tool).chosen
    fine = min(feed(kind="finishing", diameter=target, tool=tool).chosen, rough)
    found = paces.pace(shop, stuff, "turning", tool, target)
    bears = depths(shop=shop, material=stuff, tool=tool, line=line_of(slide), feed=rough, speed=found.surface_speed,
        diameter=bar.diameter, stick_out=bar.reach, share=_HALF, modulus=_STEEL)  # fmt: skip
    plan = cuts.planned(inputs, (target - inputs.hole) / 2, line_of(slide), bears, inputs.takes)
    push = RADIAL_SHARE * turning_force(material=stuff, depth=plan.depth(len(plan.cuts)), feed=fine)
    gives = bend(diameter=bar.diameter, bore=0, length=bar.reach, modulus=_STEEL, force=push, support="chuck")
    return _Job(target, low, high, source, found, rough, bears, plan, fine, bar, push, gives.taper)


def _work(inputs: BoreToSizeInputs, shop: Shop) -> Answer:
    job = _job(inputs, shop)
    moment = Situation(machine="lathe", spindle_speed=job.pace.chosen, bore=job.target, feed=job.rough_feed,
        depth=inputs.depth, material=inputs.material.name)  # fmt: skip
    after = [inputs.hole + 2 * deep for deep in job.after]
    size, slide = Column("diameter", "Diameter after", "length"), shop.lathe.cross_slide if shop.lathe else None
    stops, title = [inputs.depth] * len(after), "Cuts, from the hole outwards"
    table = cuts.cut_table(title, job.plan, after, size, slide, "Cross slide", inputs.touch, stops=stops, away=True,
                           saddle=shop.lathe.saddle if shop.lathe else None)  # fmt: skip
    drawn = bored_picture(start=inputs.hole, depth=inputs.depth, bar=job.bar.diameter, cuts=after)
    return Answer(_figures(inputs, shop, job), (table,), (drawn,), _notes(inputs, job), moments=(moment,))


def least_bar(*, reach: float, push: float) -> float:
    """The thinnest steel bar for a reach and a force across it.

    reach: How far it stands out. [mm]
    push: Force across it in the last cut. [N]
    Returns: A quarter of the reach, or where it springs 0.01 mm on the diameter if that is more. [mm]
    Source: Four diameters for a steel bar: an insert maker's boring guide. Spring: beam theory, F L^3 / (3 E I). It
        errs on the stiff side for a bar in a rigid holder only: a light tool post gives as well.

    >>> least_bar(reach=40, push=4), round(least_bar(reach=40, push=40), 2)
    (10.0, 11.4)
    """
    return max(reach / _RATIO, _by_spring(reach, push))


def _by_spring(reach: float, push: float) -> float:
    return float((2 * 64 * push * reach**3 / (3 * _STEEL * pi * _BAR_ERROR)) ** 0.25)


def _figures(inputs: BoreToSizeInputs, shop: Shop, job: _Job) -> tuple[Figure, ...]:
    slide = shop.lathe.cross_slide if shop.lathe else None
    plan, reach, ends = job.plan, mm(job.bar.reach), mm(inputs.hole) + 2 * mm(job.plan.total)
    seconds = cuts.cutting_time(inputs.depth, job.rough_feed, job.finish_feed, job.pace.chosen, len(plan.cuts))
    spring_bar = law(_by_spring(job.bar.reach, job.push), "length", write(say("(128 x {push} x {reach}^3 ÷ (3 x 206000 "
        "x 3.14159 x 0.01))^0.25", push=general(job.push), reach=general(job.bar.reach))))  # fmt: skip
    thinnest = larger(reach / num(_RATIO), spring_bar.known())
    bars = say("{both}: a quarter of the reach {a}, for the spring {b}", both=thinnest, a=put(job.bar.reach / _RATIO),
               b=put(float(spring_bar)))  # fmt: skip
    return (
        *cuts.first_setting(slide, "Cross slide", plan, inputs.touch, away=True),
        paces.speed_figures(job.pace)[0],
        Figure("feed", "Feed when roughing", job.rough_feed, "feed", "half of turning's: common practice, no source",
               "half the low end of turning's"),
        Figure("finish_feed", "Feed of the last cut", job.finish_feed, "feed", "published: see turning-speed",
        "low end"),
        *cuts.plan_figures(job, ends, cuts.aim_words(job.low, job.high), radius=", radius"),
        Figure("bar", "Boring bar", job.bar.diameter, "length", job.bar.source, "as told, owned, or 0.7 of the hole",
        decimals=1),
        figure("bar_ratio", "Bar's reach ÷ diameter", reach / mm(job.bar.diameter), "arithmetic; 4 at most for steel: an "
            "insert maker's boring guide", decimals=1),
        figure("deflection", "Bar gives way by", mm(job.spring / 2), "beam theory: F L cubed ÷ (3 E I), last cut",
               _beam_words(job), decimals=3),
        figure("spring", "Bore comes out small by", 2 * mm(job.spring / 2), "geometry: twice what the bar gives",
        decimals=3),
        figure("least_bar", "Thinnest bar", thinnest, _BAR_SOURCE, bars, decimals=1, side="up"),
        figure("time", "Cutting time", seconds, cuts.TIME, decimals=0),
    )  # fmt: skip


def _beam_words(job: _Job) -> Text:
    words = say("{push} N x {reach} mm cubed ÷ (3 x 206000 MPa x 3.14159 x ({bar} to the 4th) ÷ 64)",
        push=general(job.push), reach=general(job.bar.reach), bar=general(job.bar.diameter))  # fmt: skip
    return law(job.spring / 2, "length", write(words))


def _notes(inputs: BoreToSizeInputs, job: _Job) -> tuple[Note, ...]:
    notes = [
        info("The tool moves out, towards you: the dial's readings fall. Take up the play that way before touching."),
        info("Make the last two cuts alike and measure between them; a pass or two without feeding out takes the "
            "spring."),
        *cuts.spring_notes(inputs.takes),
        *cuts.limit_notes(inputs.hole + 2 * job.plan.total, job.low, job.high),
    ]  # fmt: skip
    if job.bar.diameter > _TOO_FULL * inputs.hole:
        notes.append(warning("A bar of {bar} fills the hole of {hole}: chips jam and the heel rubs. Take a "
            "thinner one, or drill larger.", bar=shown(job.bar.diameter, decimals=1),
                                         hole=shown(inputs.hole, decimals=1)))  # fmt: skip
    thinnest = least_bar(reach=job.bar.reach, push=job.push)
    if job.bar.diameter < thinnest - 1e-9:
        notes.append(warning("The bar stands out {ratio} diameters and will chatter or cut small: shorten it, "
            "or take {least} or thicker.", ratio=places(job.bar.reach / job.bar.diameter, 1),
                                         least=shown(thinnest, decimals=1, side="up")))  # fmt: skip
    notes += job.limited("the bar's reach" if job.depths.limited == "stick-out" else "the motor")
    return (*notes, *paces.speed_notes(job.pace))


OPERATION = Operation(
    id="bore-to-size",
    pane="turning",
    place=6,
    title="Bore to size",
    words="bore boring bar hole diameter cuts cross slide dial reading depth enlarge inside H7 reach chatter spring "
    "deflection blind",
    machine="lathe",
    inputs=BoreToSizeInputs,
    work=_work,
    tool="boring tool",
    hazards=("turning", "chuck", "swarf"),
    example={"hole": "16", "to": "18", "depth": "20"},
    troubles={"TU-01": tells("the last cut leaves the bore {spring} small"), "TU-02": None, "TU-03": None},
    help="Plans the cuts of a boring bar in whole lines of the cross slide's dial, and whether the bar is stiff enough.",
)
