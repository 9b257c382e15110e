"""The numbers that tell one cause from another, worked from the open answer; "" where it lacks what that takes."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import pi, radians, tan

from engine.base.quantity import INCH_MM, show
from engine.trouble.facts import Facts

_ROLL_SPEED = (10.0, 50.0)  # m/min at the work; a trade page on DIN 82 knurls
_FULL_FORM = 0.9  # of the full growth; common practice, no source
_SLENDER = 3.0  # diameters; common practice, no source
_PARTING_FEED = 0.0508  # mm a turn: 0.002 in; US Army OD 1645
_RUN_OUT = 0.02  # mm of run-out taken as an example
_STEEL_GROWTH = 11.5e-6  # per °C; from memory, unconfirmed
_WARM = 10.0  # °C taken as an example


def _pitch(facts: Facts) -> float | None:
    """Pitch of the knurl or of the thread. [mm]"""
    if facts.thread is not None:
        return float(facts.thread.pitch)
    pitch, tpi = facts.given("pitch"), facts.given("tpi")
    if pitch is not None:
        return float(getattr(pitch, "pitch", pitch))
    return INCH_MM / float(tpi) if tpi else None


def _fine(facts: Facts, value: float) -> str:
    """A length to the last digit a workshop measures."""
    return show(value, "length", facts.unit)


def _tooth_on_diameter(facts: Facts) -> str:
    """What one tooth more or less does to the blank."""
    pitch, teeth, blank = _pitch(facts), facts.number("teeth"), facts.number("blank_diameter")
    step = blank / teeth if teeth and blank else (pitch / pi if pitch else None)
    if step is None:
        return ""
    if teeth and blank:
        return (
            f"{teeth:.0f} teeth at {_fine(facts, blank)}; one tooth is {_fine(facts, step)} on the diameter"
        )
    return f"one tooth is {_fine(facts, step)} on the diameter"


def _true_pitch(facts: Facts) -> str:
    """Pitch of an owned wheel by its teeth and diameter, beside the stamped one."""
    stamped = _pitch(facts)
    wheels = facts.shop.knurls if facts.shop and stamped else ()
    for wheel in wheels:
        if stamped and wheel.diameter and wheel.teeth and abs(wheel.pitch - stamped) < 0.06 * stamped:
            true = pi * wheel.diameter / wheel.teeth
            return (
                f"your {wheel.teeth} teeth on {_fine(facts, wheel.diameter)} are {_fine(facts, true)} apart"
            )
    return ""


def _nine_tenths(facts: Facts) -> str:
    """Where to stop rolling."""
    growth, blank = facts.number("growth"), facts.number("blank_diameter")
    if growth is None or blank is None:
        return ""
    return f"stop at {_fine(facts, blank + _FULL_FORM * growth)} outside, full form is {_fine(facts, blank + growth)}"


def _knurl_speed(facts: Facts) -> str:
    """Speed at the work against the guide."""
    speed, diameter = facts.speed, facts.diameter
    if not speed or not diameter:
        return ""
    low, high = _ROLL_SPEED
    return (
        f"{pi * diameter * speed / 1000:.0f} m/min at {speed:.0f} rev/min; {low:.0f} to {high:.0f} is usual"
    )


def _three_diameters(facts: Facts) -> str:
    """How far slender work may stand out."""
    diameter = facts.diameter
    return f"three diameters are {facts.length(_SLENDER * diameter, side='down')}" if diameter else ""


def _half_pitch(facts: Facts) -> str:
    """Least width of the chamfer."""
    pitch = _pitch(facts)
    return f"at least {_fine(facts, pitch / 2)} wide, half the pitch" if pitch else ""


def _where_it_binds(facts: Facts) -> str:
    """Where the lead error has eaten the play, or what ten threads should measure."""
    turns = facts.number("turns_to_bind")
    if turns is not None:
        return f"binds after about {turns:.1f} turns"
    lead, error = facts.number("lead_cut"), facts.number("error_per_100")
    if lead and error is not None:
        millionths = abs(error) / 100 * 1e6
        return f"these wheels cut ten leads in {_fine(facts, 10 * lead)}, {millionths:.0f} millionths off"
    return _ten_pitches(facts)


def _ten_pitches(facts: Facts) -> str:
    """What ten threads should measure."""
    pitch = _pitch(facts)
    return f"ten threads measure {_fine(facts, 10 * pitch)}" if pitch else ""


def _pitch_diameter(facts: Facts) -> str:
    """What the screw may measure at most."""
    over = facts.number("over_wires_max")
    if over is not None:
        left = facts.number("to_max")
        more = f"; {_fine(facts, left)} to go on the diameter" if left is not None and left > 0 else ""
        return f"over wires at most {_fine(facts, over)}{more}"
    most = facts.number("ext_pitch_max")
    if most is not None:
        return f"pitch diameter at most {_fine(facts, most)}"
    play = facts.number("diametral_clearance")
    return f"play on the pitch diameter: {_fine(facts, play)}" if play is not None else ""


def _relief(facts: Facts) -> str:
    """Room that the end of the thread needs."""
    width, run_out = facts.number("relief_width"), facts.number("run_out")
    if width is not None:
        return f"relief {facts.length(width, side='up')} wide"
    if run_out is not None:
        return f"run-out {facts.length(run_out, side='up')} long"
    pitch = _pitch(facts)
    return f"two incomplete threads take {facts.length(2 * pitch, side='up')}" if pitch else ""


def _largest_pass(facts: Facts) -> str:
    """The deepest cut of the plan."""
    if facts.answer is None or not any(table.name == "passes" for table in facts.answer.tables):
        return ""
    cuts = [cut for cut in facts.answer.table("passes").column("cut") if isinstance(cut, int | float)]
    return f"the deepest pass of this plan takes {_fine(facts, max(cuts))}" if cuts else ""


def _wires_in_use(facts: Facts) -> str:
    """The wire in use beside the best one."""
    wire, best = facts.number("wire"), facts.number("best_wire")
    if wire is None or best is None:
        return ""
    return f"wire {_fine(facts, wire)}, best {_fine(facts, best)}"


def _engagement(facts: Facts) -> str:
    """Length of thread that holds the bolt."""
    needed = facts.number("engagement_needed")
    return f"needs {facts.length(needed, side='up')} of thread" if needed is not None else ""


def _dial_rule(facts: Facts) -> str:
    """The rule of the answer."""
    return facts.words("thread_dial")


def _engagement_share(facts: Facts) -> str:
    """Share of full thread that the drill leaves."""
    share, drill = facts.number("engagement_percent"), facts.number("drill_diameter")
    if share is None or drill is None:
        return ""
    return f"drill {facts.words('drill') or _fine(facts, drill)} leaves {share:.0f} % of full thread"


def _spare_turns(facts: Facts) -> str:
    """Turns of the tap left below the thread."""
    drilled, depth, pitch = facts.number("drill_depth"), facts.given("depth"), _pitch(facts)
    if drilled is None or depth is None or not pitch or facts.words("hole") == "through":
        return ""
    spare = drilled - depth
    return f"{facts.length(spare, side='down')} below the thread, {spare / pitch:.1f} turns"


def _blade_out(facts: Facts) -> str:
    """How far the blade has to stand out."""
    reach = facts.number("blade_reach")
    if reach is None:
        return ""
    return f"blade out {facts.length(reach, side='up')}, no further"


def _blade_height(facts: Facts) -> str:
    """OD 1645: on centre up to 1 in, 1/16 in higher for each inch more."""
    diameter = facts.diameter
    if diameter is None:
        return ""
    high = max(diameter / INCH_MM - 1, 0) * INCH_MM / 16
    return f"at most {facts.length(high)} above centre" if high >= 0.1 else "on centre for this diameter"


def _parting_feed(facts: Facts) -> str:
    """The feed of the answer beside the published one."""
    feed = facts.number("feed")
    return f"feed {_fine(facts, feed)} a turn; OD 1645 has {_fine(facts, _PARTING_FEED)}" if feed else ""


def _cross_backlash(facts: Facts) -> str:
    """Play of the owned cross slide."""
    play = facts.lathe.cross_slide.backlash if facts.lathe else None
    return f"your cross slide has {_fine(facts, play)}" if play is not None else ""


def _mill_backlash(facts: Facts) -> str:
    """Play of the owned table."""
    x, y = (facts.mill.x.backlash, facts.mill.y.backlash) if facts.mill else (None, None)
    return f"x has {_fine(facts, x)}, y {_fine(facts, y)} of play" if x is not None and y is not None else ""


def _spot_first(facts: Facts) -> str:
    """The first tool of the plan."""
    if facts.answer is None or not any(table.name == "steps" for table in facts.answer.tables):
        return ""
    tools = [tool for tool in facts.answer.table("steps").column("tool") if isinstance(tool, str)]
    return f"this plan starts with: {tools[0]}" if tools else ""


def _depth_ratio(facts: Facts) -> str:
    """Depth over diameter."""
    drill, depth = facts.given("diameter"), facts.given("depth")
    return f"{depth / drill:.1f} diameters deep" if drill and depth else ""


def _ream_allowance(facts: Facts) -> str:
    """What is left for the reamer."""
    left = facts.number("allowance")
    return f"the drilled hole leaves {_fine(facts, left)}" if left is not None else ""


def _sink_depth(facts: Facts) -> str:
    """Depth from the clean face."""
    depth = facts.number("depth")
    return f"{_fine(facts, depth)} at full diameter, from the clean face" if depth is not None else ""


def _all_moves(facts: Facts) -> str:
    """Every move added up against the turns of the crank for one turn of the work."""
    count, ratio = facts.number("divisions", "sides"), facts.given("ratio")
    if (
        ratio is None
        and facts.words("divide_with") == "dividing head"
        and facts.shop
        and facts.shop.dividing_head
    ):
        ratio = facts.shop.dividing_head.ratio
    if not count or ratio is None:
        return ""
    setting = facts.words("setting") or facts.words("step")
    turns, circle, holes = facts.number("turns"), facts.number("circle"), facts.number("holes")
    if facts.words("method") != "simple" or not setting:
        return f"{count:.0f} moves must add up to {ratio} turns of the crank"
    if turns is None or not circle or not holes:
        return f"{count:.0f} moves of {setting} must make {ratio} turns of the crank"
    total = int(count) * (Fraction(int(turns)) + Fraction(int(holes), int(circle)))
    return f"{count:.0f} moves of {setting} make {total} turns; {ratio} is one turn of the work"


def _overshoot(facts: Facts) -> str:
    """A quarter to half a turn of the handwheel."""
    travel = facts.given("per_turn")
    if travel is None:
        return ""
    return f"{_fine(facts, float(travel) / 4)} to {_fine(facts, float(travel) / 2)} past, then back"


def _line_run_out(facts: Facts) -> str:
    """What run-out of the rim does to a line's width."""
    angle = facts.given("cutter_angle")
    if not angle:
        return ""
    wider = 2 * _RUN_OUT * tan(radians(angle / 2))
    return f"{_fine(facts, _RUN_OUT)} of run-out makes lines {_fine(facts, wider)} wider on a {angle:.0f}° cutter"


