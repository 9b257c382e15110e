"""A vernier: n parts laid over one division fewer (or, extended, over 2n - 1) of the main scale."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Vernier:
    """A vernier scale. `length` and `part` are in the unit of the division; `reads_to` is its least count."""

    division: Fraction
    parts: int
    covers: int
    length: Fraction
    part: Fraction
    reads_to: Fraction


def vernier_scale(division: Fraction, parts: int, *, extended: bool = False) -> Vernier:
    """Length and least count of a vernier.

    Parameters
    ----------
    division : Fraction
        One division of the main scale. [any unit]
    parts : int
        Parts of the vernier, 2 or more.
    extended : bool
        Over 2n - 1 divisions instead of n - 1, so that its lines stand further apart.

    Returns
    -------
    vernier : Vernier
        In the division's unit.

    Sources
    -------
    US Army OD1642, vernier scales: 25 parts over 24 of 0.025 in read to 0.001 in. The extended vernier: from memory,
    unconfirmed.

    Examples
    --------
    >>> v = vernier_scale(Fraction("0.025"), 25)
    >>> float(v.length), float(v.reads_to)
    (0.6, 0.001)
    """
    covers = 2 * parts - 1 if extended else parts - 1
    length = covers * division
    return Vernier(division, parts, covers, length, length / parts, division / parts)
