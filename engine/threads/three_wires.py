"""`three-wires`: what to read over three wires, and from a reading what is left to take off."""

from __future__ import annotations

from collections.abc import Iterator

from engine.accuracy.budget import budget_figures, budget_table, expanded
from engine.base.answer import Answer, Figure, Note, Picture, figure, to_set, words
from engine.base.declare import choice, length, quantity, text, thread
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.rounding import Side
from engine.base.sums import Sum, cos, cot, deg, mm, num, sin, tan
from engine.base.words import Text, formula, own, put, say, shown
from engine.indexing.dials import on_slide, slide_setting
from engine.shop.model import Shop, Slide
from engine.situation import Situation
from engine.threads.faults import most_pitch_diameter, where_it_binds
from engine.threads.form import addendum, form
from engine.threads.groove_pictures import profile_of, wires_picture
from engine.threads.limits import limits
from engine.threads.passes import slide_angle, slide_travel
from engine.threads.sides import check_sloping, is_nut
from engine.threads.thread import Thread
from engine.threads.told import Form, Limits
from engine.threads.wires import (
    Groove,
    WireRange,
    flattened,
    groove_of,
    lead_correction,
    over_wires,
    owned_wire,
    pitch_diameter,
    reading_shares,
    wire_range,
)

_EXACT = (
    "Machinery's Handbook, 31st ed., pp. 2130-2136, the lead by exact contact with the helix (derived; it agrees "
    "with the constants of p. 2136)"
)
_TAPER = "a gauge maker's catalogue: E = 1.00049 M - 3.00049 w + 0.86603 p for 60 degrees and taper 1:16"
_RANGE = "geometry of the flank; a gauge maker's catalogue for the published ranges"
_READS = "the measurement over wires, solved for the pitch diameter"
_DIAL = "geometry; the setting rounded to the line short of it (common practice, no source)"
_INFEED = "geometry: the pitch diameter falls by twice the infeed"
_WIRES_IN_USE = tells("wire {wire}, best {best_wire}")
_FORCE = "contact of crossed steel cylinders; derived, no published row to compare with"


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreeWiresInputs:
    """What `three-wires` is told.

    size: The screw to measure.
    tolerance: The screw's tolerance class, such as 6g or 2A.
    wire: Diameter of the three wires. Empty: the owned one nearest the best, else the best.
    reading: What the micrometer shows over the wires.
    force: Force of the micrometer, if its flattening of wires and flanks is to be counted.
    slide: The slide that the next cut is set on.
    """

    size: Thread = thread("Thread", example="M10")
    tolerance: str | None = text("Tolerance class", example="6g", empty="usual")
    wire: float | None = length("Wires", example="0.895", high=50, empty="best owned")
    reading: float | None = length("Reading over wires", example="10.42", high=2000, empty="none yet")
    force: float | None = quantity("Measuring force", "force", low=0, high=100, example="5 N", empty="not counted")
    slide: str | None = choice("Infeed by", ("top", "cross"), example="top", empty="top")


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
        return _TAPER if self.groove.taper else _EXACT

    def lead(self, diameter: float) -> float:
        """What the lead adds there."""
        return lead_correction(self.groove, pitch_diameter=diameter, wire=self.wire)

    def over_sum(self, diameter: float) -> Sum:
        """The sum behind `over`."""
        a, w = deg(self.groove.half_angle, symbol="a"), mm(self.wire, symbol="w")
        d2, pitch = mm(diameter, symbol="d2"), mm(self.groove.pitch, symbol="P")
        if self.groove.taper:
            s = num(self.groove.slant, symbol="s")
            straight = (d2 - pitch / 2 * cot(a) + w * (s + 1 / sin(a))) / s
        else:
            straight = d2 - pitch / 2 * cot(a) + w * (1 + 1 / sin(a))
        found: Sum = straight + mm(self.lead(diameter), symbol="lead")
        return found - mm(self.flat, symbol="force") if self.flat else found


