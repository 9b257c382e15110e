"""Every public function of the engine documents its arguments, units, result, source and an example that runs."""

import importlib
import inspect
import pkgutil
import re

import pytest

import engine

SECTIONS = re.compile(r"^(\w+)\n-{3,}$", re.M)


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
def test_the_docstring_matches_the_function(function):
    if function.__module__ == "engine.base.declare":
        return  # its one-line declaration helpers are documented together in the module
    found = sections(function)
    names = list(inspect.signature(function).parameters)
    documented = re.findall(r"^(\w+(?:, \w+)*) : ", found.get("Parameters", ""), re.M)
    assert [n for group in documented for n in group.split(", ")] == names
    for entry in re.split(r"^(?=\w+(?:, \w+)* : )", found.get("Parameters", ""), flags=re.M):
        if re.match(r".*: float", entry):
            assert re.search(r"\[[^\]]+\]", entry), f"no unit in {entry!r}"
    for needed in ("Sources", "Examples"):
        assert needed in found, f"no {needed}"
    if inspect.signature(function).return_annotation not in ("None", None):
        assert "Returns" in found
    assert ">>>" in found["Examples"]
