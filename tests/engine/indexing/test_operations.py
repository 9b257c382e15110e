"""divide and rotary-table as the doors call them."""

import math
from fractions import Fraction

import pytest

from engine.base.answer import Circle, Line
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.shop.file import parse, sample
from tests.rows import each_row
from tests.spoken import spoken

METRIC, INCH = sample("metric"), sample("inch")
PLATES = "15,16,17,18,19,20;21,23,27,29,31,33;37,39,41,43,47,49"
GEARS = "24,24,28,32,40,44,48,56,64,72,86,100"
BARE = parse('name = "bare"')


def divide(call, shop=METRIC):
    return spoken(run("divide", dict(word.split("=", 1) for word in call.split()), shop).answer)


def rotary(call, shop=METRIC):
    return spoken(run("rotary-table", dict(word.split("=", 1) for word in call.split()), shop).answer)


def test_seven_divisions_as_printed():
    # US Army OD1644, lesson 1, and the printed table: 40 / 7 is 5 turns and 5/7
    answer = divide("divisions=7")
    assert answer.figure("method").text == "simple"
    assert answer.lead.text == "5 turns + 35 holes of 49"
    assert Fraction(answer.figure("holes").value, answer.figure("circle").value) == Fraction(5, 7)
    assert answer.figure("sector_holes").value == answer.figure("holes").value + 1
    assert answer.figure("error_seconds").value == 0


def test_whole_turns_need_no_circle():
    answer = divide("divisions=8")
    assert answer.figure("turns").value == 5
    for name in ("circle", "holes", "sector_holes", "drivers", "second_circle"):
        assert not answer.has(name)


def test_every_other_circle_is_listed():
    others = divide("divisions=15").table("other_ways")
    # 40/15 = 2 2/3: a practice sheet takes 18 holes of 27; every circle that 3 divides will do
    assert "2 turns + 18 holes of 27" in others.column("setting")


def test_a_direct_plate_comes_before_gears_and_is_named_among_the_others():
    assert "direct" in divide("divisions=24").table("other_ways").column("method")
    few = divide("divisions=24 plates=17 ratio=40")
    assert few.figure("method").text == "direct"
    assert few.figure("holes").value == 1 and not few.has("sector_holes")


def test_another_ratio_is_another_head_with_no_known_direct_plate():
    assert divide("divisions=24 plates=17 ratio=50").figure("method").text != "direct"


def test_differential_says_gears_direction_and_to_look():
    # printed table: 127 is 13 holes of 39, 24 on the worm, 56 on the spindle, two idlers, plate against the crank
    answer = divide("divisions=127")
    assert answer.lead.text == "13 holes of 39"
    assert (answer.figure("drivers").text, answer.figure("driven").text) == ("56", "24")
    assert answer.figure("idlers").value == 2
    assert answer.figure("same_direction").text == "no"
    assert any("turn the crank once and look" in note.text for note in answer.notes)
    assert any("plate's lock" in note.text for note in answer.notes)


def test_the_shops_own_head_may_need_the_other_idlers():
    shop = parse(f'[dividing_head]\nratio = 40\nplates = "{PLATES}"\ngears = "{GEARS}"\nextra_idler = true')
    answer = divide("divisions=127", shop)
    assert answer.figure("idlers").value % 2 != divide("divisions=127").figure("idlers").value % 2
    assert any("turn the crank once and look" in note.text for note in answer.notes)


def test_without_gears_compound_takes_over():
    answer = divide("divisions=77 gears=24")
    assert answer.figure("method").text == "compound"
    first = Fraction(answer.figure("holes").value, answer.figure("circle").value)
    second = Fraction(answer.figure("second_holes").value, answer.figure("second_circle").value)
    assert answer.figure("same_direction").text == "yes"
    assert answer.figure("turns").value + first + second == Fraction(40, 77)
    assert any("easy to get wrong" in note.text for note in answer.notes)


def test_the_rear_pin_is_counted_the_way_it_is_moved():
    # 40/69 = 2/3 - 2/23: each second move passes two holes of 23, whichever way it goes
    answer = divide("divisions=69 gears=24")
    assert answer.figure("same_direction").text == "no"
    assert answer.table("positions").column("second_hole")[:13] == (*range(0, 24, 2), 1)


def test_a_compound_move_that_is_exact_is_not_listed_as_nearest():
    # 40/96 = 4/15 + 3/20
    answer = divide("divisions=96 method=nearest")
    others = answer.table("other_ways")
    assert "compound" in [row[0] for row in others.rows]
    assert not any(row[0].startswith("nearest") and row[3] == 0 for row in others.rows)
    assert not any("matters: nearest" in note.text for note in answer.notes)


