"""Rules about speed limits and holding the work: chuck, bar, balance, stud."""

from __future__ import annotations

from collections.abc import Callable

from engine.safety.facts import STANDS, Facts, Finding
from engine.safety.physics import (
    HALF_SPEED,
    OVERHANG_RATIO,
    grip_left,
    longest_free_bar,
    unbalance_force,
    whirl_speed,
)

_HALF_GRIP = (
    0.5  # share of the grip below which speed itself is the hazard; judgement, DIN 6386 goes to a third
)
_TEST_MASS, _TEST_OFFSET, _TEST_PULL = 0.1, 10.0, 10.0  # kg, mm, N: a lopsided part made visible; judgement
_UNSUPPORTED = ("", "none", "chuck", "collet")


def _over_machine_speed(facts: Facts) -> Finding | None:
    """The spindle is asked for more than the machine has."""
    speed = facts.speed
    machines = {"lathe": (facts.lathe,), "mill": (facts.mill,)}.get(facts.machine, (facts.lathe, facts.mill))
    speeds = [step for machine in machines if machine for step in machine.speeds]
    if speed is None or not speeds:
        return None
    top = max(speeds)
    return Finding.raised(speed=f"{speed:.0f}", top=f"{top:.0f}") if speed > top else None


def _chuck_over_mark(facts: Facts) -> Finding | None:
    """The spindle is asked for more than the chuck is marked for."""
    marked = facts.chuck.marked_speed if facts.chuck else None
    speed = facts.lathe_speed
    if marked is None or speed is None or speed <= marked:
        return None
    return Finding.raised(speed=f"{speed:.0f}", marked=f"{marked:.0f}", over=f"{speed - marked:.0f}")


def _chuck_unmarked(facts: Facts) -> Finding | None:
    """The shop knows no maximum speed for its chuck."""
    if facts.machine == "mill" or facts.chuck is None or facts.chuck.marked_speed is not None:
        return None
    return Finding.raised()


def _grip_share(facts: Facts) -> Finding | None:
    """Speed takes more than half of the jaws' grip."""
    marked = facts.chuck.marked_speed if facts.chuck else None
    speed = facts.lathe_speed
    if marked is None or speed is None or speed > marked:  # above the mark another rule speaks
        return None
    share = grip_left(speed=speed, marked=marked)
    if share >= _HALF_GRIP:
        return None
    return Finding.raised(speed=f"{speed:.0f}", share=f"{100 * share:.0f} %")


def _overhang_ratio(facts: Facts) -> Finding | None:
    """More than three diameters stand out unsupported."""
    if facts.machine == "mill" or facts.words("support") not in _UNSUPPORTED:
        return None
    diameter = facts.diameter
    out = facts.number("length") if facts.operation == "overhang" else facts.number("stick_out")
    limit = facts.length(OVERHANG_RATIO * diameter, side="down") if diameter else "three diameters"
    if diameter is None or out is None:
        return Finding.asked(limit=limit)
    if out <= OVERHANG_RATIO * diameter:
        return None
    return Finding.raised(ratio=f"{out / diameter:.1f}", limit=limit)


def _short_grip(facts: Facts) -> Finding | None:
    """The jaws hold less than one diameter of it."""
    if facts.machine == "mill":
        return None
    diameter, grip = facts.diameter, facts.number("grip")
    if diameter is None:
        return Finding.asked(diameter="one diameter")
    jaws = facts.chuck.jaw_length if facts.chuck else None
    if grip is None and jaws is not None and jaws < diameter:
        grip = jaws
    if grip is None:
        return Finding.asked(diameter=facts.length(diameter))
    if grip >= diameter:
        return None
    return Finding.raised(grip=facts.length(grip), diameter=facts.length(diameter))


def _jaws_past_body(facts: Facts) -> Finding | None:
    """Work so large that the jaws stand out beyond the chuck's body."""
    diameter = facts.diameter
    if diameter is None or facts.chuck is None:
        return None
    body = facts.chuck.body_diameter
    if diameter > body:
        return Finding.raised(diameter=facts.length(diameter), body=facts.length(body))
    return Finding.asked() if diameter > body / 2 else None


def _bar_fits_spindle(facts: Facts) -> bool:
    bore = facts.lathe.spindle_bore if facts.lathe else None
    return facts.diameter is None or bore is None or facts.diameter < bore


def _rear_bar(facts: Facts) -> Finding | None:
    """A bar that may stick out behind the headstock."""
    rear = facts.number("rear")
    if facts.machine == "mill" or not _bar_fits_spindle(facts) or (rear is not None and rear <= 0):
        return None
    if rear is None:
        return Finding.asked(rear="some")
    return Finding.measured_but(rear=facts.length(rear))


def _rear_whirl(facts: Facts) -> Finding | None:
    """A bar behind the headstock that turns at more than half its whirl speed."""
    speed, diameter = facts.lathe_speed, facts.diameter
    if not speed or not diameter or not _bar_fits_spindle(facts) or facts.told.get("CHK-07") is False:
        return None
    rear = facts.number("rear")
    limit = longest_free_bar(diameter=diameter, speed=speed, sound=facts.sound)
    values = {"speed": f"{speed:.0f}", "limit": facts.length(limit, side="down")}
    if rear is None:
        return Finding.asked(**values) if facts.told.get("CHK-07") else None
    if rear <= 0 or rear <= limit:
        return None
    whirl = whirl_speed(diameter=diameter, length=rear, sound=facts.sound)
    return Finding.raised(rear=facts.length(rear), whirl=f"{HALF_SPEED * whirl:.0f}", **values)


def _unbalance(facts: Facts) -> Finding | None:
    """Off-centre work; asked once the speed makes a small mass pull hard."""
    speed = facts.lathe_speed
    if facts.machine == "mill":
        return None
    if speed is None:
        return STANDS
    pull = unbalance_force(mass=_TEST_MASS, offset=_TEST_OFFSET, speed=speed)
    if pull < _TEST_PULL:
        return STANDS
    return Finding.measured_but(speed=f"{speed:.0f}", pull=f"{pull:.0f} N")


def _screwed_chuck(facts: Facts) -> Finding | None:
    """A chuck that screws on unscrews when run backwards or braked."""
    if facts.machine == "mill" or (facts.chuck is not None and not facts.chuck.screwed):
        return None
    return Finding.asked()


def _thread_hand(facts: Facts) -> Finding | None:
    """Forward cutting tightens a right-hand stud and unscrews a left-hand one."""
    thread = facts.thread
    if thread is None:
        return Finding.asked()
    return Finding.raised(thread=str(thread)) if thread.left_hand else None


def _little_thread(facts: Facts) -> Finding:
    """The stud holds by less than one diameter of thread."""
    thread = facts.thread
    return Finding.asked(diameter=facts.length(thread.diameter) if thread else "one diameter")


RULES: dict[str, Callable[[Facts], Finding | None]] = {
    "over-machine-speed": _over_machine_speed,
    "chuck-over-mark": _chuck_over_mark,
    "chuck-unmarked": _chuck_unmarked,
    "grip-share": _grip_share,
    "overhang-ratio": _overhang_ratio,
    "short-grip": _short_grip,
    "jaws-past-body": _jaws_past_body,
    "rear-bar": _rear_bar,
    "rear-whirl": _rear_whirl,
    "unbalance": _unbalance,
    "screwed-chuck": _screwed_chuck,
    "thread-hand": _thread_hand,
    "little-thread": _little_thread,
}
