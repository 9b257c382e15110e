"""The materials a shop cuts, found by the words a person uses."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Literal

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.tables import rows

if TYPE_CHECKING:
    from engine.base.kinds import Ask
    from engine.shop.model import Shop

Machining = Literal["free", "tough", "soft"]
_LONGEST = 60  # characters; beyond it nothing is a material's name


@dataclass(frozen=True, slots=True)
class Material:
    """A material, with what a cut in it needs to know.

    `group` is its row in the speed tables. `kc11` [MPa] and `mc` are the specific cutting force for a chip 1 mm
    thick and how it falls with thickness. `modulus` [MPa] is the elastic modulus. `machining` tells free-cutting
    from tough and soft materials, for the share of thread and for feeds.
    """

    name: str
    label: str
    group: str
    machining: Machining
    kc11: float
    mc: float
    modulus: float
    source: str

    def __str__(self) -> str:
        return self.name


def _normal(text: str) -> str:
    """Lower case, single blanks, no punctuation: `EN-3B` and `en 3b` alike."""
    return " ".join(re.sub(r"[^a-z0-9]+", " ", text.lower()).split())


@cache
def _every() -> dict[str, Material]:
    found = {}
    for row in rows("cutting/materials.csv"):
        kc11, mc, modulus = (float(row[name]) for name in ("kc11", "mc", "modulus"))
        named = row["name"], row["label"], row["group"], _machining(row["class"])
        found[row["name"]] = Material(*named, kc11, mc, modulus, row["source"])
    return found


def _machining(word: str) -> Machining:
    return "tough" if word == "tough" else "soft" if word == "soft" else "free"


@cache
def _phrases() -> dict[str, Material]:
    """Every way of saying a material, normalised; a material's own name wins over another's word."""
    said: dict[str, Material] = {}
    for row in rows("cutting/materials.csv"):
        for phrase in row["words"].split(";"):
            said.setdefault(_normal(phrase), _every()[row["name"]])
    for name, material in _every().items():
        said[_normal(name)] = material
    return said


def names() -> tuple[str, ...]:
    """Return the name of every material, as this program writes it.

    >>> names()[:2]
    ('mild steel', 'free-cutting steel')
    """
    return tuple(_every())


def find(text: str) -> Material:
    """Return the material that a person means.

    >>> [find(t).name for t in ("BMS", "EN1A", "drill rod", "6082-T6", "stainless 303")]
    ['mild steel', 'free-cutting steel', 'silver steel', 'aluminium 6082', 'free-machining stainless steel']
    """
    said = _normal(text[:_LONGEST])
    if said in _phrases():
        return _phrases()[said]
    padded = f" {said} "
    within = [phrase for phrase in _phrases() if f" {phrase} " in padded]
    if within and len(text) <= _LONGEST:
        best = max(within, key=lambda p: (any(c.isdigit() for c in p), len(p.split()), len(p)))
        return _phrases()[best]
    raise _unknown(text, said)


def is_named(text: str) -> bool:
    """Whether a text is a material's name, or a word for one, and nothing else.

    >>> is_named("brass"), is_named("brass nut")
    (True, False)
    """
    return _normal(text[:_LONGEST]) in _phrases()


def _unknown(text: str, said: str) -> BadInput:
    from difflib import get_close_matches  # only for a word that is not known

    near = [_phrases()[p].name for p in get_close_matches(said, _phrases(), n=6, cutoff=0.7)]
    distinct = list(dict.fromkeys(near))[:3]
    accepted = "one of " + ", ".join(names())
    shown = ascii(text[:40].strip())[1:-1][:80] or "nothing"
    hint = f"Did you mean {' or '.join(distinct)}?" if distinct else f"Accepted: {accepted}."
    return BadInput("material", text, accepted, f"material: {shown} is not known. {hint}")


def read(given: object, ask: Ask, unit: str) -> Material:
    """Read a material. See `find`.

    >>> from engine.base.kinds import Ask
    >>> read("Free-cutting brass", Ask("Material", "material", "", "", True), "mm").kc11
    700.0
    """
    return given if isinstance(given, Material) else find(str(given))


def of_shop(shop: Shop) -> Material:
    """Return the material that is proposed when none is named: the shop's first, else mild steel.

    >>> from engine.shop.file import sample
    >>> of_shop(sample("metric")).name
    'mild steel'
    """
    return find(shop.materials[0]) if shop.materials else find("mild steel")
