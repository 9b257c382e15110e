"""Handwheels: turns and readings there and back, either way, and never a sum of roundings."""

from fractions import Fraction
from math import inf, nextafter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.words import write
from engine.indexing.dials import back_off, dial_move, dial_setting, turned_distance
from engine.shop.file import sample
from tests.engine.indexing.checks import table

METRIC = sample("metric")
lengths = st.fractions(0, 200, max_denominator=1000)
dials = st.sampled_from(
    [
        (Fraction(2), 100),
        (Fraction(127, 50), 100),
        (Fraction(3, 2), 60),
        (Fraction(127, 40), 125),
        (Fraction(18), 180),
        (Fraction(127, 40), 120),
    ]
)


def dial(call, shop=METRIC, unit="mm"):
    return run("hand-dial", dict(word.split("=", 1) for word in call.split()), shop, unit=unit).answer


@pytest.mark.parametrize("row", [r for r in table("hand_dial_rounding.csv") if r["dial"].startswith("linear")],
                         ids=lambda r: f"{r['dial']}/{r['n']}")  # fmt: skip
def test_places_are_rounded_from_zero_not_step_by_step(row):
    # arithmetic: the table's own columns
    whole, line = (Fraction(word) for word in row["dial"].split() if word[0].isdigit())
    n = int(row["n"])
    worst = max(
        abs(dial_setting(distance=whole * k / n, travel_per_turn=line * 100, divisions=100).error) for k in range(n)
    )
    assert worst == pytest.approx(float(row["worst_error_if_each_target_rounded"]), abs=5e-6)
    assert worst <= line / 2
    step = dial_setting(distance=whole / n, travel_per_turn=line * 100, divisions=100)
    made = (step.turns * 100 + step.lines) * line
    assert float(made * n - whole) == pytest.approx(float(row["closing_error_if_step_repeated"]), abs=1e-9)


@settings(max_examples=50)
@given(distance=lengths, start=lengths, on=dials, falling=st.booleans())
def test_there_and_back(distance, start, on, falling):
    travel, divisions = on
    line = travel / divisions
    start = start // line * line  # the dial stands on a line
    move = dial_move(distance=distance, start=start, travel_per_turn=travel, divisions=divisions, falling=falling)
    back = turned_distance(
        turns=move.turns, start=start, reading=move.lines * line, travel_per_turn=travel, falling=falling
    )
    assert abs(back - distance) <= line / 2
    assert float(back - distance) == pytest.approx(move.error, abs=1e-12)
    assert move.remainder == pytest.approx(float(distance - move.turns * travel))


@settings(max_examples=50)
@given(distance=lengths, on=dials)
def test_from_zero_upwards_it_is_the_plain_setting(distance, on):
    travel, divisions = on
    plain = dial_setting(distance=distance, travel_per_turn=travel, divisions=divisions)
    move = dial_move(distance=distance, start=Fraction(0), travel_per_turn=travel, divisions=divisions)
    assert (move.turns, move.lines, move.reading, move.error) == (plain.turns, plain.lines, plain.reading, plain.error)


@settings(max_examples=50)
@given(lines=st.integers(1, 5000), on=dials, noise=st.sampled_from((-1, 1)), towards=st.sampled_from(("short", "past")))
def test_the_noise_of_a_float_costs_no_line(lines, on, noise, towards):
    # a size that lies on a line stays on it, though its float is one step off: 4.999999999999998 is 5
    travel, divisions = on
    true = float(lines * travel / divisions)
    setting = dial_setting(
        distance=nextafter(true, noise * inf), travel_per_turn=travel, divisions=divisions, towards=towards
    )
    assert setting.turns * divisions + setting.lines == lines


def test_an_inch_dial():
    # 0.375 in on 0.1 in a turn and 100 lines: three turns and 75 thou, by arithmetic
    answer = dial("distance=3/8 per_turn=0.1in divisions=100")
    assert answer.figure("turns").value == 3
    assert answer.figure("reading").value == pytest.approx(0.075 * 25.4)
    assert answer.figure("error").value == 0


def test_a_dial_that_reads_diameter_shows_twice():
    once = dial("distance=0.5 per_turn=2 divisions=100 reads_diameter=no").figure("reading").value
    assert dial("distance=0.5 per_turn=2 divisions=100 reads_diameter=yes").figure("reading").value == 2 * once


