"""The operations `turning-speed` and `part-off`: speed, feed, force and power on this lathe."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.cutting import forces
from engine.cutting.feeds import FeedRange, feed, feed_words
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import (
    Cut,
    SpeedRange,
    SpindleSpeed,
    Tool,
    ideal_text,
    spindle_speed,
    step_text,
    surface_speed,
)
from engine.shop.model import Shop
from engine.turning import parting

_LIGHT_CUT = 0.5  # mm on the radius: a roughing cut for a light lathe; common practice


def _rear() -> Any:
    return ask.length(
        "Bar behind the spindle",
        low=-1e-9,
        high=5000,
        required=False,
        example="0",
        empty="not known",
        help="How far the bar stands out behind its last support at the back of the headstock: it may whirl.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class TurningSpeedInputs:
    """What `turning-speed` is told."""

    diameter: float = ask.length(
        "Diameter", low=0.1, high=1000, example="20", help="Of the work where it is cut."
    )
    material: Any = ask.material(
        "Material", from_shop=of_shop, example="mild steel", empty="the shop's first", help="What is turned."
    )
    tool: str = ask.choice(
        "Tool",
        ("hss", "carbide"),
        default="hss",
        example="hss",
        help="High-speed steel, or a carbide insert.",
    )
    cut: float = ask.length(
        "Depth of cut", default=_LIGHT_CUT, low=0.005, high=20, example="0.5", help="On the radius."
    )
    feed: float | None = ask.length(
        "Feed a turn",
        low=0.005,
        high=3,
        required=False,
        example="0.1",
        empty="low end of the published range",
        help="How far the saddle moves in one turn.",
    )
    rear: float | None = _rear()


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOffInputs:
    """What `part-off` is told."""

    diameter: float = ask.length("Diameter", low=0.5, high=500, example="20", help="Of the bar.")
    bore: float = ask.length(
        "Bore",
        default=0.0,
        low=-1e-9,
        high=500,
        example="10",
        help="Hole through the part; 0 if it is solid.",
    )
    material: Any = ask.material(
        "Material", from_shop=of_shop, example="mild steel", empty="the shop's first", help="What is parted."
    )
    blade: float = ask.length(
        "Width of the blade",
        low=0.3,
        high=12,
        example="2",
        empty="the shop's blade",
        from_shop=lambda shop: shop.lathe.blade.width,
        help="The force grows with it.",
    )
    stick_out: float | None = ask.length(
        "Cut is this far from the jaws",
        low=-1e-9,
        high=1000,
        required=False,
        example="10",
        empty="close to the jaws",
        help="The bar bends and the cut chatters the further out it is.",
    )
    tool: str = ask.choice(
        "Blade",
        ("hss", "carbide"),
        default="hss",
        example="hss",
        help="High-speed steel, or a carbide insert.",
    )
    rear: float | None = _rear()


@dataclass(frozen=True, slots=True)
class _Pace:
    """Published speed and the lathe's own for it."""

    published: SpeedRange
    spindle: SpindleSpeed
    mark: float | None


def _pace(shop: Shop, stuff: Material, cut: Cut, tool: Tool, diameter: float) -> _Pace:
    published = surface_speed(material=stuff, operation=cut, tool=tool)
    lathe = shop.lathe
    mark = lathe.chuck.marked_speed if lathe else None
    steps = lathe.speeds if lathe else ()
    if mark is not None and steps and min(steps) > mark:
        raise BadInput(
            "chuck",
            f"{mark:g} rev/min",
            f"a marked speed of at least {min(steps):g} rev/min, the lathe's lowest",
        )
    spindle = spindle_speed(diameter=diameter, surface_speed=published.chosen, steps=steps, ceiling=mark)
    return _Pace(published, spindle, mark)


def _speed_figures(pace: _Pace, diameter: float, unit: str) -> list[Figure]:
    spindle, published = pace.spindle, pace.published
    across, per, along = ("in", 12, "ft/min") if unit == "inch" else ("mm", 1000, "m/min")
    low, high = (worked(speed, unit, "surface_speed") for speed in (published.low, published.high))
    return [
        Figure(
            "rpm",
            "Set the spindle to",
            spindle.chosen,
            "speed",
            "the lathe's own speeds; the step at or below the ideal (common practice, no source)",
            f"ideal {spindle.ideal:.0f}; {step_text(spindle, 'lathe', ceiling=pace.mark)}",
        ),
        Figure(
            "ideal_rpm",
            "Ideal speed",
            spindle.ideal,
            "speed",
            "spindle speed = surface speed ÷ circumference",
            ideal_text(surface_speed=published.chosen, diameter=diameter, unit=unit),
        ),
        Figure(
            "surface_speed",
            "Surface speed for it",
            published.chosen,
            "surface_speed",
            published.source,
            f"low end of {low} to {high} {along}, for a light machine",
            low=published.low,
            high=published.high,
        ),
        Figure(
            "actual_speed",
            "Surface speed as set",
            spindle.surface_speed,
            "surface_speed",
            "surface speed = circumference x spindle speed",
            f"3.14159 x {worked(diameter, unit)} {across} x {spindle.chosen:.6g} ÷ {per}",
        ),
    ]


