"""The worker: quick answers at once, slow ones late, and only the newest."""

import threading
import time

from tui.worker import Worker


def test_a_quick_job_answers_at_once():
    assert Worker().run(lambda: 7, lambda _: None, 2.0) == (True, 7)


def test_a_slow_job_answers_late():
    release, got, done = threading.Event(), [], threading.Event()

    def late(result):
        got.append(result)
        done.set()

    worker = Worker()
    assert worker.run(lambda: release.wait(5) and "slow", late, 0.01) == (False, None)
    release.set()
    assert done.wait(5) and got == ["slow"]


def test_a_newer_job_makes_an_older_answer_void():
    release, got, done = threading.Event(), [], threading.Event()
    worker = Worker()
    worker.run(lambda: release.wait(5), lambda _: got.append("old"), 0.01)
    assert worker.run(lambda: "new", got.append, 2.0) == (True, "new")
    release.set()
    threading.Timer(0.05, done.set).start()
    assert done.wait(5) and got == []


def test_when_all_threads_are_busy_only_the_newest_waits():
    release, ran = threading.Event(), []
    worker = Worker(threads=1)
    worker.run(lambda: release.wait(5), lambda _: None, 0.01)
    for n in range(5):
        worker.run(lambda n=n: ran.append(n), lambda _: None, 0.0)
    release.set()
    limit = time.monotonic() + 5
    while not ran and time.monotonic() < limit:
        time.sleep(0.005)
    assert ran == [4]
