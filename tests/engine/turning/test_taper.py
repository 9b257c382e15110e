"""Tapers against published settings; the readings along one close on its ends."""

import csv
from math import radians, sin, tan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.shop.file import sample
from tests.engine.sums import near, sums_of
from tests.rows import each_row
from tests.shapes import edges, sizes
from tests.spoken import spoken

SHOPS = {"mm": sample("metric"), "inch": sample("inch")}
TABLE = Path(__file__).parents[2] / "data" / "turning" / "tapers.csv"
with TABLE.open(encoding="utf-8") as file:
    PUBLISHED = list(csv.DictReader(line for line in file if not line.startswith("#")))


def work(unit="mm", **inputs):
    asked = {name.removesuffix("_"): str(value) for name, value in inputs.items()}
    return spoken(run("taper", asked, SHOPS[unit], unit=unit).answer, unit)


def test_its_promise():
    inputs = asks(load("taper").inputs)
    assert {"from", "to", "length", "angle", "between_centres", "standard"} <= set(inputs)
    answer = work(from_=20, to=18, length=40, between_centres=150)
    assert answer.lead.name == "slide_angle" and answer.has("set_over")
    assert answer.table("checks").column("number") == (1, 2, 3, 4, 5)


@each_row("row", PUBLISHED, ids=lambda row: f"{row['call']}-{row['figure']}"[:60])
def test_published_settings(row):
    call = dict(part.split("=", 1) for part in row["call"].split("|"))
    name, _, times = row["figure"].partition("*")
    value = run("taper", call, SHOPS["mm"]).answer.figure(name).value * float(times or 1)
    value /= 25.4 if row["unit"] == "in" else 1
    assert value == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_halving_the_whole_arctangent_is_not_the_angle():
    """7:24 is 8.2971 degrees each side (ISO 7388-1); half of arc tangent 7/24 would be 8.1301."""
    assert work(standard="7:24", from_=40, length=60).figure("slide_angle").value == pytest.approx(8.2971, abs=1e-4)


cones = st.tuples(st.floats(2, 200), st.floats(0.01, 0.99), st.floats(1, 300))


@given(cones, st.sampled_from(["outside", "bore"]))
def test_readings_close_on_both_ends(cone, where):
    large, share, length = cone
    small = large * share
    answer = work(from_=f"{large:.4f}", to=f"{small:.4f}", length=f"{length:.3f}", where=where)
    ends = (answer.figure("small").value, answer.figure("large").value)
    readings = answer.table("checks").column("diameter")
    assert (readings[0], readings[-1]) == (ends if where == "outside" else ends[::-1])
    rising = sorted(readings, reverse=where == "bore")
    assert list(readings) == rising
    assert answer.table("checks").column("clock")[-1] == pytest.approx((ends[1] - ends[0]) / 2)
    half = radians(answer.figure("slide_angle").value)
    assert 2 * answer.figure("length").value * tan(half) == pytest.approx(ends[1] - ends[0])
    assert answer.figure("clock_top").value == pytest.approx(25 * sin(half))
    assert answer.figure("clock_saddle").value == pytest.approx(25 * tan(half))


@given(cones)
def test_the_taper_worked_from_ends_gives_the_ends_back(cone):
    large, share, length = cone
    first = work(from_=f"{large:.4f}", to=f"{large * share:.4f}", length=f"{length:.3f}")
    n = first.figure("one_in").value
    again = work(from_=f"{large:.4f}", angle=f"1 in {n!r}", length=f"{length:.3f}")
    assert again.figure("small").value == pytest.approx(first.figure("small").value, abs=1e-9)
    turned = work(from_=f"{large:.4f}", to=f"{large * share:.4f}", angle=f"1:{n!r}")
    assert turned.figure("length").value == pytest.approx(first.figure("length").value)


@each_row("unit", ["mm", "inch"])
@each_row(
    "call",
    [
        {"from_": "20mm", "to": "18mm", "length": "40mm", "between_centres": "150mm"},
        {"from_": "1in", "length": "2in", "angle": "0.6 in/ft", "scale_zero": "across"},
        {"standard": "Morse 2"},
        {"standard": "metric taper pin", "from_": "6mm", "length": "30mm"},
        {"angle": "60", "from_": "10mm", "length": "5mm"},
    ],
)
def test_the_workings_give_the_figures(unit, call):
    for figure in work(unit, **call).figures:
        if figure.value is None or figure.name == "rpm":
            continue
        inch = unit == "inch" and figure.dimension == "length"
        assert any(near(v, figure.value / 25.4 if inch else figure.value) for v in sums_of(figure.working)), figure


