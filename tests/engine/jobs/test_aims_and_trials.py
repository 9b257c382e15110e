"""Aims, trials in words, what a tool takes, what came out: each against simple geometry or a lathe that is simulated."""

from math import radians, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import BadInput
from engine.base.words import write
from engine.jobs.aims import Aim, aimed
from engine.jobs.compare import compared
from engine.jobs.cuts import plan_cuts
from engine.jobs.mates import same_part
from engine.jobs.measuring import judge, sentences
from engine.jobs.springs import FORGOTTEN, LEARNED, TOLD, springs
from engine.jobs.trials import Joint, Trial, mate_size, read_trial, tried
from engine.shop.file import sample
from engine.threads.fit import fit
from tests.rows import each_row

METRIC = sample("metric")
SCREW = Joint("over wires", engaged=12.0, lead=1.5, line=0.043)


@settings(max_examples=60)
@given(st.floats(5, 60), st.floats(0.004, 0.4), st.sampled_from(["largest", "middle", "smallest"]))
def test_an_aim_lies_within_the_limits(low, wide, where):
    found = aimed(low, low + wide, "diameter", Aim(where))
    assert found.low < found.size < found.high
    order = [aimed(low, low + wide, "diameter", Aim(w)).size for w in ("smallest", "middle", "largest")]
    assert order == sorted(order)


def test_a_bore_aims_above_its_mate_and_a_shaft_below():
    assert aimed(12, 12.02, "bore", Aim("mate", mate=12.0, room=0.01)).size == pytest.approx(12.01)
    assert aimed(12, 12.02, "diameter", Aim("mate", mate=12.0, room=0.01)).size == pytest.approx(11.99)


@each_row(
    ("told", "kind", "amount", "in_turns"),
    [
        ("binds after 4 turns", "binds", 4, True),
        ("Binds after 4.5 turns", "binds", 4.5, True),
        ("sticks at 6 mm", "binds", 6, False),
        ("3 turns", "binds", 3, True),
        ("0.1 mm play along", "along", 0.1, False),
        ("0,1 along", "along", 0.1, False),
        ("shakes 0.05", "loose", 0.05, False),
        ("0.002in loose", "loose", 0.0508, False),
        ("will not start", "will not start", 0, False),
        ("won't enter", "will not start", 0, False),
        ("free, no shake", "free", 0, False),
        ("goes on", "free", 0, False),
    ],
)
def test_a_trial_is_told_as_one_talks(told, kind, amount, in_turns):
    found = read_trial(told, "mm")
    assert (found.kind, found.in_turns) == (kind, in_turns)
    assert found.amount == pytest.approx(amount)


@pytest.mark.parametrize("told", ["", "12.3", "perhaps", "it is blue"])
def test_words_that_say_nothing_are_refused(told):
    with pytest.raises(BadInput, match=r"tried: .*binds after 4 turns"):
        read_trial(told, "mm")


@settings(max_examples=60)
@given(st.floats(200, 2000), st.floats(0.005, 0.012), st.floats(0.002, 0.004))
def test_two_trials_of_a_screw_with_an_error_of_lead_tell_the_cut_that_is_left(ppm, room, cut):
    """The law of engine.threads.fit is carried out forwards: a screw so much out binds there; the cut lets it go through."""
    nut = 9.026

    def turns(screw):
        found = fit(screw=screw, nut=nut, lead=1.5, half_angle=30, engagement=300, lead_error_ppm=ppm)
        return found.turns_to_bind

    joint = Joint("over wires", engaged=300.0, lead=1.5)
    first, second = nut - room, nut - room - cut
    trials = [Trial("binds", turns(one), True, "", size=one) for one in (first, second)]
    if trials[1].amount * 1.5 >= 300:
        return
    take = tried(trials[1], joint, (trials[0],)).take
    assert turns(second - take) * 1.5 == pytest.approx(300, rel=1e-6)


def test_play_along_a_thread_is_the_room_on_its_flanks():
    found = tried(Trial("along", 0.1, False, "0.1 along", size=12.4), SCREW)
    assert found.room == pytest.approx(0.1 / tan(radians(30)))
    assert mate_size(Trial("along", 0.1, False, "", size=12.4), SCREW) == pytest.approx(12.4 + 0.1 / tan(radians(30)))


def test_one_trial_takes_off_a_line_of_the_dial_at_least():
    found = tried(Trial("binds", 4, True, "binds after 4 turns"), SCREW)
    assert found.take == 0.043
    assert "two trials with a reading before each tell what is left" in write(found.says[-1])
    assert tried(Trial("binds", 8, True, "binds after 8 turns"), SCREW).take == 0.0  # eight turns are the whole nut


SAID = {"machine": "Shop", "slide": "cross", "share": 0.8, "doubt": 0.04, "readings": 2, "material": "steel",
        "diameter": 25.0, "step": 3}  # fmt: skip


def test_what_was_learned_again_in_a_step_takes_the_place_of_what_was_learned_there():
    again = {**SAID, "share": 0.82}
    (found,) = springs([(1, 4, "", LEARNED, SAID), (1, 6, "", LEARNED, again)])
    assert found.share == 0.82
    told = springs([(1, 4, "", LEARNED, SAID), (1, 9, "", TOLD, {"of": [1, 4], "share": 0.9})])
    assert [(one.share, one.readings) for one in told] == [(0.9, 0)]
    assert springs([(1, 4, "", LEARNED, SAID), (2, 1, "", FORGOTTEN, {"of": [1, 4]})]) == ()


@settings(max_examples=40)
@given(st.floats(0.6, 1.0), st.floats(0.15, 0.6), st.sampled_from(["diameter", "bore"]))
def test_one_reading_and_what_was_learned_before_end_in_limits(share, left, kind):
    """A simulated lathe that springs by a steady share: the dial settings are carried out on it."""
    sign = 1 if kind == "bore" else -1
    now, size = 2.0, 20.0
    way = -1 if kind == "bore" else 1  # when boring the dial's readings fall
    target = size + sign * left
    found = plan_cuts([(now, size)], low=target - 0.1, high=target + 0.1, kind=kind, slide="cross", shop=METRIC,
                      takes=(share, 0.02))  # fmt: skip
    last = found.cuts[-1]
    made = size + sign * 2 * share * way * (last.travel + last.setting.error - now)
    assert made == pytest.approx(last.expected, abs=1e-6)
    assert target - 0.1 <= made <= target + 0.1


def test_a_knurl_grows_under_the_wheel():
    found = judge(25.9, low=25.95, high=26.15, kind="knurl")
    assert found.more and "It has to grow by 0.150 mm for the middle" in write(sentences(found)[0])
    assert judge(26.3, low=25.95, high=26.15, kind="knurl").over_cut


def test_only_the_last_reading_of_a_step_is_compared_and_a_correction_counts():
    said = {
        "planned": 18.2,
        "machine": "Shop, lathe",
        "operation": "knurl-passes",
        "kind": "knurl",
        "material": "brass",
    }
    rows = [
        (1, 2, "measured", {**said, "reading": 17.0}, 4, 0),
        (1, 3, "measured", {**said, "reading": 18.4}, 4, 0),
        (1, 4, "corrected", {"of": 3, "reading": 18.3}, 4, 0),
    ]
    (found,) = compared(rows)
    assert found.off == pytest.approx((0.1,))


def test_a_mate_is_found_by_its_file_whatever_number_stands_before_it():
    assert same_part("01-height-nut.toml", "Height nut", "height-nut")
    assert not same_part("height-nut.toml", "Height nut, thin", "height-nut-thin")
