"""Turn to size: the cuts on the cross slide from one diameter to another, the last one light."""

from __future__ import annotations

from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Note, figure, info, warning
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import mm
from engine.base.words import figures as places
from engine.base.words import say, shown
from engine.cutting.deflection import Support
from engine.cutting.feeds import feed
from engine.cutting.forces import turning_force
from engine.cutting.materials import of_shop
from engine.cutting.speeds import Tool
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning import cut_figures as cuts
from engine.turning import pace as paces
from engine.turning.cut_pictures import turned_picture
from engine.turning.cut_plan import depths, line_of
from engine.turning.stiffness import RADIAL_SHARE, bend, ratio_limit

_SHORT = 0.3  # mm that roughing stops before a shoulder: common practice, 0.2 to 0.5
_SPRING = "beam theory: twice what the work gives way under the last cut; two last cuts alike, or a pass without feed, take it"


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnToSizeInputs:
    """What `turn-to-size` is told.

    from: As it is now, measured.
    to: The size wanted; the nominal size with a fit.
    length: From the end to the shoulder.
    fit: A shaft's code on the size wanted.
    low: With the upper limit: aims between.
    high: With the lower limit: aims between.
    material: Decides speed and cuts.
    tool: High-speed steel, or a carbide insert.
    stick_out: Long work gives way: the cuts are lighter.
    support: Nothing, a tailstock centre, or the work between two centres.
    first_cut: On the radius: no cut is heavier.
    last_cut: On the radius, left for the finishing cut.
    touch: What the cross slide shows where the tool just touches.
    takes: Of what the dial says, as learned: a light lathe springs. Less than 1 sets the dial farther in.
    """

    from_: float = ask.length("From diameter", low=0.1, high=1000, example="28")
    to: float | None = ask.length("To diameter", low=0.1, high=1000, example="25", empty="the middle of the limits")
    length: float = ask.length("Length turned", high=2000, example="20")
    fit: str | None = ask.text("Fit", example="h7", empty="none")
    low: float | None = ask.length("Lower limit", high=1000, example="24.95", empty="none")
    high: float | None = ask.length("Upper limit", high=1000, example="25", empty="none")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    tool: Tool = ask.choice("Tool", ("hss", "carbide"), default="hss", example="hss")
    stick_out: float | None = ask.length("Out of the jaws", high=2000, example="40", empty="the length turned")
    support: str = ask.choice("Far end held by", ("none", "centre", "centres"), default="none", example="centre")
    first_cut: float | None = ask.length(
        "Most at once", low=0.01, high=20, example="0.5", empty="by material, motor and stick-out"
    )
    last_cut: float | None = ask.length("Last cut", low=0.005, high=5, example="0.1", empty="by the tool")
    touch: float = ask.length("Dial reads at touch", default=0.0, low=-1e-9, high=100, example="0")
    takes: float = ask.number("Tool takes", default=1.0, low=0.3, high=1.25, example="0.85")


@dataclass(frozen=True, slots=True)
class _Job(cuts.Settled):
    """A turning job settled."""

    finish_feed: float
    spring: float


def _job(inputs: TurnToSizeInputs, shop: Shop) -> _Job:
    target, low, high, source = cuts.target_of(inputs, hole=False)
    if inputs.from_ <= target:
        raise BadInput("to", shown(target), say("less than the {now} there is now", now=shown(inputs.from_)))
    tool = inputs.tool
    stuff, limit = inputs.material, ratio_limit("chuck" if inputs.support == "none" else "centre")[0]
    rough = feed(kind="turning", diameter=inputs.from_, tool=tool).chosen
    fine = feed(kind="finishing", diameter=target, tool=tool).chosen
    out = inputs.stick_out if inputs.stick_out is not None else inputs.length
    if out < inputs.length - 1e-9:
        raise BadInput("stick_out", shown(out), say("at least the {l} turned", l=shown(inputs.length)))
    support: Support = "chuck" if inputs.support == "none" else inputs.support  # type: ignore[assignment]
    found = paces.pace(
        shop, stuff, "turning", tool, inputs.from_, slower="stick-out" if out > limit * inputs.from_ else ""
    )
    line = line_of(shop.lathe.cross_slide if shop.lathe else None)
    bears = depths(shop=shop, line=line, material=stuff, tool=tool, feed=rough, speed=found.surface_speed,
        diameter=target, stick_out=out, support=support)  # fmt: skip
    plan = cuts.planned(inputs, (inputs.from_ - target) / 2, line, bears, inputs.takes)
    push = RADIAL_SHARE * turning_force(material=stuff, depth=plan.depth(len(plan.cuts)), feed=fine)
    gives = bend(diameter=target, bore=0, length=out, modulus=stuff.modulus, force=push, support=support)
    return _Job(target, low, high, source, found, rough, bears, plan, fine, gives.taper)


