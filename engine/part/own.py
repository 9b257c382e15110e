"""The person's own part files, kept while they are typed: what can be read as a part file, the rest as a draft beside it.

`NAME.toml` is always the last text whose every line could be read. While a line cannot, all lines stand in
`NAME.typing`, and are taken up from there.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from engine.base.files import Unreadable, read_written, stem_of, write_bytes_safely, write_safely
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.part.draft import Draft, Row, Worked, opened
from engine.part.remarks import Remark
from engine.shop.file import data_folder

_TYPING = ".typing"


@dataclass(frozen=True, slots=True)
class PartListed:
    """One of the person's own part files as it is listed. `problem` says why it cannot be read."""

    name: str
    path: Path
    title: str
    problem: str = ""


def own_parts() -> Path:
    """The folder of the person's own part files; it may not exist.

    >>> own_parts().name
    'parts'
    """
    return data_folder() / "parts"


def parts() -> tuple[PartListed, ...]:
    """Every part file of the person's own; those that ship stand with the recipes."""
    folder = own_parts()
    files = {path.with_suffix(".toml") for path in folder.glob("*.toml")} if folder.is_dir() else set()
    files |= {path.with_suffix(".toml") for path in folder.glob(f"*{_TYPING}")} if folder.is_dir() else set()
    return tuple(_listed(path) for path in sorted(files))


def _listed(path: Path) -> PartListed:
    try:
        rows = load(path).rows
    except BadInput as error:
        return PartListed(path.stem, path, path.stem, str(error))
    title = next((row.text for row in rows if row.head == "title"), "")
    return PartListed(path.stem, path, title or path.stem)


def load(path: Path) -> Draft:
    """The lines of an own part, with what was typed last; BadInput if neither file can be read."""
    typing = path.with_suffix(_TYPING)
    try:
        if typing.exists():
            return _of_json(read_written(typing))
    except (Unreadable, ValueError, KeyError, TypeError):
        if not path.exists():
            raise BadInput(
                "part", typing, "", f"part: {typing.name} cannot be read, and there is no part file."
            ) from None
    try:
        return opened(read_written(path))
    except Unreadable as reason:
        raise BadInput("part", path, "", f"part: {path.name} cannot be read: {reason}.") from None


def copy_of(name: str) -> Draft:
    """The lines of a part file that ships, to make one's own from."""
    from engine.part.library import read_shipped

    return opened(read_shipped(name)[1])


def keep(path: Path, draft: Draft, found: Worked) -> None:
    """Write what is typed; BadInput if the disk refuses."""
    typing = path.with_suffix(_TYPING)
    try:
        if found.unread or typing.exists():  # an older draft, left behind by a kill, would hide the part file
            write_safely(typing, _as_json(draft))
        if not found.unread:
            write_safely(path, found.text)
            typing.unlink(missing_ok=True)
    except OSError as error:
        raise BadInput("part", path, "", f"part: NOT SAVED: {path}: {error.strerror}.") from None


def fresh_path(title: str) -> Path:
    """A file for a part of this title that is not there yet."""
    stem = stem_of(title, "new-part")
    path, number = own_parts() / f"{stem}.toml", 2
    while path.exists() or path.with_suffix(_TYPING).exists():
        path, number = own_parts() / f"{stem}-{number}.toml", number + 1
    return path


def renamed(path: Path, title: str) -> Path:
    """Give a new part's files the name of its title; BadInput if the disk refuses.

    Both stand whole on the disk under the new name, the draft first, before either goes under the old and the draft
    last: a kill at any moment leaves one part too many, never one too few nor older lines.
    """
    to = fresh_path(title)
    pairs = ((path.with_suffix(_TYPING), to.with_suffix(_TYPING)), (path, to))
    try:
        written = [(old, new) for old, new in pairs if old.exists()]
        for old, new in written:
            write_bytes_safely(new, old.read_bytes())
        for old, _ in written[::-1]:
            old.unlink()
    except OSError as error:
        raise BadInput("part", path, "", f"part: {path} cannot be renamed: {error.strerror}.") from None
    return to


def _as_json(draft: Draft) -> str:
    rows = [[row.text, row.head, [[one.key, one.above, one.beside] for one in row.remarks]] for row in draft.rows]
    return json.dumps({"rows": rows, "comments": draft.comments, "kept": draft.kept}, ensure_ascii=False, indent=1)


def _of_json(text: str) -> Draft:
    given: Mapping[str, Any] = json.loads(text)
    rows = tuple(
        Row(str(words), str(head), None, tuple(Remark(str(key), tuple(above), str(by)) for key, above, by in (*said,)))
        for words, head, *rest in given["rows"]
        for said in (rest[0] if rest else (),)
    )
    return Draft(rows, tuple(map(str, given["comments"])), tuple(dict(one) for one in given["kept"]))
