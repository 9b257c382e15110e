"""Plans: their properties over made-up parts, the orders of work by hand and in print, refusals, needs."""

from __future__ import annotations

import re
from contextlib import suppress
from itertools import pairwise, permutations

import pytest

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.part.checks import is_fitted
from engine.part.file import read
from engine.part.needs import needs
from engine.part.part import AsBought, Diameter, Hole, InsideThread, Knurl, OutsideThread
from engine.part.plan import plan, problem_of
from engine.part.plan_edit import objections, task_of
from engine.part.plan_states import states
from engine.part.routes_spigot import SPIGOT
from engine.part.rules_conditions import holding_between
from engine.part.search import NoOrder, cost_of
from engine.part.sizes import read_size
from engine.part.tasks import Bench
from engine.part.tasks_outside import turned
from engine.shop.edit import sample_text
from engine.shop.file import parse, sample
from engine.shop.model import Shop
from tests.engine.part.parts_random import text_of
from tests.engine.part.rules_rows import BY_HAND, PUBLISHED
from tests.engine.part.scenario import FOURTEEN, OWN, ROOT, RULES, SHIPPED, TOGETHER, load, planned
from tests.rows import each_row

FILES = (*FOURTEEN, *OWN, *SHIPPED, *TOGETHER, *RULES)
NAMES = [path.stem for path in FILES]
SHOPS = {"metric": sample("metric"), "inch": sample("inch")}
JAWS = 24.0  # mm: what the sample's chuck holds; full jaws are a full grip


def _parts(path):
    return load(path).parts


def _wanted(part):
    """Every feature that has a name, and the piece itself."""
    return sorted({f.name for f in part.features()} - {"front", "back"} | {"part"})


def check(found):
    """The properties that every plan has."""
    _made_once(found)
    _in_order(found)
    _true(found)
    _held(found)


def _made_once(found):
    for round_ in range(1, found.rounds + 1):
        made = sorted(name for step in found.steps if step.round == round_ for name in step.makes)
        assert made == _wanted(found.part)
    assert found.rounds == found.part.make
    assert len({step.id for step in found.steps}) == len(found.steps)


def _in_order(found):
    """Hard rules hold over the whole plan; set-ups never fall within a round; a centre is there while it is needed."""
    for round_ in range(1, found.rounds + 1):
        steps = [step for step in found.steps if step.round == round_]
        assert all(one.set_up <= other.set_up for one, other in pairwise(steps))
    order = [task_of(found, step) for step in found.steps if step.round == 1]
    for i, later in enumerate(order):
        for earlier in order[i + 1 :]:
            assert not [r for r in holding_between(found.route.setting, earlier, later) if r.hard and r.after]
    for i, step in enumerate(order):
        if step.kind == "withdraw":
            assert any(other.kind == "support" for other in order[:i])
            assert not any(other.kind == "knurl" and other.visit == step.visit for other in order[i:])


def _true(found):
    """Close sizes that must run true to each other come out at one setting, on an arbor or between centres."""
    home = {name: step.set_up for step in found.steps for name in step.makes}
    for truth in found.part.truths:
        if truth.face:
            continue
        pair = [found.part.feature(name) for name in (truth.feature, truth.to)]
        if not all(isinstance(one, Diameter | Hole) and is_fitted(one.size) for one in pair):
            continue
        low, high = sorted(home[one.name] for one in pair)
        between = [u for u in found.set_ups[low + 1 : high + 1] if u.machine != "bench"]
        assert all(u.held_by in ("arbor", "between centres") or u.driven_by == "arbor" for u in between)
        assert sum(u.run_out for u in between) <= truth.within + 1e-9


