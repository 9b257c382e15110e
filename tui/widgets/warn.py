"""Cautions as lines: a strip or a column that is always in view. At their head stands how the work is held.

What is shown is shown whole: rather fewer cautions than a control that is cut off. The one question among them, if any,
is handed back with the lines: y and n answer what is in view and nothing else.
"""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Caution
from engine.base.records import dataclass
from engine.base.words import Text, write
from engine.safety import arrange, quiet_line
from engine.set_up import in_short, wanted
from engine.situation import Situation
from tui.keys import named
from tui.lines import Line, fitted, heading, line, wrapped

ROLES = {"DANGER": "danger", "WARNING": "warning", "CAUTION": "caution", "NOTICE": "hint"}
_TURNING = ("lathe", "mill")


@dataclass(frozen=True, slots=True)
class Watch:
    """What there is to be shown: the cautions, the moment they are of, the questions answered."""

    cautions: Sequence[Caution] = ()
    moment: Situation | None = None
    answered: Sequence[tuple[Caution, bool]] = ()


@dataclass(frozen=True, slots=True)
class Keys:
    """The keys that the pane names, as they are where the person is."""

    full: str = named("cautions")
    set_up: str = named("set_up")
    answer: str = f"{named('yes')} or {named('no')}?"


KEYS = Keys()


@dataclass(frozen=True, slots=True)
class Shown:
    """Lines, and the question that can be read whole in them."""

    lines: list[Line]
    asked: Caution | None = None


def _word(caution: Caution) -> tuple[str, str]:
    """The signal word; of a hazard that is still a question it has a mark behind it."""
    if caution.question:
        return f"{caution.word}?", "question"
    return caution.word, ROLES.get(caution.word, "caution")


def caution_lines(caution: Caution, width: int, unit: str, answer: str = "y or n?", brief: bool = False) -> list[Line]:
    """One caution with its number, wrapped: the signal word stands out by itself and by its bracket. `answer` says how
    its question is answered; `brief`: the hazard and its control alone."""
    word, role = _word(caution)
    says: Text = caution.question or (caution.brief if brief and caution.brief else caution.text)
    text = write(says, unit)
    text += f" ({write(caution.because, unit)})" if caution.because and not brief else ""
    text += f"  {answer}" if caution.question and answer else ""
    lines = wrapped(text, width, "text", first=f"[{word}] ", rest="  ")
    (first, _), *_ = lines[0]
    lines[0] = [(f"[{word}]", role), (first[len(word) + 2 :], "text")]
    return lines


def set_up_lines(watch: Watch, width: int, unit: str, key: str, most: int = 1) -> list[Line]:
    """How the work is held and what of it is not told, in `most` lines; none where nothing is held."""
    if watch.moment is None:
        return []
    missing = wanted(watch.moment, watch.cautions)
    if watch.moment.machine not in _TURNING and not missing:
        return []
    told = [write(words, unit) for words in in_short(watch.moment)]
    tails = [f"   {key} changes", f"  ({key})"]
    while True:  # shorter words first; then the machine, which is plain; then what was told last
        parts = (", ".join(told), f"{missing}: not told" if missing else "")
        words = "; ".join(part for part in parts if part) or "not told"
        lines = wrapped(f"Set-up  {words}{tails[0]}", width, "strong", rest="  ")
        if len(lines) <= most or not told:
            return [fitted(runs, width) for runs in lines[:most]]
        if len(tails) > 1:
            tails.pop(0)
        else:
            told.pop(0 if told[0] in _TURNING else -1)


def _whole(cautions: Sequence[Caution], width: int, room: int, unit: str, answer: str) -> list[list[Line]]:
    """As many cautions as can be read whole: two with their consequence before more without it."""
    for brief, least in ((False, min(2, len(cautions))), (True, 1)):
        for count in range(len(cautions), least - 1, -1) if cautions else ():
            blocks = [caution_lines(c, width, unit, answer, brief) for c in cautions[:count]]
            if sum(map(len, blocks)) <= room:
                return blocks
    return []


