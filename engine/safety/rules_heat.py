"""Rules of soldering, brazing, heating, gluing and pressing."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from engine.base.refusals import BadInput
from engine.base.words import Text, figures, say, shown
from engine.safety.finding import STANDS, Finding, asked, belongs, measured_but, raised, rule, tenth
from engine.safety.physics import BRAZING, WORKING_MARGIN, cavity_pressure
from engine.situation import Situation

if TYPE_CHECKING:
    from engine.joining.solders import Alloy

_BALL_TEMPER = 150.0  # °C, low end of the temper of a 52100 ball (ASM International, 12 June 2019)
_SMALL = 6.0  # mm: a hard piece below it flicks away; common practice, no source
_COATINGS = ("galvanised", "galvanized", "zinc", "plated", "chrome", "paint")
_HARD_PARTS = ("ball", "52100", "bearing", "hardened", "silver steel", "drill rod", "cutter", "tool steel", "pin")
_SOFT_PARTS = ("brass", "bronze", "copper", "mild steel", "stainless", "aluminium", "annealed")


def _alloy(s: Situation) -> Alloy | None:
    """The solder that was named, None while it is not known which."""
    from engine.joining.solders import alloy  # loaded when something is soldered, not for every caution

    try:
        return alloy(s.alloy)
    except BadInput:
        return None


belongs("brazing", lambda s: s.liquidus is None or s.liquidus > BRAZING, "liquidus")
belongs("soft", lambda s: s.liquidus is None or s.liquidus <= BRAZING, "liquidus")


@rule("lead", "alloy")
def _lead(s: Situation) -> Finding | None:
    """Lead in the solder."""
    known = _alloy(s)
    if known is None:
        return asked()
    return raised(alloy=known.name) if "Pb" in known.name else None


@rule("cadmium", "alloy", "liquidus")
def _cadmium(s: Situation) -> Finding | None:
    """Cadmium in a silver filler, or one that is named by its kind alone."""
    known = _alloy(s)
    if known is None:
        return None if s.liquidus is not None and s.liquidus <= BRAZING else asked()
    if known.cadmium:
        return raised(alloy=known.name, share=shown(known.cadmium, "percent"))
    if known.liquidus <= BRAZING:
        return None
    return None if _plain(known.name) in _plain(s.alloy) else asked()


def _plain(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.lower())


@rule("hollow", "hollow", "liquidus")
def _hollow(s: Situation) -> Finding | None:
    """A closed hollow that is heated."""
    if s.hollow is False:
        return None
    if s.liquidus is None:
        return raised(rise="several times", hot="soldering heat") if s.hollow else asked(rise="several times")
    hot = s.liquidus + WORKING_MARGIN
    rise = say("{rise} times", rise=figures(cavity_pressure(hot=hot), 1))
    return (raised if s.hollow else measured_but)(rise=rise, hot=shown(hot, "temperature"))


@rule("hollow-quenched", "hollow", "hardened", "alloy", "liquidus")
def _hollow_quenched(s: Situation) -> Finding | None:
    """A hollow part that is dipped hot."""
    soldered = bool(s.alloy) or s.liquidus is not None
    if s.hardened is False or s.hollow is False or (s.hardened is None and soldered):
        return None
    return raised() if s.hollow and s.hardened else STANDS


def _temper(s: Situation) -> float | None:
    """Temper of the part heated, the low end of a ball's when only its kind is known. [°C]"""
    if s.temper is not None:
        return s.temper
    hard = any(word in s.part for word in _HARD_PARTS) and not any(word in s.part for word in _SOFT_PARTS)
    return (s.bears or _BALL_TEMPER) if hard else None


@rule("over-temper", "liquidus", "temper", "bears", "part")
def _over_temper(s: Situation) -> Finding | None:
    """The joint is hotter than the part was tempered at."""
    temper = _temper(s)
    if s.liquidus is not None and s.liquidus > BRAZING:  # another caution speaks of those
        return None
    if s.liquidus is None:
        return STANDS
    if temper is None:
        return None if s.part else STANDS
    hot = s.liquidus + WORKING_MARGIN
    if hot <= temper:
        return None
    return raised(hot=_heat(hot), temper=_heat(temper), over=_degrees(hot - temper))


@rule("hardness-gone", "liquidus", "temper", "bears", "part")
def _hardness_gone(s: Situation) -> Finding | None:
    """Silver solder on a hardened part."""
    temper = _temper(s)
    if s.liquidus is not None and s.liquidus <= BRAZING:
        return None
    if s.liquidus is None or (temper is None and not s.part):
        return STANDS
    if temper is None:
        return None
    return raised(liquidus=_heat(s.liquidus), temper=_heat(temper), over=_degrees(s.liquidus - temper))


def _heat(value: float) -> Text:
    return shown(value, "temperature")


def _degrees(difference: float) -> Text:
    return shown(difference, "warmer")


@rule("beryllium", "part", "material")
def _beryllium(s: Situation) -> Finding | None:
    """Beryllium copper, or a spring alloy that nobody knows."""
    named = s.part or s.material
    if "beryllium" in named:
        return raised(part=named[0].upper() + named[1:])
    return None if named else STANDS


@rule("coating", "part", "coating")
def _coating(s: Situation) -> Finding | None:
    """Zinc, cadmium, chrome or paint on what is heated."""
    if s.coating == "none":
        return None
    found = s.coating or next((word for word in _COATINGS if word in s.part), "")
    return raised(coating=found) if found else asked()


@rule("small-part", "ball")
def _small_part(s: Situation) -> Finding:
    """A part small and hard enough to flick away."""
    return STANDS if s.ball is None or s.ball >= _SMALL else raised(size=tenth(s.ball))


@rule("pressed", "hold", "interference")
def _pressed(s: Situation) -> Finding | None:
    """Belongs to what is pressed together."""
    if s.interference is False or (s.hold and not any(word in s.hold for word in ("press", "stake"))):
        return None
    return STANDS
