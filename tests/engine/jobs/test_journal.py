"""The journal: places, two programs at once, corrections, and disks that refuse."""

import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import BadInput
from engine.jobs import ledger
from engine.jobs.journal import Journal, JournalError, MovedOn, NotSaved
from engine.jobs.places import Place, PlannedStep, after, before, first_place
from engine.jobs.progress import Event, advanced, begun
from engine.safety.told import Told
from engine.shop.file import sample
from tests.engine.jobs.plans import HEAD, by_hand, worked


@pytest.fixture
def journal(tmp_path):
    found = Journal(tmp_path / "jobs.db")
    yield found
    found.close()


def start(journal, steps=4):
    return journal.start(worked(by_hand(steps)), by_hand(steps), "stop.toml")


def test_a_job_keeps_its_recipe_and_its_shop(journal):
    job = start(journal)
    again = Journal(journal.path).open(job.id)
    assert again == job
    assert again.recipe_text == by_hand(4)
    assert again.shop == sample("metric")


def test_done_goes_on_and_back_goes_back(journal):
    job = start(journal)
    progress = journal.done(job.id, job.progress.seq)
    assert progress.place == Place(2, 0)
    assert journal.back(job.id, progress.seq).place == Place(1, 0)


def test_the_last_step_finishes_the_job(journal):
    progress = start(journal, steps=1).progress
    progress = journal.done(progress.job, progress.seq)
    assert progress.finished
    assert progress.state == "finished"
    assert journal.done(progress.job, progress.seq).seq == progress.seq  # the end stays the end


def test_a_step_gone_past_by_a_named_place_is_not_one_that_is_done(journal):
    progress = start(journal).progress
    progress = journal.done(progress.job, progress.seq)
    progress = journal.move(progress.job, progress.seq, Place(4, 0))
    assert progress.passed_over == (2, 3)
    progress = journal.move(progress.job, progress.seq, Place(1, 0))  # a look at the first takes nothing back
    progress = journal.move(progress.job, progress.seq, Place(4, 0))
    progress = journal.done(progress.job, progress.seq)
    assert progress.finished and progress.passed_over == (2, 3)
    assert journal.back(progress.job, progress.seq).ticked == {1}


def test_going_to_a_place_that_is_not_there_is_refused(journal):
    job = start(journal)
    with pytest.raises(BadInput, match="step: 9 cannot be used; accepted: 1 to 4"):
        journal.move(job.id, job.progress.seq, Place(9, 0))
    assert journal.progress(job.id) == job.progress


def test_the_second_of_two_programs_is_told_where_the_job_stands(journal):
    job = start(journal)
    other = Journal(journal.path)
    other.done(job.id, job.progress.seq)
    with pytest.raises(MovedOn, match=r"The job has moved on to step 2 of 4, Step 2\.") as caught:
        journal.done(job.id, job.progress.seq)
    assert caught.value.progress.place == Place(2, 0)
    assert journal.progress(job.id).place == Place(2, 0)


def test_a_reading_of_another_program_does_not_stop_a_move(journal):
    job = start(journal)
    Journal(journal.path).measured(job.id, 1, 12.01)
    assert journal.done(job.id, job.progress.seq).place == Place(2, 0)


PRESS = """
import sys
from pathlib import Path
from engine.jobs import ledger
from engine.jobs.journal import Journal, MovedOn
journal = Journal(Path(sys.argv[1]))
progress = journal.progress(1)
input()
while not progress.finished:
    try:
        progress = journal.done(1, progress.seq)
        print(progress.place.step - 1)
    except MovedOn as moved:
        progress = moved.progress
"""


def test_two_programs_pressing_at_once_neither_lose_nor_double_a_step(journal):
    start(journal, steps=80)
    line = [sys.executable, "-c", PRESS, str(journal.path)]
    programs = [subprocess.Popen(line, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) for _ in range(2)]
    for program in programs:
        program.stdin.write("go\n")
        program.stdin.flush()
    said = [program.communicate(timeout=60)[0].split() for program in programs]
    assert sorted(int(step) for one in said for step in one) == list(range(1, 81))
    assert [e.step for e in journal.history(1) if e.kind == "done"] == list(range(1, 81))


