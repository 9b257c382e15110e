"""Scales, verniers, flats and the strip to print."""

import math
from fractions import Fraction

import pytest

from engine.base.answer import Line
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.setting import setting_text
from engine.base.words import write
from engine.indexing import scales
from engine.indexing.flats import flats_on
from engine.indexing.lines import number_width
from engine.indexing.vernier import vernier_scale
from engine.shop.file import parse, sample
from engine.trouble import trouble_for
from tests.engine.indexing.checks import table
from tests.rows import each_row
from tests.spoken import spoken

METRIC, INCH = sample("metric"), sample("inch")
GRADUATING = table("graduating_check.csv")


def answer_of(operation, call, shop=METRIC, unit="mm"):
    return spoken(run(operation, dict(word.split("=", 1) for word in call.split()), shop, unit=unit).answer, unit)


def scale(call, shop=METRIC, unit="mm"):
    return answer_of("scale-lines", call, shop, unit)


@each_row("row", [r for r in GRADUATING if r["topic"].startswith("line spacing")], ids=lambda r: r["input"])
def test_spacing_on_a_drum(row):
    words = row["input"].replace(",", "").split()
    assert scales.spacing_on(float(words[1]), int(words[3])) == pytest.approx(float(row["computed"]), abs=6e-5)


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
    made = flats_on(sides={"hexagon": 6, "square": 4}[row["shape"]], across_flats=float(row["input"])).across_corners
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
    answer = scale("lead=1.5 per_line=0.05 diameter=24 long_length=4 middle_length=3 short_length=2 feed_dial=2/100")
    assert answer.figure("divisions").value == 30 and answer.figure("closes").text == "yes"
    lines = answer.table("lines")
    assert lines.count_noun == "line" and lines.setting == ("feed", "class", "setting", "label", "foot_at")
    assert lines.column("label")[:11] == ("0", *[""] * 9, "0.5")
    assert lines.column("length")[:6] == (4, 2, 2, 2, 2, 3)
    # 2 mm a turn, 100 lines: 4 mm is 2 turns, 3 mm is 1 turn and 50 lines
    feeds = [setting_text(cell) for cell in lines.column("feed")[:6]]
    assert feeds == ["2/100: 2 turns, dial 0.00", *["2/100: 1 turn, dial 0.00"] * 4, "2/100: 1 turn, dial 1.00"]
    assert lines.column("class")[:6] == ("long", *["short"] * 4, "middle")
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
    assert scale("size=Tr14x6(P3) per_line=0.1 diameter=24").figure("divisions").value == 60  # the lead, not the pitch


def test_the_pictures_are_tied_to_the_lines():
    answer = scale("lead=1.5 per_line=0.05 diameter=24")
    unrolled, strip = answer.pictures
    assert (unrolled.table, strip.true_size) == ("lines", True)
    drawn = [s for s in strip.shapes if isinstance(s, Line)]
    assert [line.row for line in drawn] == list(range(1, 31))
    for line in drawn:
        assert line.x1 == pytest.approx(math.pi * 24 * (line.row - 1) / 30)


def lengths(call, shop=METRIC):
    """Long, middle and short lines, in turns of the feed's handwheel."""
    answer = scale(f"lead=1.5 per_line=0.05 diameter=24 {call}", shop)
    size = {kind: answer.figure(f"{kind}_length").value for kind in ("long", "middle", "short")}
    turn = float(call.split("feed_dial=")[1].split("/")[0]) if "feed_dial" in call else 2.0
    return [size[kind] / turn for kind in ("long", "middle", "short")]


@pytest.mark.parametrize(
    ("call", "turns"),
    [
        ("feed_dial=2/100", [1.5, 1, 0.5]),
        ("feed_dial=1/50", [3, 2, 1]),
        ("feed_dial=2.54/100", [1.5, 1, 0.5]),
        ("feed_dial=3/100", [1.5, 1, 0.5]),
        ("feed_dial=2/100 long_length=4", [2, 1.5, 1]),
        ("feed_dial=2/100 long_length=4 short_length=2", [2, 1.5, 1]),
    ],
)
def test_lengths_that_nobody_gave_lie_on_whole_and_half_turns(call, turns):
    assert lengths(call) == pytest.approx(turns)


