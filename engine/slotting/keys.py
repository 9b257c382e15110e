"""Keys and their keyways, as the standards list them: parallel ones, and Woodruff keys, which are discs."""

from __future__ import annotations

from engine.base.quantity import MM_PER_INCH
from engine.base.records import dataclass
from engine.base.refusals import BadInput, OutOfRange
from engine.base.tables import rows
from engine.base.words import say, shown

_INCH = float(MM_PER_INCH)


@dataclass(frozen=True, slots=True)
class Key:
    """A parallel key for a shaft, in mm. Depths of the keyways have `depth_plus` as tolerance, nothing below."""

    width: float
    height: float
    shaft_depth: float
    hub_depth: float
    depth_plus: float
    over: float
    to: float


@dataclass(frozen=True, slots=True)
class InchKey:
    """The parallel keys of B17.1 for a shaft, in mm; `rectangular` 0: there is none."""

    width: float
    square: float
    rectangular: float
    over: float
    to: float


@dataclass(frozen=True, slots=True)
class Woodruff:
    """A Woodruff key, in mm: a slice of a disc.

    `shaft_depth` is from the top of the round, or from the edge of the keyway where `from_edge`; `low` to `high` are
    the shafts that it drives, 0 to 0: not said. `read` False: from memory, unconfirmed.
    """

    name: str
    width: float
    diameter: float
    height: float
    shaft_depth: float
    hub_depth: float
    shaft_plus: float
    hub_plus: float
    low: float
    high: float
    read: bool
    from_edge: bool


def key_for(diameter: float) -> Key:
    """Return the parallel key that the metric standard gives a shaft.

    diameter: Of the shaft, 6 to 110. [mm]
    Returns: Sizes of the key and depths of its keyways.
    Raises: OutOfRange if the standard's table, as kept here, has no key for that shaft.
    Source: DIN 6885-1:1968, high form. The table begins over 6 mm; tables in use give a shaft of 6 mm the first key
        too.

    >>> key = key_for(20)
    >>> key.width, key.height, key.shaft_depth, key.hub_depth
    (6.0, 6.0, 3.5, 2.8)
    """
    table = rows("slotting/din6885_1.csv")
    low, high = float(table[0]["over"]), float(table[-1]["to"])
    for row in table:
        if float(row["over"]) < diameter <= float(row["to"]) or diameter == low == float(row["over"]):
            return Key(*(float(row[name]) for name in _COLUMNS))
    raise OutOfRange("diameter", diameter, low, high, "mm", "DIN 6885-1")


_COLUMNS = ("width", "height", "shaft_depth", "hub_depth", "depth_plus", "over", "to")


def inch_key_for(diameter: float) -> InchKey:
    """Return the parallel keys, square and rectangular, that B17.1 gives a shaft.

    >>> key = inch_key_for(25.4)
    >>> key.width / 25.4, key.square / 25.4, key.rectangular / 25.4
    (0.25, 0.25, 0.1875)
    """
    table = rows("slotting/b17_1.csv")
    for row in table:
        over, to = float(row["over"]) * _INCH, float(row["to"]) * _INCH
        if over < diameter - 1e-9 and diameter <= to + 1e-9:
            square, flat = (float(row[name] or 0) * _INCH for name in ("square", "rectangular"))
            return InchKey(float(row["width"]) * _INCH, square, flat, over, to)
    low, high = float(table[0]["over"]) * _INCH, float(table[-1]["to"]) * _INCH
    raise OutOfRange("diameter", diameter, low, high, "mm", "over 5/16 in: B17.1")


def woodruff_keys(standard: str) -> tuple[Woodruff, ...]:
    """Every Woodruff key of DIN 6888 (`iso`) or B17.2 (`asme`), in the order of the table.

    >>> key = next(k for k in woodruff_keys("asme") if k.name == "404")
    >>> key.width / 25.4, key.diameter / 25.4, round(key.shaft_depth / 25.4, 4), round(key.hub_depth / 25.4, 4)
    (0.125, 0.5, 0.1355, 0.0685)
    """
    if standard == "iso":
        return tuple(map(_metric, rows("slotting/din6888.csv")))
    shafts = {row["width"]: row for row in rows("slotting/b17_2_shafts.csv")}
    return tuple(_inch(row, shafts.get(row["width"])) for row in rows("slotting/b17_2.csv"))


def _metric(row: dict[str, str]) -> Woodruff:
    width, height, size, low, high, shaft, hub, plus = (
        float(row[name])
        for name in ("width", "height", "diameter", "over", "to", "shaft_depth", "hub_depth", "depth_plus")
    )
    name = f"{row['width']} x {row['height']}"
    return Woodruff(name, width, size, height, shaft, hub, plus, plus, low, high,
                    row["read"] == "yes", False)  # fmt: skip


def _inch(row: dict[str, str], shafts: dict[str, str] | None) -> Woodruff:
    """Keyseats by the standard's rule: height - 0.005 in - W/2 in the shaft (+0.005), W/2 + 0.006 in the hub."""
    width, size, height = (float(row[name]) for name in ("width", "diameter", "height"))
    low, high = (float(shafts[end]) * _INCH for end in ("low", "high")) if shafts else (0.0, 0.0)
    shaft, hub = height - 0.005 - width / 2, width / 2 + 0.006
    return Woodruff(row["number"], width * _INCH, size * _INCH, height * _INCH, shaft * _INCH, hub * _INCH,
                    0.005 * _INCH, 0.005 * _INCH, low, high, True, True)  # fmt: skip


def woodruff_for(diameter: float, standard: str, name: str | None = None) -> tuple[Woodruff, ...]:
    """The Woodruff keys that suit a shaft, the usual one first; or the one that is named.

    The usual one: of the widths that suit the shaft the one nearest to a fifth of it, and of those the largest disc
    that is no larger than the shaft and leaves two fifths of it under the keyway.

    diameter: Of the shaft, above 0. [mm]
    standard: `iso` (DIN 6888) or `asme` (B17.2).
    name: Number or size of a key (`404`, `3 x 5`).
    Returns: At least one.
    Raises: BadInput if no key suits the shaft, or none has that name.
    Source: Shafts for each width: DIN 6888, range I; a design handbook's table for B17.2. Which of them is usual:
        judgement.

    >>> woodruff_for(20, "iso")[0].name, woodruff_for(19.05, "asme")[0].name
    ('6 x 7.5', '506')
    """
    every = woodruff_keys(standard)
    if name is not None:
        plain = "".join(name.lower().replace("no", "").split()).strip(".")
        for key in every:
            if "".join(key.name.split()) == plain:
                return (key,)
        some = ", ".join(key.name for key in every)
        raise BadInput("number", name, some)
    fitting = [k for k in every if k.low and k.low - 1e-9 <= diameter <= k.high + 1e-9]
    if standard == "iso":  # a shaft on the border takes the smaller key, as for parallel ones
        fitting = [k for k in fitting if diameter > k.low + 1e-9 or k.low == min(o.low for o in every)]
    if not fitting:
        low, high = min(k.low for k in every if k.low), max(k.high for k in every)
        accepted = say("a shaft of {low} to {high}", low=shown(low), high=shown(high))
        raise BadInput("diameter", shown(diameter), accepted)

    def rank(key: Woodruff) -> tuple[float, bool, float]:
        strong = key.diameter <= diameter and key.shaft_depth <= 0.6 * diameter
        return abs(key.width - diameter / 5), not strong, -key.diameter if strong else key.diameter

    return tuple(sorted(fitting, key=rank))
