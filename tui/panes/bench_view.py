"""The bench screen as lines: operations, form with its answer, cautions, laid out for the room there is."""

from __future__ import annotations

from engine.base.answer import Caution, Table
from engine.base.records import dataclass, replace
from engine.base.showing import figure_text
from tui.commands import COMMANDS, command
from tui.glyphs import plain
from tui.keys import named
from tui.lines import Line, beside, cut, fitted, heading, line, window, wrapped
from tui.panes import frame
from tui.panes.answer_view import answer_lines, figure_lines, stale_lines
from tui.panes.bench_state import BenchState, View
from tui.panes.form_view import IN_HAND, form_lines, hint_lines, taken
from tui.session import Absent, OpenOperation, Session
from tui.widgets import warn

WIDE = 110  # columns from which the three parts stand beside one another
SMALL = (60, 16)  # below this only the lead figure and the worst caution show
WITH_PICTURE = ("answer", "rows", "working")  # views that the picture stands beside or under
BESIDE = 92  # columns of a view from which its picture stands beside it
LEAST_HIGH, UNDER = 10, 12  # rows of a picture, and of what stands over it
VIEW_NAMES = ("answer", "working", "rows", "picture", "trouble", "cautions", "help", "large")


def cautions_of(one: OpenOperation | Absent) -> tuple[Caution, ...]:
    """The cautions that apply to what is on the screen."""
    return one.done.answer.cautions if isinstance(one, OpenOperation) and one.done else ()


def watched(one: OpenOperation | Absent, view: str = "answer") -> warn.Watch:
    """What the strip or the column shows; beside the cautions in full it asks nothing itself."""
    if not isinstance(one, OpenOperation) or one.done is None:
        return warn.Watch()
    cautions = one.done.answer.cautions
    if view == "cautions":
        cautions = tuple(caution for caution in cautions if not caution.question)
    return warn.Watch(cautions, one.done.moment, one.done.answered)


def keys_of(state: BenchState) -> warn.Keys:
    """How the cautions' keys are written where the person is."""
    answer = "Esc, then y or n?" if state.typing else "y or n?"
    return warn.Keys(_key("cautions", state), _key("set_up", state), answer)


def table_in_hand(one: OpenOperation) -> Table | None:
    """The table that is stepped or shown."""
    tables = one.done.answer.tables if one.done else ()
    return tables[one.table] if one.table < len(tables) else None


@dataclass(frozen=True, slots=True)
class Painted:
    """Lines, how far down the view in them is scrolled: what was asked for, as far as it can be; and the question that
    can be read in them."""

    lines: list[Line]
    top: int = 0
    asked: Caution | None = None


def bench_lines(session: Session, state: BenchState, width: int, height: int, message: str = "") -> Painted:
    """The whole screen."""
    one = session.here()
    if width < SMALL[0] or height < SMALL[1]:
        small = _small(session, one, state, width, height)
        return Painted(small.lines, state.scroll.get(state.view, 0), small.asked)
    right = f"{session.unit} · {session.shop.name}" if width >= 130 else session.unit
    top = [frame.tabs(session.pane, width, right)]
    foot = _foot(one, state, width, message)
    room = height - len(top) - len(foot)
    if width >= WIDE:
        wide = _wide(session, one, state, width, room)
        return Painted([*top, *wide.lines, *foot], wide.top, wide.asked)
    watch = watched(one, state.view)
    strip_height = 0 if state.view == "large" else _strip_height(watch, width, room, session.unit)
    middle = _middle(session, one, state, width, room - strip_height)
    unread = not session.rules_read
    strip = warn.strip(watch, width, strip_height, session.unit, keys=keys_of(state), unread=unread)
    return Painted([*top, *middle.lines, *strip.lines, *foot], middle.top, middle.asked or strip.asked)


def _key(command_id: str, state: BenchState) -> str:
    return command(command_id).key(state.editing)


