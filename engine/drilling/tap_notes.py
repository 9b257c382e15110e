"""What is worth saying of a tapping drill and its taps: which, how far they reach, in what order, and how."""

from __future__ import annotations

from typing import Any

from engine.base.answer import Note, info, warning
from engine.base.words import Text, figures, general, say, shown
from engine.cutting.materials import Material
from engine.drilling import tap_depth as depths
from engine.drilling.holes import point_length
from engine.drilling.reach_notes import drill_notes, tap_notes
from engine.drilling.sizes import SAME, label
from engine.drilling.tap_choice import Choice, Target, usual_drill
from engine.drilling.tap_depth import BlindDepth, HandTap
from engine.drilling.tapping import minor_limits, percent_of_thread
from engine.shop.model import Shop
from engine.threads.limits import limits
from engine.threads.owned import cut_by, taps_cut

_DEEP = 2.0  # diameters: a deep blind thread, where the set shares the work (common practice, no source)
_MUCH = 0.5  # of about what breaks the tap (common practice, no source)
_NEAR = 5.0  # points of percentage of thread: so near is as good
_LUBRICANTS = {"cast_iron": "dry", "brass": "dry or a little light oil", "aluminium": "paraffin or light oil"}
_LUBRICANTS |= {"copper": "soluble oil", "acetal": "dry", "nylon": "dry"}


def notes(
    inputs: Any, shop: Shop, aim: Target, best: Choice, deep: BlindDepth | None, tap: HandTap | None, share: float
) -> list[Note]:
    """Of the drill, of the taps (`share`: of what breaks one that the torque is), and how it is done."""
    return [*_drill_notes(inputs, aim, best), *_tap_notes(inputs, shop, best, deep, tap, share), *_how(inputs)]


def _drill_notes(inputs: Any, aim: Target, best: Choice) -> list[Note]:
    name, notes = label(best.tool), []
    if not best.owned:
        notes.append(warning(f"The shop has no {name} drill, nor one that keeps the limits."))
    if inputs.tap == "form":
        text = "A forming tap makes the minor diameter itself: its limits are the finished thread's, not the drill's."
        return [*notes, info(text)]
    if best.fit == "too large":
        notes.append(warning(f"The {name} drill is above the largest minor diameter: thin crests in the nut."))
    if best.fit == "too small":
        notes.append(warning(f"The {name} drill is below the smallest minor diameter: the tap may bind or break."))
    if inputs.percent is not None:
        return notes + _asked_notes(inputs, aim, best)
    if inputs.size.taper:
        return [*notes, info("For tapping without a taper reamer. Tap by the gauge: stop often and try the fit.")]
    if not inputs.size.kind.charted:
        return notes
    return [*notes, info(_usual(inputs, aim, best))]


def _asked_notes(inputs: Any, aim: Target, best: Choice) -> list[Note]:
    """What stands between the percentage asked for and the drill shown."""
    limits_, thread = minor_limits(inputs.size), inputs.size
    if aim.hole > limits_.largest or aim.hole < limits_.smallest:
        edge = limits_.largest if aim.hole > limits_.largest else limits_.smallest
        which, share = "largest" if edge == limits_.largest else "smallest", percent_of_thread(thread, edge)
        text = "{percent} % cannot be had inside class {nut}: its {which} hole, {edge}, leaves {share} %."
        parts = {"percent": general(aim.percent), "edge": shown(edge), "share": figures(share, 1)}
        return [warning(text, nut=limits(thread).nut_class, which=which, **parts)]
    if abs(best.percent - aim.percent) <= _NEAR:
        return []
    template = "{percent} % asks for a hole of {hole}; the drill shown is the nearest owned that keeps the limits."
    return [info(template, percent=general(aim.percent), hole=shown(aim.hole))]


def _usual(inputs: Any, aim: Target, best: Choice) -> Text:
    """How the drill shown stands to the usual one and to the catalogue's percentage."""
    usual = usual_drill(inputs.size)
    name, leaves = label(usual), figures(percent_of_thread(inputs.size, usual.diameter))
    low, high = figures(aim.low), figures(aim.high)
    if aim.by_chart:
        other = say("The usual drill is {name}, {leaves} % of thread.", name=name, leaves=leaves)
        first = "The usual drill." if abs(usual.diameter - best.tool.diameter) <= SAME else other
        text = "{first} A tap maker's catalogue finds {low} to {high} % of thread enough in {material}; above 60 % a "
        text += "thread grows little stronger but much harder to tap."
        return say(text, first=first, low=low, high=high, material=inputs.material.label.lower())
    kept = say("The drill shown leaves {percent} %, to keep the limits. ", percent=figures(best.percent))
    near = aim.low - _NEAR <= best.percent <= aim.high + _NEAR
    return say("For this ({case}) a tap maker's catalogue aims at {low} to {high} % of thread. {kept}The usual drill "
        "is {name}, {leaves} % of thread.", case=aim.case, low=low, high=high, kept="" if near else kept, name=name,
        leaves=leaves)  # fmt: skip


