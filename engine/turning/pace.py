"""How fast a cut turns on this lathe, what it asks of the motor, and the figures that say so."""

from __future__ import annotations

from math import pi
from typing import Any, Literal

from engine.base import declare as ask
from engine.base.answer import Figure, Note, figure, info, warning
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import PI, factor, law, leaf, mm
from engine.base.words import Text, general, put, say, shown, write
from engine.cutting import forces, speeds
from engine.cutting.feeds import FeedRange, low_end
from engine.cutting.materials import Material
from engine.cutting.speeds import Cut, SpeedRange, SpindleSpeed, Tool
from engine.shop.model import Shop

_RULE = "the lathe's lowest step inside the published range, else the first slower: US Army OD 1645, lathe lesson"
_FIRE = say(
    "Magnesium chips burn: sharp tool, no fine feed ({feed} or more is published), no dwell and no rubbing, dry; no heap "
    "of chips. Class D powder or dry sand at hand: never water, foam or carbon dioxide.",
    feed=shown(0.25, "feed", decimals=2),
)
Why = Literal["", "motor", "stick-out", "balance"]


def rear() -> Any:
    """Ask how far a bar stands out behind the headstock."""
    return ask.length("Bar at the rear", low=-1e-9, high=5000, example="0", empty="not known",
        help="How far the bar stands out behind its last support at the back of the headstock: it may "
        "whirl.")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Pace:
    """Published speed, the lathe's own step for it, and the step that is set: slower where the motor, a long stick-out
    or work out of balance asks for it (`why`). Speeds in rev/min."""

    published: SpeedRange
    spindle: SpindleSpeed
    chosen: float
    mark: float | None
    diameter: float
    why: Why = ""
    group: str = ""  # of the material

    @property
    def surface_speed(self) -> float:
        """Surface speed as set. [m/min]"""
        return pi * self.diameter * self.chosen / 1000


def pace(
    shop: Shop, stuff: Material, cut: Cut, tool: Tool, diameter: float, *, force: float = 0.0, slower: Why = ""
) -> Pace:
    """The step of this lathe for a cut: by the published range, slower only for the motor or a long stick-out.

    shop, stuff, cut, tool: Whose speeds, motor and chuck mark count; what is cut; a key of the speed tables; `hss` or
        `carbide`.
    diameter: Of the work where it is cut. [mm]
    force: Main cutting force, 0 if the motor is not asked. [N]
    slower: Why a step slower is taken from the start: `stick-out`, `balance` or nothing.
    Returns: What to set and why.
    Raises: BadInput if the lathe's lowest step is above the chuck's mark.
    Source: US Army OD 1645, lathe lesson: a speed near the one wanted, generally the first slower. A step slower for
        slender work: common practice, no source. Three quarters of the motor reach the cut: common practice, no source.

    >>> from engine.cutting.materials import find
    >>> from engine.shop.file import sample
    >>> found = pace(sample("metric"), find("mild steel"), "turning", "hss", 20, slower="stick-out")
    >>> found.spindle.chosen, found.chosen, found.why
    (400.0, 250.0, 'stick-out')
    """
    published = speeds.surface_speed(material=stuff, operation=cut, tool=tool)
    lathe = shop.lathe
    mark = lathe.chuck.marked_speed if lathe else None
    steps = lathe.speeds if lathe else ()
    if mark is not None and steps and min(steps) > mark:
        lowest = say("a marked speed of at least {low} rev/min, the lathe's lowest", low=general(min(steps)))
        raise BadInput("chuck", say("{mark} rev/min", mark=general(mark)), lowest)
    spindle = speeds.spindle_speed(
        diameter=diameter, surface_speed=published.chosen, steps=steps, ceiling=mark, top=published.high
    )
    chosen = spindle.chosen
    below = max((step for step in steps if step < chosen), default=chosen)
    chosen, why = (below, slower) if slower and below < chosen else (chosen, "")
    most = lathe.motor * forces.BELT_DRIVE if lathe else None
    if force and most is not None and steps and force * pi * diameter * chosen / 60_000 > most:
        bearable = [s for s in steps if s <= chosen and force * pi * diameter * s / 60_000 <= most]
        slowest = max(bearable, default=min(steps))
        chosen, why = slowest, "motor" if slowest < chosen else why
    return Pace(published, spindle, chosen, mark, diameter, why, stuff.group)  # type: ignore[arg-type]