def _flat_depth(facts: Facts) -> str:
    """Depth of a flat and the size across."""
    depth, across = facts.number("cut_depth"), facts.number("across_flats")
    if depth is None or across is None:
        return ""
    return f"{_fine(facts, depth)} deep gives {_fine(facts, across)} across"


def _far_line(facts: Facts) -> str:
    """Where the last line stands."""
    length, spacing = facts.number("vernier_length"), facts.number("spacing")
    if length is not None:
        return f"last line {_fine(facts, length)} from the first"
    return f"lines {_fine(facts, spacing)} apart on the drum" if spacing is not None else ""


def _taper(facts: Facts) -> str:
    """What the bend leaves on the diameter, or how far the work may stand out."""
    error = facts.number("taper_error")
    if error is not None:
        return f"a light cut leaves {_fine(facts, error)} on the diameter"
    return _three_diameters(facts)


def _motor_share(facts: Facts) -> str:
    """Power of the cut against the motor."""
    share, power = facts.number("share_of_motor"), facts.number("power")
    return (
        f"{power:.0f} W, {100 * share:.0f} % of the motor" if share is not None and power is not None else ""
    )


def _ideal_speed(facts: Facts) -> str:
    """The ideal speed beside the one set."""
    ideal, speed = facts.number("ideal_rpm"), facts.speed
    return f"ideal {ideal:.0f}, set {speed:.0f} rev/min" if ideal and speed else ""