def test_going_down_and_arriving_upwards_goes_past_first():
    answer = dial("distance=5 from_reading=1.5 per_turn=2 divisions=100 direction=down approach=up backlash=0.1")
    assert (answer.figure("turns").value, answer.figure("reading").value) == (2, 0.5)
    # a quarter turn of 2 mm below 0.5 (the 1914 treatise: back off a quarter to half a turn)
    assert answer.figure("past_reading").value == pytest.approx(0.0)
    assert not dial("distance=5 direction=up").has("past_reading")


def test_backing_off_is_more_than_the_backlash():
    for backlash in (0.0, 0.05, 0.3, 1.0):
        assert back_off(travel_per_turn=Fraction(2), backlash=backlash) >= max(Fraction(1, 2), Fraction(str(backlash)))


def test_a_chain_does_not_add_its_roundings_up():
    # 7 moves of 25/7 mm on a 0.02 mm dial: each place within half a line, 0.01; stepping 3.58 would end 0.06 out
    chain = ",".join(["3.5714286"] * 7)
    answer = dial(f"moves={chain} per_turn=2 divisions=100")
    rows = answer.table("moves").rows
    assert len(rows) == 7 and max(abs(row[-1]) for row in rows) <= 0.01 + 1e-12
    assert answer.figure("reading").value == 1.0  # 25 mm is 12 turns and 1 mm


def test_a_chain_that_reverses_passes_the_reading_first():
    rows = dial("moves=3,4.5,-2 per_turn=2 divisions=100 backlash=0.1").table("moves").rows
    assert [row[4] for row in rows] == [1.0, 1.5, 1.5]
    assert [row[5] for row in rows] == [None, None, 1.0]
    assert "past" in rows[2][1] and "past" not in rows[1][1]


def test_a_chain_goes_on_from_the_line_it_stopped_at():
    # on a dial of 2 mm in 100 lines 0.007 stops at line 0; 1.996 on is 2.003, line 0 again: one whole turn away
    rows = dial("moves=0.007,1.996,-1.996 per_turn=2 divisions=100").table("moves").rows
    assert [(row[3], row[4]) for row in rows] == [(0, 0.0), (1, 0.0), (1, 0.0)]


@pytest.mark.parametrize(
    ("call", "field"),
    [
        ("distance=2 to_reading=1 per_turn=2 divisions=100", "to_reading"),
        ("distance=2 moves=1,2 per_turn=2 divisions=100", "moves"),
        ("distance=2 turned=1 per_turn=2 divisions=100", "turned"),
        ("distance=2 from_reading=2 per_turn=2 divisions=100", "from_reading"),
        ("to_reading=5 turned=1 per_turn=2 divisions=100", "to_reading"),
    ],
)
def test_questions_that_contradict_themselves_are_refused(call, field):
    with pytest.raises(BadInput) as refusal:
        dial(call)
    assert refusal.value.field == field


def test_a_dial_that_reads_diameter_goes_to_twice_its_travel():
    # the reading wraps at 4 on a screw of 2 mm: from 3.5, 1 mm of travel adds 2 and passes 0 to 1.5
    answer = dial("distance=1 from_reading=3.5 per_turn=2 divisions=40 reads_diameter=yes")
    assert answer.figure("reading").value == 1.5
    with pytest.raises(BadInput, match="less than 4"):
        dial("distance=1 from_reading=4 per_turn=2 divisions=40 reads_diameter=yes")


def test_workings_are_in_the_unit_on_the_screen():
    # 0.6875 in on 0.1 in a turn: 6.875 turns
    answer = dial("distance=0.6875 per_turn=0.1 divisions=100", sample("inch"), "inch")
    assert write(answer.figure("turns").working, "inch") == "0.6875 ÷ 0.1 = 6.875 turns: 6 whole"


def test_the_way_back_needs_the_reading():
    assert dial("to_reading=0.5 turned=2 from_reading=1.5 per_turn=2 divisions=100").figure("distance").value == 5
    with pytest.raises(BadInput, match="distance"):
        dial("per_turn=2")


@pytest.mark.parametrize(
    "call", ["moves=3,x", "moves=" + ",".join(["1"] * 201), "distance=-1", "distance=5 direction=sideways"]
)
def test_wrong_values_are_refused_by_name(call):
    with pytest.raises(BadInput, match=call.split("=")[0] if "direction" not in call else "direction"):
        dial(call)
