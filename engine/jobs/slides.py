"""The slides that take off what a measurement says: which, how far, and what their dials show."""

from __future__ import annotations

from math import cos, radians, sin
from typing import Literal

from engine.base.records import dataclass
from engine.base.refusals import BadInput, check_range
from engine.base.words import Text, counted, say, shown
from engine.indexing.dials import DialSetting, slide_setting
from engine.jobs.measuring import GROWING, Judgement, Kind
from engine.shop.model import Shop, Slide

SlideName = Literal["cross", "top", "saddle", "tailstock", "quill"]

# The tool moves half of what these change by: it works on both sides of the axis, or on both of two flats.
BOTH_SIDES = ("diameter", "bore", "over wires", "across flats", "blank")


@dataclass(frozen=True, slots=True)
class DialMove:
    """How far to turn a slide's handwheel from where it stands; `way` is the way the tool goes, in words.

    `travel` is what is wanted, in mm of the slide; `setting` what the dial can be set to. `keeps_limits` is False
    where one line of the dial is too coarse for the limits.
    """

    slide: str
    travel: float
    setting: DialSetting
    way: str
    reads_diameter: bool
    keeps_limits: bool


_USUAL: dict[Kind, tuple[SlideName, ...]] = {
    "diameter": ("cross", "top"),
    "bore": ("cross",),
    "over wires": ("top", "cross"),  # the thread is fed in along its flank: see engine.threads.passes
    "across flats": ("quill",),
    "length": ("saddle", "top", "quill"),
    "knurl": (),
    "blank": ("cross", "top"),
    "depth": ("quill", "tailstock", "saddle", "top"),
}


def slides_for(kind: Kind, shop: Shop, first: str = "") -> tuple[SlideName, ...]:
    """The slides that can take off a measure of this kind, as `dial_move` names them, the usual one first (common practice,
    no source): the one that a recipe names comes `first`, and `none` says that no slide does. Empty if no dial is known.

    >>> from engine.shop.file import sample
    >>> slides_for("over wires", sample("metric")), slides_for("depth", sample("metric"))
    (('top', 'cross'), ('quill', 'tailstock', 'saddle', 'top'))
    """
    if first == "none":
        return ()
    usual = sorted(_USUAL[kind], key=lambda name: name != first)
    return tuple(name for name in usual if _slide(name, shop) and _ratio(kind, name, shop))


def _slide(name: str, shop: Shop) -> Slide | None:
    if name == "quill":
        return shop.mill.z if shop.mill else None
    if shop.lathe is None:
        return None
    lathe = shop.lathe
    owned = {"cross": lathe.cross_slide, "top": lathe.top_slide, "saddle": lathe.saddle, "tailstock": lathe.tailstock}
    return owned.get(name)


def _ratio(kind: Kind, name: str, shop: Shop) -> float:
    """What the measure changes by for one mm of the slide; 0 if that slide cannot change it."""
    straight = 2.0 if kind in BOTH_SIDES else 1.0
    if name != "top" or shop.lathe is None:
        return straight
    angle = radians(shop.lathe.top_slide_angle)
    share = cos(angle) if kind in BOTH_SIDES else sin(angle)
    return straight * share if share > 0.05 else 0.0  # nearly square to the cut it moves nothing


def owned_slide(name: str, kind: Kind, shop: Shop) -> tuple[Slide, float]:
    """Return a slide of the shop, and what a measure changes by for one mm of its travel.

    name: `cross`, `top`, `saddle`, `tailstock` or `quill`.
    kind, shop: As for `judge`, and what is owned.
    Returns: The slide.; 2 for a diameter by the cross slide; 2 x cosine of its angle by the top slide. [mm/mm]
    Raises: BadInput if it is not owned, or cannot change such a measure.
    Source: Trigonometry.

    >>> from engine.shop.file import sample
    >>> owned_slide("top", "over wires", sample("metric"))[1]
    1.7407
    """
    can = slides_for(kind, shop)
    slide = _slide(name, shop)
    if slide is None or name not in can:
        raise BadInput("slide", name, " or ".join(can) or "a slide with a dial, in the shop")
    return slide, _ratio(kind, name, shop)


