"""What all jobs together know: what the slides' tools take, what came out against what was planned, what a mate measures."""

from __future__ import annotations

from collections.abc import Iterable

from engine.jobs import compare, mates, springs
from engine.jobs.compare import CameOut
from engine.jobs.mates import Known, MateReading
from engine.jobs.progress import Event, JobName
from engine.jobs.springs import Spring

Entries = Iterable[tuple[Event, JobName]]
READINGS = ("measured", "corrected")


def known_springs(entries: Entries) -> tuple[Spring, ...]:
    """What every slide's tool takes, the newest first; `entries` are those of engine.jobs.springs.KINDS of all jobs."""
    return springs.springs((job.id, e.seq, e.at, e.kind, {**e.data, "title": job.title}) for e, job in entries)


def came_out(entries: Entries) -> tuple[CameOut, ...]:
    """What came out against what was planned, by machine and operation; `entries` are the readings of all jobs."""
    return compare.compared((job.id, e.seq, e.kind, e.data, e.step, e.row) for e, job in entries)


def mate_reading(entries: Entries, part: str, feature: str) -> MateReading | None:
    """The newest reading of a feature of a part, by its file's name; `entries` are the readings of all jobs."""
    known: dict[tuple[int, int], Known] = {}
    for event, job in entries:
        if event.kind == "corrected":
            of = known.get((job.id, event.data["of"]))
            if of is not None:
                reading = mates.put_right(of.reading, event.data["reading"], event.at)
                known[job.id, event.data["of"]] = Known(of.title, of.recipe_name, of.makes, reading)
            continue
        said = event.data
        reading = MateReading(job.title, said["what"], said.get("kind", ""), said["reading"], event.at)
        known[job.id, event.seq] = Known(job.title, job.recipe_name, tuple(said.get("makes", ())), reading)
    return mates.of_mate(reversed(known.values()), part, feature)
