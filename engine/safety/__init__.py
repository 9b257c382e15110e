"""The cautions of the open operation, chosen by the numbers on the screen.

A caution is a row of engine/data/safety/cautions.csv; the rule it names (engine/safety/rules.py) looks at the
figures, the shop and what the person has told, and says whether it is raised, must be asked, or stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from engine.base.answer import Answer, Caution

if TYPE_CHECKING:
    from engine.base.operation import Operation
    from engine.safety.facts import Facts
    from engine.shop.model import Shop


def cautions_for(
    operation: Operation,
    inputs: Any,
    answer: Answer,
    shop: Shop | None,
    told: Mapping[str, bool],
    unit: str = "mm",
) -> tuple[Caution, ...]:
    """Every caution that applies, the most pressing first.

    Parameters
    ----------
    operation : Operation
        The open operation.
    inputs : object
        Its inputs as read.
    answer : Answer
        Its figures.
    shop : Shop or None
        What this person owns.
    told : mapping
        Answers to the questions asked before: caution id to yes or no.
    unit : str
        `mm` or `inch`: what lengths in the lines are written in.

    Returns
    -------
    cautions : tuple of Caution
        In the order in which they are shown; `arrange` picks what a screen has room for.

    Sources
    -------
    Each caution carries its own.

    Examples
    --------
    >>> from engine.base.register import load
    >>> any(c.id == "GEN-10" for c in cautions_for(load("hand-dial"), None, Answer(()), None, {}))
    True
    """
    from engine.safety.facts import Facts
    from engine.safety.hazards import hazards_of

    figures = {figure.name: figure for figure in answer.figures}
    facts = Facts(inputs, figures, shop, told, operation.id, unit, answer)
    return _applying(_of_the_way_chosen(hazards_of(operation.id, operation.hazards), facts), facts)


def _of_the_way_chosen(hazards: tuple[str, ...], facts: Facts) -> tuple[str, ...]:
    """The kinds of work without those of a way of holding that the answer rules out."""
    held = facts.words("hold")
    ways = {"pressing": ("press", "stake"), "adhesive": ("retain", "compound"), "soldering": ("solder",)}
    return tuple(
        tag for tag in hazards if not held or tag not in ways or any(word in held for word in ways[tag])
    )


def cautions_for_hand_step(
    hazards: Iterable[str], shop: Shop | None, told: Mapping[str, bool], unit: str = "mm"
) -> tuple[Caution, ...]:
    """Every caution of a job's step that is done by hand, the most pressing first.

    Parameters
    ----------
    hazards : iterable of str
        Kinds of work, keys of engine.safety.hazards.HAZARDS; other words are passed over.
    shop : Shop or None
        What this person owns.
    told : mapping
        Answers to the questions asked before: caution id to yes or no.
    unit : str
        `mm` or `inch`.

    Returns
    -------
    cautions : tuple of Caution
        In the order in which they are shown.

    Sources
    -------
    Each caution carries its own.

    Examples
    --------
    >>> cautions_for_hand_step(("polishing",), None, {"FIL-01": True})[0].word
    'DANGER'
    """
    from engine.safety.facts import Facts
    from engine.safety.hazards import hazards_of

    return _applying(hazards_of("", hazards), Facts(shop=shop, told=told, unit=unit))


def _applying(hazards: tuple[str, ...], facts: Facts) -> tuple[Caution, ...]:
    from engine.safety.rows import caution_of, rows_of
    from engine.safety.rules import RULES

    found = []
    for row in rows_of(hazards):
        finding = RULES[row.rule](facts)
        if finding is not None:
            found.append(caution_of(row, finding, facts.told.get(row.id)))
    return in_order(caution for caution in found if caution is not None)


def _band(caution: Caution) -> tuple[int, int]:
    """Triggered stop, triggered warning, question, standing warning, note; computed before general."""
    computed = 0 if caution.because else 1
    if caution.word not in ("DANGER", "WARNING"):
        return 4, computed
    if caution.question:
        return 2, computed
    if caution.because:
        return (0 if caution.acknowledge else 1), 0 if caution.word == "DANGER" else 1
    return 3, computed


def in_order(*groups: Iterable[Caution]) -> tuple[Caution, ...]:
    """Put cautions from several places in the order in which they are shown, each once.

    Parameters
    ----------
    groups : iterables of Caution
        Such as an operation's and a hand step's. Of two with one id the more pressing is kept.

    Returns
    -------
    cautions : tuple of Caution
        The most pressing first.

    Sources
    -------
    Order of the bands: common practice, no source.

    Examples
    --------
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
    """Pick what one screen shows; the rest is one key away.

    Parameters
    ----------
    cautions : iterable of Caution
        In order.
    most : int
        How many are shown.
    hard_limit : int
        How many are shown when more than `most` stop the step.

    Returns
    -------
    shown : tuple of Caution
        Never more than `hard_limit`.
    more : tuple of Caution
        The others, in order.

    Sources
    -------
    Perceived risk falls once low-importance messages pass five (a 1997 study of warnings).

    Examples
    --------
    >>> shown, more = arrange([Caution(str(n), "NOTICE", "text") for n in range(7)])
    >>> len(shown), len(more)
    (3, 4)
    """
    every = tuple(cautions)
    stops = sum(1 for caution in every if caution.acknowledge)
    count = min(max(most, stops), hard_limit)
    return every[:count], every[count:]


def general_rules() -> tuple[Caution, ...]:
    """The rules of every session and the first-aid pointers, shown once when it begins.

    Returns
    -------
    cautions : tuple of Caution
        Standing lines.

    Sources
    -------
    Each caution carries its own.

    Examples
    --------
    >>> general_rules()[0].id
    'GEN-01'
    """
    from engine.safety.facts import Facts

    return _applying(("general",), Facts())


def deferral() -> str:
    """The one line that says what outranks this program.

    Returns
    -------
    line : str
        One sentence.

    Sources
    -------
    Common practice, no source.

    Examples
    --------
    >>> deferral().startswith("The machine's own manual")
    True
    """
    return (
        "The machine's own manual, the limits marked on chuck, wheel and cutter, data sheets, local codes and "
        "licensed practice all outrank this program."
    )


def quiet_line(cautions: Iterable[Caution] = ()) -> str:
    """What a screen says when no number raised a caution.

    Parameters
    ----------
    cautions : iterable of Caution
        Those of the screen.

    Returns
    -------
    line : str
        One line, or "" when one of them was raised.

    Sources
    -------
    A quiet pane is no promise: common practice, no source.

    Examples
    --------
    >>> quiet_line()
    'No computed caution. General rules still apply.'
    """
    if any(caution.because for caution in cautions):
        return ""
    return "No computed caution. General rules still apply."
