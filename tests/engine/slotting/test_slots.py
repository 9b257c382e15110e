"""Keys, keyseats and the passes of a slot."""

import csv
import itertools
from math import sqrt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.cutting.deflection import deflection, second_moment
from engine.shop.file import sample
from engine.slotting.cutters import choose
from engine.slotting.slot import BEND_ALLOWED, EFFECTIVE, MODULUS, crown, pass_depths

METRIC, INCH = sample("metric"), sample("inch")
DATA = Path(__file__).parents[2] / "data" / "slotting"


def rows(name):
    return list(csv.DictReader(x for x in (DATA / name).read_text().splitlines() if not x.startswith("#")))


def work(operation_id, shop=METRIC, **given):
    return run(operation_id, {k: str(v) for k, v in given.items()}, shop).answer


KEYS = rows("keyways.csv")


@pytest.mark.parametrize("row", KEYS, ids=lambda r: f"{r['over']}-{r['to']}")
def test_a_published_key(row):
    over, to = float(row["over"]), float(row["to"])
    for diameter in (over + 0.01, (over + to) / 2, to):
        answer = work("key", diameter=f"{diameter:.3f}")
        found = [answer.figure(n).value for n in ("width", "height", "shaft_depth", "hub_depth")]
        assert found == [float(row[n]) for n in ("width", "height", "shaft_depth", "hub_depth")]
        depth = answer.figure("shaft_depth")
        assert depth.high - depth.low == pytest.approx(float(row["plus"]))


def test_the_bands_of_keys_leave_no_gap_and_every_key_has_room_on_top():
    for before, after in itertools.pairwise(KEYS):
        assert before["to"] == after["over"]
    for row in KEYS:
        room = float(row["shaft_depth"]) + float(row["hub_depth"]) - float(row["height"])
        assert 0.1 < room < 0.6


@pytest.mark.parametrize("diameter", ["6", "110.01", "0.5", "500"])
def test_shafts_beyond_the_table_are_refused(diameter):
    with pytest.raises(BadInput, match="over 6 mm"):
        work("key", diameter=diameter)


def test_widths_of_keyways():
    """ISO 286: N9 0/-30, JS9 +-15, P9 -12/-42 micrometres over 3 up to 6 mm; DIN 6885-1 gives a 12 mm shaft 4 x 4."""
    answer = work("key", diameter=12)
    for name, low, high in (
        ("shaft_width", 3.970, 4.0),
        ("hub_width", 3.985, 4.015),
        ("tight_width", 3.958, 3.988),
    ):
        assert (answer.figure(name).low, answer.figure(name).high) == pytest.approx((low, high))


@pytest.mark.parametrize("row", rows("keyseats.csv"), ids=lambda r: r["shaft"])
def test_depth_below_the_top_against_square_keyseats(row):
    """S = D - half the key - the drop of the edges."""
    shaft, key = float(row["shaft"]), float(row["key"])
    assert shaft - key / 2 - crown(diameter=shaft, width=key) == pytest.approx(float(row["s"]), abs=0.0006)


@given(depth=st.floats(0.05, 5), step=st.floats(0.05, 5))
def test_passes_are_equal_and_end_at_the_depth(depth, step):
    depths = pass_depths(depth=depth, step=step)
    cuts = [b - a for a, b in zip((0.0, *depths), depths, strict=False)]
    assert depths[-1] == pytest.approx(depth)
    assert max(cuts) <= step * (1 + 1e-6)
    assert max(cuts) - min(cuts) < 1e-9


@given(
    width=st.floats(0.3, 8),
    depth=st.floats(0.2, 4),
    stuff=st.sampled_from(["mild steel", "brass", "silver steel"]),
)
def test_a_slot_never_gets_wider_or_deeper_than_asked(width, depth, stuff):
    width, depth = round(width, 3), round(depth, 3)
    diameter = 12.0
    if depth <= crown(diameter=diameter, width=width):
        return
    answer = work("slot", width=width, depth=depth, length=10, diameter=diameter, material=stuff)
    passes = answer.table("passes")
    cutter = answer.figure("cutter").value
    assert cutter <= width + 0.005
    assert answer.figure("rpm").value in METRIC.mill.speeds
    names = [c.name for c in passes.columns]
    for row in passes.rows:
        cell = dict(zip(names, row, strict=True))
        down = cell["turns"] * float(METRIC.mill.z.travel_per_turn) + cell["dial"]
        line = float(METRIC.mill.z.travel_per_turn) / METRIC.mill.z.divisions
        last = cell["depth"] == pytest.approx(depth)
        assert down <= cell["depth"] + (line / 2 if last else 0) + 1e-9
    if "cross_dial" in names:
        across = [
            t * float(METRIC.mill.y.travel_per_turn) + d
            for t, d in zip(passes.column("cross_turns"), passes.column("cross_dial"), strict=True)
        ]
        assert cutter + max(across) - min(across) <= width + 1e-9
        assert set(passes.column("place")) == {"middle", "first side", "second side"}
    if not any("shallower" in note.text for note in answer.notes):
        assert answer.figure("cutter_deflection").value <= BEND_ALLOWED + 1e-9


