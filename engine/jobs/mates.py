"""What is known of a mate from the jobs: the newest reading of the feature that a part is made to fit."""

from __future__ import annotations

import re
from collections.abc import Iterable

from engine.base.records import dataclass, replace


@dataclass(frozen=True, slots=True)
class MateReading:
    """A feature of a mate as it was measured [mm]: in which job, of which piece, when."""

    job: str
    what: str
    kind: str
    reading: float
    at: str


@dataclass(frozen=True, slots=True)
class Known:
    """A reading of any job: its title and recipe, and the feature that its step makes."""

    title: str
    recipe_name: str
    makes: tuple[str, ...]
    reading: MateReading


def _slug(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", text.casefold()).strip("-")


def same_part(part: str, title: str, recipe_name: str) -> bool:
    """Whether a job is one of the part that a file's name means.

    >>> same_part("height-adjuster-nut.toml", "Height-adjuster nut", "height-adjuster-nut")
    True
    >>> same_part("06-long-screw.toml", "Long screw", "long-screw-2")
    True
    >>> same_part("nut.toml", "Lock nut", "lock-nut")
    False
    """
    wanted = re.sub(r"^\d+-", "", _slug(part.removesuffix(".toml").rpartition("/")[2]))
    return wanted in (_slug(title), re.sub(r"-\d+$", "", _slug(recipe_name)))


def put_right(old: MateReading, reading: float, at: str) -> MateReading:
    """A reading as it was put right."""
    return replace(old, reading=reading, at=at)


def of_mate(known: Iterable[Known], part: str, feature: str) -> MateReading | None:
    """The newest reading of a feature of a part; `known` are the readings of all jobs, the newest first."""
    return next(
        (one.reading for one in known if feature in one.makes and same_part(part, one.title, one.recipe_name)), None
    )
