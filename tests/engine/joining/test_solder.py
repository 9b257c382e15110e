"""Solder against temper, and the gap of a retaining compound."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.words import write
from engine.joining.retain import GAP_HIGH, GAP_LOW, LEAST_GAP
from engine.joining.solders import WORKING_MARGIN, alloy, alloys, cooler, hardness_after
from engine.shop.file import sample
from tests.rows import each_row
from tests.spoken import spoken

METRIC = sample("metric")


def work(operation_id, **given):
    return spoken(run(operation_id, {k: str(v) for k, v in given.items()}, METRIC).answer)


@each_row(
    ("text", "name", "solidus", "liquidus"),
    [
        # A published list of solder alloys.
        ("63/37", "Sn63Pb37", 183, 183),
        ("Sn60Pb40", "Sn60Pb40", 183, 191),
        ("50/50", "Sn50Pb50", 183, 212),
        ("40/60", "Sn40Pb60", 183, 238),
        ("SAC305", "Sn96.5Ag3Cu0.5", 217, 220),
        ("lead-free", "Sn96.5Ag3Cu0.5", 217, 220),
        ("tin-silver", "Sn96.5Ag3.5", 221, 221),
        ("tin copper", "Sn99.3Cu0.7", 227, 227),
        ("62/36/2", "Sn62Pb36Ag2", 179, 179),  # the eutectic with 2 % silver: from memory
        ("Sn62", "Sn62Pb36Ag2", 179, 179),
        # AWS A5.8-1981 (Machinery's Handbook, 31st ed., p. 1484); 1145/1205, 1220/1305, 1250/1370, 1270/1425 °F.
        ("BAg-7", "BAg-7", 618, 652),
        ("bag 24", "BAg-24", 660, 707),
        ("BAg-5", "BAg-5", 677, 743),
        ("BAg-6", "BAg-6", 688, 774),
        ("silver solder", "BAg-7", 618, 652),
    ],
)
def test_melting_of_a_named_solder(text, name, solidus, liquidus):
    found = alloy(text)
    assert (found.name, found.solidus, found.liquidus) == (name, solidus, liquidus)


@pytest.mark.parametrize(("fahrenheit", "name"), [(1205, "BAg-7"), (1305, "BAg-24"), (1370, "BAg-5"), (1425, "BAg-6")])
def test_fahrenheit_and_celsius_of_the_handbook_agree(fahrenheit, name):
    assert alloy(name).liquidus == pytest.approx((fahrenheit - 32) / 1.8, abs=0.6)


def test_even_the_eutectic_softens_a_ball_of_unknown_temper():
    """Ball steel is tempered at 150 to 230 °C (ASM International, 2019); 63/37 is liquid at 183 °C."""
    answer = work("solder", alloy="63/37", part="ball")
    assert answer.figure("softens").text == "yes"
    assert answer.figure("instead").text
    # Tempered at the top of that range the joint, 183 + 30, stays below it.
    assert work("solder", alloy="63/37", part="ball", temper="230 °C").figure("softens").text == "no"
    assert not work("solder", alloy="63/37", part="ball", temper="230 °C").has("instead")


@given(temper=st.floats(20, 1200), index=st.integers(0, len(alloys()) - 1))
def test_softens_is_the_comparison_it_says(temper, index):
    chosen = alloys()[index]
    answer = work("solder", alloy=chosen.name, temper=f"{temper:.2f}")
    assert (answer.figure("softens").text == "yes") == (chosen.liquidus + WORKING_MARGIN > round(temper, 2))
    named = {a.name for a in cooler(round(temper, 2))}
    for row in answer.table("alloys").rows:
        if row[0] in named:
            assert row[-1] == "no"


def test_every_silver_alloy_takes_the_hardness_of_a_ball():
    for one in alloys():
        if one.kind == "silver brazing alloy":
            answer = work("solder", alloy=one.name, part="ball", temper="230 °C")
            assert answer.figure("softens").text == "yes"
            assert "HRC" in answer.figure("hardness").text or "none" in answer.figure("hardness").text


def test_cadmium_is_said():
    """BAg-2a 20 %, BAg-3 16 % (the same table)."""
    for name, percent in (("BAg-2a", 20), ("BAg-3", 16)):
        answer = work("solder", alloy=name)
        assert answer.figure("cadmium").value == percent
        assert any("cadmium" in note.text for note in answer.notes)
    assert not work("solder", alloy="BAg-24").has("cadmium")
    assert all(not a.cadmium for a in cooler(2000))


@pytest.mark.parametrize(
    ("celsius", "words"),
    [(150, "63 to 65"), (205, "60 to 62"), (260, "58 to 60"), (315, "56 to 58"), (370, "53 to 55"), (400, "under 53")],
)
def test_hardness_of_o1_after_tempering(celsius, words):
    """A steel maker's tempering data."""
    assert words in write(hardness_after(celsius))