def test_a_correction_keeps_the_old_reading(journal):
    job = start(journal)
    kept = journal.measured(job.id, 2, 11.98, dial=1.25, slide="cross").readings[0]
    put_right = journal.corrected(job.id, kept.seq, 11.89).readings[0]
    assert (put_right.reading, put_right.was, put_right.dial) == (11.89, (11.98,), 1.25)
    assert [e.kind for e in journal.history(job.id)] == ["started", "measured", "corrected"]
    with pytest.raises(JournalError, match="has no reading number 99"):
        journal.corrected(job.id, 99, 1.0)


def test_a_reading_that_was_cut_on_after_it_is_not_carried_to_the_next_step():
    """Three cuts, a reading after the second, then the third: the work is smaller than it was read (arithmetic)."""
    plan = (PlannedStep("rough", "Rough", 3, "cut"), PlannedStep("turn", "Turn", 3, "cut"))
    read = ("measured", 1, 2, {"what": "Roughed to", "reading": 15.1, "dial": None, "slide": ""})
    third, on = ("done", 1, 2, {"to": [1, 3]}), ("done", 1, 3, {"to": [2, 1]})
    again = ("measured", 1, 3, {**read[3], "reading": 13.3})

    def standing(*happened):
        events = (Event(seq, "", kind, step, row, data) for seq, (kind, step, row, data) in enumerate(happened, 1))
        progress = advanced(begun(1, plan), tuple(events))
        assert progress.settled.get(1, progress.standing) == progress.standing
        return progress.standing

    assert standing(read, third) == {1: 15.1}  # in hand still: it is shown what it says
    assert standing(read, third, on) == {}
    assert standing(read, third, again, on) == {1: 13.3}
    assert standing(read, third, on, ("back", 2, 1, {"to": [1, 3]})) == {1: 15.1}
    assert standing(read, ("moved", 1, 2, {"to": [2, 1]})) == {1: 15.1}  # gone on from there: nothing was cut


def test_answers_and_acknowledgements_stay_with_the_job(journal):
    job = start(journal)
    journal.answered(job.id, "CHK-07", True)
    progress = journal.acknowledged(job.id, 3, "PRT-01")
    assert progress.told == {"CHK-07": Told(True)}
    assert progress.acknowledged == {(3, "PRT-01")}
    assert journal.repeat(job.id).progress.told == {}  # the next part asks again


def test_a_program_that_counts_other_rows_goes_on_at_the_nearest(journal):
    chain = '[[steps]]\nid = "rule"\ntitle = "Rule"\noperation = "hand-dial"\ncount = "moves"\n'
    long, short = (HEAD + chain + f'inputs = {{ moves = "{moves}" }}\n' for moves in ("1, 1, 1, 1", "1, 1, 1"))
    progress = journal.start(worked(long), long, "stop.toml").progress
    progress = journal.move(progress.job, progress.seq, Place(1, 4))
    assert journal.replanned(progress.job, worked(long)) == progress  # nothing is written
    assert journal.replanned(progress.job, worked(short)).place == Place(1, 3)
    with pytest.raises(MovedOn):
        journal.done(progress.job, progress.seq)
    assert Journal(journal.path).progress(progress.job).plan[0].rows == 3


def test_several_jobs_and_a_second_part(journal):
    first = start(journal)
    second = journal.repeat(first.id)
    third = journal.repeat(second.id)
    assert [first.part, second.part, third.part] == [1, 2, 3]
    assert third.progress.place == Place(1, 0)
    assert {line.id for line in journal.jobs()} == {first.id, second.id, third.id}


