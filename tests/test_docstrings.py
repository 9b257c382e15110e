"""What a docstring of the engine owes its reader.

Every public function says in a line what it is. One that rests on a formula, a table or a source says it in full: then
its arguments are those of the function, a number has its unit, the source is named, and an example runs. Headings with
nothing under them are refused.
"""

import importlib
import inspect
import pkgutil
import re

import pytest

import engine
from tests.rows import each_row

FULL = re.compile(r"^(Returns|Raises|Source): ", re.M)
ARGUMENT = re.compile(r"^(?!Returns|Raises|Source)(\w+(?:, \w+)*): ", re.M)
EMPTY = re.compile(r"^\w+: (?:None|Never)\.?$|^(?:Returns|Raises|Source): As for the\b", re.M)


def functions():
    for info in pkgutil.walk_packages(engine.__path__, "engine."):
        module = importlib.import_module(info.name)
        for name, function in inspect.getmembers(module, callable):
            plain = inspect.unwrap(function)
            if inspect.isfunction(plain) and plain.__module__ == info.name and not name.startswith("_"):
                yield pytest.param(plain, id=f"{info.name}.{name}")


def in_full(doc):
    """The paragraph that names arguments, result and source, where there is one."""
    return next((text for text in doc.split("\n\n") if FULL.search(text) and ARGUMENT.match(text)), "")


@each_row("function", list(functions()))
def test_a_docstring_says_what_it_is_and_nothing_empty(function):
    doc = inspect.getdoc(function) or ""
    assert len(doc.split("\n\n")[0]) > 10, "no line that says what it is"
    assert not EMPTY.search(doc)
    full = in_full(doc)
    if not full:
        return
    arguments = inspect.signature(function).parameters
    documented = ARGUMENT.findall(full)
    assert [name for group in documented for name in group.split(", ")] == list(arguments)
    for entry in re.split(r"^(?=\w)", full, flags=re.M):
        names = ARGUMENT.match(entry)
        if names and str(arguments[names[1].split(", ")[0]].annotation).startswith("float"):
            assert re.search(r"\[[^\]]+\]", entry), f"no unit in {entry!r}"
    assert "Source: " in full and ">>> " in doc, "said in full without its source or an example"
