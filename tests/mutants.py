"""Faults put into the engine one at a time, to see whether the tests notice: `python -m tests.mutants SEED N [FILE]`.

N places are drawn by the seed from all of them in the folders of the operations, the cautions and the trouble (`FOLDERS`),
module level, tables and declarations of inputs included. What is done there (`KINDS`): a comparison with or without its
equality, or turned to its opposite; + and -, x and ÷, and and or, min and max, rounding up and down changed for one another;
a condition turned round; a whole number one more or less, another a fifth less or a quarter more; one note, figure, size or
shape of a list left out.

Left out, as none can be a fault that somebody meets: annotations, docstrings, decorators; numbers under a thousandth, which
keep the noise of floating point from the figures; where a search asks whether it is still wanted.

Each mutant is an interpreter of its own, forked before anything of the engine is loaded, that reads the changed module from
memory: no file changes. Its tests, until the first that fails: the pins and edges of the operations that load the module;
its doctests and the tests of its folder; those of the cautions and the trouble, the rows at the limits, contracts, workings
and pictures. Not run, for time: every thread through every operation, nonsense, and what stands further from the engine
(jobs, parts, shop, the screens). A mutant that runs for two minutes is one that a test would notice. FILE gets a line of
JSON for each; one that is there already is not run again.
"""

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
import pint  # noqa: F401  what the tests load beside the engine is loaded once, before the forks
import pytest
import textual.app  # noqa: F401
from hypothesis import strategies  # noqa: F401

FOLDERS = (
    "accuracy", "cutting", "drilling", "indexing", "joining", "knurling", "safety", "slotting", "threads", "trouble", "turning"
)  # fmt: skip
LAST = (
    "safety trouble base/test_register.py test_at_the_limits.py test_contract.py test_every_picture.py test_workings.py"
)
LONGEST = 120  # [s] of processor time
_OTHER = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.And: ast.Or, ast.Or: ast.And,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    "min": "max", "max": "min", "up": "down", "down": "up",
}  # fmt: skip
KINDS = ["compare", "arithmetic", "and-or", "number", "condition", "least-most", "rounding", "left-out"]


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


def places(file):
    """Every (file, number of the node, kind) at which a fault can be put."""
    tree = ast.parse(Path(file).read_text(encoding="utf-8"))
    silent = _silent(tree)
    return [(file, i, _kind(n)) for i, n in enumerate(ast.walk(tree)) if id(n) not in silent and _kind(n)]


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


def stages(file, users):
    """The tests of a module, the ones that notice most first."""
    folder = file.split("/")[1]
    own = [one for one, (module, _) in users.items() if module == file]
    near = [one for one, (module, _) in users.items() if module.split("/")[1] == folder and one not in own]
    far = [one for one in users if one not in own + near]
    for ids, more in ((own, []), (near, [file, f"tests/engine/{folder}"]), (far, [])):
        if asked := [f"[{one}]" for one in ids if file in users[one][1]]:
            yield ["tests/test_pins.py", "-k", " or ".join(asked)]
        if more:
            yield more
    yield [f"tests/engine/{one}" for one in LAST.split()]


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
        os.write(writes, json.dumps(says).encode()[:60000])
        os._exit(0)
    os.close(writes)
    with os.fdopen(reads) as end:
        says = end.read()
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    return json.loads(says) if says else f"ended by {-status}"


def _noticed(file, tree, users):
    """The first test that fails with this tree as the module; nothing if none does."""
    sys.meta_path.insert(0, _Finder(file, tree))
    hypothesis.settings.register_profile("mutants", database=None, derandomize=True)
    options = [
        "-x",
        "-q",
        "-p",
        "no:cacheprovider",
        "-p",
        "no:xdist",
        "--deselect",
        "tests/engine/threads/test_every_thread.py",
    ]
    for tests in stages(file, users):
        first = _First()
        code = pytest.main([*options, *tests], plugins=[first])
        if first.name or code not in (0, 5):
            return first.name or f"code {int(code)}"
    return ""


def _users():
    """Each operation's own file and the files of the engine that its example loads."""

    def loads(operation_id):
        from engine.base.operation import run
        from engine.base.register import entry, load
        from engine.shop.file import sample

        run(operation_id, dict(load(operation_id).example), sample("metric"))
        here = os.getcwd() + os.sep
        files = [getattr(module, "__file__", None) or "" for name, module in sys.modules.items() if "engine" in name]
        return [entry(operation_id).module.replace(".", "/") + ".py", [file.removeprefix(here) for file in files]]

    ids = sorted(file.stem for file in Path("tests/data/pins").glob("*.jsonl"))
    return {one: _forked(lambda one=one: loads(one)) for one in ids}


def main(seed, n, out=""):
    """Draw, try and tell."""
    files = [str(file) for folder in FOLDERS for file in sorted(Path("engine", folder).rglob("*.py"))]
    pool = [place for file in files for place in places(file)]
    random.Random(seed).shuffle(pool)
    users = _users()
    known = [json.loads(line) for line in Path(out).read_text().splitlines()] if out and Path(out).exists() else []
    lives = Counter(one["lives"] for one in known)
    print(f"{len(pool)} places in {len(files)} files, {len(known)} known", flush=True)
    for file, number, kind in pool[len(known) : int(n)]:
        tree, line, before, after = mutant(file, number, kind, seed)
        began = time.monotonic()
        by = _forked(lambda file=file, tree=tree: _noticed(file, tree, users))
        lives[not by] += 1
        told = {"lives": not by, "file": file, "line": line, "kind": kind, "before": before, "after": after, "by": by}
        if out:
            with open(out, "a", encoding="utf-8") as kept:
                kept.write(json.dumps({**told, "seconds": round(time.monotonic() - began, 1)}) + "\n")
        if not by or not out:
            print(
                f"{'LIVES' if not by else 'noticed'} {file}:{line} {kind}: {before[:100]} -> {after[:100]} {by}",
                flush=True,
            )
    print(f"{sum(lives.values())} tried, {lives[True]} live")


if __name__ == "__main__":
    main(*sys.argv[1:])