@pytest.mark.parametrize(
    ("alloy", "words", "still"),
    [
        # Two stockists' table of EN31 / 52100: 150 °C 62 to 63, 200 61 to 62, 250 59 to 60 HRC; the line between.
        ("Sn42Bi58", "about 62 to 63", None),
        ("63/37", "about 60 to 61", True),
        ("96.5/3.5", "about 59 to 60", True),  # 251 °C
        ("40/60", "about 58 to 59", False),  # 268 °C: under the 58 that ASM International gives for 52100
        ("BAg-7", "under 53", False),
    ],
)
def test_a_balls_hold_is_judged_by_the_hardness_left(alloy, words, still):
    answer = work("solder", alloy=alloy, temper="150 °C")
    assert words in answer.figure("hardness").text
    kept = [n for n in answer.notes if "still hard enough" in n.text]
    warned = [n for n in answer.notes if "short heat softens it too" in n.text]
    if still is not None:
        assert (bool(kept), bool(warned)) == (still, not still)


@pytest.mark.parametrize(
    ("text", "name", "solidus", "liquidus", "cadmium"),
    [
        # ISO 17672 and EN 1044 names; melting ranges of a brazing alloy maker's table, the cadmium ones from memory.
        ("Ag 155", "Ag 155", 630, 660, 0),
        ("AG 103", "Ag 155", 630, 660, 0),
        ("L-Ag40Sn", "Ag 140", 650, 710, 0),
        ("AG 302", "Ag 345", 605, 620, 24),
        ("BAg-1", "BAg-1", 607, 618, 24),
        ("BAg-36", "BAg-36", 646, 677, 0),
        ("35/65", "Pb65Sn35", 183, 245, 0),
    ],
)
def test_european_and_further_names(text, name, solidus, liquidus, cadmium):
    found = alloy(text)
    assert (found.name, found.solidus, found.liquidus, found.cadmium) == (name, solidus, liquidus, cadmium)


@pytest.mark.parametrize("name", ["63/37", "silver solder"])
def test_the_gap_of_a_soldered_joint(name):
    """0.002 to 0.005 in: AWS A5.8-1981 (Machinery's Handbook, 31st ed., p. 1484), each side; soft solder from memory."""
    answer = work("solder", alloy=name)
    assert answer.figure("gap_low").value / 2 == pytest.approx(0.002 * 25.4, abs=0.001)
    assert answer.figure("gap_high").value / 2 == pytest.approx(0.005 * 25.4, abs=0.004)
    assert any("Never a press fit" in note.text for note in answer.notes)


def test_copper_phosphorus_is_not_for_steel():
    assert any("copper and brass only" in note.text for note in work("solder", alloy="CuP 284").notes)
    assert not any("copper and brass only" in note.text for note in work("solder", alloy="BAg-7").notes)


def test_what_is_not_hardened_does_not_soften():
    assert work("solder", alloy="63/37", part="mild steel").figure("softens").text == "no"
    assert work("solder", alloy="63/37", part="magnet").figure("softens").text == "yes"


