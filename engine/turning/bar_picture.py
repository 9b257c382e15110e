"""The picture of a bar laid out: its faced end at the right, as it stands in the lathe."""

from __future__ import annotations

from engine.base.answer import Label, Line, Picture, Pointer, Shape, Size
from engine.base.outlines import box, dia
from engine.base.words import say, shown
from engine.turning.bar import BarPlan, Hole


def draw(plan: BarPlan, hole: Hole | None, *, waste: float, grip: float, diameter: float | None) -> Picture:
    """Draw a bar plan at true size; x is minus the distance from the faced end.

    >>> from engine.turning.bar import plan_bar
    >>> plan = plan_bar(parts=2, length=12, back=0, blade=2, facing=0.5, end_waste=5, grip=20)
    >>> draw(plan, None, waste=5, grip=20, diameter=16).table
    'cuts'
    """
    half = (diameter or max(plan.bar_length / 6, 2.0)) / 2
    jaws = plan.cuts[-1].kerf_end + waste
    shapes: list[Shape] = []
    for cut in plan.cuts:
        shapes += [box(-cut.end, -half, -cut.start, half), box(-cut.kerf_end, -half, -cut.end, half, filled=True)]
        shapes.append(Label(-(cut.start + cut.end) / 2, half * 0.75, str(cut.part), row=cut.part))
        cut_at = say("cut {part} at {far}", part=cut.part, far=shown(cut.end, decimals=2))
        shapes.append(Size(-cut.end, half, 0, half, cut_at, "above", cut.part, if_marked=True))
    shapes.append(box(-jaws - grip, -half, -plan.cuts[-1].kerf_end, half))
    shapes.append(Line(-jaws, -half * 1.5, -jaws, half * 1.5, 1))
    last, first = plan.cuts[-1], plan.cuts[0]
    raw = plan.bar_length - jaws - grip  # the sawn end, which is faced off first
    shapes.append(Line(raw, -half, raw, half))
    text = say("blade {wide}", wide=shown(last.kerf_end - last.end, decimals=2))
    shapes += [
        Pointer(-jaws, -half * 1.5, "jaws", "below"),
        Size(-jaws - grip, half, -jaws, half, say("grip {grip}", grip=shown(grip, decimals=1)), "above"),
        Size(-jaws, -half, 0, -half, say("out {out}", out=shown(jaws, decimals=1)), "below"),
        Size(-jaws - grip, -half, raw, -half, say("bar {long}", long=shown(plan.bar_length, decimals=1)), "below"),
        Size(-first.end, half, -first.start, half, shown(first.end - first.start, decimals=2), "above"),
        Size(-last.kerf_end, half, -last.end, half, text, "above"),
    ]
    if raw > 1e-6:
        shapes.append(Size(0, half, raw, half, say("face {off}", off=shown(raw, decimals=2)), "above"))
    if diameter:
        shapes.append(Size(-jaws - grip, half, -jaws - grip, -half, dia(diameter), "left"))
    if hole is not None:
        shapes.extend(_hole(hole, hole.drill / 2 if diameter else half * 0.4))
    shapes.append(Line(-jaws - grip, 0, half / 2, 0, 2))
    one = len(plan.cuts) == 1
    alt = say("A bar of {long}: {parts}, {room} of waste, then the jaws with {held} of grip.",
        long=shown(plan.bar_length, decimals=1), room=shown(waste, decimals=1), held=shown(grip, decimals=1),
        parts="1 part with a cut behind it" if one else f"{len(plan.cuts)} parts with a cut behind each")  # fmt: skip
    return Picture("bar", "The bar, faced end to the right", tuple(shapes), alt, true_size=True, table="cuts")


def _hole(hole: Hole, radius: float) -> list[Shape]:
    depth, deepest = float(hole.depth), float(hole.depth) + hole.point
    walls = [Line(0, y, -depth, y) for y in (radius, -radius)]
    return [*walls, *(Line(-depth, y, -deepest, 0) for y in (radius, -radius))]
