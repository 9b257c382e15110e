"""The operation of measuring a screw over three wires."""

from __future__ import annotations

from dataclasses import dataclass

from engine.answer import Answer, Figure, Note, Picture
from engine.errors import BadInput
from engine.indexing.dials import slide_setting
from engine.inputs import length, quantity, text, thread
from engine.operation import Operation
from engine.quantity import show
from engine.shop.model import Shop, Slide
from engine.threads.form import Form, form
from engine.threads.groove_pictures import profile_of, wires_picture
from engine.threads.limits import limits
from engine.threads.limits_types import Limits
from engine.threads.screwcutting import slide_travel
from engine.threads.sides import addendum, is_nut
from engine.threads.thread import Thread
from engine.threads.wire_force import flattening
from engine.threads.wires import (
    EXACT_ABOVE,
    Groove,
    WireRange,
    lead_term,
    over_wires,
    owned_wire,
    pitch_diameter,
    wire_range,
    without_lead,
)

_FORMULA = "Machinery's Handbook, 31st ed., pp. 2130-2135, with the lead term"
_EXACT = "exact contact with the helix, derived; agrees with Machinery's Handbook, 31st ed., p. 2136"
_TAPER = "a gauge maker's catalogue: E = 1.00049 M - 3.00049 w + 0.86603 p for 60 degrees and taper 1:16"
_RANGE = "geometry of the flank; a gauge maker's catalogue for the published ranges"
_READS = "the measurement over wires, solved for the pitch diameter"
_DIAL = "geometry; the setting rounded to the line short of it (common practice, no source)"
_STEEPEST_SLIDE = 60.0  # deg: a top slide beyond it is not set for screwcutting


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreeWiresInputs:
    """What `three-wires` is told."""

    size: Thread = thread("Thread", example="M10", help="The screw to measure.")
    tolerance: str | None = text(
        "Class", example="6g", empty="the usual one", help="The screw's tolerance class, such as 6g or 2A."
    )
    wire: float | None = length(
        "Wires",
        example="0.895",
        high=50,
        empty="the owned wire nearest the best, else the best",
        help="Diameter of the three wires.",
    )
    reading: float | None = length(
        "Reading over wires",
        example="10.42",
        high=2000,
        empty="not measured yet",
        help="What the micrometer shows over the wires.",
    )
    force: float | None = quantity(
        "Measuring force",
        "force",
        low=0,
        high=100,
        example="5 N",
        empty="not counted",
        help="Force of the micrometer, if its flattening of wires and flanks is to be counted.",
    )


@dataclass(frozen=True, slots=True)
class _Case:
    """All that the figures are made of. `flat` is what the measuring force takes off a reading."""

    thread: Thread
    form: Form
    limits: Limits
    groove: Groove
    wires: WireRange
    wire: float
    flat: float

    def over(self, diameter: float) -> float:
        """What is read over the wires for a pitch diameter."""
        return over_wires(self.groove, pitch_diameter=diameter, wire=self.wire) - self.flat

    @property
    def source(self) -> str:
        if self.groove.taper:
            return _TAPER
        return _EXACT if self.groove.steep else _FORMULA

    def working(self, diameter: float) -> str:
        """The sum behind `over`, with its numbers."""
        zero = without_lead(self.groove, pitch_diameter=diameter, wire=self.wire)
        lead = lead_term(self.groove, pitch_diameter=diameter, wire=self.wire)
        angle = self.groove.half_angle
        words = (
            f"{diameter:.4f} - {self.groove.pitch:.5g} ÷ 2 x cot {angle:g}°"
            f" + {self.wire:.5g} x (1 + 1 ÷ sin {angle:g}°) = {zero:.4f}"
        )
        if self.groove.taper:
            words = (
                f"({diameter:.4f} + 3.00049 x {self.wire:.5g} - 0.86603 x {self.groove.pitch:.5g}) ÷ 1.00049"
            )
            if angle != 30:
                words = "the taper pipe formula written for this flank angle"
            words += f" = {zero:.4f}"
        words += f"; lead adds {lead:.5f}"
        return words + (f"; the force takes off {self.flat:.5f}" if self.flat else "")


