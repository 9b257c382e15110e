"""Real images: only where the terminal has said that it shows them, the same shapes, taken away with their screen."""

import re
from base64 import standard_b64decode
from io import BytesIO

import pytest

from engine.base.answer import Circle, Label, Line, Picture, Pointer, Size
from engine.base.words import write
from tests.tui.driving import driving
from tui import pictures
from tui.widgets import shown_image

Image = pytest.importorskip("PIL.Image")
XTERM = {"TERM": "xterm-256color"}


@pytest.fixture(autouse=True)
def as_before():
    yield
    pictures.use("plain")
    shown_image._wanted.clear()


def test_a_terminal_is_asked_and_has_to_answer(monkeypatch):
    assert pictures.begin(None, XTERM) == pictures.ASK and pictures.means() == "fine"
    assert pictures.answered("\x1b[?62;22c") == ("", "", False) and pictures.means() == "fine"  # no 4: no sixel
    assert pictures.answered("\x1b[6;18;9t\x1b[?62;4;22c") == ("", "", True)
    assert (pictures.means(), pictures.cell()) == ("sixel", (9, 18))
    question = pictures.begin(None, {"TERM": "xterm-kitty"})
    assert question == pictures.ASK_KITTY + pictures.ASK and pictures.means() == "fine"
    pictures.answered("\x1b_Gi=31;OK\x1b\\")
    assert pictures.means() == "kitty"
    pictures.begin(None, {"TERM": "xterm-kitty"})
    pictures.answered("\x1b_Gi=31;ENOTSUP: no\x1b\\")
    assert pictures.means() == "fine"


def test_a_console_is_never_asked_and_one_setting_switches_images_off(monkeypatch):
    assert pictures.begin(None, {"TERM": "linux", "COLORTERM": "truecolor"}) == "" and pictures.means() == "plain"
    assert pictures.begin("fine", XTERM) == "" and pictures.means() == "fine"
    assert pictures.begin("plain", XTERM) == "" and pictures.means() == "plain"
    pictures.begin("fine", XTERM)
    pictures.answered("\x1b[?62;4c")
    assert pictures.means() == "fine"
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    assert pictures.begin(None, XTERM) == ""  # without the library there is nothing to ask for


@pytest.mark.parametrize(
    ("typed", "keys", "rest"),
    [
        ("abc", "abc", ""),
        ("\x1b", "\x1b", ""),
        ("\x1b[A", "\x1b[A", ""),
        ("\x1b[6~", "\x1b[6~", ""),
        ("7\x1b[?62;22c8", "78", ""),
        ("x\x1b[?62", "x", "\x1b[?62"),
        ("\x1b_Gi=31;O", "", "\x1b_Gi=31;O"),
    ],
)
def test_keys_among_answers_are_kept(typed, keys, rest):
    pictures.begin(None, XTERM)
    assert pictures.answered(typed)[:2] == (keys, rest)


SHAPES = (Line(0, 0, 40, 20, 1), Line(0, 0, 40, 0, 1, 1), Circle(20, 10, 6), Size(0, 0, 40, 0, "40", "below"))
DRAWN = Picture("p", "p", SHAPES, "A picture.")


def said(shape):
    return write(shape.text) if isinstance(shape, Label | Size | Pointer) else ""


def unsixel(data):
    """The image that a terminal makes of sixel graphics."""
    wide, high = map(int, re.match(r'\x1bP0;1q"1;1;(\d+);(\d+)', data).groups())
    made, inks = Image.new("RGB", (wide, high)), {}
    x = y = colour = 0
    for found in re.finditer(r"#(\d+)(;2;([\d;]+))?|(?:!(\d+))?([?-~])|[$-]", data[data.index("#") : -2]):
        number, two, rgb, repeat, glyph = found.groups()
        if number:
            colour = int(number)
            if two:
                inks[colour] = tuple(round(int(v) * 2.55) for v in rgb.split(";"))
        elif glyph:
            for column in range(x, x + int(repeat or 1)):
                for bit in range(6):
                    if (ord(glyph) - 63) >> bit & 1:
                        made.putpixel((column, y + bit), inks[colour])
            x += int(repeat or 1)
        else:
            x, y = 0, y + 6 * (found[0] == "-")
    return made


def test_sixel_and_kitty_carry_the_image_that_was_drawn():
    from tui.widgets import raster

    made = raster.image(DRAWN, (180, 96), (9, 18), said, 1, "dark")
    back = unsixel(raster.sixel(made))
    assert back.size == made.size
    dots = [(p, q) for p, q in zip(*(i.tobytes() for i in (made, back)), strict=True)]
    close = sum(abs(p - q) <= 40 for p, q in dots)
    assert close > 0.97 * len(dots)  # eight colours: the edges of letters are rounded
    pieces = re.findall(r"\x1b_G[^;]*;([^\x1b]*)\x1b\\", raster.kitty(made, 20, 6))
    assert Image.open(BytesIO(standard_b64decode("".join(pieces)))).tobytes() == made.tobytes()
    assert all(len(piece) <= 4096 for piece in pieces)


async def test_an_image_stands_on_its_cells_and_goes_with_its_screen(monkeypatch):
    sent = []
    async with driving((120, 40)) as d:
        monkeypatch.setattr(d.app, "to_terminal", sent.append)
        await d.open("tap-drill")
        assert not sent  # nothing was asked for, nothing is shown
        pictures.use("kitty")
        d.app.redraw()
        await d.settled()
        (placed,) = d.app.images
        shown = [data for data in sent if "\x1b_Ga=T" in data]
        assert len(shown) == 1 and shown[0].startswith(f"\x1b7\x1b[{placed.line + 1};{placed.column + 1}H")
        d.app.open_screen("jobs")
        await d.pilot.pause()
        assert d.app.images == () and sent[-1] == shown_image.gone()
        d.app.to_bench()
        d.app.redraw()
        await d.settled()
        assert "\x1b_Ga=T" in sent[-1]