@pytest.mark.parametrize(
    ("call", "sizes"),
    [("18/180", (2.8, 2.0, 1.1)), ("4/100", (2.8, 2.0, 1.1)), ("2/100 short_length=0.31", (0.789, 0.5, 0.31))],
)
def test_where_turns_would_change_them_too_much_they_keep_their_proportion(call, sizes):
    answer = scale(f"lead=1.5 per_line=0.05 diameter=24 feed_dial={call}")
    found = [answer.figure(f"{kind}_length").value for kind in ("long", "middle", "short")]
    assert found == pytest.approx(sizes, abs=1e-3)


def test_the_next_lines_feed_leads():
    lead = scale("lead=1.5 per_line=0.05 diameter=24").lead
    assert (lead.label, lead.setting.turns, lead.setting.on_dial) == ("Line 1, long", 1, 1.0)
    after = scale("lead=1.5 per_line=0.05 diameter=24 done=5").lead
    assert (after.label, after.setting.turns, after.setting.on_dial) == ("Line 6, middle", 1, 0.0)
    assert scale("lead=1.5 per_line=0.05 diameter=24 done=30").lead.name == "divisions"


def test_a_dry_run_of_a_scale_closes_on_line_1():
    for by in ("head", "table", "wheel"):
        rows = scale(f"lead=1.5 per_line=0.05 diameter=24 by={by}").table("dry_run").rows
        assert len(rows) == 30 and rows[-1][2] == "line 1 again"
    assert rows[-1][3:] == (1, 0)  # 30 moves of 2 teeth on a wheel of 60
    assert scale("lead=1.5 per_line=0.05 diameter=24").table("dry_run").rows[-1][3:] == (40, 0)


NUMBERS = table("numbers_marking_check.csv")


@pytest.mark.parametrize("row", [r for r in NUMBERS if r["quantity"] == "number width"], ids=lambda r: r["inputs"])
def test_width_of_a_number(row):
    given = dict(part.split("=") for part in row["inputs"].split("; ") if "=" in part)
    digits = int(row["inputs"].split("digits ")[1].split(";")[0])
    width = number_width(digits, float(given["h"]))
    assert width == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
    per_number = int(given["N"].split()[0])
    room = next(r for r in NUMBERS if r["quantity"] == "arc between numbers"
                and r["inputs"] == f"D={given['D']}; N={per_number}") if given["D"] != "25" else None  # fmt: skip
    if room is not None:
        assert math.pi * float(given["D"]) / per_number == pytest.approx(float(room["expected"]), abs=1e-3)


@pytest.mark.parametrize(("diameter", "height"), [(20, 1.0), (20.1, 1.5), (30, 1.5), (40, 2.0), (80, 3.0)])
def test_figures_go_with_the_drum(diameter, height):
    """Heights by common practice; the rooms are wide enough here: three numbers on the drum."""
    answer = scale(f"lead=1.5 per_line=0.05 diameter={diameter}")
    assert answer.figure("figure_height").value == height
    assert answer.figure("figure_foot").value == pytest.approx(answer.figure("long_length").value + height / 2)


def test_smaller_punches_where_the_number_has_no_room():
    """Ten numbers of 4 characters on 16 mm: 5.03 mm each, 0.8 of it 4.02; 1 mm figures take 3.35, the next 5.0."""
    answer = scale("lead=1 per_line=0.01 diameter=16 long_every=5")
    assert answer.figure("figure_height").value == 1.0
    assert answer.figure("numbers_fit").text == "no"  # twenty numbers: 2.51 mm each
    assert any("widest number takes" in note.text for note in answer.notes)
    roomy = scale("lead=1 per_line=0.01 diameter=60 long_every=10")
    assert roomy.figure("numbers_fit").text == "yes"
    assert roomy.figure("figure_height").value == 3.0
    assert not any("widest number takes" in note.text for note in roomy.notes)
    asked = scale("lead=1 per_line=0.01 diameter=60 long_every=10 figure_height=7")
    assert asked.figure("numbers_fit").text == "no"


