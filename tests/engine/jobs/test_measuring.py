"""Readings judged by their limits, and the handwheels that take off the rest."""

from dataclasses import replace
from fractions import Fraction
from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.words import write
from engine.jobs.measuring import judge, read_reading, refuse_slip, sentences, what_may_be_done
from engine.jobs.slides import dial_move, dial_position, move_words, owned_slide, slides_for
from engine.shop.file import sample
from engine.shop.model import Slide
from tests.rows import each_row

METRIC, INCH = sample("metric"), sample("inch")


@each_row(
    ("kind", "reading", "state", "over_cut", "more"),
    [
        ("diameter", 20.03, "too big", False, True),
        ("diameter", 20.02, "in limits", False, False),
        ("diameter", 19.98, "in limits", False, False),
        ("diameter", 19.97, "too small", True, False),
        ("over wires", 20.03, "too big", False, True),
        ("over wires", 19.97, "too small", True, False),
        ("length", 20.03, "too big", False, True),
        ("bore", 20.03, "too big", True, False),
        ("bore", 19.97, "too small", False, True),
        ("depth", 19.97, "too small", False, True),
        ("depth", 20.03, "too big", True, False),
    ],
)
def test_the_state_and_what_it_means(kind, reading, state, over_cut, more):
    found = judge(reading, low=19.98, high=20.02, kind=kind)
    assert (found.state, found.over_cut, found.more) == (state, over_cut, more)


def test_one_limit_is_enough():
    assert judge(5.0, low=None, high=6.0, kind="length").state == "in limits"
    assert judge(6.5, low=None, high=6.0, kind="length").to_aim == pytest.approx(0.5)
    with pytest.raises(BadInput, match="a low or a high limit"):
        judge(5.0, low=None, high=None, kind="length")


@settings(max_examples=80)
@given(st.floats(0.5, 3.0), st.floats(0.02, 0.5), st.sampled_from(["diameter", "bore", "over wires"]))
def test_the_dial_never_takes_a_part_past_the_middle_unless_its_limits_ask_for_it(left, half_band, kind):
    target = 20.0
    reading = target - left if kind == "bore" else target + left
    found = judge(reading, low=target - half_band, high=target + half_band, kind=kind)
    if not found.more:
        return
    move = dial_move(found, "cross", METRIC)
    taken = 2 * (move.travel + move.setting.error)
    made = reading + taken if kind == "bore" else reading - taken
    if move.keeps_limits:
        assert target - half_band - 1e-6 <= made <= target + half_band + 1e-6
    else:
        assert half_band < 0.05  # one line of this dial is 0.05 mm of diameter


def test_the_top_slide_moves_by_its_angle():
    # Trigonometry: at an angle a from the cross slide's line, 1 mm goes cos a towards the axis and sin a along it.
    angle = radians(29.5)
    assert owned_slide("top", "diameter", METRIC)[1] == pytest.approx(2 * cos(angle))
    assert owned_slide("top", "length", METRIC)[1] == pytest.approx(sin(angle))


@pytest.mark.parametrize(
    ("kind", "first", "slides"),
    [
        ("over wires", "", ("top", "cross")),
        ("over wires", "cross", ("cross", "top")),
        ("depth", "saddle", ("saddle", "quill", "tailstock", "top")),
        ("length", "none", ()),
        ("across flats", "", ("quill",)),
    ],
)
def test_a_recipe_names_the_handwheel_that_takes_off_the_rest(kind, first, slides):
    assert slides_for(kind, METRIC, first) == slides


def test_two_flats_share_what_is_left_and_the_cutter_goes_down_for_it():
    # Half of 0.2 mm comes off each of two flats: five lines of a dial of 1 mm in 50.
    found = judge(13.2, low=12.9, high=13.1, kind="across flats")
    assert (
        write(sentences(found)[0])
        == "Too big: 13.200 mm. Take off 0.200 mm across the flats, half on each, for the middle, 0.100 mm at least."
    )
    assert (
        write(move_words(dial_move(found, "quill", METRIC)), "mm") == "Quill or knee: 5 lines further down (0.100 mm)."
    )


@pytest.mark.parametrize("name", ["cross", "knee", "", "none"])
def test_a_slide_that_cannot_change_a_measure_is_refused(name):
    with pytest.raises(BadInput, match="slide: "):
        owned_slide(name, "length", METRIC)


def test_a_top_slide_along_the_bed_cannot_change_a_diameter():
    shop = replace(METRIC, lathe=replace(METRIC.lathe, top_slide_angle=90.0))
    assert slides_for("diameter", shop) == ("cross",)
    with pytest.raises(BadInput, match="slide: top cannot be used"):
        owned_slide("top", "diameter", shop)


