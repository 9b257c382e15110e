"""Face to length: the cuts that bring a piece to its length, on the slide that feeds along the bed."""

from __future__ import annotations

from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Note, figure, info, warning
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import law, leaf, mm, num
from engine.base.words import say, shown, write
from engine.cutting.feeds import feed
from engine.cutting.materials import of_shop
from engine.cutting.speeds import Tool
from engine.shop.model import Shop, Slide
from engine.situation import Situation
from engine.turning import cut_figures as cuts
from engine.turning import pace as paces
from engine.turning.cut_pictures import faced_picture
from engine.turning.cut_plan import depths, line_of

_HALF = 0.5  # feed when facing, of turning's: a machine-shop lesson
_FACING = 0.5  # share of the roughing depth: a school exercise takes 0.010 in a pass; common practice on a light lathe

_FAR = 1.5  # diameters out of the chuck when facing: US Army TC 9-524, p. 142


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceToLengthInputs:
    """What `face-to-length` is told.

    from: As it is, measured.
    to: The length wanted.
    diameter: Of the face, where it is largest.
    bore: Hole in the face; 0 if it is solid.
    low: With the upper limit: aims between.
    high: With the lower limit: aims between.
    slide: The slide whose dial sets the depth; the top slide set along the bed.
    material: Decides speed and cuts.
    tool: High-speed steel, or a carbide insert.
    stick_out: A face far out gives way and chatters.
    first_cut: Along the axis.
    last_cut: Along the axis.
    touch: What the dial shows where the tool just touches.
    """

    from_: float = ask.length("Length now", high=3000, example="42")
    to: float | None = ask.length("To length", high=3000, example="40", empty="the middle of the limits")
    diameter: float = ask.length("Diameter", low=0.5, high=1000, example="25")
    bore: float = ask.length("Bore", default=0.0, low=-1e-9, high=1000, example="10")
    low: float | None = ask.length("Lower limit", high=3000, example="39.95", empty="none")
    high: float | None = ask.length("Upper limit", high=3000, example="40.05", empty="none")
    slide: str = ask.choice("Fed along by", ("top slide", "saddle"), default="top slide", example="top slide")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    tool: Tool = ask.choice("Tool", ("hss", "carbide"), default="hss", example="hss")
    stick_out: float | None = ask.length("Out of the jaws", high=2000, example="10", empty="close to the jaws")
    first_cut: float | None = ask.length("Most at once", low=0.01, high=20, example="0.25", empty="half of turning's")
    last_cut: float | None = ask.length("Last cut", low=0.005, high=5, example="0.1", empty="by the tool")
    touch: float = ask.length("Dial reads at touch", default=0.0, low=-1e-9, high=100, example="0")

    @property
    def fit(self) -> None:
        """A length has no code of a fit."""
        return None


@dataclass(frozen=True, slots=True)
class _Job(cuts.Settled):
    """A facing job settled, with the slide that feeds along."""

    slide: Slide | None


def _job(inputs: FaceToLengthInputs, shop: Shop) -> _Job:
    target, low, high, _ = cuts.target_of(inputs, hole=False)
    if inputs.from_ <= target:
        raise BadInput("to", shown(target), say("less than the {now} there is now", now=shown(inputs.from_)))
    if inputs.bore >= inputs.diameter:
        most = say("a bore smaller than the diameter of {across}", across=shown(inputs.diameter))
        raise BadInput("bore", shown(inputs.bore), most)
    slide = getattr(shop.lathe, inputs.slide.replace(" ", "_")) if shop.lathe else None
    if slide is None and shop.lathe:
        raise BadInput("slide", inputs.slide, f"the top slide, as the shop has no {inputs.slide} dial")
    tool = inputs.tool
    rate = _HALF * feed(kind="turning", diameter=inputs.diameter, tool=tool).chosen
    found = paces.pace(shop, inputs.material, "turning", tool, inputs.diameter)
    bears = depths(shop=shop, material=inputs.material, tool=tool, line=line_of(slide), feed=rate,
        speed=found.surface_speed, diameter=inputs.diameter, stick_out=inputs.stick_out or 0.0,
        share=_FACING)  # fmt: skip
    plan = cuts.planned(inputs, inputs.from_ - target, line_of(slide), bears)
    return _Job(target, low, high, "as told", found, rate, bears, plan, slide)


