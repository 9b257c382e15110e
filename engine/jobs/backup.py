"""Everything of a person in one file that is checked: the shop, the recipes, the parts, the jobs; and bringing it back.

The file is a zip with a `manifest.json` that names its version and the SHA-256 of every other entry. Nothing is
restored before all of it has been looked at, and what stood in its place is kept in a backup of its own first.
"""

from __future__ import annotations

import hashlib
import json
import os
import sqlite3
import stat
import struct
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from engine.base.refusals import BadInput
from engine.jobs import ledger, store
from engine.shop.file import data_folder, parse, shop_path

FORMAT, VERSION = "tommybar backup", 1
LARGEST = 512 * 1024 * 1024  # bytes of one entry: some ten thousand jobs
_FOLDERS = ("recipes", "parts")  # of the data folder, kept file by file
# What a zip that was damaged or made to harm ends in, besides refusals of our own.
_BROKEN = (zipfile.BadZipFile, zlib.error, struct.error, ValueError, KeyError, EOFError, RuntimeError, OverflowError)
_JOBS, _SHOP, _MANIFEST = "jobs.db", "shop.toml", "manifest.json"


def backup(path: Path) -> str:
    """Write everything into one file, whole or not at all; return what it holds in words.

    Raises BadInput if there is nothing to keep or the file cannot be written.
    """
    files = dict(_present())
    with _disk(path), tempfile.TemporaryDirectory() as folder:
        if store.default_path().exists():
            files[_JOBS] = _copied(store.default_path(), Path(folder))
        if not files:
            raise BadInput("backup", path, "", "backup: there is no shop file, recipe, part or job to keep.")
        fresh = path.with_name(f"{path.name}.{os.getpid()}.new")
        try:
            _pack(fresh, files)
            os.replace(fresh, path)
        finally:
            fresh.unlink(missing_ok=True)
    return _words(files)


def restore(path: Path, *, force: bool = False) -> str:
    """Bring back what a backup holds; return what was done in words.

    Where something of the person's would be replaced it is refused, or with `force` kept in a backup first.
    Raises BadInput if the file is no backup, was damaged, or holds what the program cannot read.
    """
    with _disk(path):
        entries = _unpacked(path)
        said = _checked(entries, path)
        if any(_target(name).exists() for name in entries):
            if not force:
                raise BadInput("restore", path, "", "restore: there is a shop, a recipe, a part or a job here already; "
                    "--force replaces them and keeps a backup of them first.")  # fmt: skip
            kept = data_folder() / f"before-restore-{datetime.now():%Y-%m-%d-%H%M%S}.zip"
            kept.parent.mkdir(parents=True, exist_ok=True)
            backup(kept)
            said += f" What was here before is in {kept}."
        for name, raw in entries.items():
            _put(name, raw)
    return f"Restored: {_words(entries)}.{said}"


def _present() -> Iterator[tuple[str, bytes]]:
    if shop_path().is_file():
        yield _SHOP, shop_path().read_bytes()
    for name in _FOLDERS:
        for file in sorted((data_folder() / name).glob("*")):
            if file.is_file():
                yield f"{name}/{file.name}", file.read_bytes()


def _copied(jobs: Path, folder: Path) -> bytes:
    """The jobs as of one moment, whether or not a program has them open."""
    copy = folder / _JOBS
    with closing(sqlite3.connect(jobs)) as source, closing(sqlite3.connect(copy)) as target:
        source.backup(target)
        target.execute("PRAGMA journal_mode = DELETE")
    return copy.read_bytes()


def _pack(path: Path, files: dict[str, bytes]) -> None:
    sums = {name: hashlib.sha256(raw).hexdigest() for name, raw in files.items()}
    made = datetime.now(UTC).isoformat(timespec="seconds")
    manifest = {"format": FORMAT, "version": VERSION, "made": made, "sha256": sums}
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(_MANIFEST, json.dumps(manifest, indent=1))
        for name, raw in files.items():
            archive.writestr(name, raw)
    with open(path, "rb") as written:
        os.fsync(written.fileno())


def _unpacked(path: Path) -> dict[str, bytes]:
    if not stat.S_ISREG(os.stat(path).st_mode):
        raise _refused(path, "it is no plain file")
    with zipfile.ZipFile(path) as archive:
        manifest = _manifest(archive, path)
        sums = manifest["sha256"]
        if sorted(archive.namelist()) != sorted([_MANIFEST, *sums]):
            raise _refused(path, "it does not hold what its manifest says")
        entries = {}
        for name, wanted in sums.items():
            if not _known(name):
                raise _refused(path, f"{name[:60]!a} does not belong into a backup")
            entries[name] = _read(archive, name, path)
            if hashlib.sha256(entries[name]).hexdigest() != wanted:
                raise _refused(path, f"{name} in it was damaged")
    return entries


