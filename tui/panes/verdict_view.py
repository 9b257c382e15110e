"""What a reading means, for two metres: too big, in limits or too small, and the move that it asks for."""

from __future__ import annotations

from engine.base.quantity import show
from engine.base.words import write
from tui.desk import OpenJob
from tui.lines import Line
from tui.panes.large_view import setting_lines

_BOTH = 17  # rows in which the state and the move both stand large


def verdict_lines(job: OpenJob, unit: str, width: int, height: int) -> list[Line]:
    """The newest reading of the row in hand, large; none where there is no reading, or the rows go on as they are."""
    last, limits = job.last_reading, job.step.limits
    if last is None or limits is None or job.finished:
        return []
    found = job.judged(last.reading)
    reading = f"{limits.what} {show(found.reading, 'length', unit)}"
    if found.over_cut:
        return setting_lines(f"{reading} · by {show(found.beyond, 'length', unit)}", found.state.upper(), width, height)
    move = job.next_move()
    if move is not None:
        wheel, text = move
        by = show(found.to_aim, "length", unit)
        if height >= _BOTH:
            above = setting_lines(f"{reading} · by {by}", found.state.upper(), width, height // 2)
            return [*above, *setting_lines(wheel, write(text, unit), width, height - len(above))]
        says = f"{found.state.upper()} by {by} · {wheel}"
        whole = (f"{reading}: {says}", f"{show(found.reading, 'length', unit)}: {says}", says)
        above_it = next((one for one in whole if len(one) <= width), wheel)
        return setting_lines(above_it, write(text, unit), width, height)
    return [] if job.step.rows else setting_lines(reading, "IN LIMITS", width, height)
