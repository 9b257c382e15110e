"""Overhang: how far a bar may stand out, and what it leaves on the diameter."""

from __future__ import annotations

from math import pi
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure, info, warning
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import law, mm, smaller
from engine.base.words import Text, general, put, say, shown, write
from engine.base.words import figures as places
from engine.cutting.deflection import Support
from engine.cutting.materials import of_shop
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning import stiffness
from engine.turning.collets import collet_figure
from engine.turning.holding_pictures import bent_picture

_LONGEST_RATIO = 200  # beyond it a bar is a wire, and beam theory says nothing useful
_GIVE = 0.0001  # mm per N: spindle, chuck and slides of a light lathe, 10 N a thousandth; from memory, unconfirmed
_GIVE_SOURCE = "spindle, chuck and slides of a light lathe give about 0.1 µm per newton: from memory, unconfirmed"


@dataclass(frozen=True, slots=True, kw_only=True)
class OverhangInputs:
    """What `overhang` is told.

    diameter: Of the bar where it is thinnest.
    length: From the jaws to the free end, or to the centre.
    material: Decides how stiff the bar is, and how hard a light cut pushes.
    support: Chuck or collet: far end free. Centre: chuck and tailstock centre. Centres: between two.
    force: What the tool pushes the bar away with.
    bore: Of a tube; 0 for a solid bar.
    allowed: Decides the longest sensible free length.
    """

    diameter: float = ask.length("Diameter", low=0.2, high=500, example="10")
    length: float = ask.length("Free length", low=0.1, high=5000, example="40")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    support: str = ask.choice("Held by", ("chuck", "collet", "centre", "centres"), default="chuck", example="chuck")
    force: float | None = ask.quantity(
        "Force across the bar", "force", low=0.01, high=1e5, example="20 N", empty="that of a light finishing cut"
    )
    bore: float = ask.length("Bore", default=0.0, low=-1e-9, high=500, example="6")
    allowed: float = ask.length("Error allowed", default=stiffness.TAPER_ALLOWED, low=0.001, high=5, example="0.02")


@dataclass(frozen=True, slots=True)
class _Bent:
    """The bar under its force: `deflection` where it is largest, [mm] and N."""

    force: float
    support: Support
    deflection: float
    longest: float
    by_rule: float
    by_taper: float
    rule_source: str


def _bend(inputs: OverhangInputs) -> _Bent:
    force = inputs.force if inputs.force is not None else stiffness.light_cut_force(inputs.material)
    support: Support = inputs.support if inputs.support in ("centre", "centres") else "chuck"  # type: ignore[assignment]
    at: dict[str, Any] = {"diameter": inputs.diameter, "bore": inputs.bore, "modulus": inputs.material.modulus,
        "force": force, "support": support}  # fmt: skip
    moved = stiffness.bend(length=inputs.length, **at).deflection
    rule, source = stiffness.ratio_limit(inputs.support)
    by_taper = stiffness.longest_for_taper(allowed=inputs.allowed, **at)
    by_rule = rule * inputs.diameter
    return _Bent(force, support, moved, min(by_rule, by_taper), by_rule, by_taper, source)


def _work(inputs: OverhangInputs, shop: Shop) -> Answer:
    if inputs.bore >= inputs.diameter:
        most = say("a bore smaller than the diameter of {across}", across=shown(inputs.diameter))
        raise BadInput("bore", shown(inputs.bore), most)
    if inputs.length / inputs.diameter > _LONGEST_RATIO:
        raise BadInput("length", shown(inputs.length), f"up to {_LONGEST_RATIO} diameters")
    bent = _bend(inputs)
    held = {"collet": "collet", "centres": "between centres"}.get(inputs.support, "")
    moment = Situation(machine="lathe", work_diameter=inputs.diameter, bore=inputs.bore or None,
        stick_out=inputs.length, material=inputs.material.name, held_by=held,
        support="centre" if inputs.support.startswith("centre") else "none")  # fmt: skip
    drawn = bent_picture(diameter=inputs.diameter, length=inputs.length, support=bent.support,
        deflection=bent.deflection, error=2 * bent.deflection)  # fmt: skip
    return Answer(_figures(inputs, bent, shop), pictures=(drawn,), notes=_notes(inputs, bent), moments=(moment,))


