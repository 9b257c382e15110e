"""Drawings: as large as the part, every feature in them, marked by its row; a step as it lies on the machine."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine.base.answer import Circle, Label, Line
from engine.base.files import BadFile
from engine.jobs.svg import svg
from engine.part import part as p
from engine.part import shape
from engine.part.drawing import Frame, drawing, extents, row_of, section
from engine.part.file import read, read_keys, write
from engine.part.keys import keys_of
from engine.part.lines import lines_of, read_line, with_line
from engine.part.shape import hatch, outer_at, slices
from engine.part.words import callout, notes
from engine.part.work import end_view, step_drawing
from tests.engine.part.scenario import FOURTEEN, SHIPPED, load, outside, part_of, tables
from tests.rows import each_row
from tui.widgets.picture import drawn

EVERY = [part for path in FOURTEEN + SHIPPED for part in load(path).parts]
PLAIN = Frame(0.5, 1.0)


def named(stem):
    return next(load(path).part for path in FOURTEEN if path.stem == stem)


def words(picture):
    return [shape.text for shape in picture.shapes if isinstance(shape, Label)]


@each_row("part", EVERY, ids=lambda part: part.title)
def test_a_part_is_drawn_as_large_as_it_is(part):
    shapes = [s for s in section(part, PLAIN) if not _is_ball(part, s)]
    left, low, right, high = extents(shapes)
    off = max((one.off_axis.nominal for one in part.outside if one.off_axis), default=0.0)
    assert (left, right) == (pytest.approx(0, abs=1e-6), pytest.approx(part.overall))
    assert high == pytest.approx(part.largest / 2 + off) and -low <= part.largest / 2 + 1e-9


def _is_ball(part, shape):
    balls = {row_of(part, one.name) for one in part.inside if isinstance(one, p.Ball)}
    return isinstance(shape, Line) and shape.row in balls


@each_row("part", EVERY, ids=lambda part: part.title)
def test_every_feature_is_drawn_and_told(part):
    picture = drawing(part)
    rows = {shape.row for shape in picture.shapes if isinstance(shape, Line)}
    said = " ".join(words(picture))
    for one in (*part.outside, *part.inside, *part.across):
        assert row_of(part, one.name) in rows, one.name
        assert callout(one, part) in said, one.name
    unit = " in " if part.unit == "inch" else " mm "
    assert part.title in picture.alt and unit in picture.alt
    for line in notes(part):
        assert line.split()[0] in said
    (element,) = svg(picture)
    assert element.startswith("<svg") and "nan" not in element


@each_row("part", EVERY, ids=lambda part: part.title)
@each_row(("columns", "rows"), [(40, 12), (60, 18), (80, 24), (120, 37)])
def test_a_part_fits_the_cells_it_is_drawn_in(part, columns, rows):
    lines = drawn(drawing(part, columns=columns, rows=rows), columns, rows, row=1)
    assert len(lines) <= rows and all(sum(len(text) for text, _ in line) <= columns for line in lines)
    assert any(role == "mark" for line in lines for _, role in line)


def test_sizes_and_limits_stand_in_the_drawing():
    said = words(drawing(named("03-shouldered-screw")))
    assert {"Ø10 f7", "8 +0.08/+0.03", "28 ±0.2", "M8 6g", "2 flats 13 across", "14", "6"} <= set(said)
    assert any("implied" in line for line in said)
    assert "220 ±0.3" in words(drawing(named("06-long-screw")))


def test_the_section_is_what_is_left_of_the_part():
    """Volumes by cylinders and a frustum (any textbook): a ring 20 x 10 bored 8, a bevel of 1 on its front edge."""
    ring = part_of(
        outside('is = "diameter"; size = "20"; length = "10"; chamfer = "1"')
        + tables("inside", 'is = "hole"; size = "8"; through = true')
    )
    bevel = 100 - (100 + 90 + 81) / 3
    assert sum(_turned(one) for one in slices(ring)) == pytest.approx(math.pi * (100 * 10 - 16 * 10 - bevel))


def _turned(one):
    """Volume of a slice of the section turned round the axis: frustum less frustum."""

    def cone(a, b):
        return math.pi * (one.z2 - one.z1) * (a * a + a * b + b * b) / 3

    return cone(one.high1, one.high2) - cone(one.low1, one.low2)


def test_hatching_stays_inside_the_section():
    part = named("08-feed-drum")
    outer, inner = shape.outside(part), shape.inside(part)
    for slope in (1.0, 2.1):
        lines = hatch(slices(part), 0.7, slope)
        assert lines
        for z1, r1, z2, r2 in lines:
            z, r = (z1 + z2) / 2, (r1 + r2) / 2
            assert 0 <= z <= part.overall and r <= outer_at(outer, z) + 1e-6
            assert (
                r
                >= max((piece.at(z) for piece in inner if piece.points[0][0] <= z <= piece.points[-1][0]), default=0)
                - 1e-6
            )


def test_an_eccentric_is_drawn_off_its_axis():
    _, low, _, high = extents(section(named("11-eccentric"), PLAIN))
    assert (high, low) == (pytest.approx(21), pytest.approx(-15))  # 36 / 2 plus and less 3


# a step, as it lies on the machine


def state(part, **more):
    made = frozenset(one.name for one in part.features())
    return p.WorkState(**{"part": part, "made": made, "title": "A step", "bar_to": part.overall, **more})


def test_a_step_shows_holding_overhang_zero_and_room():
    nut = named("01-height-nut")
    step = state(
        nut, made=frozenset({"outside.2"}), making=("outside.1",), holding="three-jaw", grip_from=40, grip_to=62,
        stick_out=40,
        support="centre", zero=0.0, bar_to=66, tool="right-hand tool", tool_at=5, feed="to the headstock", room=35,
        measure=("the collar by micrometer",), between="brass sheet",
    )  # fmt: skip
    picture = step_drawing(step)
    said = words(picture)
    assert {"Ø25", "zero here ↑", "out 40", "grip 22", "room 35", "centre", "5", "right-hand tool ←"} <= set(said)
    assert "three-jaw, brass sheet between" in said and "Measure: the collar by micrometer" in said
    assert not any("knurl" in text for text in said), "only this step's own sizes"
    heavy = [shape for shape in picture.shapes if isinstance(shape, Line) and shape.weight == 1]
    assert heavy and all(-5 - 1e-9 <= x <= 1e-9 for s in heavy for x in (s.x1, s.x2))
    dotted = [s for s in picture.shapes if isinstance(s, Line) and s.weight == 2]
    assert dotted, "the thread to come"
    assert len(svg(picture)) == 1


def test_the_headstock_is_at_the_left_and_turning_round_is_said():
    nut = named("01-height-nut")
    front = step_drawing(state(nut, making=("outside.1",), grip_from=10, grip_to=13))
    back = step_drawing(
        state(nut, making=("outside.1",), grip_from=0, grip_to=3, turned_round=True, earlier_end="the scale end")
    )
    assert _heavy_middle(front) == pytest.approx(-2.65) and _heavy_middle(back) == pytest.approx(-10.35)
    assert "Turned round: the scale end is at the headstock now." in words(back)
    assert back.alt.startswith("Turned round. ") and not front.alt.startswith("Turned")


def _heavy_middle(picture):
    xs = [x for s in picture.shapes if isinstance(s, Line) and s.weight == 1 and s.y1 == s.y2 for x in (s.x1, s.x2)]
    return (min(xs) + max(xs)) / 2 if xs else None


@each_row("holding", p.Holding.__args__)
@each_row("support", p.Support.__args__)
def test_every_holding_and_support_can_be_drawn(holding, support):
    screw = named("06-long-screw")
    step = state(
        screw, making=("outside.2",), holding=holding, support=support, grip_from=205, grip_to=220, grip_diameter=10,
        steady_at=60, zero=0.0, tool="tool", tool_at=40, tool_side="inside", driven_by="three-jaw",
    )  # fmt: skip
    for columns, rows in ((0, 0), (80, 24)):
        picture = step_drawing(step, columns=columns, rows=rows)
        assert picture.shapes and picture.alt
    if support != "none" and holding != "between centres":
        assert support in words(picture)


def test_head_work_has_an_end_view():
    drum = named("08-feed-drum")
    picture = end_view(state(drum, making=("outside.1.scale",), head_zero="over the keyway"))
    rays = [s for s in picture.shapes if isinstance(s, Line) and s.weight != 2]
    assert len(rays) == 60 and "0: over the keyway" in words(picture)
    for ray in rays:
        assert math.hypot(ray.x2, ray.y2) == pytest.approx(18)
    assert end_view(state(drum, making=("outside.1",))) is None
    flange = end_view(state(named("13-motor-flange"), making=("across.1",)))
    holes = [s for s in flange.shapes if isinstance(s, Circle) and s.radius == pytest.approx(2.5)]
    angles = sorted(round(math.degrees(math.atan2(s.x, s.y)) % 360) for s in holes)
    assert angles == [30, 90, 150, 210, 270, 330]  # six from 30 degrees
    nut = end_view(state(named("12-t-slot-nut"), making=("outside.1.flats",)))
    assert sorted(s.y1 for s in nut.shapes if isinstance(s, Line) and s.weight == 1) == pytest.approx([-5.9, 5.9])


# parts made up at random


def tenths(low, high):
    return st.integers(round(low * 10), round(high * 10)).map(lambda n: f"{n / 10:g}")


@st.composite
def random_keys(draw):
    """The keys of a part: up to five lengths of outside, perhaps a bore, a thread, a cross hole."""
    bar = draw(st.sampled_from(["20", "28", "hex 17", "square 20", "1"]))
    unit = "inch" if bar == "1" else "mm"
    kinds = st.one_of(
        st.fixed_dictionaries(
            {"is": st.just("diameter"), "size": tenths(4, 17), "length": tenths(2, 20)},
            optional={
                "chamfer": tenths(0.1, 1.5),
                "chamfer_back": st.just("0.4 x 30"),
                "fit": st.sampled_from(["h7", "p6"]),
            },
        ),
        st.fixed_dictionaries({"is": st.just("bar"), "length": tenths(2, 20)}),
        st.fixed_dictionaries({"is": st.just("knurl"), "near": tenths(8, 17), "length": tenths(4, 12)}),
        st.fixed_dictionaries({"is": st.just("groove"), "size": tenths(3, 6), "width": tenths(1, 3)}),
        st.fixed_dictionaries(
            {"is": st.just("taper"), "from": tenths(5, 17), "to": tenths(5, 17), "length": tenths(3, 12)}
        ),
        st.fixed_dictionaries(
            {
                "is": st.just("thread"),
                "size": st.sampled_from(["M8", "M12x1.5", "1/4-20 UNC"]),
                "length": tenths(8, 20),
            },
            optional={"relief": st.just(True), "chamfer": st.just("0.5")},
        ),
    )
    keys = {
        "title": "Made up", "unit": "mm", "material": "brass", "bar": bar if unit == "mm" else "25.4",
        "outside": draw(st.lists(kinds, min_size=1, max_size=5)),
    }  # fmt: skip
    if draw(st.booleans()):
        bore = {"is": "hole", "size": draw(tenths(1, 4)), **draw(st.sampled_from([{"through": True}, {"depth": "2"}]))}
        keys["inside"] = [{**bore, "end": draw(st.sampled_from(["front", "back"]))}]
    if draw(st.booleans()):
        keys["across"] = [{"is": "cross-hole", "size": draw(tenths(0.5, 2)), "at": draw(tenths(1, 20))}]
    return keys


@settings(max_examples=150, deadline=None)
@given(random_keys())
def test_made_up_parts_go_to_file_lines_and_drawing_and_back(keys):
    try:
        part = read_keys(keys)
    except BadFile as refusal:
        assert "Traceback" not in str(refusal)
        assume(False)
    assert read(write(p.PartFile(parts=(part,)))).part == part
    for where in ("outside", "inside", "across"):
        for one in keys_of(part).get(where, []):
            found = []
            for line in lines_of(where, one):
                found = with_line(found, read_line(line))
            assert [{k: str(v) for k, v in f.items()} for f in found] == [{k: str(v) for k, v in one.items()}]
    left, low, right, high = extents(section(part, PLAIN))
    assert (left, right) == (pytest.approx(0, abs=1e-6), pytest.approx(part.overall))
    assert high == pytest.approx(part.largest / 2) and low == pytest.approx(-part.largest / 2)
    for columns, rows in ((0, 0), (60, 18)):
        assert drawing(part, columns=columns, rows=rows).shapes
