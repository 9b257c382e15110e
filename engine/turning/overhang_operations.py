"""The operation `overhang`: how far a bar may stand out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.cutting.deflection import Support
from engine.cutting.materials import of_shop
from engine.shop.model import Shop
from engine.turning import overhang

_LONGEST_RATIO = 200  # beyond it a bar is a wire, and beam theory says nothing useful


@dataclass(frozen=True, slots=True, kw_only=True)
class OverhangInputs:
    """What `overhang` is told."""

    diameter: float = ask.length(
        "Diameter", low=0.2, high=500, example="10", help="Of the bar where it is thinnest."
    )
    length: float = ask.length(
        "Free length",
        low=0.1,
        high=5000,
        example="40",
        help="From the jaws to the free end, or to the centre.",
    )
    material: Any = ask.material(
        "Material",
        from_shop=of_shop,
        example="mild steel",
        empty="the shop's first",
        help="Decides how stiff the bar is, and how hard a light cut pushes.",
    )
    support: str = ask.choice(
        "Held by",
        ("chuck", "collet", "centre", "centres"),
        default="chuck",
        example="chuck",
        help="Chuck or collet: far end free. Centre: chuck and tailstock centre. Centres: between two.",
    )
    force: float | None = ask.quantity(
        "Force across the bar",
        "force",
        low=0.01,
        high=1e5,
        required=False,
        example="20 N",
        empty="that of a light finishing cut",
        help="What the tool pushes the bar away with.",
    )
    bore: float = ask.length(
        "Bore", default=0.0, low=-1e-9, high=500, example="6", help="Of a tube; 0 for a solid bar."
    )
    allowed: float = ask.length(
        "Error allowed on the diameter",
        default=overhang.TAPER_ALLOWED,
        low=0.001,
        high=5,
        example="0.02",
        help="Decides the longest sensible free length.",
    )


def _support(holding: str) -> Support:
    return "centre" if holding == "centre" else "centres" if holding == "centres" else "chuck"


def _work(inputs: OverhangInputs, shop: Shop) -> Answer:
    unit = shop.unit
    if inputs.bore >= inputs.diameter:
        across = show(inputs.diameter, "length", unit)
        raise BadInput(
            "bore", show(inputs.bore, "length", unit), f"a bore smaller than the diameter of {across}"
        )
    ratio = inputs.length / inputs.diameter
    if ratio > _LONGEST_RATIO:
        raise BadInput("length", show(inputs.length, "length", unit), f"up to {_LONGEST_RATIO} diameters")
    force = inputs.force if inputs.force is not None else overhang.light_cut_force(inputs.material)
    support = _support(inputs.support)
    stiffness = inputs.material.modulus
    bent = overhang.bend(
        diameter=inputs.diameter,
        bore=inputs.bore,
        length=inputs.length,
        modulus=stiffness,
        force=force,
        support=support,
    )
    rule, rule_source = overhang.ratio_limit(inputs.support)
    by_taper = overhang.longest_for_taper(
        diameter=inputs.diameter,
        bore=inputs.bore,
        modulus=stiffness,
        force=force,
        support=support,
        allowed=inputs.allowed,
    )
    by_rule = rule * inputs.diameter
    longest = min(by_rule, by_taper)
    decided = rule_source if by_rule <= by_taper else "beam theory"
    divisor = {"chuck": "3", "centre": "768/7", "centres": "48"}[support]
    where = "at the free end" if support == "chuck" else "in the middle"
    figures = (
        Figure(
            "deflection",
            f"The bar gives way {where} by",
            bent.deflection,
            "length",
            "beam theory: F L cubed ÷ (k E I)",
            f"{force:.5g} N x {inputs.length:g} mm cubed ÷ ({divisor} x {stiffness:g} MPa x "
            f"{_moment_words(inputs)}) = {show(bent.deflection, 'length', decimals=5)}"
            + (f" = {show(bent.deflection, 'length', unit, decimals=4)}" if unit == "inch" else ""),
            decimals=4,
        ),
        Figure(
            "taper_error",
            "Which leaves on the diameter",
            bent.taper,
            "length",
            "geometry",
            f"2 x {worked(bent.deflection, unit)}: it comes out larger {where}",
            decimals=4,
        ),
        Figure(
            "longest",
            "Longest sensible free length",
            longest,
            "length",
            decided,
            f"smaller of {rule:g} x {worked(inputs.diameter, unit)} = {worked(by_rule, unit)} and "
            f"{worked(by_taper, unit)}, where the error is {worked(inputs.allowed, unit)}",
            decimals=1,
            side="down",
        ),
        Figure(
            "ratio",
            "Length over diameter",
            ratio,
            "ratio",
            "arithmetic",
            f"{worked(inputs.length, unit)} ÷ {worked(inputs.diameter, unit)}",
            decimals=2,
        ),
        Figure(
            "force", "Force across the bar", force, "force", *_force_words(inputs, force, unit), decimals=1
        ),
    )
    return Answer(figures, notes=tuple(_notes(inputs, shop, longest, bent)))


def _moment_words(inputs: OverhangInputs) -> str:
    bore = f" - {inputs.bore:g} to the 4th" if inputs.bore else ""
    return f"3.14159 x ({inputs.diameter:g} to the 4th{bore}) ÷ 64"


def _force_words(inputs: OverhangInputs, force: float, unit: str) -> tuple[str, str]:
    if inputs.force is not None:
        return "given", "as given"
    return (
        f"Kienzle's law ({inputs.material.source}); half the main force across the bar: common practice, no source",
        f"{overhang.RADIAL_SHARE:g} x {force / overhang.RADIAL_SHARE:.2f} N, the main force of a cut "
        f"{overhang.LIGHT_DEPTH:g} mm deep at {overhang.LIGHT_FEED:g} mm a turn in {inputs.material.name}"
        + (
            f"; {show(force, 'force')} = {show(force, 'force', 'inch', decimals=1)}" if unit == "inch" else ""
        ),
    )


def _notes(inputs: OverhangInputs, shop: Shop, longest: float, bent: overhang.Bend) -> list[Note]:
    if inputs.length <= longest:
        return []
    far = show(longest, "length", shop.unit, decimals=1)
    error = show(bent.taper, "length", shop.unit, decimals=3)
    remedy = {
        "chuck": "Shorten it, or support the end with a centre.",
        "collet": "Shorten it, or support the end with a centre.",
        "centre": "Use a steady, or lighter cuts with a sharp tool.",
        "centres": "Use a steady, or lighter cuts with a sharp tool.",
    }[inputs.support]
    what = "a light cut" if inputs.force is None else "that force"
    return [Note("warning", f"Longer than {far}: {what} leaves {error} on the diameter. {remedy}")]


OPERATIONS = {
    "overhang": Operation(
        id="overhang",
        inputs=OverhangInputs,
        work=_work,
        hazards=("turning", "chuck"),
        example={"diameter": "10", "length": "40", "support": "chuck"},
        help="Says how far a bar bends under the tool, what that leaves on its diameter, and how far it may stand out.",
    )
}
