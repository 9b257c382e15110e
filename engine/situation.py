"""What is so at the machine at one moment: what cautions, trouble and defaults read, and nothing else.

An operation fills the fields it knows in its own declaration, a moment for each row or phase that differs (a hole's
centre, pilot and drill turn at different speeds); the set-up and the shop fill the rest. None means that nobody knows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from engine.base.records import dataclass, fields, replace

if TYPE_CHECKING:
    from engine.threads.thread import Thread

Machine = Literal["lathe", "mill", "bench", ""]  # mill: any machine whose tool turns, a drilling machine too
Hole = Literal["through", "blind", ""]


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """One moment. Lengths in mm, speeds in rev/min, temperatures in °C."""

    machine: Machine = ""

    # The set-up
    held_by: str = ""  # three-jaw, four-jaw, soft jaws, collet, between centres, arbor, vice ... "" not known
    support: str = ""  # none, centre, fixed steady, travelling steady; "" not known
    grip: float | None = None  # length held
    stick_out: float | None = None  # from the jaws to the far end of what is cut
    rear: float | None = None  # bar out behind the headstock
    power: str = ""  # on, unplugged
    tap_driven_by: str = ""  # hand, spindle
    reverse: bool | None = None  # the spindle cuts or is braked in reverse
    off_centre: bool | None = None  # the mass of the work is not on the axis

    # The work
    material: str = ""
    work_diameter: float | None = None  # what turns in the chuck
    bore: float | None = None  # hole along its axis already there
    outside: float | None = None  # diameter round a hole that is made
    thread: Thread | None = None  # the thread that is cut or stands on the piece
    part: str = ""  # the piece as it was named: "ball", "brass pin"
    hold: str = ""  # ways of holding a fitted piece: press, stake, retain, solder
    hollow: bool | None = None
    snags: bool | None = None  # a thread, slot, flat or hole stands on it that catches a strip or cloth
    hardened: bool | None = None  # it is hardened or quenched
    coating: str = ""
    temper: float | None = None  # temperature the part was tempered at
    bears: float | None = None  # temperature it stands without harm, where only its kind is known
    ball: float | None = None  # diameter of a small hard piece
    interference: bool | None = None  # whether a fit may have to be pressed

    # The cut
    spindle_speed: float | None = None
    feed: float | None = None  # along, a turn: mm/rev
    feed_rate: float | None = None  # along, a minute: mm/min
    gap: float | None = None  # way to a shoulder or the jaws
    time_to_shoulder: float | None = None  # s
    tool_diameter: float | None = None  # drill, reamer, tap or cutter
    cutter_flutes: int | None = None
    pass_depth: float | None = None  # one pass of a milling cutter
    cutter_deflection: float | None = None
    hole: Hole = ""
    depth: float | None = None  # of the hole that is drilled
    spare: float | None = None  # drilled below the thread of a blind hole
    wall: float | None = None  # metal left under a slot
    width: float | None = None  # of a knurl
    blade_width: float | None = None
    reach_needed: float | None = None  # by the parting blade, to part it
    parted_at: float | None = None  # how far from the jaws the nearest cut is

    # Heat
    alloy: str = ""
    liquidus: float | None = None

    # The shop: filled by engine.shop.situation, never by an operation
    machine_top_speed: float | None = None
    machine_slowest: float | None = None
    chuck_mark: float | None = None
    chuck_owned: bool | None = None  # there is a chuck whose mark could be read
    chuck_body: float | None = None
    jaw_length: float | None = None
    chuck_screwed: bool | None = None
    spindle_bore: float | None = None
    blade_reach: float | None = None  # of the owned blade
    table_backlash: float | None = None
    indexed_in_lathe: bool | None = None  # dividing is done by the lathe's own spindle

    def filled(self, **more: object) -> Situation:
        """The same moment with what was not known before; what is known stays."""
        new = {name: value for name, value in more.items() if getattr(self, name) in (None, "")}
        return replace(self, **new)  # type: ignore[arg-type]


NAMES = tuple(field.name for field in fields(Situation))
