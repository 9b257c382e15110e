"""ISO metric threads: M10, M10x1.25-6g, M16xPh3P1.5, M10x1.4 special."""

from __future__ import annotations

import re
from fractions import Fraction

from engine.base.refusals import BadInput
from engine.base.sums import Sum, mm, num
from engine.base.words import Text, own, put, say, shown
from engine.base.words import plain as plainly
from engine.threads.form import sixty
from engine.threads.iso965 import (
    Tolerance,
    covered,
    deviation,
    normal_engagement,
    nut_minor_tolerance,
    nut_pitch_tolerance,
    screw_major_tolerance,
    screw_pitch_tolerance,
)
from engine.threads.limits import worked
from engine.threads.metric_sizes import NUM, fraction, no_diameter, pair
from engine.threads.series import at_diameter, metric_entries
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Area, Classes, Entry, Limits, Written
from engine.threads.written import count_starts, made, plain, read_class, refuse, unread

# Patterns are texts: Python compiles one when it is first used.
_SIZE = rf"(?i)(?:m\s*)?{NUM}\s*(?:mm)?\s*(.*)"
_BEHIND = rf"""(?xi)
    (?: x\s*ph\s*{NUM}\s*[-\s]*p\s*{NUM}          # ISO 965-1: M16xPh3P1.5
      | x\s*l\s*{NUM}\s*[-\s]*p\s*{NUM}           # ASME B1.13M: M16xL4-P2
      | (?:x|-)\s*{NUM}\s*(?:mm)?(?![0-9a-z.])
      | \s*(coarse|fine)
    )? (.*)"""
_GROUP = r"[\s-]+([SNL])(?=$|[\s-])"

# The medium classes that ISO 965-1 recommends for each group of engagement: screw, nut.
_MEDIUM = {"S": ("5g6g", "5H"), "N": ("6g", "6H"), "L": ("7g6g", "7H")}
_SMALL = ("6h", "5H")  # up to 1.4 mm
_OUTSIDE = (
    "ISO 965-1 gives no tolerances outside 0.99 to 355 mm and pitches of 0.2 to 8 mm: sizes by the form, no limits"
)
_BY_FORMULA = "ISO 965-1 has no table for this pair: tolerances by its formulas, which may be one step (6 %) off"
_GROUPS = {"S": "short", "N": "normal", "L": "long"}


def _read(written: Written, mark: Mark) -> Thread:
    """Diameter, pitch or lead with pitch, class, length group, hand: ISO 965-1 clause 12, ASME B1.13M."""
    found = re.fullmatch(_SIZE, written.body)
    if not found:
        raise unread(written)
    diameter, behind = found.groups()
    ph = p1 = lead = p2 = single = word = rest = ""
    if behind and (more := re.fullmatch(_BEHIND, behind)):
        ph, p1, lead, p2, single, word, rest = more.groups()
    size = Fraction(diameter.rstrip("."))
    entry = _entry(written, size, fraction(p1 or p2 or single), (word or "").lower())
    starts = count_starts(written, fraction(ph or lead), entry.pitch)
    group = re.search(_GROUP, rest) if rest else None
    engagement = group[1] if group else ""
    rest = rest[: group.start()] + rest[group.end() :] if group else rest
    tolerance = read_class("metric", written, rest)
    parts = [_name(entry, starts), tolerance, engagement, "LH" if written.left_hand else ""]
    name = "-".join(part for part in parts if part) + (" special" if entry.listed == "special" else "")
    return made(written, entry, name, starts, tolerance, engagement)


def _entry(written: Written, size: Fraction, pitch: Fraction | None, word: str) -> Entry:
    """The pair of ISO 261, or the special one that was asked for."""
    if pitch is not None:
        return pair(written, FAMILY, size, pitch)
    known = at_diameter("metric", size)
    chosen = [e for e in known if e.series == (word or "coarse")]
    if len(chosen) == 1:
        return chosen[0]
    if not known:
        raise no_diameter(written, FAMILY, size, pitch)
    choices = " or ".join(f"M{plain(size)}x{plain(e.pitch)}" for e in (chosen or known))
    why = "has more than one fine pitch" if chosen else f"has no {word or 'coarse'} pitch in ISO 261"
    raise refuse(written.text, f"M{plain(size)} {why}: write {choices}", choices)


