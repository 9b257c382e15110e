"""What holds for every knurl: whole teeth, a blank inside the wheel's tolerance, moves that cover the width."""

from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.knurling.passes import FIRST_BITE, OVERLAP, fed_along, pressed
from engine.shop.file import parse, sample
from tests.spoken import spoken

METRIC, INCH = sample("metric"), sample("inch")


def blank(shop=METRIC, unit="mm", **given):
    return spoken(run("knurl-blank", {k: str(v) for k, v in given.items()}, shop, unit=unit).answer, unit)


@given(
    near=st.floats(8, 80), pitch=st.floats(0.3, 2.5), form=st.sampled_from(["axial", "diagonal", "diamond", "crossed"])
)
def test_teeth_are_whole_and_the_blank_takes_them(near, pitch, form):
    answer = blank(near=f"{near:.4f}", pitch=f"{pitch:.4f}", form=form)
    teeth, step = answer.figure("teeth").value, answer.figure("per_tooth").value
    figure = answer.figure("blank_diameter")
    assert teeth == int(teeth) and teeth >= 8
    assert figure.value / step == pytest.approx(teeth)
    assert figure.low < figure.value < figure.high
    # A blank at either limit is at most a tenth of a tooth away from a whole count.
    assert abs(figure.high / step - teeth) <= 0.1 + 1e-9
    assert abs(figure.low / step - teeth) <= 0.1 + 1e-9
    assert abs(answer.figure("mismatch").value) <= 0.5 + 1e-9
    assert abs(figure.value - near) <= step / 2 + 1e-3


@given(near=st.floats(8, 80), pitch=st.sampled_from(["0.5", "0.8", "1.2"]))
def test_choices_are_neighbours_in_order(near, pitch):
    answer = blank(near=f"{near:.3f}", pitch=pitch)
    choices = answer.table("choices")
    teeth = choices.column("teeth")
    assert list(teeth) == list(range(teeth[0], teeth[0] + len(teeth)))
    assert answer.figure("teeth").value in teeth
    nearest = min(choices.rows, key=lambda row: abs(row[3]))
    assert nearest[0] == answer.figure("teeth").value


@given(finished=st.floats(10, 60))
def test_a_finished_diameter_is_met_by_its_own_blank(finished):
    answer = blank(near=f"{finished:.3f}", near_is="finished", pitch="0.8")
    step = answer.figure("per_tooth").value
    assert abs(answer.figure("finished_diameter").value - finished) <= step / 2 + 1e-3


def test_an_owned_wheel_works_by_its_counted_teeth():
    """Sample wheel: stamped 0.8, 78 teeth on 20 mm, so its true pitch is 62.832 / 78."""
    answer = blank(near=18)
    assert answer.figure("wheel_pitch").value == pytest.approx(0.80554, abs=1e-5)
    assert answer.figure("teeth").value == 70
    assert answer.figure("blank_diameter").value == pytest.approx(70 * 20 / 78)


def test_a_stamped_pitch_is_taken_at_its_word_and_the_owned_wheel_named():
    answer = blank(near=18, pitch=0.8)
    assert answer.figure("blank_diameter").value == pytest.approx(71 * 0.8 / 3.141592653589793)
    assert any("true pitch" in note.text and "17.949" in note.text for note in answer.notes)


def test_a_wheel_counted_at_the_bench_goes_before_everything():
    answer = blank(near=18, wheel_teeth=48, wheel_diameter=15)
    assert answer.figure("blank_diameter").value == pytest.approx(58 * 15 / 48)


def test_a_cut_knurl_does_not_grow():
    answer = blank(near=18, pitch=0.8, method="cut")
    assert answer.figure("growth").value == 0
    assert answer.figure("finished_diameter").value == answer.figure("blank_diameter").value


def test_a_doubling_blank_is_said():
    notes = [note.text for note in blank(near=18, pitch=0.8).notes]
    assert any("would double" in text for text in notes)
    assert not any("double" in note.text for note in blank(near=18.08, pitch=0.8).notes)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"near": 18, "pitch": 0.8, "tpi": 30}, "tpi"),
        ({"near": 1, "pitch": 0.8}, "near"),
        ({"near": 18, "wheel": 9}, "wheel"),
        ({"near": 18, "wheel_teeth": 48}, "wheel_diameter"),
        ({"near": 18, "form": "crossed"}, "pitch"),
        ({"near": 18, "pitch": 0.8, "form": "crossed", "method": "cut"}, "method"),
        ({"near": 18, "pitch": 0.8, "points": "indented"}, "points"),
        ({"near": 18, "pitch": 0.8, "form": "round"}, "form"),
    ],
)
def test_refusals_name_the_field(given, field):
    with pytest.raises(BadInput) as refusal:
        blank(**given)
    assert refusal.value.field == field


