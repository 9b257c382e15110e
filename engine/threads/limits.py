"""Limits of size of a thread, whatever its family."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from engine.errors import check_range
from engine.threads.limits_inch import ba_limits, cycle_limits, whitworth_form_limits
from engine.threads.limits_metric import metric_limits
from engine.threads.limits_pipe import g_limits, npt_limits, r_limits
from engine.threads.limits_trapezoidal import acme_limits, trapezoidal_limits
from engine.threads.limits_types import SIZES, Limits
from engine.threads.limits_unified import unified_limits
from engine.threads.thread import Family, Thread
from engine.threads.tolerance import Classes, read_tolerance

__all__ = ["SIZES", "Limits", "limits"]

_RULES: dict[Family, Callable[[Thread, Classes, float | None], Limits]] = {
    "metric": metric_limits,
    "unified": unified_limits,
    "whitworth": whitworth_form_limits,
    "me": whitworth_form_limits,
    "brass": whitworth_form_limits,
    "cycle": cycle_limits,
    "ba": ba_limits,
    "g": g_limits,
    "r": r_limits,
    "npt": npt_limits,
    "tr": trapezoidal_limits,
    "acme": acme_limits,
}


@lru_cache(maxsize=1024)
def limits(thread: Thread, tolerance: str | None = None, engagement: float | None = None) -> Limits:
    """Return the limits of size of a screw and its nut.

    Parameters
    ----------
    thread : Thread
        The thread.
    tolerance : str or None
        Class of the screw, the nut or both (`6g`, `6H/6g`, `2A`, `close`). None: the one written in the thread, and
        for a side that has none the family's usual one.
    engagement : float or None
        Length of engagement; it matters to ISO metric, Unified and Whitworth. None: the usual length. [mm]

    Returns
    -------
    limits : Limits
        The limits and where they come from. [mm]

    Raises
    ------
    BadInput
        If the class is none of the family's, or the standard does not give it for this thread.

    Sources
    -------
    ISO 965-1, ASME B1.1, BS 84, BS 93, ISO 228-1, ISO 7-1, ASME B1.20.1, ISO 2903, ASME B1.5.

    Examples
    --------
    M10 - 6g: pitch diameter 8.862 to 8.994 (ASME B1.13M limits listing).

    >>> from engine.threads.designation import parse
    >>> m10 = limits(parse("M10"), "6g")
    >>> m10.ext_pitch_min, m10.ext_pitch_max
    (8.862, 8.994)
    """
    if engagement is not None:
        check_range(
            "engagement", engagement, low=thread.diameter / 100, high=100 * thread.diameter, unit="mm"
        )
    asked = read_tolerance(thread.family, tolerance) if tolerance else Classes(None, None)
    written = read_tolerance(thread.family, thread.tolerance) if thread.tolerance else Classes(None, None)
    classes = Classes(asked.screw or written.screw, asked.nut or written.nut)
    return _RULES[thread.family](thread, classes, engagement)
