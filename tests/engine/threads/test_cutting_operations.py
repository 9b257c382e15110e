"""The operations three-wires, screwcutting, change-gears and thread-fit, as the doors call them."""

from dataclasses import replace
from fractions import Fraction
from math import cos, radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.shop.file import sample
from tests.rows import each_row
from tests.spoken import spoken

METRIC, INCH = sample("metric"), sample("inch")


def answer(operation, shop=METRIC, unit="mm", **given):
    return spoken(run(operation, given, shop, unit=unit).answer, unit)


def _told(operation, **given):
    return " ".join(note.text for note in answer(operation, **given).notes)


def values(found):
    return {figure.name: figure.value if figure.value is not None else figure.text for figure in found.figures}


@each_row(
    "operation",
    [load(name) for name in ("screwcutting", "change-gears", "thread-fit", "thread-strength", "thread-relief")],
    ids=lambda operation: operation.id,
)
@each_row("shop", [METRIC, INCH], ids=["metric", "inch"])
def test_example_answers(operation, shop):
    found = run(operation.id, operation.example, shop).answer
    for figure in found.figures:
        assert figure.source
        assert figure.working
    for table in found.tables:
        assert all(len(row) == len(table.columns) for row in table.rows)


# three-wires


def test_m10_over_wires():
    """d2 8.862 to 8.994 (ISO 965-1): M = d2 + 3 w - 0.866025 P, Machinery's Handbook, 31st ed., p. 2130."""
    found = values(answer("three-wires", size="M10", wire="0.895"))
    assert found["over_wires_max"] == pytest.approx(8.994 + 2.685 - 1.29904, abs=0.0025)
    assert found["over_wires_min"] == pytest.approx(8.862 + 2.685 - 1.29904, abs=0.0025)
    assert found["over_wires_max"] - found["over_wires_min"] == pytest.approx(0.132, abs=1e-4)
    assert found["best_wire"] == pytest.approx(0.57735 * 1.5, abs=1e-5)
    assert found["wire_min"] == pytest.approx(0.505182 * 1.5, abs=1e-5)
    assert found["wire_max"] == pytest.approx(1.010362 * 1.5, abs=1e-5)


def test_owned_wire_is_taken_else_the_best():
    assert values(answer("three-wires", size="M10"))["wire"] == 0.895
    bare = replace(METRIC, wires=(0.2, 3.0))
    assert values(answer("three-wires", bare, size="M10"))["wire"] == pytest.approx(0.866025, abs=1e-5)


@pytest.mark.parametrize(("reading", "state"), [("10.42", "too big"), ("10.31", "in limits"), ("10.20", "too small")])
def test_state_of_a_reading(reading, state):
    found = values(answer("three-wires", size="M10", wire="0.895", reading=reading))
    assert found["state"] == state
    assert found["to_max"] == pytest.approx(found["pitch_diameter"] - 8.994)
    assert found["to_min"] == pytest.approx(found["pitch_diameter"] - 8.862)
    assert ("infeed_to_max" in found) == (state == "too big")
    assert found["pitch_diameter"] == pytest.approx(float(reading) - 2.685 + 1.29904, abs=0.0025)


def test_infeed_on_the_owners_dials():
    """0.1 mm on diameter is 0.05 mm of radius: two of the cross slide's 0.025 mm lines; a diameter dial shows 0.1."""
    at_middle = values(answer("three-wires", size="M10", wire="0.895"))
    middle = (at_middle["over_wires_max"] + at_middle["over_wires_min"]) / 2
    found = values(answer("three-wires", size="M10", wire="0.895", reading=f"{middle + 0.1002:.6f}"))
    assert found["infeed_to_middle"] == pytest.approx(0.0501, abs=1e-4)
    assert (found["cross_turns"], found["cross_reading"]) == (0, pytest.approx(0.05))
    # 0.0501 / cos 29.5 = 0.0576 mm: two lines of 0.025 mm.
    assert (found["top_turns"], found["top_reading"]) == (0, pytest.approx(0.05))
    slide = replace(METRIC.lathe.cross_slide, reads_diameter=True)
    twice = replace(METRIC, lathe=replace(METRIC.lathe, cross_slide=slide))
    found = values(answer("three-wires", twice, size="M10", wire="0.895", reading=f"{middle + 0.1002:.6f}"))
    assert found["cross_reading"] == pytest.approx(0.1)


