"""Rules of turning, parting, screwcutting and knurling."""

from __future__ import annotations

from collections.abc import Callable

from engine.safety.facts import STANDS, Facts, Finding
from engine.safety.physics import (
    BLADE_PASSES,
    BLADE_WIDTHS,
    REACTION,
    advance_time,
    gap_needed,
    highest_speed,
)

_MARGIN_TIMES = 3  # reaction times that leave room for a fumble; judgement
_DRY_CUTTING = ("brass", "bronze", "cast iron", "ductile", "acetal", "nylon")  # may be parted dry
_BURNING = ("magnesium", "titanium")
_KNURL_OVERHANG = 2.0  # diameters; a lathe instruction book, knurling paragraph


def _seconds(time: float) -> str:
    return f"{int(time * 10) / 10:.1f} s"  # towards the quick side


def _run_in(facts: Facts) -> Finding | None:
    """Power feed that ends nearer to the jaws than a person can react."""
    speed, feed, gap = facts.lathe_speed, facts.number("feed"), facts.number("gap")
    if not speed or not feed:
        return STANDS
    if gap is None:
        return Finding.asked(gap=facts.length(gap_needed(speed=speed, advance=feed), side="up"))
    time = advance_time(gap=gap, speed=speed, advance=feed)
    return Finding.raised(time=_seconds(time), speed=f"{speed:.0f}") if time < REACTION else None


def _lead_speed(facts: Facts) -> tuple[float | None, float | None, float | None]:
    """Lead, speed and time to the shoulder of a thread being cut, as far as they are known."""
    lead = float(facts.thread.lead) if facts.thread else None
    speed, gap = facts.speed, facts.number("gap")
    time = facts.number("time_to_shoulder")
    if time is None and lead and speed and gap is not None:
        time = advance_time(gap=gap, speed=speed, advance=lead)
    return lead, speed, time


def _shoulder(facts: Facts) -> Finding | None:
    """The tool is at the shoulder before the half-nuts can be opened."""
    lead, speed, time = _lead_speed(facts)
    if time is None:
        gap = (
            facts.length(gap_needed(speed=speed, advance=lead), side="up")
            if lead and speed
            else "one second's way"
        )
        return Finding.asked(gap=gap)
    if time >= REACTION:
        return None
    given = facts.number("gap")
    limit = highest_speed(gap=given, advance=lead) if given and lead else (speed or 0) * time / REACTION
    slowest = min(facts.lathe.speeds) if facts.lathe else 0.0
    remedy = (
        f"Run {int(limit)} or less" if limit >= slowest else f"Crank by hand, {slowest:.0f} is your slowest"
    )
    return Finding.raised(
        time=_seconds(time), speed=f"{speed or 0:.0f}", remedy=remedy, needed=f"{REACTION:.1f} s"
    )


def _shoulder_margin(facts: Facts) -> Finding | None:
    """Enough time to act, too little for a fumble."""
    _, speed, time = _lead_speed(facts)
    if time is None or time < REACTION or time >= _MARGIN_TIMES * REACTION:
        return None
    return Finding.raised(
        time=_seconds(time), speed=f"{speed or 0:.0f}", calm=f"{_MARGIN_TIMES * REACTION:.1f} s"
    )


def _reach_needed(facts: Facts) -> float | None:
    """What a blade must reach to part it. [mm]"""
    diameter = facts.diameter
    if diameter is None:
        return None
    return facts.number("blade_reach") or (diameter - (facts.number("bore") or 0.0)) / 2 + BLADE_PASSES


def _blade_reach(facts: Facts) -> Finding | None:
    """The blade is too short for what is left of the radius."""
    needed = _reach_needed(facts)
    blade = facts.lathe.blade if facts.lathe else None
    if needed is None or blade is None:
        words = facts.length(needed, side="up") if needed is not None else "the radius and a little more"
        return Finding.asked(needed=words)
    if blade.reach >= needed:
        return None
    short = facts.length(needed - blade.reach, side="up")
    return Finding.raised(
        reach=facts.length(blade.reach), needed=facts.length(needed, side="up"), short=short
    )


def _blade_widths(facts: Facts) -> Finding | None:
    """The blade must stand out many times its own width."""
    needed = _reach_needed(facts)
    owned = facts.lathe.blade.width if facts.lathe and facts.lathe.blade else None
    width = facts.number("blade") or owned
    if needed is None or not width:
        return None
    ratio = needed / width
    if ratio <= BLADE_WIDTHS:
        return None
    return Finding.raised(ratio=f"{ratio:.1f}", width=facts.length(width), limit=f"{BLADE_WIDTHS:.0f}")


def _far_from_jaws(facts: Facts) -> Finding | None:
    """Parting further out than one diameter."""
    diameter, out = facts.diameter, facts.number("stick_out")
    if out is not None and facts.answer is not None and facts.operation == "bar-plan":
        out -= min(
            (to for to in facts.answer.table("cuts").column("to") if isinstance(to, float)), default=0.0
        )
    if diameter is None or out is None:
        return Finding.asked(diameter=facts.length(diameter) if diameter else "one diameter")
    if out <= diameter:
        return None
    return Finding.raised(out=facts.length(out), diameter=facts.length(diameter))


def _threaded_piece(facts: Facts) -> Finding:
    """A thread on the piece that is about to come off."""
    thread = facts.thread
    return Finding.asked() if thread is None else Finding.raised(thread=str(thread))


def _parting_dry(facts: Facts) -> Finding | None:
    """Materials that seize on a dry blade."""
    return None if any(word in facts.material for word in _DRY_CUTTING) else STANDS


def _burning_swarf(facts: Facts) -> Finding | None:
    """Chips that burn."""
    found = next((word for word in _BURNING if word in facts.material), "")
    return Finding.raised(material=found) if found else None


def _leaded(facts: Facts) -> Finding | None:
    """Free-cutting brass and leaded steel carry lead."""
    leaded = "leaded" in facts.material or "free-cutting" in facts.material
    return Finding.raised(material=facts.material) if leaded else None


def _knurl_overhang(facts: Facts) -> Finding | None:
    """A one-sided knurl on work that stands out."""
    diameter = facts.diameter
    if facts.words("support") in ("centre", "steady"):
        return None
    out, width = facts.number("stick_out"), facts.number("width")
    limit = facts.length(_KNURL_OVERHANG * diameter, side="down") if diameter else "two diameters"
    if diameter is not None and out is None and width is not None and width > _KNURL_OVERHANG * diameter:
        out = width  # it stands out by the knurl at least
    if diameter is None or out is None:
        return Finding.asked(limit=limit)
    if out <= _KNURL_OVERHANG * diameter:
        return None
    return Finding.raised(ratio=f"{out / diameter:.1f}", limit=limit)


RULES: dict[str, Callable[[Facts], Finding | None]] = {
    "run-in": _run_in,
    "shoulder": _shoulder,
    "shoulder-margin": _shoulder_margin,
    "blade-reach": _blade_reach,
    "blade-widths": _blade_widths,
    "far-from-jaws": _far_from_jaws,
    "threaded-piece": _threaded_piece,
    "parting-dry": _parting_dry,
    "burning-swarf": _burning_swarf,
    "leaded": _leaded,
    "knurl-overhang": _knurl_overhang,
}
