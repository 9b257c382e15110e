"""The report file: what went wrong inside, in full, where the screen only says so in a sentence."""

from __future__ import annotations

import os
import time
from collections.abc import Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

_LARGEST = 200_000  # bytes; beyond it the old half is let go


def report_path() -> Path:
    """Where the report file is, or would be."""
    from engine.shop.file import data_folder

    return data_folder() / "report.txt"


def write_report(what: str, error: BaseException, typed: Mapping[str, Mapping[str, str]] | None = None) -> str:
    """Add an account of an error to the report file; return the sentence that says where it is.

    `typed` is what stood in the forms, by operation. A disk that cannot be written is said, never raised.
    """
    import traceback  # only once something has gone wrong

    where = report_path()
    account = "".join(traceback.format_exception(error))
    forms = "".join(f"{name}: {dict(values)}\n" for name, values in (typed or {}).items())
    text = f"\n==== {time.strftime('%Y-%m-%d %H:%M:%S')} {what}\n{account}{forms}"
    try:
        where.parent.mkdir(parents=True, exist_ok=True)
        old = where.read_text(encoding="utf-8", errors="replace")[-_LARGEST // 2 :] if where.exists() else ""
        fresh = where.with_name("report.new")
        fresh.write_text(old + text, encoding="utf-8", errors="replace")
        os.replace(fresh, where)
    except OSError as trouble:
        return f"The report could not be written: {trouble.strerror or trouble}."
    return f"The report is in {where}."
