"""How good work will be, and how one's own machine is tried: against published rows and plain arithmetic."""

from dataclasses import replace
from math import degrees, radians, tan

import pytest

from engine.accuracy.budget import expanded
from engine.accuracy.machines import cylinder, head, leadscrew
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.shop.file import sample
from engine.shop.model import Measured, Shop
from tests.spoken import spoken

METRIC = sample("metric")


def answer(shop=METRIC, unit="mm", **given):
    return spoken(run("error-budget", given, shop, unit=unit).answer, unit)


def value(found, name):
    return found.figure(name).value


@pytest.mark.parametrize(("length", "most"), [(300, 0.04), (200, 0.04 * 200 / 300), (60, 0.015), (30, 0.0075)])
def test_a_leadscrew_as_good_as_new(length, most):
    """ISO 1708:1989 P3 (from memory): 0.04 mm in 300 mm, 0.015 in any 60 mm; the row over 60 mm in proportion."""
    assert leadscrew(length, Shop()).most == pytest.approx(most)


@pytest.mark.parametrize(("length", "error"), [(100, 0.0133), (50, 0.00667)])
def test_taper_of_a_turned_cylinder(length, error):
    """ISO 1708 P1 (from memory): constant diameter within 0.04 mm in 300 mm, half of it either way."""
    assert 2 * cylinder(length)[0].most == pytest.approx(error, abs=1e-4)
    assert 2 * cylinder(length)[1].most == pytest.approx(0.01)


def test_pitch_error_counts_by_the_cotangent():
    """10 µm on 10 mm of lead is 17.3 µm on the pitch diameter of a 60 degree thread (metrology course)."""
    shop = replace(METRIC, measured=Measured(leadscrew=1000.0))
    row = next(row for row in answer(shop, size="M10", length="10").table("budget").rows if "leadscrew" in row[0])
    assert row[1] * 1000 == pytest.approx(17.3, abs=0.05)
    assert "times cot a" in row[0]
    assert row[3] == "as you measured it"


def test_a_minute_of_arc_on_a_rim():
    """18 mm of radius: 18 x tan of a sixtieth of a degree (geometry)."""
    assert head(18.0, Shop()).most == pytest.approx(18 * tan(radians(1 / 60)), rel=1e-6)
    own = replace(METRIC, measured=Measured(head=30.0))
    assert head(18.0, own).most == pytest.approx(9 * tan(radians(1 / 60)), rel=1e-6)


@pytest.mark.parametrize(
    "given",
    [
        {"size": "M10"},
        {"what": "drum", "diameter": "36"},
        {"what": "holes", "diameter": "40"},
        {"what": "diameter", "diameter": "20", "length": "60"},
    ],
    ids=lambda given: given.get("what", "thread"),
)
def test_a_budget_is_the_root_of_its_squares(given):
    """JCGM 100:2008, 5.1.2: twice the root of the sum of squares; the worst case their plain sum."""
    found = answer(**given)
    table = found.table("budget")
    assert value(found, "uncertainty") == pytest.approx(2 * sum(s * s for s in table.column("standard")) ** 0.5)
    assert value(found, "worst_case") == pytest.approx(sum(table.column("most")))
    assert list(table.column("standard")) == sorted(table.column("standard"), reverse=True)
    assert any(f"Most comes from: {table.rows[0][0]}" in note.text for note in found.notes)


@pytest.mark.parametrize(
    ("part", "state"),
    [(0.499, "can be held"), (0.501, "hardly held"), (0.999, "hardly held"), (1.001, "cannot be held")],
)
def test_the_band_against_what_is_allowed(part, state):
    good = value(answer(what="drum", diameter="36"), "uncertainty")
    found = answer(what="drum", diameter="36", allowed=f"{good / part:.9f}")
    assert found.lead.text == state
    assert value(found, "share") == pytest.approx(100 * part, rel=1e-4)


def test_a_threads_class_says_what_is_allowed():
    """M10 - 6g: pitch diameter 8.862 to 8.994, half of it 0.066 (ISO 965-2)."""
    assert value(answer(size="M10"), "allowed") == pytest.approx(0.066)
    assert not answer(what="holes", diameter="40").has("allowed")


def test_a_measured_machine_is_not_taken_for_a_new_one():
    told = " ".join(note.text for note in answer(size="M10").notes)
    assert "not measured" in told
    own = replace(METRIC, measured=Measured(leadscrew=50.0, head=20.0, cross_slide=0.005))
    assert "not measured" not in " ".join(note.text for note in answer(own, size="M10").notes)
    rows = answer(own, what="diameter", diameter="20").table("budget").rows
    assert ("cross slide screw", 0.01) in [row[:2] for row in rows]


def test_a_leadscrew_against_a_bar():
    """100 mm by the screw that are 100.03: 0.03, 300 parts in a million; a new one may be 0.015 out (arithmetic)."""
    found = answer(what="leadscrew", moved="100", known="100.03")
    assert value(found, "error") == pytest.approx(0.03)
    assert value(found, "error_ppm") == pytest.approx(300)
    assert value(found, "limit") == pytest.approx(0.015)
    assert "300 ppm" in found.notes[0].text
    assert [row[0] for row in found.table("how").rows] == [1, 2, 3, 4, 5]


def test_a_head_against_a_level_bar():
    """0.02 mm over 100 mm is 41.3 seconds of arc: arc tangent (geometry)."""
    found = answer(what="head", moved="0.02", known="100")
    assert value(found, "seconds") == pytest.approx(degrees(0.0002) * 3600, rel=1e-6)
    assert value(found, "seconds") == pytest.approx(41.25, abs=0.01)


