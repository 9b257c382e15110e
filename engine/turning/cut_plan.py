"""Taking a size in cuts: whole lines of the dial, none above the first, none that rubs, the last the lightest."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.setting import Setting
from engine.base.tables import rows
from engine.base.words import say, shown
from engine.cutting.deflection import Support
from engine.cutting.forces import BELT_DRIVE, turning_force
from engine.cutting.materials import Material
from engine.cutting.speeds import Tool
from engine.indexing.dials import dial_move, on_slide
from engine.shop.model import Shop, Slide
from engine.turning.stiffness import RADIAL_SHARE, bend

_NOISE = Fraction(1, 1_000_000)
_PLAIN_LINE = Fraction(1, 100)  # mm: where no dial is known
_SPRING = 0.05  # mm that the work may give way under a roughing cut: common practice, no source
_SOFT = ("brass", "bronze", "aluminium", "magnesium", "copper", "acetal", "nylon")
MOST_CUTS = 200


@dataclass(frozen=True, slots=True)
class Depths:
    """The most at once, the last cut, and the least that still cuts, with who says so. [mm]"""

    rough: float
    finish: float
    least: float
    source: str
    limited: str = ""  # what took the roughing cut down: the motor, the stick-out


@dataclass(frozen=True, slots=True)
class CutPlan:
    """Cuts in whole lines of a dial. `left` is what the lines leave of the way, never below 0 [mm]; `takes` is what the tool
    takes of what the dial says."""

    cuts: tuple[int, ...]
    line: Fraction
    left: float
    takes: Fraction = Fraction(1)

    @property
    def total(self) -> float:
        """Depth from touch to the last cut."""
        return float(sum(self.cuts) * self.line * self.takes)

    def depth(self, number: int) -> float:
        """Depth of one cut, counted from 1."""
        return float(self.cuts[number - 1] * self.line * self.takes)

    def after(self, number: int) -> float:
        """Depth from touch once that cut is made."""
        return float(sum(self.cuts[:number]) * self.line * self.takes)

    def dial(self, number: int) -> float:
        """Way of the slide from touch for that cut."""
        return float(sum(self.cuts[:number]) * self.line)


def _row(what: str, kind: str, tool: str) -> tuple[float, str]:
    for row in rows("turning/cuts.csv"):
        if row["what"] == what and row["for"] in (kind, "any") and row["tool"] in (tool, "any"):
            return float(row["depth"]), row["source"]
    raise KeyError(what)


def kind_of(material: Material) -> str:
    """How a material roughs: steel, tough or soft."""
    if material.group in _SOFT:
        return "soft"
    return "tough" if material.machining == "tough" else "steel"


def depths(
    *,
    shop: Shop,
    material: Material,
    tool: Tool,
    line: Fraction,
    feed: float,
    speed: float,
    diameter: float,
    stick_out: float = 0.0,
    support: Support = "chuck",
    share: float = 1.0,
    modulus: float | None = None,
) -> Depths:
    """The depths that a light lathe bears in a material: less for the motor, less for work that gives way.

    shop, material, tool: Whose motor counts, what is cut, and with what: `hss` or `carbide`.
    line: One line of the dial: the least cut is whole lines, the most at least twice that. [mm]
    feed, speed: Feed when roughing [mm/rev], surface speed as set. [m/min]
    diameter: Diameter that bends: of the finished work, or of a boring bar. [mm]
    stick_out: How far it stands out, 0 if that is not asked. [mm]
    support: As for `bend`.
    share: Part of the usual roughing depth, 0.5 for boring. [-]
    modulus: Elastic modulus of what bends: of a steel bar when boring, None for the work's own. [MPa]
    Returns: Most, last and least. [mm]
    Source: engine/data/turning/cuts.csv; the power law of cutting force and beam theory; 0.05 mm of give under a
        roughing cut: common practice, no source. The depth that a motor bears grows with its power: force is as the
        depth.

    >>> from engine.cutting.materials import find
    >>> from engine.shop.file import sample
    >>> mild = dict(shop=sample("metric"), material=find("mild steel"), tool="hss")
    >>> at = dict(line=Fraction(1, 40), feed=0.127, speed=25, diameter=10, **mild)
    >>> depths(**at).rough, depths(stick_out=100, **at).limited
    (0.5, 'stick-out')
    """
    rough, source = _row("rough", kind_of(material), tool)
    finish, _ = _row("finish", "any", tool)
    least = float(_fewest(_row("least", "any", tool)[0], line) * line)
    rough, limited = max(rough * share, 2 * least), ""
    per_mm = turning_force(material=material, depth=1.0, feed=feed)
    if shop.lathe:
        bears = shop.lathe.motor * BELT_DRIVE * 60 / (per_mm * speed)
        if bears < rough:
            rough, limited = bears, "motor"
    if stick_out > 0:
        give = bend(
            diameter=diameter, bore=0, length=stick_out, modulus=modulus or material.modulus, force=1.0, support=support
        )
        bears = _SPRING / (give.deflection * per_mm * RADIAL_SHARE)
        if bears < rough:
            rough, limited = bears, "stick-out"
    return Depths(max(rough, 2 * least), min(finish, max(rough, 2 * least)), least, source, limited)


def _fewest(least: float, line: Fraction) -> int:
    """Whole lines that the least cut takes."""
    return max(-floor(-Fraction(repr(float(least))) / line + _NOISE), 1)


def line_of(slide: Slide | None) -> Fraction:
    """One line of a slide's dial, in its travel. [mm]"""
    return slide.travel_per_turn / slide.divisions if slide else _PLAIN_LINE