def test_a_dial_that_reads_diameter_counts_the_same_lines_and_shows_twice():
    slide = Slide(travel_per_turn=Fraction(2), divisions=100, reads_diameter=True)
    shop = replace(METRIC, lathe=replace(METRIC.lathe, cross_slide=slide))
    found = judge(20.4, low=19.9, high=20.1, kind="diameter")
    move = dial_move(found, "cross", shop)
    assert (move.setting.lines, move.setting.reading) == (10, pytest.approx(0.4))  # 0.2 of travel, 0.4 shown
    assert write(move_words(move), "mm") == "Cross slide: 10 lines further in (0.400 mm on a dial that reads diameter)."
    assert dial_position(slide, turns=1, reading=0.4) == pytest.approx(2.2)


def test_an_inch_dial_is_spoken_of_in_inches():
    found = judge(read_reading("0.520", "inch"), low=0.498 * 25.4, high=0.502 * 25.4, kind="diameter")
    assert write(move_words(dial_move(found, "cross", INCH)), "inch") == "Cross slide: 10 lines further in (0.0100 in)."


def test_a_dial_too_coarse_for_the_limits_says_so():
    found = judge(20.055, low=20.029, high=20.031, kind="diameter")
    words = write(move_words(dial_move(found, "cross", METRIC)), "mm")
    assert words.endswith("The limits are closer than its lines: 0.013 mm is wanted, so set between two lines.")


def test_over_cut_is_said_plainly_with_what_may_be_done():
    found = judge(19.9, low=19.98, high=20.02, kind="diameter")
    lines = tuple(map(write, sentences(found, own=("Knurl one tooth fewer.",))))
    assert lines[0] == "Over-cut: 19.900 mm is too small by 0.080 mm. What is cut off does not come back."
    assert "Knurl one tooth fewer." in lines
    assert lines[-1] == what_may_be_done("diameter")[-1]


def test_a_knurls_blank_that_is_too_small_is_no_scrap():
    """Common practice, no source: the next blank down tracks with a tooth fewer."""
    found = judge(25.6, low=25.616, high=25.666, kind="blank")
    lines = tuple(map(write, sentences(found, own=("Else turn it to 25.385.",))))
    assert found.over_cut and lines[-1] == "Else turn it to 25.385." and not any("scrap:" in line for line in lines)


def test_nothing_is_asked_of_the_dial_when_nothing_is_left():
    with pytest.raises(BadInput, match="something left to come off"):
        dial_move(judge(20.0, low=19.98, high=20.02, kind="diameter"), "cross", METRIC)


@pytest.mark.parametrize("typed", ["", "-3", "0", "1e999", "nan", "ten", "[bold]9[/]", "٣"])
def test_a_reading_is_a_length_above_nought(typed):
    try:
        assert 0 < read_reading(typed, "mm") < 1e4
    except BadInput as refusal:
        assert str(refusal).startswith("reading: ")


def test_a_slip_of_the_decimal_point_is_doubted():
    assert "decimal point" in write(sentences(judge(2.0, low=19.9, high=20.1, kind="diameter"))[1])


@pytest.mark.parametrize("size", ["M12x1.5", "3/8-16 UNC", "M6"])
def test_over_wires_the_infeed_is_that_of_the_threads_pane(size):
    """Two ways to one number: this module takes half of what the measure has to lose, three-wires works the groove."""
    basic = run("three-wires", {"size": size}, METRIC).answer
    low, high = basic.figure("over_wires_min").value, basic.figure("over_wires_max").value
    reading = high + 0.15
    told = run("three-wires", {"size": size, "reading": f"{reading} mm"}, METRIC).answer
    found = judge(reading, low=low, high=high, kind="over wires")
    assert found.state == told.figure("state").text
    assert found.to_aim / 2 == pytest.approx(told.figure("infeed_to_middle").value, abs=0.002)


@pytest.mark.parametrize(
    ("reading", "kept"), [(19.6, True), (18.2, True), (58.0, False), (0.752, False), (100.0, False)]
)
def test_a_knurl_is_never_far_from_its_size(reading, kept):
    """It grows by less than its depth, a part of a mm: common practice, no source."""
    judged = judge(reading, low=19.02, high=19.22, kind="knurl")
    if kept:
        refuse_slip(judged, str(reading))
    else:
        with pytest.raises(BadInput, match="look at the decimal point and the unit"):
            refuse_slip(judged, str(reading))


def test_a_knurl_that_is_too_big_is_rolled_too_far_and_not_cut():
    """Rolling raises metal, it takes none off: common practice, no source."""
    said = sentences(judge(16.9, low=16.457, high=16.656, kind="knurl"))[0]
    assert write(said) == "Rolled too far: 16.900 mm is too big by 0.244 mm. What has come up does not go back."
