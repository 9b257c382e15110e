"""A recipe worked out for one shop: every step's answer in order, with figures carried on by name."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from engine.base.answer import Answer, Caution, Column, Figure, Table
from engine.base.declare import asks, read
from engine.base.kinds import Ask
from engine.base.operation import Done, run
from engine.base.records import dataclass, field, replace
from engine.base.refusals import BadInput
from engine.base.register import entry
from engine.base.showing import text_of
from engine.base.units import parse_length
from engine.base.words import Text, shown, write
from engine.jobs.aims import Aim, Aimed, aimed
from engine.jobs.measuring import Kind
from engine.jobs.springs import Spring, spring_for
from engine.jobs.wording import SIZES, From, Size, filled
from engine.safety import chosen_by_hand, in_order, joined
from engine.safety.earlier import carried
from engine.safety.told import Told
from engine.set_up import SetUp, situation_of
from engine.shop.model import Shop
from engine.situation import Situation

if TYPE_CHECKING:
    from engine.jobs.schema import Counts, Mate, Measure, Recipe, SetUpKeys, Step


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

    @property
    def aimed(self) -> Aimed:
        """The size that the last cut is to end at, with the limits that hold for it."""
        return aimed(self.low, self.high, self.kind, self.aim)


@dataclass(frozen=True, slots=True)
class WorkedStep:
    """One step for this shop.

    `number` counts from 1. `answer` is None for work by hand, and where `problem` says why the step could not be
    worked and `remedy` what would help. `table` is the countable table whose rows are done one at a time.
    `inputs` are what the operation was told, as text or as a figure carried on. `do` is what to do, with the figures it
    names put in. `lead` is the figure to show large; None where the limits of the measure are, or nothing. `measured`
    are the inputs that took a reading in the place of the planned size. `set_up` is how the
    work is held, `holding` counts from 1 how often it was taken up anew (0: the recipe has not said), `held` what the
    recipe says of that holding. `moment` is what is so as far as the set-up and the operation say it, `answered` the
    questions of its cautions that have their answer.
    """

    number: int
    step: Step
    heading: str
    done: Done | None = None
    table: Table | None = None
    limits: Limits | None = None
    cautions: tuple[Caution, ...] = ()
    problem: Text = ""
    remedy: str = ""
    inputs: Mapping[str, object] = field(default_factory=dict)
    do: tuple[Text, ...] = ()
    lead: Figure | None = None
    measured: Mapping[str, float] = field(default_factory=dict)
    set_up: SetUp = field(default_factory=SetUp)
    holding: int = 0
    held: SetUpKeys | None = None
    moment: Situation = Situation()
    answered: tuple[tuple[Caution, bool], ...] = ()

    @property
    def answer(self) -> Answer | None:
        """The operation's answer, if there is one."""
        return self.done.answer if self.done else None

    @property
    def rows(self) -> int:
        """How many rows are done one at a time; 0 when the step is done as one."""
        return len(self.table.rows) if self.table else 0


@dataclass(frozen=True, slots=True)
class Worked:
    """A whole recipe for one shop."""

    recipe: Recipe
    shop: Shop
    steps: tuple[WorkedStep, ...]

    @property
    def problems(self) -> tuple[str, ...]:
        """Why steps could not be worked, a sentence each; empty when every one could."""
        return tuple(
            f"step {s.number}, {s.step.title}: {write(s.problem, self.recipe.unit)}" for s in self.steps if s.problem
        )


MOST_COUNTED = 1000  # rows that are counted by hand


class _Unworked(Exception):
    """Why a step cannot be worked, and what would help."""

    def __init__(self, problem: str, remedy: str) -> None:
        self.remedy = remedy
        super().__init__(problem)


