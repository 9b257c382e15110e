"""The operation `key`: a parallel key and its keyways."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note
from engine.base.operation import Operation
from engine.base.quantity import worked
from engine.joining.iso286 import limits_of
from engine.shop.model import Shop
from engine.slotting.keys import Key, key_for
from engine.slotting.slot import crown

_SOURCE = "DIN 6885-1:1968, high form"


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyInputs:
    """What `key` is told."""

    diameter: float = ask.length(
        "Diameter of the shaft", high=1000, example="12", help="Where the key sits; above 6 mm, up to 110 mm."
    )


def _work(inputs: KeyInputs, shop: Shop) -> Answer:
    key = key_for(inputs.diameter)
    band = f"shaft over {key.over:g} up to {key.to:g} mm"
    d, drop, unit = inputs.diameter, crown(diameter=inputs.diameter, width=key.width), shop.unit
    shaft, width, t1, t2 = (worked(size, unit) for size in (d, key.width, key.shaft_depth, key.hub_depth))
    figures = (
        Figure("width", "Width of the key", key.width, "length", _SOURCE, band, *_h9(key.width), side="down"),
        Figure("height", "Height of the key", key.height, "length", _SOURCE, band),
        *_depths(key, band, unit),
        Figure(
            "shaft_over_keyway",
            "Measure, floor of keyway to far side",
            d - key.shaft_depth,
            "length",
            "geometry",
            f"{shaft} - {t1}",
            low=d - key.shaft_depth - key.depth_plus,
            high=d - key.shaft_depth,
            side="down",
        ),
        Figure(
            "hub_over_keyway",
            "Measure, across bore and keyway",
            d + key.hub_depth,
            "length",
            "geometry",
            f"{shaft} + {t2}",
            low=d + key.hub_depth,
            high=d + key.hub_depth + key.depth_plus,
            side="up",
        ),
        Figure(
            "edge_drop",
            "Edges of the keyway lie below the top by",
            drop,
            "length",
            "geometry",
            f"({shaft} - square root of ({shaft}² - {width}²)) ÷ 2",
        ),
        *_widths(key, unit),
    )
    notes = [
        Note(
            "info",
            "The shaft's depth is counted from the top of the round: touch on there and set the dial to 0.",
        )
    ]
    if unit == "inch":
        notes.append(
            Note(
                "info", "A metric key of DIN 6885-1. Inch keys have a standard of their own: not listed here."
            )
        )
    return Answer(figures, notes=tuple(notes))


def _h9(width: float) -> tuple[float, float]:
    limits = limits_of("h9", width)
    return width + limits.lower, width + limits.upper


def _depths(key: Key, band: str, unit: str) -> tuple[Figure, Figure]:
    plus = key.depth_plus
    words = f"{band}; tolerance +{worked(plus, unit)}, 0"
    return (
        Figure(
            "shaft_depth",
            "Depth in the shaft",
            key.shaft_depth,
            "length",
            _SOURCE,
            words,
            low=key.shaft_depth,
            high=key.shaft_depth + plus,
            side="up",
        ),
        Figure(
            "hub_depth",
            "Depth in the hub",
            key.hub_depth,
            "length",
            _SOURCE,
            words,
            low=key.hub_depth,
            high=key.hub_depth + plus,
            side="up",
        ),
    )


def _widths(key: Key, unit: str) -> tuple[Figure, ...]:
    """Widths of the keyways: N9 in the shaft and JS9 in the hub for a normal fit, P9 in both for a tight one."""
    found = []
    for name, label, code in (
        ("shaft_width", "Keyway in the shaft, normal fit", "N9"),
        ("hub_width", "Keyway in the hub, normal fit", "JS9"),
        ("tight_width", "Both keyways, tight fit", "P9"),
    ):
        limits = limits_of(code, key.width)
        low, high = key.width + limits.lower, key.width + limits.upper
        sign = "-" if limits.lower < 0 else "+"
        words = f"{code}: {worked(key.width, unit)} {sign} {worked(abs(limits.lower), unit)}"
        found.append(
            Figure(name, f"{label} ({code})", low, "length", limits.source, words, low, high, side="up")
        )
    return tuple(found)


OPERATIONS = {
    "key": Operation(
        id="key",
        inputs=KeyInputs,
        work=_work,
        hazards=("milling",),
        example={"diameter": "12"},
        help="The parallel key for a shaft: its section, and how deep and how wide both keyways are.",
    )
}
