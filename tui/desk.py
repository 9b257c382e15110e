"""The jobs as the app holds them: the shelf of recipes, the list of jobs, one job open. No Textual here.

Whatever writes may wait for a disk, so the screens call it from a thread; it returns after the disk has it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.base.answer import Caution, Picture
from engine.base.files import BadFile, write_bytes_safely
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import Text, counted, say, shown
from engine.indexing.place import repair
from engine.jobs import recipe
from engine.jobs.aims import WORDS, Aim
from engine.jobs.cuts import CutPlan, plan_cuts, plan_words
from engine.jobs.holdings import read_clock
from engine.jobs.journal import Journal
from engine.jobs.library import Listed, open_recipe, shelf
from engine.jobs.measuring import GROWING, Judgement, judge, read_reading, refuse_slip, sentences
from engine.jobs.places import Place
from engine.jobs.progress import Job, JobLine, MovedOn, Noted, Progress, Reading
from engine.jobs.run import MOST_COUNTED, Worked, WorkedStep, holding_key, resolve, stock_words
from engine.jobs.slides import dial_move, dial_position, move_words, owned_slide, slides_for
from engine.jobs.store import JournalError
from engine.jobs.trials import Trial, tells_a_trial
from engine.safety.told import asked_in
from engine.set_up import SetUp, as_kept
from engine.shop.file import data_folder
from engine.shop.model import Shop
from tui.aiming import Aims

if TYPE_CHECKING:
    from engine.part.part import WorkState

Refusal = (BadInput, JournalError)
_COUNTED = re.compile(r"(\d{1,6})\s+([^\W\d][^\W\d ]*(?: [^\W\d]+){0,2})")
FIRST_PAGE = (0, "first page")  # step and caution under which a job keeps that its first page is read


@dataclass
class Desk:
    """The journal, opened when first needed."""

    journal_file: Path | None = None
    _journal: Journal | None = None

    @property
    def journal(self) -> Journal:
        """The file of all jobs."""
        if self._journal is None:
            self._journal = Journal(self.journal_file)
        return self._journal

    def notice(self) -> str:
        """What there is to say about the file itself: that a damaged one was set aside."""
        return self.journal.notice

    def jobs(self) -> tuple[JobLine, ...]:
        """Every job, the one last worked on first."""
        return self.journal.jobs()

    def recipes(self) -> tuple[Listed, ...]:
        """Every recipe, those that ship first."""
        return shelf()

    def start(self, listed: Listed, shop: Shop) -> OpenJob:
        """Start a job of a recipe."""
        plan, text = open_recipe(str(listed.path) if listed.path else listed.name, shop)
        worked = resolve(plan, shop)
        return self.open(self.journal.start(worked, text, listed.name).id)

    def start_text(self, text: str, name: str, shop: Shop) -> OpenJob:
        """Start a job of a recipe that is on no shelf, such as a plan just made."""
        worked = resolve(recipe.read(text, Path(f"{name}.toml")), shop)
        return self.open(self.journal.start(worked, text, name).id)

    def open(self, job_id: int) -> OpenJob:
        """Take a job up."""
        return OpenJob(self.journal, self.journal.open(job_id))

    def resume(self, job_id: int) -> OpenJob:
        """Take a job up again, and keep that it was."""
        opened = self.open(job_id)
        opened.progress = opened.journal.resumed(job_id)
        return opened


@dataclass(frozen=True, slots=True)
class Measured:
    """What came of a reading: the sentences to show, the state first."""

    judgement: Judgement | None
    says: tuple[Text, ...]


class OpenJob:
    """One job on the screen: the recipe worked out for the shop it was started with, and where it stands."""

    def __init__(self, journal: Journal, job: Job) -> None:
        self.journal = journal
        self.job = job
        self.progress: Progress = job.progress
        self.plan = recipe.read(job.recipe_text, Path(f"{job.recipe_name}.toml"))
        self.unit = job.shop.unit  # what the screen shows it in
        self.aims = Aims(self)
        self.worked: Worked = self._work()
        self.progress = journal.replanned(job.id, self.worked)
        self.moved_on = ""
        self.warning: Text = ""  # what the newest reading means for a later step
        self.moments = self._moments()
        self._drawn: tuple[tuple[str, int, int], tuple[Picture, ...]] | None = None

    def _moments(self) -> dict[str, WorkState]:
        """What each step is drawn from, where the recipe came from a part."""
        if not self.plan.part_file:
            return {}
        from engine.part.plan_drawn import drawn

        try:
            return drawn(self.plan.part_file, self.job.shop, [step.id for step in self.plan.steps])
        except BadInput:  # an older part file, or a shop that has changed: the steps stand without it
            return {}

    def drawings(self, columns: int, rows: int) -> tuple[Picture, ...]:
        """The step in hand as the work lies on the machine, head work also from its end, for so many cells; nothing where
        nothing is known of it."""
        name = self.step.step.id
        if name not in self.moments:
            return ()
        if self._drawn is None or self._drawn[0] != (name, columns, rows):
            from engine.part.plan_drawn import views

            self._drawn = (name, columns, rows), views(self.moments[name], columns=columns, rows=rows)
        return self._drawn[1]

    def _work(self) -> Worked:
        progress = self.progress
        ids = {number: step.id for number, step in enumerate(self.plan.steps, 1)}
        counted = {ids[step]: told for step, told in progress.counted.items() if step in ids}
        return resolve(
            self.plan, self.job.shop, told=progress.told, readings=self._readings(), held=progress.held, counted=counted,
            aims=self.aims.by_step(), springs=self.aims.springs, settled=self._settled(),
        )  # fmt: skip

    def refresh(self) -> None:
        """Work the job out anew after something was told that its steps take."""
        self._work_again()

    def _settled(self) -> dict[str, dict[str, float]]:
        """The readings that each step behind was done with, all by their ids."""
        ids = {number: step.id for number, step in enumerate(self.plan.steps, 1)}
        return {
            ids[step]: {ids[at]: reading for at, reading in known.items() if at in ids}
            for step, known in self.progress.settled.items()
            if step in ids
        }

    def _readings(self) -> dict[str, float]:
        """The newest reading of each step by its id, of the steps that are behind or in hand."""
        ids = {number: step.id for number, step in enumerate(self.plan.steps, 1)}
        return {ids[step]: reading for step, reading in self.progress.standing.items() if step in ids}

    def _work_again(self) -> None:
        """Work out what comes after a reading; the place is kept, or the nearest one where rows have changed."""
        before = {step.number for step in self.worked.steps if step.problem}
        self.worked = self._work()
        self.progress = self.journal.replanned(self.job.id, self.worked)
        here = self.place.step
        self.warning = next(
            (
                say(
                    "This reading leaves step {number}, {title}, without an answer: {problem} Measure again and put the "
                    "reading right; else change that step, or begin this piece anew.",
                    number=step.number,
                    title=step.step.title,
                    problem=step.problem,
                )
                for step in self.worked.steps
                if step.problem and step.number not in before and step.number > here
            ),
            "",
        )

    # Where it stands

    @property
    def finished(self) -> bool:
        """Whether every step is done."""
        return self.progress.finished

    @property
    def place(self) -> Place:
        """The step and row in hand."""
        return self.progress.place

    @property
    def step(self) -> WorkedStep:
        """The step in hand; the last one when the job is finished."""
        return self.worked.steps[min(self.place.step, len(self.worked.steps)) - 1]

    @property
    def next_step(self) -> WorkedStep | None:
        """The step after the one in hand."""
        steps = self.worked.steps
        return steps[self.place.step] if self.place.step < len(steps) else None

    @property
    def unread(self) -> tuple[Caution, ...]:
        """The stop lines of this step that nobody has said are read."""
        key = self.step.number
        return tuple(
            c
            for c in self.step.cautions
            if c.acknowledge and not c.question and (key, c.id) not in self.progress.acknowledged
        )

    @property
    def questions(self) -> tuple[Caution, ...]:
        """What the cautions of this step still ask."""
        return tuple(c for c in self.step.cautions if c.question)

    @property
    def unmeasured(self) -> bool:
        """Whether this step is to be measured and no reading of it is in limits yet."""
        if self.step.limits is None:
            return False
        last = self.last_reading
        return last is None or self.judged(last.reading).state != "in limits"

    @property
    def not_measured(self) -> tuple[WorkedStep, ...]:
        """The steps behind that were to be measured and have no reading after their last cut."""
        return tuple(s for s in self._to_measure() if s.number not in self.progress.standing)

    @property
    def not_in_limits(self) -> tuple[WorkedStep, ...]:
        """The steps behind whose last reading is not in limits; a trial with the mate goes before its limits."""
        read = {at: reading for at, reading in self.progress.standing.items() if at not in self.progress.trials}
        behind = self._to_measure()
        return tuple(s for s in behind if s.number in read and s.limits and not s.limits.hold(read[s.number]))

    def _to_measure(self) -> tuple[WorkedStep, ...]:
        return tuple(s for s in self.worked.steps[: self.place.step - 1] if s.limits)

    # Moving

    def done(self) -> None:
        """The row or step in hand is done."""
        self._move(lambda: self.journal.done(self.job.id, self.progress.seq))

    def back(self) -> None:
        """Go back by one row or step."""
        self._move(lambda: self.journal.back(self.job.id, self.progress.seq))

    def go(self, place: Place) -> None:
        """Go to a named place."""
        self._move(lambda: self.journal.move(self.job.id, self.progress.seq, place))

    def _move(self, move: Callable[[], Progress]) -> None:
        self.moved_on, known = "", self.progress.standing
        try:
            self.progress = move()
        except MovedOn as moved:
            self.progress, self.moved_on = moved.progress, str(moved)
        if self.progress.standing != known:  # cut on after its last reading, or gone back to it
            self._work_again()

    def found(self, typed: str) -> tuple[Place, str]:
        """Where a person says they are: `12` or `line 12` (a row of this step), `step 4`, `hole 7 of line 12`."""
        noun = self.step.table.count_noun if self.step.table else "step"
        words = typed.casefold().split() or [""]
        what, number = " ".join(words[:-1]) or noun, words[-1]
        if what in (noun, "step") and number.isascii() and number.isdecimal():
            at = int(number[:6])
            return (Place(at, 0) if what == "step" else Place(self.place.step, at)), ""
        if not self.counts_holes or self.step.answer is None:
            raise BadInput("place", typed, f"a {noun}, such as {noun} 3")
        place = repair(self.step.answer, typed)
        return Place(self.place.step, place.row), place.text

    def names_a_place(self, typed: str) -> bool:
        """Whether what was typed is meant as a place of this job: it begins with a number, or a word for one."""
        words = typed.casefold().split()
        noun = self.step.table.count_noun.split() if self.step.table else []
        return bool(words) and (words[0].isdecimal() or words[0] in ("step", "hole", "turn", "line", *noun[:1]))

    def counts_here(self, typed: str) -> tuple[str, int] | None:
        """What is to be counted in this step, where that was typed: `12 turns`; None where it was not."""
        said = _COUNTED.fullmatch(typed.strip())
        if said is None:
            return None
        table, noun = self.step.table, " ".join(said[2].casefold().split()).removesuffix("s")
        if table is not None and table.name != "counts":
            raise BadInput("count", typed, "nothing else", f"This step counts each {table.count_noun} already.")
        if not 1 <= int(said[1]) <= MOST_COUNTED:
            raise BadInput("count", typed, f"1 to {MOST_COUNTED}, such as 12 turns")
        return noun, int(said[1])

    def count(self, noun: str, rows: int) -> None:
        """Count so many of something in this step, one at a time."""
        self.progress = self.journal.counting(self.job.id, self.step.number, noun, rows)
        self._work_again()

    # Words of one's own

    @property
    def note_places(self) -> tuple[str, ...]:
        """What a note may belong to, the nearest first."""
        here = self.place
        row = f"{self.step.table.count_noun} {here.row}" if self.step.table and here.row else ""
        return tuple(filter(None, (row, f"step {self.step.number}", "the job")))

    def note(self, words: str, to: str) -> None:
        """Keep a note with one of these."""
        at = Place(0, 0) if to == "the job" else Place(self.step.number, 0)
        if to not in ("the job", f"step {self.step.number}"):
            at = self.place
        clean = " ".join("".join(c if c.isprintable() else " " for c in words).split())
        self.progress = self.journal.noted(self.job.id, at.step, at.row, clean)

    @property
    def notes(self) -> tuple[Noted, ...]:
        """The notes to be read here: to the row in hand, to its step, to the job."""
        here = self.place
        return tuple(
            one
            for one in self.progress.notes
            if one.step == 0 or (one.step == self.step.number and one.row in (0, here.row))
        )

    @cached_property
    def earlier_notes(self) -> tuple[tuple[str, Noted], ...]:
        """What was noted in earlier jobs of the same recipe, with the id of the step; nothing where it cannot be read."""
        try:
            return self.journal.earlier_notes(self.job.id)
        except JournalError:
            return ()

    @property
    def notes_of_earlier(self) -> tuple[Noted, ...]:
        """Those of them that belong to the step in hand, and to the row in hand if they were made at one."""
        name, row = self.step.step.id, self.place.row
        return tuple(one for step, one in self.earlier_notes if step == name and one.row in (0, row))

    @property
    def counts_holes(self) -> bool:
        """Whether a place in this step can be told by a hole of the dividing plate."""
        table = self.step.table
        return table is not None and "hole_from_start" in {column.name for column in table.columns}

    @property
    def being_made(self) -> Text:
        """What is being made, and of what."""
        return say("Being made: {part}. Of {stock}.", part=self.plan.part, stock=stock_words(self.plan))

    # Cautions

    @property
    def first_page_due(self) -> bool:
        """Whether nobody has gone on from this job's first page."""
        return FIRST_PAGE not in self.progress.acknowledged

    def read_first_page(self) -> None:
        """Keep that it is read."""
        self.progress = self.journal.acknowledged(self.job.id, *FIRST_PAGE)

    def answer(self, caution: Caution, yes: bool) -> None:
        """Keep the answer to a caution's question with the set-up it was asked in, and choose the cautions anew."""
        self.progress = self.journal.answered(self.job.id, caution.id, yes, asked_in(caution.question), self.set_up_key)
        self.worked = self._work()

    @property
    def set_up_key(self) -> str:
        """The set-up of the step in hand, to which an answer belongs."""
        return holding_key(self.step.holding, self.step.set_up)

    def take_back(self) -> None:
        """Ask the question of this step that was answered last again."""
        here = {caution.id for caution, _ in self.step.answered}
        last = next((name for name in reversed(list(self.progress.told)) if name in here), "")
        if last:
            self.progress = self.journal.taken_back(self.job.id, last)
            self.worked = self._work()

    def hold(self, set_up: SetUp) -> None:
        """Keep how the work is held in this step's holding, and choose the cautions anew."""
        self.progress = self.journal.held(self.job.id, self.step.holding, as_kept(set_up))
        self.worked = self._work()

    def read(self, caution: str) -> None:
        """Keep that a stop line is read."""
        self.progress = self.journal.acknowledged(self.job.id, self.step.number, caution)

    # Measuring

    @property
    def slides(self) -> tuple[str, ...]:
        """The slides whose dial may be told with a reading."""
        limits = self.step.limits
        return slides_for(limits.kind, self.job.shop, limits.slide) if limits else ()

    @property
    def readings(self) -> tuple[Reading, ...]:
        """The readings of this step, and of this row if it has rows."""
        here = self.place
        return tuple(r for r in self.progress.readings if r.step == here.step and r.row == here.row)

    @property
    def reading_elsewhere(self) -> Reading | None:
        """The newest reading in another row of this step."""
        here = self.place
        return next((r for r in reversed(self.progress.readings) if r.step == here.step and r.row != here.row), None)

    @property
    def last_reading(self) -> Reading | None:
        """The newest reading of this step."""
        return self.readings[-1] if self.readings else None

    def judged(self, reading: float) -> Judgement:
        """A reading against the limits of this step."""
        limits = self.step.limits
        assert limits is not None
        if limits.low is None and limits.high is None:
            return judge(reading, low=None, high=None, kind=limits.kind)
        found, trial = limits.aimed, self.aims.tried()
        if trial is not None and self.last_reading is not None and reading == self.last_reading.reading:
            if self.aims.goes:
                return judge(reading, low=reading, high=reading, kind=limits.kind)
            if trial.take:
                return self.taking(reading, trial.take)
        return judge(
            reading, low=found.low, high=found.high, kind=limits.kind, target=found.size, aim=WORDS[limits.aim.where]
        )

    def taking(self, reading: float, take: float) -> Judgement:
        """A reading of which so much has still to come off, as a trial says."""
        limits = self.step.limits
        assert limits is not None
        size = reading + (take if limits.kind in GROWING else -take)
        return judge(reading, low=size - take / 2, high=size + take / 2, kind=limits.kind, target=size, aim="its mate")

    def keep(self, reading: str, turns: str, dial: str, slide: str, unit: str, correcting: Reading | None) -> None:
        """Keep a reading as typed, with where the dial stood if that was typed too."""
        limits = self.step.limits
        if limits is None:
            raise BadInput("reading", reading, "nothing: this step is not measured")
        if correcting is None and tells_a_trial(reading):
            self.aims.try_it(reading)
            return
        value = read_reading(reading, unit)
        if limits.low is not None or limits.high is not None:
            refuse_slip(self.judged(value), reading)
        stood = self._dial(turns, dial, slide, unit)
        if correcting is not None:
            self.progress = self.journal.corrected(self.job.id, correcting.seq, value, dial=stood)
            self.aims.learn()
            self._work_again()
            return
        self.progress = self.journal.measured(
            self.job.id, self.place.step, value, row=self.place.row, dial=stood,
            slide=slide if stood is not None else "", what=limits.what, about=self.aims.about(self.step),
        )  # fmt: skip
        self.aims.learn()
        self._work_again()

    def keep_aim(self, aim: Aim) -> None:
        """Keep what the step in hand aims at."""
        self.progress = self.journal.aimed(self.job.id, self.step.number, aim)
        self._work_again()

    def keep_trial(self, trial: Trial) -> None:
        """Keep a trial with the mate."""
        self.progress = self.journal.tried(self.job.id, self.step.number, trial)

    def keep_spring(self, spring: Mapping[str, Any]) -> None:
        """Keep what a slide's tool was found to take in the step in hand."""
        self.progress = self.journal.learned(self.job.id, self.step.number, spring)

    def keep_gate(self, gate: str, found: str) -> None:
        """Keep what was found out before the work is let go."""
        self.progress = self.journal.found_at_gate(self.job.id, gate, found)

    def keep_clock(self, typed: str) -> None:
        """Keep what the clock showed in the holding in hand, as typed."""
        reading = read_clock(typed, self.unit)
        self.progress = self.journal.clocked(self.job.id, self.step.number, self.step.holding, reading)

    def _dial(self, turns: str, dial: str, slide: str, unit: str) -> float | None:
        if not turns.strip() and not dial.strip():
            return None
        limits = self.step.limits
        assert limits is not None
        owned, _ = owned_slide(slide, limits.kind, self.job.shop)
        whole = turns.strip() or "0"
        if not (whole.isascii() and whole.isdecimal() and len(whole) < 5):
            raise BadInput("turns", turns, "whole turns from the dial's zero, such as 1")
        shown = 0.0 if dial.strip() in ("", "0") else _dial_reading(dial, unit)
        return dial_position(owned, turns=int(whole), reading=shown)

    def measured(self) -> Measured:
        """What the newest reading of this step means, and the last cuts if two dial settings are known."""
        last, limits = self.last_reading, self.step.limits
        if last is None or limits is None:
            return Measured(None, ())
        judgement = self.judged(last.reading)
        cuts = self._last_cuts(judgement, last)
        move: Text = ""
        # A plan that knows what the tool really takes stands in the place of what the dial alone would say.
        if judgement.more and self.slides and not (cuts and cuts.cuts):
            name = last.slide or self.slides[0]
            move = move_words(dial_move(judgement, name, self.job.shop, takes=self.aims.share(name)))
        says = sentences(judgement, move=move, own=limits.over_cut)
        later = (self.warning,) if self.warning else ()
        return Measured(judgement, (*says, *(plan_words(cuts) if cuts else ()), *self.aims.trial_says(), *later))

    def next_move(self) -> tuple[str, Text] | None:
        """What the newest reading asks the hand to set, and on what; None where nothing has to come off."""
        last, limits = self.last_reading, self.step.limits
        judgement = self.judged(last.reading) if last is not None and limits is not None else None
        if last is None or judgement is None or not judgement.more:
            return None
        cuts = self._last_cuts(judgement, last)
        if cuts and cuts.cuts:
            stands = cuts.cuts[0].setting
            turns = counted(stands.turns, "turn")
            return f"{last.slide} slide to", say("{turns}, dial {reading}", turns=turns, reading=shown(stands.reading))
        if not self.slides:
            return "roll on" if judgement.kind == "knurl" else "take off", shown(judgement.to_aim)
        name = last.slide or self.slides[0]
        move = dial_move(judgement, name, self.job.shop, takes=self.aims.share(name))
        ways = ((move.setting.turns, "turn"), (move.setting.lines, "line"))
        said = [counted(n, noun) for n, noun in ways if n]
        return f"{name} slide {move.way}", " + ".join(said) or "0 lines"

    def _last_cuts(self, judgement: Judgement, last: Reading) -> CutPlan | None:
        limits = self.step.limits
        assert limits is not None
        points = [(r.dial, r.reading) for r in self.readings if r.dial is not None and r.slide == last.slide]
        spring = self.aims.spring(last.slide) if last.slide else None
        if not judgement.more or len(points) < (1 if spring else 2) or judgement.low is None or judgement.high is None:
            return None
        size = last.reading + (judgement.to_aim if limits.kind in GROWING else -judgement.to_aim)
        return plan_cuts(
            points, low=judgement.low, high=judgement.high, kind=limits.kind, slide=last.slide, shop=self.job.shop,
            target=size, takes=(spring.share, spring.doubt) if spring else None,
        )  # fmt: skip

    # The sheet

    def save_sheet(self, unit: str) -> Path:
        """Write the job's card as a page, whole, and say where."""
        from tui.paper.made import Asked, Source, file_name, planned_of, stamp, written

        source = Source(self.worked, planned_of(self.worked), self.progress, self.job.part)
        path = data_folder() / "sheets" / file_name(f"{self.job.title} {self.job.id}", "html")
        try:
            write_bytes_safely(path, written(source, Asked("html", unit, "", False, *stamp())))
        except OSError as error:
            raise BadInput("sheet", path, "", f"sheet: NOT SAVED: {path}: {error.strerror}.") from None
        return path


def _dial_reading(text: str, unit: str) -> float:
    try:
        return read_reading(text, unit)
    except BadInput as refusal:
        raise BadInput("dial", text, "what the dial shows, such as 0.35") from refusal


def one_line(error: Exception) -> str:
    """A refusal in one line; of a file with many mistakes the first, and how many more."""
    if isinstance(error, BadFile) and len(error.problems) > 1:
        return f"{error.problems[0]} (and {len(error.problems) - 1} more: `tommybar check` lists them)"
    return str(error).splitlines()[0]
