"""The plan of a part: the best route found, its tasks in order, the set-ups, the minutes, and the runner-up.

Truth and grips are hard and belong to the routes; among those that keep them the minutes decide, and among
equals within 5 % fewer set-ups, then fewer tool changes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from math import inf

from engine.base.declare import asks
from engine.base.records import dataclass, field, replace
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.base.rounding import short
from engine.part.angles import with_angles
from engine.part.checks import is_fitted
from engine.part.meets import Piece, nothing_left
from engine.part.part import Diameter, Part
from engine.part.routes import drafts, drafts_on_spigots
from engine.part.routes_checked import checked, gates
from engine.part.routes_making import SLENDER, Draft, Reasons, Route, Visit, grips
from engine.part.routes_turning import per_piece, piece_sawn
from engine.part.rules import Rule, minutes, rules_between, vocabulary
from engine.part.rules_conditions import holding_between
from engine.part.search import ANY_TOOL, NoOrder, Problem, best_order
from engine.part.steps import SetUp, Step, Why
from engine.part.tasks import Bench, Task
from engine.part.tasks_inside import unreached
from engine.part.tasks_outside import LEAST_CUT
from engine.shop.model import Shop

EQUAL = 1.05  # plans within 5 % are equals
_HUNDREDTHS = 100
_STIFF = 1.5  # times its diameter: what is thicker does not bend with it
_LIMBER = 6.0  # diameters out
_PUSHED_BACK = 10.0  # mm of a long bar that stand out while it is faced and centred: common practice, no source
_TOLD = ("turn-to-size", "bore-to-size", "face-to-length")  # operations whose cuts hang on how the work is held


@dataclass(frozen=True, slots=True, kw_only=True)
class RunnerUp:
    """The next best route, what it takes, and why it was not taken."""

    route: str
    minutes: float
    why_not: str


@dataclass(frozen=True, kw_only=True)
class Plan:
    """A part's plan. `gap`: how many minutes it may be from the best; 0: the best of all that were looked at."""

    part: Part
    route: Route
    set_ups: tuple[SetUp, ...]
    steps: tuple[Step, ...]
    minutes: float
    band: tuple[float, float]
    gap: float
    runner_up: RunnerUp | None
    broken: tuple[Why, ...]
    bench: Bench = field(repr=False, compare=False)

    @property
    def best(self) -> str:
        """`best`, or how far from it the plan may be."""
        return "best" if self.gap < 0.5 else f"at most {short(self.gap, 0)} minutes from best"

    @cached_property
    def let_go(self) -> Mapping[str, int]:
        """The steps after which the work is let go, by their ids, each with its set-up: the last one before it is parted off
        or gripped anew."""
        found: dict[tuple[int, int], str] = {}
        freed: set[tuple[int, int]] = set()
        for step in self.steps:
            here = step.round, step.set_up
            if "part" in step.makes and here in found:
                freed.add(here)
            if here not in freed:
                found[here] = step.id
        return {name: set_up for (_, set_up), name in found.items()}

    def gates_after(self, step: Step) -> tuple[str, ...]:
        """What has to be found out after a step, before the work is let go."""
        return self.set_ups[self.let_go[step.id]].gate_words if step.id in self.let_go else ()

    @cached_property
    def rounds(self) -> int:
        """How many times the steps of one piece are gone through."""
        return max((step.round for step in self.steps), default=1)


@dataclass(frozen=True, slots=True)
class _Ordered:
    """A route with its tasks in order."""

    route: Route
    orders: tuple[tuple[Task, ...], ...]
    minutes: float
    bound: float
    changes: int
    broken: tuple[tuple[Rule, Task, Task], ...]


