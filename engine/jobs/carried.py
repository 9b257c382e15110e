"""What a step takes from its recipe and the steps before it: inputs, figures, readings, limits and what is aimed at."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from engine.base.answer import Answer, Figure, Table
from engine.base.declare import asks
from engine.base.kinds import Ask
from engine.base.records import dataclass, field
from engine.base.refusals import did_you_mean
from engine.base.words import write
from engine.jobs.aims import Aim, Aimed, aimed
from engine.jobs.measuring import Kind
from engine.jobs.springs import Spring, spring_for
from engine.jobs.wording import From, Size
from engine.safety.told import Told
from engine.set_up import SetUp
from engine.shop.model import Shop
from engine.situation import Situation

if TYPE_CHECKING:
    from engine.jobs.schema import Mate, Measure, Recipe, SetUpKeys, Step

_ANOTHER = "Take another figure in the recipe."


class Unworked(Exception):
    """Why a step cannot be worked, and what would help."""

    def __init__(self, problem: str, remedy: str) -> None:
        self.remedy = remedy
        super().__init__(problem)


@dataclass(frozen=True, slots=True)
class Limits:
    """What a measurement is judged by: see engine.jobs.measuring. Lengths in mm; None where there is no limit.

    `slide` is the handwheel that takes off the rest: empty for the usual one, `none` where there is none. `planned` is the
    size that was meant; `aim` is what the last cut aims at, `mate` what the recipe says it is made to fit.
    """

    what: str
    kind: Kind
    low: float | None
    high: float | None
    over_cut: tuple[str, ...] = ()
    slide: str = ""
    planned: float | None = None
    aim: Aim = Aim()
    mate: Mate | None = None

    def hold(self, reading: float) -> bool:
        """Whether a reading lies in these limits [mm]."""
        low, high = -1.0 if self.low is None else self.low, 1e6 if self.high is None else self.high
        return low - 1e-9 <= reading <= high + 1e-9

    @property
    def aimed(self) -> Aimed:
        """The size that the last cut is to end at, with the limits that hold for it."""
        return aimed(self.low, self.high, self.kind, self.aim)


@dataclass(frozen=True, slots=True)
class Bench:
    """What a step is worked out with; `answers` are those of the steps before it, by their id."""

    recipe: Recipe
    shop: Shop
    told: Mapping[str, bool | Told]
    answers: Mapping[str, Answer]
    counted: Mapping[str, tuple[str, int]]
    aims: Mapping[str, Aim]
    springs: tuple[Spring, ...]
    known: Situation = Situation()
    readings: Mapping[str, float] = field(default_factory=dict)
    set_up: SetUp = field(default_factory=SetUp)
    key: str = ""  # the holding that answers belong to
    holding: int = 0
    index: int | None = None

    @property
    def unit(self) -> str:
        """What a bare number of the recipe is in."""
        return self.recipe.unit

    @property
    def held(self) -> SetUpKeys | None:
        """What the recipe says of this holding, where it is one of its list."""
        return None if self.index is None else self.recipe.set_ups[self.index]


def given(step: Step, bench: Bench) -> tuple[dict[str, object], dict[str, float]]:
    """The step's inputs with every size and every figure of an earlier step put in its place; and which are readings."""
    from engine.base.register import load

    assert step.operation
    questions = asks(load(step.operation).inputs)
    found: dict[str, object] = {}
    measured: dict[str, float] = {}
    for name, value in step.inputs.items():
        reading = _reading(value, bench)
        if reading is not None:
            found[name] = measured[name] = reading
        elif isinstance(value, str):
            found[name] = value
        elif isinstance(value, Size):
            found[name] = bench.recipe.sizes[value.name]
        else:
            figure = figure_of(value, bench)
            _check_kind(name, questions[name], figure)
            found[name] = write(figure.text) if figure.value is None else figure.value
    return found, measured


def _reading(value: str | From | Size, bench: Bench) -> float | None:
    """The reading that stands for an input: of the step that measures the size or the figure it names."""
    if isinstance(value, str):
        return None
    found = None
    for step in bench.recipe.steps:
        measure = step.measure
        if measure is None or step.id not in bench.readings:
            continue
        by_size = isinstance(value, Size) and measure.size == value.name
        by_figure = (
            isinstance(value, From) and measure.figure == value.figure and (measure.from_step or step.id) == value.step
        )
        if by_size or by_figure:
            found = bench.readings[step.id]
    return found


def figure_of(wanted: From, bench: Bench, own: Answer | None = None) -> Figure:
    """A figure of an earlier step, or of the step's own answer."""
    answer = bench.answers.get(wanted.step) if wanted.step else own
    if answer is None:
        text = f"it needs {wanted.figure} of step {wanted.step}, which could not be worked."
        raise Unworked(text, f"Step {wanted.step} has to be put right first.")
    if not answer.has(wanted.figure):
        names = [f.name for f in answer.figures]
        hint = did_you_mean(wanted.figure, names, f" It has: {', '.join(names)}.")
        raise Unworked(f"step {wanted.step or 'itself'} has no figure {wanted.figure!r} here.{hint}", _ANOTHER)
    return answer.figure(wanted.figure)


