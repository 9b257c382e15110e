"""Every rule by the name that a row of engine/data/safety/cautions.csv gives.

A rule looks at one moment (engine/situation.py) and returns a Finding, or None when the caution is out of the question.
Rules are code; nothing written in a table is ever evaluated.
"""

from __future__ import annotations

from engine.safety import rules_heat, rules_holding, rules_holes, rules_lathe, rules_milling
from engine.safety.finding import RULES, STANDS, Finding, rule
from engine.situation import Situation

__all__ = ["RULES", "rules_heat", "rules_holding", "rules_holes", "rules_lathe", "rules_milling"]


@rule("always")
def _always(s: Situation) -> Finding:
    """Belongs to the work, whatever the numbers."""
    return STANDS


@rule("on-lathe", "machine")
def _on_lathe(s: Situation) -> Finding | None:
    """Belongs to lathe work."""
    return None if s.machine == "mill" else STANDS


@rule("on-mill", "machine")
def _on_mill(s: Situation) -> Finding | None:
    """Belongs to work under a mill's or a drilling machine's spindle."""
    return None if s.machine == "lathe" else STANDS


@rule("in-four-jaws", "machine", "held_by")
def _in_four_jaws(s: Situation) -> Finding | None:
    """Belongs to a four-jaw chuck."""
    return STANDS if s.machine != "mill" and s.held_by == "four-jaw" else None


@rule("between-centres", "machine", "held_by", "support")
def _between_centres(s: Situation) -> Finding | None:
    """Belongs to work that runs on a centre."""
    on_centre = s.held_by == "between centres" or s.support == "centre"
    return STANDS if s.machine != "mill" and on_centre else None


@rule("with-carrier", "machine", "held_by")
def _with_carrier(s: Situation) -> Finding | None:
    """Belongs to work driven by a carrier."""
    return STANDS if s.machine != "mill" and s.held_by == "between centres" else None


@rule("with-steady", "machine", "support")
def _with_steady(s: Situation) -> Finding | None:
    """Belongs to work in a steady."""
    return STANDS if s.machine != "mill" and "steady" in s.support else None


@rule("boring", "machine", "bore")
def _boring(s: Situation) -> Finding | None:
    """Belongs to boring."""
    return STANDS if s.machine != "mill" and s.bore is not None else None


@rule("hardened", "hardened", "alloy", "liquidus")
def _hardened(s: Situation) -> Finding | None:
    """Belongs to what is hardened or quenched; what is soldered is neither unless it is said."""
    soldered = bool(s.alloy) or s.liquidus is not None
    return None if s.hardened is False or (s.hardened is None and soldered) else STANDS
