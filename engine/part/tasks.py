"""Tasks: the single jobs that a part's features come to, each an operation with its inputs or work by hand.

Which tasks a feature comes to is said in tasks_outside, tasks_inside, tasks_across and tasks_ends; here is what
they share.
"""

from __future__ import annotations

from collections.abc import Mapping

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.quantity import INCH_MM
from engine.base.records import dataclass, field, replace
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.base.rounding import short
from engine.cutting.materials import Material, find
from engine.part.part import Chamfer, End, Feature, Part, Size
from engine.part.rules import minutes, vocabulary
from engine.part.sizes import limits_text
from engine.part.words import spoken_of
from engine.shop.model import Shop
from engine.threads.thread import Thread

_KNOWN = frozenset(entry.id for entry in CATALOG)


# Minutes to fit a tool: between a quick-change holder (0.3) and a packed post (2); times.csv
_FIT = {"tool post": 1.0, "tailstock": 0.7, "mill": 0.5}
_SETTING = {"threading tool": "wheels", "inside threading tool": "wheels", "knurl holder": "knurl_set",
            "line cutter": "line_stops", "tapering tool": "taper_set"}  # fmt: skip
_TAPERING = ("taper", "taper_bore")


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One job on one feature.

    `about` is the feature's name, `end` the face of the drawing that it is done from, `start` and `stop` what it
    covers along the axis. `element` names its row of times.csv and `often` how often that is taken. `counts` is how
    many times something is done by hand, `count` the countable table of the operation. `each`: done for every part,
    or once for a bar or a lot.
    """

    kind: str
    about: str = ""
    title: str = ""
    makes: tuple[str, ...] = ()
    operation: str | None = None
    inputs: tuple[tuple[str, str], ...] = ()
    do: tuple[str, ...] = ()
    count: str = ""
    counts: int = 1
    measure: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    tool: str = ""
    element: str = ""
    often: float = 1.0
    start: float = 0.0
    stop: float = 0.0
    diameter: float = 0.0
    bore: float = 0.0
    end: End = "front"
    hole: str = ""
    through: bool = False
    fine: bool = False
    each: str = "part"
    visit: int = 0

    @property
    def root(self) -> str:
        """The feature of a list that it belongs to: `outside.1` for `outside.1.scale`."""
        return ".".join(self.about.split(".")[:2]) if "." in self.about else self.about

    @property
    def station(self) -> str:
        """Where its tool is held."""
        return vocabulary()[self.kind].station

    @property
    def fitted(self) -> str:
        """The tool that is fitted for it; a taper asks for the top slide set over."""
        return "tapering tool" if self.kind in _TAPERING else self.tool or vocabulary()[self.kind].tool

    @property
    def fit_minutes(self) -> float:
        """How long fitting its tool takes, wheels and stops with it. [min]"""
        setting = next((minutes(time).typical for word, time in _SETTING.items() if self.fitted.startswith(word)), 0.0)
        return _FIT.get(self.station, 0.0) + setting

    @property
    def minutes(self) -> float:
        """How long it takes, typically. [min]"""
        return minutes(self.element).typical * self.often if self.element else 0.0

    @property
    def band(self) -> tuple[float, float]:
        """How long it takes at the least and at the most. [min]"""
        if not self.element:
            return 0.0, 0.0
        known = minutes(self.element)
        return known.low * self.often, known.high * self.often


@dataclass(slots=True)
class Bench:
    """A part and the shop it is made in, with what operations answered so far (several routes ask the same)."""

    part: Part
    shop: Shop
    answers: dict[tuple[str, tuple[tuple[str, str], ...]], Mapping[str, object]] = field(default_factory=dict)
    features: dict[str, Feature] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)
    drawn_in: str = ""  # the unit of the part's drawing, where that is another than the shop's

    def __post_init__(self) -> None:
        """The features by name, looked up often."""
        self.features = {feature.name: feature for feature in self.part.features()}

    def spoken(self, name: str) -> str:
        """A feature as it is spoken of at the machine; every route asks for the same ones."""
        if name not in self.names:
            self.names[name] = spoken_of(self.part, name)
        return self.names[name]

    def said(self, length: float) -> str:
        """A length as an input takes it, in the part's own unit."""
        if self.part.unit == "inch":
            return f"{short(length / INCH_MM, 5)} in"
        return f"{short(length, 4)}"

    def shown(self, length: float) -> str:
        """A length as a title shows it, in the part's own unit."""
        return f"{short(length / INCH_MM, 4)} in" if self.part.unit == "inch" else f"{short(length, 3)}"

    def size(self, size: Size) -> str:
        """A size as it was written on the drawing; in the shop's unit, where that is another."""
        if self.drawn_in not in ("", self.part.unit):
            return limits_text(size, self.part.unit) + (" in" if self.part.unit == "inch" else "")
        return size.written.strip() or self.shown(size.nominal)

    def written(self, edge: Chamfer) -> str:
        """A chamfer as it was written on the drawing; by its depth in the shop's unit, where that is another."""
        if edge.written and self.drawn_in in ("", self.part.unit):
            return edge.written
        return self.shown(edge.depth) + ("" if edge.angle == 45 else f" x {short(edge.angle)}°")

    @property
    def material(self) -> Material:
        """What it is made of."""
        return find(self.part.material)

    def answer(self, operation: str, given: Mapping[str, str]) -> Mapping[str, object]:
        """The figures of an operation (value, else text) by name; empty where it cannot answer here."""
        key = operation, tuple(sorted(given.items()))
        if key not in self.answers:
            try:
                done = run(operation, given, self.shop)
            except BadInput:
                self.answers[key] = {}
            else:
                self.answers[key] = {f.name: f.text if f.value is None else f.value for f in done.answer.figures}
        return self.answers[key]

    def number(self, operation: str, given: Mapping[str, str], figure: str) -> float | None:
        """One figure of an operation as a number."""
        value = self.answer(operation, given).get(figure)
        return float(value) if isinstance(value, int | float) else None

    def speed_words(self, operation: str, given: Mapping[str, str]) -> tuple[str, ...]:
        """The spindle speed of a step whose own operation has none, in words; nothing where the shop has no speeds."""
        speed = self.number(operation, given, "rpm")
        return (f"{short(speed, 0)} rev/min.",) if speed else ()

    def tapped(self, size: Thread, depth: float, *, through: bool) -> dict[str, str]:
        """What is told of a thread to find its drill and its tap alike: how deep it is decides how much of it is enough."""
        kind = "through" if through else "blind"
        return {"size": str(size), "material": self.part.material, "depth": self.said(depth), "hole": kind}


