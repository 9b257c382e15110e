"""What is counted in everybody's own jobs: added from the bench, planned from a part, told in the job itself."""

from pathlib import Path

import pytest

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.jobs.counting import steps_of
from engine.jobs.library import new_text, with_step
from engine.jobs.recipe import read
from engine.jobs.run import resolve
from engine.shop.file import sample

SHOP = sample("metric")


def added(operation, **given):
    """The steps of a new recipe to which an operation was added from the bench."""
    answer = run(operation, given, SHOP).answer
    text = with_step(new_text("Own", "mm"), operation, given, unit="mm", answer=answer)
    return resolve(read(text, Path("own.toml")), SHOP).steps[1:]


@pytest.mark.parametrize(
    "operation, given, counted",
    [
        ("scale-lines", {"size": "M10x1", "per_line": "0.04", "diameter": "20"}, [("dry move", 25), ("line", 25)]),
        ("tap-drill", {"size": "M10", "depth": "17"}, [("turn", 14)]),
        ("hole-plan", {"diameter": "10.5", "depth": "52", "material": "brass"}, [("peck", 6)]),
        ("hole-circle", {"holes": "5", "diameter": "54"}, [("hole", 5)]),
        ("turning-speed", {"diameter": "20"}, [("", 0)]),
    ],
)
def test_what_is_added_from_the_bench_is_counted_by_itself(operation, given, counted):
    steps = added(operation, **given)
    assert [(s.table.count_noun if s.table else "", s.rows) for s in steps][: len(counted)] == counted
    assert not any(s.problem for s in steps)


def test_the_numbers_of_a_scale_are_punched_one_by_one():
    steps = added("scale-lines", size="M12x1.5", per_line="0.05", diameter="24")
    assert [s.table.count_noun for s in steps] == ["dry move", "line", "number"]
    assert steps[0].step.planning and steps[2].rows == 3


def test_the_last_dry_move_comes_back_to_line_1():
    dry = added("scale-lines", size="M12x1.5", per_line="0.05", diameter="24")[0]
    assert dry.table.rows[-1][[c.name for c in dry.table.columns].index("then_at")] == "line 1 again"


def test_an_operation_without_anything_to_count_is_one_step():
    answer = run("turning-speed", {"diameter": "20"}, SHOP).answer
    assert [one.keys for one in steps_of(answer)] == [{}]


def test_a_person_counts_what_no_plan_counts():
    text = new_text("Own", "mm")
    step = read(text, Path("own.toml")).steps[0].id
    worked = resolve(read(text, Path("own.toml")), SHOP, counted={step: ("stroke", 40)})
    assert worked.steps[0].rows == 40 and worked.steps[0].table.count_noun == "stroke"


@pytest.mark.parametrize("rows", ["0", "1001", "true", '"six"', "1.5"])
def test_a_count_that_is_none_is_refused(rows):
    text = new_text("Own", "mm") + f'counts = {{ noun = "turn", rows = {rows} }}\n'
    with pytest.raises(BadInput, match="whole number from 1 to 1000"):
        read(text, Path("own.toml"))