def _tap_notes(
    inputs: Any, shop: Shop, best: Choice, deep: BlindDepth | None, tap: HandTap | None, share: float
) -> list[Note]:
    notes = []
    if (shop.taps or shop.tap_kinds) and cut_by(inputs.size) not in taps_cut(shop):
        notes.append(warning(f"The shop has no {inputs.size} tap."))
    notes += _kind_notes(inputs, shop)
    if share >= _MUCH:  # a tap near what twists it off
        text = (
            "This asks for {share} of about what breaks the tap: feel for every turn, keep it oiled, take the largest "
        )
        notes.append(warning(text + "hole.", share=figures(share, 2)))
    notes += _reach_notes(inputs, shop, best, deep, tap)
    if inputs.tap == "form":
        return notes
    if inputs.hole == "through":
        return [*notes, info(_through(inputs, shop))]
    if deep is None or inputs.depth is None:
        every = [one for one, _ in depths.taps_at_hand(inputs.size, shop) if one != "spiral point"]
        text = f"A blind hole: {depths.one_after_another(every)}, chips cleared before each. "
        return [*notes, info(text + "Give the depth to see how far.")]
    return [*notes, info(_order(inputs, shop, deep))]


def _kind_notes(inputs: Any, shop: Shop) -> list[Note]:
    """Where the taps that are listed for a thread do not suit the work."""
    kinds = {tap.kind for tap in shop.tap_kinds if cut_by(tap.size) == cut_by(inputs.size)}
    if not kinds:
        return []
    if inputs.tap == "form" and "forming" not in kinds:
        return [warning(f"The shop lists no forming tap for {inputs.size}.")]
    if inputs.tap == "cut" and kinds == {"forming"}:
        return [warning(f"The shop lists only a forming tap for {inputs.size}: ask for that.")]
    if inputs.tap == "cut" and inputs.hole == "blind" and kinds <= {"forming", "spiral point"}:
        text = "A spiral point pushes its chips to the bottom: drill deeper to make room for them, or take another tap."
        return [warning(text)]
    return []


def _through(inputs: Any, shop: Shop) -> str:
    tap = depths.through_tap(inputs.size, shop, 0.0)
    pushed = " It pushes its chips ahead." if tap.name == "spiral point" else ""
    return (
        f"A through hole: the {tap.name} tap alone, turned on until its lead of some {tap.lead_threads} threads is out at "
        f"the far side.{pushed}"
    )


def _order(inputs: Any, shop: Shop, deep: BlindDepth) -> str:
    """The taps of a blind hole, one after another."""
    assert inputs.depth is not None
    taps = depths.blind_taps(inputs.size, shop, deep.depth)
    last, hand = depths.needed_tap(taps, inputs.depth), dict(depths.LEADS)
    used = [last.name]
    if last.name in hand:
        used = [tap.name for tap in taps if tap.name in hand and tap.lead_threads >= last.lead_threads]
    words = depths.one_after_another(used)
    text = f"{words[0].upper()}{words[1:]} to reach that depth of full thread. Clear the chips before each tap."
    if inputs.depth > _DEEP * inputs.size.diameter:
        text += " So deep, use every tap of the set, back right out each diameter to clear, and keep it oiled."
    return text


def _reach_notes(inputs: Any, shop: Shop, best: Choice, deep: BlindDepth | None, tap: HandTap | None) -> list[Note]:
    """What the tap and the drill do not reach, and what to do then."""
    if tap is None:
        return []
    size = best.tool.diameter
    ends = "make it shallower" if deep else "tap from both ends"
    short = tap_notes(inputs.size, tap, inputs.depth, size, shop, otherwise=ends)
    tip = (deep.depth if deep else inputs.depth) + point_length(diameter=size)
    return [*short, *drill_notes(size, tip, shop, otherwise="drill from both ends or make it shallower")]


def _how(inputs: Any) -> list[Note]:
    turns, oil = _turns_back(inputs.material), _LUBRICANTS.get(inputs.material.group, "cutting oil")
    by_hand = f"By hand: {turns} to break the chip. {oil[0].upper()}{oil[1:]}."
    formed = "Form the thread in one go with plenty of oil; there are no chips to break."
    left = [info("Left-hand: turn the tap anticlockwise to go in.")] if inputs.size.left_hand else []
    return [info(formed if inputs.tap == "form" else by_hand), *left]


def _turns_back(material: Material) -> str:
    if material.machining == "tough":
        return "a quarter turn on, half a turn back"
    if material.group in ("cast_iron", "brass"):
        return "one turn on, half a turn back"
    return "half a turn on, a quarter turn back"
