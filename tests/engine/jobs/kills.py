"""Kill a program that is saving, over and over: `python -m tests.engine.jobs.kills ROUNDS FOLDER [WRITER]`.

Each round forks a real process that saves step after step and says so on a pipe after the save has returned. It is
killed with SIGKILL at a random moment. Then the file has to be whole, and the last step said to be saved is there.
WRITER is `journal`, or `in-place`: a control that writes JSON over itself and must be caught losing steps.
"""

import json
import os
import random
import signal
import sqlite3
import sys
import time
from pathlib import Path

from engine.jobs.journal import Journal
from engine.jobs.places import Place
from tests.engine.jobs.plans import by_hand, worked

TEXT = by_hand(50)
PLAN = worked(TEXT)


def save_with_journal(path: Path, ack: int) -> None:
    """Do steps, measure now and then, and acknowledge each."""
    journal = Journal(path)
    jobs = journal.jobs()
    job = jobs[0].id if jobs else journal.start(PLAN, TEXT, "stop.toml").id
    progress = journal.progress(job)
    os.write(ack, b"%d\n" % progress.seq)
    while True:
        if progress.finished:
            progress = journal.move(job, progress.seq, Place(1, 0))
        elif progress.seq % 5 == 0:
            progress = journal.measured(job, progress.place.step, 11.98)
        else:
            progress = journal.done(job, progress.seq)
        os.write(ack, b"%d\n" % progress.seq)


def last_with_journal(path: Path) -> int:
    """The last event kept; AssertionError if the file is not whole."""
    database = sqlite3.connect(path)
    assert database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    # Killed before it had made its tables: then it had acknowledged nothing.
    if database.execute("SELECT count(*) FROM sqlite_master").fetchone() == (0,):
        return 0
    seqs = [seq for (seq,) in database.execute("SELECT seq FROM event ORDER BY seq")]
    database.close()
    assert seqs == list(range(1, len(seqs) + 1))
    return len(seqs)


def save_in_place(path: Path, ack: int) -> None:
    """The control: what a careless program does."""
    seq = json.loads(path.read_text())["seq"] if path.exists() else 0
    while True:
        seq += 1
        path.write_text(json.dumps({"seq": seq, "text": "x" * 4000}))
        os.write(ack, b"%d\n" % seq)


def last_in_place(path: Path) -> int:
    """The control's last step."""
    return int(json.loads(path.read_text())["seq"]) if path.exists() else 0


WRITERS = {"journal": (save_with_journal, last_with_journal), "in-place": (save_in_place, last_in_place)}


def one_round(path: Path, writer: str, chance: random.Random) -> tuple[int, int]:
    """Fork, save, kill. Returns the last step acknowledged and the last one found."""
    save, last = WRITERS[writer]
    reads, writes = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reads)
        try:
            save(path, writes)
        finally:
            os._exit(1)
    os.close(writes)
    said = b""
    if chance.random() < 0.9:  # the rest are killed while they open the file
        saves = chance.randint(1, 10)  # by saves and not by the clock, so that a busy machine tests as much
        while said.count(b"\n") < saves and (more := os.read(reads, 1 << 16)):
            said += more
    time.sleep(chance.uniform(0, 0.004))
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status), "the saving process ended by itself"
    while more := os.read(reads, 1 << 16):
        said += more
    os.close(reads)
    whole = said[: said.rfind(b"\n") + 1].split()
    return (int(whole[-1]) if whole else 0), last(path) if path.exists() else 0


def main(rounds: int, folder: Path, writer: str = "journal", seed: int = 20) -> dict[str, object]:
    """Kill so many times; every tenth round begins a new file."""
    chance = random.Random(seed)
    # What is imported on first use, and the plan, are made before the forks: a child then only saves.
    loaded = Journal(folder / "loaded.db")
    loaded.progress(loaded.start(PLAN, TEXT, "stop.toml").id)
    loaded.close()
    acknowledged = faults = before = 0
    first_fault = ""
    path = folder / "0.db"
    for number in range(rounds):
        if number % 10 == 0:
            path, before = folder / f"{number}.db", 0
        try:
            said, kept = one_round(path, writer, chance)
            acknowledged += max(said - before, 0)
            assert max(said, before) <= kept <= max(said, before) + 1, (said, before, kept)
            before = kept
        except (AssertionError, ValueError, sqlite3.Error) as error:
            faults += 1
            first_fault = first_fault or f"round {number}: {type(error).__name__} {error}"
            path, before = folder / f"{number}-again.db", 0
    return {"rounds": rounds, "acknowledged": acknowledged, "faults": faults, "first": first_fault}


if __name__ == "__main__":
    print(json.dumps(main(int(sys.argv[1]), Path(sys.argv[2]), *sys.argv[3:4])))
