"""Reading how threads are written, for every family, and giving each the standard's own writing.

A writing is of the family whose letter it begins with (M10) or whose mark stands in it (3/8 BSW, BA 4). A pair with no
mark is in inches, and metric where it is written with x and only ISO metric has it (6x1).

The one rule for odd pitches: a diameter and pitch that are no pair of the standard's are refused, with the nearest
pairs, unless the writing says that they are meant. Unified says it with UNS, Whitworth with `Whit.S`; every other
family with the word `special` (`M10x1.4 special`). Such a thread is marked `special`.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from engine.base.refusals import BadInput
from engine.base.tables import rows
from engine.threads.inch_sizes import NUMBER, SIZE
from engine.threads.thread import LISTED, Mark, Thread, family
from engine.threads.told import Written
from engine.threads.written import ACCEPTED, refuse

if TYPE_CHECKING:
    from engine.base.kinds import Ask

_LONGEST = 60  # characters; the longest real designation has 45
_DASHES = str.maketrans(dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"))
_SIGNS = str.maketrans(
    {"×": "x", "X": "x", "✕": "x", "*": "x", "\u00a0": " ", "\u202f": " ", "“": '"', "”": '"', "″": '"'}
)
# Patterns are texts: Python compiles one when it is first used, and each stands behind a cheaper look.
_LEFT = r"(?i)(?:[\s-]*(?<![a-z])(?:l\.?h\.?|left(?:[\s-]*hand(?:ed)?)?)(?![a-z.]))"
_RIGHT = r"(?i)(?:[\s-]*(?<![a-z])(?:r\.?h\.?|right(?:[\s-]*hand(?:ed)?)?)(?![a-z.]))"
_SPECIAL = r"(?i)[\s-]*\(?(?<![a-z])special(?![a-z])\)?"
_STARTS = (
    r"(?i)[\s-]*\(?\s*(?<![a-z0-9])([0-9]{1,2}|two|double|three|triple|four|five|six)"
    r"[\s-]*starts?(?![a-z])\s*\)?"
)
_COUNTS = {"two": 2, "double": 2, "three": 3, "triple": 3, "four": 4, "five": 5, "six": 6}
_GAUGING = r"\(2[1-3]A?\)\s*$"  # ASME B1.1: the gauging system, no part of the size
_SHORT_MARK = 4  # letters; a longer mark that stands first may be a plain word (brass 1/4)


def parse(text: str) -> Thread:
    """Read a thread, in any of the ways it is written.

    text: Such as `M10`, `M10x1,25-6g`, `1/4-20 UNC-2A`, `4BA`, `3/8 BSW`, `G1/4`, `1/8 NPT`, `Tr14x6(P3)`, `3/4-6
        ACME`. Capital or small letters, comma or point, any dash; only the letter of a metric class says screw or nut.
    Returns: The thread; `parse(str(thread))` gives it again.
    Raises: BadInput if it is no thread that the standards list; field `size`. The sentence names the nearest that are.
    Source: ISO 261, ISO 965-1 clause 12, ASME B1.1 clause 6, ASME B1.13M, BS 84, BS 93, BS 811, ISO 228-1, ISO 7-1,
        ASME B1.20.1, ISO 2904, ASME B1.5; bare pairs: common practice, no source.

    >>> str(parse("m10 X 1,25 - 6g")), str(parse("#10-32")), str(parse("1/4 unc lh")), str(parse("6x1"))
    ('M10x1.25-6g', '10-32 UNF', '1/4-20 UNC-LH', 'M6')
    """
    return _parse(text) if isinstance(text, str) else _parse(str(text))


@lru_cache(maxsize=4096)
def parse_of(name: str, text: str) -> Thread:
    """A thread whose family is known, read as `parse` reads it: the marks of the other families are not looked for.

    >>> str(parse_of("ba", "4 BA"))
    '4 BA'
    """
    written = _written(text)
    found = _marked(written.body, name)
    return family(name).read(written, found[1] if found else Mark("letter", "", "", written.body))


@lru_cache(maxsize=4096)
def _parse(text: str) -> Thread:
    written = _written(text)
    if name := _lettered(written.body):
        return family(name).read(written, Mark("letter", "", "", written.body))
    if found := _marked(written.body):
        name, mark = found
        if not name:
            raise refuse(written.text, _other(mark))
        return family(name).read(written, mark)
    return _bare(written)


def _written(text: str) -> Written:
    if len(text) > _LONGEST or not text.isprintable() or not text.strip():
        raise BadInput("size", ascii(text[:30]) if text.strip() else "", ACCEPTED)
    body = text.translate(_SIGNS).translate(_DASHES)
    if "," in body:
        body = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", body)
    if "(" in body:
        body = re.sub(_GAUGING, "", body)
    body = " ".join(body.split())
    starts, left, special = 0, 0, 0
    low = body.lower()
    if "start" in low and (found := re.search(_STARTS, body)):
        starts = _COUNTS.get(found[1].lower()) or int(found[1])
        if not starts:
            raise BadInput("size", text.strip()[:60], "one start or more, such as M16xPh3P1.5 (2 starts)")
        body = body[: found.start()] + " " + body[found.end() :]
    if "l" in low:
        body, left = re.subn(_LEFT, "", body)
    if "r" in low and not left:
        body = re.sub(_RIGHT, "", body)
    if "special" in low:
        body, special = re.subn(_SPECIAL, "", body)
    return Written(text=text.strip(), body=body.strip(" -"), left_hand=bool(left), special=bool(special), starts=starts)


def _lettered(body: str) -> str:
    """The family whose letter a designation begins with; "" if none. M.E. is no metric thread."""
    low = body.lower()
    for listed in LISTED:
        if listed.letter and low.startswith(listed.letter.lower()):
            after = low[len(listed.letter) : len(listed.letter) + 2].lstrip(".")
            if not after[:1].isalpha():
                return listed.id
    return ""


@cache
def _marks(name: str) -> re.Pattern[str]:
    """The marks of one family; else of every one, and of those that are not here. Compiled when first looked for."""
    known = [f"(?P<{kind}> {pattern} )" for one in LISTED if name in ("", one.id) for kind, pattern in one.marks]
    if not name:
        known.insert(0, f"(?P<other> {' | '.join(row['mark'] for row in rows('threads/other_families.csv'))} )")
    return re.compile(rf"(?xi) (?<![a-z]) (?: {' | '.join(known) or '(?!)'} ) (?![a-z])")


@cache
def _family_of() -> dict[str, str]:
    return {kind: listed.id for listed in LISTED for kind, _ in listed.marks}


def _marked(body: str, name: str = "") -> tuple[str, Mark] | None:
    """The family (of one, if told) whose mark stands in a writing, "" for one that is not here, and the mark; else None."""
    found = _marks(name).search(body)
    if not found:
        return None
    kind = str(found.lastgroup)
    before, after = body[: found.start()].strip(" -"), body[found.end() :]
    return _family_of().get(kind, ""), Mark(kind, found[0].strip(), before, after)


def _other(mark: Mark) -> str:
    """What a family is that the tables here do not hold."""
    for row in rows("threads/other_families.csv"):
        if re.fullmatch(f"(?xi) {row['mark']}", mark.word):
            return f"{mark.word.upper()} threads are not among the families here: {row['what']}"
    raise AssertionError(mark)


def _bare(written: Written) -> Thread:
    """A pair with no mark: in inches, or metric if it is written with x and only ISO metric has it."""
    joint = "x" if "x" in written.body.lower() else "-"
    found, refusals = [], []
    for name in (listed.id for listed in LISTED if joint in listed.bare):
        try:
            found.append(family(name).read(written, Mark("", "", written.body, "")))
        except BadInput as refusal:
            refusals.append(refusal)
    if len(found) == 1:
        return found[0]
    if found:
        choices = " or ".join(map(str, found))
        raise refuse(written.text, f"{written.text} may be {choices}; write which", choices)
    pair = re.match(rf"({NUMBER})\s*x\s*({NUMBER})", written.body)
    metric = joint == "x" and pair and float(pair[2]) < float(pair[1])
    raise refusals[0 if metric else -1]


def is_thread(text: str) -> bool:
    """Whether a word is written as a thread is; a wrong one too: M13 is one, 3/8 is a drill.

    >>> [is_thread(text) for text in ("M10", "m13", "3/8 unf", "1/4-24", "4ba", "3/8", "10", "r", "drill 3")]
    [True, True, True, True, True, False, False, False, False]
    """
    try:
        body = _written(text).body
    except BadInput:
        return False
    if name := _lettered(body):
        letter = next(listed.letter for listed in LISTED if listed.id == name)
        return bool(re.match(r"\s*\.?\d", body[len(letter) :]))
    found = _marked(body)
    if found and found[1].before and len(found[1].word) > 1:  # one letter with a number may be a gram
        return bool(
            re.fullmatch(
                r"(?i)(?:no\.?|number)?[\d#./x\"'()\s-]*\d(?:[\d./x\"'()\s-]|tpi|inch|in|mm|[pl])*", found[1].before
            )
        )
    if found and len(found[1].word) > _SHORT_MARK:
        return False
    if not found and re.match(rf"(?i){SIZE}\s*\"?\s*-\s*\d", body):
        return True
    return _reads(text)


def _reads(text: str) -> bool:
    try:
        parse(text)
    except BadInput:
        return False
    return True


def read(given: object, ask: Ask, unit: str) -> Thread:
    """Read a thread for an input; a Thread passes through, and its own writing says its unit.

    >>> from engine.base.kinds import Ask
    >>> read("4BA", Ask("Thread", "thread", "", "", True), "mm").pitch
    Fraction(33, 50)
    """
    if isinstance(given, Thread):
        return given
    if not isinstance(given, str):
        raise refuse(str(given), "a thread is written as text", ACCEPTED)
    if ask.coarse and (size := re.fullmatch(_BARE_SIZE, given.strip())):
        return _coarse(size[0])
    return parse(given)


_BARE_SIZE = r"(?i)(?:#|no\.? ?)\d+|\d+(?:[ -]\d+/\d+|/\d+)|\d+ ?(?:in|\")"


def _coarse(size: str) -> Thread:
    """The Unified thread of a bare size in inches, coarse where there is one."""
    number = re.sub(r"(?i)^no\.? ?", "#", re.sub(r'(?i) ?(?:in|")$', "", size))
    whole = f'{number}"' if number.isdigit() else number
    for series in ("UNC", "UNF"):
        try:
            return _parse(f"{whole} {series}")
        except BadInput:
            continue
    return _parse(size)
