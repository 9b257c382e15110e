"""Wheels and blanks against printed tables; see tests/data/knurling."""

import csv
from math import cos, floor, pi, radians
from pathlib import Path

import pytest

from engine.base.operation import run
from engine.knurling.blank import blank_near, blank_of, form_of, growth_of, tolerance_of
from engine.knurling.passes import infeed_for
from engine.knurling.wheels import from_count, from_diametral_pitch, from_pitch
from engine.shop.file import sample
from tests.rows import each_row

DATA = Path(__file__).parents[2] / "data" / "knurling"
INCH = 25.4


def rows(name):
    return list(csv.DictReader(x for x in (DATA / name).read_text().splitlines() if not x.startswith("#")))


WHEELS = rows("din403_teeth.csv")


@each_row("row", WHEELS, ids=lambda r: f"{r['wheel_diameter']}/{r['pitch']}/{r['helix']}")
def test_teeth_of_a_din_403_wheel(row):
    """A wheel is a blank with teeth: its count is the nearest whole number but for three named rows."""
    diameter, pitch, helix = (float(row[k]) for k in ("wheel_diameter", "pitch", "helix"))
    wheel = from_pitch(pitch=pitch, helix=helix)
    nearest = blank_near(near=diameter, wheel=wheel, growth=0).teeth
    if not row["exception"]:
        assert nearest == int(row["teeth"])
    else:
        assert nearest != int(row["teeth"])
        assert abs(diameter / wheel.step - int(row["teeth"])) < 1


@each_row("row", WHEELS, ids=lambda r: f"{r['wheel_diameter']}/{r['pitch']}/{r['helix']}")
def test_a_counted_wheel_rolls_its_own_circle(row):
    """On a blank of its own diameter a wheel makes its own count of teeth, whatever pitch it is stamped with."""
    diameter, helix, teeth = float(row["wheel_diameter"]), float(row["helix"]), int(row["teeth"])
    wheel = from_count(teeth=teeth, diameter=diameter, wheel_helix=helix, helix=helix)
    assert blank_of(teeth, wheel=wheel, growth=0).diameter == pytest.approx(diameter)
    # A count can only be whole, so the true pitch may be off the stamped one by one tooth in all.
    assert wheel.pitch == pytest.approx(float(row["pitch"]), rel=1 / teeth)


def test_the_three_exceptions_of_din_403_are_the_listed_ones():
    assert [(r["wheel_diameter"], r["pitch"], r["helix"]) for r in WHEELS if r["exception"]] == [
        ("15", "0.6", "0"),
        ("15", "1.0", "0"),
        ("15", "1.6", "30"),
    ]


FORMS = {
    "RAA": ("axial", "raised"),
    "RBL": ("diagonal", "raised"),
    "RBR": ("diagonal", "raised"),
    "RGE": ("diamond", "raised"),
    "RGV": ("diamond", "indented"),
    "RKE": ("crossed", "raised"),
    "RKV": ("crossed", "indented"),
}


@each_row("row", rows("din82_growth.csv"), ids=lambda r: f"{r['code']} {r['pitch']}")
def test_growth_of_din_82(row):
    form, points = FORMS[row["code"]]
    found = form_of(form=form, points=points)
    assert row["code"] in found.code
    growth = growth_of(found, pitch=float(row["pitch"]), method="form")
    assert growth == pytest.approx(float(row["growth"]), abs=1e-9)
    answer = run(
        "knurl-blank", {"near": "20", "pitch": row["pitch"], "form": form, "points": points}, sample("metric")
    ).answer
    finished, blank = (answer.figure(n).value for n in ("finished_diameter", "blank_diameter"))
    assert finished - blank == pytest.approx(float(row["growth"]), abs=1e-9)


def test_growth_follows_from_the_volume_of_the_teeth():
    """A ridge holds half, raised points two thirds, indented ones a third of the metal of their depth (geometry)."""
    for code, share in (("RAA", 1 / 2), ("RGE", 2 / 3), ("RGV", 1 / 3), ("RKE", 2 / 3), ("RKV", 1 / 3)):
        assert form_of(form=FORMS[code][0], points=FORMS[code][1]).growth_factor == pytest.approx(share, abs=0.004)


def wheel_of(row):
    if row["kind"] == "counted":
        return from_count(teeth=47, diameter=0.757 * INCH, wheel_helix=0, helix=0)
    swivelled = row["kind"] == "swivelled"
    return from_diametral_pitch(diametral_pitch=float(row["wheel"]), helix=30 if swivelled else 0, swivelled=swivelled)


@pytest.mark.parametrize("row", rows("inch_blanks.csv"), ids=lambda r: f"{r['kind']} {r['wheel']} {r['teeth']}")
def test_published_inch_blanks(row):
    wheel, within = wheel_of(row), float(row["within_in"]) * INCH
    if row["kind"] == "step":
        assert wheel.step == pytest.approx(float(row["blank_in"]) * INCH, abs=within)
        return
    found = blank_near(near=float(row["near_in"]) * INCH, wheel=wheel, growth=0)
    assert found.teeth == int(row["teeth"])
    assert found.diameter == pytest.approx(float(row["blank_in"]) * INCH, abs=within)


def test_swivelled_wheels_before_rounding():
    """Machinery's Handbook, 31st ed., p. 1059: 160 diametral pitch at 30 degrees on 1 in, 138.56 teeth."""
    wheel = from_diametral_pitch(diametral_pitch=160, helix=30, swivelled=True)
    assert INCH / wheel.step == pytest.approx(138.56, abs=0.005)


def test_teeth_an_inch_of_a_diagonal_wheel():
    """A tool maker's sheet: 20 teeth an inch square to the teeth are 17.32 round the work at 30 degrees."""
    wheel = from_pitch(pitch=INCH / 20, helix=30)
    assert INCH / (wheel.step * pi) == pytest.approx(17.32, abs=0.005)


@pytest.mark.parametrize(
    ("diametral_pitch", "tolerance_in"), [(64, 0.0015), (96, 0.0010), (128, 0.0007), (160, 0.0005)]
)
def test_class_i_blank_tolerance(diametral_pitch, tolerance_in):
    """Machinery's Handbook, 31st ed., p. 1059; each is 8 to 10 % of a tooth."""
    wheel = from_diametral_pitch(diametral_pitch=diametral_pitch, helix=0, swivelled=False)
    assert tolerance_of(wheel) == pytest.approx(tolerance_in * INCH)
    assert 0.08 - 1e-9 <= tolerance_of(wheel) / wheel.step <= 0.10


def test_a_tool_makers_infeed():
    """Its instruction sheet closes a wheel of pitch 2 mm by 0.5 mm on the radius."""
    assert infeed_for(pitch=2, growth_factor=0.5, method="form") == 0.5


def test_depth_of_a_straight_knurl():
    """A knurling guideline: pitch 0.8, 90 degrees, tooth 0.4 high; infeed and half the growth make it up."""
    form = form_of(form="axial", points="raised")
    infeed = infeed_for(pitch=0.8, growth_factor=form.growth_factor, method="form")
    assert infeed + growth_of(form, pitch=0.8, method="form") / 2 == pytest.approx(0.4)


def test_the_cosine_of_a_diagonal_wheel_is_in_both_tables():
    """DIN 403 prints 59 straight and 51 diagonal teeth for pitch 0.8 on 15 mm: cos 30 of the one is the other."""
    assert floor(pi * 15 / 0.8 * cos(radians(30)) + 0.5) == 51
