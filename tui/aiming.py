"""What the step in hand aims at and what is known for it: its mate and the trials, what the tool takes, what came out before.

No Textual here. Whatever writes returns after the disk has it, like everything of a job.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, Protocol

from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.words import Text, say, shown, write
from engine.jobs import known
from engine.jobs.aims import AIMS, WORDS, Aim, aim_words, refuse_far_mate, usual_room
from engine.jobs.carried import Limits
from engine.jobs.compare import CameOut, came_out, came_out_words, machine_name
from engine.jobs.cuts import plan_cuts, teaches
from engine.jobs.holdings import Allowance, allowance, allowance_words, clock_due, gate_key, gates, read_clock
from engine.jobs.journal import Journal
from engine.jobs.mates import MateReading
from engine.jobs.measuring import Judgement, read_reading
from engine.jobs.progress import Job, Progress, Reading
from engine.jobs.run import Worked, WorkedStep
from engine.jobs.slides import owned_slide
from engine.jobs.springs import KINDS, Spring, checked_share, spring_for, spring_words
from engine.jobs.trials import Joint, Trial, Tried, mate_size, read_trial, refuse_too_far, tried
from engine.threads.form import form

if TYPE_CHECKING:
    from engine.jobs.schema import Recipe

# A mate is measured by these where the part is measured by those.
_FITS = {"diameter": "bore", "bore": "diameter", "over wires": "over wires", "across flats": "across flats"}


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the view: what it is, what stands there, and what Enter does with it."""

    label: str
    says: Text
    hint: str
    use: Callable[[str], None] | None = None  # takes what was typed
    turn: Callable[[], None] | None = None  # nothing is typed: Enter takes the next one
    forget: Callable[[], None] | None = None
    words: bool = False  # what is typed here begins with a letter as well


class Carried(Protocol):
    """The open job, as its aims ask and tell it."""

    job: Job
    journal: Journal
    plan: Recipe
    progress: Progress
    unit: str
    worked: Worked

    @property
    def finished(self) -> bool:
        """Whether every step is done."""

    @property
    def step(self) -> WorkedStep:
        """The step in hand."""

    @property
    def slides(self) -> tuple[str, ...]:
        """The slides whose dial may be told with a reading."""

    @property
    def readings(self) -> tuple[Reading, ...]:
        """The readings of this step."""

    @property
    def last_reading(self) -> Reading | None:
        """The newest of them."""

    def taking(self, reading: float, take: float) -> Judgement:
        """A reading of which so much has still to come off."""

    def keep_aim(self, aim: Aim) -> None:
        """Keep what the step in hand aims at."""

    def keep_trial(self, trial: Trial) -> None:
        """Keep a trial with the mate."""

    def keep_spring(self, spring: Mapping[str, Any]) -> None:
        """Keep what a slide's tool was found to take."""

    def keep_gate(self, gate: str, found: str) -> None:
        """Keep the reading that a gate asks for."""

    def keep_clock(self, typed: str) -> None:
        """Keep what the clock showed after the work was held again."""

    def refresh(self) -> None:
        """Work the job out anew."""


