"""The law of the house, read from the source: who may import whom, and what only one module may do.

What the interpreter really loads is asked in tests/test_layers.py; here the same is asked of the text, so that an import
inside a function or for typing only counts too.
"""

import ast
import re
from functools import cache
from pathlib import Path

from engine.base.register import CATALOG
from tests.rows import each_row

ROOT = Path(__file__).parents[1]
FILES = {
    ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
    for folder in ("engine", "tui")
    for path in sorted((ROOT / folder).rglob("*.py"))
}
OPERATIONS = {entry.module for entry in CATALOG}
FAMILIES = {module.split(".")[1] for module in OPERATIONS}


@cache
def source(module):
    return FILES[module].read_text(encoding="utf-8")


@cache
def parsed(module):
    return ast.parse(source(module))


@cache
def imported(module):
    """What a module imports, wherever it stands: (name, whether for typing only, whether inside a function)."""
    found = set()

    def visit(node, typing, deferred):
        if isinstance(node, ast.Import):
            names = {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            whole = {f"{node.module}.{name.name}" for name in node.names}
            names = {name if name in FILES else node.module for name in whole}
        else:
            names = set()
        found.update((name, typing, deferred) for name in names if name in FILES and name != module)
        typing |= isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)
        deferred |= isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        for inner in ast.iter_child_nodes(node):
            if isinstance(inner, ast.stmt | ast.excepthandler | ast.match_case):
                visit(inner, typing, deferred)

    visit(parsed(module), False, False)
    return found


def imports(module, *, typing=True, deferred=True):
    """The project's modules that a module imports, wherever in it the import stands."""
    return {name for name, for_typing, inside in imported(module) if typing >= for_typing and deferred >= inside}


@each_row("module", [m for m in FILES if m.startswith("engine")])
def test_the_engine_imports_no_screen(module):
    assert not {name for name in imports(module) if name.startswith("tui")}


@each_row("module", [m for m in FILES if m.split(".")[1:2] and m.split(".")[1] in FAMILIES])
def test_a_family_imports_mathematics_of_another_never_its_operations(module):
    family = module.split(".")[1]
    assert not {name for name in imports(module) & OPERATIONS if name.split(".")[1] != family}


def circles(graph):
    """Modules that reach themselves (Tarjan, 1972: strongly connected components)."""
    index, low, stack, found, order = {}, {}, [], [], iter(range(len(graph)))

    def visit(module):
        index[module] = low[module] = next(order)
        stack.append(module)
        for other in graph[module]:
            if other not in index:
                visit(other)
                low[module] = min(low[module], low[other])
            elif other in stack:
                low[module] = min(low[module], index[other])
        if low[module] == index[module]:
            group = []
            while not group or group[-1] != module:
                group.append(stack.pop())
            if len(group) > 1:
                found.append(sorted(group))

    for module in graph:
        if module not in index:
            visit(module)
    return found


def test_no_circle_at_import():
    assert circles({m: imports(m, typing=False, deferred=False) for m in FILES}) == []


def test_no_circle_through_what_a_function_imports():
    assert circles({m: imports(m, typing=False) for m in FILES}) == []


def test_no_circle_of_types_either():
    assert circles({m: imports(m, deferred=False) for m in FILES}) == []  # those for typing too


FORMAT = re.compile(r"\{[^{}\"']*:[+,]?[0-9]*(?:\.[0-9]+)?[fgeG%]\}")


@cache
def code(module):
    """A module's text without docstrings and comments."""
    text = source(module)
    for node in ast.walk(parsed(module)):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            said = ast.get_docstring(node, clean=False)
            text = text.replace(said, "") if said else text
    return re.sub(r"#.*", "", text)


@each_row("module", [m for m in FILES if m.startswith("engine") and m != "engine.base.rounding"])
def test_no_number_is_written_outside_the_one_place(module):
    assert FORMAT.findall(code(module)) == []


@each_row("module", [m for m in FILES if m.startswith("engine") and not m.startswith("engine.shop")])
def test_the_unit_of_a_screen_decides_nothing_in_the_engine(module):
    assert "shop.unit" not in code(module)


INCH = re.compile(r"(?<![\d.])25\.4(?!\d| mm exactly)|0\.0254(?!\d)")
KNOWS_THE_INCH = {"engine.base.quantity", "engine.base.units", "engine.base.sums"}


@each_row("module", [m for m in FILES if m.startswith("engine") and m not in KNOWS_THE_INCH])
def test_no_unit_hides_in_a_number(module):
    assert INCH.findall(code(module)) == []


@each_row("module", [m for m in FILES if m != "engine.base.records"])
def test_records_are_declared_in_one_way(module):
    """The standard module costs a quarter of a start, and its `field` means nothing to a record of ours."""
    assert not re.search(r"^(?:from|import) dataclasses", source(module), re.M)
