"""Rules of turning, parting, screwcutting and knurling."""

from __future__ import annotations

from engine.base.words import Text, figures, say, shown
from engine.safety.finding import STANDS, Finding, at_least, at_most, belongs, raised, rule, tenth, unless_told
from engine.safety.physics import BLADE_PASSES, BLADE_WIDTHS, REACTION, advance_time, highest_speed
from engine.situation import Situation

_MARGIN_TIMES = 3  # reaction times that leave room for a fumble; judgement
_DRY_CUTTING = ("brass", "bronze", "cast iron", "ductile", "acetal", "nylon")  # may be parted dry
_BURNING = ("magnesium", "titanium")
_LEADED = ("leaded", "free-cutting", "free-machining")
_KNURL_OVERHANG = 2.0  # diameters; a lathe instruction book, knurling paragraph
_HELD_BY_BOTH = ("centre", "both ends")


def _seconds(time: float) -> Text:
    return shown(time, "duration", decimals=1, side="down")


@rule("run-in", "machine", "spindle_speed", "feed", "gap")
def _run_in(s: Situation) -> Finding | None:
    """Power feed that ends nearer to the jaws than a person can react."""
    if s.machine == "mill":
        return None
    if not s.spindle_speed or not s.feed or s.gap is None:
        return STANDS
    time = advance_time(gap=s.gap, speed=s.spindle_speed, advance=s.feed)
    if time >= REACTION:
        return None
    return raised(REACTION / max(time, 1e-3), time=_seconds(time), speed=figures(s.spindle_speed))


def _to_shoulder(s: Situation) -> float | None:
    """Time to the shoulder of a thread being cut, as far as it is known."""
    if s.time_to_shoulder is not None:
        return s.time_to_shoulder
    if s.thread is None or not s.spindle_speed or s.gap is None:
        return None
    return advance_time(gap=s.gap, speed=s.spindle_speed, advance=float(s.thread.lead))


@rule("shoulder", "thread", "spindle_speed", "gap", "time_to_shoulder", "machine_slowest")
def _shoulder(s: Situation) -> Finding | None:
    """The tool is at the shoulder before the half-nuts can be opened."""
    time = _to_shoulder(s)
    if time is None:
        return STANDS
    if time >= REACTION:
        return None
    lead, speed = float(s.thread.lead) if s.thread else None, s.spindle_speed or 0.0
    limit = highest_speed(gap=s.gap, advance=lead) if s.gap and lead else speed * time / REACTION
    slowest = s.machine_slowest or 0.0
    slow = say("Crank by hand, {slowest} is your slowest", slowest=figures(slowest))
    remedy = say("Run {limit} or less", limit=str(int(limit))) if limit >= slowest else slow
    return raised(
        REACTION / max(time, 1e-3),
        time=_seconds(time),
        speed=figures(speed),
        remedy=remedy,
        needed=shown(REACTION, "duration"),
    )


@rule("shoulder-margin", "thread", "spindle_speed", "gap", "time_to_shoulder")
def _shoulder_margin(s: Situation) -> Finding | None:
    """Enough time to act, too little for a fumble."""
    time = _to_shoulder(s)
    if time is None or time < REACTION or time >= _MARGIN_TIMES * REACTION:
        return None
    calm = shown(_MARGIN_TIMES * REACTION, "duration")
    return raised(
        _MARGIN_TIMES * REACTION / time, time=_seconds(time), speed=figures(s.spindle_speed or 0.0), calm=calm
    )


def _reach_needed(s: Situation) -> float | None:
    """What a blade must reach to part it. [mm]"""
    if s.reach_needed is not None or s.work_diameter is None:
        return s.reach_needed
    return (s.work_diameter - (s.bore or 0.0)) / 2 + BLADE_PASSES


@rule("blade-reach", "reach_needed", "work_diameter", "bore", "blade_reach")
def _blade_reach(s: Situation) -> Finding | None:
    """The blade is too short for what is left of the radius."""
    needed = _reach_needed(s)
    if needed is None or s.blade_reach is None:
        return STANDS
    if s.blade_reach >= needed:
        return None
    return raised(
        needed / s.blade_reach,
        reach=tenth(s.blade_reach),
        needed=at_least(needed),
        short=at_least(needed - s.blade_reach),
    )


@rule("blade-widths", "reach_needed", "work_diameter", "bore", "blade_width")
def _blade_widths(s: Situation) -> Finding | None:
    """The blade must stand out many times its own width."""
    needed = _reach_needed(s)
    if needed is None or not s.blade_width:
        return None
    ratio = needed / s.blade_width
    if ratio <= BLADE_WIDTHS:
        return None
    return raised(
        ratio / BLADE_WIDTHS, ratio=figures(ratio, 1), width=tenth(s.blade_width), limit=figures(BLADE_WIDTHS)
    )


@rule("parted-by-both-ends", "held_by", "support")
def _parted_by_both_ends(s: Situation) -> Finding | None:
    """The far end is held too: the cut closes on the blade."""
    if s.held_by == "between centres":
        return raised(how="between centres")
    if s.support in _HELD_BY_BOTH:
        return raised(how="with a centre in its end")
    return None if s.support else unless_told("support")


@rule("far-from-jaws", "work_diameter", "parted_at")
def _far_from_jaws(s: Situation) -> Finding | None:
    """Parting further out than one diameter."""
    if s.work_diameter is None or s.parted_at is None:
        return STANDS
    if s.parted_at <= s.work_diameter:
        return None
    return raised(s.parted_at / s.work_diameter, out=tenth(s.parted_at), diameter=tenth(s.work_diameter))


@rule("threaded-piece", "thread")
def _threaded_piece(s: Situation) -> Finding:
    """A thread on the piece that is about to come off."""
    return STANDS if s.thread is None else raised(thread=str(s.thread))


belongs("parting-dry", lambda s: not any(word in s.material for word in _DRY_CUTTING), "material")


@rule("burning-swarf", "material")
def _burning_swarf(s: Situation) -> Finding | None:
    """Chips that burn."""
    found = next((word for word in _BURNING if word in s.material), "")
    return raised(material=found.capitalize()) if found else None


@rule("leaded", "material")
def _leaded(s: Situation) -> Finding | None:
    """Free-cutting brass and leaded steel carry lead."""
    if not any(word in s.material for word in _LEADED):
        return None
    return raised(material=s.material[0].upper() + s.material[1:])


@rule("knurl-overhang", "support", "work_diameter", "stick_out", "width")
def _knurl_overhang(s: Situation) -> Finding | None:
    """A one-sided knurl on work that stands out."""
    if s.support not in ("", "none"):
        return None
    out = s.stick_out if s.stick_out is not None else s.width  # it stands out by the knurl at least
    if s.work_diameter is None or out is None:
        return unless_told("stick_out")
    limit = _KNURL_OVERHANG * s.work_diameter
    if out <= limit:
        return None if s.stick_out is not None else unless_told("stick_out")
    return raised(out / limit, ratio=figures(out / s.work_diameter, 2), limit=at_most(limit))


@rule("snags", "snags")
def _snags(s: Situation) -> Finding:
    """An edge of the piece that catches an abrasive strip."""
    return raised() if s.snags else STANDS
