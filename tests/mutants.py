"""Faults put into the engine one at a time, to see whether the tests notice: `python -m tests.mutants SEED N`.

N places are drawn by the seed from all of them in the folders of the operations, the cautions and the trouble (`FOLDERS`),
module level, tables and declarations of inputs included. What is done there: a comparison with or without its equality, or
turned to its opposite; + and -, x and ÷, and and or, min and max, rounding up and down changed for one another; a condition
turned round; a whole number one more or less, another a fifth less or a quarter more; one note, figure, size or shape of a
list left out.

Left out, as none can be a fault that somebody meets: annotations, docstrings, decorators; numbers under a thousandth, which
keep the noise of floating point from the figures; where a search asks whether it is still wanted.

Each mutant is an interpreter of its own, forked before anything of these folders is loaded, that reads the changed module
from memory: no file changes. Its tests, until the first that fails: of those that reach the changed function at all (`--map
FILE` keeps that) the pins and edges of operations, the doctests and tests of its folder, those of the cautions and the
trouble, the rows at the limits, contracts, workings and pictures, the quick ones first. Not run, for time: every thread
through every operation, nonsense, and what stands further from the engine (jobs, parts, shop, the screens). A mutant that
runs for two minutes is one that a test would notice. `--kept FILE` gets a line of JSON for each; one that is there is not
run again. `--part 1/3` runs every third, so that several can share the work.
"""

import argparse
import ast
import copy
import importlib.machinery
import importlib.util
import json
import os
import random
import signal
import sys
import time
from collections import Counter
from pathlib import Path

import hypothesis
import pytest
from hypothesis import strategies  # noqa: F401  what the tests load beside these folders, once, before the forks

import tui.shell  # noqa: F401

FOLDERS = (
    "accuracy", "cutting", "drilling", "indexing", "joining", "knurling", "safety", "slotting", "threads", "trouble", "turning"
)  # fmt: skip
LAST = (
    "engine/base/test_register", "engine/test_at_the_limits", "engine/test_contract", "engine/test_every_picture",
    "engine/test_workings", "engine/test_judgement", "test_layers"
)  # fmt: skip
LONGEST = 120  # [s] of processor time
_OTHER = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.And: ast.Or, ast.Or: ast.And,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    "min": "max", "max": "min", "up": "down", "down": "up",
}  # fmt: skip


def _silent(tree):
    """What is no code that answers: types, docstrings, decorators, asking whether a search is still wanted."""
    found = set()
    for node in ast.walk(tree):
        parts = [getattr(node, "annotation", None), getattr(node, "returns", None)]
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            parts.append(node)
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            parts += node.decorator_list
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            parts.append(node)
        if (
            isinstance(node, ast.Assign)
            and ast.unparse(node.targets[0])[0].isupper()
            and "|" in ast.unparse(node.value)
        ):
            parts.append(node)
        if isinstance(node, ast.If) and "stop_asked()" in ast.unparse(node.test):
            parts.append(node.test)
            found.add(id(node))
        found |= {id(inner) for part in parts if part is not None for inner in ast.walk(part)}
    return found


def _kind(node):
    """What can be done to a node, or nothing."""
    if isinstance(node, ast.Compare):
        return "compare"
    if isinstance(node, ast.BinOp) and type(node.op) in _OTHER:
        return "" if isinstance(node.left, ast.Constant) and isinstance(node.left.value, str) else "arithmetic"
    if isinstance(node, ast.BoolOp):
        return "and-or"
    if isinstance(node, ast.Constant) and type(node.value) in (int, float):
        return "number" if node.value == 0 or abs(node.value) >= 0.001 else ""
    if isinstance(node, ast.If | ast.IfExp):
        return "condition"
    if isinstance(node, ast.Name) and node.id in ("min", "max"):
        return "least-most"
    if isinstance(node, ast.Constant) and node.value in ("up", "down"):
        return "rounding"
    if isinstance(node, ast.List) and any(isinstance(one, ast.Call) for one in node.elts):
        return "left-out"
    return ""


def _scopes(node, name="", inside=""):
    """Each node's outermost function, by its qualified name; `<module>` for what runs when the file is loaded."""
    for part, value in ast.iter_fields(node):
        function = isinstance(node, ast.FunctionDef) and not inside
        scope = name if function and part == "body" else inside
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST):
                named = isinstance(child, ast.FunctionDef | ast.ClassDef) and not scope
                yield child, scope or "<module>"
                yield from _scopes(child, f"{name}.{child.name}".lstrip(".") if named else name, scope)


