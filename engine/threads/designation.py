"""Reading how threads are written, for every family, and giving each the standard's own writing.

The one rule for odd pitches: a diameter and pitch that are no pair of the standard's are refused, with the nearest
pairs, unless the writing says that they are meant. Unified says it with UNS, Whitworth with `Whit.S`; every other
family with the word `special` (`M10x1.4 special`). Such a thread is marked `special`.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from engine.base.refusals import BadInput
from engine.threads.thread import Thread
from engine.threads.written import ACCEPTED, Written, refuse

if TYPE_CHECKING:
    from engine.base.declare import Ask

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


def parse(text: str) -> Thread:
    """Read a thread, in any of the ways it is written.

    Parameters
    ----------
    text : str
        Such as `M10`, `M10x1,25-6g`, `1/4-20 UNC-2A`, `4BA`, `3/8 BSW`, `G1/4`, `1/8 NPT`, `Tr14x6(P3)`, `3/4-6 ACME`.
        Capital or small letters, comma or point, any dash; only the letter of a metric class says screw or nut.

    Returns
    -------
    thread : Thread
        The thread; `parse(str(thread))` gives it again.

    Raises
    ------
    BadInput
        If it is no thread that the standards list; field `size`. The sentence names the nearest that are.

    Sources
    -------
    ISO 261, ISO 965-1 clause 12, ASME B1.1 clause 6, ASME B1.13M, BS 84, BS 93, BS 811, ISO 228-1, ISO 7-1,
    ASME B1.20.1, ISO 2904, ASME B1.5.

    Examples
    --------
    >>> str(parse("m10 X 1,25 - 6g")), str(parse("#10-32")), str(parse("1/4 unc lh"))
    ('M10x1.25-6g', '10-32 UNF', '1/4-20 UNC-LH')
    """
    return _parse(text) if isinstance(text, str) else _parse(str(text))


@lru_cache(maxsize=4096)
def _parse(text: str) -> Thread:
    written = _written(text)
    letters = written.body[:2].lower()
    if letters == "tr":
        from engine.threads.designation_metric import read_trapezoidal

        return read_trapezoidal(written)
    if letters[:1] == "m" and not letters[1:].isalpha():
        from engine.threads.designation_metric import read_metric

        return read_metric(written)
    from engine.threads.designation_inch import read_inch

    return read_inch(written)


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
        body = body[: found.start()] + " " + body[found.end() :]
    if "l" in low:
        body, left = re.subn(_LEFT, "", body)
    if "r" in low and not left:
        body = re.sub(_RIGHT, "", body)
    if "special" in low:
        body, special = re.subn(_SPECIAL, "", body)
    return Written(
        text=text.strip(), body=body.strip(" -"), left_hand=bool(left), special=bool(special), starts=starts
    )


def read(given: object, ask: Ask, unit: str) -> Thread:
    """Read a thread for an input; a Thread passes through.

    Parameters
    ----------
    given : object
        What was typed, or a Thread.
    ask : Ask
        The question.
    unit : str
        Not used: a thread's own writing says its unit.

    Returns
    -------
    thread : Thread
        The thread.

    Raises
    ------
    BadInput
        As for `parse`.

    Sources
    -------
    As for `parse`.

    Examples
    --------
    >>> from engine.base.declare import Ask
    >>> read("4BA", Ask("Thread", "thread", "", "", True), "mm").pitch
    Fraction(33, 50)
    """
    if isinstance(given, Thread):
        return given
    if not isinstance(given, str):
        raise refuse(str(given), "a thread is written as text", ACCEPTED)
    return parse(given)
