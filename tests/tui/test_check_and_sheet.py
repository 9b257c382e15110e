"""The two doors of recipes at the shell, run as the command runs them."""

from pathlib import Path

import pytest

from engine.jobs.journal import Journal
from engine.jobs.library import open_recipe
from engine.jobs.run import resolve
from engine.part.library import read_shipped
from engine.shop.file import sample
from tests.engine.jobs.test_recipe import BAD, SAYS
from tests.fresh import loaded
from tui.check import check
from tui.sheet import sheet


def test_a_good_recipe_is_said_to_be_one(capsys, tmp_path):
    path = tmp_path / "nut.toml"
    plan, text = open_recipe("height-adjuster-nut")
    path.write_text(text)
    assert check([str(path)]) == 0
    assert f"without mistakes; all {len(plan.steps)} steps" in capsys.readouterr().out


@pytest.mark.parametrize("name", SAYS)
def test_every_mistake_is_a_line_on_stderr(name, capsys):
    assert check([str(BAD / name)]) == 2
    assert capsys.readouterr().err.splitlines() == [f"{name}:{row}" for row in SAYS[name]]


def test_a_step_that_this_shop_cannot_do_is_told(capsys, tmp_path):
    recipe, shop = tmp_path / "nut.toml", tmp_path / "bare.toml"
    recipe.write_text(open_recipe("height-adjuster-nut")[1])
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
    assert "<h1>Bearing flange</h1>" in Path("bearing-flange.html").read_text()


def test_the_sheet_of_a_job_has_its_readings(tmp_path):
    recipe, text = open_recipe("lock-knob")
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
    assert "a part file without mistakes: 2 parts" in capsys.readouterr().out
    assert check([str(bad)]) == 2
    assert capsys.readouterr().err.startswith("bad.toml:6: mke: this is not a key of a part file. Did you mean 'make'?")