def plan(part: Part, shop: Shop) -> Plan:
    """The plan of a part in a shop; BadInput, naming the feature, where there is none.

    >>> from engine.part.file import read
    >>> from engine.shop.file import sample
    >>> head = 'part_version = 1\\ntitle = "Pin"\\nunit = "mm"\\nmaterial = "mild steel"\\nbar = "16"\\n'
    >>> pin = read(head + '[[outside]]\\nis = "diameter"\\nsize = "12"\\nlength = "20"').part
    >>> found = plan(pin, sample("metric"))
    >>> [step.kind for step in found.steps if step.makes]
    ['finish', 'part_off']
    >>> [step.title for step in plan(pin, sample("inch")).steps if step.kind == "finish"]
    ['Turn 0.4724 in x 0.7874 in']
    """
    _bar_is_enough(part)
    # Said in the unit of the shop, whose dials and gauges it is made with: its lengths are the same.
    bench = Bench(replace(part, unit="inch" if shop.standard == "asme" else "mm"), shop, drawn_in=part.unit)
    if short_of := unreached(bench):
        raise BadInput(short_of[0], "", "", f"{short_of[0]}: {short_of[1]}")
    reasons = Reasons([])
    found, least = _search(bench, drafts(bench, reasons), reasons)
    if not found:  # nothing of the piece itself can be held turned round
        found, least = _search(bench, drafts_on_spigots(bench, Reasons([])), Reasons([]))
    if not found:
        feature, text = reasons.first()
        raise BadInput(feature, "", "", text)
    best, other, gap = _choose(found, least)
    return _written(bench, best, other, gap)


def _bar_is_enough(part: Part) -> None:
    """Refuse a close diameter that the bar leaves nothing to turn for."""
    for one in part.outside:
        if not isinstance(one, Diameter) or one.size.low is None or one.size.general:
            continue
        room = part.bar.size - one.size.middle
        if room < 0 or (room < LEAST_CUT and is_fitted(one.size)):
            said = f"its limits end at {short(one.size.most)} mm and the bar is {short(part.bar.size)} mm"
            raise BadInput(one.name, "", "", f"{one.name}: {said}; a larger bar would do.")


_TRIED = 24  # routes put in order, the cheapest by their set-ups and tasks first


def _search(bench: Bench, routes: Iterator[Draft], reasons: Reasons) -> tuple[list[_Ordered], float]:
    """Routes put in order, as long as one can still be better than the best so far; and the least any other takes."""
    many = _pieces(bench.part)
    every = sorted(
        ((draft.least(many, per_piece(bench)), index, draft) for index, draft in enumerate(routes)),
        key=lambda one: one[:2],
    )
    found: list[_Ordered] = []
    known: set[str] = set()
    for least, _, draft in every:
        if found and not _worth(draft, least, found, known):
            if len(found) >= _TRIED:
                return found, least
            continue
        route = checked(draft, reasons)
        if route is None:
            continue
        try:
            base = draft.base(many, per_piece(bench)) + many * _broken_minutes(route)
            found.append(_put_in_order(route, base))
            known.add(draft.words)
        except NoOrder as ring:
            reasons.add(1, "part", f"its steps wait for one another ({len(ring.tasks)} of them).")
    return found, inf


def _worth(draft: Draft, least: float, found: list[_Ordered], known: set[str]) -> bool:
    """Whether a route may still be the best, an equal with fewer grips, or the first that could be the runner-up."""
    if len(found) >= _TRIED:
        return False
    best = min(found, key=lambda one: one.minutes)
    fewer = grips(draft.visits) < grips(best.route.visits) and least <= EQUAL * best.minutes
    return least < best.minutes or fewer or (len(known) == 1 and draft.words not in known)


def _pieces(part: Part) -> float:
    """For how many pieces the time counts: the second and later ones go faster."""
    return 1 + (part.make - 1) * minutes("later").typical


def _broken_minutes(route: Route) -> float:
    """What the order of a route's visits costs by the preferences it breaks, and what mends the rest."""
    seen = {(rule.id, after.about): rule.cost_minutes for rule, _, after in route.broken if not rule.mend}
    mends = {task.about: task.minutes for task in route.tasks if task.kind == "hand_ream"}
    return sum(seen.values()) + sum(mends.values())


