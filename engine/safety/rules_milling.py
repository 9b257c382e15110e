"""Rules of milling, dividing and graduating."""

from __future__ import annotations

from engine.base.words import shown
from engine.safety.finding import STANDS, Finding, at_most, belongs, raised, rule, tenth, unless_told
from engine.situation import Situation

_TINY_CUTTER = 3.0  # mm; common practice, no source
_PASS_SHARE = 0.5  # of the cutter's diameter in one pass; common practice, no source
BEND_ALLOWED = 0.01  # mm at the tip; common practice, no source
_WALL_SHARE = 0.25  # of the bar's diameter under a slot; judgement, no source


@rule("tiny-cutter", "tool_diameter")
def _tiny_cutter(s: Situation) -> Finding | None:
    """A cutter that breaks easily."""
    cutter = s.tool_diameter
    return raised(_TINY_CUTTER / cutter, cutter=tenth(cutter)) if cutter and cutter <= _TINY_CUTTER else None


@rule("deep-pass", "tool_diameter", "pass_depth")
def _deep_pass(s: Situation) -> Finding | None:
    """A pass deeper than half the cutter's diameter."""
    cutter, depth = s.tool_diameter, s.pass_depth
    if not cutter or depth is None:
        return STANDS
    limit = _PASS_SHARE * cutter
    if depth <= limit + 1e-9:
        return None
    return raised(depth / limit, depth=tenth(depth), cutter=tenth(cutter), limit=at_most(limit))


@rule("bending-cutter", "tool_diameter", "cutter_deflection")
def _bending_cutter(s: Situation) -> Finding | None:
    """A small cutter that bends under its cut."""
    cutter, bend = s.tool_diameter, s.cutter_deflection
    if not cutter or bend is None or bend <= BEND_ALLOWED:
        return None
    return raised(bend / BEND_ALLOWED, bend=shown(bend), cutter=tenth(cutter), limit=shown(BEND_ALLOWED))


@rule("thin-wall", "wall", "work_diameter")
def _thin_wall(s: Situation) -> Finding | None:
    """Little metal left under a slot."""
    wall, diameter = s.wall, s.work_diameter
    if wall is None or not diameter or wall >= _WALL_SHARE * diameter:
        return None
    return raised(diameter / max(wall, 1e-3), wall=tenth(wall), diameter=tenth(diameter))


belongs("climbing", lambda s: s.table_backlash is None or s.table_backlash > 0, "table_backlash")


@rule("indexed-in-lathe", "machine", "indexed_in_lathe", "power")
def _indexed_in_lathe(s: Situation) -> Finding | None:
    """Dividing by the lathe's own spindle, for want of a head or because it has a wheel for it."""
    if s.machine == "mill" or s.indexed_in_lathe is False or s.power == "unplugged":
        return None
    return raised() if s.indexed_in_lathe and s.power == "on" else unless_told("power")


belongs("pin-left-in", lambda s: s.machine != "mill" and s.indexed_in_lathe is not False, "machine", "indexed_in_lathe")
