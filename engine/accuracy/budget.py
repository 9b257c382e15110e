"""An error budget: what every cause may do to one result, added up at the worst and as it usually falls out."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from math import sqrt
from operator import add

from engine.base.answer import Column, Figure, Table, figure
from engine.base.records import dataclass
from engine.base.sums import Sum, mm, root
from engine.base.tables import rows
from engine.base.words import Text, say, shown

EVEN = sqrt(3.0)  # a cause that lies anywhere between its limits alike: GUM 4.3.7
KNOWN = 2.0  # a cause whose limits are two standard deviations: GUM 4.3.4
COVER = 2  # the usual factor of coverage, 95 % or so: GUM 6.3.3
STEEL = 11.5e-6  # per °C: ISO 1, NIST Journal of Research 99 (1994), p. 31
_GUM = "root of the sum of squares, times 2: JCGM 100:2008 (GUM), 5.1.2 and 6.2.1"
_LIMITS = "every cause at its worst, all the same way"


@dataclass(frozen=True, slots=True)
class Share:
    """What one cause may do to the result, either way: its limit, how it is spread within, and who says so. [mm]"""

    cause: Text
    most: float
    source: str
    divisor: float = EVEN

    @property
    def standard(self) -> float:
        """Standard uncertainty. [mm]"""
        return self.most / self.divisor


def worst(shares: Sequence[Share]) -> float:
    """All the limits added up. [mm]"""
    return sum(share.most for share in shares)


def expanded(shares: Sequence[Share]) -> float:
    """Twice the root of the sum of squares of the standard uncertainties.

    Valid while the causes do not hang together; where several do (three wires of one set) they are one share.

    shares: The causes, at least one. [mm]
    Returns: Half the width of the band that holds the result 95 times in 100. [mm]
    Source: JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1.2 and 6.2.1.

    The end gauge of its example H.1: 25, 9.7, 2.9 and 16.6 nm combine to 32 nm.

    >>> gauge = [Share("", nm, "", divisor=1.0) for nm in (25, 9.7, 2.9, 16.6)]
    >>> expanded(gauge) / 2
    31.7
    """
    return COVER * sqrt(sum(share.standard**2 for share in shares))


def _squares(shares: Sequence[Share]) -> Sum:
    return COVER * root(reduce(add, (mm(share.standard) ** 2 for share in shares)))


def budget_figures(shares: Sequence[Share], what: str) -> tuple[Figure, Figure]:
    """The two ways of adding up: `uncertainty` and `worst_case`, each for the result that `what` names."""
    usual, most = _squares(shares), reduce(add, (mm(share.most) for share in shares))
    return (
        figure("uncertainty", f"{what}, ±", usual, _GUM, decimals=4, side="up"),
        figure("worst_case", "At the very worst, ±", most, _LIMITS, decimals=4, side="up"),
    )


def budget_table(shares: Sequence[Share]) -> Table:
    """Every cause with its limit, its standard uncertainty and where it comes from; the largest first."""
    ordered = sorted(shares, key=lambda share: -share.standard)
    columns = (
        *(
            Column("cause", "Cause"),
            Column("most", "At most", "length", 4),
            Column("standard", "Standard", "length", 4),
        ),
        Column("source", "From"),
    )
    rows = tuple((share.cause, share.most, share.standard, share.source) for share in ordered)
    return Table("budget", "What each cause may do, ±", columns, rows, source="JCGM 100:2008 (GUM), 4.3")


def micrometer(size: float) -> Share:
    """What a micrometer in order may be out at a size.

    size: What is measured, 0 or more; above 325 mm the last row is taken. [mm]
    Returns: Its error limit. [mm]
    Source: DIN 863-1: engine/data/accuracy/micrometer.csv.

    >>> micrometer(10.4).most, micrometer(60).most
    (0.004, 0.005)
    """
    table = rows("accuracy/micrometer.csv")
    row = next((row for row in table if size <= float(row["up_to_mm"])), table[-1])
    return Share("micrometer", float(row["limit_um"]) / 1000, "DIN 863-1")


def warmth(size: float, degrees: float, growth: float = STEEL) -> Share:
    """What work warmer (or colder) than the gauge does to a size.

    size: What is measured, 0 or more. [mm]
    degrees: Difference of temperature at most, 0 or more. [°C]
    growth: Expansion of the material; steel's when it is not told. [1/°C]
    Returns: Growth of the work. [mm]
    Source: Linear expansion: NIST Journal of Research 99 (1994), p. 31.

    50 mm of steel 15 °C warmer: 8.6 µm.

    >>> warmth(50, 15).most * 1000
    8.625
    """
    words = say("work up to {degrees} off the gauge's", degrees=shown(degrees, "warmer"))
    return Share(words, growth * size * degrees, "NIST J. Res. 99, p. 31")