def _put_in_order(route: Route, base: float) -> _Ordered:
    orders: list[tuple[Task, ...]] = []
    total = least = changes = 0
    broken = list(route.broken)
    for visit in range(len(route.visits)):
        tasks = _sorted([task for task in route.tasks if task.visit == visit], route)
        problem, rules = problem_of(tasks, route)
        order = best_order(problem)
        orders.append(tuple(tasks[i] for i in order.tasks))
        total += order.cost
        least += order.bound
        changes += _changes(problem, order.tasks)
        place = {task: i for i, task in enumerate(order.tasks)}
        broken += [(rule, tasks[a], tasks[b]) for rule, a, b in rules if not rule.hard and place[a] > place[b]]
    many = _pieces(route.side.part)
    return _Ordered(
        route,
        tuple(orders),
        base + many * total / _HUNDREDTHS,
        base + many * least / _HUNDREDTHS,
        changes,
        tuple(broken),
    )


def _sorted(tasks: list[Task], route: Route) -> list[Task]:
    """In the usual order of kinds, the larger first: what decides between equals."""
    kinds = {kind: i for i, kind in enumerate(vocabulary())}
    return sorted(tasks, key=lambda t: (kinds[t.kind], -t.diameter, t.start, t.about, t.title))


def problem_of(tasks: list[Task], route: Route) -> tuple[Problem, list[tuple[Rule, int, int]]]:
    """The tasks of one visit as a problem for the search, and the rules it is made from."""
    names: dict[str, int] = {}
    fit: list[int] = []
    tools = []
    for task in tasks:
        if task.station in ("none", "bench"):
            tools.append(ANY_TOOL)
            continue
        tool = task.fitted
        if tool not in names:
            names[tool] = len(names)
            fit.append(round(task.fit_minutes * _HUNDREDTHS))
        tools.append(names[tool])
    before = [0] * len(tasks)
    prefer: list[dict[int, int]] = [{} for _ in tasks]
    found = []
    known = rules_between()
    for i, one in enumerate(tasks):
        for j, other in enumerate(tasks):
            if i == j or (one.kind, other.kind) not in known:
                continue
            for rule in holding_between(route.setting, one, other):
                found.append((rule, i, j))
                if rule.hard:
                    before[j] |= 1 << i
                else:
                    cost = round(rule.cost_minutes * _HUNDREDTHS)
                    prefer[j][i] = max(cost, prefer[j].get(i, 0))
    return Problem(tuple(tools), tuple(fit), tuple(before), tuple(tuple(p.items()) for p in prefer)), found


def _changes(problem: Problem, order: tuple[int, ...]) -> int:
    tools = [problem.tools[i] for i in order if problem.tools[i] != ANY_TOOL]
    return sum(1 for i, tool in enumerate(tools) if i == 0 or tools[i - 1] != tool)


def _choose(found: list[_Ordered], other_least: float) -> tuple[_Ordered, _Ordered | None, float]:
    """The best, the runner-up, and how many minutes the best may be from the best there is."""
    quickest = min(one.minutes for one in found)
    equals = [one for one in found if one.minutes <= EQUAL * quickest + 1e-9]
    best = min(equals, key=lambda one: (grips(one.route.visits), one.changes, one.minutes))
    others = [one for one in found if one.route.words != best.route.words]
    other = min(others, key=lambda one: (one.minutes, grips(one.route.visits)), default=None)
    least = min(*(one.bound for one in found), other_least, best.minutes)
    # What was chosen among equals is dearer than the cheapest by choice, not for want of looking.
    return best, other, max(0.0, quickest - least)


