"""`screwcutting`: the passes of a single-point thread on the owner's slide, with the speed for the gap."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from engine.base.answer import Answer, Cell, Column, Figure, Note, Table, figure, to_set
from engine.base.declare import angle, choice, count, diameter, length, material, number, text, thread
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.rounding import short
from engine.base.setting import Setting
from engine.base.sums import cos, deg, mm, num, tan
from engine.base.words import Text, figures, general, plain, say, shown
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import spindle_speed, surface_speed
from engine.indexing.dials import on_slide, slide_setting
from engine.safety.physics import REACTION
from engine.shop.model import Lathe, Shop, Slide
from engine.situation import Situation
from engine.threads.faults import most_pitch_diameter, room_at_the_end, where_it_binds
from engine.threads.form import form
from engine.threads.groove_pictures import infeed_picture
from engine.threads.infeed import Tool, plan_depths, tool_flat
from engine.threads.limits import limits
from engine.threads.passes import Pass, passes_on_dial, rpm_limit, side_relief, slide_angle, slide_travel
from engine.threads.passes import time_to_shoulder as time_left
from engine.threads.sides import CutDepth, cut_depth, is_nut
from engine.threads.thread import Thread
from engine.threads.thread_dial import lines_of_starts
from engine.threads.told import Form, Limits

_FIRST_CUT = 0.2  # mm of radius; a light lathe, common practice, no source
_LAST_CUT = 0.05  # mm of radius; below it a tool rubs, common practice, no source
# of the pitch: what the last cut of a coarse thread takes, above 15 mm (common practice, no source)
_LAST_SHARE = 1 / 300
_FORM = "geometry of the form"
_SLIDE = "travel = depth ÷ cos g: geometry; Turning and Boring, 1914, p. 143"
_DIAL = "geometry; settings in whole lines short of the depth (common practice, no source)"
_HELIX = "Turning and Boring, 1914, pp. 149-150"
_CUTS = "equal areas between the largest and the smallest cut: geometry; the limits common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewcuttingInputs:
    """What `screwcutting` is told.

    size: The thread to cut.
    tolerance: 6g or 2A cuts a screw, 6H or 2B a nut in a bore.
    slide: Top: along the flank at the slide's angle. Cross: plain infeed.
    slide_angle: Degrees from the cross slide's line: 29 to 30 for 60 degree threads. Empty: as kept, or below the
        flank.
    material: For the speed.
    first_cut: Most that one pass takes, radially.
    last_cut: Least that one pass takes, radially.
    spring_passes: Passes repeated at the full depth.
    gap: From the end of the thread to the shoulder, or the width of the run-out groove.
    blank: Diameter turned for a screw, or bored for a nut, as measured.
    takes: Of what the dial says, as learned: a light lathe springs. Less than 1 sets the dial farther in.
    """

    size: Thread = thread("Thread", example="M10")
    tolerance: str | None = text("Tolerance class", example="6g", empty="usual")
    slide: str | None = choice("Infeed by", ("top", "cross"), example="top", empty="top")
    slide_angle: float | None = angle("Top slide set to", low=0, high=45, example="29.5", empty="as kept")
    material: Material = material("Material", example="mild steel", from_shop=of_shop, empty="the shop's first")
    first_cut: float | None = length("Largest cut", low=0, high=2, example="0.2", empty="light lathe")
    last_cut: float | None = length("Smallest cut", low=0, high=2, example="0.05", empty="light lathe")
    spring_passes: int = count("Spring passes", default=2, low=-1, high=20, example="2")
    gap: float | None = length("Gap to the shoulder", low=-1e-9, high=1000, example="3", empty="not known")
    blank: float | None = diameter("Blank turned to", low=0, high=1000, example="9.85", empty="mid limits")
    takes: float = number("Tool takes", default=1.0, low=0.3, high=1.25, example="0.85")


@dataclass(frozen=True, slots=True)
class _Job:
    """What is cut, and the slide it is fed with; `angle` is the slide's."""

    thread: Thread
    form: Form
    limits: Limits
    nut: bool
    depth: CutDepth
    tool: Tool
    lathe: Lathe
    slide: Slide
    wheel: str
    angle: float
    passes: tuple[Pass, ...]

    def setting(self, lines: int) -> Setting:
        """So many lines from the touch, as the hand sets them; in a bore the feed is towards the operator."""
        return _set_on(self.wheel, self.slide, float(lines * _line(self.slide)), "out" if self.nut else "in")


