"""Reading what people type, and showing it, against Pint and the exact inch."""

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.kinds import Ask
from engine.base.quantity import DIMENSIONS, show, show_number
from engine.base.reading import (
    accepted,
    read_angle,
    read_choice,
    read_count,
    read_diameter,
    read_flag,
    read_length,
    read_other,
    read_text,
    read_travel,
)
from engine.base.refusals import BadInput
from engine.base.units import _LENGTHS, _PINT_NAMES, _QUICK, _is_unit
from tests.rows import each_row

INCH = 25.4  # mm, exact: international yard and pound agreement, 1959


def ask(kind="length", **more):
    return Ask(**{"label": "Size", "kind": kind, "help": "", "example": "", "required": True, **more})


LENGTH = ask(low=0.0, high=1e5, dimension="length")


@each_row(
    "typed, unit, mm",
    [
        ("17", "mm", 17),
        ("17", "inch", 17 * INCH),
        ("17mm", "inch", 17),
        ("17 mm", "mm", 17),
        ("17,5", "mm", 17.5),
        ("3/8", "mm", 3 / 8 * INCH),  # a bare fraction is an inch size in either unit
        ("3/8in", "mm", 3 / 8 * INCH),
        ('.375"', "mm", 0.375 * INCH),
        ("1 1/4 in", "mm", 1.25 * INCH),
        ("1-1/4in", "mm", 1.25 * INCH),
        ("40 thou", "mm", 0.04 * INCH),
        ("40thou", "inch", 0.04 * INCH),
        ("1.7 cm", "mm", 17),
        ("2 ft", "mm", 24 * INCH),
        ("250 µm", "mm", 0.25),
        ("1e2", "mm", 100),
    ],
)
def test_lengths_as_people_type_them(typed, unit, mm):
    assert read_length(typed, LENGTH, unit) == pytest.approx(mm, rel=1e-12)


@each_row(
    "typed", ["", "x", "1/0", "nan", "inf", "-3", "0", "3 parsecs", "3 s", "12..5", "1e99", "٣", "3 [bold]", "\x1b[2J"]
)
def test_what_is_no_length_is_refused_in_one_sentence(typed):
    with pytest.raises(BadInput) as caught:
        read_length(typed, LENGTH, "mm")
    assert "\n" not in str(caught.value) and str(caught.value).startswith("size: ")


@given(st.text(max_size=30), st.sampled_from(["mm", "inch"]))
def test_any_text_is_a_length_or_one_refusal(typed, unit):
    with suppress(BadInput):
        assert read_length(typed, LENGTH, unit) > 0


@pytest.mark.parametrize("mark", [m for m in _LENGTHS if m and m not in ('"', "''", "”", "″")])
def test_the_quick_marks_agree_with_pint(mark, registry):
    """Pint is the general-purpose authority: its own default registry, not our short file."""
    assert float(_LENGTHS[mark]) == pytest.approx(registry.Quantity(1, mark).to("mm").magnitude, rel=1e-12)


@each_row("dimension, word", [(kind, word) for kind, words in _QUICK.items() for word in words])
def test_the_quick_words_agree_with_pint(dimension, word, registry):
    theirs = registry.Quantity(1, word.replace("rev", "turn")).to(_PINT_NAMES[dimension]).magnitude
    # pint's own horsepower is 550 ft lbf/s, as ours
    assert _QUICK[dimension][word] == pytest.approx(theirs, rel=1e-9)


@pytest.mark.parametrize("typed, celsius", [("212 F", 100), ("-40°F", -40), ("150 C", 150), ("150°C", 150)])
def test_temperatures_by_their_mark(typed, celsius):
    # water boils at 212 °F; the scales meet at -40
    assert read_other(typed, ask("quantity", dimension="temperature"), "mm") == pytest.approx(celsius)


@pytest.mark.parametrize("typed", ["5 widgets", "5 furlongs", "3 i", "2 q/s"])
def test_a_word_that_is_no_unit_is_refused_without_pint(typed, monkeypatch):
    monkeypatch.setattr("engine.base.units._registry", lambda: pytest.fail("Pint was started"))
    with pytest.raises(BadInput):
        read_length(typed, LENGTH, "mm")


def test_the_units_of_the_file_are_known_by_name():
    assert all(map(_is_unit, ("inches", "kN", "millimeter", "°C", "revolution", "degF", "mPa", "metres")))
    assert not any(map(_is_unit, ("widget", "x", "mmm", "group", "kk")))


