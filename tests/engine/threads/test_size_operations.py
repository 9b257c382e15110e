"""The operations on the size of a thread: figures by name, wrong values, speed."""

import math
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.answer import Label
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.shop.file import sample
from engine.threads.series import entries, named
from engine.threads.thread import FAMILIES
from tests.spoken import spoken

LIMIT_FIGURES = {
    *("pitch", "lead", "starts", "lead_angle", "included_angle", "major_basic", "pitch_basic", "minor_basic"),
    *("ext_major_max", "ext_major_min", "ext_pitch_max", "ext_pitch_min", "ext_minor_max", "int_minor_min"),
    *("int_minor_max", "int_pitch_min", "int_pitch_max", "int_major_min", "allowance", "thread_depth", "stress_area"),
}


@pytest.fixture(scope="module")
def metric():
    return sample("metric")


def answer(operation, shop, **inputs):
    return spoken(run(operation, inputs, shop).answer)


INCH = ["1/4-20 UNC", "3/8 BSW", "1/2 BSF", "1/4-40 ME", "1/4 BSB", "1/4 BSC", "3/4-6 ACME"]


@pytest.mark.parametrize("size", ["M10", "M16xPh3P1.5", "4 BA", "G 1/4", "Tr12x3", *INCH])
def test_thread_limits_has_every_figure(metric, size):
    found = answer("thread-limits", metric, size=size)
    assert {figure.name for figure in found.figures} >= LIMIT_FIGURES
    for figure in found.figures:
        assert figure.source, figure.name
        assert figure.working, figure.name
        assert math.isfinite(figure.value)


@pytest.mark.parametrize(
    ("size", "pitch", "tpi"),
    [
        ("M10", "as designated", "25.4 ÷ 1.5"),
        ("1/4-20 UNC", "25.4 ÷ 20", "as designated"),
        ("G 1/4", "25.4 ÷ 19", "as designated"),  # measured in mm, pitched in threads per inch
        ("4 BA", "as designated", "25.4 ÷ 0.66"),
    ],
)
def test_pitch_and_threads_per_inch_say_which_is_designated(metric, size, pitch, tpi):
    found = answer("thread-limits", metric, size=size)
    assert (found.figure("pitch").working, found.figure("threads_per_inch").working) == (pitch, tpi)


def test_taper_threads_give_their_gauge_plane(metric):
    found = answer("thread-limits", metric, size="R 1/2")
    lengths = [found.figure(f"gauge_length{end}").value for end in ("_min", "", "_max")]
    assert lengths == pytest.approx([6.4, 8.2, 10.0])  # ISO 7-1: 8.2, a turn of 1.8 either way
    assert not found.has("stress_area")
    npt = answer("thread-limits", metric, size="1/8 NPT")
    assert npt.figure("gauge_length").value / 25.4 == pytest.approx(0.1615)  # ASME B1.20.1, L1


def test_the_side_that_is_asked_for_comes_first(metric):
    assert answer("thread-limits", metric, size="M10", tolerance="6g").lead.name == "ext_major_max"
    assert answer("thread-limits", metric, size="M10", tolerance="6H").lead.name == "int_minor_min"
    assert answer("thread-limits", metric, size="20 BA").lead.name == "pitch_basic"


def test_a_multi_start_thread_has_its_lead(metric):
    found = answer("thread-limits", metric, size="Tr14x6(P3)")
    assert (found.figure("lead").value, found.figure("pitch").value, found.figure("starts").value) == (6.0, 3.0, 2)
    # arctan(6 / (pi x 12.5)), ISO 2904: d2 = 14 - 3/2
    assert found.figure("lead_angle").value == pytest.approx(math.degrees(math.atan(6 / (math.pi * 12.5))))


def test_the_bars_say_their_scale_and_every_size(metric):
    (picture,) = answer("thread-limits", metric, size="M10", tolerance="6g").pictures
    assert "times as large" in picture.alt
    words = " ".join(shape.text for shape in picture.shapes if isinstance(shape, Label))
    for size in ("9.732", "9.968", "8.862", "8.994", "9.206", "8.676"):  # ASME B1.13M, 6g and 6H of M10
        assert size in words
        assert size in picture.alt


def test_a_special_thread_is_marked(metric):
    found = answer("thread-limits", metric, size="M10x1.4 special")
    assert any("special thread" in note.text for note in found.notes)


def test_identify_names_the_measurement_that_decides(metric):
    found = answer("identify-thread", metric, major="6.3", tpi="20")
    assert found.lead.text == "1/4-20 UNC"
    assert "55° for 1/4-20 BSW" in found.figure("measure_next").text
    assert found.table("candidates").column("size")[:2] == ("1/4-20 UNC", "1/4-20 BSW")


