"""Tolerance classes as they are written, family by family: `6g`, `6H/6g`, `2A`, `close`, `7e`, `2G`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from engine.base.refusals import BadInput
from engine.threads.thread import Family

_METRIC_SCREW = r"[3-9][a-h](?:[468][a-h])?"
_METRIC_NUT = r"[4-8][GH](?:[4-8][GH])?"

# family -> (pattern of a screw class, pattern of a nut class, what is accepted)
_GRAMMAR: dict[Family, tuple[str, str, str]] = {
    "metric": (_METRIC_SCREW, _METRIC_NUT, "an ISO 965-1 class such as 6g, 6H, 4g6g or 6H/6g"),
    "unified": (r"[123]A", r"[123]B", "1A, 2A or 3A for a screw, 1B, 2B or 3B for a nut (such as 2A)"),
    "whitworth": (
        r"close|medium|free",
        r"medium|normal",
        "close, medium or free for a screw, medium or normal for a nut",
    ),
    "ba": (r"close|normal", r"", "close or normal"),
    "g": (r"[AB]", r"", "A or B"),
    "tr": (r"7e", r"7H", "7e for a screw, 7H for a nut"),
    "acme": (r"2G", r"2G", "2G"),
}
# No standard readable gives these classes of their own: they take those of BS 84.
_GRAMMAR |= {"me": _GRAMMAR["whitworth"], "brass": _GRAMMAR["whitworth"], "cycle": _GRAMMAR["whitworth"]}


@dataclass(frozen=True, slots=True)
class Classes:
    """A class for the screw and one for the nut; None where none was written."""

    screw: str | None
    nut: str | None


@cache
def _patterns(family: Family) -> tuple[re.Pattern[str], re.Pattern[str]]:
    screw, nut, _ = _GRAMMAR[family]
    flags = re.IGNORECASE if family not in ("metric", "tr") else re.NOFLAG
    return re.compile(screw or "(?!)", flags), re.compile(nut or "(?!)", flags)


def accepted(family: Family) -> str:
    """Say which classes a family has.

    Parameters
    ----------
    family : str
        Such as `unified`.

    Returns
    -------
    text : str
        The classes in words; "" if the family has none.

    Sources
    -------
    ISO 965-1, ASME B1.1, BS 84, BS 93, ISO 228-1, ISO 2903, ASME B1.5.

    Examples
    --------
    >>> accepted("ba")
    'close or normal'
    """
    return _GRAMMAR[family][2] if family in _GRAMMAR else ""


def read_tolerance(family: Family, text: str) -> Classes:
    """Read a class, for the screw, the nut or both (with a stroke between).

    Parameters
    ----------
    family : str
        The thread's family: a class of another one is refused.
    text : str
        Such as `6g`, `6H/6g`, `2A/2B`, `medium`.

    Returns
    -------
    classes : Classes
        Each as the standard writes it.

    Raises
    ------
    BadInput
        If it is no class of that family; field `tolerance`.

    Sources
    -------
    ISO 965-1 clause 12, ASME B1.1 clause 6, BS 84, BS 93, ISO 228-1, ISO 2903, ASME B1.5.

    Examples
    --------
    >>> read_tolerance("metric", "6H/5g6g"), read_tolerance("unified", "2a")
    (Classes(screw='5g6g', nut='6H'), Classes(screw='2A', nut=None))
    """
    if family not in _GRAMMAR:
        raise BadInput(
            "tolerance", text, "none", "tolerance: taper pipe threads have one class only; leave it empty."
        )
    compact = "".join(text.split())
    parts = compact.split("/")
    found: list[tuple[str | None, str | None]] = [_one(family, part) for part in parts[:2]]
    screws = [screw for screw, _ in found if screw]
    nuts = [nut for _, nut in found if nut]
    if len(parts) > 2 or (None, None) in found:
        raise BadInput("tolerance", text, accepted(family))
    if len(parts) == 1:
        return Classes(screws[0] if screws else None, nuts[0] if nuts else None)
    return _pair(family, text, found)


def _pair(family: Family, text: str, found: list[tuple[str | None, str | None]]) -> Classes:
    """Two classes with a stroke: one for the screw and one for the nut, in either order."""
    for (screw, _), (_, nut) in (found, found[::-1]):
        if screw and nut:
            return Classes(screw, nut)
    raise BadInput("tolerance", text, f"one class for the screw and one for the nut: {accepted(family)}")


def _one(family: Family, part: str) -> tuple[str | None, str | None]:
    screw, nut = _patterns(family)
    written = part.lower() if family in ("whitworth", "ba", "me", "brass", "cycle") else part
    written = written.upper() if family in ("unified", "g", "acme") else written
    return (written if screw.fullmatch(part) else None, written if nut.fullmatch(part) else None)
