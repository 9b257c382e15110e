"""What a step cuts, drawn large for the card: half of the work about its axis, only the part that is worked on, with the one
size that is cut. From the operator's side what is turned, cut open what is bored; head work from its end.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from engine.base.answer import Circle, Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.records import dataclass, replace
from engine.part import part as p
from engine.part.sizes import limits_text, number
from engine.part.steps import Step
from engine.part.words import callout
from engine.part.work import bare, end_view, span_of_bar, x_of

_ROOM = 34.0, 12.0, 1.45  # mm of the card: width, height, a letter; the view fills what its words leave
_LONG = 2.2  # times the bar: what is longer is drawn interrupted
_KEPT = 0.75  # of the bar: how much of either end is then kept
_GAP = 0.12  # of the bar: how far the ends then stand apart
_WHOLE = ("face2", "part_off")  # the step gives the part its length
_ENDS = ("face", "centre", "centre2", "support")  # what is done at the end by the tailstock
_CENTRES = ("centre", "centre2", "support")
_INSIDE = (p.Inside, p.Mouth)


@dataclass(frozen=True, slots=True)
class _Window:
    """What is shown of the work: from left to right and from below up."""

    left: float
    right: float
    low: float
    high: float


def detail(step: Step, state: p.WorkState) -> Picture | None:
    """What a step makes, with its size; None where nothing is cut that could be seen.

    step: as it is planned
    state: the work as it lies when it is done
    """
    end = end_view(state) if state.head_zero else None
    if end is not None:
        return _from_the_end(end, step, state)
    made = [state.part.feature(name) for name in state.making if name in _names(state.part)]
    if step.kind in _ENDS or step.kind in _WHOLE:
        made = []
    elif not made or step.kind == "stub":
        return None
    below = not any(isinstance(one, _INSIDE) for one in made) and step.kind not in _CENTRES
    said = list(_said(step, state, made, below=below))
    window = _window(step, state, made)
    cut = _interrupted(window, state.part.bar.corners)
    return _drawn(step, state, window if cut else _filled(window, said), cut, said, below=below)


def _filled(window: _Window, said: Sequence[Shape]) -> _Window:
    """A view no narrower than the room beside its words: more of the work is then seen at the left."""
    wide, high, letter = _ROOM
    beside = max((len(str(one.text)) + 3 for one in said if isinstance(one, Pointer)), default=0)
    least = (window.high - window.low) * max(wide - beside * letter, 0.6 * high) / high
    return replace(window, left=min(window.left, window.right - least))


def _names(part: p.Part) -> set[str]:
    return {one.name for one in part.features()}


def _drawn(
    step: Step,
    state: p.WorkState,
    window: _Window,
    cut: tuple[float, float] | None,
    said: Sequence[Shape],
    *,
    below: bool,
) -> Picture:
    bar = state.part.bar.corners
    letter = (window.high - window.low) / 14
    shapes = list(bare(state, letter=letter, hatched=not below))
    if cut is None:
        drawn = [*_clipped(shapes, window), *said]
    else:
        first, second = cut
        shift = second - first - _GAP * bar
        left, right = replace(window, right=first), replace(window, left=second)
        drawn = [*_clipped(shapes, left), *_moved(_clipped(shapes, right), -shift), *_broken(first, window)]
        drawn += [*_broken(second - shift, window), *(_said_moved(one, second, shift) for one in said)]
        window = replace(window, right=window.right - shift)
    axis = [Line(window.left, 0, window.right, 0, 2)] if window.low <= 0 <= window.high else []
    return Picture("step", step.title, (*drawn, *axis), step.title)


def _window(step: Step, state: p.WorkState, made: Sequence[p.Feature]) -> _Window:
    """The room round what is worked on; a tool at the end of the work is in it."""
    first, last = span_of_bar(state)
    ends = sorted((x_of(state, first), x_of(state, last)))
    radius = state.part.bar.corners / 2
    places = [x_of(state, z) for one in made for z in (one.start, one.stop)]
    if step.kind in _WHOLE:
        places = [x_of(state, 0.0), x_of(state, state.part.overall)]
    elif step.kind in _ENDS:
        places = [ends[1]]
    if state.reach is not None:
        places.append(ends[1] - state.reach)
    low, high = min(places), max(places)
    if all(isinstance(one, p.Chamfer | p.Round) for one in made) and made:
        return _corner(state, made, low, high)
    around = max(0.3 * (high - low), 0.5 * radius)
    inside = any(isinstance(one, _INSIDE) for one in made) or step.kind in _CENTRES
    right = min(high + around, ends[1] + 0.1 * radius)
    if inside and high > ends[1] - around:  # a tool comes in from the end
        right = ends[1] + 0.9 * radius
    if step.kind in ("face", "face2"):
        right = ends[1] + 0.6 * radius
    left = max(low - around, ends[0] - 0.1 * radius)
    if inside:
        return _Window(left, right, 0.0, 1.06 * radius)
    return _Window(left, right, (-1.12 if step.kind in _WHOLE else -1.6) * radius, 0.0)


def _corner(state: p.WorkState, made: Sequence[p.Feature], low: float, high: float) -> _Window:
    """A bevel's corner, so large that it is seen."""
    carrier = next((one for one in state.part.outside if one.name == made[0].stands_on), None)
    radius = carrier.largest / 2 if carrier is not None else state.part.bar.corners / 2
    size = max(2.5 * (high - low), 0.16 * radius)
    if isinstance(made[0], _INSIDE) or carrier is None:
        radius = max((one.largest / 2 for one in state.part.inside if one.name == made[0].stands_on), default=radius)
        return _Window(low - size, high + size, radius - size, radius + size)
    return _Window(low - 1.4 * size, high + 1.4 * size, -radius - 0.6 * size, -radius + 1.2 * size)