def test_numbers_to_stamp_say_line_place_and_offset():
    answer = scale("lead=1.5 per_line=0.05 diameter=24")
    rows = answer.table("numbers").rows
    assert [row[1:3] for row in rows] == [("0", 1), ("0.5", 11), ("1", 21)]
    assert rows[1][3] == pytest.approx((number_width(3, 1.5) - 0.65 * 1.5) / 2)
    assert rows[1][4] == answer.figure("figure_foot").value == answer.table("lines").column("foot_at")[10]
    assert rows[1][5:] == answer.table("lines").rows[10][6:8]
    assert rows[0][3] == 0


def test_an_inch_shop_has_inch_punches():
    answer = scale("lead=20tpi per_line=0.001 diameter=1", INCH, "inch")
    assert answer.figure("figure_height").value == pytest.approx(25.4 / 16)


@pytest.mark.parametrize(("flat", "depth"), [(0.0, 0.12), (0.06, 0.06)])
def test_a_flat_on_the_tip_cuts_a_wide_line_at_less_depth(flat, depth):
    """90 degrees: width = flat + twice the depth (geometry)."""
    answer = scale(f"lead=1.5 per_line=0.05 diameter=24 line_width=0.24 cutter_angle=90 tip_flat={flat}")
    assert answer.figure("line_depth").value == pytest.approx(depth if not flat else 0.09)


@pytest.mark.parametrize(("lines", "said"), [(30, False), (31, True)])
def test_long_lines_that_do_not_go_round_are_said(lines, said):
    notes = scale(f"lead={lines} per_line=1 diameter=50 long_every=10").notes
    assert any("do not go round" in note.text for note in notes) is said


@pytest.mark.parametrize(("diameter", "said"), [(4.14, True), (4.2, False)])
def test_lines_closer_than_can_be_read_are_said(diameter, said):
    """30 lines at 0.438 mm (0.035 in at 28 in, scaled to 350 mm) are 4.18 mm."""
    notes = scale(f"lead=1.5 per_line=0.05 diameter={diameter}").notes
    assert any("too close to read" in note.text for note in notes) is said


@pytest.mark.parametrize(("per_line", "said"), [("0.05", False), ("0.0501", True), ("0.0499", True)])
def test_a_scale_that_does_not_close_says_which_way(per_line, said):
    notes = [note.text for note in scale(f"lead=1.5 per_line={per_line} diameter=24").notes]
    assert any("does not close" in text for text in notes) is said
    if said:
        assert any(("less" if per_line > "0.05" else "more") in text for text in notes if "does not close" in text)


def rule(call, shop=METRIC, unit="mm"):
    return answer_of("straight-scale", call, shop, unit)


def test_a_straight_scale_has_classes_labels_and_places():
    """60 mm in millimetres: 1 mm is half a turn of a 2 mm dial, every tenth line numbered."""
    answer = rule("spacing=1 lines=61 move_dial=2/100 feed_dial=2/100")
    rows = answer.table("lines").rows
    assert len(rows) == 61 and answer.figure("scale_length").value == 60
    assert [row[4] for row in rows if row[4]] == ["0", "10", "20", "30", "40", "50", "60"]
    assert (rows[37][1].turns, rows[37][1].on_dial) == (18, 1.0)
    assert [row[3] for row in rows[:6]] == ["long", *["short"] * 4, "middle"]
    assert [row[4] for row in rule("spacing=1 lines=21 numbering=reverse").table("lines").rows if row[4]] == [
        "20", "10", "0",
    ]  # fmt: skip


