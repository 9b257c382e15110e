"""What annotations are written with in the modules that a first answer loads: to a type checker this is the standard
module, which a running program has no use for, and which takes a twentieth of a first answer to load."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any as Any
    from typing import Literal as Literal
    from typing import NoReturn as NoReturn
    from typing import TextIO as TextIO
    from typing import TypeVar as TypeVar
else:

    class _Hint:
        """Stands where an annotation is made; nothing asks what of."""

        def __getitem__(self, what):
            return self

    Any = Literal = NoReturn = TextIO = _Hint()

    def TypeVar(name):
        """A name in annotations alone."""
        return name
