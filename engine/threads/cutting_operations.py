"""Operations about cutting and measuring a thread."""

from __future__ import annotations

from engine.threads.fit_operations import OPERATIONS as _FITS
from engine.threads.gears_operations import OPERATIONS as _GEARS
from engine.threads.screwcutting_operations import OPERATIONS as _CUTS
from engine.threads.wires_operations import OPERATIONS as _WIRES

OPERATIONS = {**_WIRES, **_CUTS, **_GEARS, **_FITS}
