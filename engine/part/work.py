"""A step drawn as the work lies on the machine: headstock left, the piece as it now is, this step's surface heavy
with only its own sizes, what holds it, where the tool stands and how much room it has. For head work, the end view.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from math import cos, radians, sin
from textwrap import wrap

from engine.base.answer import Circle, Label, Line, Picture, Polygon, Shape
from engine.base.records import dataclass, replace
from engine.part import part as p
from engine.part.drawing import Frame, dimension, extents, row_of, section
from engine.part.shape import Slice, hatch, inside, outside
from engine.part.sizes import limits_text, number
from engine.part.words import callout, spoken_of

TALL = 2.1  # a row of words to the width of a letter
_COLUMNS, _ROWS = 108, 22  # on paper
_LARGE = 26  # rows: in fewer the hatching hides the outline
_JAWS = ("three-jaw", "four-jaw", "soft jaws", "dividing head", "vice", "faceplate")
_MOST_LINES = 90  # of a scale in the end view


@dataclass(frozen=True, slots=True)
class _Lie:
    """How the part lies: places along the part to places along the machine, the headstock to the left."""

    state: p.WorkState
    frame: Frame
    hatched: bool = True
    top: float = 0.0  # how far the work and what holds it go up and down from the axis
    bottom: float = 0.0

    def x(self, z: float) -> float:
        """A place of the part, on the machine."""
        return x_of(self.state, z)

    @property
    def radius(self) -> float:
        """Of the bar."""
        return self.state.part.bar.corners / 2

    def n(self, length: float) -> str:
        """A length in the part's unit."""
        return number(length, self.state.part.unit, 3)


def x_of(state: p.WorkState, z: float) -> float:
    """A place of the part, on the machine; the end at the tailstock is 0."""
    return z - state.part.overall if state.turned_round else -z


def bare(state: p.WorkState, *, letter: float, hatched: bool) -> list[Shape]:
    """The lines of a step as it lies on the machine, without words, for a letter of this width [mm of the work]."""
    lie = _Lie(state, Frame(letter, TALL * letter), hatched=hatched)
    shapes = [*_to_come(lie), *_piece(lie), *_held(lie), *_supported(lie), *_tool(lie)]
    return [shape for shape in shapes if not isinstance(shape, Label)]


def step_drawing(state: p.WorkState, *, columns: int = 0, rows: int = 0, words: bool = True) -> Picture:
    """Draw a step as it lies on the machine.

    `columns` and `rows` are the screen's cells; without them it is for paper. Without `words` it is the bare outline, to be
    made small.
    """
    cells = bool(columns and rows)
    width, height = (max(columns, 30), max(rows, 12)) if cells else (_COLUMNS, _ROWS)
    span = _span(state)
    said = _legend(state, width - 2 if cells else 0)
    rough = _Lie(state, Frame(1e-3, 2e-3, 1.0, cells), hatched=False)
    _, bottom, _, top = extents(shape for part in (_piece, _to_come, _held, _supported, _tool) for shape in part(rough))
    # In cells a row for each line that is said, and those of callouts, of what holds it and of the dimensions.
    room = height - 6.0 - len(said) if cells else height - 9.0
    tall = top - bottom if cells else 2 * state.part.bar.corners
    letter = max((span[1] - span[0]) / (width - 16), tall / (max(room, 4.0) * TALL), 1e-3)
    row = (TALL if not cells else 2.0) * letter
    frame = Frame(letter, row, row / letter if cells else 1.0, cells)
    sides = (top, bottom) if cells else (1.75 * rough.radius, -1.75 * rough.radius)
    lie = _Lie(state, frame, hatched=words and (not cells or rows >= _LARGE), top=sides[0], bottom=sides[1])
    shapes = [*_to_come(lie), *_piece(lie), *_held(lie), *_supported(lie), *_tool(lie), *_sizes(lie)]
    low = lie.bottom - (4.8 if cells else 7.0) * row
    shapes += [Label(span[0], low - i * row, line, "start") for i, line in enumerate(said)]
    if not words:
        shapes = bare(state, letter=letter, hatched=False)
    shapes.append(Line(span[0], 0, span[1], 0, 2))
    return Picture("step", state.title or "The work as it lies", tuple(shapes), describe(state))


