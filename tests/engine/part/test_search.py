"""The order of tasks: proved against every order there is, and never better than it says."""

from __future__ import annotations

from itertools import permutations
from random import Random

import pytest

from engine.part.search import ANY_TOOL, NoOrder, Problem, best_order, cost_of
from tests.rows import each_row


def _problem(seed: int, tasks: int, rules: float = 1.6) -> Problem:
    """A random problem: a hidden order keeps the hard rules free of rings, preferences may fight."""
    dice = Random(seed)
    hidden = dice.sample(range(tasks), tasks)
    tools = tuple(dice.randrange(-1, max(2, tasks // 2)) for _ in range(tasks))
    before, prefer = [0] * tasks, [list[tuple[int, int]]() for _ in range(tasks)]
    for _ in range(int(rules * tasks)):
        first, last = sorted(dice.sample(range(tasks), 2))
        if dice.random() < 0.6:
            before[hidden[last]] |= 1 << hidden[first]
        else:
            pair = (hidden[first], hidden[last])
            one, other = pair if dice.random() < 0.7 else pair[::-1]
            prefer[other].append((one, dice.randrange(30, 300)))
    fit = tuple(dice.randrange(30, 200) for _ in range(max(2, tasks // 2)))
    return Problem(tools, fit, tuple(before), tuple(tuple(dict(p).items()) for p in prefer))


def _plain(problem: Problem) -> int:
    """The cost of the best of all orders, each tried."""
    costs = []
    for order in permutations(range(len(problem.tools))):
        try:
            costs.append(cost_of(problem, order))
        except NoOrder:
            continue
    return min(costs)


def _by_sets(problem: Problem) -> int:
    """The cost of the best order, by plain dynamic programming over sets of tasks: no bound, no dominance."""
    full = (1 << len(problem.tools)) - 1
    best = {(0, -2): 0}
    for done in range(full + 1):
        for tool in range(-2, len(problem.fit)):
            cost = best.get((done, tool))
            if cost is None:
                continue
            for task in range(len(problem.tools)):
                if done >> task & 1 or problem.before[task] & ~done:
                    continue
                hand = problem.tools[task] if problem.tools[task] != ANY_TOOL else tool
                price = cost + (problem.fit[hand] if hand != tool else 0)
                price += sum(p for other, p in problem.prefer[task] if not done >> other & 1)
                key = (done | 1 << task, hand)
                best[key] = min(price, best.get(key, price))
    return min(cost for (done, _), cost in best.items() if done == full)


@each_row("seed", range(30))
def test_the_best_of_all_orders_is_found_up_to_seven_tasks(seed: int) -> None:
    problem = _problem(seed, 4 + seed % 4)
    found = best_order(problem)
    assert found.cost == cost_of(problem, found.tasks) == _plain(problem) == found.bound


@each_row("seed", range(40))
def test_the_best_order_of_ten_tasks_is_found(seed: int) -> None:
    problem = _problem(1000 + seed, 10)
    found = best_order(problem)
    assert found.cost == cost_of(problem, found.tasks) == _by_sets(problem) == found.bound


@each_row("seed", range(12))
def test_with_few_states_the_gap_is_told_and_the_bound_is_never_too_high(seed: int) -> None:
    problem = _problem(2000 + seed, 11, rules=2.5)
    best = _by_sets(problem)
    found = best_order(problem, states=12)
    assert found.bound <= best <= found.cost == cost_of(problem, found.tasks)
    assert sorted(found.tasks) == list(range(11))


def test_tasks_that_wait_for_one_another_are_refused() -> None:
    with pytest.raises(NoOrder):
        best_order(Problem((0, 0), (30,), (2, 1), ((), ())))


def test_nothing_to_do_costs_nothing() -> None:
    assert best_order(Problem((), (), (), ())).cost == 0


def test_the_same_problem_gives_the_same_order() -> None:
    problem = _problem(7, 24, rules=2.0)
    assert best_order(problem) == best_order(problem)
