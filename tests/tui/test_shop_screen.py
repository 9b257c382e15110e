"""The shop screen, driven by the keyboard: begun, edited, refused, broken, unwritable."""

import os

import pytest

from engine.shop.file import load, shop_path
from tests.tui.driving import driving
from tui.app import TommybarApp


def run(size=(80, 24)):
    return TommybarApp().run_test(size=size)


def shown(app):
    return app.screen.canvas.text


async def press(pilot, *keys):
    for key in keys:
        if len(key) > 1 and key[0] == "'":
            await pilot.press(*[{" ": "space", ",": "comma", ".": "full_stop"}.get(c, c) for c in key[1:]])
        else:
            await pilot.press(key)
    await pilot.pause()


@pytest.mark.parametrize("key, unit, name", [("1", "mm", "Sample metric bench"), ("4", "inch", "My shop")])
async def test_the_first_start_offers_a_bench(key, unit, name):
    async with run() as pilot:
        await press(pilot, "f12")
        assert "Mine, step by step" in shown(pilot.app)
        await press(pilot, key)
        assert (load(shop_path()).unit, load(shop_path()).name) == (unit, name)
        assert pilot.app.session.unit == unit


async def test_an_answer_is_on_the_disk_when_the_row_is_left():
    async with run() as pilot:
        await press(pilot, "f12", "3", "'Shed", "down")
        assert "Saved." in shown(pilot.app)
        assert load(shop_path()).name == "Shed"
        assert pilot.app.session.shop.name == "Shed"


async def test_a_bad_answer_is_refused_where_it_was_typed_and_not_lost():
    async with run() as pilot:
        await press(pilot, "f12", "3", *["down"] * 6, "'wide", "down", "escape")
        assert "! leadscrew: wide cannot be used" in shown(pilot.app)
        assert "[wide" in shown(pilot.app)
        assert load(shop_path()).lathe.leadscrew == 3
        await press(pilot, "ctrl+z", "escape")
        assert type(pilot.app.screen).__name__ == "BenchScreen"


async def test_a_part_is_taken_out_at_the_second_press_and_put_in_again():
    async with run() as pilot:
        await press(pilot, "f12", "3")
        hand = pilot.app.screen.hand
        at = next(i for i, row in enumerate(hand.rows) if row.place == ("rotary_table",))
        hand.go(at)
        await press(pilot, "ctrl+x")
        assert load(shop_path()).rotary_table is not None
        await press(pilot, "ctrl+x")
        assert load(shop_path()).rotary_table is None
        await press(pilot, "enter")
        assert load(shop_path()).rotary_table.ratio == 90


async def test_a_broken_file_is_told_with_its_lines_and_left_alone():
    shop_path().parent.mkdir(parents=True)
    shop_path().write_text('unit = "mm"\ndirlls = "1"\n')
    async with run() as pilot:
        await press(pilot, "f12")
        assert "shop.toml:2: dirlls: this is not a key of the shop file. Did you mean" in shown(pilot.app)
        await press(pilot, "'abc", "enter")
        assert shop_path().read_text() == 'unit = "mm"\ndirlls = "1"\n'
        shop_path().write_text('unit = "mm"\ndrills = "1"\n')
        await press(pilot, "enter")
        assert "Display unit" in shown(pilot.app)


async def test_nothing_claims_to_be_saved_on_a_full_disk(monkeypatch):
    async with run() as pilot:
        await press(pilot, "f12", "3", "'Shed")

        def full(_):
            raise OSError(28, "No space left on device")

        monkeypatch.setattr(os, "fsync", full)
        await press(pilot, "down")
        assert "This cannot be saved: No space left on device." in shown(pilot.app).replace("\n  ", " ")
        assert "Saved." not in shown(pilot.app)
        assert load(shop_path()).name == "My shop"


async def test_a_bench_that_cannot_be_written_says_so(monkeypatch):
    async with run() as pilot:
        await press(pilot, "f12", "down")

        def full(_):
            raise OSError(28, "No space left on device")

        monkeypatch.setattr(os, "fsync", full)
        await press(pilot, "enter")
        assert "This cannot be saved: No space left on device." in shown(pilot.app)
        assert not shop_path().exists()


async def test_another_programs_edit_is_not_overwritten():
    async with run() as pilot:
        await press(pilot, "f12", "3")
        text = shop_path().read_text()
        shop_path().write_text("# by hand\n" + text.replace("motor = 550", "motor = 750"))
        await press(pilot, "'Shed", "down")
        assert load(shop_path()).name == "Shed" and load(shop_path()).lathe.motor == 750
        assert shop_path().read_text().startswith("# by hand")


async def test_a_row_of_the_sample_says_so_until_it_is_touched():
    async with driving((80, 24)) as d:
        await d.press("f12", "3")
        assert " sample" in d.text and "sample; Ctrl+X takes it out" in d.text
        editor = d.app.screen.hand
        editor.at = next(i for i, row in enumerate(editor.rows) if row.place == ("lathe", "leadscrew"))
        editor._take()
        await d.press("up", "down")  # passing by is no word
        assert editor.row.sample and "Enter takes it as yours" in d.text
        await d.press("enter")
        leadscrew = next(row for row in editor.rows if row.place == ("lathe", "leadscrew"))
        assert not leadscrew.sample and "leadscrew = 3\n" in editor.path.read_text()
        mark = next(row for row in editor.rows if row.place == ("lathe", "chuck", "marked_speed"))
        assert not mark.owned and not mark.typed
