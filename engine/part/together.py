"""Several different parts from one bar, planned together.

Each has its own plan; here they share what they can. All of them come off one sawn piece where it is not too long, one
stub, collet or arbor does for those it fits, and the dividing head is bolted down once. What is fitted to another part
of the file is made after it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from engine.base.records import dataclass, replace
from engine.part.needs import Need, needs, stock_need, stock_together
from engine.part.part import Inside, Part
from engine.part.plan import Plan, plan, run_of
from engine.part.routes_turning import joint_piece
from engine.part.rules import minutes
from engine.part.steps import SetUp, Step
from engine.shop.model import Shop

_KEPT = ("threaded stub", "threaded bush", "arbor", "collet")  # holdings that one part leaves ready for another
_SCREWED = ("threaded stub", "threaded bush")


@dataclass(frozen=True, slots=True)
class _Block:
    """Steps of one part that are done without another part between them. `number` is the part's, from 0."""

    number: int
    steps: tuple[Step, ...]
    set_up: SetUp
    key: tuple[object, ...]


def plan_all(parts: Sequence[Part], shop: Shop) -> tuple[Plan, ...]:
    """The plans of a file's parts, in its order, with what they share taken once; BadInput where one has no plan.

    >>> from engine.part.library import read_shipped
    >>> from engine.shop.file import sample
    >>> parts = [read_shipped(name)[0].part for name in ("height-adjuster-nut", "lock-nut")]
    >>> nut, lock = plan_all(parts, sample("metric"))
    >>> [step.title for step in lock.steps if step.kind in ("saw", "stub")]
    ['Face the stub down to 4.5']
    """
    found = [plan(part, shop) for part in parts]
    if len(found) > 1:
        _saw_once(found)
        _hold_once(found)
        _try_what_is_there(found)
    return tuple(found)


def in_order(plans: Sequence[Plan]) -> list[tuple[int, Step]]:
    """The steps of all parts in the order they are done, each with the number of its part."""
    if len(plans) == 1:
        return [(0, step) for step in plans[0].steps]
    return [(block.number, step) for block in _blocks(plans) for step in block.steps]


def needs_together(plans: Sequence[Plan]) -> tuple[Need, ...]:
    """What all of them need, each thing once; the stock is of one bar where they come from one."""
    if len(plans) == 1:
        return needs(plans[0])
    found: dict[str, Need] = {}
    alike = len({(one.part.material, one.part.bar.written, one.route.free) for one in plans}) == 1
    joint = alike and plans[0].route.free == "bar" and plans[0].part.bar.blank is None
    stock = (
        [stock_need(plans[0], stock_together(plans))] if joint else [need for one in plans for need in needs(one)[:1]]
    )
    shared = {what for one in plans for what in _made_before(plans, one)}
    for need in (*stock, *(need for one in plans for need in needs(one)[1:] if need.what not in shared)):
        found.setdefault(need.what, need)
    return tuple(found.values())


# What they share


def _saw_once(plans: list[Plan]) -> None:
    """One sawn piece for all, where they come from one bar and it does not stand out too far."""
    first = plans[_by_mates(plans)[0]]
    sawn = [one for one in plans if any(step.kind == "saw" and step.each == "bar" for step in one.steps)]
    alike = len({(one.part.material, one.part.bar.written) for one in plans}) == 1
    piece = joint_piece([one.bench for one in plans])
    if len(sawn) < len(plans) or not alike or piece is None:
        return
    for i, one in enumerate(plans):
        steps = [step for step in one.steps if not (step.kind == "saw" and (one is not first or step.round > 1))]
        steps = [replace(step, title=piece.title, do=piece.do) if step.kind == "saw" else step for step in steps]
        plans[i] = _sooner(replace(one, steps=tuple(steps)), 0.0 if one is first else piece.minutes)


def _hold_once(plans: list[Plan]) -> None:
    """A stub or an arbor that is there from another part is only shortened; a head stands bolted down."""
    ready: dict[tuple[object, ...], SetUp] = {}
    head = False
    for block in _blocks(plans):
        one = plans[block.number]
        if block.key in ready and block.set_up.held_by in _KEPT:
            once = one.route.visits[block.steps[0].set_up].once
            steps = tuple(_kept(one, step, ready[block.key], block.set_up) for step in one.steps)
            one = _sooner(replace(one, steps=tuple(filter(None, steps))), once)
        ready[block.key] = block.set_up
        divided = any(visit.name in ("ah", "bh", "qh") for visit in one.route.visits)
        if divided and head and block.steps[0].id == one.steps[0].id:
            one = _sooner(one, minutes("head").typical)
        head = head or divided
        plans[block.number] = one


def _sooner(one: Plan, saved: float) -> Plan:
    """The plan with so many minutes less; its band shrinks with it."""
    share = (one.minutes - saved) / one.minutes
    return replace(one, minutes=one.minutes - saved, band=(one.band[0] * share, one.band[1] * share))


