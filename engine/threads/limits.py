"""Limits of size of a thread, whatever its family."""

from __future__ import annotations

from functools import lru_cache
from importlib import import_module
from typing import TYPE_CHECKING

from engine.base.refusals import check_range
from engine.threads.limits_types import SIZES, Limits
from engine.threads.tolerance import Classes, read_tolerance

if TYPE_CHECKING:
    from engine.threads.thread import Family, Thread

__all__ = ["SIZES", "Limits", "limits"]

# family -> where its rule lives: f(thread, classes, engagement). Loaded when first used: a metric thread needs one.
_RULES: dict[Family, str] = {
    "metric": "limits_metric:metric_limits",
    "unified": "limits_unified:unified_limits",
    "whitworth": "limits_inch:whitworth_form_limits",
    "me": "limits_inch:whitworth_form_limits",
    "brass": "limits_inch:whitworth_form_limits",
    "cycle": "limits_inch:cycle_limits",
    "ba": "limits_inch:ba_limits",
    "g": "limits_pipe:g_limits",
    "r": "limits_pipe:r_limits",
    "npt": "limits_pipe:npt_limits",
    "tr": "limits_trapezoidal:trapezoidal_limits",
    "acme": "limits_trapezoidal:acme_limits",
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
    module, function = _RULES[thread.family].split(":")
    found: Limits = getattr(import_module(f"engine.threads.{module}"), function)(thread, classes, engagement)
    return found