def test_force_raises_the_pitch_diameter_told():
    """2.4 µm at 5 N for M10 with the best wire: contact of crossed cylinders, worked independently."""
    without = values(answer("three-wires", size="M10", wire="0.866", reading="10.31"))
    forced = values(answer("three-wires", size="M10", wire="0.866", reading="10.31", force="5 N"))
    assert forced["pitch_diameter"] - without["pitch_diameter"] == pytest.approx(0.0024, abs=2e-5)
    assert without["over_wires_max"] - forced["over_wires_max"] == pytest.approx(0.0024, abs=2e-5)


def test_steep_threads_are_solved_exactly():
    """Tr10x4 (P2) and Tr8x8 (P2) over 1.035276 wires: an independent numerical solution of the contact."""
    for size, measured in (("Tr10x4(P2)", 10.33904), ("Tr8x8(P2)", 8.52097)):
        found = answer("three-wires", size=size, wire="1.035276")
        assert found.figure("over_wires_basic").value == pytest.approx(measured, abs=2e-5)
        assert "exact contact" in found.figure("over_wires_basic").source


@pytest.mark.parametrize(
    ("size", "wire", "measured"), [("Tr40x14(P7)", "3.706", 41.5574), ("1-5 ACME", "2.949mm", 27.7897)]
)
def test_contact_is_exact_below_seven_degrees_too(size, wire, measured):
    """An independent solution of the contact: a wire free to settle in the helical groove."""
    assert answer("three-wires", size=size, wire=wire).figure("over_wires_basic").value == pytest.approx(
        measured, abs=6e-5
    )


def test_the_reading_leads_with_the_move_on_the_slide_that_is_used():
    """0.1 mm over the middle is 0.05 of radius: two lines of 0.025 on the cross slide, 0.0576 along 29.5 degrees."""
    middle = sum(values(answer("three-wires", size="M10", wire="0.895"))[n] for n in OVER) / 2
    given = {"size": "M10", "wire": "0.895", "reading": f"{middle + 0.1702:.6f}"}
    for slide, wheel in ((None, "Top slide"), ("top", "Top slide"), ("cross", "Cross slide")):
        lead = answer("three-wires", **given, **({"slide": slide} if slide else {})).lead
        assert (lead.name, lead.setting.wheel, lead.setting.way, lead.setting.turns) == (*("setting", wheel, "on"), 0)
        assert lead.setting.line == 3
    assert answer("three-wires", size="M10", wire="0.895", reading=f"{middle:.6f}").lead.name == "state"
    assert answer("three-wires", size="M10", wire="0.895", reading="10.20").lead.text == "too small"
    assert answer("three-wires", size="M10", wire="0.895").lead.name == "over_wires_max"
    off = answer("three-wires", **given).figure("take_off")
    assert (off.low, off.high) == (pytest.approx(0.1042, abs=2e-4), pytest.approx(0.2362, abs=2e-4))


OVER = ("over_wires_max", "over_wires_min")


def test_the_top_slide_is_the_one_that_screwcutting_sets():
    """Tr12x3 is cut at 14 degrees: the travel is the infeed over cos 14, not over cos 29.5 (geometry)."""
    shop = replace(METRIC, lathe=replace(METRIC.lathe, top_slide=replace(METRIC.lathe.top_slide, divisions=2000)))
    over = answer("three-wires", shop, size="Tr12x3", wire="1.553", reading="12.6")
    deep = over.figure("infeed_to_middle").value
    assert over.figure("top_reading").value == pytest.approx(deep / cos(radians(14.0)), abs=0.001)


def test_uncertainty_of_a_home_kit():
    """Micrometer 4 µm as 2.3, wires 1 µm each thrice, feel 3, warmth 1: 5 µm, 10 at k = 2 (derived, no lab's own)."""
    counted = values(answer("three-wires", size="M10", wire="0.866", force="7.5 N"))
    assert counted["uncertainty"] == pytest.approx(0.010, abs=0.0005)
    assert counted["worst_case"] > counted["uncertainty"]
    not_counted = answer("three-wires", size="M10", wire="0.866")
    assert not_counted.figure("uncertainty").value > counted["uncertainty"]
    shares = not_counted.table("budget").column("standard")
    assert not_counted.figure("uncertainty").value == pytest.approx(2 * sum(s * s for s in shares) ** 0.5)


