"""A recipe worked out for one shop: every step's answer in order, with figures carried on by name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from engine.base.answer import Answer, Caution, Column, Figure, Table
from engine.base.declare import asks, read
from engine.base.operation import Done, run
from engine.base.records import dataclass, field, replace
from engine.base.refusals import BadInput
from engine.base.register import entry
from engine.base.showing import text_of
from engine.base.units import parse_length
from engine.base.words import Text, shown, write
from engine.jobs.aims import Aim
from engine.jobs.carried import Bench, Limits, Unworked, aimed_at, countable, figure_of, given, limits_for, taken
from engine.jobs.places import PlannedStep
from engine.jobs.springs import Spring
from engine.jobs.wording import SIZES, From, filled
from engine.safety import chosen_by_hand, in_order, joined
from engine.safety.earlier import carried
from engine.safety.told import Told
from engine.set_up import SetUp, situation_of
from engine.shop.model import Shop
from engine.situation import Situation

if TYPE_CHECKING:
    from engine.jobs.schema import Counts, Recipe, SetUpKeys, Step


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
    def plan(self) -> tuple[PlannedStep, ...]:
        """What a job remembers of the steps."""
        return tuple(PlannedStep(s.step.id, s.step.title, s.rows, s.table.count_noun if s.table else "")
                     for s in self.steps)  # fmt: skip

    @property
    def problems(self) -> tuple[str, ...]:
        """Why steps could not be worked, a sentence each; empty when every one could."""
        return tuple(
            f"step {s.number}, {s.step.title}: {write(s.problem, self.recipe.unit)}" for s in self.steps if s.problem
        )


MOST_COUNTED = 1000  # rows that are counted by hand


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
    holding, index, set_up, piece = 0, None, SetUp(), 0
    every = Bench(recipe, shop, told or {}, answers, counted or {}, aims or {}, springs)
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
        bench = replace(every, known=known, readings=(settled or {}).get(step.id, readings or {}), set_up=here,
            key=holding_key(holding, set_up), holding=holding, index=index)  # fmt: skip
        one = _worked(number, step, bench)
        worked.append(one)
        if one.answer:
            answers[step.id] = one.answer
    return Worked(recipe, shop, tuple(worked))


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


def _worked(number: int, step: Step, bench: Bench) -> WorkedStep:
    heading = entry(step.operation).title if step.operation else "By hand"
    by_hand = chosen_by_hand(step.hazards, bench.shop, bench.told, bench.known, bench.key)
    known: dict[str, Any] = {"cautions": by_hand.cautions, "answered": by_hand.answered, "do": step.do}
    known |= {"set_up": bench.set_up, "holding": bench.holding, "held": bench.held, "moment": by_hand.moment}
    try:
        if step.counts is not None and isinstance(step.counts.rows, int):
            known["table"] = counted_by_hand(step.counts.noun, step.counts.rows)
        if step.operation:
            known["inputs"], known["measured"] = told, _ = given(step, bench)
            told |= aimed_at(step, bench, told) | taken(step, bench, told)
            shop, unit, answered = bench.shop, bench.unit, bench.told
            done = run(step.operation, told, shop, unit=unit, told=answered, known=bench.known, set_up=bench.key)
            known["done"] = done
            known["cautions"] = in_order(done.answer.cautions, by_hand.cautions)
            known["answered"] = tuple({c.id: (c, yes) for c, yes in (*done.answered, *by_hand.answered)}.values())
            known["moment"] = done.moment
            if step.planning:  # it is read at the step where the danger is
                known["cautions"] = tuple(replace(c, acknowledge=False) for c in known["cautions"])
            known["lead"] = done.answer.lead
            if step.count:
                known["table"] = countable(step, done.answer)
        own = known["done"].answer if step.operation else None
        if step.counts is not None and not isinstance(step.counts.rows, int):
            known["table"] = _told_by_figure(step.counts, bench, own)
        if step.id in bench.counted and (known.get("table") is None or known["table"].name == "counts"):
            known["table"] = counted_by_hand(*bench.counted[step.id])
        if step.measure:
            known["limits"] = limits_for(step, own, bench)
        lead = known.get("lead")
        if step.measure and lead is not None and lead.dimension == "speed":
            known["lead"] = None  # the speed is set once; the size that is turned to is what the eye comes back for
        if step.large:
            known["lead"] = None if step.large == "limits" else figure_of(From("", step.large), bench, own)
        known["do"] = _do(step, bench, own)
    except BadInput as refusal:
        known["problem"] = refusal.said
        known["remedy"] = f"Change {refusal.field} in the recipe, or what the shop (F12) says is owned."
    except Unworked as reason:
        known["problem"], known["remedy"] = str(reason), reason.remedy
    return WorkedStep(number, step, heading, **known)


def counted_by_hand(noun: str, rows: int) -> Table:
    """What is counted by hand, as a table whose rows are done one at a time."""
    numbered = tuple((row,) for row in range(1, rows + 1))
    return Table("counts", f"{noun}s".capitalize(), (Column("number", noun, "count"),), numbered, noun)


def _told_by_figure(counts: Counts, bench: Bench, own: Answer | None) -> Table | None:
    """What is counted by hand where a figure says how many; none where that is no number to count to."""
    assert isinstance(counts.rows, From)
    rows = figure_of(counts.rows, bench, own).value
    return counted_by_hand(counts.noun, rows) if isinstance(rows, int) and 1 <= rows <= MOST_COUNTED else None


def stock_words(recipe: Recipe) -> Text:
    """What a recipe is made from, with the sizes that it names put in."""

    def words(named: From) -> Text:
        if named.step == SIZES:
            return _size_words(recipe, named.figure)
        return f"{{{f'{named.step}.' if named.step else ''}{named.figure}}}"

    return filled(recipe.stock, words)


def _size_words(recipe: Recipe, name: str) -> Text:
    return shown(float(parse_length(recipe.sizes[name], recipe.unit) or 0))


def _do(step: Step, bench: Bench, own: Answer | None) -> tuple[Text, ...]:
    """What to do, with the figures that it names put in."""

    def words(named: From) -> Text:
        if named.step == SIZES:
            return _size_words(bench.recipe, named.figure)
        if named.step and named.step not in bench.answers:
            return "(not worked out)"  # said at that step; the rest of this one stands
        return text_of(figure_of(named, bench, own))

    return tuple(filled(line, words) for line in step.do)