def _case(inputs: ThreeWiresInputs, shop: Shop) -> _Case:
    size = inputs.size
    if is_nut(size, inputs.tolerance):
        shown_as = inputs.tolerance or str(size)
        field = "tolerance" if inputs.tolerance else "size"
        text = f"{field}: {shown_as} is an internal thread; wires measure screws. Use a plug gauge for the nut."
        raise BadInput(field, shown_as, "a screw (external thread)", text)
    check_sloping(size, "wires seat on flanks that slope. Measure its root with a narrow anvil")
    shape, sizes = form(size), limits(size, inputs.tolerance)
    basic = sizes.pitch_basic
    groove = groove_of(size, shape, basic)
    wires = wire_range(groove, major=basic + 2 * addendum(shape), crest_radius=shape.crest_radius)
    if inputs.wire is not None and not wires.smallest <= inputs.wire <= wires.largest:
        raise _unfit(inputs.wire, wires)
    wire = inputs.wire or owned_wire(shop.wires, wires) or wires.best
    flat = flattened(groove, wire=wire, force=inputs.force) if inputs.force else 0.0
    return _Case(size, shape, sizes, groove, wires, wire, flat)


def _in_both(length: float, side: Side = "nearest") -> tuple[Text, Text]:
    """A length in millimetres and in inches: wires and micrometers may be marked in either."""
    return own(shown(length, side=side), "mm"), own(shown(length, side=side), "inch")


def _unfit(wire: float, wires: WireRange) -> BadInput:
    """A wire outside its range, in both units."""
    sizes = zip(_in_both(wires.smallest, "up"), _in_both(wires.largest, "down"), _in_both(wires.best), strict=True)
    ranges = [say("{low} to {high}, best {best}", low=low, high=high, best=best) for low, high, best in sizes]
    metric, inch = _in_both(wire)
    accepted = say("{mm} ({inch}): smaller lies below the crest, larger rides on it", mm=ranges[0], inch=ranges[1])
    return BadInput("wire", say("{mm} ({inch})", mm=metric, inch=inch), accepted)


def _told_diameter(case: _Case, reading: float) -> float:
    """The pitch diameter a reading tells of; two pitches away from the basic one the reading is a slip."""
    basic, reach = case.limits.pitch_basic, 2 * case.groove.pitch
    low, high = case.over(max(basic - reach, basic / 2)), case.over(basic + reach)
    if not low <= reading <= high:
        ranges = [say("{low} to {high}", low=a, high=b) for a, b in zip(_in_both(low), _in_both(high), strict=True)]
        metric, inch = _in_both(reading)
        accepted = say("a reading over these wires, {mm} ({inch})", mm=ranges[0], inch=ranges[1])
        raise BadInput("reading", say("{mm} ({inch})", mm=metric, inch=inch), accepted)
    return pitch_diameter(case.groove, over=reading + case.flat, wire=case.wire)


def _over_figures(case: _Case) -> list[Figure]:
    """The measurement over wires at both limits and at the basic size."""
    sizes = case.limits
    rows: tuple[tuple[str, str, float | None, Side], ...] = (
        ("over_wires_max", "Over wires, largest", sizes.ext_pitch_max, "down"),
        ("over_wires_min", "Over wires, smallest", sizes.ext_pitch_min, "up"),
        ("over_wires_basic", "Over wires, basic", sizes.pitch_basic, "nearest"),
    )
    found = []
    for name, label, diameter, side in rows:
        if diameter is not None:
            over = case.over_sum(diameter)
            working = say("{rule} = {sums}", rule=formula(over), sums=over)
            found.append(figure(name, label, over, case.source, working, side=side))
    return found


def _wire_figures(case: _Case, given: float | None) -> list[Figure]:
    wires, basic = case.wires, case.limits.pitch_basic
    if given is not None:
        why: Text = "as given"
    elif case.wire == wires.best:
        why = "none of the owned wires will serve, so the best wire"
    else:
        text = "the owned wire nearest the best, {best}, within {low} to {high}"
        why = say(text, best=put(wires.best), low=put(wires.smallest), high=put(wires.largest))
    best, smallest, largest = _range_sums(case)
    lead = case.lead(basic), "length", case.source, _lead_working(case)
    found = [
        Figure("wire", "Wires used", case.wire, "length", _RANGE, why),
        Figure("best_wire", "Best wire", wires.best, "length", _RANGE, best),
        Figure("wire_min", "Smallest wire", wires.smallest, "length", _RANGE, smallest, side="up"),
        Figure("wire_max", "Largest wire", wires.largest, "length", _RANGE, largest, side="down"),
        Figure("lead_correction", "Lead-angle correction", *lead, decimals=4),
    ]
    if case.flat:
        pair = "approach of the single wire and of the pair on their flanks, divided by sin of the flank angle"
        found.append(Figure("force_correction", "Force takes off", case.flat, "length", _FORCE, pair, decimals=4))
    return found