def _held(found):
    made = set()
    for index, one in enumerate(found.set_ups):
        if one.limit is not None:
            assert one.run_out <= one.limit + 1e-9
        if one.grips == SPIGOT:
            assert one.grip_length >= min(one.grip_diameter, JAWS) - 1e-6
            turned = [step for step in found.steps if step.kind == "spigot" and step.set_up < index]
            assert turned and any(step.kind == "spigot_off" and step.set_up > index for step in found.steps)
        elif one.grips and one.grips != "bar":
            feature = found.part.feature(one.grips)
            exists = feature.name in made or isinstance(feature, AsBought)
            assert exists or one.held_by == "between centres"  # there a carrier holds what is still rough
            if one.held_by == "collet" and not one.carried:
                assert any(one.grip_length >= kit.grip * 2 / 3 - 1e-6 for kit in found.bench.shop.collets) or (
                    "plug" in one.between
                )
            hard = one.held_by in ("three-jaw", "four-jaw") and "bush" not in one.between
            if hard and not one.carried:
                assert not isinstance(feature, Knurl | OutsideThread) and getattr(feature, "scale", None) is None
                assert one.grip_length >= min(one.grip_diameter, JAWS) - 1e-6 or "ring" in one.between
        made |= {name for step in found.steps if step.set_up == index for name in step.makes}
    _told(found)


def _told(found):
    """What an operation is told is so at its step: the centre only while it is up, the slides of the machine it is on."""
    up = {}
    for step in found.steps:
        at, told = (step.round, step.set_up), dict(step.inputs)
        up[at] = step.kind == "support" or (step.kind != "withdraw" and up.get(at, False))
        brought = any(one.kind == "support" for one in found.steps if (one.round, one.set_up) == at)
        assert "support" not in told or not brought or up[at]
        if step.operation == "countersink":
            assert told["machine"] == found.set_ups[step.set_up].machine


@pytest.mark.parametrize("shop", SHOPS)
@pytest.mark.parametrize("path", FILES, ids=NAMES)
def test_every_part_of_the_files_has_a_sound_plan(path, shop):
    for part in _parts(path):
        found = planned(part, SHOPS[shop])
        check(found)
        for step in found.steps:
            if step.operation and step.round == 1:
                run(step.operation, dict(step.inputs), SHOPS[shop])


@pytest.mark.parametrize("seed", range(80))
def test_made_up_parts_are_planned_soundly_or_refused_by_a_feature(seed):
    try:
        part = read(text_of(seed)).part
    except BadInput as refusal:  # no such part can be: its file's line and the feature are named
        assert re.match(r"part\.toml:\d+: (outside|inside|across|front|back)\b", str(refusal))
        return
    for shop in SHOPS.values():
        try:
            found = plan(part, shop)
        except BadInput as refusal:
            assert refusal.field in {f.name for f in part.features()} | {"part"}
            assert str(refusal).startswith(f"{refusal.field}: ")
            continue
        check(found)


def _chain(found):
    return [(step.kind, step.about) for step in found.steps if step.round == 1]


@pytest.mark.parametrize("name", BY_HAND)
def test_the_orders_by_hand_are_matched(name):
    found = planned(_parts(ROOT / f"tests/data/parts/{name}.toml")[0], SHOPS["metric"])
    order = _chain(found)
    assert [order.index(one) for one in BY_HAND[name]] == sorted(order.index(one) for one in BY_HAND[name])


@pytest.mark.parametrize(("name", "chain", "source"), PUBLISHED, ids=[row[2] for row in PUBLISHED])
def test_published_orders_are_reproduced(name, chain, source):
    found = planned(_parts(ROOT / f"tests/data/parts/rules/{name}.toml")[0], SHOPS["metric"])
    kinds = [kind for kind, _ in _chain(found)]
    places = [kinds.index(kind) for kind in chain]
    assert places == sorted(places)


HEAD = 'part_version = 1\ntitle = "T"\nunit = "mm"\nmaterial = "bronze"\nbar = "{bar}"\n'
BUSH = """
[[outside]]
is = "diameter"
size = "20"
length = "6"

[[outside]]
is = "diameter"
size = "16 h7"
length = "18"

[[inside]]
is = "hole"
size = "10 H7"
through = true
"""


