"""The person's own part files, killed at every moment of being written and given their name."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from engine.part import own
from engine.part.draft import opened, with_row, worked

HEAD = 'part_version = 1\ntitle = "nut"\nmaterial = "brass"\nbar = "28"\n'
TEXT = HEAD + '\n[[outside]]\nis = "diameter"\nsize = "25"\nlength = "5"\n'


class Killed(BaseException):
    """The program ends here: nothing after it runs, and nothing catches it."""


@dataclass
class Disk:
    """Lets so many changes through to the disk, then the kill comes."""

    left: int

    def change(self, do):
        def counted(*given, **named):
            if self.left == 0:
                raise Killed
            self.left -= 1
            return do(*given, **named)

        return counted


@pytest.fixture
def disk(monkeypatch):
    found = Disk(99)
    for name in ("write_safely", "write_bytes_safely"):
        monkeypatch.setattr(own, name, found.change(getattr(own, name)))
    for name in ("unlink", "rename"):
        monkeypatch.setattr(Path, name, found.change(getattr(Path, name)))
    return found


def whole():
    return opened(TEXT)


def half(words="knurl 26 x"):
    draft = whole()
    return with_row(draft, len(draft.rows) - 1, words)


def listed():
    return {one.name: tuple(row.text for row in own.load(one.path).rows) for one in own.parts()}


@pytest.mark.parametrize("changes", range(6))
@pytest.mark.parametrize("earlier", [(), (whole(),), (whole(), half())], ids=["new", "read", "half a line"])
def test_a_kill_while_a_new_part_is_named_loses_nothing(earlier, changes, disk):
    path = own.fresh_path("new-part")
    for draft in earlier:
        own.keep(path, draft, worked(draft))
    before = set(listed().values())
    disk.left = changes
    try:
        own.renamed(path, "nut")
        assert set(listed()) == ({"nut"} if earlier else set())
    except Killed:
        pass
    assert set(listed().values()) == before


@pytest.mark.parametrize("changes", range(4))
def test_a_kill_while_a_line_is_completed_leaves_the_line_before_or_after(changes, disk):
    path = own.fresh_path("nut")
    first, last = half(), half("knurl 26 x 8")
    assert worked(first).unread and not worked(last).unread
    for draft in (whole(), first):
        own.keep(path, draft, worked(draft))
    stale = path.with_suffix(".typing").read_text()
    disk.left = changes
    try:
        own.keep(path, last, worked(last))
        assert not path.with_suffix(".typing").exists()
    except Killed:
        pass
    now = [text for text in listed()["nut"] if text]
    assert now[-1] == ("knurl 26 x" if changes == 0 else "knurl 26 x 8")
    path.with_suffix(".typing").write_text(stale)  # a power cut forgot that it was taken away
    disk.left = 99
    newest = half("knurl 26 x 9")
    own.keep(path, newest, worked(newest))
    assert "knurl 26 x 9" in listed()["nut"]
