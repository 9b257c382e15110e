"""An inch screen speaks American words of the trade, a metric one British; the shop may say otherwise."""

import json
import re

import pytest

from engine.base.declare import asks
from engine.base.register import CATALOG, load
from engine.base.tables import rows
from engine.shop.model import Shop
from tui.__main__ import main
from tui.panes.bench_view import VIEW_NAMES, BenchState, bench_lines
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