def test_a_way_can_be_insisted_on():
    for method in ("differential", "compound", "nearest"):
        assert divide(f"divisions=77 method={method}").figure("method").text == method
    with pytest.raises(BadInput, match="compound cannot give 53") as refusal:
        divide("divisions=53 method=compound")
    assert refusal.value.field == "method"


def test_nearest_on_a_head_without_gears_gives_its_error():
    answer = divide("divisions=53", INCH)
    assert answer.figure("method").text == "nearest"
    # 60/53 on 49 holes: the worst of 53 places is 26/53 of a hole of 21600/49 seconds
    assert answer.figure("error_seconds").value == pytest.approx(26 / 53 * 21600 / 49)
    errors = answer.table("positions").column("error")
    assert max(map(abs, errors)) == pytest.approx(answer.figure("error_seconds").value)
    assert "nearest, error adds up" in answer.table("other_ways").column("method")


def test_by_angle():
    # Machinery's Handbook, 1916: 35 degrees is 3 turns and 16 holes of 18; 11 degrees 30' is 1 turn and 5 of 18
    for angle, turns, part in (
        ("35", 3, Fraction(16, 18)),
        ("11d30m", 1, Fraction(5, 18)),
        ("20m", 0, Fraction(1, 27)),
    ):
        answer = divide(f"angle={angle}")
        assert answer.figure("turns").value == turns
        assert Fraction(answer.figure("holes").value, answer.figure("circle").value) == part
        assert answer.figure("error_seconds").value == 0
    near = divide("angle=24m")  # US Army OD1644: 1 hole of 23, which is 31.3 seconds short
    assert (near.figure("circle").value, near.figure("holes").value) == (23, 1)
    assert near.figure("error_seconds").value == pytest.approx(31.3, abs=0.05)


def test_steps_that_do_not_close_are_said_to_be():
    answer = divide("angle=7")
    assert any("do not close: 51 whole steps, 3° 0' left over" in note.text for note in answer.notes)
    assert len(answer.table("positions").rows) == 52


@each_row(
    ("call", "shop", "field"),
    [
        ("divisions=30", BARE, "ratio"),
        ("divisions=30 ratio=40", BARE, "plates"),
        ("divisions=30 angle=12", METRIC, "angle"),
        ("ratio=40", METRIC, "divisions"),
        ("divisions=1", METRIC, "divisions"),
        ("divisions=4001", METRIC, "divisions"),
        ("divisions=3599", METRIC, "divisions"),
        ("angle=0.01 ratio=1 plates=20", METRIC, "angle"),
        ("divisions=30 gears=" + ",".join(["24"] * 21), METRIC, "gears"),
        ("divisions=30 plates=" + ",".join(map(str, range(20, 121))), METRIC, "plates"),
    ],
)
def test_what_cannot_be_is_refused_by_name(call, shop, field):
    with pytest.raises(BadInput) as refusal:
        divide(call, shop)
    assert refusal.value.field == field


def test_a_head_can_be_described_without_owning_one():
    assert divide(f"divisions=30 ratio=40 plates={PLATES}", BARE).lead.text == "1 turn + 13 holes of 39"


def test_the_picture_ties_every_dot_to_its_row():
    answer = divide("divisions=30")
    picture = answer.pictures[0]
    assert picture.table == "positions"
    rows = [shape.row for shape in picture.shapes if getattr(shape, "filled", False)]
    assert rows == list(range(1, 31))


def test_a_rotary_table_in_degrees_minutes_and_seconds():
    answer = rotary("divisions=7")
    assert answer.figure("turns").value == 12  # 51 3/7 degrees at 4 a turn
    assert answer.figure("dial").text == "3° 25' 42.9\""
    rows = answer.table("positions").rows
    assert [row[3] for row in rows] == [0, 12, 25, 38, 51, 64, 77]
    assert rows[1][1] == "12 turns + 3° 26'"


def test_a_rotary_table_of_any_ratio_and_start():
    # 72:1 is 5 degrees a turn (arithmetic); 30 degrees start + 45 is 15 turns
    rows = rotary("divisions=8 ratio=72 start_angle=30 dial_reads=0d0m10s").table("positions").rows
    assert (rows[0][1], rows[1][1]) == ("6 turns + 0° 0'", "15 turns + 0° 0'")
    odd = rotary("divisions=4 ratio=7")
    assert any("not a whole number" in note.text for note in odd.notes)


def test_a_rotary_table_never_reads_a_whole_turn():
    # 59.99 minutes on a 1 minute dial is the next whole turn, not 4 degrees on the dial
    rows = rotary("angle=3d59m59s dial_reads=0d1m").table("positions").rows
    assert rows[1][1] == "1 turn + 0° 0'"


