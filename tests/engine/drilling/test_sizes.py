"""Drill sizes against ASME B94.11M and the metric steps of BS 328; see tests/data/drilling/drill_sizes.csv."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.drilling import sizes
from engine.shop.file import sample

DATA = Path(__file__).parents[2] / "data" / "drilling"


def _rows(name):
    lines = [line for line in (DATA / name).read_text().splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def test_every_published_drill():
    published = _rows("drill_sizes.csv")
    assert len(published) == 404
    for row in published:
        wanted = float(row["mm"])
        if row["series"] in ("number", "letter"):
            prefix = "#" if row["series"] == "number" else ""
            assert sizes.named(prefix + row["label"]) == pytest.approx(wanted, abs=1e-9), row
        else:
            drill = sizes.nearest(wanted, of=row["series"])
            assert drill.diameter == pytest.approx(wanted, abs=1e-9), row
            assert float(Fraction(drill.name)) == float(Fraction(row["label"]))
        assert float(row["inch"]) == pytest.approx(wanted / 25.4, abs=5e-7)


def test_counts_of_the_series():
    # ASME B94.11M: numbers 1 to 107, letters A to Z; 64ths to 1 in.
    assert {name: len(sizes.series(name)) for name in sizes.SERIES} == {
        "number": 107,
        "letter": 26,
        "fraction": 64,
        "metric": 207,
    }


@pytest.mark.parametrize("text", ["#7", "# 7", "No. 7", "no7", "#07"])
def test_number_seven_by_any_writing(text):
    assert sizes.named(text) == 0.2010 * 25.4  # ASME B94.11M


@pytest.mark.parametrize("text", ["#0", "#108", "AA", "", "7", "é", "#"])
def test_no_such_drill(text):
    assert sizes.named(text) is None


def test_ranges_as_a_shop_writes_them():
    assert len(sizes.named_between("#1", "#60")) == 60
    assert sizes.named_between("#60", "#1") == []
    assert sizes.named_between("#1", "C") == []
    assert len(sample("inch").drills) == 80 + 26 + 29


@settings(max_examples=50, deadline=None)
@given(st.floats(0.05, 30))
def test_nearest_is_nearest(diameter):
    for name in sizes.SERIES:
        found = abs(sizes.nearest(diameter, of=name).diameter - diameter)
        assert all(found <= abs(d.diameter - diameter) for d in sizes.series(name))
