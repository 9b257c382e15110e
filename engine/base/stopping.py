"""How a long search learns that nobody waits for its end any more.

A door that runs an operation in a thread says with `Heeding` how it is to be asked; a search asks `stop_asked` now and
then, and when it is true answers with the best it has so far. Where no door has said anything it is never true.
"""

from __future__ import annotations

from collections.abc import Callable
from contextvars import ContextVar


def _never() -> bool:
    return False


_ASKED: ContextVar[Callable[[], bool]] = ContextVar("stop", default=_never)


def stop_asked() -> bool:
    """Whether a search is to end with what it has."""
    return _ASKED.get()()


class Heeding:
    """Let the searches run inside ask this.

    >>> with Heeding(lambda: True):
    ...     stop_asked()
    True
    >>> stop_asked()
    False
    """

    def __init__(self, asked: Callable[[], bool]) -> None:
        self.asked = asked

    def __enter__(self) -> None:
        self.token = _ASKED.set(self.asked)

    def __exit__(self, *failure: object) -> None:
        _ASKED.reset(self.token)
