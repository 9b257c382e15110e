"""The shell doors `tommybar backup FILE` and `tommybar restore FILE`."""

from __future__ import annotations

import sys
from pathlib import Path

from engine.base.refusals import BadInput


def backup(words: list[str]) -> int:
    """Keep everything of the person in one file; return the exit code."""
    return _door("backup", words)


def restore(words: list[str]) -> int:
    """Bring back what a backup holds; return the exit code."""
    return _door("restore", words)


def _door(door: str, words: list[str]) -> int:
    from engine.jobs import backup as engine
    from engine.jobs.store import JournalError

    try:
        path, force = _parse(door, words)
        if door == "restore":
            said = engine.restore(path, force=force)
        elif path.exists() and not force:
            raise BadInput(door, path, "", f"backup: {path} is there already; --force writes over it.")
        else:
            said = f"{path}: {engine.backup(path)}."
    except (BadInput, JournalError) as refusal:
        print(_printable(str(refusal)), file=sys.stderr)
        return 2
    print(_printable(said))
    return 0


def _parse(door: str, words: list[str]) -> tuple[Path, bool]:
    files = [word for word in words if not word.startswith("--")]
    wrong = [word for word in words if word.startswith("--") and word != "--force"]
    if wrong:
        raise BadInput("option", wrong[0], "--force")
    if len(files) != 1:
        raise BadInput(door, " ".join(files), "one file", f"{door}: name one file: tommybar {door} FILE")
    return Path(files[0]), "--force" in words


def _printable(text: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in text)