@each_row(
    ("inputs", "field"),
    [
        ({"from_": 20}, "to"),
        ({"from_": 20, "to": 20, "length": 5}, "to"),
        ({"from_": 20, "to": 18, "length": 5, "angle": "1:20"}, "length"),
        ({"from_": 20, "angle": "1:20"}, "length"),
        ({"from_": 2, "length": 100, "angle": "1:20"}, "length"),
        ({"from_": 20, "length": 5, "angle": "0"}, "angle"),
        ({"from_": 20, "length": 5, "angle": "171"}, "angle"),
        ({"standard": "Morse 9"}, "standard"),
        ({"standard": "Morse 2", "angle": "3"}, "angle"),
        ({"from_": 20, "to": 18, "length": 40, "between_centres": 39}, "between_centres"),
        ({"from_": 20, "to": 18, "length": 40, "between_centres": 99, "where": "bore"}, "between_centres"),
    ],
)
def test_refusals_name_the_field(inputs, field):
    with pytest.raises(BadInput) as refusal:
        work(**inputs)
    assert refusal.value.field == field


@pytest.mark.parametrize("name", ["Morse 2", "MT2", "morse-2", "No. 2 Morse", "mt 2", "MK2"])
def test_a_standard_taper_by_any_of_its_names(name):
    assert work(standard=name).figure("large").value == pytest.approx(0.7 * 25.4)


@pytest.mark.parametrize(
    ("inputs", "said", "there"),
    [
        ({"from_": 20, "to": 18, "length": 59.9}, "The top slide has to travel", False),
        ({"from_": 20, "to": 18, "length": 60}, "The top slide has to travel", True),
        ({"from_": 20, "to": 18, "length": 50, "between_centres": 100}, "tips the centres", False),
        ({"from_": 20, "to": 17.9, "length": 50, "between_centres": 100}, "tips the centres", True),
        ({"from_": 20, "to": 18, "length": 50}, "Set the tailstock back true", False),
        ({"from_": 20, "to": 18, "length": 50, "between_centres": 100}, "Set the tailstock back true", True),
        ({"from_": 20, "to": 18, "length": 50, "where": "bore"}, "plug gauge", True),
        ({"from_": 20, "to": 18, "length": 50}, "each 1.00 mm that it must go further take 0.040 mm", True),
    ],
)
def test_notes_at_their_limits(inputs, said, there):
    """60 mm of top slide, a fiftieth of set-over: common practice; a gauge's advance times the taper: geometry."""
    assert any(said in note.text for note in work(**inputs).notes) is there


@pytest.mark.parametrize(
    ("call", "gauge", "off"),
    [
        # The gauge's way times the taper: geometry.
        ({"standard": "Morse 2"}, 1.0, 0.04995),
        ({"angle": "1:10", "from_": 30, "length": 20}, 1.0, 0.1),
        ({"angle": "1:20", "from_": 30, "length": 20}, 0.5, 0.025),
        ({"angle": "1:50", "from_": 30, "length": 20}, 2.0, 0.04),
    ],
)
@pytest.mark.parametrize("where", ["outside", "bore"])
def test_what_comes_off_for_a_gauge_that_has_to_go_further(call, gauge, off, where):
    answer = work(gauge=gauge, where=where, **call)
    assert answer.figure("take_off").value == pytest.approx(off, abs=1e-5)
    setting = answer.lead.setting  # lines of 0.025 mm, never past it
    assert setting.way == ("out" if where == "bore" else "in")
    assert off / 2 - 0.025 < setting.distance <= off / 2 + 1e-6
    assert setting.line == (-1 if where == "bore" else 1) * round(setting.distance / 0.025) % 80


def test_clock_and_readings_from_the_small_end_grow_by_half_the_taper():
    checks = work(from_=20, to=18, length=40).table("checks")
    assert checks.column("along") == (0, 10, 20, 30, 40)
    assert checks.column("diameter") == (18, 18.5, 19, 19.5, 20)
    assert checks.column("clock") == (0, 0.25, 0.5, 0.75, 1.0)


@pytest.mark.parametrize(("where", "left", "right"), [("outside", 20, 18), ("bore", 18, 20)])
def test_the_picture_shows_the_cone_as_it_lies(where, left, right):
    picture = work(from_=20, to=18, length=40, where=where).pictures[0]
    outline = {(s.x1, s.y1) for s in edges(picture) if s.weight == 1}
    assert outline >= {(0, -left / 2), (40, -right / 2), (40, right / 2), (0, left / 2)}
    assert sizes(picture) == {f"Ø{left}.00 mm": left, f"Ø{right}.00 mm": right, "40.0 mm": 40}
    assert "1.43°" in picture.alt and "40.0 mm" in picture.alt
