"""Routes: from which end, held how, what in which visit. Each fixes the tasks; their order within a visit comes later.

A route is refused for truth (what must run true to each other is made at one setting, or the run-outs between add
up to no more than asked), for its grips, or because a hard rule would be broken by the order of its visits; the
reason is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from engine.part import tasks_across, tasks_ends, tasks_inside, tasks_outside
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
    InsideGroove,
    Knurl,
    Outside,
    OutsideThread,
    Truth,
)
from engine.part.routes_holding import (
    Hold,
    Side,
    first_hold,
    grippable,
    jaws,
    parting_room,
    second_holds,
    spoilt_by_jaws,
)
from engine.part.rules import Rule, holding_fact, minutes, rules_between, rules_by_id, vocabulary
from engine.part.rules_conditions import Group, Setting, holding_between
from engine.part.tasks import Bench, Task

SLENDER = 4.0  # diameters out of the chuck alone: deflection becomes measurable beyond; published
LONG = 10.0  # diameters with a centre: beyond, a steady; published
KNURL_OUT = 2.0  # diameters: a push-type wheel beyond this asks for the centre; common practice
WEAK_KNURL_OUT = 0.5  # the same where the tool post is weak and the centre costs nothing
_APART_GRIP = 0.7  # diameters long: what a V-block, a vice or a head holds on
NECK = 8.0  # minutes more for turning behind a shoulder

# Visits in the order of time: first lathe setting, set over, carried to the head, back; apart on the mill, and the
# bench in between; turned round, carried, back; between centres three times; apart again; the bench at the end.
VISITS = ("a", "o", "ah", "ab", "p", "pz", "b", "bh", "bb", "c", "d", "e", "q", "qh", "z")
_GROUP: dict[str, Group] = {
    "a": "first", "o": "first", "ah": "first", "ab": "first", "p": "apart", "pz": "bench", "b": "second",
    "bh": "second", "bb": "second", "c": "second", "d": "second", "e": "second", "q": "apart", "qh": "apart",
    "z": "bench",
}  # fmt: skip
_AT = {name: index for index, name in enumerate(VISITS)}
LIGHT = (
    "face2", "chamfer2", "chamfer", "countersink", "seat", "set_true", "stub", "polish", "ridge", "lines", "figures",
    "centre2",
)  # fmt: skip
_NO_DIVIDING = (
    "nothing owned divides a circle; a dividing head, a rotary table or a wheel on the spindle would."
)
SCREWED = ("threaded stub", "threaded bush", "arbor")
TWISTING = frozenset(("knurl", "drill", "tap", "bore", "part_off"))  # too much for a stub, a bush or an arbor
_BENCH_HOLD = Hold(held_by="hand")


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One setting at one machine."""

    name: str
    machine: str
    hold: Hold
    turned_round: bool = False
    reached: End | None = None
    support: str = "none"
    stick_out: float | None = None
    slender: bool = False
    once: float = 0.0
    each: float = 0.0

    @property
    def group(self) -> Group:
        """Which end it belongs to."""
        return _GROUP[self.name]


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """Visits and the tasks of each, with what the choice itself costs and risks."""

    visits: tuple[Visit, ...]
    tasks: tuple[Task, ...]
    side: Side
    free: str
    setting: Setting
    broken: tuple[tuple[Rule, Task, Task], ...]
    necks: int = 0
    limit: tuple[float | None, ...] = ()

    @property
    def words(self) -> str:
        """The route in a few words, to tell it from another."""
        return _words(self.side, self.free, self.visits)


def grips(visits: Sequence[Visit]) -> int:
    """How often the work is gripped anew; a chuck carried over with it lets nothing go."""
    return sum(1 for visit in visits if visit.machine != "bench" and not visit.hold.carried)


def _words(side: Side, free: str, visits: Sequence[Visit]) -> str:
    first = f"{side.first} end first"
    how = {"bar": "parted off the bar", "sawn": "sawn to length", "piece": "from the piece",
           "centres": "between centres"}[free]  # fmt: skip
    second = next((v.hold for v in visits if v.name in ("b", "d")), None)
    held = f", second end in {_held(second)}" if second and free != "centres" else ""
    carried = ", chuck carried to the head" if any(v.name in ("ah", "bh") for v in visits) else ""
    return f"{first}, {how}{carried}{held}"


def _held(hold: Hold) -> str:
    if hold.held_by == "three-jaw" and "bush" in hold.between:
        return "a split bush"
    article = (
        "" if hold.held_by in ("soft jaws", "between centres") else "the " if "jaw" in hold.held_by else "a "
    )
    return article + hold.held_by


@dataclass(slots=True)
class Reasons:
    """Why routes were refused: a sentence for each, the most telling first."""

    found: list[tuple[int, str, str]]

    def add(self, weight: int, feature: str, text: str) -> None:
        """Keep a reason that names its feature."""
        self.found.append((weight, feature, f"{feature}: {text}"))

    def first(self) -> tuple[str, str]:
        """The reason that tells most."""
        if not self.found:
            return (
                "part",
                "part: no way to hold it was found; more bar behind the part or another holding would do.",
            )
        _, feature, text = max(self.found, key=lambda one: one[0])
        return feature, text


def drafts(bench: Bench, reasons: Reasons) -> Iterator[Draft]:
    """Every route there is, not yet checked against truth and hard rules."""
    if bench.shop.lathe is None:
        reasons.add(9, "part", "there is no lathe in the shop; say in the shop what it is.")
        return
    for first in ("front", "back"):
        side = Side(bench.part, first)
        for free in _ways(bench, side):
            if free == "centres":
                yield from _between_centres(bench, side, reasons)
            else:
                for split in _splits(bench, side, free):
                    yield from _chucked(bench, side, free, split, reasons)


def _ways(bench: Bench, side: Side) -> tuple[str, ...]:
    part = bench.part
    ratio = part.overall / max(part.bar.corners, 0.1)
    centres = (
        not part.inside and part.overall >= 2 * part.largest and not any(one.off_axis for one in part.outside)
    )
    ends = (part.front.centre, part.back.centre)
    ways = ["centres"] if centres and "none" not in ends else []
    if part.bar.blank is not None:
        return ("piece", *ways)
    return ("bar", *(["sawn"] if ratio >= 1.5 else []), *ways)


def _splits(bench: Bench, side: Side, free: str) -> tuple[int, ...]:
    """How many outside features are made at the first setting."""
    order = side.order
    count = len(order)
    widest = [i for i, one in enumerate(order) if one.largest >= bench.part.largest - 1e-6]
    raw = [i for i, one in enumerate(order) if isinstance(one, AsBought)]
    places = (
        {widest[0], widest[0] + 1, widest[-1], widest[-1] + 1, *raw, *(i + 1 for i in raw)}
        if widest
        else set()
    )
    if free == "bar":
        places.add(count)
        return tuple(sorted((p for p in places if 0 < p <= count), reverse=True))
    return tuple(sorted((p for p in places if 0 <= p < count), reverse=True))


