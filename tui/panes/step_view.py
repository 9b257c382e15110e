"""A job's step as lines: the one thing to set now, large; where we are; what comes next; what was measured."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Figure, Table
from engine.base.declare import asks
from engine.base.quantity import show
from engine.base.records import replace
from engine.base.showing import figure_text
from engine.base.words import write
from engine.jobs.pieces import piece_words
from engine.jobs.places import Place
from engine.jobs.run import WorkedStep
from tui.desk import OpenJob
from tui.glyphs import plain
from tui.keys import named
from tui.lines import Line, beside, centred, fitted, heading, line, width_of, wrapped
from tui.panes.answer_view import figure_lines
from tui.panes.card import group_lines
from tui.panes.large_view import counted_lines, row_lines, row_setting, setting_lines
from tui.panes.verdict_view import verdict_lines
from tui.widgets import warn
from tui.widgets.picture import drawn, lying

WIDE = 110
_BOTH = 16  # rows in which a setting and the count both stand large
_GROUPED = 6  # rows from which the figures stand in their groups
_SPOKEN = 10  # rows from which the spindle's speed has one of its own
_LEAST = 12  # rows that the setting and what follows need


def where(job: OpenJob) -> str:
    """Where the job stands: step 7 of 20."""
    total = len(job.worked.steps)
    if not job.finished:
        return f"step {job.place.step} of {total}"
    passed = len(job.progress.passed_over)
    return f"at the end, {passed} of {total} steps passed over" if passed else f"all {total} steps done"


def end_words(job: OpenJob) -> tuple[str, ...]:
    """What a job at its end has done: every step, or how many were passed over, and what was not measured or is not in limits."""
    passed = job.progress.passed_over
    said = "Every step is done."
    if passed:
        was = "step was" if len(passed) == 1 else "steps were"
        said = f"{len(passed)} {was} passed over and not said to be done: {_runs(passed)}."
    found = (("Not measured", job.not_measured), ("Not in limits as read last", job.not_in_limits))
    named = ((what, "; ".join(f"{one.number} {plain(one.step.title)}" for one in steps)) for what, steps in found)
    return (said, *(f"{what}: {which}." for what, which in named if which))


def _runs(numbers: Sequence[int]) -> str:
    """Numbers in order, those that follow each other as one run: 1 to 4, 7."""
    found: list[list[int]] = []
    for one in numbers:
        if found and one == found[-1][-1] + 1:
            found[-1].append(one)
        else:
            found.append([one])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 1 else str(run[0]) for run in found)


def job_title(job: OpenJob) -> str:
    """The job's name, with its part if it is not the first."""
    return f"{job.job.title}, part {job.job.part}" if job.job.part > 1 else job.job.title


def pieces(job: OpenJob) -> str:
    """Which of several pieces is in hand, and how many are finished."""
    return piece_words(job.plan, job.place.step)


def comes_next(job: OpenJob, unit: str) -> str:
    """What follows: the next row's setting, or the next step."""
    step = job.step
    if job.finished:
        return "Nothing: the job is done."
    if step.table and job.place.row < step.rows:
        settings = row_setting(step.table, job.place.row + 1, unit)
        words = "; ".join(f"{text}" for _, text in settings)
        return f"{step.table.count_noun} {job.place.row + 1}" + (f": {words}" if words else "")
    return job.next_step.step.title if job.next_step else "the end of the job"


