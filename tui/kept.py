"""What was typed in every form, kept on the disk so that the next run begins with it. No Textual here.

The file is small and bounded, replaced as a whole and written in a thread: no key waits for the disk. What is typed within a
moment is written together, so that not every key wears a card; a program that is killed has lost that moment at the most.
"""

from __future__ import annotations

import threading
from collections.abc import Mapping
from typing import TYPE_CHECKING

from engine.base.files import Unreadable, read_written, write_safely
from engine.base.records import dataclass
from engine.shop.file import data_file, data_folder
from tui.editing import LONGEST

if TYPE_CHECKING:
    from pathlib import Path

MOST = 80  # operations that are kept: more than there are, and a file of another version cannot grow for ever
_NAMES = 60  # fields of one
MOMENT = 0.3  # seconds


@dataclass(frozen=True, slots=True)
class Kept:
    """A form as it was left: what was typed, and the unit that a bare number in it is in."""

    unit: str
    texts: Mapping[str, str]


def path_of() -> Path:
    """Where they are kept."""
    return data_folder() / "forms.json"


def read() -> dict[str, Kept]:
    """Every form that was kept; none where the file cannot be read."""
    try:
        text = read_written(data_file("forms.json"))
        import json  # once there is something to read

        found = json.loads(text)
        return {str(name): _one(form) for name, form in list(found.items())[-MOST:]}
    except (Unreadable, OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def _one(form: Mapping[str, object]) -> Kept:
    texts = form["texts"]
    if not isinstance(texts, dict) or form["unit"] not in ("mm", "inch"):
        raise ValueError("not a form")
    clean = {str(name): _clean(str(text)) for name, text in list(texts.items())[:_NAMES]}
    return Kept(str(form["unit"]), clean)


def _clean(text: str) -> str:
    return "".join(c if c.isprintable() else " " for c in text[:LONGEST])


class Keeper:
    """Writes the newest state of the forms, one thread at a time."""

    def __init__(self) -> None:
        self._forms: dict[str, Kept] | None = None
        self._waiting = False  # whether there is something newer than what was written
        self._thread: threading.Thread | None = None
        self._lock = threading.Lock()
        self._at_once = threading.Event()  # set while somebody waits for the disk

    @property
    def forms(self) -> dict[str, Kept]:
        """Every form kept, the one typed in last at the end; read when first asked for."""
        if self._forms is None:
            self._forms = read()
        return self._forms

    def keep(self, operation: str, unit: str, texts: Mapping[str, str]) -> None:
        """Keep what stands in an operation's form; nothing typed is forgotten."""
        typed = {name: text for name, text in texts.items() if text.strip()}
        if typed == dict(self.forms[operation].texts if operation in self.forms else {}):
            return
        with self._lock:
            self.forms.pop(operation, None)
            if typed:
                self.forms[operation] = Kept(unit, typed)
            for old in list(self.forms)[:-MOST]:
                del self.forms[old]
            self._waiting = True
            if self._thread is None or not self._thread.is_alive():
                self._thread = threading.Thread(target=self._write, args=(path_of(),), name="keeping forms")
                self._thread.start()

    def _write(self, path: Path) -> None:
        import json

        while True:
            self._at_once.wait(MOMENT)
            with self._lock:
                if not self._waiting:
                    self._thread = None
                    return
                self._waiting = False
                forms = {name: {"unit": one.unit, "texts": dict(one.texts)} for name, one in self.forms.items()}
            try:
                write_safely(path, json.dumps(forms, ensure_ascii=False))
            except OSError:  # a disk that refuses only costs the memory of it
                continue

    def settled(self) -> None:
        """Wait until the disk has it; not for ever, should it hang."""
        thread = self._thread
        if thread is not None:
            self._at_once.set()
            thread.join(5.0)
            self._at_once.clear()
