"""The kinds of work that cautions belong to, and which of them each operation brings with it.

An operation names its own in `Operation.hazards`; those below are added, so that one which names few still
shows what belongs to its work.
"""

from __future__ import annotations

from collections.abc import Iterable

HAZARDS = {
    "general": "rules of every session at a machine, shown once",
    "chuck": "work held in a chuck on a turning spindle",
    "collet": "work held in a collet",
    "turning": "turning, facing and boring on the lathe",
    "parting": "cutting a piece off the bar with a blade",
    "screwcutting": "cutting a thread with a single point",
    "change-wheels": "fitting wheels, belts or chucks: hands inside the drive",
    "measuring": "gauging and measuring work at the machine",
    "tapping": "cutting or forming a thread with a tap, by hand or by power",
    "drilling": "drilling in the lathe or under a spindle",
    "reaming": "finishing a hole with a reamer",
    "countersinking": "chamfering a hole with a countersink",
    "knurling": "pressing or cutting a knurl",
    "dividing": "work on a dividing head or rotary table",
    "graduating": "ruling, engraving or stamping lines and figures",
    "milling": "milling with end mills, slot drills and saws",
    "clamping": "holding work on a mill table",
    "filing": "filing on the lathe",
    "polishing": "abrasive on turning work",
    "soldering": "soft soldering and what every soldering heat has in common",
    "brazing": "silver soldering and brazing, above 450 °C",
    "heat": "hardening, tempering and quenching",
    "adhesive": "retaining compounds and glues",
    "pressing": "pressing, staking and closing in a vice or press",
    "stud": "work held on a stud, an arbor or its own thread",
    "deburring": "taking burrs off and handling fresh edges",
    "hand-work": "small parts worked by hand at the bench",
    "swarf": "chips and clearing them",
    "fluids": "cutting oil and other fluids",
    "magnets": "magnets and magnetic bases",
    "grinding": "bench grinding of tools",
}

OPERATION_HAZARDS: dict[str, tuple[str, ...]] = {
    "thread-limits": ("measuring",),
    "identify-thread": ("measuring",),
    "three-wires": ("measuring",),
    "screwcutting": ("screwcutting", "chuck", "swarf"),
    "change-gears": ("change-wheels", "screwcutting"),
    "thread-fit": ("measuring",),
    "thread-strength": ("measuring",),
    "thread-relief": ("turning", "chuck"),
    "tap-drill": ("tapping", "drilling"),
    "drill-size": ("drilling",),
    "clearance-hole": ("drilling",),
    "hole-plan": ("drilling", "swarf"),
    "countersink": ("countersinking", "drilling"),
    "counterbore": ("drilling", "clamping"),
    "ream": ("reaming", "drilling"),
    "hole-circle": ("drilling", "clamping"),
    "divide": ("dividing", "graduating"),
    "rotary-table": ("dividing", "clamping"),
    "scale-lines": ("graduating", "dividing"),
    "scribe": ("graduating", "clamping"),
    "straight-scale": ("graduating", "clamping"),
    "vernier": ("graduating", "dividing"),
    "hand-dial": ("measuring",),
    "flats": ("milling", "dividing", "clamping"),
    "knurl-blank": ("knurling", "chuck"),
    "knurl-passes": ("knurling", "chuck", "fluids"),
    "turning-speed": ("turning", "chuck", "swarf"),
    "overhang": ("chuck", "collet", "turning"),
    "bar-plan": ("parting", "chuck", "stud"),
    "part-off": ("parting", "chuck", "swarf"),
    "slot": ("milling", "clamping"),
    "key": ("milling", "clamping"),
    "fit": ("pressing", "measuring"),
    "ball-seat": ("pressing", "adhesive", "soldering"),
    "solder": ("soldering", "brazing", "heat"),
    "retain": ("adhesive",),
}


def hazards_of(operation_id: str, named: Iterable[str] = ()) -> tuple[str, ...]:
    """Return the kinds of work of an operation, the most particular first.

    Examples
    --------
    >>> hazards_of("part-off", ("turning", "parting"))
    ('parting', 'chuck', 'swarf', 'turning')
    """
    together = (*OPERATION_HAZARDS.get(operation_id, ()), *named)
    return tuple(dict.fromkeys(tag for tag in together if tag in HAZARDS))
