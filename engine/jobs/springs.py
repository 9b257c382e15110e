"""What a slide's tool really takes of what its dial says, as learned in the jobs, and which of that serves now.

A light lathe springs by the tool's push, which the material and the work's thickness change: so they stand beside what was
learned, and what was learned in the same material comes first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import log
from typing import Any

from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.rounding import short
from engine.base.words import Text, figures, say, shown

LEARNED, TOLD, FORGOTTEN = "learned", "spring told", "spring forgotten"
KINDS = (LEARNED, TOLD, FORGOTTEN)
LEAST, MOST = 0.3, 1.25  # outside these a dial was misread, not the lathe sprung; common practice, no source
_TOLD_DOUBT = 0.05  # of a share that the owner gives: as sure as two readings make it; common practice, no source
_NEAR = 2.0  # times thicker or thinner: beyond, the push is another one; common practice, no source


@dataclass(frozen=True, slots=True)
class Spring:
    """What one slide's tool takes of what the dial says, give or take, 19 times in 20.

    `diameter` is the work's [mm] or None, `readings` how many it comes from (0: as the owner says), `job` and `seq` the
    entry that says so, `title` that job's name, `at` when.
    """

    machine: str
    slide: str
    share: float
    doubt: float
    readings: int
    material: str
    diameter: float | None
    at: str
    job: int
    seq: int
    title: str = ""


def springs(entries: Iterable[tuple[int, int, str, str, Mapping[str, Any]]]) -> tuple[Spring, ...]:
    """What is known of every slide, the newest first, from the entries of all jobs in the order they were made.

    An entry is its job, its number, when, its kind (see KINDS) and what it says. What is learned again in one step of a
    job takes the place of what was learned there before; what the owner says, that of the one it corrects.

    >>> said = {"machine": "Lathe", "slide": "cross", "share": 0.8, "doubt": 0.04, "readings": 2,
    ...         "material": "mild steel", "diameter": 25.0, "step": 3}
    >>> springs([(1, 9, "", LEARNED, said)])[0].share
    0.8
    >>> springs([(1, 9, "", LEARNED, said), (1, 12, "", FORGOTTEN, {"of": [1, 9]})])
    ()
    """
    found: dict[tuple[int, int], Spring] = {}
    steps: dict[tuple[int, int], tuple[int, int]] = {}
    for job, seq, at, kind, data in entries:
        if kind == LEARNED:
            found.pop(steps.get((job, data["step"]), (0, 0)), None)
            steps[job, data["step"]] = (job, seq)
            found[job, seq] = _spring(job, seq, at, data)
        else:
            old = found.pop((data["of"][0], data["of"][1]), None)
            if old is not None and kind == TOLD:
                now = replace(old, share=data["share"], doubt=_TOLD_DOUBT, readings=0, at=at, job=job, seq=seq)
                found[job, seq] = now
    return tuple(reversed(found.values()))


def _spring(job: int, seq: int, at: str, data: Mapping[str, Any]) -> Spring:
    return Spring(data["machine"], data["slide"], data["share"], data["doubt"], data["readings"], data["material"],
        data["diameter"], at, job, seq, data.get("title", ""))  # fmt: skip


def spring_for(
    known: Iterable[Spring], *, machine: str, slide: str, material: str, diameter: float | None
) -> Spring | None:
    """The one that serves for a cut: of the same material and about the same thickness, else of that material, else the
    newest of the slide.

    >>> steel = Spring("Lathe", "cross", 0.8, 0.04, 2, "mild steel", 25.0, "", 1, 9)
    >>> brass = Spring("Lathe", "cross", 0.95, 0.03, 3, "brass", 25.0, "", 2, 9)
    >>> spring_for((brass, steel), machine="Lathe", slide="cross", material="mild steel", diameter=20).share
    0.8
    """
    here = [one for one in known if (one.machine, one.slide) == (machine, slide)]
    return min(here, key=lambda one: _strange(one, material, diameter), default=None)


def _strange(one: Spring, material: str, diameter: float | None) -> tuple[bool, bool]:
    near = bool(diameter and one.diameter) and abs(log(diameter / one.diameter)) <= log(_NEAR)  # type: ignore[operator]
    return one.material != material, not near


def checked_share(share: float) -> float:
    """A share that a spring can have.

    >>> checked_share(8.0)
    Traceback (most recent call last):
    engine.base.refusals.BadInput: takes: 8 cannot be used; accepted: 0.3 to 1.25, such as 0.8.
    """
    if not LEAST <= share <= MOST:
        raise BadInput("takes", short(share, 2), f"{short(LEAST, 2)} to {short(MOST, 2)}, such as 0.8")
    return share


def spring_words(one: Spring) -> Text:
    """What is known in a sentence, with how sure it is.

    >>> from engine.base.words import write
    >>> write(spring_words(Spring("Lathe", "cross", 0.8, 0.04, 2, "mild steel", 25.0, "", 1, 9)))
    'The cross slide takes 0.80 of what its dial says, give or take 0.04 (2 readings, mild steel, 25.0 mm)'
    """
    source: list[Text] = [f"{one.readings} readings" if one.readings else "as you said"]
    source += [one.material] if one.material else []
    source += [shown(one.diameter, decimals=1)] if one.diameter else []
    template = "The {slide} takes {share} of what its dial says, give or take {doubt} ("
    parts = {f"s{i}": text for i, text in enumerate(source)}
    template += ", ".join(f"{{{name}}}" for name in parts) + ")"
    name = one.slide if one.slide in ("saddle", "tailstock", "quill") else f"{one.slide} slide"
    return say(template, slide=name, share=figures(one.share, 2), doubt=figures(one.doubt, 2), **parts)
