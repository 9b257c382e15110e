"""Files that people write: how much of one is read, where a mistake stands, and how to save without ever leaving half
a file."""

from __future__ import annotations

import os
import re
import stat
from typing import TYPE_CHECKING, Any

from engine.base.records import dataclass
from engine.base.refusals import BadInput

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Mapping
    from pathlib import Path

    from pydantic import ValidationError

Place = tuple[str | int, ...]

LARGEST = 256 * 1024  # bytes: a recipe of 200 full steps is a fifth of this
LONGEST_LINE = 2000  # characters
DEEPEST = 8  # a recipe itself needs five: steps, step, inputs, figure, its keys
MOST_PROBLEMS = 50

_HEADER = r"\s*(\[\[?)\s*([A-Za-z0-9_.\-]+)\s*\]\]?\s*(?:#.*)?"
_KEY = r"\s*([A-Za-z0-9_\-]+)\s*="


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake in a written file; `line` is None where it has no line of its own."""

    file: str
    line: int | None
    text: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.text}" if self.line else f"{self.file}: {self.text}"


class BadFile(BadInput):
    """A written file that cannot be used, with every problem found in it."""

    def __init__(self, field: str, path: str | Path, problems: tuple[Problem, ...]) -> None:
        self.problems = problems
        super().__init__(field, path, "a file without these mistakes", "\n".join(map(str, problems)))


class Unreadable(Exception):
    """A file that cannot be read at all; `str()` is the reason, without the file's name."""


def read_written(path: str | Path) -> str:
    """The text of a file that a person wrote, however it was named: never a device, a pipe, or more than one writes.

    >>> read_written("/dev/null")
    Traceback (most recent call last):
    engine.base.files.Unreadable: it is no plain file
    """
    try:
        if not stat.S_ISREG(os.stat(path).st_mode):
            raise Unreadable("it is a folder" if os.path.isdir(path) else "it is no plain file")
        with open(path, "rb") as file:
            raw = file.read(LARGEST + 1)
    except OSError as error:
        raise Unreadable(error.strerror or "it is no file") from None
    except ValueError:  # a nought byte in the path
        raise Unreadable("no file is called so") from None
    if len(raw) > LARGEST:
        raise Unreadable(f"it is longer than {LARGEST // 1024} kB")
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        raise Unreadable("it is not UTF-8 text") from None


def few(problems: Iterable[Problem], file: str) -> tuple[Problem, ...]:
    """The first problems by their lines, and how many more there are."""
    ordered = sorted(problems, key=lambda p: p.line or 0)
    rest = len(ordered) - MOST_PROBLEMS
    if rest <= 0:
        return tuple(ordered)
    return (*ordered[:MOST_PROBLEMS], Problem(file, None, f"and {rest} more."))


def line_numbers(text: str) -> dict[Place, int]:
    """The line, from 1, of every table header and `key =` of a TOML text (1.0.0), by its place: keys, and list positions from
    0. Keys inside inline tables have no line of their own.

    >>> line_numbers('name = "Shed"\\n[[knurls]]\\npitch = 1')[("knurls", 0, "pitch")]
    3
    """
    found: dict[Place, int] = {}
    counts: dict[Place, int] = {}
    prefix: Place = ()
    quotes = ""
    for number, line in enumerate(text.split("\n"), 1):
        if quotes:
            quotes = "" if quotes in line else quotes
            continue
        if header := re.fullmatch(_HEADER, line):
            prefix = _header_place(header[2].split("."), header[1] == "[[", counts)
            found.setdefault(prefix, number)
        elif key := re.match(_KEY, line):
            found.setdefault((*prefix, key[1]), number)
            quotes = next((q for q in ('"""', "'''") if line.count(q) % 2), "")
    return found


def _header_place(names: list[str], is_list: bool, counts: dict[Place, int]) -> Place:
    place: Place = ()
    for i, name in enumerate(names):
        place += (name,)
        if is_list and i == len(names) - 1:
            counts[place] = counts.get(place, -1) + 1
        if place in counts:
            place += (counts[place],)
    return place


def parse_toml(field: str, path: str | Path, text: str) -> dict[str, Any]:
    """Parse TOML 1.0.0, or say what it stumbled over and on which line. BadFile, which calls the file `field` (`shop file`,
    `recipe`), if the text is not TOML, or larger or deeper than any person writes it.

    >>> parse_toml("shop file", "shop.toml", "a = 1")
    {'a': 1}
    >>> parse_toml("shop file", "shop.toml", "a = 1\\nb =")
    Traceback (most recent call last):
    engine.base.files.BadFile: shop.toml:2: this is not TOML: invalid value.
    """
    _bounded(field, path, text)
    import tomllib  # only where a file is read: it takes an eighth of a first answer to load

    try:
        return _shallow(field, path, tomllib.loads(text))
    except (ValueError, RecursionError) as error:
        found = re.search(r"(?s)^(.*?)(?: \(at line (\d+), column \d+\)| \(at end of document\))?$", str(error))
        what = (found[1] if found else "nested too deeply").rstrip(".") or "nested too deeply"
        last = len(text.splitlines()) or 1
        line = int(found[2]) if found and found[2] else last
        sentence = f"this is not TOML: {what[0].lower()}{what[1:]}."
        raise _refused(field, path, line, sentence) from None


def _refused(field: str, path: str | Path, line: int | None, text: str) -> BadFile:
    return BadFile(field, path, (Problem(os.path.basename(path), line, text),))


def _bounded(field: str, path: str | Path, text: str) -> None:
    """Refuse what no person writes before a parser spends time on it."""
    if len(text) > LARGEST:
        raise _refused(field, path, None, f"a {field} is at most {LARGEST // 1024} kB long.")
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            raise _refused(field, path, number, f"a line of a {field} is at most {LONGEST_LINE} characters long.")