def operation_of(*choices: tuple[str, Mapping[str, str]]) -> tuple[str, tuple[tuple[str, str], ...]]:
    """The first of these operations that the program has, with those of its inputs that it knows."""
    for name, given in choices:
        if name in _KNOWN:
            known = asks(load(name).inputs)
            return name, tuple((key, value) for key, value in given.items() if key in known)
    raise LookupError(choices[-1][0])


def has_operation(name: str) -> bool:
    """Whether the program has an operation."""
    return name in _KNOWN


def aimed(bench: Bench, size: Size, to: float | None = None) -> dict[str, str]:
    """What a cut is aimed at, as inputs: the limits where the drawing gives them, else the size."""
    if to is None and size.low is not None and size.high is not None and not size.general:
        return {"low": bench.said(size.low), "high": bench.said(size.high)}
    return {"to": bench.said(size.middle if to is None else to)}


def limits_of(bench: Bench, what: str, size: Size) -> tuple[str, ...]:
    """What to measure, in words, where a size has limits of its own."""
    if size.low is None or size.high is None:
        return ()
    return (f"{what}: {bench.shown(size.low)} to {bench.shown(size.high)}",)


def on_visit(tasks: list[Task], visit: int) -> list[Task]:
    """The same tasks, done in this visit."""
    return [replace(task, visit=visit) for task in tasks]
