"""Limits that the shop can hardly hold are told in the plan, by the budget of the same diameter."""

import pytest

from engine.accuracy.budget import expanded
from engine.accuracy.budgets import diameter_turned
from engine.part.file import read
from engine.part.plan import plan
from engine.part.plan_json import as_json
from engine.part.plan_text import as_text
from engine.part.tight import tight
from engine.shop.file import sample

METRIC = sample("metric")
HEAD = 'part_version = 1\ntitle = "Pin"\nunit = "mm"\nmaterial = "mild steel"\nbar = "16"\n'


def pin(size):
    one = f'[[outside]]\nis = "diameter"\nlength = "20"\nsize = {size}'
    return read(HEAD + one).part


@pytest.mark.parametrize(
    ("share", "state"), [(0.99, "cannot be held"), (1.01, "hardly held"), (1.99, "hardly held"), (2.01, None)]
)
def test_a_limit_closer_than_the_shop_holds_is_told(share, state):
    """The band of the budget is all that is allowed at 1, half of it at 2 (common practice, no source)."""
    good = expanded(diameter_turned(12.0, 20.0, METRIC))
    found = tight(pin(f'"{12 - share * good:.6f}..{12 + share * good:.6f}"'), METRIC)
    assert [one.state for one in found] == ([state] if state else [])
    assert all(one.good_to == pytest.approx(good, rel=1e-3) for one in found)


def test_a_size_without_limits_of_its_own_is_not_judged():
    assert tight(pin('"12"'), METRIC) == ()


def test_the_plan_says_it_in_words_and_as_data():
    made = plan(pin('"12 h6"'), METRIC)
    (line,) = [line for line in as_text([made]) if "cannot be held here" in line]
    assert "Allowed ±0.006 mm" in line or "Allowed ±0.005 mm" in line
    (hard,) = as_json(made)["hard_to_hold"]
    assert hard["feature"] == made.part.outside[0].name
    assert hard["allowed"] == pytest.approx(0.0055, abs=1e-4)  # h6 at 12 mm is 11 µm: ISO 286-1
    assert "dial" in hard["most_from"]
