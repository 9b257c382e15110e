"""Change wheels in mesh, to the scale of their module: the train as it is set up, from the spindle to the leadscrew."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, pi, radians, sin

from engine.base.answer import Circle, Label, Line, Picture, Pointer, Shape
from engine.base.words import general, say
from engine.threads.gears import Train

_FALL = (-28.0, 22.0)  # degrees from level: how the line of studs runs, turn and turn about
_USUAL_IDLER = 30  # teeth, where no wheel is left over

Wheel = tuple[float, float, int]  # place of its stud, teeth


def idler_of(train: Train, owned: Iterable[int], module: float, boss: float) -> int:
    """Teeth of a wheel that is left over for the stud between two: the largest that is no larger than either, or any."""
    left = list(owned)
    for teeth in (*train.drivers, *train.driven):
        if teeth in left:
            left.remove(teeth)
    fitting = sorted(teeth for teeth in left if teeth * module > boss)
    most = max(train.drivers[0], train.driven[0])
    return max((t for t in fitting if t <= most), default=min(fitting, default=_USUAL_IDLER))


def train_picture(train: Train, *, module: float, boss: float, idler: int) -> Picture:
    """Wheels as circles of their pitch, those on one stud about one centre. [mm]"""
    studs = _studs(train, module, idler)
    between = ["idler"] if train.wheels == 2 else [f"stud {k}" for k in range(1, len(studs) - 1)]
    names = ["spindle", *between, "leadscrew"]
    shapes: list[Shape] = []
    for (x, y, wheels), name in zip(studs, names, strict=True):
        for teeth in wheels:
            shapes += _wheel((x, y, teeth), module)
        shapes.append(Circle(x, y, boss / 2))
        largest = max(wheels) * module / 2
        shapes.append(Pointer(x, y - largest if y <= 0 else y + largest, name, "below" if y <= 0 else "above"))
        for k, teeth in enumerate(wheels):
            shapes.append(_number(x, y, teeth, teeth * module / 2, k, boss / 2))
    path = " ".join(f"{a} into {b}," for a, b in zip(train.drivers, train.driven, strict=True)).rstrip(",")
    path += f", over an idler, here of {idler} teeth; any will do that reaches" if train.wheels == 2 else ""
    text = "The wheels from the spindle to the leadscrew: {path}. Pitch circles to the scale of module {module}."
    alt = say(text, path=path, module=general(module))
    return Picture("train", "The train, spindle to leadscrew", tuple(shapes), alt)


def _studs(train: Train, module: float, idler: int) -> list[tuple[float, float, tuple[int, ...]]]:
    """Every stud with the wheels on it, each meshing with the next: pitch circles touch."""
    on: list[tuple[int, ...]]
    if train.wheels == 2:
        on = [(train.drivers[0],), (idler,), (train.driven[0],)]
        meshes = [(train.drivers[0], idler), (idler, train.driven[0])]
    else:
        on = [(train.drivers[0],), *zip(train.driven, train.drivers[1:], strict=False), (train.driven[-1],)]
        meshes = list(zip(train.drivers, train.driven, strict=True))
    found: list[tuple[float, float, tuple[int, ...]]] = [(0.0, 0.0, on[0])]
    for k, (a, b) in enumerate(meshes):
        x, y, _ = found[-1]
        apart, fall = (a + b) * module / 2, radians(_FALL[k % 2])
        found.append((x + apart * cos(fall), y + apart * sin(fall), on[k + 1]))
    return found


def _wheel(wheel: Wheel, module: float) -> list[Shape]:
    """A pitch circle with its teeth as short lines, a module out and a module and a quarter in."""
    x, y, teeth = wheel
    radius = teeth * module / 2
    found: list[Shape] = [Circle(x, y, radius)]
    for k in range(teeth):
        turn = 2 * pi * k / teeth
        inner, outer = radius - 1.25 * module, radius + module
        across, up = cos(turn), sin(turn)
        found.append(Line(x + inner * across, y + inner * up, x + outer * across, y + outer * up, 3))
    return found


def _number(x: float, y: float, teeth: int, radius: float, place: int, boss: float) -> Label:
    """The teeth, written inside the wheel's rim: above the stud, of a second wheel below it; of a wheel that is hardly
    larger than its boss on the boss."""
    away = 0.62 * radius if boss < 0.5 * radius else 0.45 * boss if place else 0.0
    return Label(x, y + (away if place == 0 else -away), str(teeth))
