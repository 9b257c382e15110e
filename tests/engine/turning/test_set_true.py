"""Setting true: half the reading, and the allowance that takes the run-out off."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.base.words import write
from engine.shop.file import sample
from engine.trouble import trouble_for
from tests.spoken import spoken

SHOP = sample("metric")


def work(unit="mm", **inputs):
    return spoken(run("set-true", {k: str(v) for k, v in inputs.items()}, SHOP, unit=unit).answer, unit)


def test_its_promise():
    assert {"reading", "jaws", "asked"} <= set(asks(load("set-true").inputs))
    assert {"move", "run_out_left", "allowance"} <= {f.name for f in work(reading=0.3).figures}


@pytest.mark.parametrize("jaws", ["four", "4", "four-jaw", "Four jaws", "independent"])
def test_a_four_jaw_moves_by_half_the_reading(jaws):
    """Turning and Boring, 1914: the centre is off by half the total reading."""
    answer = work(reading=0.3, jaws=jaws)
    assert answer.lead.name == "move" and answer.lead.value == pytest.approx(0.15)


def test_turns_of_the_key():
    """A technical school's chuck: 20 threads an inch move a jaw 0.050 in a turn, a quarter turn 0.0125."""
    assert work(reading="0.025in", screw="0.05in").figure("key_turns").value == pytest.approx(0.25)


@pytest.mark.parametrize("jaws", ["three", "3", "self-centring"])
def test_a_three_jaw_takes_a_shim(jaws):
    """One and a half times what the work is off, under one of three jaws at 120 degrees: geometry."""
    answer = work(reading=0.2, jaws=jaws)
    assert answer.figure("shim").value == pytest.approx(0.15) and answer.figure("move").value == pytest.approx(0.1)
    assert answer.figure("left").value == 0.1


@given(reading=st.floats(0.001, 5), finish=st.floats(0.001, 0.5))
def test_the_allowance_is_more_than_the_run_out(reading, finish):
    """Run-out, feed marks and twice the least cut, on the diameter: geometry."""
    answer = work(reading=f"{reading:.4f}", finish=f"{finish:.4f}")
    need = answer.figure("allowance").value
    assert need == pytest.approx(round(reading, 4) + 2 * (0.002 + round(finish, 4)), abs=1e-9)
    assert answer.figure("left").value <= round(reading, 4) + 1e-12


@pytest.mark.parametrize(
    ("reading", "state"), [(0.019, "true enough"), (0.02, "true enough"), (0.0201, "not yet true")]
)
def test_the_reading_beside_what_is_allowed(reading, state):
    assert work(reading=reading, asked=0.02).figure("state").text == state


def test_five_jaws_are_refused():
    with pytest.raises(BadInput, match="jaws: five cannot be used; accepted: four or three"):
        work(reading=0.1, jaws="five")


@pytest.mark.parametrize("jaws", ["four", "three"])
@pytest.mark.parametrize(("reading", "true"), [(0.0199, True), (0.02, True), (0.0201, False)])
def test_what_is_said_at_what_is_allowed(jaws, reading, true):
    notes = [note.text for note in work(reading=reading, jaws=jaws, asked=0.02).notes]
    if true:
        assert len(notes) == 1 and notes[0].startswith("Tighten all jaws evenly")
    elif jaws == "four":
        assert len(notes) == 1 and "slacken the far jaw" in notes[0] and "Below 0.05 mm only tighten" in notes[0]
    else:
        assert "Mark the jaw at the highest reading" in notes[0] and "a four-jaw, a collet" in notes[1]


@pytest.mark.parametrize(
    ("jaws", "reading", "left"),
    # 0.0005 in by the clock in a four-jaw: an article on lathe chucks; 0.05 to 0.15 mm of a three-jaw in use
    [
        *(("four", 0.0126, 0.0126), ("four", 0.0127, 0.0127), ("four", 0.0128, 0.0127)),
        *(("three", 0.0999, 0.0999), ("three", 0.1, 0.1), ("three", 0.1001, 0.1)),
    ],
)
def test_no_more_is_left_than_was_there(jaws, reading, left):
    found = work(reading=reading, jaws=jaws, finish=0.02)
    assert found.figure("left").value == pytest.approx(left)
    assert found.figure("allowance_after").value == pytest.approx(left + 0.044)
    assert found.figure("allowance").value == pytest.approx(reading + 0.044)


@pytest.mark.parametrize(("reading", "asked", "times"), [(0.3, 0.02, "15.0"), (0.02, 0.02, "1.0"), (0.05, 0.1, "0.5")])
def test_its_trouble_says_how_far_it_is_out(reading, asked, times):
    done = run("set-true", {"reading": str(reading), "asked": str(asked)}, SHOP)
    (fault,) = [one for one in trouble_for("set-true", done.answer, done.inputs, SHOP) if one.id == "TU-01"]
    assert write(fault.number) == f"the clock moves {times} times what is allowed"


@pytest.mark.parametrize("screw", ["0.09", "20.1"])
def test_a_screw_that_cannot_be(screw):
    with pytest.raises(BadInput, match="screw"):
        work(reading=0.1, screw=screw)