def _line(slide: Slide) -> Fraction:
    return slide.travel_per_turn / slide.divisions


def _set_on(wheel: str, slide: Slide, distance: float, way: str) -> Setting:
    return on_slide(wheel, slide, slide_setting(slide, distance), way, distance)


def _plan(inputs: ScrewcuttingInputs, shop: Shop) -> _Job:
    """The passes of a thread on the owner's slide."""
    if shop.lathe is None:
        raise BadInput("slide", "", "a lathe", "slide: the shop has no lathe, so there is no dial to read.")
    size, shape = inputs.size, form(inputs.size)
    nut, sizes = is_nut(size, inputs.tolerance), limits(size, inputs.tolerance)
    depth = cut_depth(form=shape, limits=sizes, nut=nut, blank=inputs.blank)
    flat = tool_flat(pitch=float(inputs.size.pitch), half_angle=shape.half_angle, beyond=depth.beyond)
    tool, at, half = Tool(half_angle=shape.half_angle, flat=flat), 0.0, shape.half_angle
    if inputs.slide != "cross":
        kept = slide_angle(shop.lathe.top_slide_angle, shape.half_angle)
        at = inputs.slide_angle if inputs.slide_angle is not None else kept
    plain = at == 0 and inputs.slide != "top"
    slide = shop.lathe.cross_slide if plain else shop.lathe.top_slide
    first = inputs.first_cut if inputs.first_cut is not None else max(_FIRST_CUT, inputs.last_cut or 0)
    last = inputs.last_cut if inputs.last_cut is not None else min(_last_cut(inputs.size), first)
    slide_travel(depth=depth.depth, slide_angle=at, half_angle=half)  # refuses a slide too steep
    deep = plan_depths(tool=tool, depth=depth.depth, first_cut=first, last_cut=last)
    line, springs = _line(slide) * Fraction(repr(float(inputs.takes))), inputs.spring_passes
    passes = passes_on_dial(
        depths=deep, first_cut=first, last_cut=last, line=line, slide_angle=at, spring_passes=springs
    )
    wheel = "Cross slide" if plain else "Top slide"
    return _Job(size, shape, sizes, nut, depth, tool, shop.lathe, slide, wheel, at, passes)


def _last_cut(size: Thread) -> float:
    """The smallest cut where none is asked for: it grows with a coarse pitch, or the passes would be endless. [mm]"""
    return max(_LAST_CUT, _LAST_SHARE * float(size.pitch))


def _setting_figures(job: _Job) -> list[Figure]:
    """The first cut and the last, as they are set."""
    line, found = shown(float(_line(job.slide))), []
    ends = (("setting", "First cut", job.passes[0]), ("full_setting", "At full depth", job.passes[-1]))
    for name, label, step in ends:
        deep = shown(step.depth, decimals=4)
        why = say("{lines} lines of {line}, {deep} of depth", lines=step.lines, line=line, deep=deep)
        found.append(to_set(name, label, job.setting(step.lines), _DIAL, why))
    return found


def _depth_figures(job: _Job) -> list[Figure]:
    depth, shape = job.depth, job.form
    sign = "target - bore" if job.nut else "blank - target"
    large, small = (depth.target, depth.blank) if job.nut else (depth.blank, depth.target)
    deep = (mm(large) - mm(small)) / 2 + mm(depth.beyond)
    rule = say("({sign}) ÷ 2 + what lies beyond the pitch line = {sums}", sign=sign, sums=deep)
    known, g, a = deep.known(), deg(job.angle), deg(shape.half_angle)
    target = say("the pitch diameter aimed at is {target}", target=shown(depth.target))
    source, blank = f"{shape.source}; the middle of the class", "Bore to" if job.nut else "Turn the blank to"
    found = [
        figure("depth", "Depth, radial", deep, source, rule, low=depth.shallowest, high=depth.deepest),
        figure("slide_travel", f"{job.wheel} travel", known / cos(g), _SLIDE),
        Figure("blank", blank, depth.blank, "length", "the middle of its limits, or as measured", target),
    ]
    if job.wheel == "Top slide":
        flank = say("flank {flank}, from the cross slide's line", flank=plain(shape.half_angle, "angle"))
        set_to = "the flank angle or up to a degree and a half less: Turning and Boring, p. 143, and common practice"
        found += [
            Figure("slide_angle", "Slide set to", job.angle, "angle", set_to, flank, decimals=1),
            figure("sideways", "Tool moves along", known * tan(g), _SLIDE),
            figure("shave", "On the trailing flank", known * (tan(a) - tan(g)), _FORM, decimals=4),
        ]
    return found


