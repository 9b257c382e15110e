"""Filing, polishing and edges by the army's manuals; what cannot be held by hand is said."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.cutting.materials import names
from engine.shop.file import parse, sample
from tests.spoken import spoken

SHOP = sample("metric")


def work(shop=SHOP, unit="mm", **inputs):
    return spoken(run("finish-by-hand", {k: str(v) for k, v in inputs.items()}, shop, unit=unit).answer, unit)


def test_its_promise():
    assert {"diameter", "material", "way"} <= set(asks(load("finish-by-hand").inputs))
    assert {"rpm", "leave", "edge"} <= {f.name for f in work(diameter=20).figures}


@pytest.mark.parametrize(
    ("material", "low", "high", "turning"),
    # TM 1-420 (1940) par. 32 and TC 9-524 (1996) ch. 7: 4 to 5 times roughing for ferrous metals, 2 to 3 for others.
    [("mild steel", 4, 5, (24.384, 30.48)), ("aluminium", 2, 3, (60.96, 91.44)), ("cast iron", 4, 5, (15.24, 24.384))],
)
def test_filing_speed(material, low, high, turning):
    answer = work(diameter=60, material=material)
    speed = pi * 60 * answer.figure("rpm").value / 1000
    ideal = pi * 60 * answer.figure("ideal_rpm").value / 1000
    assert ideal == pytest.approx(low * turning[0])
    assert speed <= high * turning[1] * 1.0001


def test_what_is_left_for_the_file():
    """TC 9-524 (1996) ch. 7: 0.002 to 0.005 in on the diameter."""
    leave = work(diameter=20).figure("leave")
    assert (leave.low, leave.high) == (0.05, 0.13) == pytest.approx((0.0508, 0.127), abs=0.004)
    assert not work(diameter=20, way="deburr").has("leave")


@pytest.mark.parametrize(("way", "said"), [("file", "arm clear of the chuck"), ("strip", "never hold it by hand"),
                                           ("deburr", "spindle stopped")])  # fmt: skip
def test_hands_are_kept_out_of_it(way, said):
    assert said in work(diameter=20, way=way).notes[0].text


@given(diameter=st.floats(1, 300), stuff=st.sampled_from(names()), way=st.sampled_from(["file", "strip", "deburr"]))
def test_never_above_the_chucks_mark(diameter, stuff, way):
    shop = parse(
        "[lathe]\nspeeds = '65 100 160 250 400 630 1000 1600'\nleadscrew = 3\nchange_wheels = '20, 30'\nmotor = 550\n"
        "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 80\n"
        "[lathe.top_slide]\ntravel_per_turn = 1\ndivisions = 50\n[lathe.chuck]\nmarked_speed = 630\n"
    )
    assert work(shop, diameter=f"{diameter:.2f}", material=stuff, way=way).figure("rpm").value <= 630


def test_without_a_mark_it_is_asked_for():
    assert any("No marked speed" in note.text for note in work(parse(""), diameter=20).notes)
    assert not any("No marked speed" in note.text for note in work(diameter=20).notes)


# Ten times the way's own surface speed: 4 times roughing's 24.384 m/min at the least, 5 times 30.48 at the most (TM 1-420
# par. 32, TC 9-524 ch. 7): 1600 rev/min is inside up to 30.32 mm, 1000 up to 48.51.
@pytest.mark.parametrize(
    ("diameter", "rpm"), [(30.31, 1600), (30.33, 1000), (48.50, 1000), (48.52, 630), (19.39, 1600), (0.5, 1600)]
)
def test_the_step_at_the_ends_of_the_range(diameter, rpm):
    assert work(diameter=diameter, material="mild steel").figure("rpm").value == rpm


@pytest.mark.parametrize(
    ("way", "said"),
    [
        ("file", [("warning", "Left-handed grip"), ("info", "It takes out tool marks")]),
        ("strip", [("warning", "Never wrap it round"), ("info", "Grades 240, 400, 600, 1200")]),
        ("deburr", [("info", "A fine file or a stone just touching")]),
    ],
)
def test_each_way_has_its_own_notes_and_no_other(way, said):
    notes = work(diameter=20, way=way).notes
    assert [(note.level, note.text[: len(text)]) for note, (_, text) in zip(notes, said, strict=True)] == said


def test_the_mark_is_asked_for_last_and_once():
    notes = work(parse(""), diameter=20, way="strip").notes
    assert [note.level for note in notes] == ["warning", "info", "warning"]
    assert "read it off the chuck and do not pass it" in notes[-1].text


@pytest.mark.parametrize(("field", "shown"), [("edge", 0.2), ("handled_edge", 0.4)])
def test_edges_lie_inside_their_published_range(field, shown):
    figure = work(diameter=20).figure(field)
    assert figure.value == shown and figure.low < shown < figure.high


@pytest.mark.parametrize(("diameter", "there"), [("0.49", False), ("0.5", True), ("1000", True), ("1000.1", False)])
def test_sizes_at_the_ends(diameter, there):
    if there:
        assert work(diameter=diameter).figures
    else:
        with pytest.raises(BadInput, match="diameter"):
            work(diameter=diameter)
