"""The setting card of a job: what is laid out, set, ticked off and measured, a strip for each set-up. Data only.

Steps that are done again for the next piece in the same set-up are one row with a tick for each piece. A door writes
the texts in its unit and words and lays the card out: as a page, as a file to print, or as lines of text.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from engine.base.answer import Caution, Figure, Label, Picture, Pointer, Size
from engine.base.records import dataclass, field, replace
from engine.base.refusals import BadInput
from engine.base.showing import text_of
from engine.base.words import Text, say, shown, write
from engine.jobs.carried import Limits
from engine.jobs.holdings import gate_key
from engine.jobs.measuring import read_reading, what_may_be_done
from engine.jobs.places import place_words
from engine.jobs.progress import Progress, Reading
from engine.jobs.run import Worked, WorkedStep, stock_words
from engine.jobs.ticks import Ticks, settings_of, ticks
from engine.jobs.wording import filled
from engine.safety import arrange
from engine.safety.belonging import belonging

_WORDED = (Label, Size, Pointer)  # shapes that need room for words
NO_ROOM = 0.5  # mm: nearer to the jaws a cut is said to end level with them
_ZEROED = ("To zero: ", "Zero the saddle ", "Zero the long way ")  # so an operation's note on its zero begins
_SLIDE = "slide_angle"  # set before the first cut, and read on no dial
MOST_SETTINGS = 4  # figures to set beside the ticks of a row


@dataclass(frozen=True, slots=True)
class LaidOut:
    """One thing to lay out; `instead` is what could stand in for what is not owned."""

    what: Text
    owned: bool = True
    instead: str = ""


@dataclass(frozen=True, slots=True)
class Planned:
    """What a part's plan knows beyond its recipe: the drawings of its parts and what they have no room for, the unit of
    its own words, the stock with its saw length, what to lay out; and by the id of a step the work as it is held, its
    small picture, its kind of work, its tool, the room before the jaws [mm]."""

    parts: tuple[Picture, ...] = ()
    also: tuple[str, ...] = ()
    unit: str = ""
    stock: tuple[Text, ...] = ()
    lay_out: tuple[LaidOut, ...] = ()
    held: Mapping[str, Picture] = field(default_factory=dict)
    small: Mapping[str, Picture] = field(default_factory=dict)
    kinds: Mapping[str, str] = field(default_factory=dict)
    tools: Mapping[str, str] = field(default_factory=dict)
    rooms: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Measured:
    """What a row measures: its limits, and the reading of each piece; empty is a place to write it.

    `too_far` is what may still be done where too much has come off.
    """

    what: str
    low: float | None
    high: float | None
    readings: tuple[Text, ...]
    too_far: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One step, for as many pieces as it is done on in this set-up.

    `done` says of each whether it is; `notes` are the person's own words to it, with the row they are about.
    """

    number: int
    title: str
    picture: Picture | None
    tool: Text
    sets: tuple[Text, ...]
    do: tuple[Text, ...]
    done: tuple[bool, ...]
    ticks: Ticks | None
    measured: Measured | None
    cautions: tuple[Caution, ...]
    problem: Text = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Gate:
    """What has to be found out before the work is let go, and what was found; "" where it was not yet."""

    words: str
    found: str = ""

    @property
    def done(self) -> bool:
        """Whether it was found out."""
        return bool(self.found) and self.found.casefold() != "not done"

    @property
    def says(self) -> str:
        """The gate as a sentence, with what was found."""
        return f"before {self.words}." + (f" Found: {self.found}" if self.found else "")


@dataclass(frozen=True, slots=True)
class Strip:
    """One set-up: how the work is held, its drawing, its steps, what has to be so before it ends, what comes then.

    `facts` are told, as a name and its value; an empty value is a place to write. `too_far`: what may be done where too
    much has come off.
    """

    number: int
    title: str
    facts: tuple[tuple[str, Text], ...]
    picture: Picture | None
    rows: tuple[Row, ...]
    gates: tuple[Gate, ...]
    too_far: tuple[str, ...]
    after: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Card:
    """The whole card. `stands` says where a job stands, `also` what the drawings have no room for, `notes` are the person's
    own words to all of it, `true` the strips that are printed 1:1, `words_in` the unit of the drawing and of the plan's
    words."""

    title: str
    part: str
    about: str
    stock: tuple[Text, ...]
    shop: str
    stands: str
    parts: tuple[Picture, ...]
    also: tuple[str, ...]
    lay_out: tuple[LaidOut, ...]
    strips: tuple[Strip, ...]
    true: tuple[Picture, ...]
    notes: tuple[str, ...] = ()
    words_in: str = ""


