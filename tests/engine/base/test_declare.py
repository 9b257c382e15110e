"""Declared inputs: read one at a time, and as a Pydantic model; the two always agree."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from engine.base.declare import asks, choice, count, length, read
from engine.base.models import model_of
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.indexing.hand_dial import HandDialInputs
from engine.shop.file import sample


@dataclass(frozen=True, slots=True, kw_only=True)
class Collar:
    """A small model for these tests."""

    bore: float = length("Bore", low=0, high=100, example="12")
    lines: int = count("Lines", low=1, high=400, default=30)
    hole: str = choice("Hole", ("through", "blind"), default="through")


def test_an_empty_answer_takes_its_default():
    assert read(Collar, {"bore": "1/2", "lines": " "}) == Collar(bore=12.7, lines=30, hole="through")


def test_a_missing_answer_is_named_with_an_example():
    with pytest.raises(BadInput, match=r"^bore: bore is needed \(such as 12\)\.$"):
        read(Collar, {})


def test_an_unknown_name_is_met_with_the_nearest():
    with pytest.raises(BadInput, match="Did you mean 'lines'"):
        read(Collar, {"bore": "3", "lnies": "4"})


def test_a_refusal_names_the_field_not_only_its_label():
    with pytest.raises(BadInput) as caught:
        read(HandDialInputs, {"distance": "3", "per_turn": "wide", "divisions": "100"})
    assert caught.value.field == "per_turn" and str(caught.value).startswith("per_turn: ")


def test_an_empty_answer_may_come_from_the_shop():
    inputs = read(HandDialInputs, {"distance": "3"}, shop=sample("metric"))
    assert (inputs.per_turn, inputs.divisions) == (2, 80)


def test_a_number_is_in_engine_units_whatever_the_screen_shows():
    assert read(Collar, {"bore": 12.0}, unit="inch").bore == 12.0
    assert read(Collar, {"bore": "0.5"}, unit="inch").bore == 12.7


answers = st.one_of(st.none(), st.text(max_size=8), st.sampled_from(["12", "1/2", "0", "-1", "through", "b", "7"]))


@given(st.dictionaries(st.sampled_from([*asks(Collar), "other"]), answers))
def test_both_readers_agree(typed):
    try:
        light = read(Collar, typed)
    except BadInput:
        with pytest.raises(ValidationError):
            model_of(Collar).model_validate(typed, context={"unit": "mm"})
        return
    heavy = model_of(Collar).model_validate(typed, context={"unit": "mm"})
    given = {name: value for name, value in heavy.model_dump().items() if value is not None}
    assert light == Collar(**{"bore": light.bore, **given})
