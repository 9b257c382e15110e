"""The operation of measuring a screw over three wires."""

from __future__ import annotations

from math import radians, sin

from engine.base.answer import Answer, Figure, Note, Picture
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.base.rounding import Side
from engine.indexing.dials import slide_setting
from engine.shop.model import Shop, Slide
from engine.threads.groove_pictures import profile_of, wires_picture
from engine.threads.screwcutting import slide_travel
from engine.threads.sides import addendum
from engine.threads.wires import EXACT_ABOVE, lead_term, pitch_diameter
from engine.threads.wires_case import Case, ThreeWiresInputs, plan_case

_RANGE = "geometry of the flank; a gauge maker's catalogue for the published ranges"
_READS = "the measurement over wires, solved for the pitch diameter"
_DIAL = "geometry; the setting rounded to the line short of it (common practice, no source)"
_STEEPEST_SLIDE = 60.0  # deg: a top slide beyond it is not set for screwcutting


def _over_figures(case: Case) -> list[Figure]:
    """The measurement over wires at both limits and at the basic size."""
    sizes, found = case.limits, []
    rows: tuple[tuple[str, str, float | None, Side], ...] = (
        ("over_wires_max", "Over wires, largest", sizes.ext_pitch_max, "down"),
        ("over_wires_min", "Over wires, smallest", sizes.ext_pitch_min, "up"),
        ("over_wires_basic", "Over wires, basic size", sizes.pitch_basic, "nearest"),
    )
    for name, label, diameter, side in rows:
        if diameter is not None:
            found.append(
                Figure(
                    name, label, case.over(diameter), "length", case.source, case.working(diameter), side=side
                )
            )
    return found


def _wire_figures(case: Case, given: float | None) -> list[Figure]:
    angle, pitch = case.groove.half_angle, case.groove.pitch
    wires, basic = case.wires, case.limits.pitch_basic
    if given is not None:
        why = "as given"
    elif case.wire == wires.best:
        why = "none of the owned wires will serve, so the best wire"
    else:
        best_wire, smallest, largest = (
            case.put(size) for size in (wires.best, wires.smallest, wires.largest)
        )
        why = f"the owned wire nearest the best, {best_wire}, within {smallest} to {largest}"
    best = f"{case.put(pitch)} ÷ (2 x cos {angle:g}°)"
    if case.groove.steep:
        best = f"the wire that touches at the pitch diameter {case.put(basic)}, solved with the helix"
    figures = [
        Figure("wire", "Wires used", case.wire, "length", _RANGE, why),
        Figure("best_wire", "Best wire", wires.best, "length", _RANGE, best),
        Figure("wire_min", "Smallest wire", wires.smallest, "length", _RANGE, _level(case), side="up"),
        Figure("wire_max", "Largest wire", wires.largest, "length", _RANGE, _riding(case), side="down"),
        Figure(
            "lead_correction",
            "Lead adds",
            lead_term(case.groove, pitch_diameter=basic, wire=case.wire),
            "length",
            case.source,
            _lead_working(case),
            decimals=4,
        ),
    ]
    if case.flat:
        figures.append(
            Figure(
                "force_correction",
                "Force takes off",
                case.flat,
                "length",
                "Hertz, crossed steel cylinders; derived, no published row to compare with",
                "approach of the single wire and of the pair on their flanks, divided by sin of the flank angle",
                decimals=4,
            )
        )
    return figures


def _level(case: Case) -> str:
    """The sum behind the smallest wire."""
    words = "it stands level with the crest"
    if case.groove.steep:
        return f"{words}, solved with the helix"
    put, groove, angle = case.put, case.groove, f"{case.groove.half_angle:g}°"
    height = f"{put(2 * addendum(case.form))} + {put(groove.pitch)} ÷ 2 x cot {angle}"
    return f"(d - d2 + P ÷ 2 x cot a) ÷ (1 + 1 ÷ sin a) = ({height}) ÷ (1 + 1 ÷ sin {angle}); {words}"


def _riding(case: Case) -> str:
    """The sum behind the largest wire."""
    words = "it touches where the straight flank ends at the crest"
    if case.groove.steep:
        return f"{words}, solved with the helix"
    put, groove, angle = case.put, case.groove, f"{case.groove.half_angle:g}°"
    flank = addendum(case.form) - case.form.crest_radius * (1 - sin(radians(groove.half_angle)))
    height = f"{put(2 * flank)} + {put(groove.pitch)} ÷ 2 x cot {angle}"
    return f"({height}) ÷ (cos {angle} x cot {angle}); {words}, {put(flank)} above the pitch line"


def _lead_working(case: Case) -> str:
    groove, angle = case.groove, case.groove.lead_angle
    if groove.steep:
        return f"lead angle {angle:.2f}° is above {EXACT_ABOVE:g}°: exact contact less the measurement without lead"
    a = f"{groove.half_angle:g}°"
    return f"0.5 x {case.put(case.wire)} x tan² {angle:.3f}° x cos {a} x cot {a}"


def _told_diameter(case: Case, reading: float) -> float:
    """The pitch diameter a reading tells of; two pitches away from the basic one the reading is a slip."""
    basic, reach = case.limits.pitch_basic, 2 * case.groove.pitch
    low, high = case.over(max(basic - reach, basic / 2)), case.over(basic + reach)
    if not low <= reading <= high:
        bounds = [f"{show(low, 'length', unit)} to {show(high, 'length', unit)}" for unit in ("mm", "inch")]
        given = f"{show(reading, 'length', 'mm')} ({show(reading, 'length', 'inch')})"
        raise BadInput("reading", given, f"a reading over these wires, {bounds[0]} ({bounds[1]})")
    return pitch_diameter(case.groove, over=reading + case.flat, wire=case.wire)