def _case(inputs: ThreeWiresInputs, shop: Shop) -> _Case:
    size = inputs.size
    if is_nut(size, inputs.tolerance):
        shown = inputs.tolerance or str(size)
        field = "tolerance" if inputs.tolerance else "size"
        text = f"{field}: {shown} is an internal thread; wires measure screws. Use a plug gauge for the nut."
        raise BadInput(field, shown, "a screw (external thread)", text)
    shape, sizes = form(size), limits(size, inputs.tolerance)
    basic = sizes.pitch_basic
    groove = Groove(
        half_angle=shape.half_angle,
        pitch=float(size.pitch),
        lead=float(size.lead),
        pitch_basic=basic,
        taper=float(size.taper),
    )
    wires = wire_range(groove, major=basic + 2 * addendum(shape), crest_radius=shape.crest_radius)
    if inputs.wire is not None and not wires.smallest <= inputs.wire <= wires.largest:
        raise _unfit(inputs.wire, wires)
    wire = inputs.wire or owned_wire(shop.wires, wires) or wires.best
    flat = 0.0
    if inputs.force:
        flat = flattening(force=inputs.force, wire=wire, pitch_diameter=basic, half_angle=groove.half_angle)
    return _Case(size, shape, sizes, groove, wires, wire, flat)


def _unfit(wire: float, wires: WireRange) -> BadInput:
    """A wire outside its range, in both units: the wires may be marked in either."""
    bounds = [
        f"{show(wires.smallest, 'length', unit, side='up')} to {show(wires.largest, 'length', unit, side='down')}"
        f", best {show(wires.best, 'length', unit)}"
        for unit in ("mm", "inch")
    ]
    given = f"{show(wire, 'length', 'mm')} ({show(wire, 'length', 'inch')})"
    accepted = f"{bounds[0]} ({bounds[1]}): smaller lies below the crest, larger rides on it"
    return BadInput("wire", given, accepted)


def _over_figures(case: _Case) -> list[Figure]:
    """The measurement over wires at both limits and at the basic size."""
    sizes, found = case.limits, []
    for name, label, diameter, side in (
        ("over_wires_max", "Over wires, largest", sizes.ext_pitch_max, "down"),
        ("over_wires_min", "Over wires, smallest", sizes.ext_pitch_min, "up"),
        ("over_wires_basic", "Over wires, basic size", sizes.pitch_basic, "nearest"),
    ):
        if diameter is not None:
            found.append(
                Figure(
                    name,
                    label,
                    case.over(diameter),
                    "length",
                    case.source,
                    case.working(diameter),
                    side=side,  # type: ignore[arg-type]  # a literal list of sides
                )
            )
    return found


