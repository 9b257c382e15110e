"""Before and after the screen: what Textual reads once, which terminals are refused, how the screen is left."""

from __future__ import annotations

import os
import select
import sys
import threading
from collections.abc import Mapping, MutableMapping
from typing import TextIO


def prepare_environment(environ: MutableMapping[str, str] = os.environ) -> None:
    """Set what Textual reads when it is imported: no animation, no smooth scrolling, quick repaints."""
    environ.setdefault("TEXTUAL_ANIMATIONS", "none")
    environ.setdefault("TEXTUAL_SMOOTH_SCROLL", "0")
    environ.setdefault("TEXTUAL_FPS", "120")


def refusal(stream: TextIO | None = None, source: TextIO | None = None, environ: Mapping[str, str] = os.environ) -> str:
    """Why no screen can be drawn here, in one sentence that names the other door; empty if one can."""
    out = sys.__stderr__ if stream is None else stream
    keys = sys.__stdin__ if source is None else source
    door = "`tommybar work` answers without a screen."
    if out is None or keys is None or not out.isatty() or not keys.isatty():
        return f"The screen needs a terminal for its keys and its picture; {door}"
    term = environ.get("TERM", "")
    if term in ("", "dumb", "unknown"):
        return f"This terminal cannot place characters on the screen (TERM is {term or 'not set'}); {door}"
    if (out.encoding or "").replace("-", "").replace("_", "").lower() != "utf8":
        return f"The terminal is set to {out.encoding}, not UTF-8: try LANG=C.UTF-8 before the command; {door}"
    return ""


def clear_on_exit(environ: Mapping[str, str] = os.environ, stream: TextIO | None = None) -> None:
    """The Linux console has no second screen: without this the last picture stays under the prompt."""
    if environ.get("TERM") == "linux":
        out = sys.__stdout__ if stream is None else stream
        if out is not None:
            out.write("\x1b[0m\x1b[H\x1b[2J")
            out.flush()


def end_with_the_terminal(keys: int = 0) -> None:
    """End the program when its terminal goes away, even if no hang-up signal comes: otherwise it would read nothing
    for ever, at the full speed of the processor. Whatever is worth keeping was saved when it changed.
    """

    def watch() -> None:
        waiting = select.poll()
        waiting.register(keys, 0)  # only what is always told: hung up, broken, closed
        if any(what & (select.POLLHUP | select.POLLERR) for _, what in waiting.poll()):
            os._exit(129)  # what a shell gives for a program ended by a hang-up

    threading.Thread(target=watch, daemon=True, name="terminal").start()
