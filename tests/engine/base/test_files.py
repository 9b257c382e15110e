"""Files people write: places of mistakes, and saving whole."""

import os
from pathlib import Path

import pytest

from engine.base.files import BadFile, line_numbers, parse_toml, write_safely

TEXT = '''name = "a"
about = """
[not.a.header]
x = 1
"""
[lathe]
motor = 1
[[knurls]]
pitch = 1
[[knurls]]
pitch = 2
[knurls.extra]
y = 1
'''


def test_lines_of_headers_keys_and_list_entries():
    lines = line_numbers(TEXT)
    assert lines[("lathe", "motor")] == 7
    assert lines[("knurls", 1, "pitch")] == 11
    assert lines[("knurls", 1, "extra", "y")] == 13
    assert ("x",) not in lines


@pytest.mark.parametrize(
    "text, line", [("a = 1\nb = ", 2), ("[a]\n[a]\n", 2), ("a = [1,", 1), ("a = " + "[" * 1500, 1)]
)
def test_what_is_no_toml_is_said_with_its_line(text, line):
    with pytest.raises(BadFile) as caught:
        parse_toml("shop file", Path("x/shop.toml"), text)
    assert str(caught.value).startswith(f"shop.toml:{line}: this is not TOML: ")


def test_a_failed_write_leaves_the_old_file(tmp_path, monkeypatch):
    path = tmp_path / "shop.toml"
    write_safely(path, "old = 1\n")

    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError):
        write_safely(path, "new = 1\n")
    assert path.read_text() == "old = 1\n"
    assert list(tmp_path.iterdir()) == [path]


def test_the_file_is_flushed_before_it_takes_the_name(tmp_path, monkeypatch):
    """POSIX promises the new text after a power cut only for write, fsync, rename, fsync of the folder."""
    calls = []
    for name in ("fsync", "replace"):
        real = getattr(os, name)
        monkeypatch.setattr(os, name, lambda *a, n=name, f=real: (calls.append(n), f(*a))[1])
    write_safely(tmp_path / "a.toml", "x = 1\n")
    assert calls == ["fsync", "replace", "fsync"]


@pytest.mark.parametrize("mask", [0o000, 0o002, 0o022])
def test_a_folder_that_is_made_is_this_users_alone(tmp_path, mask):
    """XDG Base Directory Specification 0.8: 0700, whatever the umask is; one that stands stays as it is."""
    tmp_path.chmod(0o755)
    before = os.umask(mask)
    try:
        write_safely(tmp_path / "a" / "b" / "shop.toml", "x = 1")
    finally:
        os.umask(before)
    made = [(tmp_path / "a").stat().st_mode & 0o777, (tmp_path / "a" / "b").stat().st_mode & 0o777]
    assert made == [0o700, 0o700] and tmp_path.stat().st_mode & 0o777 == 0o755