def test_a_vernier_ruled_straight_counts_for_what_it_reads():
    """20 parts over 19 mm (OD1642's rule): lines 0.95 mm apart that count 0.05 mm each, never added up."""
    answer = rule("spacing=0.95 lines=21 value=0.05 move_dial=2/100")
    rows = answer.table("lines").rows
    assert rows[20][6] == pytest.approx(19)
    assert [row[4] for row in rows if row[4]] == ["0", "0.5", "1"]
    assert max(abs(row[7]) for row in rows) <= 0.01 + 1e-9
    assert (rows[3][1].turns, rows[3][1].on_dial) == (1, pytest.approx(0.86))


@pytest.mark.parametrize(("dial", "said"), [("2/100", False), ("2.54/100", False), ("2.54/10", True)])
def test_a_dial_that_cannot_set_the_lines_evenly_is_said(dial, said):
    """A fiftieth of the spacing: lines 1 mm apart on a dial of 0.0254 mm are 0.0127 out at most, on 0.254 mm 0.127."""
    notes = rule(f"spacing=1 lines=61 move_dial={dial}").notes
    assert any("out of place" in note.text for note in notes) is said


def test_a_strip_of_true_size_ends_with_its_last_line():
    picture = rule("spacing=1 lines=61").pictures[1]
    drawn = [s for s in picture.shapes if isinstance(s, Line)]
    assert picture.true_size and [line.row for line in drawn] == list(range(1, 62))
    assert [line.x1 for line in drawn] == pytest.approx(list(range(61)))


def test_a_straight_scales_dry_run_goes_back_to_the_first_line():
    rows = rule("spacing=1 lines=11").table("dry_run").rows
    assert rows[-1][2] == "line 1 again" and rows[-1][1].turns == 0 and rows[-1][1].on_dial == 0
    with pytest.raises(BadInput, match="move_dial"):
        rule("spacing=1 lines=11", parse('name = "bare"'))


@pytest.mark.parametrize(("spacing", "said"), [("0.43", True), ("0.45", False)])
def test_a_rule_too_fine_to_read_is_said(spacing, said):
    assert any("too close to read" in n.text for n in rule(f"spacing={spacing} lines=11").notes) is said


@pytest.mark.parametrize(("lines", "said"), [(21, False), (22, True)])
def test_a_rule_that_ends_between_long_lines_is_said(lines, said):
    assert any("no long one" in n.text for n in rule(f"spacing=1 lines={lines} long_every=10").notes) is said


def test_flats_lead_with_the_depth_on_the_dial():
    """13 mm hexagon on 16 mm: 1.5 deep; a dial of 1 mm in 50 lines: 1 turn and 0.50."""
    answer = answer_of("flats", "sides=6 across_flats=13 diameter=16")
    lead = answer.lead.setting
    assert (lead.wheel, lead.way, lead.turns, lead.on_dial) == ("Mill z", "down", 1, 0.5)
    assert answer_of("flats", "sides=6 across_flats=13", parse('name = "bare"')).lead.name == "across_flats"
    assert answer.table("dry_run").rows[-1][2:] == ("flat 1 again", 40, 0)
    assert answer.figure("sector_holes").value == 27  # US Army OD1644: 26 spaces are 27 holes


def test_flats_are_drawn_to_their_sizes():
    for sides, call in ((6, "sides=6 across_flats=13 diameter=16"), (5, "sides=5 across_flats=13")):
        picture = answer_of("flats", call).pictures[0]
        flats = [s for s in picture.shapes if isinstance(s, Line) and s.row]
        assert [s.row for s in flats] == list(range(1, sides + 1))
        for line in flats:
            middle = complex(line.x1 + line.x2, line.y1 + line.y2) / 2
            assert abs(middle) == pytest.approx(6.5)
            along = complex(line.x2 - line.x1, line.y2 - line.y1)
            assert (along / middle).real == pytest.approx(0)  # square to the way out from the axis
            assert abs(along) == pytest.approx(answer_of("flats", call).figure("flat_width").value)
            assert math.degrees(math.atan2(middle.real, middle.imag)) % 360 == pytest.approx(
                360 * (line.row - 1) / sides
            )
    assert "13.000 mm across" in picture.alt