def card(worked: Worked, planned: Planned | None = None, progress: Progress | None = None, part: int = 1) -> Card:
    """The card of a recipe worked out for a shop, or of a job under way.

    >>> from pathlib import Path
    >>> from engine.jobs.library import new_text
    >>> from engine.jobs.recipe import read
    >>> from engine.jobs.run import resolve
    >>> from engine.shop.file import sample
    >>> made = card(resolve(read(new_text("Shim", "mm"), Path("shim.toml")), sample("metric")))
    >>> made.title, made.strips[0].rows[0].title
    ('Shim', 'Read the drawing')
    """
    known, recipe = planned or Planned(), worked.recipe
    held = list(_strips(_together(worked.steps)))
    maker = _Maker(known, progress, recipe.unit)
    strips = tuple(maker.strip(i, held) for i in range(len(held)))
    stands = (
        "" if progress is None else f"Job {progress.job}, part {part}: {place_words(progress.plan, progress.place)}"
    )
    return Card(
        recipe.title,
        recipe.part,
        recipe.about,
        known.stock or (stock_words(recipe),),
        worked.shop.name,
        stands,
        known.parts or _drawn_by_steps(worked.steps),
        known.also,
        known.lay_out or tuple(LaidOut(what) for what in _tools_of(strips)),
        strips,
        _true_sized(worked.steps),
        tuple(maker.notes(())),
        known.unit,
    )


Group = tuple[WorkedStep, ...]  # one step of the card: the same step for one piece after the other


def grouped(steps: Sequence[WorkedStep]) -> tuple[Group, ...]:
    """The steps in the order of the card: by set-up, with those put together that do the same to the next piece."""
    return tuple(group for held in _strips(_together(steps)) for group in held)


def _together(steps: Sequence[WorkedStep]) -> Iterator[Group]:
    """Steps of one title that are done in the same set-up, on another piece or when it is taken up again."""
    found: dict[object, list[WorkedStep]] = {}
    times: dict[object, int] = {}
    for step in steps:
        one = step.step
        held = one.set_up if isinstance(one.set_up, int) else None
        alike = held, one.title, one.operation
        here = alike, step.holding, one.piece
        times[here] = times.get(here, 0) + 1  # done twice on one piece is two steps
        key = (*alike, times[here]) if one.piece or held is not None else step.number
        found.setdefault(key, []).append(step)
    yield from (tuple(group) for group in found.values())


def _strips(groups: Iterable[Group]) -> Iterator[list[Group]]:
    """The groups by set-up, in the order they are taken up; without set-ups in the recipe, by the machine.

    Work at the bench holds nothing: of one part and then of another it is one strip.
    """
    found: dict[object, list[Group]] = {}
    run, machine, key = 0, "", object()
    for group in groups:
        step = group[0]
        now = _machine(step)
        bench = now == "bench" == machine
        run += bool(now and machine and now != machine)
        machine = now or machine
        if isinstance(step.step.set_up, int):
            key = key if bench else step.step.set_up
        else:
            key = "held", step.holding, run
        found.setdefault(key, []).append(group)
    yield from found.values()


def _machine(step: WorkedStep) -> str:
    """Where a step is done, as far as its set-up and its operation say."""
    return step.set_up.machine or step.moment.machine or ""


def _tools_of(strips: Iterable[Strip]) -> tuple[Text, ...]:
    """What the rows take in hand and what their ticks name as a tool, each once."""
    found: list[Text] = []
    for row in (row for strip in strips for row in strip.rows):
        found += [tool for tool in (row.tool, *(row.ticks.tools if row.ticks else ())) if tool and tool not in found]
    return tuple(found)


def _drawn_by_steps(steps: Iterable[WorkedStep]) -> tuple[Picture, ...]:
    """Without a part's drawing: what those steps draw of the work that print it 1:1 too, with its sizes."""
    cut = [step.answer.pictures for step in steps if step.answer and not _only_tried(step)]
    return tuple(
        next(picture for picture in pictures if not picture.true_size)
        for pictures in cut
        if len({picture.true_size for picture in pictures}) == 2
    )


def _true_sized(steps: Iterable[WorkedStep]) -> tuple[Picture, ...]:
    """Every strip that is worth printing 1:1, once."""
    found: list[Picture] = []
    for step in steps:
        for picture in step.answer.pictures if step.answer else ():
            if picture.true_size and picture not in found:
                found.append(picture)
    return tuple(found)


