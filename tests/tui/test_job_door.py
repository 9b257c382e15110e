"""A job by the line: the same journal and the same rules as on the screen."""

import pytest

from engine.jobs.journal import Journal
from engine.jobs.places import Place
from engine.shop.file import sample
from tests.fresh import loaded
from tui.__main__ import main
from tui.desk import Desk
from tui.panes.step_view import end_words, step_lines, where


@pytest.fixture
def say(capsys):
    def said(*words):
        code = main(["job", *words])
        out, err = capsys.readouterr()
        return code, out, err

    return said


@pytest.mark.first_page
def test_a_job_is_begun_read_done_and_taken_back(say):
    assert say("list") == (0, "No job yet: `tommybar job start RECIPE` begins one.\n", "")
    code, out, _ = say("start", "hexagon-spacer")
    assert code == 0 and "Job 1 is begun." in out and "step 1 of" in out
    code, _, err = say("done")
    assert code == 2 and "`tommybar job read`" in err
    code, out, _ = say("read")
    assert code == 0 and out.count("WARNING:") + out.count("DANGER:") == 5
    while "Nothing is left" not in say("read")[1]:
        pass
    assert "step 2 of" in say("done")[1]
    assert "step 1 of" in say("back")[1]
    assert Journal().jobs()[0].where.startswith("step 1 of")


def test_a_measure_stops_it_once_and_is_kept(say):
    say("start", "hexagon-spacer")
    for number in range(1, 30):
        told = say("at", "step", str(number))[1]
        if "To measure: " in told and " 1 of " not in told:  # measured, and in one piece
            break
    while "Nothing is left" not in say("read")[1]:
        pass
    code, _, err = say("done")
    assert code == 2 and "has not been measured" in err and "--anyway" in err
    assert "15.100 mm" in say("reading", "15.1")[1] and "Last reading: 15.100 mm" in say("where")[1]
    assert f"step {number + 1} of" in say("done", "--anyway")[1]


def test_what_is_said_is_what_is_to_be_set(say):
    say("start", "height-adjuster-nut")
    code, out, _ = say("where", "--inch")
    assert code == 0 and "To do: " in out
    assert say("next")[1].startswith("Next: ")
    assert say("note", "a shim of 0.1")[0] == 0 and "Note: “a shim of 0.1”" in say("where")[1]
    assert all(": " in line for line in say("cautions")[1].splitlines()[:-1])
    knurling = say("at", "step 8")[1]
    assert "\nSaddle: 0 turns, dial" in knurling and "\nCross slide in: 0 turns, dial" in knurling


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["where"], "none is under way"),
        (["dance"], "is none of its words"),
        (["--job", "99", "where"], "99"),
        (["--job", "x", "where"], "--job"),
        (["--loud"], "option"),
        (["start", "nothing"], "recipe"),
    ],
)
def test_what_cannot_be_is_one_line(say, words, says):
    code, out, err = say(*words)
    assert (code, out) == (2, "") and says in err and len(err.splitlines()) == 1


def test_no_screen_is_loaded_for_it():
    assert not loaded("from tui.__main__ import main\nmain(['job', 'start', 'lock-knob'])", ("textual", "rich"))


def test_the_end_says_what_was_passed_over_and_what_was_never_measured():
    steps = "".join(
        f'[[steps]]\nid = "s{n}"\ntitle = "Turn {n}"\nmeasure = {{ what = "Width", low = 10, high = "10.1" }}\n'
        for n in range(1, 5)
    )
    text = f'schema_version = 3\ntitle = "Stop"\npart = "Stop"\nstock = "Bar"\nunit = "mm"\n{steps}'
    job = Desk().start_text(text, "stop.toml", sample("metric"))
    job.go(Place(4, 0))
    job.done()
    assert where(job) == "at the end, 3 of 4 steps passed over"
    assert end_words(job) == (
        "3 steps were passed over and not said to be done: 1 to 3.",
        "Not measured: 1 Turn 1; 2 Turn 2; 3 Turn 3; 4 Turn 4.",
    )
    said = "\n".join("".join(text for text, _ in runs) for runs in step_lines(job, "mm", 80, 20))
    assert "passed over" in said and "Not measured" in said and "Every step is done" not in said
