"""What the app knows while it runs: the shop, the display unit, every form and its last answer. No Textual here."""

from __future__ import annotations

import os.path
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from engine.base.answer import Answer, Caution
from engine.base.operation import Done, run
from engine.base.records import dataclass, field, replace
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, PANES, Entry, load
from engine.safety.told import Told, asked_in
from engine.set_up import SetUp, situation_of
from engine.shop.file import config_file, sample
from engine.shop.file import load as load_shop
from engine.shop.model import Shop
from tui import in_hand
from tui.form import Form, labelled
from tui.in_hand import InHand
from tui.kept import Keeper
from tui.report import write_report
from tui.wording import speak
from tui.worker import Worker

if TYPE_CHECKING:
    from pathlib import Path

PATIENCE = 0.015  # seconds that a key waits for its answer before it is left to a thread
FIRST_PATIENCE = 0.1  # seconds that opening an operation waits: its tables may have to be loaded
START_PATIENCE = 2.0  # the first of all is waited for, so that the first paint holds an answer


@dataclass
class OpenOperation:
    """An operation as it stands on the screen."""

    entry: Entry
    form: Form
    done: Done | None = None  # the last good answer
    done_for: dict[str, str] = field(default_factory=dict)  # what it was the answer to
    refusal: str = ""  # why there is none for what stands in the form
    refused_field: str = ""
    working: bool = False  # still being reckoned
    asked: int = 0  # how often it was reckoned: an answer to an older question is not shown
    scroll: int = 0
    table: int = 0  # which table is in hand
    row: int = 1  # and which row of it

    @property
    def fresh(self) -> bool:
        """Whether the answer belongs to what stands in the form."""
        return self.done is not None and not self.refusal and not self.working


@dataclass(frozen=True)
class Absent:
    """An operation that cannot be opened, and the sentence that says why."""

    entry: Entry
    reason: str


