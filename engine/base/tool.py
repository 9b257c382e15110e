"""A round tool of the shop."""

from __future__ import annotations

from engine.base.records import dataclass


@dataclass(frozen=True, slots=True)
class Tool:
    """One owned round tool: what it is called and its diameter in millimetres."""

    name: str
    diameter: float