def _check_kind(name: str, ask: Ask, figure: Figure) -> None:
    """A count is no length: a carried number must be of the kind that the input asks for."""
    if figure.value is not None and ask.dimension != figure.dimension:
        its, asked = (kind.replace("_", " ") for kind in (figure.dimension, ask.dimension or ask.kind))
        text = f"{name} asks for {ask.label.lower()}; {figure.name} is a {its}, not a {asked}."
        raise Unworked(text, _ANOTHER)


def countable(step: Step, answer: Answer) -> Table:
    """The table of an answer whose rows are done one at a time."""
    found = [table for table in answer.tables if table.count_noun]
    for table in found:
        if table.name == step.count:
            return table
    names = ", ".join(table.name for table in found) or "none"
    text = f"there is no table {step.count!r} to be counted here; there are: {names}."
    raise Unworked(text, "Change count in the recipe.")


def limits_for(step: Step, own: Answer | None, bench: Bench) -> Limits:
    """What the measurement of a step is judged by."""
    measure = step.measure
    assert measure is not None
    low, high = (_length(limit, name, own, bench) for name, limit in (("low", measure.low), ("high", measure.high)))
    planned = None
    if measure.figure:
        figure = figure_of(From(measure.from_step or "", measure.figure), bench, own)
        low, high = _limits_of(figure, measure, own, bench)
        planned = figure.value
    if low is not None and high is not None and low > high:
        raise Unworked("its low limit lies above its high limit.", "Change the limits in the recipe.")
    if planned is None and measure.size in bench.recipe.sizes:
        planned = _length(bench.recipe.sizes[measure.size], "size", own, bench)
    if planned is None and low is not None and high is not None:
        planned = (low + high) / 2
    aim = bench.aims.get(step.id, Aim(measure.aim))
    over_cut, slide = measure.over_cut, measure.slide or ""
    return Limits(measure.what, measure.kind, low, high, over_cut, slide, planned, aim, measure.mate)


def aimed_at(step: Step, bench: Bench, given: Mapping[str, object]) -> dict[str, object]:
    """The size that an operation's cuts are to end at, where it takes one with its limits and something else than their
    middle is aimed at."""
    if step.measure is None or step.measure.figure or "to" in given or not {"low", "high"} <= set(given):
        return {}
    limits = limits_for(step, None, bench)
    if limits.low is None or limits.high is None or limits.aim.where == "middle":
        return {}
    size = limits.aimed.size
    return {"to": size} if limits.low <= size <= limits.high else {}


def taken(step: Step, bench: Bench, given: Mapping[str, object]) -> dict[str, object]:
    """What the tool takes of what the dial says, where the operation asks for it and it was learned.

    As much as it may take, so that the cuts rather end short of the size.
    """
    from engine.base.register import load

    assert step.operation
    if "takes" in given or "takes" not in asks(load(step.operation).inputs) or bench.shop.lathe is None:
        return {}
    slide = str(given.get("slide", "top")) if step.operation == "screwcutting" else "cross"
    material = given.get("material") or next(iter(bench.shop.materials), "")
    found = spring_for(bench.springs, machine=bench.shop.name, slide=slide, material=str(material), diameter=None)
    return {"takes": min(round(found.share + found.doubt, 3), 1.0)} if found and found.share < 1 else {}


def _limits_of(figure: Figure, measure: Measure, own: Answer | None, bench: Bench) -> tuple[float | None, float | None]:
    within = _length(measure.within, "within", own, bench)
    if within is not None and figure.value is not None and figure.dimension == "length":
        return figure.value - within, figure.value + within
    if (figure.low is None and figure.high is None) or figure.dimension != "length":
        remedy = 'Say how far off it may be in the recipe: within = "0.02".'
        raise Unworked(f"figure {figure.name!r} has no limits to measure by.", remedy)
    return figure.low, figure.high


def _length(limit: str | From | Size | None, name: str, own: Answer | None, bench: Bench) -> float | None:
    if limit is None:
        return None
    if isinstance(limit, Size):
        reading = _reading(limit, bench)
        return _length(bench.recipe.sizes[limit.name], name, own, bench) if reading is None else reading
    if isinstance(limit, str):
        ask = Ask("Limit", "length", "", "2.5", True, low=0.0, high=1e5, dimension="length")
        return float(ask.read(name, limit, bench.unit))
    figure = figure_of(limit, bench, own)
    if figure.value is None or figure.dimension != "length":
        raise Unworked(f"figure {figure.name!r} is not a length.", _ANOTHER)
    return figure.value