@dataclass(slots=True)
class _Maker:
    """Makes the strips one after the other, and counts their rows through."""

    planned: Planned
    progress: Progress | None
    unit: str
    number: int = 0
    told: set[str] = field(default_factory=set)  # the cautions of all rows so far
    lies: dict[int, bool] = field(default_factory=dict)  # whether a piece lies turned round from the start
    raised: set[str] = field(default_factory=set)  # those that numbers raised in this strip

    def strip(self, index: int, held: Sequence[list[Group]]) -> Strip:
        groups = held[index]
        first = groups[0][0]
        self.raised = set()
        rows = [self.row(group) for group in groups]
        return Strip(
            index + 1,
            _title(groups),
            tuple(self.facts(groups, held[index - 1] if index else ())),
            self.planned.held.get(first.step.id),
            tuple(rows),
            tuple(self.gates(first)),
            tuple(_too_far(rows)),
            _after(index, held),
        )

    def gates(self, first: WorkedStep) -> Iterator[Gate]:
        """What has to be found out before a holding ends, with what was found in the job."""
        found = self.progress.gates if self.progress else {}
        for words in first.held.gate if first.held else ():
            yield Gate(words, found.get(gate_key(first.holding, words), ""))

    def facts(self, groups: Sequence[Group], before: Sequence[Group] = ()) -> Iterator[tuple[str, Text]]:
        """How the work is held; what nobody has told is left open to write in."""
        first = groups[0][0]
        held, now = first.held, first.set_up
        if now.machine == "bench" or (not _cuts(groups) and held is None):
            return
        grip: Text = shown(now.grip, decimals=1) if now.grip is not None else ""
        what = f" of {held.grips}" if held and held.grips else ""
        yield "Grip", say("{grip}{what}", grip=grip, what=what) if grip else what.removeprefix(" of ")
        yield "Out", shown(now.stick_out, decimals=1) if now.stick_out is not None else ""
        if held and held.between:
            yield "Between", held.between
        if now.support not in (None, "none"):
            yield "Support", now.support or ""
        if turned := self.turned(first):
            yield "Turned round", turned
        yield "Zero on", held.zero if held and held.zero else ""
        rooms = [
            self.planned.rooms[step.step.id] for group in groups for step in group if step.step.id in self.planned.rooms
        ]
        if rooms or (now.machine != "mill" and not self.planned.kinds):
            yield "Stop", _stop(min(rooms)) if rooms else ""
        if before and _still_held(before[-1][-1], first):
            return
        yield "Run-out to reach", self.length(held.run_out) if held and held.run_out else ""
        yield "read", ""

    def turned(self, step: WorkedStep) -> str:
        """What has to be turned round to hold it so; nothing where this piece lies that way from the holding before."""
        if step.held is None or not step.held.grips:  # a stub or an arbor of other stock
            return ""
        now, before = step.held.turned_round, self.lies.get(step.step.piece, False)
        self.lies[step.step.piece] = now
        if now == before or (before and step.set_up.machine != "lathe"):
            return ""
        return "yes" if now else "yes, back again"

    def length(self, text: str) -> Text:
        """A length of the recipe as a quantity; as it is written where it is none."""
        try:
            return shown(read_reading(text, self.unit))
        except BadInput:
            return text

    def row(self, group: Group) -> Row:
        self.number += 1
        step = self.in_hand(group)
        cautions = tuple(self.cautions(step))
        self.told |= {caution.id for caution in cautions}
        self.raised |= {caution.id for caution in cautions if caution.because}
        return Row(
            self.number,
            step.step.title,
            _picture(step, self.planned),
            self.tool(step),
            tuple(_sets(step)),
            tuple(_do(step)),
            tuple(self.done(one) for one in group),
            ticks(step.table, self.row_done(group), len(group)) if step.table else None,
            self.measured(group, step.limits) if step.limits else None,
            cautions,
            say("{problem} {remedy}", problem=step.problem, remedy=step.remedy) if step.problem else "",
            tuple(self.notes(group)),
        )

    def notes(self, group: Group) -> Iterator[str]:
        """The person's own words to these steps and their rows; to no step: to the whole job."""
        wanted = {step.number: step.table.count_noun if step.table else "row" for step in group} or {0: ""}
        for one in self.progress.notes if self.progress else ():
            if one.step in wanted:
                yield f"{f'{wanted[one.step]} {one.row}: ' if one.row else ''}“{one.words}”"

    def cautions(self, step: WorkedStep) -> Iterator[Caution]:
        """Those that stop the step; else what its numbers raised; else the first whose harm belongs to this moment. What a
        number raised is said once in a strip, what always stands once on a card."""
        work = self.planned.kinds.get(step.step.id, ""), step.step.operation or "", *step.step.hazards
        mine = belonging(work)
        first = arrange(step.cautions)[0]
        raised = [one for one in first if one.because and one.id not in self.raised]
        stops = [one for one in raised if one.acknowledge]
        by_id = {one.id: one for one in step.cautions}
        stand = [by_id[name] for name in mine if name in by_id] if mine is not None else list(first)
        stand = [one for one in stand if one.id not in self.told and not one.question and not _only_tried(step)]
        yield from stops or raised[:1] or stand[:1]

    def in_hand(self, group: Group) -> WorkedStep:
        """The piece that is next: its settings may follow from what was measured on it."""
        return next((one for one in group if not self.done(one)), group[-1])

    def done(self, step: WorkedStep) -> bool:
        return self.progress is not None and self.progress.place.step > step.number

    def row_done(self, group: Group) -> Callable[[int, int], bool]:
        def done(piece: int, row: int) -> bool:
            place = self.progress.place if self.progress else None
            step = group[piece].number
            return place is not None and (place.step > step or (place.step == step and place.row > row))

        return done

    def tool(self, step: WorkedStep) -> Text:
        """As planned, else as the operation has it, with its figures put in; nothing is cut in a step that only plans."""
        if step.step.id in self.planned.tools or step.step.planning or step.done is None:
            return self.planned.tools.get(step.step.id, "")
        answer = step.done.answer
        try:
            return filled(step.done.operation.tool, lambda named: text_of(answer.figure(named.figure)))
        except KeyError:  # this answer has no such figure
            return ""

    def measured(self, group: Group, limits: Limits) -> Measured:
        taken = self.progress.readings if self.progress else ()
        kept = tuple(_reading([one for one in taken if one.step == step.number]) for step in group)
        over = limits.over_cut or what_may_be_done(limits.kind)[1:2]
        return Measured(limits.what, limits.low, limits.high, kept, over)


