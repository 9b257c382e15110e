"""A locating screw's point in its slot: worked by hand from the running allowance."""

import pytest

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.words import write
from engine.shop.file import sample

METRIC = sample("metric")


def work(**given):
    return run("screw-in-slot", {k: str(v) for k, v in given.items()}, METRIC).answer


def test_the_slot_for_a_chosen_screw():
    """M5 has a dog point of 3.5 (ISO 4028, from memory). Running, a model engineers' pocket book: 0.6 + 0.8 D to 1 + 1.5 D
    thousandths of an inch: 0.0152 + 0.0008 x 3.5 = 0.018 to 0.0254 + 0.0015 x 3.5 = 0.03065 on 3.5 mm."""
    answer = work(screw="M5", travel=10, end_play=0.2, depth=2.5, diameter=25)
    wide = answer.figure("slot_width")
    assert (wide.low, wide.high) == pytest.approx((3.518, 3.53065))
    assert answer.figure("slot_length").value == pytest.approx(3.5 + 10 + 0.2)
    assert answer.figure("point_length").value == pytest.approx(2.3)
    assert answer.figure("turns_by").value == pytest.approx(0.1405, abs=1e-3)  # 0.03065 on the round of 78.54, of 360


def test_the_screw_for_a_slot_that_is_there():
    """The slot of 4: 0.0152 + 0.0032 to 0.0254 + 0.006 off the point; 16 less 10 less the point is end play."""
    answer = work(width=4, length=16, travel=10)
    point = answer.figure("point")
    assert (point.low, point.high) == pytest.approx((4 - 0.0314, 4 - 0.0184))
    assert answer.figure("end_play_left").value == pytest.approx(6 - point.value)


def test_both_as_they_are_say_what_play_is_left():
    answer = work(point=3.5, width=3.6, length=14, travel=10)
    assert answer.figure("side_play").value == pytest.approx(0.1)
    assert answer.figure("end_play_left").value == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({}, "screw"),
        ({"screw": "M7"}, "screw"),
        ({"point": 4, "width": 4}, "width"),
        ({"point": 4, "length": 13.9, "travel": 10}, "length"),
    ],
)
def test_refusals_name_the_field(given, field):
    with pytest.raises(BadInput) as refusal:
        work(**given)
    assert refusal.value.field == field


@pytest.mark.parametrize(("point", "told"), [(4.13, False), (4.14, True)])
def test_a_point_has_to_pass_the_screws_own_thread(point, told):
    """M5 of 0.8: its nut's minor is 5 - 1.0825 x 0.8 = 4.134 (ISO 724: 4.134)."""
    notes = [write(note.text, "mm") for note in work(screw="M5", point=point).notes]
    assert any("does not pass" in note for note in notes) == told


@pytest.mark.parametrize(("depth", "told"), [(0.21, False), (0.2, True)])
def test_a_slot_that_is_too_shallow_is_told(depth, told):
    notes = [write(note.text, "mm") for note in work(screw="M5", depth=depth).notes]
    assert any("too shallow" in note for note in notes) == told
