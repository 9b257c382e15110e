"""One way of indexing: what the crank does for one division, and the exact proof that it lands there.

A dividing head is a worm drive: `ratio` turns of the crank turn the spindle once. The crank's pin stands in a hole
of a plate; a move is counted as whole turns and holes (spaces) of a circle. Every number here is exact.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from engine.base.records import dataclass
from engine.base.setting import Setting

Method = Literal["simple", "direct", "compound", "differential", "nearest"]
METHODS: tuple[Method, ...] = ("simple", "direct", "compound", "differential", "nearest")


@dataclass(frozen=True, slots=True)
class Train:
    """The gears of differential indexing, from the spindle to the shaft that turns the plate.

    `first` and `second` are the gears on the stud of a compound train (0 in a simple one): the spindle's gear drives
    `second`, and `first` drives the worm's gear. `value` is turns of the plate for one of the spindle, above 0
    when the plate turns with the crank, below 0 when it turns against it.
    """

    spindle: int
    worm: int
    first: int
    second: int
    idlers: int
    value: Fraction

    @property
    def drivers(self) -> tuple[int, ...]:
        """Teeth of the driving gears, the spindle's first."""
        return (self.spindle, self.first) if self.first else (self.spindle,)

    @property
    def text(self) -> str:
        """Drivers, driven and idlers: `40 x 24 / 48 x 64, 1 idler`."""
        drivers, driven = (" x ".join(map(str, side)) for side in (self.drivers, self.driven))
        return f"{drivers} / {driven}, {counted(self.idlers, 'idler')}"

    @property
    def driven(self) -> tuple[int, ...]:
        """Teeth of the driven gears, in the order of `drivers`."""
        return (self.second, self.worm) if self.second else (self.worm,)


@dataclass(frozen=True, slots=True)
class Way:
    """What the crank does for one division.

    `wanted` is the exact move, in crank turns. `circle` 0: no holes are counted. A compound way moves `turns` and
    `holes` with the plate held, then plate and crank together by `second_holes` of `second_circle` (below 0:
    backwards). A direct way counts `holes` of a plate on the spindle itself. The holes of a nearest way are those
    of its first move; its later ones are each rounded by themselves.
    """

    method: Method
    ratio: int
    wanted: Fraction
    turns: int
    circle: int = 0
    holes: int = 0
    second_circle: int = 0
    second_holes: int = 0
    train: Train | None = None

    @property
    def on_plate(self) -> Fraction:
        """The first move against the plate, in turns of what carries the pin."""
        return self.turns + (Fraction(self.holes, self.circle) if self.circle else Fraction(0))

    @property
    def made(self) -> Fraction:
        """What the move comes to, in turns of the crank against the head."""
        if self.method == "direct":
            return self.on_plate * self.ratio
        if self.train is not None:
            # worm turns = pin against plate + plate; the plate is geared to the spindle, which is worm / ratio
            return self.on_plate * self.ratio / (self.ratio - self.train.value)
        second = Fraction(self.second_holes, self.second_circle) if self.second_circle else Fraction(0)
        return self.on_plate + second

    @property
    def exact(self) -> bool:
        """Whether the move is the one wanted, to the last digit."""
        return self.made == self.wanted

    @property
    def sector_holes(self) -> int:
        """Holes between the sector arms, counted with the one the pin stands in."""
        return self.holes + 1


def proved(way: Way) -> Way:
    """Return a way after checking it in exact arithmetic; nothing unproved leaves the engine as exact.

    >>> proved(Way("simple", 40, Fraction(40, 7), 5, 49, 35)).exact
    True
    """
    if way.method != "nearest" and way.made != way.wanted:
        raise ArithmeticError(f"{way} comes to {way.made} turns, not {way.wanted}")
    return way


def counted(number: int, noun: str) -> str:
    """Write a count with its noun.

    >>> counted(1, "turn"), counted(2, "tooth")
    ('1 turn', '2 teeth')
    """
    plural = "teeth" if noun == "tooth" else f"{noun}s"
    return f"{number} {noun if abs(number) == 1 else plural}"


def crank_text(turns: int, holes: int, circle: int, noun: str = "hole") -> str:
    """Say a crank setting as people say it.

    >>> crank_text(2, 7, 20), crank_text(5, 0, 0), crank_text(0, 1, 24)
    ('2 turns + 7 holes of 20', '5 turns', '1 hole of 24')
    """
    rest = f"{counted(holes, noun)} of {circle}" if holes else ""
    whole = counted(turns, "turn") if turns or not holes else ""
    return " + ".join(part for part in (whole, rest) if part)


def crank(way: Way, angle: float) -> Setting:
    """The move of a way on one circle as it is set; `angle` is what it turns the work by. [deg]

    >>> crank(Way("simple", 40, Fraction(8, 3), 2, 18, 12), 24.0).holes
    12
    """
    wheel = "Direct plate" if way.method == "direct" else "Crank"
    circle = way.circle if way.holes else 0
    return Setting(wheel, way.turns, holes=way.holes, circle=circle, distance=angle, dimension="angle")


def move_text(way: Way, noun: str = "hole") -> str:
    """Say the move of a way in full, both moves of a compound one.

    >>> move_text(Way("compound", 40, Fraction(40, 51), 0, 15, 10, 17, 2))
    '10 holes of 15, then plate and crank together on by 2 holes of 17'
    """
    first = crank_text(way.turns, way.holes, way.circle, noun)
    if not way.second_circle:
        return first
    word = "on" if way.second_holes > 0 else "back"
    second = f"{counted(abs(way.second_holes), noun)} of {way.second_circle}"
    return f"{first}, then plate and crank together {word} by {second}"


def mixed(value: Fraction) -> str:
    """Write a fraction as a whole number and a proper fraction.

    >>> mixed(Fraction(40, 7)), mixed(Fraction(4)), mixed(Fraction(2, 3))
    ('5 5/7', '4', '2/3')
    """
    whole, rest = divmod(value, 1)
    return " ".join(part for part in (str(whole) if whole or not rest else "", str(rest) if rest else "") if part)


def train_text(way: Way) -> str:
    """Say how the gears of differential indexing come about: the plate's turns, and the teeth that give them.

    >>> train_text(Way("differential", 40, Fraction(40, 97), 0, 20, 8, train=Train(48, 40, 0, 0, 1, Fraction(6, 5))))
    'g = 40 - 97 x 2/5 = 6/5 turns of the plate for one of the spindle; 48 ÷ 40 = 6/5'
    """
    train = way.train
    assert train is not None
    value = f"g = {way.ratio} - {way.ratio / way.wanted} x {mixed(way.on_plate)} = {train.value}"
    above, below = (" x ".join(map(str, side)) for side in (train.drivers, train.driven))
    over = f"({above}) ÷ ({below})" if train.first else f"{above} ÷ {below}"
    return f"{value} turns of the plate for one of the spindle; {over} = {abs(train.value)}"
