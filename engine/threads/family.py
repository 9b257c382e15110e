"""The list of the families of threads, made from their files.

`python -m engine.threads.family` makes the list of them (engine/threads/families/listed.py) anew, so that a writing
finds its family and the names are known before any is loaded; a test holds the list to the files.
"""

from __future__ import annotations

from importlib import import_module

from engine.threads.thread import Family


def listing() -> str:
    """The text of engine/threads/families/listed.py, from the files beside it: loads every family."""
    from pathlib import Path

    found = []
    for file in sorted(Path(__file__).with_name("families").glob("*.py")):
        if "\nFAMILY = " in file.read_text(encoding="utf-8"):
            one: Family = import_module(f"engine.threads.families.{file.stem}").FAMILY
            found.append((one.place, (one.id, one.name, file.stem, one.letter, one.bare, tuple(one.marks.items()))))
    rows = "".join(f"    {row!r},\n" for _, row in sorted(found))
    head = "Every family of threads as it is listed. Generated: `python -m engine.threads.family` writes it anew."
    kind = "tuple[tuple[str, str, str, str, str, tuple[tuple[str, str], ...]], ...]"
    return f'"""{head}"""\n\n# fmt: off\nROWS: {kind} = (\n{rows})\n'


if __name__ == "__main__":
    from pathlib import Path

    (Path(__file__).with_name("families") / "listed.py").write_text(listing(), encoding="utf-8")
