"""Pictures as SVG: any of them is drawn, and what is true to size fits the paper."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.answer import Circle, Label, Line, Picture, Polygon
from engine.jobs.svg import WIDEST, svg
from tests.pages import Seen

SHAPES = st.one_of(
    st.builds(Line, *[st.floats(allow_nan=True)] * 4),
    st.builds(Circle, *[st.floats(-1e3, 1e3)] * 3),
    st.builds(Label, st.floats(-1e3, 1e3), st.floats(-1e3, 1e3), st.text(max_size=20)),
    st.builds(Polygon, st.lists(st.tuples(st.floats(-99, 99), st.floats(-99, 99)), min_size=1, max_size=5).map(tuple)),
)


@settings(max_examples=60, deadline=None)
@given(st.lists(SHAPES, max_size=6).map(tuple), st.booleans())
def test_any_picture_is_drawn_without_a_number_that_svg_cannot_read(shapes, true_size):
    for element in svg(Picture("p", "P", shapes, "A <picture>", true_size=true_size)):
        Seen(element)
        assert "nan" not in element.split("<title>")[0]
        assert "inf" not in element.split("<title>")[0]


def test_a_long_true_strip_is_cut_into_pieces_that_fit_the_paper():
    strip = Picture("s", "Strip", (Line(0, 0, 400, 0),), "A strip.", true_size=True)
    pieces = [float(re.search(r'width="([\d.]+)mm"', one)[1]) for one in svg(strip)]
    assert sum(pieces) == pytest.approx(402)  # 1 mm of margin at either end
    assert max(pieces) <= WIDEST


def test_a_size_that_matters_has_a_ring():
    words = Label(5, 0, "25 +0.05/-0.1", ringed=True)
    assert "<rect" in svg(Picture("p", "P", (Line(0, 0, 10, 0), words), "A line."))[0]
    ring = re.findall(r'rx="', svg(Picture("p", "P", (Line(0, 0, 10, 0), words), "A line."))[0])
    assert len(ring) == 1
