"""Where a door writes what was asked for: a new file, standard output for `-`, a device as it is."""

from __future__ import annotations

import sys
from pathlib import Path

from engine.base.refusals import BadInput


def save(path: Path, text: str, *, door: str, force: bool = False) -> None:
    """Write a file. One that is there is only written over with `force`; a device or a pipe is written to.

    Raises: BadInput if it cannot be written
    """
    if str(path) == "-":
        if hasattr(sys.stdout, "reconfigure"):
            sys.stdout.reconfigure(encoding="utf-8")  # as the file says of itself
        print(text)
        return
    if not str(path).strip(". "):
        raise BadInput(door, path, "the name of a file", f"{door}: the name of a file is needed, or - for stdout.")
    if path.is_file() and not force:
        said = f"{door}: {path} is there already; another name or --force, which writes over it."
        raise BadInput(door, path, "a file that is not there yet", said)
    try:
        if path.exists() and not path.is_file():
            path.write_text(text, encoding="utf-8")
            return
        from engine.base.files import write_safely

        write_safely(path, text)
    except OSError as error:
        said = f"{door}: {path} cannot be written: {error.strerror or error}."
        raise BadInput(door, path, "a file that can be written", said) from None