def _work(inputs: FaceToLengthInputs, shop: Shop) -> Answer:
    job = _job(inputs, shop)
    moment = Situation(machine="lathe", spindle_speed=job.pace.chosen, work_diameter=inputs.diameter,
        bore=inputs.bore or None, feed=job.rough_feed, stick_out=inputs.stick_out, material=inputs.material.name)  # fmt: skip
    after = [inputs.from_ - deep for deep in job.after]
    size, wheel = Column("length", "Length after", "length"), inputs.slide.capitalize()
    table = cuts.cut_table("Cuts across the face", job.plan, after, size, job.slide, wheel, inputs.touch)
    drawn = faced_picture(start=inputs.from_, diameter=inputs.diameter, bore=max(inputs.bore, 0.0), cuts=after)
    return Answer(_figures(inputs, job), (table,), (drawn,), _notes(inputs, job), moments=(moment,))


def _figures(inputs: FaceToLengthInputs, job: _Job) -> tuple[Figure, ...]:
    plan, across = job.plan, (mm(inputs.diameter) - mm(max(inputs.bore, 0.0))) / 2
    seconds = 60 * num(len(plan.cuts)) * across / (leaf(job.rough_feed, "ratio") * leaf(job.pace.chosen, "ratio"))
    taken = law(float(seconds), "duration", write(seconds))
    per_cut = "(D - d) ÷ (2 x feed x rev/min), each cut; no handling"
    lesson, half = "half of turning's: a machine-shop lesson", "half the low end of turning's"
    return (
        *cuts.first_setting(job.slide, inputs.slide.capitalize(), plan, inputs.touch),
        paces.speed_figures(job.pace)[0],
        Figure("feed", "Feed", job.rough_feed, "feed", lesson, half),
        *cuts.plan_figures(job, mm(inputs.from_) - mm(plan.total), "as told"),
        figure("time", "Cutting time", taken, per_cut, decimals=0),
    )


def _notes(inputs: FaceToLengthInputs, job: _Job) -> tuple[Note, ...]:
    lock = (
        "Lock the saddle to the bed before each cut, or the tool pushes it away and the face comes out hollow or long."
    )
    notes = [info(lock)]
    if inputs.slide == "top slide":
        notes.append(info("The top slide must lie along the bed (its scale at 0 that way): at an angle its dial "
            "shows more than the tool goes in."))  # fmt: skip
    notes += cuts.limit_notes(inputs.from_ - job.plan.total, job.low, job.high)
    notes += job.limited(f"the {job.depths.limited}")
    if inputs.stick_out is not None and inputs.stick_out > _FAR * inputs.diameter:
        far = "The face stands out more than one and a half diameters: bring it in, or support the end."
        notes.append(warning(far))
    if inputs.bore <= 0:
        pip = "A pip left in the middle tells the tool's height: below centre it stands, above it the tool rubs it off."
        notes.append(info(pip))
    return (*notes, *paces.speed_notes(job.pace))


OPERATION = Operation(
    id="face-to-length",
    pane="turning",
    place=7,
    title="Face to length",
    words="face facing length end square shorten cuts top slide compound saddle carriage dial reading overall shoulder "
    "pip along",
    machine="lathe",
    inputs=FaceToLengthInputs,
    work=_work,
    tool="facing tool",
    hazards=("turning", "chuck", "swarf"),
    example={"from": "42", "to": "40", "diameter": "25"},
    troubles={"TU-01": None, "TU-02": tells("the heaviest cut here is {rough_cut}", decimals=2), "TU-03": None},
    help="Plans the facing cuts that bring a piece to its length, in whole lines of the slide that feeds along the bed.",
)