def test_a_bush_typed_flange_first_is_planned_from_its_other_end():
    found = plan(read(HEAD.format(bar="22") + BUSH).part, SHOPS["metric"])
    assert found.route.side.first == "back"
    home = {name: step.set_up for step in found.steps for name in step.makes}
    assert home["outside.2"] == home["inside.1"] == 0


def test_a_measured_run_out_takes_the_place_of_the_planned():
    shop = parse('unit = "mm"\n[lathe]\nspeeds = "200 400"\nleadscrew = 3\nmotor = 400\nchange_wheels = "20 40 60"\n'
                 "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 100\n[lathe.top_slide]\ntravel_per_turn = 2\n"
                 "divisions = 100\n[lathe.chuck]\nrun_out = 0.04\n")  # fmt: skip
    found = plan(read(HEAD.format(bar="22") + BUSH.replace(" h7", "").replace(" H7", "")).part, shop)
    chucks = [u for u in found.set_ups if u.held_by == "three-jaw" and "bush" not in u.between]
    assert chucks and all(u.run_out == 0.04 and u.measured for u in chucks)


# Two close bores, each from its own end, in one piece: whatever holds the second end runs out by more than they may.
APART = """
[[outside]]
is = "diameter"
size = "24"
length = "40"

[[inside]]
is = "hole"
size = "10 H7"
depth = "8"

[[inside]]
is = "hole"
size = "10 H7"
depth = "8"
end = "back"
"""
# Two close journals with a larger collar between them.
JOURNALS = """
[front]
centre = "stays"

[[outside]]
is = "diameter"
size = "12 h6"
length = "20"

[[outside]]
is = "diameter"
size = "20"
length = "8"

[[outside]]
is = "diameter"
size = "12 h6"
length = "20"
"""


def test_a_part_that_cannot_be_made_is_refused_by_its_feature():
    with pytest.raises(BadInput) as caught:
        plan(read(HEAD.format(bar="25") + APART).part, SHOPS["metric"])
    assert caught.value.field.startswith("inside.") and "within" in str(caught.value)


@pytest.mark.parametrize(("centre", "ways"), [("stays", ("bar", "centres")), ("none", ("bar",))])
def test_journals_on_both_sides_of_a_collar_come_out_true(centre, ways):
    found = plan(read(HEAD.format(bar="22") + JOURNALS.replace("stays", centre)).part, SHOPS["metric"])
    assert found.route.free in ways
    check(found)


def test_without_a_lathe_nothing_is_planned():
    with pytest.raises(BadInput, match="there is no lathe"):
        plan(_parts(FOURTEEN[0])[0], Shop())


def test_lines_without_anything_that_divides_are_refused_by_name():
    shop = parse('unit = "mm"\n[lathe]\nspeeds = "200 400"\nleadscrew = 3\nmotor = 400\nchange_wheels = "20 40 60"\n'
                 "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 100\n[lathe.top_slide]\ntravel_per_turn = 2\n"
                 "divisions = 100\n[lathe.chuck]\n")  # fmt: skip
    with pytest.raises(BadInput, match=r"outside\.1\.scale: nothing owned divides a circle"):
        plan(_parts(FOURTEEN[0])[0], shop)


def test_the_runner_up_is_another_route_and_says_why_not():
    found = planned(_parts(FOURTEEN[0])[0], SHOPS["metric"])
    assert found.runner_up is not None
    assert found.runner_up.route != found.route.words and found.runner_up.why_not


def test_the_plan_says_when_it_is_the_best():
    assert planned(_parts(FOURTEEN[0])[0], SHOPS["metric"]).best == "best"


def test_two_parts_are_made_in_rounds_and_the_stub_once_for_both():
    found = planned(_parts(FOURTEEN[0])[0], SHOPS["metric"])
    stubs = [step for step in found.steps if step.kind == "stub"]
    sawn = [step for step in found.steps if step.kind == "saw"]
    assert [(s.each, s.round) for s in stubs] == [("lot", 1)] and [(s.each, s.round) for s in sawn] == [("bar", 1)]
    places = [(step.round, step.set_up) for step in found.steps if step.set_up in (0, 1, 2)]
    assert places == sorted(places)  # lathe, head, lathe for one piece before the next