def _why_not(best: _Ordered, other: _Ordered) -> str:
    more = other.minutes - best.minutes
    visits = grips(other.route.visits) - grips(best.route.visits)
    parts = []
    if more >= 0.5:
        parts.append(f"{short(more, 0)} minute{'s' if more >= 1.5 else ''} more")
    if visits > 0:
        parts.append(f"{visits} set-up{'s' if visits > 1 else ''} more")
    worst = sorted(
        {rule.id: rule for rule, _, _ in other.broken if rule.cost_minutes >= 2}.values(), key=lambda r: -r.cost_minutes
    )
    ours = {rule.id for rule, _, _ in best.broken}
    if extra := next((rule for rule in worst if rule.id not in ours), None):
        parts.append(extra.why)
    return "; ".join(parts) or "equal in minutes; it changes tools more often"


def _written(bench: Bench, best: _Ordered, other: _Ordered | None, gap: float) -> Plan:
    route, part = best.route, bench.part
    set_ups = tuple(_set_up(bench, route, index, visit) for index, visit in enumerate(route.visits))
    steps = tuple(with_angles(part, list(_steps(bench, best))))
    band = _band(best)
    runner = None
    if other is not None:
        runner = RunnerUp(route=other.route.words, minutes=other.minutes, why_not=_why_not(best, other))
    return Plan(
        part=part, route=route, set_ups=set_ups, steps=steps, minutes=best.minutes, band=band, gap=gap,
        runner_up=runner, broken=tuple(_broken(best)), bench=bench,
    )  # fmt: skip


def _band(best: _Ordered) -> tuple[float, float]:
    """Least and most minutes, by the bands of the single times."""
    tasks = [task for task in best.route.tasks if task.minutes]
    typical = sum(task.minutes for task in tasks) or 1.0
    low = sum(task.band[0] for task in tasks) / typical
    high = sum(task.band[1] for task in tasks) / typical
    return best.minutes * low, best.minutes * high


def _set_up(bench: Bench, route: Route, index: int, visit: Visit) -> SetUp:
    hold = visit.hold
    proofs = list(gates(route, index))
    zero = f"the {visit.reached} face" if visit.reached else ""
    return SetUp(
        machine=visit.machine,
        held_by=hold.held_by,
        grips=hold.grips,
        grip_length=hold.grip_length,
        grip_from=hold.grip_from,
        grip_to=hold.grip_to,
        grip_diameter=hold.grip_diameter,
        between=hold.between,
        stick_out=visit.stick_out,
        support=visit.support,
        turned_round=visit.turned_round,
        reached=visit.reached,
        zero=zero,
        run_out=hold.run_out,
        measured=hold.measured,
        limit=route.limit[index] if index < len(route.limit) else None,
        since=route.since[index] if index < len(route.since) else 0,
        driven_by=hold.driven_by,
        carried=hold.carried,
        gates=tuple(Why(rule=rule.id, text=rule.why, source=rule.source) for rule, _ in proofs),
        gate_words=tuple(words for _, words in proofs),
        minutes=visit.once + visit.each,
    )


def _steps(bench: Bench, best: _Ordered) -> Iterator[Step]:
    """The steps of every round: what is done for a lot or a bar stands in the round that first needs it."""
    part = bench.part
    whys = _reasons_of(best)
    runs = _runs(best.route)
    names: dict[str, int] = {}
    pieces = {round_: Piece(bench) for round_ in range(1, part.make + 1)}
    for run in runs:
        for round_ in range(1, part.make + 1):
            for visit in run:
                for task in best.orders[visit]:
                    if _due(bench, task, round_):
                        held = best.route.visits[visit]
                        step = pieces[round_].met(
                            _step(task, visit, round_, whys), held.reached or best.route.side.first
                        )
                        if nothing_left(step):
                            continue
                        step = _held_so(bench, step, held, supported=is_up(best.orders[visit], task))
                        step = _pushed_back(bench, step, held, pieces[round_])
                        step = _centred(step, best.orders[visit], task)
                        step = replace(step, now=pieces[round_].left())
                        step = _for_the_rest(bench, step)
                        names[step.id] = names.get(step.id, 0) + 1
                        again = names[step.id]
                        yield (step if again == 1 else replace(step, id=f"{step.id[:35]}-{'abcdefgh'[again - 2]}"))


