"""Facing in cuts: they add up to the length, stand on whole lines and never pass it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.shop.file import parse, sample
from tests.engine.sums import near, sums_of
from tests.spoken import spoken

SHOP = sample("metric")


def work(shop=SHOP, unit="mm", **inputs):
    asked = {name.removesuffix("_"): str(value) for name, value in inputs.items()}
    return spoken(run("face-to-length", asked, shop, unit=unit).answer, unit)


def test_its_promise():
    assert {"from", "to", "diameter", "slide", "low", "high"} <= set(asks(load("face-to-length").inputs))
    answer = work(from_=42, to=40, diameter=25)
    assert answer.lead.setting is not None and answer.lead.setting.wheel == "Top slide"
    assert answer.table("cuts").count_noun == "cut"


@given(start=st.floats(8, 200), off=st.floats(0.3, 6), slide=st.sampled_from(["top slide", "saddle"]))
def test_the_table_closes_and_never_passes_the_length(start, off, slide):
    wanted = round(start - off, 4)
    answer = work(from_=f"{start:.4f}", to=wanted, diameter=25, slide=slide)
    owned = getattr(SHOP.lathe, slide.replace(" ", "_"))
    line = float(owned.travel_per_turn / owned.divisions)
    cuts = answer.table("cuts")
    depths, lengths = cuts.column("depth"), cuts.column("length")
    assert round(start, 4) - sum(depths) == pytest.approx(lengths[-1])
    assert wanted - 1e-6 <= lengths[-1] < wanted + line + 1e-6
    assert list(depths) == sorted(depths, reverse=True) and min(depths) >= 0.02
    gone = 0
    for cut, setting in zip(depths, cuts.column("set"), strict=True):
        gone += round(cut / line)
        assert (setting.turns, setting.line) == divmod(gone, owned.divisions)


def test_time_of_facing():
    """D / (2 f n) for each cut: any shop handbook."""
    answer = work(from_=42, to=40, diameter=25, bore=5)
    rpm, rate, count = (answer.figure(n).value for n in ("rpm", "feed", "cut_count"))
    assert answer.figure("time").value == pytest.approx(60 * count * 10 / (rate * rpm))
    assert rate == pytest.approx(0.5 * 0.127)


@pytest.mark.parametrize(
    ("inputs", "said", "there"),
    [
        ({"stick_out": 37.5}, "one and a half diameters", False),  # US Army TC 9-524, p. 142
        ({"stick_out": 37.6}, "one and a half diameters", True),
        ({}, "A pip left", True),
        ({"bore": 5}, "A pip left", False),
        ({}, "must lie along the bed", True),
        ({"slide": "saddle"}, "must lie along the bed", False),
        ({"low": 39.99, "high": 40.01, "slide": "saddle"}, "outside", False),
    ],
)
def test_notes_at_their_limits(inputs, said, there):
    given_to = {} if "low" in inputs else {"to": 40}
    assert any(said in note.text for note in work(from_=42, diameter=25, **given_to, **inputs).notes) is there


@pytest.mark.parametrize("unit", ["mm", "inch"])
def test_the_workings_give_the_figures(unit):
    for figure in work(SHOP, unit, from_="42mm", to="40mm", diameter="25mm", bore="5mm").figures:
        if figure.setting is not None or figure.name in ("rpm", "feed", "target"):
            continue
        inch = unit == "inch" and figure.dimension == "length"
        assert any(near(v, figure.value / 25.4 if inch else figure.value) for v in sums_of(figure.working)), figure


@pytest.mark.parametrize(
    ("inputs", "field"),
    [({"to": 42}, "to"), ({}, "to"), ({"to": 40, "bore": 25}, "bore"), ({"high": 40}, "low"), ({"to": 41.99}, "to")],
)
def test_refusals_name_the_field(inputs, field):
    with pytest.raises(BadInput) as refusal:
        work(from_=42, diameter=25, **inputs)
    assert refusal.value.field == field


def test_a_saddle_without_a_dial_is_refused():
    shop = parse(
        "[lathe]\nspeeds = '65 100 160 250 400'\nleadscrew = 3\nchange_wheels = '20, 30'\nmotor = 550\n"
        "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 80\n"
        "[lathe.top_slide]\ntravel_per_turn = 1\ndivisions = 50\n[lathe.chuck]\nmarked_speed = 2000\n"
    )
    with pytest.raises(BadInput, match="slide"):
        work(shop, from_=42, to=40, diameter=25, slide="saddle")
    assert not work(parse(""), from_=42, to=40, diameter=25).has("setting")