def _span(state: p.WorkState) -> tuple[float, float]:
    """From the left end of what holds it to the right end of what supports it."""
    lie = _Lie(state, Frame(1.0, 1.0))
    ends = [lie.x(z) for z in (0.0, state.part.overall, *span_of_bar(state))]
    ends += [lie.x(z) for z in (state.grip_from, state.grip_to) if z is not None]
    size = state.part.bar.corners
    left = min(ends) - (0.9 * size if state.holding != "hand" else 0.2 * size)
    right = max(ends) + (0.9 * size if state.support == "centre" or state.holding == "between centres" else 0.35 * size)
    return left, right


def span_of_bar(state: p.WorkState) -> tuple[float, float]:
    """Where the raw piece begins and ends, in the part's places."""
    return min(state.bar_from, 0.0), max(state.bar_to, state.part.overall)


def describe(state: p.WorkState) -> str:
    """The drawing of the step in one sentence."""
    part = state.part
    unit = "in" if part.unit == "inch" else "mm"
    held = "between centres" if state.holding == "between centres" else f"in the {state.holding}"
    if state.grip_from is not None and state.grip_to is not None:
        held += f", grip {number(abs(state.grip_to - state.grip_from), part.unit, 3)} {unit}"
    if state.stick_out is not None:
        held += f", standing out {number(state.stick_out, part.unit, 3)} {unit}"
    names = [name for name in state.making if _known(part, name)]
    made = ", ".join(f"{name} {callout(part.feature(name), part)}".strip() for name in names)
    round_ = "Turned round. " if state.earlier_end else ""
    return f"{round_}{part.title} held {held}; this step makes {made or 'nothing that is drawn'}."


def _known(part: p.Part, name: str) -> bool:
    return bool(row_of(part, name))


# the piece


def _piece(lie: _Lie) -> list[Shape]:
    """The piece as it is when the step is done: what the step makes heavy, the rest thin."""
    state, part = lie.state, lie.state.part
    there = _there(state)
    turned = {name: size for name, size in state.now if name not in there}
    heavy = {row_of(part, name) for name in state.making} - {0}
    as_it_is = _as_turned(part, there, turned)
    shown = section(as_it_is, lie.frame, lambda name: name in there or name in turned, hatched=lie.hatched)
    return [*_stubs(lie), *(_moved(shape, lie, heavy) for shape in shown)]


def _there(state: p.WorkState) -> frozenset[str]:
    """What is on the piece when the step is done; a hole that is only drilled is drawn as it will be."""
    rough = dict(state.now) if not state.finishes else {}
    return state.made | frozenset(name for name in state.making if name not in rough)


def _as_turned(part: p.Part, there: frozenset[str], turned: Mapping[str, float]) -> p.Part:
    """The part with only those things on the axis in it that exist, and with what is roughed as it is by now; the bar
    stands for the rest."""
    rough = tuple(
        p.Diameter(name=one.name, start=one.start, stop=one.stop, size=p.Size(turned[one.name]), off_axis=one.off_axis)
        if one.name in turned
        else one
        for one in part.outside
    )
    return replace(part, outside=rough, across=tuple(one for one in part.across if one.name in there))


def _moved(shape: Shape, lie: _Lie, heavy: set[int]) -> Shape:
    if isinstance(shape, Line):
        weight = (1 if shape.row in heavy else 0) if shape.weight == 1 else shape.weight
        return Line(lie.x(shape.x1), shape.y1, lie.x(shape.x2), shape.y2, weight, 0)
    return shape


