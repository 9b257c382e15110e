"""The classic plates and gears, the check tables, and a dividing head that turns its own shafts."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

# Three-plate set: machinists' schools and the 1914 treatise. Large plate: US Army OD1644, lesson 1; NAVEDTRA 14204 has
# a 100-hole circle in place of the 25. Gears: the 1914 treatise's set.
PLATES = ((15, 16, 17, 18, 19, 20), (21, 23, 27, 29, 31, 33), (37, 39, 41, 43, 47, 49))
LARGE = ((24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43), (46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66))
LARGE_100 = ((24, 28, 30, 34, 37, 38, 39, 41, 42, 43, 100), LARGE[1])
GEARS = (24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)

DATA = Path(__file__).parents[2] / "data" / "indexing"


def table(name: str) -> list[dict[str, str]]:
    """Every row of a check table."""
    lines = [line for line in (DATA / name).read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def terms(expression: str) -> list[Fraction]:
    """The parts of a move as the books write it: `10/15+2/17`, `1 turn + 7/39 + 29/41`."""
    found = re.findall(r"([+-]?)\s*(\d+)(?:/(\d+)| turn)", expression)
    return [Fraction(int(top), int(bottom or 1)) * (-1 if sign == "-" else 1) for sign, top, bottom in found]


@dataclass
class Head:
    """A dividing head as shafts and gears. Turns are exact; nothing of the engine is used.

    The worm turns the spindle 1 / ratio. The crank's pin stands in the plate, so the crank is where the plate is plus
    where the pin stands in it. A train from the spindle to the plate: every mesh turns the next shaft the other way;
    an even number of meshes turns the plate with the crank on the classic head, against it on the other kind.
    """

    ratio: int
    drivers: tuple[int, ...] = ()
    driven: tuple[int, ...] = ()
    idlers: int = 0
    other_kind: bool = False
    spindle: Fraction = Fraction(0)
    plate: Fraction = Fraction(0)
    pin: Fraction = Fraction(0)

    def plate_per_spindle(self) -> Fraction:
        if not self.drivers:
            return Fraction(0)
        size = Fraction(1)
        for driver, follower in zip(self.drivers, self.driven, strict=True):
            size *= Fraction(driver, follower)
        meshes = len(self.drivers) + self.idlers
        return size if (meshes % 2 == 0) != self.other_kind else -size

    def turn(self, pin: Fraction) -> None:
        """Turn the crank against the plate; the plate creeps with the spindle and carries the crank along.

        Each round of the loop is one effect after another: crank to spindle, spindle to plate, plate to crank. The
        rounds shrink by plate_per_spindle / ratio and are summed to the limit, a / (1 - q).
        """
        shrink = self.plate_per_spindle() / self.ratio
        crank = pin / (1 - shrink)
        self.pin += pin
        self.spindle += crank / self.ratio
        self.plate += self.plate_per_spindle() * crank / self.ratio

    def turn_plate_and_crank(self, turns: Fraction) -> None:
        """Turn plate and crank together by the rear pin's circle."""
        self.plate += turns
        self.spindle += turns / self.ratio

    def crank_slowly(self, pin: float, rounds: int = 60) -> float:
        """The spindle's turn for one move, each effect followed round by round with no algebra."""
        spindle, crank = 0.0, pin
        for _ in range(rounds):
            spindle += crank / self.ratio
            crank = float(self.plate_per_spindle()) * crank / self.ratio  # the plate carries the crank by this
        return spindle
