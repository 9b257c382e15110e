"""Keys, keyseats and the passes of a slot."""

import csv
import itertools
from math import sqrt
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from engine.base.answer import Circle, Line, Polygon
from engine.base.operation import run
from engine.base.quantity import show
from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.base.words import write
from engine.cutting.deflection import deflection, second_moment
from engine.shop.file import sample
from engine.slotting.cutters import choose
from engine.slotting.keys import inch_key_for, woodruff_for, woodruff_keys
from engine.slotting.passes import BEND_ALLOWED, EFFECTIVE, MODULUS, crown, pass_depths
from engine.trouble import trouble_for
from tests.rows import each_row
from tests.shapes import sizes
from tests.spoken import spoken

METRIC, INCH = sample("metric"), sample("inch")
DATA = Path(__file__).parents[2] / "data" / "slotting"


def rows(name):
    return list(csv.DictReader(x for x in (DATA / name).read_text().splitlines() if not x.startswith("#")))


def work(operation_id, shop=METRIC, **given):
    return spoken(run(operation_id, {k: str(v) for k, v in given.items()}, shop).answer)


KEYS = rows("keyways.csv")


@each_row("row", KEYS, ids=lambda r: f"{r['over']}-{r['to']}")
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


@pytest.mark.parametrize("diameter", ["5.99", "110.01", "0.5", "500"])
def test_shafts_beyond_the_table_are_refused(diameter):
    with pytest.raises(BadInput, match="DIN 6885-1"):
        work("key", diameter=diameter)


def test_a_shaft_of_6_mm_has_the_first_key():
    """Tables of DIN 6885 in use list 6 to 8 mm with a key of 2 x 2."""
    answer = work("key", diameter=6)
    assert [answer.figure(n).value for n in ("width", "height", "shaft_depth", "hub_depth")] == [2, 2, 1.2, 1.0]


def test_widths_of_keyways():
    """ISO 286: N9 0/-30, JS9 +-15, P9 -12/-42 micrometres over 3 up to 6 mm; DIN 6885-1 gives a 12 mm shaft 4 x 4."""
    answer = work("key", diameter=12)
    for name, low, high in (("shaft_width", 3.970, 4.0), ("hub_width", 3.985, 4.015), ("tight_width", 3.958, 3.988)):
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


@given(width=st.floats(0.3, 8), depth=st.floats(0.2, 4), stuff=st.sampled_from(["mild steel", "brass", "silver steel"]))
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
        down = cell["dial"].turns * float(METRIC.mill.z.travel_per_turn) + cell["dial"].on_dial
        line = float(METRIC.mill.z.travel_per_turn) / METRIC.mill.z.divisions
        last = cell["depth"] == pytest.approx(depth)
        assert down <= cell["depth"] + (line / 2 if last else 0) + 1e-9
    if "cross_dial" in names:
        turn = float(METRIC.mill.y.travel_per_turn)
        across = [cell.turns * turn + cell.on_dial for cell in passes.column("cross_dial")]
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


FED = [
    # The cutter's far side lies its diameter beyond the face that it touches: geometry, worked by hand. 2 mm a turn.
    ({"length": 8}, (0, 0.0), (4, 0.0)),  # runs out at the end face
    ({"length": 8, "begins": 10}, (6, 0.0), (9, 0.0)),  # 10 + 2 to 10 + 8
    ({"length": 8.05, "begins": 9.99}, (6, 0.0), (9, 0.04)),  # on lines that leave it no longer: 11.99, 18.04
    ({"length": 12, "place": "end"}, (0, 0.0), (7, 0.0)),  # across the whole face and clear of it
    ({"length": 6, "place": "end"}, (2, 1.0), (4, 1.0)),  # 3 + 2 to 3 + 6, in the middle of 12
]


