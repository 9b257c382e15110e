"""Solders by the words people use, and what their heat does to a hardened part."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.tables import rows
from engine.base.words import Text, say
from engine.base.words import figures as places

WORKING_MARGIN = 30.0  # °C above the liquidus at the joint; an iron's tip is far hotter; common practice
_LONGEST = 60
_NAMED = 12  # names that a refusal lists
_LOST_ABOVE = 730.0  # °C: steel changes its structure on the way to its hardening heat; from memory, unconfirmed


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
    """A kind of part and the temperature [°C] above which it loses what it was made for; `steel` names its rows of the
    tempering table, "" where there are none."""

    name: str
    limit: float
    hardened_steel: bool
    source: str
    steel: str = ""


@dataclass(frozen=True, slots=True)
class Gap:
    """The gap of a joint on each side, in mm, and who says so."""

    low: float
    high: float
    source: str


def _normal(text: str) -> str:
    return " ".join(re.sub(r"[^a-z0-9/.]+", " ", text.casefold()).split())


@cache
def alloys() -> tuple[Alloy, ...]:
    """Every solder, the coolest first.

    >>> alloys()[0].name, alloys()[-1].name
    ('In52Sn48', 'BAg-23')
    """
    found = []
    for row in rows("joining/alloys.csv"):
        solidus, liquidus, cadmium = (float(row[name]) for name in ("solidus", "liquidus", "cadmium"))
        found.append(Alloy(row["name"], row["kind"], solidus, liquidus, cadmium, row["source"]))
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
    from difflib import get_close_matches  # only for a word that is not known

    near = list(dict.fromkeys(phrases[p] for p in get_close_matches(said, phrases, n=4, cutoff=0.6)))
    listed = ", ".join(names[:_NAMED]) + (f" and {len(names) - _NAMED} more" if len(names) > _NAMED else "")
    accepted = f"one of {listed} (such as {example})"
    shown = ascii(text[:40].strip())[1:-1] or "nothing"
    hint = f"Did you mean {' or '.join(near)}?" if near else f"Accepted: {accepted}."
    raise BadInput(field, text, accepted, f"{field}: {shown} is not known. {hint}")


def alloy(text: str) -> Alloy:
    """Return the solder that a person means.

    >>> alloy("60/40").liquidus, alloy("bag 7").name
    (191.0, 'BAg-7')
    """
    name = _named(re.sub(r"(?i)\bbag[\s-]+", "bag", text), "joining/alloys.csv", "alloy", "63/37")
    return next(a for a in alloys() if a.name == name)


def part(text: str) -> HeatedPart:
    """Return the kind of part that a person means.

    text: Such as `ball`, `silver steel`, `bearing`, `magnet`.
    Returns: With the temperature it bears while nothing better is known of it.
    Raises: BadInput if nothing in the text is a part that is known; the sentence offers the nearest.
    Source: The table's own rows.

    >>> part("ball").limit
    150.0
    """
    name = _named(text, "joining/heated_parts.csv", "part", "ball")
    row = next(r for r in rows("joining/heated_parts.csv") if r["name"] == name)
    return HeatedPart(name, float(row["limit"]), row["hardened_steel"] == "yes", row["source"], row["steel"])


def cooler(limit: float) -> tuple[Alloy, ...]:
    """Return the solders that a part bears.

    limit: Temperature that the part bears. [°C]
    Returns: Those whose joint stays at or below it, the coolest first.
    Source: 30 °C above the liquidus at the joint: common practice, no source.

    >>> [a.name for a in cooler(220)]
    ['In52Sn48', 'Sn42Bi58', 'Sn62Pb36Ag2', 'Sn63Pb37']
    """
    return tuple(a for a in alloys() if a.working <= limit + 1e-9 and not a.cadmium)


def gap_of(kind: str) -> Gap:
    """The gap that a kind of solder wants, on each side.

    >>> gap_of("silver brazing alloy").low, gap_of("silver brazing alloy").high
    (0.05, 0.13)
    """
    row = next(r for r in rows("joining/gaps.csv") if r["kind"] == kind)
    return Gap(float(row["low"]), float(row["high"]), row["source"])


def hardness_between(celsius: float, steel: str) -> tuple[float, float] | None:
    """Hardness that a hardened steel keeps after a heat, low and high.

    celsius: What it is heated to. [°C]
    steel: `O1` or `52100`.
    Returns: On the straight line between the rows of the table, its first row below them; None above the last. [HRC]
    Source: O1: a steel maker's tempering data. 52100: two stockists' table of EN31 / 52100 / 100Cr6. Tempering of an
        hour: a shorter heat takes less, so it errs on the soft side.

    >>> hardness_between(225, "52100"), hardness_between(400, "O1")
    ((60.0, 61.0), None)
    """
    table = [
        (float(r["celsius"]), float(r["low"]), float(r["high"]))
        for r in rows("joining/temper_hardness.csv")
        if r["steel"] == steel
    ]
    if celsius <= table[0][0]:
        return table[0][1:]
    for (cool, *one), (hot, *other) in pairwise(table):
        if celsius <= hot:
            share = (celsius - cool) / (hot - cool)
            low, high = (a + share * (b - a) for a, b in zip(one, other, strict=True))
            return low, high
    return None


def hardness_after(celsius: float, steel: str = "O1") -> Text:
    """What hardness a hardened steel keeps after a heat, in words.

    >>> from engine.base.words import write
    >>> write(hardness_after(213, "52100"))
    'about 60 to 61 HRC'
    """
    found = hardness_between(celsius, steel)
    if found is not None:
        return say("about {low} to {high} HRC", low=places(found[0]), high=places(found[1]))
    if celsius >= _LOST_ABOVE:
        return "none left: heated towards its hardening heat"
    return "under 53 HRC: the hardness is gone"
