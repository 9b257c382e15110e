"""The operations of the knurling pane."""

from __future__ import annotations

from engine.knurling.blank_operations import OPERATIONS as _BLANK
from engine.knurling.passes_operations import OPERATIONS as _PASSES

OPERATIONS = {**_BLANK, **_PASSES}
