"""Where a rule of the limits, a note or a usual class changes: just under, at and just over."""

import pytest

from engine.base.operation import run
from engine.base.words import write
from engine.shop.file import sample
from engine.threads.designation import parse
from engine.threads.form import clearance
from engine.threads.limits import limits
from engine.threads.thread import FAMILIES, family
from engine.threads.tolerance import read_tolerance
from tests.rows import each_row
from tests.spoken import spoken


def said(size, **given):
    return " ".join(write(note) for note in limits(parse(size), **given).notes)


@pytest.mark.parametrize(
    ("size", "engaged", "noted"),
    [
        # ASME B1.1 has its tolerances for 5 P to 15 P, or up to 1.5 D
        ("1/4-20 UNC", 0.75, False),  # 15 P
        ("1/4-20 UNC", 0.7501, True),
        ("1/4-20 UNC", 0.25, False),  # 5 P
        ("1/4-20 UNC", 0.2499, False),  # shorter, but no longer than 1.5 D
        ("1/2-28 UNEF", 0.75, False),  # 1.5 D, over 15 P
        ("1/2-28 UNEF", 0.7501, True),
        ("1/2-28 UNEF", 0.5357, False),  # 15 P
    ],
)
def test_an_engagement_longer_than_the_standard_has_is_said(size, engaged, noted):
    assert ("longer than ASME B1.1" in said(size, engagement=engaged * 25.4)) == noted


@pytest.mark.parametrize(
    ("size", "screw", "nut"),
    [("M1.2", "6h", "5H"), ("M1.4", "6h", "5H"), ("M1.6", "6g", "6H"), ("M2x0.25", "6g", "5H")],
)
def test_the_usual_classes_of_small_metric_threads(size, screw, nut):
    """ISO 965-1 recommends 6h and 5H up to 1.4 mm; it has no 6H for a pitch of 0.25 mm."""
    found = limits(parse(size))
    assert (found.screw_class, found.nut_class) == (screw, nut)
    assert ("no 6H" in said(size)) == (size == "M2x0.25")


@pytest.mark.parametrize(
    ("engaged", "screw", "nut"), [(5.0, "5g6g", "5H"), (5.01, "6g", "6H"), (15.0, "6g", "6H"), (15.01, "7g6g", "7H")]
)
def test_the_group_of_engagement_chooses_the_usual_class(engaged, screw, nut):
    """ISO 965-1: for M10 over 5 up to 15 mm is normal."""
    found = limits(parse("M10"), engagement=engaged)
    assert (found.screw_class, found.nut_class) == (screw, nut)


def test_a_pair_without_listed_engagement_or_table_says_so():
    assert "lists no lengths of engagement" in said("M10x1.4 special", engagement=8.0)
    assert "lists no lengths of engagement" not in said("M10", engagement=8.0)
    assert "has no table for this pair" in said("M10x1.4 special")
    assert "has no table for this pair" not in said("M10")
    assert "ISO 2903 has no tolerance" in said("Tr60x11 special")
    assert "ISO 2903 has no tolerance" not in said("Tr60x9")


@pytest.mark.parametrize(
    ("size", "held"),
    [
        ("16 BA", True),
        ("17 BA", False),
        ("M355x6 special", True),
        ("M356x6 special", False),
        ("Tr356x8 special", False),
    ],
)
def test_where_limits_end_the_sizes_go_on(size, held):
    found = limits(parse(size))
    assert (found.ext_pitch_max is not None) == held
    assert bool([note for note in found.notes if "no limits" in write(note)]) == (not held)
    assert found.pitch_basic > found.minor_basic > 0


@pytest.mark.parametrize(("size", "allowed"), [("3/4 BSW", True), ("7/8 BSW", False), ("3/4 BSW close", False)])
def test_bs_84_gives_large_and_close_screws_no_allowance(size, allowed):
    assert bool(limits(parse(size)).allowance) == allowed


@pytest.mark.parametrize(("tpi", "flat"), [(28, 0.004), (26, 0.004), (24, 0.005), (22, 0.005), (20, 0.007)])
def test_the_flat_of_a_whitworth_nuts_minor_diameter(tpi, flat):
    """BS 84: 0.2 p and 0.004 in from 26 threads per inch, 0.005 from 22, 0.007 below."""
    found = limits(parse(f"1-{tpi} Whit.S"))
    assert (found.int_minor_max - found.int_minor_min) / 25.4 == pytest.approx(0.2 / tpi + flat, abs=0.0001)


@pytest.mark.parametrize(("number", "allowance", "share"), [(10, 0.025, 0.2), (11, 0.0, 0.25)])
def test_ba_screws_from_11_on(number, allowance, share):
    """BS 93: an allowance on 0 to 10 BA, and a wider major diameter from 11 on."""
    found = limits(parse(f"{number} BA"))
    assert found.allowance == allowance
    width = found.ext_major_max - found.ext_major_min
    assert width == pytest.approx(share * float(parse(f"{number} BA").pitch), abs=1e-5)


@pytest.mark.parametrize(
    ("size", "gap"),
    [
        # ISO 2904 by pitch; ASME B1.5 by threads per inch (0.010 in on either side from 10 up in pitch)
        *(("Tr8x1.5", 0.15), ("Tr12x2", 0.25), ("Tr24x5", 0.25), ("Tr30x6", 0.5), ("Tr90x12", 0.5), ("Tr120x14", 1.0)),
        *(("1/2-10 ACME", 0.254), ("3/8-12 ACME", 0.127), ("M10", 0.0)),
    ],
)
def test_clearance_at_crest_and_root(size, gap):
    assert clearance(parse(size)) == gap


@each_row("name", FAMILIES)
def test_the_usual_classes_are_the_familys_own(name):
    kind = family(name)
    screw, nut = kind.usual
    if screw:
        assert read_tolerance(name, screw).screw == screw
    if nut:
        assert read_tolerance(name, nut).nut == nut
    assert bool(screw) == (kind.classes is not None)


def notes_of(**given):
    return [note.text for note in spoken(run("identify-thread", given, sample("metric")).answer).notes]


def test_what_identify_warns_of():
    assert any("without the pitch" in text for text in notes_of(major="6.3"))
    assert not notes_of(major="6.3", tpi="20")
    # a screw may have worn by a tenth of its pitch: 0 BA from 5.775 (BS 93) to 5.675, M6 from 5.794 to 5.694
    assert not any("outside" in text for text in notes_of(major="5.68", pitch="1"))
    assert any("outside" in text for text in notes_of(major="5.67", pitch="1"))
    # 29 and 30 degrees are one to a form gauge, 60 and 55 are not
    assert any("look alike" in text for text in notes_of(major="25.3", included_angle="29.5"))
    assert not any("look alike" in text for text in notes_of(major="6", pitch="1", included_angle="60"))
