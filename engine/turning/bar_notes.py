"""What the numbers of a bar plan make worth saying."""

from __future__ import annotations

from engine.base.answer import Note
from engine.base.quantity import show
from engine.indexing.dials import slide_setting
from engine.shop.model import Shop
from engine.turning.bar import BarPlan, Hole
from engine.turning.bar_inputs import BarPlanInputs
from engine.turning.overhang import ratio_limit

_NOTICED = 0.01  # mm: a cut out of place by less is lost in the facing
_DEEP = 5.0  # diameters of drill from which a hole wants care: common practice


def notes_of(inputs: BarPlanInputs, shop: Shop, plan: BarPlan, hole: Hole | None) -> list[Note]:
    """Return the notes of a bar plan.

    Parameters
    ----------
    inputs : BarPlanInputs
        What was asked.
    shop : Shop
        Whose lathe and display unit count.
    plan : BarPlan
        The plan.
    hole : Hole or None
        The hole through the parts.

    Returns
    -------
    notes : list of Note
        How to zero the saddle first, then what is too long, too deep or too thick.

    Sources
    -------
    Three diameters out of a chuck: a lathe maker's manual. Five drill diameters: common practice, no source.

    Examples
    --------
    >>> from engine.shop.file import sample
    >>> from engine.turning.bar import plan_bar
    >>> plan = plan_bar(parts=2, length=12, back=0, blade=2, facing=0.5, end_waste=5, grip=20)
    >>> inputs = BarPlanInputs(parts=2, length=12, blade=2, grip=20, diameter=8)
    >>> [note.level for note in notes_of(inputs, sample("metric"), plan, None)]
    ['info', 'warning']
    """
    unit = shop.unit
    notes = [
        Note(
            "info",
            "Zero the saddle with the blade's tailstock side level with the faced end; come to each reading from "
            "the tailstock side.",
        )
    ]
    saddle = shop.lathe.saddle if shop.lathe else None
    off = (
        max((abs(slide_setting(saddle, cut.end).error) for cut in plan.cuts), default=0.0) if saddle else 0.0
    )
    if off > _NOTICED:
        text = (
            f"The saddle's lines put a cut up to {show(off, 'length', unit)} out of place: where that matters leave it "
            "on for facing the back, or set the blade by the top slide."
        )
        notes.append(Note("info", text))
    if inputs.diameter is not None:
        limit, _ = ratio_limit("chuck")
        ratio = plan.stick_out / inputs.diameter
        if ratio > limit:
            text = (
                f"The bar stands out {show(plan.stick_out, 'length', unit, decimals=1)}, {ratio:.1f} diameters: above "
                f"{limit:g} pull it out part by part, or support it with a centre."
            )
            notes.append(Note("warning", text))
    if hole is not None:
        notes.extend(_hole_notes(inputs, shop, plan, hole))
    bore = shop.lathe.spindle_bore if shop.lathe else None
    if inputs.diameter is not None and bore is not None and inputs.diameter > bore:
        notes.append(
            Note(
                "info",
                f"The bar is thicker than the spindle's bore of {show(bore, 'length', unit, decimals=1)}.",
            )
        )
    return notes


def _hole_notes(inputs: BarPlanInputs, shop: Shop, plan: BarPlan, hole: Hole) -> list[Note]:
    notes = []
    over = hole.depth / hole.drill
    if over > _DEEP:
        text = (
            f"The hole is {over:.1f} drill diameters deep: clear chips often, or drill and tap each part after the one "
            "before it is off."
        )
        notes.append(Note("warning", text))
    into_stub = hole.depth + hole.point - plan.cuts[-1].kerf_end
    if into_stub > plan.stub - inputs.grip:
        text = (
            f"The drill's point ends {show(into_stub, 'length', shop.unit, decimals=1)} into the stub, past the jaws: "
            "give more end_waste."
        )
        notes.append(Note("warning", text))
    if hole.thread_depth is not None:
        hollow = show(max(into_stub, 0.0), "length", shop.unit, decimals=1)
        text = (
            f"The stub is hollow for {hollow}: face that off, turn and thread the rest, and each part screws on to "
            "it to have its back finished."
        )
        notes.append(Note("info", text))
    if hole.thread_depth is not None and inputs.drill is None:
        notes.append(
            Note(
                "info",
                "Drill taken as diameter less pitch; tap-drill chooses the one to use from your drills.",
            )
        )
    return notes
