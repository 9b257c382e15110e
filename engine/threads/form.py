"""The form of a thread: its angle, its heights, its crest and root, in millimetres for the pitch it has.

The shapes that several families share are here; which of them a family has, its own file says.
"""

from __future__ import annotations

from math import radians, tan

from engine.base.rounding import short
from engine.base.sums import Sum, mm, num
from engine.threads.thread import Thread
from engine.threads.told import Form, Profile


def form(thread: Thread) -> Form:
    """The form of a thread at its pitch, by its family's standard: see its `source`, and engine/threads/families.

    M10: H 0.866025 P, depth of the screw 0.613435 P (ISO 724).

    >>> from engine.threads.designation import parse
    >>> m10 = form(parse("M10"))
    >>> round(m10.height, 4), round(m10.depth, 4), m10.included_angle
    (1.299, 0.9202, 60.0)
    """
    return thread.kind.form(thread)


def clearance(thread: Thread) -> float:
    """Clearance at crest and root on one side, half of what the diameters differ by, in mm; 0 for a family without.

    >>> from engine.threads.designation import parse
    >>> clearance(parse("Tr12x3")), clearance(parse("3/4-6 ACME")), clearance(parse("M10"))
    (0.25, 0.254, 0.0)
    """
    return thread.kind.clearance(thread)


def addendum(form: Form) -> float:
    """How far a form's crest stands above its pitch line, in mm.

    >>> from engine.threads.designation import parse
    >>> round(addendum(form(parse("M10"))), 4)
    0.4871
    """
    return form.height / 2 - form.crest_truncation


def sixty(pitch: float, source: str) -> Form:
    """The form of ISO 68-1 and ASME B1.1 with a rounded root, as a screw is cut: 17/24 of H deep.

    >>> round(sixty(1.5, "ISO 68-1").depth, 4)
    0.9202
    """
    height = 0.866025404 * pitch
    return Form(
        profile="60 degree", included_angle=60.0, height=height, basic_depth=height * 5 / 8,
        crest_truncation=height / 8, root_truncation=height / 4, crest_flat=pitch / 8, root_flat=pitch / 4,
        root_radius=height / 6, depth=height * 17 / 24, nut_depth=height * 5 / 8,
        source=f"{source}: root rounded with H/6", rule="17/24 of H = 0.613435 P", rule_sum=num(0.613435) * mm(pitch),
    )  # fmt: skip


def even(
    profile: Profile, angle: float, height: float, depth: float, rule: str, rule_sum: Sum, source: str,
    *, flats: tuple[float, float] = (0.0, 0.0), radius: float = 0.0, gap: float = 0.0,
) -> Form:  # fmt: skip
    """A form cut short alike at crest and root of its triangle, with flats (of the crest, of the root) or with one radius
    on both; `gap` is the clearance. [mm, deg]"""
    truncation = (height - depth) / 2
    return Form(
        profile=profile, included_angle=angle, height=height, basic_depth=depth, crest_truncation=truncation,
        root_truncation=truncation, crest_flat=flats[0], root_flat=flats[1], crest_radius=radius, root_radius=radius,
        depth=depth + gap, nut_depth=depth + gap, source=source, rule=rule, rule_sum=rule_sum,
    )  # fmt: skip


def rounded(
    pitch: float, factor: float, *, angle: float, height: float, radius: float, source: str, profile: Profile,
    depth: float | None = None, to: str = "",
) -> Form:  # fmt: skip
    """A form with rounded crest and root; `height` and `radius` as factors of the pitch. Its depth is `factor` times the
    pitch, or `depth` in mm, which is that rounded `to` what is said."""
    deep, rule = factor * pitch if depth is None else depth, f"{short(factor)} P{to}"
    source += ": crest and root rounded"
    return even(profile, angle, height * pitch, deep, rule, num(factor) * mm(pitch), source, radius=radius * pitch)


def whitworth(pitch: float, source: str) -> Form:
    """The form of BS 84, of pipe threads too: 55 degrees, 0.640327 P deep.

    >>> whitworth(1.0, "BS 84").depth
    0.640327
    """
    return rounded(pitch, 0.640327, angle=55.0, height=0.960491, radius=0.137329, source=source, profile="Whitworth")


def trapezoid(pitch: float, *, angle: float, gap: float, source: str, profile: Profile, depth: float = 0.5) -> Form:
    """A form with straight flanks, ridge and groove alike at the pitch line; `depth` in pitches, `gap` the clearance in
    mm."""
    slope, deep = tan(radians(angle / 2)), pitch * depth
    crest = pitch / 2 - deep * slope
    rule, part, said = f"{short(depth)} P", num(depth) * mm(pitch), source
    if depth == 0.5:
        rule, part, said = "P ÷ 2", mm(pitch) / 2, f"{source}: half the pitch and the clearance"
    flats = crest, crest - 2 * gap * slope
    rule, height = f"{rule} + clearance", pitch / (2 * slope)
    return even(profile, angle, height, deep, rule, part + mm(gap), said, flats=flats, gap=gap)
