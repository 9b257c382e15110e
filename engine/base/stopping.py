"""How a long search learns that nobody waits for its end any more.

A door that runs an operation in a thread says with `heeding` how it is to be asked; a search asks `stop_asked` now and
then, and when it is true answers with the best it has so far. Where no door has said anything it is never true.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar


def _never() -> bool:
    return False


_ASKED: ContextVar[Callable[[], bool]] = ContextVar("stop", default=_never)


def stop_asked() -> bool:
    """Whether a search is to end with what it has."""
    return _ASKED.get()()


@contextmanager
def heeding(asked: Callable[[], bool]) -> Iterator[None]:
    """Let the searches run inside ask this.

    >>> with heeding(lambda: True):
    ...     stop_asked()
    True
    >>> stop_asked()
    False
    """
    token = _ASKED.set(asked)
    try:
        yield
    finally:
        _ASKED.reset(token)
