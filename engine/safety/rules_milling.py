"""Rules of milling, dividing and graduating."""

from __future__ import annotations

from collections.abc import Callable

from engine.safety.facts import STANDS, Facts, Finding

_TINY_CUTTER = 3.0  # mm; common practice, no source
_PASS_SHARE = 0.5  # of the cutter's diameter in one pass; common practice, no source
_BEND_ALLOWED = 0.01  # mm at the tip, as engine.slotting.slot has it; common practice, no source
_WALL_SHARE = 0.25  # of the bar's diameter under a slot; judgement, no source
_FLUTES = 2  # of a small slot drill that is not owned
_RUN_OUT_SHARE = 0.5  # of the feed per tooth; common practice, no source


def _cutter(facts: Facts) -> float | None:
    """Diameter of the cutter. [mm]"""
    return facts.number("cutter", "width")


def _tiny_cutter(facts: Facts) -> Finding | None:
    """A cutter that breaks easily."""
    cutter = _cutter(facts)
    return Finding.raised(cutter=facts.length(cutter)) if cutter and cutter <= _TINY_CUTTER else None


def _deep_pass(facts: Facts) -> Finding | None:
    """A pass deeper than half the cutter's diameter."""
    cutter, depth = _cutter(facts), facts.number("step")
    if not cutter or depth is None:
        return STANDS
    if depth <= _PASS_SHARE * cutter + 1e-9:
        return None
    limit = facts.length(_PASS_SHARE * cutter, side="down")
    return Finding.raised(depth=facts.length(depth), cutter=facts.length(cutter), limit=limit)


def _bending_cutter(facts: Facts) -> Finding | None:
    """A small cutter that bends under its cut."""
    cutter, bend = _cutter(facts), facts.number("cutter_deflection")
    if not cutter or bend is None or bend <= _BEND_ALLOWED:
        return None
    limit = f"{1000 * _BEND_ALLOWED:.0f} µm"
    return Finding.raised(bend=f"{1000 * bend:.1f} µm", cutter=facts.length(cutter), limit=limit)


def _thin_wall(facts: Facts) -> Finding | None:
    """Little metal left under a slot."""
    wall, diameter = facts.number("wall_left"), facts.number("diameter")
    if wall is None or not diameter or wall >= _WALL_SHARE * diameter:
        return None
    return Finding.raised(wall=facts.length(wall), diameter=facts.length(diameter))


def _run_out(facts: Facts) -> Finding:
    """Run-out as large as half the bite of one edge."""
    cutter, feed, speed = _cutter(facts), facts.number("feed"), facts.speed
    if not cutter or not feed or not speed:
        return STANDS
    owned = facts.shop.end_mills if facts.shop else ()
    flutes = next((mill.flutes for mill in owned if abs(mill.diameter - cutter) < 1e-6), _FLUTES)
    bite = feed / (speed * flutes)
    return Finding.asked(limit=f"{1000 * _RUN_OUT_SHARE * bite:.0f} µm")


def _climbing(facts: Facts) -> Finding | None:
    """A climb cut on a table with backlash."""
    if facts.mill is not None and facts.mill.x.backlash <= 0:
        return None
    if facts.mill is None:
        return Finding.asked(backlash="some")
    return Finding.measured_but(backlash=facts.length(facts.mill.x.backlash))


def _indexed_in_lathe(facts: Facts) -> Finding | None:
    """Dividing by the lathe's own spindle, for want of a head or because it has a wheel for it."""
    if facts.shop is not None and facts.lathe is None:
        return None
    headed = facts.shop is not None and (facts.shop.dividing_head or facts.shop.rotary_table)
    by_wheel = facts.lathe is not None and facts.lathe.spindle_wheel is not None
    return None if headed and not by_wheel else Finding.asked()


def _pin_left_in(facts: Facts) -> Finding | None:
    """The detent of a spindle wheel forgotten."""
    return None if _indexed_in_lathe(facts) is None else STANDS


RULES: dict[str, Callable[[Facts], Finding | None]] = {
    "tiny-cutter": _tiny_cutter,
    "deep-pass": _deep_pass,
    "bending-cutter": _bending_cutter,
    "thin-wall": _thin_wall,
    "run-out": _run_out,
    "climbing": _climbing,
    "indexed-in-lathe": _indexed_in_lathe,
    "pin-left-in": _pin_left_in,
}