def test_no_rotary_table_and_no_ratio():
    with pytest.raises(BadInput, match="ratio"):
        rotary("divisions=7", BARE)
    assert rotary("divisions=6 ratio=90", BARE).figure("turns").value == 15


def test_a_rotary_table_marked_in_decimals():
    # 360/7 - 12 x 4 = 3.428571 degrees
    answer = rotary("divisions=7 dial_in=decimals dial_reads=0.01")
    assert answer.figure("dial").text == "3.4286°"
    assert answer.table("positions").rows[1][1] == "12 turns + 3.43°"


def test_a_long_list_by_angle_is_cut_and_said_to_be():
    for work in (rotary, divide):
        answer = work("angle=0d20m")
        assert len(answer.table("positions").rows) == 360
        assert any("first 360 positions" in note.text for note in answer.notes)


def test_an_angle_repeated_gives_its_worst_position():
    """24' in 1 hole of 23 is 31.3" short (US Army OD1644); no place is further out than half a hole, 704"."""
    answer = divide("angle=24m")
    worst = answer.figure("worst_seconds").value
    assert answer.figure("error_seconds").value < worst <= 540 * 60 / 23 / 2
    assert worst == pytest.approx(max(map(abs, answer.table("positions").column("error"))))
    assert any(f"worst position is {worst:.1f} seconds of arc off" in note.text for note in answer.notes), answer.notes
    exact = divide("angle=35")
    assert exact.figure("worst_seconds").value == 0


def test_for_an_angle_two_circles_are_offered_before_gears():
    """3 3/4 degrees are 96 parts, which no circle of the three plates gives (1914 treatise); two circles do."""
    for angle, first in (("3d45m", "compound"), ("45m", "nearest")):
        answer = divide(f"angle={angle}")
        methods = [row[0] for row in answer.table("other_ways").rows]
        assert answer.figure("method").text == first
        assert methods.index("compound") < methods.index("differential")
    assert divide("divisions=96").figure("method").text == "differential"


def test_a_dry_run_goes_round_once_and_closes_on_the_first():
    for call in ("divisions=30", "divisions=77 method=compound", "divisions=53 method=nearest", "divisions=8"):
        answer = divide(call)
        rows = answer.table("dry_run").rows
        assert (rows[0][2], rows[-1][2]) == ("position 2", "position 1 again")
        # US Army OD1644: 40 turns of the crank are one of the spindle; with the plate turned too the rest is its
        assert rows[-1][4] == 0 and (rows[-1][3] == 40 or answer.has("second_circle"))
        assert [row[3:] for row in rows[:-1]] == [row[2:4] for row in answer.table("positions").rows[1:]]


def test_the_plate_is_drawn_with_its_circle_its_arms_and_the_pin():
    picture = divide("divisions=7").pictures[0]
    holes = [s for s in picture.shapes if isinstance(s, Circle) and s.x > 40 and not s.row and s.radius < 3]
    assert len(holes) == 49
    arms = [s for s in picture.shapes if isinstance(s, Line)]
    angles = [math.degrees(math.atan2(s.x2 - s.x1, s.y2 - s.y1)) % 360 for s in arms]
    assert angles == pytest.approx([0, 360 * 35 / 49])
    pins = {s.row: math.degrees(math.atan2(s.x - 80, s.y)) % 360 for s in picture.shapes
            if isinstance(s, Circle) and s.row and not s.filled}  # fmt: skip
    assert pins[3] == pytest.approx(360 * 21 / 49)  # 2 x 5 5/7 turns: hole 21
    assert not any(isinstance(s, Line) for s in divide("divisions=8").pictures[0].shapes)


@pytest.mark.parametrize(
    ("call", "made"),
    [
        ("divisions=8", "5 = 5 turns: exact"),
        ("divisions=7", "5 + 35/49 = 5 5/7 turns: exact"),
        ("divisions=24 plates=17", "1/24 x 40 = 1 2/3 turns: exact"),
        ("divisions=77 gears=24", "+"),
        ("divisions=69 gears=24", "-"),
        ("divisions=127", "1/3 - 7/3 ÷ 127"),
        ("divisions=77", "+"),
    ],
)
def test_a_move_is_proved_in_its_working(call, made):
    """Each sum, worked by hand as fractions, is the turns of the crank for one division."""
    answer = divide(call)
    working = answer.figure("error_seconds").working
    assert working.endswith(": exact") and made in working
    wanted = Fraction(40, int(call.split()[0].split("=")[1]))
    sums, turns = working.removesuffix(" turns: exact").split(" = ")
    assert sum(Fraction(part) for part in turns.split()) == wanted
    if " x " not in sums and "÷" not in sums:
        parts = sums.replace("- ", "+ -").split(" + ")
        assert sum(Fraction(part) for part in parts) == wanted


