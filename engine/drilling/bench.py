"""The machine that a hole is made on: its speeds, its limit, the handwheel that feeds the drill."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.base.answer import Note
from engine.base.refusals import BadInput
from engine.cutting.speeds import SpindleSpeed, spindle_speed
from engine.indexing.dials import DialSetting, Towards, slide_setting
from engine.shop.model import Shop, Slide

MACHINES = ("lathe", "mill")


@dataclass(frozen=True, slots=True)
class Machine:
    """A lathe (drill in the tailstock) or a mill (drill in the spindle); `name` is "" for none that is known.

    `ceiling` is a speed never to be passed, in rev/min, and `mark` says where it is marked. `motor` is in W.
    """

    name: str
    speeds: Sequence[float]
    ceiling: float | None
    mark: str
    motor: float | None
    slide: Slide | None
    wheel: str


def machine_of(shop: Shop, wanted: str | None) -> Machine:
    """Return the machine that a hole is made on.

    Parameters
    ----------
    shop : Shop
        What this person owns.
    wanted : str or None
        `lathe` or `mill`; None for the lathe if there is one, else the mill.

    Returns
    -------
    machine : Machine
        The machine; one without speeds (any speed) if the shop has neither and none was asked for.

    Raises
    ------
    BadInput
        If the wanted machine is not in the shop, or the chuck is marked below the lathe's lowest speed.

    Sources
    -------
    The shop file.

    Examples
    --------
    >>> from engine.shop.file import sample
    >>> found = machine_of(sample("metric"), None)
    >>> found.name, found.ceiling, found.wheel
    ('lathe', 2000.0, 'Tailstock')
    """
    if wanted == "lathe" and shop.lathe is None:
        raise BadInput("machine", "lathe", "a machine of the shop", "machine: this shop has no lathe.")
    if wanted == "mill" and shop.mill is None:
        raise BadInput("machine", "mill", "a machine of the shop", "machine: this shop has no mill.")
    if shop.lathe is not None and wanted != "mill":
        mark = shop.lathe.chuck.marked_speed
        _check_mark(mark, shop.lathe.speeds)
        return Machine(
            "lathe", shop.lathe.speeds, mark, "the chuck", shop.lathe.motor, shop.lathe.tailstock, "Tailstock"
        )
    if shop.mill is not None:
        return Machine("mill", shop.mill.speeds, None, "", shop.mill.motor, shop.mill.z, "Quill")
    return Machine("", (), None, "", None, None, "Handwheel")


def _check_mark(mark: float | None, speeds: Sequence[float]) -> None:
    if mark is not None and speeds and mark < min(speeds):
        accepted = f"a marked speed of at least {min(speeds):g} rev/min, the lathe's lowest"
        text = f"machine: the lathe's chuck is marked {mark:g} rev/min; accepted: {accepted}."
        raise BadInput("machine", "lathe", accepted, text)


def speed_on(machine: Machine, *, diameter: float, surface_speed: float) -> SpindleSpeed:
    """Spindle speed of a tool on a machine.

    Parameters
    ----------
    machine : Machine
        The machine.
    diameter : float
        Diameter of the tool, above 0. [mm]
    surface_speed : float
        Wanted surface speed, above 0. [m/min]

    Returns
    -------
    speed : SpindleSpeed
        The machine's own step. [rev/min]

    Raises
    ------
    OutOfRange
        If an argument is not above 0.

    Sources
    -------
    As for engine.cutting.speeds.spindle_speed.

    Examples
    --------
    >>> from engine.shop.file import sample
    >>> speed_on(machine_of(sample("metric"), "lathe"), diameter=10, surface_speed=24.4).chosen
    630.0
    """
    return spindle_speed(
        diameter=diameter, surface_speed=surface_speed, steps=machine.speeds, ceiling=machine.ceiling
    )


def setting_on(machine: Machine, depth: float, *, towards: Towards = "short") -> DialSetting | None:
    """Handwheel setting for a depth from the dial's zero, or None where the machine has no such dial.

    Parameters
    ----------
    machine : Machine
        The machine.
    depth : float
        Depth, 0 or more. [mm]
    towards : str
        As for engine.indexing.dials; `short` never goes past the depth.

    Returns
    -------
    setting : DialSetting or None
        Turns and reading. [mm]

    Raises
    ------
    OutOfRange
        If the depth is negative.

    Sources
    -------
    As for engine.indexing.dials.

    Examples
    --------
    >>> from engine.shop.file import sample
    >>> found = setting_on(machine_of(sample("metric"), "lathe"), 23.004)
    >>> found.turns, found.reading
    (11, 1.0)
    """
    return None if machine.slide is None else slide_setting(machine.slide, depth, towards=towards)


def speed_notes(machine: Machine, speed: SpindleSpeed, tool: str) -> list[Note]:
    """What the machine's speeds made worth saying about a tool.

    Parameters
    ----------
    machine : Machine
        The machine.
    speed : SpindleSpeed
        The speed chosen on it.
    tool : str
        What turns, as a sentence names it: `drill`.

    Returns
    -------
    notes : list of Note
        None, one or two.

    Sources
    -------
    Common practice, no source.

    Examples
    --------
    >>> from engine.shop.file import sample
    >>> bench = machine_of(sample("metric"), "lathe")
    >>> [n.level for n in speed_notes(bench, speed_on(bench, diameter=400, surface_speed=20), "drill")]
    ['warning']
    """
    if speed.too_fast:
        text = (
            f"The {machine.name}'s lowest speed, {speed.chosen:g} rev/min, is above the {speed.ideal:.0f} that the "
            f"{tool} wants: use plenty of oil and go gently."
        )
        return [Note("warning", text)]
    if speed.held_by_ceiling:
        text = f"Held back by the {machine.ceiling:g} rev/min marked on {machine.mark}."
        return [Note("info", text)]
    if machine.speeds and speed.chosen == max(machine.speeds) and speed.ideal > 1.5 * speed.chosen:
        text = (
            f"The {tool} would run at {speed.ideal:.0f} rev/min; {speed.chosen:g} is the most the {machine.name} has. "
            "Feed it more slowly to match."
        )
        return [Note("info", text)]
    return []
