"""How far a bar may stand out: the bend a light cut gives it, and the length at which that is still small."""

from __future__ import annotations

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.tables import rows
from engine.cutting.deflection import Support, deflection, second_moment
from engine.cutting.forces import turning_force
from engine.cutting.materials import Material

LIGHT_DEPTH, LIGHT_FEED = 0.25, 0.05  # mm, mm/rev: a light finishing cut on a small lathe; common practice
RADIAL_SHARE = 0.5  # of the main cutting force pushes the bar away; 0.3 to 0.5 is common practice, the larger taken
TAPER_ALLOWED = 0.02  # mm on diameter: what a fit of a small part still bears; common practice


@dataclass(frozen=True, slots=True)
class Bend:
    """What a force does to a bar: deflection where it is largest, and the error on the diameter. [mm]"""

    deflection: float
    taper: float


def light_cut_force(material: Material) -> float:
    """Return the force across the bar of a light finishing cut.

    material: What is turned.
    Returns: Half the main force of a cut 0.25 mm deep at 0.05 mm a turn. [N]
    Source: The power law of cutting force for the main force; half of it across the bar: common practice, no source.

    >>> from engine.cutting.materials import find
    >>> light_cut_force(find("mild steel"))
    18.5
    """
    return RADIAL_SHARE * turning_force(material=material, depth=LIGHT_DEPTH, feed=LIGHT_FEED)


def bend(*, diameter: float, bore: float, length: float, modulus: float, force: float, support: Support) -> Bend:
    """Return how far a bar bends and what that leaves on its diameter.

    diameter, bore, length: Outside diameter, bore (0 if solid) and free length. [mm]
    modulus: Elastic modulus. [MPa]
    force: Across the bar. [N]
    support: `chuck` (one end), `centre` (chuck and tailstock centre) or `centres`.
    Returns: Deflection at the free end (or the middle) and twice that on the diameter. [mm]
    Raises: OutOfRange if a number lies outside its range.
    Source: Beam theory, see engine.cutting.deflection.

    A published one: 207.8 lbf on 4 in of 1 in steel bar: 0.003 in.

    >>> bent = bend(diameter=25.4, bore=0, length=101.6, modulus=206843, force=924.3, support="chuck")
    >>> bent.deflection / 25.4
    0.0030
    """
    moved = deflection(
        force=force, length=length, modulus=modulus, moment=second_moment(diameter, bore), support=support
    )
    return Bend(moved, 2 * moved)


def ratio_limit(holding: str) -> tuple[float, str]:
    """Return the largest free length in diameters for a way of holding, and where that rule is from.

    holding: `chuck`, `collet`, `centre` or `centres`.
    Returns: Length over diameter, and its source. [-]
    Source: The table's own rows.

    >>> ratio_limit("chuck")[0]
    3.0
    """
    for row in rows("turning/overhang_rules.csv"):
        if row["holding"] == holding:
            return float(row["length_over_diameter"]), row["source"]
    raise KeyError(holding)


def longest_for_taper(
    *, diameter: float, bore: float, modulus: float, force: float, support: Support, allowed: float
) -> float:
    """Return the free length at which a cut leaves just the allowed error on the diameter.

    diameter, bore: Outside diameter, and bore, 0 if solid. [mm]
    modulus: Elastic modulus. [MPa]
    force: Across the bar, above 0. [N]
    support: As for `bend`.
    allowed: Error on the diameter, above 0. [mm]
    Returns: The free length. [mm]
    Raises: OutOfRange if a number lies outside its range.
    Source: Beam theory: the deflection grows with the cube of the length.

    >>> at = dict(diameter=10, bore=0, modulus=206000, force=20, support="chuck")
    >>> length = longest_for_taper(allowed=0.02, **at)
    >>> bend(length=length, **at).taper
    0.02
    """
    check_range("force", force, low=1e-9, unit="N")
    check_range("allowed", allowed, low=1e-9, unit="mm")
    unit = bend(diameter=diameter, bore=bore, length=1.0, modulus=modulus, force=force, support=support)
    return float((allowed / unit.taper) ** (1 / 3))
