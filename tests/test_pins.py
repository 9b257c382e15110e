"""No answer moves unseen: every operation's answers on the grid of tests/pins.py are those that were written down."""

import json

import pytest

from engine.base.register import CATALOG
from tests.pins import lines, path


@pytest.mark.parametrize("operation_id", [entry.id for entry in CATALOG])
def test_answers_stand_as_written_down(operation_id):
    kept = path(operation_id).read_text(encoding="utf-8").splitlines()
    now = lines(operation_id)
    for before, after in zip(kept, now, strict=False):
        assert json.loads(after) == json.loads(before)
    assert len(now) == len(kept)
