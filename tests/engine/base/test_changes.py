"""Figures that moved are written down whole, of operations that there are, and told at the shell."""

import tomllib
from pathlib import Path

import pytest

from engine.base.changes import changes
from engine.base.register import CATALOG
from tui.__main__ import main


def test_every_change_is_whole_and_of_a_known_operation():
    known = {one.id for one in CATALOG}
    for one in changes():
        assert one.operation in known, one
        assert one.version.count(".") == 2
        assert all((one.figure, one.before, one.after, one.why)), one
        assert one.before != one.after, one


def test_the_newest_is_of_this_version():
    project = tomllib.loads((Path(__file__).parents[3] / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert max((one.version for one in changes()), key=lambda v: [int(n) for n in v.split(".")]) == project["version"]


def test_none_is_told_twice():
    told = [(one.version, one.operation, one.figure) for one in changes()]
    assert len(set(told)) == len(told)


def test_changes_of_one_operation(capsys):
    assert main(["--changes", "three-wires"]) == 0
    said = capsys.readouterr().out
    assert said.startswith("1.1.0  three-wires\n  over_wires_basic of M10, wire 0.895: 10.41384 -> 10.41373\n")
    assert "turning-speed" not in said
    assert all(len(line) <= 160 for line in said.splitlines())


def test_all_changes_are_grouped(capsys):
    assert main(["--changes"]) == 0
    heads = [line for line in capsys.readouterr().out.splitlines() if line[:1].isdigit()]
    assert len(heads) == len(set(heads)) == len({(one.version, one.operation) for one in changes()})


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [(["three-wire"], 2, "Did you mean three-wires?"), (["eccentric"], 0, "No figure of eccentric has moved.")],
)
def test_an_operation_that_is_not_there_or_did_not_move(capsys, words, code, said):
    assert main(["--changes", *words]) == code
    out = capsys.readouterr()
    assert said in out.out + out.err