@pytest.mark.parametrize("which", ["upper", "lower"])
@pytest.mark.parametrize("side", [-1, 1])
def test_a_reading_near_a_limit_says_so(which, side):
    over = values(answer("three-wires", size="M10", wire="0.895"))
    at = over["over_wires_max" if which == "upper" else "over_wires_min"]
    good_to = over["uncertainty"]
    for away, told in ((0.98 * good_to, True), (1.02 * good_to, False)):
        found = answer("three-wires", size="M10", wire="0.895", reading=f"{at + side * away:.6f}")
        said = [note.text for note in found.notes if "other side" in note.text]
        assert bool(said) == told
        assert not said or f"the {which} limit" in said[0]


def test_taper_pipe_by_the_published_formula():
    """E = 1.00049 M - 3.00049 w + 0.86603 p (a gauge maker's catalogue, 2023, p. 130); E1 of 1/8-27 is 0.37360 in."""
    found = values(answer("three-wires", size="1/8 NPT", wire="0.02138in"))
    measured = found["over_wires_basic"] / 25.4
    assert 1.00049 * measured - 3.00049 * 0.02138 + 0.86603 / 27 == pytest.approx(0.37360, abs=3e-5)


@pytest.mark.parametrize("given", [{"size": "M10-6H"}, {"size": "M10", "tolerance": "6H"}, {"size": "Rp1/2"}])
def test_internal_threads_are_refused(given):
    with pytest.raises(BadInput, match="internal thread"):
        answer("three-wires", **given)


def test_a_wire_outside_its_range_is_refused_with_the_range():
    with pytest.raises(BadInput, match=r"0\.758 mm to 1\.515 mm"):
        answer("three-wires", size="M10", wire="0.7")


# screwcutting


def test_depth_of_m10_holds_the_forms_own():
    """0.613435 P = 0.920 mm (ISO 724) lies between the depths that the class allows."""
    depth = answer("screwcutting", size="M10").figure("depth")
    assert depth.low < 0.9202 < depth.high
    assert depth.low < depth.value < depth.high
    from_top = answer("screwcutting", size="M10", blank="9.968").figure("depth")
    assert from_top.low == pytest.approx(0.9202, abs=3e-4)  # the limits are rounded to 0.001 on diameter


SIZES = ["M3", "M10", "M10-6H", "1/4-20", "3/8 BSW", "2BA", "Tr12x3", "3/4-6 ACME", "1/8 NPT", "G1/4", "Tr8x8(P2)"]


@each_row("size", SIZES)
@each_row("shop", [METRIC, INCH], ids=["metric", "inch"])
@each_row("slide", ["top", "cross"])
def test_passes_on_the_dial(size, shop, slide):
    found = answer("screwcutting", shop, size=size, slide=slide)
    table, depth = found.table("passes"), found.figure("depth").value
    cuts, depths = table.column("cut"), table.column("total_depth")
    assert table.column("pass") == tuple(range(1, len(cuts) + 1))
    owned = shop.lathe.top_slide if slide == "top" else shop.lathe.cross_slide
    at = found.figure("slide_angle").value if slide == "top" else 0.0
    line = float(owned.travel_per_turn / owned.divisions) * cos(radians(at))
    assert sum(cuts) == pytest.approx(depths[-1])
    assert max(cuts) <= 0.2 + 1e-9
    assert depth - line < depths[-1] <= depth + 1e-9
    assert depths[-1] / line == pytest.approx(round(depths[-1] / line))  # what the dial reaches, not what is wanted
    taken = [cut for cut in cuts if cut]
    assert taken == sorted(taken, reverse=True)
    assert taken[-1] >= 0.05 - 1e-9
    settings = table.column("set")
    assert [s.turns for s in settings] == list(table.column("slide_turns"))
    assert found.lead.setting == settings[0]
    assert found.figure("full_setting").setting == settings[-1]
    travel = [
        turns * float(owned.travel_per_turn) + reading
        for turns, reading in zip(table.column("slide_turns"), table.column("slide_reading"), strict=True)
    ]
    assert travel == sorted(travel)
    assert travel[-1] <= found.figure("slide_travel").value + 1e-9
    assert travel[-1] > found.figure("slide_travel").value - float(owned.travel_per_turn / owned.divisions)
    assert table.column("kind")[-2:] == ("spring", "spring")
    assert set(table.setting) <= {column.name for column in table.columns}


def test_a_dial_that_reads_diameter_shows_twice():
    slide = replace(METRIC.lathe.cross_slide, reads_diameter=True)
    twice = replace(METRIC, lathe=replace(METRIC.lathe, cross_slide=slide))
    plain = answer("screwcutting", size="M10", slide="cross").table("passes").column("slide_reading")
    shown = answer("screwcutting", twice, size="M10", slide="cross").table("passes").column("slide_reading")
    assert shown == pytest.approx([2 * reading for reading in plain])