def _load_figures(
    shop: Shop, stuff: Material, width: float, rate: float, speed: float, what: str
) -> list[Figure]:
    force = forces.turning_force(material=stuff, depth=width, feed=rate)
    power = forces.cutting_power(force=force, surface_speed=speed)
    specific = forces.specific_force(stuff, rate)
    pounds = f" = {show(force, 'force', 'inch')}" if shop.unit == "inch" else ""
    figures = [
        Figure(
            "force",
            "Cutting force",
            force,
            "force",
            f"Kienzle's law; {stuff.source}",
            f"{stuff.kc11:g} x {rate:.4g}^-{stuff.mc:g} = {specific:.1f} MPa, x {what} {width:.4g} mm x feed "
            f"{rate:.4g} mm = {force:.1f} N{pounds}",
        ),
        Figure(
            "power",
            "Power at the cut",
            power,
            "power",
            "power = force x surface speed",
            f"{force:.1f} N x {speed:.2f} m/min ÷ 60",
            decimals=1,
        ),
    ]
    if shop.lathe:
        share = forces.share_of_motor(power=power, motor=shop.lathe.motor)
        figures.append(
            Figure(
                "share_of_motor",
                "Share of the motor",
                share,
                "ratio",
                "three quarters of the motor reach the cut: common practice, no source",
                f"{power:.2f} W ÷ {forces.BELT_DRIVE:g} ÷ {shop.lathe.motor:g} W",
                decimals=2,
            )
        )
    return figures


def _motor_notes(load: list[Figure]) -> list[Note]:
    share = next((f.value for f in load if f.name == "share_of_motor"), None)
    if share is None or share <= 1:
        return []
    return [Note("warning", f"The cut asks for {share:.1f} times the motor: take less of it at once.")]


def _feed_figure(rate: float, published: FeedRange | None, unit: str) -> Figure:
    if published is None:
        return Figure("feed", "Feed", rate, "feed", "given", "as given")
    words = feed_words(published.low, published.high, unit)
    return Figure(
        "feed", "Feed", rate, "feed", published.source, words, low=published.low, high=published.high
    )


def _speed_notes(pace: _Pace, shop: Shop, diameter: float) -> list[Note]:
    notes = []
    steps = shop.lathe.speeds if shop.lathe else ()
    quicker = min((s for s in steps if s > pace.spindle.chosen), default=None)
    top = 1000 * pace.published.high / (pi * diameter)
    if quicker is not None and quicker <= top and (pace.mark is None or quicker <= pace.mark):
        notes.append(
            Note(
                "info",
                f"The next step, {quicker:g} rev/min, is still inside the published range if all is stiff.",
            )
        )
    if pace.spindle.too_fast:
        notes.append(
            Note(
                "warning",
                f"The lathe's lowest speed, {pace.spindle.chosen:g} rev/min, is above the ideal: cut lightly.",
            )
        )
    if pace.spindle.held_by_ceiling:
        notes.append(Note("info", f"Held back by the speed marked on the chuck, {pace.mark:g} rev/min."))
    if pace.mark is None:
        notes.append(
            Note(
                "warning", "No marked speed of the chuck is known: read it off the chuck and do not pass it."
            )
        )
    return notes


def _tool(word: str) -> Tool:
    return "carbide" if word == "carbide" else "hss"


