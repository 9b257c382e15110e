"""`tommybar part FILE` at the shell."""

from __future__ import annotations

import json

import pytest

from tests.engine.part.scenario import FOURTEEN, ROOT
from tui.__main__ import main

NUT = str(FOURTEEN[0])


def test_the_plan_is_printed(capsys):
    assert main(["part", NUT]) == 0
    out = capsys.readouterr().out
    assert out.startswith("Height nut, 2 off\n") and "Lay out" in out and "Knurl 26 x 8" in out


def test_the_plan_as_data(capsys):
    assert main(["part", NUT, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["best"] == "best" and found["drawing"].startswith("<svg")


def test_several_parts_of_one_file_are_all_planned(capsys):
    assert main(["part", str(ROOT / "tests/data/parts/together/nuts.toml"), "--json"]) == 0
    assert len(json.loads(capsys.readouterr().out)["parts"]) == 2


def test_recipe_and_drawing_are_written_and_not_written_over(capsys, tmp_path):
    out, drawing = tmp_path / "nut.toml", tmp_path / "nut.svg"
    words = ["part", NUT, "-o", str(out), "--svg", str(drawing)]
    assert main(words) == 0
    assert out.read_text().startswith("schema_version") and drawing.read_text().startswith("<svg")
    assert main(["check", str(out)]) == 0
    assert main(words) == 2
    assert "is there already" in capsys.readouterr().err
    assert main([*words, "--force"]) == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [([], "name one part file"), (["a", "b"], "name one part file"), (["a", "--odd"], "option: --odd")],
)
def test_what_it_cannot_use_is_one_sentence(words, said, capsys):
    assert main(["part", *words]) == 2
    assert said in capsys.readouterr().err


def test_a_part_that_cannot_be_made_is_refused_in_the_data_too(capsys, tmp_path):
    path, shop = tmp_path / "p.toml", tmp_path / "shop.toml"
    path.write_text(FOURTEEN[0].read_text())
    shop.write_text('name = "Shed"\n')
    assert main(["part", str(path), "--json", "--shop", str(shop)]) == 2
    assert json.loads(capsys.readouterr().out)["error"]["field"] == "part"
