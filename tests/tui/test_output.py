"""What the doors write: under any encoding, into devices, over files that are there; and what they read."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.fresh import PROJECT
from tui.__main__ import main
from tui.sheet import sheet


def door(*words, encoding="ascii"):
    environ = {**os.environ, "PYTHONIOENCODING": encoding, "PYTHONPATH": str(PROJECT)}
    return subprocess.run([sys.executable, "-m", "tui", *words], capture_output=True, env=environ, timeout=60)


@pytest.mark.parametrize("encoding", ["ascii", "latin-1"])
def test_every_door_writes_under_any_encoding(encoding):
    words = door("work", "turning-speed", "diameter=20", "--plain", encoding=encoding)
    assert words.returncode == 0 and not words.stdout.decode(encoding).isspace()
    data = door("work", "three-wires", "size=M10", "--json", encoding=encoding)
    assert json.loads(data.stdout.decode("ascii"))["operation"] == "three-wires"
    page = door("sheet", "lock-knob", "-o", "-", encoding=encoding)  # the page says that it is UTF-8
    assert page.returncode == 0 and "charset" in page.stdout.decode("utf-8")
    for done in (words, data, page):
        assert b"Traceback" not in done.stderr


def test_a_refusal_in_json_is_plain_ascii_too(capsys):
    assert main(["work", "three-wires", "size=Ü", "--json"]) == 2
    assert json.loads(capsys.readouterr().out.encode("ascii"))["error"]["given"] == "Ü"


def test_a_sheet_is_not_written_over_a_file_without_being_told(tmp_path, capsys):
    path = tmp_path / "knob.html"
    path.write_text("mine")
    assert sheet(["lock-knob", "-o", str(path)]) == 2
    assert "is there already" in capsys.readouterr().err and path.read_text() == "mine"
    assert sheet(["lock-knob", "-o", str(path), "--force"]) == 0
    assert path.read_text().startswith("<!")


def test_a_device_is_written_to_and_stays_one(tmp_path):
    assert sheet(["lock-knob", "-o", "/dev/null"]) == 0
    assert Path("/dev/null").is_char_device()
    assert sheet(["lock-knob", "-o", str(tmp_path)]) == 2  # a folder


@pytest.mark.parametrize("path", ["/dev/zero", "/dev/null", "/"])
@pytest.mark.parametrize("words", [["work", "drill-size", "size=5", "--shop"], ["check"], ["sheet"]])
def test_a_file_that_is_none_is_refused_and_never_read(words, path, capsys):
    assert main([*words, path]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1


MANY = {
    "tables": "".join(f"[a{i}]\nb=1\n" for i in range(12_000)),
    "more than a shop file": "#" + "x\n" * 200_000,
    "long key": ".".join("a" * 50_000) + " = 1",
    "deep header": "[" + ".".join("a" * 900) + "]",
    "long number": "name = " + "9" * 5000,
}


@pytest.mark.parametrize("words", [["work", "drill-size", "size=5", "--shop"], ["check"]])
@pytest.mark.parametrize("text", MANY.values(), ids=MANY.keys())
def test_a_hostile_file_is_refused_in_a_few_lines(words, text, tmp_path, capsys):
    path = tmp_path / "shop.toml"
    path.write_text(text)
    assert main([*words, str(path)]) == 2
    assert len(capsys.readouterr().err) < 8000


@pytest.mark.parametrize("value", ["9" * 5000, "1e99999", "9" * 400 + " F", "1e-99"])
@pytest.mark.parametrize("unit", ["--mm", "--inch"])
def test_an_absurd_number_is_one_line(value, unit, capsys):
    assert main(["work", "thread-fit", "size=M10", "screw_pitch_diameter=8.92", "nut_pitch_diameter=9.08",
                 f"lead_error_ppm={value}", unit]) == 2  # fmt: skip
    said = capsys.readouterr().err
    assert said.startswith("lead_error_ppm: ") and len(said.splitlines()) == 1 and len(said) < 300


@pytest.mark.parametrize("command", ["work", "check", "sheet", "backup", "restore"])
@pytest.mark.parametrize("word", ["--help", "-h"])
def test_every_command_says_what_it_takes(command, word, capsys):
    assert main([command, word]) == 0
    said = capsys.readouterr().out
    assert said.startswith(f"tommybar {command}") and max(map(len, said.splitlines())) <= 120
    assert main(["--help"]) == 0
    assert f"tommybar {command}" in capsys.readouterr().out


def test_help_on_an_operation_says_what_it_takes(capsys):
    assert main(["work", "hand-dial", "distance=3", "--help"]) == 0
    assert "Distance to move" in capsys.readouterr().out


def test_backup_and_restore_at_the_shell(tmp_path, capsys):
    assert main(["backup", str(tmp_path / "b.zip")]) == 2  # nothing yet
    from engine.shop.edit import sample_text
    from engine.shop.file import shop_path

    shop_path().parent.mkdir(parents=True)
    shop_path().write_text(sample_text("metric"))
    assert main(["backup", str(tmp_path / "b.zip")]) == 0
    assert main(["backup", str(tmp_path / "b.zip")]) == 2
    assert main(["backup", str(tmp_path / "b.zip"), "--force"]) == 0
    assert main(["restore", str(tmp_path / "b.zip")]) == 2
    assert main(["restore", str(tmp_path / "b.zip"), "--force"]) == 0
    assert main(["restore"]) == main(["restore", "a", "b"]) == main(["restore", "--what", "a"]) == 2
    assert "Restored: the shop." in capsys.readouterr().out


@pytest.mark.parametrize("more", [[], ["--plain"]])
@pytest.mark.parametrize(
    ("asked", "shown"),
    # DIN 6885-1: N9 at 4 mm 0/-30 µm (ISO 286-2); ISO 15065: M5 10.40 to 10.65
    [
        (["key", "diameter=12"], "3.970 mm  (3.970 to 4.000)"),
        (["countersink", "screw=M5"], "10.40 mm  (10.40 to 10.65)"),
    ],
)
def test_the_shell_shows_limits_as_the_app_does(capsys, asked, shown, more):
    assert main(["work", *asked, *more]) == 0
    assert shown in capsys.readouterr().out


def test_a_figure_without_limits_stands_alone(capsys):
    assert main(["work", "key", "diameter=12"]) == 0
    line = next(row for row in capsys.readouterr().out.splitlines() if row.startswith("Edges below"))
    assert line.split("by")[1].strip() == "0.343 mm"
