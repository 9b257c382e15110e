"""Reckoning beside the screen: a quick answer is there before the next paint, a slow one never holds the keys up."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any


class Worker:
    """Runs the newest job asked for, in threads of its own; an older answer that comes late is thrown away.

    A job that is already running cannot be stopped, so a newer one gets a thread beside it; when all are busy the
    newest waits and replaces whatever waited before it.
    """

    def __init__(self, threads: int = 3) -> None:
        self._limit = threads
        self._busy = 0
        self._newest = 0
        self._waiting: tuple[int, Callable[[], Any], Callable[[Any], None]] | None = None
        self._lock = threading.Condition()

    def run(self, job: Callable[[], Any], late: Callable[[Any], None], patience: float) -> tuple[bool, Any]:
        """Run a job; return (True, result) if it is done within `patience` seconds, else (False, None).

        In the second case `late(result)` is called from the worker's thread when it is done, unless a newer job
        was asked for meanwhile. The job handles its own exceptions.
        """
        with self._lock:
            self._newest += 1
            ticket = self._newest
            box: list[Any] = []
            slot: dict[str, bool] = {"late": False}

            def deliver(result: Any) -> None:
                with self._lock:
                    box.append(result)
                    is_late, newest = slot["late"], ticket == self._newest
                    self._lock.notify_all()
                if is_late and newest:
                    late(result)

            self._waiting = (ticket, job, deliver)
            if self._busy < self._limit:
                self._busy += 1
                threading.Thread(target=self._loop, daemon=True, name="reckoning").start()
            self._lock.wait_for(lambda: bool(box), timeout=patience)
            if box:
                return True, box[0]
            slot["late"] = True
            return False, None

    def _loop(self) -> None:
        while True:
            with self._lock:
                if self._waiting is None:
                    self._busy -= 1
                    return
                _, job, deliver = self._waiting
                self._waiting = None
            deliver(job())