def _too_far(rows: Iterable[Row]) -> Iterator[str]:
    """What may still be done where too much has come off, once for all the rows it holds for."""
    found: dict[str, list[int]] = {}
    for row in rows:
        for line in row.measured.too_far if row.measured else ():
            found.setdefault(line, []).append(row.number)
    for line, numbers in found.items():
        yield f"Too much off at {', '.join(map(str, numbers))}: {line}"


def _reading(taken: Sequence[Reading]) -> Text:
    """The newest reading of a step; nothing where none was taken."""
    return shown(taken[-1].reading) if taken else ""


def _cuts(groups: Iterable[Group]) -> bool:
    return any(_machine(step) in ("lathe", "mill") for group in groups for step in group)


def _stop(room: float) -> Text:
    """Where the saddle's stop stands."""
    if room < NO_ROOM:
        return "level with the jaws: try it by hand, spindle still, before power"
    return say("{room} before the jaws", room=shown(room, decimals=1))


_WHERE = {"lathe": "Lathe", "mill": "Mill", "bench": "Bench"}


def _still_held(before: WorkedStep, after: WorkedStep) -> bool:
    """Whether only the centre came or went: the work was not taken out, and there is nothing to set true anew."""
    if before.held is None or after.held is None or after.held.run_out is not None:
        return False
    return _held_by(before) == _held_by(after)


def _held_by(step: WorkedStep) -> tuple[object, ...]:
    now = step.set_up
    lies = step.held and (step.held.grips, step.held.turned_round)
    return now.machine, now.held_by, now.grip, now.stick_out, lies, step.step.piece


def _title(groups: Sequence[Group]) -> str:
    """Machine and holding in a few words."""
    first = groups[0][0]
    machine = next((_machine(step) for group in groups for step in group if _machine(step)), "bench")
    return ", ".join(filter(None, (_WHERE.get(machine, machine.capitalize()), first.set_up.held_by)))


