"""Lengths of drills and taps as they were read in tables, and the catalogue's ratios of tapping torque."""

import pytest

from engine.base.tables import rows
from engine.drilling.reach import drill_length
from engine.drilling.tap_torque import torque_of
from tests.rows import each_row

from .rows import published

LENGTHS = published("tool_lengths.csv")


def _of(*tools):
    return [row for row in LENGTHS if row["tool"] in tools]


@each_row("row", _of("stub"), ids=lambda r: r["size"])
def test_stub_drills(row):
    size = float(row["size"])
    kept = next(
        r for r in rows("drilling/drill_lengths.csv")
        if (r["standard"], r["series"]) == ("iso", "stub") and float(r["over"]) < size <= float(r["to"])
    )  # fmt: skip
    assert drill_length(size, "stub").flute == float(row["flute"])
    assert float(kept["overall"]) == float(row["overall"])


@pytest.mark.parametrize("row", _of("inch jobber"), ids=lambda r: r["size"])
def test_inch_jobbers(row):
    wanted = next(
        r for r in rows("drilling/drill_lengths.csv")
        if (r["standard"], r["series"]) == ("asme", "jobber") and float(r["to"]) == float(row["size"])
    )  # fmt: skip
    assert float(wanted["flute"]) == float(row["flute"])


@each_row("row", _of("DIN 371", "DIN 374", "DIN 376"), ids=lambda r: f"{r['tool']} {r['size']}x{r['pitch']}")
def test_taps(row):
    kept = next(
        r for r in rows("drilling/tap_lengths.csv")
        if (r["standard"], f"M{r['diameter']}", r["pitch"]) == (row["tool"], row["size"], row["pitch"])
    )  # fmt: skip
    assert [kept["thread"], kept["neck"], kept["overall"], kept["shank"]] == [
        row["flute"], row["neck"], row["overall"], row["shank"],
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("group", "pitch", "tap", "ratio"),
    # the catalogue: bottoming over plug, steel, coarse and fine
    [
        ("steel", "coarse", "bottoming", 1.059),
        ("steel", "fine", "bottoming", 1.304),
        ("steel", "coarse", "spiral flute", 0.852),
        ("steel", "coarse", "spiral point", 0.704),
    ],
)
def test_how_other_taps_stand_to_a_plug(group, pitch, tap, ratio):
    kept = {r["tap"]: r for r in rows("drilling/tapping_k.csv") if r["group"] == group}
    assert float(kept[tap][pitch]) / float(kept["plug"][pitch]) == pytest.approx(ratio, abs=0.001)


def test_forces_of_the_catalogue():
    kept = {r["material"]: float(r["kc"]) for r in rows("drilling/tapping_kc.csv")}
    assert kept["cast iron"] / kept["medium-carbon steel"] == pytest.approx(0.744, abs=0.001)
    # M10 in C45 at 8.5 mm: 7.69 N m with a plug tap
    assert torque_of(kc=kept["medium-carbon steel"], k=1.35, diameter=10, hole=8.5) == pytest.approx(7.69, abs=0.005)


def test_a_drill_of_each_system_has_its_own_length():
    assert drill_length(6.35).name.endswith("(ASME B94.11M, from memory)")
    assert drill_length(6.5).name.endswith("(DIN 338, from memory)")
    assert drill_length(30) is None and drill_length(0.1) is None
