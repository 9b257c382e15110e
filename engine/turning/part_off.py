"""Part off: speed, feed, force and reach of the blade."""

from __future__ import annotations

from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure, info, to_set, warning
from engine.base.operation import Operation, tells
from engine.base.quantity import MM_PER_INCH
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import mm
from engine.base.words import Text, general, say, shown
from engine.base.words import figures as places
from engine.cutting.feeds import feed
from engine.cutting.forces import turning_force
from engine.cutting.materials import of_shop
from engine.cutting.speeds import Tool
from engine.indexing.dials import on_slide, slide_setting
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning import pace as paces
from engine.turning.cut_pictures import parted_picture

PAST_CENTRE = 0.5  # mm beyond the centre, or into the bore, so that nothing is left: common practice
SLENDER_LIGHT = 6.0  # depth over width of the groove on a light lathe: common practice, 5 to 6
SLENDER_STEEL = 8.0  # depth over width in steel: a blade maker's table
_ZEROED = "zero with the blade's tailstock side level with the faced end; whole lines of the owned dial"
_CLOSE = 1.0  # diameters from the jaws: US Army TM 1-420 says as close as possible; one diameter is common practice


def blade_width() -> Any:
    """Ask how wide the blade is."""
    return ask.length("Width of the blade", low=0.3, high=12, example="2", empty="the shop's blade", required=True,
        from_shop=lambda shop: shop.lathe.blade.width)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOffInputs:
    """What `part-off` is told.

    diameter: Of the bar.
    bore: Hole through the part; 0 if it is solid.
    material: What is parted.
    blade: The force grows with it.
    stick_out: The bar bends and the cut chatters the further out it is.
    tool: High-speed steel, or a carbide insert.
    length: From the faced end to the blade: where the saddle is set and locked.
    """

    diameter: float = ask.length("Diameter", low=0.5, high=500, example="20")
    bore: float = ask.length("Bore", default=0.0, low=-1e-9, high=500, example="10")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    blade: float = blade_width()
    stick_out: float | None = ask.length(
        "Cut from the jaws", low=-1e-9, high=1000, example="10", empty="close to the jaws"
    )
    tool: Tool = ask.choice("Blade", ("hss", "carbide"), default="hss", example="hss")
    rear: float | None = paces.rear()
    length: float | None = ask.length("Length of the piece", high=3000, example="13.3", empty="no dial")


def reach_needed(*, diameter: float, bore: float) -> float:
    """How deep a blade has to cut: the wall, and half a millimetre past it. [mm]

    >>> reach_needed(diameter=20, bore=0), reach_needed(diameter=20, bore=10)
    (10.5, 5.5)
    """
    return (diameter - bore) / 2 + PAST_CENTRE


def _set_saddle(inputs: PartOffInputs, shop: Shop) -> list[Figure]:
    """Where the saddle stands for the cut, zeroed with the blade's tailstock side level with the faced end."""
    saddle = shop.lathe.saddle if shop.lathe else None
    if inputs.length is None or saddle is None:
        return []
    setting = on_slide("Saddle", saddle, slide_setting(saddle, inputs.length), "", inputs.length)
    return [to_set("saddle", "Part off at", setting, _ZEROED, "as told")]


def _work(inputs: PartOffInputs, shop: Shop) -> Answer:
    if inputs.bore >= inputs.diameter:
        most = say("a bore smaller than the diameter of {across}", across=shown(inputs.diameter))
        raise BadInput("bore", shown(inputs.bore), most)
    published = feed(kind="parting", diameter=inputs.diameter, tool=inputs.tool)
    rate = published.chosen
    force = turning_force(material=inputs.material, depth=inputs.blade, feed=rate)
    found = paces.pace(shop, inputs.material, "parting", inputs.tool, inputs.diameter, force=force)
    load = paces.load_figures(shop, inputs.material, inputs.blade, rate, found, "width")
    across, bore, blade = mm(inputs.diameter), mm(max(inputs.bore, 0.0)), mm(inputs.blade)
    reach = (across - bore) / 2 + mm(PAST_CENTRE)
    wall = ((across - bore) / 2).known()
    slender = wall / blade
    limits = say("{sum}; {light} on a light lathe, {steel} at most in steel", sum=slender,
                 light=general(SLENDER_LIGHT), steel=general(SLENDER_STEEL))  # fmt: skip
    figures = (
        *_set_saddle(inputs, shop),
        *paces.speed_figures(found),
        paces.feed_figure(rate, published),
        figure("blade_reach", "Blade out of its holder", reach,
               "geometry; no further, as the blade bends with the cube of its reach", decimals=1, side="up"),
        figure("slenderness", "Groove depth ÷ width", slender, "arithmetic", limits, decimals=1),
        *load,
    )  # fmt: skip
    moment = Situation(machine="lathe", spindle_speed=found.chosen, work_diameter=inputs.diameter,
        bore=inputs.bore or None, feed=rate, rear=inputs.rear, material=inputs.material.name, blade_width=inputs.blade,
        reach_needed=float(reach), parted_at=inputs.stick_out, stick_out=inputs.stick_out)  # fmt: skip
    notes = (*paces.speed_notes(found), *_notes(inputs, shop, load, float(reach), float(slender)))
    solid = max(inputs.bore, 0.0)
    drawn = parted_picture(
        diameter=inputs.diameter, bore=solid, blade=inputs.blade, reach=float(reach), at=inputs.stick_out
    )
    return Answer(figures, pictures=(drawn,), notes=notes, moments=(moment,))