@pytest.mark.parametrize(("given", "start", "end"), FED)
def test_every_pass_is_fed_between_two_readings(given, start, end):
    answer = work("slot", width=2, depth=1, diameter=12, **given)
    for name, wanted in (("from_dial", start), ("to_dial", end)):
        cells = answer.table("passes").column(name)
        assert {(cell.wheel, cell.turns, round(cell.on_dial, 6)) for cell in cells} == {("Mill x", *wanted)}
    for name, (turns, dial) in (("start", start), ("end", end)):
        setting = answer.figure(name).setting
        assert (setting.turns, round(setting.on_dial, 6)) == (turns, dial)


def test_a_slot_that_begins_in_the_metal_wants_a_cutter_for_it():
    asked = {"cutter": "6", "width": 6, "depth": 1, "length": 20, "diameter": 20, "begins": 5}
    two = work("slot", **asked)
    assert not any("over the cutter's middle" in note.text for note in two.notes)
    shop = replace(METRIC, end_mills=tuple(replace(mill, flutes=4) for mill in METRIC.end_mills))
    assert any("over the cutter's middle" in note.text for note in work("slot", shop, **asked).notes)


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


SEATS = [row for row in rows("keyseats_b17_1.csv") if "taper" not in row["quantity"]]


@each_row("row", SEATS, ids=lambda r: f"{r['shaft']} {r['quantity']}")
def test_a_published_inch_keyseat(row):
    form = "rectangular" if "rectangular" in row["quantity"] else "parallel"
    answer = work("key", diameter=f"{row['shaft']}in", standard="asme", form=form)
    assert answer.figure("width").value / 25.4 == pytest.approx(float(row["width"]))
    assert answer.figure("height").value / 25.4 == pytest.approx(float(row["height"]))
    name = "shaft_over_keyway" if row["quantity"].startswith("S") else "hub_over_keyway"
    assert answer.figure(name).value / 25.4 == pytest.approx(float(row["published"]), abs=0.0006)


DISCS = [row for row in rows("woodruff_b17_2.csv") if row["quantity"].startswith("keyseat")]


@each_row("row", DISCS, ids=lambda r: f"{r['width']} x {r['diameter']} {r['quantity']}")
def test_a_published_woodruff_keyseat(row):
    width, disc = float(row["width"]) * 25.4, float(row["diameter"]) * 25.4
    key = next(
        k for k in woodruff_keys("asme") if k.width == pytest.approx(width) and k.diameter == pytest.approx(disc)
    )
    found = key.shaft_depth if "shaft" in row["quantity"] else key.hub_depth
    assert found / 25.4 == pytest.approx(float(row["published"]), abs=float(row["tolerance"]))


@each_row("key", woodruff_keys("asme"), ids=lambda k: k.name)
def test_a_woodruff_number_says_its_size(key):
    """The last two digits are the disc in eighths of an inch, the rest the width in 32nds (202.5 is 1/16 x 5/16)."""
    number = float(key.name)
    eighths, width = number % 100, number // 100
    assert key.diameter / 25.4 == pytest.approx(eighths / 8)
    assert key.width / 25.4 == pytest.approx(width / 32)


@each_row("key", woodruff_keys("iso"), ids=lambda k: k.name)
def test_depths_of_a_metric_woodruff_key_leave_two_tenths(key):
    """DIN 6888, series A: shaft and hub together are the height and 0.2 mm."""
    assert key.shaft_depth + key.hub_depth - key.height == pytest.approx(0.2)
    assert key.height < key.diameter


def test_woodruff_keys_of_a_shaft():
    """Shafts of B17.2's widths: a design handbook. The disc of a metric key on a border goes with the smaller shaft."""
    assert all(k.low <= 19.05 <= k.high for k in woodruff_for(19.05, "asme"))
    assert {k.width for k in woodruff_for(10, "iso")} == {3}
    assert {k.width for k in woodruff_for(10.01, "iso")} == {4}
    assert work("key", diameter=3, form="woodruff").figure("width").value == 1
    for refused in ({"diameter": 2.9}, {"diameter": 38.1}, {"diameter": 20, "number": "999"}):
        with pytest.raises(BadInput):
            work("key", form="woodruff", **refused)