def _range_sums(case: _Case) -> tuple[Text, Text, Text]:
    """The sums behind best, smallest and largest wire."""
    level = "it stands level with the crest"
    riding = "it touches where the straight flank ends at the crest"
    if case.groove.steep:
        basic = put(case.limits.pitch_basic)
        best: Text = say("the wire that touches at the pitch diameter {d2}, solved with the helix", d2=basic)
        return best, f"{level}, solved with the helix", f"{riding}, solved with the helix"
    a, pitch = deg(case.groove.half_angle, symbol="a"), mm(case.groove.pitch, symbol="P")
    above = addendum(case.form)
    flank = above - case.form.crest_radius * (1 - sin(case.groove.half_angle))
    rule = "(d - d2 + P ÷ 2 x cot a) ÷ (1 + 1 ÷ sin a) = {sums}; {why}"
    smallest = (mm(2 * above) + pitch / 2 * cot(a)) / (1 + 1 / sin(a))
    largest = (mm(2 * flank) + pitch / 2 * cot(a)) / (cos(a) * cot(a))
    return (
        pitch / (2 * cos(a)),
        say(rule, sums=smallest, why=level),
        say("{sums}; {why}, {flank} above the pitch line", sums=largest, why=riding, flank=put(flank)),
    )


def _lead_working(case: _Case) -> Text:
    groove = case.groove
    if not groove.taper:
        angle = shown(groove.lead_angle, "angle", decimals=2)
        return say("exact contact at a lead angle of {angle} less the measurement without lead", angle=angle)
    a, climb = deg(groove.half_angle), tan(deg(groove.lead_angle))
    term: Sum = num(0.5) * mm(case.wire) * climb**2 * cos(a) * cot(a)
    return term


def _state(case: _Case, diameter: float) -> str:
    low, high = case.limits.ext_pitch_min, case.limits.ext_pitch_max
    assert low is not None and high is not None
    return "too big" if diameter > high + 1e-9 else "too small" if diameter < low - 1e-9 else "in limits"


def _reading_figures(case: _Case, diameter: float, inputs: ThreeWiresInputs, shop: Shop) -> list[Figure]:
    """What a reading says, what is left to take off, and the dials for it."""
    sizes, reading = case.limits, inputs.reading
    assert reading is not None
    low, high, basic = sizes.ext_pitch_min, sizes.ext_pitch_max, sizes.pitch_basic
    text = "{reading} over wires of {wire}; the basic size {basic} reads {over}"
    read = say(text, reading=put(reading), wire=put(case.wire), basic=put(basic), over=put(case.over(basic)))
    told = Figure("pitch_diameter", "Pitch diameter", diameter, "length", _READS, read, low=low, high=high)
    if low is None or high is None:
        return [told]
    d2, most, least = mm(diameter), mm(high), mm(low)
    of_max, of_min = sizes.source_of("ext_pitch_max"), sizes.source_of("ext_pitch_min")
    against = say("pitch diameter {d2} against {low} to {high}", d2=put(diameter), low=put(low), high=put(high))
    state = words("state", "Result", _state(case, diameter), of_max, against)
    found = [
        figure("to_max", "Over the upper limit", d2 - most, of_max, side="up"),
        figure("to_min", "Over the lower limit", d2 - least, of_min, side="down"),
    ]
    if state.text == "too big":
        deep = (d2 - most) / 2
        found.append(figure("infeed_to_max", "Infeed to upper limit", deep, _INFEED, side="up"))
    middle = (low + high) / 2
    if diameter <= middle:
        return [state, told, *found]
    deep = (d2 - mm(middle)) / 2
    found.append(figure("infeed_to_middle", "Infeed to the middle", deep, _INFEED))
    dials, following = _dial_figures(case, deep, inputs.slide, shop)
    if state.text == "too big":
        least_off, most_off = diameter - high, diameter - low
        off = figure("take_off", "Take off, on diameter", d2 - mm(middle), _INFEED, low=least_off, high=most_off)
        return [*following, off, state, told, *found, *dials]
    return [state, told, *following, *found, *dials]


