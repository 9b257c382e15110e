"""Keep every test away from the user's own files."""

import pytest
from hypothesis import settings

# Clocks on shared machines make poor gates: no test fails for being slow.
settings.register_profile("suite", deadline=None, max_examples=50)
settings.load_profile("suite")


@pytest.fixture(autouse=True)
def private_folders(tmp_path, monkeypatch):
    """Config, data and cache folders of this test alone."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture(scope="session")
def registry():
    """Pint's own default registry, the independent judge of our factors; reading its definitions takes long."""
    import pint

    return pint.UnitRegistry()
