"""A part of one's own by the keyboard: typed, drawn, refused, moved, kept, planned, its plan changed, its job begun."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.events import Paste

from engine.base.records import replace
from engine.jobs.recipe import read as read_recipe
from engine.part.draft import Row, blank, with_row, worked
from engine.part.file import read_file
from engine.part.own import own_parts
from engine.part.plan_recipe import as_recipe
from tests.tui.test_job_screens import NAMES, run, shown
from tui.panes.part_view import said_lines
from tui.screens.job import JobScreen
from tui.screens.part import PartScreen
from tui.screens.plan import PlanScreen

NUT = (
    "f8", "a", "'nut", "enter", "'brass", "enter", "'28", "enter", "enter", "enter", "'25x5", "enter",
    "'scale 0.05", "enter", "'knurl 26x8", "enter", "'M14x1", "enter",
)  # fmt: skip


async def press(pilot, *keys):
    """Keys by name; a word after ' is typed; a capital is one press."""
    for key in keys:
        typed = [NAMES.get(c, c) for c in key[1:]] if len(key) > 1 and key[0] == "'" else [key]
        await pilot.press(*typed)
    await settle(pilot)


async def settle(pilot):
    for _ in range(3):
        await pilot.pause()
        screen = pilot.app.screen
        if hasattr(screen, "settled"):
            await screen.settled()
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()


async def until(pilot, kind):
    """Wait for a screen that is being worked out."""
    for _ in range(400):
        if isinstance(pilot.app.screen, kind):
            await settle(pilot)
            return pilot.app.screen
        await pilot.pause(0.02)
    raise AssertionError(shown(pilot.app))


def presses(keys):
    return sum(len(key) - 1 if key[0] == "'" and len(key) > 1 else 1 for key in keys)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_a_brass_nut_with_a_scale_from_nothing_to_its_first_step(size):
    """A nut M14x1 of brass with a knurl and 20 lines of 0.05: what a person presses, counted."""
    keys = (*NUT, "enter", "enter")
    assert presses(keys) + 1 <= 60  # and one for the page before work at a machine
    async with run(size) as pilot:
        await press(pilot, *keys[:-1])
        plan = await until(pilot, PlanScreen)
        assert any(step.count == "lines" and step.title == "Cut 20 lines" for _, step in plan.rows)
        await press(pilot, keys[-1])
        job = (await until(pilot, JobScreen)).job
        assert job.place.step == 1 and not job.worked.problems
    part = read_file(own_parts() / "nut.toml")[0].part
    assert part.outside[0].scale.lines == 20 and part.inside[0].through and part.outside[1].front_diameter == 26


async def test_a_plan_whose_job_is_under_way_goes_on_with_it_and_begins_no_second():
    async with run() as pilot:
        plan = await planned(pilot)
        await press(pilot, "enter")
        first = (await until(pilot, JobScreen)).job.job.id
        await press(pilot, "space", "escape")
        await until(pilot, PlanScreen)
        assert "Go on" in shown(pilot.app)
        await press(pilot, "enter")
        again = await until(pilot, JobScreen)
        assert again.job.job.id == first and again.job.place.step == 2
        assert len(plan.desk.jobs()) == 1


async def test_the_drawing_is_beside_the_lines_or_by_a_key():
    async with run((120, 40)) as pilot:
        await press(pilot, *NUT)
        assert "axial knurl" in shown(pilot.app)
    async with run() as pilot:
        await press(pilot, *NUT, "ctrl+p")
        assert "Ø25" in shown(pilot.app)


async def test_a_line_that_cannot_be_read_says_so_and_stays():
    async with run() as pilot:
        await press(pilot, *NUT, "'knurf 26x8")
        assert "knurf 26x8 cannot be used" in " ".join(shown(pilot.app).split())
        path = pilot.app.screen.path
        assert "knurf 26x8" in path.with_suffix(".typing").read_text(encoding="utf-8")
        await press(pilot, "up", "enter", "ctrl+o")
        assert "cannot be planned yet" in " ".join(shown(pilot.app).split())


async def test_a_part_that_cannot_be_is_refused_by_the_name_of_its_feature():
    async with run() as pilot:
        await press(pilot, *NUT, "'30 x 5")
        assert "outside.3" in shown(pilot.app) and "bar" in shown(pilot.app)


async def test_lines_are_put_in_moved_and_taken_out():
    async with run() as pilot:
        await press(pilot, *NUT, "up", "up", "ctrl+n", "'25x2", "less_than_sign")
        texts = [row.text for row in pilot.app.screen.draft.rows]
        assert texts.index("25x2") == texts.index("knurl 26x8") - 2
        await press(pilot, "greater_than_sign", "ctrl+x")
        assert "25x2" not in [row.text for row in pilot.app.screen.draft.rows]