def test_a_line_short_of_the_depth_is_told():
    """0.894 mm on a cross slide of 0.025 mm lines stops at 0.875, 0.019 short of radius (arithmetic)."""
    slide = replace(METRIC.lathe.cross_slide, reads_diameter=True)
    twice = replace(METRIC, lathe=replace(METRIC.lathe, cross_slide=slide))
    for shop in (METRIC, twice):
        found = answer("screwcutting", shop, size="M10", slide="cross", blank="9.85")
        assert any("0.019 mm of radius short" in note.text for note in found.notes)


@pytest.mark.parametrize(
    ("size", "blank", "words"),
    [
        ("M10-6g", "9.731", "under the class's limits, 9.732 mm to 9.968 mm: its crests will be flat"),
        ("M10-6g", "9.732", ""),
        ("M10-6g", "9.968", ""),
        ("M10-6g", "9.969", "over the class's limits, 9.732 mm to 9.968 mm: turn it down first"),
        ("M10-6H", "8.375", "under the class's limits, 8.376 mm to 8.676 mm: bore it out first"),
        ("M10-6H", "8.376", ""),
        ("M10-6H", "8.676", ""),
        ("M10-6H", "8.677", "over the class's limits, 8.376 mm to 8.676 mm: its thread will be shallow"),
    ],
)
def test_a_blank_outside_the_class_is_told(size, blank, words):
    """M10 - 6g major 9.732 to 9.968, M10 - 6H minor 8.376 to 8.676: ISO 965-2."""
    told = _told("screwcutting", size=size, blank=blank)
    assert (words in told) if words else ("class's limits" not in told)


def test_a_line_coarser_than_the_depth_is_refused():
    slide = replace(METRIC.lathe.cross_slide, divisions=1)
    coarse = replace(METRIC, lathe=replace(METRIC.lathe, cross_slide=slide))
    with pytest.raises(BadInput, match="slide"):
        answer("screwcutting", coarse, size="M1", slide="cross", first_cut="2", last_cut="0.1")


def test_starts_by_a_slide_parallel_to_the_bed():
    """Two starts of 4 mm: 4 mm along on the top slide, its turn 1.5 mm (arithmetic); never along a swivelled slide."""
    found = answer("screwcutting", size="Tr20x8(P4)")
    table = found.table("starts")
    assert table.count_noun == "start"
    turn = float(METRIC.lathe.top_slide.travel_per_turn)
    second = table.column("set")[1]
    assert second.wheel == "Top slide"
    assert second.turns * turn + second.on_dial == pytest.approx(4.0)
    assert "stands at an angle" in _told("screwcutting", size="Tr20x8(P4)")
    assert not any(t.name == "starts" for t in answer("screwcutting", size="Tr20x4").tables)


@pytest.mark.parametrize(("slide", "size", "way"), [("cross", "M10", "in"), ("top", "M10-6H", "out")])
def test_the_first_cut_leads(slide, size, way):
    lead = answer("screwcutting", size=size, slide=slide).lead
    assert (lead.name, lead.setting.wheel, lead.setting.way) == ("setting", f"{slide.capitalize()} slide", way)


@pytest.mark.parametrize(("last", "said"), [("0.09", False), ("0.15", True)])
def test_a_pass_less_than_asked_for_is_told(last, said):
    """Lines of 0.05 mm (a turn of 1 mm, 20 lines): 17 lines in cuts of at most 4 leave 3 at the least."""
    slide = replace(METRIC.lathe.cross_slide, travel_per_turn=Fraction(1), divisions=20)
    shop = replace(METRIC, lathe=replace(METRIC.lathe, cross_slide=slide))
    told = " ".join(
        note.text
        for note in answer("screwcutting", shop, size="M10", slide="cross", last_cut=last, first_cut="0.16").notes
    )
    assert ("less than the smallest cut" in told) == said


def test_a_bore_is_fed_towards_the_operator():
    """Common practice, no source: inside, the tool comes from the middle of the bore."""
    told = {
        size: " ".join(note.text for note in answer("screwcutting", size=size).notes) for size in ("M10-6H", "M10-6g")
    }
    assert "towards you" in told["M10-6H"]
    assert "other side than for a screw" in told["M10-6H"]
    assert "towards you" not in told["M10-6g"]
    plain = answer("screwcutting", size="M10-6H", slide="cross")
    assert not any("top slide" in note.text for note in plain.notes)