def test_nothing_is_let_go_before_it_is_proved():
    found = planned(_parts(FOURTEEN[0])[0], SHOPS["metric"])
    lines = next(step.set_up for step in found.steps if step.kind == "lines")
    assert found.set_ups[lines].gate_words == ("the last line has closed on the first",)


def test_what_is_missing_is_named_with_what_could_stand_in():
    found = {need.what: need for need in needs(plan(_parts(FOURTEEN[0])[0], SHOPS["inch"]))}
    taps = next(need for what, need in found.items() if what.startswith("taps M12x1.5"))
    assert not taps.owned and taps.instead
    assert next(iter(found)).startswith("free-cutting brass, 1.1024 in round")


def test_the_same_part_gives_the_same_plan():
    part = _parts(FOURTEEN[7])[0]
    one, other = plan(part, SHOPS["metric"]), plan(part, SHOPS["metric"])
    assert one.steps == other.steps and one.set_ups == other.set_ups


@each_row("path", FOURTEEN, ids=[path.stem for path in FOURTEEN])
def test_each_small_visit_is_in_the_cheapest_of_all_its_orders(path):
    found = planned(_parts(path)[0], SHOPS["metric"])
    for visit in range(len(found.route.visits)):
        tasks = [task for task in found.route.tasks if task.visit == visit]
        if len(tasks) > 7:
            continue
        problem, _ = problem_of(tasks, found.route)
        costs = []
        for order in permutations(range(len(tasks))):
            with suppress(NoOrder):
                costs.append(cost_of(problem, order))
        steps = [step for step in found.steps if step.set_up == visit and step.round == 1]
        names = [(task.kind, task.about, task.title) for task in tasks]
        chosen = tuple(names.index((step.kind, step.about, step.title)) for step in steps)
        assert cost_of(problem, chosen) == min(costs)


def test_an_order_of_ones_own_is_told_what_it_breaks():
    found = planned(_parts(FOURTEEN[0])[0], SHOPS["metric"])
    ids = [step.id for step in found.steps]
    assert objections(found, ids) == ()
    tap = next(step.id for step in found.steps if step.kind == "tap")
    moved = [tap, *(name for name in ids if name != tap)]
    assert any(one.rule == "R016" and "the tap needs its hole" in one.text for one in objections(found, moved))


def test_what_is_fitted_to_its_mate_is_not_let_go_before_it_was_tried():
    text = FOURTEEN[0].read_text()
    assert "mate" in text
    found = plan(read(text).part, SHOPS["metric"])
    assert any("tried with its mate" in words for one in found.set_ups for words in one.gate_words)


CONE = '[[outside]]\nis = "taper"\nfrom = "4"\nto = "14"\nlength = "20"\n'


def test_what_nothing_can_hold_turned_round_is_finished_by_hand_if_only_a_face_is_left():
    found = plan(read(HEAD.format(bar="16") + CONE).part, SHOPS["metric"])
    check(found)
    assert "filed by hand" in found.route.words
    faced = next(step for step in found.steps if step.kind == "face2")
    assert faced.operation is None and faced.do


def test_and_on_a_spigot_if_the_length_has_to_be_close():
    """M19: where the second end has no grip a spigot is left on the first, with its sizes; it goes at the bench."""
    part = read(HEAD.format(bar="16") + 'length = "20 +-0.02"\n' + CONE).part
    found = plan(part, SHOPS["metric"])
    check(found)
    kinds = [step.kind for step in found.steps]
    chain = ["saw", "face", "spigot", "set_true", "face2", "taper", "spigot_off", "deburr", "measure"]
    assert [kinds.index(kind) for kind in chain] == sorted(kinds.index(kind) for kind in chain)
    # One diameter of grip, 2 mm to the shoulder, and a ledge of the face round it: 13 on the end of 14.
    assert [step.title for step in found.steps if step.kind == "spigot"] == ["Turn a spigot 13 x 15"]
    assert (found.set_ups[1].grip_length, found.set_ups[1].stick_out) == (13.0, 22.0)
    assert (
        next(iter(needs(found))).what == "bronze, 16 round, 39 long"
    )  # 20, the spigot, a facing at each end, a saw cut
    gone = [state.spigot for state in states(found)]
    assert gone[0] is None and gone[-1] is None and 13.0 in gone


