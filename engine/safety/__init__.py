"""The cautions of a moment at the machine, chosen by what is so.

A caution is a row of engine/data/safety/cautions.csv; the rule it names (engine/safety/rules.py) looks at the moments of
an answer, filled up by the set-up and the shop, and says whether it is raised, must be asked, or stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from engine.base.answer import Answer, Caution
from engine.base.records import dataclass
from engine.situation import Situation

if TYPE_CHECKING:
    from engine.base.operation import Operation
    from engine.safety.finding import Finding, Judge
    from engine.safety.told import Told
    from engine.shop.model import Shop

FIRST_PAGE = ("GEN-01", "GEN-03", "GEN-02", "GEN-04", "GEN-08")  # the five that maim or kill


@dataclass(frozen=True, slots=True)
class Chosen:
    """The cautions of a moment, the most pressing first; the questions answered that are not asked any more, each with
    its answer; and the moment as far as the operation and the set-up say it."""

    cautions: tuple[Caution, ...]
    answered: tuple[tuple[Caution, bool], ...]
    moment: Situation


def choose(
    operation: Operation, answer: Answer, shop: Shop | None, told: Mapping[str, bool | Told] | None = None,
    known: Situation | None = None, set_up: str = "",
) -> Chosen:  # fmt: skip
    """Every caution of an operation, the most pressing first; `arrange` picks what a screen has room for.

    `told` are the answers given to questions, `known` is what the set-up, the part and earlier steps say, `set_up` names
    the holding that answers belong to.

    >>> from engine.base.register import load
    >>> any(c.id == "THR-05" for c in choose(load("three-wires"), Answer(()), None).cautions)
    True
    """
    moments = answer.moments or (Situation(machine=operation.machine),)
    return _chosen(operation.hazards, moments, shop, told or {}, known, set_up)


def chosen_by_hand(
    hazards: Iterable[str], shop: Shop | None, told: Mapping[str, bool | Told] | None = None,
    known: Situation | None = None, set_up: str = "",
) -> Chosen:  # fmt: skip
    """Every caution of a job's step that is done by hand; words that are no kind of work are passed over.

    >>> chosen_by_hand(("polishing",), None).cautions[0].id
    'FIL-01'
    """
    return _chosen(hazards, (Situation(),), shop, told or {}, known, set_up)


def _chosen(
    hazards: Iterable[str], moments: tuple[Situation, ...], shop: Shop | None, told: Mapping[str, bool | Told],
    known: Situation | None, set_up: str,
) -> Chosen:  # fmt: skip
    from engine.safety.hazards import done_here

    held = [joined(moment, known) for moment in moments]
    tight = not all(moment.interference is False for moment in held)
    kinds = done_here(hazards, " ".join(moment.hold for moment in held).strip(), tight=tight)
    if not kinds:  # a look-up: nothing is done, and what would be said of it is not loaded
        return Chosen((), (), held[0])
    from engine.safety.rows import caution_of, rows_of
    from engine.safety.rules import RULES
    from engine.safety.told import answer_to
    from engine.shop.situation import in_shop

    filled = [in_shop(moment, shop) for moment in held]
    found, answered = [], []
    for row in rows_of(kinds):
        finding = _worst(RULES[row.rule].judge, filled)
        if finding is not None:
            line = caution_of(row, finding, None)
            question = line.question if line is not None else ""
            answer = answer_to(told, row.id, question, set_up)
            found.append(line if answer is None else caution_of(row, finding, answer))
            if line is not None and question and answer is not None:
                answered.append((line, answer))
    cautions = in_order(caution for caution in found if caution is not None)
    return Chosen(cautions, tuple(answered), held[0])


def joined(moment: Situation, known: Situation | None) -> Situation:
    """A moment with what the set-up, the part and earlier steps know, where the operation did not say."""
    if known is None:
        return moment
    from engine.situation import NAMES

    told = {name: value for name in NAMES if (value := getattr(known, name)) not in (None, "")}
    return moment.filled(**told) if told else moment


_RANK = {"stands": 0, "asked": 1, "raised": 2}


def _worst(judge: Judge, moments: list[Situation]) -> Finding | None:
    """What a rule says of the moment that is worst for it."""
    if len(moments) == 1:
        return judge(moments[0])
    findings = [finding for moment in moments if (finding := judge(moment)) is not None]
    return max(findings, key=lambda f: (_RANK[f.kind], f.degree), default=None)


def _band(caution: Caution) -> tuple[int, int, int]:
    """Raised ones first, those that stop the step before the others; then by harm. What is equal keeps its order: the
    kind of work that is most the operation's own first, and in it what counts before the start."""
    computed = 0 if caution.because else 1
    if caution.word not in ("DANGER", "WARNING"):
        return 3, computed, caution.harm
    if caution.because:
        return (0 if caution.acknowledge else 1), 0 if caution.word == "DANGER" else 1, caution.harm
    return 2, caution.harm, 0


