"""The shop screen, driven by the keyboard: begun, answered, skipped, refused, taken out and put back, broken, unwritable."""

import os

import pytest

from engine.shop.file import load, shop_path
from tests.tui.driving import driving
from tui.app import TommybarApp

KEYS = {" ": "space", ",": "comma", ".": "full_stop", "=": "equals_sign", "/": "slash", ";": "semicolon",
        "-": "minus", "#": "number_sign", ":": "colon"}  # fmt: skip


def run(size=(80, 24)):
    return TommybarApp().run_test(size=size)


def shown(app):
    return app.screen.canvas.text


async def press(pilot, *keys):
    for key in keys:
        if len(key) > 1 and key[0] == "'":
            await pilot.press(*[KEYS.get(c, c) for c in key[1:]])
        else:
            await pilot.press(key)
    await pilot.pause()


@pytest.mark.parametrize("key, unit, name", [("1", "mm", "Sample metric bench"), ("4", "inch", "My shop")])
async def test_the_first_start_offers_a_bench(key, unit, name):
    async with run() as pilot:
        await press(pilot, "f12")
        assert "Mine, one question at a time" in shown(pilot.app)
        await press(pilot, key)
        assert (load(shop_path()).unit, load(shop_path()).name) == (unit, name)
        assert pilot.app.session.unit == unit


async def test_one_question_at_a_time_from_the_plates_on_and_nothing_is_the_owners_by_being_passed_by():
    async with run() as pilot:
        await press(pilot, "f12", "3")
        assert "Plates on the machines" in shown(pilot.app) and "A lathe" in shown(pilot.app)
        hand = pilot.app.screen.hand
        for _ in range(80):  # Tab passes every question by, to the end
            await press(pilot, "tab")
        assert not pilot.app.screen.asking and hand.counts()[0] == 0
        assert "0 of" in shown(pilot.app)
        await press(pilot, "enter", *["enter"] * 3)  # and Enter on nothing says nothing
        assert hand.counts()[0] == 0


async def test_a_group_says_how_far_it_is():
    async with run((120, 40)) as pilot:
        await press(pilot, "f12", "3", "escape")
        assert "Drills and reamers             sample" in shown(pilot.app)
        await press(pilot, "'drills", "enter", "'3, 4.2", "enter")
        await press(pilot, "escape")
        assert "1 of 5 yours" in shown(pilot.app) and "Measuring                      sample" in shown(pilot.app)
        assert [tool.diameter for tool in load(shop_path()).drills] == [3, 4.2]


async def test_a_question_is_found_by_its_words_and_answered():
    async with run() as pilot:
        await press(pilot, "f12", "3", "escape", "'tailstock", "enter")
        assert "Tailstock" in shown(pilot.app) and pilot.app.screen.hand.question.place == ("lathe", "tailstock")
        await press(pilot, "'3 x 60", "enter")
        tailstock = load(shop_path()).lathe.tailstock
        assert (tailstock.travel_per_turn, tailstock.divisions) == (3, 60)
        assert pilot.app.session.shop.lathe.tailstock.divisions == 60


async def test_a_bad_answer_is_refused_by_its_label_can_be_left_and_is_not_lost():
    async with run() as pilot:
        await press(pilot, "f12", "3", "escape", "'leadscrew", "enter", "'wide", "enter")
        assert "! Lathe: leadscrew: wide cannot be used" in shown(pilot.app) and "[wide" in shown(pilot.app)
        await press(pilot, "tab")
        assert "Not kept, the file is as it was" in shown(pilot.app)
        assert load(shop_path()).lathe.leadscrew == 3
        await press(pilot, "escape")
        assert "1 typed and not kept" in shown(pilot.app)
        await press(pilot, "'leadscrew", "enter")
        assert "[wide" in shown(pilot.app)
        await press(pilot, "ctrl+z", "escape", "escape")
        assert type(pilot.app.screen).__name__ == "BenchScreen"


async def test_a_part_taken_out_comes_back_as_it_was():
    async with run() as pilot:
        await press(pilot, "f12", "4", "escape", "'hole circles", "enter", "'15,16,18,20; 33,37,49", "enter")
        hand = pilot.app.screen.hand
        hand.open(("dividing_head",))
        await press(pilot, "n")
        assert load(shop_path()).dividing_head is None
        hand.open(("dividing_head",))
        await press(pilot, "y")
        head = load(shop_path()).dividing_head
        assert head.plates == ((15, 16, 18, 20), (33, 37, 49)) and head.ratio == 60
        plates = next(q for q in hand.questions if q.place == ("dividing_head", "plates"))
        ratio = next(q for q in hand.questions if q.place == ("dividing_head", "ratio"))
        assert (plates.state, ratio.state) == ("yours", "sample")  # who said what is as it was too