def _shallow(field: str, path: str | Path, document: dict[str, Any]) -> dict[str, Any]:
    """Refuse a document nested deeper than a written file is, before anything walks through it."""
    level: list[object] = [document]
    for _ in range(DEEPEST):
        nested = [
            outer.values() if isinstance(outer, dict) else outer for outer in level if isinstance(outer, dict | list)
        ]
        level = [inner for outer in nested for inner in outer]
    if any(isinstance(inner, dict | list) for inner in level):
        raise _refused(field, path, None, f"it is nested deeper than a {field} is.")
    return document


def problems_of(
    error: ValidationError, *, file: str, lines: Mapping[Place, int], known: Iterable[str], what: str,
    under: Place = (), elsewhere: Container[str] = (),
) -> tuple[Problem, ...]:  # fmt: skip
    """Translate what Pydantic found into one row a mistake, with its line.

    >>> from pydantic import ValidationError
    >>> from engine.base.models import model_of
    >>> from engine.shop.model import Slide
    >>> try:
    ...     _ = model_of(Slide).model_validate({"divisons": "80", "travel_per_turn": "2", "divisions": "80"})
    ... except ValidationError as error:
    ...     print(problems_of(error, file="shop.toml", lines={}, known=("divisions",), what="a key")[0])
    shop.toml: divisons: this is not a key. Did you mean 'divisions'?
    """
    names = list(known)
    told = [
        e
        for e in error.errors(include_url=False)
        if e["type"] == "extra_forbidden" or not e["loc"] or e["loc"][0] not in elsewhere
    ]
    found = [_problem(e, file, lines, names, what, under) for e in told[: 10 * MOST_PROBLEMS]]
    return few(found, file)


# Pydantic's words for what a file's author knows under another name.
_WORDS = {
    "string_type": "this must be text",
    "string_too_short": "this must not be empty",
    "string_too_long": "this must be at most {max_length} characters long",
    "string_pattern_mismatch": "this must be small letters, digits, - or _, beginning with a letter, 40 at most",
    "tuple_type": "this must be a list",
    "too_long": "this must have at most {max_length} entries",
    "dict_type": "this must be a table",
    "model_type": "this must be a table",
    "model_attributes_type": "this must be a table",
    "literal_error": "this must be {expected}",
}


def place_name(place: Place) -> str:
    """Return how a place in a file is written for a person: list entries from 1, nothing unprintable.

    >>> place_name(("steps", 1, "inputs"))
    'steps.2.inputs'
    """
    named = (str(p + 1) if isinstance(p, int) else p[:60] for p in place)
    return "".join(c if c.isprintable() else "?" for c in ".".join(named))


def _problem(error: Any, file: str, lines: Mapping[Place, int], known: list[str], what: str, under: Place) -> Problem:
    place: Place = (*under, *error["loc"])
    line = next((lines[place[:n]] for n in range(len(place), 0, -1) if place[:n] in lines), None)
    name = place_name(place)
    kind = error["type"]
    if kind == "missing":
        text = "this is needed and is not there."
    elif kind == "extra_forbidden":
        from difflib import get_close_matches  # only for a file with a mistake in it

        near = get_close_matches(str(place[-1]), known, n=1)
        text = f"this is not {what}." + (f" Did you mean {near[0]!r}?" if near else "")
    elif kind == "value_error":
        text = str(error["ctx"]["error"])
    else:
        wanted = _WORDS.get(kind, str(error["msg"])).format(**error.get("ctx", {}))
        text = f"{wanted}; found {_named(error['input'])}."
    return Problem(file, line, f"{name}: {text}")


def _named(found: object) -> str:
    """What was found, short and printable; of a list or a table only that it is one."""
    if isinstance(found, dict | list):
        return "a table" if isinstance(found, dict) else "a list"
    return ascii(found)[:60]


def write_safely(path: Path, text: str) -> None:
    """Write a file, and its folder if need be, so that after a power cut it holds the old text or the new, whole: rename()
    replaces atomically, fsync() of file and folder makes it last (POSIX.1-2017). OSError if the disk is full, read-only or
    not there; the old file is then untouched.

    >>> import tempfile
    >>> from pathlib import Path
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     write_safely(Path(folder, "a.toml"), "x = 1")
    ...     Path(folder, "a.toml").read_text()
    'x = 1'
    """
    write_bytes_safely(path, text.encode())


def private_folder(path: Path) -> None:
    """Make a folder, and those above it that are missing, for this user alone, whatever the umask is.

    Source: XDG Base Directory Specification 0.8: a folder that is not there is made with 0700.
    """
    for folder in reversed((path, *path.parents)):
        if not folder.is_dir():
            folder.mkdir(mode=0o700, exist_ok=True)


def write_bytes_safely(path: Path, data: bytes) -> None:
    """The same of a file that is no text."""
    private_folder(path.parent)
    target = path.resolve()  # a link stays a link: the file it points to is replaced
    if target.exists() and not target.is_file():  # a device or a pipe is written to; a folder refuses
        with open(target, "wb") as stream:
            stream.write(data)
        return
    fresh = target.with_name(f"{target.name}.{os.getpid()}.new")
    try:
        with open(fresh, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(fresh, target)
    except OSError:
        fresh.unlink(missing_ok=True)
        raise
    folder = os.open(target.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)


def stem_of(title: str, otherwise: str = "sheet") -> str:
    """A name for a file, without its ending, from a title: small letters, digits and hyphens, whatever the title holds.

    >>> stem_of("../../Height-adjuster nut"), stem_of("…")
    ('height-adjuster-nut', 'sheet')
    """
    words = re.findall(r"[a-z0-9]+", title.lower())
    return "-".join(words)[:60].strip("-") or otherwise