def test_a_woodruff_keyway_is_cut_from_the_top():
    """No. 404 on 1/2 in: 0.1355 at the edge, the edge 0.0079 below the top: the cutter goes 0.1434 down (geometry)."""
    answer = work("key", diameter="0.5in", form="woodruff", standard="asme", number="No. 404")
    drop = (0.5 - sqrt(0.25 - 0.125**2)) / 2
    assert answer.figure("cutter_down").value / 25.4 == pytest.approx(0.1355 + drop, abs=1e-4)
    assert answer.figure("key_above").value / 25.4 == pytest.approx(0.0625)  # a text that quotes B17.2's table
    depth = answer.figure("shaft_depth")
    assert (depth.high - depth.low) / 25.4 == pytest.approx(0.005)  # the standard's tolerance, upwards
    metric = work("key", diameter=20, form="woodruff")
    assert metric.figure("cutter_down").value == metric.figure("shaft_depth").value
    assert any("from memory" in note.text for note in metric.notes)
    assert not any("from memory" in n.text for n in work("key", diameter=9, form="woodruff", number="3x5").notes)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"diameter": "0.3in", "standard": "asme"}, "diameter"),
        ({"diameter": "7.6in", "standard": "asme"}, "diameter"),
        ({"diameter": "0.4in", "standard": "asme", "form": "rectangular"}, "form"),
        ({"diameter": 20, "form": "rectangular"}, "form"),
        ({"diameter": 20, "number": "404"}, "number"),
        ({"diameter": 6, "form": "woodruff", "number": "10 x 16"}, "number"),
    ],
)
def test_keys_that_are_not_there_are_refused_by_name(given, field):
    with pytest.raises(BadInput) as refusal:
        work("key", **given)
    assert refusal.value.field == field


def test_the_bench_decides_the_standard_and_a_word_the_other():
    """1/2 in: 1/8 in square (B17.1); by DIN 6885-1 12.7 mm takes 5 x 5."""
    assert work("key", INCH, diameter="0.5in").figure("width").value / 25.4 == pytest.approx(0.125)
    assert work("key", INCH, diameter="0.5in", standard="iso").figure("width").value == 5
    assert inch_key_for(7 / 16 * 25.4).width / 25.4 == pytest.approx(3 / 32)


@pytest.mark.parametrize(("inches", "said"), [("6.5", False), ("6.51", True)])
def test_above_6_and_a_half_inches_the_rectangular_key_is_preferred(inches, said):
    notes = work("key", diameter=f"{inches}in", standard="asme").notes
    assert any("rectangular key is preferred" in note.text for note in notes) is said


def test_the_keyway_is_set_past_its_depth_never_short():
    """DIN 6885-1: 1.8 +0.1 for 8 to 10 mm; on a dial of 0.02 mm lines the next line past it."""
    setting = work("key", diameter=9).figure("setting").setting
    turn = float(METRIC.mill.z.travel_per_turn)
    assert 0 <= setting.turns * turn + setting.on_dial - 1.8 < turn / METRIC.mill.z.divisions


@pytest.mark.parametrize("given", [{"diameter": 20}, {"diameter": "1in", "standard": "asme"},
                                   {"diameter": "1in", "standard": "asme", "form": "woodruff"}])  # fmt: skip
def test_a_key_is_drawn_to_its_numbers(given):
    answer = work("key", **given)
    picture = answer.pictures[0]
    outline = next(s for s in picture.shapes if isinstance(s, Polygon))
    xs, ys = [x for x, _ in outline.points], [y for _, y in outline.points]
    assert max(xs) - min(xs) == pytest.approx(answer.figure("width").value)
    assert max(ys) - min(ys) == pytest.approx(answer.figure("height").value)
    down = answer.figure("cutter_down" if answer.has("cutter_down") else "shaft_depth").value
    radius = next(s for s in picture.shapes if isinstance(s, Circle)).radius
    assert radius == pytest.approx(10 if given["diameter"] == 20 else 12.7)
    measured = sizes(picture)
    for value in (2 * radius, answer.figure("width").value):
        assert measured[show(value, "length")] == pytest.approx(value)
    assert radius - min(ys) == pytest.approx(down)
    roof = max(s.y1 for s in picture.shapes if isinstance(s, Line) and s.weight)
    assert roof > max(ys)  # there is room above the key