def _figures(inputs: OverhangInputs, bent: _Bent, shop: Shop) -> tuple[Figure, ...]:
    where, short = ("at the free end", "free end") if bent.support == "chuck" else ("in the middle", "middle")
    moved = law(bent.deflection, "length", write(_beam_words(inputs, bent)))
    rule, taper = mm(inputs.diameter) * stiffness.ratio_limit(inputs.support)[0], mm(bent.by_taper)
    give = law(bent.force * _GIVE, "length", write(say("{force} x 0.0001", force=general(bent.force))))
    longest = say("{both}; {taper} is where the error is {allowed}", both=smaller(rule, taper),
        taper=put(bent.by_taper), allowed=shown(inputs.allowed))  # fmt: skip
    return (
        figure("deflection", f"Deflection, {short}", moved, "beam theory: F L cubed ÷ (k E I)", decimals=3),
        figure("taper_error", "Size error, diameter", 2 * moved.known(), "geometry",
               say("{sum}: it comes out larger {where}", sum=2 * moved.known(), where=where), decimals=3),
        figure("longest", "Longest free length", mm(bent.longest),
               bent.rule_source if bent.by_rule <= bent.by_taper else "beam theory", longest, decimals=1, side="down"),
        figure("ratio", "Length ÷ diameter", mm(inputs.length) / mm(inputs.diameter), "arithmetic", decimals=2),
        *((collet_figure(inputs.diameter, shop),) if inputs.support == "collet" else ()),
        Figure("force", "Force across the bar", bent.force, "force", *_force_words(inputs, bent.force), decimals=1),
        figure("spindle_give", "Spindle and slides add", give, _GIVE_SOURCE, decimals=3),
    )  # fmt: skip


def _beam_words(inputs: OverhangInputs, bent: _Bent) -> Text:
    divisor = {"chuck": "3", "centre": "768/7", "centres": "48"}[bent.support]
    bore = say(" - {bore} to the 4th", bore=general(inputs.bore)) if inputs.bore else ""
    return say("{force} N x {length} mm cubed ÷ ({divisor} x {modulus} MPa x {pi} x ({across} to the 4th{bore}) ÷ 64) "
        "= {moved} mm", force=general(bent.force), length=general(inputs.length), divisor=divisor,
        modulus=general(inputs.material.modulus), pi=places(pi, 5), across=general(inputs.diameter), bore=bore,
        moved=places(bent.deflection, 5))  # fmt: skip


def _force_words(inputs: OverhangInputs, force: float) -> tuple[str, Text]:
    if inputs.force is not None:
        return "given", "as given"
    main = say("{share} x {main} N, the main force of a cut {depth} mm deep at {feed} mm per turn in {name}",
        share=general(stiffness.RADIAL_SHARE), main=places(force / stiffness.RADIAL_SHARE, 2),
        depth=general(stiffness.LIGHT_DEPTH), feed=general(stiffness.LIGHT_FEED),
        name=inputs.material.name)  # fmt: skip
    source = "half the main force across the bar: common practice, no source"
    return f"the power law of cutting force ({inputs.material.source}); {source}", law(force, "force", write(main))


def _notes(inputs: OverhangInputs, bent: _Bent) -> tuple[Note, ...]:
    notes = []
    if inputs.length > bent.longest:
        remedy = "Shorten it, or support the end with a centre."
        if inputs.support.startswith("centre"):
            remedy = "Use a steady, or lighter cuts with a sharp tool."
        notes.append(warning("Longer than {far}: {what} leaves {error} on the diameter. {remedy}",
            far=shown(bent.longest, decimals=1), what="a light cut" if inputs.force is None else "that force",
            error=shown(2 * bent.deflection), remedy=remedy))  # fmt: skip
    if bent.deflection < bent.force * _GIVE:
        notes.append(info("The bar is stiffer than the lathe: expect about {give} on the diameter from spindle and "
            "slides.", give=shown(2 * bent.force * _GIVE)))  # fmt: skip
    return tuple(notes)


OPERATION = Operation(
    id="overhang",
    pane="turning",
    place=20,
    title="Overhang",
    words="deflection stick out stickout bend taper whirl bar slender long free length support centre collet steady "
    "spring give",
    machine="lathe",
    inputs=OverhangInputs,
    work=_work,
    hazards=("chuck", "collet", "turning"),
    example={"diameter": "10", "length": "40", "support": "chuck"},
    troubles={"TU-01": tells("a light cut leaves {taper_error} on the diameter")},
    help="Says how far a bar bends under the tool, what that leaves on its diameter, and how far it may stand out.",
)
