"""`tommybar work OPERATION --part FILE`: what is not given comes from the part, and what was taken is said."""

from __future__ import annotations

import json

import pytest

from tests.engine.part.scenario import FOURTEEN, ROOT
from tui.__main__ import main

NUT, KNOB = str(FOURTEEN[0]), str(ROOT / "recipes/parts/lock-knob.toml")


@pytest.mark.parametrize(
    ("words", "taken"),
    [
        (["thread-limits", f"--part={NUT}"], {"size": "M12x1.5"}),
        (["tap-drill", "--part", NUT], {"size": "M12x1.5", "material": "free-cutting brass"}),
        (["turn-to-size", "to=25", "length=5", "--part", NUT], {"from": "28 mm", "material": "free-cutting brass"}),
        (["turning-speed", "material=mild steel", "--part", NUT], {"diameter": "28 mm"}),
        (["turning-speed", "--part", KNOB], {"diameter": "1 in", "material": "aluminium 6061"}),
        (["divide", "divisions=7", "--part", NUT], {}),
    ],
)
def test_what_is_not_given_comes_from_the_part(words, taken, capsys):
    assert main(["work", *words, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["from_part"] == taken


def test_it_says_what_it_took(capsys):
    assert main(["work", "tap-drill", "--part", NUT]) == 0
    assert "From Height nut: thread M12x1.5, material free-cutting brass." in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "said"), [(["--part"], "--part: the name"), (["--part", "no.toml"], "no.toml cannot")]
)
def test_no_such_part_is_one_sentence(words, said, capsys):
    assert main(["work", "tap-drill", *words]) == 2
    assert said in capsys.readouterr().err