def _slim(bench: Bench, out: float, at: float) -> bool:
    return out > SLENDER * max(at, 0.1)


@dataclass(slots=True)
class _Plan:
    """A route in the making: tasks by the name of their visit."""

    bench: Bench
    side: Side
    free: str
    split: int
    tasks: list[tuple[str, Task]]
    necks: int = 0

    def put(self, visit: str, *tasks: Task) -> None:
        """Do these tasks in this visit."""
        self.tasks += [(visit, task) for task in tasks]

    def home(self, one: Outside) -> str:
        """The visit that makes an outside feature."""
        if one.off_axis is not None:
            return "o"
        return "a" if self.side.order.index(one) < self.split else "b"

    @property
    def first_set(self) -> tuple[Outside, ...]:
        """The outside features of the first setting."""
        return self.side.order[: self.split]

    @property
    def reach(self) -> float:
        """How far the first setting goes along the part. [mm]"""
        return max((self.side.far(one) for one in self.first_set), default=0.0)


@dataclass(slots=True)
class Draft:
    """A route with its visits, before truth and rules are looked at."""

    plan: _Plan
    visits: list[Visit]

    @property
    def words(self) -> str:
        """The route in a few words."""
        return _words(self.plan.side, self.plan.free, self.visits)

    def least(self, many: float, per_bar: int) -> float:
        """No order of its tasks can take less: every tool is fitted once a visit at least."""
        tools = {
            (visit, t.fitted): t.fit_minutes
            for visit, t in self.plan.tasks
            if t.station not in ("none", "bench")
        }
        return self.base(many, per_bar) + many * sum(tools.values())

    def base(self, many: float, per_bar: int) -> float:
        """Its minutes without tool changes and broken preferences."""
        heads = [visit.once for visit in self.visits if visit.name in ("ah", "bh", "qh")]
        lot = sum(visit.once for visit in self.visits) - (sum(heads) - max(heads, default=0.0))
        tasks = [task for _, task in self.plan.tasks]
        each = sum(visit.each for visit in self.visits) + sum(t.minutes for t in tasks if t.each == "part")
        each += sum(t.minutes for t in tasks if t.each == "bar") / per_bar
        each += NECK * self.plan.necks
        each += sum(visit.hold.risk for visit in self.visits if not visit.hold.carried)
        return lot + many * each


def _chucked(bench: Bench, side: Side, free: str, split: int, reasons: Reasons) -> Iterator[Draft]:
    base = _Plan(bench, side, free, split, [])
    necks = _necks(base, reasons)
    if necks is None:
        return
    base.necks = necks
    hold = first_hold(bench, side, free, base.reach)
    if hold is None:
        room = bench.shown(max(bench.part.bar.corners, 8.0))
        name = side.order[min(split, len(side.order) - 1)].name
        reasons.add(
            2,
            name,
            f"nothing is left to grip while the {side.first} end is made; {room} of bar more would do.",
        )
        return
    out = bench.part.overall + parting_room(bench.shop) if free == "bar" else base.reach + 1.0 + 4.0
    for bore_in in _bore_visits(base):
        plan = _Plan(bench, side, free, split, [], necks)
        if not _turning(plan, bore_in, hold, out, reasons):
            continue
        made = (
            frozenset(name for visit, task in plan.tasks if visit in ("a", "o") for name in task.makes)
            | frozenset(one.name for one in side.order[:split] if isinstance(one, AsBought))
            | frozenset(one.name for one in side.order if isinstance(one, AsBought) and free == "bar")
        )
        uncut = [side.near(one) for one in side.order[split:] if not isinstance(one, AsBought)]
        limit = min(uncut, default=bench.part.overall)
        held = list(second_holds(bench, side, made, limit))
        if split == 0:
            held = [one for one in held if one.held_by in ("arbor", "threaded stub")]
        if not held:
            reasons.add(3, side.order[0].name, _no_second(bench, side))
        for second in held:
            for stage in ("first", "second", "apart"):
                yield from _finished(plan, hold, second, stage, out, reasons)
                if not _off_axis_work(bench):
                    break


def _no_second(bench: Bench, side: Side) -> str:
    return (
        f"nothing owned can hold it while the {side.second} end is made: no plain diameter of its own length, "
        "no through thread or bore; soft jaws, a collet of its size or a longer plain length would do."
    )


def _necks(plan: _Plan, reasons: Reasons) -> int | None:
    """How many features of the first setting lie behind a larger one; None where a close one would."""
    found, widest = 0, 0.0
    for index, one in enumerate(plan.first_set):
        if isinstance(one, Dome) and one.closes == plan.side.second:
            reasons.add(1, one.name, f"from the {plan.side.first} end it lies at the blade.")
            return None
        small = one.largest < widest - 1e-6
        if small and not isinstance(one, Groove | AsBought):
            later = max((o.largest for o in plan.side.order[index + 1 :]), default=0.0)
            close = isinstance(one, OutsideThread) or (isinstance(one, Diameter) and is_fitted(one.size))
            if close and later <= one.largest + 1e-6:
                reasons.add(
                    1, one.name, f"from the {plan.side.first} end it would have to be cut behind a shoulder."
                )
                return None
            found += 1
        widest = max(widest, one.largest)
    behind = plan.side.order[plan.split :]
    widest = 0.0
    for one in behind[::-1]:
        if one.largest < widest - 1e-6 and not isinstance(one, Groove | AsBought):
            found += 1
        widest = max(widest, one.largest)
    return found


def _bore_visits(plan: _Plan) -> tuple[str, ...]:
    later = {one.name for one in plan.side.order[plan.split :]}
    linked = any(
        not t.face and (t.feature in later or t.to in later) and ("inside" in t.feature + t.to)
        for t in plan.bench.part.truths
    )
    return ("a", "b") if linked and any(one.through for one in plan.bench.part.inside) else ("a",)


def _turning(plan: _Plan, bore_in: str, hold: Hold, out: float, reasons: Reasons) -> bool:
    """Put the lathe's tasks into the first and the second setting."""
    bench, side, part = plan.bench, plan.side, plan.bench.part
    piece = plan.free != "bar"
    if part.bar.blank is None:
        _sawing(plan, piece)
    face = tasks_ends.faced(bench, side.first, "face", to_length=False)
    raw = tuple(one.name for one in part.outside if isinstance(one, AsBought))
    plan.put("a", replace(face, makes=raw))
    for one in side.order:
        visit = plan.home(one)
        reached = side.first if visit in ("a", "o") else side.second
        plan.put(visit, *tasks_outside.turned(bench, one, reached))
        _edges(plan, one, visit)
        if one.finish and "polish" in one.finish.words:
            plan.put(
                visit, tasks_outside.polish(bench, one.finish.name, one.largest, one.start, one.stop, reached)
            )
    _inside(plan, bore_in)
    _set_over(plan)
    plan.put(
        "b", tasks_ends.faced(bench, side.second, "face2", to_length=True, off=0.3 if not piece else 1.0)
    )
    return _supports(plan, out, reasons)


