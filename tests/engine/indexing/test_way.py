"""Where dividing is done."""

import pytest

from engine.base.operation import run
from engine.base.records import replace
from engine.shop.file import sample


@pytest.mark.parametrize(
    ("operation", "given"), [("divide", {"divisions": "25"}), ("rotary-table", {"divisions": "7"})]
)
def test_a_shop_without_a_mill_divides_at_the_bench(operation, given):
    shop = sample("metric")
    assert run(operation, given, shop).answer.moments[0].machine == "mill"
    assert run(operation, given, replace(shop, mill=None)).answer.moments[0].machine == "bench"
