"""How deep drill and reamer go for a reamed depth: worked by hand; leads are common practice, no source."""

import pytest

from engine.base.operation import run
from engine.part.file import read
from engine.part.plan import plan
from engine.shop.file import sample
from tests.spoken import spoken

METRIC = sample("metric")

# Reamer 10 of 0.15 diameters of lead: 1.5; beside it 1 of room; drill 9.8: point 9.8 ÷ (2 tan 59°) = 2.944.
# By hand: a quarter of 66 of flute (DIN 206, from memory) is 16.5; drill 9.9: point 2.974. 2 mm a turn, 40 lines.
DEPTHS = [
    ({"hole": "through"}, 20 + 1.5 + 1, 20 + 1.5 + 1 + 2.944, "Tailstock in: 11 turns, dial 0.50"),
    ({"hole": "blind"}, 20 + 1.5, 20 + 1.5 + 1 + 2.944, "Tailstock in: 10 turns, dial 1.50"),
    ({"hole": "blind", "kind": "hand"}, 20 + 16.5, 20 + 16.5 + 1 + 2.974, "36.5 mm"),
]


@pytest.mark.parametrize(("given", "ream", "drill", "shows"), DEPTHS)
def test_how_deep_drill_and_reamer_go(given, ream, drill, shows):
    from engine.base.showing import figure_text

    answer = spoken(run("ream", {"diameter": "10", "depth": "20", **given}, METRIC).answer)
    assert answer.figure("ream_to").value == pytest.approx(ream)
    assert answer.figure("drill_to").value == pytest.approx(drill, abs=0.001)
    assert figure_text(answer.figure("ream_to"), "mm") == shows


def test_no_depth_is_worked_out_where_none_is_told():
    assert not run("ream", {"diameter": "10"}, METRIC).answer.has("ream_to")


BUSH = """
part_version = 1
title = "Guide bush"
unit = "mm"
material = "mild steel"
bar = "20"
[[outside]]
is = "diameter"
size = "18"
length = "{long}"
[[inside]]
is = "hole"
size = "10 H7"
{how}
"""


@pytest.mark.parametrize(
    ("how", "long", "drilled", "depth"),
    [
        # Bored half a millimetre past the end; the reamer's lead and room behind it: 20.5 + 1.5 + 1.
        ("through = true", 20, 23.0, "20.5"),
        ("depth = '12'", 30, 14.5, "12"),
        ("depth = '12'", 16, 12.0, None),  # no metal for the room: the reamer bottoms, and no depth is promised
    ],
)
def test_a_plan_drills_deep_enough_for_its_reamer(how, long, drilled, depth):
    steps = plan(read(BUSH.format(how=how, long=long)).part, METRIC).steps
    by_operation = {step.operation: dict(step.inputs) for step in steps}
    assert by_operation["ream"].get("depth") == depth
    assert float(by_operation["hole-plan"]["depth"]) == pytest.approx(drilled)