def in_order(*groups: Iterable[Caution]) -> tuple[Caution, ...]:
    """Cautions from several places in the order in which they are shown, each once: of two with one id the more
    pressing.

    >>> note, warning = Caution("B", "NOTICE", "n"), Caution("A", "WARNING", "w", because="9 over 8")
    >>> [c.id for c in in_order((note,), (warning, note))]
    ['A', 'B']
    """
    ordered = sorted((caution for group in groups for caution in group), key=_band)
    first: dict[str, Caution] = {}
    for caution in ordered:
        first.setdefault(caution.id, caution)
    return tuple(first.values())


def arrange(
    cautions: Iterable[Caution], most: int = 3, hard_limit: int = 5
) -> tuple[tuple[Caution, ...], tuple[Caution, ...]]:
    """Pick what one screen shows, and the rest, which is one key away: `most` of them, up to `hard_limit` when more than `most`
    stop the step, and of what asks something the first alone.

    Risk is noticed less once low-importance messages pass five (a 1997 study of warnings).

    >>> shown, more = arrange([Caution(str(n), "NOTICE", "text") for n in range(7)])
    >>> len(shown), len(more)
    (3, 4)
    """
    every = tuple(cautions)
    asking = [caution for caution in every if caution.question][1:]
    first = [caution for caution in every if caution not in asking]
    stops = sum(1 for caution in first if caution.acknowledge)
    shown = tuple(first[: min(max(most, stops), hard_limit)])
    return shown, tuple(caution for caution in every if caution not in shown)


def general_rules() -> tuple[Caution, ...]:
    """The rules of every session and the first-aid pointers.

    >>> general_rules()[0].id
    'GEN-01'
    """
    return _chosen(("general",), (Situation(),), None, {}, None, "").cautions


def first_page() -> tuple[Caution, ...]:
    """The five that maim or kill, for the first page of a session and of a job.

    >>> [caution.id for caution in first_page()][:2]
    ['GEN-01', 'GEN-03']
    """
    every = {caution.id: caution for caution in general_rules()}
    return tuple(every[name] for name in FIRST_PAGE)


def general_line() -> str:
    """The first page in a line, for a door that has no pages.

    >>> general_line()[:22]
    'Before any work: key a'
    """
    return (
        "Before any work: key away, eyes shielded, bare hands and tight sleeves, turned by hand once, stop tried. "
        "--json lists the general rules."
    )


def deferral() -> str:
    """The one line that says what outranks this program.

    >>> deferral().startswith("The machine's own manual")
    True
    """
    return (
        "The machine's own manual, the limits marked on chuck, wheel and cutter, data sheets, local codes and "
        "licensed practice all outrank this program."
    )


def quiet_line(cautions: Iterable[Caution] = ()) -> str:
    """What a screen says when no number raised a caution; "" when one of them was. A quiet pane is no promise.

    >>> quiet_line()
    'None of these comes from your numbers.'
    """
    if any(caution.because for caution in cautions):
        return ""
    return "None of these comes from your numbers."
