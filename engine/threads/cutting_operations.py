"""Operations about cutting and measuring a thread."""

from __future__ import annotations

from engine.operation import Operation

OPERATIONS: dict[str, Operation] = {}
