"""What a machinist types leads where it is meant, with its values in the right fields, in any order."""

import csv
from pathlib import Path

import pytest

from engine.base.register import CATALOG
from engine.base.tables import rows
from tests.rows import each_row
from tests.tui.driving import driving
from tui.__main__ import main
from tui.quick import destinations, given_for

TABLE = Path(__file__).parents[1] / "data" / "tui" / "quick_phrases.csv"
PHRASES = list(csv.DictReader(line for line in TABLE.read_text(encoding="utf-8").splitlines() if line[:1] != "#"))


def leads(row) -> bool:
    found = [d for d in destinations(row["phrase"]) if d.operation]
    if not found or found[0].operation != row["operation"]:
        return False
    wanted = dict(pair.split("=", 1) for pair in filter(None, row["values"].split(";")))
    given = given_for(found[0], "mm")
    return all(given.get(name) == value for name, value in wanted.items())


def test_nearly_every_phrase_leads_where_it_is_meant():
    missed = [row["phrase"] for row in PHRASES if not leads(row)]
    assert len(PHRASES) >= 60 and len(missed) <= 5, missed


@each_row("row", PHRASES, ids=lambda row: row["phrase"])
def test_what_is_meant_is_among_the_first_candidates(row):
    assert row["operation"] in [d.operation for d in destinations(row["phrase"])][:4]


def test_troubles_and_settings_are_found():
    assert any(d.where == "trouble" for d in destinations("chatter"))
    assert any(d.command == "shop" for d in destinations("centre drills"))
    for asked in ("order of operations", "what do I need", "notes", "second side"):  # a job answers these
        assert any(d.command == "jobs" for d in destinations(asked)), asked
    assert any(d.command == "cautions" for d in destinations("cautions"))
    assert any(d.where == "caution" and "Key" in d.title for d in destinations("key left in a spindle"))
    assert any(d.where == "caution" and d.operation for d in destinations("galvanised"))


def test_every_operation_is_looked_for_by_fifteen_words_or_more():
    more = {row["operation"]: row["words"] for row in rows("looked_for.csv")}
    for entry in CATALOG:
        assert len({*f"{entry.words} {entry.title}".lower().split(), *more.get(entry.id, "").split()}) >= 15, entry.id


async def test_the_commonest_look_ups_take_the_presses_that_the_table_says():
    table = Path(__file__).parents[1] / "data" / "tui" / "presses.csv"
    lines = [line for line in table.read_text(encoding="utf-8").splitlines() if line[:1] != "#"]
    async with driving((80, 24)) as d:
        d.app.session.first_page_read = True
        for row in csv.DictReader(lines):
            await d.press("escape")
            await d.type(row["keys"])
            await d.press("enter")
            assert row["shows"] in d.text, (row["look_up"], d.text)
            assert len(row["keys"]) + 1 == int(row["presses"]) <= 11, row


def test_the_shell_takes_a_quick_line(capsys):
    assert main(["M10", "tap"]) == 0
    told = capsys.readouterr()
    assert "8.5 mm" in told.out and "Tapping drill: M10. Or:" in told.err
    assert main(["work", "speed", "18", "brass", "--json"]) == 0
    assert '"turning-speed"' in capsys.readouterr().out


def test_looking_for_an_operation_loads_none(monkeypatch):
    monkeypatch.setattr("tui.quick.load", lambda name: pytest.fail(f"{name} was loaded to be looked for"))
    for row in PHRASES:
        assert destinations(row["phrase"])
    assert destinations("chatter") and destinations("")
