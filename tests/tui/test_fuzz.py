"""Random keys: whatever is pressed, no traceback, no report of a fault, and the screen stays whole."""

import random

import pytest
from textual.events import Key

from tests.tui.driving import driving
from tui.commands import COMMANDS
from tui.report import report_path

CHARACTERS = {"full_stop": ".", "slash": "/", "minus": "-", "plus": "+", "number_sign": "#", "question_mark": "?",
              "space": " "}  # fmt: skip
KEYS = (
    [key for c in COMMANDS for key in c.keys if c.id != "quit"]
    + ["tab", "shift+tab", "up", "down", "left", "right", "home", "end", "backspace", "delete", "enter", "space"]
    + ["pageup", "pagedown", "ctrl+u", "escape", "f2", "f3", "f4", "f5", "f6", "f7", "y", "n"]
    + list("0123456789") * 2
    + ["full_stop", "slash", "minus", "number_sign", "m", "x", "a", "é", "中"]
)


async def press_at_random(seed: int, size: tuple[int, int], count: int) -> None:
    """Press keys as fast as the program takes them, then look at what is left."""
    chance = random.Random(seed)
    async with driving(size) as d:
        for n in range(count):
            key = chance.choice(KEYS)
            d.app.post_message(Key(key, CHARACTERS.get(key, key if len(key) == 1 else None)))
            if n % 10 == 9:
                await d.pilot.pause()
        await d.pilot.pause()
        assert d.app.is_running
        assert len("".join(s.text for s in d.segments)) == size[0] * size[1]
    assert not report_path().exists(), report_path().read_text()


@pytest.mark.parametrize(("seed", "size"), [(1, (80, 24)), (2, (120, 40)), (3, (60, 16))], ids=str)
async def test_random_keys_never_reach_a_fault(seed, size):
    await press_at_random(seed, size, 300)