def _runs(route: Route) -> list[list[int]]:
    """Visits that one piece goes through before the next one begins: those joined by a carried chuck."""
    found: list[list[int]] = []
    for index, visit in enumerate(route.visits):
        if found and (visit.name in ("o", "ah", "ab", "bh", "bb")):
            found[-1].append(index)
        else:
            found.append([index])
    return found


def run_of(route: Route) -> list[int]:
    """For every visit the number of the run it belongs to: visits that one piece goes through before the next begins."""
    return [number for number, run in enumerate(_runs(route)) for _ in run]


def _for_the_rest(bench: Bench, step: Step) -> Step:
    """A piece sawn off for the last parts is as long as those need."""
    left = bench.part.make - step.round + 1
    if step.each != "bar" or left >= per_piece(bench):
        return step
    shorter = piece_sawn(bench, left)
    return replace(step, title=shorter.title, do=shorter.do)


def _due(bench: Bench, task: Task, round_: int) -> bool:
    if task.each == "lot":
        return round_ == 1
    return task.each != "bar" or (round_ - 1) % per_piece(bench) == 0


def _step(task: Task, visit: int, round_: int, whys: dict[int, tuple[Why, ...]]) -> Step:
    name = "-".join(filter(None, (task.kind.replace("_", "-"), task.about.replace(".", "-").replace("_", "-"))))
    return Step(
        id=f"{name[:34]}-{round_}" if round_ > 1 else name[:36],
        title=task.title,
        set_up=visit,
        round=round_,
        each=task.each,
        kind=task.kind,
        about=task.about,
        operation=task.operation,
        inputs=task.inputs,
        makes=task.makes,
        why=whys.get(id(task), ()),
        do=task.do,
        count=task.count,
        counts=task.counts,
        measure=task.measure,
        hazards=task.hazards,
        minutes=task.minutes,
        start=task.start,
        stop=task.stop,
        diameter=task.diameter,
        tool=task.fitted,
    )


def is_up(order: Sequence[Task] | Sequence[Step], task: Task | Step) -> bool:
    """Whether what supports the work of a visit is there for one of its jobs: not before it is brought up nor after it went."""
    kinds = [one.kind for one in order]
    if "support" not in kinds:
        return True
    gone = kinds.index("withdraw") if "withdraw" in kinds else len(kinds)
    return kinds.index("support") <= next(i for i, one in enumerate(order) if one is task) < gone


def _held_so(bench: Bench, step: Step, visit: Visit, *, supported: bool) -> Step:
    """What an operation can be told of how the work is held, and the table whose rows are counted."""
    if step.operation not in _TOLD:
        return step
    known = asks(load(step.operation).inputs)
    told = dict(step.inputs)
    if "stick_out" in known and visit.stick_out is not None and visit.machine == "lathe":
        out = _springs(bench, step, visit)
        if out <= _LIMBER * step.diameter:  # beyond, no cut is light enough: it is held up, or turned in short lengths
            told.setdefault("stick_out", bench.said(out))
    if "support" in known and visit.support != "none" and supported:
        told.setdefault("support", "centres" if visit.hold.held_by == "between centres" else "centre")
    return replace(step, inputs=tuple(told.items()), count=step.count or "cuts")


def _centred(step: Step, order: Sequence[Task], task: Task) -> Step:
    """A hole of the lathe starts from the centre that a step before it has drilled in this holding."""
    before = order[: next(i for i, one in enumerate(order) if one is task)]
    if step.kind != "drill" or not any(one.kind in ("centre", "centre2") for one in before):
        return step
    return replace(step, inputs=(*step.inputs, ("start", "centred")))