def _speed_figures(job: _Job, inputs: ScrewcuttingInputs) -> tuple[list[Figure], list[Note]]:
    """Speed of the spindle: by the material, the chuck's mark, and the time to the shoulder."""
    lead, lathe, across = float(job.thread.lead), job.lathe, max(job.depth.blank, job.depth.target)
    speed = surface_speed(material=inputs.material, operation="screwcutting")
    mark = lathe.chuck.marked_speed
    wanted = spindle_speed(diameter=across, surface_speed=speed.chosen, steps=lathe.speeds, ceiling=mark)
    rpm, found, notes, held = wanted.chosen, [], [], ""
    if inputs.gap is not None:
        calm = rpm_limit(gap=inputs.gap, lead=lead, reaction=REACTION)
        rpm = max((step for step in lathe.speeds if step <= min(rpm, float(calm))), default=min(lathe.speeds))
        left = time_left(gap=inputs.gap, lead=lead, rpm=rpm)
        react = f"{short(REACTION)} s to see, decide and move a lever (common practice, no source)"
        found = [
            figure("time_to_shoulder", "Time to the shoulder", left, "arithmetic", side="down"),
            figure("rpm_limit", "Fastest for that gap", calm, react, side="down"),
        ]
        if rpm > float(calm):
            text = "Even {rpm} leaves less than {react} to the shoulder: turn the spindle by hand."
            by_hand = say(text, rpm=shown(rpm, "speed"), react=plain(REACTION, "duration"))
            notes.append(Note("warning", by_hand))
    if wanted.too_fast:
        text = "The lathe's lowest speed, {rpm}, is above the speed for this cut."
        notes.append(Note("warning", say(text, rpm=shown(rpm, "speed"))))
    if rpm < wanted.chosen:
        held = " is {chosen}, held to {rpm} by the gap"
    text = "{fast} on {across} is {ideal} rev/min: the lathe's step below" + held
    fast, ideal = shown(speed.chosen, "surface_speed", decimals=1), figures(wanted.ideal)
    working = say(text, fast=fast, across=shown(across), ideal=ideal, chosen=general(wanted.chosen), rpm=general(rpm))
    return [Figure("rpm", "Set the spindle to", rpm, "speed", speed.source, working), *found], notes


def _tool_figures(job: _Job) -> list[Figure]:
    pitch, lead, depth, shape = float(job.thread.pitch), float(job.thread.lead), job.depth, job.form
    deep = depth.blank + 2 * depth.depth if job.nut else depth.blank - 2 * depth.depth
    found = []
    if shape.root_flat and not shape.root_radius:
        flat = mm(pitch) / 2 - 2 * mm(depth.beyond) * tan(deg(shape.half_angle))
        found.append(Figure("tool_flat", "Flat at tool's tip", job.tool.flat, "length", shape.source, flat))
    elif shape.root_radius and not job.nut:
        tip, why = "Radius at tool's tip", "the root radius of the form"
        found.append(Figure("tool_radius", tip, shape.root_radius, "length", shape.source, why, side="down"))
    small, large = sorted((deep, depth.blank))
    sides = (("relief_leading", "Helix, leading side", small), ("relief_following", "Helix, trailing side", large))
    for name, label, size in sides:
        if size > 0:
            leans = side_relief(lead=lead, diameter=size)
            clear = say("{sums}; grind the side clear of it", sums=leans)
            found.append(figure(name, label, leans, _HELIX, clear, decimals=1))
    return found