def test_words_are_in_the_unit_of_the_shop():
    found = spoken(run("identify-thread", {"major": "0.39", "pitch": ""}, sample("inch"), unit="inch").answer, "inch")
    assert " in for M10" in found.figure("measure_next").text or '"' in found.figure("measure_next").text
    weak = spoken(run("thread-strength", {"size": "M10", "engagement": "0.2"}, sample("inch")).answer, "inch")
    assert any(" in engaged" in note.text for note in weak.notes)


def test_strength_says_which_thread_is_the_weaker(metric):
    found = answer("thread-strength", metric, size="M10", property_class="12.9", nut_material="6082", engagement="8")
    assert found.figure("proof_load").value == pytest.approx(970 * 57.99, rel=1e-4)  # ISO 898-1: 970 MPa, 58.0 mm²
    assert found.figure("engagement_needed").value > 8
    assert {note.level for note in found.notes} >= {"warning"}
    names = {"stress_area", "proof_load", "strip_load", "engagement_needed", "tightening_torque"}
    assert {figure.name for figure in found.figures} >= names


def test_external_and_internal_are_screw_and_nut(metric):
    for major, *words in (("9.9", "screw", "external"), ("8.5", "nut", "internal")):
        one, two = (answer("thread-relief", metric, size="M10", side=word) for word in words)
        assert one.figures == two.figures
        one, two = (answer("identify-thread", metric, major=major, pitch="1.5", side=word) for word in words)
        assert one.figures == two.figures


@pytest.mark.parametrize(
    ("size", "side", "diameter"), [("M10-6H", "", 10.5), ("M10-6g", "", 7.7), ("M10-6H", "screw", 7.7)]
)
def test_the_class_says_whose_groove_it_is(metric, size, side, diameter):
    """DIN 76-1 at a pitch of 1.5: d - 2.3 on a screw, D + 0.5 in a nut."""
    assert answer("thread-relief", metric, size=size, side=side).figure("relief_diameter").value == diameter


def test_relief_has_every_figure(metric):
    found = answer("thread-relief", metric, size="M10")
    names = {"relief_width", "relief_diameter", "run_out", "chamfer_diameter", "blind_overrun"}
    assert {figure.name for figure in found.figures} >= names
    assert found.figure("relief_diameter").value == pytest.approx(7.7)  # DIN 76-1: d - 2.3 at a pitch of 1.5


@pytest.mark.parametrize(
    ("operation", "inputs", "field"),
    [
        ("thread-limits", {"size": "M10", "tolerance": "2A"}, "tolerance"),
        ("thread-limits", {"size": "M10", "engagement": "-3"}, "engagement"),
        ("thread-limits", {"size": "M10", "engagement": "5000"}, "engagement"),
        ("thread-limits", {"size": "M0.5x0.3 special"}, "size"),
        ("thread-limits", {}, "size"),
        ("identify-thread", {"major": "nan"}, "major"),
        ("identify-thread", {"major": "10", "tpi": "0"}, "tpi"),
        ("identify-thread", {"major": "10", "pitch": "9"}, "major"),
        ("thread-strength", {"size": "R 1/2"}, "size"),
        ("thread-strength", {"size": "M10", "property_class": "7.7"}, "property_class"),
        ("thread-relief", {"size": "Tr40x10"}, "size"),
    ],
)
def test_wrong_values_are_refused_under_their_own_name(metric, operation, inputs, field):
    with pytest.raises(BadInput) as caught:
        run(operation, inputs, metric)
    assert caught.value.field == field
    assert str(caught.value).startswith(f"{field}:")


@given(
    st.sampled_from(["thread-limits", "thread-strength", "thread-relief"]),
    st.sampled_from(["M10", "1/4-20 UNC", "20 BA", "R 1/2", "Tr12x3", "M10x1.4 special", "1/8 NPT", "25 BA"]),
    st.text(max_size=12),
)
@settings(max_examples=60)
def test_any_text_answers_or_is_refused(operation, size, text):
    shop = sample("metric")
    extra = {"thread-limits": "tolerance", "thread-strength": "engagement", "thread-relief": "side"}[operation]
    for typed in ({"size": text}, {"size": size, extra: text}):
        try:
            run(operation, typed, shop)
        except BadInput as refusal:
            assert refusal.field in typed


@given(st.one_of(st.floats(), st.text(max_size=10)), st.one_of(st.none(), st.floats(), st.text(max_size=8)))
@settings(max_examples=60)
def test_any_measurement_answers_or_is_refused(major, pitch):
    typed = {"major": str(major), "pitch": None if pitch is None else str(pitch)}
    try:
        run("identify-thread", typed, sample("metric"))
    except BadInput as refusal:
        assert refusal.field in ("major", "pitch")


def test_a_thousand_answers_are_quick(metric):
    """A guard against the slow way, not a measurement: under 5 ms each on any machine."""
    sizes = [str(named(entry)) for family in FAMILIES for entry in entries(family)][:500]
    started = time.process_time()
    for size in sizes:
        run("thread-limits", {"size": size}, metric)
    assert (time.process_time() - started) / len(sizes) < 0.005
