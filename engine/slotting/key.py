"""A key and its keyways: parallel or Woodruff, by the metric or the inch standard."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, Table, figure, heads, info, to_set, warning, words
from engine.base.operation import Operation, tells
from engine.base.quantity import INCH_MM
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import INCH, Sum, mm, num, root
from engine.base.words import Text, put, say, shown
from engine.indexing.dials import on_slide, slide_setting
from engine.joining.iso286 import limits_of
from engine.shop.model import Shop
from engine.situation import Situation
from engine.slotting.keys import InchKey, Key, Woodruff, inch_key_for, key_for, woodruff_for
from engine.slotting.pictures import key_picture

_DIN = "DIN 6885-1:1968, high form"
_B17_1 = "ANSI B17.1-1967 (R1998), Table 1"
_B17_RULE = "ANSI B17.1-1967: S = D - Y - H/2, T = D - Y + H/2 + 0.005 in; they give all 180 printed values"
_B17_LIMITS = "ANSI B17.1-1967, Table 4 (from memory, unconfirmed)"
_DISC = {"iso": "DIN 6888:1956, series A", "asme": "ANSI B17.2; keyseat by height - 0.005 in - W/2"}
_GEOMETRY = "geometry of the circle"
_CLEARANCE = 5  # thousandths of an inch above a parallel key: B17.1
_FLOOR, _HUB = 15, 10  # thousandths of an inch: tolerances of S (downwards) and T (upwards)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyInputs:
    """What `key` is told.

    diameter: Where the key sits.
    form: Parallel: the usual one. Rectangular: the flat section of B17.1. Woodruff: a slice of a disc.
    standard: iso: DIN 6885-1 and DIN 6888, in mm. asme: B17.1 and B17.2, in inches.
    number: Number or size of the key, such as 404, or 3 x 5.
    """

    diameter: float = ask.length("Diameter of the shaft", high=1000, example="12")
    form: str = ask.choice("Kind of key", ("parallel", "rectangular", "woodruff"), default="parallel")
    standard: str = ask.choice(
        "Standard", ("iso", "asme"), empty="as the shop's unit", default="iso", from_shop=lambda shop: shop.standard
    )
    number: str | None = ask.text("Woodruff key", example="404", empty="the usual one for the shaft")


@dataclass(frozen=True, slots=True)
class _Seat:
    """A key in its keyways, in mm: `down` and `hub` from the top of the round, `drop` to the edges."""

    width: float
    height: float
    down: float
    hub: float
    drop: float


def _work(inputs: KeyInputs, shop: Shop) -> Answer:
    if inputs.form == "woodruff":
        return _woodruff(inputs, shop)
    if inputs.number is not None:
        raise BadInput("number", inputs.number, "nothing, unless form=woodruff")
    if inputs.standard == "asme":
        return _inch_key(inputs, shop)
    if inputs.form == "rectangular":
        raise BadInput("form", inputs.form, "parallel or woodruff; rectangular keys are of B17.1 (standard=asme)")
    return _metric_key(inputs, shop)


def _crown(d: Sum, width: Sum) -> Sum:
    """How far the edges of a keyway lie below the top of the round."""
    return (d - root(d**2 - width**2)) / 2


def _answer(inputs: KeyInputs, shop: Shop, seat: _Seat, figures: list[Figure], title: str,
            notes: list[Note], tables: tuple[Table, ...] = ()) -> Answer:  # fmt: skip
    """The keyway on the mill's dial, where there is a mill, then the key's figures; and its picture."""
    touch = "The shaft's depth is counted from the top of the round: touch on there and set the dial to 0."
    width, height, deep, hub = seat.width, seat.height, seat.down, seat.hub
    picture = key_picture(inputs.diameter, title, width=width, height=height, down=deep, hub=hub)
    moment = Situation(machine="mill", work_diameter=inputs.diameter, snags=True)
    made = [*_on_the_mill(shop, seat.down), *figures]
    return Answer(tuple(made), tables, (picture,), (info(touch), *notes), moments=(moment,))


def _on_the_mill(shop: Shop, down: float) -> list[Figure]:
    """The keyway's depth on the mill's own dial."""
    if shop.mill is None:
        return []
    slide = shop.mill.z
    stands = slide_setting(slide, down, towards="past")
    setting = on_slide("Mill z", slide, stands, "down", down)
    source = "the mill's own handwheel; never short of the depth, as it has a plus tolerance only"
    beyond = say("{down} to the next line, {past} past it", down=mm(down), past=shown(stands.error, decimals=4))
    return [to_set("setting", "Keyway, from the top", setting, source, beyond)]


def _metric_key(inputs: KeyInputs, shop: Shop) -> Answer:
    key = key_for(inputs.diameter)
    band = say("shaft over {over} up to {to}", over=shown(key.over, decimals=0), to=shown(key.to, decimals=0))
    d, width = mm(inputs.diameter), mm(key.width)
    drop = _crown(d, width)
    limits = limits_of("h9", key.width)
    plus = key.depth_plus
    depth = say("{band}; tolerance +{plus}, 0", band=band, plus=put(plus))
    t1, t2 = mm(key.shaft_depth), mm(key.hub_depth)
    figures = [
        Figure("width", "Width of the key", key.width, "length", _DIN, band, key.width + limits.lower,
               key.width + limits.upper, side="down"),
        Figure("height", "Height of the key", key.height, "length", _DIN, band, side="down"),
        Figure("shaft_depth", "Depth in the shaft", key.shaft_depth, "length", _DIN, depth, key.shaft_depth,
               key.shaft_depth + plus, side="up"),
        Figure("hub_depth", "Depth in the hub", key.hub_depth, "length", _DIN, depth, key.hub_depth,
               key.hub_depth + plus, side="up"),
        figure("shaft_over_keyway", "Floor to far side", d - t1, "geometry",
               low=inputs.diameter - key.shaft_depth - plus, high=inputs.diameter - key.shaft_depth, side="down"),
        figure("hub_over_keyway", "Across bore and keyway", d + t2, "geometry", low=inputs.diameter + key.hub_depth,
               high=inputs.diameter + key.hub_depth + plus, side="up"),
        figure("edge_drop", "Edges below the top by", drop, "geometry"),
        *_iso_widths(key),
    ]  # fmt: skip
    seat = _Seat(key.width, key.height, key.shaft_depth, key.hub_depth, float(drop))
    return _answer(inputs, shop, seat, figures, "Parallel key, DIN 6885-1", [])


def _iso_widths(key: Key) -> list[Figure]:
    """Widths of the keyways: N9 in the shaft and JS9 in the hub for a normal fit, P9 in both for a tight one."""
    found = []
    for name, label, code in (
        ("shaft_width", "Shaft keyway, normal", "N9"),
        ("hub_width", "Hub keyway, normal", "JS9"),
        ("tight_width", "Both, tight", "P9"),
    ):
        limits = limits_of(code, key.width)
        low, high = key.width + limits.lower, key.width + limits.upper
        by = mm(key.width) - mm(-limits.lower) if limits.lower < 0 else mm(key.width) + mm(limits.lower)
        found.append(Figure(name, f"{label} {code}", low, "length", limits.source, say(code + ": {by}", by=by), low,
                            high, side="up"))  # fmt: skip
    return found


def _thousandths(count: int) -> Sum:
    return num(count) * INCH / num(1000)


def _inch_key(inputs: KeyInputs, shop: Shop) -> Answer:
    key = inch_key_for(inputs.diameter)
    flat = inputs.form == "rectangular"
    if flat and not key.rectangular:
        text = say("form: up to {to} there is no rectangular key; parallel is square.", to=shown(key.to))
        raise BadInput("form", inputs.form, "parallel", text)
    tall = key.rectangular if flat else key.square
    d, width, height = mm(inputs.diameter), mm(key.width), mm(tall)
    drop = _crown(d, width)
    known = drop.known()
    across_floor = d - known - height / 2
    over_hub = d - known + height / 2 + _thousandths(_CLEARANCE)
    down, hub = known + height / 2, height / 2 + _thousandths(_CLEARANCE) - known
    band = say("shaft over {over} up to {to}", over=shown(key.over), to=shown(key.to))
    floor, top = (float(_thousandths(count)) for count in (_FLOOR, _HUB))
    kind = "rectangular" if flat else "square"
    figures = [
        Figure("width", "Width of the key", key.width, "length", _B17_1, band, side="down"),
        Figure("height", f"Height, {kind}", tall, "length", _B17_1, band),
        figure("shaft_depth", "Depth in the shaft", down, _B17_RULE, low=float(down), high=float(down) + floor,
               side="up"),
        figure("hub_depth", "Depth in the hub", hub, _B17_RULE, low=float(hub), high=float(hub) + top, side="up"),
        figure("shaft_over_keyway", "Floor to far side, S", across_floor, _B17_RULE, low=float(across_floor) - floor,
               high=float(across_floor), side="down"),
        figure("hub_over_keyway", "Across bore, keyway, T", over_hub, _B17_RULE, low=float(over_hub),
               high=float(over_hub) + top, side="up"),
        figure("edge_drop", "Edges below the top by", drop, _GEOMETRY),
        *_inch_widths(key),
    ]  # fmt: skip
    seat = _Seat(key.width, tall, float(down), float(hub), float(drop))
    notes = [info("Tolerances of S and T and the fit of the sides are from memory, unconfirmed.")]
    if not flat and inputs.diameter > _SQUARE_TO:
        notes.append(info("Above 6 1/2 in the rectangular key is preferred."))
    return _answer(inputs, shop, seat, figures, f"{kind.capitalize()} key, B17.1", notes)


_SQUARE_TO = 6.5 * INCH_MM  # mm, exact: shafts up to here take the square key as a rule


def _inch_widths(key: InchKey) -> list[Figure]:
    """Keyseats for keystock, class 2: the key's width, and two thousandths more at most."""
    high = key.width + float(_thousandths(2))
    way = say("class 2 with keystock: {width}, +{plus}, 0", width=mm(key.width), plus=put(float(_thousandths(2))))
    return [
        Figure(name, label, key.width, "length", _B17_LIMITS, way, key.width, high, side="up")
        for name, label in (("shaft_width", "Keyway in the shaft"), ("hub_width", "Keyway in the hub"))
    ]


