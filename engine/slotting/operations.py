"""The operations of slots and keys."""

from __future__ import annotations

from engine.slotting.key_operations import OPERATIONS as _KEY
from engine.slotting.slot_operations import OPERATIONS as _SLOT

OPERATIONS = {**_SLOT, **_KEY}