def test_the_inch_bench_is_answered_in_its_own_wheels():
    answer = blank(INCH, unit="inch", near="0.7")
    assert answer.figure("teeth").value == 73
    assert answer.figure("blank_diameter").value == pytest.approx(73 * 0.75 * 25.4 / 78)


@given(width=st.floats(0.5, 120), wheel=st.floats(2, 12), start=st.floats(0, 30))
@example(width=2.0000000000000004, wheel=2.0, start=0.0)  # wider than the wheel by a float's last place
def test_plunges_cover_the_width_and_overlap(width, wheel, start):
    moves = pressed(width=width, wheel=wheel, start=start)
    edges = [move.edge for move in moves]
    assert edges[-1] == pytest.approx(start + width)
    assert edges == sorted(edges)
    if width > wheel:
        assert edges[0] == pytest.approx(start + wheel)
        steps = [b - a for a, b in pairwise(edges)]
        assert max(steps) <= wheel * (1 - OVERLAP) + 1e-9


@given(width=st.floats(0.5, 120), wheel=st.floats(2, 12))
def test_feeding_along_starts_with_half_the_wheel_and_comes_back(width, wheel):
    moves = fed_along(width=width, wheel=wheel, start=0, feed=0.1)
    if width <= wheel:
        assert [m.what for m in moves] == ["press in"]
    else:
        assert [m.edge for m in moves] == pytest.approx([FIRST_BITE * wheel, width, FIRST_BITE * wheel])
        assert moves[1].turns * 0.1 >= width - FIRST_BITE * wheel


@given(diameter=st.floats(2, 200), stuff=st.sampled_from(["mild steel", "brass", "silver steel", "6082"]))
def test_no_speed_above_the_mark_of_the_chuck(diameter, stuff):
    answer = run("knurl-passes", {"diameter": f"{diameter:.3f}", "width": "8", "material": stuff}, METRIC).answer
    rpm = answer.figure("rpm").value
    assert rpm in METRIC.lathe.speeds and rpm <= METRIC.lathe.chuck.marked_speed


def test_a_weak_holder_plunges_and_moves_and_a_strong_one_feeds():
    given = {"diameter": "18", "width": "20", "pitch": "0.8"}
    weak = run("knurl-passes", given, METRIC).answer.table("passes")
    strong = run("knurl-passes", {**given, "holder": "strong"}, METRIC).answer.table("passes")
    assert weak.count_noun == strong.count_noun == "pass"
    assert weak.column("edge") == (8.0, 14.0, 20.0)
    assert strong.column("what") == ("press in", "feed along", "feed back")
    assert weak.column("saddle_turns") == (0, 0, 1) and weak.column("saddle") == (8.0, 14.0, 2.0)


def test_a_dial_that_reads_diameter_is_shown_as_it_reads():
    """Infeed 0.2 on the radius: such a dial shows 0.4."""
    shop = parse(
        "[lathe]\nspeeds = '100 200'\nleadscrew = 3\nchange_wheels = '20, 30'\nmotor = 500\n"
        "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 80\nreads_diameter = true\n"
        "[lathe.top_slide]\ntravel_per_turn = 1\ndivisions = 50\n[lathe.chuck]\nmarked_speed = 2000\n"
    )
    answer = run("knurl-passes", {"diameter": "18", "width": "6", "pitch": "0.8"}, shop).answer
    assert answer.figure("infeed").value == pytest.approx(0.2)
    assert answer.figure("infeed_reading").value == pytest.approx(0.4)


def passes_of(shop=METRIC, unit="mm", **given):
    return spoken(run("knurl-passes", {k: str(v) for k, v in given.items()}, shop, unit=unit).answer, unit)


