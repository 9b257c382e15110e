"""Designations: every published example, every pair of every series, near misses, and whatever else is typed."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import BadInput
from engine.threads.designation import parse
from engine.threads.series import entries, named
from engine.threads.thread import FAMILIES
from tests.engine.threads.published import published
from tests.rows import each_row

# The one published writing that does not say which thread it is.
AMBIGUOUS = {"No. 10": "24 UNC or 32 UNF: must be asked"}


@each_row("row", published("designations"), ids=lambda row: row["text"])
def test_published_examples_are_read(row):
    if row["text"] in AMBIGUOUS:
        with pytest.raises(BadInput, match=r"#10-24 UNC, #10-32 UNF"):
            parse(row["text"])
        return
    thread = parse(row["text"])
    inch = row["family"] == "UN"
    unit = 25.4 if inch else 1.0
    assert thread.family == ("unified" if inch else "metric")
    assert thread.diameter == pytest.approx(float(row["major"]) * unit, abs=1e-9)
    size = float(row["pitch_mm_or_tpi"])
    assert float(thread.pitch) == pytest.approx(25.4 / size if inch else size, rel=1e-12)
    if row["lead"]:
        assert float(thread.lead) == pytest.approx(float(row["lead"]) * unit, rel=1e-12)
    assert thread.starts == int(row["starts"])
    assert thread.left_hand == (row["hand"] == "L")
    assert thread.tolerance == row["class"]
    assert parse(str(thread)) == thread


@each_row("family", FAMILIES)
def test_every_published_pair_is_read_and_written_back(family):
    for entry in entries(family):
        thread = named(entry)
        assert thread.family == family
        assert thread.diameter == pytest.approx(float(entry.diameter), abs=1e-9)
        assert thread.pitch == entry.pitch
        assert not thread.special
        assert parse(str(thread)) == thread
        assert parse(f"{thread} LH").left_hand
        assert parse(str(parse(f"{thread} LH"))) == parse(f"{thread} LH")


@each_row(
    ("text", "written"),
    [
        # ISO 965-1 clause 12 and ISO 261: M, size, x pitch where it is not the coarse one, class, length group, LH
        ("m10 x 1,25 - 6G", "M10x1.25-6G"),
        ("M10×1.5", "M10"),
        ("M10*1.0", "M10x1"),
        ("M10-1.25", "M10x1.25"),
        ("M8 left hand", "M8-LH"),
        ("M2.5", "M2.5"),
        ("M12 x 1 mm", "M12x1"),
        # ISO 2904: lead with (P pitch), LH behind the pitch
        ("Tr 14 x 6 P3", "Tr14x6(P3)"),
        ("tr40x14(p7) lh 7e", "Tr40x14(P7)LH-7e"),
        # ASME B1.1 clause 6
        ("1/4 unc", "1/4-20 UNC"),
        ('1/4"-20 UNC', "1/4-20 UNC"),
        ("5/16-18UNC", "5/16-18 UNC"),
        ("1/4-20 UN", "1/4-20 UNC"),
        ("2-4 1/2 UNC", "2-4.5 UNC"),
        ("1-8", "1-8 UNC"),
        ("1-64", "1-64 UNC"),
        ("#8-32 UNC-2A", "8-32 UNC-2A"),
        ("6-10 UNS", "6-10 UNS"),
        ("4.000-36 UNS", "4.000-36 UNS"),
        ("4-36 UNS", "4-36 UNS"),
        ("UNC 1/4-20", "1/4-20 UNC"),
        # British Standards; the trade's writings of them
        ("3/8 Whit", "3/8-16 BSW"),
        ("1/2-20 Whitworth", "1/2-20 Whit.S"),
        ("1 1/8 BSF close", "1 1/8-9 BSF close"),
        ("BA 4", "4 BA"),
        ("No. 4 BA", "4 BA"),
        ("1/4x40 ME", "1/4-40 ME"),
        ("1/4x26 BSB", "1/4-26 BSB"),
        ("1/4 brass", "1/4-26 BSB"),
        ("1/4 CEI", "1/4-26 BSC"),
        # ISO 228-1, ISO 7-1, ASME B1.20.1, ASME B1.5
        ("g1/4a", "G 1/4 A"),
        ('1/2" BSP', "G 1/2"),
        ("1-1/4 BSPT", "R 1 1/4"),
        ("rp1/2", "Rp 1/2"),
        ("1/8 NPT", "1/8-27 NPT"),
        ("1-1/4 NPT", "1-1/4-11.5 NPT"),
        ("3/4 ACME", "3/4-6 ACME"),
        ("1/2-10 acme 2 start 2g", "1/2-10-0.2L (2 STARTS) ACME-2G"),
    ],
)
def test_the_standard_own_writing(text, written):
    assert str(parse(text)) == written


@each_row(
    ("text", "sentence"),
    [
        ("M10x1.4", "M10x1.4 is not an ISO 261 pitch: 1.5, 1.25, 1, 0.75; .* write M10x1.4 special"),
        ("M13", r"the nearest are M12 and M14\.$"),
        ("M15", "no coarse pitch in ISO 261: write M15x1.5 or M15x1"),
        ("M10 fine", "write M10x1.25 or M10x1 or M10x0.75"),
        ("M16xPh4P1.5", "does not add up"),
        ("M10-6x", "6x is no tolerance"),
        ("Tr12x5", "Tr12x5 is not an ISO 2904 pitch: 2, 3"),
        ("Tr12", "Tr12 needs its pitch: Tr12x2 or Tr12x3"),
        ("1/4-24", "1/4-28 UNF, 1/4-20 UNC, 1/4-32 UNEF; .* write 1/4-24 UNS"),
        ("1/4-28 UNC", "1/4-28 UNC is not a pair"),
        ("1 UNC", "#1-64 UNC, 1-8 UNC"),
        ("10", "M10, #10-24 UNC, #10-32 UNF"),
        ("1/2-20 BSW", "1/2-12 BSW; .* write 1/2-20 Whit.S"),
        ("3/7 BSW", "nearest are"),
        ("1/4 ME", "1/4-40 ME, 1/4-32 ME"),
        ("26 BA", "0 BA to 25 BA"),
        ("G 3/7", r"nearest are G 3/8 and G 1/2\.$"),
        ("1/8-28 NPT", "another pitch in ASME B1.20.1: 27"),
        ("1-8 ACME", "1-5 ACME; .* write 1-8 ACME special"),
        ("UNJF 1/4", "not among the families here: Unified threads with a large root radius"),
        ("M10x9 special", "pitch that its diameter cannot carry"),
        # Sizes that their standards list beyond the tables here.
        ("M310", "M310 is outside the tables here, which hold ISO 261 from 1 to 300 mm"),
        ("M310x2", "from 1 to 300 mm; .* write M310x2 special, and it is worked as a special thread"),
        ("M1000", "M1000 cannot be used"),
        ("Tr200x8", "outside the tables here, which hold ISO 2904 from 8 to 175 mm"),
        ("Tr200", "outside the tables here, which hold ISO 2904 from 8 to 175 mm"),
        ("6-2 ACME", "outside the tables here, .* from 1/4-16 ACME to 5-2 ACME; .* 6-2 ACME special"),
        ("7 ACME", "outside the tables here, .* to 5-2 ACME"),
        ("7 UNC", "outside the tables here, which hold ASME B1.1 from .* to 6 in"),
    ],
)
def test_a_near_miss_names_the_nearest(text, sentence):
    with pytest.raises(BadInput, match=sentence) as caught:
        parse(text)
    assert caught.value.field == "size"


def test_a_bare_number_is_offered_as_metric_only_where_that_can_be_written():
    for text, offered in (("10", "M10, "), ("5.5", "5-1/2-")):  # M5.5 has no coarse pitch
        with pytest.raises(BadInput) as caught:
            parse(text)
        assert f"may be {offered}" in str(caught.value)


@pytest.mark.parametrize(
    ("words", "starts"),
    [("two", 2), ("double", 2), ("three", 3), ("triple", 3), ("four", 4), ("five", 5), ("six", 6), ("8", 8)],
)
def test_starts_are_told_by_a_word_or_a_number(words, starts):
    assert parse(f"Tr60x3 {words} start").starts == starts
    assert parse(f"M30x1 ({words.upper()} STARTS)").starts == starts


@pytest.mark.parametrize(
    ("text", "inches"), [("10-18 UNS", 0.190), ("10-17 UNS", 10.0), ("2-40 UNS", 0.086), ("2-38 UNS", 2.0)]
)
def test_a_bare_whole_number_is_a_number_size_if_it_can_carry_the_pitch(text, inches):
    """Up to three tenths of its diameter (common practice, no source)."""
    assert parse(text).diameter / 25.4 == pytest.approx(inches)


SPECIAL = ["M10x1.4 special", "M10x1.4-6g special", "1/4-24 UNS", "1/2-20 Whit.S", "Tr12x4 special"]


@pytest.mark.parametrize("text", [*SPECIAL, "1-8 ACME special", "1/4-30 ME special"])
def test_a_special_is_marked_and_keeps_its_mark(text):
    thread = parse(text)
    assert thread.special
    assert parse(str(thread)) == thread


def test_special_on_a_standard_pair_is_the_standard_pair():
    assert parse("M10x1.25 special") == parse("M10x1.25")


@given(st.text(max_size=70))
@settings(max_examples=60)
def test_any_text_is_a_thread_or_one_refusal(text):
    started = time.perf_counter()
    try:
        thread = parse(text)
    except BadInput as refusal:
        assert refusal.field == "size"
        assert str(refusal).isprintable()
    else:
        assert parse(str(thread)) == thread
    assert time.perf_counter() - started < 0.5


PIECES = [
    *("M", "Tr", "G", "R", "10", "1/4", "#", "No. ", "-", "x", " ", ".", ",", "20", "1.5", "0", "999", "1-", "nan"),
    *("UNC", "UNS", "BSW", "BA", "ME", "NPT", "ACME", "LH", "6g", "2A", "(P3)", "Ph3P1.5", "special", "L", "1e9"),
    *("(2 STARTS)", "²", "٣", "\u0000"),
]


@given(st.lists(st.sampled_from(PIECES), max_size=9).map("".join))
@settings(max_examples=100)
def test_any_jumble_of_marks_is_a_thread_or_one_refusal(text):
    try:
        thread = parse(text)
    except BadInput as refusal:
        assert refusal.field == "size"
    else:
        assert parse(str(thread)) == thread
        assert thread.diameter > 0
        assert 0 < thread.pitch < thread.diameter


@pytest.mark.parametrize("text", ["M10 0 starts", "Tr40x14 (0 starts)"])
def test_a_thread_without_a_start_is_refused(text):
    with pytest.raises(BadInput, match="one start or more"):
        parse(text)
