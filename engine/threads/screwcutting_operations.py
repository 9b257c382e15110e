"""The operation of cutting a thread with a single point."""

from __future__ import annotations

from math import cos, radians

from engine.base.answer import Answer, Column, Figure, Note, Table
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.cutting.speeds import spindle_speed, surface_speed
from engine.indexing.dials import slide_setting
from engine.safety.physics import REACTION
from engine.shop.model import Shop
from engine.threads.groove_pictures import infeed_picture
from engine.threads.passes import rpm_limit, side_relief, slide_travel, time_to_shoulder
from engine.threads.screwcutting_job import Job, ScrewcuttingInputs, plan_job

_GEOMETRY = "geometry of the form"
_SLIDE = "travel = depth ÷ cos g: geometry; F. D. Jones, Turning and Boring, 1914, p. 143"


def _depth_figures(job: Job, unit: str) -> list[Figure]:
    depth, shape = job.depth, job.form
    sign = ("target", "bore") if job.nut else ("blank", "target")
    ends = (depth.target, depth.blank) if job.nut else (depth.blank, depth.target)
    first, second, beyond, deep = (worked(size, unit) for size in (*ends, depth.beyond, depth.depth))
    wide = f"({first} - {second}) ÷ 2 + {beyond}"
    travel = slide_travel(depth=depth.depth, slide_angle=job.angle, half_angle=shape.half_angle)
    figures = [
        Figure(
            "depth",
            "Depth, radial",
            depth.depth,
            "length",
            f"{shape.source}; the middle of the class",
            f"({sign[0]} - {sign[1]}) ÷ 2 + what lies beyond the pitch line = {wide}",
            low=depth.shallowest,
            high=depth.deepest,
        ),
        Figure(
            "slide_travel",
            f"{job.slide_name.capitalize()} travel",
            travel.travel,
            "length",
            _SLIDE,
            f"{deep} ÷ cos {job.angle:g}°",
        ),
        Figure(
            "blank",
            "Bore first" if job.nut else "Turn first",
            depth.blank,
            "length",
            "the middle of its limits, or as measured",
            f"the pitch diameter aimed at is {show(depth.target, 'length', unit)}",
        ),
    ]
    if job.slide_name == "top slide":
        figures += [
            Figure(
                "slide_angle",
                "Slide set to",
                job.angle,
                "angle",
                "the flank angle or up to a degree and a half less: Jones, p. 143, and common practice",
                f"flank {shape.half_angle:g}°, from the cross slide's line",
                decimals=1,
            ),
            Figure(
                "sideways",
                "Tool moves along",
                travel.sideways,
                "length",
                _SLIDE,
                f"{deep} x tan {job.angle:g}°",
            ),
            Figure(
                "shave",
                "Following flank shaved",
                travel.shave,
                "length",
                _GEOMETRY,
                f"{deep} x (tan {shape.half_angle:g}° - tan {job.angle:g}°)",
                decimals=4,
            ),
        ]
    return figures