def _reading_figures(case: Case, reading: float, shop: Shop) -> list[Figure]:
    """What a reading says, what is left to take off, and the dials for it."""
    sizes = case.limits
    diameter = _told_diameter(case, reading)
    low, high = sizes.ext_pitch_min, sizes.ext_pitch_max
    basic, put = sizes.pitch_basic, case.put
    told = Figure(
        "pitch_diameter",
        "Pitch diameter",
        diameter,
        "length",
        _READS,
        f"{put(reading)} over wires of {put(case.wire)}; the basic size {put(basic)} reads {put(case.over(basic))}",
        low=low,
        high=high,
    )
    if low is None or high is None:
        return [told]
    middle = (low + high) / 2
    state = "too big" if diameter > high + 1e-9 else "too small" if diameter < low - 1e-9 else "in limits"
    limits_words = f"pitch diameter {put(diameter)} against {put(low)} to {put(high)}"
    figures = [
        Figure("state", "State", None, "text", sizes.source_of("ext_pitch_max"), limits_words, text=state),
        told,
        Figure(
            "to_max",
            "Above the largest limit, on diameter",
            diameter - high,
            "length",
            sizes.source_of("ext_pitch_max"),
            f"{put(diameter)} - {put(high)}",
            side="up",
        ),
        Figure(
            "to_min",
            "Above the smallest limit, on diameter",
            diameter - low,
            "length",
            sizes.source_of("ext_pitch_min"),
            f"{put(diameter)} - {put(low)}",
            side="down",
        ),
    ]
    if diameter > high:
        figures.append(_infeed(case, "infeed_to_max", "Infeed to the largest limit", diameter, high, "up"))
    if diameter > middle:
        figures.append(
            _infeed(
                case, "infeed_to_middle", "Infeed to the middle of the limits", diameter, middle, "nearest"
            )
        )
        figures += _dial_figures((diameter - middle) / 2, shop)
    return figures


def _infeed(case: Case, name: str, label: str, diameter: float, target: float, side: Side) -> Figure:
    return Figure(
        name,
        label,
        (diameter - target) / 2,
        "length",
        "geometry: the pitch diameter falls by twice the infeed",
        f"({case.put(diameter)} - {case.put(target)}) ÷ 2",
        side=side,
    )


def _dial_figures(infeed: float, shop: Shop) -> list[Figure]:
    if shop.lathe is None:
        return []
    lathe = shop.lathe
    shown = worked(infeed, shop.unit)
    figures = _on_slide("cross", "Cross slide", infeed, lathe.cross_slide, f"infeed {shown}", shop.unit)
    angle = lathe.top_slide_angle
    if angle <= _STEEPEST_SLIDE:
        travel = slide_travel(depth=infeed, slide_angle=angle, half_angle=_STEEPEST_SLIDE).travel
        words = f"{shown} ÷ cos {angle:g}° = {worked(travel, shop.unit)}"
        figures += _on_slide("top", f"Or top slide at {angle:g}°", travel, lathe.top_slide, words, shop.unit)
    return figures


def _on_slide(name: str, label: str, travel: float, slide: Slide, words: str, unit: str) -> list[Figure]:
    setting = slide_setting(slide, travel, towards="short")
    line = float(slide.travel_per_turn / slide.divisions)
    twice = ", on a dial that reads diameter" if slide.reads_diameter else ""
    working = f"{words}: {setting.lines} lines of {show(line, 'length', unit)}{twice}"
    return [
        Figure(f"{name}_turns", f"{label}: turns", setting.turns, "count", _DIAL, working),
        Figure(f"{name}_reading", f"{label}: then on by", setting.reading, "length", _DIAL, working),
    ]


def _notes(case: Case, figures: list[Figure]) -> tuple[Note, ...]:
    notes = [Note("info", words) for words in case.limits.notes]
    if case.limits.ext_pitch_max is None and not case.groove.taper:
        notes.append(Note("warning", "No limits are published for this size: only its basic size is given."))
    if case.groove.taper:
        notes.append(Note("info", "Taper: measured at the gauge plane, with the single wire at that plane."))
    if any(figure.text == "too small" for figure in figures):
        notes.append(
            Note(
                "warning",
                "Over-cut: this screw is below its class. It may still do for a looser class or its own nut.",
            )
        )
    return tuple(notes)


def _picture(case: Case) -> Picture:
    basic = case.limits.pitch_basic
    return wires_picture(
        profile_of(case.form, pitch=case.groove.pitch),
        pitch_diameter=basic,
        lead=case.groove.lead,
        wire=case.wire,
        over_wires=case.over(basic),
        name=str(case.thread),
        unit=case.unit,
    )


def _three_wires(inputs: ThreeWiresInputs, shop: Shop) -> Answer:
    case = plan_case(inputs, shop)
    told = _reading_figures(case, inputs.reading, shop) if inputs.reading is not None else []
    figures = [*told, *_over_figures(case), *_wire_figures(case, inputs.wire)]
    return Answer(figures=tuple(figures), pictures=(_picture(case),), notes=_notes(case, figures))


OPERATIONS = {
    "three-wires": Operation(
        id="three-wires",
        inputs=ThreeWiresInputs,
        work=_three_wires,
        hazards=("measuring",),
        example={"size": "M10", "tolerance": "6g", "wire": "0.895", "reading": "10.42"},
        help="Says what to read over three wires, and from a reading what is left to take off.",
    )
}
