"""Reckoning beside the screen: a quick answer is there before the next paint, a slow one never holds the keys up."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

from engine.base.records import dataclass, field
from engine.base.stopping import Heeding

_KEPT = 10.0  # seconds that a thread is kept with nothing to do


@dataclass(eq=False)
class Ticket:
    """A job asked for: for whom (`key`), what to do, and what to do with an answer that comes late."""

    key: str
    job: Callable[[], Any]
    late: Callable[[Any], None]
    stop: threading.Event = field(default_factory=threading.Event)
    result: list[Any] = field(default_factory=list)  # one entry once it is there
    waited_for: bool = True  # whether the asker still waits


class Worker:
    """Runs jobs in a thread that is kept. A newer job for the same key makes the older one void; no other is lost.

    A job that runs longer than the next one may wait gets company: a second thread, and a third. One that is void is
    asked to stop, and what nobody waits for any more is reckoned when a thread is free, the newest first.
    """

    def __init__(self, threads: int = 3) -> None:
        self._limit = threads
        self._threads = 0
        self._idle = 0
        self._newest: dict[str, Ticket] = {}
        self._waiting: list[Ticket] = []
        self._changed = threading.Condition()

    def run(self, key: str, job: Callable[[], Any], late: Callable[[Any], None], patience: float) -> tuple[bool, Any]:
        """Run a job; return (True, result) if it is done within `patience` seconds, else (False, None).

        In the second case `late(result)` is called from the worker's thread when it is done, unless a newer job was
        asked for under the same key meanwhile. The job handles its own exceptions.
        """
        ticket = Ticket(key, job, late)
        with self._changed:
            self._make_void(self._newest.get(key))
            self._newest[key] = ticket
            self._waiting.append(ticket)
            if self._idle < len(self._waiting) and self._threads < self._limit:
                self._threads += 1
                threading.Thread(target=self._loop, daemon=True, name="reckoning").start()
            self._changed.notify_all()
            self._changed.wait_for(lambda: bool(ticket.result), timeout=patience)
            ticket.waited_for = False
            return (True, ticket.result[0]) if ticket.result else (False, None)

    def stop(self, key: str) -> None:
        """Ask the job of a key to end with the best it has; its answer still comes."""
        with self._changed:
            if key in self._newest:
                self._newest[key].stop.set()

    def _make_void(self, old: Ticket | None) -> None:
        if old is not None:
            old.stop.set()
            if old in self._waiting:
                self._waiting.remove(old)

    def _loop(self) -> None:
        while True:
            with self._changed:
                self._idle += 1
                asked = self._changed.wait_for(lambda: bool(self._waiting), timeout=_KEPT)
                self._idle -= 1
                if not asked:
                    self._threads -= 1
                    return
                ticket = self._waiting.pop()
            with Heeding(ticket.stop.is_set):
                result = ticket.job()
            with self._changed:
                ticket.result.append(result)
                newest = self._newest.get(ticket.key) is ticket
                if newest:
                    del self._newest[ticket.key]
                late = newest and not ticket.waited_for
                self._changed.notify_all()
            if late:
                ticket.late(result)
