"""The voice: what is to be set next is handed to a speech program, once, and nothing waits for it."""

import os
import stat
import time

import pytest

from tests.tui.driving import driving
from tests.tui.test_job_screens import begin, press, read_all
from tui.app import TommybarApp
from tui.voice import Aloud, Voice, installed, read_as


@pytest.fixture
def speech(tmp_path, monkeypatch):
    """A speech program that writes down what it is told, and takes its time."""
    told, folder = tmp_path / "told", tmp_path / "bin"
    folder.mkdir()
    program = folder / "espeak-ng"
    program.write_text(f'#!/bin/sh\nprintf "%s\\n" "$1" >> {told}\nexec sleep 20\n')
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    monkeypatch.setenv("PATH", f"{folder}:{os.environ['PATH']}")
    return told


def lines(told, count):
    for _ in range(200):
        if told.exists() and len(found := told.read_text().splitlines()) >= count:
            return found
        time.sleep(0.01)
    raise AssertionError(told.read_text() if told.exists() else "nothing was said")


def test_it_says_each_place_once_cuts_itself_short_and_waits_for_nothing(speech):
    rung = []
    voice = Voice(ring=lambda: rung.append(1))
    assert "espeak-ng says" in voice.switch() and installed().endswith("espeak-ng")
    began = time.perf_counter()
    voice.follow(Aloud((1, 1), "Line 1 of 2", last=False))
    voice.follow(Aloud((1, 1), "Line 1 of 2", last=False))
    assert lines(speech, 1) == ["Line 1 of 2"]
    voice.follow(Aloud((1, 2), "Line 2 of 2", last=True))
    assert lines(speech, 2)[1] == "Line 2 of 2" and not rung
    voice.follow(Aloud((2, 0), "Deburr"))
    assert lines(speech, 3)[2] == "Deburr" and rung == [1]
    assert voice.switch() == "The voice is off." and time.perf_counter() - began < 15
    voice.follow(Aloud((3, 0), "Measure"))
    assert len(lines(speech, 3)) == 3


def test_without_a_program_there_is_the_bell_alone(tmp_path, monkeypatch):
    monkeypatch.setenv("PATH", str(tmp_path))
    rung = []
    voice = Voice(ring=lambda: rung.append(1))
    assert "only the bell" in voice.switch()
    voice.follow(Aloud((1, 2), "Line 2 of 2", last=True))
    voice.follow(Aloud((2, 0), "Deburr"))
    assert rung == [1]


def test_signs_are_read_as_words():
    assert read_as("-1 mm · 40°") == "1 millimetres, 40 degrees"


async def test_a_job_says_its_next_setting(monkeypatch):
    said = []
    monkeypatch.setattr("tui.voice.Voice._say", lambda self, words: said.append(words))
    async with TommybarApp().run_test(size=(80, 24)) as pilot:
        await begin(pilot, "hexagon-spacer")
        await read_all(pilot)
        await press(pilot, "exclamation_mark")
        await press(pilot, "space", "backspace", "c", "escape")
    assert len(said) == 3 and said[0] == said[2] != said[1]


async def test_the_bench_says_what_stands_in_large_type_and_rings_at_the_last(monkeypatch):
    said, rung = [], []
    monkeypatch.setattr("tui.voice.Voice._say", lambda self, words: said.append(words))
    monkeypatch.setattr("tui.app.TommybarApp.bell", lambda self: rung.append(1))
    async with driving() as d:
        await d.open("divide")
        d.app.session.here().form.put("divisions", "3") if hasattr(d.app.session.here().form, "put") else None
        await d.press("escape", "exclamation_mark", "l")
        assert (said and said[0].startswith("Position 1 of ")) or "of" in said[0]
        count = len(d.app.session.here().done.answer.tables[0].rows)
        d.app.session.here().row = count - 1
        await d.press("space")
        assert rung == [1] and str(count) in said[-1]