def _speed_figures(job: Job, inputs: ScrewcuttingInputs, unit: str) -> tuple[list[Figure], list[Note]]:
    """Speed of the spindle: by the material, the chuck's mark, and the time to the shoulder."""
    lead, lathe = float(job.thread.lead), job.lathe
    speed = surface_speed(material=inputs.material, operation="screwcutting")
    wanted = spindle_speed(
        diameter=max(job.depth.blank, job.depth.target),
        surface_speed=speed.chosen,
        steps=lathe.speeds,
        ceiling=lathe.chuck.marked_speed,
    )
    rpm, figures, notes = wanted.chosen, [], []
    if inputs.gap is not None:
        calm = rpm_limit(gap=inputs.gap, lead=lead, reaction=REACTION)
        slow = [step for step in lathe.speeds if step <= min(rpm, calm)]
        rpm = max(slow, default=min(lathe.speeds))
        gap, advance = worked(inputs.gap, unit), worked(lead, unit)
        figures += [
            Figure(
                "time_to_shoulder",
                "Time to the shoulder",
                time_to_shoulder(gap=inputs.gap, lead=lead, rpm=rpm),
                "duration",
                "arithmetic",
                f"60 x {gap} ÷ ({advance} x {rpm:g})",
                side="down",
            ),
            Figure(
                "rpm_limit",
                "Fastest for that gap",
                calm,
                "speed",
                f"{REACTION:g} s to see, decide and move a lever (common practice, no source)",
                f"60 x {gap} ÷ ({advance} x {REACTION:g} s)",
                side="down",
            ),
        ]
        if rpm > calm:
            words = f"Even {rpm:g} rev/min leaves less than {REACTION:g} s to the shoulder: turn the spindle by hand."
            notes.append(Note("warning", words))
    if wanted.too_fast:
        notes.append(
            Note("warning", f"The lathe's lowest speed, {rpm:g} rev/min, is above the speed for this cut.")
        )
    fast = show(speed.chosen, "surface_speed", unit, decimals=1)
    across = show(max(job.depth.blank, job.depth.target), "length", unit)
    working = f"{fast} on {across} is {wanted.ideal:.0f} rev/min: the lathe's step below"
    if rpm < wanted.chosen:
        working += f" is {wanted.chosen:g}, held to {rpm:g} by the gap"
    return [Figure("rpm", "Spindle speed", rpm, "speed", speed.source, working), *figures], notes


def _tool_figures(job: Job, unit: str) -> list[Figure]:
    lead, depth = float(job.thread.lead), job.depth
    deep = depth.blank + 2 * depth.depth if job.nut else depth.blank - 2 * depth.depth
    figures = []
    if job.form.root_flat and not job.form.root_radius:
        figures.append(
            Figure(
                "tool_flat",
                "Flat at the tool's tip",
                job.tool.flat,
                "length",
                f"{job.form.source}",
                f"{worked(float(job.thread.pitch), unit)} ÷ 2 - 2 x {worked(depth.beyond, unit)} "
                f"x tan {job.form.half_angle:g}°",
            )
        )
    elif job.form.root_radius and not job.nut:
        figures.append(
            Figure(
                "tool_radius",
                "Radius at the tool's tip",
                job.form.root_radius,
                "length",
                job.form.source,
                "the root radius of the form",
                side="down",
            )
        )
    for name, label, size in (
        ("relief_leading", "Helix at the leading side", min(deep, depth.blank)),
        ("relief_following", "Helix at the following side", max(deep, depth.blank)),
    ):
        if size > 0:
            figures.append(
                Figure(
                    name,
                    label,
                    side_relief(lead=lead, diameter=size),
                    "angle",
                    "F. D. Jones, Turning and Boring, 1914, pp. 149-150",
                    f"arctan({worked(lead, unit)} ÷ (pi x {worked(size, unit)})); grind the side clear of it",
                    decimals=1,
                )
            )
    return figures


def _passes_table(job: Job) -> Table:
    rows = []
    for number, step in enumerate(job.passes, 1):
        setting = slide_setting(job.slide, step.lines * (job.slide.travel_per_turn / job.slide.divisions))
        kind = "cut" if step.cut else "spring"
        rows.append((number, step.cut, step.depth, setting.turns, setting.reading, kind))
    return Table(
        name="passes",
        label=f"Passes, set on the {job.slide_name}",
        columns=(
            Column("pass", "Pass", "count"),
            Column("cut", "Cut", "length"),
            Column("total_depth", "Total depth", "length"),
            Column("slide_turns", "Turns", "count"),
            Column("slide_reading", "Slide reading", "length"),
            Column("kind", "Kind"),
        ),
        rows=tuple(rows),
        count_noun="pass",
        setting=("slide_turns", "slide_reading"),
        source="equal areas; settings in whole lines short of the depth (common practice, no source)",
    )


