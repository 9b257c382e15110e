"""What the operation `three-wires` is told, and the groove and wires that it comes down to."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.declare import length, quantity, text, thread
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.shop.model import Shop
from engine.threads.form import Form, form
from engine.threads.limits import limits
from engine.threads.limits_types import Limits
from engine.threads.sides import addendum, is_nut
from engine.threads.thread import Thread
from engine.threads.wire_force import flattening
from engine.threads.wires import Groove, WireRange, lead_term, over_wires, owned_wire, wire_range

_FORMULA = "Machinery's Handbook, 31st ed., pp. 2130-2135, with the lead term"
_EXACT = "exact contact with the helix, derived; agrees with Machinery's Handbook, 31st ed., p. 2136"
_TAPER = "a gauge maker's catalogue: E = 1.00049 M - 3.00049 w + 0.86603 p for 60 degrees and taper 1:16"


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
class Case:
    """All that the figures are made of. `flat` is what the measuring force takes off a reading; `unit` is the one on
    the screen, in which the workings are written."""

    thread: Thread
    form: Form
    limits: Limits
    groove: Groove
    wires: WireRange
    wire: float
    flat: float
    unit: str

    def put(self, size: float) -> str:
        """A length as it is put into a working."""
        return worked(size, self.unit)

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
        groove, put, angle = self.groove, self.put, f"{self.groove.half_angle:g}°"
        size, pitch, wire = put(diameter), put(groove.pitch), put(self.wire)
        if not groove.taper:
            rule = "d2 - P ÷ 2 x cot a + w (1 + 1 ÷ sin a)"
            sums = f"{size} - {pitch} ÷ 2 x cot {angle} + {wire} x (1 + 1 ÷ sin {angle})"
        elif groove.half_angle == 30:
            rule = "(E + 3.00049 w - 0.86603 p) ÷ 1.00049"
            sums = f"({size} + 3.00049 x {wire} - 0.86603 x {pitch}) ÷ 1.00049"
        else:
            slant = f"{groove.slant:.5f}"
            rule = "(d2 - P ÷ 2 x cot a + w (s + 1 ÷ sin a)) ÷ s"
            sums = f"({size} - {pitch} ÷ 2 x cot {angle} + {wire} x ({slant} + 1 ÷ sin {angle})) ÷ {slant}"
        lead = put(lead_term(groove, pitch_diameter=diameter, wire=self.wire))
        force, flat = (" - force", f" - {put(self.flat)}") if self.flat else ("", "")
        return f"{rule} + lead{force} = {sums} + {lead}{flat}"


def plan_case(inputs: ThreeWiresInputs, shop: Shop) -> Case:
    """Find the groove and the wires of a screw that is measured.

    Parameters
    ----------
    inputs : ThreeWiresInputs
        What was asked.
    shop : Shop
        What is owned: its wires, and the unit on the screen.

    Returns
    -------
    case : Case
        The groove, the wire used, and what the force takes off.

    Raises
    ------
    BadInput
        If a nut is meant, or the wire does not suit the thread.

    Sources
    -------
    engine.threads.wires and engine.threads.wire_force.

    Examples
    --------
    >>> from engine.base.declare import read
    >>> from engine.shop.file import sample
    >>> shop = sample("metric")
    >>> plan_case(read(ThreeWiresInputs, {"size": "M10"}, shop=shop), shop).wire
    0.895
    """
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
    return Case(size, shape, sizes, groove, wires, wire, flat, shop.unit)


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