def test_and_not_where_neither_end_has_room_for_a_spigot():
    point = CONE.replace('"14"', '"6"')
    with pytest.raises(BadInput, match=r"outside\.1: nothing owned can hold it"):
        plan(read(HEAD.format(bar="16") + 'length = "20 +-0.02"\n' + point).part, SHOPS["metric"])


def test_a_size_whose_limits_lie_above_the_bar_is_refused():
    text = HEAD.format(bar="12") + '[[outside]]\nis = "diameter"\nsize = "12 p6"\nlength = "24"\n'
    with pytest.raises(BadInput, match=r"outside\.1: .*12\.029.*larger bar"):
        plan(read(text).part, SHOPS["metric"])


def test_a_piece_that_needs_no_turning_is_made_in_the_vice():
    """A T-slot nut of square bar is sawn, squared, stepped, drilled and tapped there. By hand the step came after the tap;
    here it comes at the grip and with the end mill that squared the end: one grip fewer, and the tap's hole is not cut into.
    """
    found = planned(_parts(ROOT / "tests/data/parts/12-t-slot-nut.toml")[0], SHOPS["metric"])
    assert {one.machine for one in found.set_ups} == {"mill", "bench"}
    kinds = [step.kind for step in found.steps if step.round == 1]
    chain = ["saw", "face", "flats", "drill", "tap", "face2", "deburr"]
    assert [kinds.index(kind) for kind in chain] == sorted(kinds.index(kind) for kind in chain)
    # The cutter touches the bar's side, 20 apart: measured over the corners it would go 4 mm too deep.
    flats = next(step for step in found.steps if step.kind == "flats")
    assert dict(flats.inputs)["diameter"] == "20"


DEEP = """
[[outside]]
is = "diameter"
size = "26"
length = "{long}"

[[inside]]
is = "hole"
size = "{bore}"
through = true
"""


@pytest.mark.parametrize(
    ("bore", "long", "said"),
    [("16.2 +0.02/0", "90", "goes 90.5 deep into a hole of 13"), ("9.3 +0.02/0", "60", "a reamer of 9.3")],
)
def test_a_bore_that_no_owned_tool_reaches_is_refused_with_what_would_do(bore, long, said):
    text = HEAD.format(bar="30") + DEEP.format(bore=bore, long=long)
    with pytest.raises(BadInput, match=r"^inside\.1: no boring tool of the shop") as caught:
        plan(read(text).part, SHOPS["metric"])
    assert said in str(caught.value) and "would do" in str(caught.value)


def test_a_reamer_stands_in_where_no_boring_tool_reaches():
    """By its limits 10 +0.02/0 holds what a 10 mm reamer leaves, up to H7 (ISO 286: +0.015)."""
    text = HEAD.format(bar="30") + DEEP.format(bore="10 +0.02/0", long="60")
    found = plan(read(text).part, SHOPS["metric"])
    assert "ream" in {step.kind for step in found.steps}
    assert all(need.owned for need in needs(found) if "reamer" in need.what or "boring" in need.what)


# A ball of diameter b on the cone of a 118 degree point, whose full diameter h reaches d below the face: its middle lies
# b / 2 / sin 59 above the cone's tip, which lies h / 2 / tan 59 below d. Plain trigonometry, worked by hand.
SEATS = [("6", "1.5", 3.2), ("8", "2", 4.26), ("5", "1.5", 2.41)]


