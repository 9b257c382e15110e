"""What a route is, and one in the making: its visits, its tasks by visit, and why others were refused."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.records import dataclass
from engine.part.part import End, Outside
from engine.part.routes_holding import Hold, Side
from engine.part.rules import Rule
from engine.part.rules_conditions import Group, Setting
from engine.part.tasks import Bench, Task

SLENDER = 4.0  # diameters out of the chuck alone: deflection becomes measurable beyond; published
LONG = 10.0  # diameters with a centre: beyond, a steady; published
NECK = 8.0  # minutes more for turning behind a shoulder
CLOSE_NECKS = 3  # a close size behind a shoulder, between it and the jaws, counts for so many

# Visits in the order of time: first lathe setting, set over, carried to the head, back; apart on the mill, and the
# bench in between; turned round, carried, back; between centres three times; apart again; the bench at the end. And
# upright in the vice, then turned over, where no lathe is needed.
VISITS = ("a", "o", "ah", "ab", "m", "p", "pz", "b", "bh", "bb", "n", "c", "d", "e", "q", "qh", "z")

_GROUP: dict[str, Group] = {
    "a": "first", "o": "first", "ah": "first", "ab": "first", "p": "apart", "pz": "bench", "b": "second",
    "bh": "second", "bb": "second", "c": "second", "d": "second", "e": "second", "q": "apart", "qh": "apart",
    "m": "first", "n": "second", "z": "bench",
}  # fmt: skip


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
    since: tuple[int, ...] = ()  # the visit that each limit counts from

    @property
    def words(self) -> str:
        """The route in a few words, to tell it from another."""
        return route_words(self.side, self.free, self.visits)


def grips(visits: Sequence[Visit]) -> int:
    """How often the work is gripped anew; a chuck carried over with it lets nothing go."""
    return sum(1 for visit in visits if visit.machine != "bench" and not visit.hold.carried)


def route_words(side: Side, free: str, visits: Sequence[Visit]) -> str:
    """A route in a few words."""
    first = f"{side.first} end first"
    how = {"bar": "parted off the bar", "sawn": "sawn to length", "piece": "from the piece",
           "centres": "between centres", "milled": "all of it in the vice"}[free]  # fmt: skip
    second = next((v.hold for v in visits if v.name in ("b", "d")), None)
    held = f", second end in {held_in(second)}" if second and free != "centres" else ""
    if second and second.held_by == "hand":
        held = ", second end filed by hand"
    elif second and second.grips == "spigot":
        held += " on a spigot"
    carried = ", chuck carried to the head" if any(v.name in ("ah", "bh") for v in visits) else ""
    return f"{first}, {how}{carried}{held}"


def held_in(hold: Hold) -> str:
    """A way of holding with its article."""
    if hold.held_by == "three-jaw" and "bush" in hold.between:
        return "a split bush"
    if hold.held_by in ("soft jaws", "between centres"):
        return hold.held_by
    article = "the" if "jaw" in hold.held_by else "an" if hold.held_by == "arbor" else "a"
    return f"{article} {hold.held_by}"


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
            return ("part", "part: no way to hold it was found; more bar behind the part or another holding would do.")
        _, feature, text = max(self.found, key=lambda one: one[0])
        return feature, text


def is_slim(bench: Bench, out: float, at: float) -> bool:
    """Whether work stands out so far that a chuck alone lets it spring."""
    return out > SLENDER * max(at, 0.1)


@dataclass(slots=True)
class Making:
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

    plan: Making
    visits: list[Visit]

    @property
    def words(self) -> str:
        """The route in a few words."""
        return route_words(self.plan.side, self.plan.free, self.visits)

    def least(self, many: float, per_bar: int) -> float:
        """No order of its tasks can take less: every tool is fitted once a visit at least."""
        tools = {(visit, t.fitted): t.fit_minutes for visit, t in self.plan.tasks if t.station not in ("none", "bench")}
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


def hole_key(plan: Making, end: End) -> str:
    """What tells one hole of the axis from another: one that goes through is one hole with all."""
    through = any(one.through for one in plan.bench.part.inside) or plan.bench.part.bar.bore is not None
    return "axis" if through else f"axis {end}"
