"""Keep every test away from the user's own files."""

from itertools import count

import pytest
from hypothesis import settings

# Clocks on shared machines make poor gates: no test fails for being slow.
settings.register_profile("suite", deadline=None, max_examples=50)
settings.load_profile("suite")

COUNTED = count()


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
