"""What a bare console can show: glyphs, eight colours, idleness, sizes; and keys that it can send."""

import asyncio
import itertools

import pytest
from textual._xterm_parser import XTermParser

from tests.rows import each_row
from tests.tui.driving import driving
from tests.tui.test_lines import CONSOLE
from tui.commands import BENCH, COMMANDS, EVERYWHERE
from tui.keyboard import shifted
from tui.look import LOOKS, styles
from tui.panes.bench_view import VIEW_NAMES

# Keys that arrive under their own name on the Linux console and in tmux on it, measured on a real console.
_CONTROL = {f"ctrl+{c}" for c in "abdefgklnopqrstuvwxy"}  # not h, i, j, m, [, c, z
SENDABLE = (
    _CONTROL
    | {f"f{n}" for n in range(1, 13)}
    | {"escape", "enter", "tab", "shift+tab", "space", "up", "down", "left", "right"}
    | {"home", "end", "pageup", "pagedown"}
    | {"slash", "question_mark", "plus", "minus", "exclamation_mark"}
    | set("abcdefghijklmnopqrstuvwxyz0123456789")
    | {f"shift+f{n}" for n in range(2, 8)}  # under other names, which tui/keyboard.py knows
)  # fmt: skip


@each_row("command", COMMANDS, ids=lambda c: c.id)
def test_every_key_of_a_command_can_be_sent_by_a_console(command):
    assert set(command.keys) <= SENDABLE


@pytest.mark.parametrize(
    ("sent", "key"),
    [
        ("26", "shift+f2"),
        ("28", "shift+f3"),
        ("29", "shift+f4"),
        ("31", "shift+f5"),
        ("32", "shift+f6"),
        ("33", "shift+f7"),
    ],
)
def test_the_console_s_own_codes_of_shift_are_read(sent, key):
    """F14 to F19 of the kernel's default keymap."""
    assert [event.key for event in XTermParser().feed(shifted(f"\x1b[{sent}~"))] == [key]


@each_row("command", COMMANDS, ids=lambda c: c.id)
def test_every_command_works_inside_a_field_and_outside(command):
    # The pane's own key, pressed again, leads round inside a field; the voice is switched once and for all.
    if command.means in ("next", "previous") or command.id == "voice":
        return
    if not command.id.startswith("pane-"):  # a function key reaches a pane from anywhere
        assert len(command.keys) > 1
    assert len(command.keys[0]) > 1, "no function or control key"


def test_no_key_does_two_things():
    keys = [key for c in COMMANDS for key in c.keys]
    assert len(keys) == len(set(keys))
    assert {c.where for c in COMMANDS} == {BENCH, EVERYWHERE}


@pytest.mark.parametrize("look", LOOKS)
def test_a_look_uses_eight_colours_and_never_one_on_itself(look):
    for role, style in styles(look).items():
        if look == "mono":
            assert style.color is None and style.bgcolor is None
            continue
        assert style.color.number < 8 and style.bgcolor.number < 8, role
        assert style.color.number != style.bgcolor.number, role
        # The console shows bold black as a dark grey, which is not read on green (seen on its 80x25 text screen).
        assert not (style.bold and style.color.name == "black" and style.bgcolor.name != "white"), role


SIZES = [(60, 16), (80, 24), (110, 30), (120, 40), (200, 60), (40, 10), (20, 4), (3, 2)]


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_every_view_at_every_size_uses_only_console_glyphs_and_fills_the_screen(size):
    async with driving(size) as d:
        for operation, view in itertools.product(("bar-plan", "scale-lines", "hand-dial"), VIEW_NAMES):
            await d.open(operation)
            d.app.bench.show_view(view)
            await d.pilot.pause()
            painted = "".join(s.text for s in d.segments)
            assert {c for c in painted if ord(c) > 126} <= CONSOLE, (operation, view)
            assert len(painted) == size[0] * size[1], (operation, view)
            assert "cannot be drawn" not in painted, (operation, view)


async def test_no_color_leaves_a_legible_screen(monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with driving() as d:
        assert d.app.look == "mono"
        colours = {
            (s.style.color and s.style.color.name, s.style.bgcolor and s.style.bgcolor.name)
            for s in d.segments
            if s.style
        }
        assert colours <= {(None, None), ("default", "default")}
        await d.press("tab")
        assert "> " in d.text  # the field in hand is told by a mark


async def test_resizing_lays_the_screen_out_again():
    async with driving((80, 24)) as d:
        assert "Operations ──" not in d.text
        await d.resize(120, 40)
        assert "── Operations" in d.text and len(d.text.splitlines()) == 40
        await d.resize(50, 12)
        assert len(d.text.splitlines()) == 12 and "■" in d.text
        assert any(said in d.text for said in ("[", "None of these"))


async def test_narrow_screens_keep_three_lines_of_cautions_in_view():
    async with driving((80, 24)) as d:
        for operation in ("turning-speed", "part-off", "solder"):
            await d.open(operation)
            rows = d.text.splitlines()
            head = next(i for i, row in enumerate(rows) if row.startswith("── Cautions"))
            cautions = [row for row in rows[head + 1 : -1] if not row.startswith("Set-up")]
            assert len(cautions) >= 3 and cautions[0].startswith("[") and not any("…" in row for row in cautions)


async def test_an_idle_screen_writes_nothing():
    async with driving((80, 24)) as d:
        await d.pilot.pause(0.3)
        count, original = 0, d.app._display

        def counted(*args, **kwargs):
            nonlocal count
            count += 1
            return original(*args, **kwargs)

        d.app._display = counted
        await asyncio.sleep(1.0)
        assert count == 0


async def test_an_untouched_key_repaints_only_the_rows_that_changed():
    async with driving((80, 24)) as d:
        await d.open("hand-dial")
        await d.type("17")
        regions = []
        d.app.bench.canvas.refresh = lambda *r, **k: regions.extend(r)
        await d.press("3")
        assert 0 < len(regions) < 15