@pytest.mark.parametrize(("size", "angle"), [("M10", 29.5), ("3/8 BSW", 27.0), ("3/4-6 ACME", 14.0), ("2BA", 23.0)])
def test_angle_of_the_top_slide(size, angle):
    """Half the included angle less half a degree, NAVEDTRA 14345 for 29.5; the others common practice, no source."""
    found = values(answer("screwcutting", size=size))
    assert found["slide_angle"] == angle
    assert found["slide_travel"] == pytest.approx(found["depth"] / cos(radians(angle)))


def test_the_gap_limits_the_speed():
    """3 mm at a lead of 1.5 mm takes 1 s at 120 rev/min; the lathe has 100 and 160."""
    found = values(answer("screwcutting", size="M10", gap="3"))
    assert found["rpm_limit"] == pytest.approx(120)
    assert found["rpm"] == 100
    assert found["time_to_shoulder"] == pytest.approx(1.2)
    assert "rpm_limit" not in values(answer("screwcutting", size="M10"))
    tight = answer("screwcutting", size="M10", gap="0.5")
    assert tight.figure("rpm").value == 65
    assert any("by hand" in note.text for note in tight.notes)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"slide_angle": "31"}, "slide_angle"),
        ({"first_cut": "0.01"}, "first_cut"),
        ({"first_cut": "0.1", "last_cut": "0.2"}, "last_cut"),
        ({"blank": "8"}, "blank"),
        ({"tolerance": "9z"}, "tolerance"),
    ],
)
def test_screwcutting_refusals(given, field):
    with pytest.raises(BadInput) as refused:
        answer("screwcutting", size="M10", **given)
    assert refused.value.field == field


# change-gears


def test_published_train_is_found():
    """Turning and Boring, 1914, p. 170: 24 threads on a 6 tpi screw with 40 and 30 driving 80 and 60."""
    found = values(answer("change-gears", tpi="24", leadscrew="6 tpi", wheels="30,40,60,80"))
    assert found["error_ppm"] == 0
    assert {found["drivers"], found["driven"]} <= {"30, 40", "40, 30", "60, 80", "80, 60"}
    assert found["tpi_cut"] == pytest.approx(24)


def test_one_line_of_the_dial_is_spoken_of_as_one():
    """16 teeth on a 3 mm screw, 4 lines: one is 12 mm, six leads of 2 mm; 0.7 mm needs two of 10.5 (arithmetic)."""
    for pitch, words in (("2", "; it is a whole number"), ("0.7", "; 2 of them are a whole number")):
        assert words in answer("change-gears", pitch=pitch, leadscrew="3").figure("thread_dial").working


def test_one_of_size_pitch_and_tpi():
    for said in ({}, {"pitch": "1", "tpi": "20"}):
        with pytest.raises(BadInput, match="size"):
            answer("change-gears", **said)


def test_an_error_of_lead_says_where_it_binds():
    """80/63 for 127/100 is -125 ppm (arithmetic from 25.4): clearance 0.1 x tan 30 ÷ 125e-6 = 462 mm."""
    wheels = "63,80,40,50,100,25"
    found = answer("change-gears", pitch="1", leadscrew="8 tpi", wheels=wheels, clearance="0.1")
    told = values(found)
    assert abs(told["error_ppm"]) == pytest.approx(125, abs=0.1)
    assert told["error_per_100"] == pytest.approx(told["error_ppm"] / 10_000)
    assert told["to_bind"] == pytest.approx(462, abs=1)
    assert told["turns_to_bind"] == pytest.approx(462, abs=1)
    assert told["thread_dial"] == "leave the half-nuts closed"


@pytest.mark.parametrize(("tpi", "error"), [("8/3", 0), ("11.5", 0)])
def test_threads_per_inch_stay_exact(tpi, error):
    """8/3 threads per inch on an 8 tpi screw is 3 to 1 exactly (arithmetic)."""
    found = values(answer("change-gears", tpi=tpi, leadscrew="8 tpi", wheels="20,32,46,60,90,30,40", wheels_used="4"))
    assert found["error_ppm"] == error


