"""No answer moves unseen: every operation's answers on the grid of tests/pins.py are those that were written down.

A figure or a table may be added; one that was there stays as it was.
"""

import json

import pytest

from tests.pins import FOLDER, lines, path


@pytest.mark.parametrize("operation_id", sorted(file.stem for file in FOLDER.glob("*.jsonl")))
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