def _pushed_back(bench: Bench, step: Step, visit: Visit, piece: Piece) -> Step:
    """A long bar is faced and centred with little of it out of the jaws, and pulled out when the centre comes up: where it
    goes through the spindle and nothing is turned on it yet."""
    lathe, bar = bench.shop.lathe, bench.part.bar.corners
    through = lathe is not None and lathe.spindle_bore is not None and bar <= lathe.spindle_bore
    long = visit.support == "centre" and (visit.stick_out or 0.0) > SLENDER * bar
    if not (through and long and visit.machine == "lathe") or piece.left() or visit.hold.held_by == "between centres":
        return step
    if step.kind == "support":
        pulled = f"Pull the work out until {bench.shown(visit.stick_out or 0.0)} stands out, then the centre."
        return replace(step, do=(pulled, *step.do))
    if step.kind not in ("face", "face2", "centre", "centre2"):
        return step
    given = dict(step.inputs)
    if "stick_out" in given:
        given["stick_out"] = bench.said(_PUSHED_BACK)
    words = (f"Pushed back into the spindle: only {bench.shown(_PUSHED_BACK)} stands out for this.",)
    faced = step.kind in ("face", "face2")
    return replace(step, inputs=tuple(given.items()), out=_PUSHED_BACK, do=words if faced else step.do)


def _springs(bench: Bench, step: Step, visit: Visit) -> float:
    """The length that springs from the tool: from the free end to the jaws, or to where it is half as thick again."""
    outside = bench.part.outside if visit.reached == "front" else bench.part.outside[::-1]
    place = next((i for i, one in enumerate(outside) if one.name == step.about), None)
    whole = visit.stick_out or 0.0
    if place is None:
        return whole
    stiff = next((i for i, one in enumerate(outside) if i > place and one.smallest > _STIFF * step.diameter), None)
    return whole if stiff is None else min(whole, sum(one.long for one in outside[:stiff]))


def _reasons_of(best: _Ordered) -> dict[int, tuple[Why, ...]]:
    """For every task the rules that put it where it stands, each once: what it waited for, what it breaks, and where
    neither is, what waits for it."""
    flat = [task for order in best.orders for task in order]
    setting = best.route.setting
    found: dict[int, tuple[Why, ...]] = {}
    for i, task in enumerate(flat):
        rules: dict[str, Why] = {}
        for other in flat[:i]:
            for rule in holding_between(setting, other, task):
                rules.setdefault(rule.id, _why(rule, other, task))
        for other in flat[i + 1 :]:
            for rule in holding_between(setting, other, task):
                rules.setdefault(rule.id, _why(rule, other, task, broken=True))
        for other in flat[i + 1 :] if not rules else ():
            for rule in holding_between(setting, task, other):
                rules.setdefault(rule.id, _why(rule, task, other))
        found[id(task)] = (*rules.values(), *_truths(best.route.side.part, task))
    return found


def _why(rule: Rule, first: Task, second: Task, *, broken: bool = False) -> Why:
    alike = first.kind == second.kind
    text = f"{first.title} before {second.title}: {rule.why}" if alike else rule.text(first.kind, second.kind)
    if broken:
        text = f"against {text}" + (f"; mended by {vocabulary()[rule.mend].words}" if rule.mend else "")
    return Why(rule=rule.id, text=text, source=rule.source, broken=broken)


def _truths(part: Part, task: Task) -> Iterator[Why]:
    """What must run true to what this task makes."""
    for truth in part.truths:
        if {truth.feature, truth.to} & set(task.makes):
            text = f"{truth.feature} runs true to {truth.to} within {short(truth.within, 3)} mm"
            yield Why(rule="truth", text=text, source=truth.why or "the drawing")


def _broken(best: _Ordered) -> Iterator[Why]:
    seen = set()
    for rule, before, after in best.broken:
        if rule.id not in seen:
            seen.add(rule.id)
            yield Why(rule=rule.id, text=rule.text(before.kind, after.kind), source=rule.source, broken=True)
