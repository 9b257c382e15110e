"""Whether a bar goes through the spindle and which collet takes it: the sample bench's own list, read by hand."""

import pytest

from engine.base.operation import run
from engine.base.words import write
from engine.shop.file import sample


def told(operation, figure, **given):
    answer = run(operation, {k: str(v) for k, v in given.items()}, sample("metric")).answer
    return write(answer.figure(figure).text, "mm")


# Bore 21; ER25 collets from 1 to 16 in whole millimetres that close by 1.
@pytest.mark.parametrize(
    ("diameter", "goes", "collet"),
    [
        (15.5, "yes: the bore is 21.0 mm", "ER25 16 mm"),
        (16.02, "yes: the bore is 21.0 mm", "ER25 16 mm"),
        (16.1, "yes: the bore is 21.0 mm", "none of yours"),
        (10, "yes: the bore is 21.0 mm", "ER25 10 mm"),
        (21, "yes: the bore is 21.0 mm", "none of yours"),
        (21.1, "no: the bore is 21.0 mm", "none of yours"),
    ],
)
def test_a_bar_and_the_spindle(diameter, goes, collet):
    given = {"parts": 1, "length": 12, "diameter": diameter}
    assert told("bar-plan", "through_spindle", **given) == goes
    assert told("bar-plan", "collet", **given) == collet
    assert told("overhang", "collet", diameter=diameter, length=30, support="collet") == collet
