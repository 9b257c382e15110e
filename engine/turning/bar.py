"""Several parts from one bar: where every cut comes, measured from the faced end towards the chuck."""

from __future__ import annotations

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.sums import Sum
from engine.base.words import Text
from engine.drilling.holes import point_length

MOST_PARTS = 200


@dataclass(frozen=True, slots=True)
class Cut:
    """One part and the parting cut behind it. `start` and `end` bound the part, the blade runs on to `kerf_end`."""

    part: int
    start: float
    end: float
    kerf_end: float


@dataclass(frozen=True, slots=True)
class BarPlan:
    """The whole bar, in mm. `stick_out` is what stands out of the jaws before facing, `stub` what is left over."""

    cuts: tuple[Cut, ...]
    stick_out: float
    bar_length: float
    stub: float


@dataclass(frozen=True, slots=True)
class Hole:
    """The hole through all parts, in mm: drill, full-diameter depth, and how deep full thread must go (None: plain)."""

    drill: float
    depth: Sum
    thread_depth: float | None
    working: Text
    source: str

    @property
    def point(self) -> float:
        """Length of the drill's point. [mm]"""
        return point_length(diameter=self.drill)


def plan_bar(
    *, parts: int, length: float, back: float, blade: float, facing: float, end_waste: float, grip: float
) -> BarPlan:
    """Lay parts out along a bar held once in the chuck.

    parts: How many, 1 to 200.
    length: Length of a part, above 0. [mm]
    back: Left on each part for facing its back, 0 or more. [mm]
    blade: Width of the parting blade, above 0. [mm]
    facing, end_waste, grip: Off the end before each part; from the last cut to the jaws; held in them. 0 or more. [mm]
    Returns: The cuts; parts, kerfs, facings, waste and grip add up to the bar.
    Raises: OutOfRange if a number lies outside its range.
    Source: Arithmetic.

    Three parts of 12 mm with a 2 mm blade and 0.5 mm facing each: 43.5 mm, and 5 + 20 mm behind them.

    >>> plan = plan_bar(parts=3, length=12, back=0, blade=2, facing=0.5, end_waste=5, grip=20)
    >>> plan.bar_length, plan.stick_out, plan.stub, [cut.end for cut in plan.cuts]
    (68.5, 48.5, 25, [12.0, 26.5, 41.0])
    """
    check_range("parts", parts, low=1, high=MOST_PARTS)
    check_range("length", length, low=1e-6, unit="mm")
    check_range("blade", blade, low=1e-6, unit="mm")
    for name, value in (("back", back), ("facing", facing), ("end_waste", end_waste), ("grip", grip)):
        check_range(name, value, low=0, unit="mm")
    pitch = length + back + blade + facing
    cuts = []
    for part in range(1, parts + 1):
        start = (part - 1) * pitch
        end = start + length + back
        cuts.append(Cut(part, start, end, end + blade))
    stick_out = parts * pitch + end_waste
    return BarPlan(tuple(cuts), stick_out, stick_out + grip, end_waste + grip)
