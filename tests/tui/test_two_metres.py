"""What is set now is the largest thing on a job's screen, at every step and at the first lines of each that counts."""

import pytest

from engine.jobs.places import Place
from engine.shop.file import sample
from tests.old_recipes import put_on_the_shelf
from tui.desk import Desk
from tui.panes.step_view import job_lines, large_lines
from tui.widgets.setting_type import has_number


def text_of(lines):
    return ["".join(words for words, _ in runs) for runs in lines]


def places(job):
    """Every step, and the first three and the last row of those that count."""
    for step in job.worked.steps:
        rows = {1, 2, 3, step.rows} if step.rows else {0}
        yield from ((step, Place(step.number, row)) for row in sorted(rows) if row <= step.rows)


def sets_something(step):
    """Whether there is a number to set or to turn to; work by hand, such as deburring, has none."""
    return bool(
        step.table or step.limits or (step.lead and has_number(step.lead.text if step.lead.value is None else "1"))
    )


def begun(name, planned=False):
    """A job of a recipe that earlier versions shipped, or of a part that ships, planned."""
    desk = Desk()
    wanted = name if planned else put_on_the_shelf(name)
    return desk.start(next(one for one in desk.recipes() if one.name == wanted), sample("metric"))


@pytest.mark.parametrize(
    ("name", "size", "planned"),
    [
        ("height-adjuster-nut", (80, 24), False),
        ("height-adjuster-nut", (120, 40), False),
        ("height-adjuster-screw", (80, 24), True),
        ("height-adjuster-screw", (120, 40), False),
    ],
)
def test_the_setting_is_the_largest_thing_at_every_step(name, size, planned):
    job = begun(name, planned)
    width, height = size[0], size[1] - 2  # the screen without its head and its foot
    small = []
    for step, place in places(job):
        job.go(place)
        blocks = sum("█" in row for row in text_of(job_lines(job, "mm", width, height, None).lines))
        full = sum("█" in row for row in text_of(large_lines(job, "mm", width, height).lines))
        if sets_something(step) and (blocks < 7 or full < 7):
            small.append((step.step.id, place.row, blocks, full))
    assert not small


def test_large_type_has_fourteen_rows_where_one_setting_stands_alone():
    job = begun("height-adjuster-nut")
    job.go(Place(next(s.number for s in job.worked.steps if s.step.id == "blank"), 0))
    rows = text_of(large_lines(job, "mm", 80, 22).lines)
    assert sum("█" in row for row in rows) >= 14


def test_a_cut_stands_with_its_stop_and_the_speed_and_a_peck_with_the_speed_of_its_tool():
    job = begun("height-adjuster-nut", planned=True)
    seen = set()
    for step in job.worked.steps:
        if step.step.operation in ("turn-to-size", "hole-plan") and step.table:
            job.go(Place(step.number, 1))
            text = "\n".join(text_of(job_lines(job, "mm", 80, 22, None).lines))
            seen.add(step.step.operation)
            assert "rev/min" in text or "m: measure" in text, text  # which leaves no row for it
            assert step.step.operation == "hole-plan" or ("Saddle: " in text and "Diameter after: " in text), text
    assert seen == {"turn-to-size", "hole-plan"}
