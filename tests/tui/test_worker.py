"""The worker: quick answers at once, slow ones late, of each key only the newest, and none of another key lost."""

import threading

from engine.base.stopping import stop_asked
from tui.worker import Worker


class Slow:
    """A job that ends when it is released, or asked to stop, and says which."""

    def __init__(self):
        self.release, self.began, self.got, self.done = (threading.Event() for _ in range(4))
        self.result = None

    def job(self):
        self.began.set()
        while not self.release.wait(0.002):
            if stop_asked():
                return "best so far"
        return "slow"

    def late(self, result):
        self.result = result
        self.done.set()


def test_a_quick_job_answers_at_once_and_its_thread_is_kept():
    worker = Worker()
    threads = {worker.run("a", threading.get_ident, lambda _: None, 5.0)[1] for _ in range(20)}
    assert len(threads) == 1 and threads != {threading.get_ident()}


def test_a_slow_job_answers_late():
    slow = Slow()
    assert Worker().run("a", slow.job, slow.late, 0.01) == (False, None)
    slow.release.set()
    assert slow.done.wait(5) and slow.result == "slow"


def test_a_newer_job_of_the_same_key_makes_an_older_answer_void_and_stops_it():
    slow, worker = Slow(), Worker(threads=1)
    worker.run("a", slow.job, slow.late, 0.01)
    assert worker.run("a", lambda: "new", slow.late, 5.0) == (True, "new")  # the only thread is free again
    assert slow.result is None


def test_answers_of_other_keys_are_all_delivered_however_late():
    slows, worker = {key: Slow() for key in "abcde"}, Worker()
    for key, slow in slows.items():
        worker.run(key, slow.job, slow.late, 0.0)
    for slow in slows.values():
        slow.release.set()
    assert all(slow.done.wait(5) and slow.result == "slow" for slow in slows.values())


def test_a_slow_job_does_not_hold_up_that_of_another_key():
    slow, worker = Slow(), Worker()
    worker.run("a", slow.job, slow.late, 0.01)
    assert worker.run("b", lambda: 7, lambda _: None, 5.0) == (True, 7)
    slow.release.set()
    assert slow.done.wait(5)


def test_a_job_told_to_stop_answers_with_what_it_has():
    slow, worker = Slow(), Worker()
    worker.run("a", slow.job, slow.late, 0.01)
    worker.stop("a")
    assert slow.done.wait(5) and slow.result == "best so far"


def test_a_job_that_still_waits_is_replaced_by_the_newer_of_its_key():
    slow, ran, worker = Slow(), [], Worker(threads=1)
    worker.run("a", slow.job, slow.late, 0.01)
    done = threading.Event()
    for n in range(5):
        worker.run("b", lambda n=n: ran.append(n), lambda _: done.set(), 0.0)
    slow.release.set()
    assert done.wait(5) and ran == [4]
