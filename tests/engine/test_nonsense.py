"""Any text in any input of any operation: an answer or one clear sentence, never anything else."""

import math
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.shop.file import sample

NASTY = [
    "", " ", "0", "-1", "1e9", "1e-9", "999999999", "nan", "inf", "1/0", "x", "M", "M0", "M10x0", "M1e5", "#", "0-0",
    "1-1000 x 0.001", ",,,;;", "½", "٣", "\x1b[2J", "[bold]x[/]", "M10" * 30, "3/8-16 UNC-2A-LH-XX", "0.0001",
    "1e308", "-0", "1.7e-300", "100000", "12 mm mm", "H7/g6", "2000000 tpi",
    "9" * 400, "9" * 5000, "1e-99", "1e400", "1" * 40, "00" + "\x1f" * 7 + "\U00010000" * 20,
]  # fmt: skip

values = st.one_of(
    st.sampled_from(NASTY),
    st.text(max_size=25),
    st.floats(allow_nan=True, allow_infinity=True).map(repr),
    st.integers(-(10**7), 10**7).map(str),
    st.floats(0.001, 500).map(lambda x: f"{x:.3f}"),
)


@cache
def questions(operation_id):
    """What is changed of an operation's example, the unit of the screen, the shop."""
    names = list(asks(load(operation_id).inputs))
    changed = st.dictionaries(st.sampled_from(names), values, min_size=1, max_size=3)
    return st.tuples(changed, st.sampled_from(["mm", "inch"]), st.sampled_from(["metric", "inch"]))


@pytest.mark.parametrize("operation_id", [e.id for e in CATALOG])
@settings(max_examples=60)
@given(data=st.data())
def test_an_answer_or_one_sentence(operation_id, data):
    changed, unit, shop = data.draw(questions(operation_id))
    try:
        answer = run(operation_id, {**load(operation_id).example, **changed}, sample(shop), unit=unit).answer
    except BadInput as refusal:
        text = str(refusal)
        assert text and "\n" not in text and len(text) < 500
        return
    for figure in answer.figures:
        assert figure.value is None or math.isfinite(figure.value), figure
    for table in answer.tables:
        assert len(table.rows) <= 10_000
