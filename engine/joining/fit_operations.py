"""The operations `fit` and `retain`: limits of two parts that go together."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note
from engine.base.operation import Operation
from engine.base.quantity import show, show_number, worked
from engine.base.refusals import BadInput
from engine.base.rounding import Side
from engine.base.words import bare, say, shown
from engine.joining.fits import Allowance, Fit, allowance, fit_of
from engine.joining.retaining import GAP_HIGH, GAP_LOW, GAP_SOURCE, LEAST_GAP, STRESS_ALLOWED, shear_stress
from engine.shop.model import Shop

_OFF_SIZE = (
    0.05  # of the diameter, and 0.2 mm at least: a hole further off was misread (common practice, no source)
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FitInputs:
    """What `fit` is told."""

    diameter: float = ask.length("Diameter", high=500, example="12", help="Nominal, of hole and shaft alike.")
    fit: str = ask.text(
        "Fit",
        example="H7/g6",
        help="A hole and a shaft of ISO 286, or the shop's words press, force, running.",
    )
    hole: float | None = ask.length(
        "Measured hole",
        high=600,
        required=False,
        example="12.01",
        empty="not measured",
        help="Says what to turn the shaft to for a hole that is already there.",
    )


def _check_hole(inputs: FitInputs) -> None:
    """A measured hole lies near the diameter that both parts are called by."""
    if inputs.hole is None:
        return
    reach = max(_OFF_SIZE * inputs.diameter, 0.2)
    low, high = inputs.diameter - reach, inputs.diameter + reach
    if not low <= inputs.hole <= high:
        near = say(
            "{low} to {high}, near the diameter", low=bare(low, side="up"), high=shown(high, side="down")
        )
        raise BadInput("hole", say("{hole}", hole=shown(inputs.hole)), near)


def _fit(inputs: FitInputs, shop: Shop) -> Answer:
    _check_hole(inputs)
    by_rule = allowance(inputs.fit, inputs.diameter)
    if by_rule is not None:
        return _by_rule(inputs, by_rule, shop.unit)
    found = fit_of(inputs.fit, inputs.diameter)
    figures = [*_limit_figures(inputs, found, shop.unit), *_clearance_figures(found, shop.unit)]
    if inputs.hole is not None:
        figures += _measured_figures(inputs.hole, found, shop.unit)
    return Answer(tuple(figures), notes=tuple(_fit_notes(inputs, found)))


def _put(value: float, unit: str) -> str:
    """A limit as it is put into a working: a tenth of what is shown, so that the differences come out."""
    digits = show_number(value, "length", unit, decimals=5)
    return digits.rstrip("0").rstrip(".")


def _limit_figures(inputs: FitInputs, found: Fit, unit: str) -> list[Figure]:
    d = inputs.diameter
    hole, shaft = (found.hole_min, found.hole_max), (found.shaft_min, found.shaft_max)
    rows = (
        ("hole_max", "Hole, largest", found.hole_max, found.hole_source, hole),
        ("hole_min", "Hole, smallest", found.hole_min, found.hole_source, hole),
        ("shaft_max", "Shaft, largest", found.shaft_max, found.shaft_source, shaft),
        ("shaft_min", "Shaft, smallest", found.shaft_min, found.shaft_source, shaft),
    )
    return [
        Figure(
            name,
            label,
            value,
            "length",
            source,
            f"{_put(d, unit)} {'+' if value >= d else '-'} {_put(abs(value - d), unit)}",
            low=limits[0],
            high=limits[1],
            decimals=4,
            side="down" if name.endswith("max") else "up",
        )
        for name, label, value, source, limits in rows
    ]


def _clearance_figures(found: Fit, unit: str) -> list[Figure]:
    source = "arithmetic on the limits"
    return [
        Figure(
            "clearance_max",
            "Clearance, most (minus: tight)",
            found.clearance_max,
            "length",
            source,
            f"{_put(found.hole_max, unit)} - {_put(found.shaft_min, unit)}",
            decimals=4,
        ),
        Figure(
            "clearance_min",
            "Clearance, least (minus: tight)",
            found.clearance_min,
            "length",
            source,
            f"{_put(found.hole_min, unit)} - {_put(found.shaft_max, unit)}",
            decimals=4,
        ),
        Figure(
            "kind",
            "Kind of fit",
            None,
            "text",
            "ISO 286-1:2010",
            "clearance when the least is not below nought, interference when the most is not above it",
            text=found.kind,
        ),
    ]


def _measured_figures(hole: float, found: Fit, unit: str) -> list[Figure]:
    source = "arithmetic: the fit's own clearances from the measured hole"
    high, low = hole - found.clearance_min, hole - found.clearance_max
    return [
        Figure(
            "shaft_for_hole_max",
            "For the measured hole: shaft, largest",
            high,
            "length",
            source,
            f"{_put(hole, unit)} - ({_put(found.clearance_min, unit)})",
            decimals=4,
            side="down",
        ),
        Figure(
            "shaft_for_hole_min",
            "For the measured hole: shaft, smallest",
            low,
            "length",
            source,
            f"{_put(hole, unit)} - ({_put(found.clearance_max, unit)})",
            decimals=4,
            side="up",
        ),
    ]


def _fit_notes(inputs: FitInputs, found: Fit) -> list[Note]:
    notes = []
    if inputs.hole is not None and not found.hole_min <= inputs.hole <= found.hole_max:
        side = "below" if inputs.hole < found.hole_min else "above"
        notes.append(
            Note(
                "warning", f"The measured hole lies {side} its own limits; the shaft can still be made to it."
            )
        )
    if found.kind == "transition":
        notes.append(
            Note("info", "Parts inside their limits may come out loose or tight: fit the shaft to the hole.")
        )
    return notes


def _by_rule(inputs: FitInputs, rule: Allowance, unit: str) -> Answer:
    """A shop allowance: the shaft for the hole (nominal, or as measured)."""
    hole = inputs.hole if inputs.hole is not None else inputs.diameter
    tight, one_size = rule.high > 0, rule.high == rule.low
    bore, d = _put(hole, unit), _put(inputs.diameter, unit)

    def shaft(name: str, label: str, extra: float, side: Side) -> Figure:
        words = f"{bore} {'+' if tight else '-'} {abs(extra) / inputs.diameter:.6g} x {d}"
        # A rule of one number has no room between its limits: rounded apart they would cross.
        side = "nearest" if one_size else side
        return Figure(name, label, hole + extra, "length", rule.source, words, decimals=4, side=side)

    def clearance(name: str, label: str, value: float) -> Figure:
        words = f"{'-' if tight else ''}{abs(value) / inputs.diameter:.6g} x {d}"
        return Figure(name, label, value, "length", rule.source, words, decimals=4)

    figures = (
        shaft("shaft_max", "Shaft, largest", rule.high, "down"),
        shaft("shaft_min", "Shaft, smallest", rule.low, "up"),
        clearance("clearance_max", "Clearance, most (minus: tight)", -rule.low),
        clearance("clearance_min", "Clearance, least (minus: tight)", -rule.high),
        Figure(
            "kind",
            "Kind of fit",
            None,
            "text",
            rule.source,
            "by a shop allowance for the diameter",
            text="interference" if tight else "clearance",
        ),
    )
    return Answer(
        figures, notes=(Note("info", "A shop allowance, to a hole that is already there; no ISO limits."),)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class RetainInputs:
    """What `retain` is told."""

    diameter: float = ask.length(
        "Diameter of the hole", low=0.5, high=500, example="10", help="As it is, or will be."
    )
    gap: float | None = ask.length(
        "Gap on the diameter",
        low=-5,
        high=5,
        required=False,
        example="0.08",
        empty="not measured",
        help="Hole less shaft, as measured.",
    )
    load: float | None = ask.quantity(
        "Load along the joint",
        "force",
        low=0.1,
        high=1e6,
        required=False,
        example="500 N",
        empty="not given",
        help="What the joint has to hold.",
    )
    length: float | None = ask.length(
        "Length of the joint",
        high=1000,
        required=False,
        example="8",
        empty="not given",
        help="How far the shaft goes into the hole.",
    )


def _retain(inputs: RetainInputs, shop: Shop) -> Answer:
    d, unit = inputs.diameter, shop.unit
    hole, least, most = (worked(size, unit) for size in (d, GAP_LOW, GAP_HIGH))
    how = " in, as the guide prints it" if unit == "inch" else " in x 25.4"
    low, high = f"0.002{how}", f"0.005{how}"
    figures = [
        Figure("gap_low", "Gap on the diameter, least", GAP_LOW, "length", GAP_SOURCE, low, side="up"),
        Figure("gap_high", "Gap on the diameter, most", GAP_HIGH, "length", GAP_SOURCE, high, side="down"),
        Figure(
            "shaft_max",
            "Turn the shaft to, largest",
            d - GAP_LOW,
            "length",
            GAP_SOURCE,
            f"{hole} - {least}",
            side="down",
        ),
        Figure(
            "shaft_min",
            "Turn the shaft to, smallest",
            d - GAP_HIGH,
            "length",
            GAP_SOURCE,
            f"{hole} - {most}",
            side="up",
        ),
        *_strength_figures(inputs, unit),
    ]
    return Answer(tuple(figures), notes=tuple(_retain_notes(inputs, shop)))


def _strength_figures(inputs: RetainInputs, unit: str) -> list[Figure]:
    """Length for a load, load for a length, or the stress when both are given."""
    d, load, joint = inputs.diameter, inputs.load, inputs.length
    force, length, stress = ("lbf", "in", "psi") if unit == "inch" else ("N", "mm", "MPa")
    around = f"3.14159 x {worked(d, unit)} {length}"
    bears = f"{worked(STRESS_ALLOWED, unit, 'stress')} {stress}"
    source = (
        f"{show(STRESS_ALLOWED, 'stress', unit)} allowed, a third of {show(15, 'stress', unit)} to "
        f"{show(25, 'stress', unit)} on clean steel: from memory, unconfirmed; the data sheet decides"
    )
    figures = []
    if load is not None:
        pull = f"{worked(load, unit, 'force')} {force}"
        needed = shear_stress(load=load, diameter=d, length=1.0) / STRESS_ALLOWED
        words = f"{pull} ÷ ({around} x {bears})"
        label = "Length of joint wanted"
        figures.append(Figure("length_needed", label, needed, "length", source, words, decimals=1, side="up"))
        if joint is not None:
            found = shear_stress(load=load, diameter=d, length=joint)
            words = f"{pull} ÷ ({around} x {worked(joint, unit)} {length})"
            area = "load over the area of the joint"
            figures.append(Figure("stress", "Shear in the joint", found, "stress", area, words, decimals=2))
    elif joint is not None:
        held = STRESS_ALLOWED / shear_stress(load=1.0, diameter=d, length=joint)
        words = f"{around} x {worked(joint, unit)} {length} x {bears}"
        label = "Load the joint may bear"
        figures.append(Figure("load_allowed", label, held, "force", source, words, side="down"))
    return figures


def _retain_notes(inputs: RetainInputs, shop: Shop) -> list[Note]:
    notes = []
    if inputs.gap is not None:
        gap = show(inputs.gap, "length", shop.unit)
        if inputs.gap < LEAST_GAP:
            notes.append(Note("warning", f"A gap of {gap} is too tight: the compound is wiped out of it."))
        elif inputs.gap < GAP_LOW:
            least = show(LEAST_GAP, "length", shop.unit)
            notes.append(
                Note("info", f"A gap of {gap} is close, yet above the least of {least}: assemble slowly.")
            )
        elif inputs.gap > GAP_HIGH:
            notes.append(
                Note("warning", f"A gap of {gap} is wide: use a gap-filling grade, or a closer shaft.")
            )
        else:
            notes.append(Note("info", f"A gap of {gap} is in the range."))
    if inputs.load is not None and inputs.length is not None:
        stress = shear_stress(load=inputs.load, diameter=inputs.diameter, length=inputs.length)
        if stress > STRESS_ALLOWED:
            bears = show(stress, "stress", shop.unit, decimals=1)
            notes.append(Note("warning", f"The joint would bear {bears}: make it longer, or pin it too."))
    notes.append(
        Note(
            "info",
            "Degrease both parts. Each grade has a gap of its own: its data sheet goes before this range.",
        )
    )
    return notes


OPERATIONS = {
    "fit": Operation(
        id="fit",
        inputs=FitInputs,
        work=_fit,
        hazards=("measuring",),
        example={"diameter": "12", "fit": "H7/g6"},
        help="Limits of a hole and a shaft by ISO 286 or by a shop allowance, and what stands between them.",
    ),
    "retain": Operation(
        id="retain",
        inputs=RetainInputs,
        work=_retain,
        hazards=("adhesive",),
        example={"diameter": "10", "load": "500 N", "length": "8"},
        help="The gap for a retaining compound, and how long the joint must be for a load.",
    ),
}
