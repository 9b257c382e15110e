"""Rules of drilling and tapping."""

from __future__ import annotations

from collections.abc import Callable

from engine.safety.facts import STANDS, Facts, Finding
from engine.safety.physics import REACTION, gap_needed

_DEEP = 3.0  # drill diameters; common practice, no source
_SMALL_DRILL = 2.0  # mm; common practice, no source
_SPARE_PITCHES = 3.0  # left under a blind thread; common practice, no source
_WALL_SHARE = 0.1  # of the outside diameter; common practice, no source
_SNATCHING = ("brass", "bronze", "acetal", "acrylic")
_SIZE_NAMES = ("drill_diameter", "pre_drill", "hole", "diameter", "bore")


def _drill(facts: Facts) -> float | None:
    """Diameter of the drill. [mm]"""
    return facts.number(*_SIZE_NAMES)


def _depth(facts: Facts) -> float | None:
    """How deep it drills. [mm]"""
    if facts.operation not in ("hole-plan", "tap-drill", "ream"):
        return None
    return facts.number("drill_depth") or facts.number("depth")


def _deep_hole(facts: Facts) -> Finding | None:
    """Deeper than the flutes clear by themselves."""
    drill, depth = _drill(facts), _depth(facts)
    if not drill or depth is None:
        return STANDS
    if depth <= _DEEP * drill:
        return None
    return Finding.raised(ratio=f"{depth / drill:.1f}", limit=f"{_DEEP:.0f}")


def _small_drill(facts: Facts) -> Finding | None:
    """A drill that breaks easily."""
    drill = _drill(facts)
    return Finding.raised(drill=facts.length(drill)) if drill and drill < _SMALL_DRILL else None


def _thin_sheet(facts: Facts) -> Finding | None:
    """A through hole less deep than the drill is wide."""
    drill, depth = _drill(facts), _depth(facts)
    if facts.machine == "lathe" or facts.words("hole") == "blind" or not drill or depth is None:
        return None
    return Finding.raised(depth=facts.length(depth), drill=facts.length(drill)) if depth < drill else None


def _thin_round_wall(facts: Facts) -> Finding | None:
    """Little metal left round a hole."""
    drill, outside = _drill(facts), facts.number("outside")
    if not drill or outside is None or (outside - drill) / 2 >= _WALL_SHARE * outside:
        return None
    wall = max(outside - drill, 0.0) / 2
    return Finding.raised(wall=facts.length(wall, side="down"), outside=facts.length(outside))


def _breakthrough(facts: Facts) -> Finding | None:
    """A hole that comes out at the far side."""
    return None if facts.words("hole") == "blind" else STANDS


def _snatching(facts: Facts) -> Finding | None:
    """Materials that pull an ordinary drill in."""
    found = next((word for word in _SNATCHING if word in facts.material), "")
    if found:
        return Finding.raised(material=facts.material)
    return None if facts.material else STANDS


def _power_tap(facts: Facts) -> bool | None:
    """Whether the spindle drives the tap, as far as the person has told."""
    answers = [facts.told[name] for name in ("TAP-02", "TAP-03", "TAP-04") if name in facts.told]
    return any(answers) if answers else None


def _spare(facts: Facts) -> float | None:
    """Drilled depth left below the thread of a blind hole. [mm]"""
    drilled, depth = facts.number("drill_depth"), facts.given("depth")
    return drilled - depth if drilled is not None and depth is not None else None


def _tap_bottoms(facts: Facts) -> Finding | None:
    """Too little room below a blind thread for a tap under power."""
    if facts.words("hole") == "through" or _power_tap(facts) is False:
        return None
    spare, thread = _spare(facts), facts.thread
    if spare is None or thread is None:
        return Finding.asked(spare="not known")
    if spare >= _SPARE_PITCHES * float(thread.pitch):
        return None
    needed = facts.length(_SPARE_PITCHES * float(thread.pitch), side="up")
    return Finding.measured_but(spare=facts.length(spare, side="down"), needed=needed)


def _tap_runs_on(facts: Facts) -> Finding | None:
    """A tap under power that turns on through the spare depth before it is stopped."""
    spare, thread = _spare(facts), facts.thread
    if facts.words("hole") == "through" or _power_tap(facts) is False or facts.lathe is None:
        return None
    if spare is None or thread is None:
        return None
    slowest = min(facts.lathe.speeds)
    run_on = gap_needed(speed=slowest, advance=float(thread.lead), time=REACTION)
    if run_on <= spare:
        return None
    values = {"run_on": facts.length(run_on, side="up"), "speed": f"{slowest:.0f}"}
    values["spare"] = facts.length(spare, side="down")
    return Finding.measured_but(**values)


def _tap_backs_out(facts: Facts) -> Finding | None:
    """Backing a tap out by power on a chuck that screws on."""
    if (facts.chuck is not None and not facts.chuck.screwed) or _power_tap(facts) is False:
        return None
    return Finding.asked()


RULES: dict[str, Callable[[Facts], Finding | None]] = {
    "deep-hole": _deep_hole,
    "small-drill": _small_drill,
    "thin-sheet": _thin_sheet,
    "thin-round-wall": _thin_round_wall,
    "breakthrough": _breakthrough,
    "snatching": _snatching,
    "tap-bottoms": _tap_bottoms,
    "tap-runs-on": _tap_runs_on,
    "tap-backs-out": _tap_backs_out,
}
