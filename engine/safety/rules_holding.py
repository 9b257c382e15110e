"""Rules about speed limits and holding the work: chuck, bar, balance, stud."""

from __future__ import annotations

from engine.base.words import figures, say, shown
from engine.safety.finding import STANDS, Finding, at_most, raised, rule, tenth, unless_told
from engine.safety.physics import (
    HALF_SPEED,
    OVERHANG_RATIO,
    grip_left,
    longest_free_bar,
    sound_in,
    unbalance_force,
    whirl_speed,
)
from engine.situation import Situation

_HALF_GRIP = 0.5  # share of the grip below which speed is the hazard; judgement, DIN 6386 goes to a third
_LEVER = 1.5  # stick-out over grip from which a light cut levers the work out; common practice, no source
_TEST_MASS, _TEST_OFFSET, _TEST_PULL = 0.1, 10.0, 10.0  # kg, mm, N: a lopsided part made visible; judgement
_SUPPORTED = ("centre", "fixed steady", "steady", "travelling steady", "fixed", "both ends")
_IN_JAWS = ("", "three-jaw", "four-jaw", "soft jaws", "collet")


@rule("over-machine-speed", "spindle_speed", "machine_top_speed")
def _over_machine_speed(s: Situation) -> Finding | None:
    """The spindle is asked for more than the machine has."""
    speed, top = s.spindle_speed, s.machine_top_speed
    if speed is None or top is None or speed <= top:
        return None
    return raised(speed / top, speed=figures(speed), top=figures(top))


@rule("chuck-over-mark", "machine", "spindle_speed", "chuck_mark")
def _chuck_over_mark(s: Situation) -> Finding | None:
    """The spindle is asked for more than the chuck is marked for."""
    speed, mark = s.spindle_speed, s.chuck_mark
    if s.machine != "lathe" or mark is None or speed is None or speed <= mark:
        return None
    return raised(speed / mark, speed=figures(speed), marked=figures(mark), over=figures(speed - mark))


@rule("chuck-unmarked", "machine", "chuck_owned", "chuck_mark")
def _chuck_unmarked(s: Situation) -> Finding | None:
    """The shop knows no maximum speed for its chuck."""
    return raised() if s.machine != "mill" and s.chuck_owned and s.chuck_mark is None else None


@rule("grip-share", "machine", "spindle_speed", "chuck_mark")
def _grip_share(s: Situation) -> Finding | None:
    """Speed takes more than half of the jaws' grip."""
    speed, mark = s.spindle_speed, s.chuck_mark
    if s.machine != "lathe" or mark is None or speed is None or speed > mark:  # above it another rule speaks
        return None
    share = grip_left(speed=speed, marked=mark)
    if share >= _HALF_GRIP:
        return None
    return raised(speed / mark, speed=figures(speed), share=shown(100 * share, "percent"))


@rule("overhang-ratio", "machine", "held_by", "support", "work_diameter", "stick_out")
def _overhang_ratio(s: Situation) -> Finding | None:
    """More than three diameters stand out unsupported."""
    if s.machine == "mill" or s.support in _SUPPORTED or s.held_by == "between centres":
        return None
    if s.work_diameter is None or s.stick_out is None:
        return unless_told("stick_out")
    ratio = s.stick_out / s.work_diameter
    if ratio <= OVERHANG_RATIO:
        return None
    limit = OVERHANG_RATIO * s.work_diameter
    return raised(ratio / OVERHANG_RATIO, out=tenth(s.stick_out), work=tenth(s.work_diameter), limit=at_most(limit))


@rule("short-grip", "machine", "held_by", "support", "stick_out", "grip")
def _short_grip(s: Situation) -> Finding | None:
    """The work stands out so far beyond its grip that a cut levers it out of the jaws."""
    if s.machine == "mill" or s.held_by not in _IN_JAWS or s.support in _SUPPORTED:
        return None
    if s.stick_out is None or not s.grip:
        return unless_told("grip", "stick_out")
    if s.stick_out <= _LEVER * s.grip:
        return None
    limit = at_most(_LEVER * s.grip)
    return raised(s.stick_out / (_LEVER * s.grip), grip=tenth(s.grip), out=tenth(s.stick_out), limit=limit)


