"""The kinds of work that cautions belong to. An operation names its own in `Operation.hazards`, the most particular
first; a look-up, where nothing is done, names none."""

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

# A piece held one way is not held the others: kinds of work that belong to a way of holding, and how it is named.
BY_HOLD = {"soldering": ("solder",), "adhesive": ("retain", "glue"), "pressing": ("press", "stake")}


def done_here(tags: Iterable[str], hold: str = "", *, tight: bool = True) -> tuple[str, ...]:
    """The kinds of work that are really done, each once: those of another way to hold the piece fall away, and pressing
    where nothing can be tight.

    >>> done_here(("pressing", "soldering", "drilling"), "press stake")
    ('pressing', 'drilling')
    """
    known = dict.fromkeys(tag for tag in tags if tag in HAZARDS and (tight or tag != "pressing"))
    return tuple(tag for tag in known if not hold or any(way in hold for way in BY_HOLD.get(tag, (hold,))))
