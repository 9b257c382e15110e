"""Interpreters that have loaded nothing yet, for tests that ask what a piece of code loads.

One interpreter is started and kept; each question is answered by a fork of it, which is as empty as a new one and costs
a few milliseconds instead of a start.
"""

import atexit
import json
import os
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import Any

PROJECT = Path(__file__).parent.parent
KEPT = r"""
import io, json, os, sys
sys.path[0] = os.getcwd()
for line in sys.stdin:
    child = os.fork()
    if child:
        os.waitpid(child, 0)
        continue
    question, says, error = json.loads(line), io.StringIO(), ""
    sys.stdout = sys.stderr = says
    os.environ.update(question["environ"])
    os.chdir(question["folder"])
    try:
        exec(question["code"], {"__name__": "__fresh__"})
    except BaseException:
        import traceback  # loads more in some versions of Python than what is asked about

        error = traceback.format_exc()
    answer = {"modules": sorted(sys.modules), "says": says.getvalue(), "error": error}
    sys.__stdout__.write(json.dumps(answer) + "\n")
    sys.__stdout__.flush()
    os._exit(0)
"""


@cache
def _kept() -> subprocess.Popen[str]:
    process = subprocess.Popen(
        [sys.executable, "-c", KEPT], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=PROJECT
    )
    atexit.register(process.kill)
    return process


def ask(code: str) -> dict[str, Any]:
    """Run code in an empty interpreter, in this folder and environment: its modules, what it printed."""
    process = _kept()
    assert process.stdin and process.stdout
    environ = {key: value for key, value in os.environ.items() if key.startswith("XDG_")}
    print(json.dumps({"code": code, "environ": environ, "folder": os.getcwd()}), file=process.stdin, flush=True)
    answer: dict[str, Any] = json.loads(process.stdout.readline())
    assert not answer["error"], answer["error"]
    return answer


def loaded(code: str, watched: tuple[str, ...]) -> set[str]:
    """The watched modules that the code has loaded by its end."""
    return set(watched) & set(ask(code)["modules"])
