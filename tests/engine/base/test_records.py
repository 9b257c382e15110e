"""Records behave as the standard frozen dataclasses do, and are dataclasses."""

import copy
import dataclasses
import pickle
from dataclasses import FrozenInstanceError, asdict, fields, replace

import pytest

from engine.base import records
from tests.fresh import loaded

OPTIONS = [{}, {"slots": True}, {"kw_only": True}, {"slots": True, "kw_only": True}]


def made(module, options):
    @module.dataclass(frozen=True, **options)
    class Cut:
        """A cut."""

        depth: float
        name: str = "rough"
        rows: list = module.field(default_factory=list, compare=False, repr=False)

        def __post_init__(self):
            if self.depth < 0:
                raise ValueError("depth")

    return Cut


def said(call):
    try:
        return repr(call()).replace("test_", "")
    except Exception as error:
        return type(error).__name__


@pytest.mark.parametrize("options", OPTIONS, ids=str)
def test_what_can_be_asked_of_a_record_is_answered_as_by_the_standard_one(options):
    ours, theirs = made(records, options), made(dataclasses, options)
    asked = [
        lambda c: c(depth=1.5),
        lambda c: c(1.5, "fine"),
        lambda c: c(),
        lambda c: c(depth=-1.0),
        lambda c: c(depth=1.0, wide=2),
        lambda c: c(depth=1.0, rows=[1]).rows,
        lambda c: c(depth=1.0).rows is c(depth=1.0).rows,
        lambda c: c(depth=1.0) == c(depth=1.0, rows=[2]),
        lambda c: c(depth=1.0) == c(depth=2.0),
        lambda c: c(depth=1.0) == 1.0,
        lambda c: hash(c(depth=1.0)) == hash(c(depth=1.0, rows=[2])),
        lambda c: replace(c(depth=1.0), name="fine"),
        lambda c: asdict(c(depth=1.0)),
        lambda c: [f.name for f in fields(c)],
        lambda c: c.__match_args__,
        lambda c: c.__doc__,
        lambda c: copy.copy(c(depth=1.0)),
        lambda c: copy.deepcopy(c(depth=1.0, rows=[[1]])).rows,
        lambda c: setattr(c(depth=1.0), "depth", 2.0),
        lambda c: delattr(c(depth=1.0), "depth"),
        lambda c: hasattr(c(depth=1.0), "__dict__"),
    ]  # fmt: skip
    assert [said(lambda a=a: a(ours)) for a in asked] == [said(lambda a=a: a(theirs)) for a in asked]


@records.dataclass(frozen=True, slots=True)
class Kept:
    a: int
    b: tuple[int, ...] = ()


@records.dataclass(frozen=True)
class Empty:
    pass


def test_a_record_is_kept_and_read_again():
    assert pickle.loads(pickle.dumps(Kept(1, (2,)))) == Kept(1, (2,))
    assert Empty() == Empty() and hash(Empty()) == hash(Empty()) and repr(Empty()) == "Empty()"


def test_what_a_class_says_itself_stays():
    @records.dataclass(frozen=True)
    class Named:
        name: str

        def __repr__(self):
            return self.name

    assert repr(Named("x")) == "x"
    with pytest.raises(FrozenInstanceError, match="cannot change 'name'"):
        Named("x").name = "y"


def test_a_class_that_is_not_frozen_is_changed_in_place():
    @records.dataclass
    class Open:
        a: int = 1
        b: list = records.field(default_factory=list)

    one = Open()
    one.a = 2
    one.b.append(3)
    assert one == Open(2, [3]) and Open.__hash__ is None and Open().b == []


@records.dataclass(frozen=True, kw_only=True)
class Wider(Empty):
    c: Kept
    d: int = 4


def test_its_own_functions_do_what_the_standard_ones_do():
    one = Wider(c=Kept(1, (2,)))
    assert records.asdict(one) == asdict(one) == {"c": {"a": 1, "b": (2,)}, "d": 4}
    assert records.replace(one, d=5) == replace(one, d=5) == Wider(c=Kept(1, (2,)), d=5)
    assert [f.name for f in records.fields(one)] == [f.name for f in fields(Wider)] == ["c", "d"]
    assert [f.kw_only for f in fields(Wider)] == [True, True]
    with pytest.raises(TypeError):
        records.replace(one, wrong=1)


def test_the_first_and_the_many_are_made_alike():
    @records.dataclass(frozen=True, slots=True)
    class Many:
        a: int
        b: str = "b"

    every = [Many(n) if n % 2 else Many(a=n, b="b") for n in range(100)]
    assert [(one.a, one.b) for one in every] == [(n, "b") for n in range(100)]
    for wrong in (lambda: Many(), lambda: Many(1, "b", 2), lambda: Many(1, a=1), lambda: Many(1, c=2)):
        with pytest.raises(TypeError):
            wrong()


def test_nothing_heavy_is_loaded_for_it():
    found = loaded("from engine.base.records import dataclass, replace", ("dataclasses", "inspect"))
    assert not found
