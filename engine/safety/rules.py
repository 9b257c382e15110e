"""Every rule by the name that a row of engine/data/safety/cautions.csv gives.

A rule looks at one moment (engine/situation.py) and returns a Finding, or None when the caution is out of the question.
Rules are code; nothing written in a table is ever evaluated.
"""

from __future__ import annotations

from engine.safety import rules_heat, rules_holding, rules_holes, rules_lathe, rules_milling
from engine.safety.finding import RULES, belongs
from engine.situation import Situation

__all__ = ["RULES", "rules_heat", "rules_holding", "rules_holes", "rules_lathe", "rules_milling"]


belongs("always", lambda s: True)
belongs("on-lathe", lambda s: s.machine != "mill", "machine")
belongs("on-mill", lambda s: s.machine != "lathe", "machine")  # or under a drilling machine's spindle
belongs("in-four-jaws", lambda s: s.machine != "mill" and s.held_by == "four-jaw", "machine", "held_by")
belongs("with-carrier", lambda s: s.machine != "mill" and s.held_by == "between centres", "machine", "held_by")
belongs("with-steady", lambda s: s.machine != "mill" and "steady" in s.support, "machine", "support")
belongs("boring", lambda s: s.machine != "mill" and s.bore is not None, "machine", "bore")


def _on_a_centre(s: Situation) -> bool:
    return s.machine != "mill" and (s.held_by == "between centres" or s.support == "centre")


def _hardened(s: Situation) -> bool:
    """What is soldered is neither hardened nor quenched unless it is said."""
    soldered = bool(s.alloy) or s.liquidus is not None
    return bool(s.hardened) or (s.hardened is None and not soldered)


belongs("between-centres", _on_a_centre, "machine", "held_by", "support")
belongs("hardened", _hardened, "hardened", "alloy", "liquidus")
