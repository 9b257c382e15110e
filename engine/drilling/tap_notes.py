"""What is worth saying about a tapped hole."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from engine.answer import Note
from engine.cutting.materials import Material
from engine.drilling.sizes import label, nearest
from engine.drilling.tap_choice import USUAL_PERCENT, Choice, Target
from engine.drilling.tap_depth import BlindDepth, hand_taps
from engine.drilling.tapping import hole_for, standard_hole
from engine.errors import BadInput
from engine.quantity import show
from engine.shop.model import Shop
from engine.threads.designation import parse
from engine.threads.thread import Thread

if TYPE_CHECKING:
    from engine.drilling.tap_operations import TapDrillInputs

_LUBRICANTS = {
    "cast_iron": "dry",
    "brass": "dry or a little light oil",
    "aluminium": "paraffin or light oil",
    "copper": "soluble oil",
    "acetal": "dry",
    "nylon": "dry",
}


def tap_notes(
    inputs: TapDrillInputs, shop: Shop, aim: Target, best: Choice, deep: BlindDepth | None
) -> list[Note]:
    """What a tapped hole's numbers made worth saying.

    Parameters
    ----------
    inputs : TapDrillInputs
        What the operation was told.
    shop : Shop
        What this person owns.
    aim : Target
        The hole that was aimed at.
    best : Choice
        The drill that was chosen.
    deep : BlindDepth or None
        The depth of a blind hole, if it is known.

    Returns
    -------
    notes : list of Note
        Warnings first, then how to tap.

    Raises
    ------
    AttributeError
        If an argument is none of those.

    Sources
    -------
    Common practice, no source, save the percentages (a tap maker's catalogue).

    Examples
    --------
    >>> from engine.operation import run
    >>> from engine.shop.file import sample
    >>> notes = run("tap-drill", {"size": "M6 LH"}, sample("metric")).answer.notes
    >>> any("Left-hand" in note.text for note in notes)
    True
    """
    return [
        *_drill_notes(inputs, aim, best, shop.unit),
        *_tap_notes(inputs, shop, deep),
        *_how(inputs),
    ]


def _drill_notes(inputs: TapDrillInputs, aim: Target, best: Choice, unit: str) -> list[Note]:
    notes = []
    if not best.owned:
        notes.append(
            Note("warning", f"The shop has no {label(best.tool)} drill, nor an owned one that does.")
        )
    if inputs.tap == "form":
        notes.append(
            Note(
                "info",
                "A forming tap makes the minor diameter itself: the limits are for the finished thread, the drill is "
                "larger.",
            )
        )
        return notes
    if best.fit == "too large":
        notes.append(
            Note(
                "warning", f"{label(best.tool)} is above the largest minor diameter: thin crests in the nut."
            )
        )
    if best.fit == "too small":
        notes.append(
            Note(
                "warning",
                f"{label(best.tool)} is below the smallest minor diameter: the tap may bind or break.",
            )
        )
    asked = inputs.percent
    if asked is not None and best.owned and abs(best.percent - asked) > 5:
        closest = label(nearest(aim.hole, of="metric" if inputs.size.family != "unified" else "number"))
        notes.append(
            Note(
                "info",
                f"{asked:.0f} % asks for a hole near {closest}; the drill shown keeps the limits.",
            )
        )
    if asked is None and aim.source.startswith(("ISO 2306", "tap drill charts")):
        notes.append(
            Note(
                "info",
                f"The usual drill. A tap maker's catalogue finds {aim.low:.0f} to {aim.high:.0f} % of thread enough in "
                f"{inputs.material.label.lower()}; above 60 % a thread grows little stronger but much harder to tap.",
            )
        )
    elif asked is None and aim.source.startswith("a tap maker"):
        usual = standard_hole(inputs.size) or hole_for(inputs.size, USUAL_PERCENT)
        notes.append(
            Note(
                "info",
                f"For this material and depth ({aim.case}) a tap maker's catalogue aims at {aim.low:.0f} to "
                f"{aim.high:.0f} % of thread. The usual drill is {show(usual, 'length', unit, decimals=2)}.",
            )
        )
    if inputs.size.taper:
        notes.append(
            Note("info", "For tapping without a taper reamer. Tap by the gauge: stop often and try the fit.")
        )
    return notes


def _tap_notes(inputs: TapDrillInputs, shop: Shop, deep: BlindDepth | None) -> list[Note]:
    notes = []
    if shop.taps and not any(_same(inputs.size, words) for words in shop.taps):
        notes.append(Note("warning", f"The shop has no {inputs.size} tap."))
    if inputs.tap == "form":
        return notes
    if inputs.hole == "through":
        text = "A through hole: the taper tap alone, turned on until its lead of some 8 threads is out at the far side."
        return [*notes, Note("info", text)]
    if deep is None or inputs.depth is None:
        text = "A blind hole: taper, second, then plug tap, chips cleared before each. Give the depth to see how far."
        return [*notes, Note("info", text)]
    taps = hand_taps(pitch=float(inputs.size.pitch), hole_depth=deep.depth)
    last = next((tap.name for tap in taps if tap.full_thread >= inputs.depth), "plug")
    order = {
        "taper": "The taper tap alone",
        "second": "Taper, then second tap",
        "plug": "Taper, second, then plug tap",
    }
    notes.append(
        Note(
            "info",
            f"{order[last]} to reach that depth of full thread. Clear the chips before each tap.",
        )
    )
    return notes


@lru_cache(maxsize=512)
def _pitch_and_size(words: str) -> tuple[float, object] | None:
    try:
        thread = parse(words)
    except BadInput:
        return None
    return thread.diameter, thread.pitch


def _same(thread: Thread, words: str) -> bool:
    return _pitch_and_size(words) == (thread.diameter, thread.pitch)


def _how(inputs: TapDrillInputs) -> list[Note]:
    turns = _turns_back(inputs.material)
    oil = _LUBRICANTS.get(inputs.material.group, "cutting oil")
    notes = []
    if inputs.tap == "form":
        text = "Form the thread in one go with plenty of oil; there are no chips to break."
        notes.append(Note("info", text))
    else:
        notes.append(Note("info", f"By hand: {turns} to break the chip. {oil[0].upper()}{oil[1:]}."))
    if inputs.size.left_hand:
        notes.append(Note("info", "Left-hand: turn the tap anticlockwise to go in."))
    return notes


def _turns_back(material: Material) -> str:
    if material.machining == "tough":
        return "a quarter turn on, half a turn back"
    if material.group in ("cast_iron", "brass"):
        return "one turn on, half a turn back"
    return "half a turn on, a quarter turn back"
