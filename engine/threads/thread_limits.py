"""`thread-limits`: the sizes of a thread, screw and nut."""

from __future__ import annotations

from math import pi

from engine.base.answer import Answer, Figure, Note, figure
from engine.base.declare import length, text, thread
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.rounding import short
from engine.base.sums import INCH, arctan, mm, num
from engine.base.words import Text, say
from engine.shop.model import Shop
from engine.threads.faults import most_pitch_diameter, room_at_the_end, where_it_binds
from engine.threads.form import form
from engine.threads.limits import SIZES, gauge, limits
from engine.threads.limits_picture import limits_picture
from engine.threads.series import standing
from engine.threads.stress import stress_area
from engine.threads.thread import Thread
from engine.threads.told import Classes, Limits
from engine.threads.tolerance import accepted, read_tolerance


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadLimitsInputs:
    """What `thread-limits` is told.

    size: As it is written: M10, 1/4-20 UNC, 4 BA, 3/8 BSW, G 1/4, Tr12x3.
    tolerance: Of the screw, the nut or both: 6g, 6H, 6H/6g, 2A, close. Empty: the family's usual one.
    engagement: How much thread is engaged. ISO metric, Unified and Whitworth tolerances depend on it.
    """

    size: Thread = thread("Thread", example="M10x1.25")
    tolerance: str = text("Tolerance class", default="", example="6g", empty="the usual class")
    engagement: float = length("Length of engagement", example="8", empty="the usual length")


def _work(inputs: ThreadLimitsInputs, shop: Shop) -> Answer:
    size, asked = inputs.size, inputs.tolerance.strip()
    classes = Classes(None, None)
    if asked or size.tolerance:
        classes = read_tolerance(size.family, asked or size.tolerance)
    found = limits(size, asked or None, inputs.engagement)
    picture = limits_picture(size, found)
    return Answer(
        figures=(*_limit_figures(found, classes), *_thread_figures(size, found), *_taper_figures(size)),
        pictures=(picture,) if picture else (),
        notes=tuple(Note("info", line) for line in _lines(inputs, found, classes) if line),
    )


def _limit_figures(found: Limits, classes: Classes) -> tuple[Figure, ...]:
    """The limits; first what is made first: the screw's outside diameter, or the nut's hole where only that is asked."""
    nut_only = classes.nut is not None and classes.screw is None
    rows = [row for row in SIZES if found.size(row[0]) is not None]
    rows.sort(key=lambda row: nut_only and row[0].startswith("ext_"))
    figures = []
    for name, label, side in rows:
        named = found.screw_class if name.startswith("ext") else found.nut_class
        working = found.working.get(name, "")
        figures.append(
            Figure(name, f"{label} ({named})", found.size(name), "length", found.source_of(name), working, side=side)
        )
    return tuple(figures)


def _thread_figures(size: Thread, found: Limits) -> tuple[Figure, ...]:
    shape, standard = form(size), size.kind.sizes
    if found.ext_pitch_max is None:
        standard += ", by its formulas, outside its range"
    pitch, lead, across = mm(float(size.pitch)), mm(float(size.lead)), mm(found.pitch_basic)
    tpi = num(float(size.threads_per_inch))
    by_tpi = size.inch or size.kind.tpi
    major = found.working.get("major_basic", "as designated")
    helix = "geometry of the helix at the basic pitch diameter"
    turn = num(pi, words="pi") * across
    figures = [
        _length("major_basic", "Major, basic", found.major_basic, standard, major),
        _length("pitch_basic", "Pitch diameter, basic", found.pitch_basic, standard, found.working["pitch_basic"]),
        _length("minor_basic", "Minor, basic", found.minor_basic, standard, found.working["minor_basic"]),
        _length("pitch", "Pitch", float(size.pitch), standard, INCH / tpi if by_tpi else "as designated", 4),
        _length("lead", "Lead", float(size.lead), standard, num(size.starts) * pitch, 4),
        Figure("starts", "Starts", size.starts, "count", standard, "as designated"),
        Figure("threads_per_inch", "Threads per inch", float(size.threads_per_inch), "tpi", standard,
               "as designated" if by_tpi else INCH / pitch),
        figure("lead_angle", "Lead angle", arctan(lead / turn), helix, decimals=2),
        Figure("included_angle", "Included angle", shape.included_angle, "angle", shape.source, "of the form",
               decimals=1),
        _length("thread_depth", "Depth of the screw's thread", shape.depth, shape.source, shape.working),
    ]  # fmt: skip
    if found.allowance is not None:
        source, working = found.source_of("allowance"), found.working["allowance"]
        figures.insert(0, _length("allowance", "Allowance of the screw", found.allowance, source, working))
    area = stress_area(size)
    if area is not None:
        figures.append(Figure("stress_area", "Stress area", area.value, "area", area.source, area.working))
    if found.ext_pitch_max is None:
        figures.sort(key=lambda figure: figure.name != "pitch_basic")
    return tuple(figures)


