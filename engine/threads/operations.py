"""The operations of the threads pane."""

from __future__ import annotations

from engine.threads.cutting_operations import OPERATIONS as _CUTTING
from engine.threads.size_operations import OPERATIONS as _SIZES

OPERATIONS = {**_SIZES, **_CUTTING}
