"""Limits and notes at which a change of the code was once not noticed by any other test: each just under and just over."""

from fractions import Fraction

import pytest

from engine.base.operation import run
from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.base.words import write
from engine.drilling.centres import centre_drill
from engine.drilling.seats import countersink_depth
from engine.indexing.differential import differential_ways
from engine.indexing.flats import flats_on
from engine.indexing.way import Way, proved
from engine.knurling.wheels import from_diametral_pitch
from engine.safety.rules_heat import _temper
from engine.shop.file import sample
from engine.situation import Situation
from engine.threads.designation import parse
from engine.threads.fit import fit
from engine.threads.identify import read_pitch
from engine.threads.infeed import Tool, plan_depths
from engine.threads.iso965 import _grades
from engine.threads.written import escape
from engine.turning.cut_figures import aim_words
from engine.turning.cut_plan import plan_cuts

METRIC = sample("metric")


def answer(operation, shop=METRIC, **given):
    return run(operation, given, shop).answer


@pytest.mark.parametrize(("shaft", "others"), [("30", True), ("6", False)])
def test_only_where_several_keys_go_with_a_shaft_are_they_listed(shaft, others):
    """A list is for a choice; of one key it would be that key again."""
    found = answer("key", diameter=shaft, form="woodruff").tables
    assert [len(table.rows) > 1 for table in found] == [True] * others


@pytest.mark.parametrize(("per_turn", "more", "twice"), [("1", 0, True), ("1", 1, False), ("1.25", 0, False)])
def test_only_the_cross_slides_own_dial_is_taken_to_show_the_diameter(per_turn, more, twice):
    """Another dial that was typed in numbers shows what the slide moves, whatever the shop's cross slide does."""
    lathe = METRIC.lathe
    doubled = replace(METRIC, lathe=replace(lathe, cross_slide=replace(lathe.cross_slide, reads_diameter=True)))
    own = lathe.cross_slide
    given = {
        "distance": "1",
        "per_turn": str(own.travel_per_turn * Fraction(per_turn)),
        "divisions": str(own.divisions + more),
    }
    reads = [answer("hand-dial", shop, **given).figure("reading").value for shop in (doubled, METRIC)]
    assert (reads[0] == 2 * reads[1]) is twice


@pytest.mark.parametrize(("moves", "cut"), [(6, False), (7, True)])
def test_a_long_chain_of_moves_is_written_with_dots_a_short_one_whole(moves, cut):
    chain = answer("hand-dial", moves=", ".join(["1"] * moves), per_turn="2", divisions="100")
    assert ("+ ..." in write(chain.figure("reading").working)) is cut


@pytest.mark.parametrize("sides", [2])
def test_two_flats_of_a_bar_need_their_size(sides):
    """Only from three sides on does the bar give the size across flats."""
    with pytest.raises(BadInput, match="two flats need their size"):
        flats_on(sides=sides, bar=13.0)
    assert flats_on(sides=3, bar=13.0).across_flats == pytest.approx(6.5)


@pytest.mark.parametrize(("share", "agrees"), [(1.0099, True), (1.0101, False), (0.9901, True), (0.9899, False)])
def test_a_pitch_and_threads_per_inch_may_differ_by_a_hundredth(share, agrees):
    pitch = 1.27 / share
    if agrees:
        assert read_pitch(pitch, 20.0) == pytest.approx(1.27, rel=0.011)
    else:
        with pytest.raises(BadInput, match="20 threads per inch is a pitch of"):
            read_pitch(pitch, 20.0)


def test_a_grade_without_a_value_is_none_of_a_rows():
    """A refusal names the grades that the row has; a blank cell is none of them."""
    assert _grades({"pitch": "1", "4": "", "5": "118", "6": "150", "note": "x"}) == ["5", "6"]


@pytest.mark.parametrize(("per_inch", "share"), [(4.0, None), (3.5, 0.15)])
def test_coarser_than_four_threads_an_inch_the_nuts_minor_has_its_own_rule(per_inch, share):
    """ASME B1.1 5.8.2 as FED-STD-H28/2 gives it: 0.15 P below 4 threads per inch, 0.25 P - 0.4 P^2 from there on."""
    from engine.threads.families.unified import _minor_tolerance

    value, rule = _minor_tolerance("2B", 3.0, 1 / per_inch, per_inch)
    assert value == pytest.approx(0.15 / per_inch if share else 0.25 / per_inch - 0.4 / per_inch**2)
    assert (rule == "0.15 P") is bool(share)


def test_a_left_handed_square_thread_is_named_so_a_right_handed_one_is_not():
    assert str(parse("Sq20x4 LH")).endswith(" LH") and "LH" not in str(parse("Sq20x4"))


def test_the_nuts_turns_beside_those_after_which_the_screw_binds():
    """10 mm of nut at 0.5 mm a turn are 20 turns."""
    given = {
        "pitch": "0.5",
        "leadscrew": "8 tpi",
        "wheels": "63,80,40,50,100,25",
        "clearance": "0.001",
        "nut_length": "10",
    }
    told = " ".join(write(note.text) for note in answer("change-gears", **given).notes)
    assert "before the nut's 20.0 are filled" in told


@pytest.mark.parametrize(
    ("part", "temper"), [("steel ball", 150.0), ("brass ball", None), ("brass", None), ("mild steel pin", None)]
)
def test_only_what_is_hard_has_a_temper_to_lose(part, temper):
    """A ball of brass, a pin of mild steel were never hardened: nothing is drawn when they are soldered."""
    assert _temper(Situation(part=part)) == temper