def resolve(
    recipe: Recipe,
    shop: Shop,
    *,
    told: Mapping[str, bool | Told] | None = None,
    readings: Mapping[str, float] | None = None,
    held: Mapping[int, Mapping[str, object]] | None = None,
    counted: Mapping[str, tuple[str, int]] | None = None,
    aims: Mapping[str, Aim] | None = None,
    springs: tuple[Spring, ...] = (),
    settled: Mapping[str, Mapping[str, float]] | None = None,
) -> Worked:
    """Work every step of a recipe out for a shop.

    `readings` are the newest readings by the id of their step [mm]: steps after it take them in the place of the size
    that was planned. `told` are the answers given to questions, `held` what the person said of each holding, in place
    of what the recipe says of it. `counted` is what the person counts by hand: what and how many, by the id of the step.
    `aims` are what the person lets the last cuts of a step aim at, by its id, `springs` what the slides' tools are known to
    take. `settled` are the readings that a step was done with, by its id: it stays as it was.

    >>> from pathlib import Path
    >>> from engine.jobs.recipe import read
    >>> from engine.shop.file import sample
    >>> text = '''
    ... schema_version = 2
    ... title = "Move"
    ... part = "None"
    ... stock = "None"
    ... about = ""
    ... unit = "mm"
    ... [[steps]]
    ... id = "move"
    ... title = "Move the slide"
    ... operation = "hand-dial"
    ... inputs = { distance = "17.35" }
    ... '''
    >>> resolve(read(text, Path("move.toml")), sample("metric")).steps[0].answer.figure("turns").value
    8
    """
    answers: dict[str, Answer] = {}
    worked: list[WorkedStep] = []
    holding, index, set_up = 0, None, SetUp()
    piece = 0
    for number, step in enumerate(recipe.steps, 1):
        another = index is not None and step.piece != piece  # another piece is taken up, held as the one before
        piece = step.piece
        if not worked or another or _anew(step.set_up, index):
            holding += another or step.set_up not in (None, {})
            index = step.set_up if isinstance(step.set_up, int) else index
            set_up = _held(step, recipe, (held or {}).get(holding))
        here = set_up if step.support is None else replace(set_up, support=step.support)
        gripped = Situation(work_diameter=_gripped(recipe, index))
        known = joined(gripped, joined(situation_of(here), carried(one.done for one in worked if one.done)))
        taken = (settled or {}).get(step.id, readings or {})
        bench = _Bench(
            recipe,
            shop,
            told or {},
            known,
            taken,
            here,
            holding_key(holding, set_up),
            holding,
            index,
            counted or {},
            aims or {},
            springs,
        )
        one = _worked(number, step, bench, answers)
        worked.append(one)
        if one.answer:
            answers[step.id] = one.answer
    return Worked(recipe, shop, tuple(worked))


@dataclass(frozen=True, slots=True)
class _Bench:
    """What every step is worked out with."""

    recipe: Recipe
    shop: Shop
    told: Mapping[str, bool | Told]
    known: Situation
    readings: Mapping[str, float]
    set_up: SetUp
    key: str  # the holding that answers belong to
    holding: int
    index: int | None
    counted: Mapping[str, tuple[str, int]] = field(default_factory=dict)
    aims: Mapping[str, Aim] = field(default_factory=dict)
    springs: tuple[Spring, ...] = ()

    @property
    def unit(self) -> str:
        """What a bare number of the recipe is in."""
        return self.recipe.unit

    @property
    def held(self) -> SetUpKeys | None:
        """What the recipe says of this holding, where it is one of its list."""
        return None if self.index is None else self.recipe.set_ups[self.index]


def holding_key(holding: int, set_up: SetUp) -> str:
    """What an answer given in a holding is kept with: another holding, or the same one changed, asks anew."""
    return f"{holding} {set_up}"


def _anew(set_up: object, index: int | None) -> bool:
    """Whether a step takes the work up anew: it says how it is held, and not as the step before did."""
    return set_up != index if isinstance(set_up, int) else bool(set_up)


def _held(step: Step, recipe: Recipe, told: Mapping[str, object] | None) -> SetUp:
    """How the work is held: as the person said, else as the recipe says."""
    if told is not None:
        return read(SetUp, told)
    given: Mapping[str, object] = step.set_up if isinstance(step.set_up, Mapping) else {}
    if isinstance(step.set_up, int):
        listed = recipe.set_ups[step.set_up]
        given = {name: value for name in asks(SetUp) if (value := getattr(listed, name, None)) is not None}
    return read(SetUp, given, unit=recipe.unit)


def _gripped(recipe: Recipe, index: int | None) -> float | None:
    """The diameter that a listed holding grips [mm], where the recipe says it."""
    across = None if index is None else recipe.set_ups[index].across
    return None if across is None else float(parse_length(across, recipe.unit) or 0) or None