def _bar_used(facts: Facts) -> str:
    """Bar that all the parts take."""
    out = facts.number("stick_out")
    return f"{facts.length(out, side='up')} out of the jaws before the first cut" if out is not None else ""


def _cutter_bend(facts: Facts) -> str:
    """How far the cutter's tip gives way."""
    bend = facts.number("cutter_deflection")
    return f"the tip bends {1000 * bend:.0f} µm" if bend is not None else ""


def _key_width(facts: Facts) -> str:
    """Width of the key."""
    width = facts.number("width")
    return f"the key is {_fine(facts, width)} wide" if width is not None else ""


def _warm_growth(facts: Facts) -> str:
    """What ten degrees do to steel."""
    diameter = facts.given("diameter")
    if not diameter:
        return ""
    return f"{_WARM:.0f} °C warmer, steel is {1e6 * _STEEL_GROWTH * _WARM * diameter / 1000:.1f} µm larger"


def _gap_range(facts: Facts) -> str:
    """Gap that the compound fills."""
    low, high = facts.number("gap_low"), facts.number("gap_high")
    if low is None or high is None:
        return ""
    return f"{_fine(facts, low)} to {_fine(facts, high)} on the diameter"


def _joint_heat(facts: Facts) -> str:
    """Heat of the joint against what the part bears."""
    joint, bears = facts.number("working"), facts.number("limit", "temper")
    return f"joint {joint:.0f} °C, the part bears {bears:.0f} °C" if joint and bears else ""