def _stubs(lie: _Lie) -> list[Shape]:
    """The bar before the front face and behind the back face, where it still stands."""
    state = lie.state
    shapes: list[Shape] = []
    first, last = span_of_bar(state)
    longest = max(-first, last - state.part.overall)  # a spigot is longer than what is left to face at the other end
    for z1, z2 in ((first, 0.0), (state.part.overall, last)):
        if z2 - z1 < 1e-6:
            continue
        thin = state.spigot is not None and z2 - z1 > longest - 1e-6
        r = (state.spigot or 0.0) / 2 if thin else lie.radius
        gap = 6.0 * lie.frame.letter
        lines = hatch([Slice(z1, z2, 0.0, 0.0, r, r)], gap, lie.frame.slope) if lie.hatched else []
        shapes += [Line(lie.x(a), b, lie.x(c), d) for a, b, c, d in lines]
        corners = ((z1, r), (z2, r), (z2, -r), (z1, -r), (z1, r))
        shapes += [Line(lie.x(a), b, lie.x(c), d) for (a, b), (c, d) in pairwise(corners)]
    return shapes


def _to_come(lie: _Lie) -> list[Shape]:
    """What the part will be, dotted where it is not yet."""
    state, part = lie.state, lie.state.part
    there = _there(state)
    shapes: list[Shape] = []
    for up in (1.0, -1.0):
        pieces = outside(part, side=up)
        for one, piece in zip(part.outside, pieces, strict=True):
            if one.name not in there:
                shapes += [
                    Line(lie.x(z1), up * r1, lie.x(z2), up * r2, 2) for (z1, r1), (z2, r2) in pairwise(piece.points)
                ]
    for piece in inside(part):
        if piece.name not in there and piece.name != "bar":
            shapes += [Line(lie.x(z1), r1, lie.x(z2), r2, 2) for (z1, r1), (z2, r2) in pairwise(piece.points)]
    return shapes


# what holds it


def _held(lie: _Lie) -> list[Shape]:
    state = lie.state
    if state.holding == "between centres":
        return _between_centres(lie)
    if state.grip_from is None or state.grip_to is None:
        return []
    left, right = sorted((lie.x(state.grip_from), lie.x(state.grip_to)))
    if state.holding in ("threaded stub", "arbor"):
        return _inner_hold(lie, left, right)
    radius = (state.grip_diameter or state.part.bar.size) / 2
    if state.between:
        radius += 0.06 * lie.radius
    if state.holding in ("collet", "threaded bush"):
        return _collet(lie, left, right, radius)
    if state.holding == "V-block":
        return [_box(left, right, -radius * 1.6, -radius), *_named(lie, left, right, -radius * 1.6, "V-block")]
    if state.holding not in _JAWS:
        return []
    high = 0.7 * lie.radius
    shapes = [_box(left, right, radius, radius + high), _box(left, right, -radius - high, -radius)]
    if state.holding not in ("vice", "faceplate"):
        body = left - 0.55 * lie.radius
        shapes.append(_box(body, left, -radius - 1.15 * high, radius + 1.15 * high))
    return shapes + _named(lie, left, right, -radius - high, state.holding)


def _named(lie: _Lie, left: float, right: float, low: float, name: str) -> list[Shape]:
    """The holding's name and what lies between, under it."""
    between = lie.state.between if not lie.frame.cells else ""
    words = name + (f", {between} between" if between else "")
    return [Label((left + right) / 2, low - 1.0 * lie.frame.row, words)]


def _box(left: float, right: float, low: float, high: float) -> Polygon:
    return Polygon(((left, low), (right, low), (right, high), (left, high)))


def _collet(lie: _Lie, left: float, right: float, radius: float) -> list[Shape]:
    """A collet: a ring that thins away from its nose."""
    thin, thick = radius + 0.25 * lie.radius, radius + 0.6 * lie.radius
    shapes: list[Shape] = [
        Polygon(((left, up * radius), (right, up * radius), (right, up * thick), (left, up * thin))) for up in (1, -1)
    ]
    return shapes + _named(lie, left, right, -thick, lie.state.holding)


