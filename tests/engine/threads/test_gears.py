"""Change wheels and the thread dial, against published trains and against plain brute force."""

from fractions import Fraction
from itertools import combinations
from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import OutOfRange
from engine.base.stopping import Heeding
from engine.threads import gears
from engine.threads.gears import Train, clearances, error_ppm, lead_cut, meshed, ranked_trains, trains_within
from engine.threads.thread_dial import dial_rule, start_lines
from tests.engine.threads.published import published
from tests.rows import each_row

INCH = Fraction(127, 5)


def wheels_of(text):
    return tuple(int(teeth) for teeth in text.replace("x", ",").split(","))


@each_row("row", published("change_gears_check"), ids=lambda row: f"{row['leadscrew']} tpi cuts {row['published']}")
def test_published_train(row):
    drivers, driven = wheels_of(row["drivers"]), wheels_of(row["driven"])
    leadscrew, wanted = INCH / Fraction(row["leadscrew"]), INCH / Fraction(row["published"])
    assert lead_cut(train=Train(drivers, driven), leadscrew=leadscrew) == wanted
    found = trains_within(ratio=wanted / leadscrew, wheels=drivers + driven, pairs=len(drivers))
    assert Train(tuple(sorted(drivers)), tuple(sorted(driven))) in found


@each_row("row", published("metric_translation"), ids=lambda row: row["ratio"])
def test_translating_ratio(row):
    top, bottom = (eval_product(side) for side in row["ratio"].split("/"))
    ppm = error_ppm(lead=Fraction(top, bottom), wanted=Fraction(127, 100))
    assert ppm == pytest.approx(float(row["error_ppm"]), abs=0.051)
    assert ppm * 25.4e-6 == pytest.approx(float(row["error_mm_per_inch"]), abs=6e-6)


def eval_product(text):
    return prod(int(number) for number in text.strip("()").split("*"))


@each_row("row", published("metric_compound_best"), ids=lambda row: f"{row['pitch']} on {row['leadscrew_tpi']} tpi")
def test_best_four_wheel_train(row):
    """The best of an independent exhaustive search, in any mesh order."""
    wheels, leadscrew = wheels_of(row["wheels"]), INCH / Fraction(row["leadscrew_tpi"])
    wanted = Fraction(row["pitch"])
    published = float(row["error_ppm"])
    within = Fraction(1, 20)
    found = trains_within(ratio=wanted / leadscrew, wheels=wheels, pairs=2, within=within)
    best = min(found, key=lambda train: abs(train.ratio - wanted / leadscrew))
    cut = lead_cut(train=best, leadscrew=leadscrew)
    # Printed to a whole part in a million.
    assert abs(error_ppm(lead=cut, wanted=wanted)) == pytest.approx(abs(published), abs=0.51)
    named = Train(wheels_of(row["drivers"]), wheels_of(row["driven"]))
    assert float(lead_cut(train=named, leadscrew=leadscrew)) == pytest.approx(float(row["pitch_cut"]), abs=1e-6)


def brute_force(ratio, wheels, pairs, within):
    """Every train, one by one: the plain way to the same answer."""
    found = set()
    for drivers in combinations(sorted(wheels), pairs):
        for driven in combinations(sorted(wheels), pairs):
            if set(drivers) & set(driven):
                continue
            if abs(Fraction(prod(drivers), prod(driven)) - ratio) <= ratio * within:
                found.add((drivers, driven))
    return found


@each_row("pairs", [1, 2, 3])
@each_row("within", [Fraction(0), Fraction(1, 1000), Fraction(1, 20)], ids=str)
@each_row("ratio", [Fraction(1, 2), Fraction(127, 120), Fraction(7, 24)], ids=str)
def test_search_gives_what_brute_force_gives(ratio, within, pairs):
    wheels = (20, 24, 28, 30, 35, 36, 40, 40, 45, 127)
    found = trains_within(ratio=ratio, wheels=wheels, pairs=pairs, within=within)
    assert len(found) == len(set(found))
    assert {(t.drivers, t.driven) for t in found} == brute_force(ratio, wheels, pairs, within)


def test_equal_wheels_need_a_pair():
    one = trains_within(ratio=Fraction(1), wheels=(20, 40), pairs=1)
    two = trains_within(ratio=Fraction(1), wheels=(20, 40, 40), pairs=1)
    assert (one, two) == ([], [Train((40,), (40,))])


@each_row("row", published("thread_dial_check"), ids=lambda row: f"{row['tpi']} on {row['leadscrew']} tpi")
def test_thread_dial(row):
    rule = dial_rule(
        lead=INCH / Fraction(row["tpi"]),
        leadscrew=INCH / Fraction(row["leadscrew"]),
        teeth=(int(row["teeth"]),),
        lines=int(row["lines"]),
    )
    said = "anywhere" if rule.kind == "anywhere" else str(rule.every)
    assert said == row["every"]
    assert row["published"] in ("", said)


