"""The `tommybar` command: the app, or `tommybar work ...` at the shell."""

from __future__ import annotations

import sys


def main(argv: list[str] | None = None) -> int:
    """Run the command; return its exit code."""
    words = sys.argv[1:] if argv is None else argv
    if words[:1] == ["work"]:
        from tui.shell import work

        return work(words[1:])
    raise SystemExit("the app is not built yet")


if __name__ == "__main__":
    sys.exit(main())
