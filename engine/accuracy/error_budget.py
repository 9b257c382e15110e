"""`error-budget`: how good a thread, a line, a hole or a diameter will be; and how to measure one's own machine."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from engine.accuracy import budgets
from engine.accuracy.budget import Share, budget_figures, budget_table, expanded
from engine.accuracy.budget_picture import budget_picture
from engine.accuracy.machines import leadscrew
from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Note, Table, figure, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import arctan, mm
from engine.base.tables import rows
from engine.base.words import Text, say, shown, write
from engine.shop.model import Shop
from engine.situation import Situation
from engine.threads.sides import is_nut
from engine.threads.thread import Thread

_GOOD_TO = 0.01  # mm, a clock's line; common practice, no source
_STATE = "the band against what is allowed: up to half of it can be held (common practice, no source)"
_ALLOWED = "as given, or half of the class; of a reamed hole of H7"
_CHOICES = ("thread", "drum", "holes", "diameter", "bore", "reamed", "length", "leadscrew", "head", "dial")


@dataclass(frozen=True, slots=True, kw_only=True)
class ErrorBudgetInputs:
    """What `error-budget` is told.

    what: Work: thread, drum, holes, diameter, bore, reamed hole, length. Machine: leadscrew, head, dial: measure your own.
    size: The screw to cut.
    tolerance: Class of the screw.
    length: Of the thread in its nut, of the cylinder or the bore, or between two faces.
    diameter: Of the drum, of the circle of holes, turned, bored, reamed or of the face.
    allowed: Half of the tolerance. Empty: of a thread its class's, of a reamed hole H7's, else nothing is judged.
    run_out: Whole reading of the clock on the drum. Empty: as little as truing by a clock leaves.
    moved: What the screw or the dial says; for a head what the clock reads apart at two points.
    known: By a known bar or a clock; for a head the distance between its two points.
    good_to: How well the bar or the clock tells the true distance.
    """

    what: str = ask.choice("Made or tried", _CHOICES, default="thread", example="thread")
    size: Thread | None = ask.thread("Thread", example="M10", empty="none")
    tolerance: str | None = ask.text("Tolerance class", example="6g", empty="usual")
    length: float | None = ask.length("Length", high=3000, example="20", empty="1 diameter")
    diameter: float | None = ask.length("Diameter", high=1000, example="36", empty="none")
    allowed: float | None = ask.length("Allowed, ±", high=10, example="0.02", empty="by class")
    run_out: float | None = ask.length("Run-out as clocked", low=-1e-9, high=2, example="0.02", empty="trued")
    moved: float | None = ask.length("Moved by the dial", low=-1e-9, high=3000, example="100", empty="not tried")
    known: float | None = ask.length("True distance", high=3000, example="100.02", empty="not tried")
    good_to: float = ask.length("Known to, ±", low=-1e-9, high=1, default=_GOOD_TO, example="0.01")


def _needed(inputs: ErrorBudgetInputs, name: str) -> float:
    value: float | None = getattr(inputs, name)
    if value is None:
        words_ = f"{name}: a {name} is needed{f' for {inputs.what}' if inputs.what != name else ''}."
        raise BadInput(name, "", f"a {name}", words_)
    return value


def _thread(inputs: ErrorBudgetInputs, shop: Shop) -> list[Share]:
    if inputs.size is None:
        raise BadInput("size", "", "a thread", "size: a thread is needed, such as M10.")
    if is_nut(inputs.size, inputs.tolerance):
        raise BadInput("size", str(inputs.size), "a screw: a nut is tried by its gauge or its screw")
    return budgets.thread_cut(inputs.size, shop, tolerance=inputs.tolerance, length=inputs.length)


def _holes(inputs: ErrorBudgetInputs, shop: Shop) -> list[Share]:
    across = _across(inputs)
    if shop.mill is None:
        raise BadInput("what", "holes", "what this shop has a machine for: it has no mill table")
    return budgets.holes_set_out(across, shop.mill)


def _across(inputs: ErrorBudgetInputs) -> float:
    return _needed(inputs, "diameter")


def _long(inputs: ErrorBudgetInputs) -> tuple[float, float]:
    long = _needed(inputs, "length")
    return long, inputs.diameter or long


def _usual(inputs: ErrorBudgetInputs) -> float | None:
    """What is allowed where nothing was said. [mm]"""
    if inputs.what == "thread" and inputs.size:
        return budgets.half_of_class(inputs.size, inputs.tolerance)
    return budgets.half_of_reamed(_across(inputs)) if inputs.what == "reamed" else None


# What is made: what its figure is called, and what goes into its error.
_BUDGETS: dict[str, tuple[str, Callable[[ErrorBudgetInputs, Shop], list[Share]]]] = {
    "thread": ("Pitch diameter", _thread),
    "drum": ("Line on the rim", lambda i, shop: budgets.drum_divided(_across(i), shop, run_out=i.run_out)),
    "holes": ("Hole out of place", _holes),
    "diameter": ("Diameter", lambda i, shop: budgets.diameter_turned(_across(i), i.length or _across(i), shop)),
    "bore": ("Bore", lambda i, shop: budgets.bore_turned(_across(i), i.length or _across(i), shop)),
    "reamed": ("Reamed hole", lambda i, shop: budgets.hole_reamed(_across(i))),
    "length": ("Length", lambda i, shop: budgets.length_turned(*_long(i), shop)),
}


def _budget(inputs: ErrorBudgetInputs, shop: Shop) -> Answer:
    label, shares_of = _BUDGETS[inputs.what]
    shares = shares_of(inputs, shop)
    allowed = inputs.allowed if inputs.allowed is not None else _usual(inputs)
    found = list(budget_figures(shares, label))
    good = expanded(shares)
    if allowed is not None:
        state = budgets.held(good, allowed)
        against = say("{good} of {allowed} allowed either way", good=shown(good, side="up"), allowed=shown(allowed))
        found = [
            words("state", "Result", state, _STATE, against),
            *found,
            Figure("allowed", "Allowed, ±", allowed, "length", _ALLOWED, against),
            figure("share", "Of what is allowed", mm(good) / mm(allowed) * 100, _STATE, dimension="percent"),
        ]
    if inputs.what == "drum":
        turned = arctan(mm(good) / mm(_across(inputs) / 2)) * 3600
        found.append(figure("seconds", "Which is an angle of", turned, "geometry", dimension="seconds_of_arc"))
    notes, drawn = tuple(_budget_notes(inputs, shop, shares)), budget_picture(shares, allowed)
    moments = (Situation(thread=inputs.size),)
    return Answer(tuple(found), (budget_table(shares),), (drawn,), notes, moments=moments)


def _budget_notes(inputs: ErrorBudgetInputs, shop: Shop, shares: list[Share]) -> Iterator[Note]:
    largest = max(shares, key=lambda share: share.standard)
    yield Note("info", say("Most comes from: {cause}.", cause=largest.cause))
    if any("as good as new" in write(share.cause) or "as heads are" in write(share.cause) for share in shares):
        text = (
            "Your own machine is not measured: its part is what a standard lets a new one be. Try "
            "leadscrew, head or dial, and keep the result in the shop."
        )
        yield Note("info", text)
    if play := _backlash(inputs.what, shop):
        text = "Come to every setting from the same side: else the slide's backlash, {play}, comes on top."
        yield Note("info", say(text, play=shown(play)))


def _backlash(what: str, shop: Shop) -> float:
    if what == "holes" and shop.mill is not None:
        return max(shop.mill.x.backlash or 0.0, shop.mill.y.backlash or 0.0)
    if shop.lathe is None or what not in ("diameter", "bore", "length"):
        return 0.0
    return (shop.lathe.top_slide.backlash or 0.0) if what == "length" else 2 * (shop.lathe.cross_slide.backlash or 0.0)


def _way_table(what: str) -> Table:
    ways = [row["do"] for row in rows("accuracy/ways.csv") if row["what"] == what]
    columns = (Column("step", "Step", "count"), Column("do", "Do"))
    return Table(
        "how", f"How to try the {what}", columns, tuple(enumerate(ways, 1)), source="common practice, no source"
    )


def _own(inputs: ErrorBudgetInputs, shop: Shop) -> Answer:
    """What one's own leadscrew, head or dial is out by."""
    table = _way_table(inputs.what)
    if inputs.moved is None or inputs.known is None:
        first = words("state", "Result", "try it as the table says", "common practice, no source", "not tried yet")
        return Answer(figures=(first,), tables=(table,))
    if inputs.moved <= 0 and inputs.what != "head":
        raise BadInput("moved", say("{moved}", moved=shown(inputs.moved)), "the distance the dial says it moved")
    moved, known = mm(max(inputs.moved, 0.0)), mm(inputs.known)
    if inputs.what == "head":
        apart = arctan(moved / known) * 3600
        good = arctan(mm(inputs.good_to) / known) * 3600
        source = "geometry: a bar that is parallel stands level again after half a turn"
        found = (
            figure("seconds", "The head is out by", apart, source, dimension="seconds_of_arc"),
            figure("seconds_good_to", "Known to, ±", good, source, dimension="seconds_of_arc"),
        )
        text = "Keep it in the shop, as measured, dividing head: {seconds}."
        keep = say(text, seconds=shown(float(apart), "seconds_of_arc"))
        return Answer(found, (table,), notes=_kept(float(apart), float(good), keep))
    error = known - moved
    ppm = error.known() / moved * 1_000_000
    found_ = (
        figure("error", "It goes too far by", error, "the true distance less the dial's", decimals=4),
        figure("error_ppm", "Parts in a million", ppm, "arithmetic", dimension="ppm"),
        Figure("good_to", "Known to, ±", inputs.good_to, "length", "as given", "as given"),
    )
    if inputs.what == "leadscrew":
        new = leadscrew(inputs.moved, Shop())
        why = "in proportion to the length"
        limit = Figure("limit", "A new one may, ±", new.most, "length", new.source, why, decimals=4)
        keep = say("Keep it in the shop, as measured, leadscrew: {ppm}.", ppm=shown(float(ppm), "ppm"))
        return Answer((*found_, limit), (table,), notes=_kept(float(error), inputs.good_to, keep))
    keep = say("Keep it in the shop, as measured, cross slide: {error}.", error=shown(abs(float(error))))
    return Answer(found_, (table,), notes=_kept(float(error), inputs.good_to, keep))


