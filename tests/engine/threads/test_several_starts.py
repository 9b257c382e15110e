"""Threads of several starts: the driver's teeth, the top slide's move, the half-nuts' lines; and which of two threads that
fit alike is the likelier. Published rules and rows derived from them; each row says which."""

from fractions import Fraction

import pytest

from engine.base.operation import run
from engine.shop.file import sample
from engine.threads.passes import slide_travel
from engine.threads.thread_dial import start_lines
from tests.engine.threads.published import published
from tests.rows import each_row
from tests.spoken import spoken

ROWS = published("several_starts")
METRIC, INCH = sample("metric"), sample("inch")


def _of(kind):
    return [row for row in ROWS if row["kind"] == kind]


@each_row("row", _of("half-nuts"), ids=lambda r: f"{r['screw']} {r['lead']} {r['starts']}")
def test_half_nuts_shifted_by_whole_pitches_of_the_leadscrew(row):
    """A dial with a line for every pitch of the leadscrew: the least line of each start tells the pitches to move."""
    many = 240
    found = start_lines(
        lead=Fraction(row["lead"]), starts=int(row["starts"]), leadscrew=Fraction(row["screw"]), teeth=many, lines=many
    )
    said = "no" if found is None else " ".join(str(lines[0] - 1) for lines in found[1:])
    assert said == row["expected"]


def _written(row):
    """A thread whose train on a 5 mm leadscrew is the driver of the row and a wheel of 50."""
    wheel, starts = int(row["wheel"]), int(row["starts"])
    return f"M80xPh{wheel / 10:g}P{wheel / 10 / starts:g} special"


# a third of a tooth count that 3 does not divide makes no pitch that can be written: those rows are the same sum
@each_row(
    "row",
    [r for r in _of("teeth") if r["starts"] != "3" or int(r["wheel"]) % 3 == 0],
    ids=lambda r: f"{r['wheel']} {r['starts']}",
)
def test_the_drivers_teeth(row):
    given = {"size": _written(row), "wheels": f"{row['wheel']}, 50", "leadscrew": "5"}
    answer = spoken(run("change-gears", given, METRIC).answer)
    assert answer.figure("drivers").text == row["wheel"]
    teeth = answer.table("starts").column("teeth_on")[1]
    notes = " ".join(note.text for note in answer.notes)
    assert teeth == (None if row["expected"] == "no" else int(row["expected"]))
    assert ("has no whole number of teeth" in notes) is (row["expected"] == "no")


@pytest.mark.parametrize("row", _of("slide"), ids=lambda r: f"{r['lead']} {r['starts']}")
def test_the_top_slide_goes_on_by_a_pitch(row):
    starts = int(row["starts"])
    size = f"Tr60x{row['lead']}(P{int(row['lead']) // starts}) special"
    answer = spoken(run("screwcutting", {"size": size}, METRIC).answer)
    settings = answer.table("starts").column("set")
    assert [setting.distance for setting in settings] == [k * float(row["expected"]) for k in range(starts)]


@pytest.mark.parametrize(
    ("angle", "moved", "into", "along"),
    # geometry: s cos g into the work and s sin g along the bed, so a slide that stands at an angle starts nothing anew
    [
        *((14.5, 3, 2.9044, 0.7512), (29, 3, 2.6239, 1.4544), (30, 3, 2.5981, 1.5000)),
        *((27.5, 2, 1.7740, 0.9235), (14.5, 3.175, 3.0739, 0.7950)),
    ],
)
def test_a_slide_at_an_angle_goes_in_as_well_as_along(angle, moved, into, along):
    found = slide_travel(depth=into, slide_angle=angle, half_angle=30)
    assert (found.travel, found.sideways) == (pytest.approx(moved, abs=0.0005), pytest.approx(along, abs=0.0005))


# TM 1-420 (1940), p. 81, and Turning and Boring, 1914: geared for the lead, whatever the starts
@pytest.mark.parametrize(
    ("size", "tpi"), [("3/4-8-0.25L (2 STARTS) UN special", 4), ("1-4-0.5L (2 STARTS) ACME special", 2)]
)
def test_gears_are_for_the_lead(size, tpi):
    answer = spoken(run("change-gears", {"size": size}, INCH, unit="inch").answer)
    assert answer.figure("lead_cut").value == pytest.approx(25.4 / tpi)


# Which of two that fit alike stands first: ranks of commonness are judgement (common practice, no source).
@pytest.mark.parametrize(
    ("bench", "given", "first"),
    [
        ("metric", {"major": "9.45", "tpi": "20"}, "3/8-20 BSF"),
        ("metric", {"major": "5/16in", "tpi": "32"}, "5/16-32 ME"),
        ("inch", {"major": "5/16in", "tpi": "32"}, "5/16-32 UNEF"),
        ("metric", {"major": "3/8in", "tpi": "32"}, "3/8-32 ME"),
        ("inch", {"major": "3/8in", "tpi": "32"}, "3/8-32 UNEF"),
        ("metric", {"major": "2.15"}, "2-56 UNC"),
        ("metric", {"major": "6", "pitch": "1"}, "M6"),
        ("metric", {"major": "1/4in", "tpi": "26"}, "1/4-26 BSF"),
        ("metric", {"major": "8", "pitch": "1"}, "M8x1"),
    ],
)
def test_the_likelier_of_two_that_fit_alike(bench, given, first):
    unit = "inch" if bench == "inch" else "mm"
    answer = spoken(run("identify-thread", given, sample(bench), unit=unit).answer)
    assert answer.figure("best").text == first