@pytest.mark.parametrize(("moved", "said"), [("100.0099", True), ("100.0101", False)])
def test_an_error_below_what_can_be_told_is_not_kept(moved, said):
    found = answer(what="dial", moved=moved, known="100", good_to="0.01")
    assert ("No more than the way of measuring" in found.notes[0].text) == said
    assert ("Keep it in the shop" in found.notes[0].text) != said


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({}, "size"),
        ({"size": "M10-6H"}, "size"),
        ({"what": "drum"}, "diameter"),
        ({"what": "diameter"}, "diameter"),
        ({"what": "bore"}, "diameter"),
        ({"what": "reamed"}, "diameter"),
        ({"what": "length"}, "length"),
        ({"what": "leadscrew", "moved": "0", "known": "10"}, "moved"),
    ],
)
def test_refusals(given, field):
    with pytest.raises(BadInput) as refused:
        answer(**given)
    assert refused.value.field == field


def test_holes_need_a_table():
    with pytest.raises(BadInput, match="no mill table"):
        answer(replace(METRIC, mill=None), what="holes", diameter="40")


def test_nothing_is_tried_before_the_table_is_read():
    assert answer(what="head").lead.text.startswith("try it")


def test_an_inch_screen_shows_no_millimetres():
    for given in ({"size": "M10"}, {"what": "diameter", "diameter": "1"}, {"what": "leadscrew"}):
        found = answer(sample("inch"), "inch", **given)
        texts = [figure.working for figure in found.figures] + [note.text for note in found.notes]
        texts += [str(row[0]) for table in found.tables for row in table.rows]
        assert not [text for text in texts if " mm" in text or "°C" in text]


def test_labels_fit_the_narrow_screen():
    for given in (
        {"size": "M10"},
        {"what": "drum", "diameter": "36", "allowed": "1"},
        {"what": "head", "moved": "1", "known": "9"},
    ):
        assert [f.label for f in answer(**given).figures if len(f.label) > 21] == []
    assert expanded([leadscrew(60, Shop())]) == pytest.approx(2 * 0.015 / 3**0.5)


@pytest.mark.parametrize(("what", "play"), [("holes", 0.2), ("diameter", 0.5), ("bore", 0.5), ("length", 0.125)])
def test_backlash_is_told_where_a_dial_is_set(what, play):
    """Its own on the table; twice on a diameter (geometry)."""
    mill = replace(METRIC.mill, x=replace(METRIC.mill.x, backlash=0.2), y=replace(METRIC.mill.y, backlash=0.1))
    slides = {"cross_slide": 0.25, "top_slide": 0.125}
    lathe = replace(
        METRIC.lathe, **{name: replace(getattr(METRIC.lathe, name), backlash=play) for name, play in slides.items()}
    )
    found = answer(replace(METRIC, mill=mill, lathe=lathe), what=what, diameter="20", length="20")
    told = [note.text for note in found.notes]
    assert any(f"backlash, {play:.3f} mm" in text for text in told)
    assert not any("backlash" in note.text for note in answer(what="drum", diameter="20").notes)


def test_a_drum_off_the_axis_by_half_its_run_out():
    """The clock reads twice the offset (geometry); what is left is an angle of arc tangent of it over the radius."""
    found = answer(what="drum", diameter="36", run_out="0.06")
    off = next(row[1] for row in found.table("budget").rows if "run-out" in row[0])
    assert off == pytest.approx(0.03)
    assert value(found, "seconds") == pytest.approx(degrees(value(found, "uncertainty") / 18) * 3600, rel=1e-4)


def test_a_bore_is_a_diameter_felt_once_more():
    """The transfer gauge's feel, 0.01 mm at two standard deviations (common practice), comes to a turned diameter's."""
    turned, bored = (answer(what=what, diameter="20", length="30") for what in ("diameter", "bore"))
    more = {row[0]: row[1] for row in bored.table("budget").rows}
    assert more.pop("gauge felt in the bore") == 0.01
    assert more == {row[0]: row[1] for row in turned.table("budget").rows}
    squares = (value(turned, "uncertainty") / 2) ** 2 + 0.005**2
    assert value(bored, "uncertainty") == pytest.approx(2 * squares**0.5)


def test_a_reamer_for_h7():
    """DIN 1420 (from memory): of IT7 = 18 µm at 12 mm 35 % are the reamer's, 15 % for its cutting large, half either way."""
    found = answer(what="reamed", diameter="12")
    shares = [row[1] * 1000 for row in found.table("budget").rows]
    assert shares == pytest.approx([3.15, 1.35])
    assert found.figure("state").text == "can be held" and value(found, "allowed") == pytest.approx(0.009)
    assert answer(what="reamed", diameter="12", allowed="0.0055").figure("state").text == "hardly held"  # H6: 11 µm


def test_a_length_between_faces():
    """DIN 863-1: 4 µm to 50 mm; ISO 1 and NIST J. Res. 99: 11.5 µm a metre and degree; ISO 1708 P2 (from memory): a face
    hollow by 0.025 in 300 mm; half a line of the top slide's 0.025 mm; feel and touch common practice."""
    rows = {row[0]: row[1] for row in answer(what="length", length="40", diameter="60").table("budget").rows}
    assert rows["micrometer"] == 0.004 and rows["tool touched on"] == 0.01 and rows["feel of the depth"] == 0.005
    assert rows["face not flat"] == pytest.approx(0.0025)
    assert rows["top slide dial, half a line"] == pytest.approx(0.0125)
    assert max(rows.values()) == 0.0125
    lone = {row[0] for row in answer(Shop(), what="length", length="40").table("budget").rows}
    assert not any("dial" in cause for cause in lone)
