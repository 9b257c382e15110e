"""No answer moves unseen: every operation's answers on the grid of tests/pins.py are those that were written down.

A figure or a table may be added; one that was there stays as it was.
"""

import json

import pytest

from tests.edges import kept, letters
from tests.pins import FOLDER, lines, path

PINNED = sorted(file.stem for file in FOLDER.glob("*.jsonl"))


@pytest.mark.parametrize("operation_id", PINNED)
def test_answers_stand_as_written_down(operation_id):
    kept = path(operation_id).read_text(encoding="utf-8").splitlines()
    now = lines(operation_id)
    for before, after in zip(kept, now, strict=False):
        *asked, was = json.loads(before)
        *asks, now_is = json.loads(after)
        for kind in ("figures", "tables"):
            if kind in now_is:
                now_is[kind] = {name: value for name, value in now_is[kind].items() if name in was.get(kind, {})}
        assert (asks, now_is) == (asked, was)
    assert len(now) == len(kept)


@pytest.mark.parametrize("operation_id", PINNED)
def test_answers_at_the_edges_stand_as_written_down(operation_id):
    """The letters of an answer are written anew by `python -m tests.pins`, once what moved is meant."""
    for answered, given in kept(operation_id):
        assert (letters(operation_id, given), given) == (answered, given)