@pytest.mark.parametrize(("ball", "out", "deep"), SEATS)
def test_the_hole_of_a_ball_is_as_deep_as_lets_it_stand_out(ball, out, deep):
    text = f'{HEAD.format(bar=16)}[[outside]]\nis = "diameter"\nsize = "16"\nlength = "30"\n[[inside]]\nis = "ball"\n'
    found = plan(read(f'{text}ball = "{ball}"\nstand_out = "{out}"\n').parts[0], SHOPS["metric"])
    step = next(step for step in found.steps if step.kind == "drill")
    assert float(dict(step.inputs)["depth"]) == pytest.approx(deep, abs=0.006)
    assert step.title == f"Drill {ball}, {deep:g} deep"


def test_the_zero_line_of_a_scale_is_scribed_on_its_mate_last():
    """A lead of 1.5 and long lines of 4: 5.5 covers one turn; a line of 0.05 is 0.05 of the lead: geometry."""
    nut = _parts(ROOT / "recipes/parts/height-adjuster-nut.toml")[0]
    steps = [step for step in plan(nut, SHOPS["metric"]).steps if step.round == 1]
    last = steps[-1]
    assert (last.kind, last.title) == ("zero_line", "Scribe the zero line on the mate")
    said = " ".join(last.do)
    for told in ("its mate, height-adjuster-screw", "where it is to read 0", "5.5 long", "washer of 0.05"):
        assert told in said
    ridge = next(step for step in steps if step.kind == "ridge")
    assert "Spindle still" in ridge.do[0]  # as its caution has it


INCHES = """
part_version = 1
title = "Handle end"
unit = "inch"
material = "mild steel"
bar = "3/4"
[[outside]]
is = "diameter"
size = "0.5 +-0.002"
length = "1/2"
chamfer = "1/32"
"""


def test_a_plan_speaks_in_the_unit_of_the_shop_whatever_the_drawing():
    """An inch is 25.4 mm: on a metric bench no step, set-up or need of a drawing in inches holds one, and the other way."""
    handle, screw = read(INCHES).part, _parts(ROOT / "recipes/parts/height-adjuster-screw.toml")[0]
    metric, inch = plan(handle, SHOPS["metric"]), plan(screw, SHOPS["inch"])
    titles = [step.title for step in metric.steps]
    assert "Turn 12.7 ±0.0508 x 12.7" in titles and any(
        title.startswith("Chamfer 0.794 on the front") for title in titles
    )
    said = [*titles, *(words for step in metric.steps for words in step.do), *(need.what for need in needs(metric))]
    assert not [one for one in said if " in " in f"{one} " and any(c.isdigit() for c in one.split(" in ")[0][-1:])]
    assert any(step.title.startswith("Rough to 0.4961 in x 2.7559 in") for step in inch.steps)
    assert not [step.title for step in inch.steps if step.title.startswith("Chamfer 0.5 ")]


def test_a_hole_starts_from_the_centre_that_its_holding_has_drilled():
    steps = [step for step in plan(_parts(FOURTEEN[0])[0], SHOPS["metric"]).steps if step.round == 1]
    drilled = next(step for step in steps if step.kind == "drill")
    assert any(step.kind == "centre" for step in steps[: steps.index(drilled)])
    assert dict(drilled.inputs)["start"] == "centred"
    table = run("hole-plan", dict(drilled.inputs), SHOPS["metric"]).answer.table("steps")
    assert not any("centre" in str(cell) for row in table.rows for cell in row)