def _after(index: int, held: Sequence[list[Group]]) -> tuple[str, ...]:
    """What is done to the whole batch before the next set-up."""
    visits = sorted((step.number, piece, i) for i, groups in enumerate(held) for group in groups
                    for piece, step in enumerate(group))  # fmt: skip
    pieces = max(len(group) for group in held[index])
    order: list[tuple[int, int]] = []
    for _, piece, strip in visits:
        if not order or order[-1] != (piece, strip):
            order.append((piece, strip))
    if pieces < 2:
        return ()
    mine = [n for n, (_, strip) in enumerate(order) if strip == index]
    then = order[mine[0] + 1] if mine[0] + 1 < len(order) else None
    if then is None or max(strip for _, strip in order) == index:
        return ()
    if then[1] == index:
        return (f"All {pieces} pieces through this set-up before the next one.",)
    if then[0] == order[mine[0]][0]:
        return (f"Then set-up {then[1] + 1} with the same piece.",)
    last = order[mine[-1] + 1] if mine[-1] + 1 < len(order) else None
    end = f"; after all {pieces} set-up {last[1] + 1}" if last else ""
    return (f"Then the next piece from set-up {then[1] + 1}{end}.",)


def _only_tried(step: WorkedStep) -> bool:
    """Whether nothing is cut in a step: it plans, or it is a dry run."""
    return step.step.planning or (step.table is not None and step.table.aside)


def _picture(step: WorkedStep, planned: Planned) -> Picture | None:
    """What a part's plan draws of the step; without a plan what the operation draws, with the size that stands beside it."""
    if planned.kinds or _only_tried(step):
        return planned.small.get(step.step.id)
    drawn = step.answer.pictures if step.answer else ()
    found = next((picture for picture in drawn if not picture.true_size), None)
    if found is None:
        return None
    beside = [s for s in found.shapes if isinstance(s, Size) and s.side in ("left", "right") and not s.if_marked]
    return replace(found, shapes=(*(s for s in found.shapes if not isinstance(s, _WORDED)), *beside[:1]))


def _sets(step: WorkedStep) -> Iterator[Text]:
    """What is set in a step and does not stand in its ticks: the speed and the feed first."""
    if step.answer is None or (step.table and step.table.aside):
        return
    ticked = (
        {column.dimension for column in step.table.columns if column.name in step.table.setting}
        if step.table
        else set()
    )
    in_table = settings_of(step.table) if step.table else frozenset()
    wanted: list[Figure] = []
    for kind in ("speed", "feed", "feed_rate"):
        if kind not in ticked:
            wanted += [figure for figure in step.answer.figures if figure.dimension == kind][:1]
    wanted += [figure for figure in step.answer.figures if figure.name == _SLIDE]
    if (
        step.lead is not None and step.lead.name != _SLIDE and not (step.step.counts and step.lead.dimension == "text")
    ):  # a tap's drill: it has been
        wanted.append(step.lead)
    wanted += [figure for figure in step.answer.figures if figure.setting is not None]
    told = {f.name: f for f in wanted if f.setting is None or f.setting not in in_table}
    listed = list(told.values())[:MOST_SETTINGS]
    wheels = [_wheel(figure) for figure in listed if figure.setting is not None]
    for figure in listed:
        yield _figure(figure, named=figure.setting is not None and wheels.count(_wheel(figure)) > 1)


def _wheel(figure: Figure) -> tuple[str, str]:
    """The wheel that a setting is made on, and which way."""
    return (figure.setting.wheel, figure.setting.way) if figure.setting else ("", "")


def _figure(figure: Figure, named: bool) -> Text:
    """A setting and a speed say themselves what they are, but for two on one wheel; anything else has its name."""
    if not named and (figure.setting is not None or figure.dimension == "speed"):
        return text_of(figure)
    label = "Feed" if figure.label.startswith("Feed") else figure.label.replace("{", "(").replace("}", ")")
    return say(f"{label} {{value}}", value=text_of(figure))


def _do(step: WorkedStep) -> Iterator[Text]:
    """What to do, without what the strip and the column of the limits say already; and how the dials are zeroed, where that
    is not at the touch alone."""
    held = step.held
    said = {f"Do not let go before {gate}." for gate in held.gate} if held else set()
    for line in step.do:
        plain = line if isinstance(line, str) else ""
        repeated = plain in said or re.fullmatch(r"Piece \d+ of \d+\.|Set-up: .*", plain)
        if not (repeated or (step.limits and plain.startswith("Measure "))):
            yield line
    notes = step.answer.notes if step.answer and not _only_tried(step) else ()
    yield from (note.text for note in notes if write(note.text).startswith(_ZEROED))