async def test_a_line_of_several_tools_keeps_what_each_has_beside_it():
    async with run() as pilot:
        await press(pilot, "f12", "3", "escape", "'end mills", "enter", "'3 x 8; 6 x 13 x 4 carbide", "enter")
        mills = load(shop_path()).end_mills
        assert [(m.diameter, m.flute_length, m.flutes, m.material) for m in mills] == [
            (3, 8, 2, "hss"), (6, 13, 4, "carbide")]  # fmt: skip
        await press(pilot, "escape", "'other chucks", "enter", "'four-jaw 1200; soft jaws", "enter")
        chucks = load(shop_path()).chucks
        assert [(c.kind, c.marked_speed) for c in chucks] == [("four-jaw", 1200), ("soft jaws", None)]
        await press(pilot, "escape", "'chucks 1: depth", "enter", "'18", "enter")
        await press(pilot, "escape", "'other chucks", "enter", "end", "'; three-jaw 1800", "enter")
        assert load(shop_path()).chucks[0].jaw_length == 18 and len(load(shop_path()).chucks) == 3


async def test_none_is_an_answer_and_can_be_taken_back():
    async with run() as pilot:
        await press(pilot, "f12", "3", "escape", "'reamers", "enter", "'none", "enter")
        hand = pilot.app.screen.hand
        assert load(shop_path()).reamers == () and load(shop_path()).none_of == ("reamers",)
        assert next(q for q in hand.questions if q.place == ("reamers",)).state == "yours"
        await press(pilot, "ctrl+z")
        assert len(load(shop_path()).reamers) == 6 and load(shop_path()).none_of == ()


async def test_a_mark_of_safety_is_never_the_samples():
    async with run() as pilot:
        await press(pilot, "f12", "3", "escape", "'speed marked", "enter", "equals_sign")
        assert "the sample bench says nothing of it" in " ".join(shown(pilot.app).split())
        assert load(shop_path()).lathe.chuck.marked_speed is None


async def test_another_unit_of_the_file_changes_no_length():
    async with run() as pilot:
        await press(pilot, "f12", "1", "'display unit", "enter", "'inch", "enter")
        shop = load(shop_path())
        assert shop.unit == "inch" and shop.lathe.cross_slide.travel_per_turn == 2 and shop.end_mills[0].diameter == 1.5
        assert pilot.app.session.unit == "inch"


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
        assert "Drills and reamers" in shown(pilot.app)


def full(_):
    raise OSError(28, "No space left on device")


async def test_nothing_claims_to_be_saved_on_a_full_disk(monkeypatch):
    async with run() as pilot:
        await press(pilot, "f12", "3", "escape", "'name", "enter", "'Shed")
        monkeypatch.setattr(os, "fsync", full)
        await press(pilot, "enter")
        assert "This cannot be saved: No space left on device." in " ".join(shown(pilot.app).split())
        assert "Saved." not in shown(pilot.app)
        assert load(shop_path()).name == "My shop"


async def test_a_bench_that_cannot_be_written_says_so(monkeypatch):
    async with run() as pilot:
        await press(pilot, "f12", "down")
        monkeypatch.setattr(os, "fsync", full)
        await press(pilot, "enter")
        assert "This cannot be saved: No space left on device." in shown(pilot.app)
        assert not shop_path().exists()


async def test_another_programs_edit_is_not_overwritten():
    async with run() as pilot:
        await press(pilot, "f12", "3", "escape", "'name", "enter")
        text = shop_path().read_text()
        shop_path().write_text("# by hand\n" + text.replace("motor = 550", "motor = 750"))
        await press(pilot, "'Shed", "enter")
        assert load(shop_path()).name == "Shed" and load(shop_path()).lathe.motor == 750
        assert shop_path().read_text().startswith("# by hand")


# A usual bench of an owner who opens the program for the first time: an inch lathe, a 60:1 head with two plates and a
# short list of drills. Each answer is what is typed, then Enter; "y", "n" and "=" answer at once.
USUAL = {
    "A lathe": "y", "Lathe: spindle speeds": "'80 140 250 420 700 1200", "Lathe: leadscrew": "=",
    "Speed marked on the chuck": "'1800", "A mill": "y", "Mill: spindle speeds": "'100 250 500 1100 2500",
    "A dividing head": "y", "Head: crank turns per rev": "=", "Head: hole circles": "'15,16,17,18,19,20; 21,23,27,29,31,33",
    "Head: gears": "'none", "Rotary table: turns per rev": "'none",
    "Cross slide": "=", "Cross slide reads diameter": "=", "Top slide": "=", "Saddle": "tab", "Tailstock": "=",
    "Mill: table long way": "=", "Mill: table cross way": "=", "Mill: quill or knee": "=",
    "Change wheels": "'20 25 30 35 40 45 50 55 60 127", "Thread dial": "=",
    "Drills": "'1/16-1/2 x 1/64, #7, #21", "Drills of other lengths": "'#7 long",
    "Centre and spotting drills": "'No. 2, No. 4", "Countersinks": "'82 x 1/2",
    "Reamers": "'none", "Taps": "'#8-32, #10-32, 1/4-20", "Taps by kind and reach": "'1/4-20 spiral point, 3", "Dies": "'1/4-20",
    "End mills and slot drills": "'1/8 x 3/8; 1/4 x 5/8", "Parting blade": "'5/64 x 3/4", "Boring tools": "tab",
    "Length of the chuck's jaws": "'1", "Chuck screws to the spindle": "=", "Other chucks": "'four-jaw 1200",
    "Collets": "'none", "Spindle bore": "'25/32", "Knurl wheels": "'none", "Knurl and tool holding": "=",
    "Measuring wires": "'none", "Measuring tools": "'micrometer 0-1, caliper", "Name": "'Shed", "Materials in use": "=",
}  # fmt: skip
PRESSES_IN_FIVE_MINUTES = 400  # half a second a press, and 2.3 s to read each of 43 questions: 300 s


