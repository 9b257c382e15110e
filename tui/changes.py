"""`tommybar --changes`: which figures moved between versions, by how much, and why."""

from __future__ import annotations

import sys
from textwrap import wrap

from engine.base.changes import changes
from engine.base.refusals import BadInput
from engine.base.register import entry
from tui.wording import speak_as_shop, spoken

_WIDTH = 100


def print_changes(words: list[str]) -> int:
    """Print every change, or those of the operation that is named."""
    speak_as_shop(None)
    named = words[0] if words else ""
    if named:
        try:
            entry(named)
        except BadInput as refusal:
            print(spoken(str(refusal)), file=sys.stderr)
            return 2
    found = changes(named)
    if not found:
        print(f"No figure of {named} has moved." if named else "No figure has moved.")
    heading = ""
    for one in found:
        above = f"{one.version}  {one.operation}"
        if above != heading:
            print(f"{above}" if not heading else f"\n{above}")
            heading = above
        print(spoken(f"  {one.figure}: {one.before} -> {one.after}"))
        print("\n".join(wrap(spoken(one.why), _WIDTH, initial_indent="    ", subsequent_indent="    ")))
    return 0