def _woodruff(inputs: KeyInputs, shop: Shop) -> Answer:
    found = woodruff_for(inputs.diameter, inputs.standard, inputs.number)
    key, source = found[0], _DISC[inputs.standard]
    if key.width >= inputs.diameter or key.shaft_depth >= inputs.diameter / 2:
        raise BadInput("number", key.name, "a key whose keyway does not reach the middle of the shaft")
    source += "" if key.read else " (from memory, unconfirmed)"
    d, width = mm(inputs.diameter), mm(key.width)
    drop = _crown(d, width)
    deep, row = mm(key.shaft_depth), f"row {key.name}"
    down = deep + drop.known() if key.from_edge else deep
    proud = width / 2 if key.from_edge else mm(key.height) - deep
    figures = [
        words("key", "Woodruff key", key.name, source, _why(inputs, found)),
        Figure("width", "Width of the key", key.width, "length", source, row),
        Figure("key_diameter", "Diameter of the disc", key.diameter, "length", source, row),
        Figure("height", "Height of the key", key.height, "length", source, row, side="down"),
        Figure("shaft_depth", "Depth at the edge" if key.from_edge else "Depth in the shaft", key.shaft_depth, "length",
               source, row, key.shaft_depth, key.shaft_depth + key.shaft_plus, side="up"),
        figure("cutter_down", "Cutter down from top", down, _GEOMETRY, side="up"),
        Figure("hub_depth", "Depth in the hub", key.hub_depth, "length", source, row, key.hub_depth,
               key.hub_depth + key.hub_plus, side="up"),
        figure("key_above", "Key stands proud by", proud, _GEOMETRY),
        figure("edge_drop", "Edges below the top by", drop, _GEOMETRY),
    ]  # fmt: skip
    cutter = "Cut with a cutter of the disc's diameter and the key's width, its middle over the key's."
    notes = [info(cutter)]
    if not key.read:
        notes.append(warning("This row is from memory, unconfirmed: measure the key before the keyway is cut."))
    hub = key.hub_depth - float(drop.value) if key.from_edge else key.hub_depth
    seat = _Seat(key.width, key.height, float(down), hub, float(drop))
    tables = (_others(found),) if len(found) > 1 else ()
    return _answer(inputs, shop, seat, figures, f"Woodruff key {key.name}", notes, tables)


