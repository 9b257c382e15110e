"""Judging a reading: in limits, how much has still to come off and where to set the dial, or over-cut."""

from __future__ import annotations

from typing import Literal

from engine.base.kinds import Ask
from engine.base.records import dataclass
from engine.base.refusals import BadInput, check_range
from engine.base.words import Text, say, shown, span

Kind = Literal["diameter", "bore", "over wires", "across flats", "length", "depth", "knurl", "blank"]
State = Literal["too big", "in limits", "too small"]

_SLIP = 9.5  # of the size: a decimal point one place off, with what was still to be cut
_ROLLED = 3.0  # so many times its size no knurl comes out: common practice, no source
GROWING = ("bore", "depth", "knurl")  # cutting, or rolling, makes these larger; every other kind gets smaller


@dataclass(frozen=True, slots=True)
class Judgement:
    """What a reading means. Lengths in mm, of the measured dimension.

    `to_limit` is the least that has still to come off, `to_aim` what brings it to the size aimed at; both are 0
    unless more is to be cut. `aim` is what is aimed at, in words, `size` that size, `beyond` how far it lies past the
    limit that cutting cannot restore.
    """

    reading: float
    kind: Kind
    state: State
    low: float | None
    high: float | None
    to_limit: float = 0.0
    to_aim: float = 0.0
    beyond: float = 0.0
    doubt: str = ""
    aim: str = "the middle"
    size: float = 0.0

    @property
    def over_cut(self) -> bool:
        """Whether too much has come off already."""
        return self.beyond > 0

    @property
    def more(self) -> bool:
        """Whether something has still to come off."""
        return self.to_limit > 0


def read_reading(text: str, unit: str) -> float:
    """A reading as typed (`19.98`, `0.787in`), a bare number in `unit` [mm]; BadInput if it is no length above nought.

    >>> read_reading("0.5in", "mm")
    12.7
    """
    ask = Ask("Reading", "length", "", "19.98", True, low=1e-4, high=1e4, dimension="length")
    value: float = ask.read("reading", text, unit)
    return value


def judge(
    reading: float,
    *,
    low: float | None,
    high: float | None,
    kind: Kind,
    target: float | None = None,
    aim: str = "the middle",
) -> Judgement:
    """Judge a reading by its limits.

    reading: The reading. [mm]
    low, high: Smallest and largest permissible size. [mm]
    kind: `diameter`, `bore`, `over wires`, `across flats`, `length`, `depth`, `knurl` or `blank` (of a knurl):
        whether cutting makes it smaller or larger.
    target: The size aimed at; None: the middle, or the only limit. [mm]
    aim: What that is, in words.
    Returns: State, what is left to come off, or how far it is over-cut.
    Raises: BadInput if there is no limit, or low lies above high.
    Source: Arithmetic. Over wires of one size the measure changes as the pitch diameter does.

    >>> found = judge(20.14, low=19.98, high=20.02, kind="diameter")
    >>> found.state, found.to_limit, found.to_aim
    ('too big', 0.12, 0.14)
    """
    check_range("reading", reading, low=0, high=1e5, unit="mm")
    if low is None and high is None:
        raise BadInput("limits", "", "a low or a high limit")
    if low is not None and high is not None and low > high:
        raise BadInput("limits", span(low, high), "a low limit below the high one")
    state: State = "in limits"
    if high is not None and reading > high + 1e-9:
        state = "too big"
    elif low is not None and reading < low - 1e-9:
        state = "too small"
    size = _middle(low, high) if target is None else target
    doubt = _doubt(reading, size)
    if state == "in limits":
        return Judgement(reading, kind, state, low, high, doubt=doubt, size=size)
    limit = high if state == "too big" else low
    assert limit is not None
    off = abs(reading - limit)
    if (state == "too big") == (kind not in GROWING):
        to_aim = max(abs(reading - size), off)
        return Judgement(reading, kind, state, low, high, to_limit=off, to_aim=to_aim, doubt=doubt, aim=aim, size=size)
    return Judgement(reading, kind, state, low, high, beyond=off, doubt=doubt, size=size)