def passes_of(**given):
    return work("slot", **{"width": 4, "depth": 2.5, "length": 20, "diameter": 12, **given}).table("passes").rows


@pytest.mark.parametrize("step", [0.2, 0.3, 0.7, 1.3])
def test_the_deepest_pass_is_kept_on_the_sides_and_the_floor_is_one_depth(step):
    found = passes_of(step=step, material="brass")
    for place in ("middle", "first side", "second side"):
        depths = [row[2] for row in found if row[1] == place]
        assert max(b - a for a, b in zip([0.0, *depths], depths, strict=False)) <= step + 1e-9
    floors = {(row[4].turns, row[4].line) for row, after in zip(found, [*found[1:], None], strict=True)
              if after is None or after[1] != row[1]}  # fmt: skip
    assert len(floors) == 1


@example(depth=3.57, step=0.716)  # half way between two lines of the dial: 3.57 x 5 / 5 is a hair less than 3.57
@given(depth=st.floats(0.4, 5), step=st.floats(0.1, 1))
def test_middle_and_sides_end_on_one_line_of_the_dial(depth, step):
    found = passes_of(depth=round(depth, 3), step=round(step, 3), material="brass")
    last = {place: row[4] for row in found for place in [row[1]]}
    assert len({(cell.turns, cell.line) for cell in last.values()}) == 1


def test_a_plans_own_step_is_kept_on_the_sides_too():
    """Mild steel bears a quarter of the cutter: 3 mm takes 0.75 a pass, sides no more."""
    found = passes_of()
    depths = [row[2] for row in found if row[1] == "first side"]
    assert max(b - a for a, b in zip([0.0, *depths], depths, strict=False)) <= 0.75 + 1e-9


def note(words, **given):
    answer = work("slot", **{"width": 2, "depth": 1, "length": 8, "diameter": 8, **given})
    return any(words in n.text for n in answer.notes)


@pytest.mark.parametrize(("length", "said"), [(1.99, True), (2, False)])
def test_a_slot_shorter_than_its_cutter_is_said(length, said):
    assert note("shorter than the cutter is wide", length=length) is said


def test_across_the_end_a_short_slot_is_no_matter():
    assert not note("shorter than the cutter is wide", length=1, place="end")


@pytest.mark.parametrize(("depth", "said"), [(2.49, False), (2.5, False), (2.51, True)])
def test_little_wall_is_said(depth, said):
    """8 mm bar with a bore of 1: walls of 1.01, 1 and 0.99 mm."""
    assert note("of wall is left", depth=depth, bore=1) is said


@pytest.mark.parametrize(("flute", "said"), [(1.0, False), (0.99, True)])
def test_a_flute_shorter_than_the_depth_is_said(flute, said):
    assert note("shorter than the depth", flute_length=flute) is said


def test_a_tip_that_bends_too_far_is_said_and_a_plan_that_keeps_it_is_not():
    """Beam theory: the bend grows with the cube of the length; a plan of its own stops at 0.01 mm."""
    assert not note("The tip bends", flute_length=12)
    assert note("The tip bends", flute_length=12, step=1)
    answer = work("slot", width=2, depth=1, length=8, diameter=8, flute_length=12)
    assert "bends no more than 0.010 mm" in answer.figure("step").working
    assert (
        "bends no more"
        not in work("slot", width=6, depth=2, length=8, diameter=20, flute_length=5).figure("step").working
    )


def test_a_cutter_given_a_hair_wider_than_the_slot_is_pressed_by_its_own_width():
    """The bend is worked on the cutter's width, never on more: 0.004 mm of difference moves it by nothing."""
    wide = work("slot", width=2.004, depth=1, length=8, diameter=8, cutter=2, step=0.5)
    same = work("slot", width=2.0, depth=1, length=8, diameter=8, cutter=2, step=0.5)
    assert wide.figure("cutter_deflection").value == same.figure("cutter_deflection").value


