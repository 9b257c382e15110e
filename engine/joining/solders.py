"""Solders by the words people use, and what their heat does to a hardened part."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache

from engine.base.refusals import BadInput
from engine.base.tables import rows

WORKING_MARGIN = 30.0  # °C above the liquidus at the joint; an iron's tip is far hotter; common practice
_LONGEST = 60
_LOST_ABOVE = (
    730.0  # °C: steel changes its structure on the way to its hardening heat; from memory, unconfirmed
)


@dataclass(frozen=True, slots=True)
class Alloy:
    """A solder. Temperatures in °C, cadmium in %."""

    name: str
    kind: str
    solidus: float
    liquidus: float
    cadmium: float
    source: str

    @property
    def working(self) -> float:
        """What the joint reaches. [°C]"""
        return self.liquidus + WORKING_MARGIN


@dataclass(frozen=True, slots=True)
class HeatedPart:
    """A kind of part and the temperature [°C] above which it loses what it was made for."""

    name: str
    limit: float
    hardened_steel: bool
    source: str


def _normal(text: str) -> str:
    return " ".join(re.sub(r"[^a-z0-9/.]+", " ", text.casefold()).split())


@cache
def alloys() -> tuple[Alloy, ...]:
    """Return every solder, the coolest first.

    Returns
    -------
    alloys : tuple of Alloy
        Sorted by liquidus.

    Raises
    ------
    FileNotFoundError
        Never in an installed program: the table ships with it.

    Sources
    -------
    The table's own rows.

    Examples
    --------
    >>> alloys()[0].name, alloys()[-1].name
    ('In52Sn48', 'BAg-6')
    """
    found = [
        Alloy(
            row["name"],
            row["kind"],
            float(row["solidus"]),
            float(row["liquidus"]),
            float(row["cadmium"]),
            row["source"],
        )
        for row in rows("joining/alloys.csv")
    ]
    return tuple(sorted(found, key=lambda a: a.liquidus))


@cache
def _phrases(table: str) -> dict[str, str]:
    said: dict[str, str] = {}
    for row in rows(table):
        for phrase in (row["name"], *row["words"].split(";")):
            said.setdefault(_normal(phrase), row["name"])
    return said


def _named(text: str, table: str, field: str, example: str) -> str:
    """The name that a text means: all of it, else the longest phrase in it."""
    said, phrases = _normal(text[:_LONGEST]), _phrases(table)
    if said in phrases:
        return phrases[said]
    within = [p for p in phrases if f" {p} " in f" {said} "]
    if within and len(text) <= _LONGEST:
        return phrases[max(within, key=len)]
    names = list(dict.fromkeys(phrases.values()))
    near = list(dict.fromkeys(phrases[p] for p in get_close_matches(said, phrases, n=4, cutoff=0.6)))
    accepted = f"one of {', '.join(names)} (such as {example})"
    shown = ascii(text[:40].strip())[1:-1] or "nothing"
    hint = f"Did you mean {' or '.join(near)}?" if near else f"Accepted: {accepted}."
    raise BadInput(field, text, accepted, f"{field}: {shown} is not known. {hint}")


def alloy(text: str) -> Alloy:
    """Return the solder that a person means.

    Examples
    --------
    >>> alloy("60/40").liquidus, alloy("bag 7").name
    (191.0, 'BAg-7')
    """
    name = _named(re.sub(r"(?i)\bbag[\s-]+", "bag", text), "joining/alloys.csv", "alloy", "63/37")
    return next(a for a in alloys() if a.name == name)


def part(text: str) -> HeatedPart:
    """Return the kind of part that a person means.

    Parameters
    ----------
    text : str
        Such as `ball`, `silver steel`, `bearing`, `magnet`.

    Returns
    -------
    part : HeatedPart
        With the temperature it bears while nothing better is known of it.

    Raises
    ------
    BadInput
        If nothing in the text is a part that is known; the sentence offers the nearest.

    Sources
    -------
    The table's own rows.

    Examples
    --------
    >>> part("ball").limit
    150.0
    """
    name = _named(text, "joining/heated_parts.csv", "part", "ball")
    row = next(r for r in rows("joining/heated_parts.csv") if r["name"] == name)
    return HeatedPart(name, float(row["limit"]), row["hardened_steel"] == "yes", row["source"])


def cooler(limit: float) -> tuple[Alloy, ...]:
    """Return the solders that a part bears.

    Parameters
    ----------
    limit : float
        Temperature that the part bears. [°C]

    Returns
    -------
    alloys : tuple of Alloy
        Those whose joint stays at or below it, the coolest first.

    Sources
    -------
    30 °C above the liquidus at the joint: common practice, no source.

    Examples
    --------
    >>> [a.name for a in cooler(220)]
    ['In52Sn48', 'Sn42Bi58', 'Sn62Pb36Ag2', 'Sn63Pb37']
    """
    return tuple(a for a in alloys() if a.working <= limit + 1e-9 and not a.cadmium)


def hardness_after(celsius: float) -> str:
    """Say what hardness a hardened tool steel keeps after a heat.

    Parameters
    ----------
    celsius : float
        What it is heated to. [°C]

    Returns
    -------
    words : str
        A range from the next higher row of the table, or that it is lost.

    Sources
    -------
    A steel maker's tempering data for O1; a guide for silver steel and ball steel.

    Examples
    --------
    >>> hardness_after(213)
    'about 58 to 60 HRC'
    """
    for row in rows("joining/temper_hardness.csv"):
        if celsius <= float(row["celsius"]):
            return f"about {row['low']} to {row['high']} HRC"
    if celsius >= _LOST_ABOVE:
        return "none left: heated towards its hardening heat"
    return "under 53 HRC: the hardness is gone"