def test_leaving_resuming_and_putting_away_show_in_the_list(journal):
    job = start(journal)
    states = []
    for act in (journal.left, journal.resumed, journal.put_away, journal.resumed):
        act(job.id)
        states.append(journal.jobs()[0].state)
    assert states == ["left", "under way", "put away", "under way"]


def test_an_event_can_be_neither_changed_nor_removed(journal):
    start(journal)
    database = sqlite3.connect(journal.path)
    for statement in ("UPDATE event SET kind = 'done'", "DELETE FROM event"):
        with pytest.raises(sqlite3.IntegrityError, match="never"):
            database.execute(statement)


PLANS = st.lists(st.integers(0, 4), min_size=1, max_size=6).map(
    lambda rows: tuple(PlannedStep(f"s{i}", f"Step {i}", n, "row") for i, n in enumerate(rows))
)


@settings(max_examples=50, deadline=None)
@given(PLANS)
def test_every_row_is_met_once_going_on_and_once_going_back(plan):
    place, met = first_place(plan), []
    while place.step <= len(plan):
        met.append(place)
        place = after(plan, place)
    assert len(met) == sum(step.rows or 1 for step in plan)
    assert len(set(met)) == len(met)
    for expected in reversed(met):
        place = before(plan, place)
        assert place == expected
    assert before(plan, place) == first_place(plan)


ACTS = st.lists(st.sampled_from(["done", "back", "move", "measured", "corrected", "answered", "left"]), max_size=25)


@settings(max_examples=25, deadline=None)
@given(ACTS)
def test_what_a_program_remembers_is_what_another_reads(tmp_path_factory, acts):
    journal = Journal(tmp_path_factory.mktemp("jobs") / "jobs.db")
    progress = start(journal).progress
    for number, act in enumerate(acts):
        job, seq = progress.job, progress.seq
        if act in ("done", "back"):
            progress = getattr(journal, act)(job, seq)
        elif act == "move":
            progress = journal.move(job, seq, Place(1 + number % 4, 0))
        elif act == "measured":
            progress = journal.measured(job, 1, 12 + number / 100, dial=number / 10)
        elif act == "corrected" and progress.readings:
            progress = journal.corrected(job, progress.readings[0].seq, 11.5)
        elif act == "answered":
            progress = journal.answered(job, f"Q{number % 3}", bool(number % 2))
        elif act == "left":
            progress = journal.left(job)
    assert Journal(journal.path).progress(progress.job) == progress


@pytest.mark.parametrize("spoil", [b"not a database at all" * 300, b""])
def test_a_damaged_file_is_set_aside_and_said(tmp_path, spoil):
    path = tmp_path / "jobs.db"
    journal = Journal(path)
    start(journal)
    journal.close()
    path.write_bytes(spoil or _with_torn_middle(path))
    again = Journal(path)
    aside = [p for p in tmp_path.iterdir() if "damaged" in p.name]
    assert len(aside) == 1
    assert str(aside[0]) in again.notice
    assert [line.where for line in again.jobs()] == ["step 1 of 4, Step 1"]  # from the second record
    assert start(again).progress.place == Place(1, 0)


def _with_torn_middle(path: Path) -> bytes:
    """The file as a failing card may give it back: pages of noughts, the first page whole."""
    raw = path.read_bytes()
    return raw[:4096] + bytes(len(raw) - 4096)


def test_a_file_of_a_newer_program_is_left_alone(tmp_path):
    path = tmp_path / "jobs.db"
    Journal(path).close()
    database = sqlite3.connect(path)
    database.execute("PRAGMA user_version = 7")
    database.close()
    raw = path.read_bytes()
    with pytest.raises(JournalError, match=r"newer program .version 7; this one reads up to 3"):
        Journal(path)
    assert path.read_bytes() == raw