def _stacked(
    watch: Watch, width: int, height: int, unit: str, keys: Keys, unread: bool, most: int, airy: bool
) -> Shown:
    """A heading, how the work is held, and the cautions picked for one screen, the most pressing first."""
    if height < 1:
        return Shown([])
    held = set_up_lines(watch, width, unit, keys.set_up, 3 if airy else 1)[: max(height - 3, 0)]
    picked, _ = arrange(watch.cautions, most)
    room = height - 1 - len(held)
    blocks = _whole(picked, width, room, unit, keys.answer)
    shown = picked[: len(blocks)]
    body = [*held]
    spaced = airy and sum(map(len, blocks)) + len(blocks) + len(held) + 3 <= height
    body += [line()] if spaced and held else []
    for block in blocks:
        body += [*block, *([line()] if spaced else [])]
    for extra in (_answered(watch, width, unit), _quiet(watch, width)):
        body += extra if len(extra) <= height - 1 - len(body) else []
    if picked and not blocks and room > 0:  # hardly any room: what there is of the first
        body += _cut(caution_lines(picked[0], width, unit, "", brief=True), width, room)
    head = _heading(watch, len(shown), width, keys.full, unread)
    lines = [head, *body][:height]
    blank = [line()] * (height - len(lines))
    return Shown([*lines, *blank], next((c for c in shown if c.question), None))


def _heading(watch: Watch, shown: int, width: int, key: str, unread: bool) -> Line:
    count = len(watch.cautions)
    title = "Cautions" if not count else f"Cautions: {shown} of {count}" if shown < count else f"Cautions: {shown}"
    more = f", {len(watch.answered)} answered" if watch.answered else ""
    title += more if len(title) + len(more) + len(key) + 9 <= width else ""
    tails = [f"{key}: general rules, not read yet", f"{key} rules"] if unread else [f"{key} in full"]
    tail = next((words for words in tails if len(title) + len(words) + 9 <= width), key)
    return heading(title, width, tail, "warning" if count else "head")


def _quiet(watch: Watch, width: int) -> list[Line]:
    says = quiet_line(watch.cautions)
    return wrapped(says, width, "text") if says else []


def answer_words(caution: Caution, yes: bool, unit: str) -> str:
    """A question with its answer."""
    return f"{write(caution.question, unit)} {'Yes' if yes else 'No'}."


def _answered(watch: Watch, width: int, unit: str) -> list[Line]:
    """What was answered, the newest."""
    if not watch.answered:
        return []
    caution, yes = watch.answered[-1]
    return wrapped(f"Answered: {answer_words(caution, yes, unit)}", width, "hint", rest="  ")


def strip(watch: Watch, width: int, height: int, unit: str = "mm", *, keys: Keys = KEYS, unread: bool = False) -> Shown:
    """The strip over the foot of a narrow screen. `unread`: the general rules have not been looked at yet."""
    return _stacked(watch, width, height, unit, keys, unread, 3, airy=False)


def column(
    watch: Watch, width: int, height: int, unit: str = "mm", *, keys: Keys = KEYS, unread: bool = False
) -> Shown:
    """The column at the right of a wide screen: five where there is room, with blank lines between."""
    return _stacked(watch, width, height, unit, keys, unread, 5, airy=True)


def worst(
    cautions: Sequence[Caution], width: int, height: int = 1, unit: str = "mm", *, answer: str = "y or n?"
) -> Shown:
    """The most pressing caution alone, for a screen with hardly any room."""
    if not cautions:
        return Shown([line(quiet_line())][:height])
    first = cautions[0]
    for brief in (False, True):
        lines = caution_lines(first, width, unit, answer, brief)
        if len(lines) <= height:
            return Shown(lines, first if first.question else None)
    return Shown(_cut(lines, width, height))


def _cut(lines: list[Line], width: int, height: int) -> list[Line]:
    """What of a caution has room, with a … where words are missing: only where not even its control can stand."""
    if len(lines) <= height:
        return lines
    text, role = lines[height - 1][-1]
    before = sum(len(t) for t, _ in lines[height - 1][:-1])
    return [*lines[: height - 1], [*lines[height - 1][:-1], (text[: max(width - before - 2, 0)].rstrip() + " …", role)]]
