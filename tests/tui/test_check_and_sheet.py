"""The two doors of recipes at the shell, run as the command runs them."""

import sys
from pathlib import Path

import pytest

from engine.jobs.journal import Journal
from engine.jobs.run import resolve
from engine.part.library import read_shipped
from engine.part.own import own_parts
from engine.shop.file import sample
from tests.engine.jobs.test_recipe import BAD, SAYS
from tests.fresh import loaded
from tests.old_recipes import old_recipe
from tui.check import check
from tui.sheet import sheet


def test_a_good_recipe_is_said_to_be_one(capsys, tmp_path):
    path = tmp_path / "nut.toml"
    plan, text = old_recipe("height-adjuster-nut")
    path.write_text(text)
    assert check([str(path)]) == 0
    assert f"without mistakes; all {len(plan.steps)} steps" in capsys.readouterr().out


@pytest.mark.parametrize("name", SAYS)
def test_every_mistake_is_a_line_on_stderr(name, capsys):
    assert check([str(BAD / name)]) == 2
    assert capsys.readouterr().err.splitlines() == [f"{name}:{row}" for row in SAYS[name]]


def test_a_step_that_this_shop_cannot_do_is_told(capsys, tmp_path):
    recipe, shop = tmp_path / "nut.toml", tmp_path / "bare.toml"
    recipe.write_text(old_recipe("height-adjuster-nut")[1])
    shop.write_text('name = "Bare"\n')
    assert check([str(recipe), "--shop", str(shop)]) == 1
    assert "steps cannot be worked for this shop" in capsys.readouterr().err


def test_a_shop_file_is_checked_too(capsys, tmp_path):
    good, bad = tmp_path / "shop.toml", tmp_path / "bench.toml"
    good.write_text('name = "Shed"\n')
    bad.write_text('[lathe]\nmotr = "550 W"\n')
    assert check([str(good)]) == 0
    assert check([str(bad)]) == 2
    assert "Did you mean 'motor'?" in capsys.readouterr().err


@pytest.mark.parametrize("words", [[], ["a", "b"], ["--what"], ["/no/such.toml"], ["bad\x1b[31m.toml"], ["a\0b.toml"]])
def test_what_cannot_be_checked_is_one_plain_line(words, capsys):
    assert check(words) == 2
    said = capsys.readouterr().err.strip()
    assert said and said.isprintable()


def test_a_sheet_is_written_beside_a_name_made_from_its_title(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert sheet(["bearing-flange"]) == 0
    assert capsys.readouterr().out.strip() == "bearing-flange.html"
    assert "<h1>Bearing flange, 1 off</h1>" in Path("bearing-flange.html").read_text()


def test_the_sheet_of_a_job_has_its_readings(tmp_path):
    recipe, text = old_recipe("lock-knob")
    journal = Journal()
    job = journal.start(resolve(recipe, sample("inch")), text, "lock-knob")
    journal.measured(job.id, 2, 25.41)
    journal.close()
    out = tmp_path / "job.html"
    assert sheet([str(job.id), "-o", str(out)]) == 0
    assert "1.0004 in" in out.read_text()


@pytest.mark.parametrize("words", [[], ["99"], ["no-such"], ["a", "b"], ["--what"], ["9" * 400]])
def test_a_sheet_that_cannot_be_made_is_one_line(words, capsys):
    assert sheet(words) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1


@pytest.mark.parametrize("door", ["check", "sheet"])
def test_a_door_loads_no_screen(door, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert loaded(f"from tui.__main__ import main\nmain(['{door}', 'lock-knob'])", ("textual", "rich")) == set()


def test_a_part_file_is_told_from_a_recipe_by_its_version(capsys, tmp_path):
    good, bad = tmp_path / "nut.toml", tmp_path / "bad.toml"
    good.write_text(read_shipped("height-adjuster-nut")[1])
    bad.write_text('part_version = 1\ntitle = "Ring"\nunit = "mm"\nmaterial = "brass"\nbar = "28"\nmke = 2\n')
    assert check([str(good)]) == 0
    assert "a part file without mistakes: one part" in capsys.readouterr().out
    assert check([str(bad)]) == 2
    assert capsys.readouterr().err.startswith("bad.toml:6: mke: this is not a key of a part file. Did you mean 'make'?")


def test_the_ending_of_the_name_says_the_format(tmp_path, capsys):
    assert sheet(["hexagon-spacer", "-o", str(tmp_path / "card.txt")]) == 0
    assert (tmp_path / "card.txt").read_text().startswith("HEXAGON SPACER")
    assert sheet(["hexagon-spacer", "-o", str(tmp_path / "card"), "--as", "text"]) == 0
    assert (tmp_path / "card").read_text().startswith("HEXAGON SPACER")
    pytest.importorskip("pydyf", reason="the package pydyf makes the PDF")
    assert sheet(["hexagon-spacer", "-o", str(tmp_path / "card.pdf"), "--letter"]) == 0
    assert (tmp_path / "card.pdf").read_bytes().startswith(b"%PDF")


def test_an_ending_that_is_no_format_is_refused_and_a_device_gets_plain_text(tmp_path, capsys):
    assert sheet(["hexagon-spacer", "-o", str(tmp_path / "card.docx")]) == 2
    assert "--as" in capsys.readouterr().err and not list(tmp_path.iterdir())
    assert sheet(["hexagon-spacer", "-o", "/dev/null"]) == 0


def test_a_file_is_written_over_only_when_that_is_said(tmp_path, capsys):
    path = tmp_path / "card.txt"
    path.write_text("mine")
    assert sheet(["hexagon-spacer", "-o", str(path)]) == 2
    assert path.read_text() == "mine" and "--force" in capsys.readouterr().err
    assert sheet(["hexagon-spacer", "-o", str(path), "--force"]) == 0
    assert path.read_text() != "mine"


def test_standard_output_and_a_device_are_written_to_and_not_replaced(tmp_path, capsysbinary):
    assert sheet(["hexagon-spacer", "-o", "-", "--as", "text"]) == 0
    assert capsysbinary.readouterr().out.startswith(b"HEXAGON SPACER")
    assert sheet(["hexagon-spacer", "-o", "/dev/null", "--as", "text"]) == 0
    assert not Path("/dev/null").is_file()


def test_a_part_file_gives_the_card_of_its_plan(tmp_path, capsys):
    part = tmp_path / "spacer.toml"
    part.write_text(read_shipped("hexagon-spacer")[1])
    assert sheet([str(part), "-o", str(tmp_path / "card.txt")]) == 0
    text = (tmp_path / "card.txt").read_text()
    assert "Lathe, three-jaw" in text and "[ ][ ] Part off" in text and "DO NOT LET GO" not in text


def test_a_part_of_ones_own_is_found_by_its_name(tmp_path):
    own_parts().mkdir(parents=True, exist_ok=True)
    (own_parts() / "brass-spacer.toml").write_text(read_shipped("hexagon-spacer")[1])
    out = tmp_path / "card.txt"
    assert sheet(["brass-spacer", "-o", str(out)]) == 0 and "Lathe, three-jaw" in out.read_text()
    assert sheet(["../parts/brass-spacer", "-o", str(tmp_path / "other.txt")]) == 2


def test_without_the_library_a_pdf_is_refused_in_one_line(monkeypatch, capsys, tmp_path):
    monkeypatch.setitem(sys.modules, "pydyf", None)
    assert sheet(["hexagon-spacer", "-o", str(tmp_path / "card.pdf")]) == 2
    assert "pip install pydyf" in capsys.readouterr().err
    assert not (tmp_path / "card.pdf").exists()
