"""The quick reader of plain TOML against the standard library's reader (TOML 1.0.0)."""

import random
import tomllib
from pathlib import Path

import pytest

from engine.base.plain_toml import plain

PROJECT = Path(__file__).parents[3]
WRITTEN = [path.read_text() for path in sorted(PROJECT.glob("*/**/*.toml"))]
PIECES = (
    '"', ",", "[", "]", "[[", "]]", ".", "=", "#", "\n", " ", "\t", "-", "0", "00", "1.", "a", "a.b", "true", "\nx = 1",
    "\n[a]\n", "\n[[a]]\n", "\n[a.b]\n", "\n[[a.b]]\n", "\na = []\n", "\\", "é", "1_0", "+1", "e5",
    "nan", "{}", "'", "\r", "\x0b", "\xa0", "\x7f",
)  # fmt: skip


def standard(text: str) -> str:
    """What the standard library reads, in full; "" where it refuses."""
    try:
        return repr(tomllib.loads(text))
    except tomllib.TOMLDecodeError:
        return ""


@pytest.mark.parametrize("name", ["metric", "inch"])
def test_a_sample_shop_is_plain(name: str) -> None:
    assert plain((PROJECT / f"engine/shop/{name}.toml").read_text()) is not None


def test_what_it_reads_the_standard_reader_reads_alike() -> None:
    chance = random.Random(20)
    read = 0
    for text in WRITTEN * 40:
        start = chance.randrange(len(text))
        some = text[start : start + 300] if chance.random() < 0.7 else text[:3000]
        for _ in range(chance.randrange(4)):
            at = chance.randrange(len(some) + 1)
            some = some[:at] + chance.choice(PIECES) + some[at + chance.choice((0, 0, 1)) :]
        found = plain(some)
        if found is not None:
            read += 1
            assert repr(found) == standard(some), some
    assert read > 200


@pytest.mark.parametrize(
    "text",
    [
        "a = 1\na = 2", "[a]\n[a]", "a = [1]\n[[a]]", "a = []\n[[a]]", "[[a]]\n[a]", "a = 1\n[a.b]", "[a.b]\nc = 1", "a.b = 1",
        "a = 01", "a = 1_000", "a = 'b'", 'a = "\\n"', 'a = "b" # c', "a = [[1]]", "a = [1,\n2]", "a = {b = 1}", "a =", "a", "[a",
        "a = 1.", "a = .5", "a = 1e3", "a = nan", "a = 2020-01-01", 'a = ["b, c"]', "a = [1,]", "a = 1\r\n", "# \x01", 'a = "\t"',
    ],
)  # fmt: skip
def test_what_is_not_plain_is_left_to_the_standard_reader(text: str) -> None:
    assert plain(text) is None
