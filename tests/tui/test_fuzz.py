"""Random keys: whatever is pressed, no traceback, no report of a fault, and the screen stays whole."""

import random

import pytest
from textual.events import Key, Paste, Resize
from textual.geometry import Size

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


PASTES = (
    "M10\nx\x1b[31m\x00[red]",
    "9" * 3000,
    "日本ü½−",
    "\x1b[",
    "[@click=quit]x[/]",
    "3/8 unf\r\n\t",
    "-1e99",
    "nan",
)
SIZES = ((20, 5), (60, 16), (80, 24), (120, 40), (300, 100))


async def press_at_random(seed: int, size: tuple[int, int], count: int) -> None:
    """Press keys as fast as the program takes them, paste and change the size between, then look at what is left."""
    chance = random.Random(seed)
    async with driving(size) as d:
        for n in range(count):
            what = chance.random()
            if what < 0.02:
                d.app.post_message(Paste(chance.choice(PASTES)))
            elif what < 0.03:
                size = chance.choice(SIZES)
                d.app.post_message(Resize(Size(*size), Size(*size)))
            else:
                key = chance.choice(KEYS)
                d.app.post_message(Key(key, CHARACTERS.get(key, key if len(key) == 1 else None)))
            if n % 10 == 9:
                await d.pilot.pause()
        await d.resize(*size)
        assert d.app.is_running
        assert len("".join(s.text for s in d.segments)) == size[0] * size[1]
    assert not report_path().exists(), report_path().read_text()


@pytest.mark.parametrize(("seed", "size"), list(enumerate(SIZES, start=1)), ids=str)
async def test_random_keys_never_reach_a_fault(seed, size):
    await press_at_random(seed, size, 200)
