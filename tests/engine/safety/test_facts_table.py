"""The published figures behind the cautions: each row of tests/data/safety/facts.csv against what the engine uses."""

import csv
from pathlib import Path

import pytest

from engine.base.words import write
from engine.safety import arrange, physics
from engine.safety.rows import every_row
from engine.safety.rules import RULES
from engine.situation import Situation
from tests.rows import each_row

TABLE = Path(__file__).parents[2] / "data" / "safety" / "facts.csv"


def table():
    lines = (line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    return {row["key"]: row for row in csv.DictReader(lines)}


FACTS = table()


def value(key):
    return float(FACTS[key]["value"])


def line_of(caution_id):
    row = next(row for row in every_row() if row.id == caution_id)
    return f"{row.hazard} {row.consequence} {row.control} {row.source}"


@pytest.mark.parametrize(
    "key, used",
    [
        ("react_s_default", physics.REACTION),
        ("overhang_ratio_limit", physics.OVERHANG_RATIO),
        ("parting_blade_overhang", physics.BLADE_WIDTHS),
        ("superheat_c_default", physics.WORKING_MARGIN),
        ("brazing_threshold", physics.BRAZING),
    ],
)
def test_a_limit_that_a_rule_uses(key, used):
    assert used == value(key)
    assert FACTS[key]["source"]


def test_the_reaction_time_covers_recognition_and_half_a_metre_of_reach():
    composite = value("rt_recognition") + 0.5 / value("hand_speed")
    assert abs(composite - value("rt_composite_half_metre")) < 0.005
    assert composite < physics.REACTION


@pytest.mark.parametrize("key, diameter, length", [
    ("whirl_6_600", 6, 600), ("whirl_10_600", 10, 600), ("whirl_10_400", 10, 400), ("whirl_16_200", 16, 200),
])  # fmt: skip
def test_whirl_speed(key, diameter, length):
    assert round(physics.whirl_speed(diameter=diameter, length=length)) == value(key)


def test_longest_free_bar_turns_at_half_its_whirl_speed():
    length = physics.longest_free_bar(diameter=10, speed=1347)
    assert abs(length - 400) < 0.1  # half of the 2694 rev/min of the 10 mm by 400 mm bar


def test_grip_left_at_the_reference_speed():
    left = physics.grip_left(speed=2000, marked=2000)
    assert abs(left - value("chuck_ref_speed_remaining_grip")) < 1e-4
    assert physics.grip_left(speed=0, marked=2000) == 1


def test_cavity_pressure_unbalance_and_shoulder():
    assert abs(physics.cavity_pressure(hot=650) - value("cavity_650")) < 0.005
    pull = physics.unbalance_force(mass=0.2, offset=5, speed=1000)
    assert abs(pull - value("unbalance_200g_5mm_1000")) < 0.005
    assert physics.highest_speed(gap=1.5, advance=1) == value("shoulder_gap_1.5_pitch_1")
    assert physics.gap_needed(speed=90, advance=1) == 1.5


def liquidus_rows():
    return [key for key, row in FACTS.items() if row["unit"].startswith("degC liquidus")]


@each_row("key", liquidus_rows())
def test_every_filler_against_the_temper_of_a_ball(key):
    """Every silver filler takes all hardness; every soft solder works above the low end of a ball's temper."""
    given = Situation(liquidus=value(key), temper=value("52100_temper_low"))
    rule = "hardness-gone" if key.startswith("braze") else "over-temper"
    other = "over-temper" if key.startswith("braze") else "hardness-gone"
    assert RULES[rule].judge(given).kind == "raised"
    assert RULES[other].judge(given) is None


def test_tin_lead_eutectic_leaves_a_ball_of_the_high_temper_alone_and_tin_silver_does_not():
    high = {"temper": value("52100_temper_high")}
    assert RULES["over-temper"].judge(Situation(liquidus=value("solder_Sn63Pb37"), **high)) is None
    assert RULES["over-temper"].judge(Situation(liquidus=value("solder_Sn96.5Ag3.5"), **high)).kind == "raised"


@pytest.mark.parametrize("key", [key for key in liquidus_rows() if key.startswith("braze_")])
def test_cadmium_of_a_filler(key):
    share = int(FACTS[key]["unit"].rsplit(" ", 1)[1])
    name = key.removeprefix("braze_")
    finding = RULES["cadmium"].judge(Situation(liquidus=700.0, alloy=name))
    if share:
        assert finding.kind == "raised" and write(finding.values["share"]) == f"{share}%"
    else:
        assert finding is None


@each_row("caution_id, key, written", [
    ("PPE-02", "noise_rel", "85 dB(A)"), ("ADH-04", "cyanoacrylate_soften", "100 °C"),
    ("MAG-04", "ndfeb_soften", "80 °C"), ("BRZ-05", "hot_work_clear", "10.7 m"),
    ("BRZ-09", "hot_zone_air", "30 m/min"), ("GRN-03", "grinder_rest_gap", "3.2 mm"),
    ("GRN-03", "grinder_tongue_gap", "6.4"), ("FAD-02", "eye_rinse", "15 to 20 minutes"),
    ("FIL-06", "file_speed_ferrous", "4 to 5 times"), ("BRZ-04", "metal_fume_fever", "4 to 12 h"),
])  # fmt: skip
def test_a_figure_written_in_a_line(caution_id, key, written):
    for number in FACTS[key]["value"].split("-"):
        assert number in written
    assert written in line_of(caution_id)


def test_the_air_line_limit_is_under_thirty_psi():
    assert "under 2.1 bar" in line_of("SWF-02")
    assert abs(30 * 0.0689476 - value("air_cleaning")) < 0.005  # 1 psi = 0.0689476 bar


def test_implants_are_kept_beyond_the_widest_reach_measured():
    assert "30 cm" in line_of("MAG-01") and value("magnet_device_influence") < 30


def test_a_screen_shows_no_more_than_the_study_bears():
    from engine.base.answer import Caution

    stops = [Caution(str(n), "DANGER", "text", because="1", acknowledge=True) for n in range(9)]
    shown, more = arrange(stops)
    assert len(shown) == value("warning_count_limit") and len(more) == 4
