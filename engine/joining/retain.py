"""Retaining compound: the gap it wants, and what its joint bears."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure, info, warning
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.sums import PI, leaf, mm
from engine.base.words import say, shown
from engine.joining.joint_pictures import gap_picture
from engine.joining.troubles import warm_growth
from engine.shop.model import Shop
from engine.situation import Situation

GAP_LOW, GAP_HIGH = 0.025, 0.075  # mm on the diameter
GAP_WIDE = 0.127  # mm on the diameter: 0.005 in, a bearing maker's guide to adhesive joints
LEAST_GAP = 0.01016  # mm on the diameter, 0.0004 in: the same guide's least gap without grooves
STRESS_ALLOWED = 5.0  # MPa: a third of 15 to 25 MPa for steel on steel; from memory, unconfirmed
_GAP_SOURCE = "the standard test joint, ASTM D4562: pin 12.650 to 12.675 in a collar of 12.700 to 12.725 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class RetainInputs:
    """What `retain` is told.

    diameter: As it is, or will be.
    gap: Hole less shaft, as measured.
    load: What the joint has to hold.
    length: How far the shaft goes into the hole.
    """

    diameter: float = ask.length("Diameter of the hole", low=0.5, high=500, example="10")
    gap: float | None = ask.length("Gap on the diameter", low=-5, high=5, example="0.05", empty="not measured")
    load: float | None = ask.quantity(
        "Load along the joint", "force", low=0.1, high=1e6, example="500 N", empty="not given"
    )
    length: float | None = ask.length("Length of the joint", high=1000, example="8", empty="not given")


def _work(inputs: RetainInputs, shop: Shop) -> Answer:
    hole, low, high = mm(inputs.diameter), mm(GAP_LOW), mm(GAP_HIGH)
    figures = [
        figure("gap_low", "Gap, diameter, least", low, _GAP_SOURCE, mm(12.7) - mm(12.675), side="up"),
        figure("gap_high", "Gap, diameter, most", high, _GAP_SOURCE, mm(12.725) - mm(12.65), side="down"),
        figure("shaft_max", "Shaft, largest", hole - low, _GAP_SOURCE, side="down"),
        figure("shaft_min", "Shaft, smallest", hole - high, _GAP_SOURCE, side="up"),
        *_strength_figures(inputs),
    ]
    drawn = gap_picture(diameter=inputs.diameter, low=GAP_LOW, high=GAP_HIGH, length=inputs.length)
    moment = Situation(machine="bench", hold="retain")
    return Answer(tuple(figures), pictures=(drawn,), notes=tuple(_notes(inputs)), moments=(moment,))


def _strength_figures(inputs: RetainInputs) -> list[Figure]:
    """Length for a load, load for a length, or the stress when both are given."""
    around, bears = PI * mm(inputs.diameter), leaf(STRESS_ALLOWED, "stress")
    source = "a third of 15 to 25 MPa on clean steel: from memory, unconfirmed; the data sheet decides"
    figures = []
    if inputs.load is not None:
        pull = leaf(inputs.load, "force")
        needed = (pull / (around * bears)).as_("length")
        allowed = say("{sum}, the allowed stress at {bears}", sum=needed, bears=shown(STRESS_ALLOWED, "stress"))
        figures.append(figure("length_needed", "Length of joint", needed, source, allowed, decimals=1, side="up"))
        if inputs.length is not None:
            stress = (pull / (around * mm(inputs.length))).as_("stress")
            figures.append(
                figure("stress", "Shear in the joint", stress, "load over the area of the joint", decimals=1)
            )
    elif inputs.length is not None:
        held = (around * mm(inputs.length) * bears).as_("force")
        figures.append(figure("load_allowed", "Load it may bear", held, source, side="down"))
    return figures


def shear_stress(*, load: float, diameter: float, length: float) -> float:
    """Shear in a round joint: load over its area. [MPa]

    >>> shear_stress(load=314.159, diameter=10, length=10)
    1.0000
    """
    area = PI * mm(diameter) * mm(length)
    return load / float(area)


def _gap_note(gap: float) -> Note:
    size = shown(gap)
    if gap < 0:
        return warning("The shaft is {over} larger than the hole: there is no gap.", over=shown(-gap))
    if gap < LEAST_GAP:
        return warning("A gap of {gap} is too tight: the compound is wiped out of it.", gap=size)
    if gap < GAP_LOW:
        least = shown(LEAST_GAP)
        text = say("A gap of {gap} is close, yet above the least of {least}: assemble slowly.", gap=size, least=least)
        return info(text)
    if gap <= GAP_HIGH:
        return info("A gap of {gap} is in the range.", gap=size)
    if gap <= GAP_WIDE:
        text = say(
            "A gap of {gap} is wide: use a gap-filling grade; strength falls and the shaft is not centred.", gap=size
        )
        return warning(text)
    text = say(
        "A gap of {gap} is wide, above {most}: make a closer shaft, or a sleeve.", gap=size, most=shown(GAP_WIDE)
    )
    return warning(text)


def _notes(inputs: RetainInputs) -> list[Note]:
    notes = [_gap_note(inputs.gap)] if inputs.gap is not None else []
    if inputs.load is not None and inputs.length is not None:
        stress = shear_stress(load=inputs.load, diameter=inputs.diameter, length=inputs.length)
        if stress > STRESS_ALLOWED:
            bears = shown(stress, "stress", decimals=1)
            notes.append(warning("The joint would bear {bears}: make it longer, or pin it too.", bears=bears))
    text = "Degrease both parts. Each grade has a gap of its own: its data sheet overrides this range."
    return [*notes, info(text)]


OPERATION = Operation(
    id="retain",
    pane="joining",
    place=60,
    title="Retaining compound",
    words="glue adhesive gap bond anaerobic bush bearing sleeve fixing clearance joint shear load length cylindrical locking",
    machine="bench",
    inputs=RetainInputs,
    work=_work,
    tool="retaining compound",
    hazards=("adhesive",),
    example={"diameter": "10", "load": "500 N", "length": "8"},
    troubles={
        "FI-01": warm_growth,
        "RE-01": lambda *_: say("{low} to {high} on the diameter", low=shown(GAP_LOW), high=shown(GAP_HIGH)),
    },
    help="The gap for a retaining compound, and how long the joint must be for a load.",
)
