"""What a family of threads is: one object that says all that differs from one family to the next.

Each stands in a file of its own under engine/threads/families, which is loaded when the first of its threads is read.
`python -m engine.threads.family` makes the list of them (engine/threads/families/listed.py) anew, so that a writing
finds its family and the names are known before any is loaded; a test holds the list to the files.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from fractions import Fraction
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, NamedTuple

from engine.base.records import dataclass
from engine.threads.families.listed import ROWS

if TYPE_CHECKING:
    from engine.base.words import Text
    from engine.threads.form import Form
    from engine.threads.limits import Gauge, Limits
    from engine.threads.series import Entry
    from engine.threads.stress import Area
    from engine.threads.thread import Thread
    from engine.threads.tolerance import Classes
    from engine.threads.written import Written


class Listed(NamedTuple):
    """A family as it is listed before its file is loaded."""

    id: str
    name: str
    module: str
    letter: str
    bare: str
    marks: tuple[tuple[str, str], ...]


LISTED = tuple(Listed(*row) for row in ROWS)
FAMILIES: tuple[str, ...] = tuple(listed.id for listed in LISTED)  # the commonest on the bench first
FAMILY_NAMES: Mapping[str, str] = {listed.id: listed.name for listed in LISTED}


class Mark(NamedTuple):
    """The word that says which family a writing is of: `kind` names the pattern, `word` is as written."""

    kind: str
    word: str
    before: str
    after: str


class Grammar(NamedTuple):
    """How classes are written: patterns of the screw's and the nut's, and what is accepted, in words.

    `letters` is how they are spelt: "lower", "upper", or "" where only capital and small letters tell screw from nut.
    """

    screw: str
    nut: str
    accepted: str
    letters: str = ""
    nut_first: bool = False


def _no_clearance(thread: Thread) -> float:
    return 0.0


def _no_gauge(thread: Thread) -> Gauge | None:
    return None


def _root_area(thread: Thread) -> Area | None:
    from engine.threads.stress import mean_area

    return mean_area(thread)


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """A family of threads.

    `place` is how common it is on the bench: 10 the commonest. `standard` is what its pairs are of, as a refusal names
    it; `sizes` where its basic sizes come from. `marks` are the patterns by which a writing is known, each under the
    name that `read` gets; `letter` is the mark of a family whose designation begins with one and a number (M10).
    `bare`: a pair in inches with no mark is this family's.
    """

    id: str
    name: str
    place: int
    standard: str
    sizes: str
    read: Callable[[Written, Mark], Thread]
    write: Callable[[Entry], str]
    pairs: Callable[[], Iterable[Entry]]
    form: Callable[[Thread], Form]
    limits: Callable[[Thread, Classes, float | None], Limits]
    marks: Mapping[str, str] = field(default_factory=dict)
    letter: str = ""
    bare: str = ""
    classes: Grammar | None = None
    inch: bool = False
    tpi: bool = False  # its standard gives threads per inch, whatever the unit of its diameters
    taper: Fraction = Fraction(0)
    parallel: tuple[str, ...] = ()  # series of a tapering family that do not taper
    nut_series: tuple[str, ...] = ()  # series that are a nut's thread
    by_engagement: bool = False  # whether its tolerances depend on the length engaged
    engaged: Callable[[Thread, float], Text] | None = None  # what a length of engagement is called
    clearance: Callable[[Thread], float] = _no_clearance  # at crest and root, on one side, in mm
    gauge: Callable[[Thread], Gauge | None] = _no_gauge  # the lengths of a taper thread
    stress_area: Callable[[Thread], Area | None] = _root_area
    # Tapping
    charted: bool = True  # drill charts name a tapping drill by percentage of thread
    formed: bool = True  # there are taps that form it without chips
    inch_drills: bool = False  # charts name number, letter and fraction drills
    chart_depth: float | None = None  # of a full thread, both sides, in pitches; None: twice the basic depth
    drill_standard: str = ""  # a standard that names its tapping drills
    # Screws
    bolts: str = ""  # whose heads, clearance holes and counterbores they have: iso, asme
    usual: tuple[str, str] = ("", "")  # class of the screw and of the nut that is meant where none is said
    # Reliefs
    reliefs: bool = False  # DIN 76-1 lists its pitches


@cache
def family(name: str) -> Family:
    """A family by its id.

    >>> family("ba").name, family("npt").taper
    ('British Association', Fraction(1, 16))
    """
    module = next(listed.module for listed in LISTED if listed.id == name)
    found: Family = import_module(f"engine.threads.families.{module}").FAMILY
    return found


def listing() -> str:
    """The text of engine/threads/families/listed.py, from the files beside it: loads every family."""
    from pathlib import Path

    found = []
    for file in sorted(Path(__file__).with_name("families").glob("*.py")):
        if "\nFAMILY = Family(" in file.read_text(encoding="utf-8"):
            one: Family = import_module(f"engine.threads.families.{file.stem}").FAMILY
            found.append((one.place, (one.id, one.name, file.stem, one.letter, one.bare, tuple(one.marks.items()))))
    rows = "".join(f"    {row!r},\n" for _, row in sorted(found))
    head = "Every family of threads as it is listed. Generated: `python -m engine.threads.family` writes it anew."
    kind = "tuple[tuple[str, str, str, str, str, tuple[tuple[str, str], ...]], ...]"
    return f'"""{head}"""\n\n# fmt: off\nROWS: {kind} = (\n{rows})\n'


if __name__ == "__main__":
    from pathlib import Path

    (Path(__file__).with_name("families") / "listed.py").write_text(listing(), encoding="utf-8")