def _manifest(archive: zipfile.ZipFile, path: Path) -> dict[str, Any]:
    if _MANIFEST not in archive.namelist():
        raise _refused(path, "it has no manifest")
    manifest = json.loads(_read(archive, _MANIFEST, path))
    if not isinstance(manifest, dict) or manifest.get("format") != FORMAT:
        raise _refused(path, "its manifest is of something else")
    if manifest.get("version") != VERSION:
        raise _refused(path, f"it is of version {manifest.get('version')!a}; this program reads {VERSION}")
    if not isinstance(manifest.get("sha256"), dict):
        raise _refused(path, "its manifest names no files")
    return manifest


def _read(archive: zipfile.ZipFile, name: str, path: Path) -> bytes:
    with archive.open(name) as entry:
        raw = entry.read(LARGEST + 1)
    if len(raw) > LARGEST:
        raise _refused(path, f"{name} in it is too large")
    return raw


def _known(name: str) -> bool:
    """Whether an entry has one of the places of a backup: never a path that leads elsewhere."""
    folder, _, file = name.rpartition("/")
    plain = bool(file) and file == Path(file).name and not file.startswith(".") and "\\" not in file
    return name in (_JOBS, _SHOP) or (folder in _FOLDERS and plain and file.isprintable())


def _checked(entries: dict[str, bytes], path: Path) -> str:
    """The jobs are a sound file of a version that this program reads; what there is to say of the shop."""
    if _JOBS in entries:
        with _jobs_file(entries[_JOBS]) as file, closing(sqlite3.connect(file)) as database:
            sound = database.execute("PRAGMA quick_check(1)").fetchone()[0] == "ok"
            version = database.execute("PRAGMA user_version").fetchone()[0]
        if not sound or not 1 <= version <= store.VERSION:
            raise _refused(path, "the jobs in it are damaged or of a newer program")
    try:
        parse(entries.get(_SHOP, b"").decode("utf-8"), Path(_SHOP))
    except (BadInput, UnicodeDecodeError) as error:
        return f" The shop in it has mistakes ({str(error).splitlines()[0]})."
    return ""


@contextmanager
def _jobs_file(raw: bytes) -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, _JOBS)
        file.write_bytes(raw)
        yield file


def _target(name: str) -> Path:
    return shop_path() if name == _SHOP else data_folder() / name


def _put(name: str, raw: bytes) -> None:
    target = _target(name)
    if name == _JOBS:
        _put_jobs(target, raw)
        return
    target.parent.mkdir(parents=True, exist_ok=True)
    fresh = target.with_name(f"{target.name}.{os.getpid()}.new")
    with open(fresh, "wb") as file:
        file.write(raw)
        file.flush()
        os.fsync(file.fileno())
    os.replace(fresh, target)


def _put_jobs(target: Path, raw: bytes) -> None:
    """Through SQLite, so that a log left beside the old file never mixes with the new one."""
    database, _ = store.opened(target)
    with closing(database), _jobs_file(raw) as file, closing(sqlite3.connect(file)) as source:
        source.backup(database)
    ledger.path_of(target).unlink(missing_ok=True)


def _words(files: dict[str, bytes]) -> str:
    parts = ["the shop"] if _SHOP in files else []
    for folder in _FOLDERS:
        if count := sum(name.startswith(f"{folder}/") for name in files):
            parts.append(f"{count} {folder if count > 1 else folder[:-1]}")
    if _JOBS in files:
        with _jobs_file(files[_JOBS]) as file, closing(sqlite3.connect(file)) as database:
            count = database.execute("SELECT count(*) FROM job").fetchone()[0]
        parts.append(f"{count} job{'s' if count != 1 else ''}")
    return ", ".join(parts)


def _refused(path: Path, reason: str) -> BadInput:
    name = "".join(c if c.isprintable() else "?" for c in path.name)
    return BadInput("backup", path, "a backup", f"backup: {name} cannot be used: {reason}.")


@contextmanager
def _disk(path: Path) -> Iterator[None]:
    try:
        yield
    except _BROKEN as error:
        if isinstance(error, BadInput):
            raise
        raise _refused(path, "it is no backup, or was damaged") from None
    except sqlite3.Error as error:
        raise _refused(path, f"the jobs cannot be read or written: {error}") from None
    except OSError as error:
        raise _refused(path, error.strerror or "the disk refuses it") from None
