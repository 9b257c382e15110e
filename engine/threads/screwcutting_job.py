"""What the operation `screwcutting` is told, and the passes that it plans."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.declare import angle, choice, count, diameter, length, material, text, thread
from engine.base.refusals import BadInput
from engine.cutting.materials import Material, of_shop
from engine.shop.model import Lathe, Shop, Slide
from engine.threads.form import Form, form
from engine.threads.infeed import Tool, plan_depths, tool_flat
from engine.threads.limits import limits
from engine.threads.passes import Pass, passes_on_dial, slide_travel
from engine.threads.sides import CutDepth, cut_depth, is_nut
from engine.threads.thread import Thread

_FIRST_CUT = 0.2  # mm of radius; a light lathe, common practice, no source
_LAST_CUT = 0.05  # mm of radius; below it a tool rubs, common practice, no source
_LESS = 0.5  # deg that a top slide is kept below the flank angle, so that the following flank is cleaned


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewcuttingInputs:
    """What `screwcutting` is told."""

    size: Thread = thread("Thread", example="M10", help="The thread to cut.")
    tolerance: str | None = text(
        "Class", example="6g", empty="the usual one", help="6g or 2A cuts a screw, 6H or 2B a nut in a bore."
    )
    slide: str | None = choice(
        "Infeed by",
        ("top", "cross"),
        example="top",
        empty="the top slide, along the flank",
        help="Top: along the flank at the slide's angle. Cross: plain infeed.",
    )
    slide_angle: float | None = angle(
        "Top slide set to",
        low=0,
        high=45,
        example="29.5",
        empty="as it is kept, or half a degree below the flank",
        help="Degrees from the cross slide's line: 29 to 30 for 60 degree threads, 27 to 27.5 for 55.",
    )
    material: Material = material(
        "Material", example="mild steel", from_shop=of_shop, empty="the shop's first", help="For the speed."
    )
    first_cut: float | None = length(
        "Largest cut",
        low=0,
        high=2,
        example="0.2",
        empty="0.2 mm",
        help="Most that one pass takes, radially.",
    )
    last_cut: float | None = length(
        "Smallest cut",
        low=0,
        high=2,
        example="0.05",
        empty="0.05 mm",
        help="Least that one pass takes, radially.",
    )
    spring_passes: int = count(
        "Spring passes", default=2, low=-1, high=20, example="2", help="Passes repeated at the full depth."
    )
    gap: float | None = length(
        "Gap before the shoulder",
        low=-1e-9,
        high=1000,
        example="3",
        empty="not known",
        help="From the end of the thread to the shoulder, or the width of the run-out groove.",
    )
    blank: float | None = diameter(
        "Blank turned to",
        low=0,
        high=1000,
        example="9.85",
        empty="the middle of its limits",
        help="Diameter turned for a screw, or bored for a nut, as measured.",
    )


@dataclass(frozen=True, slots=True)
class Job:
    """What is cut, and the slide it is fed with. `line` is one line of the dial, `angle` the slide's."""

    thread: Thread
    form: Form
    nut: bool
    depth: CutDepth
    tool: Tool
    lathe: Lathe
    slide_name: str
    slide: Slide
    angle: float
    passes: tuple[Pass, ...]


def _angle(inputs: ScrewcuttingInputs, lathe: Lathe, half_angle: float) -> float:
    """The slide's angle: as asked, or as the slide is kept if that suits the flank, or a little below the flank."""
    if inputs.slide == "cross":
        return 0.0
    if inputs.slide_angle is not None:
        return inputs.slide_angle
    kept = lathe.top_slide_angle
    return kept if half_angle - 1.5 <= kept <= half_angle else int(2 * (half_angle - _LESS)) / 2


def plan_job(inputs: ScrewcuttingInputs, shop: Shop) -> Job:
    """Plan the passes of a thread on the owner's slide.

    Parameters
    ----------
    inputs : ScrewcuttingInputs
        What was asked.
    shop : Shop
        What is owned; it needs a lathe.

    Returns
    -------
    job : Job
        Depth, tool, slide and passes.

    Raises
    ------
    BadInput
        If there is no lathe, or depth, cuts and angle do not go together.

    Sources
    -------
    engine.threads.sides, engine.threads.infeed and engine.threads.screwcutting.

    Examples
    --------
    >>> from engine.base.declare import read
    >>> from engine.shop.file import sample
    >>> shop = sample("metric")
    >>> job = plan_job(read(ScrewcuttingInputs, {"size": "M10", "blank": "9.968"}, shop=shop), shop)
    >>> job.depth.shallowest, job.angle
    (0.920, 29.5)
    """
    if shop.lathe is None:
        raise BadInput("slide", "", "a lathe", "slide: the shop has no lathe, so there is no dial to read.")
    nut, shape = is_nut(inputs.size, inputs.tolerance), form(inputs.size)
    depth = cut_depth(form=shape, limits=limits(inputs.size, inputs.tolerance), nut=nut, blank=inputs.blank)
    tool = Tool(
        half_angle=shape.half_angle,
        flat=tool_flat(pitch=float(inputs.size.pitch), half_angle=shape.half_angle, beyond=depth.beyond),
    )
    angle = _angle(inputs, shop.lathe, shape.half_angle)
    plain = angle == 0 and inputs.slide != "top"
    slide = shop.lathe.cross_slide if plain else shop.lathe.top_slide
    first = inputs.first_cut if inputs.first_cut is not None else max(_FIRST_CUT, inputs.last_cut or 0)
    last = inputs.last_cut if inputs.last_cut is not None else min(_LAST_CUT, first)
    slide_travel(
        depth=depth.depth, slide_angle=angle, half_angle=shape.half_angle
    )  # refuses a slide too steep
    depths = plan_depths(tool=tool, depth=depth.depth, first_cut=first, last_cut=last)
    passes = passes_on_dial(
        depths=depths,
        first_cut=first,
        last_cut=last,
        line=slide.travel_per_turn / slide.divisions,
        slide_angle=angle,
        spring_passes=inputs.spring_passes,
    )
    return Job(
        thread=inputs.size,
        form=shape,
        nut=nut,
        depth=depth,
        tool=tool,
        lathe=shop.lathe,
        slide_name="cross slide" if plain else "top slide",
        slide=slide,
        angle=angle,
        passes=passes,
    )
