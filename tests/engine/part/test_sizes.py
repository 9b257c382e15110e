"""Sizes with limits, chamfers, bars and cones as people write them."""

import math

import pytest

from engine.base.refusals import BadInput
from engine.part.general import general_deviation
from engine.part.sizes import limits_text, read_bar, read_blank, read_cone, read_edge, read_size
from tests.rows import each_row

# written, unit, nominal, low, high; limits of classes from ISO 286-2 as printed in workshop handbooks
SIZES = [
    ("25", "mm", 25, None, None),
    ("8 +0.08/+0.03", "mm", 8, 8.03, 8.08),
    ("8 +0.03/+0.08", "mm", 8, 8.03, 8.08),
    ("24 +0.2/0", "mm", 24, 24, 24.2),
    ("11.8 +0/-0.1", "mm", 11.8, 11.7, 11.8),
    ("11.8 0/-0.1", "mm", 11.8, 11.7, 11.8),
    ("13 +-0.1", "mm", 13, 12.9, 13.1),
    ("13 ±0,1", "mm", 13, 12.9, 13.1),
    ("13 +/- 0.1", "mm", 13, 12.9, 13.1),
    ("15.95..16.05", "mm", 16, 15.95, 16.05),
    ("10 H7", "mm", 10, 10.0, 10.015),
    ("10H7", "mm", 10, 10.0, 10.015),
    ("16 p6", "mm", 16, 16.018, 16.029),
    ("10 f7", "mm", 10, 9.972, 9.987),
    ("7 h7", "mm", 7, 6.985, 7.0),
    ("3 JS9", "mm", 3, 2.9875, 3.0125),
    ("3/8", "mm", 9.525, None, None),
    ("1 1/4", "inch", 31.75, None, None),
    ("0.5 +-0.002", "inch", 12.7, 12.6492, 12.7508),
    ("3/8 +0/-0.002", "inch", 9.525, 9.4742, 9.525),
    ("Ø25 mm", "inch", 25, None, None),
    ("40 thou", "mm", 1.016, None, None),
]


@each_row(("text", "unit", "nominal", "low", "high"), SIZES)
def test_sizes_are_read_as_they_are_written(text, unit, nominal, low, high):
    size = read_size(text, unit)
    assert size.nominal == pytest.approx(nominal)
    assert (size.low is None, size.high is None) == (low is None, high is None)
    if low is not None:
        assert (size.low, size.high) == (pytest.approx(low), pytest.approx(high))


@each_row("text", ["", "wide", "-3", "0", "8 +0.1/+0.1", "8 +0.1", "16.05..15.95", "10 H99", "9000", "8 +-9"])
def test_what_is_no_size_is_refused(text):
    with pytest.raises(BadInput) as refusal:
        read_size(text, "mm")
    assert "accepted" in str(refusal.value) and "\n" not in str(refusal.value)


@pytest.mark.parametrize(
    ("text", "unit", "shown"),
    [
        ("8 +0.08/+0.03", "mm", "8 +0.08/+0.03"), ("13 +-0.1", "mm", "13 ±0.1"), ("10 H7", "mm", "10 H7"),
        ("24 +0.2/0", "mm", "24 +0.2/0"), ("0.375", "inch", "0.375"), ("15.95..16.05", "mm", "16 ±0.05"),
    ],
)  # fmt: skip
def test_sizes_are_shown_in_their_own_unit(text, unit, shown):
    assert limits_text(read_size(text, unit), unit) == shown


# chamfer, on a diameter, hole, length along the axis, depth on the radius: right-angled triangles
EDGES = [
    ("0.5", 25, False, 0.5, 0.5),
    ("0.5 x 45", 25, False, 0.5, 0.5),
    ("1.5 x 15", 16, False, 1.5, 1.5 * math.tan(math.radians(15))),
    ("to 16.2 x 30", 17 / math.cos(math.pi / 6), False, 0.990, 1.715),
    ("to 12.4", 12, True, 0.2, 0.2),
]


@pytest.mark.parametrize(("text", "diameter", "hole", "long", "deep"), EDGES)
def test_chamfers(text, diameter, hole, long, deep):
    assert read_edge(text, "mm").on(diameter, hole=hole) == (
        pytest.approx(long, abs=1e-3),
        pytest.approx(deep, abs=1e-3),
    )


@pytest.mark.parametrize("text", ["", "0", "0.5 x 95", "to", "0.5 x"])
def test_what_is_no_chamfer_is_refused(text):
    with pytest.raises(BadInput):
        read_edge(text, "mm")


def test_bars_and_blanks():
    assert (read_bar("hex 17", "mm").section, read_bar("hex 17", "mm").size) == ("hex", 17)
    assert read_bar("hex 17", "mm").corners == pytest.approx(19.63, abs=0.005)  # 17 x 2 / root 3
    assert read_bar("square 20", "mm").corners == pytest.approx(28.28, abs=0.005)  # 20 x root 2
    assert read_bar("tube 28 x 20", "mm").bore == 20
    assert read_bar("7/8", "inch").size == pytest.approx(22.225)
    assert (read_blank("62 sawn", "mm").long, read_blank("62 sawn", "mm").sawn) == (62, True)
    for wrong in ("oct 17", "tube 20 x 28", "hex", "-5"):
        with pytest.raises(BadInput):
            read_bar(wrong, "mm")


# 2 atan(1 / 2n)
@pytest.mark.parametrize(("text", "angle"), [("1 in 10", 5.7248), ("1:20", 2.8642), ("60", 60.0)])
def test_cones(text, angle):
    assert read_cone(text).angle == pytest.approx(angle, abs=1e-4)


# ISO 2768-1:1989 Table 1, from memory
@each_row(
    ("nominal", "grade", "off"),
    [(0.5, "m", 0.1), (3, "m", 0.1), (6, "m", 0.1), (6.1, "m", 0.2), (30, "m", 0.2), (120, "m", 0.3), (400, "f", 0.2),
     (25, "c", 0.5), (2, "v", None), (0.4, "m", None), (1500, "f", 0.5)],
)  # fmt: skip
def test_general_tolerances(nominal, grade, off):
    assert general_deviation(nominal, grade) == off