@rule("jaws-past-body", "work_diameter", "chuck_body")
def _jaws_past_body(s: Situation) -> Finding | None:
    """Work so large that the jaws stand out beyond the chuck's body."""
    if s.work_diameter is None or s.chuck_body is None or s.work_diameter <= s.chuck_body / 2:
        return None
    if s.work_diameter <= s.chuck_body:
        return STANDS
    return raised(s.work_diameter / s.chuck_body, diameter=tenth(s.work_diameter), body=tenth(s.chuck_body))


def _bar_fits_spindle(s: Situation) -> bool:
    return s.work_diameter is None or s.spindle_bore is None or s.work_diameter < s.spindle_bore


@rule("rear-bar", "machine", "work_diameter", "spindle_bore", "rear")
def _rear_bar(s: Situation) -> Finding | None:
    """A bar that sticks out behind the headstock."""
    if s.machine == "mill" or not _bar_fits_spindle(s) or (s.rear is not None and s.rear <= 0):
        return None
    return unless_told("rear") if s.rear is None else raised(rear=tenth(s.rear))


@rule("rear-whirl", "machine", "spindle_speed", "work_diameter", "spindle_bore", "rear", "material")
def _rear_whirl(s: Situation) -> Finding | None:
    """A bar behind the headstock that turns at more than half its whirl speed."""
    speed, diameter = s.spindle_speed, s.work_diameter
    if s.machine != "lathe" or not speed or not diameter or not s.rear or not _bar_fits_spindle(s):
        return None
    sound = sound_in(s.material)
    limit = longest_free_bar(diameter=diameter, speed=speed, sound=sound)
    if s.rear <= limit:
        return None
    whirl = HALF_SPEED * whirl_speed(diameter=diameter, length=s.rear, sound=sound)
    return raised(speed / whirl, rear=tenth(s.rear), whirl=figures(whirl), speed=figures(speed), limit=at_most(limit))


@rule("unbalance", "machine", "spindle_speed", "off_centre")
def _unbalance(s: Situation) -> Finding | None:
    """Off-centre work, with the pull of a small mass once the speed makes it hard."""
    if s.machine == "mill" or s.off_centre is False:
        return None
    if not s.off_centre or s.spindle_speed is None:
        return STANDS
    pull = unbalance_force(mass=_TEST_MASS, offset=_TEST_OFFSET, speed=s.spindle_speed)
    if pull < _TEST_PULL:
        return STANDS
    return raised(pull / _TEST_PULL, speed=figures(s.spindle_speed), pull=shown(pull, "force"))


@rule("screwed-chuck", "machine", "chuck_screwed", "reverse")
def _screwed_chuck(s: Situation) -> Finding | None:
    """A chuck that screws on unscrews when run backwards or braked."""
    if s.machine == "mill" or s.chuck_screwed is False or s.reverse is False:
        return None
    return raised() if s.reverse and s.chuck_screwed else unless_told("reverse")


@rule("thread-hand", "thread", "reverse")
def _thread_hand(s: Situation) -> Finding | None:
    """Forward cutting tightens a right-hand stud and unscrews a left-hand one; reverse the other way about."""
    if s.thread is None:
        return STANDS
    if s.thread.left_hand != bool(s.reverse):
        hand = "Left-hand" if s.thread.left_hand else "Right-hand"
        cut = "a forward cut" if s.thread.left_hand else "a reverse cut"
        return raised(hand=hand, thread=str(s.thread), cut=cut)
    return None


@rule("little-thread", "thread")
def _little_thread(s: Situation) -> Finding:
    """The stud holds by less than one diameter of thread."""
    width = say("{d}", d=tenth(s.thread.diameter)) if s.thread else "one diameter"
    return Finding("stands", {"diameter": width})