def _inner_hold(lie: _Lie, left: float, right: float) -> list[Shape]:
    """A stub or an arbor in the part's own hole, its shoulder or nut against the faces, and what carries
    it.
    """
    state = lie.state
    radius = (state.grip_diameter or state.part.bar.size / 2) / 2
    part_left = min(lie.x(0.0), lie.x(state.part.overall))
    shoulder = min(left, part_left)
    collar = min(radius * 1.7, max(lie.radius * 0.9, radius * 1.2))
    tail = shoulder - 0.7 * lie.radius
    shapes: list[Shape] = [_box(shoulder, right, -radius, radius), _box(tail, shoulder, -collar, collar)]
    if state.holding == "arbor":
        face = max(lie.x(0.0), lie.x(state.part.overall))
        shapes.append(_box(face, face + 0.3 * lie.radius, -radius * 1.5, radius * 1.5))
    carried = f" in the {state.driven_by}" if state.driven_by else ""
    return shapes + _named(lie, tail, shoulder, -max(collar, lie.radius), state.holding + carried)


def _between_centres(lie: _Lie) -> list[Shape]:
    first, last = sorted(lie.x(z) for z in span_of_bar(lie.state))
    size = 0.6 * lie.radius
    shapes: list[Shape] = [_cone(first, -1.0, size), _cone(last, 1.0, size)]
    if lie.state.grip_from is not None and lie.state.grip_to is not None:
        left, right = sorted((lie.x(lie.state.grip_from), lie.x(lie.state.grip_to)))
        r = (lie.state.grip_diameter or lie.state.part.bar.size) / 2
        shapes += [_box(left, right, r, r + 0.5 * lie.radius), _box(left, right, -r - 0.9 * lie.radius, -r)]
        shapes += _named(lie, left, right, -r - 0.9 * lie.radius, "carrier")
    return shapes


def _cone(tip: float, way: float, size: float) -> Polygon:
    """A 60 degree centre with its point at an end face."""
    base = tip + way * size * 1.73
    return Polygon(((tip, 0.0), (base, size), (base + way * size, size), (base + way * size, -size), (base, -size)))


def _supported(lie: _Lie) -> list[Shape]:
    state = lie.state
    end = max(lie.x(z) for z in span_of_bar(state))
    if state.support == "centre" and state.holding != "between centres":
        size = 0.45 * lie.radius
        return [_cone(end, 1.0, size), Label(end + 2.2 * size, -size - lie.frame.row, "centre")]
    if state.support in ("fixed steady", "travelling steady"):
        x = lie.x(state.steady_at) if state.steady_at is not None else end - 0.15 * abs(end - _span(state)[0])
        r, size = _radius_at(lie, state.steady_at), 0.5 * lie.radius
        shapes: list[Shape] = [
            Polygon(((x, up * r), (x - size / 2, up * (r + size)), (x + size / 2, up * (r + size)))) for up in (1, -1)
        ]
        return [*shapes, Label(x, r + size + 0.6 * lie.frame.row, state.support)]
    return []


def _radius_at(lie: _Lie, z: float | None) -> float:
    part, there = lie.state.part, _there(lie.state)
    on = part.outside_at(z) if z is not None else None
    if on is None:
        return lie.radius
    return on.largest / 2 if on.name in there else dict(lie.state.now).get(on.name, 2 * lie.radius) / 2


# the tool, and the sizes of this step