class Aims:
    """The aims of a job, for the step in hand."""

    def __init__(self, job: Carried) -> None:
        self.job = job
        self.springs: tuple[Spring, ...] = ()
        self.before: tuple[CameOut, ...] = ()
        self.mates: dict[str, MateReading | None] = {}
        self.read()

    def read(self) -> None:
        """Read what all jobs know: once when a job is opened, and after something was learned in it."""
        journal = self.job.journal
        self.springs = known.known_springs(journal.everywhere(KINDS))
        readings = journal.everywhere(known.READINGS)
        self.before = known.came_out((e, job) for e, job in readings if job.id != self.job.job.id)
        for step in self.job.plan.steps:
            mate = step.measure.mate if step.measure else None
            if mate is not None:
                self.mates[step.id] = known.mate_reading(readings, mate.part, mate.feature)

    # What is aimed at

    def by_step(self) -> dict[str, Aim]:
        """What each step aims at, by its id, where that is not the middle."""
        found = {}
        for number, step in enumerate(self.job.plan.steps, 1):
            if step.measure is None:
                continue
            aim = self.job.progress.aims.get(number, Aim(step.measure.aim))
            if aim.where == "mate" and aim.mate is None:
                aim = self._with_mate(step.id, step.measure.kind, aim)
            if aim.where != "middle":
                found[step.id] = aim
        return found

    def _with_mate(self, name: str, kind: str, aim: Aim) -> Aim:
        """The mate's size from its own job, where it was measured there in a way that fits this measure."""
        reading = self.mates.get(name)
        if reading is None or _FITS.get(kind) != reading.kind:
            return aim
        return replace(aim, mate=reading.reading, of=f"{reading.job}: {reading.what}")

    @property
    def limits(self) -> Limits | None:
        """What the step in hand is measured by."""
        return self.job.step.limits

    def _aim(self, aim: Aim) -> None:
        self.job.keep_aim(aim)

    def next_aim(self) -> None:
        """Aim at the next of the four; what was told of the mate stays told."""
        aim, told = self._now(), self._told()
        self._aim(Aim(AIMS[(AIMS.index(aim.where) + 1) % len(AIMS)], mate=told.mate, room=aim.room, of=told.of))

    def _now(self) -> Aim:
        return self.limits.aim if self.limits else Aim()

    def _told(self) -> Aim:
        """The aim as it was told here, its mate too where that is not what is aimed at."""
        return self.job.progress.aims.get(self.job.step.number, Aim())

    def mate_measures(self, typed: str) -> None:
        """The mate's size as it was measured; nothing typed: not known any more."""
        size = read_reading(typed, self.job.unit) if typed.strip() else None
        if size is not None and self.limits is not None:
            refuse_far_mate(size, typed, self.limits.low, self.limits.high, self.joint().lead)
        self._aim(replace(self._now(), where="mate", mate=size, of="as you said" if size else ""))

    def room_wanted(self, typed: str) -> None:
        """The room that is to be left between the two; nothing typed: the usual one."""
        self._aim(replace(self._now(), where="mate", room=read_clock(typed, self.job.unit) if typed.strip() else None))

    # Trials

    @property
    def trials(self) -> tuple[Trial, ...]:
        """The trials of the step in hand, the oldest first."""
        return self.job.progress.trials.get(self.job.step.number, ())

    def try_it(self, typed: str) -> None:
        """Keep a trial as it was told, with the reading before it; one that tells the mate's size lets the cuts aim at it."""
        if self.limits is None:
            raise BadInput("tried", typed, "nothing: this step is not measured")
        last = self.job.last_reading
        trial = replace(read_trial(typed, self.job.unit), size=last.reading if last else None)
        refuse_too_far(trial, self.joint())
        self.job.keep_trial(trial)
        size = mate_size(trial, self.joint())
        if size is not None:
            self._aim(replace(self._now(), where="mate", mate=size, of="as tried"))

    def joint(self) -> Joint:
        """What is tried."""
        step, limits = self.job.step, self.limits
        assert limits is not None
        line = 0.0
        if self.job.slides:
            slide, ratio = owned_slide(self.job.slides[0], limits.kind, self.job.job.shop)
            line = ratio * float(slide.travel_per_turn / slide.divisions)
        thread = step.moment.thread if limits.kind == "over wires" else None
        if thread is None:
            return Joint(limits.kind, engaged=limits.aimed.size, line=line)
        return Joint(limits.kind, thread.diameter, float(thread.lead), form(thread).half_angle, line)

    def tried(self) -> Tried | None:
        """What the newest trial means, as long as nothing was measured after it."""
        last = self.job.last_reading
        if not self.trials or self.limits is None or (last and self.trials[-1].size != last.reading):
            return None
        return tried(self.trials[-1], self.joint(), self.trials[:-1])

    def trial_says(self) -> tuple[Text, ...]:
        """The newest trial in words."""
        found = self.tried()
        if found is None or self.limits is None:
            return ()
        return say("Tried: {told}.", told=self.trials[-1].told), *found.says

    @property
    def goes(self) -> bool:
        """Whether it was tried since it was measured, and goes on its mate."""
        found = self.tried()
        return found is not None and found.take == 0 and found.room is None

    # What the tool takes

    def spring(self, slide: str = "") -> Spring | None:
        """What is known of a slide for the step in hand."""
        limits = self.limits
        name = slide or (self.job.slides[0] if self.job.slides else "")
        if limits is None or not name:
            return None
        material, size = self.job.step.moment.material, limits.aimed.size
        return spring_for(self.springs, machine=self.job.job.shop.name, slide=name, material=material, diameter=size)

    def share(self, slide: str = "") -> float:
        """What that slide's tool takes of what its dial says; all of it where nothing is known."""
        found = self.spring(slide)
        return min(found.share, 1.0) if found else 1.0

    def learn(self) -> None:
        """Keep what the readings of the step in hand tell of the slide, if they do."""
        last, limits = self.job.last_reading, self.limits
        if last is None or limits is None or limits.low is None or limits.high is None:
            return
        points = [(r.dial, r.reading) for r in self.job.readings if r.dial is not None and r.slide == last.slide]
        if len(points) < 2:
            return
        plan = plan_cuts(
            points, low=limits.low, high=limits.high, kind=limits.kind, slide=last.slide, shop=self.job.job.shop
        )
        if teaches(plan):
            self.job.keep_spring(
                self._said(last.slide, plan.share, plan.share_give_or_take, plan.readings, last.reading)
            )
            self.read()

    def _said(self, slide: str, share: float, doubt: float, readings: int, size: float) -> Mapping[str, Any]:
        return {
            "machine": self.job.job.shop.name,
            "slide": slide,
            "share": round(share, 4),
            "doubt": round(doubt, 4),
            "readings": readings,
            "material": self.job.step.moment.material,
            "diameter": round(size, 1),
        }

    def _spring_row(self, one: Spring) -> Row:
        def tell(typed: str) -> None:
            if typed.strip():
                share = checked_share(float(_number(typed)))
                self.job.journal.spring_told(one, share)
            else:
                self.job.journal.spring_forgotten(one)
            self._learned_anew()

        def forget() -> None:
            self.job.journal.spring_forgotten(one)
            self._learned_anew()

        where = f"; {one.title}" if one.title else ""
        hint = f"What it takes of what the dial says, such as 0.85{where}. Empty: forget it."
        return Row("Tool takes", spring_words(one), hint, use=tell, forget=forget)

    def _learned_anew(self) -> None:
        self.read()
        self.job.refresh()

    # What came out before

    def about(self, step: WorkedStep) -> dict[str, Any]:
        """What other jobs read of a reading: what was planned, of which operation, on which machine, in what."""
        limits = step.limits
        return {
            "operation": step.step.operation or "",
            "machine": self._machine(step),
            "planned": None if limits is None else limits.planned,
            "kind": "" if limits is None else limits.kind,
            "material": step.moment.material,
            "makes": list(step.step.makes),
        }

    def _machine(self, step: WorkedStep) -> str:
        where = step.set_up.machine or (step.done.operation.machine if step.done else "")
        return machine_name(self.job.job.shop.name, where)

    def came_out(self) -> Text:
        """What the operation of the step in hand gave before on this machine, in a sentence, or nothing."""
        step = self.job.step
        kind = step.limits.kind if step.limits else ""
        operation = step.step.operation or ""
        found = (
            came_out(self.before, machine=self._machine(step), operation=operation, kind=kind) if operation else None
        )
        return came_out_words(found) if found else ""

    # Holdings

    @property
    def clock_due(self) -> bool:
        """Whether the clock is to be read before the step in hand: it takes the work up anew."""
        return self.clocks_here and self.job.step.holding not in self.job.progress.clocked

    @property
    def clocks_here(self) -> bool:
        """Whether the step in hand takes the work up anew: there the clock is read, and read again once it is set true."""
        return not self.job.finished and clock_due(self.job.worked.steps, self.job.step.number)

    @property
    def clock_again(self) -> bool:
        """Whether the clock showed more than is left here: the work is set true, and clocked again."""
        found = self._allowance() if self.clocks_here else None
        return found is not None and found.read is not None and found.left < -1e-9

    def _allowance(self) -> Allowance | None:
        return allowance(self.job.worked.steps, self.job.step.number, self.job.progress.clocked, self.job.plan.unit)

    def clock_says(self) -> Text:
        """What the clock may show in this holding, or what is left of the allowance."""
        found = self._allowance()
        if found is not None:
            return allowance_words(found)
        read = self.job.progress.clocked.get(self.job.step.holding)
        return "" if read is None else say("The clock showed {read}.", read=shown(read))

    @property
    def gates(self) -> tuple[str, ...]:
        """What has still to be found out before the work is let go after the step in hand."""
        if self.job.finished:
            return ()
        return gates(self.job.worked.steps, self.job.step.number, self.job.progress.gates)

    def answer_gate(self, words: str, found: str) -> None:
        """Keep what was found out."""
        clean = " ".join("".join(c if c.isprintable() else " " for c in found).split())
        if not clean:
            raise BadInput("found", "", "what was found, in words or as a number; or: not done")
        self.job.keep_gate(gate_key(self.job.step.holding, words), clean)

    def told_in_this_holding(self) -> str:
        """The newest trial since the work was taken up, as it was told; "" without one."""
        steps, trials = self.job.worked.steps, self.job.progress.trials
        here = self.job.step.holding
        told = [trials[step.number][-1].told for step in steps if step.holding == here and trials.get(step.number)]
        return told[-1] if told else ""

    # The view

    def rows(self) -> tuple[Row, ...]:
        """Everything that can be looked at and changed here."""
        found: list[Row] = []
        if self.limits is not None:
            found += self._aim_rows(self.limits)
        here = self.job.step
        if here.held is not None and here.held.run_out is not None:
            says = self.clock_says() or "not read"
            found.append(Row("Clock", says, "What it shows in one turn of the work.", use=self.job.keep_clock))
        machine = self.job.job.shop.name
        return (*found, *(self._spring_row(one) for one in self.springs if one.machine == machine))

    def _aim_rows(self, limits: Limits) -> list[Row]:
        aim = limits.aim if limits.aim.mate is not None else self._told()
        room = aim.room if aim.room is not None else usual_room(limits.kind)
        size = shown(aim.mate) if aim.mate is not None else "not known"
        told = "; ".join(trial.told for trial in self.trials[-3:]) or "not yet"
        return [
            Row("Aim", self._aim_says(limits), f"Enter: the next ({', '.join(WORDS[one] for one in AIMS)}).",
                turn=self.next_aim),
            Row("Tried", told, "On its mate: binds after 4 turns, will not start, 0.1 along, 0.05 loose, free.",
                use=self.try_it, words=True),
            Row("Mate measures", say("{size}{of}", size=size, of=f" ({aim.of})" if aim.of else ""),
                "In the terms of this measure. Empty: not known.", use=self.mate_measures),
            Row("Room wanted", shown(room), "Between the two on the diameter. Empty: the usual one.", use=self.room_wanted),
        ]  # fmt: skip

    def _aim_says(self, limits: Limits) -> Text:
        if limits.low is None and limits.high is None:
            return "its limit"
        return aim_words(limits.aimed)

    def spare_words(self) -> str:
        """The aim in few words for the line of the measure, where it is not the middle."""
        limits = self.limits
        if limits is None or limits.aim.where == "middle":
            return ""
        return write(aim_words(limits.aimed), self.job.unit)


def _number(typed: str) -> str:
    text = typed.strip().replace(",", ".").removesuffix("%")
    try:
        value = float(text)
    except ValueError:
        raise BadInput("takes", typed, "a number such as 0.85") from None
    return str(value / 100 if typed.strip().endswith("%") else value)
