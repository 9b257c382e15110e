"""Scales, verniers, flats and the strip to print."""

import math
from fractions import Fraction

import pytest

from engine.base.answer import Line
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.indexing import scales
from engine.indexing.flats import flats_on
from engine.indexing.vernier import vernier_scale
from engine.shop.file import parse, sample
from tests.engine.indexing.checks import table

METRIC, INCH = sample("metric"), sample("inch")
GRADUATING = table("graduating_check.csv")


def answer_of(operation, call, shop=METRIC, unit="mm"):
    return run(operation, dict(word.split("=", 1) for word in call.split()), shop, unit=unit).answer


def scale(call, shop=METRIC, unit="mm"):
    return answer_of("scale-lines", call, shop, unit)


@pytest.mark.parametrize(
    "row", [r for r in GRADUATING if r["topic"] == "V-cutter line"], ids=lambda r: r["input"]
)
def test_width_of_a_v_cut(row):
    words = row["input"].replace(",", "").split()
    angle, depth = float(words[2]), float(words[5])
    assert scales.depth_for_width(width=float(row["computed"]), included_angle=angle) == pytest.approx(
        depth, abs=1e-4
    )


@pytest.mark.parametrize(
    "row", [r for r in GRADUATING if r["topic"].startswith("line spacing")], ids=lambda r: r["input"]
)
def test_spacing_on_a_drum(row):
    words = row["input"].replace(",", "").split()
    assert scales.spacing_on(float(words[1]), int(words[3])) == pytest.approx(
        float(row["computed"]), abs=6e-5
    )


def test_published_thimbles():
    # 0.5 mm and 50 lines read 0.01 mm (workshop textbooks); 0.040 in a turn in 40 lines reads 0.001 in
    assert scales.closing(Fraction(1, 2), Fraction(1, 100)).lines == 50
    assert scales.closing(Fraction(254, 250), Fraction(254, 10000)).lines == 40
    # 10 marks are 36 degrees apart (a dial handle in course notes)
    assert scale("lead=1 per_line=0.1 diameter=30").figure("angle").value == 36


def test_published_verniers():
    # US Army OD1642: 25 parts on 24 of 0.025 in read to 0.001 in
    imperial = vernier_scale(Fraction("0.025"), 25)
    assert (imperial.reads_to, imperial.length) == (Fraction("0.001"), Fraction("0.6"))
    # 10 parts on 9 mm read to 0.1 mm (course notes)
    metric = vernier_scale(Fraction(1), 10)
    assert (metric.reads_to, metric.length) == (Fraction("0.1"), 9)
    # OD1642, protractor: 12 parts on 23 degrees, each adds 5', the tenth 50'
    protractor = vernier_scale(Fraction(1), 12, extended=True)
    assert protractor.covers == 23
    assert (protractor.reads_to * 60, protractor.reads_to * 60 * 10) == (5, 50)
    # a table's dial of 5' lines with a vernier of 5 reads to 1' (a rotary table's description)
    assert vernier_scale(Fraction(5), 5).reads_to == 1


def test_a_vernier_on_a_drum_lands_between_the_lines():
    answer = answer_of("vernier", "division=0.05 parts=10 lines=30")
    # 9 of 30 lines in 10 parts: 360 x 9 / 30 / 10
    assert answer.figure("part_angle").value == pytest.approx(10.8)
    assert answer.figure("reads_to").value == pytest.approx(0.005)
    assert answer.table("lines").count_noun == "line"


@pytest.mark.parametrize("row", table("polygon_check.csv"), ids=lambda r: f"{r['shape']} {r['input']}")
def test_across_corners(row):
    # printed values are cut off, not rounded: within one in the last place, upwards
    made = flats_on(
        sides={"hexagon": 6, "square": 4}[row["shape"]], across_flats=float(row["input"])
    ).across_corners
    last = 10.0 ** -len(row["published"].split(".")[1])
    assert -1e-9 <= made - float(row["published"]) < last or abs(made - float(row["published"])) <= last / 2