def test_a_tap_that_is_not_owned_is_told_in_its_step():
    """The metric sample bench has no tap M14x1 (engine/shop/metric.toml), but one M12x1.5."""
    nut = _parts(FOURTEEN[0])[0]
    tap = next(step for step in plan(nut, SHOPS["metric"]).steps if step.kind == "tap")
    assert not any("among yours" in words for words in tap.do)
    tap = next(step for step in plan(nut, SHOPS["inch"]).steps if step.kind == "tap")
    assert tap.do[0].startswith("No M12x1.5 tap is among yours: get one before you start, or cut")


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_a_tap_finds_its_hole_deep_enough_where_solid_bar_stands_behind_the_part(path):
    """Geometry: a tap of so many turns from the first bite goes turns times pitch deep at the least."""
    for part in load(path).parts:
        found = planned(part, SHOPS["metric"])
        threads = {one.name: one for one in part.inside if isinstance(one, InsideThread)}
        drills = {step.about: dict(step.inputs) for step in found.steps if step.kind == "drill"}
        for step in (one for one in found.steps if one.kind == "tap" and one.about in threads):
            if found.route.free != "bar":
                continue
            size = threads[step.about].size
            deep = read_size(drills[step.about]["depth"], "mm").nominal
            turns = next(int(found_[1]) for line in step.do if (found_ := re.match(r"(\d+) turns from", line)))
            assert (turns - 1) * float(size.lead) < deep  # the last turn is begun, seldom whole
            assert "the taper tap alone" not in " ".join(step.do)


def test_a_seat_with_a_fit_is_bored_to_its_limits_from_the_hole_that_is_there():
    """22 H7 is 22.000 to 22.021: ISO 286-2:2010 Table 6, from memory (engine/data/joining names it)."""
    part = load(next(path for path in SHIPPED if path.stem == "bearing-flange")).parts[0]
    found = planned(part, SHOPS["metric"])
    given = dict(next(step.inputs for step in found.steps if step.kind == "counterbore"))
    assert (given["low"], given["high"], given["hole"]) == ("22", "22.021", "18")


def test_a_shop_without_a_mill_is_told_so_by_the_plan_that_wants_one():
    """A shop that says `none_of = "mill"` was planned a set-up on the mill without a word."""
    bare = parse(re.sub(r"(?ms)^\[mill\].*?(?=^\[dividing_head\])", "", sample_text("metric")))
    by_name = {path.stem: load(path).parts[0] for path in SHIPPED}
    wanted = [one for one in needs(plan(by_name["bearing-flange"], bare)) if one.what == "a mill"]
    assert [one.owned for one in wanted] == [False]
    assert "a mill" not in [one.what for one in needs(plan(by_name["bearing-flange"], SHOPS["metric"]))]


def test_a_blank_behind_a_larger_taper_is_not_turned_over_it():
    """A taper from 12.7 to 16.51 with a knurl of 16.51 behind it, whose blank is smaller (common practice, no source)."""
    head = 'part_version = 1\ntitle = "Handle end"\nunit = "mm"\nmaterial = "mild steel"\nbar = "19.05"\n'
    taper = '[[outside]]\nis = "taper"\nfrom = "12.7"\nto = "16.51"\nlength = "25.4"\n'
    knurl = '[[outside]]\nis = "knurl"\nnear = "16.51"\nlength = "12.7"\n'
    made = plan(read(head + taper + knurl).part, SHOPS["metric"])
    rough = [step for step in made.steps if step.kind == "rough"]
    blank = next(step for step in made.steps if step.kind == "blank")
    assert [step.title for step in rough] == ["Rough to 17.11 x 25.4", "Rough to 16.754 x 12.7"]
    for step in (rough[1], blank):
        assert step.do[0] == "Only from 25.4 to 38.1 on: before it the work stays larger."


def test_a_thread_behind_a_larger_diameter_is_turned_from_its_own_beginning():
    head = 'part_version = 1\ntitle = "Stud"\nunit = "mm"\nmaterial = "mild steel"\nbar = "25"\n'
    collar = '[[outside]]\nis = "diameter"\nsize = "20"\nlength = "10"\n'
    thread = '[[outside]]\nis = "thread"\nsize = "M14x1"\nlength = "20"\nrunout = "3"\n'
    part = read(head + collar + thread).part
    major = {
        end: next(task for task in turned(Bench(part, SHOPS["metric"]), part.outside[1], end) if task.kind == "major")
        for end in ("front", "back")
    }
    assert major["front"].do == ("Only from 10 to 30 on: before it the work stays larger.",)
    assert major["back"].do == ()
