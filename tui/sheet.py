"""The shell door `tommybar sheet JOB-OR-RECIPE`: a job, or a recipe before it is started, as a page to print."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from engine.base.refusals import BadInput
from engine.base.words import in_words
from engine.shop.file import load as load_shop
from tui.wording import speak_as_shop, spoken

USAGE = "tommybar sheet JOB-NUMBER | RECIPE-NAME | FILE.toml [-o FILE [--force]] [--inch | --mm] [--shop FILE]"


@dataclass
class _Line:
    what: str = ""
    out: Path | None = None
    unit: str = ""
    shop: Path | None = None
    force: bool = False


def sheet(words: list[str]) -> int:
    """Write the sheet of a job (by its number) or of a recipe (by name or file); return the exit code."""
    from engine.jobs.store import JournalError

    try:
        line = _parse(words)
        title, html = _job(line) if line.what.isdecimal() else _recipe(line)
        path = _write(line, title, html)
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
        elif word in ("--inch", "--mm"):
            line.unit = word[2:]
        elif word == "--force":
            line.force = True
        elif word == "--shop":
            line.shop = Path(next(rest, ""))
        elif word.startswith("--shop="):
            line.shop = Path(word[7:])
        elif word.startswith("-") and word != "-":
            raise BadInput("option", word, "-o FILE, --force, --inch, --mm or --shop FILE")
        elif not line.what:
            line.what = word
        else:
            raise BadInput("sheet", word, "one job or recipe")
    if not line.what:
        raise BadInput("sheet", "", "a job or a recipe", f"sheet: name a job or a recipe: {USAGE}")
    return line


def _job(line: _Line) -> tuple[str, str]:
    from engine.jobs import recipe
    from engine.jobs.journal import Journal
    from engine.jobs.run import resolve
    from engine.jobs.sheet import page
    from engine.part.plan_drawn import pictures

    journal = Journal()
    try:
        job = journal.open(int(line.what[:12]))
    finally:
        journal.close()
    unit = line.unit or job.shop.unit
    plan = recipe.read(job.recipe_text, Path(job.recipe_name))
    worked = resolve(plan, job.shop, told=job.progress.told, held=job.progress.held)
    lies = pictures(plan.part_file, job.shop, [step.id for step in plan.steps])
    text = page(worked, unit=unit, progress=job.progress, part=job.part, drawings=lies)
    text = in_words(text, job.shop.words_for(unit))
    return f"{job.title} {job.part}", text


def _recipe(line: _Line) -> tuple[str, str]:
    from engine.jobs.library import open_recipe
    from engine.jobs.run import resolve
    from engine.jobs.sheet import page
    from engine.part.plan_drawn import pictures

    plan, _ = open_recipe(line.what)
    shop = load_shop(line.shop)
    unit = line.unit or shop.unit
    lies = pictures(plan.part_file, shop, [step.id for step in plan.steps])
    text = page(resolve(plan, shop), unit=unit, drawings=lies)
    return plan.title, in_words(text, shop.words_for(unit))


def _write(line: _Line, title: str, html: str) -> Path | None:
    """Write to the file named, to standard output for `-`, else beside a name made from the title."""
    from engine.base.files import write_safely
    from engine.jobs.sheet import file_name

    if str(line.out) == "-":
        if hasattr(sys.stdout, "reconfigure"):
            sys.stdout.reconfigure(encoding="utf-8")  # as the page says of itself
        print(html, end="")
        return None
    path = line.out or Path(file_name(title))
    if path.is_file() and not line.force:
        said = f"sheet: {path} is there already; -o names another file, --force writes over it."
        raise BadInput("sheet", path, "a file that is not there yet", said)
    try:
        write_safely(path, html)
    except OSError as error:
        raise BadInput(
            "sheet", path, "a file that can be written", f"sheet: NOT SAVED: {path}: {error.strerror}."
        ) from None
    return path