def places(file):
    """Every (file, number of the node, kind, scope) at which a fault can be put."""
    tree = ast.parse(Path(file).read_text(encoding="utf-8"))
    silent, scopes = _silent(tree), {id(node): scope for node, scope in _scopes(tree)}
    nodes = [(i, node) for i, node in enumerate(ast.walk(tree)) if id(node) in scopes and id(node) not in silent]
    return [(file, i, _kind(node), scopes[id(node)]) for i, node in nodes if _kind(node)]


def mutant(file, number, kind, seed):
    """The module's tree with the fault in it, its line, and the words before and after."""
    tree = ast.parse(Path(file).read_text(encoding="utf-8"))
    node = list(ast.walk(tree))[number]
    before = ast.unparse(node)
    drawn = random.Random(f"{seed} {file} {number}")
    if kind == "compare":
        node.ops[0] = _OTHER[type(node.ops[0])]()
    elif kind in ("arithmetic", "and-or"):
        node.op = _OTHER[type(node.op)]()
    elif kind == "number":
        whole = isinstance(node.value, int)
        node.value = node.value + drawn.choice((1, -1)) if whole else node.value * drawn.choice((0.8, 1.25)) or 0.5
    elif kind == "condition":
        node.test = ast.UnaryOp(ast.Not(), node.test)
    elif kind == "least-most":
        node.id = _OTHER[node.id]
    elif kind == "rounding":
        node.value = _OTHER[node.value]
    else:
        node.elts.remove(drawn.choice([one for one in node.elts if isinstance(one, ast.Call)]))
    return ast.fix_missing_locations(tree), node.lineno, before, ast.unparse(node)


class _Changed(importlib.machinery.SourceFileLoader):
    """Loads a module from its changed tree."""

    tree = None

    def get_code(self, fullname):
        return compile(self.tree, self.path, "exec")


class _Finder:
    """Stands first among the finders and knows one module."""

    def __init__(self, file, tree):
        self.name = file.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
        self.loader = _Changed(self.name, os.path.abspath(file))
        self.loader.tree = tree

    def find_spec(self, name, path=None, target=None):
        if name != self.name:
            return None
        return importlib.util.spec_from_file_location(name, self.loader.path, loader=copy.copy(self.loader))


class _First:
    """Remembers the first test that fails."""

    name = ""

    def pytest_runtest_logreport(self, report):
        if report.failed and not self.name:
            self.name = report.nodeid

    def pytest_collectreport(self, report):
        if report.failed and not self.name:
            self.name = f"loading {report.nodeid}"


def _forked(work):
    """What work() says in a process of its own; or how that ended."""
    reads, writes = os.pipe()
    child = os.fork()
    if not child:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        signal.setitimer(signal.ITIMER_PROF, LONGEST)
        try:
            says = work()
        except BaseException as error:
            says = f"loading: {error!r}"
        with os.fdopen(writes, "w") as end:
            json.dump(says, end)
        os._exit(0)
    os.close(writes)
    with os.fdopen(reads) as end:
        says = end.read()
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    return json.loads(says) if says else f"ended by {-status}"


def units():
    """What is run as a whole: the pins and edges of an operation, a file of tests."""
    ids = sorted(file.stem for file in Path("tests/data/pins").glob("*.jsonl"))
    tests = [str(file) for folder in FOLDERS for file in sorted(Path("tests/engine", folder).glob("test_*.py"))]
    tests += [f"tests/{one}.py" for one in LAST]
    return [*ids, *(one for one in tests if "every_thread" not in one)]


def _files():
    return [str(file) for folder in FOLDERS for file in sorted(Path("engine", folder).rglob("*.py"))]


def failed(unit):
    """The first test of a unit that fails; nothing if none does."""
    if "/" not in unit:
        from tests.test_pins import test_answers_at_the_edges_stand_as_written_down, test_answers_stand_as_written_down

        try:
            test_answers_at_the_edges_stand_as_written_down(unit)
            test_answers_stand_as_written_down(unit)
        except Exception as error:
            return f"{unit}: {type(error).__name__}"
        return ""
    first = _First()
    hypothesis.settings.register_profile("mutants", database=None, derandomize=True, deadline=None, max_examples=50)
    # pytest's own reader of assertions would load a file named here from the disk
    options = [
        "--assert=plain",
        "-x",
        "-q",
        "-p",
        "no:cacheprovider",
        "-p",
        "no:xdist",
        "--hypothesis-profile",
        "mutants",
    ]
    code = pytest.main([*options, unit], plugins=[first])
    return first.name or ("" if code in (0, 5) else f"{unit}: {int(code)}")


