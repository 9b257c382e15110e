"""The contract of every operation: it answers its own example, with every number explained."""

import dataclasses
import math

import pytest

from engine.base.answer import Circle, Label, Line, Pointer, Polygon, Size
from engine.base.declare import asks
from engine.base.operation import run
from engine.base.quantity import DIMENSIONS, show
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, PANES, entry, load
from engine.shop.file import sample
from tests.rows import each_row

IDS = [e.id for e in CATALOG]


@pytest.fixture(params=["metric", "inch"], scope="module")
def shop(request):
    return sample(request.param)


@pytest.mark.parametrize("operation_id", IDS)
def test_its_example_answers_on_both_sample_shops(operation_id, shop):
    answer = run(operation_id, load(operation_id).example, shop).answer
    assert answer.figures
    names = [f.name for f in answer.figures]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("operation_id", IDS)
def test_every_figure_shows_its_working_and_its_source(operation_id, shop):
    for figure in run(operation_id, load(operation_id).example, shop).answer.figures:
        assert figure.source and figure.working and figure.label, figure.name
        assert figure.dimension in DIMENSIONS
        if figure.dimension == "text":
            assert figure.value is None and figure.text, figure.name
        else:
            assert math.isfinite(figure.value), figure.name
            assert show(figure.value, figure.dimension, "inch", decimals=figure.decimals)


@pytest.mark.parametrize("operation_id", IDS)
def test_tables_and_pictures_are_whole(operation_id, shop):
    answer = run(operation_id, load(operation_id).example, shop).answer
    for table in answer.tables:
        names = [c.name for c in table.columns]
        assert len(names) == len(set(names)) and table.rows and table.source, table.name
        assert all(len(row) == len(names) for row in table.rows)
        assert set(table.setting) <= set(names)
        if table.count_noun:
            assert [row[0] for row in table.rows] == list(range(1, len(table.rows) + 1)), table.name
            assert table.setting, table.name
        for column in table.columns:
            assert column.dimension in DIMENSIONS
    for picture in answer.pictures:
        assert picture.alt and picture.shapes
        assert not picture.table or answer.table(picture.table).count_noun
        for shape in picture.shapes:
            assert isinstance(shape, Line | Circle | Polygon | Label | Size | Pointer)


@each_row("operation_id", IDS)
def test_every_input_explains_itself(operation_id):
    operation = load(operation_id)
    assert operation.help  # a look-up brings no kind of work with it
    for name, ask in asks(operation.inputs).items():
        assert ask.label and ask.help, name
        assert ask.example or ask.choices, name
        if not ask.required and dataclasses.fields(operation.inputs):
            default = next(f.default for f in dataclasses.fields(operation.inputs) if f.name.removesuffix("_") == name)
            assert default is not None or ask.empty or ask.from_shop, f"{name}: what does leaving it empty mean?"


def test_the_catalog_is_whole():
    assert len(IDS) == len(set(IDS))
    assert {e.pane for e in CATALOG} == {p.id for p in PANES}
    assert all(e.words and e.title for e in CATALOG)


def test_an_unknown_operation_is_met_with_the_nearest():
    with pytest.raises(BadInput, match="Did you mean tap-drill"):
        entry("tapdrill")
