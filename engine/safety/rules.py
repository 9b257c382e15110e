"""Every rule by the name that a row of engine/data/safety/cautions.csv gives.

A rule looks at the facts and returns a Finding, or None when the caution is out of the question. Rules are code;
nothing written in a table is ever evaluated.
"""

from __future__ import annotations

from collections.abc import Callable

from engine.safety import rules_heat, rules_holding, rules_holes, rules_lathe, rules_milling
from engine.safety.facts import STANDS, Facts, Finding

Rule = Callable[[Facts], Finding | None]


def _always(facts: Facts) -> Finding:
    """Belongs to the work, whatever the numbers."""
    return STANDS


def _ask(facts: Facts) -> Finding:
    """Nobody but the person can know."""
    return Finding.asked()


def _on_lathe(facts: Facts) -> Finding | None:
    """Belongs to lathe work."""
    return None if facts.machine == "mill" else STANDS


def _on_mill(facts: Facts) -> Finding | None:
    """Belongs to work under a mill's or a drilling machine's spindle."""
    return None if facts.machine == "lathe" else STANDS


def _ask_on_mill(facts: Facts) -> Finding | None:
    """Only the person knows, and only under a mill's or a drilling machine's spindle."""
    return None if facts.machine == "lathe" else Finding.asked()


RULES: dict[str, Rule] = {
    "always": _always,
    "ask": _ask,
    "on-lathe": _on_lathe,
    "on-mill": _on_mill,
    "ask-on-mill": _ask_on_mill,
    **rules_holding.RULES,
    **rules_lathe.RULES,
    **rules_holes.RULES,
    **rules_milling.RULES,
    **rules_heat.RULES,
}