def _worked(number: int, step: Step, bench: _Bench, answers: Mapping[str, Answer]) -> WorkedStep:
    heading = entry(step.operation).title if step.operation else "By hand"
    by_hand = chosen_by_hand(step.hazards, bench.shop, bench.told, bench.known, bench.key)
    known: dict[str, Any] = {"cautions": by_hand.cautions, "answered": by_hand.answered, "do": step.do}
    known |= {"set_up": bench.set_up, "holding": bench.holding, "held": bench.held, "moment": by_hand.moment}
    try:
        if step.counts is not None and isinstance(step.counts.rows, int):
            known["table"] = counted_by_hand(step.counts.noun, step.counts.rows)
        if step.operation:
            known["inputs"], known["measured"] = given, _ = _given(step, bench, answers)
            given |= _aimed_at(step, bench, given, answers) | _taken(step, bench, given)
            done = run(
                step.operation, given, bench.shop, unit=bench.unit, told=bench.told, known=bench.known, set_up=bench.key
            )
            known["done"] = done
            known["cautions"] = in_order(done.answer.cautions, by_hand.cautions)
            known["answered"] = tuple({c.id: (c, yes) for c, yes in (*done.answered, *by_hand.answered)}.values())
            known["moment"] = done.moment
            if step.planning:  # it is read at the step where the danger is
                known["cautions"] = tuple(replace(c, acknowledge=False) for c in known["cautions"])
            known["lead"] = done.answer.lead
            if step.count:
                known["table"] = _countable(step, done.answer)
        own = known["done"].answer if step.operation else None
        if step.counts is not None and not isinstance(step.counts.rows, int):
            known["table"] = _told_by_figure(step.counts, answers, own)
        if step.id in bench.counted and (known.get("table") is None or known["table"].name == "counts"):
            known["table"] = counted_by_hand(*bench.counted[step.id])
        if step.measure:
            known["limits"] = _limits(step, own, answers, bench)
        lead = known.get("lead")
        if step.measure and lead is not None and lead.dimension == "speed":
            known["lead"] = None  # the speed is set once; the size that is turned to is what the eye comes back for
        if step.large:
            known["lead"] = None if step.large == "limits" else _figure(From("", step.large), answers, own)
        known["do"] = _do(step, bench.recipe, answers, own)
    except BadInput as refusal:
        known["problem"] = refusal.said
        known["remedy"] = f"Change {refusal.field} in the recipe, or what the shop (F12) says is owned."
    except _Unworked as reason:
        known["problem"], known["remedy"] = str(reason), reason.remedy
    return WorkedStep(number, step, heading, **known)


def counted_by_hand(noun: str, rows: int) -> Table:
    """What is counted by hand, as a table whose rows are done one at a time."""
    numbered = tuple((row,) for row in range(1, rows + 1))
    return Table("counts", f"{noun}s".capitalize(), (Column("number", noun, "count"),), numbered, noun)


def _told_by_figure(counts: Counts, answers: Mapping[str, Answer], own: Answer | None) -> Table | None:
    """What is counted by hand where a figure says how many; none where that is no number to count to."""
    assert isinstance(counts.rows, From)
    rows = _figure(counts.rows, answers, own).value
    return counted_by_hand(counts.noun, rows) if isinstance(rows, int) and 1 <= rows <= MOST_COUNTED else None


def stock_words(recipe: Recipe) -> Text:
    """What a recipe is made from, with the sizes that it names put in."""
    return filled(
        recipe.stock, lambda named: _size_words(recipe, named.figure) if named.step == SIZES else _as_written(named)
    )


def _as_written(named: From) -> str:
    return f"{{{f'{named.step}.' if named.step else ''}{named.figure}}}"


def _size_words(recipe: Recipe, name: str) -> Text:
    return shown(float(parse_length(recipe.sizes[name], recipe.unit) or 0))


def _do(step: Step, recipe: Recipe, answers: Mapping[str, Answer], own: Answer | None) -> tuple[Text, ...]:
    """What to do, with the figures that it names put in."""

    def words(named: From) -> Text:
        if named.step == SIZES:
            return _size_words(recipe, named.figure)
        if named.step and named.step not in answers:
            return "(not worked out)"  # said at that step; the rest of this one stands
        return text_of(_figure(named, answers, own))

    return tuple(filled(line, words) for line in step.do)


def _given(step: Step, bench: _Bench, answers: Mapping[str, Answer]) -> tuple[dict[str, object], dict[str, float]]:
    """The step's inputs with every size and every figure of an earlier step put in its place; and which are readings."""
    from engine.base.register import load

    assert step.operation
    questions = asks(load(step.operation).inputs)
    given: dict[str, object] = {}
    measured: dict[str, float] = {}
    for name, value in step.inputs.items():
        reading = _reading(value, bench)
        if reading is not None:
            given[name] = measured[name] = reading
        elif isinstance(value, str):
            given[name] = value
        elif isinstance(value, Size):
            given[name] = bench.recipe.sizes[value.name]
        else:
            figure = _figure(value, answers)
            _check_kind(name, questions[name], figure)
            given[name] = write(figure.text) if figure.value is None else figure.value
    return given, measured


def _reading(value: str | From | Size, bench: _Bench) -> float | None:
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


