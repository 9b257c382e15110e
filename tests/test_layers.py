"""What may import what, each proved in an interpreter that has loaded nothing else."""

from pathlib import Path

import pytest

from engine.base import registered
from engine.base.register import CATALOG, listing
from engine.threads import family
from engine.threads.families import listed
from engine.threads.thread import LISTED
from tests.fresh import loaded

HEAVY = ("textual", "rich", "pydantic", "pint", "numpy", "tomlkit")
# Of the standard library, each a hundredth of a first answer or more.
SLOW = ("dataclasses", "csv")


MODULES = tuple(sorted({entry.module for entry in CATALOG}))


@pytest.mark.parametrize("module", MODULES)
def test_an_operation_loads_nothing_heavy_and_no_other_familys_operation(module):
    family = module.split(".")[1]
    others = tuple(m for m in MODULES if m.split(".")[1] != family)
    assert loaded(f"import {module}", (*HEAVY, *others)) == set()


def test_listing_the_operations_loads_none():
    assert loaded("import engine.base.register", (*HEAVY, *MODULES)) == set()


def test_one_operation_loads_the_module_that_declares_it_and_no_other():
    code = "from engine.base.register import load\nload('hand-dial')"
    assert loaded(code, (*HEAVY, *MODULES)) == {"engine.indexing.hand_dial"}


def test_the_list_of_operations_is_fresh():
    """Made anew it says what it says: `python -m engine.base.register` after a declaration has changed."""
    assert Path(registered.__file__).read_text(encoding="utf-8") == listing()


FAMILY_FILES = tuple(f"engine.threads.families.{listed.module}" for listed in LISTED)


@pytest.mark.parametrize(
    ("size", "files"), [("M12x1", {"iso_metric"}), ("1/4-20 UNC", {"unified"}), ("Tr12x3", {"trapezoidal"})]
)
def test_a_thread_loads_its_own_family_and_no_other(size, files):
    code = (
        "from engine.threads.designation import parse\nfrom engine.threads.limits import limits\n"
        f"limits(parse({size!r}))"
    )
    assert loaded(code, FAMILY_FILES) == {f"engine.threads.families.{file}" for file in files}


def test_the_list_of_families_is_fresh():
    """Made anew it says what it says: `python -m engine.threads.family` after a family has changed."""
    assert Path(listed.__file__).read_text(encoding="utf-8") == family.listing()


def test_a_first_answer_needs_neither_pint_nor_pydantic():
    code = (
        "from engine.base.operation import run\nfrom engine.shop.file import sample\n"
        "run('thread-limits', {'size': 'M12x1'}, sample('metric'))"
    )
    assert loaded(code, (*HEAVY, *SLOW, "engine.safety.rows")) == set()


def test_the_jobs_are_listed_without_pydantic():
    assert loaded("import tui.screens.jobs", ("pydantic", "pint", "engine.jobs.schema")) == set()


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