async def test_a_part_that_ships_is_opened_as_a_copy_and_the_plan_follows_the_change():
    """The same, M8x1, steel, 40 lines."""
    async with run() as pilot:
        await press(pilot, "f8")
        jobs = pilot.app.screen
        jobs.at = next(i for i, one in enumerate(jobs.choices) if one.name == "height-adjuster-nut")
        await press(pilot, "e")
        screen = await until(pilot, PartScreen)
        for index, row in enumerate(screen.draft.rows):
            if "M12x1.5" in row.text or row.head == "material":
                screen.at = index
                screen._arrive()
                text = row.text.replace("M12x1.5", "M8x1").replace("0.05", "0.025").replace("12.4", "8.4")
                text = "mild steel" if row.head == "material" else text
                await press(pilot, "ctrl+u")
                pilot.app.screen.on_paste(Paste(text))
        await press(pilot, "ctrl+o")
        plan = await until(pilot, PlanScreen)
        titles = [step.title for _, step in plan.rows]
        assert "Cut 40 lines" in titles and any("M8x1" in title for title in titles)
        assert screen.path.parent == own_parts()


async def planned(pilot):
    await press(pilot, *NUT, "enter")
    return await until(pilot, PlanScreen)


async def test_moving_a_step_over_a_hard_rule_tells_the_reason_and_can_be_taken_back():
    async with run() as pilot:
        plan = await planned(pilot)
        at = next(i for i, (_, step) in enumerate(plan.rows) if step.kind == "knurl")
        await press(pilot, *["down"] * at)
        for _ in range(at):
            await press(pilot, "less_than_sign")
            if plan.message.startswith("Against a rule"):
                break
        assert "Against a rule" in shown(pilot.app)
        number = plan.at + 1
        title = plan.rows[plan.at][1].title
        await press(pilot, "w")
        assert f"! Against a rule: {title} would stand before" in " ".join(shown(pilot.app).split())
        await press(pilot, "w")
        assert f"!{number:>3}  {title}" in shown(pilot.app)  # the mark stays when the message has gone
        steps = read_recipe(as_recipe(plan.plans), Path("nut.toml")).steps
        told = [step.title for step in steps if any(str(words).startswith("Against a rule:") for words in step.do)]
        assert told == [title]
        before = [step.title for _, step in plan.rows]
        await press(pilot, "backspace")
        assert [step.title for _, step in plan.rows] != before


async def test_a_plan_is_changed_and_its_recipe_has_the_change():
    async with run() as pilot:
        plan = await planned(pilot)
        count = len(plan.rows)
        await press(pilot, "a", "'rub the blank with chalk", "enter", "asterisk", "a", "'drill-size", "enter")
        first = plan.rows[1][1]
        assert first.title == "Rub the blank with chalk" and len(plan.rows) >= count + 2
        await press(pilot, "x", "enter")
        job = (await until(pilot, JobScreen)).job
        assert "Rub the blank with chalk" in [step.title for step in job.plan.steps]


async def test_why_needs_and_picture_at_eighty_by_twenty_four():
    async with run() as pilot:
        plan = await planned(pilot)
        at = next(i for i, (_, step) in enumerate(plan.rows) if step.kind == "knurl")
        await press(pilot, *["down"] * at, "w")
        assert "stands here" in shown(pilot.app)
        await press(pilot, "w", "v")
        assert "Lay out" in shown(pilot.app) and "brass" in shown(pilot.app)
        await press(pilot, "v", "p")
        assert "three-jaw" in shown(pilot.app)


async def test_a_part_in_inches_is_typed_planned_and_begun():
    keys = ("f8", "a", "'pin", "enter", "'mild steel", "enter", "'5/8", "enter", "enter", "ctrl+u", "'inch", "enter",
            "'1/2 x 1", "enter", "enter")  # fmt: skip
    async with run() as pilot:
        await press(pilot, *keys)
        await until(pilot, PlanScreen)
        await press(pilot, "enter")
        job = (await until(pilot, JobScreen)).job
        assert not job.worked.problems


@pytest.mark.parametrize("size", [(40, 10), (60, 16), (100, 30), (200, 60)])
async def test_part_and_plan_fit_every_size(size):
    async with run(size) as pilot:
        await press(pilot, *NUT)
        assert len(shown(pilot.app).splitlines()) <= size[1] and "cannot be drawn" not in shown(pilot.app)
        plan = await planned_from(pilot)
        for key in ("w", "v", "p", "down"):
            await press(pilot, key)
            lines = shown(pilot.app).splitlines()
            assert len(lines) <= size[1] and max(map(len, lines)) <= size[0]
            assert "cannot be drawn" not in shown(pilot.app)
        assert plan.rows


