"""Versions of the program as a person has them: each one's wheel in a venv of its own, with stored bytecode.

Without stored bytecode a start is mostly compiling, and its time says nothing of the program.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

PROJECT = Path(__file__).parents[2]


@contextmanager
def installed(commits: list[str]) -> Iterator[dict[str, str]]:
    """Interpreters by name: `now`, this folder as it stands, and one for each commit; a home of its own for all."""
    for name in ("PYTHONDONTWRITEBYTECODE", "PYTHONPATH"):
        os.environ.pop(name, None)
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        os.environ.update(HOME=folder, XDG_CONFIG_HOME=f"{folder}/config", XDG_DATA_HOME=f"{folder}/data")
        os.chdir(home)
        found = {"now": _venv(PROJECT, home / "now")}
        for commit in commits:
            tree = home / f"{commit}-tree"
            tree.mkdir()
            packed = subprocess.run(["git", "-C", str(PROJECT), "archive", commit], capture_output=True, check=True)
            subprocess.run(["tar", "-x", "-C", str(tree)], input=packed.stdout, check=True)
            found[commit] = _venv(tree, home / commit)
        yield found


def _venv(project: Path, folder: Path) -> str:
    python = str(folder / "bin" / "python")
    subprocess.run([sys.executable, "-m", "venv", str(folder)], check=True)
    subprocess.run([python, "-m", "pip", "install", "-q", str(project)], check=True)
    probe = "import engine, pathlib; print(any(pathlib.Path(engine.__file__).parent.rglob('*.pyc')))"
    said = subprocess.run([python, "-c", probe], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "True", "the wheel has no stored bytecode: nothing can be said of it"
    return python
