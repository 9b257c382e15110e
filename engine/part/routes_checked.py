"""Truth and hard rules of a route, and what has to be proved before a setting is broken."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from engine.base.records import replace
from engine.part import tasks_ends
from engine.part.checks import is_fitted
from engine.part.part import Diameter, Hole, Truth
from engine.part.routes_making import Draft, Making, Reasons, Route, Visit, held_in
from engine.part.rules import Rule, rules_between, rules_by_id
from engine.part.rules_conditions import Setting, holding_between
from engine.part.tasks import Bench, Task
from engine.part.words import spoken_of


def nothing_to_hold(plan: Making, reasons: Reasons) -> None:
    """Keep it as the reason that nothing is left to hold the piece by."""
    would = "a longer plain length" if plan.bench.shop.mill else "a mill (the shop has none)"
    said = f"nothing is left to hold the piece by for the work off its axis; {would} would do."
    reasons.add(3, plan.side.order[0].name, said)


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
        necks=plan.necks, limit=tuple(limits[0]), since=tuple(limits[1]),
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
            f"Pass the {bench.shown(task.bore)} reamer through by hand" if reamed else "Take the burr out of the bore"
        )
        words = (
            "Only forwards, oiled: it takes off the burr and nothing else." if reamed else "A scraper, and feel for it."
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


def _true(
    plan: Making, visits: list[Visit], tasks: list[Task], reasons: Reasons
) -> tuple[list[float | None], list[int]] | None:
    """The truth asked of each visit, and the visit that it counts from; None where two features cannot be as true as asked."""
    limits: list[float | None] = [None] * len(visits)
    since = [0] * len(visits)
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
            within = f"it has to run true to {truth.to} within {plan.bench.shown(truth.within)}"
            how = f"{held_in(visits[high].hold)} gives {plan.bench.shown(apart)}"
            if apart <= truth.within + 1e-9:
                how += ", which is too near for sizes of IT8 and finer"
            what = "a wider `within`, an arbor or both from one end would do"
            reasons.add(5, truth.feature, f"{within} and would be cut at another setting: {how}; {what}.")
            return None
        closest = limits[high]
        if closest is None or truth.within < closest:
            limits[high], since[high] = truth.within, low
    return limits, since


def _both_fine(plan: Making, truth: Truth) -> bool:
    pair = [plan.bench.part.feature(name) for name in (truth.feature, truth.to)]
    return all(isinstance(one, Diameter | Hole) and is_fitted(one.size) for one in pair)


def _visit_of(plan: Making, tasks: list[Task], name: str, second: int) -> int | None:
    if name in ("front", "back"):
        return 0 if name == plan.side.first else second
    return next((task.visit for task in tasks if name in task.makes and task.kind != "face"), None)


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
    features = route.setting.bench.features
    mated = {t.kind for t in kinds.values() if t.about in features and features[t.about].mate is not None}
    for kind, rule, say in words:
        if kind in kinds and kind not in mated:
            yield known[rule], say(kinds[kind])
    for task in (task for task in route.tasks if task.visit == visit):
        for name in task.makes:
            mate = features[name].mate if name in features else None
            if mate is not None and route.visits[visit].machine != "bench":
                aim = f" ({mate.aim})" if mate.aim else ""
                yield (
                    known["R105"],
                    f"{spoken_of(route.side.part, name)} has been tried with its mate, {mate.part.removesuffix('.toml')}{aim}",
                )