def _strip_height(watch: warn.Watch, width: int, room: int, unit: str) -> int:
    """A heading, how the work is held and three lines, or a few more when the cautions need them and the screen has
    them."""
    if not watch.cautions:
        return 2  # a look-up: nothing is done of which there was anything to say
    held = len(warn.set_up_lines(watch, width, unit, named("set_up")))
    wanted = 1 + sum(len(warn.caution_lines(c, width, unit)) for c in watch.cautions[:5])
    return held + min(max(wanted, 4), 5 if room < 26 else room // 3)


def _wide(session: Session, one: OpenOperation | Absent, state: BenchState, width: int, height: int) -> Painted:
    left = 26 if width < 140 else 30
    right = min(max(width * 28 // 100, 34), 60)
    middle = width - left - right - 2
    shown = _middle(session, one, state, middle, height)
    watch, keys, unread = watched(one, state.view), keys_of(state), not session.rules_read
    if state.view == "large":  # which has the worst of them itself
        keys = replace(keys, answer="")
    beside_it = warn.column(watch, right, height, session.unit, keys=keys, unread=unread)
    columns = [(operation_list(session, left), left), (shown.lines, middle), (beside_it.lines, right)]
    asked = shown.asked if state.view == "large" else shown.asked or beside_it.asked
    return Painted(beside(columns, height), shown.top, asked)


def operation_list(session: Session, width: int) -> list[Line]:
    """The pane's operations, the open one marked."""
    out: list[Line] = [heading("Operations", width)]
    for i, entry in enumerate(session.entries(session.pane), start=1):
        on = entry.id == session.operation_id(session.pane)
        out.append(fitted([(f"{'>' if on else ' '}{i} {plain(entry.title)}", "on" if on else "text")], width))
    return out


def _middle(session: Session, one: OpenOperation | Absent, state: BenchState, width: int, height: int) -> Painted:
    """The form above, the open view below it."""
    if isinstance(one, Absent):
        return Painted(_filled(wrapped(one.reason, width), height))
    entries = session.entries(session.pane)
    place = f"{[e.id for e in entries].index(one.entry.id) + 1} of {len(entries)}"
    shows = "example: type over it" if one.form.shows_example else "as you left it" if one.form.as_left else place
    what = f"{session.unit} · {shows}"
    out: list[Line] = [] if state.view == "large" else [heading(one.entry.title, width, what)]
    held = session.in_hand.words()
    if held and state.view == "answer":
        out.append([("In hand: ", "label"), (cut(plain(held), width - 9), "value")])
    compact = state.view != "answer" and (height < 30 or state.view in ("help", "cautions", "large"))
    if state.view not in ("help", "cautions", "large"):
        fields = len(one.form.names)
        columns = 2 if width >= 74 and fields > 4 else 1
        values = taken(one.form, one.done, one.done_for, session.unit)
        values |= {name: f"{told}{IN_HAND}" for name, told in one.form.filled().items()}
        out += form_lines(
            one.form,
            width,
            session.unit,
            editing=state.editing,
            refused=one.refused_field,
            columns=columns,
            most=1 if compact else max(height // 3, 3),
            values=values,
        )
        refusal = one.refusal
        most = 3 if refusal else (1 if height < 24 else 2)
        if not compact or refusal:
            out += hint_lines(one.form, session.unit, width, refusal, most, values)
    room = max(height - len(out), 0)
    beside_it, below = _room_for_picture(one, state, width, room)
    view = view_lines(session, one, state, width - beside_it, room - below - 1)
    body: list[Line] = [heading(view.title, width - beside_it, view.note)]
    asked = state.scroll.get(state.view, 0) if view.top is None else view.top
    shown, top = window(view.lines, asked, max(room - below - 1, 0), width - beside_it)
    seen = view.asked_at is None or top <= view.asked_at < top + room - below
    body += shown
    if beside_it:
        picture = _picture(session, one, beside_it - 1, room)
        body = beside([(body, width - beside_it), (picture, beside_it - 1)], room)
    elif below:
        free = room - len(body)  # a short answer leaves more to the picture
        body += _picture(session, one, width, free)
    return Painted(_filled([*out, *body], height), top, view.asked if seen else None)


def _room_for_picture(one: OpenOperation, state: BenchState, width: int, room: int) -> tuple[int, int]:
    """The columns beside the open view, or the rows under it, that are the picture's all the time; 0 and 0 where there
    is no room for both."""
    if state.view not in WITH_PICTURE or one.done is None or not one.fresh or not one.done.answer.pictures:
        return 0, 0
    if width >= BESIDE and room >= LEAST_HIGH:
        return width * 45 // 100, 0
    if room >= LEAST_HIGH + UNDER and not state.unfolded:  # all figures want all rows
        return 0, max(room * 2 // 5, LEAST_HIGH)
    return 0, 0


def _picture(session: Session, one: OpenOperation, width: int, height: int) -> list[Line]:
    from tui.panes.picture_view import picture_lines  # not before the first paint

    assert one.done is not None
    return picture_lines(one.done.answer, one.row, width, height, session.unit)


def _filled(lines: list[Line], height: int) -> list[Line]:
    return [*lines, *[line()] * max(height - len(lines), 0)][:height]


def view_lines(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    """The open view."""
    if state.view in ("help", "cautions"):
        return _other_view(session, one, state, width, height)
    if one.done is None or one.working:
        words = "Working it out … Esc ends a search with the best so far." if one.working else "No answer yet."
        return View([line(words, "hint")], state.view.capitalize())
    if not one.fresh:
        told = {one.form.asks[name].label: text for name, text in one.done_for.items()}
        lines = stale_lines(one.done, told, width, session.unit)
        return View(lines, "No answer for this", "the last one is below")
    if state.view == "answer":
        answer = one.done.answer
        lines = answer_lines(answer, width - 2, session.unit, height - 1, state.unfolded, _key("unfold", state))
        said = figure_text(answer.lead, session.unit)
        return View(lines, "Answer", said if len(said) + 20 <= width else "")
    return _other_view(session, one, state, width, height)


def _other_view(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    from tui.panes.views import VIEWS  # not before the first paint: it loads pictures, help and large type

    return VIEWS[state.view](session, one, state, width, height)


def _foot(one: OpenOperation | Absent, state: BenchState, width: int, message: str) -> list[Line]:
    if message:
        return [fitted(runs, width, "bar") for runs in wrapped(message, width, "bar-strong", first=" ")[:3]]
    answer = one.done.answer if isinstance(one, OpenOperation) and one.done else None
    ids = ["help", "goto", "working", "cautions"]
    ids += ["rows"] if answer and answer.tables else []
    ids += ["picture"] if answer and answer.pictures else []
    ids += ["set_up", "trouble", "large", "operations", "units", "clear"]
    ids.append("leave" if state.editing or state.view != "answer" else "quit")
    labels = {c.id: c.label for c in COMMANDS}
    if state.view != "answer":
        labels["leave"] = "Back"
    inside = {"leave": "Esc"}
    if not state.typing or not isinstance(one, OpenOperation) or one.form.fresh or not one.form.text(one.form.name):
        inside["goto"] = "/"  # in a field that holds something it is typed
    pairs = [(inside.get(i) or _key(i, state), labels[i]) for i in ids]
    return [frame.keys(pairs, width)]


def _small(session: Session, one: OpenOperation | Absent, state: BenchState, width: int, height: int) -> Painted:
    """Hardly any room: the operation, the field in hand, the lead figure, the worst caution."""
    out: list[Line] = [fitted([(f" {one.entry.title}", "bar-strong")], width, "bar")]
    if isinstance(one, Absent):
        return Painted(_filled([*out, *wrapped(one.reason, width)], height))
    room = max(min(3, height - 3), 1)
    worst = warn.worst(cautions_of(one), width, room, session.unit, answer=keys_of(state).answer)
    bottom = worst.lines
    field_line = form_lines(one.form, width, session.unit, editing=state.editing, refused=one.refused_field, most=1)
    if one.fresh and one.done:
        lead = figure_lines(one.done.answer.figures, width, session.unit)
    else:
        lead = wrapped(one.refusal or "Working it out …", width, "bad" if one.refusal else "hint")
    room = max(height - len(out) - len(bottom), 0)
    rows = [*lead[:1], *field_line, *lead[1:]] if height < 6 else [*field_line, *lead]
    return Painted(_filled([*out, *_filled(rows, room), *bottom], height), asked=worst.asked)
