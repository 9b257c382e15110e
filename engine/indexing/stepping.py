"""Going round the work step by step with whatever the shop has: dividing head, rotary table, or a spindle wheel."""

from __future__ import annotations

from fractions import Fraction

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.indexing.choose import choices
from engine.indexing.positions import Stop, stops
from engine.indexing.rotary import dial_text, exact_angle, table_setting
from engine.indexing.simple import direct_ways
from engine.indexing.way import Train, Way, counted, mixed, move_text, train_text
from engine.shop.model import Shop

DEVICES = ("head", "table", "wheel")
_DEVICE_NAMES = {"head": "dividing head", "table": "rotary table", "wheel": "spindle wheel", "": "by angle"}


@dataclass(frozen=True, slots=True)
class Stepping:
    """How the work is stepped round: the device, the move, and every position.

    `circle` is what `hole_from_start` counts in (0: nothing is counted), `noun` what is counted. `error` is the
    worst position's [arcsec]; `gearing` says how the gears come about, where there are any. `after` is where the work
    stands after each move of one turn round, the last being the first position again.
    """

    device: str
    move: str
    method: str
    circle: int
    noun: str
    stops: tuple[Stop, ...]
    error: float
    train: Train | None
    working: str
    gearing: str = ""
    way: Way | None = None
    after: tuple[Stop, ...] = ()

    @property
    def counts_holes(self) -> bool:
        """Whether a position is a count of holes (or teeth), not a reading of a dial or an angle."""
        return self.device in ("head", "wheel")

    @property
    def counted_in(self) -> str:
        """What a position is counted in, "" where it is read off."""
        return self.noun if self.counts_holes else ""

    @property
    def device_name(self) -> str:
        """The device in words."""
        return _DEVICE_NAMES[self.device]


def step_round(count: int, shop: Shop, *, device: str | None = None) -> Stepping:
    """Choose the device and work out every position: the first that is exact, else the one with the least error.

    Sources: The order head, table, wheel: common practice, no source.

    >>> from engine.shop.file import sample
    >>> step_round(30, sample("metric")).move, step_round(30, sample("metric"), device="wheel").move
    ('1 turn + 13 holes of 39', '2 teeth of 60')
    """
    makers = {"head": _by_head, "table": _by_table, "wheel": _by_wheel}
    if device is not None:
        made = makers[device](count, shop)
        if made is None:
            name = _DEVICE_NAMES[device]
            raise BadInput("by", device, "a device of this shop", f"by: {_refusal(device, count, shop, name)}")
        return made
    found = []
    for make in makers.values():
        made = make(count, shop)
        if made is not None and made.error == 0:
            return made
        found += [made] if made is not None else []
    return min(found, key=lambda s: s.error) if found else _by_angle(count)


def _refusal(device: str, count: int, shop: Shop, name: str) -> str:
    if device == "wheel" and shop.lathe is not None and shop.lathe.spindle_wheel:
        teeth = shop.lathe.spindle_wheel
        fits = ", ".join(str(n) for n in range(2, teeth + 1) if teeth % n == 0)
        return f"the spindle wheel's {teeth} teeth do not give {count}; they give {fits}."
    if device == "head" and shop.dividing_head is not None:
        return f"the dividing head cannot give {count}: one hole is a larger step than one division."
    return f"the shop has no {name}."


def _by_head(count: int, shop: Shop) -> Stepping | None:
    head = shop.dividing_head
    if head is None:
        return None
    wanted = Fraction(head.ratio, count)
    found = choices(wanted=wanted, head=head, count=count)
    # a nearest compound move is never stepped with: its error adds up
    best = next((c for c in found if c.way.method != "nearest" or not c.way.second_circle), None)
    if best is None:
        return None
    way = best.way
    working = f"{head.ratio} ÷ {count} = {mixed(wanted)} turns of the crank: {move_text(way)}"
    move, gearing, after = move_text(way), train_text(way) if way.train else "", stops(way, count + 1)[1:]
    places = stops(way, count)
    return Stepping(
        "head", move, way.method, way.circle, "hole", places, best.error, way.train, working, gearing, way, after
    )


def _by_table(count: int, shop: Shop) -> Stepping | None:
    table = shop.rotary_table
    if table is None:
        return None
    line = exact_angle(table.dial_reads)
    found = []
    for k in range(count + 1):
        angle = Fraction(360 * k, count)
        set_to = table_setting(angle, ratio=table.ratio, line=line)
        turns = counted(set_to.set_turns, "turn")
        setting = f"{turns} + {dial_text(set_to.set_dial)}" if k else "start: dial at 0"
        found.append(Stop(setting, set_to.set_turns, 0, 0, float(angle), set_to.error))
    *places, last = found
    worst = max(abs(s.error) for s in places)
    step = dial_text(Fraction(360, count))
    working = f"360° ÷ {count} = {step}; each angle from zero set to the nearest {dial_text(line)} of the dial"
    after = (*places[1:], last)
    return Stepping("table", step, "rotary table", 0, "hole", tuple(places), worst, None, working, after=after)


def _by_wheel(count: int, shop: Shop) -> Stepping | None:
    teeth = shop.lathe.spindle_wheel if shop.lathe is not None else None
    ways = direct_ways(wanted=Fraction(1, count), ratio=1, direct=(teeth,)) if teeth else ()
    if not ways:
        return None
    way = ways[0]
    move, working = move_text(way, "tooth"), f"{teeth} teeth ÷ {count} = {way.holes} teeth"
    places, after = stops(way, count, "tooth"), stops(way, count + 1, "tooth")[1:]
    name = _DEVICE_NAMES["wheel"]
    return Stepping("wheel", move, name, way.circle, "tooth", places, 0.0, None, working, "", way, after)


def _by_angle(count: int) -> Stepping:
    found = tuple(
        Stop(f"turn to {dial_text(Fraction(360 * k, count))}", 0, 0, 0, 360 * k / count, 0.0) for k in range(count)
    )
    step = dial_text(Fraction(360, count))
    return Stepping("", step, "by angle", 0, "hole", found, 0.0, None, f"360° ÷ {count} = {step}")
