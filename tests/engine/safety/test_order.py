"""The order of the lines, how many are shown, and what reaches the doors."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.answer import Answer, Caution
from engine.base.operation import Operation, run
from engine.base.register import CATALOG, load
from engine.safety import arrange, cautions_for, cautions_for_hand_step, in_order, quiet_line
from engine.safety.hazards import HAZARDS
from engine.shop.file import sample
from tests.engine.safety.facts_for import figure, shop_with, thread

METRIC = sample("metric")
SHOPS = (METRIC, sample("inch"))


def band(caution):
    if caution.word in ("CAUTION", "NOTICE"):
        return 4
    if caution.question:
        return 2
    if caution.because:
        return 0 if caution.acknowledge else 1
    return 3


OPERATIONS = [entry.id for entry in CATALOG]


@pytest.mark.parametrize("shop", SHOPS, ids=lambda shop: shop.unit)
@pytest.mark.parametrize("operation_id", OPERATIONS)
def test_every_operation_on_both_benches(operation_id, shop):
    operation = load(operation_id)
    done = run(operation_id, operation.example, shop)
    cautions = done.answer.cautions
    assert cautions, "every operation has its cautions"
    assert [band(c) for c in cautions] == sorted(band(c) for c in cautions)
    assert len({c.id for c in cautions}) == len(cautions)
    for caution in cautions:
        assert len(f"{caution.text} {caution.because}".split()) <= 25, caution
        assert len(caution.question.split()) <= 25
        assert "safe" not in f"{caution.text}{caution.because}{caution.question}{caution.source}".lower()
        if caution.word == "DANGER" or caution.acknowledge:
            assert caution.because, "only what is known stops a step"
    shown, more = arrange(cautions)
    assert len(shown) <= 5 and shown + more == cautions


@pytest.mark.parametrize("operation_id", OPERATIONS)
def test_answering_every_question_leaves_none(operation_id):
    operation, told = load(operation_id), {}
    for answer in (True, False):
        for _ in range(3):  # a yes may bring one further question
            cautions = run(operation_id, operation.example, METRIC, told=told).answer.cautions
            told.update({c.id: answer for c in cautions if c.question})
        cautions = run(operation_id, operation.example, METRIC, told=told).answer.cautions
        assert not any(c.question for c in cautions)
        told = {}


def made_up(operation_id, *, inputs=None, shop=METRIC, told=None, hazards=(), unit="mm", **figures):
    from types import SimpleNamespace

    operation = Operation(operation_id, object, lambda i, s: Answer(()), hazards, {})
    answer = Answer(tuple(figure(name, value) for name, value in figures.items()))
    return cautions_for(operation, SimpleNamespace(**(inputs or {})), answer, shop, told or {}, unit)


def one(cautions, caution_id):
    return next(c for c in cautions if c.id == caution_id)


def test_the_number_that_raised_it_is_in_the_line():
    line = one(made_up("screwcutting", rpm=91, inputs={"size": thread(), "gap": 1.5}), "THR-01")
    assert "0.9 s at 91 rev/min" in line.text and "Run 90 or less" in line.text and "1.0 s" in line.because
    assert line.word == "WARNING" and line.acknowledge


def test_a_limit_below_the_slowest_speed_says_so():
    line = one(made_up("screwcutting", rpm=65, inputs={"size": thread(pitch="3/2"), "gap": 1.0}), "THR-01")
    assert "0.6 s at 65 rev/min" in line.text and "Crank by hand, 65 is your slowest" in line.text


def test_a_chuck_over_its_mark_is_a_danger_and_comes_first():
    cautions = made_up("turning-speed", rpm=2600, inputs={"diameter": 10.0})
    assert {cautions[0].id, cautions[1].id} == {"CHK-01", "GEN-07"}
    assert cautions[0].word == cautions[1].word == "DANGER"
    line = one(cautions, "CHK-01")
    assert "2000" in line.text and "2600" in line.text and "600" in line.because


def test_a_question_shows_as_a_warning_until_a_yes_makes_it_a_danger():
    asked = one(cautions_for_hand_step(("polishing",), METRIC, {}), "FIL-01")
    assert (asked.word, asked.acknowledge, asked.because) == ("WARNING", False, "") and asked.question
    yes = one(cautions_for_hand_step(("polishing",), METRIC, {"FIL-01": True}), "FIL-01")
    assert (yes.word, yes.acknowledge, yes.question) == ("DANGER", True, "")
    no = cautions_for_hand_step(("polishing",), METRIC, {"FIL-01": False})
    assert "FIL-01" not in {c.id for c in no}


def test_a_yes_that_can_name_its_number_does():
    blind = {"size": thread(pitch="1"), "hole": "blind", "depth": 10.0}
    asked = one(made_up("tap-drill", drill_depth=11.0, inputs=blind), "TAP-02")
    assert "1.0 mm" in asked.question
    told = one(made_up("tap-drill", drill_depth=11.0, inputs=blind, told={"TAP-02": True}), "TAP-02")
    assert "1.0 mm" in told.text and "3.0 mm" in told.because and not told.question


def test_lengths_are_written_in_the_unit_of_the_screen():
    inputs = {"diameter": 50.8}
    mm = one(made_up("part-off", inputs=inputs), "PRT-03")
    inch = one(made_up("part-off", inputs=inputs, unit="inch"), "PRT-03")
    assert (
        "25.9 mm" in mm.text and "1.02 in" in inch.text
    )  # half the diameter and 0.5 mm, the need rounded up


def test_solder_against_a_ball_and_a_closed_hollow():
    cautions = made_up(
        "solder", liquidus=688.0, inputs={"alloy": "BAg-3", "part": "ball"}, told={"BRZ-02": True}
    )
    assert {c.id for c in cautions[:2]} == {"BRZ-01", "BRZ-02"}
    assert one(cautions, "BRZ-01").word == "DANGER" and "16 %" in one(cautions, "BRZ-01").text
    assert "3.4 times" in one(cautions, "BRZ-02").text  # (688 + 30 + 273.15) / 293.15
    assert "538 °C" in one(cautions, "SLD-06").because  # 688 less the ball's 150
    assert "SLD-01" not in {c.id for c in cautions}, "rosin belongs to soft solder"


def test_a_shop_without_a_lathe_or_mill_is_answered():
    bare = shop_with(dividing_head=None, rotary_table=None)
    for tag in HAZARDS:
        assert cautions_for_hand_step((tag,), bare, {})


def test_quiet_line_goes_when_a_number_speaks():
    cautions = made_up("turning-speed", rpm=2600, inputs={"diameter": 10.0})
    assert quiet_line(cautions) == ""


words = st.sampled_from(["DANGER", "WARNING", "CAUTION", "NOTICE"])
made = st.builds(Caution, id=st.text("AB", min_size=1, max_size=3), word=words, text=st.just("t"),
                 because=st.sampled_from(["", "9 over 8"]), question=st.sampled_from(["", "Is it?"]),
                 acknowledge=st.booleans())  # fmt: skip


@settings(max_examples=50)
@given(st.lists(made, max_size=12))
def test_no_screen_shows_more_than_five_and_nothing_is_lost(cautions):
    ordered = in_order(cautions)
    shown, more = arrange(ordered)
    assert len(shown) <= 5 and shown + more == ordered
    assert {c.id for c in ordered} == {c.id for c in cautions}
    assert [band(c) for c in ordered] == sorted(band(c) for c in ordered)