@pytest.mark.parametrize(("angle", "taken"), [(29.99, False), (30, True), (150, True), (150.01, False)])
def test_a_countersinks_angle_at_its_bounds(angle, taken):
    if taken:
        assert float(countersink_depth(hole=6.0, diameter=12.0, angle=angle).value) > 0
    else:
        with pytest.raises(BadInput, match="angle"):
            countersink_depth(hole=6.0, diameter=12.0, angle=angle)


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [(None, None, "as told"), (9.9, None, "as told"), (None, 10.1, "as told"), (9.9, 10.1, "between")],
)
def test_a_size_is_between_its_limits_only_where_it_has_both(low, high, said):
    assert write(aim_words(low, high)).startswith(said)


def test_a_way_that_does_not_come_out_is_never_called_exact():
    """Nothing unproved leaves the search; only what is called the nearest may miss what was wanted."""
    wrong = Way("simple", 40, Fraction(40, 7), 5, 49, 34)
    with pytest.raises(ArithmeticError, match="not 40/7"):
        proved(wrong)
    assert proved(replace(wrong, method="nearest")).holes == 34


@pytest.mark.parametrize(
    ("hole", "warned"), [("10.000", False), ("10.015", False), ("9.9999", True), ("10.0151", True)]
)
def test_a_measured_hole_on_its_own_limit_lies_within_it(hole, warned):
    """10 H7 is 10.000 to 10.015 (ISO 286-2:2010 Table 6)."""
    found = answer("fit", diameter="10", fit="H7/g6", hole=hole).notes
    assert any("its own limits" in write(note.text) for note in found) is warned


@pytest.mark.parametrize(
    ("diameter", "offered"),
    [(Fraction(1, 4), True), (Fraction(249, 1000), False), (Fraction(400), True), (Fraction(401), False)],
)
def test_an_odd_pair_is_offered_as_special_up_to_the_ends_of_what_can_be_cut(diameter, offered):
    pitch = Fraction(1, 20) if diameter < 1 else Fraction(6)
    assert bool(escape("odd", diameter, pitch)) is offered


@pytest.mark.parametrize(("first", "taken"), [(0.09, False), (0.10, True)])
def test_a_first_cut_is_twice_the_least_that_cuts_or_refused(first, taken):
    """A line of 0.01 and 0.05 that cuts at least: with a first cut under 0.10 what is left could not be shared out."""
    given = {"way": 0.5, "line": Fraction(1, 100), "first": first, "last": 0.05, "least": 0.05}
    if taken:
        assert sum(plan_cuts(**given).cuts) == 50
    else:
        with pytest.raises(BadInput, match="twice the least"):
            plan_cuts(**given)


@pytest.mark.parametrize(("depth", "taken"), [(2.0, True), (2.01, False)])
def test_as_many_passes_as_are_allowed_are_cut_one_more_is_refused(depth, taken):
    """200 passes of a hundredth are 2 mm."""
    given = {"tool": Tool(half_angle=30, flat=0), "depth": depth, "first_cut": 0.01, "last_cut": 0.01}
    if taken:
        assert plan_depths(**given)[-1] == pytest.approx(2.0)
    else:
        with pytest.raises(BadInput, match="more than 200 passes"):
            plan_depths(**given)


@pytest.mark.parametrize(("pitch", "taken"), [(9.99, False), (10, True), (400, True), (400.1, False)])
def test_a_wheel_has_from_ten_to_four_hundred_teeth_an_inch_of_diameter(pitch, taken):
    if taken:
        assert from_diametral_pitch(diametral_pitch=pitch, helix=0, swivelled=False).step == pytest.approx(25.4 / pitch)
    else:
        with pytest.raises(BadInput, match="diametral_pitch"):
            from_diametral_pitch(diametral_pitch=pitch, helix=0, swivelled=False)


@pytest.mark.parametrize(("nut", "state"), [(8.999, "will not start"), (9.0, "will not start"), (9.0001, "binds")])
def test_a_screw_as_large_as_its_nut_does_not_start_one_a_little_smaller_binds(nut, state):
    found = fit(screw=9.0, nut=nut, lead=1.5, half_angle=30, engagement=10, lead_error_ppm=1000)
    assert found.state == state


@pytest.mark.parametrize("gears", [(24, 40, 48, 100), (24, 32, 40, 48, 64), (24, 32, 44)])
@pytest.mark.parametrize("parts", [51, 53, 57, 59, 63, 67, 71, 73, 77, 81, 83, 91, 97, 103, 111, 127])
def test_no_differential_train_takes_more_gears_than_there_are(parts, gears):
    """Spindle and worm, a compound's two on the stud, and its idlers."""
    for way in differential_ways(
        wanted=Fraction(40, parts), ratio=40, plates=((49, 47, 43, 39),), gears=gears, most=20
    ):
        train = way.train
        assert 2 + 2 * bool(train.first) + train.idlers <= len(gears)


def test_a_move_forward_of_less_than_one_is_written_as_one():
    chain = answer("hand-dial", moves="3, 0.5, -0.25", per_turn="2", divisions="100")
    assert write(chain.figure("reading").working) == "from 0: 3 + 0.5 - 0.25 = 3.25"


@pytest.mark.parametrize(("mouth", "taken"), [("A2", True), ("A2.5", False)])
def test_a_centre_drill_may_have_nine_tenths_of_the_hole_for_its_mouth(mouth, taken):
    """A2 has a mouth of 4.25 mm, which is 0.9 of 4.7222; its mouth is still taken away by the drill (common practice)."""
    found = centre_drill(diameter=4.25 / 0.9 + 1e-9, owned=(mouth,))
    assert bool(found and found.owned) is taken