def _notes(job: Job, inputs: ScrewcuttingInputs, unit: str) -> list[Note]:
    notes = _slide_notes(job, inputs, unit)
    if job.thread.starts > 1:
        notes.append(
            Note("info", f"{job.thread.starts} starts: take all passes for each start, one pitch further on.")
        )
    if job.thread.taper:
        notes.append(
            Note("info", "Taper 1 in 16: the depth is square to the axis; set the taper over first.")
        )
    if not job.nut and not job.thread.taper:
        notes.append(
            Note(
                "info", "The depth is a guide, the tool's tip is never exact: measure before the last passes."
            )
        )
    smallest = min(step.cut for step in job.passes if step.cut)
    if smallest < (inputs.last_cut or 0) - 1e-9:
        notes.append(
            Note(
                "info", "The largest cut comes first, so one pass takes less than the smallest cut asked for."
            )
        )
    return notes


def _slide_notes(job: Job, inputs: ScrewcuttingInputs, unit: str) -> list[Note]:
    """How the slide is set and fed, and what its dial shows."""
    notes, kept = [], job.lathe.top_slide_angle
    over = job.slide_name == "top slide" and job.angle
    if job.nut:
        words = "In a bore the feed is towards you: wind the slide back, and take up its slack that way."
        if over:
            words += " The top slide is set over to the other side than for a screw of the same hand."
        notes.append(Note("info", words))
    if job.thread.left_hand:
        words = "Left hand: cut away from the chuck"
        words += ", with the top slide set over to the other side than for right hand." if over else "."
        notes.append(Note("info", words))
    if job.slide_name == "top slide" and inputs.slide_angle is None and job.angle != kept:
        notes.append(Note("info", f"Set the top slide to {job.angle:g} degrees: it is kept at {kept:g}."))
    if job.slide.reads_diameter:
        notes.append(Note("info", "This dial reads diameter: it shows twice what the slide moves."))
    if short := _short(job):
        words = (
            f"The last setting is the dial's line before the depth: there the tool is {show(short, 'length', unit)} "
            f"of radius short of it, {show(2 * short, 'length', unit)} on diameter."
        )
        notes.append(Note("info", words))
    return notes


def _short(job: Job) -> float:
    """How far the last whole line of the dial leaves the tool short of the depth, radially. [mm]"""
    line = float(job.slide.travel_per_turn / job.slide.divisions) * cos(radians(job.angle))
    short = job.depth.depth - job.passes[-1].lines * line
    return short if short > 1e-6 else 0.0


def _screwcutting(inputs: ScrewcuttingInputs, shop: Shop) -> Answer:
    job = plan_job(inputs, shop)
    speeds, warnings = _speed_figures(job, inputs, shop.unit)
    cuts = sum(1 for step in job.passes if step.cut)
    number = Figure(
        "cuts",
        "Passes that cut",
        cuts,
        "count",
        "equal areas between the largest and the smallest cut: geometry; the limits common practice, no source",
        f"and {len(job.passes) - cuts} spring passes at the full depth",
    )
    return Answer(
        figures=(*_depth_figures(job, shop.unit), number, *speeds, *_tool_figures(job, shop.unit)),
        tables=(_passes_table(job),),
        pictures=(
            infeed_picture(
                job.passes,
                tool=job.tool,
                slide_angle=job.angle,
                pitch=float(job.thread.pitch),
                inside=job.nut,
            ),
        ),
        notes=(*warnings, *_notes(job, inputs, shop.unit)),
    )


OPERATIONS = {
    "screwcutting": Operation(
        id="screwcutting",
        inputs=ScrewcuttingInputs,
        work=_screwcutting,
        hazards=("screwcutting", "chuck", "swarf"),
        example={"size": "M10", "material": "mild steel", "gap": "3"},
        help="Plans the passes of a single-point thread on your slide's dial, with the speed for the gap.",
    )
}
