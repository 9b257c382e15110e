"""What goes wrong and what to check first: every operation, every row, and the numbers against their sources."""

import re
from math import pi

import pytest

from engine.base.operation import run
from engine.base.register import CATALOG, load
from engine.base.tables import rows
from engine.shop.file import sample
from engine.trouble import TABLE, trouble_for
from engine.trouble.numbers import NUMBERS
from tests.engine.trouble.facts_for import facts, shop_with, thread
from tests.spoken import spoken

METRIC = sample("metric")
ROWS = rows(TABLE)
GLYPHS = re.compile(r"[ -~°µ×→]*")


OPERATIONS = [entry.id for entry in CATALOG]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_every_row_is_whole_short_and_known(row):
    known = {entry.id for entry in CATALOG}
    assert set(row["operations"].split()) <= known
    assert row["number"] == "" or row["number"] in NUMBERS
    for column in ("symptom", "cause", "check_first", "source"):
        assert row[column] and GLYPHS.fullmatch(row[column])
        assert "http" not in row[column] and "!" not in row[column] and "safe" not in row[column].lower()
    assert len(f"{row['cause']} {row['check_first']}".split()) <= 35
    assert len(row["symptom"].split()) <= 12


def test_every_number_is_used_and_every_operation_has_its_troubles():
    assert {row["number"] for row in ROWS} - {""} == set(NUMBERS)
    assert len({row["id"] for row in ROWS}) == len(ROWS)
    covered = {operation for row in ROWS for operation in row["operations"].split()}
    assert all(id in covered or load(id).troubles for id in OPERATIONS)


@pytest.mark.parametrize("symptom, operation_id", [
    ("twice", "knurl-blank"), ("binds after a few turns", "screwcutting"), ("tap stalls", "tap-drill"),
    ("Chatter when parting", "part-off"), ("drill wanders", "hole-plan"),
])  # fmt: skip
def test_the_faults_that_every_bench_meets_are_there(symptom, operation_id):
    assert any(symptom in row["symptom"] for row in ROWS if operation_id in row["operations"].split())


@pytest.mark.parametrize("operation_id", OPERATIONS)
@pytest.mark.parametrize("unit", ["mm", "inch"])
def test_every_operation_answers_with_some_number(operation_id, unit):
    for shop in (METRIC, sample("inch")):
        done = run(operation_id, load(operation_id).example, shop)
        found = spoken(trouble_for(operation_id, done.answer, done.inputs, shop, unit), unit)
        assert found
        symptoms = [t.symptom for t in found]
        assert symptoms == sorted(symptoms, key=symptoms.index), "one symptom stands together"
        for trouble in found:
            assert GLYPHS.fullmatch(trouble.number) and "nan" not in trouble.number
            said = re.sub(r"drill [0-9.]+ mm", "", trouble.number)  # a metric drill is called by its size
            assert unit == "mm" or " mm" not in said


def test_an_operation_without_an_answer_says_the_causes_all_the_same():
    from engine.base.answer import Answer

    found = trouble_for("part-off", Answer(()), None, None)
    assert found and not any(t.number for t in found)


def test_a_knurl_wheel_of_nominal_1_mm():
    """DIN 403: a 15 mm wheel of t = 1 has 48 teeth, so 0.982 mm on its diameter."""
    from dataclasses import replace

    wheel = replace(METRIC.knurls[1], diameter=15.0, teeth=48, pitch=1.0)
    said = NUMBERS["true-pitch"](facts("knurl-blank", shop=shop_with(knurls=(wheel,)), inputs={"pitch": 1.0}))
    assert "0.982 mm" in said


def test_one_tooth_on_the_diameter():
    """One track is pitch over pi on the diameter (a knurl roll maker's page)."""
    said = NUMBERS["tooth-on-diameter"](facts("knurl-passes", inputs={"pitch": 1.0}))
    assert f"{1 / pi:.3f} mm" in said
    said = NUMBERS["tooth-on-diameter"](facts("knurl-blank", teeth=60, blank_diameter=60 / pi))
    assert "60 teeth" in said and f"{1 / pi:.3f} mm" in said


def test_a_line_on_a_rim_that_runs_out():
    """0.02 mm of run-out on a 60 degree cutter widens a line by 0.023 mm: 2 x 0.02 x tan 30 (geometry)."""
    assert "0.023 mm" in NUMBERS["line-run-out"](facts("scale-lines", inputs={"cutter_angle": 60.0}))


def test_blade_height_of_od_1645():
    """On centre up to 1 in; 1/16 in higher for each inch more (US Army OD 1645): 2 in asks 1/16 in, 1.6 mm."""
    assert "on centre" in NUMBERS["blade-height"](facts("part-off", inputs={"diameter": 25.4}))
    assert "1.6 mm" in NUMBERS["blade-height"](facts("part-off", inputs={"diameter": 50.8}))


def test_parting_feed_of_od_1645():
    """0.002 in a turn is 0.051 mm."""
    assert "0.051 mm" in NUMBERS["parting-feed"](facts("part-off", feed=0.03))


def test_chamfer_before_a_knurl_is_half_a_pitch():
    assert "0.400 mm" in NUMBERS["half-pitch"](facts("knurl-blank", inputs={"pitch": 0.8}))


def test_knurl_speed_against_the_published_range():
    """10 to 50 m/min (a trade page on DIN 82): 20 mm at 300 rev/min is 18.8 m/min."""
    said = NUMBERS["knurl-speed"](facts("knurl-passes", rpm=300, inputs={"diameter": 20.0}))
    assert "19 m/min" in said and "10 to 50" in said


def test_where_a_nut_binds():
    assert "6.5 turns" in NUMBERS["where-it-binds"](facts("thread-fit", turns_to_bind=6.5))
    assert "12.500 mm" in NUMBERS["where-it-binds"](
        facts("thread-limits", inputs={"size": thread(pitch="5/4")})
    )
    by_wheels = facts("change-gears", lead_cut=1.2701, error_per_100=0.008)
    assert "12.701 mm" in NUMBERS["where-it-binds"](by_wheels) and "80 millionths" in NUMBERS[
        "where-it-binds"
    ](by_wheels)


def test_room_below_a_blind_thread():
    inputs = {"size": thread(pitch="3/2"), "depth": 12.0, "hole": "blind"}
    assert NUMBERS["spare-turns"](facts("tap-drill", drill_depth=18.0, inputs=inputs)) == (
        "6.0 mm below the thread, 4.0 turns"
    )
    assert (
        NUMBERS["spare-turns"](facts("tap-drill", drill_depth=18.0, inputs={**inputs, "hole": "through"}))
        == ""
    )


def test_moves_of_a_dividing_head_add_up():
    """OD 1644 counts spaces: 30 moves of 1 turn and 13 spaces of 39 are 40 turns."""
    given = facts("divide", setting="1 turn + 13 holes of 39", method="simple", turns=1, circle=39, holes=13,
                  inputs={"divisions": 30, "ratio": 40})  # fmt: skip
    assert "make 40 turns" in NUMBERS["all-moves"](given)
    by_plates = facts("divide", setting="compound", method="compound", inputs={"divisions": 77, "ratio": 40})
    assert NUMBERS["all-moves"](by_plates) == "77 moves must add up to 40 turns of the crank"


def test_warm_steel():
    """11.5 millionths a degree (from memory): 100 mm grow 11.5 µm in 10 °C."""
    assert "11.5 µm" in NUMBERS["warm-growth"](facts("fit", inputs={"diameter": 100.0}))