@pytest.mark.parametrize(("across", "round_corners"), [("13.86", True), ("13.85", False)])
def test_corners_stay_round_when_the_bar_is_thin(across, round_corners):
    """16 mm x cos 30 is 13.856."""
    answer = answer_of("flats", f"sides=6 across_flats={across} diameter=16")
    assert any("corners stay round" in n.text for n in answer.notes) is round_corners


def trouble(operation, row, call):
    done = run(operation, dict(word.split("=", 1) for word in call.split()), METRIC)
    found = {t.id: write(t.number) for t in trouble_for(operation, done.answer, done.inputs, METRIC)}
    return found[row]


DRUM = "lead=1.5 per_line=0.05 diameter=24"


@each_row(
    ("operation", "row", "call", "said"),
    [
        # 30 divisions on 40:1: 30 times 1 1/3 turns are 40 (US Army OD1644)
        ("divide", "IN-01", "divisions=30", "30 moves of 1 turn + 13 holes of 39 make 40 turns; 40 is one turn of the work"),
        ("divide", "IN-01", "divisions=8", "8 moves of 5 turns must make 40 turns of the crank"),
        ("divide", "IN-01", "divisions=127", "127 moves must add up to 40 turns of the crank"),
        ("divide", "IN-01", "angle=7", ""),
        ("rotary-table", "IN-01", "divisions=7 ratio=90", "7 moves must add up to 90 turns of the handwheel"),
        ("rotary-table", "IN-01", "angle=7 ratio=90", ""),
        ("scale-lines", "IN-01", DRUM, "30 moves of 1 turn + 13 holes of 39 must make 40 turns of the crank"),
        ("scale-lines", "IN-01", f"{DRUM} by=table", ""),
        ("flats", "IN-01", "sides=6 across_flats=13", "6 moves of 6 turns + 26 holes of 39 must make 40 turns of the crank"),
        ("flats", "IN-05", "sides=6 across_flats=13 diameter=16", "1.500 mm deep gives 13.000 mm across"),
        # geometry: twice 0.02 x tan 30 and tan 45
        ("scale-lines", "IN-04", DRUM, "0.020 mm of run-out makes lines 0.023 mm wider on a 60° cutter"),
        ("straight-scale", "IN-04", "spacing=1 lines=3 cutter_angle=90",
         "0.020 mm of run-out makes lines 0.040 mm wider on a 90° cutter"),
        ("scribe", "IN-04", "cutter_angle=90", "0.020 mm of run-out makes lines 0.040 mm wider on a 90° cutter"),
        ("scale-lines", "IN-06", DRUM, "lines 2.513 mm apart on the drum"),
        ("straight-scale", "IN-06", "spacing=1 lines=61", "last line 60.000 mm from the first"),
        ("vernier", "IN-06", "division=1 parts=10", "last line 9.000 mm from the first"),
        ("vernier", "IN-06", "division=1 parts=10 lines=60", ""),
        ("hand-dial", "IN-03", "distance=3 per_turn=2 divisions=100", "0.500 mm to 1.000 mm past, then back"),
    ],
)  # fmt: skip
def test_the_number_that_tells(operation, row, call, said):
    assert trouble(operation, row, call) == said


@pytest.mark.parametrize(("lines", "every"), [(61, 10), (26, 5), (37, 6), (31, 10)])
def test_long_lines_of_a_rule_come_out_evenly_by_themselves(lines, every):
    rows = rule(f"spacing=1 lines={lines}").table("lines").rows
    assert [row[0] - 1 for row in rows if row[3] == "long"] == list(range(0, lines, every))