def test_a_slot_worked_by_hand():
    """Cutter 3 in a slot of 4: sides half a millimetre off the middle, wall 12 - 2.5, keyway edges by the chord."""
    answer = work("slot", width=4, depth=2.5, length=20, diameter=12)
    assert answer.figure("cutter").value == 3
    assert answer.figure("wall_left").value == pytest.approx(9.5)
    assert answer.figure("travel").value == pytest.approx(17)
    drop = (12 - sqrt(144 - 16)) / 2
    assert answer.figure("edge_depth").value == pytest.approx(2.5 - drop)
    assert set(answer.table("passes").column("offset")) == {0.0, 0.5, 1.0}


@pytest.mark.parametrize(("made_of", "bent"), [("hss", 0.049), ("carbide", 0.017)])
def test_stiffness_of_a_cutter(made_of, bent):
    """6 mm mill, 20 mm out, 100 N, 0.8 of the diameter bending (common practice): worked by hand from beam theory."""
    found = deflection(force=100, length=20, modulus=MODULUS[made_of], moment=second_moment(EFFECTIVE * 6))
    assert found == pytest.approx(bent, abs=0.0006)


def test_carbide_bends_less_in_the_ratio_of_the_moduli():
    carbide, hss = (
        work("slot", width=6, depth=2, length=20, diameter=20, cutter=6, made_of=m, flute_length=20, step=1)
        .figure("cutter_deflection")
        .value
        for m in ("carbide", "hss")
    )
    assert hss / carbide == pytest.approx(600 / 210)


def test_a_tiny_cutter_takes_shallower_passes_when_it_stands_out_further():
    short = work("slot", width=1.5, depth=1, length=8, diameter=8, flute_length=3).table("passes")
    long = work("slot", width=1.5, depth=1, length=8, diameter=8, flute_length=9).table("passes")
    assert len(long.rows) > len(short.rows)


def test_the_owned_cutter_comes_first_and_a_missing_one_is_said():
    assert work("slot", width=2.4, depth=1, length=8, diameter=8).figure("cutter").value == 2
    answer = work("slot", width=1.2, depth=1, length=8, diameter=8)
    assert answer.figure("cutter").value == 1.2
    assert any("No owned end mill" in n.text for n in answer.notes)


def test_a_long_enough_cutter_is_preferred():
    mills = METRIC.end_mills
    found = choose(width=3, depth=7, owned=mills, diameter=None, made_of=None, flute_length=None)
    assert found.diameter == 3 and found.flute_length >= 7


def test_a_slot_across_the_end_leaves_two_cheeks():
    answer = work("slot", width=1.5, depth=1, length=8, diameter=8, place="end")
    assert answer.figure("wall_left").value == pytest.approx(3.25)
    assert not answer.has("edge_depth")


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"cutter": 3}, "cutter"),
        ({"width": 9}, "width"),
        ({"depth": 9}, "depth"),
        ({"depth": 0.05}, "depth"),
        ({"bore": 8}, "bore"),
        ({"bore": 5, "depth": 1.6}, "depth"),
        ({"width": 0}, "width"),
        ({"depth": 7, "step": 0.006}, "step"),
        ({"depth": 7, "cutter": 0.2}, "cutter"),
    ],
)
def test_refusals_name_the_field(given, field):
    with pytest.raises(BadInput) as refusal:
        work("slot", **{"width": 2, "depth": 1, "length": 8, "diameter": 8, **given})
    assert refusal.value.field == field


def test_the_inch_bench_mills_with_its_own_cutters():
    answer = work("slot", INCH, width="0.08in", depth="0.06in", length="0.5in", diameter="0.5in")
    assert answer.figure("cutter").value == pytest.approx(25.4 / 16)