def test_starts_are_counted_on_the_first_driver():
    """Two starts: half the teeth of a wheel that turns with the spindle (arithmetic), and one pitch along."""
    found = answer("change-gears", size="Tr20x8(P4)")
    table = found.table("starts")
    first = int(found.figure("drivers").text.split(",")[0])
    assert table.count_noun == "start"
    assert table.column("start") == (1, 2)
    assert table.column("teeth_on") == (0, first // 2)
    assert table.column("shift") == pytest.approx((0, 4.0))
    told = " ".join(note.text for note in found.notes)
    assert f"{first // 2} teeth" in told
    assert "parallel to the bed" in told
    odd = answer("change-gears", size="Tr20x8(P4)", wheels="25,45,15,75", leadscrew="24")
    assert odd.table("starts").column("teeth_on")[1] is None
    assert any("no whole number of teeth" in note.text for note in odd.notes)
    assert not any(t.name == "starts" for t in answer("change-gears", size="M10").tables)


@pytest.mark.parametrize(("pitch", "said"), [("1.000999", False), ("1.001", False), ("1.0011", True)])
def test_an_error_over_a_thousandth_is_warned_of(pitch, said):
    """Equal wheels on a 1 mm screw cut 1 mm: out by the pitch less 1, of the pitch (arithmetic)."""
    assert ("% out" in _told("change-gears", pitch=pitch, wheels="50,50", leadscrew="1")) == said


@pytest.mark.parametrize(("pitch", "said"), [("5.99", False), ("6", False), ("6.01", True)])
def test_a_lead_of_more_than_two_leadscrew_leads_strains_the_wheels(pitch, said):
    """Common practice, no source."""
    assert ("this coarse" in _told("change-gears", pitch=pitch)) == said


def test_a_left_hand_thread_turns_the_leadscrew_the_other_way():
    assert "Left hand" in _told("change-gears", size="M10 LH")
    assert "Left hand" not in _told("change-gears", size="M10")


@pytest.mark.parametrize(("longer", "said"), [(-0.001, False), (0.001, True)])
def test_a_nut_longer_than_where_it_binds_is_warned_of(longer, said):
    given = {"pitch": "1", "leadscrew": "8 tpi", "wheels": "63,80,40,50,100,25", "clearance": "0.1"}
    binds = values(answer("change-gears", **given))["to_bind"]
    assert ("binds after" in _told("change-gears", nut_length=f"{binds + longer}", **given)) == said


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(16, 127), min_size=4, max_size=14),
    st.sampled_from(["0.5", "0.75", "1", "1.25", "1.5", "2", "0.9071"]),
    st.sampled_from(["2", "4", "6"]),
)
def test_every_train_shown_cuts_what_it_says(wheels, pitch, used):
    listed = ",".join(map(str, wheels))
    try:
        found = answer("change-gears", pitch=pitch, leadscrew="3", wheels=listed, wheels_used=used)
    except BadInput as refused:
        assert refused.field == "wheels"
        return
    for drivers, driven, lead, ppm, room in found.table("trains").rows:
        ratio = Fraction(1)
        for top, bottom in zip(drivers.split(", "), driven.split(", "), strict=True):
            ratio *= Fraction(int(top), int(bottom))
        assert lead == pytest.approx(float(3 * ratio))
        assert ppm == pytest.approx(float((3 * ratio / Fraction(pitch) - 1) * 1_000_000), abs=1e-6)
        assert room is None or room > 0


# thread-fit


def test_ring_gauge_example():
    """M10x1.5 of 8.900, lead 0.05 % long over 15 mm: 0.0130 mm (cot 30 x 0.0075), a metrology course."""
    given = {"screw_pitch_diameter": "8.9", "nut_pitch_diameter": "9.026", "engagement": "15"}
    found = values(answer("thread-fit", size="M10", lead_error_ppm="500", **given))
    assert found["functional_screw"] == pytest.approx(8.9130, abs=1e-4)
    assert found["state"] == "fits"
    assert found["turns_to_bind"] == pytest.approx(0.126 / 0.0130 * 10, rel=0.002)


@pytest.mark.parametrize(
    ("screw", "ppm", "state"), [("8.9", "0", "fits"), ("9.0", "5000", "binds"), ("9.03", "0", "will not start")]
)
def test_state_of_a_fit(screw, ppm, state):
    found = answer(
        "thread-fit",
        size="M10",
        screw_pitch_diameter=screw,
        nut_pitch_diameter="9.026",
        lead_error_ppm=ppm,
        engagement="10",
    )
    assert found.figure("state").text == state
    assert found.has("turns_to_bind") == (ppm != "0")
    assert any("as thick as the nut" in note.text for note in found.notes) == (state == "will not start")


