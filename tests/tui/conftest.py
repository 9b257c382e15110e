"""Most tests of the app begin past its first page; those about the page ask for it."""

import asyncio

import pytest


@pytest.fixture(autouse=True)
def past_the_first_page(request, monkeypatch):
    """A test marked `first_page` sees the page of rules; every other begins behind it."""
    if request.node.get_closest_marker("first_page") is None:
        monkeypatch.setattr("tui.session.Session.first_page_due", property(lambda self: False))
        monkeypatch.setattr("tui.desk.OpenJob.first_page_due", property(lambda self: False))


async def nothing_left_to_do(*_seconds):
    """Wait until the event loop has no more to do. Textual's own wait watches the clock of the processor, and a key
    costs it a twentieth of a second; asyncio keeps what is ready to itself, and nothing else tells it."""
    loop = asyncio.get_running_loop()
    await asyncio.sleep(0)
    while loop._ready:
        await asyncio.sleep(0)


@pytest.fixture(autouse=True, scope="session")
def no_waiting_for_the_clock():
    """Keys follow one another as soon as the last has been dealt with."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("textual.app.wait_for_idle", nothing_left_to_do)
        patch.setattr("textual.pilot.wait_for_idle", nothing_left_to_do)
        yield