def _tool(lie: _Lie) -> list[Shape]:
    state, frame = lie.state, lie.frame
    if state.tool_side == "none" or state.tool_at is None:
        return []
    x, size = lie.x(state.tool_at), max(0.5 * lie.radius, 2 * frame.letter)
    right = max(lie.x(z) for z in span_of_bar(state))
    making = [state.part.feature(name) for name in state.making if _known(state.part, name)]
    words = state.tool + {"to the headstock": " ←", "to the tailstock": " →", "inwards": " ↑", "none": ""}[state.feed]
    if state.tool_side == "inside":
        bore = max((one.largest for one in making if isinstance(one, p.Inside)), default=lie.radius) / 2
        tip, y = right + 0.15 * size, min(bore * 0.5, lie.radius)
        return [
            Polygon(((tip, y * 0.6), (tip + size * 1.5, y * 0.6), (tip + size * 1.5, -y * 0.6), (tip, -y * 0.6))),
            Label(tip, y + 0.8 * frame.row, words, "start"),
        ]
    if state.tool_side == "across":
        top = lie.radius
        return [
            Polygon(((x, top + 0.1 * size), (x - size / 3, top + size * 0.8), (x - size / 3, top + size * 1.8),
                     (x + size / 3, top + size * 1.8), (x + size / 3, top + size * 0.8))),
            Label(x + 0.6 * size, top + 1.4 * size, words, "start"),
        ]  # fmt: skip
    if state.tool_side == "face":
        y = -lie.radius * 0.5
        face = ((right, y), (right + size, y - size * 0.3), (right + size, y - size), (right + size * 0.3, y - size))
        return [Polygon(face), Label(right + 1.2 * size, y - size, words, "start")]
    y = -(_radius_at(lie, state.tool_at) + 0.05 * size)
    point = ((x, y), (x + size * 0.7, y - size * 0.4), (x + size * 0.7, y - size * 1.2), (x, y - size * 1.2))
    return [Polygon(point), Label(x + 0.9 * size, y - size, words, "start")]


def _sizes(lie: _Lie) -> list[Shape]:
    """The sizes of what this step makes, from the face that the dial is zeroed on; the grip, the overhang
    and the room.
    """
    state, frame = lie.state, lie.frame
    below = lie.bottom - 2.2 * frame.row
    shapes: list[Shape] = []
    features = [state.part.feature(name) for name in state.making if _known(state.part, name)]
    for i, one in enumerate(features[:4]):
        shapes += _called(lie, one, i)
    if state.zero is not None:
        x = lie.x(state.zero)
        shapes += [Line(x, 0, x, below - 0.5 * frame.row), Label(x, below - 1.4 * frame.row, "zero here ↑")]
        for i, far in enumerate(_far_ends(lie, features)[:2]):
            y = below + (0.3 - i) * frame.row
            shapes += dimension(min(x, lie.x(far)), max(x, lie.x(far)), y, lie.n(abs(far - state.zero)), frame, 0)
            shapes.append(Line(lie.x(far), -_radius_at(lie, far), lie.x(far), y))
    return shapes + _room(lie, features, below - 2.6 * frame.row)


def _far_ends(lie: _Lie, features: list[p.Feature]) -> list[float]:
    """The ends of this step's surfaces that the saddle is run to: those away from the zero face."""
    zero = lie.state.zero or 0.0
    if lie.state.reach is not None:
        return [zero + lie.state.reach * (-1 if lie.state.turned_round else 1)]
    ends = [max((one.start, one.stop), key=lambda z: abs(z - zero)) for one in features if one.long > 1e-6]
    return sorted({round(z, 6) for z in ends if abs(z - zero) > 1e-6}, key=lambda z: -abs(z - zero))


def _called(lie: _Lie, one: p.Feature, index: int) -> list[Shape]:
    part, frame = lie.state.part, lie.frame
    text = callout(one, part)
    if not lie.state.finishes:
        text = f"Ø{lie.n(lie.state.leaves)}" if lie.state.leaves is not None else ""
    if not text:
        return []
    x = lie.x((one.start + one.stop) / 2)
    r = _surface(lie, one)
    y = lie.top + (1.2 + index) * frame.row
    return [Line(x, r, x, y - 0.2 * frame.row), Label(x, y, text)]


