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

SECTIONS = re.compile(r"^(\w+)\n-{3,}$", re.M)
EMPTY = re.compile(r"^(None|Never|As for the)\b", re.I)


def functions():
    for info in pkgutil.walk_packages(engine.__path__, "engine."):
        module = importlib.import_module(info.name)
        for name, function in inspect.getmembers(module, callable):
            plain = inspect.unwrap(function)
            if inspect.isfunction(plain) and plain.__module__ == info.name and not name.startswith("_"):
                yield pytest.param(plain, id=f"{info.name}.{name}")


def sections(function):
    doc = inspect.getdoc(function) or ""
    parts = SECTIONS.split(doc)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


@pytest.mark.parametrize("function", list(functions()))
def test_a_docstring_says_what_it_is_and_nothing_empty(function):
    doc = inspect.getdoc(function) or ""
    assert len(doc.split("\n\n")[0]) > 10, "no line that says what it is"
    found = sections(function)
    assert not [name for name, text in found.items() if EMPTY.match(text.strip())]
    if "Examples" in found:
        assert ">>>" in found["Examples"]
    if "Parameters" not in found:
        return
    names = list(inspect.signature(function).parameters)
    documented = re.findall(r"^(\w+(?:, \w+)*) : ", found["Parameters"], re.M)
    assert [n for group in documented for n in group.split(", ")] == names
    for entry in re.split(r"^(?=\w+(?:, \w+)* : )", found["Parameters"], flags=re.M):
        if re.match(r".*: float", entry):
            assert re.search(r"\[[^\]]+\]", entry), f"no unit in {entry!r}"
    assert {"Sources", "Examples"} <= set(found), "said in full without its source or an example"