# Its size


def _said(step: Step, state: p.WorkState, made: Sequence[p.Feature], *, below: bool) -> Iterator[Shape]:
    """The size that the step cuts: a length along, else the words of what it makes with a line to its surface."""
    unit = state.part.unit
    if step.kind in _WHOLE:
        length = state.part.length
        far, near = sorted((x_of(state, 0.0), x_of(state, state.part.overall)))
        text = limits_text(length, unit) if length and step.kind == "face2" else number(state.part.overall, unit, 3)
        if step.kind == "part_off" and state.reach is not None:
            far, text = near - state.reach, number(state.reach, unit, 3)
        radius = state.part.outside[0 if state.turned_round else -1].largest / 2
        yield Size(far, -radius, near, -radius, text, "below")
        return
    for one in made[:1]:
        text = _words(step, state, one)
        if text:
            ends = sorted((x_of(state, one.start), x_of(state, one.stop)))
            x = sum(ends) / 2 if isinstance(one, p.Chamfer) else ends[1]
            radius = _radius(state, one) - (one.depth / 2 if isinstance(one, p.Chamfer) else 0.0)
            yield Pointer(x, -radius if below else radius, text, "right")


def _words(step: Step, state: p.WorkState, one: p.Feature) -> str:
    unit = state.part.unit
    if not state.finishes:
        if state.leaves is None:
            return ""
        deep = f" x {number(state.reach, unit, 3)}" if state.reach is not None else ""
        return f"Ø{number(state.leaves, unit, 3)}{deep}"
    if isinstance(one, p.Diameter | p.Groove):
        return f"Ø{number(one.size.nominal, unit)}"
    if isinstance(one, p.Knurl):
        return f"Ø{number(one.near.nominal, unit)}"
    if isinstance(one, p.OutsideThread | p.InsideThread):
        return str(one.size)
    if isinstance(one, p.Counterbore):
        return f"Ø{number(one.diameter.nominal, unit)} x {number(one.long, unit)}"
    if isinstance(one, p.Hole):
        return f"Ø{number(one.size.nominal, unit)}"
    if isinstance(one, p.HoleCircle):
        return f"{one.holes} x {one.thread or number(one.bore, unit)}"
    if isinstance(one, p.Slot | p.Keyway):
        return f"{number(one.width.nominal, unit)} x {number(one.depth.nominal, unit)}"
    if isinstance(one, p.Ball):
        return f"Ø{number(one.ball, unit)} ball"
    return callout(one, state.part)


