"""What twists a tap off: torsion of its core."""

from __future__ import annotations

from math import pi

from engine.base.records import dataclass
from engine.base.words import Text, own, put, say
from engine.threads.thread import Thread

_CORE = 0.5  # of the major diameter: core between the flutes of a hand tap (0.4 to 0.55, common practice, no source)
_SHEAR = 1500.0  # MPa at which hardened high-speed steel shears in torsion (from memory; 1200 to 2000)
_SOURCE = (
    "torsion of a round core (any handbook of strength) half as thick as the thread, of high-speed steel at 1500 N/mm²: "
    "from memory, within a third; carbon steel bears less, and a bent tap breaks long before"
)


@dataclass(frozen=True, slots=True)
class TapBreaks:
    """About the torque that twists a sound tap off [N·m], and how it comes about."""

    value: float
    working: Text
    source: str


def tap_breaks(thread: Thread) -> TapBreaks:
    """About the torque that twists a tap off.

    thread: what it cuts
    Returns: pi / 16 x core³ x shear strength, an estimate within a third. [N·m]
    Source: torsion of a round bar: any handbook of strength. Core and strength of a tap: from memory; no table of taps'
        own breaking torques was found.

    >>> from engine.threads.designation import parse
    >>> [round(tap_breaks(parse(size)).value, 1) for size in ("M3", "M6", "1/4-20")]
    [1.0, 8.0, 9.4]
    """
    core = _CORE * thread.diameter
    value = pi / 16 * core**3 * _SHEAR / 1000
    working = say("3.1416 ÷ 16 x ({core} mm)^3 x {shear} N/mm² ÷ 1000 = {m} N·m", core=own(put(core), "mm"),
        shear=own(put(_SHEAR, "stress"), "mm"), m=own(put(value, "torque"), "mm"))  # fmt: skip
    return TapBreaks(value, working, _SOURCE)