def _kept(error: float, good_to: float, keep: Text) -> tuple[Note, ...]:
    if abs(error) <= good_to:
        return (Note("warning", "No more than the way of measuring can tell: try it over a longer way."),)
    return (Note("info", keep),)


def _work(inputs: ErrorBudgetInputs, shop: Shop) -> Answer:
    return _budget(inputs, shop) if inputs.what in _BUDGETS else _own(inputs, shop)


def _largest(inputs: ErrorBudgetInputs, answer: Answer, shop: Shop) -> Text:
    """What most of the band comes from."""
    if not any(table.name == "budget" for table in answer.tables):
        return ""
    row = answer.table("budget").rows[0]
    return say("{cause}: {most} at the most", cause=row[0], most=shown(row[1]))  # type: ignore[arg-type]


OPERATION = Operation(
    id="error-budget",
    pane="turning",
    place=90,
    title="How good will it be?",
    words="error budget accuracy uncertainty tolerance hold limits leadscrew dial backlash head test calibrate check "
    "machine how accurate precise repeat measure own lathe",
    inputs=ErrorBudgetInputs,
    work=_work,
    hazards=(),
    example={"what": "thread", "size": "M10"},
    troubles={"FI-01": _largest},
    help="Adds up what each cause may do to a thread, a line, a hole or a diameter; and tries your own machine.",
)
