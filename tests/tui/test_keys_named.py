"""The foot names only what works where the cursor is, and no key that the terminal keeps for itself."""

from tests.rows import each_row
from tests.tui.driving import driving
from tui import keys
from tui.commands import COMMANDS, command


async def test_the_slash_is_named_only_where_it_leads_somewhere():
    async with driving((120, 40)) as d:
        await d.press("f3")
        assert " / Go to" in d.text
        await d.type("M8")
        assert " / Go to" not in d.text and "Ctrl+G Go to" in d.text
        await d.press("escape", "down")
        assert " / Go to" in d.text


async def test_escape_only_leaves():
    async with driving() as d:
        await d.press("escape", "escape", "w")
        assert "Working" in d.text and not d.app.session.here().form.touched


def test_a_key_that_a_desktop_terminal_keeps_is_named_once_it_has_arrived(monkeypatch):
    monkeypatch.setattr(keys, "_ARRIVED", set())
    assert command("cautions").key(True) == "Ctrl+K" and command("help").key(True) == "Esc ?"
    assert command("quit").key(True) == "Ctrl+Q" and command("jobs").key(True) == "F8"
    keys.arrived("f11")
    assert command("cautions").key(True) == "F11"


@each_row("one", COMMANDS, ids=lambda c: c.id)
def test_every_action_has_a_key_that_no_desktop_keeps(one):
    assert set(one.keys) - {"f1", "f10", "f11"}


def test_no_caret_stands_for_control():
    assert not any("^" in c.key(inside) for c in COMMANDS for inside in (True, False))