def test_thread_dial_where_the_manual_is_wrong():
    """The lathe manual's table lets 4 threads an inch on an 8 tpi screw start anywhere; its own text says lines."""
    rule = dial_rule(lead=INCH / 4, leadscrew=INCH / 8, teeth=(16,), lines=8)
    assert (rule.kind, rule.every) == ("lines", 1)


def test_metric_on_an_inch_screw_stays_closed():
    """Turning and Boring, 1914, p. 143, and common practice: no line of an inch dial serves a metric thread."""
    assert dial_rule(lead=Fraction(3, 2), leadscrew=INCH / 8, teeth=(16, 32), lines=8).kind == "closed"
    assert dial_rule(lead=Fraction(3, 2), leadscrew=INCH / 8, teeth=(), lines=1).kind == "closed"


leads = st.builds(Fraction, st.integers(1, 60), st.integers(1, 24))


@settings(max_examples=60, deadline=None)
@given(leads, leads, st.integers(10, 60), st.integers(1, 16))
def test_every_line_allowed_falls_into_the_groove(lead, leadscrew, teeth, lines):
    rule = dial_rule(lead=lead, leadscrew=leadscrew, teeth=(teeth,), lines=lines)
    if rule.kind == "anywhere":
        assert leadscrew % lead == 0
    for line in rule.lines_of(lines):
        travel = (line - 1) * teeth * leadscrew / lines
        assert travel % lead == 0
        assert travel % leadscrew == 0


wheel_sets = st.lists(st.integers(16, 130), min_size=6, max_size=16)


@settings(max_examples=50, deadline=None)
@given(wheel_sets, st.fractions(Fraction(1, 4), 6, max_denominator=40), st.integers(1, 3))
def test_every_train_given_meshes_and_is_owned(wheels, wanted, pairs):
    trains = ranked_trains(
        wanted=wanted, leadscrew=Fraction(3), wheels=wheels, most_pairs=pairs, module=1.0, boss=14.0
    ).trains
    errors = [abs(train.ratio * 3 - wanted) for train in trains]
    assert errors == sorted(errors)
    for train in trains:
        used = train.drivers + train.driven
        assert all(used.count(teeth) <= wheels.count(teeth) for teeth in used)
        for link in range(len(train.drivers) - 1):
            centre = (train.drivers[link] + train.driven[link]) / 2
            after = (train.drivers[link + 1] + train.driven[link + 1]) / 2
            # The rim of the second driver clears the boss before it, that of the driven wheel the boss after it.
            assert centre > train.drivers[link + 1] / 2 + 1 + 7
            assert after > train.driven[link] / 2 + 1 + 7


def test_wheels_are_put_in_an_order_that_clears_the_studs():
    """20 on the spindle with 60 on the stud: centres at (20 + 30)/2 = 25, rim at 31. The 60 must go first."""
    assert clearances(train=Train((20, 60), (30, 40)), module=1.0, boss=14.0)[0] == 25 - 31 - 7
    found = meshed(train=Train((20, 60), (30, 40)), module=1.0, boss=14.0)
    assert found is not None
    assert found.drivers == (60, 20)


def test_a_train_that_fouls_in_every_order_is_left_out():
    """With a boss of 60 no centre distance of these small wheels leaves room."""
    assert meshed(train=Train((20, 22), (21, 30)), module=1.0, boss=60.0) is None


def test_a_set_without_wheels():
    with pytest.raises(OutOfRange, match="wheels"):
        trains_within(ratio=Fraction(1), wheels=(), pairs=2)


def _tried_one_by_one(wheels, ratio, module, boss):
    """The error of the nearest train that meshes, by plain floats over every choice and order."""
    from itertools import permutations

    best = None
    for pairs in (1, 2, 3):
        for drivers in combinations(sorted(wheels), pairs):
            for driven in combinations(sorted(wheels), pairs):
                off = abs(Fraction(prod(drivers), prod(driven)) / ratio - 1)
                if set(drivers) & set(driven) or off > Fraction(1, 10) or (best is not None and off >= best):
                    continue
                orders = (Train(a, b) for a in permutations(drivers) for b in permutations(driven))
                if any(min(clearances(train=o, module=module, boss=boss), default=1) > 0 for o in orders):
                    best = off
    return best