@pytest.mark.parametrize(("every", "height", "fits"), [(10, 1.5, "yes"), (7, 1.0, "yes"), (5, 1.0, "no")])
def test_figures_of_a_rule_have_room(every, height, fits):
    """Half a millimetre apart: 2.5 and 3.5 are 3.675 wide at 1.5 and 2.45 at 1.0, 10 is 2.325; 0.8 of the room is theirs."""
    answer = rule(f"spacing=0.5 lines=21 long_every={every}")
    assert answer.figure("figure_height").value == height
    assert answer.figure("numbers_fit").text == fits
    assert "a strip" in answer.figure("figure_height").working


def test_flats_that_leave_nothing_to_cut_are_refused_at_the_bars_own_size():
    assert answer_of("flats", "sides=6 across_flats=15.99 diameter=16").figure("cut_depth").value > 0
    with pytest.raises(BadInput, match="leaves nothing to cut"):
        answer_of("flats", "sides=6 across_flats=16 diameter=16")


def test_the_bar_that_leaves_sharp_corners_is_said_when_it_was_not_given():
    """13 mm across: 13 / cos 30 is 15.011 (handbook tables); a thin bar is told what sharp corners would take."""
    assert answer_of("flats", "sides=6 across_flats=13").figure("bar_diameter").value == pytest.approx(
        15.0111, abs=1e-4
    )
    thin = answer_of("flats", "sides=6 across_flats=15 diameter=16")
    assert thin.figure("sharp_corners").value == pytest.approx(15 / math.cos(math.radians(30)))
    wide = answer_of("flats", "sides=6 across_flats=13 diameter=16")
    assert not wide.has("bar_diameter") and not wide.has("sharp_corners")
    assert not answer_of("flats", "sides=2 across_flats=8 diameter=10").has("sharp_corners")


def test_a_dry_run_is_printed_only_where_it_is_counted():
    tables = scale("lead=1.5 per_line=0.05 diameter=24").tables
    assert [t.name for t in tables if t.aside] == ["dry_run"]
    assert [t.name for t in rule("spacing=1 lines=11").tables if t.aside] == ["dry_run"]


def test_the_plate_of_a_geared_scale_goes_with_or_against_the_crank():
    """40:1: 127 lines take gears that turn the plate against the crank, 77 with it (the classic printed table)."""
    against = scale("lead=12.7 per_line=0.1 diameter=90").figure("gears").text
    assert against.endswith("the plate turns against the crank")
    assert scale("lead=7.7 per_line=0.1 diameter=90").figure("gears").text.endswith("the plate turns with the crank")


def test_lines_of_a_vernier_round_a_drum():
    """10 parts over 9 of 30 lines: 10.8 degrees apart, the last 108 from the first (arithmetic)."""
    rows = answer_of("vernier", "division=0.05 parts=10 lines=30").table("lines").rows
    assert (rows[1][1], rows[10][1]) == ("10° 48'", "108° 0'")
    assert [row[2] for row in rows] == pytest.approx([10.8 * k for k in range(11)])
    assert [row[3] for row in rows] == pytest.approx([0.005 * k for k in range(11)])
    straight = answer_of("vernier", "division=1 parts=10").table("lines").rows
    assert [row[1] for row in straight] == pytest.approx([0.9 * k for k in range(11)])
    assert [row[0] for row in straight] == list(range(1, 12))


def test_two_flats_stay_as_the_bar_is_and_are_not_said_to_have_round_corners():
    answer = answer_of("flats", "sides=2 across_flats=8 diameter=10")
    assert answer.figure("flat_width").value == pytest.approx(6)  # 6, 8, 10: a right-angled triangle
    assert answer.figure("across_corners").value == 10
    assert not any("corners stay round" in note.text for note in answer.notes)
    assert "13.000 mm across" not in answer.pictures[0].alt


def test_a_rule_says_how_many_spaces_end_it():
    notes = [n.text for n in rule("spacing=1 lines=24 long_every=10").notes]
    assert any("23 spaces, long lines every 10" in text for text in notes)
