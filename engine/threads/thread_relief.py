"""`thread-relief`: the groove, the run-out and the chamfers of a thread."""

from __future__ import annotations

from engine.base.answer import Answer, Figure, Note, figure, to_set
from engine.base.declare import choice, thread
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.rounding import Side as Rounding
from engine.base.sums import mm
from engine.base.words import Text, own, plain, say, shown
from engine.indexing.dials import on_slide, slide_setting
from engine.shop.model import Shop
from engine.situation import Situation
from engine.threads.faults import room_at_the_end
from engine.threads.form import form
from engine.threads.limits import limits
from engine.threads.relief import Relief, Side, relief
from engine.threads.section_pictures import relief_picture
from engine.threads.sides import is_nut
from engine.threads.thread import Thread

_E2 = "DIN 76-1:2016, e2, from memory"
_SLENDER = 3.0  # diameters that work stands out without support; common practice, no source
_BY_CLASS = "as the class says, else the screw"
_DIAL = "geometry: half the difference of the diameters, from the touch; to the nearest line of the dial"


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadReliefInputs:
    """What `thread-relief` is told.

    size: Any parallel thread, as it is written.
    side: What the groove is turned in.
    """

    size: Thread = thread("Thread", example="M10")
    side: Side | None = choice("Screw or nut", ("screw", "nut"), example="screw", empty=_BY_CLASS)


def _work(inputs: ThreadReliefInputs, shop: Shop) -> Answer:
    size = inputs.size
    side: Side = inputs.side or ("nut" if is_nut(size, None) else "screw")
    found = relief(size, side)
    notes = []
    if not found.exact:
        text = "taken from the row for a pitch of {pitch}: DIN 76-1 is for ISO metric threads"
        notes.append(Note("info", say(text, pitch=_as_tabled(found.row_pitch))))
    past = say("e1 {row}; the drill's point comes on top", row=_row(found, found.overrun))
    short = say("e2 {row}", row=_row(found, found.overrun_short))
    figures = [
        *_plunge(size, side, found, shop),
        *_groove(size, side, found),
        *_run_out(found),
        _chamfer(size, side),
        _size("blind_overrun", "Blind: drill past by", found.overrun, found.overrun_source, past, "up"),
        _size("blind_overrun_short", "Blind, short: past by", found.overrun_short, _E2, short, "up"),
    ]
    core, outside = limits(size).minor_basic, size.diameter
    if side == "screw":
        moment, minor = Situation(machine="lathe", thread=size, work_diameter=outside), outside - 2 * form(size).depth
    else:
        moment, minor = Situation(machine="lathe", thread=size, bore=core), core
    drawn = relief_picture(thread=size, relief=found, minor=minor, side=side)
    return Answer(figures=tuple(figures), pictures=(drawn,), notes=tuple(notes), moments=(moment,))


def _plunge(size: Thread, side: Side, found: Relief, shop: Shop) -> list[Figure]:
    """The groove's depth on the cross slide, from the touch on the outside of the screw or in the nut's bore."""
    if shop.lathe is None:
        return []
    slide = shop.lathe.cross_slide
    touch = size.diameter if side == "screw" else limits(size).minor_basic
    large, small = max(touch, found.diameter), min(touch, found.diameter)
    deep = (mm(large) - mm(small)) / 2
    stands = slide_setting(slide, float(deep))
    setting = on_slide("Cross slide", slide, stands, "in" if side == "screw" else "out", float(deep))
    where = "the thread's outside" if side == "screw" else "the bore, at the basic minor diameter"
    why = say("{sums}; from the touch on {where}", sums=deep, where=where)
    return [to_set("setting", "Groove, from touch", setting, _DIAL, why)]


def _size(name: str, label: str, value: float, source: str, working: Text, side: Rounding = "nearest") -> Figure:
    return Figure(name, label, value, "length", source, working, decimals=2, side=side)


def _as_tabled(value: float) -> Text:
    """In the millimetres of the standard's table whatever is on the screen."""
    return own(plain(value), "mm")


def _row(found: Relief, value: float) -> Text:
    return say("of the row for {pitch} = {value}", pitch=_as_tabled(found.row_pitch), value=_as_tabled(value))


def _groove(size: Thread, side: Side, found: Relief) -> list[Figure]:
    wide, tight = ("A", "B") if side == "screw" else ("C", "D")
    step = mm(abs(found.diameter - size.diameter))
    across = mm(size.diameter) - step if found.diameter < size.diameter else mm(size.diameter) + step

    def tabled(name: str, label: str, of: str, value: float, form_: str, side: Rounding = "nearest") -> Figure:
        why = say("{of} {row}; form {form}", of=of, row=_row(found, value), form=form_)
        return _size(name, label, value, found.source, why, side)

    return [
        tabled("relief_width", "Groove width, most", "g2", found.width, wide, "down"),
        _size("relief_diameter", "Groove diameter", found.diameter, found.source, across),
        tabled("relief_floor", "Groove floor, least", "g1", found.floor, wide, "up"),
        tabled("relief_radius", "Corner radius, about", "r", found.radius, wide),
        tabled("relief_width_short", "Short groove, most", "g2", found.width_short, tight, "down"),
        tabled("relief_floor_short", "Short floor, least", "g1", found.floor_short, tight, "up"),
    ]


def _run_out(found: Relief) -> list[Figure]:
    """The incomplete thread of a screw without a groove."""
    if found.run_out is None or found.run_out_short is None or found.to_shoulder is None:
        return []

    def tabled(name: str, label: str, of: str, value: float) -> Figure:
        return _size(name, label, value, found.source, say("{of} {row}", of=of, row=_row(found, value)), "down")

    return [
        tabled("run_out", "Thread run-out", "x1", found.run_out),
        tabled("run_out_short", "Thread run-out, short", "x2", found.run_out_short),
        tabled("to_shoulder", "Thread to shoulder", "a1", found.to_shoulder),
    ]


def _chamfer(size: Thread, side: Side) -> Figure:
    outside = mm(size.diameter)
    if side == "nut":
        source = "DIN 76-1:2016, from memory, unconfirmed: 1 to 1.05 D"
        up_to = 1.05 * outside
        return figure("chamfer_diameter", "Countersink 120° to", up_to, source, decimals=2, side="down")
    down_to = outside - 2 * mm(form(size).depth)
    twice = say("{sums}; twice the depth of the thread", sums=down_to)
    source = "ISO 4753, from memory: at or below the root"
    return figure("chamfer_diameter", "Chamfer 45° down to", down_to, source, twice, decimals=2, side="down")


def _three_diameters(inputs: ThreadReliefInputs, answer: Answer, shop: Shop) -> Text:
    """How far slender work may stand out."""
    if (inputs.side or "screw") == "nut" or is_nut(inputs.size, None):
        return ""
    most = shown(_SLENDER * inputs.size.diameter, decimals=1, side="down")
    return say("three diameters are {most}", most=most)


OPERATION = Operation(
    id="thread-relief",
    pane="threads",
    place=80,
    title="Relief and run-out",
    words="undercut groove chamfer shoulder relief run-out runout recess thread end blind hole overrun DIN 76 neck "
    "necking lead-in countersink",
    machine="lathe",
    inputs=ThreadReliefInputs,
    work=_work,
    tool="grooving tool",
    hazards=("turning", "chuck"),
    example={"size": "M10"},
    troubles={"TH-03": room_at_the_end, "TU-01": _three_diameters},
    help="The groove that lets the tool run out, the run-out without one, chamfers, and a blind hole's overrun.",
)
