"""What a shell is told to complete, and the manual page: both come from the declarations."""

import shutil
import subprocess

import pytest

from engine.base.declare import asks
from engine.base.register import CATALOG, load
from tui import helps
from tui.__main__ import DOORS, main
from tui.completion import OPTIONS, SCRIPTS
from tui.job import WORDS
from tui.keys import listed


def offered(capsys, line, shell="fish"):
    assert main(["--complete", shell, f"tommybar {line}"]) == 0
    return capsys.readouterr().out.split()


def test_every_command_is_known_everywhere():
    assert {*DOORS} == {*helps.COMMANDS} == {name for name in OPTIONS if name}


def test_commands_operations_inputs_and_choices_are_offered(capsys):
    assert {"work", "part-off", "part"} == {*offered(capsys, "wo"), *offered(capsys, "part")}
    assert {*offered(capsys, "work ")} >= {entry.id for entry in CATALOG}
    assert {*offered(capsys, "work tap-drill ")} == {f"{name}=" for name in asks(load("tap-drill").inputs)}
    assert "size=" not in offered(capsys, "tap-drill size=M10 ")
    assert "slide=cross" in offered(capsys, "work screwcutting slide=")
    assert offered(capsys, "work screwcutting slide=cr", "bash") == ["cross"]
    assert "--json" in offered(capsys, "work tap-drill --")
    assert {*offered(capsys, "job ")} == {*WORDS}
    assert "hexagon-spacer" in offered(capsys, "job start hex")


def test_files_are_offered_where_one_is_named(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "nut.toml").touch()
    (tmp_path / "more").mkdir()
    assert offered(capsys, "check ") == ["more/", "nut.toml"]
    assert offered(capsys, "work tap-drill --shop n") == ["nut.toml"]


def test_a_line_that_cannot_be_completed_brings_nothing(capsys):
    assert offered(capsys, "nonsense and ") == [] and main(["--complete"]) == 0
    assert main(["completion", "csh"]) == 2 and "bash, zsh, fish" in capsys.readouterr().err


@pytest.mark.parametrize("shell", SCRIPTS)
def test_the_script_is_one_that_the_shell_takes(capsys, shell):
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    if shutil.which(shell):
        subprocess.run([shell, "-n"], input=script, text=True, check=True)


def test_the_manual_names_every_command_operation_and_input(capsys):
    assert main(["man"]) == 0
    page = capsys.readouterr().out.replace("\\-", "-").replace("\\&", "")
    assert page.startswith(".TH TOMMYBAR 1")
    assert all(f".SS {name}" in page for name in DOORS)
    assert all(f".B {entry.id}\n" in page for entry in CATALOG)
    assert all(f"\\fI{name}\\fR" in page for name in asks(load("tap-drill").inputs))
    assert ".SH KEYS" in page and all(says in page for _, says in listed())
    if shutil.which("mandoc"):
        done = subprocess.run(["mandoc", "-T", "lint"], input=page, text=True, capture_output=True)
        assert not [line for line in done.stdout.splitlines() if "STYLE" not in line]
    if shutil.which("groff"):
        done = subprocess.run(["groff", "-man", "-Tutf8", "-Kutf8", "-ww"], input=page, text=True, capture_output=True)
        assert done.returncode == 0 and "tommybar" in done.stdout.casefold()