def _reached(unit):
    """What a unit takes [s], and the functions of these folders that it enters; what fails without any fault ends it all."""
    entered, here = set(), os.getcwd() + os.sep
    folders = tuple(f"{here}engine/{folder}/" for folder in FOLDERS)

    def watch(frame, event, arg):
        if event == "call" and frame.f_code.co_filename.startswith(folders):
            entered.add(frame.f_code)

    began = time.process_time()
    sys.setprofile(watch)
    fails = failed(unit)
    sys.setprofile(None)
    names = {f"{code.co_filename.removeprefix(here)}:{code.co_qualname}" for code in entered}
    return [fails, time.process_time() - began, sorted(names)]


def _noticed(file, tree, asked):
    """The first test that fails with this tree as the module; nothing if none does."""
    sys.meta_path.insert(0, _Finder(file, tree))
    return next(filter(None, map(failed, asked)), "")


def reach(file):
    """For each unit what it takes and reaches; read from the file if it is there."""
    if file and Path(file).exists():
        return json.loads(Path(file).read_text(encoding="utf-8"))
    found = {unit: _forked(lambda unit=unit: _reached(unit)) for unit in units()}
    for unit, (fails, *_) in found.items():
        if fails:
            sys.exit(f"without any fault: {unit} {fails}")
    if file:
        Path(file).write_text(json.dumps(found), encoding="utf-8")
    return found


def _asked(file, scope, found):
    """The units that reach a function: its own operation's, its file's doctests, its folder's, the rest; quick ones first."""
    own, folder = Path(file).stem.replace("_", "-"), file.split("/")[1]
    who = [unit for unit, (_, _, names) in found.items() if f"{file}:{scope}" in names]
    if not who:  # newer than the map, or nothing enters it: all of its folder, and all that load the file
        who = [
            u
            for u, (_, _, names) in found.items()
            if f"/{folder}/" in u or any(name.startswith(f"{file}:") for name in names)
        ]
    who.sort(key=lambda unit: (unit != own, found[unit][1] * (1 if f"/{folder}/" in unit else 2)))
    return [*who[:2], file, *who[2:]]


def main():
    """Draw, try and tell."""
    import pint  # noqa: F401  heavy: loaded once, before the forks

    said = argparse.ArgumentParser(prog="python -m tests.mutants")
    said.add_argument("seed", type=int)
    said.add_argument("n", type=int)
    said.add_argument("--map", default="")
    said.add_argument("--kept", default="")
    said.add_argument("--part", default="1/1")
    given = said.parse_args()
    part, of = map(int, given.part.split("/"))
    pool = [place for file in _files() for place in places(file)]
    random.Random(given.seed).shuffle(pool)
    found, kept = reach(given.map), Path(given.kept or os.devnull)
    known = [json.loads(line) for line in kept.read_text(encoding="utf-8").splitlines()] if kept.exists() else []
    lives = Counter(one["lives"] for one in known)
    print(f"{len(pool)} places, {len(known)} known", flush=True)
    for i, (file, number, kind, scope) in enumerate(pool[: given.n]):
        if i % of != part - 1 or any(one["i"] == i for one in known):
            continue
        tree, line, before, after = mutant(file, number, kind, given.seed)
        began, asked = time.monotonic(), _asked(file, scope, found)
        by = _forked(lambda file=file, tree=tree, asked=asked: _noticed(file, tree, asked))
        lives[not by] += 1
        told = {
            "i": i,
            "lives": not by,
            "file": file,
            "line": line,
            "kind": kind,
            "before": before,
            "after": after,
            "by": by,
        }
        with kept.open("a", encoding="utf-8") as end:
            end.write(json.dumps({**told, "asked": len(asked), "seconds": round(time.monotonic() - began, 1)}) + "\n")
        if not by:
            print(f"LIVES {file}:{line} {kind}: {before[:120]} -> {after[:120]}", flush=True)
    print(f"{sum(lives.values())} tried, {lives[True]} live")


if __name__ == "__main__":
    main()
