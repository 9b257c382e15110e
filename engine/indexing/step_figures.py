"""What an answer says about how the work is stepped round."""

from __future__ import annotations

from engine.base.answer import Column, Figure
from engine.indexing.stepping import Stepping


def step_figures(stepping: Stepping, what: str) -> list[Figure]:
    """Figures that say how the work is stepped round: device, move, gears if any, error.

    Parameters
    ----------
    stepping : Stepping
        The device and its positions.
    what : str
        What is divided, for the working.

    Returns
    -------
    figures : list of Figure
        The move first.

    Sources
    -------
    As for engine.indexing.stepping.

    Examples
    --------
    >>> from engine.indexing.stepping import step_round
    >>> from engine.shop.file import sample
    >>> step_figures(step_round(6, sample("metric")), "6 flats")[0].text
    '6 turns + 26 holes of 39'
    """
    source = f"{stepping.method}; every position from its exact fraction"
    figures = [
        Figure("step", "Each step", None, "text", source, stepping.working, text=stepping.move),
        Figure("divide_with", "Divide with", None, "text", "common practice, no source", f"{what}: the device with the "
               "least error, the dividing head before the others", text=stepping.device_name),
        Figure("method", "Method", None, "text", source, stepping.working, text=stepping.method),
    ]  # fmt: skip
    if stepping.circle:
        label = "Circle" if stepping.noun == "hole" else "Teeth of the wheel"
        figures.append(Figure("circle", label, stepping.circle, "count", source, stepping.working))
    if stepping.train is not None:
        word = "with" if stepping.train.value > 0 else "against"
        gears = f"{stepping.train.text}; the plate turns {word} the crank"
        figures.append(Figure("gears", "Gears", None, "text", source, stepping.gearing, text=gears))
    worst = f"the worst of {len(stepping.stops)} positions"
    figures.append(Figure("error_seconds", "Error", stepping.error, "seconds_of_arc", source, worst))
    return figures


def place_columns(stepping: Stepping) -> tuple[Column, ...]:
    """Columns that say where the crank or the wheel stands, counted from the start.

    Examples
    --------
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
