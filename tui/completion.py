"""The shell door `tommybar completion SHELL`, and what it makes a shell ask: how the word being typed may go on."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable

from engine.base.declare import asks
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load

SCRIPTS = {
    "bash": """_tommybar() {
  local IFS=$'\\n' line="${COMP_LINE:0:COMP_POINT}"
  COMPREPLY=($(tommybar --complete bash "$line" 2>/dev/null))
  [[ ${#COMPREPLY[@]} == 1 && ${COMPREPLY[0]} == *[=/] ]] && compopt -o nospace
}
complete -F _tommybar tommybar""",
    "zsh": """#compdef tommybar
_tommybar() {
  local -a found
  found=("${(@f)$(tommybar --complete zsh "${(j: :)words[1,CURRENT]}" 2>/dev/null)}")
  compadd -Q -S '' -- ${(M)found:#*[=/]}
  compadd -Q -- ${found:#(*[=/]|)}
}
compdef _tommybar tommybar""",
    "fish": "complete -c tommybar -f -a '(tommybar --complete fish (commandline -cp) 2>/dev/null)'",
}
OPTIONS = {
    "": ("--go", "--help", "--keys", "--light", "--mouse", "--shop", "--version", "--changes"),
    "work": (
        *("--dxf", "--force", "--inch", "--json", "--mm", "--no", "--part", "--plain", "--set-up", "--shop", "--svg"),
        *("--trouble", "--yes"),
    ),
    "check": ("--shop",),
    "part": ("--dxf", "--force", "--json", "--shop", "--svg", "--why"),
    "sheet": ("--a4", "--as", "--force", "--full", "--inch", "--letter", "--mm", "--shop"),
    "backup": ("--force",),
    "restore": ("--force",),
    "job": ("--anyway", "--dial", "--inch", "--job", "--mm", "--slide", "--turns"),
    "completion": (),
    "man": (),
}
FILES = ("check", "part", "sheet", "backup", "restore")
FILE_OPTIONS = ("--shop", "--svg", "--dxf", "-o", "--part")


def completion(words: list[str]) -> int:
    """Print what a shell needs; return the exit code."""
    if len(words) != 1 or words[0] not in SCRIPTS:
        print(BadInput("completion", " ".join(words), f"one of {', '.join(SCRIPTS)}"), file=sys.stderr)
        return 2
    print(SCRIPTS[words[0]])
    return 0


def complete(words: list[str]) -> int:
    """Print, a line each, how a command line may go on: `--complete SHELL LINE`."""
    shell, line = words if len(words) == 2 else ("", "")
    typed = line.split()[1:]
    last = typed.pop() if typed and not line[-1:].isspace() else ""
    for one in candidates(typed, last):
        if one.startswith(last):
            # bash takes = for the end of a word, and puts in only what stands behind it.
            print(one.partition("=")[2] if shell == "bash" and "=" in last else one)
    return 0


def candidates(before: list[str], last: str) -> Iterable[str]:
    """Every word that may stand after these.

    >>> sorted(candidates(["work", "screwcutting"], "slide="))
    ['slide=cross', 'slide=top']
    """
    if before and before[-1] in FILE_OPTIONS:
        return _files(last)
    door = before[0] if before else ""
    if not before and not last.startswith("-"):
        return [*(name for name in OPTIONS if name), *(entry.id for entry in CATALOG)]
    options = OPTIONS.get(door, ()) if last.startswith("-") else ()
    if door == "job" and len(before) == 1:
        from tui.job import WORDS

        return [*WORDS, *options]
    if door in ("job", "sheet") and len(before) < 3:
        from engine.jobs.library import shelf

        return [*(one.name for one in shelf()), *options, *(_files(last) if door == "sheet" else ())]
    if door == "completion":
        return SCRIPTS
    if door in FILES:
        return [*_files(last), *options]
    return [*_inputs(before[1:] if door == "work" else before, last), *options]


def _inputs(before: list[str], last: str) -> list[str]:
    """Operations, then the inputs of the one that is named, then the words that one of them takes."""
    named = next((word for word in before if not word.startswith("-")), "")
    if not named:
        return [entry.id for entry in CATALOG]
    if not any(entry.id == named for entry in CATALOG):
        return []
    asked = asks(load(named).inputs)
    name, given, _ = last.partition("=")
    if given and name in asked:
        return [f"{name}={value}" for value in asked[name].choices if " " not in value]
    taken = {word.partition("=")[0] for word in before}
    return [f"{name}=" for name in asked if name not in taken]


def _files(last: str) -> list[str]:
    folder, name = os.path.split(last)
    try:
        found = sorted(os.scandir(os.path.expanduser(folder) or "."), key=lambda entry: entry.name)
    except OSError:
        return []
    return [os.path.join(folder, entry.name) + ("/" if entry.is_dir() else "") for entry in found
            if entry.name.startswith(name)]  # fmt: skip
