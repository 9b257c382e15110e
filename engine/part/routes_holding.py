"""How a piece can be held: what each way grips, how much of it, what it runs out and what it takes to set up.

Places are counted here from the end of the part that is made first (`u`): turned round, that end goes into the chuck.
"""

from __future__ import annotations

from collections.abc import Iterator

from engine.base.records import dataclass, replace
from engine.part.checks import is_fitted
from engine.part.part import (
    AsBought,
    Diameter,
    Dome,
    End,
    Groove,
    Holding,
    Hole,
    Inside,
    InsideThread,
    Knurl,
    Outside,
    OutsideThread,
    Part,
    Taper,
)
from engine.part.rules import holding_fact, minutes
from engine.part.tasks import Bench
from engine.shop.model import Shop
from engine.turning.collets import size_for

_CLEAR = 1.0  # mm left between the jaws and what is cut beside them
_LEAST_STUB = 4.0  # mm: a thinner stub or arbor bends before the cut does
_DISC = 0.75  # diameters: no longer a piece is pushed back against a ring instead of gripped deeply
_DISC_GRIP = 3.0  # mm
_STEP = 1.0  # mm: the least step bored in soft jaws for a thin disc
_DISC_SHARE = 0.75  # of its largest diameter: a disc held on less leans
_FIRM = 0.7  # diameters of grip in soft jaws or a bush for more than facing; common practice
# Minutes that a risk is worth, as its share of scrap: common practice, no source.
_RISK_SCALE, _RISK_CREST, _RISK_SHORT, _RISK_NUT, _RISK_FITTED = 20.0, 12.0, 4.0, 6.0, 4.0
_CLAMPED = 0.4  # diameters of bore on an arbor whose nut and washer clamp the faces; common practice
_RISK_FILED = 25.0
_RISK_THIN, _THIN_WALL = 12.0, 1 / 8

_PLANNED_JAWS = 25.0  # mm: until the jaws are measured; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """One way of holding the work. `grip_from` and `grip_to` are places from the front face of the drawing.

    `once` is what setting it up takes for the whole lot, `each` what putting a piece in takes. [min]
    """

    held_by: Holding
    grips: str = ""
    grip_from: float = 0.0
    grip_to: float = 0.0
    grip_diameter: float = 0.0
    between: str = ""
    run_out: float = 0.0
    measured: bool = False
    once: float = 0.0
    each: float = 0.0
    driven_by: Holding | None = None
    needs: tuple[tuple[str, bool, str], ...] = ()  # what, owned, what could stand in
    stub: str = ""  # what is turned on it, where it is made for this job
    carried: bool = False
    light: bool = False  # too short a grip for anything but facing and edges
    risk: float = 0.0  # minutes that what may be marked or run out of true is worth, for each piece
    risk_why: str = ""

    @property
    def grip_length(self) -> float:
        """How much of the work is held. [mm]"""
        return self.grip_to - self.grip_from


@dataclass(frozen=True, slots=True)
class Side:
    """The part seen from the end that is made first: its outside features from there on."""

    part: Part
    first: End

    @property
    def order(self) -> tuple[Outside, ...]:
        """The outside features from the first end on."""
        return self.part.outside if self.first == "front" else self.part.outside[::-1]

    def near(self, one: Outside | Inside) -> float:
        """Where a feature begins, from the first end. [mm]"""
        return one.start if self.first == "front" else self.part.overall - one.stop

    def far(self, one: Outside | Inside) -> float:
        """Where a feature ends, from the first end. [mm]"""
        return one.stop if self.first == "front" else self.part.overall - one.start

    def place(self, u: float) -> float:
        """A place from the first end as one from the front face."""
        return u if self.first == "front" else self.part.overall - u

    def span(self, u0: float, u1: float) -> tuple[float, float]:
        """Two places from the first end as places from the front face, in order."""
        one, other = self.place(u0), self.place(u1)
        return min(one, other), max(one, other)

    @property
    def second(self) -> End:
        """The end that is made second."""
        return "back" if self.first == "front" else "front"


def three_jaw_run_out(shop: Shop) -> tuple[float, bool]:
    """Run-out of the chuck in use: as measured, else the planning figure."""
    measured = shop.lathe.chuck.run_out if shop.lathe else None
    return (measured, True) if measured is not None else (holding_fact("three-jaw").run_out, False)


def jaws(shop: Shop) -> float:
    """Depth of the jaws of the chuck in use, a planning figure until it is measured. [mm]"""
    return (shop.lathe.chuck.jaw_length if shop.lathe else None) or _PLANNED_JAWS


def spoilt_by_jaws(one: Outside) -> bool:
    """Whether hard jaws would ruin it: a knurl, a thread or a scale.

    >>> spoilt_by_jaws(Diameter(name="outside.1"))
    False
    """
    return isinstance(one, Knurl | OutsideThread) or one.scale is not None


def grippable(one: Outside) -> bool:
    """Whether a chuck can hold on it at all: a cone, a dome and a groove's floor it cannot."""
    return not isinstance(one, Taper | Dome | Groove)