@each_row(("module", "boss"), [(1.0, 14.0), (0.5, 20.0), (0.5, 60.0), (0.8, 14.0)])
@each_row("ratio", [Fraction(1, 2), Fraction(5236, 20000), Fraction(127, 360)], ids=str)
def test_the_nearest_train_that_clears_the_studs_is_not_lost(ratio, module, boss):
    """Whole numbers that rule trains out before they are built leave none out that would mesh."""
    wheels = (20, 25, 30, 35, 40, 45, 60, 80)
    found = ranked_trains(
        wanted=ratio, leadscrew=Fraction(1), wheels=wheels, most_pairs=3, module=module, boss=boss, limit=1
    )
    best = _tried_one_by_one(wheels, ratio, module, boss)
    assert best == (abs(found.trains[0].ratio / ratio - 1) if found.trains else None)


def _counted(monkeypatch):
    """Counts the trains whose wheels are put in order: work, not time."""
    count = [0]
    once = gears._in_order

    def counting(train, need):
        count[0] += 1
        return once(train, need)

    monkeypatch.setattr(gears, "_in_order", counting)
    return count


@pytest.mark.parametrize("boss", [30.0, 45.0, 60.0])
@pytest.mark.parametrize("wheels", [
    (20, 21, 24, 25, 28, 30, 32, 35, 36, 38, 40, 44, 45, 48, 50, 55, 60, 65, 70, 72, 80, 127),
    (*range(20, 59), 127), (*range(20, 89), 127),
], ids=["22", "40", "70"])  # fmt: skip
def test_the_work_is_bounded_where_hardly_anything_meshes(monkeypatch, wheels, boss):
    """Wheels of module 0.5 on fat studs: few of the trains near a worm's lead have room."""
    count = _counted(monkeypatch)
    asked = {"wanted": Fraction("0.7854"), "leadscrew": Fraction(3), "module": 0.5, "boss": boss}
    found = ranked_trains(wheels=wheels, most_pairs=3, **asked)
    assert found.trains
    assert count[0] <= 6 * gears.MOST_TRIED


def test_more_near_trains_than_can_be_tried_are_said_so(monkeypatch):
    monkeypatch.setattr(gears, "MOST_TRIED", 50)
    wheels = (*range(20, 59), 127)
    asked = {"wanted": Fraction("3.1417"), "leadscrew": Fraction(3), "module": 0.5, "boss": 30.0}
    found = ranked_trains(wheels=wheels, most_pairs=3, **asked)
    assert found.nearest
    assert found.trains


def test_a_set_of_any_size_is_searched():
    """No limit of forty: six wheels out of sixty, four out of two hundred."""
    asked = {"wanted": Fraction("0.7854"), "leadscrew": Fraction(3), "module": 1.0, "boss": 14.0}
    sixty = ranked_trains(wheels=tuple(range(20, 80)), most_pairs=3, **asked)
    assert len(sixty.trains) == 10
    assert not sixty.fewer_wheels
    many = ranked_trains(wheels=tuple(range(20, 220)), most_pairs=3, **asked)
    assert len(many.trains) == 10
    assert many.fewer_wheels
    assert max(train.wheels for train in many.trains) == 4


def test_a_search_that_nobody_waits_for_ends_with_what_it_has():
    asked = {"wanted": Fraction("0.7854"), "leadscrew": Fraction(3), "module": 0.5, "boss": 45.0}
    with Heeding(lambda: True):
        stopped = ranked_trains(wheels=tuple(range(20, 60)), most_pairs=3, **asked)
    assert stopped.tried <= ranked_trains(wheels=tuple(range(20, 60)), most_pairs=3, **asked).tried


@pytest.mark.parametrize("starts", [2, 3, 4])
def test_lines_for_several_starts_put_the_tool_a_pitch_further(starts):
    """By what a line means: the saddle's travel is whole leadscrew leads, and k pitches more than whole leads."""
    leadscrew, teeth, lines = INCH / 4, 16, 16
    lead = INCH / 4 * starts
    found = start_lines(lead=lead, starts=starts, leadscrew=leadscrew, teeth=teeth, lines=lines)
    if teeth * leadscrew % lead:
        assert found is None
        return
    for k, group in enumerate(found):
        for line in group:
            travel = (line - 1) * teeth * leadscrew / lines
            assert travel % leadscrew == 0
            assert (travel - k * lead / starts) % lead == 0


def test_a_pitch_finer_than_the_leadscrews_has_no_lines_for_its_starts():
    """Two starts of 2 mm on a 4 mm screw: the half-nuts close every 4 mm, which is always the same start."""
    assert start_lines(lead=Fraction(4), starts=2, leadscrew=Fraction(4), teeth=16, lines=4) is None


def test_every_train_tried_is_counted():
    """One exact train of 1 to 4 in this set, 20 to 80, and nothing more is asked for."""
    asked = {"wanted": Fraction(1, 4), "leadscrew": Fraction(1), "module": 1.0, "boss": 14.0}
    assert ranked_trains(wheels=(20, 80), most_pairs=1, limit=1, **asked).tried == 1