def _why(inputs: KeyInputs, found: tuple[Woodruff, ...]) -> Text:
    key = found[0]
    if inputs.number is not None:
        return "as told"
    shafts = say("shafts of {low} to {high}", low=shown(key.low), high=shown(key.high))
    return say("{shafts}; of {n} such keys the one nearest to a fifth of the shaft", shafts=shafts, n=len(found))


def _others(found: tuple[Woodruff, ...]) -> Table:
    columns = (
        *heads(key="Key", width=("Width", "length"), diameter=("Disc", "length"), height=("Height", "length")),
        *heads(shaft_depth=("In the shaft", "length"), hub_depth=("In the hub", "length")),
    )
    made = tuple((k.name, k.width, k.diameter, k.height, k.shaft_depth, k.hub_depth) for k in found)
    return Table("keys", "Keys for this shaft", columns, made, source="the standard's rows, the usual one first")


OPERATION = Operation(
    id="key",
    pane="joining",
    place=20,
    title="Key and keyway",
    words="parallel key shaft hub keyway keyseat woodruff half moon square feather keystock slot B17.1 DIN 6885 sunk "
    "rectangular pulley gear broach",
    machine="mill",
    inputs=KeyInputs,
    work=_work,
    hazards=(),
    example={"diameter": "12"},
    troubles={"SL-01": None, "SL-02": tells("the key is {width} wide")},
    help="The key for a shaft, parallel or Woodruff: its section, and how deep and how wide both keyways are.",
)