def plan_cuts(*, way: float, line: Fraction, first: float, last: float, least: float, takes: float = 1.0) -> CutPlan:
    """Cuts of whole lines that add up to a way and never pass it.

    way: How far the tool goes in from touch. [mm]
    line: One line of the dial. [mm]
    first, last, least: The most that one cut may take, the last cut, and the least that cuts without rubbing. [mm]
    takes: What the tool takes of what the dial says; a line of the dial then cuts so much less. [-]
    Returns: Each cut at most `first` and at least `least`, none heavier than the one before.
    Raises: BadInput if the way is less than the least cut, or the first cut is not twice the least.
    Source: A few heavy cuts and a light last one: any shop handbook. Evenly heavy roughing cuts: common practice, no
        source.

    5.2 mm of diameter on a dial of 0.025 mm: five cuts of 0.5 and one of 0.1.

    >>> plan = plan_cuts(way=2.6, line=Fraction(1, 40), first=0.5, last=0.1, least=0.02)
    >>> plan.cuts, plan.total
    ((20, 20, 20, 20, 20, 4), 2.6)

    A tool that takes 0.8 of what the dial says has to go farther by the dial, in more cuts.

    >>> springs = plan_cuts(way=2.6, line=Fraction(1, 40), first=0.5, last=0.1, least=0.02, takes=0.8)
    >>> springs.total, springs.dial(len(springs.cuts))
    (2.6, 3.25)
    """
    share = Fraction(repr(float(takes)))
    cut = line * share  # what one line of the dial takes
    lines = floor(Fraction(repr(float(way))) / cut + _NOISE)
    fewest = _fewest(least, cut)
    most = floor(Fraction(repr(float(first))) / cut + _NOISE)
    if lines < fewest:
        raise BadInput("to", say("{way} to take off", way=shown(way)), say("at least {least} on the tool, or it rubs "
            "and does not cut", least=shown(float(fewest * cut))))  # fmt: skip
    if most < 2 * fewest and most < lines:
        raise BadInput("first_cut", shown(first),
            say("at least {most}, twice the least that cuts", most=shown(float(2 * fewest * cut))))  # fmt: skip
    final = min(max(floor(Fraction(repr(float(last))) / cut + _NOISE), fewest), most)
    cuts = _shared(lines, most, final)
    if len(cuts) > MOST_CUTS:
        raise BadInput("first_cut", shown(first), f"cuts that make it in {MOST_CUTS} or fewer")
    return CutPlan(cuts, line, max(float(Fraction(repr(float(way))) - lines * cut), 0.0), share)


def _shared(lines: int, most: int, final: int) -> tuple[int, ...]:
    """Roughing cuts as even as lines allow, then the last; all even where that would leave one that rubs."""
    if lines <= final:
        return (lines,)
    rest = lines - final
    count = -(-rest // most)
    each, more = divmod(rest, count)
    if each >= final:
        return (*(each + 1 for _ in range(more)), *(each for _ in range(count - more)), final)
    count = -(-lines // most)
    each, more = divmod(lines, count)
    return (*(each + 1 for _ in range(more)), *(each for _ in range(count - more)))


def dial_after(slide: Slide, wheel: str, distance: float, *, touch: float = 0.0, away: bool = False) -> Setting:
    """Where a slide's dial stands after a move from touch; `away`: the readings fall, as when boring."""
    line = line_of(slide)
    start = round(Fraction(repr(float(touch))) / (2 if slide.reads_diameter else 1) / line) * line
    move = dial_move(distance=Fraction(repr(float(distance))), start=start, travel_per_turn=slide.travel_per_turn,
        divisions=slide.divisions, falling=away)  # fmt: skip
    return on_slide(wheel, slide, move, "out" if away else "in", distance)