def dial_position(slide: Slide, *, turns: int, reading: float) -> float:
    """Return where a slide stands, from the turns counted and what its dial shows.

    >>> from fractions import Fraction
    >>> dial_position(Slide(travel_per_turn=Fraction(2), divisions=80), turns=1, reading=0.45)
    2.45
    """
    turn = float(slide.travel_per_turn)
    shown_per_mm = 2 if slide.reads_diameter else 1
    check_range("turns", turns, low=0, high=1000)
    check_range("dial", reading, low=0, high=turn * shown_per_mm, unit="mm", why="one turn")
    return turns * turn + reading / shown_per_mm


def dial_move(judgement: Judgement, name: str, shop: Shop, *, takes: float = 1.0) -> DialMove:
    """Return how far to turn a handwheel to bring a part to the size aimed at, never past its limits.

    judgement: With something left to come off.
    name: The slide: see `slides_for`.
    shop: What is owned.
    takes: What the tool takes of what the dial says. [-]
    Returns: From where the dial stands. The setting falls short of the size by less than a line, unless that would
        leave the part outside its limits.
    Raises: BadInput if the slide is not owned or cannot do it, or nothing is left to come off.
    Source: As for engine.indexing.dials.

    >>> from engine.shop.file import sample
    >>> from engine.jobs.measuring import judge
    >>> found = judge(20.14, low=19.98, high=20.02, kind="diameter")
    >>> move = dial_move(found, "cross", sample("metric"))
    >>> move.travel, move.setting.lines, move.keeps_limits
    (0.07, 3, True)
    """
    if not judgement.more:
        raise BadInput("reading", judgement.reading, "a reading with something left to come off")
    slide, ratio = owned_slide(name, judgement.kind, shop)
    ratio *= takes
    travel = round(judgement.to_aim / ratio, 9)  # a float a hair short of a line is on it
    way = _way(judgement.kind, name)
    for towards in ("short", "nearest", "past"):
        setting = slide_setting(slide, travel, towards=towards)
        if _keeps(judgement, (travel + setting.error) * ratio):
            return DialMove(name, travel, setting, way, slide.reads_diameter, True)
    setting = slide_setting(slide, travel, towards="short")
    return DialMove(name, travel, setting, way, slide.reads_diameter, False)


def _way(kind: Kind, name: str) -> str:
    if name == "quill":
        return "further down"
    if kind in ("length", "depth") and name in ("saddle", "top"):
        return "further towards the chuck"
    return "further out" if kind == "bore" else "further in"


def _keeps(judgement: Judgement, taken: float) -> bool:
    """Whether the part is in limits once so much has come off."""
    made = judgement.reading + (taken if judgement.kind in GROWING else -taken)
    return (judgement.low is None or made >= judgement.low - 1e-9) and (
        judgement.high is None or made <= judgement.high + 1e-9
    )


def move_words(move: DialMove) -> Text:
    """Return a move of a handwheel in words.

    >>> from engine.base.words import write
    >>> from engine.shop.file import sample
    >>> from engine.jobs.measuring import judge
    >>> found = judge(20.2, low=19.9, high=20.1, kind="diameter")
    >>> print(write(move_words(dial_move(found, "cross", sample("metric")))))
    Cross slide: 4 lines further in (0.100 mm).
    """
    names = {"quill": "Quill or knee"}
    slide = move.slide.capitalize() + ("" if move.slide in ("saddle", "tailstock") else " slide")
    turns = f"{counted(move.setting.turns, 'turn')} and " if move.setting.turns else ""
    far = shown((move.travel + move.setting.error) * (2 if move.reads_diameter else 1))
    reads, lines = " on a dial that reads diameter" if move.reads_diameter else "", counted(move.setting.lines, "line")
    name, text = names.get(move.slide, slide), "{name}: {turns}{lines} {way} ({far}{reads})."
    words = say(text, name=name, turns=turns, lines=lines, way=move.way, far=far, reads=reads)
    if move.keeps_limits:
        return words
    closer = "{words} The limits are closer than its lines: {exact} is wanted, so set between two lines."
    return say(closer, words=words, exact=shown(move.travel))