def _surface(lie: _Lie, one: p.Feature) -> float:
    """The radius that a feature's words point at."""
    if isinstance(one, p.Outside | p.Inside):
        return one.largest / 2
    if isinstance(one, p.HoleCircle):
        return one.diameter.nominal / 2
    carrier = next((o for o in lie.state.part.outside if o.name == one.stands_on), None)
    return carrier.largest / 2 if carrier is not None else _radius_at(lie, (one.start + one.stop) / 2)


def _room(lie: _Lie, features: list[p.Feature], y: float) -> list[Shape]:
    """Grip and overhang as dimensions, and the room between this cut and the jaws in words."""
    state, frame = lie.state, lie.frame
    if frame.cells:
        return []  # there it stands in one line under the drawing
    shapes: list[Shape] = []
    right = max(lie.x(z) for z in span_of_bar(state))
    if state.grip_from is not None and state.grip_to is not None and state.holding != "between centres":
        left, nose = sorted((lie.x(state.grip_from), lie.x(state.grip_to)))
        words = f"grip {lie.n(nose - left)}"
        shapes += dimension(left, nose, y, words, frame, 0)
        if state.stick_out is not None and state.holding not in ("threaded stub", "arbor"):
            lower = y if nose - left > (len(words) + 2) * frame.letter else y - 1.9 * frame.row
            shapes += dimension(nose, right, lower, f"out {lie.n(state.stick_out)}", frame, 0)
    if state.room is not None and features:
        near = min(min(lie.x(one.start), lie.x(one.stop)) for one in features)
        at = lie.top
        shapes += [
            Line(near, lie.radius, near, at),
            Label(near, at + 0.2 * frame.row, f"room {lie.n(state.room)}", "end"),
        ]
    return shapes


def _legend(state: p.WorkState, wide: int) -> list[str]:
    """Turned round, what is measured, where the zero of the head is, in lines under the drawing; on the screen (`wide`
    columns) also grip, overhang and room, whose dimensions would crowd the cells."""
    lines = []
    if wide and state.grip_from is not None and state.grip_to is not None:
        lines.append(_held_in_words(state))
    if state.earlier_end:
        lines.append(f"Turned round: {state.earlier_end} is at the headstock now.")
    elif state.turned_round and state.machine == "lathe":  # made first from its back end: nobody turned it
        lines.append("The back end is at the tailstock.")
    lines += [f"Measure: {what}" for what in state.measure]
    if state.head_zero and not wide:
        lines.append(f"Zero of the head: {spoken_of(state.part, state.head_zero)}")
    return [row for line in lines for row in wrap(line, wide)] if wide else lines


def _held_in_words(state: p.WorkState) -> str:
    """Grip, overhang and room in one line."""

    def n(length: float) -> str:
        return number(length, state.part.unit, 3)

    said = []
    if state.holding != "between centres":
        said.append(f"grip {n(abs((state.grip_to or 0.0) - (state.grip_from or 0.0)))}")
    if state.stick_out is not None and state.holding not in ("threaded stub", "arbor", "between centres"):
        said.append(f"out {n(state.stick_out)}")
    if state.room is not None:
        said.append(f"room {n(state.room)}")
    if state.between:
        said.append(f"between: {state.between}")
    return " · ".join(said)