def test_a_full_disk_is_said_and_nothing_is_claimed(journal):
    progress = start(journal).progress
    pages = journal._database.execute("PRAGMA page_count").fetchone()[0]
    journal._database.execute(f"PRAGMA max_page_count = {pages}")  # SQLite then meets SQLITE_FULL itself
    with pytest.raises(NotSaved, match=r"NOT SAVED: .*: the disk is full"):
        for _ in range(500):
            progress = journal.measured(progress.job, 1, 12.0, what="x" * 500)
    assert Journal(journal.path).progress(progress.job) == progress


FULL_DISK = """
import resource, sys
from pathlib import Path
from engine.jobs import ledger
from engine.jobs.journal import Journal, NotSaved
from tests.engine.jobs.plans import HEAD, by_hand, worked
journal = Journal(Path(sys.argv[1]))
progress = journal.start(worked(by_hand(3)), by_hand(3), "stop.toml").progress
resource.setrlimit(resource.RLIMIT_FSIZE, (120_000, 120_000))
try:
    while True:
        progress = journal.measured(progress.job, 1, 12.0, what="x" * 300)
except NotSaved as refusal:
    print(progress.seq, refusal)
"""


def test_a_file_that_may_not_grow_is_said(tmp_path):
    path = tmp_path / "jobs.db"
    line = [sys.executable, "-c", FULL_DISK, str(path)]
    done = subprocess.run(line, capture_output=True, text=True, timeout=60)
    seq, said = done.stdout.split(" ", 1)
    assert said.startswith(f"NOT SAVED: {path}: the disk")
    assert Journal(path).jobs()[0].id == 1
    assert Journal(path).progress(1).seq == int(seq)


READ_ONLY = """
import os, sys
from pathlib import Path
from engine.jobs import ledger
from engine.jobs.journal import Journal, NotSaved
if os.getuid() == 0:
    os.setuid(65534)  # root may write anywhere
try:
    Journal(Path(sys.argv[1]))
except NotSaved as refusal:
    print(refusal)
"""


def test_a_read_only_folder_is_said(tmp_path):
    tmp_path.chmod(0o555)
    path = tmp_path / "jobs.db"
    # The folder stands where only its owner may go: let the other user reach it.
    for folder in (p for p in path.parents if p != tmp_path and p.owner() == tmp_path.owner() and p != p.parent):
        if os.getuid() == 0 and str(folder).startswith("/tmp/"):
            folder.chmod(folder.stat().st_mode | 0o111)
    done = subprocess.run([sys.executable, "-c", READ_ONLY, str(path)], capture_output=True, text=True, timeout=60)
    tmp_path.chmod(0o755)
    assert done.stdout.startswith(f"NOT SAVED: {path}: "), done.stderr
    assert not path.exists()


def test_a_file_moved_away_under_the_program_is_noticed(journal):
    job = start(journal)
    os.replace(journal.path, journal.path.with_name("elsewhere.db"))
    with pytest.raises(NotSaved, match="moved away or replaced"):
        journal.done(job.id, job.progress.seq)


def test_a_file_cut_short_under_the_program_is_noticed_and_put_back(journal):
    progress = journal.done(start(journal).progress.job, 1)
    for tail in ("", "-wal"):
        journal.path.with_name(journal.path.name + tail).write_bytes(b"")
    with pytest.raises(NotSaved, match="the file was cut short while it was open"):
        journal.done(progress.job, progress.seq)
    journal.close()
    again = Journal(journal.path)
    assert again.progress(progress.job) == progress