def _wire_figures(case: _Case, given: float | None) -> list[Figure]:
    angle, pitch = case.groove.half_angle, case.groove.pitch
    wires, basic = case.wires, case.limits.pitch_basic
    if given is not None:
        why = "as given"
    elif case.wire == wires.best:
        why = "none of the owned wires will serve, so the best wire"
    else:
        why = f"the owned wire nearest the best, {wires.best:.4f}, within {wires.smallest:.4f} to {wires.largest:.4f}"
    best = f"{pitch:.5g} ÷ (2 x cos {angle:g}°)"
    if case.groove.steep:
        best = f"the wire that touches at the pitch diameter {basic:.4f}, solved with the helix"
    figures = [
        Figure("wire", "Wires used", case.wire, "length", _RANGE, why),
        Figure("best_wire", "Best wire", wires.best, "length", _RANGE, best),
        Figure(
            "wire_min",
            "Smallest wire",
            wires.smallest,
            "length",
            _RANGE,
            "stands level with the crest",
            side="up",
        ),
        Figure(
            "wire_max",
            "Largest wire",
            wires.largest,
            "length",
            _RANGE,
            "touches where the straight flank ends at the crest",
            side="down",
        ),
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


def _lead_working(case: _Case) -> str:
    groove, angle = case.groove, case.groove.lead_angle
    if groove.steep:
        return f"lead angle {angle:.2f}° is above {EXACT_ABOVE:g}°: exact contact less the measurement without lead"
    a = f"{groove.half_angle:g}°"
    return f"0.5 x {case.wire:.5g} x tan² {angle:.3f}° x cos {a} x cot {a}"


def _told_diameter(case: _Case, reading: float) -> float:
    """The pitch diameter a reading tells of; two pitches away from the basic one the reading is a slip."""
    basic, reach = case.limits.pitch_basic, 2 * case.groove.pitch
    low, high = case.over(max(basic - reach, basic / 2)), case.over(basic + reach)
    if not low <= reading <= high:
        bounds = [f"{show(low, 'length', unit)} to {show(high, 'length', unit)}" for unit in ("mm", "inch")]
        given = f"{show(reading, 'length', 'mm')} ({show(reading, 'length', 'inch')})"
        raise BadInput("reading", given, f"a reading over these wires, {bounds[0]} ({bounds[1]})")
    return pitch_diameter(case.groove, over=reading + case.flat, wire=case.wire)


def _reading_figures(case: _Case, reading: float, shop: Shop) -> list[Figure]:
    """What a reading says, what is left to take off, and the dials for it."""
    sizes = case.limits
    diameter = _told_diameter(case, reading)
    low, high = sizes.ext_pitch_min, sizes.ext_pitch_max
    basic = sizes.pitch_basic
    told = Figure(
        "pitch_diameter",
        "Pitch diameter",
        diameter,
        "length",
        _READS,
        f"{reading:.4f} over wires of {case.wire:.5g}; the basic size {basic:.4f} reads {case.over(basic):.4f}",
        low=low,
        high=high,
    )
    if low is None or high is None:
        return [told]
    middle = (low + high) / 2
    state = "too big" if diameter > high + 1e-9 else "too small" if diameter < low - 1e-9 else "in limits"
    limits_words = f"{diameter:.4f} against {low:.4f} to {high:.4f}"
    figures = [
        Figure("state", "State", None, "text", sizes.source_of("ext_pitch_max"), limits_words, text=state),
        told,
        Figure(
            "to_max",
            "Over the largest, on diameter",
            diameter - high,
            "length",
            sizes.source_of("ext_pitch_max"),
            f"{diameter:.4f} - {high:.4f}",
            side="up",
        ),
        Figure(
            "to_min",
            "Over the smallest, on diameter",
            diameter - low,
            "length",
            sizes.source_of("ext_pitch_min"),
            f"{diameter:.4f} - {low:.4f}",
            side="down",
        ),
    ]
    if diameter > high:
        figures.append(_infeed("infeed_to_max", "Infeed to the largest", diameter, high, "up"))
    if diameter > middle:
        figures.append(_infeed("infeed_to_middle", "Infeed to the middle", diameter, middle, "nearest"))
        figures += _dial_figures((diameter - middle) / 2, shop)
    return figures


def _infeed(name: str, label: str, diameter: float, target: float, side: str) -> Figure:
    return Figure(
        name,
        label,
        (diameter - target) / 2,
        "length",
        "geometry: the pitch diameter falls by twice the infeed",
        f"({diameter:.4f} - {target:.4f}) ÷ 2",
        side=side,  # type: ignore[arg-type]  # one of the two sides
    )


def _dial_figures(infeed: float, shop: Shop) -> list[Figure]:
    if shop.lathe is None:
        return []
    lathe = shop.lathe
    figures = _on_slide("cross", "Cross slide", infeed, lathe.cross_slide, f"infeed {infeed:.4f} mm")
    angle = lathe.top_slide_angle
    if angle <= _STEEPEST_SLIDE:
        travel = slide_travel(depth=infeed, slide_angle=angle, half_angle=_STEEPEST_SLIDE).travel
        words = f"or {infeed:.4f} ÷ cos {angle:g}° = {travel:.4f} mm"
        figures += _on_slide("top", f"Or top slide at {angle:g}°", travel, lathe.top_slide, words)
    return figures


def _on_slide(name: str, label: str, travel: float, slide: Slide, words: str) -> list[Figure]:
    setting = slide_setting(slide, travel, towards="short")
    line = float(slide.travel_per_turn / slide.divisions)
    twice = ", on a dial that reads diameter" if slide.reads_diameter else ""
    working = f"{words}: {setting.lines} lines of {line:.4g} mm{twice}"
    return [
        Figure(f"{name}_turns", f"{label}: turns", setting.turns, "count", _DIAL, working),
        Figure(f"{name}_reading", f"{label}: then on by", setting.reading, "length", _DIAL, working),
    ]


def _notes(case: _Case, figures: list[Figure]) -> tuple[Note, ...]:
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


def _picture(case: _Case) -> Picture:
    basic = case.limits.pitch_basic
    return wires_picture(
        profile_of(case.form, pitch=case.groove.pitch),
        pitch_diameter=basic,
        lead=case.groove.lead,
        wire=case.wire,
        over_wires=case.over(basic),
        name=str(case.thread),
    )


def _three_wires(inputs: ThreeWiresInputs, shop: Shop) -> Answer:
    case = _case(inputs, shop)
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