def _dial_figures(case: _Case, deep: Sum, chosen: str | None, shop: Shop) -> tuple[list[Figure], list[Figure]]:
    """Turns and reading on either slide; and the setting of the one that is used, where it moves a line at all."""
    lathe = shop.lathe
    if lathe is None:
        return [], []
    angle = slide_angle(lathe.top_slide_angle, case.form.half_angle)
    infeed = deep.known()
    travel = slide_travel(depth=float(deep), slide_angle=angle, half_angle=case.form.half_angle).travel
    along = say("{sums} = {travel}", sums=infeed / cos(deg(angle)), travel=put(travel))
    plain = say("infeed {deep}", deep=infeed)
    *cross, in_cross = _on_slide("cross", "Cross slide", float(deep), lathe.cross_slide, plain)
    *top, in_top = _on_slide("top", "Top slide", travel, lathe.top_slide, along)
    following = in_cross if chosen == "cross" else in_top
    moves = following.setting is not None and (following.setting.turns or following.setting.line)
    return [*cross, *top], [following] if moves else []


def _on_slide(name: str, wheel: str, travel: float, slide: Slide, sums: Text) -> list[Figure]:
    """Turns, reading and setting of one slide."""
    stands = slide_setting(slide, travel, towards="short")
    line, twice = shown(float(slide.travel_per_turn / slide.divisions)), slide.reads_diameter
    text = "{sums}: {lines} lines of {line}" + (", on a dial that reads diameter" if twice else "")
    working = say(text, sums=sums, lines=stands.lines, line=line)
    setting = on_slide(wheel, slide, stands, "on", travel)
    return [
        Figure(f"{name}_turns", f"{wheel}: turns", stands.turns, "count", _DIAL, working),
        Figure(f"{name}_reading", f"{wheel}: dial by", stands.reading, "length", _DIAL, working),
        to_set("setting", "Next cut, dial at 0", setting, _DIAL, working),
    ]


def _notes(case: _Case, diameter: float | None, good_to: float) -> Iterator[Note]:
    yield from (Note("info", words) for words in case.limits.notes)
    low, high = case.limits.ext_pitch_min, case.limits.ext_pitch_max
    if high is None and not case.groove.taper:
        yield Note("warning", "No limits are published for this size: only its basic size is given.")
    if case.groove.taper:
        yield Note("info", "Taper: measured at the gauge plane, with the single wire at that plane.")
    if diameter is None or low is None or high is None:
        return
    if _state(case, diameter) == "too small":
        over_cut = "Over-cut: this screw is below its class. It may still do for a looser class or its own nut."
        yield Note("warning", over_cut)
    near = min(abs(diameter - low), abs(diameter - high))
    if near < good_to:
        text = (
            "{near} from the {which} limit, and a reading is good to ±{good_to} at best: it may lie on the other "
            "side. Aim for the middle, or try a gauge or the nut."
        )
        which = "upper" if abs(diameter - high) == near else "lower"
        yield Note("warning", say(text, near=shown(near), which=which, good_to=shown(good_to, side="up")))


def _picture(case: _Case) -> Picture:
    basic, lead, wire = case.limits.pitch_basic, case.groove.lead, case.wire
    profile, over = profile_of(case.form, pitch=case.groove.pitch), case.over(basic)
    name = str(case.thread)
    return wires_picture(profile, pitch_diameter=basic, lead=lead, wire=wire, over_wires=over, name=name)


def _three_wires(inputs: ThreeWiresInputs, shop: Shop) -> Answer:
    case = _case(inputs, shop)
    diameter = _told_diameter(case, inputs.reading) if inputs.reading is not None else None
    told = _reading_figures(case, diameter, inputs, shop) if diameter is not None else []
    reading = inputs.reading or case.over(case.limits.pitch_basic)
    shares = reading_shares(case.groove, wire=case.wire, reading=reading, counted=bool(case.flat))
    figures = *told, *_over_figures(case), *_wire_figures(case, inputs.wire), *budget_figures(shares, "Reading good to")
    notes, moments = tuple(_notes(case, diameter, expanded(shares))), (Situation(machine="lathe", thread=inputs.size),)
    return Answer(figures, (budget_table(shares),), (_picture(case),), notes, moments=moments)


OPERATION = Operation(
    id="three-wires",
    pane="threads",
    place=30,
    title="Measure over wires",
    words="wire wires three pitch diameter effective measuring micrometer mike thread gauge over screw best size "
    "reading class limits infeed uncertainty pitch-diameter",
    inputs=ThreeWiresInputs,
    work=_three_wires,
    tool="three wires {wire}",
    hazards=("measuring",),
    example={"size": "M10", "tolerance": "6g", "wire": "0.895", "reading": "10.42"},
    troubles={"TH-01": where_it_binds, "TH-02": most_pitch_diameter, "TH-05": _WIRES_IN_USE},
    help="Says what to read over three wires, and from a reading what is left to take off.",
)