def _work(inputs: TurnToSizeInputs, shop: Shop) -> Answer:
    job = _job(inputs, shop)
    moment = Situation(machine="lathe", spindle_speed=job.pace.chosen, work_diameter=inputs.from_, feed=job.rough_feed,
        stick_out=inputs.stick_out, material=inputs.material.name,
        support={"centre": "centre", "centres": "centre"}.get(inputs.support, ""),
        held_by="between centres" if inputs.support == "centres" else "")  # fmt: skip
    last = len(job.plan.cuts)
    after = [inputs.from_ - 2 * deep for deep in job.after]
    short = _SHORT if inputs.length > 2 * _SHORT else 0.0
    stops = [inputs.length if number == last else inputs.length - short for number in range(1, last + 1)]
    size, slide = Column("diameter", "Diameter after", "length"), shop.lathe.cross_slide if shop.lathe else None
    table = cuts.cut_table(
        "Cuts, from the outside in", job.plan, after, size, slide, "Cross slide", inputs.touch, stops=stops,
        saddle=shop.lathe.saddle if shop.lathe else None,
    )  # fmt: skip
    out = inputs.stick_out if inputs.stick_out is not None else inputs.length
    drawn = turned_picture(start=inputs.from_, length=inputs.length, out=out, cuts=list(zip(after, stops, strict=True)))
    return Answer(_figures(inputs, shop, job), (table,), (drawn,), _notes(inputs, job), moments=(moment,))


def _figures(inputs: TurnToSizeInputs, shop: Shop, job: _Job) -> tuple[Figure, ...]:
    slide = shop.lathe.cross_slide if shop.lathe else None
    plan, published = job.plan, "published: see turning-speed"
    seconds = cuts.cutting_time(inputs.length, job.rough_feed, job.finish_feed, job.pace.chosen, len(plan.cuts))
    low_end, ends = "low end, for a light machine", mm(inputs.from_) - 2 * mm(plan.total)
    return (
        *cuts.first_setting(slide, "Cross slide", plan, inputs.touch),
        paces.speed_figures(job.pace)[0],
        Figure("feed", "Feed when roughing", job.rough_feed, "feed", published, low_end),
        Figure("finish_feed", "Feed of the last cut", job.finish_feed, "feed", published, low_end),
        *cuts.plan_figures(job, ends, cuts.aim_words(job.low, job.high), radius=", radius"),
        figure("spring", "Spring to expect", 2 * mm(job.spring / 2), _SPRING, decimals=3),
        figure("time", "Cutting time", seconds, cuts.TIME, decimals=0),
    )


def _notes(inputs: TurnToSizeInputs, job: _Job) -> tuple[Note, ...]:
    cool = "Before the last cut stop, let the work cool, and measure: what is then left is the last cut, not what the dial says."
    once = "One cut: try it on the first 3 mm, stop, measure, and correct the dial before going on."
    notes = [info(cool if len(job.plan.cuts) > 1 else once), *cuts.spring_notes(inputs.takes)]
    notes += cuts.limit_notes(inputs.from_ - 2 * job.plan.total, job.low, job.high)
    notes += job.limited(f"the {job.depths.limited}")
    if job.high is not None and job.low is not None and job.spring > job.high - job.low:
        notes.append(warning("The work springs {spring}, more than the limits are apart: support it.",
                                         spring=shown(job.spring)))  # fmt: skip
    elif job.spring > 0.01:
        notes.append(info("It comes out about {spring} large at the free end: make the last two cuts "
            "alike, or go over it again without feeding in.", spring=shown(job.spring, decimals=2)))  # fmt: skip
    return (*notes, *paces.speed_notes(job.pace))


OPERATION = Operation(
    id="turn-to-size",
    pane="turning",
    place=5,
    title="Turn to size",
    words="turn diameter cuts roughing finishing cross slide dial radius reading depth passes reduce down shaft fit "
    "limits size lathe spring",
    machine="lathe",
    inputs=TurnToSizeInputs,
    work=_work,
    tool="turning tool",
    hazards=("turning", "chuck", "swarf"),
    example={"from": "28", "to": "25", "length": "20"},
    troubles={
        "TU-01": tells("the last cut leaves {spring} at the free end"),
        "TU-02": tells("the heaviest cut here is {rough_cut}", decimals=2),
        "TU-03": lambda inputs, answer, shop: say("set {rpm} rev/min", rpm=places(answer.figure("rpm").value or 0.0)),
    },
    help="Plans the cuts from one diameter to another in whole lines of the cross slide's dial, and what to expect.",
)