def _name(entry: Entry, starts: int) -> str:
    name = f"M{plain(entry.diameter)}"
    if starts > 1:
        return f"{name}xPh{plain(entry.pitch * starts)}P{plain(entry.pitch)}"
    return name if entry.series == "coarse" else f"{name}x{plain(entry.pitch)}"


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Limits by ISO 965-1:2013: basic sizes of ISO 724 to 0.001 mm first, then whole micrometres."""
    diameter, pitch = thread.diameter, float(thread.pitch)
    d, p = mm(diameter, symbol="d"), mm(pitch, symbol="P")
    to = say(", to {step}", step=own(shown(0.001), "mm"))
    basic = worked({"pitch_basic": d - num(0.649519) * p, "minor_basic": d - num(1.082532) * p}, _thousandths, to)
    basic["pitch_basic"] = _thousandths(diameter - 0.649519053 * pitch)
    basic["minor_basic"] = _thousandths(diameter - 1.082531755 * pitch)
    if not covered(diameter, pitch):
        basic |= {"screw_class": classes.screw or "", "nut_class": classes.nut or "", "notes": (_OUTSIDE,)}
        return Limits(major_basic=diameter, source="ISO 724", **basic)
    group, notes = _group(thread, engagement)
    screw = classes.screw or _usual_screw(thread, group)
    nut = classes.nut or _usual_nut(thread, group, notes)
    d2, d1 = basic["pitch_basic"], basic["minor_basic"]
    rows = _screw_side(d, p, d2, d1, screw) | _nut_side(d, p, d2, d1, nut)
    sources = {name: source for name, (_, source) in rows.items()}
    if any("clause 10" in source for source in sources.values()):
        notes.append(_BY_FORMULA)
    found = worked({name: sum_ for name, (sum_, _) in rows.items()}, _thousandths, beside=basic)
    text = f"deviation of position {screw[1]} at a pitch of {{pitch}}"
    found["working"]["allowance"] = say(text, pitch=put(pitch))
    found |= {"notes": tuple(notes), "sources": sources}
    source = "ISO 724 and ISO 965-1:2013"
    return Limits(screw_class=screw, nut_class=nut, major_basic=diameter, source=source, **found)


def _thousandths(size: float) -> float:
    return round(size, 3)


def _largest(size: Sum, symbol: str = "largest") -> Sum:
    """A limit, as it is rounded, from which the other one is worked."""
    return mm(_thousandths(float(size)), symbol=symbol)


def _group(thread: Thread, engagement: float | None) -> tuple[str, list[Text]]:
    """The group of engagement, S, N or L, and what to say where the standard has none."""
    normal = normal_engagement(thread.diameter, float(thread.pitch))
    if engagement is None:
        return thread.engagement or "N", []
    if normal is None:
        return "N", ["ISO 965-1 lists no lengths of engagement for this pair: taken as normal"]
    return engagement_group(engagement, normal), []


def engagement_group(engagement: float, normal: tuple[float, float]) -> str:
    """The group S, N or L of a length of engagement in mm, from the lengths that are normal (ISO 965-1:2013).

    M10: over 5 up to 15 mm is normal.

    >>> engagement_group(5.0, (5.0, 15.0)), engagement_group(15.0, (5.0, 15.0)), engagement_group(20, (5.0, 15.0))
    ('S', 'N', 'L')
    """
    low, high = normal
    return "S" if engagement <= low else "N" if engagement <= high else "L"


def _engaged(thread: Thread, engagement: float) -> Text:
    normal = normal_engagement(thread.diameter, float(thread.pitch)) if covered(thread.diameter, 1) else None
    if normal is None:
        return ""
    return say(
        f"{{engaged}} of engagement is {_GROUPS[engagement_group(engagement, normal)]} "
        "(normal: over {low} up to {high}, ISO 965-1)",
        engaged=shown(engagement, decimals=2),
        low=shown(normal[0], decimals=2),
        high=shown(normal[1], decimals=2),
    )


def _usual_screw(thread: Thread, group: str) -> str:
    if thread.diameter <= 1.4:
        return _SMALL[0]
    usual = _MEDIUM[group][0]
    return usual if _exists(thread, usual, None) else "6g"


def _usual_nut(thread: Thread, group: str, notes: list[Text]) -> str:
    """The usual class, or the next finer grade that the standard has for a very fine pitch."""
    usual = _SMALL[1] if thread.diameter <= 1.4 else _MEDIUM[group][1]
    for grade in range(int(usual[0]), 3, -1):
        if _exists(thread, None, f"{grade}H"):
            if grade != int(usual[0]):
                note = f"ISO 965-1 has no {usual} for a pitch of {{pitch}}: {grade}H is used"
                notes.append(say(note, pitch=plainly(float(thread.pitch))))
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
    except BadInput:
        return False
    return True


def _crest_grade(name: str) -> str:
    """A screw class written once takes its grade for the major diameter too, where there is one (4, 6, 8)."""
    if len(name) == 2 and name[-2] in "3579":
        text = f"tolerance: {name} needs a grade for the major diameter too, 4, 6 or 8 (such as {name}6{name[1]})."
        raise BadInput("tolerance", name, "two parts", text)
    return name[-2]


def _from(tolerance: Tolerance, position: Tolerance) -> str:
    """The sources of a limit that a deviation and a tolerance make; positions H and h add nothing."""
    return tolerance.source if position.value == 0 else f"{position.source}; {tolerance.source}"


def _screw_side(d: Sum, p: Sum, d2: float, d1: float, name: str) -> dict[str, tuple[Sum, str]]:
    """The sum and the source of each size; `name` has the grade and position of the pitch diameter, then of the crest (the
    same if written once)."""
    diameter, pitch, position, crest = float(d), float(p), name[1], name[-1]
    es, es_major = deviation(pitch, position), deviation(pitch, crest)
    td2, td = screw_pitch_tolerance(diameter, pitch, name[0]), screw_major_tolerance(pitch, _crest_grade(name))
    below, tol = mm(-es.value, symbol=f"deviation {position}"), mm(td2.value, symbol="Td2")
    major, middle = d - mm(-es_major.value, symbol=f"deviation {crest}"), mm(d2, symbol="d2") - below
    return {
        "ext_major_max": (major, es_major.source),
        "ext_major_min": (_largest(major) - mm(td.value, symbol="Td"), _from(td, es_major)),
        "ext_pitch_max": (middle, es.source),
        "ext_pitch_min": (_largest(middle) - tol, _from(td2, es)),
        "ext_minor_max": (mm(d1, symbol="d1") - below, es.source),
        # from the unrounded pitch diameter: so the printed tables have it
        "ext_minor_min": (d - num(1.265544) * p - below - tol, f"{_from(td2, es)}; root rounded"),
        "allowance": (below, es.source),
    }


def _nut_side(d: Sum, p: Sum, d2: float, d1: float, name: str) -> dict[str, tuple[Sum, str]]:
    diameter, pitch, position, crest = float(d), float(p), name[1], name[-1]
    ei, ei_minor = deviation(pitch, position), deviation(pitch, crest)
    td2, td1 = nut_pitch_tolerance(diameter, pitch, name[0]), nut_minor_tolerance(pitch, name[-2])
    above, over = mm(ei.value, symbol=f"deviation {position}"), mm(ei_minor.value, symbol=f"deviation {crest}")
    minor, middle = mm(d1, symbol="D1") + over, mm(d2, symbol="D2") + above
    return {
        "int_minor_min": (minor, ei_minor.source),
        "int_minor_max": (_largest(minor, "smallest") + mm(td1.value, symbol="TD1"), _from(td1, ei_minor)),
        "int_pitch_min": (middle, ei.source),
        "int_pitch_max": (_largest(middle, "smallest") + mm(td2.value, symbol="TD2"), _from(td2, ei)),
        "int_major_min": (mm(diameter, symbol="D") + above, ei.source),
    }


def _stress_area(thread: Thread) -> Area:
    """ISO 898-1:2013 clause 9.1.6.1: pi/4 ((d2 + d3)/2)^2 with d3 = d1 - H/6, which is d - 0.938194 P squared."""
    across = mm(thread.diameter, symbol="d") - num(0.938194) * mm(float(thread.pitch), symbol="P")
    return Area.of_circle(across, "ISO 898-1:2013 clause 9.1.6.1")


FAMILY = Family(
    "metric", "ISO metric", 10, "ISO 261", "ISO 724 and ISO 261", letter="M", bare="x", read=_read,
    write=lambda entry: f"M{plain(entry.diameter)}x{plain(entry.pitch)}",
    pairs=lambda: metric_entries("metric", "iso261"),
    form=lambda thread: sixty(float(thread.pitch), "ISO 68-1 and ISO 724"), limits=_limits,
    classes=Grammar(
        r"[3-9][a-h](?:[468][a-h])?", r"[4-8][GH](?:[4-8][GH])?", "an ISO 965-1 class such as 6g, 6H, 4g6g or 6H/6g",
        nut_first=True,
    ),
    by_engagement=True, engaged=_engaged, stress_area=_stress_area, chart_depth=1.299038, drill_standard="ISO 2306",
    bolts="iso", usual=("6g", "6H"), reliefs=True,
)  # fmt: skip
