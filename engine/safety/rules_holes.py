"""Rules of drilling and tapping."""

from __future__ import annotations

from engine.base.words import figures
from engine.safety.finding import STANDS, Finding, at_least, at_most, belongs, raised, rule, tenth, unless_told
from engine.safety.physics import REACTION, gap_needed
from engine.situation import Situation

_DEEP = 3.0  # drill diameters; common practice, no source
_SMALL_DRILL = 2.0  # mm; common practice, no source
_SPARE_PITCHES = 3.0  # left under a blind thread; common practice, no source
_WALL_SHARE = 0.1  # of the outside diameter; common practice, no source
_SNATCHING = ("brass", "bronze", "acetal", "acrylic")


@rule("deep-hole", "tool_diameter", "depth")
def _deep_hole(s: Situation) -> Finding | None:
    """Deeper than the flutes clear by themselves."""
    if not s.tool_diameter or s.depth is None:
        return STANDS
    ratio = s.depth / s.tool_diameter
    return raised(ratio / _DEEP, ratio=figures(ratio, 1), limit=figures(_DEEP)) if ratio > _DEEP else None


@rule("small-drill", "tool_diameter")
def _small_drill(s: Situation) -> Finding | None:
    """A drill that breaks easily."""
    drill = s.tool_diameter
    return raised(_SMALL_DRILL / drill, drill=tenth(drill)) if drill and drill < _SMALL_DRILL else None


@rule("thin-sheet", "machine", "hole", "tool_diameter", "depth")
def _thin_sheet(s: Situation) -> Finding | None:
    """A through hole less deep than the drill is wide."""
    drill, depth = s.tool_diameter, s.depth
    if s.machine == "lathe" or s.hole != "through" or not drill or not depth or depth >= drill:
        return None
    return raised(drill / depth, depth=tenth(depth), drill=tenth(drill))


@rule("thin-round-wall", "outside", "tool_diameter")
def _thin_round_wall(s: Situation) -> Finding | None:
    """Little metal left round a hole."""
    drill, outside = s.tool_diameter, s.outside
    if not drill or outside is None or (outside - drill) / 2 >= _WALL_SHARE * outside:
        return None
    wall = max(outside - drill, 0.0) / 2
    return raised(drill / outside, wall=at_most(wall), outside=tenth(outside))


belongs("breakthrough", lambda s: s.hole != "blind", "hole")


@rule("snatching", "material")
def _snatching(s: Situation) -> Finding | None:
    """Materials that pull an ordinary drill in."""
    if any(word in s.material for word in _SNATCHING):
        return raised(material=s.material)
    return None if s.material else STANDS


@rule("tap-wrench", "power")
def _tap_wrench(s: Situation) -> Finding | None:
    """The spindle can start while a wrench is on the tap."""
    return None if s.power == "unplugged" else raised() if s.power == "on" else unless_told("power")


@rule("tap-bottoms", "hole", "tap_driven_by", "spare", "thread")
def _tap_bottoms(s: Situation) -> Finding | None:
    """Too little room below a blind thread for a tap under power."""
    if s.hole == "through" or s.tap_driven_by == "hand":
        return None
    if s.spare is None or s.thread is None:
        return unless_told("tap_driven_by")
    needed = _SPARE_PITCHES * float(s.thread.pitch)
    if s.spare >= needed:
        return None
    if s.tap_driven_by != "spindle":
        return unless_told("tap_driven_by")
    return raised(needed / max(s.spare, 1e-3), spare=at_most(s.spare), needed=at_least(needed))


@rule("tap-runs-on", "hole", "tap_driven_by", "spare", "thread", "machine_slowest")
def _tap_runs_on(s: Situation) -> Finding | None:
    """A tap under power that turns on through the spare depth before it is stopped."""
    if s.hole == "through" or s.tap_driven_by == "hand":
        return None
    if s.spare is None or s.thread is None or s.machine_slowest is None or s.tap_driven_by != "spindle":
        return unless_told("tap_driven_by")
    run_on = gap_needed(speed=s.machine_slowest, advance=float(s.thread.lead), time=REACTION)
    if run_on <= s.spare:
        return None
    return raised(
        run_on / max(s.spare, 1e-3), run_on=at_least(run_on), speed=figures(s.machine_slowest), spare=at_most(s.spare)
    )


@rule("tap-backs-out", "tap_driven_by", "chuck_screwed")
def _tap_backs_out(s: Situation) -> Finding | None:
    """Backing a tap out by power on a chuck that screws on."""
    if s.chuck_screwed is False or s.tap_driven_by == "hand":
        return None
    known = s.chuck_screwed and s.tap_driven_by == "spindle"
    return raised() if known else unless_told("tap_driven_by")


@rule("held-by-hand", "machine", "held_by")
def _held_by_hand(s: Situation) -> Finding | None:
    """Work in the fingers under a drilling or milling spindle."""
    if s.machine == "lathe":
        return None
    return raised() if s.held_by == "hand" else None if s.held_by else unless_told("held_by")
