"""The shell door `tommybar check FILE`: every mistake of a recipe, a part file or a shop file, one line each."""

from __future__ import annotations

import sys
from pathlib import Path

from engine.base.files import Unreadable, parse_toml, read_written
from engine.base.refusals import BadInput
from engine.jobs import recipe
from engine.jobs.run import Worked, resolve
from engine.shop.file import load as load_shop
from tui.wording import speak_as_shop, spoken

USAGE = "tommybar check FILE [--shop FILE]"


def check(words: list[str]) -> int:
    """Check a recipe (and work it out for the shop), a part file or a shop file; return the exit code."""
    try:
        path, shop = _parse(words)
        speak_as_shop(shop)
        keys = _keys(path)
        if _is_shop(path, keys):
            load_shop(path)
            print(f"{_own(path.name)}: a shop file without mistakes.")
            return 0
        if "part_version" in keys:
            return _part(path)
        plan, _ = recipe.read_file(path)
        worked = resolve(plan, load_shop(shop))
    except BadInput as refusal:
        print("\n".join(_plain(line) for line in str(refusal).splitlines()), file=sys.stderr)
        return 2
    return _report(path, worked)


def _parse(words: list[str]) -> tuple[Path, Path | None]:
    rest, files, shop = iter(words), [], None
    for word in rest:
        if word == "--shop":
            shop = Path(next(rest, ""))
        elif word.startswith("--shop="):
            shop = Path(word[7:])
        elif word.startswith("--"):
            raise BadInput("option", word, "--shop FILE")
        else:
            files.append(word)
    if len(files) != 1:
        raise BadInput("file", " ".join(files), "one file", f"file: name one file to check: {USAGE}")
    return Path(files[0]), shop


def _keys(path: Path) -> frozenset[str]:
    """What stands at the top of a file; nothing where it cannot be read, which its reader says better."""
    try:
        return frozenset(parse_toml("file", path, read_written(path)))
    except (Unreadable, BadInput):
        return frozenset()


def _is_shop(path: Path, keys: frozenset[str]) -> bool:
    """A shop file has a bench in it, a recipe has steps; what is neither is read as a recipe."""
    if path.name == "shop.toml":
        return True
    return not keys & {"schema_version", "steps", "part_version"} and bool(keys & {"lathe", "mill", "drills"})


def _part(path: Path) -> int:
    from engine.part.file import read_file

    found, _ = read_file(path)
    count = "one part" if len(found.parts) == 1 else f"{len(found.parts)} parts"
    print(f"{_own(path.name)}: a part file without mistakes: {count}.")
    return 0


def _report(path: Path, worked: Worked) -> int:
    name = _own(path.name)
    for problem in worked.problems:
        print(f"{name}: {_plain(problem)}", file=sys.stderr)
    steps = len(worked.steps)
    if worked.problems:
        print(f"{name}: {len(worked.problems)} of {steps} steps cannot be worked for this shop.", file=sys.stderr)
        return 1
    shop = _own(worked.shop.name)
    print(f"{name}: a recipe without mistakes; all {steps} steps can be worked for {shop}.")
    return 0


def _plain(text: str) -> str:
    return _own(spoken(text))


def _own(text: str) -> str:
    """What somebody has named stays as it is."""
    return "".join(c if c.isprintable() else "?" for c in text)
