"""The list of every input and figure by name is fresh, and one name has one meaning."""

import csv

from tests.engine.test_contract import CONTRACT
from tests.glossary import FILE, listing

# Names of the first version that meant two things: each is joined by a name of its own and goes with the next version.
TWICE = {"feed", "dial", "step", "left", "setting"}


def rows():
    lines = (line for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    return list(csv.DictReader(lines))


def test_the_list_is_fresh():
    """`python -m tests.glossary` after a name was added or changed."""
    assert FILE.read_text(encoding="utf-8") == listing()


def test_every_promised_figure_is_in_it():
    names = {row["name"] for row in rows() if row["kind"] == "figure"}
    promised = {name for _, figures, _, _ in CONTRACT.values() for name in figures.split()}
    assert promised <= names


def test_a_figure_has_one_kind_of_number_for_one_name():
    twice = {row["name"] for row in rows() if row["kind"] == "figure" and " or " in row["unit"]}
    assert twice - TWICE == set()
