"""What a new grip and the bench add: seats, clocks, stubs, burrs, heat, finish, measuring."""

from __future__ import annotations

from collections.abc import Iterator

from engine.part import tasks_ends, tasks_inside, tasks_outside
from engine.part.part import AsBought, End, Inside, Outside, OutsideThread, Truth
from engine.part.routes_holding import Hold
from engine.part.routes_making import Making, hole_key
from engine.part.routes_spigot import SPIGOT
from engine.part.tasks import Bench, Task

_HOLDERS = ("collet", "stub", "bush", "arbor")  # what is wiped with the work; else the jaws are


def move_to(plan: Making, kinds: tuple[str, ...], to: str) -> None:
    """Do all tasks of these kinds in this visit."""
    plan.tasks[:] = [(to if task.kind in kinds else visit, task) for visit, task in plan.tasks]


def put_closing(plan: Making, second: Hold) -> None:
    """Seats and clocks of a new grip, the bench, and what mends what."""
    bench, side = plan.bench, plan.side
    gripped = {"bar": "the piece", SPIGOT: "the spigot"}.get(second.grips) or bench.spoken(second.grips)
    if second.held_by == "hand":
        bench_work(plan)
        return
    holder = next((word for word in _HOLDERS if word in second.held_by), "jaws")
    plan.put("b", tasks_ends.seat(f"{gripped} and off the face beside it", side.second, holder))
    limit = _limit_between(plan)
    if second.held_by not in ("threaded stub", "threaded bush", "arbor"):
        held = bench.features.get(second.grips)
        flat = isinstance(held, AsBought) and held.section != "round"
        plan.put("b", tasks_ends.set_true(bench, gripped, limit, side.second, flat=flat))
    if second.stub:
        plan.put("b", _stub_task(bench, second))
    bench_work(plan)


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
        kinds["op"] = ("turning-speed", {"diameter": bench.said(second.grip_diameter), "material": "mild steel"})
    operation, inputs = operation_of(kinds["op"])
    words = {"threaded stub": "Turn and thread the stub", "threaded bush": "Tap the bush", "arbor": "Turn the arbor"}
    screwed = second.held_by == "threaded stub"
    return Task(
        kind="stub",
        about=second.grips,
        title=words[second.held_by],
        operation=operation,
        inputs=inputs,
        do=(*(_before_the_stub(bench, str(size), dict(inputs)) if screwed else ()), second.stub),
        count="passes" if screwed else "",
        measure=("the thread: the work goes on by the fingers, home on the shoulder",) if screwed else (),
        hazards=("stud", "turning", "chuck"),
        each="lot",
    )


def _before_the_stub(bench: Bench, size: str, inputs: dict[str, str]) -> Iterator[str]:
    """What the stub is turned to and the wheels that cut its thread, as far as the shop's lathe tells them."""
    blank = bench.number("screwcutting", inputs, "blank")
    if blank is not None:
        yield f"Turn the blank to {bench.shown(blank)} for {size}."
    train = bench.answer("change-gears", {"size": size})
    if train:
        yield f"Change wheels for {size}: {train['drivers']} driving, {train['driven']} driven."


def _limit_between(plan: Making) -> float | None:
    """The closest truth between what the first and what the second setting make."""
    limits = [
        t.within for t in plan.bench.part.truths
        if not (t.face and t.feature.startswith("outside")) and _apart(plan, t)
    ]  # fmt: skip
    return min(limits, default=None)


def _apart(plan: Making, truth: Truth) -> bool:
    homes = [_maker(plan, name) for name in (truth.feature, truth.to)]
    return None not in homes and homes[0] != homes[1]


def _maker(plan: Making, name: str) -> str | None:
    """The visit that makes a feature (or an end face)."""
    if name in ("front", "back"):
        return "a" if name == plan.side.first else "b"
    raw = next((o for o in plan.side.order if o.name == name and isinstance(o, AsBought)), None)
    if raw is not None:
        return None
    return next((visit for visit, task in plan.tasks if name in task.makes), None)


def bench_work(plan: Making) -> None:
    """Put what the bench does to the plan: keyways, burrs, heat, finish, measuring."""
    bench, part = plan.bench, plan.bench.part
    lined = any(v == "bh" and t.kind == "lines" for v, t in plan.tasks)
    for one in part.inside:
        broach = tasks_inside.broached(bench, one, plan.side.first, hole_key(plan, one.end))
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


def _finishes(plan: Making) -> Iterator[tuple[str, str]]:
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