class Session:
    """The state behind every screen."""

    def __init__(self, shop_file: Path | None = None) -> None:
        self.shop_file = shop_file
        self.shop_problem = ""
        self.shop: Shop = self._read_shop()
        self.unit = self.shop.unit
        speak(self.shop.words_for(self.unit))
        self.greeting = self.shop_problem or self._first_start()
        self.jobs_notice = ""  # what is to be said of the jobs' file, until the jobs' screen has said it
        self.told: dict[str, Told] = {}
        self.in_hand, self.set_up = in_hand.load()
        self._offered = self.in_hand  # with what was typed in an operation where nothing was in hand
        self.first_page_read = False  # whether the first page of work at a machine was gone on from
        self.started = False  # whether an operation was opened yet
        self.rules_read = False  # whether the general rules were looked at in this session
        self.pane = PANES[0].id
        self.current: dict[str, str] = {}  # pane -> operation open in it
        self.opened: dict[str, OpenOperation | Absent] = {}
        self.worker = Worker()
        self.keeper = Keeper()
        # How a slow answer reaches the screen: called in a worker's thread with what is to be done with it.
        self.deliver: Callable[[Callable[[], None]], None] = lambda settle: settle()

    def _read_shop(self) -> Shop:
        try:
            return load_shop(self.shop_file)
        except BadInput as refusal:
            self.shop_problem = f"{refusal} The metric sample bench is used; the file is left as it is."
            return sample("metric")

    def _first_start(self) -> str:
        if self.shop_file is not None or os.path.exists(config_file("shop.toml")):
            return ""
        return f"No shop file yet: this is the sample “{self.shop.name}”. F12 makes it your own."

    def shop_says(self, place: tuple[str, ...]) -> str:
        """What the shop's file, or the sample until there is one, says at a place."""
        from engine.shop.edit import begun_text
        from engine.shop.file import shop_path
        from engine.shop.questions import said

        path = self.shop_file or shop_path()
        text = begun_text("metric") if self.shop_problem or not path.exists() else path.read_text(encoding="utf-8")
        return said(text, place)

    def reload_shop(self) -> None:
        """Read the shop again, after it was edited, and answer what is on the screen anew; every other operation is
        answered when it is opened."""
        self.shop_problem = ""
        self.shop = self._read_shop()
        speak(self.shop.words_for(self.unit))
        one = self.here()
        if isinstance(one, OpenOperation):
            self.reckon(one)

    # Panes and operations

    def entries(self, pane: str) -> list[Entry]:
        """The operations of a pane, in order."""
        return [entry for entry in CATALOG if entry.pane == pane]

    def operation_id(self, pane: str) -> str:
        """The operation open in a pane."""
        return self.current.get(pane) or self.entries(pane)[0].id

    def open(self, entry: Entry, given: Mapping[str, str] | None = None) -> OpenOperation | Absent:
        """Open an operation in its pane, with values if some are given; what was typed in another is in hand then."""
        if self._offered != self.in_hand:
            self.in_hand = self._offered
            in_hand.save(self.in_hand, self.set_up)
        self.pane = entry.pane
        self.current[entry.pane] = entry.id
        one = self.opened.get(entry.id)
        if one is None or isinstance(one, Absent):
            one = self._load(entry)
            self.opened[entry.id] = one
        if isinstance(one, OpenOperation):
            if given:
                one.form.fill(dict(given))
            self.reckon(one, FIRST_PATIENCE if self.started else START_PATIENCE)
        self.started = True
        return one

    def open_by_id(self, operation_id: str, given: Mapping[str, str] | None = None) -> OpenOperation | Absent:
        """Open an operation by its id."""
        return self.open(next(entry for entry in CATALOG if entry.id == operation_id), given)

    def neighbour(self, by: int) -> str:
        """The operation before or after the open one, round the pane."""
        ids = [entry.id for entry in self.entries(self.pane)]
        return ids[(ids.index(self.operation_id(self.pane)) + by) % len(ids)]

    def _load(self, entry: Entry) -> OpenOperation | Absent:
        try:
            operation = load(entry.id)
            form = Form(operation.inputs, operation.example, self.unit)
            if entry.id in self.keeper.forms:
                form.take_up(self.keeper.forms[entry.id])
            return OpenOperation(entry, form)
        except (KeyError, ModuleNotFoundError):
            return Absent(entry, f"{entry.title} is not in this version of the program.")
        except Exception as error:  # one broken family must not take the others with it
            return Absent(entry, f"{entry.title} cannot be opened. " + write_report(f"opening {entry.id}", error))

    def here(self) -> OpenOperation | Absent:
        """The operation on the screen."""
        wanted = self.operation_id(self.pane)
        return self.opened.get(wanted) or self.open_by_id(wanted)

    # Answers

    def reckon(self, one: OpenOperation, patience: float = PATIENCE) -> None:
        """Answer what stands in the form, now if it is quick, else as soon as it is there."""
        one.form.take(self.in_hand.fills(one.form.asks))
        given, unit, told = one.form.given(), self.unit, dict(self.told)
        self._keep(one)
        one.asked += 1
        question = one.asked

        def job() -> Done | BadInput:
            return self._work(one.entry.id, given, unit, told)

        def late(result: Done | BadInput) -> None:
            self.deliver(lambda: self._settle(one, given, result) if question == one.asked else None)

        in_time, result = self.worker.run(one.entry.id, job, late, patience)
        if in_time:
            self._settle(one, given, result)
        else:
            one.working, one.refusal, one.refused_field = True, "", ""

    def _keep(self, one: OpenOperation) -> None:
        self.keeper.keep(one.entry.id, self.unit, one.form.texts if one.form.touched else {})

    def stop(self, one: OpenOperation) -> None:
        """Let a search that takes long end with the best it has; its answer comes as it would have."""
        self.worker.stop(one.entry.id)

    def _work(self, operation: str, given: dict[str, str], unit: str, told: dict[str, Told]) -> Done | BadInput:
        try:
            known = situation_of(self.set_up)
            return run(operation, given, self.shop, unit=unit, told=told, known=known, set_up=self.set_up_key)
        except BadInput as refusal:
            return refusal
        except Exception as error:  # the last resort: a mistake of ours becomes one sentence and a report
            said = write_report(f"{operation} {given}", error, self.typed())
            return BadInput("", "", "", f"This could not be worked out; the fault is the program's. {said}")

    def _settle(self, one: OpenOperation, given: dict[str, str], result: Done | BadInput) -> None:
        one.working = False
        if isinstance(result, BadInput):
            one.refusal = labelled(result.written(self.unit), one.form.asks)
            one.refused_field = result.field
            return
        one.done, one.done_for, one.refusal, one.refused_field = result, given, "", ""
        if one.form.touched:
            typed = {name: text for name, text in given.items() if one.form.texts.get(name, "").strip()}
            self._offered = self.in_hand.offered(one.form.asks, typed)
        one.table = min(one.table, max(len(result.answer.tables) - 1, 0))
        rows = len(result.answer.tables[one.table].rows) if result.answer.tables else 1
        one.row = min(max(one.row, 1), max(rows, 1))

    def example(self, one: OpenOperation) -> Answer | None:
        """The answer to an operation's own example, for help; None if this shop cannot do it."""
        result = self._work(one.entry.id, dict(load(one.entry.id).example), "mm", {})
        return None if isinstance(result, BadInput) else result.answer

    @property
    def first_page_due(self) -> bool:
        """Whether the operation on the screen is the session's first at a machine."""
        one = self.here()
        done = one.done if isinstance(one, OpenOperation) else None
        return not self.first_page_read and done is not None and done.moment.machine in ("lathe", "mill")

    def answer_question(self, caution: Caution, yes: bool) -> None:
        """Remember the answer to a caution's question, and choose the cautions anew."""
        self.told.pop(caution.id, None)  # the newest stands last
        self.told[caution.id] = Told(yes, asked_in(caution.question), self.set_up_key)
        self._choose_anew()

    def take_back(self) -> bool:
        """Ask the question last answered again; False when there is none."""
        one = self.here()
        answered = one.done.answered if isinstance(one, OpenOperation) and one.done else ()
        here = {caution.id for caution, _ in answered}
        last = next((name for name in reversed(self.told) if name in here), "")
        if last:
            del self.told[last]
            self._choose_anew()
        return bool(last)

    def _choose_anew(self) -> None:
        one = self.here()
        if isinstance(one, OpenOperation):
            self.reckon(one)

    @property
    def set_up_key(self) -> str:
        """The set-up that an answer belongs to."""
        return repr(self.set_up)

    def take_in_hand(self, held: InHand) -> None:
        """Another part in hand: what is on the screen is answered anew, everything else when it is opened."""
        self.in_hand = self._offered = held
        in_hand.save(held, self.set_up)
        one = self.here()
        if isinstance(one, OpenOperation):
            self.reckon(one)

    def change_set_up(self, set_up: SetUp) -> None:
        """Hold the work another way: cautions are chosen anew, and what was answered in the old set-up lapses."""
        self.set_up = set_up
        in_hand.save(self.in_hand, set_up)
        self._choose_anew()

    def switch_unit(self) -> None:
        """Show mm instead of inch, or the other way; what was typed keeps its meaning, so that its answer stands."""
        old = self.unit
        self.unit = "inch" if old == "mm" else "mm"
        speak(self.shop.words_for(self.unit))
        one = self.here()
        current = isinstance(one, OpenOperation) and one.fresh and one.done_for == one.form.given()
        for opened in self.opened.values():
            if isinstance(opened, OpenOperation):
                opened.form.change_unit(old)
        if not isinstance(one, OpenOperation):
            return
        if current and one.done is not None:
            one.done, one.done_for = replace(one.done, unit=self.unit), one.form.given()
            self._keep(one)
        else:
            self.reckon(one)

    def typed(self) -> dict[str, dict[str, str]]:
        """What stands in every form that was typed in."""
        return {
            name: dict(one.form.texts)
            for name, one in self.opened.items()
            if isinstance(one, OpenOperation) and one.form.touched
        }
