"""What a shop can hold with: read, shown as unknown until it is said, and old shop files as they were."""

from __future__ import annotations

import pytest

from engine.shop.edit import sample_text
from engine.shop.file import parse, sample, shop_path
from engine.shop.problems import problems

OLD = 'name = "Shed"\nunit = "mm"\ndrills = "1-10 x 0.5"\n'


def test_an_old_shop_file_is_read_as_before():
    shop = parse(OLD)
    assert shop.chucks == shop.collets == shop.steadies == shop.boring_tools == ()
    assert shop.arbors == shop.carriers == shop.dies == shop.broaches == ()


def test_safety_numbers_begin_unknown():
    shop = parse(OLD + '[[chucks]]\nkind = "four-jaw"\n')
    assert shop.chucks[0].marked_speed is None and shop.chucks[0].run_out is None
    for name in ("metric", "inch"):
        assert all(chuck.marked_speed is None and chuck.run_out is None for chuck in sample(name).chucks)
        assert sample(name).lathe.chuck.run_out is None


@pytest.mark.parametrize("name", ["metric", "inch"])
def test_the_samples_say_what_they_hold_with(name):
    shop = sample(name)
    assert shop.collets and shop.collets[0].sizes and shop.steadies and shop.boring_tools and shop.dies
    assert any(chuck.kind == "four-jaw" for chuck in shop.chucks)
    assert problems(shop_path(), sample_text(name)) == ()


def test_holdings_are_read_with_their_units():
    shop = parse(
        'unit = "inch"\ncarriers = "1/2, 3/4"\n[[collets]]\nkind = "draw-in"\nsizes = "1/8-1/2 x 1/8"\ncloses = 0.004\n'
        '[[boring_tools]]\ndiameter = "3/16 in"\nreach = 0.75\nleast_bore = 0.25\n'
    )
    assert [round(tool.diameter, 3) for tool in shop.collets[0].sizes] == [3.175, 6.35, 9.525, 12.7]
    assert shop.collets[0].closes == pytest.approx(0.1016)
    assert shop.boring_tools[0].reach == pytest.approx(19.05)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[[chucks]]\nkind = "five-jaw"\n', "three-jaw"),
        ("[[steadies]]\nlargest = 5000\n", "largest"),
        ("[[boring_tools]]\nreach = -3\n", "reach"),
    ],
)
def test_a_holding_that_cannot_be_is_refused_by_its_key(text, said):
    with pytest.raises(ValueError, match=said):
        parse(OLD + text)