def test_no_celsius_where_fahrenheit_is_shown():
    """30 °C above the liquidus is 54 °F above it: a difference has no 32 in it."""
    inch = spoken(run("solder", {"alloy": "63/37"}, METRIC, unit="inch").answer, "inch")
    for figure in inch.figures:
        assert "°C" not in figure.working, figure.name
    assert inch.figure("working").working == "361.4 + 54"  # 183 x 1.8 + 32
    assert inch.figure("softens").working == "joint at 415 °F, the part bears 302 °F"


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"alloy": "unobtainium"}, "alloy"),
        ({"alloy": "63/37", "part": "teapot"}, "part"),
        ({"alloy": "63/37", "temper": "5000"}, "temper"),
        ({}, "alloy"),
    ],
)
def test_refusals_name_the_field(given, field):
    with pytest.raises(BadInput) as refusal:
        work("solder", **given)
    assert refusal.value.field == field


def test_the_gap_of_a_retaining_compound():
    """ASTM D4562: pin 12.650 to 12.675 in a collar of 12.700 to 12.725 mm; a bearing maker's guide: least 0.0004 in."""
    answer = work("retain", diameter=10)
    assert answer.figure("gap_low").value == pytest.approx(12.7 - 12.675)
    assert answer.figure("gap_high").value == pytest.approx(12.725 - 12.65)
    assert pytest.approx(0.010, abs=0.0005) == LEAST_GAP
    assert answer.figure("shaft_max").value == pytest.approx(10 - GAP_LOW)
    assert answer.figure("shaft_min").value == pytest.approx(10 - GAP_HIGH)


@pytest.mark.parametrize(
    ("gap", "words"),
    [
        (-0.02, "larger than the hole"),
        (0.0, "too tight"),
        (0.0101, "too tight"),
        (0.0102, "close"),
        (0.0249, "close"),
        (0.025, "in the range"),
        (0.075, "in the range"),
        (0.0751, "gap-filling grade"),
        (0.127, "gap-filling grade"),
        (0.1271, "closer shaft"),
    ],
)
def test_a_measured_gap_is_judged(gap, words):
    assert any(words in note.text for note in work("retain", diameter=10, gap=gap).notes)


def test_shear_of_a_joint():
    """1000 N on 10 mm x 10 mm: 1000 / (pi x 100) = 3.18 MPa."""
    answer = work("retain", diameter=10, load="1000 N", length=10)
    assert answer.figure("stress").value == pytest.approx(3.183, abs=0.001)
    assert answer.figure("length_needed").value == pytest.approx(1000 / (3.14159265 * 10 * 5))
    assert any("longer" in n.text for n in work("retain", diameter=10, load="5000 N", length=10).notes)


def test_a_joint_in_inches_names_no_metric_unit():
    """500 N = 112.404 lbf, 5 MPa = 725.189 psi (1 lbf = 4.448222 N, 1 in = 25.4 mm)."""
    given = {"diameter": "0.375", "load": "500 N", "length": "0.1", "gap": "0.001"}
    answer = spoken(run("retain", given, METRIC, unit="inch").answer, "inch")
    words = [f.working for f in answer.figures] + [n.text for n in answer.notes]
    assert not [text for text in words if "mm" in text or "MPa" in text or " N " in text]
    assert answer.figure("length_needed").working.startswith("112.404 ÷ (3.14159 x 0.375 x 725.189)")


def test_a_length_alone_gives_the_load_it_may_bear():
    """pi x 8 mm x 6 mm x 5 MPa = 754 N (arithmetic)."""
    answer = work("retain", diameter=8, length=6)
    assert answer.figure("load_allowed").value == pytest.approx(753.98, abs=0.01)
    assert not answer.has("length_needed") and not answer.has("stress")


def test_who_says_what_the_part_bears():
    """A temper that is told goes before what its kind bears (150 °C for ball steel: ASM International, 2019)."""
    told, kind = work("solder", alloy="63/37", temper="200 °C"), work("solder", alloy="63/37")
    assert (told.figure("limit").value, told.figure("limit").source) == (200, "given")
    assert kind.figure("limit").value == 150 and "ASM" in kind.figure("limit").source


@pytest.mark.parametrize(("alloy", "said"), [("BAg-7", True), ("BAg-24", False)])
def test_the_coolest_silver_solder_is_named(alloy, said):
    assert any("coolest of the usual" in note.text for note in work("solder", alloy=alloy).notes) is said
