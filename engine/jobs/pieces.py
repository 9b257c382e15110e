"""Several pieces in one job: the steps of each, in rounds or step by step, and how many are finished."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from engine.base.refusals import BadInput
from engine.jobs.wording import From, Size

if TYPE_CHECKING:
    from engine.jobs.schema import Recipe, Step

_NAMED = re.compile(r"\{([a-z][a-z0-9_-]{0,39})\.")


def expanded(recipe: Recipe) -> Recipe:
    """The recipe with the steps of every piece written out, where it says in which order they are made.

    `rounds`: each piece goes through all of its steps before the next one. `steps`: a step is done for every piece before
    the next step. What is done once for the bar or the lot stands between. The steps of the second piece have `-2` behind
    their names, and so have the sizes measured in them, so that each piece has its own readings.

    >>> from pathlib import Path
    >>> from engine.jobs.recipe import read
    >>> text = 'schema_version = 3\\ntitle = "Pin"\\npart = "Pin"\\nstock = "Steel"\\nunit = "mm"\\nmake = 2\\n'
    >>> text += 'batch = "rounds"\\n[[steps]]\\nid = "turn"\\ntitle = "Turn"\\n[[steps]]\\nid = "off"\\ntitle = "Part off"'
    >>> [(step.id, step.piece) for step in read(text, Path("pin.toml")).steps]
    [('turn', 1), ('off', 1), ('turn-2', 2), ('off-2', 2)]
    >>> [step.id for step in read(text.replace("rounds", "steps"), Path("pin.toml")).steps]
    ['turn', 'turn-2', 'off', 'off-2']
    """
    from engine.jobs.schema import MOST_STEPS

    if recipe.batch is None or recipe.make == 1:
        return recipe
    own = {step.id for step in recipe.steps if step.each == "part"}
    if len(recipe.steps) + len(own) * (recipe.make - 1) > MOST_STEPS:
        many = f"make: the steps of {recipe.make} pieces are more than the {MOST_STEPS} of a recipe; "
        raise BadInput("make", recipe.make, "fewer pieces", many + "fewer pieces at a time would do.")
    measured = {s.measure.size for s in recipe.steps if s.each == "part" and s.measure and s.measure.size}
    sizes = dict(recipe.sizes)
    for piece in range(2, recipe.make + 1):
        sizes |= {_name(name, piece): recipe.sizes[name] for name in measured if name in recipe.sizes}
    steps = tuple(_in_order(recipe, own, measured))
    return recipe.model_copy(update={"steps": steps, "sizes": sizes})


def _in_order(recipe: Recipe, own: set[str], measured: set[str]) -> Iterator[Step]:
    for group in _groups(recipe.steps, together=recipe.batch == "rounds"):
        if group[0].each != "part":
            yield from group
            continue
        for piece in range(1, recipe.make + 1):
            yield from (_of_piece(step, piece, own, measured) for step in group)


def _groups(steps: Iterable[Step], *, together: bool) -> list[list[Step]]:
    """Steps that a piece goes through in one go: all that follow one another, or each by itself."""
    groups: list[list[Step]] = []
    for step in steps:
        joins = together and groups and groups[-1][0].each == "part" and step.each == "part"
        if joins:
            groups[-1].append(step)
        else:
            groups.append([step])
    return groups


def _name(name: str, piece: int) -> str:
    return f"{name[:36]}-{piece}" if piece > 1 else name


def _of_piece(step: Step, piece: int, own: set[str], measured: set[str]) -> Step:
    """A step as it is done for one piece: what it takes from its own steps and sizes is that piece's."""
    if piece == 1:
        return step.model_copy(update={"piece": 1})

    def of(value: Any) -> Any:
        if isinstance(value, From) and value.step in own:
            return From(_name(value.step, piece), value.figure)
        if isinstance(value, Size) and value.name in measured:
            return Size(_name(value.name, piece))
        return value

    def words(line: str) -> str:
        return _NAMED.sub(lambda m: f"{{{_name(m[1], piece)}." if m[1] in own else m[0], line)

    changed: dict[str, Any] = {"id": _name(step.id, piece), "piece": piece, "do": tuple(map(words, step.do))}
    changed["inputs"] = {name: of(value) for name, value in step.inputs.items()}
    if step.measure:
        limits = {key: of(getattr(step.measure, key)) for key in ("low", "high", "within")}
        other = step.measure.from_step
        limits["from_step"] = _name(other, piece) if other in own else other
        size = step.measure.size
        limits["size"] = _name(size, piece) if size in measured else size
        changed["measure"] = step.measure.model_copy(update=limits)
    return step.model_copy(update=changed)


def finished_pieces(recipe: Recipe, step: int) -> int:
    """How many pieces are finished when a step, from 1, is in hand; none where the steps are not told by pieces."""
    last = {one.piece: number for number, one in enumerate(recipe.steps, 1) if one.piece}
    return sum(number < step for number in last.values())


def piece_words(recipe: Recipe, step: int) -> str:
    """Which piece is in hand at a step, from 1, and how many are finished.

    >>> from types import SimpleNamespace as Thing
    >>> steps = [Thing(piece=1), Thing(piece=2)]
    >>> piece_words(Thing(steps=steps, make=2), 2)
    'piece 2 of 2, 1 finished'
    """
    if step > len(recipe.steps) or not any(one.piece for one in recipe.steps):
        return ""
    piece, done = recipe.steps[step - 1].piece, finished_pieces(recipe, step)
    finished = f"{done} finished"
    return f"piece {piece} of {recipe.make}, {finished}" if piece else f"{finished} of {recipe.make}"