def test_the_speed_is_the_lowest_step_inside_the_range_or_the_first_slower():
    answer = work("slot", width=3, depth=1, length=8, diameter=8)
    ideal = 1000 * 24.384 / (3.141592653589793 * 3)
    steps = METRIC.mill.speeds
    assert answer.figure("rpm").value in (
        min((s for s in steps if s >= ideal), default=0),
        max(s for s in steps if s <= ideal),
    )


def test_the_first_pass_leads_on_the_mills_dial():
    lead = work("slot", width=4, depth=2.5, length=20, diameter=12).lead
    assert lead.name == "setting" and lead.setting.wheel == "Mill z"
    first = passes_of()[0][4]
    assert (lead.setting.turns, lead.setting.line) == (first.turns, first.line)


def test_a_slot_is_drawn_to_its_numbers():
    picture = work("slot", width=4, depth=2.5, length=20, diameter=12).pictures[0]
    heavy = [s for s in picture.shapes if isinstance(s, Line) and s.weight == 1]
    floor = next(s for s in heavy if s.y1 == s.y2)
    assert (floor.x2 - floor.x1, 6 - floor.y1) == (pytest.approx(4), pytest.approx(2.5))
    assert sizes(picture) == {"2.500 mm": pytest.approx(2.5), "4.000 mm": pytest.approx(4), "12.000 mm": 12}
    assert picture.alt == "End of a bar of 12.000 mm with a slot 4.000 mm wide and 2.500 mm deep in its side."


def trouble(operation_id, row, **given):
    done = run(operation_id, {k: str(v) for k, v in given.items()}, METRIC)
    found = {t.id: write(t.number) for t in trouble_for(operation_id, done.answer, done.inputs, METRIC)}
    return found[row]


def test_troubles_of_slots_and_keys_say_their_numbers():
    turn = float(METRIC.mill.y.travel_per_turn)
    slot = {"width": 4, "depth": 2.5, "length": 20, "diameter": 12}
    assert trouble("slot", "IN-03", **slot) == f"{turn / 4:.3f} mm to {turn / 2:.3f} mm past, then back"
    bend = work("slot", **slot).figure("cutter_deflection").value
    assert trouble("slot", "SL-01", **slot) == f"the tip bends {bend:.3f} mm"
    assert trouble("key", "SL-02", diameter=20) == "the key is 6.000 mm wide"


def test_the_last_pass_stands_on_the_nearest_line_the_others_short_of_theirs():
    """1.335 mm on lines of 0.02 mm: the last at 1.34, the one before, 0.89 of it, at 0.88."""
    found = passes_of(depth=1.335, step=0.45)
    middle = [row[4] for row in found if row[1] == "middle"]
    turn = float(METRIC.mill.z.travel_per_turn)
    assert [cell.turns * turn + cell.on_dial for cell in middle] == pytest.approx([0.44, 0.88, 1.34])
    only = work("slot", width=4, depth=0.435, length=20, diameter=12, step=1).lead.setting
    assert only.turns * turn + only.on_dial == pytest.approx(0.44)


def test_where_cutter_and_step_come_from_is_said():
    for told, source in (
        ({}, "the widest owned end mill that goes in"),
        ({"width": 1.2}, "no owned end mill goes in"),
        ({"cutter": 2}, "as given"),
        ({"cutter": 1.3}, "as given; not among the owned end mills"),
    ):
        answer = work("slot", **{"width": 2, "depth": 1, "length": 8, "diameter": 8, **told})
        assert answer.figure("cutter").source == source
    asked = work("slot", width=2, depth=1, length=8, diameter=8, step=0.3)
    assert asked.figure("step").source == "as given"
    assert "common practice" in work("slot", width=2, depth=1, length=8, diameter=8).figure("step").source


@pytest.mark.parametrize(("step", "refused"), [(0.01, False), (0.0099, True)])
def test_a_hundred_passes_are_the_most(step, refused):
    if refused:
        with pytest.raises(BadInput):
            pass_depths(depth=1, step=step)
    else:
        assert len(pass_depths(depth=1, step=step)) == 100