def _radius(state: p.WorkState, one: p.Feature) -> float:
    """Where the words point to."""
    if not state.finishes and state.leaves is not None:
        return state.leaves / 2
    if isinstance(one, p.Mouth):
        return one.diameter / 2
    if isinstance(one, p.Slot):
        return one.width.nominal / 2
    if isinstance(one, p.Outside | p.Inside):
        return one.largest / 2
    every: tuple[p.Outside | p.Inside, ...] = (*state.part.outside, *state.part.inside)
    return next((other.largest / 2 for other in every if other.name == one.stands_on), state.part.bar.corners / 2)


def _from_the_end(end: Picture, step: Step, state: p.WorkState) -> Picture:
    """The end view with the size across flats, else with what is cut in words under it."""
    unit = state.part.unit
    lines = [shape for shape in end.shapes if isinstance(shape, Line | Circle | Polygon)]
    made = [state.part.feature(name) for name in state.making if name in _names(state.part)]
    flats = next((one for one in made if isinstance(one, p.Flats)), None)
    if flats is not None:
        half = flats.across_flats.nominal / 2
        said: Shape = Size(0, -half, 0, half, limits_text(flats.across_flats, unit), "right")
    else:
        radius = max((shape.radius for shape in lines if isinstance(shape, Circle)), default=0.0)
        one = made[0]
        words = f"{one.holes} on Ø{number(one.diameter.nominal, unit)}" if isinstance(one, p.HoleCircle) else ""
        said = Pointer(radius * 0.7, radius * 0.7, words or callout(one, state.part), "right")
    return Picture(end.name, step.title, (*lines, said), end.alt)


# What is seen through the window


def _interrupted(window: _Window, bar: float) -> tuple[float, float] | None:
    """Where a long view is interrupted, and where it goes on."""
    if window.right - window.left <= _LONG * bar:
        return None
    return window.left + _KEPT * bar, window.right - _KEPT * bar


def _broken(x: float, window: _Window) -> Iterator[Line]:
    """The zigzag at which a view is interrupted."""
    low, high = 0.75 * window.low, 0.75 * window.high
    middle, step = (low + high) / 2, (high - low) / 8
    points = [(x, low), (x, middle - step), (x - step, middle), (x + step, middle + step / 2), (x, high)]
    yield from (Line(a, b, c, d) for (a, b), (c, d) in pairwise(points))


def _clipped(shapes: Iterable[Shape], window: _Window) -> list[Shape]:
    """What of the lines and outlines lies in the window; an outline that is cut stays open there."""
    found: list[Shape] = []
    for shape in shapes:
        if isinstance(shape, Line):
            found += _part_of(shape, window)
        elif isinstance(shape, Polygon):
            ends = [*shape.points, shape.points[0]]
            for (x1, y1), (x2, y2) in pairwise(ends):
                found += _part_of(Line(x1, y1, x2, y2), window)
    return found


def _part_of(line: Line, window: _Window) -> list[Line]:
    """What of a line lies in the window (Liang and Barsky: four bounds of one parameter)."""
    start, stop = 0.0, 1.0
    dx, dy = line.x2 - line.x1, line.y2 - line.y1
    bounds = ((-dx, line.x1 - window.left), (dx, window.right - line.x1), (-dy, line.y1 - window.low),
              (dy, window.high - line.y1))  # fmt: skip
    for rate, room in bounds:
        if abs(rate) < 1e-12:
            if room < 0:
                return []
        elif rate < 0:
            start = max(start, room / rate)
        else:
            stop = min(stop, room / rate)
    if start > stop - 1e-9:
        return []
    return [
        replace(line, x1=line.x1 + start * dx, y1=line.y1 + start * dy, x2=line.x1 + stop * dx, y2=line.y1 + stop * dy)
    ]


def _moved(shapes: Iterable[Shape], by: float) -> Iterator[Shape]:
    for shape in shapes:
        yield replace(shape, x1=shape.x1 + by, x2=shape.x2 + by) if isinstance(shape, Line) else shape


def _said_moved(shape: Shape, second: float, shift: float) -> Shape:
    """Words about what lies behind the interruption go with it."""

    def at(x: float) -> float:
        return x - shift if x >= second - 1e-9 else x

    if isinstance(shape, Size):
        return replace(shape, x1=at(shape.x1), x2=at(shape.x2))
    return replace(shape, x=at(shape.x)) if isinstance(shape, Pointer) else shape
