"""Limits of ISO metric threads, by the tables of ISO 965-1."""

from __future__ import annotations

from typing import Any

from engine.base.refusals import BadInput
from engine.threads.iso965 import (
    deviation,
    normal_engagement,
    nut_minor_tolerance,
    nut_pitch_tolerance,
    screw_major_tolerance,
    screw_pitch_tolerance,
)
from engine.threads.iso965_formulas import Tolerance
from engine.threads.limits_types import Limits
from engine.threads.thread import Thread
from engine.threads.tolerance import Classes

# The medium classes that ISO 965-1 recommends for each group of engagement: screw, nut.
_MEDIUM = {"S": ("5g6g", "5H"), "N": ("6g", "6H"), "L": ("7g6g", "7H")}
_SMALL = ("6h", "5H")  # up to 1.4 mm


def metric_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the limits of an ISO metric thread: basic sizes to 0.001 mm first, then whole micrometres.

    Parameters
    ----------
    thread : Thread
        The thread.
    classes : Classes
        Classes asked for; None for the usual one.
    engagement : float or None
        Length of engagement; None for the usual one. [mm]

    Returns
    -------
    limits : Limits
        The limits. [mm]

    Raises
    ------
    BadInput
        If the standard does not give the class for this thread; field `tolerance`.

    Sources
    -------
    ISO 724, ISO 965-1:2013.

    Examples
    --------
    M6 - 6g: pitch diameter 5.212 to 5.324 (ASME B1.13M limits listing).

    >>> from engine.threads.designation import parse
    >>> found = metric_limits(parse("M6"), Classes(None, None), None)
    >>> found.ext_pitch_min, found.ext_pitch_max
    (5.212, 5.324)
    """
    diameter, pitch = thread.diameter, float(thread.pitch)
    group, notes = _group(thread, engagement)
    screw = classes.screw or _usual_screw(thread, group)
    nut = classes.nut or _usual_nut(thread, group, notes)
    pitch_basic = round(diameter - 0.649519053 * pitch, 3)
    minor_basic = round(diameter - 1.082531755 * pitch, 3)
    sizes: dict[str, Any] = {}
    sources: dict[str, str] = {}
    working: dict[str, str] = {}
    _screw_side(diameter, pitch, pitch_basic, minor_basic, screw, sizes, sources, working)
    _nut_side(diameter, pitch, pitch_basic, minor_basic, nut, sizes, sources, working)
    if any("clause 10" in text for text in sources.values()):
        notes.append(
            "ISO 965-1 has no table for this pair: tolerances by its formulas, which may be one step (6 %) off"
        )
    return Limits(
        screw_class=screw,
        nut_class=nut,
        major_basic=diameter,
        pitch_basic=pitch_basic,
        minor_basic=minor_basic,
        source="ISO 724 and ISO 965-1:2013",
        notes=tuple(notes),
        sources=sources,
        working=working,
        **sizes,
    )


def _group(thread: Thread, engagement: float | None) -> tuple[str, list[str]]:
    """The group of engagement, S, N or L, and what to say where the standard has none."""
    normal = normal_engagement(thread.diameter, float(thread.pitch))
    if engagement is None:
        return thread.engagement or "N", []
    if normal is None:
        return "N", ["ISO 965-1 lists no lengths of engagement for this pair: taken as normal"]
    return engagement_group(engagement, normal), []


def engagement_group(engagement: float, normal: tuple[float, float]) -> str:
    """Return the group that a length of engagement belongs to.

    Parameters
    ----------
    engagement : float
        Length of engagement. [mm]
    normal : tuple of float
        Lengths that count as normal: over the first, up to the second. [mm]

    Returns
    -------
    group : str
        `S`, `N` or `L`.

    Sources
    -------
    ISO 965-1:2013, lengths of thread engagement.

    Examples
    --------
    M10: over 5 up to 15 mm is normal.

    >>> engagement_group(5.0, (5.0, 15.0)), engagement_group(15.0, (5.0, 15.0)), engagement_group(20, (5.0, 15.0))
    ('S', 'N', 'L')
    """
    low, high = normal
    return "S" if engagement <= low else "N" if engagement <= high else "L"


def _usual_screw(thread: Thread, group: str) -> str:
    if thread.diameter <= 1.4:
        return _SMALL[0]
    usual = _MEDIUM[group][0]
    return usual if _exists(thread, usual, None) else "6g"


def _usual_nut(thread: Thread, group: str, notes: list[str]) -> str:
    """The usual class, or the next finer grade that the standard has for a very fine pitch."""
    usual = _SMALL[1] if thread.diameter <= 1.4 else _MEDIUM[group][1]
    for grade in range(int(usual[0]), 3, -1):
        if _exists(thread, None, f"{grade}H"):
            if grade != int(usual[0]):
                notes.append(
                    f"ISO 965-1 has no {usual} for a pitch of {float(thread.pitch):g} mm: {grade}H is used"
                )
            return f"{grade}H"
    return usual


def _exists(thread: Thread, screw: str | None, nut: str | None) -> bool:
    diameter, pitch = thread.diameter, float(thread.pitch)
    try:
        if screw:
            screw_pitch_tolerance(diameter, pitch, screw[0])
            screw_major_tolerance(pitch, screw[-2])
        if nut:
            nut_pitch_tolerance(diameter, pitch, nut[0])
            nut_minor_tolerance(pitch, nut[-2])
    except BadInput as refusal:
        if refusal.field == "size":
            raise
        return False
    return True


def _split(name: str) -> tuple[str, str, str, str]:
    """Grade and position of the pitch diameter, then of the crest diameter (the same if written once)."""
    return name[0], name[1], name[-2], name[-1]


def _crest_grade(name: str, pitch: float) -> str:
    """A screw class written once takes its grade for the major diameter too, where there is one (4, 6, 8)."""
    grade = name[-2]
    if len(name) == 2 and grade in "3579":
        raise BadInput(
            "tolerance",
            name,
            "two parts",
            f"tolerance: {name} needs a grade for the major diameter too, 4, 6 or 8 (such as {name}6{name[1]}).",
        )
    return grade


def _from(tolerance: Tolerance, position: Tolerance) -> str:
    """The sources of a limit that a deviation and a tolerance make; positions H and h add nothing."""
    return tolerance.source if position.value == 0 else f"{position.source}; {tolerance.source}"


def _screw_side(
    diameter: float,
    pitch: float,
    pitch_basic: float,
    minor_basic: float,
    name: str,
    sizes: dict[str, float],
    sources: dict[str, str],
    working: dict[str, str],
) -> None:
    grade, position, _, crest_position = _split(name)
    es, es_major = deviation(pitch, position), deviation(pitch, crest_position)
    td2 = screw_pitch_tolerance(diameter, pitch, grade)
    td = screw_major_tolerance(pitch, _crest_grade(name, pitch))
    major_max = round(diameter + es_major.value, 3)
    pitch_max = round(pitch_basic + es.value, 3)
    pitch_min = round(pitch_max - td2.value, 3)
    sizes |= {
        "ext_major_max": major_max,
        "ext_major_min": round(major_max - td.value, 3),
        "ext_pitch_max": pitch_max,
        "ext_pitch_min": pitch_min,
        "ext_minor_max": round(minor_basic + es.value, 3),
        # from the unrounded pitch diameter: so the printed tables have it
        "ext_minor_min": round(diameter - 1.265544 * pitch + es.value - td2.value, 3),
        "allowance": round(-es.value, 3),
    }
    sources |= {
        "ext_major_max": es_major.source,
        "ext_major_min": _from(td, es_major),
        "ext_pitch_max": es.source,
        "ext_pitch_min": _from(td2, es),
        "ext_minor_max": es.source,
        "ext_minor_min": f"{_from(td2, es)}; root rounded",
        "allowance": es.source,
    }
    working |= {
        "ext_major_max": f"d - deviation {crest_position} = {diameter:g} - {-es_major.value:.3f}",
        "ext_major_min": f"largest - Td = {major_max:.3f} - {td.value:.3f}",
        "ext_pitch_max": f"d2 - deviation {position} = {pitch_basic:.3f} - {-es.value:.3f}",
        "ext_pitch_min": f"largest - Td2 = {pitch_max:.3f} - {td2.value:.3f}",
        "ext_minor_max": f"d1 - deviation {position} = {minor_basic:.3f} - {-es.value:.3f}",
        "ext_minor_min": f"d - 1.265544 P - deviation - Td2 = {diameter:g} - 1.265544 x {pitch:g} "
        f"- {-es.value:.3f} - {td2.value:.3f}",
        "allowance": f"deviation of position {position} at a pitch of {pitch:g}",
    }


def _nut_side(
    diameter: float,
    pitch: float,
    pitch_basic: float,
    minor_basic: float,
    name: str,
    sizes: dict[str, float],
    sources: dict[str, str],
    working: dict[str, str],
) -> None:
    grade, position, crest_grade, crest_position = _split(name)
    ei, ei_minor = deviation(pitch, position), deviation(pitch, crest_position)
    td2, td1 = nut_pitch_tolerance(diameter, pitch, grade), nut_minor_tolerance(pitch, crest_grade)
    minor_min = round(minor_basic + ei_minor.value, 3)
    pitch_min = round(pitch_basic + ei.value, 3)
    sizes |= {
        "int_minor_min": minor_min,
        "int_minor_max": round(minor_min + td1.value, 3),
        "int_pitch_min": pitch_min,
        "int_pitch_max": round(pitch_min + td2.value, 3),
        "int_major_min": round(diameter + ei.value, 3),
    }
    sources |= {
        "int_minor_min": ei_minor.source,
        "int_minor_max": _from(td1, ei_minor),
        "int_pitch_min": ei.source,
        "int_pitch_max": _from(td2, ei),
        "int_major_min": ei.source,
    }
    working |= {
        "pitch_basic": f"d - 0.649519 P = {diameter:g} - 0.649519 x {pitch:g}, to 0.001 mm",
        "minor_basic": f"d - 1.082532 P = {diameter:g} - 1.082532 x {pitch:g}, to 0.001 mm",
        "int_minor_min": f"D1 + deviation {crest_position} = {minor_basic:.3f} + {ei_minor.value:.3f}",
        "int_minor_max": f"smallest + TD1 = {minor_min:.3f} + {td1.value:.3f}",
        "int_pitch_min": f"D2 + deviation {position} = {pitch_basic:.3f} + {ei.value:.3f}",
        "int_pitch_max": f"smallest + TD2 = {pitch_min:.3f} + {td2.value:.3f}",
        "int_major_min": f"D + deviation {position} = {diameter:g} + {ei.value:.3f}",
    }
