"""Every way that a head has to make a division, the one least likely to go wrong first."""

from __future__ import annotations

from fractions import Fraction

from engine.base.records import dataclass
from engine.indexing.compound import compound_ways, nearest_compound
from engine.indexing.differential import differential_ways
from engine.indexing.nearest import error_seconds, nearest_way, worst_turns
from engine.indexing.simple import direct_ways, simple_ways
from engine.indexing.way import Way
from engine.shop.model import DividingHead


@dataclass(frozen=True, slots=True)
class Choice:
    """A way, and how far the worst position lies from where it belongs, in seconds of arc. [arcsec]"""

    way: Way
    error: float


def choices(*, wanted: Fraction, head: DividingHead, count: int) -> tuple[Choice, ...]:
    """Every way to make a division on a head, best first.

    The order: simple indexing; a direct plate; differential; compound; then the nearest. Simple needs nothing taken off
    or fitted, a direct plate needs the worm out of mesh; once its gears are on, differential is counted like
    simple; compound has two counts in every move, so it is easy to get wrong.

    Sources: Against compound indexing: Practical Treatise on Milling and Milling Machines, 1914. The rest of the order: common
    practice, no source.

    >>> from engine.shop.file import sample
    >>> [c.way.method for c in choices(wanted=Fraction(40, 77), head=sample("metric").dividing_head, count=77)][:4]
    ['differential', 'differential', 'differential', 'compound']
    """
    found: list[Way] = list(simple_ways(wanted=wanted, ratio=head.ratio, plates=head.plates))
    plain = bool(found)
    found.extend(direct_ways(wanted=wanted, ratio=head.ratio, direct=head.direct or ()))
    if not plain:
        gears, spare = head.gears or (), head.extra_idler
        found.extend(
            differential_ways(wanted=wanted, ratio=head.ratio, plates=head.plates, gears=gears, extra_idler=spare)
        )
        found.extend(compound_ways(wanted=wanted, ratio=head.ratio, plates=head.plates))
    return tuple(Choice(way, 0.0) for way in found) or nearest_choices(wanted=wanted, head=head, count=count)


def nearest_choices(*, wanted: Fraction, head: DividingHead, count: int) -> tuple[Choice, ...]:
    """The nearest that the plates come: on one circle, and by a compound move whose error adds up.

    >>> from engine.shop.file import sample
    >>> found = nearest_choices(wanted=Fraction(60, 53), head=sample("inch").dividing_head, count=53)
    >>> found[0].way.circle, round(found[0].error)  # 26/53 of a hole of 49
    (49, 216)
    """
    found: list[Choice] = []
    single = nearest_way(wanted=wanted, ratio=head.ratio, plates=head.plates, count=count)
    if single is not None:
        worst = worst_turns(wanted=wanted, circle=single.circle, count=count)
        found.append(Choice(single, error_seconds(worst, head.ratio)))
    double = nearest_compound(wanted=wanted, ratio=head.ratio, plates=head.plates)
    if double is not None and not double.exact:  # an exact one is no nearest: `choices` lists it as compound
        adds_up = abs(double.made - double.wanted) * max(count - 1, 1)
        found.append(Choice(double, error_seconds(adds_up, head.ratio)))
    return tuple(found)
