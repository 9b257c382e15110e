"""`thread-limits`: the sizes of a thread, screw and nut."""

from __future__ import annotations

from dataclasses import dataclass, replace

from engine.base.answer import Answer, Figure, Note
from engine.base.declare import length, text, thread
from engine.base.operation import Operation
from engine.base.quantity import DIMENSIONS, show, worked
from engine.base.words import write
from engine.shop.model import Shop
from engine.threads.form import clearance, form
from engine.threads.limits import SIZES, Limits, limits
from engine.threads.limits_picture import limits_picture
from engine.threads.series import standing
from engine.threads.stress import stress_area
from engine.threads.thread import FAMILY_NAMES, Thread
from engine.threads.tolerance import Classes, accepted, read_tolerance

STANDARDS = {
    "metric": "ISO 724 and ISO 261",
    "unified": "ASME B1.1",
    "whitworth": "BS 84 (depth rounded to 0.0001 in first)",
    "ba": "BS 93",
    "me": "Whitworth form, model engineer series",
    "brass": "Whitworth form, 26 threads per inch",
    "cycle": "BS 811",
    "g": "ISO 228-1",
    "r": "ISO 7-1, at the gauge plane",
    "npt": "ASME B1.20.1, at the hand-tight plane",
    "tr": "ISO 2904",
    "acme": "ASME B1.5",
}


_FIXED = ("ba", "g", "r", "npt", "tr", "acme")  # families whose tolerances do not ask for the engagement


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadLimitsInputs:
    """What `thread-limits` is told."""

    size: Thread = thread(
        "Thread",
        example="M10x1.25",
        help="Any thread, as it is written: M10, 1/4-20 UNC, 4 BA, 3/8 BSW, G 1/4, Tr12x3.",
    )
    tolerance: str = text(
        "Tolerance class",
        default="",
        example="6g",
        empty="the usual class",
        help="Of the screw, the nut or both: 6g, 6H, 6H/6g, 2A, close. Empty: the family's usual one.",
    )
    engagement: float = length(
        "Length of engagement",
        example="8",
        empty="the usual length",
        help="How much thread is engaged. ISO metric, Unified and Whitworth tolerances depend on it.",
    )


def usable_tolerance(thread: Thread, tolerance: str) -> str | None:
    """Return a class as typed, checked against the thread's family.

    Parameters
    ----------
    thread : Thread
        The thread.
    tolerance : str
        What was typed.

    Returns
    -------
    tolerance : str or None
        None when nothing was typed.

    Raises
    ------
    BadInput
        If it is no class of the family; field `tolerance`.

    Sources
    -------
    As for engine.threads.tolerance.read_tolerance.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> usable_tolerance(parse("M10"), "6g"), usable_tolerance(parse("M10"), " ")
    ('6g', None)
    """
    if not tolerance.strip():
        return None
    read_tolerance(thread.family, tolerance)
    return tolerance


def _work(inputs: ThreadLimitsInputs, shop: Shop) -> Answer:
    size = inputs.size
    asked = usable_tolerance(size, inputs.tolerance)
    found = limits(size, asked, inputs.engagement)
    classes = (
        read_tolerance(size.family, asked or size.tolerance)
        if (asked or size.tolerance)
        else Classes(None, None)
    )
    picture = limits_picture(size, found, unit=shop.unit)
    figures = (*_limit_figures(found, classes), *_thread_figures(size, found), *_taper_figures(size))
    return Answer(
        figures=tuple(in_own_unit(figure, size, shop.unit) for figure in figures),
        pictures=(picture,) if picture else (),
        notes=tuple(Note("info", line) for line in _lines(inputs, found, classes, shop.unit) if line),
    )


