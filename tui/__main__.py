"""The `tommybar` command: the app, or one of the doors at the shell. A door imports only what it needs."""

from __future__ import annotations

import gc
import os
import sys

from tui.output import fit_output

USAGE = """tommybar                       the app
tommybar work [OPERATION ...]  one answer at the shell; alone, the list of operations
tommybar check FILE            check a recipe or a shop file
tommybar sheet ...             a job or a recipe as a page to print
tommybar --version | --help

Options of the app:
  --shop FILE   the shop file to use
  --go TEXT     begin where a quick line leads: --go M10, --go "div 37"
  --light       the light look
  --mouse       let the mouse choose panes and operations, and scroll"""


def main(argv: list[str] | None = None) -> int:
    """Run the command; return its exit code."""
    fit_output()
    try:
        code = _door(list(sys.argv[1:] if argv is None else argv))
        sys.stdout.flush()
    except BrokenPipeError:  # `tommybar work ... | head`: the reader has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return code


def _door(words: list[str]) -> int:
    door, rest = (words[0], words[1:]) if words else ("", [])
    if door == "work":
        return _quickly(rest)
    if door == "check":
        from tui.check import check

        return check(rest)
    if door == "sheet":
        from tui.sheet import sheet

        return sheet(rest)
    if "--help" in words or "-h" in words:
        print(USAGE)
        return 0
    if "--version" in words:
        from importlib.metadata import version

        print(f"tommybar {version('tommybar')}")
        return 0
    return _app(words)


def _quickly(words: list[str]) -> int:
    """One answer at the shell: nothing lives long enough to be worth collecting as garbage."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        from tui.shell import work

        return work(words)
    finally:
        if collecting:
            gc.enable()


def _app(words: list[str]) -> int:
    from tui.start import options, start

    chosen = options(words)
    if isinstance(chosen, str):
        print(f"{chosen}\n\n{USAGE}", file=sys.stderr)
        return 2
    return start(chosen)


if __name__ == "__main__":
    sys.exit(main())
