"""Keep every test away from the user's own files, and the suite from doing twice what once would do."""

import contextlib
import gc
import os
import shutil
import sys
from importlib import import_module
from itertools import count
from pathlib import Path

import pytest
from hypothesis import settings

# Compiled modules are kept, as those of an installed program are, whatever the surroundings say: otherwise each worker,
# and each program that a test starts, compiles all of them anew.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# Clocks on shared machines make poor gates: no test fails for being slow.
settings.register_profile("suite", deadline=None, max_examples=50)
settings.load_profile("suite")

# The folders of the tests are kept in memory where there is plenty: saving is tested, not how long a disk takes for it,
# and some thousand saves wait for the disk until they are on it.
MEMORY = Path("/dev/shm")
if MEMORY.is_dir() and os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > 2**30:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(MEMORY))

COUNTED = count()
ROOT = Path(__file__).parents[1]


@pytest.hookimpl(tryfirst=True)
def pytest_collection(session):
    """Workers that collect the same tests at the same time prepare a share of the modules each, then read the others'."""
    worker = getattr(session.config, "workerinput", None)
    if worker and session.config.args_source is pytest.Config.ArgsSource.TESTPATHS:
        share = slice(int(worker["workerid"].removeprefix("gw")), None, worker["workercount"])
        for path in sorted(ROOT.glob("tests/**/test_*.py"))[share]:
            with contextlib.suppress(Exception, pytest.skip.Exception):  # what is wrong is said by the collection
                import_module(".".join(path.relative_to(ROOT).with_suffix("").parts))


def pytest_collection_finish():
    """What is loaded by now stays: looking through it for rubbish every few tests takes a tenth of the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(10_000)


@pytest.fixture(autouse=True)
def private_folders(request, tmp_path_factory, monkeypatch):
    """Config, data and cache folders of this test alone; they are made by whoever writes in them, which few tests do.

    The rows of a table (tests/rows.py) share them, so none may write there.
    """
    own = tmp_path_factory.getbasetemp() / f"own-{next(COUNTED)}"
    for kind in ("config", "data", "cache"):
        monkeypatch.setenv(f"XDG_{kind.upper()}_HOME", str(own / kind))
    yield
    assert not (hasattr(getattr(request.node, "obj", None), "tables") and own.exists()), "a row wrote: make it a test"


@pytest.fixture(scope="session")
def registry():
    """Pint's own default registry, the independent judge of our factors; reading its definitions takes long."""
    import pint

    return pint.UnitRegistry()
