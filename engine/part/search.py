"""The order of the tasks of one visit to a machine: exact where it can be, and honest about the gap where not.

A state is the set of tasks done (an int, one bit a task) and the tool in hand; costs are whole hundredths of a minute,
so that equal plans compare equal. Three things keep the number of states small: a task that the tool in hand can do
and that breaks nothing is done at once; when the tool in hand has no more to do, a tool whose whole work lies open is
taken next; and a bound counts how often each tool must still be fitted along the hard order. The states opened are
limited by number and not by the clock, so that the same part gives the same plan on every machine.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator

from engine.base.records import dataclass

ANY_TOOL = -1  # a task that leaves the tool in hand where it is: a clock read, an edge touched with a file
_EMPTY_HAND = -2
WEIGHTS = (3.0, 1.5, 1.2, 1.0)  # how much the bound is trusted, one try after the other; 1 proves the best
STATES = 4000  # opened in all for one visit


@dataclass(frozen=True, slots=True)
class Problem:
    """Tasks to be put in order.

    `tools` is the tool of each task (or ANY_TOOL), `fit` what fitting each tool costs, `before` the tasks (as
    bits) that a task waits for, `prefer` those that had better be done before it, with the cost when they are not.
    """

    tools: tuple[int, ...]
    fit: tuple[int, ...]
    before: tuple[int, ...]
    prefer: tuple[tuple[tuple[int, int], ...], ...]


@dataclass(frozen=True, slots=True)
class Order:
    """An order of the tasks, what it costs, and the least that any order can cost."""

    tasks: tuple[int, ...]
    cost: int
    bound: int


class NoOrder(ValueError):
    """Tasks that wait for one another in a ring; `tasks` are those left over."""

    def __init__(self, tasks: tuple[int, ...]) -> None:
        self.tasks = tasks
        super().__init__("these tasks wait for one another")


def cost_of(problem: Problem, order: tuple[int, ...]) -> int:
    """What an order costs: tools fitted and preferences broken. Raises NoOrder where it breaks a hard rule.

    >>> cost_of(Problem((0, 1, 0), (30, 50), (0, 0, 0), ((), (), ((1, 200),))), (0, 2, 1))
    280
    """
    done, tool, cost = 0, _EMPTY_HAND, 0
    for task in order:
        if problem.before[task] & ~done:
            raise NoOrder((task,))
        if problem.tools[task] not in (tool, ANY_TOOL):
            tool = problem.tools[task]
            cost += problem.fit[tool]
        cost += sum(price for other, price in problem.prefer[task] if not done >> other & 1)
        done |= 1 << task
    return cost


def best_order(problem: Problem, states: int = STATES) -> Order:
    """The cheapest order that can be found by opening so many states, and the least any order can cost.

    Two cuts of one tool, a drill between them only if that costs less than fitting the tool again.

    >>> tools, fit = (0, 1, 0), (30, 50)
    >>> best_order(Problem(tools, fit, (0, 1, 1), ((), (), ((1, 20),))))
    Order(tasks=(0, 2, 1), cost=100, bound=100)
    >>> best_order(Problem(tools, fit, (0, 1, 1), ((), (), ((1, 200),)))).tasks
    (0, 1, 2)
    """
    if not problem.tools:
        return Order((), 0, 0)
    search = _Search(problem)
    best: tuple[int, tuple[int, ...]] | None = None
    bound, left = 0, states
    for weight in WEIGHTS:
        cost, order, opened = search.run(weight, left if best else None)
        left -= opened
        if order is not None and (best is None or cost < best[0]):
            best = cost, order
        # A finished try is at most `weight` times the best; one broken off at weight 1 has proved its last bound.
        bound = max(bound, cost if weight == 1 else int(cost / weight) if order is not None else 0)
        if best is not None and (best[0] <= bound or left <= 0):
            break
    assert best is not None
    return Order(best[1], best[0], min(bound, best[0]))


_State = tuple[int, int]


class _Search:
    """A* over the states of one problem, with its tables made once for all weights."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.full = (1 << len(problem.tools)) - 1
        self.wanted = tuple(sum(1 << other for other, _ in pairs) for pairs in problem.prefer)
        self.work: dict[int, int] = {}
        for task, tool in enumerate(problem.tools):
            self.work[tool] = self.work.get(tool, 0) | 1 << task
        self.any_tool = self.work.pop(ANY_TOOL, 0)
        self.levels = self._levels()

    def _levels(self) -> dict[int, tuple[list[tuple[int, int]], list[tuple[int, int]]]]:
        """For each tool: how often it must still be fitted while certain tasks are left (in hand, or not)."""
        problem, order = self.problem, self._topological()
        after: list[list[int]] = [[] for _ in problem.tools]
        for task, mask in enumerate(problem.before):
            for earlier in _bits(mask):
                after[earlier].append(task)
        found = {}
        for tool, price in ((t, problem.fit[t]) for t in self.work):
            runs = [0] * len(problem.tools)
            for task in reversed(order):
                mine = problem.tools[task] in (tool, ANY_TOOL)
                runs[task] = max((runs[n] + (not mine and problem.tools[n] == tool) for n in after[task]), default=0)
            other: dict[int, int] = {}
            held: dict[int, int] = {}
            for task, count in enumerate(runs):
                _add(other, (count + (problem.tools[task] == tool)) * price, task)
                _add(held, count * price, task)
            found[tool] = sorted(other.items(), reverse=True), sorted(held.items(), reverse=True)
        return found

    def _topological(self) -> list[int]:
        done, order = 0, list[int]()
        while done != self.full:
            ready = [t for t in _bits(self.full & ~done) if not self.problem.before[t] & ~done]
            if not ready:
                raise NoOrder(tuple(_bits(self.full & ~done)))
            order += ready
            done |= sum(1 << t for t in ready)
        return order

    def _bound(self, done: int, tool: int) -> int:
        rest, total = self.full & ~done, 0
        for each, (other, held) in self.levels.items():
            for price, mask in held if each == tool else other:
                if mask & rest:
                    total += price
                    break
        return total

    def _free(self, done: int, among: int) -> tuple[int, list[int]]:
        """Do every task among these that breaks nothing, until none is left that can be done."""
        before, wanted, sequence = self.problem.before, self.wanted, list[int]()
        again = True
        while again:
            again = False
            for task in _bits(among & ~done):
                if not (before[task] | wanted[task]) & ~done:
                    done |= 1 << task
                    sequence.append(task)
                    again = True
        return done, sequence

    def _close(self, done: int, tool: int) -> tuple[int, list[int], int, int]:
        """All moves that no better order can leave out: state, tasks done on the way, tool in hand, cost."""
        cost = 0
        done, sequence = self._free(done, self.work.get(tool, 0) | self.any_tool)
        while True:
            rest = self.full & ~done
            if not rest or self.work.get(tool, 0) & rest:
                return done, sequence, tool, cost
            for other, mask in self.work.items():
                if mask & rest:
                    after, more = self._free(done, mask | self.any_tool)
                    if not mask & ~after:
                        done, tool = after, other
                        sequence += more
                        cost += self.problem.fit[other]
                        break
            else:
                return done, sequence, tool, cost

    def run(self, weight: float, states: int | None) -> tuple[int, tuple[int, ...] | None, int]:
        """One try: its cost and order, or the bound it had proved when the states ran out; and how many it opened."""
        problem, fit = self.problem, self.problem.fit
        start: _State = (0, _EMPTY_HAND)
        best: dict[_State, int] = {start: 0}
        came: dict[_State, tuple[_State, list[int]]] = {}
        closed: set[_State] = set()
        heap: list[tuple[float, int, int, _State]] = [(0, 0, 0, start)]
        while heap:
            value, _, cost, state = heapq.heappop(heap)
            if state in closed:
                continue
            closed.add(state)
            done, tool = state
            if done == self.full:
                return cost, _path(came, state), len(closed)
            if states is not None and len(closed) > states:
                return int(value) if weight == 1 else 0, None, len(closed)
            for task in _bits(self.full & ~done):
                if problem.before[task] & ~done:
                    continue
                wanted = problem.tools[task]
                taken = tool if wanted == ANY_TOOL else wanted
                price = cost + (fit[taken] if taken != tool else 0)
                if self.wanted[task] & ~done:
                    price += sum(p for other, p in problem.prefer[task] if not done >> other & 1)
                after, more, hand, paid = self._close(done | 1 << task, taken)
                price += paid
                reached = (after, hand)
                if price < best.get(reached, price + 1):
                    best[reached] = price
                    came[reached] = state, [task, *more]
                    value = price + weight * self._bound(after, hand)
                    heapq.heappush(heap, (value, -after.bit_count(), price, reached))
        raise NoOrder(tuple(range(len(problem.tools))))


def _bits(mask: int) -> Iterator[int]:
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def _add(levels: dict[int, int], price: int, task: int) -> None:
    if price:
        levels[price] = levels.get(price, 0) | 1 << task


def _path(came: dict[_State, tuple[_State, list[int]]], state: _State) -> tuple[int, ...]:
    found: list[int] = []
    while state in came:
        state, sequence = came[state]
        found = sequence + found
    return tuple(found)