def test_largest_flats_from_a_bar():
    # hexagon 0.86603 D, square 0.70711 D (handbook tables)
    assert flats_on(sides=6, bar=1.0).across_flats == pytest.approx(0.86603, abs=5e-6)
    assert flats_on(sides=4, bar=1.0).across_flats == pytest.approx(0.70711, abs=5e-6)


def test_flats_against_points_on_a_circle():
    for sides in range(3, 13):
        made = flats_on(sides=sides, bar=20.0)
        corners = [
            complex(10 * math.cos(2 * math.pi * k / sides), 10 * math.sin(2 * math.pi * k / sides))
            for k in range(sides)
        ]
        middle = abs(corners[0] + corners[1]) / 2  # the flat's nearest point to the axis
        assert made.across_flats == pytest.approx(2 * middle)
        assert made.flat_width == pytest.approx(abs(corners[0] - corners[1]))
        assert made.cut_depth == pytest.approx(10 - middle)
        if sides % 2:
            opposite = corners[(sides + 1) // 2]
            assert made.flat_to_corner == pytest.approx(abs(opposite - (corners[0] + corners[1]) / 2))


def test_flats_narrower_than_their_corners():
    made = flats_on(sides=6, across_flats=15, bar=16)
    assert made.across_corners == 16 and made.cut_depth == 0.5
    assert made.flat_width == pytest.approx(math.sqrt(16**2 - 15**2))


@pytest.mark.parametrize(
    "call", ["sides=6", "sides=2 across_flats=8", "sides=6 across_flats=20 diameter=16", "sides=1 diameter=9"]
)
def test_flats_that_cannot_be(call):
    with pytest.raises(BadInput):
        answer_of("flats", call)


def test_flats_are_stepped_with_what_the_shop_has():
    head = answer_of("flats", "sides=6 across_flats=13")
    assert head.figure("step").text == "6 turns + 26 holes of 39"  # US Army OD1644, lesson 1: 6 divisions
    wheel = answer_of("flats", "sides=6 across_flats=13 by=wheel")
    assert wheel.table("positions").rows[1][1] == "10 teeth of 60"
    bare = answer_of("flats", "sides=6 across_flats=13", parse('name = "bare"'))
    assert bare.table("positions").rows[1][1] == "turn to 60° 0'"
    assert any("nothing to divide with" in note.text for note in bare.notes)


def test_a_scale_line_by_line():
    answer = scale(
        "lead=1.5 per_line=0.05 diameter=24 long_length=4 middle_length=3 short_length=2 feed_dial=2/100"
    )
    assert answer.figure("divisions").value == 30 and answer.figure("closes").text == "yes"
    lines = answer.table("lines")
    assert lines.count_noun == "line" and lines.setting == ("setting", "feed")
    assert lines.column("label")[:11] == ("0", *[""] * 9, "0.5")
    assert lines.column("length")[:6] == (4, 2, 2, 2, 2, 3)
    # 2 mm a turn, 100 lines: 4 mm is 2 turns, 3 mm is 1 turn and 50 lines
    assert lines.column("feed")[:6] == ("2 turns", *["1 turn"] * 4, "1 turn + 50 lines")
    # 40:1 and 30 lines: one turn and 1/3, which is 13 holes of 39; absolute holes go 0, 13, 26, 0
    assert lines.column("setting")[1] == "1 turn + 13 holes of 39"
    assert lines.column("hole_from_start")[:4] == (0, 13, 26, 0)
    assert lines.column("whole_turns")[:4] == (0, 1, 2, 4)


def test_numbers_that_run_the_other_way():
    forward = scale("lead=1.5 per_line=0.05 diameter=24").table("lines").column("label")
    reverse = scale("lead=1.5 per_line=0.05 diameter=24 numbering=reverse").table("lines").column("label")
    assert [t for t in forward if t] == ["0", "0.5", "1"]
    assert [t for t in reverse if t] == ["0", "1", "0.5"]


def test_an_inch_scale_is_labelled_in_inches():
    answer = scale("lead=20tpi per_line=0.001 diameter=1", INCH, "inch")
    assert answer.figure("divisions").value == 50
    assert [t for t in answer.table("lines").column("label") if t] == ["0", "0.01", "0.02", "0.03", "0.04"]


def test_a_scale_that_does_not_close_says_so():
    answer = scale("lead=1.25 per_line=0.1 diameter=24")
    assert answer.figure("closes").text == "no"
    assert answer.figure("value").value == pytest.approx(1.25 / answer.figure("divisions").value)
    assert any("does not close" in note.text for note in answer.notes)


def test_a_diameter_scale_has_twice_the_lines():
    assert scale("lead=2 per_line=0.05 diameter=40 reads_diameter=yes").figure("divisions").value == 80


def test_lines_too_close_are_said_to_be():
    close = scale("lead=1 per_line=0.01 diameter=12")
    assert close.figure("readable").text == "no"
    assert close.figure("least_diameter").value > 12
    assert any("too close" in note.text for note in close.notes)


def test_dividing_without_a_head():
    lathe = 'name = "x"\n[lathe]\n' + "\n".join(
        ["speeds = '100'", "leadscrew = 3", "change_wheels = '20'", "motor = 500", "spindle_wheel = 60",
         "[lathe.cross_slide]", "travel_per_turn = 2", "divisions = 80",
         "[lathe.top_slide]", "travel_per_turn = 1", "divisions = 50", "[lathe.chuck]"]
    )  # fmt: skip
    answer = scale("lead=1 per_line=0.05 diameter=24", parse(lathe))
    assert answer.figure("divide_with").text == "spindle wheel"
    assert answer.table("lines").column("setting")[1] == "3 teeth of 60"
    assert answer.figure("feed_with").text == "top slide"
    with pytest.raises(BadInput, match="they give 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60"):
        scale("lead=1 per_line=0.02 diameter=24 by=wheel", parse(lathe))
    table_way = scale("lead=1 per_line=0.05 diameter=24 by=table")
    assert table_way.table("lines").column("setting")[1] == "4 turns + 2° 0'"  # 18 degrees at 4 a turn


def test_progress_names_the_next_line():
    answer = scale("lead=1.5 per_line=0.05 diameter=24 done=10")
    assert answer.figure("left").value == 20
    assert answer.figure("next").text.startswith("line 11 of 30: 1 turn + 13 holes of 39; feed ")
    assert answer.figure("next").text.endswith("label 0.5")
    assert not scale("lead=1.5 per_line=0.05 diameter=24 done=30").has("next")
    with pytest.raises(BadInput, match="done"):
        scale("lead=1.5 per_line=0.05 diameter=24 done=31")


@pytest.mark.parametrize(
    ("call", "field"),
    [
        ("per_line=0.05 diameter=24", "lead"),
        ("lead=1.5 per_line=2 diameter=24", "per_line"),
        ("lead=50 per_line=0.001 diameter=24", "per_line"),
        ("lead=1.5 per_line=0.05 diameter=24 feed_dial=wheel", "feed_dial"),
        ("lead=1.5 per_line=0.05 diameter=24 long_length=2 short_length=3", "short_length"),
        ("lead=1.5 per_line=0.05 diameter=24 line_width=0.1 tip_flat=0.1", "line_width"),
        ("size=M12x1.5 lead=2 per_line=0.05 diameter=24", "lead"),
        ("lead=1.5 per_line=0.05 diameter=24 by=robot", "by"),
    ],
)
def test_wrong_values_are_refused_by_name(call, field):
    with pytest.raises(BadInput) as refusal:
        scale(call)
    assert refusal.value.field == field


def test_the_screw_gives_the_lead():
    assert scale("size=M12x1.5 per_line=0.05 diameter=24").figure("divisions").value == 30
    assert (
        scale("size=Tr14x6(P3) per_line=0.1 diameter=24").figure("divisions").value == 60
    )  # the lead, not the pitch


def test_the_pictures_are_tied_to_the_lines():
    answer = scale("lead=1.5 per_line=0.05 diameter=24")
    unrolled, strip = answer.pictures
    assert (unrolled.table, strip.true_size) == ("lines", True)
    drawn = [s for s in strip.shapes if isinstance(s, Line)]
    assert [line.row for line in drawn] == list(range(1, 31))
    for line in drawn:
        assert line.x1 == pytest.approx(math.pi * 24 * (line.row - 1) / 30)
