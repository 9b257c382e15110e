"""What an answer says about how the work is stepped round."""

from __future__ import annotations

from engine.base.answer import Answer, Column, Figure, Note, warning, words
from engine.base.records import replace
from engine.base.words import Text, bare, say
from engine.indexing.stepping import Stepping
from engine.indexing.way import counted, crank
from engine.shop.model import Shop

NOTICED = 0.05  # seconds of arc: an error below it is the rounding of the last digit shown
_PRACTICE = "common practice, no source"


def step_figures(stepping: Stepping, what: str) -> list[Figure]:
    """Figures that say how the work is stepped round, the move first: device, circle, arms, gears if any, error.

    >>> from engine.indexing.stepping import step_round
    >>> from engine.shop.file import sample
    >>> step_figures(step_round(6, sample("metric")), "6 flats")[0].text
    '6 turns + 26 holes of 39'
    """
    source = f"{stepping.method}; every position from its exact fraction"
    least = f"{what}: the device with the least error, the dividing head before the others"
    step = words("step", "Each step", stepping.move, source, stepping.working)
    way = stepping.way
    if way is not None and stepping.device == "head" and not way.second_circle:
        step = replace(step, setting=crank(way, 360 / len(stepping.stops)))
    figures = [
        step,
        words("divide_with", "Divide with", stepping.device_name, _PRACTICE, least),
        words("method", "Method", stepping.method, source, stepping.working),
    ]
    if stepping.circle:
        label = "Circle" if stepping.noun == "hole" else "Teeth of the wheel"
        figures.append(Figure("circle", label, stepping.circle, "count", source, stepping.working))
    if way is not None and way.holes and stepping.device == "head" and way.method != "direct":
        pins = f"{counted(way.holes, 'space')} and the starting hole, which is counted as the first"
        figures.append(Figure("sector_holes", "Sector arms span", way.sector_holes, "count", source, pins))
    if stepping.train is not None:
        word = "with" if stepping.train.value > 0 else "against"
        gears = f"{stepping.train.text}; the plate turns {word} the crank"
        figures.append(words("gears", "Gears", gears, source, stepping.gearing))
    worst = f"the worst of {len(stepping.stops)} positions"
    return [*figures, Figure("error_seconds", "Error", stepping.error, "seconds_of_arc", source, worst)]


def place_columns(stepping: Stepping) -> tuple[Column, ...]:
    """Columns that say where the crank or the wheel stands, counted from the start.

    >>> from engine.indexing.stepping import step_round
    >>> from engine.shop.file import sample
    >>> [c.label for c in place_columns(step_round(6, sample("metric"), device="wheel"))]
    ['Turns from start', 'Tooth from start']
    """
    if not stepping.counts_holes:
        return ()
    return (
        Column("whole_turns", "Turns from start", "count"),
        Column("hole_from_start", f"{stepping.noun.capitalize()} from start", "count"),
    )


def step_notes(stepping: Stepping, on_work: Text = "") -> list[Note]:
    """What is worth saying of the way round; `on_work` says what its error is on the work."""
    notes = []
    if stepping.error > NOTICED:
        off = bare(stepping.error, "seconds_of_arc")
        more = say(", {on}", on=on_work) if on_work else ""
        notes.append(warning("Not exact: {off} seconds of arc off at worst{on}.", off=off, on=more))
    if stepping.train is not None:
        notes.append(warning("Heads differ: turn the crank once and look which way the plate creeps."))
    if stepping.method == "compound":
        notes.append(warning("Compound indexing is easy to get wrong: check both pins' holes."))
    if not stepping.device:
        notes.append(warning("The shop has nothing to divide with: positions are given as angles."))
    return notes


def all_moves(count: int, answer: Answer, shop: Shop) -> Text:
    """Every move added up against the turns of the crank for one turn of the work."""
    if shop.dividing_head is None or answer.figure("divide_with").text != "dividing head":
        return ""
    ratio, move = shop.dividing_head.ratio, answer.figure("step").text
    if answer.figure("method").text != "simple":
        return f"{count} moves must add up to {ratio} turns of the crank"
    return say("{n} moves of {move} must make {ratio} turns of the crank", n=count, move=move, ratio=ratio)
