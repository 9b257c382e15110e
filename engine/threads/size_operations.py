"""Operations about the size, limits and strength of a thread."""

from __future__ import annotations

from engine.operation import Operation

OPERATIONS: dict[str, Operation] = {}