def _turning_speed(inputs: TurningSpeedInputs, shop: Shop) -> Answer:
    unit = shop.unit
    if inputs.cut >= inputs.diameter / 2:
        across = show(inputs.diameter, "length", unit)
        raise BadInput("cut", show(inputs.cut, "length", unit), f"less than half the diameter of {across}")
    tool = _tool(inputs.tool)
    pace = _pace(shop, inputs.material, "turning", tool, inputs.diameter)
    published = None if inputs.feed is not None else feed(kind="turning", diameter=inputs.diameter, tool=tool)
    rate = inputs.feed if inputs.feed is not None else published.chosen if published else 0.0
    load = _load_figures(shop, inputs.material, inputs.cut, rate, pace.spindle.surface_speed, "depth")
    notes = (*_speed_notes(pace, shop, inputs.diameter), *_motor_notes(load))
    figures = (*_speed_figures(pace, inputs.diameter, unit), _feed_figure(rate, published, unit), *load)
    return Answer(figures, notes=notes)


def _part_off(inputs: PartOffInputs, shop: Shop) -> Answer:
    unit = shop.unit
    if inputs.bore >= inputs.diameter:
        across = show(inputs.diameter, "length", unit)
        raise BadInput(
            "bore", show(inputs.bore, "length", unit), f"a bore smaller than the diameter of {across}"
        )
    tool = _tool(inputs.tool)
    pace = _pace(shop, inputs.material, "parting", tool, inputs.diameter)
    published = feed(kind="parting", diameter=inputs.diameter, tool=tool)
    rate = published.chosen
    reach = parting.reach_needed(diameter=inputs.diameter, bore=inputs.bore)
    wall = (inputs.diameter - inputs.bore) / 2
    load = _load_figures(shop, inputs.material, inputs.blade, rate, pace.spindle.surface_speed, "width")
    figures = (
        *_speed_figures(pace, inputs.diameter, unit),
        _feed_figure(rate, published, unit),
        Figure(
            "blade_reach",
            "Blade out of its holder by",
            reach,
            "length",
            "geometry; no further, as the blade bends with the cube of its reach",
            f"({worked(inputs.diameter, unit)} - {worked(max(inputs.bore, 0.0), unit)}) ÷ 2 + "
            f"{worked(parting.PAST_CENTRE, unit)}",
            decimals=1,
            side="up",
        ),
        Figure(
            "slenderness",
            "Depth of groove over width",
            wall / inputs.blade,
            "ratio",
            "arithmetic",
            f"{worked(wall, unit)} ÷ {worked(inputs.blade, unit)}; {parting.SLENDER_LIGHT:g} on a light lathe, "
            f"{parting.SLENDER_STEEL:g} at most in steel",
            decimals=1,
        ),
        *load,
    )
    notes = (
        *_speed_notes(pace, shop, inputs.diameter),
        *_motor_notes(load),
        *_parting_notes(inputs, shop, reach, wall),
    )
    return Answer(figures, notes=notes)


def _parting_notes(inputs: PartOffInputs, shop: Shop, reach: float, wall: float) -> list[Note]:
    notes = []
    unit = shop.unit
    blade = shop.lathe.blade if shop.lathe else None
    if blade is not None and reach > blade.reach:
        text = (
            f"The blade reaches {show(blade.reach, 'length', unit, decimals=1)}, the cut wants "
            f"{show(reach, 'length', unit, decimals=1)}: saw the rest, or part through from a drilled hole."
        )
        notes.append(Note("warning", text))
    slender = wall / inputs.blade
    if slender > parting.SLENDER_LIGHT:
        narrow = "above what steel bears" if slender > parting.SLENDER_STEEL else "slender for a light lathe"
        notes.append(
            Note(
                "warning", f"The groove is {slender:.1f} times as deep as wide, {narrow}: use a wider blade."
            )
        )
    if inputs.stick_out is not None and inputs.stick_out > inputs.diameter:
        text = (
            f"The cut is {inputs.stick_out / inputs.diameter:.1f} diameters from the jaws: chatter grows with it. "
            "Bring it within one diameter."
        )
        notes.append(Note("warning", text))
    notes.append(
        Note(
            "info",
            "Blade on centre height and square, saddle locked, oil, steady feed. Never between centres.",
        )
    )
    return notes


OPERATIONS = {
    "turning-speed": Operation(
        id="turning-speed",
        inputs=TurningSpeedInputs,
        work=_turning_speed,
        hazards=("turning", "chuck", "swarf"),
        example={"diameter": "20", "material": "mild steel", "cut": "0.5"},
        help="Chooses the lathe's own speed for a cut, never above the chuck's mark, and what it asks of the motor.",
    ),
    "part-off": Operation(
        id="part-off",
        inputs=PartOffInputs,
        work=_part_off,
        hazards=("parting", "turning", "chuck"),
        example={"diameter": "20", "material": "mild steel"},
        help="Speed, feed, force and reach for parting off, and whether blade and bar are stiff enough.",
    ),
}
