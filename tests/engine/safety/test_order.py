"""The order of the lines, how many are shown, and what reaches the doors."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.answer import Answer, Caution
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.base.words import write
from engine.safety import arrange, first_page, in_order, quiet_line
from engine.safety.earlier import carried
from engine.safety.hazards import every_hazard
from engine.safety.told import Told
from engine.shop.edit import own_text, with_answer
from engine.shop.file import parse, sample
from engine.situation import Situation
from tests.engine.safety.moments import cautions_by_hand, cautions_for, shop_with, thread
from tests.rows import each_row
from tests.spoken import spoken

METRIC = sample("metric")
SHOPS = (METRIC, sample("inch"))


def band(caution):
    """Raised ones that stop, raised ones, what stands or is asked by its harm, notes."""
    if caution.word in ("CAUTION", "NOTICE"):
        return 3, 0
    if caution.because:
        return (0 if caution.acknowledge else 1), 0
    return 2, caution.harm


OPERATIONS = [entry.id for entry in CATALOG]


@each_row("shop", SHOPS, ids=lambda shop: shop.unit)
@each_row("operation_id", OPERATIONS)
def test_every_operation_on_both_benches(operation_id, shop):
    operation = load(operation_id)
    done = run(operation_id, operation.example, shop)
    cautions = spoken(done.answer.cautions)
    assert [band(c) for c in cautions] == sorted(band(c) for c in cautions)
    assert len({c.id for c in cautions}) == len(cautions)
    for caution in cautions:
        assert len(f"{caution.text} {caution.because}".split()) <= 25, caution
        assert len(caution.question.split()) <= 25
        assert "safe" not in f"{caution.text}{caution.because}{caution.question}{caution.source}".lower()
        if caution.word == "DANGER" or caution.acknowledge:
            assert caution.because, "only what is known stops a step"
    shown, more = arrange(cautions)
    assert len(shown) <= 5 and {c.id for c in shown + more} == {c.id for c in cautions}
    assert sum(1 for c in shown if c.question) <= 1


@each_row("operation_id", OPERATIONS)
def test_answering_every_question_leaves_none(operation_id):
    operation, told = load(operation_id), {}
    for answer in (True, False):
        for _ in range(3):  # a yes may bring one further question
            cautions = run(operation_id, operation.example, METRIC, told=told).answer.cautions
            told.update({c.id: answer for c in cautions if c.question})
        cautions = run(operation_id, operation.example, METRIC, told=told).answer.cautions
        assert not any(c.question for c in cautions)
        told = {}


def made_up(operation_id, *moments, shop=METRIC, told=None):
    """The cautions of an operation at made-up moments, as they are written in mm."""
    return spoken(cautions_for(load(operation_id), Answer((), moments=moments), shop, told or {}))


def one(cautions, caution_id):
    return next(c for c in cautions if c.id == caution_id)


def cutting(**known):
    return Situation(machine="lathe", **known)


def test_the_number_that_raised_it_is_in_the_line():
    line = one(made_up("screwcutting", cutting(spindle_speed=91, thread=thread(), gap=1.5)), "THR-01")
    assert "0.9 s at 91 rev/min" in line.text and "Run 90 or less" in line.text and "1.0 s" in line.because
    assert line.word == "WARNING" and line.acknowledge


def test_a_limit_below_the_slowest_speed_says_so():
    given = cutting(spindle_speed=65, thread=thread(pitch="3/2"), gap=1.0)
    line = one(made_up("screwcutting", given), "THR-01")
    assert "0.6 s at 65 rev/min" in line.text and "Crank by hand, 65 is your slowest" in line.text


def test_a_chuck_over_its_mark_is_a_danger_and_comes_first():
    cautions = made_up("turning-speed", cutting(spindle_speed=2600, work_diameter=10.0))
    assert {cautions[0].id, cautions[1].id} == {"CHK-01", "GEN-07"}
    assert cautions[0].word == cautions[1].word == "DANGER"
    line = one(cautions, "CHK-01")
    assert "2000" in line.text and "2600" in line.text and "600" in line.because


def test_of_several_moments_the_worst_speaks():
    """A hole's centre and pilot turn faster than its drill: the chuck's mark counts for each of them."""
    marked = shop_with(chuck={"marked_speed": 1000.0})
    slow, fast = cutting(spindle_speed=400), cutting(spindle_speed=1600)
    for moments in ((slow, fast), (fast, slow)):
        assert "600 rev/min too fast" in one(made_up("turning-speed", *moments, shop=marked), "CHK-01").because
    assert "CHK-01" not in {c.id for c in made_up("turning-speed", slow, shop=marked)}


@each_row("operation_id", OPERATIONS)
def test_the_name_of_an_operation_and_of_its_figures_changes_no_caution(operation_id):
    operation = load(operation_id)
    answer = run(operation_id, operation.example, METRIC).answer
    bare = Answer((), moments=answer.moments)
    assert cautions_for(replace(operation, id="renamed"), bare, METRIC) == cautions_for(operation, answer, METRIC)


def test_a_question_shows_as_a_warning_until_a_yes_makes_it_a_danger():
    asked = one(spoken(cautions_by_hand(("soldering",), METRIC)), "BRZ-02")
    assert (asked.word, asked.acknowledge, asked.because) == ("WARNING", False, "") and asked.question
    yes = one(cautions_by_hand(("soldering",), METRIC, {"BRZ-02": True}), "BRZ-02")
    assert (yes.word, yes.acknowledge, yes.question) == ("DANGER", True, "")
    no = cautions_by_hand(("soldering",), METRIC, {"BRZ-02": False})
    assert "BRZ-02" not in {c.id for c in no}


def test_an_answer_lapses_with_its_number_and_with_its_set_up():
    hot, cool = Situation(liquidus=650.0), Situation(liquidus=183.0)
    asked = one(made_up("solder", hot), "BRZ-02").question
    told = {"BRZ-02": Told(False, asked, "vice")}

    def shown(moment, set_up):
        found = cautions_for(load("solder"), Answer((), moments=(moment,)), METRIC, told, set_up=set_up)
        return {c.id for c in found if c.question}

    assert "BRZ-02" not in shown(hot, "vice")
    assert "BRZ-02" in shown(cool, "vice"), "other numbers ask anew"
    assert "BRZ-02" in shown(hot, "hearth"), "another set-up asks anew"


def test_danger_never_waits_behind_a_question_and_one_question_is_in_view():
    cautions = made_up("solder", Situation(liquidus=688.0, alloy="bag-3", part="bracket"))
    assert cautions[0].id == "BRZ-01" and cautions[0].word == "DANGER"
    shown, more = arrange(cautions)
    assert sum(1 for c in shown if c.question) <= 1
    assert {c.id for c in (*shown, *more)} == {c.id for c in cautions}


def test_lengths_are_written_in_the_unit_of_the_screen():
    operation = load("part-off")
    line = one(cautions_for(operation, Answer((), moments=(cutting(work_diameter=50.8),)), METRIC), "PRT-03")
    # half the diameter and 0.5 mm, the need rounded up
    assert "25.9 mm" in write(line.text, "mm") and "1.02 in" in write(line.text, "inch")


def test_a_heat_is_written_in_the_unit_of_the_screen():
    line = one(
        cautions_for(load("solder"), Answer((), moments=(Situation(liquidus=183.0, temper=149.0),)), None), "SLD-05"
    )
    assert "415 °F" in write(line.text, "inch") and "115 °F" in write(line.because, "inch")
    assert "213 °C" in write(line.text, "mm") and "64 °C" in write(line.because, "mm")


def test_solder_against_a_ball_and_a_closed_hollow():
    given = Situation(liquidus=688.0, alloy="bag-3", part="ball", hollow=True)
    cautions = made_up("solder", given)
    assert {c.id for c in cautions[:2]} == {"BRZ-01", "BRZ-02"}
    assert one(cautions, "BRZ-01").word == "DANGER" and "16%" in one(cautions, "BRZ-01").text
    assert "3.4 times" in one(cautions, "BRZ-02").text  # (688 + 30 + 273.15) / 293.15
    assert "538 °C" in one(cautions, "SLD-06").because  # 688 less the ball's 150
    assert "SLD-01" not in {c.id for c in cautions}, "rosin belongs to soft solder"


def test_a_shop_without_a_lathe_or_mill_is_answered():
    bare = shop_with(dividing_head=None, rotary_table=None)
    for tag in every_hazard():
        assert cautions_by_hand((tag,), bare)


def test_quiet_line_goes_when_a_number_speaks():
    assert quiet_line(made_up("turning-speed", cutting(spindle_speed=2600))) == ""


def test_the_first_page_has_the_five_that_maim_or_kill():
    page = first_page()
    assert len(page) == 5 and all(c.harm == 1 and not c.question for c in page)
    words = " ".join(str(c.text).lower() for c in page)
    for needed in ("key", "eye", "gloves", "once by hand", "stop"):
        assert needed in words


def test_steps_done_before_say_what_stands_on_the_piece():
    tapped = carried([run("bar-plan", {"parts": "2", "length": "12", "thread": "M12-LH"}, METRIC)])
    assert tapped.thread.left_hand and not tapped.snags  # the strip is on the outside, the thread is not
    off = cautions_for(load("part-off"), Answer((), moments=(cutting(work_diameter=20.0),)), METRIC, known=tapped)
    line = one(off, "PRT-02")
    assert line.because and line.acknowledge and not line.question
    slotted = carried([run("slot", {"width": "2", "depth": "2", "length": "8", "diameter": "8"}, METRIC)])
    polish = cautions_by_hand(("polishing",), METRIC, known=slotted)
    assert polish[0].id == "FIL-02" and polish[0].word == "DANGER"
    plain = carried([run("turning-speed", {"diameter": "20"}, METRIC)])
    assert plain.thread is None and not plain.snags


@pytest.mark.parametrize(
    ("operation", "given", "snags"),
    [
        ("screwcutting", {"size": "M14x1", "tolerance": "6H"}, None),
        ("screwcutting", {"size": "M14x1"}, True),
        ("hole-plan", {"diameter": "6", "depth": "8", "machine": "lathe"}, None),
        ("hole-plan", {"diameter": "6", "depth": "8", "machine": "mill"}, True),  # across it, as far as is known
        ("scale-lines", {"size": "M14x1", "per_line": "0.05", "diameter": "25"}, None),
        ("flats", {"sides": "6", "across_flats": "10"}, True),
    ],
)
def test_only_what_lies_on_the_outside_is_under_the_strip(operation, given, snags):
    """Common practice, no source."""
    done = run(operation, given, METRIC)
    assert carried([done]).snags is snags
    assert (carried([done]).thread is not None) == (operation == "screwcutting")


words = st.sampled_from(["DANGER", "WARNING", "CAUTION", "NOTICE"])
made = st.builds(Caution, id=st.text("AB", min_size=1, max_size=3), word=words, text=st.just("t"),
                 because=st.sampled_from(["", "9 over 8"]), question=st.sampled_from(["", "Is it?"]),
                 acknowledge=st.booleans())  # fmt: skip


@settings(max_examples=50)
@given(st.lists(made, max_size=12))
def test_no_screen_shows_more_than_five_and_nothing_is_lost(cautions):
    ordered = in_order(cautions)
    shown, more = arrange(ordered)
    assert len(shown) <= 5 and sum(1 for c in shown if c.question) <= 1
    assert sorted(map(id, shown + more)) == sorted(map(id, ordered))
    assert {c.id for c in ordered} == {c.id for c in cautions}
    assert [band(c) for c in ordered] == sorted(band(c) for c in ordered)


def test_a_shop_of_ones_own_invents_no_number_that_can_hurt():
    for bench in ("metric", "inch"):
        shop = parse(own_text(bench))
        chuck = shop.lathe.chuck
        unknown = (chuck.marked_speed, chuck.jaw_length, chuck.body_diameter, chuck.screwed, shop.lathe.spindle_bore)
        slides = (shop.lathe.cross_slide, shop.lathe.top_slide, shop.mill.x, shop.mill.y)
        assert unknown == (None,) * 5 and shop.lathe.blade.reach is None
        assert [slide.backlash for slide in slides] == [None] * 4
        for entry in CATALOG:  # every operation bears it, or says in a sentence what it needs
            try:
                done = run(entry.id, load(entry.id).example, shop)
            except BadInput as refusal:
                assert entry.id == "bar-plan" and "grip" in str(refusal)
                continue
            assert all(write(caution.text) for caution in done.answer.cautions)


def test_an_unmarked_chuck_is_said_until_its_mark_is_typed():
    shop = parse(own_text("metric"))
    given = {"diameter": "30"}
    assert any(c.id == "CHK-02" for c in run("turning-speed", given, shop).answer.cautions)
    marked = parse(with_answer(own_text("metric"), ("lathe", "chuck", "marked_speed"), "1200"))
    assert not any(c.id == "CHK-02" for c in run("turning-speed", given, marked).answer.cautions)


def test_cadmium_is_asked_first_where_only_the_kind_of_filler_is_named():
    asked = run("solder", {"alloy": "silver solder", "part": "brass"}, METRIC).answer.cautions
    assert asked[0].id == "BRZ-01" and asked[0].question
    named = run("solder", {"alloy": "BAg-7", "part": "brass"}, METRIC).answer.cautions
    assert "BRZ-01" not in {caution.id for caution in named}
    coated = run("solder", {"alloy": "63/37", "part": "galvanised mild steel"}, METRIC).answer.cautions
    assert any(caution.id == "BRZ-04" and caution.because for caution in coated)
