"""The cautions as they are written down, one row a hazard, and the line that a row becomes."""

from __future__ import annotations

from functools import cache
from typing import Literal

from engine.base.answer import Caution, Word
from engine.base.records import dataclass
from engine.base.tables import rows_once
from engine.base.words import Said, Text
from engine.safety.finding import STANDS, Finding

TABLE = "safety/cautions.csv"
Phase = Literal["before", "during", "after"]
PHASES: tuple[Phase, ...] = ("before", "during", "after")


@dataclass(frozen=True, slots=True)
class Row:
    """One caution. `word` is its signal word once it is known to apply, `stop` that it is acknowledged before the
    step starts, `harm` how bad it can end: 1 kills or maims, 2 injures, 3 hurts or costs, 4 is worth knowing. `phase` is
    when it counts: before the start, during the work, after it. `found`, `remedy` and `because` are the words used when
    a number raised it; braces in them are filled from the rule's finding."""

    id: str
    hazards: tuple[str, ...]
    word: Word
    harm: int
    phase: Phase
    stop: bool
    rule: str
    question: str
    hazard: str
    consequence: str
    control: str
    found: str
    remedy: str
    because: str
    source: str

    @property
    def word_before(self) -> Word:
        """The word while it is not known to apply: DANGER is kept for what is."""
        return "WARNING" if self.word == "DANGER" else self.word


@cache
def every_row() -> tuple[Row, ...]:
    """Every caution in the order of its file.

    >>> every_row()[0].id
    'GEN-01'
    """
    return tuple(_row(text) for text in rows_once(TABLE))


def _row(text: dict[str, str]) -> Row:
    read = {"hazards": tuple(text["hazards"].split()), "harm": int(text["harm"]), "stop": text["stop"] == "yes"}
    return Row(**{**text, **read})  # type: ignore[arg-type]


@cache
def rows_of(hazards: tuple[str, ...]) -> tuple[Row, ...]:
    """The cautions of some kinds of work (tags of engine.safety.hazards): those of the first kind first, each once.

    Within a kind, those that belong to it before all come first, in the order in which they count.

    >>> [row.id for row in rows_of(("magnets",))][0]
    'MAG-01'
    """
    found: list[Row] = []
    for tag in hazards:
        own = [row for row in every_row() if row.hazards[0] == tag]
        shared = [row for row in every_row() if tag in row.hazards[1:]]
        for group in (own, shared):
            found += sorted(group, key=lambda row: PHASES.index(row.phase))
    return tuple(dict.fromkeys(found))


def caution_of(row: Row, finding: Finding, told: bool | None) -> Caution | None:
    """The line that is shown of a row and what its rule found; None when the person has answered no (`told`).

    Signal words: ANSI Z535.4-2007, 4.14; DANGER only for what is known to apply.

    >>> row = next(r for r in every_row() if r.id == "BRZ-01")
    >>> from engine.safety.finding import asked
    >>> caution_of(row, asked(), None).word, caution_of(row, asked(), False)
    ('WARNING', None)
    """
    if finding is STANDS:
        return _standing(row)
    if finding.kind == "asked" and told is False:
        return None
    if finding.kind == "stands" or (finding.kind == "asked" and told is None):
        return _line(row, finding, "general" if finding.kind == "stands" else "asked")
    return _line(row, finding, "number" if finding.measured or finding.kind == "raised" else "yes")


@cache
def _standing(row: Row) -> Caution:
    """What a row says where it only stands: the same at every key."""
    return _line(row, STANDS, "general")


def _line(row: Row, finding: Finding, form: Literal["general", "asked", "yes", "number"]) -> Caution:
    by_number, known = form == "number", form in ("yes", "number")
    hazard, control = (row.found, row.remedy or row.control) if by_number else (row.hazard, row.control)
    because = _filled(row.because, finding) if by_number else "as told" if known else ""
    return Caution(
        id=row.id, word=row.word if known else row.word_before,
        text=_filled(f"{hazard}. {row.consequence}. {control}.", finding), because=because, source=row.source,
        question=_filled(row.question, finding) if form == "asked" else "", acknowledge=row.stop and known,
        harm=row.harm, phase=row.phase, tell=finding.tell, brief=_filled(f"{hazard}. {control}.", finding),
    )  # fmt: skip


def _filled(template: str, finding: Finding) -> Text:
    return Said(template, finding.values) if "{" in template else template
