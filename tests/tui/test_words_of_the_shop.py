"""An inch screen speaks American words of the trade, a metric one British; the shop may say otherwise."""

import json
import re
from pathlib import Path

import pytest

from engine.base.declare import asks
from engine.base.register import CATALOG, load
from engine.base.tables import rows
from engine.shop.edit import sample_text
from engine.shop.file import shop_path
from engine.shop.model import Shop
from tui.__main__ import main
from tui.panes.bench_state import BenchState
from tui.panes.bench_view import VIEW_NAMES, bench_lines
from tui.session import OpenOperation, Session
from tui.wording import speak

BRITISH = re.compile(r"\b(" + "|".join(re.escape(row["british"]) for row in rows("words.csv")) + r")\b", re.IGNORECASE)


@pytest.fixture(scope="module")
def inch():
    session = Session()
    session.switch_unit()
    yield session
    speak("british")


@pytest.mark.parametrize("entry", CATALOG, ids=lambda e: e.id)
def test_no_british_word_is_left_on_an_inch_screen(inch, entry):
    inch.switch_unit()
    inch.switch_unit()  # whatever another test left
    assert isinstance(inch.open(entry), OpenOperation)
    for view in VIEW_NAMES:
        for editing in (True, False):
            lines = bench_lines(inch, BenchState(view=view, editing=editing), 120, 200).lines
            text = "\n".join("".join(text for text, _ in runs) for runs in lines)
            own = [str(t) for t in inch.here().form.example.values()]
            left = {found[0] for found in BRITISH.finditer(text)}
            assert not {word for word in left if not any(word in t for t in own)}, (view, left)


def test_the_shop_may_say_which():
    assert Shop(unit="inch", words="british").words_for("inch") == "british"
    assert Shop(unit="mm").words_for("mm") == "british" and Shop().words_for("inch") == "american"


def test_the_shell_follows_and_json_stays_british(capsys):
    declared = load("face-to-length")
    questions = asks(declared.inputs)
    example = {n: questions[n].sort.with_unit(str(v), questions[n], "mm") for n, v in declared.example.items()}
    main(["work", "face-to-length", *(f"{name}={value}" for name, value in example.items()), "--inch"])
    shown = capsys.readouterr()
    assert not BRITISH.search(shown.out + shown.err.replace("tommybar", "")), BRITISH.search(shown.out + shown.err)
    assert shown.out
    main(["work", "face-to-length", *(f"{name}={value}" for name, value in example.items()), "--inch", "--json"])
    assert "compound" not in json.dumps(json.loads(capsys.readouterr().out)["figures"])
    speak("british")


@pytest.fixture
def inch_owner():
    """The person's own shop is an inch bench."""
    path = shop_path()
    path.parent.mkdir(parents=True)
    path.write_text(sample_text("inch"), encoding="utf-8")
    yield path
    speak("british")


def test_the_shell_follows_the_shops_unit_until_it_is_told(inch_owner, capsys):
    """A bare number is in the owner's unit at every door: 0.25 is a quarter of an inch on this bench."""
    asked = ["work", "hand-dial", "distance=0.25", "per_turn=0.1 in", "divisions=100"]
    main(asked)
    assert "2 turns, dial 0.050" in capsys.readouterr().out
    main([*asked, "--mm"])
    assert "0 turns, dial 0.010" in capsys.readouterr().out
    main(["convert", "0.25"])
    assert "1/4" in capsys.readouterr().out


def test_plans_checks_and_refusals_are_in_the_shops_words(inch_owner, capsys, tmp_path):
    part = Path("recipes/parts/height-adjuster-nut.toml")
    assert main(["part", str(part), "--why"]) == 0
    told = capsys.readouterr().out
    assert not BRITISH.search(told), BRITISH.search(told)
    bad = tmp_path / "bad.toml"
    bad.write_text(part.read_text(encoding="utf-8").replace("thread", "centre drill thread"), encoding="utf-8")
    assert main(["check", str(bad)]) == 2
    told = capsys.readouterr().err
    assert told and not BRITISH.search(told), told
    assert main(["work", "turning-speed", "material=unobtainium", "diameter=0.75"]) == 2
    told = capsys.readouterr().err
    assert "aluminum" in told and not BRITISH.search(told), told