def _kept(one: Plan, step: Step, there: SetUp, wanted: SetUp) -> Step | None:
    """The step that makes a holding which is there already: a longer stub is shortened, else nothing is done."""
    if step.kind != "stub":
        return step
    if there.grip_length <= wanted.grip_length + 1e-6:
        return None
    name = there.held_by.rsplit(maxsplit=1)[-1]
    words = ("It stays in the chuck, not let go since it was made: it has to end inside the work.",)
    short = one.bench.shown(wanted.grip_length)
    title = f"Face the {name} down to {short}"
    return replace(step, title=title, operation=None, inputs=(), do=words, count="", measure=(), minutes=1.0)


def _made_before(plans: Sequence[Plan], one: Plan) -> Iterator[str]:
    """What a plan lays out for a holding that another part has left ready."""
    if all(step.operation for step in one.steps if step.kind == "stub") and len(plans) > 1:
        return
    for visit in one.route.visits:
        if visit.hold.held_by in _KEPT:
            yield from (what for what, _, _ in visit.hold.needs)
    yield from (
        f"a piece of mild steel for it: {s.title[0].lower()}{s.title[1:]}" for s in one.steps if s.kind == "stub"
    )


def _try_what_is_there(plans: list[Plan]) -> None:
    """Nothing is tried with a part of the file that is made later."""
    order = _by_mates(plans)
    for place, number in enumerate(order):
        later = {_slug(plans[other].part.title) for other in order[place + 1 :]}
        mates = {one.mate.part for one in plans[number].part.features() if one.mate and _slug(one.mate.part) in later}
        said = tuple(f"its mate, {name.removesuffix('.toml')}" for name in mates)
        set_ups = tuple(
            replace(one, gate_words=tuple(words for words in one.gate_words if not any(name in words for name in said)))
            for one in plans[number].set_ups
        )
        plans[number] = replace(plans[number], set_ups=set_ups)


# Their order


def _by_mates(plans: Sequence[Plan]) -> list[int]:
    """The numbers of the parts, one that is fitted to another behind it; of two fitted to each other the nut first."""
    names = {_slug(one.part.title): i for i, one in enumerate(plans)}
    waits: dict[int, set[int]] = {i: set() for i in range(len(plans))}
    inner: dict[int, set[int]] = {i: set() for i in range(len(plans))}  # what it is fitted to with its inside
    for i, one in enumerate(plans):
        for feature in one.part.features():
            other = names.get(_slug(feature.mate.part)) if feature.mate is not None else None
            if other is not None and other != i:
                waits[i].add(other)
                inner[i] |= {other} if isinstance(feature, Inside) else set()
    for i, others in waits.items():
        others -= {other for other in others if i in waits[other] and other in inner[i]}
    found: list[int] = []
    while len(found) < len(plans):
        left = [i for i in waits if i not in found]
        found.append(next((i for i in left if not waits[i] - set(found)), left[0]))
    return found


def _slug(title: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", title.lower().removesuffix(".toml")).strip("-")


def _blocks(plans: Sequence[Plan]) -> list[_Block]:
    """First what comes off the bar, part by part; then the other holdings, those alike together; the bench at the end."""
    order = _by_mates(plans)
    left = {number: _blocks_of(plans[number], number) for number in order}
    found = [left[number].pop(0) for number in order if left[number]]
    while any(left.values()):
        ready = [left[number][0] for number in order if left[number] and not _closes(left[number])]
        if not ready:
            return [*found, *(block for number in order for block in left[number])]
        alike = sorted((b for b in ready if b.key == ready[0].key), key=lambda b: -b.set_up.grip_length)
        found += [left[block.number].pop(0) for block in alike]
    return found


def _closes(left: Sequence[_Block]) -> bool:
    """Whether a part has only bench work left."""
    return all(block.set_up.machine == "bench" for block in left)


def _blocks_of(one: Plan, number: int) -> list[_Block]:
    found: list[list[Step]] = []
    runs = run_of(one.route)
    for step in one.steps:
        if not found or runs[found[-1][-1].set_up] != runs[step.set_up]:
            found.append([])
        found[-1].append(step)
    return [_block(one, number, steps) for steps in found]


def _block(one: Plan, number: int, steps: Sequence[Step]) -> _Block:
    set_up = one.set_ups[steps[0].set_up]
    key: tuple[object, ...] = (number, steps[0].id)
    if set_up.held_by in _SCREWED:
        key = (set_up.held_by, str(getattr(one.part.feature(set_up.grips), "size", "")))
    elif set_up.held_by in _KEPT and not set_up.carried:
        key = (set_up.held_by, round(set_up.grip_diameter, 3))
    return _Block(number, tuple(steps), set_up, key)