def test_flanks_alone_that_bind_are_named():
    """Two flanks of M10 each 3 degrees out: 2 x 0.0087 P a degree (a textbook form) = 0.078 mm, over 0.026."""
    sizes = {"screw_pitch_diameter": "9", "nut_pitch_diameter": "9.026"}
    found = answer("thread-fit", size="M10", flank_error="3", **sizes)
    assert found.figure("state").text == "will not start"
    (words,) = [note.text for note in found.notes if note.level == "warning"]
    assert "flanks take all the clearance" in words


@pytest.mark.parametrize(
    ("screw", "nut", "ring", "plug"),
    [("8.994", "9.026", False, False), ("8.995", "9.026", True, False), ("8.9", "9.025", False, True)],
)
def test_gauges_that_would_not_pass(screw, nut, ring, plug):
    """M10: 6g reaches 8.994 at the most, 6H begins at 9.026 (ISO 965-2)."""
    told = _told("thread-fit", size="M10", screw_pitch_diameter=screw, nut_pitch_diameter=nut)
    assert ("GO ring" in told) == ring
    assert ("GO plug" in told) == plug


@pytest.mark.parametrize("field", ["screw_pitch_diameter", "nut_pitch_diameter"])
@pytest.mark.parametrize(("size", "refused"), [("7.525", True), ("7.526", False), ("10.526", False), ("10.527", True)])
def test_another_threads_pitch_diameter_is_refused(field, size, refused):
    """M10 is 9.026, one pitch of 1.5 either way (ISO 724)."""
    given = {"screw_pitch_diameter": "8.92", "nut_pitch_diameter": "9.08", field: size}
    if not refused:
        assert answer("thread-fit", size="M10", **given).figures
        return
    with pytest.raises(BadInput, match=r"basic size of M10 is 9\.026") as told:
        answer("thread-fit", size="M10", **given)
    assert told.value.field == field
    assert "0.3554 in" in told.value.written("inch")


@pytest.mark.parametrize(
    ("engaged", "words"), [(-0.01, "is less than the"), (0.01, ""), (None, "fewer than three threads")]
)
def test_too_little_engaged_is_warned_of(engaged, words):
    given = {"size": "M10", "property_class": "4.6", "nut_material": "mild steel"}
    needed = answer("thread-strength", **given).figure("engagement_needed").value
    if engaged is None:
        # A weak screw in a strong nut: enough to hold, and still less than three pitches of 1.5.
        told = _told("thread-strength", engagement="4.49", **given)
        assert (words in told) == (needed < 4.49)
        return
    told = _told("thread-strength", engagement=f"{needed + engaged}", **given)
    assert (words in told) if words else ("is less than the" not in told)


@pytest.mark.parametrize(
    ("operation", "given"),
    [
        ("three-wires", {"size": "M10", "reading": "10.6", "force": "5 N"}),
        ("screwcutting", {"size": "M10", "gap": "3"}),
        ("screwcutting", {"size": "Tr20x8(P4)-7H"}),
        ("change-gears", {"tpi": "11.5"}),
        (
            "thread-fit",
            {"size": "M10", "screw_pitch_diameter": "8.9", "nut_pitch_diameter": "9.1", "lead_error_ppm": "9"},
        ),
        ("thread-strength", {"size": "M10"}),
        ("thread-relief", {"size": "M10"}),
        ("thread-relief", {"size": "M10", "side": "nut"}),
    ],
)
def test_labels_fit_the_narrow_screen(operation, given):
    """At most 21 letters, so that none is cut at 80 columns."""
    labels = [figure.label for figure in answer(operation, **given).figures]
    labels += [ask.label for ask in asks(load(operation).inputs).values()]
    assert [label for label in labels if len(label) > 21] == []


@pytest.mark.parametrize(("off", "state"), [(-0.0002, "too small"), (0.0, "in limits"), (0.0002, "in limits")])
def test_over_cut_begins_below_the_smallest_limit(off, state):
    over = values(answer("three-wires", size="M10", wire="0.895"))["over_wires_min"]
    given = {"size": "M10", "wire": "0.895", "reading": f"{over + off:.9f}"}
    found = answer("three-wires", **given)
    assert found.figure("state").text == state
    assert ("Over-cut" in _told("three-wires", **given)) == (state == "too small")


@pytest.mark.parametrize(("off", "state"), [(-0.0002, "in limits"), (0.0, "in limits"), (0.0002, "too big")])
def test_too_big_begins_above_the_largest_limit(off, state):
    over = values(answer("three-wires", size="M10", wire="0.895"))["over_wires_max"]
    found = answer("three-wires", size="M10", wire="0.895", reading=f"{over + off:.9f}")
    assert found.figure("state").text == state
    assert (found.lead.name == "setting") == (state == "too big")
    assert found.has("take_off") == (state == "too big")