def first_hold(bench: Bench, side: Side, free: str, reach: float) -> Hold | None:
    """How the bar or the piece is held first; None where nothing of it is left to hold.

    `reach` is how far the work of this setting goes along the part from the first end. [mm]
    """
    part, shop = bench.part, bench.shop
    square = part.bar.section == "square"
    kind: Holding = "four-jaw" if square else "three-jaw"
    deep = jaws(shop)
    if free == "bar":
        start = part.overall + _parting(shop)
        between: str | None = ""
        long = deep
    else:
        start, left = reach + _CLEAR, part.overall + _allowance(part) - reach - _CLEAR
        long = min(deep, left)
        between = _behind(part.bar.corners, part.overall, long, deep)
        if between is None:
            return None
    grip_from, grip_to = side.span(start, start + long)
    run_out, measured = three_jaw_run_out(shop)
    if square:
        run_out, measured = holding_fact("four-jaw").run_out, False
    return Hold(
        held_by=kind,
        grips="bar",
        grip_from=grip_from,
        grip_to=grip_to,
        grip_diameter=part.bar.corners,
        between=between or "",
        run_out=run_out,
        measured=measured,
        once=minutes("change_chuck").typical if square else 0.0,
        each=minutes("four-jaw").typical if square else minutes("three-jaw").typical,
        needs=_four_jaw(shop) if square else (),
    )


def _behind(diameter: float, overall: float, long: float, deep: float) -> str | None:
    """What has to be put behind a short grip; "" where it is long enough, None where it cannot be held."""
    if long >= min(diameter, deep) - 1e-6:
        return ""
    if overall <= _DISC * diameter and long >= _DISC_GRIP:
        return "a parallel ring behind it, taken out before the spindle starts"
    return None


def _allowance(part: Part) -> float:
    return (part.bar.blank - part.overall) / 2 if part.bar.blank else 1.0


def _parting(shop: Shop) -> float:
    """From the part's back face to the jaws: blade, facing and room. [mm]"""
    return (shop.lathe.blade.width if shop.lathe and shop.lathe.blade else 2.0) + 0.5 + 4.0


def parting_room(shop: Shop) -> float:
    """What stands out behind the part on the bar. [mm]"""
    return _parting(shop)


def _four_jaw(shop: Shop) -> tuple[tuple[str, bool, str], ...]:
    owned = any(one.kind == "four-jaw" for one in shop.chucks)
    return (("four-jaw chuck", owned, "" if owned else "the vice on the mill"),)


def by_hand_hold() -> Hold:
    """No holding at all: the second end is filed. It is dear, so that anything that holds comes first."""
    return Hold(held_by="hand", risk=_RISK_FILED, risk_why="a filed end is never quite square")


def second_holds(bench: Bench, side: Side, made: frozenset[str], reach: float) -> Iterator[Hold]:
    """Every way to hold the piece turned round.

    `made` are the features that exist by then; nothing beyond `reach`, counted from the end made first, may be covered.
    """
    for hold in _second_holds(bench, side, made, reach):
        yield _risked(side, hold)