def _notes(inputs: PartOffInputs, shop: Shop, load: list[Figure], reach: float, slender: float) -> list[Note]:
    notes = []
    share = next((float(f.value or 0) for f in load if f.name == "share_of_motor"), 0.0)
    if share > 1:
        notes.append(warning("Even so the blade asks for {share} times the motor: take a narrower blade, or saw it "
            "off.", share=places(share, 1)))  # fmt: skip
    blade = shop.lathe.blade if shop.lathe else None
    if blade is not None and blade.reach is None:
        text = say("How far your blade reaches is not known: the cut wants {wants}.", wants=shown(reach, decimals=1))
        notes.append(info(text))
    elif blade is not None and blade.reach is not None and reach > blade.reach:
        notes.append(warning("The blade reaches {has}, the cut wants {wants}: saw the rest, or part through from a "
            "drilled hole.", has=shown(blade.reach, decimals=1), wants=shown(reach, decimals=1)))  # fmt: skip
    if inputs.diameter <= inputs.blade:
        thin = "The bar is no thicker than the blade, which would bend it aside: saw or nip it off, and face the end."
        notes.append(warning(thin))
    if slender > SLENDER_LIGHT:
        narrow = "above what steel bears" if slender > SLENDER_STEEL else "slender for a light lathe"
        notes.append(warning("The groove is {times} times as deep as wide, {narrow}: widen the groove beside the blade "
            "as it goes down, or saw the rest. A wider blade would only push harder.", times=places(slender, 1),
            narrow=narrow))  # fmt: skip
    if inputs.stick_out is not None and inputs.stick_out > _CLOSE * inputs.diameter:
        notes.append(warning("The cut is {far} diameters from the jaws: chatter grows with it. Pull the bar back "
            "within one diameter, and out again for the next part.",
            far=places(inputs.stick_out / inputs.diameter, 1)))  # fmt: skip
    return [*notes, info("Blade on centre height and square, saddle locked, oil, steady feed. Never between centres.")]


def blade_height(diameter: float | None) -> Text:
    """US Army OD 1645: on centre up to 1 in, 1/16 in higher for each inch more."""
    high = max((diameter or 0.0) / float(MM_PER_INCH) - 1, 0) * float(MM_PER_INCH) / 16
    above = say("at most {high} above centre", high=shown(high, decimals=1))
    return above if high >= 0.1 else "on centre for this diameter" if diameter is not None else ""


_ARMY_FEED = 0.002 * float(MM_PER_INCH)  # mm a turn; US Army OD 1645


def _feed(inputs: PartOffInputs, answer: Answer, shop: Shop) -> Text:
    rate = answer.figure("feed").value or 0
    return say("feed {rate} per turn; OD 1645 has {army}", rate=shown(rate), army=shown(_ARMY_FEED))


def cross_backlash(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """Play of the owned cross slide."""
    play = shop.lathe.cross_slide.backlash if shop.lathe else None
    return say("your cross slide has {play}", play=shown(play)) if play is not None else ""


OPERATION = Operation(
    id="part-off",
    pane="turning",
    place=40,
    title="Part off",
    words="parting blade chatter cut off cutoff sever piece bar reach groove speed feed force tool cutting carbide "
    "narrow saw",
    machine="lathe",
    inputs=PartOffInputs,
    work=_work,
    tool="parting blade",
    hazards=("parting", "chuck", "swarf", "turning"),
    example={"diameter": "20", "material": "mild steel"},
    troubles={
        "PA-01": tells("blade out {blade_reach}, no further", decimals=1, side="up"),
        "PA-02": lambda inputs, answer, shop: blade_height(inputs.diameter),
        "PA-03": None,
        "PA-04": _feed,
        "PA-05": cross_backlash,
    },
    help="Speed, feed, force and reach for parting off, and whether blade and bar are stiff enough.",
)
