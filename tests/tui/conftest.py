"""Most tests of the app begin past its first page; those about the page ask for it."""

import pytest


@pytest.fixture(autouse=True)
def past_the_first_page(request, monkeypatch):
    """A test marked `first_page` sees the page of rules; every other begins behind it."""
    if request.node.get_closest_marker("first_page") is None:
        monkeypatch.setattr("tui.session.Session.first_page_due", property(lambda self: False))
        monkeypatch.setattr("tui.desk.OpenJob.first_page_due", property(lambda self: False))
