"""Finding a thread again from what is measured on it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import BadInput
from engine.base.words import write
from engine.threads.designation import parse
from engine.threads.form import form
from engine.threads.identify import PLATING, WEAR, identify, read_pitch, tell_apart
from engine.threads.limits import limits
from engine.threads.owned import owned_cuts
from engine.threads.series import entries, named
from engine.threads.thread import FAMILIES

ALL = [entry for family in FAMILIES for entry in entries(family)]


@given(st.sampled_from(ALL), st.floats(0.0, 1.0), st.floats(-0.5, 0.5))
@settings(max_examples=80)
def test_a_thread_is_found_among_the_candidates_worn_or_plated(entry, share, reading):
    """Any major diameter from worn to plated, the pitch read half a gauge step off, the angle of its form."""
    thread = named(entry)
    sizes = limits(thread)
    pitch = float(thread.pitch)
    low = (sizes.ext_major_min or sizes.major_basic) - 0.9 * WEAR * pitch
    high = (sizes.ext_major_max or sizes.major_basic) + 0.9 * PLATING
    found = identify(
        diameter=low + share * (high - low),
        pitch=pitch * (1 + 0.02 * reading),
        included_angle=form(thread).included_angle,
    )
    same = [c.thread for c in found if c.thread.pitch == thread.pitch and c.thread.diameter == thread.diameter]
    assert same or len(found) == 12


@pytest.mark.parametrize(
    ("diameter", "pitch", "best"),
    [
        # nominal sizes of the standards named: the plain case on the bench
        (6.0, 1.0, "M6"),
        (5.94, 1.0, "M6"),
        (4.7, 0.81, "2 BA"),
        (9.525, 25.4 / 16, "3/8-16 UNC"),
        (3.6, 0.66, "4 BA"),
        (13.157, 25.4 / 19, "G 1/4"),
        (12.0, 3.0, "Tr12x3"),
        (6.35, 25.4 / 40, "1/4-40 ME"),
        (4.8, 25.4 / 32, "10-32 UNF"),
    ],
)
def test_plain_cases(diameter, pitch, best):
    assert str(identify(diameter=diameter, pitch=pitch)[0].thread) == best


def test_the_angle_decides_between_unified_and_whitworth():
    assert str(identify(diameter=9.4, pitch=25.4 / 16, included_angle=55.0)[0].thread) == "3/8-16 BSW"
    assert str(identify(diameter=9.4, pitch=25.4 / 16, included_angle=60.0)[0].thread) == "3/8-16 UNC"


def test_a_nut_is_known_by_its_bore():
    assert str(identify(diameter=8.5, pitch=1.5, side="nut")[0].thread) == "M10"


def test_nothing_near_gives_no_candidates():
    assert identify(diameter=350.0, pitch=3.0) == ()


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        ("3/8-16 UNC", "3/8-16 BSW", "form gauges"),  # 60 and 55 degrees
        ("G 1/2", "R 1/2", "two places"),  # one taper, the other not
        ("M10", "M10x1.25", "7.50 mm for M10, 6.25 mm for M10x1.25"),  # 5 pitches
        ("3/16-32 BSC", "10-32 UNF", "4.763 mm for 3/16-32 BSC, 4.826 mm for 10-32 UNF"),
    ],
)
def test_what_tells_two_apart(first, second, words):
    assert words in write(tell_apart(parse(first), parse(second)))


def test_a_pitch_and_a_count_that_disagree_are_refused():
    assert read_pitch(1.27, 20.0) == pytest.approx(1.27)
    with pytest.raises(BadInput, match=r"1\.814 mm, not 3"):
        read_pitch(3.0, 14.0)


def _best(standard="iso", owned=(), **measured):
    found = identify(standard=standard, owned=owned_cuts(owned), **measured)
    return [str(c.thread) for c in found]


@pytest.mark.parametrize(
    ("diameter", "pitch", "standard", "first"),
    [
        # Judgement of how common each is (common practice, no source): the commoner of two that fit alike.
        (9.45, 25.4 / 20, "iso", ["3/8-20 BSF"]),  # before 3/8-20 UN
        (25.4 * 5 / 16, 25.4 / 32, "iso", ["5/16-32 ME"]),
        (25.4 * 5 / 16, 25.4 / 32, "asme", ["5/16-32 UNEF"]),
        (25.4 * 3 / 8, 25.4 / 32, "iso", ["3/8-32 ME"]),
        (6.0, 1.0, "iso", ["M6", "0 BA"]),
        (6.35, 25.4 / 26, "iso", ["1/4-26 BSF", "1/4-26 BSC", "1/4-26 BSB"]),
        (8.0, 1.0, "iso", ["M8x1"]),
    ],
)
def test_the_commoner_of_two_that_fit_alike_comes_first(diameter, pitch, standard, first):
    assert _best(standard, diameter=diameter, pitch=pitch)[: len(first)] == first


def test_a_rare_size_stands_behind_the_common_ones():
    found = _best(diameter=2.15)
    assert min(found.index("2-56 UNC"), found.index("8 BA")) < found.index("M2.2")


def test_a_thread_whose_tap_is_owned_comes_before_its_equals():
    measured = {"diameter": 6.35, "pitch": 25.4 / 26}
    assert _best(owned=("M6", "1/4 BSB"), **measured)[0] == "1/4-26 BSB"
    assert _best(owned=("M6", "no tap"), **measured)[0] == "1/4-26 BSF"


@pytest.mark.parametrize(
    ("side", "diameter", "outside"),
    [
        # M10 6H: bore 8.376 to 8.676; plating takes 0.03 off a bore, wear widens it by a tenth of the pitch
        *(("nut", 8.346, 0.0), ("nut", 8.34, 0.006), ("nut", 8.826, 0.0), ("nut", 8.83, 0.004)),
        # M10 6g: 9.732 to 9.968, written 10; plating adds 0.03, wear takes a tenth of the pitch off
        *(("screw", 10.03, 0.0), ("screw", 10.04, 0.01), ("screw", 9.582, 0.0), ("screw", 9.57, 0.012)),
    ],
)
def test_how_far_a_size_lies_outside(side, diameter, outside):
    found = {str(c.thread): c for c in identify(diameter=diameter, pitch=1.5, side=side)}
    assert found["M10"].outside == pytest.approx(outside, abs=1e-9)