def refuse_slip(judgement: Judgement, typed: str) -> None:
    """Refuse a reading that only a slipped decimal point or another unit explains.

    judgement: The reading, judged.
    typed: As it was typed.
    Raises: BadInput where it passes its one limit but lies far from it, or where it is a diameter about ten times what is
        aimed at, or a tenth of it; a knurl grows by a part of a mm, so it is never far off.
    Source: Arithmetic; the factors are common practice, no source. A length or a depth may well begin so far off.

    >>> refuse_slip(judge(25.83, low=25.0, high=None, kind="diameter"), "25.83")
    >>> try:
    ...     refuse_slip(judge(258.0, low=25.0, high=None, kind="diameter"), "258")
    ... except BadInput as refusal:
    ...     refusal.accepted
    'a size nearer to 25.000 mm (look at the decimal point and the unit)'
    """
    if not judgement.doubt:
        return
    size = judgement.size
    far = _ROLLED if judgement.kind == "knurl" else _SLIP
    slipped = not size / far < judgement.reading < size * far and judgement.kind not in ("length", "depth")
    if judgement.state == "in limits" or slipped:
        near = say("a size nearer to {size} (look at the decimal point and the unit)", size=shown(size))
        raise BadInput("reading", typed, near)


def _middle(low: float | None, high: float | None) -> float:
    """The size to aim at: the middle, or the only limit there is."""
    if low is None or high is None:
        return high if low is None else low  # type: ignore[return-value]
    return (low + high) / 2


def _doubt(reading: float, middle: float) -> str:
    if middle > 0 and not middle / 3 < reading < middle * 3:
        return "This is far from the size wanted: is the decimal point right, and the unit?"
    return ""


_STILL = {
    "diameter": "If its mate is not made yet, make the mate to suit this part.",
    "bore": "If its mate is not made yet, make the mate to suit this bore; or bush it.",
    "over wires": "See that all three wires lie in the groove and that no burr lifts them. If the nut is not cut yet, "
    "cut it to suit this screw.",
    "across flats": "A spanner still holds a hexagon that is a little small; else make the mate to suit.",
    "length": "If another part makes up the length, a shim or a longer mate may do.",
    "depth": "If its mate is not made yet, make the mate to suit.",
    "knurl": "A knurl that only the fingers turn may stay so.",
    "blank": "A blank that is a little small may track all the same: roll one of that size on a scrap end first.",
}


def what_may_be_done(kind: Kind, own: tuple[str, ...] = ()) -> tuple[str, ...]:
    """What may still be done with an over-cut part, a sentence each: the recipe's own lines, then what always holds
    (common practice, no source).

    >>> what_may_be_done("diameter")[0]
    'Let part and gauge come to the same temperature, wipe both, and measure again.'
    """
    again = "Let part and gauge come to the same temperature, wipe both, and measure again."
    if kind == "blank":  # a knurl goes round on a smaller blank as well, with fewer teeth
        return (again, _STILL[kind], *own)
    return (again, *own, _STILL[kind], "Otherwise this part is scrap: begin the next one.")


_WHERE = dict.fromkeys(("diameter", "bore", "blank"), " on the diameter") | {
    "across flats": " across the flats, half on each,"
}


def sentences(judgement: Judgement, *, move: Text = "", own: tuple[str, ...] = ()) -> tuple[Text, ...]:
    """Return a judgement in words.

    >>> from engine.base.words import write
    >>> [write(line) for line in sentences(judge(20.0, low=19.98, high=20.02, kind="diameter"))]
    ['In limits: 20.000 mm.']
    """
    reading = shown(judgement.reading)
    doubt = (judgement.doubt,) if judgement.doubt else ()
    if judgement.over_cut:
        text = "Over-cut: {reading} is {state} by {beyond}. What is cut off does not come back."
        if judgement.kind == "knurl":
            text = "Rolled too far: {reading} is {state} by {beyond}. What has come up does not go back."
        first = say(text, reading=reading, state=judgement.state, beyond=shown(judgement.beyond))
        return (first, *doubt, *what_may_be_done(judgement.kind, own))
    if not judgement.more:
        return (say("In limits: {reading}.", reading=reading), *doubt)
    text = "{state}: {reading}. Take off {to_aim}{where} for {aim}, {least} at least."
    if judgement.kind == "knurl":
        text = "{state}: {reading}. It has to grow by {to_aim}{where} for {aim}, {least} at least: roll on."
    state, where = judgement.state.capitalize(), _WHERE.get(judgement.kind, "")
    to_aim, least = shown(judgement.to_aim), shown(judgement.to_limit)
    more = say(text, state=state, reading=reading, where=where, to_aim=to_aim, aim=judgement.aim, least=least)
    return (more, *doubt, *((move,) if move else ()))