def _risked(side: Side, hold: Hold) -> Hold:
    """What a hold may spoil, or leave less true than it could be, in minutes."""
    reasons: list[tuple[float, str]] = []
    part = side.part
    gripped = next((one for one in part.outside if one.name == hold.grips), None)
    if gripped is not None and hold.held_by != "threaded bush" and spoilt_by_jaws(gripped):
        reasons.append((_RISK_SCALE if gripped.scale else _RISK_CREST, f"{gripped.name} is easily marked"))
    if hold.light:
        reasons.append((_RISK_SHORT, "the grip is short"))
    close = isinstance(gripped, Diameter) and is_fitted(gripped.size)
    if close and hold.held_by in ("three-jaw", "four-jaw") and "bush" not in hold.between:
        reasons.append((_RISK_FITTED, f"{hold.grips} is a close size under hard jaws"))
    if gripped is not None and hold.held_by != "soft jaws" and _thin(part, gripped):
        reasons.append((_RISK_THIN, "the wall is thin and goes oval"))
    out = side.part.overall - (hold.grip_to if side.first == "front" else side.part.overall - hold.grip_from)
    if gripped is not None and out > gripped.largest:
        reasons.append((out / gripped.largest - 1, "it stands out of a thin end"))
    nut = any(isinstance(one, InsideThread) and one.through for one in part.inside)
    if nut and hold.held_by != "threaded stub":
        reasons.append((_RISK_NUT, "a nut is faced true to its thread on a stub"))
    return replace(hold, risk=sum(m for m, _ in reasons), risk_why="; ".join(why for _, why in reasons))


def _thin(part: Part, gripped: Outside) -> bool:
    """Whether the wall under a grip is thinner than an eighth of the diameter."""
    bores = [o.largest for o in part.inside if o.start < gripped.stop and gripped.start < o.stop]
    bore = max((*bores, part.bar.bore or 0.0))
    return bore > 0 and (gripped.largest - bore) / 2 < _THIN_WALL * gripped.largest


def _second_holds(bench: Bench, side: Side, made: frozenset[str], reach: float) -> Iterator[Hold]:
    for index, one in enumerate(side.order):
        if not grippable(one) or not (one.name in made or isinstance(one, AsBought)):
            continue
        if side.far(one) > reach + 1e-6:
            break
        behind = side.order[:index]
        yield from _chucks(bench, side, one, behind, reach)
        yield from _collets(bench, side, one, behind, reach)
    yield from _threaded_bush(bench, side, made)
    for inner in bench.part.inside:
        if inner.name in made:
            yield from _stub(bench, side, inner)
            yield from _arbor(bench, side, inner)


def _room(side: Side, one: Outside, reach: float) -> tuple[float, float]:
    """The part of a feature that can be gripped, from the end made first."""
    u0, u1 = side.near(one), side.far(one)
    edges = [c.long for c in (one.chamfer, one.chamfer_back) if c]
    last = abs(u1 - side.part.overall) < 1e-6
    return u0, min(u1, reach) - (max(_CLEAR, *edges) if last and edges else _CLEAR if last else 0.0)


def _sleeve(one: Outside) -> tuple[float, float]:
    return one.largest, 0.0


