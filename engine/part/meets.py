"""What a cut meets: the diameters that earlier steps of the piece have left, and how far the saddle goes from the face.

A dial is zeroed on the face at the tailstock, so every length of a turning step is counted from there; and a cut begins
at what stands in its way, which is the bar only where nothing was turned before.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.base.quantity import INCH_MM
from engine.base.records import replace
from engine.part.part import AsBought, Dome, End, Knurl, Outside
from engine.part.tasks import Bench
from engine.part.tasks_outside import LEAST_CUT, far_end

if TYPE_CHECKING:
    from engine.part.steps import Step

_TURNED = "turn-to-size"
_FACED = ("face", "face2")


class Piece:
    """One piece while its steps are gone through."""

    def __init__(self, bench: Bench) -> None:
        self.bench, self.part = bench, bench.part
        bar = self.part.bar.corners
        self.now = {one.name: one.largest if isinstance(one, AsBought) else bar for one in self.part.outside}

    def met(self, step: Step, reached: End) -> Step:
        """The step with what it meets in its inputs; and what it leaves is kept."""
        order = self.part.outside if reached == "front" else self.part.outside[::-1]
        if step.kind in _FACED:
            return self._faced(step, order)
        place = next((i for i, one in enumerate(order) if one.name == step.about), None)
        if place is None:
            return step
        given = dict(step.inputs)
        if step.operation == _TURNED:
            step = self._turned(step, order, place, far_end(self.part, order[place], reached))
        elif step.kind in ("blank", "taper", "dome", "finish", "groove"):
            one = order[place]
            blank = self.bench.number("knurl-blank", given, "blank_diameter") if isinstance(one, Knurl) else None
            self.now[one.name] = blank or (one.base if isinstance(one, Dome) else one.largest)
        return step

    def left(self) -> tuple[tuple[str, float], ...]:
        """The diameters that are smaller than the bar's by now, by the features that will stand there."""
        return tuple((name, size) for name, size in self.now.items() if size < self.part.bar.corners - 1e-6)

    def _faced(self, step: Step, order: tuple[Outside, ...]) -> Step:
        given = dict(step.inputs)
        if "diameter" not in given:
            return step
        return replace(step, inputs=tuple((given | {"diameter": self.bench.said(self.now[order[0].name])}).items()))

    def _turned(self, step: Step, order: tuple[Outside, ...], place: int, long: float) -> Step:
        given, one, ahead = dict(step.inputs), order[place], order[:place]
        target = mm_of(given["to"]) if "to" in given else (mm_of(given["low"]) + mm_of(given["high"])) / 2
        met = self.now[one.name]
        if not any(other.largest > target + 1e-6 for other in ahead):
            met = max(met, *(self.now[other.name] for other in ahead)) if ahead else met
        for other in (*ahead, one):
            if other is one or other.largest <= target + 1e-6:
                self.now[other.name] = min(self.now[other.name], target)
        given |= {"from": self.bench.said(met), "length": self.bench.said(long)}
        return replace(step, inputs=tuple(given.items()))


def mm_of(text: str) -> float:
    """A length of a planned input. [mm]"""
    return float(text.removesuffix(" in")) * INCH_MM if text.endswith(" in") else float(text)


def nothing_left(step: Step) -> bool:
    """Whether a roughing cut finds its diameter there already: another one passed over it."""
    given = dict(step.inputs)
    if step.kind != "rough" or step.operation != _TURNED or "to" not in given:
        return False
    return mm_of(given["from"]) - mm_of(given["to"]) < LEAST_CUT
