"""The rules of order as data: their names exist, their text follows from their columns, and each has work to do."""

from __future__ import annotations

import pytest

from engine.part.file import read_file
from engine.part.plan import plan
from engine.part.routes_checked import gates
from engine.part.rules import LET_GO, holding_fact, minutes, rules, rules_by_id, vocabulary
from engine.part.rules_conditions import CONDITIONS, holding_between
from engine.shop.file import sample
from tests.engine.part.scenario import FOURTEEN, RULES
from tests.rows import each_row

KINDS = vocabulary()


@each_row("rule", rules(), ids=lambda rule: rule.id)
def test_a_rules_names_exist(rule):
    assert set(rule.before) | set(rule.after) <= set(KINDS)
    assert set(rule.when) | set(rule.unless) <= set(CONDITIONS)
    assert rule.mend in {"", *KINDS}


@each_row("rule", rules(), ids=lambda rule: rule.id)
def test_a_hard_rule_has_no_price_and_a_preference_has_one(rule):
    assert (rule.cost_minutes == 0) == rule.hard
    assert not (rule.hard and rule.mend)
    assert rule.why and rule.basis and rule.source


@each_row("rule", rules(), ids=lambda rule: rule.id)
def test_a_rules_text_says_what_its_columns_say(rule):
    """What comes before stands before what comes after, and no exception hides in the prose: it is a condition."""
    for before in rule.before:
        for after in rule.after:
            text = rule.text(before, after)
            assert text.startswith(KINDS[before].words)
            if after != LET_GO:
                assert text.index(f" before {KINDS[after].words}: ") == len(KINDS[before].words)
    assert not {"unless", "except", "otherwise"} & set(rule.why.replace(",", " ").split())


def test_the_ids_are_told_apart():
    assert len(rules_by_id()) == len(rules())


def test_the_centre_is_withdrawn_before_parting():
    """US War Department TM 1-420 (1940) par. 32-33: never part right through work that is held by a centre."""
    rule = rules_by_id()["R010"]
    assert rule.before == ("withdraw",) and "part_off" in rule.after and rule.hard


@pytest.mark.parametrize("name", ["R045", "R072"])
def test_a_grip_other_than_the_bar_is_allowed_at_a_price(name):
    assert not rules_by_id()[name].hard


def test_every_rule_has_a_part_that_it_is_about():
    fired = set()
    for path in (*FOURTEEN, *RULES):
        for part in read_file(path)[0].parts:
            for shop in ("metric", "inch"):
                found = plan(part, sample(shop))
                tasks, setting = found.route.tasks, found.route.setting
                fired |= {r.id for a in tasks for b in tasks for r in holding_between(setting, a, b)}
                fired |= {rule.id for i in range(len(found.set_ups)) for rule, _ in gates(found.route, i)}
    assert {rule.id for rule in rules()} == fired


# Rows of the reference table of times: element, typical minutes; common practice, no source.
@pytest.mark.parametrize(
    ("element", "typical"), [("tool_quick", 0.3), ("carry", 4), ("soft jaws", 20), ("threaded stub", 25), ("head", 20)]
)
def test_times_are_as_the_table_has_them(element, typical):
    found = minutes(element)
    assert found.typical == typical and found.low <= found.typical <= found.high


# ISO 15488 Table 4, class 2, as reproduced on a tool-holder maker's page; a machining firm's workholding guide.
@pytest.mark.parametrize(("holding", "run_out"), [("collet", 0.02), ("three-jaw", 0.10), ("between centres", 0.005)])
def test_run_outs_are_planned_as_published(holding, run_out):
    assert holding_fact(holding).run_out == run_out


# Rules of the handbook that forbid good orders as they stand there; what they except is a condition here. Without one:
# stamps, drills and taps do not go into hardened steel, and blacking runs off under a stamp; a ball that was hardened in its
# seat has lost its own temper. R019, R089, R093, R094 and R108 have no words in the part language and are left out.
TOO_HARD = ("R005", "R033", "R034", "R043", "R044", "R050", "R068", "R070", "R090", "R100")
FACTS = {"R068", "R070", "R090", "R100"}


@each_row("name", TOO_HARD)
def test_what_was_too_hard_has_its_exception_as_a_condition(name):
    rule = rules_by_id()[name]
    assert bool(rule.when or rule.unless) != (name in FACTS)


def test_the_ring_of_ball_and_measure_is_open():
    """Stake, then measure, then assemble: measuring waits for the ball, and nothing of the ball for the measuring."""
    after = {kind for rule in rules() if rule.hard and "measure" in rule.before for kind in rule.after}
    assert "measure" in rules_by_id()["R102"].after and "ball" not in after