def speed_figures(found: Pace, label: str = "Set the spindle to") -> list[Figure]:
    """Speed to set, ideal, and surface speeds."""
    spindle, published = found.spindle, found.published
    ideal = speeds.ideal_speed(surface_speed=published.chosen, diameter=found.diameter)
    step: Text = speeds.chosen_step(spindle, "lathe", ceiling=found.mark)
    if found.why:
        asks = {"motor": "the motor", "stick-out": "the stick-out", "balance": "the balance"}[found.why]
        step = say("{step}; slower for {asks}: {set}", step=step, asks=asks, set=general(found.chosen))
    working = say("ideal {ideal}; {step}", ideal=shown(ideal), step=step)
    low, high = put(published.low, "surface_speed"), shown(published.high, "surface_speed", decimals=1)
    low_to_high = say("low end of {low} to {high}, for a light machine", low=low, high=high)
    set_speed = PI * mm(found.diameter) * leaf(found.chosen, "speed") / factor(1000, 12)
    return [
        Figure("rpm", label, found.chosen, "speed", _RULE, working),
        figure("ideal_rpm", "Ideal speed", ideal, "spindle speed = surface speed ÷ circumference"),
        Figure("surface_speed", "Surface speed for it", published.chosen, "surface_speed", published.source,
               low_to_high, low=published.low, high=published.high),
        figure("actual_speed", "Surface speed as set", set_speed.as_("surface_speed"),
               "surface speed = circumference x spindle speed"),
    ]  # fmt: skip


def load_figures(shop: Shop, stuff: Material, width: float, rate: float, found: Pace, what: str) -> list[Figure]:
    """Force, power and motor load of a cut `width` wide (a depth, or a blade) at a feed."""
    force = forces.turning_force(material=stuff, depth=width, feed=rate)
    power = forces.cutting_power(force=force, surface_speed=found.surface_speed)
    of_force = say("{kc} x {rate}^-{mc} = {specific} MPa, x {what} {width} mm x feed {rate} mm = {force} N",
        kc=general(stuff.kc11), mc=general(stuff.mc), rate=general(rate), width=general(width), what=what,
        specific=general(forces.specific_force(stuff, rate)), force=general(force))  # fmt: skip
    of_power = say("{force} N x {v} m/min ÷ 60", force=general(force), v=general(found.surface_speed))
    source = f"the power law of cutting force; {stuff.source}"
    figures = [
        figure("force", "Cutting force", law(force, "force", write(of_force)), source),
        Figure("power", "Power at the cut", power, "power", "power = force x surface speed", of_power, decimals=1),
    ]
    if shop.lathe:
        share = forces.share_of_motor(power=power, motor=shop.lathe.motor)
        sum_ = leaf(power, "power") / leaf(forces.BELT_DRIVE) / leaf(shop.lathe.motor, "power")
        figures.append(Figure("share_of_motor", "Motor load", share, "share",
            "three quarters of the motor reach the cut: common practice, no source", sum_))  # fmt: skip
    return figures


def feed_figure(rate: float, published: FeedRange | None) -> Figure:
    """The feed, published or as told."""
    if published is None:
        return Figure("feed", "Feed", rate, "feed", "given", "as given")
    return Figure("feed", "Feed", rate, "feed", published.source, low_end(published.low, published.high),
        low=published.low, high=published.high)  # fmt: skip


def speed_notes(found: Pace) -> list[Note]:
    """What the chosen step makes worth saying."""
    notes = [warning(_FIRE)] if found.group == "magnesium" else []
    wanted = found.spindle.chosen
    if found.why == "motor":
        notes.append(info("{wanted} rev/min would ask more than the motor gives: {set} is slower for that.",
            wanted=general(wanted), set=general(found.chosen)))  # fmt: skip
    if found.why == "balance":
        notes.append(info("A step slower than {wanted} rev/min, as it turns out of balance.", wanted=general(wanted)))
    if found.why == "stick-out":
        notes.append(info("A step slower than {wanted} rev/min, as the work stands out far.", wanted=general(wanted)))
    if found.spindle.too_fast:
        top = found.published.high
        much = found.spindle.surface_speed > 1.5 * top
        text = say("The lathe's lowest speed, {set} rev/min, is above the ideal: {what}.",
            set=general(found.spindle.chosen), what=say("{v} against {top} at most; turn this on a slower lathe or "
            "with carbide", v=shown(found.spindle.surface_speed, "surface_speed"), top=shown(top, "surface_speed"))
            if much else "cut lightly")  # fmt: skip
        notes.append(warning(text))
    if found.spindle.held_by_ceiling:
        notes.append(info("Held back by the speed marked on the chuck, {mark} rev/min.", mark=general(found.mark or 0)))
    if found.mark is None:
        notes.append(warning("No marked speed of the chuck is known: read it off the chuck and do not pass it."))
    return notes