def test_a_size_without_limits_says_so():
    assert "No limits are published" in _told("three-wires", size="20 BA")
    assert "No limits are published" not in _told("three-wires", size="M10")
    assert "gauge plane" in _told("three-wires", size="1/8 NPT")


@pytest.mark.parametrize(("gap", "by_hand"), [("1.626", False), ("1.624", True)])
def test_a_gap_too_short_for_the_slowest_speed_is_turned_by_hand(gap, by_hand):
    """A second to 1.625 mm at a lead of 1.5 is the lathe's 65 rev/min (arithmetic; the second common practice)."""
    assert ("by hand" in _told("screwcutting", size="M10", gap=gap)) == by_hand


@pytest.mark.parametrize(("kept", "set_to"), [(28.4, 29.5), (28.5, 28.5), (30.0, 30.0), (30.1, 29.5)])
def test_a_top_slide_kept_near_the_flank_stays(kept, set_to):
    """Half a degree to a degree and a half below 30: common practice, no source."""
    shop = replace(METRIC, lathe=replace(METRIC.lathe, top_slide_angle=kept))
    found = answer("screwcutting", shop, size="M10")
    assert found.figure("slide_angle").value == set_to
    assert any("Set the top slide to" in note.text for note in found.notes) == (kept != set_to)


def test_a_slowest_speed_above_the_cuts_own_is_told():
    fast = replace(METRIC, lathe=replace(METRIC.lathe, speeds=(1000.0, 1500.0)))
    told = " ".join(note.text for note in answer("screwcutting", fast, size="M10").notes)
    assert "above the speed for this cut" in told
    assert "above the speed for this cut" not in _told("screwcutting", size="M10")


@pytest.mark.parametrize(("longer", "cut_down"), [(-0.01, True), (0.01, False)])
def test_torque_is_cut_down_where_the_thread_would_strip(longer, cut_down):
    """Three quarters of the stripping load is the most that tightening may use: common practice, no source."""
    given = {"size": "M10", "property_class": "8.8", "nut_material": "aluminium 6082"}
    ample = answer("thread-strength", engagement="40", **given)
    each = ample.figure("strip_load").value / 40
    enough = ample.figure("preload").value / (0.75 * each)
    found = answer("thread-strength", engagement=f"{enough + longer}", **given)
    assert any("cut down" in note.text for note in found.notes) == cut_down
    assert found.figure("preload").value <= ample.figure("preload").value + 1e-6


def test_a_fit_without_any_error_never_binds():
    found = answer("thread-fit", size="M10", screw_pitch_diameter="8.9", nut_pitch_diameter="9.0")
    assert not found.has("to_bind")
    assert found.figure("axial_play").value == pytest.approx(0.1 * 0.57735, abs=1e-5)
    equal = answer("thread-fit", size="M10", screw_pitch_diameter="9.0", nut_pitch_diameter="9.0")
    assert not equal.has("axial_play")
    assert equal.lead.text == "will not start"


def test_the_moment_of_a_thread_holds_what_its_cautions_read():
    """A screw turns with its own diameter, a nut's bore is what is known; feed is the lead, twice the pitch of two starts."""
    (screw,) = answer("screwcutting", size="Tr20x8(P4)", gap="6").moments
    assert (screw.machine, screw.work_diameter, screw.feed, screw.gap) == ("lathe", 20.0, 8.0, 6.0)
    assert screw.spindle_speed is not None
    assert screw.time_to_shoulder == pytest.approx(60 * 6 / (8 * screw.spindle_speed))
    (nut,) = answer("screwcutting", size="M10-6H").moments
    assert (nut.work_diameter, nut.time_to_shoulder) == (None, None)
    assert nut.bore == pytest.approx(8.526, abs=1e-3)
    (groove,) = answer("thread-relief", size="M10").moments
    assert (groove.machine, groove.work_diameter, groove.bore) == ("lathe", 10.0, None)


def test_the_first_cuts_working_counts_lines_of_the_dial():
    """Eight lines of 0.025 mm along 29.5 degrees are 0.1741 deep (arithmetic)."""
    lead = answer("screwcutting", size="M10").lead
    assert lead.setting.line == 8
    assert lead.working == "8 lines of 0.025 mm, 0.1741 mm of depth"