def test_another_program_that_holds_the_file_is_said(journal):
    job = start(journal)
    journal._database.execute("PRAGMA busy_timeout = 50")
    holder = sqlite3.connect(journal.path, isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    with pytest.raises(NotSaved, match="another program is saving"):
        journal.done(job.id, job.progress.seq)
    holder.execute("ROLLBACK")
    assert journal.done(job.id, job.progress.seq).place == Place(2, 0)


def without_second_record(journal):
    ledger.path_of(journal.path).unlink()


def entry(path, statement, *values):
    """Change the file as a disk may: past the program and its triggers."""
    database = sqlite3.connect(path, isolation_level=None)
    for trigger in ("event_stays", "event_kept"):
        database.execute(f"DROP TRIGGER IF EXISTS {trigger}")
    database.execute(statement, values)
    database.close()


def test_one_spoiled_byte_of_an_old_job_hides_no_other(journal):
    old, new = start(journal), start(journal)
    entry(journal.path, "UPDATE job SET recipe = CAST(X'FF' || recipe AS TEXT) WHERE id = ?", old.id)
    entry(journal.path, "UPDATE event SET data = CAST(X'7BFF' AS TEXT) WHERE job = ?", old.id)
    again = Journal(journal.path)
    assert {line.id for line in again.jobs()} == {old.id, new.id}
    assert again.open(new.id).progress == new.progress
    assert again.repeat(new.id).part == 2


@pytest.mark.parametrize("plan", ["{", "[[1]]", "7"])
def test_a_plan_that_cannot_be_read_is_one_sentence_for_every_key(journal, plan):
    job = start(journal)
    without_second_record(journal)
    entry(journal.path, "UPDATE job SET plan = ?", plan)
    again = Journal(journal.path)
    assert again.jobs()[0].state == "cannot be read"
    for act in (again.open, again.repeat, again.progress, lambda number: again.done(number, 1)):
        with pytest.raises(JournalError, match=f"job {job.id}: what was kept of it cannot be read"):
            act(job.id)


def test_a_job_without_any_entry_is_listed(journal):
    job = start(journal)
    without_second_record(journal)
    entry(journal.path, "DELETE FROM event")
    assert Journal(journal.path).jobs()[0].last == Journal(journal.path).jobs()[0].started
    assert Journal(journal.path).open(job.id).progress.place == Place(1, 0)


def test_an_entry_that_the_disk_has_changed_is_left_out_and_counted(journal):
    progress = journal.measured(start(journal).progress.job, 1, 11.9)
    progress = journal.done(progress.job, progress.seq)
    without_second_record(journal)
    entry(journal.path, "UPDATE event SET data = replace(data, '11.9', '17.9') WHERE kind = 'measured'")
    again = Journal(journal.path).progress(progress.job)
    assert (again.damaged, again.readings, again.place) == (1, (), Place(2, 0))
    assert [e.kind for e in Journal(journal.path).history(progress.job)] == ["started", "damaged", "done"]


def test_what_the_file_has_lost_of_what_was_shown_is_told_once_and_put_back(journal):
    progress = start(journal).progress
    progress = journal.done(progress.job, progress.seq)
    progress = journal.measured(progress.job, 2, 11.9)
    journal.close()
    entry(journal.path, "DELETE FROM event WHERE seq > 1")
    again = Journal(journal.path)
    assert "The file knew less than was shown: Fence stop had come to step 2 of 4" in again.notice
    assert again.progress(progress.job) == progress
    assert not Journal(journal.path).notice


def test_what_the_disk_has_changed_is_put_right_from_the_second_record(journal):
    progress = journal.measured(start(journal).progress.job, 1, 11.9)
    progress = journal.done(progress.job, progress.seq)
    entry(journal.path, "UPDATE event SET data = replace(data, '11.9', '17.9') WHERE kind = 'measured'")
    entry(journal.path, "UPDATE job SET recipe = replace(recipe, 'Brass', 'Bress')")
    again = Journal(journal.path)
    assert "1 entry of the jobs" in again.notice and "1 job" in again.notice
    assert again.progress(progress.job) == progress
    assert again.open(progress.job).recipe_text == by_hand(4)
    assert not Journal(journal.path).notice
    assert len(list(journal.path.parent.glob("*damaged*.db"))) == 1


def test_a_gap_between_entries_is_told_once(journal):
    progress = journal.measured(start(journal).progress.job, 1, 11.9)
    journal.done(progress.job, progress.seq)
    without_second_record(journal)
    entry(journal.path, "DELETE FROM event WHERE kind = 'measured'")
    again = Journal(journal.path)
    assert "has changed or lost 1 entry of the jobs: check where they stand" in again.notice
    assert (again.progress(progress.job).damaged, again.progress(progress.job).place) == (1, Place(2, 0))
    assert not Journal(journal.path).notice


def test_a_job_that_is_gone_is_put_back(journal):
    progress = journal.done(start(journal).progress.job, 1)
    entry(journal.path, "DELETE FROM event")
    entry(journal.path, "DELETE FROM job")
    again = Journal(journal.path)
    assert "put back" in again.notice
    assert again.progress(progress.job) == progress


def test_readable_jobs_of_a_damaged_file_are_taken_over(journal):
    for _ in range(3):
        start(journal, steps=30)
    page = journal._database.execute("SELECT rootpage FROM sqlite_master WHERE name = 'event'").fetchone()[0]
    journal.close()
    without_second_record(journal)
    raw = bytearray(journal.path.read_bytes())
    raw[(page - 1) * 4096 : page * 4096] = bytes(4096)
    journal.path.write_bytes(raw)
    again = Journal(journal.path)
    assert "3 jobs were taken over from it" in again.notice
    assert len(again.jobs()) == 3


def test_a_line_of_the_second_record_that_is_damaged_says_nothing(journal):
    progress = journal.done(start(journal).progress.job, 1)
    record = ledger.path_of(journal.path)
    record.write_bytes(record.read_bytes().replace(b'"done"', b'"gone"'))
    assert set(ledger.read(journal.path).entries) == {(progress.job, 1)}
    journal.back(progress.job, progress.seq)
    assert ledger.read(journal.path).newest()[progress.job].kind == "back"


def test_a_long_second_record_is_shortened_to_what_is_worked_on(journal, monkeypatch):
    first = start(journal).progress.job
    for _ in range(6):
        start(journal)
    monkeypatch.setattr("engine.jobs.ledger.LONGEST", 10)
    Journal(journal.path)
    record = ledger.read(journal.path)
    assert first not in record.begun and len(record.begun) == 5
    assert set(record.newest()) == set(range(first, first + 7))


def test_the_job_worked_on_last_stands_first_whatever_the_clock_says(journal, monkeypatch):
    first, second = start(journal), start(journal)
    monkeypatch.setattr("engine.jobs.journal._now", lambda: "1970-01-01T00:00:00+00:00")
    journal.done(first.id, first.progress.seq)
    assert [line.id for line in journal.jobs()] == [first.id, second.id]


def test_a_file_of_the_first_version_is_read_and_brought_up(journal):
    first, second = start(journal), start(journal)
    for statement in (
        "ALTER TABLE job DROP COLUMN turn",
        "ALTER TABLE event DROP COLUMN crc",
        "ALTER TABLE job DROP COLUMN crc",
        "PRAGMA user_version = 1",
    ):
        entry(journal.path, statement)
    again = Journal(journal.path)
    assert {line.id for line in again.jobs()} == {first.id, second.id}
    assert again.done(first.id, first.progress.seq).place == Place(2, 0)
    assert again.jobs()[0].id == first.id


def test_a_program_stopped_while_it_opens_the_file_holds_no_other_up(journal, monkeypatch):
    import fcntl

    monkeypatch.setattr("engine.jobs.store._WAIT", 0.05)
    with open(journal.path.with_name("jobs.db.lock"), "w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        with pytest.raises(NotSaved, match="another program is saving and does not finish"):
            Journal(journal.path)


def test_a_recipe_that_the_disk_has_changed_is_known(journal):
    job = start(journal)
    assert Journal(journal.path).open(job.id).sound
    without_second_record(journal)
    entry(journal.path, "UPDATE job SET recipe = replace(recipe, 'Brass', 'Bress')")
    assert not Journal(journal.path).open(job.id).sound