def _passes_table(job: _Job) -> Table:
    rows: list[tuple[Cell, ...]] = []
    line = _line(job.slide)
    full = max(nth for nth, step in enumerate(job.passes, 1) if step.cut)
    for nth, step in enumerate(job.passes, 1):
        stands = slide_setting(job.slide, step.lines * line)
        kind = ("full depth" if nth == full else "cut") if step.cut else "spring"
        rows.append((nth, step.cut, step.depth, stands.turns, stands.reading, kind, job.setting(step.lines)))
    columns = (
        *(Column("pass", "Pass", "count"), Column("cut", "Cut", "length")),
        *(Column("total_depth", "Total depth", "length"), Column("slide_turns", "Turns", "count")),
        *(Column("slide_reading", "Dial", "length"), Column("kind", "Kind"), Column("set", job.wheel)),
    )
    source = "equal areas; settings in whole lines short of the depth (common practice, no source)"
    return Table("passes", f"Passes, set on the {job.wheel.lower()}", columns, tuple(rows), "pass", ("set",), source)


def _starts_table(job: _Job) -> Table | None:
    """Each start of a thread by the top slide's dial, the slide parallel to the bed, and by the thread dial."""
    size, lathe = job.thread, job.lathe
    if size.starts < 2:
        return None
    lines = lines_of_starts(size.lead, size.starts, lathe.leadscrew, lathe.thread_dial)
    rows: list[tuple[Cell, ...]] = []
    for k in range(size.starts):
        along = float(k * size.pitch)
        stands = slide_setting(lathe.top_slide, along)
        on = _set_on("Top slide", lathe.top_slide, along, "on")
        by_dial = ", ".join(map(str, lines[k])) if lines else "no lines serve"
        rows.append((k + 1, on, stands.error, by_dial))
    columns = (
        *(Column("start", "Start", "count"), Column("set", "Top slide"), Column("error", "Off by", "length", 4)),
        Column("dial_lines", "Lines of the thread dial"),
    )
    source = "one pitch along for each start; the thread dial's lines for a train that cuts the lead exactly"
    label = "Starts, the top slide parallel to the bed"
    return Table("starts", label, columns, tuple(rows), "start", ("set",), source)


def _notes(job: _Job, inputs: ScrewcuttingInputs) -> Iterator[Note]:
    yield from _blank_notes(job, inputs)
    yield from _slide_notes(job, inputs)
    if job.thread.starts > 1:
        text = (
            "{starts} starts: take all passes for each. Index by the first driver's teeth (Change wheels counts them) "
            "or by the thread dial; or feed in with the cross slide and move the top slide, parallel to the bed, on "
            "by the pitch. Never move a slide along that stands at an angle."
        )
        yield Note("info", say(text, starts=job.thread.starts))
    if job.thread.taper:
        yield Note("info", "Taper 1 in 16: the depth is square to the axis; set the taper over first.")
    if not job.nut and not job.thread.taper:
        yield Note("info", "The depth is a guide, the tool's tip is never exact: measure before the last passes.")
    if min(step.cut for step in job.passes if step.cut) < (inputs.last_cut or 0) - 1e-9:
        coarse = "The dial's lines and the largest cut leave a pass less than the smallest cut asked for."
        yield Note("info", coarse)


def _blank_notes(job: _Job, inputs: ScrewcuttingInputs) -> Iterator[Note]:
    """A blank, as measured, that the class does not allow."""
    sizes, blank = job.limits, inputs.blank
    low, high = (sizes.int_minor_min, sizes.int_minor_max) if job.nut else (sizes.ext_major_min, sizes.ext_major_max)
    if blank is None or low is None or high is None or low - 1e-9 <= blank <= high + 1e-9:
        return
    over = blank > high
    if job.nut:
        after = "its thread will be shallow" if over else "bore it out first"
    else:
        after = "turn it down first" if over else "its crests will be flat and low"
    text = f"{{blank}} is {'over' if over else 'under'} the class's limits, {{low}} to {{high}}: {after}."
    yield Note("warning", say(text, blank=shown(blank), low=shown(low, side="up"), high=shown(high, side="down")))


