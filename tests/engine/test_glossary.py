"""The list of every input and figure by name is fresh, and one name has one meaning."""

import csv

from engine.base.operation import run
from engine.shop.file import sample
from tests.engine.test_contract import CONTRACT
from tests.glossary import FILE, listing


def rows():
    lines = (line for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    return list(csv.DictReader(lines))


def test_the_list_is_fresh():
    """`python -m tests.glossary` after a name was added or changed."""
    assert FILE.read_text(encoding="utf-8") == listing()


def test_every_promised_figure_is_in_it():
    names = {row["name"] for row in rows() if row["kind"] == "figure"}
    promised = {name for _, figures, _, _ in CONTRACT.values() for name in figures.split()}
    assert promised <= names | {figure for row in rows() for figure in row["was"].split()}


def test_a_figure_has_one_kind_of_number_for_one_name():
    units = {row["name"]: set(row["unit"].split(" or ")) for row in rows() if row["kind"] == "figure"}
    settings = {"", "setting"}  # what is set, on a wheel that is owned or in words where none is
    assert {name for name, of in units.items() if len(of) > 1 and not of <= settings} == set()


def test_a_renamed_figure_answers_to_its_old_name_and_none_has_it_now():
    renamed = {
        figure.was: figure.name
        for operation, given in (
            ("slot", "diameter=20 width=6 depth=3 length=20"), ("rotary-table", "divisions=7"), ("set-true", "reading=0.1"),
        )
        for figure in run(operation, dict(word.split("=") for word in given.split()), sample("metric")).answer.figures
        if figure.was
    }  # fmt: skip
    assert renamed == {"feed": "feed_rate", "step": "each_pass", "dial": "dial_exact", "left": "run_out_left"}
    answer = run("slot", {"diameter": "20", "width": "6", "depth": "3", "length": "20"}, sample("metric")).answer
    assert answer.figure("feed") is answer.figure("feed_rate")
