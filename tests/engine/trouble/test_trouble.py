"""What goes wrong and what to check first: every operation, every row, and the numbers against their sources."""

import re
from dataclasses import replace

import pytest

from engine.base.operation import run
from engine.base.register import CATALOG, load
from engine.base.tables import rows
from engine.base.words import write
from engine.shop.file import sample
from engine.trouble import TABLE, trouble_for
from tests.rows import each_row
from tests.spoken import spoken

METRIC = sample("metric")
ROWS = rows(TABLE)
GLYPHS = re.compile(r"[ -~°µ×→]*")


OPERATIONS = [entry.id for entry in CATALOG]


@each_row("row", ROWS, ids=lambda row: row["id"])
def test_every_row_is_whole_and_short(row):
    for column in ("symptom", "cause", "check_first", "source"):
        assert row[column] and GLYPHS.fullmatch(row[column])
        assert "http" not in row[column] and "!" not in row[column] and "safe" not in row[column].lower()
    assert len(f"{row['cause']} {row['check_first']}".split()) <= 35
    assert len(row["symptom"].split()) <= 12


def test_every_row_belongs_to_an_operation_and_every_operation_has_its_troubles():
    ids = {row["id"] for row in ROWS}
    assert len(ids) == len(ROWS)
    named = {name for entry in CATALOG for name in load(entry.id).troubles}
    assert named == ids
    assert all(load(name).troubles for name in OPERATIONS)


@pytest.mark.parametrize("symptom, operation_id", [
    ("twice", "knurl-blank"), ("binds after a few turns", "screwcutting"), ("tap stalls", "tap-drill"),
    ("Chatter when parting", "part-off"), ("drill wanders", "hole-plan"),
])  # fmt: skip
def test_the_faults_that_every_bench_meets_are_there(symptom, operation_id):
    declared = load(operation_id).troubles
    assert any(symptom in row["symptom"] for row in ROWS if row["id"] in declared)


@each_row("operation_id", OPERATIONS)
@each_row("unit", ["mm", "inch"])
def test_every_operation_answers_with_some_number(operation_id, unit):
    for shop in (METRIC, sample("inch")):
        done = run(operation_id, load(operation_id).example, shop)
        found = spoken(trouble_for(operation_id, done.answer, done.inputs, shop), unit)
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


def said(operation_id, trouble_id, shop=METRIC, **given):
    """The number that an operation says to a trouble, in mm."""
    done = run(operation_id, given, shop)
    return next(
        write(t.number) for t in trouble_for(operation_id, done.answer, done.inputs, shop) if t.id == trouble_id
    )


def test_a_knurl_wheel_of_nominal_1_mm():
    """DIN 403: a 15 mm wheel of t = 1 has 48 teeth, so 0.982 mm on its diameter."""
    wheel = replace(METRIC.knurls[1], diameter=15.0, teeth=48, pitch=1.0)
    assert "0.982 mm" in said("knurl-blank", "KN-02", replace(METRIC, knurls=(wheel,)), near="20", pitch="1")


def test_chamfer_before_a_knurl_is_half_a_pitch():
    assert "0.400 mm" in said("knurl-blank", "KN-09", near="20", pitch="0.8")


def test_a_line_on_a_rim_that_runs_out():
    """0.02 mm of run-out on a 60 degree cutter widens a line by 0.023 mm: 2 x 0.02 x tan 30 (geometry)."""
    told = said("scale-lines", "IN-04", lead="1.5", per_line="0.05", diameter="24", cutter_angle="60")
    assert "0.023 mm" in told


def test_blade_height_of_od_1645():
    """On centre up to 1 in; 1/16 in higher for each inch more (US Army OD 1645): 1.2 in asks 0.3 mm."""
    assert "on centre" in said("part-off", "PA-02", diameter="25.4")
    assert "0.3 mm" in said("part-off", "PA-02", diameter="30.48")


def test_parting_feed_of_od_1645():
    """0.002 in a turn is 0.051 mm."""
    assert "0.051 mm" in said("part-off", "PA-04", diameter="20")


def test_ten_threads_measure_ten_pitches():
    assert "12.500 mm" in said("thread-limits", "TH-01", size="M10x1.25")


def test_moves_of_a_dividing_head_add_up():
    """OD 1644 counts spaces: 30 moves of 1 turn and 13 spaces of 39 are 40 turns."""
    assert "make 40 turns" in said("divide", "IN-01", divisions="30", ratio="40")


def test_warm_steel():
    """11.5 millionths a degree (from memory): 100 mm grow 11.5 µm in 10 °C."""
    assert "11.5 µm" in said("fit", "FI-01", diameter="100", fit="H7/g6") or "0.012" in said(
        "fit", "FI-01", diameter="100", fit="H7/g6"
    )