def _figure(wanted: From, answers: Mapping[str, Answer], own: Answer | None = None) -> Figure:
    answer = answers.get(wanted.step) if wanted.step else own
    if answer is None:
        raise _Unworked(
            f"it needs {wanted.figure} of step {wanted.step}, which could not be worked.",
            f"Step {wanted.step} has to be put right first.",
        )
    if not answer.has(wanted.figure):
        names = [f.name for f in answer.figures]
        near = get_close_matches(wanted.figure, names, n=1)
        hint = f" Did you mean {near[0]!r}?" if near else f" It has: {', '.join(names)}."
        raise _Unworked(
            f"step {wanted.step or 'itself'} has no figure {wanted.figure!r} here.{hint}",
            "Take another figure in the recipe.",
        )
    return answer.figure(wanted.figure)


def _check_kind(name: str, ask: Ask, figure: Figure) -> None:
    """A count is no length: a carried number must be of the kind that the input asks for."""
    if figure.value is not None and ask.dimension != figure.dimension:
        raise _Unworked(
            f"{name} asks for {ask.label.lower()}; {figure.name} is a {figure.dimension.replace('_', ' ')}, "
            f"not a {(ask.dimension or ask.kind).replace('_', ' ')}.",
            "Take another figure in the recipe.",
        )


def _countable(step: Step, answer: Answer) -> Table:
    countable = [table for table in answer.tables if table.count_noun]
    for table in countable:
        if table.name == step.count:
            return table
    names = ", ".join(table.name for table in countable) or "none"
    raise _Unworked(
        f"there is no table {step.count!r} to be counted here; there are: {names}.", "Change count in the recipe."
    )


def _limits(step: Step, own: Answer | None, answers: Mapping[str, Answer], bench: _Bench) -> Limits:
    measure = step.measure
    assert measure is not None
    low, high = (_length(limit, name, own, answers, bench) for name, limit in _named(measure))
    planned = None
    if measure.figure:
        figure = _figure(From(measure.from_step or "", measure.figure), answers, own)
        low, high = _limits_of(figure, measure, own, answers, bench)
        planned = figure.value
    if low is not None and high is not None and low > high:
        raise _Unworked("its low limit lies above its high limit.", "Change the limits in the recipe.")
    if planned is None and measure.size in bench.recipe.sizes:
        planned = _length(bench.recipe.sizes[measure.size], "size", own, answers, bench)
    if planned is None and low is not None and high is not None:
        planned = (low + high) / 2
    aim = bench.aims.get(step.id, Aim(measure.aim))
    over_cut, slide = measure.over_cut, measure.slide or ""
    return Limits(measure.what, measure.kind, low, high, over_cut, slide, planned, aim, measure.mate)


def _aimed_at(
    step: Step, bench: _Bench, given: Mapping[str, object], answers: Mapping[str, Answer]
) -> dict[str, object]:
    """The size that an operation's cuts are to end at, where it takes one with its limits and something else than their
    middle is aimed at."""
    if step.measure is None or step.measure.figure or "to" in given or not {"low", "high"} <= set(given):
        return {}
    limits = _limits(step, None, answers, bench)
    if limits.low is None or limits.high is None or limits.aim.where == "middle":
        return {}
    size = limits.aimed.size
    return {"to": size} if limits.low <= size <= limits.high else {}


def _taken(step: Step, bench: _Bench, given: Mapping[str, object]) -> dict[str, object]:
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


def _named(measure: Measure) -> tuple[tuple[str, str | From | Size | None], ...]:
    return ("low", measure.low), ("high", measure.high)


def _limits_of(
    figure: Figure, measure: Measure, own: Answer | None, answers: Mapping[str, Answer], bench: _Bench
) -> tuple[float | None, float | None]:
    within = _length(measure.within, "within", own, answers, bench)
    if within is not None and figure.value is not None and figure.dimension == "length":
        return figure.value - within, figure.value + within
    if (figure.low is None and figure.high is None) or figure.dimension != "length":
        raise _Unworked(
            f"figure {figure.name!r} has no limits to measure by.",
            'Say how far off it may be in the recipe: within = "0.02".',
        )
    return figure.low, figure.high


def _length(
    limit: str | From | Size | None, name: str, own: Answer | None, answers: Mapping[str, Answer], bench: _Bench
) -> float | None:
    if limit is None:
        return None
    if isinstance(limit, Size):
        reading = _reading(limit, bench)
        return _length(bench.recipe.sizes[limit.name], name, own, answers, bench) if reading is None else reading
    if isinstance(limit, str):
        ask = Ask("Limit", "length", "", "2.5", True, low=0.0, high=1e5, dimension="length")
        return float(ask.read(name, limit, bench.unit))
    figure = _figure(limit, answers, own)
    if figure.value is None or figure.dimension != "length":
        raise _Unworked(f"figure {figure.name!r} is not a length.", "Take another figure in the recipe.")
    return figure.value
