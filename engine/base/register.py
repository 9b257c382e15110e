"""The one ordered list of operations. Listing them loads nothing; the module that declares an operation loads when
the operation is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING

from engine.base.refusals import BadInput

if TYPE_CHECKING:
    from engine.base.operation import Operation


@dataclass(frozen=True, slots=True)
class Pane:
    """A pane of the app: its key, its title and the families whose operations it shows."""

    id: str
    key: str
    title: str


@dataclass(frozen=True, slots=True)
class Entry:
    """An operation as it is listed: where it lives and the words by which people look for it."""

    id: str
    pane: str
    family: str
    title: str
    words: str
    topic: str  # its module in the family: engine/<family>/<topic>_operations.py


PANES = (
    Pane("threads", "f2", "Threads"),
    Pane("drilling", "f3", "Drilling"),
    Pane("indexing", "f4", "Indexing"),
    Pane("knurling", "f5", "Knurling"),
    Pane("turning", "f6", "Turning"),
    Pane("joining", "f7", "Slots and joining"),
)

CATALOG = (
    Entry(
        "thread-limits",
        "threads",
        "threads",
        "Limits of a thread",
        "size tolerance class pitch diameter major minor",
        "limits",
    ),
    Entry(
        "identify-thread",
        "threads",
        "threads",
        "Which thread is this?",
        "unknown identify recognise gauge measure",
        "identify",
    ),
    Entry(
        "three-wires",
        "threads",
        "threads",
        "Measure over wires",
        "wire pitch diameter effective measuring",
        "wires",
    ),
    Entry(
        "screwcutting",
        "threads",
        "threads",
        "Cut a thread: passes",
        "single point infeed depth passes compound slide",
        "screwcutting",
    ),
    Entry(
        "change-gears",
        "threads",
        "threads",
        "Change wheels",
        "gears train leadscrew thread dial half nuts",
        "gears",
    ),
    Entry(
        "thread-fit",
        "threads",
        "threads",
        "Does the screw fit the nut?",
        "binds tight loose play clearance lead error",
        "fit",
    ),
    Entry(
        "thread-strength",
        "threads",
        "threads",
        "Strength of a thread",
        "load torque strip engagement proof",
        "strength",
    ),
    Entry(
        "thread-relief",
        "threads",
        "threads",
        "Relief and run-out",
        "undercut groove chamfer shoulder",
        "relief",
    ),
    Entry(
        "tap-drill",
        "drilling",
        "drilling",
        "Tapping drill",
        "tapping size hole for a tap percent engagement",
        "tap",
    ),
    Entry(
        "drill-size", "drilling", "drilling", "Drill sizes", "number letter fraction metric nearest", "size"
    ),
    Entry("clearance-hole", "drilling", "drilling", "Clearance hole", "bolt passing close loose", "size"),
    Entry(
        "hole-plan",
        "drilling",
        "drilling",
        "Plan a hole",
        "how deep peck pilot centre drill feed speed deep hole",
        "plan",
    ),
    Entry("countersink", "drilling", "drilling", "Countersink", "chamfer flat head 82 90", "seat"),
    Entry("counterbore", "drilling", "drilling", "Counterbore", "cap screw head spot face", "seat"),
    Entry("ream", "drilling", "drilling", "Ream a hole", "reamer allowance H7 finish", "ream"),
    Entry(
        "hole-circle",
        "drilling",
        "drilling",
        "Holes on a circle",
        "bolt circle coordinates pcd flange",
        "circle",
    ),
    Entry(
        "divide",
        "indexing",
        "indexing",
        "Divide a circle",
        "dividing head index plate crank sector arms compound differential",
        "dividing",
    ),
    Entry("rotary-table", "indexing", "indexing", "Rotary table", "degrees minutes seconds dial", "rotary"),
    Entry(
        "scale-lines",
        "indexing",
        "indexing",
        "Scale lines on a drum",
        "graduate graduating collar thimble engrave dial",
        "scale",
    ),
    Entry("vernier", "indexing", "indexing", "Vernier", "fine reading scale", "vernier"),
    Entry("hand-dial", "indexing", "indexing", "Hand dial", "handwheel turns reading backlash move", "dial"),
    Entry(
        "flats",
        "indexing",
        "indexing",
        "Flats on a bar",
        "square hexagon across flats corners spanner",
        "flats",
    ),
    Entry(
        "knurl-blank",
        "knurling",
        "knurling",
        "Blank for a knurl",
        "diameter teeth tracks double growth",
        "blank",
    ),
    Entry("knurl-passes", "knurling", "knurling", "Run the knurl", "feed speed infeed plunge", "passes"),
    Entry(
        "turning-speed",
        "turning",
        "turning",
        "Turning speed",
        "rpm surface speed cutting feed force power",
        "speed",
    ),
    Entry("overhang", "turning", "turning", "Overhang", "deflection stick out bend taper whirl", "overhang"),
    Entry(
        "bar-plan",
        "turning",
        "turning",
        "Parts from a bar",
        "bar stock length saddle several cut list",
        "bar",
    ),
    Entry("part-off", "turning", "turning", "Part off", "parting blade chatter cut off", "speed"),
    Entry(
        "slot",
        "joining",
        "slotting",
        "Mill a slot",
        "slot keyway end mill cutter deflection screwdriver",
        "slot",
    ),
    Entry("key", "joining", "slotting", "Key and keyway", "parallel key shaft hub", "key"),
    Entry("fit", "joining", "joining", "Limits and fits", "ISO 286 H7 g6 hole shaft clearance press", "fit"),
    Entry("ball-seat", "joining", "joining", "Ball in the end", "ball stand out seat press", "ball"),
    Entry("solder", "joining", "joining", "Solder", "silver soft brazing temper heat", "solder"),
    Entry("retain", "joining", "joining", "Retaining compound", "glue adhesive gap bond", "fit"),
)


def entry(operation_id: str) -> Entry:
    """Return how an operation is listed.

    Parameters
    ----------
    operation_id : str
        Such as `tap-drill`.

    Returns
    -------
    entry : Entry
        Its pane, family, title and search words.

    Raises
    ------
    BadInput
        If there is none of that name; the sentence offers the nearest.

    Sources
    -------
    None: a list.

    Examples
    --------
    >>> entry("tap-drill").title
    'Tapping drill'
    """
    for known in CATALOG:
        if known.id == operation_id:
            return known
    from difflib import get_close_matches

    near = get_close_matches(operation_id, [e.id for e in CATALOG], n=1)
    hint = f" Did you mean {near[0]}?" if near else " `tommybar work` lists them."
    shown = ascii(operation_id[:40])
    raise BadInput("operation", operation_id, "an operation", f"operation: there is no {shown}.{hint}")


def load(operation_id: str) -> Operation:
    """Return an operation, loading the module that declares it if it is the first of it.

    Parameters
    ----------
    operation_id : str
        Such as `tap-drill`.

    Returns
    -------
    operation : Operation
        The declaration.

    Raises
    ------
    BadInput
        If there is none of that name.

    Sources
    -------
    None: a list.

    Examples
    --------
    >>> load("hand-dial").id
    'hand-dial'
    """
    known = entry(operation_id)
    module = import_module(f"engine.{known.family}.{known.topic}_operations")
    operation: Operation = module.OPERATIONS[operation_id]
    return operation