def step_lines(job: OpenJob, unit: str, width: int, height: int) -> list[Line]:
    """The step without its cautions."""
    if job.finished:
        return _finished(job, width)
    step = job.step
    top = [heading(plain(step.step.title), width, f"{step.heading} · {where(job)}")]
    do = [wrapped(write(sentence, unit), width, first="- ") for sentence in step.do]
    measured = _within(measured_lines(job, unit, width), max(height - len(top) - _LEAST, 2))
    notes = len(step.answer.notes) if step.answer else 0
    more = f" · {named('all')}: {notes} note{'s' if notes > 1 else ''} on this" if notes else ""
    tail = [*measured, *wrapped(f"Then {comes_next(job, unit)}{more}", width, "hint", rest="  ")]
    room = height - len(top) - len(tail)
    # What to do is read at a step's first row; after that the setting has the room.
    least = 1 if job.place.row <= 1 else 0
    taken = taken_lines(job, unit, width)[: max(room // 3, 1)]
    left = room - len(taken)
    shown_do = _do_lines(do, max(left - (12 if step.table else 9), least) if step.answer else left)
    shown_do += taken
    shown_do += note_lines(job, width, max(room // 3, 1))
    body = _main(job, step, unit, width, room - len(shown_do))
    gap = [line()] * max(room - len(shown_do) - len(body), 0)
    return [*top, *shown_do, *body, *gap, *tail][:height]


def _within(lines: list[Line], room: int) -> list[Line]:
    """So many lines, and the key that shows the rest."""
    return lines if len(lines) <= room else [*lines[: room - 1], line(f"{named('all')}: all that it means", "hint")]


def _do_lines(do: Sequence[Sequence[Line]], room: int) -> list[Line]:
    """What to do, as many whole sentences as there is room for, and the key that shows all where that is not all."""
    if sum(map(len, do)) <= room:
        return [runs for sentence in do for runs in sentence]
    out: list[Line] = []
    for sentence in do:
        if len(out) + len(sentence) >= room:
            break
        out += sentence
    return [*out, line(f"{named('all')}: all that is to be done here", "hint")] if room > 0 else []


def _main(job: OpenJob, step: WorkedStep, unit: str, width: int, height: int, whole: bool = False) -> list[Line]:
    """The one thing to set now; `whole`: it has all the room."""
    if height < 1:
        return []
    if step.problem:
        return [*wrapped(f"! This step could not be worked out: {write(step.problem, unit)}", width, "bad", rest="  "),
                *wrapped(step.remedy, width, first="  ")][:height]  # fmt: skip
    if verdict := verdict_lines(job, unit, width, height if whole else _share(height)):
        return verdict
    if step.table:
        speed = _speed_line(step, unit, width) if height >= _SPOKEN else []
        return [*_counted(step.table, step, job.place.row, unit, width, height - len(speed)), *speed]
    answer, lead = step.answer, step.lead
    if lead is None or answer is None:
        if step.limits is None:  # by hand, nothing to set: what is to be done, for the far end of the bench
            return setting_lines("By hand", plain(step.step.title), width, height)
        label, text = step.limits.what, limit_words(job, unit)
    else:
        label, text = lead.label, figure_text(lead, unit)
    first = answer.lead if answer and lead is None and answer.lead.dimension == "speed" else None
    said = [centred([(f"{plain(first.label)}: {figure_text(first, unit)}", "strong")], width)] if first else []
    body = [*setting_lines(label, text, width, min(height if whole else _share(height), height - len(said))), *said]
    small = tuple(f for f in answer.figures if f not in (lead, first)) if answer else ()
    return [*body, *_others(small, unit, width, height - len(body))][:height]


def _speed_line(step: WorkedStep, unit: str, width: int) -> list[Line]:
    """The spindle's speed, where it is one for every row: it is set once, and looked for when the machine starts."""
    table, answer = step.table, step.answer
    if table is None or answer is None or any(column.dimension == "speed" for column in table.columns):
        return []
    speeds = [figure for figure in answer.figures if figure.name == "rpm" and figure != step.lead]
    return [centred([(f"{plain(one.label)}: {figure_text(one, unit)}", "text")], width) for one in speeds]


def _counted(table: Table, step: WorkedStep, row: int, unit: str, width: int, height: int) -> list[Line]:
    """The row in hand; of what is counted by hand and set the same each time, the setting over the count."""
    lead = step.lead
    if table.name != "counts" or lead is None or lead.setting is None:
        return row_lines(table, row, unit, width, height)
    if height < _BOTH:
        count = f"{table.count_noun} {row} of {len(table.rows)}".capitalize()
        body = setting_lines(f"{count} · {lead.label}", figure_text(lead, unit), width, _share(height))
        small = tuple(f for f in step.answer.figures if f != lead) if step.answer else ()
        return [*body, *_others(small, unit, width, height - len(body))][:height]
    above = height * 3 // 5
    setting = setting_lines(lead.label, figure_text(lead, unit), width, above)
    return [*setting, line(), *row_lines(table, row, unit, width, height - len(setting) - 1)]


def taken_lines(job: OpenJob, unit: str, width: int) -> list[Line]:
    """Which of the step's sizes were measured, what the clock may show, what has to be found out before letting go."""
    step, out = job.step, list[Line]()
    if step.done is not None:
        questions = asks(step.done.operation.inputs)
        for name, reading in step.measured.items():
            words = f"{questions[name].label}: {show(reading, 'length', unit)} measured"
            out += wrapped(words, width, "strong", rest="  ")
    if clock := job.aims.clock_says():
        due = f"{named('measure')}: " if job.aims.clock_due else ""
        key = named("measure") if step.limits is None else named("aim")
        again = f" {key}: clock it again." if job.aims.clock_again else ""
        out += wrapped(f"{due}{write(clock, unit)}{again}", width, "strong", rest="  ")
    return out


def note_lines(job: OpenJob, width: int, most: int) -> list[Line]:
    """The person's own words that belong here, the newest first."""
    out = [runs for one in reversed(job.notes) for runs in wrapped(f"“{one.words}”", width, "strong")]
    before = [f"Last time: “{one.words}”" for one in job.notes_of_earlier[:2]]
    out += [runs for words in before for runs in wrapped(words, width, "hint")]
    return out[:most]


def taken_back(job: OpenJob, before: Place) -> str:
    """What going back has undone, in a sentence."""
    if job.place == before:
        return "This is where the job begins: there is nothing to take back."
    step = job.step
    what = f"{step.table.count_noun} {job.place.row}" if step.table else f"step {step.number}, {plain(step.step.title)}"
    return f"Taken back: {what} is to be done again. {named('on')} says that it is done."


def large_lines(job: OpenJob, unit: str, width: int, height: int) -> warn.Shown:
    """The setting over the whole screen, with the count, the next and the worst caution."""
    watch = watched(job)
    warned = warn.worst(watch.cautions, width, 2, unit)
    room = max(height - len(warned.lines), 3)
    step = job.step
    if job.finished:
        body = _finished(job, width)
    elif step.table and not step.problem and not verdict_lines(job, unit, width, room):
        body = counted_lines(step.table, job.place.row, width, room, unit)
    else:
        tail = [centred(runs, width) for runs in wrapped(f"Then {comes_next(job, unit)}", width, "hint")]
        body = [*_main(job, step, unit, width, room - len(tail) - 1, whole=True), line(), *tail]
    gap = [line()] * max(height - len(body) - len(warned.lines), 0)
    return warn.Shown([*body, *gap, *warned.lines][:height], warned.asked)


def _share(height: int) -> int:
    """The rows of a step's setting: the other figures stand under it."""
    return min(max(8, height * 2 // 3), height)


def _others(figures: tuple[Figure, ...], unit: str, width: int, height: int) -> list[Line]:
    """The other figures under the large one: in their groups where those have room, else the first of them in two
    columns."""
    if height >= _GROUPED and figures:
        grouped = group_lines((replace(figures[0]), *figures), width, unit, False, named("all"))
        if len(grouped) <= height:
            return grouped
    if len(figures) <= height or width < 76:
        return figure_lines(figures, width, unit, lead=False)
    half = (width - 2) // 2
    each = [(figure, figure_lines((figure,), half, unit, lead=False)) for figure in figures]
    short = [fitted(rows[0], half) for _, rows in each if len(rows) == 1 and width_of(rows[0]) <= half]
    long = [figure for figure, rows in each if len(rows) != 1 or width_of(rows[0]) > half]
    deep = -(-len(short) // 2)
    pairs = zip(short[:deep], [*short[deep:], []], strict=False)
    return [
        *([*left, ("  ", "text"), *right] for left, right in pairs),
        *figure_lines(tuple(long), width, unit, lead=False),
    ]


def _finished(job: OpenJob, width: int) -> list[Line]:
    out = [heading(job_title(job), width, where(job)), line()]
    for said in end_words(job):
        out += wrapped(said, width, "strong")
    out += wrapped(f"{named('again')} on the jobs list starts the next part; {named('write')} writes the sheet.", width)
    for reading in job.progress.readings:
        step = job.worked.steps[reading.step - 1]
        out += wrapped(f"{step.step.title}: {reading.what} {reading.reading:.3f} mm", width, first="  ")
    return out


def measured_lines(job: OpenJob, unit: str, width: int) -> list[Line]:
    """What is to be measured here, or what the newest reading means."""
    limits = job.step.limits
    if limits is None:
        return []
    found = job.measured()
    if found.judgement is None:
        wanted = f"{named('measure')}: measure {limits.what} ({limit_words(job, unit)})"
        wanted = " · ".join(filter(None, (wanted, job.aims.spare_words())))
        other = job.reading_elsewhere
        if other and job.step.table:
            wanted += f" · {job.step.table.count_noun} {other.row}: {show(other.reading, 'length', unit)}"
        out = wrapped(wanted, width, "strong")
        for text in (*job.aims.trial_says(), job.aims.came_out()):
            out += wrapped(write(text, unit), width, first="  ") if text else []
        return out
    good = found.judgement.state == "in limits"
    role = "lead" if good else ("bad" if found.judgement.over_cut else "warning")
    first, *rest = found.says
    out = wrapped(f"{'■' if good else '!'} {limits.what}: {write(first, unit)}", width, role, rest="  ")
    for sentence in rest:
        out += wrapped(write(sentence, unit), width, first="  ")
    return out


def limit_words(job: OpenJob, unit: str) -> str:
    """The limits of this step's measure, rounded inwards."""
    limits = job.step.limits
    if limits is None:
        return ""
    low = show(limits.low, "length", unit, side="up") if limits.low is not None else ""
    high = show(limits.high, "length", unit, side="down") if limits.high is not None else ""
    if low and high:
        return f"{low} to {high}"
    return f"{high} or less" if high else f"{low} or more"


def watched(job: OpenJob, viewing: bool = False) -> warn.Watch:
    """What the strip or the column shows; beside the cautions in full it asks nothing itself."""
    if job.finished:
        return warn.Watch()
    step = job.step
    cautions = tuple(c for c in step.cautions if not c.question) if viewing else step.cautions
    moment, out = step.moment, step.set_up.stick_out
    if moment is not None and out is not None:  # an operation may be told only the length that springs
        moment = replace(moment, stick_out=out)
    return warn.Watch(cautions, moment, step.answered)


def job_lines(
    job: OpenJob, unit: str, width: int, height: int, view: Sequence[Line] | None, viewing: bool = False
) -> warn.Shown:
    """The step (or an open view in its place) with its cautions, for the room there is; `viewing`: the view is that of
    the cautions in full."""
    watch = watched(job, viewing)
    if width < 60 or height < 14:
        return _small(job, unit, width, height)
    if width < WIDE:
        held = len(warn.set_up_lines(watch, width, unit, named("set_up")))
        wanted = 1 + sum(len(warn.caution_lines(c, width, unit)) for c in watch.cautions[:5])
        strip = held + min(max(wanted, 4), 5 if height < 30 else height // 3)
        shown = warn.strip(watch, width, strip, unit)
        top = list(view) if view is not None else step_lines(job, unit, width, height - strip)
        top = top[: height - strip]
        gap = [line()] * (height - strip - len(top))
        return replace(shown, lines=[*top, *gap, *shown.lines])
    right = min(max(width * 30 // 100, 36), 60)
    left = width - right - 1
    body = list(view) if view is not None else _with_picture(job, unit, left, height)
    shown = warn.column(watch, right, height, unit)
    return replace(shown, lines=beside([(body, left), (shown.lines, right)], height))


def _with_picture(job: OpenJob, unit: str, width: int, height: int) -> list[Line]:
    """The step, and under it the work as it lies, or its picture with the row in hand marked, where there is room."""
    answer = job.step.answer
    deep = height // 2 - 2
    lies = job.drawings(width, deep - 1) if height >= 30 and not job.finished else ()
    if lies:
        above = step_lines(job, unit, width, height - deep)
        return [*above, heading(lies[0].title, width), *lying(lies, width, deep - 1, unit)]
    if job.finished or answer is None or not answer.pictures or height < 30:
        return step_lines(job, unit, width, height)
    room = height * 2 // 5
    picture = answer.pictures[0]
    marked = job.place.row if job.step.table and picture.table == job.step.table.name else 0
    above = step_lines(job, unit, width, height - room)
    return [*above, heading(picture.title, width), *drawn(picture, width, room - 1, unit, row=marked)]


def _small(job: OpenJob, unit: str, width: int, height: int) -> warn.Shown:
    """Hardly any room: what to set, and the worst caution."""
    worst = warn.worst(watched(job).cautions, width, max(min(3, height - 4), 1), unit)
    foot = worst.lines
    head = fitted([(f"{where(job)} {plain(job.step.step.title)}", "head")], width)
    body = _main(job, job.step, unit, width, height - len(foot) - 1) if not job.finished else []
    body = body or [runs for s in job.step.do for runs in wrapped(write(s, unit), width)]
    gap = [line()] * max(height - 1 - len(foot) - len(body), 0)
    return warn.Shown([head, *body[: height - 1 - len(foot)], *gap, *foot][:height], worst.asked)
