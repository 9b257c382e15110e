"""The shop file: read, refused with every mistake, edited with its comments kept."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.files import BadFile
from engine.base.refusals import BadInput
from engine.shop.edit import rows, sample_text, with_answer, with_part, without_part
from engine.shop.file import load, parse, sample, shop_path
from engine.shop.model import Shop
from engine.shop.problems import problems
from tests.rows import each_row


@pytest.mark.parametrize("name", ["metric", "inch"])
def test_samples_have_every_machine_and_no_mistake(name):
    shop = sample(name)
    assert shop.lathe and shop.mill and shop.dividing_head and shop.drills and shop.wires and shop.knurls
    assert problems(shop_path(), sample_text(name)) == ()


def test_a_bare_number_is_in_the_files_unit():
    assert sample("inch").lathe.cross_slide.travel_per_turn == Fraction(254, 100)
    assert sample("inch").lathe.leadscrew == Fraction(127, 40)
    assert sample("metric").lathe.leadscrew == 3


def test_without_a_file_the_metric_sample_is_used():
    assert load() == sample("metric")


def test_every_mistake_is_told_with_its_line(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text('unit = "mm"\ndirlls = "1, 2"\n[rotary_table]\nratio = 0\n')
    with pytest.raises(BadFile) as caught:
        load(path)
    first, second = str(caught.value).splitlines()
    assert first == "shop.toml:2: dirlls: this is not a key of the shop file. Did you mean 'drills'?"
    assert second.startswith("shop.toml:4: rotary_table.ratio: 0 cannot be used; accepted: a whole number from 1")


@pytest.mark.parametrize("content", [b"", b"\xff\xfe", b"a = \x00", b"[" * 3000])
def test_odd_files_are_a_shop_or_a_clear_refusal(tmp_path, content):
    path = tmp_path / "shop.toml"
    path.write_bytes(content)
    try:
        assert load(path).name
    except BadFile as refusal:
        assert "shop.toml" in str(refusal)


def test_a_missing_or_unreadable_file_is_said(tmp_path):
    with pytest.raises(BadFile, match="cannot be read"):
        load(tmp_path / "none.toml")
    with pytest.raises(BadFile, match="cannot be read"):
        load(tmp_path)


def test_every_field_says_what_it_is_used_for():
    def check(model):
        for name, ask in asks(model).items():
            assert ask.label and ask.help, f"{model.__name__}.{name}"
            if ask.part:
                check(ask.part)

    check(Shop)


def test_an_edit_keeps_comments_and_order():
    text = '# mine\nname = "Shed" # short\n\n[rotary_table] # old one\nratio = 72\n'
    edited = with_answer(text, ("rotary_table", "ratio"), "90")
    assert edited == text.replace("72", "90")


def test_lists_are_kept_as_people_write_them():
    edited = with_answer('name = "Shed"\n', ("drills",), "1-10 x 0.5, 10.2")
    assert 'drills = "1-10 x 0.5, 10.2"' in edited
    assert len(parse(edited).drills) == 20


@pytest.mark.parametrize(
    "place, typed", [(("lathe", "motor"), "lots"), (("lathe", "motor"), ""), (("unit",), "cubit"), (("wires",), "thin")]
)
def test_a_bad_edit_is_refused_and_names_the_field(place, typed):
    with pytest.raises(BadInput) as caught:
        with_answer(sample_text("metric"), place, typed)
    assert caught.value.field == place[-1]


@each_row("unit", ["mm", "inch"])
@each_row("name", ["lathe", "mill", "dividing_head", "rotary_table", "knurls", "end_mills"])
def test_a_part_can_be_added_and_taken_away(unit, name):
    bare = f'unit = "{unit}"\n'
    added = with_part(bare, (name,))
    assert getattr(parse(added), name)
    place = (name, 0) if name in ("knurls", "end_mills") else (name,)
    assert parse(without_part(added, place)) == parse(bare)


def test_a_needed_part_stays():
    with pytest.raises(BadInput, match="cannot be without it"):
        without_part(sample_text("metric"), ("lathe", "chuck"))


def test_every_row_of_the_editor_can_be_typed_again_unchanged():
    text = sample_text("inch")
    for row in rows(text):
        if row.owned and row.ask.part is None:
            assert parse(with_answer(text, row.place, row.typed)) == parse(text), row.place


@settings(max_examples=40)
@given(st.sampled_from([r.place for r in rows(sample_text("metric")) if r.ask.part is None]), st.text(max_size=20))
def test_any_typing_is_a_valid_file_or_one_refusal(place, typed):
    try:
        parse(with_answer(sample_text("metric"), place, typed))
    except BadInput as refusal:
        assert str(refusal)
