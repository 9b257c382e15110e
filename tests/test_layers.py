"""What may import what, each proved in an interpreter that has loaded nothing else."""

from importlib import import_module

import pytest

from engine.base.register import CATALOG, load
from tests.fresh import loaded

HEAVY = ("textual", "rich", "pydantic", "pint", "numpy", "tomlkit")


@pytest.mark.parametrize("family", sorted({entry.family for entry in CATALOG}))
def test_the_operations_of_a_family_load_nothing_heavy(family):
    assert loaded(f"import engine.{family}.operations", HEAVY) == set()


def test_listing_the_operations_loads_no_family():
    families = tuple(f"engine.{e.family}.{e.topic}_operations" for e in CATALOG)
    assert loaded("import engine.base.register", (*HEAVY, *families)) == set()


def test_one_operation_loads_the_module_that_declares_it_and_no_other():
    modules = tuple({f"engine.{e.family}.{e.topic}_operations" for e in CATALOG})
    code = "from engine.base.register import load\nload('hand-dial')"
    assert loaded(code, (*HEAVY, *modules)) == {"engine.indexing.dial_operations"}


@pytest.mark.parametrize("entry", CATALOG, ids=lambda e: e.id)
def test_a_family_gathers_the_operations_of_its_topics(entry):
    gathered = import_module(f"engine.{entry.family}.operations").OPERATIONS
    assert gathered[entry.id] is load(entry.id)


def test_a_first_answer_needs_neither_pint_nor_pydantic():
    code = (
        "from engine.base.operation import run\nfrom engine.shop.file import sample\n"
        "run('thread-limits', {'size': 'M12x1'}, sample('metric'))"
    )
    assert loaded(code, HEAVY) == set()


@pytest.mark.parametrize("option", ["--json", "--plain", "--mm"])
def test_the_shell_door_loads_no_textual_pint_or_pydantic(option):
    code = f"from tui.__main__ import main\nassert main(['work', 'thread-limits', 'size=M12x1', {option!r}]) == 0"
    found = loaded(code, ("textual", "pydantic", "pint", "numpy", "tomlkit"))
    assert found == set()


def test_the_engine_never_imports_the_screen():
    code = (
        "import pkgutil, importlib, engine\n"
        "for m in pkgutil.walk_packages(engine.__path__, 'engine.'):\n    importlib.import_module(m.name)"
    )
    assert loaded(code, ("textual", "rich", "tui")) == set()


def test_families_do_not_import_one_anothers_operations():
    for family in sorted({e.family for e in CATALOG}):
        others = tuple(f"engine.{e.family}.operations" for e in CATALOG if e.family != family)
        assert loaded(f"import engine.{family}.operations", others) == set(), family
