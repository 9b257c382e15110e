"""The shell door `tommybar sheet WHAT`: the setting card of a job, a recipe or a part's plan, to print."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Literal

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.shop.file import load as load_shop
from tui.paper.made import ENDINGS, Asked, Format, file_name, of_job, of_name, stamp, written
from tui.wording import speak_as_shop, spoken

USAGE = (
    "tommybar sheet JOB-NUMBER | NAME | FILE.toml [--full] [-o FILE.html | FILE.pdf | FILE.txt | -] "
    "[--as html | pdf | text] [--a4 | --letter] [--force] [--inch | --mm] [--shop FILE]"
)
_FORMATS: tuple[Format, ...] = ("html", "pdf", "text")
_OPTIONS = "--full, --card, -o FILE, --as html, pdf or text, --a4, --letter, --force, --inch, --mm or --shop FILE"


@dataclass
class _Line:
    what: str = ""
    out: Path | None = None
    format: Format | None = None
    unit: str = ""
    paper: Literal["", "A4", "Letter"] = ""
    shop: Path | None = None
    full: bool = False
    force: bool = False


def sheet(words: list[str]) -> int:
    """Write the card of a job (by its number), of a recipe or of a part (by name or file); return the exit code."""
    from engine.jobs.store import JournalError

    try:
        line = _parse(words)
        path = _made(line)
    except (BadInput, JournalError) as refusal:
        speak_as_shop(None)
        for row in spoken(str(refusal)).splitlines():
            print("".join(c if c.isprintable() else "?" for c in row), file=sys.stderr)
        return 2
    if path is not None:
        print("".join(c if c.isprintable() else "?" for c in str(path)))
    return 0


def _parse(words: list[str]) -> _Line:
    line, rest = _Line(), iter(words)
    for word in rest:
        if word in ("-o", "--out"):
            line.out = Path(next(rest, ""))
        elif word == "--as":
            line.format = _format(next(rest, ""))
        elif word.startswith("--as="):
            line.format = _format(word[5:])
        elif word in ("--a4", "--letter"):
            line.paper = "A4" if word == "--a4" else "Letter"
        elif word in ("--inch", "--mm"):
            line.unit = word[2:]
        elif word in ("--full", "--card"):
            line.full = word == "--full"
        elif word == "--force":
            line.force = True
        elif word == "--shop":
            line.shop = Path(next(rest, ""))
        elif word.startswith("--shop="):
            line.shop = Path(word[7:])
        elif word.startswith("-") and word != "-":
            raise BadInput("option", word, _OPTIONS)
        elif not line.what:
            line.what = word
        else:
            raise BadInput("sheet", word, "one job, recipe or part")
    if not line.what:
        raise BadInput("sheet", "", "a job, a recipe or a part", f"sheet: name a job, a recipe or a part: {USAGE}")
    return line


def _format(word: str) -> Format:
    for one in _FORMATS:
        if word == one:
            return one
    raise BadInput("--as", word, "html, pdf or text")


def _made(line: _Line) -> Path | None:
    source = of_job(int(line.what[:12])) if line.what.isdecimal() else of_name(line.what, load_shop(line.shop))
    kind = line.format or _kind_of(line.out)
    unit = line.unit or source.worked.shop.unit
    asked = Asked(kind, unit, line.paper, line.full, *stamp())
    return _write(line, source.name, kind, written(source, asked))


def _kind_of(out: Path | None) -> Format:
    """The format that a file's ending asks for; plain text for a device, a page where nothing is said."""
    if out is None or str(out) == "-":
        return "html"
    if out.exists() and not out.is_file() and not out.is_dir():
        return "text"
    ending = out.suffix.lower()
    if ending and ending not in ENDINGS:
        raise BadInput("-o", out.name, f"a name that ends in {', '.join(ENDINGS)}, or --as with html, pdf or text")
    return ENDINGS.get(ending, "html")


def _write(line: _Line, name: str, kind: Format, data: bytes) -> Path | None:
    """Write to the file named, to standard output for `-`, else beside a name made from the title."""
    from engine.base.files import write_bytes_safely

    if str(line.out) == "-":
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
        return None
    path = line.out or Path(file_name(name, kind))
    if path.is_file() and not line.force:
        said = f"sheet: {path} is there already; -o names another file, --force writes over it."
        raise BadInput("sheet", path, "a file that is not there yet", said)
    try:
        write_bytes_safely(path, data)
    except OSError as error:
        said = f"sheet: NOT SAVED: {path}: {error.strerror}."
        raise BadInput("sheet", path, "a file that can be written", said) from None
    return path
