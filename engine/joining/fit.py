"""Limits and fits: a hole and a shaft by ISO 286 or by a shop allowance, and what stands between them."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure, info, warning, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import Sum, mm, num
from engine.base.words import Text, bare, say, shown
from engine.joining.fits import Allowance, Fit, allowance, fit_of
from engine.joining.joint_pictures import zones_picture
from engine.joining.troubles import warm_growth
from engine.shop.model import Shop
from engine.situation import Situation

_OFF_SIZE = 0.05  # of the diameter, and 0.2 mm at least: a hole further off was misread (common practice, no source)


@dataclass(frozen=True, slots=True, kw_only=True)
class FitInputs:
    """What `fit` is told.

    diameter: Nominal, of hole and shaft alike.
    fit: A hole and a shaft of ISO 286, or the shop's words press, force, running.
    hole: Says what to turn the shaft to for a hole that is already there.
    """

    diameter: float = ask.length("Diameter", high=500, example="12")
    fit: str = ask.text("Fit", example="H7/g6")
    hole: float | None = ask.length("Measured hole", high=600, example="12.01", empty="not measured")


def _check_hole(inputs: FitInputs) -> None:
    """A measured hole lies near the diameter that both parts are called by."""
    if inputs.hole is None:
        return
    reach = max(_OFF_SIZE * inputs.diameter, 0.2)
    low, high = inputs.diameter - reach, inputs.diameter + reach
    if not low <= inputs.hole <= high:
        near = say("{low} to {high}, near the diameter", low=bare(low, side="up"), high=shown(high, side="down"))
        raise BadInput("hole", shown(inputs.hole), near)


def _check_shaft(inputs: FitInputs, least: float) -> None:
    """Something is left of the smallest shaft: ISO 286 gives its deviations down to no diameter at all."""
    if least <= 0:
        off = shown(inputs.diameter - least, decimals=4, side="up")
        taken = say("more than {off}, which this fit takes off the shaft", off=off)
        raise BadInput("diameter", shown(inputs.diameter, decimals=4), taken)


def _work(inputs: FitInputs, shop: Shop) -> Answer:
    _check_hole(inputs)
    by_rule = allowance(inputs.fit, inputs.diameter)
    if by_rule is not None:
        return _by_rule(inputs, by_rule)
    found = fit_of(inputs.fit, inputs.diameter)
    _check_shaft(inputs, found.shaft_min)
    figures = [*_limit_figures(inputs, found), *_clearance_figures(found)]
    if inputs.hole is not None:
        figures += _measured_figures(inputs.hole, found)
    drawn = zones_picture(nominal=inputs.diameter, hole=(found.hole_min, found.hole_max),
        shaft=(found.shaft_min, found.shaft_max), kind=found.kind, measured=inputs.hole)  # fmt: skip
    notes = tuple(_notes(inputs, found))
    return Answer(tuple(figures), pictures=(drawn,), notes=notes, moments=(_moment(found.kind != "clearance"),))


def _moment(tight: bool) -> Situation:
    return Situation(machine="bench", interference=tight)


def _limit_figures(inputs: FitInputs, found: Fit) -> list[Figure]:
    d = mm(inputs.diameter)
    hole, shaft = (found.hole_min, found.hole_max), (found.shaft_min, found.shaft_max)
    rows = (
        ("hole_max", "Hole, largest", found.hole_max, found.hole_source, hole),
        ("hole_min", "Hole, smallest", found.hole_min, found.hole_source, hole),
        ("shaft_max", "Shaft, largest", found.shaft_max, found.shaft_source, shaft),
        ("shaft_min", "Shaft, smallest", found.shaft_min, found.shaft_source, shaft),
    )
    return [
        Figure(
            name, label, value, "length", source,
            d + mm(value - inputs.diameter) if value >= inputs.diameter else d - mm(inputs.diameter - value),
            low=limits[0], high=limits[1], decimals=4, side="down" if name.endswith("max") else "up",
        )
        for name, label, value, source, limits in rows
    ]  # fmt: skip


def _clearance_figures(found: Fit) -> list[Figure]:
    source = "arithmetic on the limits"
    most, least = mm(found.hole_max) - mm(found.shaft_min), mm(found.hole_min) - mm(found.shaft_max)
    below: Text = say("{sum}; below zero it is interference", sum=least) if least.value < 0 else least
    return [
        figure("clearance_max", "Most clearance", most, source, decimals=4),
        figure("clearance_min", "Least clearance", least, source, below, decimals=4),
        words("kind", "Kind of fit", found.kind, "ISO 286-1:2010",
              "clearance when the least is not below zero, interference when the most is not above it"),
    ]  # fmt: skip


def _measured_figures(hole: float, found: Fit) -> list[Figure]:
    source = "arithmetic: the fit's own clearances from the measured hole"
    return [
        figure("shaft_for_hole_max", "Shaft to it, largest", mm(hole) - mm(found.clearance_min), source, decimals=4,
        side="down"),
        figure("shaft_for_hole_min", "Shaft to it, smallest", mm(hole) - mm(found.clearance_max), source, decimals=4,
        side="up"),
    ]  # fmt: skip


def _notes(inputs: FitInputs, found: Fit) -> list[Note]:
    notes = []
    if inputs.hole is not None and not found.hole_min <= inputs.hole <= found.hole_max:
        side = "below" if inputs.hole < found.hole_min else "above"
        text = f"The measured hole lies {side} its own limits; the shaft can still be made to it."
        notes.append(warning(text))
    if found.kind == "transition":
        notes.append(info("Parts inside their limits may come out loose or tight: fit the shaft to the hole."))
    return notes


def _by_rule(inputs: FitInputs, rule: Allowance) -> Answer:
    """A shop allowance: the shaft for the hole (nominal, or as measured)."""
    hole = mm(inputs.hole if inputs.hole is not None else inputs.diameter)
    tight, d = rule.high > 0, mm(inputs.diameter)
    low, high = (_extra(constant, rate, d) for constant, rate in (rule.least, rule.most))
    figures = (
        figure("shaft_max", "Shaft, largest", hole + high if tight else hole - high, rule.source, decimals=3,
        side="down"),
        figure("shaft_min", "Shaft, smallest", hole + low if tight else hole - low, rule.source, decimals=3, side="up"),
        figure("clearance_max", "Most clearance", -low if tight else low, rule.source, decimals=3),
        figure("clearance_min", "Least clearance", -high if tight else high, rule.source, decimals=3),
        words("kind", "Kind of fit", "interference" if tight else "clearance", rule.source,
              "by a shop allowance for the diameter"),
    )  # fmt: skip
    note = info("A shop allowance, to a hole that is already there; no ISO limits.")
    shaft = (float(figures[1].value or 0.0), float(figures[0].value or 0.0))
    _check_shaft(inputs, shaft[0])
    drawn = zones_picture(nominal=inputs.diameter, hole=(float(hole), float(hole)), shaft=shaft,
        kind="interference" if tight else "clearance")  # fmt: skip
    return Answer(figures, pictures=(drawn,), notes=(note,), moments=(_moment(tight),))


def _extra(constant: float, rate: float, d: Sum) -> Sum:
    by_size = num(abs(rate)) * d
    return mm(abs(constant)) + by_size if constant else by_size


OPERATION = Operation(
    id="fit",
    pane="joining",
    place=30,
    title="Limits and fits",
    words="ISO 286 H7 g6 hole shaft clearance press interference tolerance running force sliding transition limits bush "
    "bearing allowance",
    machine="bench",
    inputs=FitInputs,
    work=_work,
    hazards=("pressing",),
    example={"diameter": "12", "fit": "H7/g6"},
    troubles={"FI-01": warm_growth},
    help="Limits of a hole and a shaft by ISO 286 or by a shop allowance, and what stands between them.",
)