PINT_UNITS = {
    "length": ("mm", "inch"),
    "area": ("mm**2", "inch**2"),
    "surface_speed": ("m/min", "ft/min"),
    "feed": ("mm/turn", "inch/turn"),
    "feed_rate": ("mm/min", "inch/min"),
    "force": ("N", "lbf"),
    "torque": ("N*m", "lbf*inch"),
    "roughness": ("micrometer", "microinch"),
    "warmer": ("delta_degC", "delta_degF"),
    "stress": ("MPa", "psi"),
    "temperature": ("degC", "degF"),
}


@each_row("dimension", PINT_UNITS)
@each_row("value", [0.25, 20.0, 812.5])
def test_what_is_shown_in_inch_units_agrees_with_pint(dimension, value, registry):
    metric, inch = PINT_UNITS[dimension]
    theirs = registry.Quantity(value, metric).to(inch).magnitude
    assert float(show_number(value, dimension, "inch", decimals=6)) == pytest.approx(theirs, abs=1e-5 + 1e-9 * theirs)


def test_every_dimension_that_differs_between_the_systems_is_held_to_pint():
    differing = {name for name, kind in DIMENSIONS.items() if kind.metric != kind.inch}
    assert differing == set(PINT_UNITS)


@pytest.mark.parametrize(
    "typed, degrees",
    [
        ("24d 30m", 24.5),
        ("24°30'", 24.5),
        ("24.5", 24.5),
        ("24,5", 24.5),
        ('1d 1m 1"', 1 + 61 / 3600),
        ("-5", -5),
        ("-20'", -20 / 60),
        ("-1d 30m", -1.5),
        ("-20m 30s", -20.5 / 60),
    ],
)
def test_angles(typed, degrees):
    assert read_angle(typed, ask("angle", dimension="angle"), "mm") == pytest.approx(degrees, rel=1e-12)


@each_row(
    "typed, dimension, unit, value",
    [
        ("750", "power", "mm", 750),
        ("1 hp", "power", "mm", 745.69987),
        ("300", "temperature", "inch", 148.888888),
        ("300 F", "temperature", "mm", 148.888888),
        ("20 °C", "temperature", "inch", 20),
        ("2.5 lbf", "force", "mm", 11.12055),  # 1 lbf = 4.4482216152605 N (NIST SP 811)
        ("600 rpm", "speed", "mm", 600),
        ("0.1 mm/rev", "feed", "mm", 0.1),
        ("0.004 in/rev", "feed", "mm", 0.1016),
        ("100 ft/min", "surface_speed", "mm", 30.48),
    ],
)
def test_other_quantities(typed, dimension, unit, value):
    assert read_other(typed, ask("quantity", dimension=dimension), unit) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    "typed, travel",
    [("2", Fraction(2)), ("8 tpi", Fraction(127, 40)), ("0.1in", Fraction(254, 100)), ('1/8"', Fraction(127, 40))],
)
def test_a_travel_is_exact(typed, travel):
    assert read_travel(typed, ask("travel", low=0.01, high=50, dimension="length"), "mm") == travel


def test_counts_choices_flags_and_words():
    assert read_count("37", ask("count", low=1, high=400, dimension="count"), "mm") == 37
    assert read_choice("thr", ask("choice", choices=("through", "blind")), "mm") == "through"
    assert read_flag("No", ask("flag"), "mm") is False
    assert read_text(" M4 ", ask("text"), "mm") == "M4"
    for reader, typed in ((read_count, "3.5"), (read_choice, ""), (read_flag, "perhaps"), (read_text, "a\x07b")):
        with pytest.raises(BadInput):
            reader(typed, ask("count", low=1, high=400, dimension="count", choices=("a", "b")), "mm")


def test_a_drill_name_is_a_diameter():
    """ASME B94.11M: #7 is 0.2010 in, F is 0.2570 in."""
    assert read_diameter("#7", LENGTH, "mm") == pytest.approx(0.201 * INCH)
    assert read_diameter("F", LENGTH, "mm") == pytest.approx(0.257 * INCH)
    assert read_diameter("13/64", LENGTH, "mm") == pytest.approx(13 / 64 * INCH)


def test_limits_are_rounded_inwards():
    assert show(8.8629, "length", side="down") == "8.862 mm"
    assert show(8.8621, "length", side="up") == "8.863 mm"
    assert show(8.862, "length", side="up") == "8.862 mm"
    assert show(25.4, "length", "inch", decimals=2) == "1.000 in"


def test_bounds_are_named_in_the_unit_on_the_screen():
    assert accepted(LENGTH, "inch") == "a length above 0 in, up to 3937.0079 in"
    assert accepted(ask("angle", low=0.001, high=360.0, dimension="angle")) == "an angle from 0.001°, up to 360°"
    assert accepted(ask("travel", low=0.0001, dimension="length")) == "a length from 0.0001 mm"
