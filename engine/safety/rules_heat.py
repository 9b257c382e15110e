"""Rules of soldering, brazing, heating and gluing."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

from engine.base.refusals import BadInput
from engine.safety.facts import STANDS, Facts, Finding
from engine.safety.physics import BRAZING, WORKING_MARGIN, cavity_pressure

if TYPE_CHECKING:
    from engine.joining.solders import Alloy

_BALL_TEMPER = 150.0  # °C, the low end of the temper of a 52100 ball (ASM International, 12 June 2019)
_HARD_PARTS = (
    "ball",
    "52100",
    "bearing",
    "hardened",
    "silver steel",
    "drill rod",
    "cutter",
    "tool steel",
    "pin",
)
_SOFT_PARTS = ("brass", "bronze", "copper", "mild steel", "stainless", "aluminium", "annealed")


def _liquidus(facts: Facts) -> float | None:
    """Where the filler is all liquid. [°C]"""
    return facts.number("liquidus")


def _alloy(facts: Facts) -> Alloy | None:
    """The solder that was named, None while it is not known which."""
    from engine.joining.solders import alloy  # loaded when something is soldered, not for every caution

    try:
        return alloy(facts.words("alloy"))
    except BadInput:
        return None


def _brazing(facts: Facts) -> Finding | None:
    """Belongs to work above 450 °C."""
    liquidus = _liquidus(facts)
    return None if liquidus is not None and liquidus <= BRAZING else STANDS


def _soft(facts: Facts) -> Finding | None:
    """Belongs to soft soldering."""
    liquidus = _liquidus(facts)
    return None if liquidus is not None and liquidus > BRAZING else STANDS


def _lead(facts: Facts) -> Finding | None:
    """Lead in the solder."""
    known = _alloy(facts)
    if known is None:
        return Finding.asked()
    return Finding.raised(alloy=known.name) if "Pb" in known.name else None


def _cadmium(facts: Facts) -> Finding | None:
    """Cadmium in a silver filler, or one that is named by its kind alone."""
    known = _alloy(facts)
    if known is None:
        return Finding.asked()
    if known.cadmium:
        return Finding.raised(alloy=known.name, share=f"{known.cadmium:.0f} %")
    if known.liquidus <= BRAZING:
        return None
    by_name = _plain(known.name) in _plain(facts.words("alloy"))
    return None if by_name else Finding.asked()


def _plain(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.lower())


def _hollow(facts: Facts) -> Finding:
    """A closed hollow that is heated."""
    liquidus = _liquidus(facts)
    if liquidus is None:
        return Finding.asked(rise="several times")
    hot = liquidus + WORKING_MARGIN
    return Finding.measured_but(rise=f"{cavity_pressure(hot=hot):.1f} times", hot=f"{hot:.0f} °C")


def _temper(facts: Facts) -> float | None:
    """Temper of the part heated, the low end of a ball's when only its kind is known. [°C]"""
    given = facts.number("temper")
    if given is not None:
        return given
    part = facts.words("part")
    hard = any(word in part for word in _HARD_PARTS) and not any(word in part for word in _SOFT_PARTS)
    return (facts.number("limit") or _BALL_TEMPER) if hard else None


def _over_temper(facts: Facts) -> Finding | None:
    """The joint is hotter than the part was tempered at."""
    liquidus, temper = _liquidus(facts), _temper(facts)
    if liquidus is not None and liquidus > BRAZING:  # another caution speaks of those
        return None
    if liquidus is None:
        return STANDS
    if temper is None:
        return None if facts.words("part") else STANDS
    hot = liquidus + WORKING_MARGIN
    if hot <= temper:
        return None
    return Finding.raised(hot=f"{hot:.0f} °C", temper=f"{temper:.0f} °C", over=f"{hot - temper:.0f} °C")


def _hardness_gone(facts: Facts) -> Finding | None:
    """Silver solder on a hardened part."""
    liquidus, temper = _liquidus(facts), _temper(facts)
    if liquidus is not None and liquidus <= BRAZING:
        return None
    if liquidus is None or (temper is None and not facts.words("part")):
        return STANDS
    if temper is None:
        return None
    over = liquidus - temper
    return Finding.raised(liquidus=f"{liquidus:.0f} °C", temper=f"{temper:.0f} °C", over=f"{over:.0f} °C")


def _beryllium(facts: Facts) -> Finding | None:
    """Beryllium copper, or a spring alloy that nobody knows."""
    named = facts.words("part") or facts.material
    if "beryllium" in named:
        return Finding.raised(part=named)
    return None if named else STANDS


def _coating(facts: Facts) -> Finding:
    """Zinc, cadmium, chrome or paint on what is heated."""
    named = facts.words("part")
    found = next(
        (word for word in ("galvanised", "galvanized", "zinc", "plated", "chrome", "paint") if word in named),
        "",
    )
    return Finding.raised(coating=found) if found else Finding.asked()


def _small_part(facts: Facts) -> Finding:
    """A part small and hard enough to flick away."""
    size = facts.number("ball")
    if size is None or size >= 6.0:  # mm; common practice, no source
        return STANDS
    return Finding.raised(size=facts.length(size))


RULES: dict[str, Callable[[Facts], Finding | None]] = {
    "brazing": _brazing,
    "soft": _soft,
    "lead": _lead,
    "cadmium": _cadmium,
    "hollow": _hollow,
    "over-temper": _over_temper,
    "hardness-gone": _hardness_gone,
    "beryllium": _beryllium,
    "coating": _coating,
    "small-part": _small_part,
}
