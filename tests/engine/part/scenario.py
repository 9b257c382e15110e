"""Parts to test with: the least part there is, and the files that lie beside the tests and with the program."""

from functools import cache
from pathlib import Path

from engine.part.file import read, read_file
from engine.part.plan import plan

ROOT = Path(__file__).parents[3]
FOURTEEN = sorted((ROOT / "tests/data/parts").glob("*.toml"))
RULES = sorted((ROOT / "tests/data/parts/rules").glob("*.toml"))
OWN = sorted((ROOT / "tests/data/parts/own").glob("*.toml"))
SHIPPED = sorted((ROOT / "recipes/parts").glob("*.toml"))
TOGETHER = sorted((ROOT / "tests/data/parts/together").glob("*.toml"))  # several parts in one file
HEAD = 'part_version = 1\ntitle = "Ring"\nunit = "mm"\nmaterial = "brass"\n'


def part_of(text, *, bar="28", head=""):
    """A part of a bar with these tables."""
    return read(HEAD + f'bar = "{bar}"\n{head}\n' + text).part


def outside(*features):
    """Tables of outside features, each as its keys in TOML with semicolons between."""
    return tables("outside", *features)


def tables(name, *features):
    return "".join(f"\n[[{name}]]\n" + "\n".join(key.strip() for key in one.split(";")) + "\n" for one in features)


@cache
def load(path):
    return read_file(path)[0]


@cache
def planned(part, shop):
    """The plan of a part, worked out once for all that is asked of it."""
    return plan(part, shop)