def _chucks(bench: Bench, side: Side, one: Outside, behind: tuple[Outside, ...], reach: float) -> Iterator[Hold]:
    shop, part = bench.shop, bench.part
    u0, u1 = _room(side, one, reach)
    deep = jaws(shop)
    long = min(u1 - u0, deep)
    if long < 1.0:
        return
    wide = one.largest
    covered = [f for f in behind if side.far(f) > u1 - deep + 1e-6]
    clear = all(f.largest <= wide - 0.3 for f in covered) and all(f.largest <= wide for f in behind)
    grip_from, grip_to = side.span(u1 - long, u1)
    common = {"grips": one.name, "grip_from": grip_from, "grip_to": grip_to, "grip_diameter": wide}
    hard = not spoilt_by_jaws(one)
    section = one.section if isinstance(one, AsBought) else "round"
    plain_behind = clear or (
        all(f.largest <= wide + 1e-6 and not spoilt_by_jaws(f) for f in covered)
        and all(f.largest <= wide + 1e-6 for f in behind)
    )
    strip = "" if isinstance(one, AsBought) else "soft metal strip, 0.1 mm"
    if hard and plain_behind:
        extra = _behind(wide, part.overall, long, deep)
        if extra and wide < _DISC_SHARE * part.largest:
            extra = None
        if extra is not None:
            between = "; ".join(x for x in (strip, extra) if x)
            run_out, measured = three_jaw_run_out(shop)
            if section != "square" and (one.flats is None or one.flats.sides % 3 == 0):
                yield Hold(held_by="three-jaw", between=between, run_out=run_out, measured=measured,
                           each=minutes("turn_round").typical, **common)  # type: ignore[arg-type]  # fmt: skip
            if any(c.kind == "four-jaw" for c in shop.chucks) and (one.flats is None or one.flats.sides in (2, 4)):
                yield Hold(held_by="four-jaw", between=between, run_out=_measured(shop, "four-jaw"),
                           once=minutes("change_chuck").typical, each=minutes("four-jaw").typical,
                           needs=_four_jaw(shop), **common)  # type: ignore[arg-type]  # fmt: skip
    if section != "round" or one.flats or not all(f.largest <= wide + 1e-6 for f in behind):
        return
    if any(c.kind == "soft jaws" for c in shop.chucks) and long >= _STEP:
        yield Hold(
            held_by="soft jaws",
            between=f"jaws bored to {bench.shown(wide)} with a step to push against",
            run_out=_measured(shop, "soft jaws"),
            once=minutes("soft jaws").typical,
            light=long < _FIRM * wide,
            each=minutes("turn_round").typical,
            needs=(("soft jaws", True, ""),),
            **common,  # type: ignore[arg-type]
        )
    if long >= max(_DISC_GRIP, 0.15 * wide):
        fact = holding_fact("bush")
        yield Hold(
            held_by="three-jaw",
            between=f"a split bush bored {bench.shown(wide)} in the chuck, marked at jaw 1",
            run_out=fact.run_out,
            once=minutes("bush").typical,
            light=long < _FIRM * wide,
            each=minutes("turn_round").typical,
            needs=((f"split bush bored {bench.shown(wide)}, turned in place", True, ""),),
            **common,  # type: ignore[arg-type]
        )


def _measured(shop: Shop, kind: str) -> float:
    known = next((c.run_out for c in shop.chucks if c.kind == kind and c.run_out is not None), None)
    return known if known is not None else holding_fact(kind).run_out


def _collets(bench: Bench, side: Side, one: Outside, behind: tuple[Outside, ...], reach: float) -> Iterator[Hold]:
    if isinstance(one, Knurl | OutsideThread) or one.scale or (isinstance(one, AsBought) and one.section != "round"):
        return
    u0, u1 = _room(side, one, reach)
    wide = one.largest
    if not all(f.largest <= wide + 1e-6 and not (spoilt_by_jaws(f) and f.largest > wide - 0.3) for f in behind):
        return
    for kit in bench.shop.collets:
        size = size_for(kit, wide)
        if size is None:
            continue
        long = min(u1 - u0, kit.grip)
        if long < kit.grip / 3:
            continue
        plug = "" if long >= kit.grip * 2 / 3 else "a plug of the same size at the back of the collet"
        grip_from, grip_to = side.span(u1 - long, u1)
        yield Hold(
            held_by="collet",
            grips=one.name,
            grip_from=grip_from,
            grip_to=grip_to,
            grip_diameter=wide,
            between=plug,
            run_out=kit.run_out if kit.run_out is not None else holding_fact("collet").run_out,
            measured=kit.run_out is not None,
            once=minutes("collet").typical + minutes("change_chuck").typical,
            each=minutes("three-jaw").typical,
            needs=((f"{kit.kind} collet {size.name}", True, ""),),
        )