async def planned_from(pilot):
    await press(pilot, "enter")
    return await until(pilot, PlanScreen)


async def test_an_operation_is_put_in_with_its_inputs_and_the_recipe_is_opened_to_be_changed():
    async with run() as pilot:
        plan = await planned(pilot)
        await press(pilot, "a", "'turning-speed diameter=20 material=brass", "enter")
        step = plan.rows[1][1]
        assert step.operation == "turning-speed" and dict(step.inputs)["diameter"] == "20"
        await press(pilot, "a", "'turning-speed diameter=wide", "enter")
        assert "diameter" in plan.message
        await press(pilot, "e")
        for _ in range(100):
            if type(pilot.app.screen).__name__ == "RecipeScreen":
                break
            await pilot.pause(0.02)
        assert type(pilot.app.screen).__name__ == "RecipeScreen" and "turning-speed" in str(pilot.app.screen.text)


async def test_a_line_taken_out_by_mistake_comes_back_and_typing_is_taken_back_too():
    async with run() as pilot:
        await press(pilot, *NUT)
        screen = pilot.app.screen
        before = screen.draft
        await press(pilot, "up", "up", "ctrl+x")
        assert "knurl 26x8" not in [row.text for row in screen.draft.rows]
        await press(pilot, "ctrl+z")
        assert screen.draft == before and "knurl 26x8" in shown(pilot.app)
        await press(pilot, "'9")
        assert screen.draft != before
        await press(pilot, "ctrl+z", "ctrl+z")
        assert screen.draft.rows[7].text == before.rows[7].text


async def test_help_names_every_kind_of_line():
    async with run() as pilot:
        await press(pilot, "f8", "a", "f1")
        words = " ".join(shown(pilot.app).split())
        assert all(
            kind in words for kind in ("ball 6 out 2", "slot 1.5 x 2", "cross hole 4 at 12", "6 holes 4.5 on 30")
        )


def said(draft, at):
    return " ".join("".join(text for text, _ in line).strip() for line in said_lines(draft, worked(draft), at, 80))


def test_the_first_line_of_a_part_is_shown_examples_in_its_unit():
    for unit, example in (("mm", "knurl 26 x 8"), ("inch", "1/4-20 depth 5/8")):
        draft = with_row(blank(unit=unit, material="steel", bar="3/4"), 0, "Lever end")
        assert example in said(draft, len(draft.rows) - 1) and "Empty and Enter: the plan." in said(
            draft, len(draft.rows) - 1
        )


def test_a_line_that_is_wrong_is_named_by_its_words():
    draft = with_row(blank(unit="inch", material="steel", bar="3/4"), 0, "Lever end")
    draft = with_row(draft, len(draft.rows) - 1, "knurled 3/4 by 5/8")
    assert said(draft, len(draft.rows) - 1).startswith("! knurled 3/4 by 5/8 cannot be used")
    assert "a line as knurl 26 x 8" in said(replace(draft, rows=(*draft.rows, Row(""))), len(draft.rows))


async def test_what_a_new_step_may_be_is_not_cut_off():
    async with run() as pilot:
        await planned(pilot)
        await press(pilot, "a")
        assert "drill-speed diameter=6. Enter puts it in." in " ".join(shown(pilot.app).split())


async def test_a_part_is_made_again_in_another_size():
    """One key on the part's line: the thread, a size and the material change; the part that was there stays."""
    again = ("f8", "*", "'M14x1 to M10x1, 25 to 20, brass to mild steel", "enter")
    async with run() as pilot:
        await press(pilot, *NUT, "escape", "escape")
        screen = pilot.app.screen
        screen.at = next(i for i, one in enumerate(screen.choices) if getattr(one, "title", "") == "nut")
        await press(pilot, *again[1:])
        found = pilot.app.screen
        assert isinstance(found, PartScreen) and found.path.name == "nut-m10x1.toml"
        assert not found.found.problems, shown(pilot.app)
    old, new = (read_file(own_parts() / f"{name}.toml")[0].part for name in ("nut", "nut-m10x1"))
    assert (old.material, str(old.inside[0].size), old.outside[0].size.nominal) == ("brass", "M14x1", 25)
    assert (new.material, str(new.inside[0].size), new.outside[0].size.nominal) == ("mild steel", "M10x1", 20)
    assert new.title == "nut, M10x1"
    assert presses(again) <= 50


async def test_what_stands_in_no_line_is_refused_and_nothing_is_made():
    async with run() as pilot:
        await press(pilot, *NUT, "*", "'M16 to M12", "enter")
        assert "M16 cannot be used" in shown(pilot.app)
        await press(pilot, "escape")
        assert pilot.app.screen.changes is None
    assert [path.name for path in own_parts().glob("*.toml")] == ["nut.toml"]
