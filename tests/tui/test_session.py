"""The session: the shop, failures kept apart, slow answers, units."""

import threading

import pytest

import tui.session
from engine.base.register import CATALOG, Entry
from tests.rows import each_row
from tui.session import Absent, OpenOperation, Session


def test_a_broken_shop_file_is_said_and_left_alone(tmp_path):
    bad = tmp_path / "shop.toml"
    bad.write_text("lathe = ")
    session = Session(bad)
    assert "shop.toml:1" in session.shop_problem and session.shop.lathe is not None
    assert bad.read_text() == "lathe = "


@pytest.mark.parametrize("content", [None, b"", b"\xff\xfe\x00", b"unit = 3", b"schema_version = 99"])
def test_any_shop_file_starts_the_app_and_is_left_as_it_is(tmp_path, content):
    where = tmp_path / "shop.toml"
    if content is not None:
        where.write_bytes(content)
    session = Session(where)
    assert session.shop is not None
    assert (content == b"") == (session.shop_problem == "")
    assert (where.read_bytes() if where.exists() else None) == content


def test_a_folder_in_place_of_a_shop_file_is_said(tmp_path):
    assert "folder" in Session(tmp_path).shop_problem


def test_an_operation_that_does_not_exist_cannot_be_opened_but_the_next_can():
    session = Session()
    ghost = session.open(Entry("ghost", "indexing", 0, "engine.indexing.ghost", "Ghost", "", "", "", ""))
    assert isinstance(ghost, Absent) and "Ghost" in ghost.reason
    assert isinstance(session.open_by_id("hand-dial"), OpenOperation)


@each_row("entry", CATALOG, ids=lambda e: e.id)
def test_every_operation_opens_with_its_example_answered(entry):
    one = Session().open(entry)
    assert isinstance(one, OpenOperation), one
    assert one.fresh, one.refusal


def test_a_slow_answer_comes_late_and_an_outdated_one_never(monkeypatch):
    release, real = threading.Event(), tui.session.run
    settled = threading.Event()

    def slow(operation, given, *args, **kwargs):
        if given.get("distance") == "1":
            release.wait(5)
        return real(operation, given, *args, **kwargs)

    session = Session()
    one = session.open_by_id("hand-dial")
    monkeypatch.setattr(tui.session, "run", slow)
    session.deliver = lambda settle: (settle(), settled.set())
    one.form.insert("1")
    session.reckon(one)
    assert one.working and not one.fresh
    release.set()
    assert settled.wait(5)
    assert one.fresh and one.done_for == {"distance": "1"}


def test_no_late_answer_is_lost_when_the_shop_has_changed(monkeypatch):
    """Two slow operations, one of them asked anew after the other: each gets its answer."""
    real, gate, came = tui.session.run, threading.Event(), threading.Semaphore(0)

    def slow(*args, **kwargs):
        gate.wait(5)
        return real(*args, **kwargs)

    session = Session()
    one, other = session.open_by_id("hand-dial"), session.open_by_id("tap-drill")
    monkeypatch.setattr(tui.session, "run", slow)
    monkeypatch.setattr(tui.session, "FIRST_PATIENCE", 0.01)
    session.deliver = lambda settle: (settle(), came.release())
    session.open_by_id("hand-dial")
    session.open_by_id("tap-drill")
    session.reload_shop()
    assert one.working and other.working
    gate.set()
    assert came.acquire(timeout=5) and came.acquire(timeout=5)
    assert one.fresh and other.fresh


def test_an_answer_overtaken_by_a_newer_one_is_not_shown(monkeypatch):
    real, gate, brought = tui.session.run, threading.Event(), []

    def slow(operation, given, *args, **kwargs):
        if given.get("distance") == "1":
            gate.wait(5)
        return real(operation, given, *args, **kwargs)

    session, came = Session(), threading.Event()
    one = session.open_by_id("hand-dial")
    monkeypatch.setattr(tui.session, "run", slow)
    session.deliver = lambda settle: (brought.append(settle), came.set())
    one.form.insert("1")
    session.reckon(one)
    gate.set()
    assert came.wait(5)  # on its way to the screen
    one.form.insert("2")
    session.reckon(one, 5.0)
    brought[0]()
    assert one.done_for == {"distance": "12"}


def test_the_neighbours_go_round_the_pane():
    session = Session()
    session.open_by_id("thread-limits")
    assert session.neighbour(-1) == "thread-relief"
    session.open_by_id("thread-relief")
    assert session.neighbour(1) == "thread-limits"


def test_another_unit_keeps_the_answer_and_works_nothing_out_again(tmp_path, monkeypatch):
    session = Session(tmp_path / "none.toml")
    one = session.open_by_id("turning-speed", {"diameter": "20"})
    before = one.done
    monkeypatch.setattr(session, "_work", None)
    session.switch_unit()
    assert (one.done.answer, one.done.unit, one.fresh) == (before.answer, "inch", True)
    assert one.done_for == one.form.given() and one.form.text("diameter") == "20 mm"


def test_what_is_refused_is_refused_in_the_other_unit(tmp_path):
    session = Session(tmp_path / "none.toml")
    one = session.open_by_id("turning-speed", {"diameter": "-20"})
    session.switch_unit()
    assert one.refusal and not one.fresh