def _threaded_bush(bench: Bench, side: Side, made: frozenset[str]) -> Iterator[Hold]:
    for index, one in enumerate(side.order):
        if not isinstance(one, OutsideThread) or one.name not in made:
            continue
        if any(f.largest > one.size.diameter - float(one.size.pitch) for f in side.order[:index]):
            break
        fact = holding_fact("threaded bush")
        if one.long < fact.least_grip * one.size.diameter:
            continue
        grip_from, grip_to = side.span(side.near(one), side.far(one))
        yield Hold(
            held_by="threaded bush",
            grips=one.name,
            grip_from=grip_from,
            grip_to=grip_to,
            grip_diameter=one.size.diameter,
            between="the shoulder home on the bush's faced end",
            run_out=fact.run_out,
            once=minutes("threaded bush").typical,
            each=minutes("turn_round").typical,
            driven_by="three-jaw",
            needs=((f"bush tapped {one.size}, {bench.shown(one.long + 4)} long, faced in place", True, ""),),
            stub=f"Drill and tap a bush {one.size}, {bench.shown(one.long + 4)} long, and face it in place.",
        )
        break


def _stub(bench: Bench, side: Side, inner: Inside) -> Iterator[Hold]:
    if not isinstance(inner, InsideThread) or inner.size.diameter < _LEAST_STUB:
        return
    if not inner.through and inner.end != side.first:
        return
    fact = holding_fact("threaded stub")
    long = min(inner.long, 1.5 * inner.size.diameter) if not inner.through else inner.long
    stub = max(min(long, inner.size.diameter) - float(inner.size.pitch), 2.0)
    if long < fact.least_grip * inner.size.diameter:
        return
    grip_from, grip_to = side.span(0.0, min(stub, side.part.overall))
    undercut = inner.size.diameter - 1.3 * float(inner.size.pitch)
    yield Hold(
        held_by="threaded stub",
        grips=inner.name,
        grip_from=grip_from,
        grip_to=grip_to,
        grip_diameter=inner.size.diameter,
        between="the first end home on the stub's shoulder, a soft washer between",
        run_out=fact.run_out,
        once=minutes("threaded stub").typical,
        each=minutes("turn_round").typical,
        driven_by="three-jaw",
        needs=((f"stub threaded {inner.size} x {bench.shown(stub)}, turned and used in place", True, ""),),
        stub=(
            f"On a piece of bar in the chuck: thread {inner.size} x {bench.shown(stub)} to a square shoulder, the last "
            f"thread undercut to {bench.shown(undercut)}; never let it go until the lot is done."
        ),
    )


def _arbor(bench: Bench, side: Side, inner: Inside) -> Iterator[Hold]:
    if not isinstance(inner, Hole) or not inner.through or inner.size.nominal < _LEAST_STUB:
        return
    threaded = any(isinstance(one, InsideThread) for one in side.part.inside)
    if threaded and not is_fitted(inner.size):
        return
    fact = holding_fact("arbor")
    owned = any(abs(t.diameter - inner.size.nominal) < 0.01 for t in bench.shop.arbors) and is_fitted(inner.size)
    if inner.long < (fact.least_grip if owned else _CLAMPED) * inner.size.nominal:
        return
    name = f"arbor {bench.shown(inner.size.nominal)}"
    grip_from, grip_to = side.span(0.0, side.part.overall)
    yield Hold(
        held_by="arbor",
        grips=inner.name,
        grip_from=grip_from,
        grip_to=grip_to,
        grip_diameter=inner.size.nominal,
        between="nut and washer" if not owned else "pressed on, the thin end first",
        run_out=fact.run_out,
        once=minutes("arbor").typical if not owned else minutes("between centres").typical,
        each=minutes("turn_round").typical,
        driven_by="three-jaw",
        needs=((name if owned else f"{name}, turned and used in place", True, ""),),
        stub=""
        if owned
        else f"Turn an arbor {bench.shown(inner.size.nominal)} in place, a close push fit in the bore.",
    )
