"""How an operation and a pane are listed."""

from __future__ import annotations

from engine.base.records import dataclass


@dataclass(frozen=True, slots=True)
class Pane:
    """A pane of the app: its key, its title."""

    id: str
    key: str
    title: str


@dataclass(frozen=True, slots=True)
class Entry:
    """An operation as it is listed: its pane and place in it, the module that declares it, the words by which people
    look for it, the kinds of value that it takes (`needs-thread` where it does nothing without one), its troubles and its
    kinds of hazard."""

    id: str
    pane: str
    place: int
    module: str
    title: str
    words: str
    takes: str
    troubles: str
    hazards: str