def _sawing(plan: _Plan, per_part: bool) -> None:
    bench, part, lathe = plan.bench, plan.bench.part, plan.bench.shop.lathe
    assert lathe is not None
    if per_part:
        plan.put("a", tasks_ends.sawn(bench, part.make, True, part.overall + 2.0))
    elif part.bar.corners > lathe.spindle_bore:
        count = per_piece(bench)
        each = part.overall + tasks_ends.kerf(bench) + 0.3
        plan.put("a", tasks_ends.sawn(bench, count, False, count * each + 1.0 + 4.0 + jaws(bench.shop)))


def per_piece(bench: Bench) -> int:
    """How many parts come from one sawn piece of bar, so that it does not stand out too far."""
    part = bench.part
    each = part.overall + tasks_ends.kerf(bench) + 0.3
    return max(1, min(part.make, int((2.5 * part.bar.corners) // each)))


def _edges(plan: _Plan, one: Outside, visit: str) -> None:
    side, bench = plan.side, plan.bench
    order = side.order
    index = order.index(one)
    for broken in (one.chamfer, one.chamfer_back, one.radius):
        if broken is None:
            continue
        at: End = getattr(broken, "at", "front")
        last = (at == side.second and index == len(order) - 1) or (at == side.first and index == 0)
        if at == side.first:
            kind, where = "chamfer", visit
        elif last:
            beside = plan.free == "bar" and isinstance(one, Knurl | AsBought) and visit == "a"
            kind, where = ("chamfer_back", "a") if beside else ("chamfer2", "b")
        else:
            following = order[index + 1]
            kind, where = "chamfer", plan.home(following) if visit == "a" else visit
        if where == "o":
            where = visit
        reached = side.first if where in ("a", "o") else side.second
        plan.put(where, tasks_outside.edge(bench, one, broken, kind, reached))
        if kind == "chamfer_back":
            plan.put("a", tasks_ends.plunged(bench, side.second))


def _hole_key(plan: _Plan, end: End) -> str:
    through = any(one.through for one in plan.bench.part.inside) or plan.bench.part.bar.bore is not None
    return "axis" if through else f"axis {end}"


def _inside(plan: _Plan, bore_in: str) -> None:
    bench, side = plan.bench, plan.side
    starts: set[str] = set()
    for one in bench.part.inside:
        own_end = (
            one.end if not isinstance(one, InsideGroove) else (side.first if bore_in == "a" else side.second)
        )
        visit = (
            bore_in if one.through or isinstance(one, InsideGroove) else "a" if own_end == side.first else "b"
        )
        reached = side.first if visit == "a" else side.second
        hole = _hole_key(plan, own_end)
        tasks = tasks_inside.inner(bench, one, reached, hole)
        plan.put(visit, *(t for t in tasks if t.kind != "ball"))
        plan.put("z", *(t for t in tasks if t.kind == "ball"))
        if any(t.kind == "drill" for t in tasks):
            starts.add(visit)
        for edge in (one.mouth, one.mouth_back, one.chamfer, one.chamfer_back):
            if edge is not None:
                plan.put("a" if edge.at == side.first else "b", tasks_inside.mouth(bench, one, edge, hole))
        if one.finish and "polish" in one.finish.words:
            plan.put(
                visit, tasks_outside.polish(bench, one.finish.name, one.largest, one.start, one.stop, reached)
            )
    _one_drill(plan)
    for visit in sorted(starts):
        end = side.first if visit == "a" else side.second
        plan.put(visit, tasks_ends.centred(bench, end, "centre" if visit == "a" else "centre2"))


def _one_drill(plan: _Plan) -> None:
    """Drills of one hole that a larger or a longer one makes needless are left out."""
    kept: list[tuple[str, Task]] = []
    drills = [(v, t) for v, t in plan.tasks if t.kind == "drill"]
    for visit, task in plan.tasks:
        if task.kind == "drill" and not task.makes:
            wider = any(
                o is not task and o.hole == task.hole and v == visit
                and o.start <= task.start + 1e-6 and o.stop >= task.stop - 1e-6
                and (abs(o.bore - task.bore) < 0.01 and (o.makes or id(o) < id(task)))
                for v, o in drills
            )  # fmt: skip
            if wider:
                continue
        kept.append((visit, task))
    plan.tasks[:] = kept


def _set_over(plan: _Plan) -> None:
    for one in plan.side.order:
        if one.off_axis is not None:
            throw = one.off_axis.nominal
            plan.put("o", replace(
                tasks_ends.set_true(plan.bench, one.name, None, plan.side.first),
                title=f"Set over {plan.bench.shown(throw)}",
                do=(f"Four-jaw: the clock reads {plan.bench.shown(2 * throw)} in all when it is right.",),
            ))  # fmt: skip
            break


def _supports(plan: _Plan, out: float, reasons: Reasons) -> bool:
    """Bring up a centre where the work stands out far; False where none may be."""
    bench, side = plan.bench, plan.side
    part = bench.part
    width = part.bar.corners
    slim = _slim(bench, out, width)
    face: End = side.first
    allowed = (part.front if face == "front" else part.back).centre != "none"
    if slim and (not allowed or out > LONG * width):
        name = side.order[0].name
        reasons.add(4, name, f"it would stand {out / width:.0f} diameters out of the chuck; "
                    'a centre that may stay (centre = "may stay") or a shorter part would do.')  # fmt: skip
        return False
    if allowed and (slim or knurl_wants_centre(plan, out)):
        if not any(v == "a" and t.kind == "centre" for v, t in plan.tasks):
            plan.put("a", tasks_ends.centred(bench, face))
        plan.put("a", *tasks_ends.supported(face))
    return True


def knurl_wants_centre(plan: _Plan, out: float) -> bool:
    """Whether a knurl of the first setting asks for the tailstock centre."""
    bench, side = plan.bench, plan.side
    lathe = bench.shop.lathe
    if lathe is None or lathe.pinching_knurl or bench.part.bar.bore is not None:
        return False
    holed = any(one.through or one.end == side.first for one in bench.part.inside)
    limit = WEAK_KNURL_OUT if lathe.tool_holder == "weak" and holed else KNURL_OUT
    return any(
        isinstance(one, Knurl) and (out - side.near(one) > limit * one.largest or one.largest < 10)
        for one in plan.first_set
    )


def _off_axis_work(bench: Bench) -> bool:
    part = bench.part
    stands = any(o.scale or o.flats or o.slot or o.keyway or o.figures for o in part.outside)
    return bool(stands or part.across or part.front.slot or part.back.slot)


_CARRIES = ("three-jaw", "four-jaw", "soft jaws", "arbor", "threaded stub", "threaded bush")
_DIVIDED = ("lines", "flats", "holes", "holes_tap", "holes_countersink")


def dividing(bench: Bench) -> str:
    """What divides a circle in this shop; "" for nothing."""
    shop = bench.shop
    if shop.dividing_head:
        return "dividing head"
    if shop.rotary_table:
        return "rotary table"
    return "spindle wheel" if shop.lathe and shop.lathe.spindle_wheel else ""


def _carries(bench: Bench) -> bool:
    head = bench.shop.dividing_head
    return bool(head and head.takes_chuck and bench.shop.mill) or dividing(bench) == "spindle wheel"


def _finished(
    plan: _Plan, hold: Hold, second: Hold, stage: str, out: float, reasons: Reasons
) -> Iterator[Draft]:
    """Put the work off the axis, the parting and the bench to it, and check the whole."""
    whole = _Plan(plan.bench, plan.side, plan.free, plan.split, list(plan.tasks), plan.necks)
    placed = _place_off_axis(whole, second, stage, reasons)
    if placed is None:
        return
    used = {visit for visit, _ in whole.tasks}
    if plan.free == "bar":
        parting = "ab" if "ah" in used else "o" if "o" in used else "a"
        _move(whole, ("chamfer_back", "part_groove"), parting)
        whole.put(parting, tasks_ends.parted(plan.bench, plan.side.second))
    elif "ah" in used and not any(v == "ab" for v in used):
        pass
    heavy = next((t for v, t in whole.tasks if v in ("b", "bh") and t.kind not in LIGHT), None)
    twisting = next((t for v, t in whole.tasks if v == "b" and t.kind in TWISTING), None)
    if second.held_by in SCREWED and twisting is not None:
        reasons.add(
            1,
            twisting.about,
            f"{_held(second)} does not hold it against {vocabulary()[twisting.kind].words}.",
        )
        return
    if second.light and heavy is not None:
        reasons.add(2, heavy.about, f"{plan.bench.shown(second.grip_length)} of {second.grips} is too short a grip for "
                    f"{heavy.title[0].lower()}{heavy.title[1:]}; a longer plain length would do.")  # fmt: skip
        return
    slim = heavy is not None and _thin_out(plan, second)
    if slim and not _support_second(whole, second, reasons):
        return
    _late_reaming(whole)
    _closing(whole, second)
    visits = _visits(whole, hold, second, out, slim)
    if visits:
        yield Draft(whole, visits)
    else:
        _nothing_to_hold(whole, reasons)


def _move(plan: _Plan, kinds: tuple[str, ...], to: str) -> None:
    plan.tasks[:] = [(to if task.kind in kinds else visit, task) for visit, task in plan.tasks]


def _place_off_axis(plan: _Plan, second: Hold, stage: str, reasons: Reasons) -> bool | None:
    """Give every task off the axis its visit; None where one has none in this stage."""
    bench, side = plan.bench, plan.side
    groups: list[tuple[list[Task], Outside | None]] = []
    for one in side.order:
        tasks = tasks_across.standing(bench, one)
        for root in ("scale", "flats", "slot", "keyway"):
            mine = [
                t
                for t in tasks
                if t.about == f"{one.name}.{root}" or (root == "scale" and t.kind == "figures")
            ]
            if mine:
                groups.append((mine, one))
        if one.figures and not one.scale:
            plan.put("z", *(t for t in tasks if t.kind == "figures"))
            groups = [(m, o) for m, o in groups if not all(t.kind == "figures" for t in m)]
    groups += [(tasks_across.holes(bench, one), None) for one in bench.part.across]
    for face in (bench.part.front, bench.part.back):
        on = tasks_across.on_face(bench, face, tasks_ends.end_size(bench.part, face.name))  # type: ignore[arg-type]
        plan.put("z", *(t for t in on if t.kind == "figures"))
        if cut := [t for t in on if t.kind != "figures"]:
            groups.append((cut, None))
    hits = False
    early = second.held_by == "arbor" and any(o.scale for o in side.order)
    for tasks, base in groups:
        flat_bar = bench.part.bar.section == "square" and all(t.kind == "flats" for t in tasks)
        divided = any(t.kind in _DIVIDED for t in tasks) and not flat_bar
        if divided and not dividing(bench):
            reasons.add(8, tasks[0].about, _NO_DIVIDING)
            return None
        where = _where(plan, tasks, base, second, stage, early)
        hits = hits or where[0] == {"first": "a", "second": "b", "apart": "q"}[stage] or (stage == "apart")
        machine = "qh" if divided and where == "q" else where
        for task in tasks:
            at = machine
            if task.kind == "ridge":
                at = {"ah": "ab", "bh": "bb"}.get(machine, "z")
            plan.put(at, task)
    return hits or not groups or None


def _where(
    plan: _Plan, tasks: list[Task], base: Outside | None, second: Hold, stage: str, early: bool
) -> str:
    order = {"first": ("ah", "bh", "q"), "second": ("bh", "q"), "apart": ("q",)}[stage]
    for visit in order:
        if visit == "ah" and _reached_first(plan, tasks, base):
            return "ah"
        if visit == "bh" and _reached_second(plan, tasks, base, second):
            return "bh"
    across = any(t.kind.startswith("cross") for t in tasks)
    home = base is None or plan.home(base) == "a"
    return "p" if early and across and home else "q"


def _open_edge(order: tuple[Outside, ...], one: Outside) -> bool:
    """Whether a cutter can run on to a feature from its free side: nothing as large stands before it."""
    index = order.index(one)
    return index == 0 or order[index - 1].largest < one.largest - 0.5


def _reached_first(plan: _Plan, tasks: list[Task], base: Outside | None) -> bool:
    bench, side = plan.bench, plan.side
    if not _carries(bench):
        return False
    kinds = {t.kind for t in tasks}
    if dividing(bench) == "spindle wheel" and not kinds <= {"lines", "ridge", "figures"}:
        return False
    if base is not None:
        if plan.home(base) != "a":
            return False
        return "lines" not in kinds or _open_edge(side.order, base)
    if kinds & {"holes", "end_slot"}:
        return tasks[0].end == side.first
    return all(plan.home(one) == "a" for one in side.order if one.start <= tasks[0].start < one.stop)


def _reached_second(plan: _Plan, tasks: list[Task], base: Outside | None, second: Hold) -> bool:
    bench, side = plan.bench, plan.side
    if not _carries(bench) or second.held_by not in _CARRIES:
        return False
    kinds = {t.kind for t in tasks}
    if dividing(bench) == "spindle wheel" and not kinds <= {"lines", "ridge", "figures"}:
        return False
    short = "bush" in second.between and second.grip_length < second.grip_diameter
    if short and not kinds <= {"lines", "ridge", "figures"}:
        return False
    inside_out = second.held_by in ("arbor", "threaded stub")
    if base is not None:
        gripped = (
            not inside_out and second.grip_from < base.stop - 1e-6 and base.start < second.grip_to - 1e-6
        )
        if gripped:
            return False
        return "lines" not in kinds or second.held_by == "arbor" or _open_edge(side.order[::-1], base)
    if kinds & {"holes", "end_slot"}:
        return tasks[0].end == side.second and not (inside_out and "end_slot" in kinds)
    if inside_out:
        return False
    middle = (tasks[0].start + tasks[0].stop) / 2
    return not second.grip_from <= middle <= second.grip_to


def _late_reaming(plan: _Plan) -> None:
    """A close bore that a cross hole on the bar breaks into is finished after it, with all that must be true to it."""
    if not any(v == "ah" and t.kind == "cross_drill" for v, t in plan.tasks):
        return
    broken = [
        t for v, t in plan.tasks if v == "a" and t.kind in ("ream", "bore_finish") and any(
            w == "ah" and c.kind == "cross_drill" and t.start <= (c.start + c.stop) / 2 <= t.stop
            for w, c in plan.tasks)
    ]  # fmt: skip
    if broken:
        fine = [t for v, t in plan.tasks if v == "a" and t.fine]
        late = {id(t) for t in (*broken, *fine)}
        plan.tasks[:] = [("ab" if id(t) in late and v == "a" else v, t) for v, t in plan.tasks]


def _closing(plan: _Plan, second: Hold) -> None:
    """Seats and clocks of a new grip, the bench, and what mends what."""
    bench, side = plan.bench, plan.side
    gripped = second.grips if second.grips != "bar" else "the piece"
    plan.put("b", tasks_ends.seat(gripped, side.second))
    limit = _limit_between(plan)
    if second.held_by not in ("threaded stub", "threaded bush", "arbor"):
        plan.put("b", tasks_ends.set_true(bench, gripped, limit, side.second))
    if second.stub:
        plan.put("b", _stub_task(bench, second))
    _bench_work(plan)


def _stub_task(bench: Bench, second: Hold) -> Task:
    from engine.part.tasks import operation_of

    kinds: dict[str, tuple[str, dict[str, str]]] = {}
    feature = bench.part.feature(second.grips)
    size = getattr(feature, "size", None)
    if second.held_by == "threaded stub":
        kinds["op"] = ("screwcutting", {"size": str(size), "material": "mild steel"})
    elif second.held_by == "threaded bush":
        kinds["op"] = ("tap-drill", {"size": str(size), "material": "mild steel", "hole": "through",
                                     "depth": bench.said(second.grip_length)})  # fmt: skip
    else:
        kinds["op"] = (
            "turning-speed",
            {"diameter": bench.said(second.grip_diameter), "material": "mild steel"},
        )
    operation, inputs = operation_of(kinds["op"])
    words = {
        "threaded stub": "Turn and thread the stub",
        "threaded bush": "Tap the bush",
        "arbor": "Turn the arbor",
    }
    return Task(
        kind="stub",
        about=second.grips,
        title=words[second.held_by],
        operation=operation,
        inputs=inputs,
        do=(second.stub,),
        hazards=("stud", "turning", "chuck"),
        each="lot",
    )


def _limit_between(plan: _Plan) -> float | None:
    """The closest truth between what the first and what the second setting make."""
    limits = [
        t.within for t in plan.bench.part.truths
        if not (t.face and t.feature.startswith("outside")) and _apart(plan, t)
    ]  # fmt: skip
    return min(limits, default=None)


def _apart(plan: _Plan, truth: Truth) -> bool:
    homes = [_maker(plan, name) for name in (truth.feature, truth.to)]
    return None not in homes and homes[0] != homes[1]


def _maker(plan: _Plan, name: str) -> str | None:
    """The visit that makes a feature (or an end face)."""
    if name in ("front", "back"):
        return "a" if name == plan.side.first else "b"
    raw = next((o for o in plan.side.order if o.name == name and isinstance(o, AsBought)), None)
    if raw is not None:
        return None
    return next((visit for visit, task in plan.tasks if name in task.makes), None)


def _bench_work(plan: _Plan) -> None:
    bench, part = plan.bench, plan.bench.part
    lined = any(v == "bh" and t.kind == "lines" for v, t in plan.tasks)
    for one in part.inside:
        broach = tasks_inside.broached(bench, one, plan.side.first, _hole_key(plan, one.end))
        plan.put("pz" if lined else "z", *broach)
    for name, thread in ((o.name, o) for o in part.outside if isinstance(o, OutsideThread)):
        cut = any(
            t.kind in ("flats", "slot", "keyway", "cross_drill", "end_slot")
            and (t.root == name or thread.start <= (t.start + t.stop) / 2 <= thread.stop)
            for _, t in plan.tasks
        )
        if cut:
            plan.put("z", tasks_ends.by_hand(
                "chase", f"Clear {thread.size}", ("Nut or die over it by hand, until it runs as before.",), "chase",
                about=name, start=thread.start, stop=thread.stop, hazards=("hand-work",)))  # fmt: skip
    for name, words in _finishes(plan):
        if "black" in words:
            plan.put("z", tasks_ends.by_hand("black", "Black it", ("Clean, dry, and oil it after.",), "black",
                                             about=name, makes=(name,) if name else (), hazards=("heat",)))  # fmt: skip
        elif "polish" not in words:
            plan.put("z", tasks_ends.by_hand("deburr", words.capitalize(), (f"Finish: {words}.",), "polish",
                                             about=name, makes=(name,) if name else ()))  # fmt: skip
        elif name in ("front.finish", "back.finish"):
            end: End = "front" if name.startswith("front") else "back"
            size = tasks_ends.end_size(part, end)
            place = tasks_ends.place_of(part, end)
            where = "a" if end == plan.side.first else "b"
            plan.put(where, tasks_outside.polish(bench, name, size, place, place, end))
    plan.put("z", *tasks_ends.finishing(bench))


def _finishes(plan: _Plan) -> Iterator[tuple[str, str]]:
    part = plan.bench.part
    features: tuple[Outside | Inside, ...] = (*part.outside, *part.inside)
    for one in features:
        if one.finish and "polish" not in one.finish.words:
            yield one.finish.name, one.finish.words
    for face in (part.front, part.back):
        if face.finish:
            yield face.finish.name, face.finish.words
    if part.finish and "polish" not in part.finish:
        yield "", part.finish


def _thin_out(plan: _Plan, second: Hold) -> bool:
    """Whether the second end stands out too far for its grip alone."""
    out = plan.bench.part.overall - _held_to(plan.side, second)
    return second.held_by != "arbor" and _slim(plan.bench, out, second.grip_diameter)


def _support_second(plan: _Plan, second: Hold, reasons: Reasons) -> bool:
    """Bring a centre up at the second end; False where none may be or it is too long even so."""
    bench, side = plan.bench, plan.side
    out = bench.part.overall - _held_to(side, second)
    face = bench.part.front if side.second == "front" else bench.part.back
    if face.centre == "none" or out > LONG * second.grip_diameter:
        name = side.order[-1].name
        reasons.add(3, name, f"turned round it would stand {out / second.grip_diameter:.0f} diameters out; "
                    'a centre that may stay (centre = "may stay") would do.')  # fmt: skip
        return False
    if not any(v == "b" and t.kind == "centre2" for v, t in plan.tasks):
        plan.put("b", tasks_ends.centred(bench, side.second, "centre2"))
    plan.put("b", *tasks_ends.supported(side.second))
    return True


def _visits(plan: _Plan, hold: Hold, second: Hold, out: float, slim: bool) -> list[Visit]:
    bench, side = plan.bench, plan.side
    used = {visit for visit, _ in plan.tasks}
    part = bench.part
    centre = any(t.kind == "support" for v, t in plan.tasks if v == "a")
    carry = minutes("carry").typical
    head = minutes("head").typical
    machine = "mill" if dividing(bench) != "spindle wheel" else "lathe"
    over = replace(hold, held_by="four-jaw" if any(c.kind == "four-jaw" for c in bench.shop.chucks) else "three-jaw",
                   run_out=holding_fact("four-jaw").run_out, between="" if any(
                       c.kind == "four-jaw" for c in bench.shop.chucks) else "packing under one jaw")  # fmt: skip
    first = over if "o" in used else hold
    out2 = max(part.overall - _held_to(side, second), 1.0)
    found = {
        "a": Visit(name="a", machine="lathe", hold=first, reached=side.first, stick_out=out,
                   support="centre" if centre else "none", slender=_slim(bench, out, part.bar.corners),
                   once=first.once, each=first.each),
        "o": Visit(name="o", machine="lathe", hold=replace(over, once=0, each=10), reached=side.first, stick_out=out),
        "ah": Visit(name="ah", machine=machine, hold=_carried(first, bench), reached=side.first, stick_out=out,
                    once=head, each=carry),
        "ab": Visit(name="ab", machine="lathe", hold=_carried(first, bench, back=True), reached=side.first,
                    stick_out=out, each=carry),
        "b": Visit(name="b", machine="lathe", hold=second, reached=side.second, turned_round=True, stick_out=out2,
                   slender=slim, support="centre" if slim else "none", once=second.once, each=second.each),
        "bh": Visit(name="bh", machine=machine, hold=_carried(second, bench), reached=side.second, turned_round=True,
                    stick_out=out2, once=head, each=carry),
        "bb": Visit(name="bb", machine="lathe", hold=_carried(second, bench, back=True), reached=side.second,
                    turned_round=True, stick_out=out2, each=carry),
        "z": Visit(name="z", machine="bench", hold=_BENCH_HOLD),
        "pz": Visit(name="pz", machine="bench", hold=_BENCH_HOLD),
    }  # fmt: skip
    if not _apart_visits(plan, used, found):
        return []
    return [found[name] for name in VISITS if name in used]


def _held_to(side: Side, second: Hold) -> float:
    """Where the grip of the second setting ends, from the end made first. [mm]"""
    if second.held_by in ("arbor", "threaded stub"):
        return 0.0
    return second.grip_to if side.first == "front" else side.part.overall - second.grip_from


def _carried(hold: Hold, bench: Bench, back: bool = False) -> Hold:
    fact = holding_fact("carried")
    held: Holding = hold.held_by if back or dividing(bench) == "spindle wheel" else "dividing head"
    return replace(hold, held_by=held, driven_by=hold.held_by if held != hold.held_by else hold.driven_by,
                   run_out=fact.low if back else fact.run_out, measured=False, carried=True, needs=(), stub="",
                   once=0.0, each=0.0)  # fmt: skip


def _spared(plan: _Plan, name: str) -> frozenset[str]:
    """The features that are worked on in a visit apart: what is milled is not held by it."""
    kinds = ("flats", "lines")
    return frozenset(t.root for v, t in plan.tasks if v == name and t.kind in kinds)


def _to_hold(plan: _Plan, name: str) -> Outside | None:
    """The outside feature that a V-block, a vice or a head takes best: long and plain, and not worked on there."""
    spared = _spared(plan, name)
    able = [
        o
        for o in plan.side.order
        if o.name not in spared and grippable(o) and o.long >= _APART_GRIP * o.largest
    ]
    able = able or [o for o in plan.side.order if o.name not in spared and grippable(o)
                    and not isinstance(o, OutsideThread) and o.largest >= 0.75 * plan.bench.part.largest]  # fmt: skip
    return max(able, key=lambda o: (not spoilt_by_jaws(o), o.long * o.largest), default=None)


def _apart_visit(plan: _Plan, name: str) -> Visit | None:
    """Cross holes, slots and the like in a V-block or a vice."""
    bench = plan.bench
    one = _to_hold(plan, name)
    if one is None:
        return None
    machine = "mill" if bench.shop.mill else "drill press"
    flat = isinstance(one, AsBought) and one.section != "round"
    held: Holding = "vice" if flat or spoilt_by_jaws(one) else "V-block"
    fact = holding_fact(held)
    between = "soft jaws" if spoilt_by_jaws(one) else "" if flat else "soft metal under the clamp"
    hold = Hold(held_by=held, grips=one.name, grip_from=one.start, grip_to=one.stop, grip_diameter=one.largest,
                between=between, run_out=fact.run_out)  # fmt: skip
    return Visit(name=name, machine=machine, hold=hold, once=minutes("vice").typical, each=1.0)


def _head_visit(plan: _Plan) -> Visit | None:
    """What is divided on the finished piece: in the head's collet, its chuck, or a split bush."""
    bench = plan.bench
    one = _to_hold(plan, "qh")
    if one is None:
        return None
    kits = [k for k in bench.shop.collets if any(
        one.largest - 0.03 <= t.diameter <= one.largest + k.closes for t in k.sizes)]  # fmt: skip
    soft = spoilt_by_jaws(one) or one.long < one.largest
    collet = bool(kits) and not spoilt_by_jaws(one) and any(one.long >= k.grip / 3 for k in kits)
    kind = "collet" if collet else "bush" if soft else "three-jaw"
    between = {
        "collet": "a collet in the head",
        "bush": "a split bush round it",
        "three-jaw": "soft metal strip",
    }[kind]
    hold = Hold(held_by="dividing head", grips=one.name, grip_from=one.start, grip_to=one.stop,
                grip_diameter=one.largest, between=between, run_out=holding_fact(kind).run_out,
                once=minutes("bush").typical if kind == "bush" else 0.0,
                driven_by="collet" if collet else "three-jaw")  # fmt: skip
    return Visit(name="qh", machine="mill", hold=hold, once=minutes("head").typical + hold.once, each=2.0)


def _apart_visits(plan: _Plan, used: set[str], found: dict[str, Visit]) -> bool:
    """Add the visits apart; False where nothing is left to hold the piece by."""
    for name in ("p", "q", "qh"):
        if name in used:
            visit = _head_visit(plan) if name == "qh" else _apart_visit(plan, name)
            if visit is None:
                return False
            found[name] = visit
    return True


def _nothing_to_hold(plan: _Plan, reasons: Reasons) -> None:
    reasons.add(3, plan.side.order[0].name, "nothing is left to hold the piece by for the work off its axis.")


def checked(draft: Draft, reasons: Reasons) -> Route | None:
    """The route, if the truth holds and no hard rule is broken between its visits."""
    plan, visits = draft.plan, draft.visits
    bench, side = plan.bench, plan.side
    index = {visit.name: i for i, visit in enumerate(visits)}
    tasks = [replace(task, visit=index[name]) for name, task in plan.tasks]
    setting = Setting(
        bench=bench,
        order=side.order,
        groups=tuple(v.group for v in visits),
        free=plan.free,
        slender=tuple(v.slender for v in visits),
        knurl_supported=any(t.kind == "support" for t in tasks) and any(t.kind == "knurl" for t in tasks),
        steady=any(t.kind == "steady" for t in tasks),
        arbor=tuple(v.hold.held_by == "arbor" or v.hold.driven_by == "arbor" for v in visits),
        by_root={one.name: one for one in side.order},
    )
    limits = _true(plan, visits, tasks, reasons)
    if limits is None:
        return None
    broken: list[tuple[Rule, Task, Task]] = []
    pairs = rules_between()
    for before in tasks:
        for after in tasks:
            if before.visit > after.visit and (before.kind, after.kind) in pairs:
                for rule in holding_between(setting, before, after):
                    if rule.hard:
                        reasons.add(0, after.about or after.kind, rule.text(before.kind, after.kind) + ".")
                        return None
                    broken.append((rule, before, after))
    tasks += _mended(bench, broken, tasks, index)
    if plan.free != "bar":
        tasks = _with_part(tasks, visits)
    return Route(
        visits=tuple(visits), tasks=tuple(tasks), side=side, free=plan.free, setting=setting, broken=tuple(broken),
        necks=plan.necks, limit=tuple(limits),
    )  # fmt: skip


def _mended(
    bench: Bench, broken: list[tuple[Rule, Task, Task]], tasks: list[Task], index: dict[str, int]
) -> list[Task]:
    """The steps that make good what a broken rule does, each once."""
    names = {after.about for rule, _, after in broken if rule.mend == "hand_ream"}
    found = []
    for name in sorted(names):
        task = next(t for t in tasks if t.about == name and t.kind in ("ream", "bore_finish"))
        reamed = task.kind == "ream"
        title = (
            f"Pass the {bench.shown(task.bore)} reamer through by hand"
            if reamed
            else "Take the burr out of the bore"
        )
        words = (
            "Only forwards, oiled: it takes off the burr and nothing else."
            if reamed
            else "A scraper, and feel for it."
        )
        found.append(
            replace(
                tasks_ends.by_hand(
                    "hand_ream",
                    title,
                    (words,),
                    "hand_ream",
                    about=name,
                    hole=task.hole,
                    bore=task.bore,
                    hazards=("hand-work",),
                ),
                visit=index["z"],
            )
        )
    return found


def _with_part(tasks: list[Task], visits: list[Visit]) -> list[Task]:
    """A piece that nothing frees is complete with its last measuring."""
    return [replace(t, makes=(*t.makes, "part")) if t.kind == "measure" else t for t in tasks]


def _true(plan: _Plan, visits: list[Visit], tasks: list[Task], reasons: Reasons) -> list[float | None] | None:
    """The truth asked of each visit; None where two features cannot be as true as they must."""
    limits: list[float | None] = [None] * len(visits)
    first = next((i for i, v in enumerate(visits) if v.name in ("b", "d")), 0)
    for truth in plan.bench.part.truths:
        if truth.face and truth.feature.startswith(("outside", "inside")):
            continue  # a shoulder is turned with the diameter it meets
        made = [_visit_of(plan, tasks, name, first) for name in (truth.feature, truth.to)]
        if None in made:
            continue
        low, high = sorted(one for one in made if one is not None)
        between = [v for v in visits[low + 1 : high + 1] if v.machine != "bench"]
        apart = sum(v.hold.run_out for v in between)
        if low == high:
            continue
        strict = _both_fine(plan, truth) and not all(
            v.hold.held_by in ("arbor", "between centres") or v.hold.driven_by == "arbor" for v in between
        )
        if apart > truth.within + 1e-9 or strict:
            how = f"{plan.bench.shown(apart)} with {_held(visits[high].hold)}"
            reasons.add(
                5, truth.feature,
                f"it has to run true to {truth.to} within {plan.bench.shown(truth.within)} and would be cut at another "
                f"setting ({how}); a wider `within`, an arbor or both from one end would do.",
            )  # fmt: skip
            return None
        limits[high] = truth.within if limits[high] is None else min(limits[high] or 0.0, truth.within)
    return limits


def _both_fine(plan: _Plan, truth: Truth) -> bool:
    pair = [plan.bench.part.feature(name) for name in (truth.feature, truth.to)]
    return all(isinstance(one, Diameter | Hole) and is_fitted(one.size) for one in pair)


def _visit_of(plan: _Plan, tasks: list[Task], name: str, second: int) -> int | None:
    if name in ("front", "back"):
        return 0 if name == plan.side.first else second
    return next((task.visit for task in tasks if name in task.makes and task.kind != "face"), None)


def _between_centres(bench: Bench, side: Side, reasons: Reasons) -> Iterator[Draft]:
    """Sawn to length, both ends faced and centred, then between centres; end for end costs nothing there."""
    part, shop = bench.part, bench.shop
    order = side.order
    plan = _Plan(bench, side, "centres", 0, [])
    widest = next(i for i, one in enumerate(order) if one.largest >= part.largest - 1e-6)
    if part.bar.blank is None:
        plan.put("a", tasks_ends.sawn(bench, part.make, True, part.overall + 2.0))
    raw = tuple(one.name for one in part.outside if isinstance(one, AsBought))
    plan.put("a", replace(tasks_ends.faced(bench, side.first, "face", to_length=False), makes=raw),
             tasks_ends.centred(bench, side.first))  # fmt: skip
    plan.put("b", tasks_ends.seat("the faced end", side.second),
             tasks_ends.faced(bench, side.second, "face2", to_length=True),
             tasks_ends.centred(bench, side.second, "centre2"))  # fmt: skip
    near, far = order[:widest], order[widest:]
    close = any(isinstance(o, Diameter) and is_fitted(o.size) for o in near)
    for one in near:
        for task in tasks_outside.turned(bench, one, side.first):
            plan.put("c" if task.kind == "rough" or not close else "e", task)
    for one in far:
        plan.put("d", *tasks_outside.turned(bench, one, side.second))
    for one in order:
        visit = ("e" if close else "c") if one in near else "d"
        for broken in (one.chamfer, one.chamfer_back, one.radius):
            if broken is not None:
                plan.put(visit, tasks_outside.edge(bench, one, broken, "chamfer", side.first if one in near else
                                                   side.second))  # fmt: skip
        if one.finish and "polish" in one.finish.words:
            plan.put(
                visit,
                tasks_outside.polish(bench, one.finish.name, one.largest, one.start, one.stop, side.first),
            )
    _centres_extra(plan, near)
    if _place_off_axis(plan, _BENCH_HOLD, "apart", reasons) is None:
        return
    _bench_work(plan)
    visits = _centre_visits(plan, near, shop)
    if visits:
        yield Draft(plan, visits)
    else:
        _nothing_to_hold(plan, reasons)


def _centres_extra(plan: _Plan, near: tuple[Outside, ...]) -> None:
    """Proving the tailstock, and a steady for what is longer than ten diameters."""
    used = [name for name in VISITS if any(v == name for v, _ in plan.tasks)]
    turning = [name for name in used if name in ("c", "d", "e")]
    if not turning:
        return
    bench = plan.bench
    words = (
        "Clock along the bar, or measure a light cut at both ends; move the tailstock half the difference.",
    )
    plan.put(turning[0], tasks_ends.by_hand("prove", "Prove the tailstock parallel", words, "prove",
                                            hazards=("turning", "measuring")))  # fmt: skip
    part = bench.part
    if part.overall > LONG * part.bar.corners:
        where = "d" if "d" in turning else turning[0]
        words = ("On the round finished bar right behind the tool, oiled, just touching.",)
        plan.put(
            where,
            tasks_ends.by_hand("steady", "Set the travelling steady", words, "steady", hazards=("turning",)),
        )


def _centre_visits(plan: _Plan, near: tuple[Outside, ...], shop: object) -> list[Visit]:
    bench, side, part = plan.bench, plan.side, plan.bench.part
    used = {visit for visit, _ in plan.tasks}
    fact = holding_fact("between centres")
    run_out, measured = (holding_fact("three-jaw").run_out, False)
    long = part.overall > LONG * part.bar.corners
    chuck = Hold(held_by="three-jaw", grips="bar", grip_diameter=part.bar.corners, run_out=run_out, measured=measured,
                 each=minutes("three-jaw").typical)  # fmt: skip
    deep = min(jaws(bench.shop), part.overall / 2)
    grips_a = side.span(part.overall - deep - 5.0, part.overall - 5.0)
    grips_b = side.span(5.0, 5.0 + deep)
    owned = any(t.diameter >= part.bar.corners - 1e-6 for t in bench.shop.carriers)
    travelling = any(s.kind == "travelling" and s.largest >= part.bar.corners for s in bench.shop.steadies)
    needs = [
        (
            f"carrier for {bench.shown(part.bar.corners)}",
            owned,
            "" if owned else "a hose clip over a bent screw",
        )
    ]
    if long:
        needs.append(
            ("travelling steady", travelling, "" if travelling else "a block of hardwood in the tool post")
        )

    def centres(name: str, carrier: Outside, finished: bool, turned: bool) -> Visit:
        hold = Hold(
            held_by="between centres", grips=carrier.name, grip_from=carrier.start, grip_to=carrier.stop,
            grip_diameter=carrier.largest, between="soft sheet under the carrier" if finished else "",
            run_out=fact.run_out, each=minutes("between centres").typical, needs=tuple(needs),
        )  # fmt: skip
        return Visit(name=name, machine="lathe", hold=hold, turned_round=turned,
                     reached=side.second if turned else side.first, support="travelling steady"
                     if long and name == "d" else "centre", stick_out=part.overall, each=hold.each)  # fmt: skip

    last, first = side.order[-1], side.order[0]
    found = {
        "a": Visit(name="a", machine="lathe", hold=replace(chuck, grip_from=grips_a[0], grip_to=grips_a[1]),
                   reached=side.first, stick_out=10.0, each=chuck.each),
        "b": Visit(name="b", machine="lathe", hold=replace(chuck, grip_from=grips_b[0], grip_to=grips_b[1]),
                   reached=side.second, turned_round=True, stick_out=10.0, each=minutes("turn_round").typical),
        "c": centres("c", last, False, False),
        "d": centres("d", first, bool(near) and "e" not in used, True),
        "e": centres("e", last, True, False),
        "z": Visit(name="z", machine="bench", hold=_BENCH_HOLD),
        "pz": Visit(name="pz", machine="bench", hold=_BENCH_HOLD),
    }  # fmt: skip
    if not _apart_visits(plan, used, found):
        return []
    return [found[name] for name in VISITS if name in used]


def _thread_named(task: Task) -> str:
    return dict(task.inputs).get("size", "the thread")


def gates(route: Route, visit: int) -> Iterable[tuple[Rule, str]]:
    """What has to be proved before this setting is broken: the rule and the words."""
    known = rules_by_id()
    kinds = {task.kind: task for task in route.tasks if task.visit == visit}
    words: tuple[tuple[str, str, Callable[[Task], str]], ...] = (
        ("thread", "R105", lambda t: f"the nut has been tried on {_thread_named(t)}"),
        ("thread_inside", "R105", lambda t: f"the screw has been tried in {_thread_named(t)}"),
        ("ream", "R106", lambda t: "the bore has been gauged"),
        ("bore_finish", "R106", lambda t: "the bore has been gauged"),
        ("lines", "R115", lambda t: "the last line has closed on the first"),
    )  # fmt: skip
    for kind, rule, say in words:
        if kind in kinds:
            yield known[rule], say(kinds[kind])