def test_a_speed_above_the_ideal_is_not_called_below_it():
    # 3.81 m/min on 100 mm is 12 rev/min; the sample lathe's lowest is 65
    answer = passes_of(diameter=100, width=10, material="cast iron")
    assert answer.figure("rpm").value == 65
    assert "lowest, above it" in answer.figure("rpm").working
    assert any("above the ideal 12" in note.text for note in answer.notes)


def test_a_cut_knurl_is_always_fed_along():
    """The wheel cuts with its edge, so even one as wide as the knurl starts short of the end and is fed."""
    for width in (4, 8, 20):
        rows = passes_of(diameter=20, width=width, pitch=0.6, method="cut").table("passes").rows
        assert [row[1] for row in rows] == ["set in", "feed along"]
        assert rows[0][2] < rows[1][2] == width


def test_swivelled_wheels_are_straight_ones():
    assert (
        "straight wheels swivelled" in blank(near=20, pitch=0.8, form="diamond", swivelled="yes").figure("knurl").text
    )


def test_words_and_numbers_of_the_wheel_are_in_the_unit_on_the_screen():
    answer = blank(INCH, "inch", near="0.5", pitch="0.03")
    assert "0.0300 in" in answer.figure("knurl").text
    # 0.5 in over 0.03 / pi
    assert answer.figure("teeth").working.startswith("0.5 ÷ 0.0095493 = 52.36")


def test_the_first_bite_is_at_the_lowest_speed_or_by_hand():
    """A knurling tool maker's sheet: low speed, then press; ten turns are then a time that can be seen."""
    answer = passes_of(diameter=18, width=10, pitch=0.8)
    assert answer.lead.name == "first_rpm" and answer.lead.value == min(METRIC.lathe.speeds) == 65
    assert answer.table("passes").column("seconds")[0] == pytest.approx(60 * 10 / 65)
    bite = next(note.text for note in answer.notes if "Bite firmly" in note.text)
    assert "0.9 s at 65 rev/min" in bite and "by hand" in bite


@pytest.mark.parametrize(("diameter", "said"), [(1, True), (2.03, True), (2.04, False)])
def test_a_blank_that_carries_too_few_teeth(diameter, said):
    """Eight teeth of 0.8 mm are 2.04 mm round the blank: pi D / pitch; fewer are splines (common practice)."""
    notes = passes_of(diameter=diameter, width=1, pitch=0.8).notes
    assert any("splines" in note.text for note in notes) is said


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"form": "diamond"}, True),
        ({"form": "diagonal"}, True),
        ({"form": "axial"}, False),
        ({"form": "diamond", "swivelled": "yes"}, False),
        ({"form": "diamond", "pitch": 0.8}, False),
    ],
)
def test_forms_that_the_owned_wheels_cannot_make_are_said(given, said):
    """The sample bench has straight wheels only; DIN 82:1973: slanting lines take slanting wheels."""
    assert any("Your wheels are straight" in note.text for note in blank(near=20, **given).notes) is said
    if "swivelled" not in given:
        run_it = passes_of(diameter=20, width=5, **given)
        assert any("Your wheel is straight" in note.text for note in run_it.notes) is said


@pytest.mark.parametrize(
    ("given", "over", "begins"),
    [
        # Wheel 8 wide: fed along it begins with half of itself on the work (a wheel maker's page), plunged with all of it.
        ({"width": "20", "holder": "strong"}, 4.0, "begin with the wheel's edge at 4.000 mm"),
        ({"width": "20"}, 0.0, "begin with the wheel's edge at 8.000 mm"),
        ({"width": "6"}, 2.0, "begin with the wheel's edge at 6.000 mm"),
        ({"width": "8", "start": "5"}, None, "chamfer at both ends of the knurl first"),
    ],
)
def test_the_edges_of_a_knurl_are_told_from_before_to_after(given, over, begins):
    """Half a pitch before, a pitch at most after: common practice, no source; the true pitch is 0.8055."""
    answer = spoken(run("knurl-passes", {"diameter": "18", **given}, METRIC).answer)
    assert answer.figure("chamfer").value == pytest.approx(0.4028, abs=1e-4)
    assert answer.figure("chamfer_after").value == pytest.approx(0.8055, abs=1e-4)
    assert (answer.figure("over_end").value if answer.has("over_end") else None) == over
    assert any(begins in note.text for note in answer.notes)