@pytest.mark.parametrize(("angle", "cut"), [("1d", False), ("0d59m", True)])
def test_more_than_360_positions_are_cut_and_said_to_be(angle, cut):
    for work in (rotary, divide):
        answer = work(f"angle={angle}")
        assert any("first 360 positions" in note.text for note in answer.notes) is cut
        assert len(answer.table("positions").rows) == 360


@pytest.mark.parametrize(("angle", "closes"), [("24", True), ("25", False)])
def test_steps_that_close_are_not_said_to_be_open(angle, closes):
    for work in (rotary, divide):
        notes = [note.text for note in work(f"angle={angle}").notes]
        assert any("do not close" in text for text in notes) is not closes


@pytest.mark.parametrize(("angle", "near"), [("7d13m", True), ("3d45m", False)])
def test_a_hole_within_a_minute_of_arc_is_near_enough_for_one_move(angle, near):
    """7 13' is 60" out on its hole, the most that is taken; 3 45' is further out, and takes two circles."""
    answer = divide(f"angle={angle}")
    assert (answer.figure("method").text == "nearest") is near
    assert (answer.figure("error_seconds").value == pytest.approx(60.0)) is near


@each_row(
    ("call", "words", "said"),
    [
        ("divisions=24 plates=17", "worm out of mesh", True),
        ("divisions=7", "worm out of mesh", False),
        ("divisions=77 gears=24", "easy to get wrong", True),
        ("divisions=77", "easy to get wrong", False),
        ("divisions=77", "creep with the crank", True),
        ("divisions=127", "creep against the crank", True),
        ("divisions=53 method=nearest", "Set every position from the table", True),
        ("angle=24m", "Set every position from the table", False),
        ("angle=24m", "31.3 seconds of arc short", True),
        ("divisions=53 method=nearest", "Exact, if it matters: differential", True),
    ],
)
def test_notes_of_dividing(call, words, said):
    answer = divide(call)
    assert any(words in note.text for note in answer.notes) is said


@pytest.mark.parametrize(("line", "said"), [("0d1m", False), ("0d7m", True)])
def test_a_dial_that_does_not_fill_its_turn_is_said(line, said):
    """4 degrees a turn are 240 lines of 1', and 34 2/7 of 7'."""
    notes = rotary(f"divisions=6 ratio=90 dial_reads={line}").notes
    assert any("34.2857 lines of the dial, not a whole number" in note.text for note in notes) is said


def test_a_rotary_tables_lead_is_the_first_step_as_it_is_set():
    lead = rotary("divisions=7 ratio=90").lead
    assert (lead.setting.turns, lead.setting.unit) == (12, "minutes")
    assert lead.setting.on_dial == pytest.approx(3 + 26 / 60)
    decimals = rotary("divisions=7 dial_in=decimals dial_reads=0.01").lead.setting
    assert (decimals.unit, decimals.on_dial) == ("degrees", pytest.approx(3.43))
    rows = rotary("divisions=7 ratio=90").table("dry_run").rows
    assert (len(rows), rows[0][1], rows[-1][1]) == (7, "12 turns + 3° 26'", "90 turns + 0° 0'")


def test_angles_of_a_rotary_table():
    """360 / 7 degrees; 90 turns to one of the table are 4 degrees a turn (a table's description)."""
    answer = rotary("divisions=7 ratio=90")
    assert answer.figure("angle").value == pytest.approx(360 / 7)
    assert answer.figure("degrees_per_turn").value == 4
    assert rotary("angle=24d30m ratio=72").figure("degrees_per_turn").value == 5
    assert rotary("angle=24d30m").figure("angle").value == 24.5
    assert divide("divisions=7").figure("angle").value == pytest.approx(360 / 7)
    assert divide("angle=24d30m").figure("angle").value == 24.5
    picture = answer.pictures[0]
    assert any(getattr(s, "text", "") == "12 turns + here" for s in picture.shapes)
    assert "line of position 2" in picture.alt


@pytest.mark.parametrize(("angle", "repeated"), [("180", False), ("120", True)])
def test_two_positions_are_no_repetition(angle, repeated):
    assert divide(f"angle={angle}").has("worst_seconds") is repeated


def test_positions_are_numbered_from_one():
    for answer in (divide("divisions=5"), rotary("divisions=5")):
        assert [row[0] for row in answer.table("positions").rows] == [1, 2, 3, 4, 5]
        assert [row[0] for row in answer.table("dry_run").rows] == [1, 2, 3, 4, 5]