async def test_a_usual_bench_is_ready_in_five_minutes():
    async with run() as pilot:
        await press(pilot, "f12", "4")
        presses, asked = 2, []
        hand = pilot.app.screen.hand
        while pilot.app.screen.asking:
            label = hand.question.label
            asked.append(label)
            answer = USUAL[label]
            if answer == "=" and hand.question.state == "open":  # of safety: it has to be said
                answer = "'yes"
            keys = ["equals_sign"] if answer == "=" else [answer]
            keys += ["enter"] if answer[0] == "'" else []
            await press(pilot, *keys)
            assert not hand.refusal, (label, hand.refusal)
            presses += len(answer) if answer[0] == "'" else 1
        shop = load(shop_path())
        assert set(asked) == set(USUAL) and presses <= PRESSES_IN_FIVE_MINUTES, presses
        assert shop.dividing_head.plates == ((15, 16, 17, 18, 19, 20), (21, 23, 27, 29, 31, 33))
        assert not shop.dividing_head.gears and shop.rotary_table is None and len(shop.drills) == 31
        assert shop.tap_kinds[0].kind == "spiral point" and round(shop.tap_kinds[0].reach, 1) == 76.2
        assert shop.drill_lengths[0].series == "long"
        assert shop.chucks[0].marked_speed == 1200 and shop.lathe.chuck.marked_speed == 1800
        yours, every = hand.counts()
        assert (yours, every) == (len(asked) - 2, len(asked))  # what was passed by is the sample's still
        assert [q.label for q in hand.questions if q.asked and q.state != "yours"] == ["Saddle", "Boring tools"]


@pytest.mark.parametrize("size", [(60, 16), (80, 24), (120, 40)])
async def test_every_question_can_be_drawn_at_every_size(size):
    async with driving(size) as d:
        await d.press("f12", "4")
        screen = d.app.screen
        for question in screen.hand.questions:
            screen.hand.open(question.place)
            rows = screen.body(*size)
            assert len(rows) == size[1] and any(question.label in "".join(t for t, _ in row) for row in rows)


async def test_a_first_owners_bench_and_its_first_answer():
    """An inch lathe without a mill, a 60:1 head with two plates, a short list of drills, from F12 on: what is pressed."""
    plates, drills = "15 16 17 18 19 20; 21 23 27 29 31 33", "1/16 5/64 3/32 1/8 5/32 3/16 1/4 5/16 3/8 1/2 #7 #21 F"
    keys = ["f12", "4", "y", "'52 84 140 235 370 600", "enter", "'8 tpi", "enter", "'2500", "enter", "n", "y",
            "equals_sign", f"'{plates}", "enter", "'none", "enter", "'none", "enter", *["equals_sign"] * 7,
            f"'{drills}", "enter", "escape", "escape"]  # fmt: skip
    assert (
        sum(len(key) - 1 if key[0] == "'" else 1 for key in keys) <= 150
    )  # with a second for each, and 17 to read: 4 min
    async with run() as pilot:
        await press(pilot, *keys)
        shop = load(shop_path())
        assert shop.dividing_head.plates == ((15, 16, 17, 18, 19, 20), (21, 23, 27, 29, 31, 33)) and shop.mill is None
        assert len(shop.drills) == 13 and round(shop.drills[-1].diameter / 25.4, 3) == 0.257
        pilot.app.session.first_page_read = True
        await press(pilot, "f4", "2", "5")
        assert "2 turns + 8 holes of 20" in shown(pilot.app)


async def test_enter_after_a_key_that_answered_passes_nothing_by():
    async with run() as pilot:
        await press(pilot, "f12", "4", "y", "enter")
        assert pilot.app.screen.hand.question.label == "Lathe: spindle speeds"
        assert "kept as you pressed it" in shown(pilot.app)
        await press(pilot, "enter")
        assert pilot.app.screen.hand.question.label != "Lathe: spindle speeds"


async def test_what_is_taken_back_is_named_and_in_hand_again():
    async with run() as pilot:
        await press(pilot, "f12", "4", "y", "'52 84", "enter", "'8 tpi", "enter", "ctrl+z")
        hand = pilot.app.screen.hand
        assert "Taken back: Lathe: leadscrew" in shown(pilot.app) and hand.question.state == "sample"
        await press(pilot, "ctrl+z")
        assert hand.question.label == "Lathe: spindle speeds"