def end_view(state: p.WorkState) -> Picture | None:
    """The end view of head work, seen from the tailstock: zero at the top, the sense of turning, what is
    cut; None where nothing is.
    """
    part = state.part
    made = [part.feature(name) for name in state.making if _known(part, name)]
    off_axis = [one for one in made if isinstance(one, p.Scale | p.Flats | p.Slot | p.Keyway | p.Across)]
    if not off_axis:
        return None
    radius = max(_end_radius(part, one) for one in off_axis)
    shapes: list[Shape] = [Circle(0, 0, radius)]
    bores = [one.smallest for one in part.inside if one.name in state.made]
    if bores:
        shapes.append(Circle(0, 0, min(bores) / 2))
    for one in off_axis:
        shapes += _end_shapes(one, radius)
    gap = 0.25 * radius
    shapes += [
        Line(-1.25 * radius, 0, 1.25 * radius, 0, 2), Line(0, -1.25 * radius, 0, 1.25 * radius, 2),
        Label(0, radius + gap, "0" + (f": {spoken_of(part, state.head_zero)}" if state.head_zero else "")),
        Label(radius + gap, radius * 0.8, "turn →", "start"),
    ]  # fmt: skip
    said = "; ".join(callout(one, part) for one in off_axis)
    limits = [limits_text(one.across_flats, part.unit) for one in off_axis if isinstance(one, p.Flats)]
    across = f" Across the flats {', '.join(limits)}." if limits else ""
    alt = f"End view from the tailstock: {said}; zero at the top, the head turns clockwise.{across}"
    return Picture("end", "End view from the tailstock", tuple(shapes), alt)


def _end_radius(part: p.Part, one: p.Feature) -> float:
    on = next((o for o in part.outside if o.name == one.stands_on), None)
    if on is None and isinstance(one, p.CrossHole):
        on = part.outside_at(one.z)
    if on is None and isinstance(one, p.Slot):
        on = part.outside[0] if one.stands_on == "front" else part.outside[-1]
    return on.largest / 2 if on is not None else part.largest / 2


def _end_shapes(one: p.Feature, radius: float) -> list[Shape]:
    turned = one.turned or 0.0
    if isinstance(one, p.Scale):
        count = one.lines if one.lines <= _MOST_LINES else 36
        return [_ray(360 * i / count + turned, radius * (0.84 if i % 5 == 0 else 0.91), radius) for i in range(count)]
    if isinstance(one, p.Flats):
        half = one.across_flats.nominal / 2
        return [_chord(360 * i / one.sides + turned, half, radius) for i in range(one.sides)]
    if isinstance(one, p.HoleCircle):
        middle = one.diameter.nominal / 2
        places = [_at(360 * i / one.holes + turned, middle) for i in range(one.holes)]
        return [Circle(x, y, one.bore / 2) for x, y in places]
    width, depth = 0.0, radius
    if isinstance(one, p.Slot | p.Keyway):
        width, depth = one.width.nominal / 2, one.depth.nominal
        if one.stands_on in ("front", "back"):
            depth = 2 * radius
    elif isinstance(one, p.CrossHole):
        width, depth = one.bore / 2, radius if one.walls == "one" else 2 * radius
    return _groove(turned, width, radius, radius - depth)


def _at(angle: float, radius: float) -> tuple[float, float]:
    """A place by its angle from the top, clockwise."""
    return radius * sin(radians(angle)), radius * cos(radians(angle))


def _ray(angle: float, inner: float, outer: float) -> Line:
    (x1, y1), (x2, y2) = _at(angle, inner), _at(angle, outer)
    return Line(x1, y1, x2, y2, 1 if abs(angle) < 1e-9 else 0)


def _chord(angle: float, half: float, radius: float) -> Line:
    """A flat as a chord, its middle at an angle from the top."""
    reach = max(radius**2 - half**2, 0.0) ** 0.5
    x, y = _at(angle, half)
    across = _at(angle + 90, reach)
    return Line(x - across[0], y - across[1], x + across[0], y + across[1], 1)


def _groove(angle: float, half: float, outer: float, inner: float) -> list[Shape]:
    """Two walls and a floor cut inwards at an angle from the top."""
    side = _at(angle + 90, half)
    far, near = _at(angle, outer), _at(angle, inner)
    walls: list[Shape] = [
        Line(far[0] + s * side[0], far[1] + s * side[1], near[0] + s * side[0], near[1] + s * side[1], 1)
        for s in (1, -1)
    ]
    return [*walls, Line(near[0] - side[0], near[1] - side[1], near[0] + side[0], near[1] + side[1], 1)]