def in_own_unit(figure: Figure, size: Thread, shown: str) -> Figure:
    """Return a figure whose working, in the unit of the thread's standard, ends with its result in that unit.

    Workings keep the unit whose rounding the standard follows; so the sum can still be followed to the figure shown.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> in_own_unit(Figure("pitch", "Pitch", 1.5, "length", "ISO 261", "3 ÷ 2"), parse("M10"), "inch").working
    '3 ÷ 2 = 1.5 mm'
    """
    own = "inch" if size.inch else "mm"
    if own == shown or figure.dimension not in ("length", "area") or figure.value is None:
        return figure
    kind = DIMENSIONS[figure.dimension]
    name = kind.inch if own == "inch" else kind.metric
    sums, mark, rest = write(figure.working).partition(";")
    result = f"{sums} = {worked(figure.value, own, figure.dimension)} {name}"
    return replace(figure, working=result + mark + rest)


def _limit_figures(found: Limits, classes: Classes) -> tuple[Figure, ...]:
    """The limits; the pitch diameter of the side asked for stands first."""
    nut_only = classes.nut is not None and classes.screw is None
    names = [name for name, _, _ in SIZES if found.size(name) is not None]
    lead = "int_minor_min" if nut_only else "ext_pitch_max"
    names.sort(key=lambda name: (name != lead, nut_only and name.startswith("ext_")))
    labels = {name: (label, side) for name, label, side in SIZES}
    figures = []
    for name in names:
        label, side = labels[name]
        figures.append(
            Figure(
                name,
                f"{label} ({found.screw_class if name.startswith('ext') else found.nut_class})",
                found.size(name),
                "length",
                found.source_of(name),
                found.working.get(name, ""),
                side="down" if side == "down" else "up",
            )
        )
    return tuple(figures)


def _thread_figures(size: Thread, found: Limits) -> tuple[Figure, ...]:
    shape = form(size)
    standard = STANDARDS[size.family] + (
        ", by its formulas, outside its range" if found.ext_pitch_max is None else ""
    )
    own = "inch" if size.inch else "mm"
    pitch, lead, effective = (
        worked(length, own) for length in (float(size.pitch), float(size.lead), found.pitch_basic)
    )
    per_inch = f"{float(size.threads_per_inch):.6g}"
    pitch_working = (
        f"1 ÷ {per_inch} in"
        if size.inch
        else f"25.4 ÷ {per_inch}"
        if size.family in ("g", "r")
        else "as designated"
    )
    last = shape.rule.rsplit(" = ", 1)[-1]
    sums = last.replace("clearance", worked(clearance(size), own))
    sums = sums.replace("P", pitch) if sums.startswith("P") else sums.replace(" P", f" x {pitch}")
    sums += " in" if size.inch else ""
    major = found.working.get("major_basic", "as designated")
    inch = " in" if size.inch else ""
    figures = [
        _length("major_basic", "Major, basic", found.major_basic, standard, major),
        _length("pitch_basic", "Pitch diameter, basic", found.pitch_basic, standard, found.working["pitch_basic"]),
        _length("minor_basic", "Minor, basic", found.minor_basic, standard, found.working["minor_basic"]),
        _length("pitch", "Pitch", float(size.pitch), standard, pitch_working, 4),
        _length("lead", "Lead", float(size.lead), standard, f"{size.starts} x {pitch}{inch}", 4),
        Figure("starts", "Starts", size.starts, "count", standard, "as designated"),
        Figure(
            "threads_per_inch", "Threads per inch", float(size.threads_per_inch), "tpi", standard,
            "as designated" if size.inch else f"25.4 ÷ {pitch}",
        ),
        Figure(
            "lead_angle",
            "Lead angle",
            size.lead_angle(found.pitch_basic),
            "angle",
            "geometry of the helix at the basic pitch diameter",
            f"arctan({lead} ÷ (pi x {effective}))",
            decimals=2,
        ),
        Figure(
            "included_angle", "Included angle", shape.included_angle, "angle", shape.source, "of the form", decimals=1
        ),
        _length("thread_depth", "Depth of the screw's thread", shape.depth, shape.source, f"{shape.rule} = {sums}"),
    ]  # fmt: skip
    if found.allowance is not None:
        source = found.source_of("allowance")
        figures.insert(
            0,
            _length(
                "allowance", "Allowance of the screw", found.allowance, source, found.working["allowance"]
            ),
        )
    area = stress_area(size)
    if area is not None:
        figures.append(Figure("stress_area", "Stress area", area.value, "area", area.source, area.working))
    if found.ext_pitch_max is None:
        figures.sort(key=lambda figure: figure.name != "pitch_basic")
    return tuple(figures)