def _slide_notes(job: _Job, inputs: ScrewcuttingInputs) -> Iterator[Note]:
    """How the slide is set and fed, and what its dial shows."""
    kept, over = job.lathe.top_slide_angle, job.wheel == "Top slide" and job.angle
    if job.nut:
        words = "In a bore the feed is towards you: wind the slide back, and take up its slack that way."
        if over:
            words += " The top slide is set over to the other side than for a screw of the same hand."
        yield Note("info", words)
    if job.thread.left_hand:
        words = "Left hand: cut away from the chuck"
        words += ", with the top slide set over to the other side than for right hand." if over else "."
        yield Note("info", words)
    if job.wheel == "Top slide" and inputs.slide_angle is None and job.angle != kept:
        text = "Set the top slide to {angle}: it is kept at {kept}."
        yield Note("info", say(text, angle=plain(job.angle, "angle"), kept=plain(kept, "angle")))
    if inputs.takes != 1:
        text = (
            "The settings count on a tool that takes {takes} of what its dial says: measure over wires before the last "
            "passes, and leave them out once the size is there."
        )
        yield Note("warning", say(text, takes=figures(inputs.takes, 2)))
    if job.slide.reads_diameter:
        yield Note("info", "This dial reads diameter: it shows twice what the slide moves.")
    if (short := job.depth.depth - job.passes[-1].depth) > 1e-6:
        text = (
            "The last setting is the dial's line before the depth: there the tool is {short} of radius short of it, "
            "{twice} on diameter."
        )
        yield Note("info", say(text, short=shown(short), twice=shown(2 * short)))


def _moment(job: _Job, inputs: ScrewcuttingInputs, speeds: list[Figure]) -> Situation:
    known = {found.name: found.value for found in speeds}
    return Situation(
        machine="lathe", material=inputs.material.name, work_diameter=None if job.nut else job.thread.diameter,
        bore=job.depth.blank if job.nut else None, thread=job.thread, spindle_speed=known["rpm"],
        feed=float(job.thread.lead), gap=inputs.gap, time_to_shoulder=known.get("time_to_shoulder"),
    )  # fmt: skip


def _screwcutting(inputs: ScrewcuttingInputs, shop: Shop) -> Answer:
    job = _plan(inputs, shop)
    speeds, warnings = _speed_figures(job, inputs)
    cuts = sum(1 for step in job.passes if step.cut)
    springs = say("and {springs} spring passes at the full depth", springs=len(job.passes) - cuts)
    number = figure("cuts", "Passes that cut", num(cuts), _CUTS, springs, dimension="count")
    starts = _starts_table(job)
    picture = infeed_picture(job.passes, tool=job.tool, slide_angle=job.angle, inside=job.nut)
    return Answer(
        figures=(*(*_setting_figures(job), *_depth_figures(job), number), *(*speeds, *_tool_figures(job))),
        tables=(_passes_table(job), *([starts] if starts else [])),
        pictures=(picture,),
        notes=(*warnings, *_notes(job, inputs)),
        moments=(_moment(job, inputs, speeds),),
    )


def _deepest_pass(inputs: ScrewcuttingInputs, answer: Answer, shop: Shop) -> Text:
    """The deepest cut of the plan."""
    cuts = [cut for cut in answer.table("passes").column("cut") if isinstance(cut, int | float)]
    return say("the deepest pass of this plan takes {cut}", cut=shown(max(cuts)))


OPERATION = Operation(
    id="screwcutting",
    pane="threads",
    place=40,
    title="Cut a thread: passes",
    words="single point infeed depth passes compound top slide threading screw cutting multi start starts screwcut "
    "flank thread tool spring pass nut bore internal lathe half degree blank",
    machine="lathe",
    inputs=ScrewcuttingInputs,
    work=_screwcutting,
    tool="threading tool",
    hazards=("screwcutting", "chuck", "swarf"),
    example={"size": "M10", "material": "mild steel", "gap": "3"},
    troubles={"TH-01": where_it_binds, "TH-02": most_pitch_diameter, "TH-03": room_at_the_end, "TH-04": _deepest_pass},
    help="Plans the passes of a single-point thread on your slide's dial, with the speed for the gap.",
)
