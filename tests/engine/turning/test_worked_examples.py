"""Worked examples of turning and joining: printed ones, and rows that repeat a printed formula; each table names its source.

Not here, since the program has no such figure: the length of solder wire for a joint, a force fit's pressure factor, the rate
at which metal is removed, and the association's rule for the chamfer of a thread (the program has that of DIN 76).
"""

import csv
from math import pi
from pathlib import Path

import pytest

from engine.base.operation import run
from engine.cutting.speeds import ideal_speed, spindle_speed
from engine.joining.solders import alloy, hardness_between
from engine.shop.file import sample
from engine.turning.stiffness import bend
from tests.rows import each_row
from tests.spoken import spoken

DATA = Path(__file__).parents[2] / "data"
METRIC = sample("metric")


def rows(name):
    with (DATA / name).open(encoding="utf-8") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def work(operation, **given):
    return spoken(run(operation, {k: str(v) for k, v in given.items()}, METRIC).answer)


@each_row("row", rows("turning/bending.csv"), ids=lambda r: f"{r['holds']} {r['diameter']}x{r['length']}")
def test_bending_of_bars(row):
    found = bend(
        diameter=float(row["diameter"]), bore=0.0, length=float(row["length"]), modulus=206_000, force=40.0,
        support=row["holds"],
    )  # fmt: skip
    assert 2 * found.deflection == pytest.approx(float(row["twice"]), abs=0.0001)


def test_an_inch_bar_in_the_article():
    """207.8 lbf on 4 in of a steel bar of 1 in, 30 000 000 psi: 0.003 in (an article on boring bars, 2019)."""
    found = bend(
        diameter=25.4, bore=0.0, length=101.6, modulus=30e6 * 0.00689476, force=207.8 * 4.44822, support="chuck"
    )
    assert found.deflection / 25.4 == pytest.approx(0.003, abs=0.0002)


@each_row("row", rows("turning/spindle_speeds.csv"), ids=lambda r: f"{r['what']} {r['surface_speed']}")
def test_spindle_speeds(row):
    found = ideal_speed(surface_speed=float(row["surface_speed"]), diameter=float(row["diameter"]))
    assert float(found) == pytest.approx(float(row["speed"]), abs=float(row["within"]))


def test_the_lower_of_two_steps():
    """Wanted 310, steps 275 and 320: 275 (a trade question's answer)."""
    found = spindle_speed(diameter=1000 / pi, surface_speed=310, steps=(275, 320), ceiling=None)
    assert found.ideal == pytest.approx(310) and found.chosen == 275


@pytest.mark.parametrize(
    ("feed", "nose", "peak"),
    # 125 f² / r, an insert maker's page; in µm
    [(0.05, 0.4, 0.781), (0.1, 0.4, 3.125), (0.1, 0.8, 1.563), (0.2, 0.8, 6.25)],
)
def test_height_of_the_feed_marks(feed, nose, peak):
    answer = work("turning-speed", diameter=20, way="finish", feed=feed, nose=nose)
    # Ra is a quarter of the height: f² / (32 r), from memory; the answer says microns
    assert answer.figure("roughness").value == pytest.approx(peak / 4, abs=0.001)


@each_row("row", rows("joining/brazing.csv"), ids=lambda r: r["alloy"])
def test_silver_brazing_alloys(row):
    found = alloy(row["alloy"])
    for name in ("solidus", "liquidus"):
        if row[name]:
            assert getattr(found, name) == pytest.approx(float(row[name]), abs=1.0), name


@pytest.mark.parametrize(
    ("celsius", "hardness", "within"),
    # two steel stockists' tables of the ball steel, the middle of each pair; between the rows a straight line
    [
        (150, 62.5, 0.6),
        (200, 61.5, 0.6),
        (300, 56.5, 0.6),
        (350, 53.5, 0.6),
        (169, 62.1, 1),
        (221, 60.7, 1),
        (260, 58.9, 1),
    ],
)
def test_hardness_left_in_a_ball(celsius, hardness, within):
    low, high = hardness_between(celsius, "52100")
    assert (low + high) / 2 == pytest.approx(hardness, abs=within)


def test_the_area_of_a_retained_joint():
    """pi d L: 8 x 10 mm 251.3 mm², the test joint of 12.66 x 11.1 mm 441.5 mm² (ASTM D4562's sizes)."""
    for diameter, length, area in ((8, 10, 251.3), (12.66, 11.1, 441.5)):
        answer = work("retain", diameter=diameter, length=length, load=1000)
        assert 1000 / area == pytest.approx(answer.figure("stress").value, rel=0.002)
