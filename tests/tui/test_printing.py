"""An answer at the shell: whole rows in a file, what fits on a terminal, and nothing but text in either."""

import pytest

from tui.__main__ import main

WORK = ["work", "screwcutting", "size=M10"]


def printed(capsys, monkeypatch, columns=0):
    monkeypatch.setattr("tui.printing.sys.stdout.isatty", lambda: bool(columns), raising=False)
    monkeypatch.setattr("tui.printing.size", lambda: (columns, 24))
    assert main(WORK) == 0
    return capsys.readouterr().out.splitlines()


def test_in_a_file_every_row_is_a_line_and_nothing_is_an_escape(capsys, monkeypatch):
    lines = printed(capsys, monkeypatch)
    assert not any("\x1b" in line for line in lines)
    rows = [line.split() for line in lines if line.lstrip()[:2].strip().isdecimal()]
    assert [row[0] for row in rows] == [str(n) for n in range(1, len(rows) + 1)]
    assert any("Dial, mm" in line for line in lines)


@pytest.mark.parametrize("columns", [40, 60, 80, 100, 200])
def test_on_a_terminal_nothing_is_wider_than_it(columns, capsys, monkeypatch):
    lines = printed(capsys, monkeypatch, columns)
    bare = [line.replace("\x1b[1m", "").replace("\x1b[0m", "") for line in lines]
    assert max(map(len, bare)) <= columns and bare != lines
    text = " ".join(" ".join(bare).split())
    assert "Passes, set on the" in text and "spring" in text
    assert ("Kind: cut" in text) == (columns < 70)  # too narrow for the table: each row in words


def test_without_colour_nothing_is_bold(capsys, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    assert not any("\x1b" in line for line in printed(capsys, monkeypatch, 80))
