"""Which side of a thread is meant, the screw or the nut, and the sizes it is made to."""

from __future__ import annotations

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import bare, say, shown
from engine.threads.form import addendum, form
from engine.threads.thread import Thread
from engine.threads.told import Form, Limits
from engine.threads.tolerance import read_tolerance


def is_nut(thread: Thread, tolerance: str | None) -> bool:
    """Whether only the nut is meant: by the class given, else by the one written, else by the series (Rp, Rc).

    >>> from engine.threads.designation import parse
    >>> is_nut(parse("M10-6H"), None), is_nut(parse("M10"), "6H/6g"), is_nut(parse("Rp1/2"), None)
    (True, False, True)
    """
    written = tolerance or thread.tolerance
    if not written:
        return thread.series in thread.kind.nut_series
    classes = read_tolerance(thread.family, written)
    return classes.screw is None and classes.nut is not None


def check_sloping(size: Thread, why: str) -> None:
    """Refuse a square thread, whose flanks stand upright, where sloping ones are needed; `why` ends the sentence.

    >>> from engine.threads.designation import parse
    >>> check_sloping(parse("M10"), "wires need flanks that slope")
    """
    if not form(size).included_angle:
        text = f"size: {size} has upright flanks; {why}."
        raise BadInput("size", str(size), "a thread with sloping flanks", text)


@dataclass(frozen=True, slots=True, kw_only=True)
class CutDepth:
    """How deep a thread is cut from its blank, and the least and greatest depth that stay within the class.

    `blank` is the diameter turned (or bored), `target` the pitch diameter aimed at, `beyond` what the tool goes beyond
    the pitch line. Lengths in mm; `shallowest` and `deepest` are None when the family has no limits for this size.
    """

    depth: float
    blank: float
    target: float
    beyond: float
    shallowest: float | None
    deepest: float | None


def _middle(one: float | None, other: float | None, else_: float) -> float:
    return else_ if one is None or other is None else (one + other) / 2


def _check_blank(blank: float | None, *, target: float, nut: bool, reach: float) -> None:
    """A blank is on the side of the pitch diameter that the tool comes from, and not absurdly far from it."""
    if blank is None:
        return
    low, high = (target - reach, target) if nut else (target, target + reach)
    if low <= blank <= high:
        return
    text = "{low} to {high} (the pitch diameter aimed at is {target})"
    least, most = bare(low, side="up"), shown(high, side="down")
    aimed = say(text, low=least, high=most, target=shown(target))
    raise BadInput("blank", say("{blank}", blank=shown(blank)), aimed)


def cut_depth(*, form: Form, limits: Limits, nut: bool, blank: float | None) -> CutDepth:
    """Radial depth to cut for a class, from the blank to the tip of the tool.

    It takes the pitch diameter to the middle of its limits with a tool whose tip has the nominal form.

    form: The thread's form.
    limits: Its limits.
    nut: Whether an internal thread is cut.
    blank: Diameter turned or bored; None: the middle of its limits. [mm]
    Returns: The depth and what it comes from. [mm]
    Raises: BadInput if the blank is turned below (or bored above) the pitch diameter aimed at, or is far too large.
    Source: Geometry of the form; the middle of the limits: common practice, no source.

    M10 from a blank of 9.968 mm to the largest pitch diameter of 6g is the form's own depth, 0.613435 P:

    >>> from engine.threads.designation import parse
    >>> from engine.threads.form import form
    >>> from engine.threads.limits import limits
    >>> m10 = parse("M10")
    >>> cut_depth(form=form(m10), limits=limits(m10), nut=False, blank=9.968).shallowest
    0.920
    """
    if nut:
        size = blank or _middle(limits.int_minor_min, limits.int_minor_max, limits.minor_basic)
        target = _middle(limits.int_pitch_min, limits.int_pitch_max, limits.pitch_basic)
        beyond = form.nut_depth - (form.basic_depth - addendum(form))
        bounds = (limits.int_pitch_min, limits.int_pitch_max)
    else:
        size = blank or _middle(limits.ext_major_min, limits.ext_major_max, limits.major_basic)
        target = _middle(limits.ext_pitch_min, limits.ext_pitch_max, limits.pitch_basic)
        beyond = form.depth - addendum(form)
        bounds = (limits.ext_pitch_max, limits.ext_pitch_min)
    _check_blank(blank, target=target, nut=nut, reach=2 * form.depth)

    def reached(pitch_diameter: float | None) -> float | None:
        return None if pitch_diameter is None else abs(size - pitch_diameter) / 2 + beyond

    return CutDepth(
        depth=abs(size - target) / 2 + beyond, blank=size, target=target, beyond=beyond,
        shallowest=reached(bounds[0]), deepest=reached(bounds[1]),
    )  # fmt: skip