NUMBERS: dict[str, Callable[[Facts], str]] = {
    "tooth-on-diameter": _tooth_on_diameter,
    "true-pitch": _true_pitch,
    "nine-tenths": _nine_tenths,
    "knurl-speed": _knurl_speed,
    "three-diameters": _three_diameters,
    "half-pitch": _half_pitch,
    "where-it-binds": _where_it_binds,
    "ten-pitches": _ten_pitches,
    "pitch-diameter": _pitch_diameter,
    "relief": _relief,
    "largest-pass": _largest_pass,
    "wires-in-use": _wires_in_use,
    "engagement": _engagement,
    "dial-rule": _dial_rule,
    "engagement-share": _engagement_share,
    "spare-turns": _spare_turns,
    "blade-out": _blade_out,
    "blade-height": _blade_height,
    "parting-feed": _parting_feed,
    "cross-backlash": _cross_backlash,
    "mill-backlash": _mill_backlash,
    "spot-first": _spot_first,
    "depth-ratio": _depth_ratio,
    "ream-allowance": _ream_allowance,
    "sink-depth": _sink_depth,
    "all-moves": _all_moves,
    "overshoot": _overshoot,
    "line-run-out": _line_run_out,
    "flat-depth": _flat_depth,
    "far-line": _far_line,
    "taper": _taper,
    "motor-share": _motor_share,
    "ideal-speed": _ideal_speed,
    "bar-used": _bar_used,
    "cutter-bend": _cutter_bend,
    "key-width": _key_width,
    "warm-growth": _warm_growth,
    "gap-range": _gap_range,
    "joint-heat": _joint_heat,
}
