"""What is worth saying about a tapped hole."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from engine.base.answer import Note
from engine.base.quantity import show
from engine.base.refusals import BadInput
from engine.cutting.materials import Material
from engine.drilling.sizes import SAME, label
from engine.drilling.tap_choice import Choice, Target, usual_drill
from engine.drilling.tap_depth import BlindDepth, hand_taps
from engine.drilling.tapping import percent_of_thread
from engine.shop.model import Shop
from engine.threads.designation import parse
from engine.threads.thread import Thread

if TYPE_CHECKING:
    from engine.drilling.tap_operations import TapDrillInputs

_NEAR = 5.0  # points of percentage of thread: so near is as good
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

    Sources
    -------
    Common practice, no source, save the percentages (a tap maker's catalogue).

    Examples
    --------
    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> notes = run("tap-drill", {"size": "M6 LH"}, sample("metric")).answer.notes
    >>> any("Left-hand" in note.text for note in notes)
    True
    """
    return [*_drill_notes(inputs, aim, best, shop.unit), *_tap_notes(inputs, shop, deep), *_how(inputs)]


def _drill_notes(inputs: TapDrillInputs, aim: Target, best: Choice, unit: str) -> list[Note]:
    name = label(best.tool)
    notes = []
    if not best.owned:
        notes.append(Note("warning", f"The shop has no {name} drill, nor one that keeps the limits."))
    if inputs.tap == "form":
        text = "A forming tap makes the minor diameter itself: its limits are the finished thread's, not the drill's."
        return [*notes, Note("info", text)]
    if best.fit == "too large":
        text = f"The {name} drill is above the largest minor diameter: thin crests in the nut."
        notes.append(Note("warning", text))
    if best.fit == "too small":
        text = f"The {name} drill is below the smallest minor diameter: the tap may bind or break."
        notes.append(Note("warning", text))
    if inputs.percent is not None:
        return notes + _asked_notes(aim, best, unit)
    if inputs.size.taper:
        text = "For tapping without a taper reamer. Tap by the gauge: stop often and try the fit."
        return [*notes, Note("info", text)]
    if inputs.size.family in ("r", "tr", "acme"):
        return notes
    return [*notes, _usual_note(inputs, aim, best)]


def _asked_notes(aim: Target, best: Choice, unit: str) -> list[Note]:
    if abs(best.percent - aim.percent) <= _NEAR:
        return []
    hole = show(aim.hole, "length", unit)
    text = f"{aim.percent:.0f} % asks for a hole of {hole}; the drill shown is the nearest that keeps the limits."
    return [Note("info", text)]


def _usual_note(inputs: TapDrillInputs, aim: Target, best: Choice) -> Note:
    """How the drill shown stands to the usual one and to the catalogue's percentage."""
    usual = usual_drill(inputs.size)
    leaves = f"{percent_of_thread(inputs.size, usual.diameter):.0f} % of thread"
    low, high = f"{aim.low:.0f}", f"{aim.high:.0f} %"
    if aim.by_chart:
        same = abs(usual.diameter - best.tool.diameter) <= SAME
        first = "The usual drill." if same else f"The usual drill is {label(usual)}, {leaves}."
        text = (
            f"{first} A tap maker's catalogue finds {low} to {high} of thread enough in "
            f"{inputs.material.label.lower()}; above 60 % a thread grows little stronger but much harder to tap."
        )
        return Note("info", text)
    text = f"For this ({aim.case}) a tap maker's catalogue aims at {low} to {high} of thread. "
    if not aim.low - _NEAR <= best.percent <= aim.high + _NEAR:
        text += f"The drill shown leaves {best.percent:.0f} %, to keep the limits. "
    return Note("info", f"{text}The usual drill is {label(usual)}, {leaves}.")


def _tap_notes(inputs: TapDrillInputs, shop: Shop, deep: BlindDepth | None) -> list[Note]:
    notes = []
    if shop.taps and not any(_makes(words) == _cut_by(inputs.size) for words in shop.taps):
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
        Note("info", f"{order[last]} to reach that depth of full thread. Clear the chips before each tap.")
    )
    return notes


@lru_cache(maxsize=512)
def _makes(words: str) -> tuple[object, ...] | None:
    """What a tap of the shop cuts, as far as it tells one tap from another; None for words that are no thread."""
    try:
        return _cut_by(parse(words))
    except BadInput:
        return None


def _cut_by(thread: Thread) -> tuple[object, ...]:
    return thread.family, thread.diameter, thread.pitch, thread.starts, thread.left_hand, bool(thread.taper)


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