def _length(name: str, label: str, value: float, source: str, working: Text, decimals: int = 3) -> Figure:
    return Figure(name, label, value, "length", source, working, decimals=decimals)


def _taper_figures(size: Thread) -> tuple[Figure, ...]:
    lengths = gauge(size)
    if lengths is None:
        return ()
    source, plane, shift = lengths.source, mm(lengths.length), mm(lengths.shift)
    longest, shortest = plane + shift, plane - shift
    turns = f"{short(lengths.shift_turns)} turn{'s' if lengths.shift_turns != 1 else ''}"
    return (
        _length("gauge_length", "Small end to the gauge plane", lengths.length, source, "tabulated"),
        _length("gauge_length_max", "Small end to the gauge plane, longest", float(longest), source,
                say("{sum}; that is {turns} more", sum=longest, turns=turns)),
        _length("gauge_length_min", "Small end to the gauge plane, shortest", float(shortest), source,
                say("{sum}; that is {turns} less", sum=shortest, turns=turns)),
        _length("useful_length", "Full thread the screw needs", lengths.useful_length, source, lengths.useful),
        figure("taper", "Taper on diameter", num(1) / num(16), source, decimals=4),
    )  # fmt: skip


def _lines(inputs: ThreadLimitsInputs, found: Limits, classes: Classes) -> tuple[Text, ...]:
    size = inputs.size
    engaged = "" if inputs.engagement is None else _engagement_line(size, inputs.engagement)
    return _class_line(size, found, classes), standing(size), engaged, *found.notes


def _engagement_line(size: Thread, engagement: float) -> Text:
    if not size.kind.by_engagement:
        return f"the length of engagement does not change the limits of {size}"
    return size.kind.engaged(size, engagement) if size.kind.engaged else ""


def _class_line(size: Thread, found: Limits, classes: Classes) -> str:
    """Which classes the figures are for, and which of them nobody asked for."""
    if not accepted(size.family):
        return ""
    screw, nut = f"screw {found.screw_class}", f"nut {found.nut_class}"
    usual = [side for side, asked in ((screw, classes.screw), (nut, classes.nut)) if asked is None]
    named = f"{size.kind.name}, {screw}, {nut}"
    return f"{named} (usual class: {', '.join(usual)})" if usual else named


OPERATION = Operation(
    id="thread-limits",
    pane="threads",
    place=10,
    title="Limits of a thread",
    words="size tolerance class pitch diameter major minor effective whitworth metric unified unc unf npt acme tpi fit "
    "go not-go gauge bolt screw nut thread sizes stress area",
    inputs=ThreadLimitsInputs,
    work=_work,
    hazards=(),
    example={"size": "M10x1.25", "tolerance": "6g"},
    troubles={"TH-01": where_it_binds, "TH-02": most_pitch_diameter, "TH-03": room_at_the_end},
    help="The largest and smallest sizes of a screw and its nut, for any family of threads and its classes.",
)
