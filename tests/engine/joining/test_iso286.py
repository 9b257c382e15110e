"""Holes and shafts against printed tables; see tests/data/drilling/fits_check.csv."""

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import BadInput
from engine.joining.iso286 import limits_of, tolerance
from tests.rows import each_row

DATA = Path(__file__).parents[2] / "data" / "drilling" / "fits_check.csv"
ROWS = list(csv.DictReader(line for line in DATA.read_text().splitlines() if not line.startswith("#")))


@each_row("row", ROWS, ids=lambda r: f"{r['size']} {r['hole']}/{r['shaft']}")
def test_printed_fit(row):
    size = float(row["size"])
    hole, shaft = limits_of(row["hole"], size), limits_of(row["shaft"], size)
    found = [1000 * v for v in (hole.upper, hole.lower, shaft.upper, shaft.lower)]
    wanted = [float(row[k]) for k in ("hole_upper", "hole_lower", "shaft_upper", "shaft_lower")]
    assert found == pytest.approx(wanted, abs=1e-6)
    assert 1000 * (hole.lower - shaft.upper) == pytest.approx(float(row["clearance_min"]))
    assert 1000 * (hole.upper - shaft.lower) == pytest.approx(float(row["clearance_max"]))
    assert hole.is_hole and not shaft.is_hole


@pytest.mark.parametrize(
    ("code", "diameter", "upper", "lower"),
    [
        # ISO 286-2:2010 with Corrigendum 1: E8 over 80 to 120, f9 over 250 to 315, R10 over 18 to 30.
        ("E8", 100, 126, 72),
        ("f9", 300, -56, -186),
        ("R10", 24, -28, -112),
        # ISO 286-1: M6 over 250 to 315 is the one exception to the delta rule.
        ("M6", 300, -9, -41),
        # ISO 286-1: k has a deviation in grades 4 to 7 only.
        ("k6", 20, 15, 2),
        ("k8", 20, 33, 0),
        ("JS7", 20, 10.5, -10.5),
    ],
)
def test_printed_limit(code, diameter, upper, lower):
    found = limits_of(code, diameter)
    assert (1000 * found.upper, 1000 * found.lower) == (pytest.approx(upper), pytest.approx(lower))


def test_a_band_ends_with_its_upper_size():
    # ISO 286-1: bands run over a up to and including b. IT7: 12 µm to 6 mm, 15 µm to 10 mm.
    assert tolerance(grade=7, diameter=6) == 0.012
    assert tolerance(grade=7, diameter=6.0001) == 0.015


@each_row("code", ["", "H", "7", "H99", "I7", "a6", "H17", "h7/g6", "t6", "é7", "J9"])
def test_no_such_code(code):
    with pytest.raises(BadInput):
        limits_of(code, 10)


@settings(max_examples=80, deadline=None)
@given(st.sampled_from([*list("cdefghkmnprsuCDEFGHKMNPRSU"), "js", "JS"]), st.integers(0, 11), st.floats(0.01, 500))
def test_the_width_is_the_grade_and_a_hole_mirrors_its_shaft(letter, grade, diameter):
    try:
        found = limits_of(f"{letter}{grade}", diameter)
    except BadInput:
        assert letter in ("K", "N") and grade > 8  # ISO 286-1 has no K beyond IT8 over 3 mm
        return
    assert found.upper - found.lower == pytest.approx(tolerance(grade=grade, diameter=diameter), abs=1e-9)
    if letter in tuple("CDEFGH"):
        shaft = limits_of(f"{letter.lower()}{grade}", diameter)
        assert found.lower == pytest.approx(-shaft.upper)