def _length(name: str, label: str, value: float, source: str, working: str, decimals: int = 3) -> Figure:
    return Figure(name, label, value, "length", source, working, decimals=decimals)


def _taper_figures(size: Thread) -> tuple[Figure, ...]:
    if size.family not in ("r", "npt"):
        return ()
    from engine.threads.limits_pipe import gauge

    lengths = gauge(size)
    assert lengths is not None
    own, source = "inch" if size.inch else "mm", lengths.source
    length, shift = worked(lengths.length, own), worked(lengths.shift, own)
    turns = f"{lengths.shift_turns:g} turn{'s' if lengths.shift_turns != 1 else ''}"
    inch = " in" if size.inch else ""
    outside, pitch = worked(size.diameter, own), worked(float(size.pitch), own)
    return (
        _length("gauge_length", "Small end to the gauge plane", lengths.length, source, "tabulated"),
        _length(
            "gauge_length_max", "Small end to the gauge plane, longest", lengths.length + lengths.shift, source,
            f"{length} + {shift}{inch}; that is {turns} more",
        ),
        _length(
            "gauge_length_min", "Small end to the gauge plane, shortest", lengths.length - lengths.shift, source,
            f"{length} - {shift}{inch}; that is {turns} less",
        ),
        _length(
            "useful_length", "Full thread the screw needs", lengths.useful_length, source,
            "tabulated; the gauge length and the wrenching allowance"
            if size.family == "r" else f"(0.80 D + 6.8) p = (0.80 x {outside} + 6.8) x {pitch} in",
        ),
        Figure(
            "taper", "Taper on diameter", 1 / 16, "ratio", source, "1 ÷ 16", decimals=4,
        ),
    )  # fmt: skip


def _lines(inputs: ThreadLimitsInputs, found: Limits, classes: Classes, unit: str) -> tuple[str, ...]:
    size = inputs.size
    engaged = "" if inputs.engagement is None else _engagement_line(size, inputs.engagement, unit)
    return _class_line(size, found, classes), standing(size), engaged, *found.notes


def _engagement_line(size: Thread, engagement: float, unit: str) -> str:
    if size.family in _FIXED:
        return f"the length of engagement does not change the limits of {size}"
    if size.family != "metric":
        return ""
    from engine.threads.iso965 import normal_engagement
    from engine.threads.limits_metric import engagement_group

    normal = normal_engagement(size.diameter, float(size.pitch))
    if normal is None:
        return ""
    name = {"S": "short", "N": "normal", "L": "long"}[engagement_group(engagement, normal)]
    engaged, low, high = (show(value, "length", unit, decimals=2) for value in (engagement, *normal))
    return f"{engaged} of engagement is {name} (normal: over {low} up to {high}, ISO 965-1)"


def _class_line(size: Thread, found: Limits, classes: Classes) -> str:
    """Which classes the figures are for, and which of them nobody asked for."""
    if not accepted(size.family):
        return ""
    usual = [
        side for side, asked in ((f"screw {found.screw_class}", classes.screw), (f"nut {found.nut_class}", classes.nut))
        if asked is None
    ]  # fmt: skip
    shown = f"{FAMILY_NAMES[size.family]}, screw {found.screw_class}, nut {found.nut_class}"
    return f"{shown} (usual class: {', '.join(usual)})" if usual else shown


OPERATIONS = {
    "thread-limits": Operation(
        id="thread-limits",
        inputs=ThreadLimitsInputs,
        work=_work,
        hazards=("measuring",),
        example={"size": "M10x1.25", "tolerance": "6g"},
        help="The largest and smallest sizes of a screw and its nut, for any family of threads and its classes.",
    )
}
