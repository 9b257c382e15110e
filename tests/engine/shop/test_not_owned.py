"""Whatever a shop leaves out that it may leave out, each operation answers, or says in a sentence what it needs."""

from collections.abc import Iterator

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.records import fields, replace
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.shop.file import sample
from engine.shop.model import Shop
from tests.rows import each_row


def left_out(owned: object) -> Iterator[tuple[str, object]]:
    """The same with one of the things that may be left out left out, in turn; those of its parts too."""
    asked = asks(type(owned))
    for field in fields(owned):
        name, value = field.name, getattr(owned, field.name)
        if asked[name].part is not None and not asked[name].many and value is not None:
            yield from ((f"{name}.{what}", replace(owned, **{name: less})) for what, less in left_out(value))
        if not asked[name].required and value != field.default and not isinstance(value, str):
            yield name, replace(owned, **{name: field.default})


SHOPS = dict(left_out(sample("metric")))


def test_much_can_be_left_out():
    assert {"lathe", "mill", "dividing_head", "drills", "lathe.thread_dial"} <= SHOPS.keys()


@each_row("missing", SHOPS)
def test_each_operation_answers_or_says_what_it_needs(missing: str):
    shop = SHOPS[missing]
    assert isinstance(shop, Shop)
    for entry in CATALOG:
        try:
            assert run(entry.id, dict(load(entry.id).example), shop).answer.figures
        except BadInput as refusal:
            assert str(refusal).startswith(f"{refusal.field}: "), entry.id
