"""What is to be made: the part as its drawing says it, and one moment of its making.

Lengths are millimetres and angles degrees once read. Places along the axis are counted from the front face
of the drawing: `start` is the end of a feature nearer to the front, `stop` the other. Diameters are
diameters, depths of a chamfer or a key are on the radius.

A feature has a name that files, plans and screens use alike: `outside.1` (in the file's order), `inside.2`,
`across.1`, and for what stands on it `outside.1.scale`, `inside.1.mouth`, `back.slot`.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sqrt
from typing import Literal

from engine.base.records import dataclass, fields
from engine.threads.thread import Thread

End = Literal["front", "back"]
Section = Literal["round", "hex", "square"]
Centre = Literal["stays", "may stay", "none"]
Walls = Literal["one", "both"]

FLATS_OF: dict[Section, int] = {"round": 0, "hex": 6, "square": 4}


@dataclass(frozen=True, slots=True)
class Size:
    """One size of the drawing. `low` and `high` are None where it gives no limits; `general`: they come
    from `general = "m"`.

    `written` is what the person wrote, `fit` the tolerance class in it (`H7`).
    """

    nominal: float
    low: float | None = None
    high: float | None = None
    fit: str = ""
    written: str = ""
    general: bool = False

    @property
    def tolerance(self) -> float | None:
        """What it may vary by in all; None without limits. [mm]"""
        return None if self.low is None or self.high is None else self.high - self.low

    @property
    def middle(self) -> float:
        """What to aim at: the middle of the limits, the nominal size without any. [mm]"""
        return self.nominal if self.low is None or self.high is None else (self.low + self.high) / 2

    @property
    def least(self) -> float:
        """The smallest it may be. [mm]"""
        return self.nominal if self.low is None else self.low

    @property
    def most(self) -> float:
        """The largest it may be. [mm]"""
        return self.nominal if self.high is None else self.high


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """What it is made from: bar (or tube with a `bore`), across its flats where it has any.

    `blank`: the length of a piece of it that becomes the part whole, nothing cut off; `sawn`: its ends are
    sawn.
    """

    size: float
    section: Section = "round"
    bore: float | None = None
    blank: float | None = None
    sawn: bool = False
    stock_length: float | None = None  # how much of it there is
    coating: str = ""
    temper: str = ""
    written: str = ""

    @property
    def corners(self) -> float:
        """The circle round its section: across the corners, or its diameter. [mm]"""
        sides = FLATS_OF[self.section]
        return self.size / cos(radians(180 / sides)) if sides else self.size


@dataclass(frozen=True, slots=True, kw_only=True)
class Mate:
    """What it is made to fit: a feature of another part file."""

    part: str
    feature: str
    aim: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature:
    """Anything of a part that has a name. `stands_on` is the name of the feature that carries it, "" for
    one of the lists.
    """

    name: str
    start: float = 0.0
    stop: float = 0.0
    stands_on: str = ""
    turned: float | None = None
    off_axis: Size | None = None
    true_to: str = ""
    within: float | None = None
    mate: Mate | None = None

    @property
    def list_name(self) -> str:
        """`outside`, `inside`, `across`, `front` or `back`."""
        return self.name.split(".")[0]

    @property
    def long(self) -> float:
        """How far it reaches along the axis. [mm]"""
        return self.stop - self.start

    @property
    def standing(self) -> tuple[Feature, ...]:
        """What stands on it (its chamfers, scale, mouths ...)."""
        held = (getattr(self, field.name) for field in fields(self))
        return tuple(one for one in held if isinstance(one, Feature))


@dataclass(frozen=True, slots=True, kw_only=True)
class Chamfer(Feature):
    """A broken edge: `long` along the axis, `depth` on the radius. `at` is the face it stands at, `to` the
    diameter it goes down (or up) to.
    """

    at: End = "front"
    depth: float = 0.0
    angle: float = 45.0
    to: float | None = None
    written: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Round(Feature):
    """A rounded edge (`radius`) or a hollow corner against the next larger diameter (`fillet`)."""

    kind: Literal["radius", "fillet"] = "radius"
    radius: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish(Feature):
    """A surface's finish in words, where it is a job of its own (`polished`, `blacked`)."""

    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale(Feature):
    """Graduations round a diameter; `inputs` are those of the operation scale-lines, as typed."""

    size: Thread | None = None
    lead: float | None = None
    per_line: float = 0.0
    lines: int = 0
    diameter: float = 0.0
    inputs: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures(Feature):
    """Stamped or engraved figures, of a scale or on a face."""

    every: str = ""
    height: float | None = None
    reads: str = ""
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flats(Feature):
    """Flats milled on an outside feature; `start` to `stop` is what they take of its length, from its front
    end.
    """

    sides: int = 2
    across_flats: Size = Size(0.0)
    length: Size | None = None
    inputs: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot(Feature):
    """A slot: along an outside feature, or across an end face (`back.slot`)."""

    width: Size = Size(0.0)
    depth: Size = Size(0.0)
    length: Size | None = None
    inputs: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyway(Feature):
    """A keyway, in a shaft or in a bore; `depth` is from the surface, at the middle of the key."""

    width: Size = Size(0.0)
    depth: Size = Size(0.0)
    length: Size | None = None
    inputs: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Relief(Feature):
    """The groove at a thread's shoulder; it lies inside the thread's length. Diameter None: as the standard
    has it.
    """

    diameter: float | None = None
    short: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Mouth(Feature):
    """The countersunk mouth of a hole or thread; `diameter` across its rim. `implied`: nobody wrote it."""

    at: End = "front"
    diameter: float = 0.0
    angle: float = 90.0
    implied: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Outside(Feature):
    """A length of the outside, with what stands on it. The kinds are below."""

    length: Size = Size(0.0)
    chamfer: Chamfer | None = None
    chamfer_back: Chamfer | None = None
    radius: Round | None = None
    fillet: Round | None = None
    finish: Finish | None = None
    scale: Scale | None = None
    figures: Figures | None = None
    flats: Flats | None = None
    slot: Slot | None = None
    keyway: Keyway | None = None

    @property
    def front_diameter(self) -> float:
        """Its diameter at its front end. [mm]"""
        raise NotImplementedError

    @property
    def back_diameter(self) -> float:
        """Its diameter at its back end. [mm]"""
        return self.front_diameter

    @property
    def largest(self) -> float:
        """Its largest diameter. [mm]"""
        return max(self.front_diameter, self.back_diameter)

    @property
    def smallest(self) -> float:
        """Its smallest diameter. [mm]"""
        return min(self.front_diameter, self.back_diameter)


@dataclass(frozen=True, slots=True, kw_only=True)
class Diameter(Outside):
    """A turned diameter."""

    size: Size = Size(0.0)

    @property
    def front_diameter(self) -> float:
        """Its diameter. [mm]"""
        return self.size.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class AsBought(Outside):
    """A length left as the bar was bought: `is = "bar"`."""

    size: float = 0.0
    section: Section = "round"

    @property
    def front_diameter(self) -> float:
        """The circle round its section. [mm]"""
        return Bar(size=self.size, section=self.section).corners


@dataclass(frozen=True, slots=True, kw_only=True)
class Taper(Outside):
    """A cone from the diameter at its front end to that at its back end."""

    from_size: Size = Size(0.0)
    to_size: Size = Size(0.0)
    angle: float | None = None  # the whole angle of the cone, where it was given
    angle_written: str = ""
    written_by: tuple[str, ...] = ()  # which of its sizes were written; the rest follow

    @property
    def front_diameter(self) -> float:
        """Its diameter at its front end. [mm]"""
        return self.from_size.nominal

    @property
    def back_diameter(self) -> float:
        """Its diameter at its back end. [mm]"""
        return self.to_size.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class OutsideThread(Outside):
    """A screw thread; relief and run-out lie inside its length."""

    size: Thread
    tolerance: str = ""
    relief: Relief | None = None
    runout: Size | None = None

    @property
    def front_diameter(self) -> float:
        """Its nominal diameter. [mm]"""
        return self.size.diameter


@dataclass(frozen=True, slots=True, kw_only=True)
class Knurl(Outside):
    """A knurl; `near` is the finished size over it, or the blank where `near_is` says so."""

    near: Size = Size(0.0)
    near_is: Literal["finished", "blank"] = "finished"
    form: str = ""
    pitch: str = ""
    tpi: str = ""
    diametral_pitch: str = ""

    @property
    def front_diameter(self) -> float:
        """The size it is asked to be near. [mm]"""
        return self.near.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove(Outside):
    """A groove, a length of its own; `size` is its bottom's diameter."""

    size: Size = Size(0.0)

    @property
    def front_diameter(self) -> float:
        """Its bottom diameter. [mm]"""
        return self.size.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class Dome(Outside):
    """A domed end: part of a ball of `sphere` radius on a diameter of `base`. It closes the front end, or
    the back.
    """

    sphere: float = 0.0
    base: float = 0.0
    base_size: Size | None = None  # where it was written, else its neighbour's
    closes: End = "front"

    @property
    def tip(self) -> float:
        """Its diameter at the end face. [mm]"""
        drop = self.sphere - sqrt(max(self.sphere**2 - self.base**2 / 4, 0.0))
        left = drop - self.long
        return 2 * sqrt(max(self.sphere**2 - (self.sphere - left) ** 2, 0.0)) if left > 1e-9 else 0.0

    @property
    def front_diameter(self) -> float:
        """Its diameter at its front end. [mm]"""
        return self.tip if self.closes == "front" else self.base

    @property
    def back_diameter(self) -> float:
        """Its diameter at its back end. [mm]"""
        return self.base if self.closes == "front" else self.tip


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside(Feature):
    """Something in the axis' own hole, entered from the end face `end`. The kinds are below.

    `depth` is full form (full thread, full diameter) from that face; None when it goes through.
    """

    end: End = "front"
    depth: Size | None = None
    through: bool = False
    chamfer: Chamfer | None = None
    chamfer_back: Chamfer | None = None
    mouth: Mouth | None = None
    mouth_back: Mouth | None = None
    keyway: Keyway | None = None
    finish: Finish | None = None

    @property
    def mouth_diameter(self) -> float:
        """Its diameter at the face it is entered from. [mm]"""
        raise NotImplementedError

    @property
    def bottom_diameter(self) -> float:
        """Its diameter at its far end. [mm]"""
        return self.mouth_diameter

    @property
    def largest(self) -> float:
        """Its largest diameter. [mm]"""
        return max(self.mouth_diameter, self.bottom_diameter)

    @property
    def smallest(self) -> float:
        """Its smallest diameter. [mm]"""
        return min(self.mouth_diameter, self.bottom_diameter)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole(Inside):
    """A hole; `hole_depth` is how deep its point may go, `flat`: its bottom is flat."""

    size: Size = Size(0.0)
    hole_depth: Size | None = None
    flat: bool = False

    @property
    def mouth_diameter(self) -> float:
        """Its diameter. [mm]"""
        return self.size.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class InsideThread(Inside):
    """A tapped or bored thread with its hole; `hole_depth` is how deep that hole may go, point and all."""

    size: Thread
    tolerance: str = ""
    hole_depth: Size | None = None
    sharp: tuple[str, ...] = ()  # the mouths that are to be left as they are

    @property
    def mouth_diameter(self) -> float:
        """Its nominal diameter. [mm]"""
        return self.size.diameter


@dataclass(frozen=True, slots=True, kw_only=True)
class Counterbore(Inside):
    """A flat-bottomed larger mouth of a hole."""

    diameter: Size = Size(0.0)
    fitting: str = ""  # the screw whose head it takes
    deep_said: bool = True  # its depth was written, not the screw's own

    @property
    def mouth_diameter(self) -> float:
        """Its diameter. [mm]"""
        return self.diameter.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class Countersink(Inside):
    """A conical mouth, `diameter` across its rim."""

    diameter: Size = Size(0.0)
    angle: float = 90.0
    bottom: float = 0.0
    fitting: str = ""

    @property
    def mouth_diameter(self) -> float:
        """Its diameter at the rim. [mm]"""
        return self.diameter.nominal

    @property
    def bottom_diameter(self) -> float:
        """The diameter of the hole it stands in. [mm]"""
        return self.bottom


@dataclass(frozen=True, slots=True, kw_only=True)
class InsideTaper(Inside):
    """A conical bore, from the diameter at the face it is entered from to that at its depth."""

    from_size: Size = Size(0.0)
    to_size: Size = Size(0.0)
    angle: float | None = None  # the whole angle of the cone, where it was given
    angle_written: str = ""
    written_by: tuple[str, ...] = ()  # which of its sizes were written; the rest follow

    @property
    def mouth_diameter(self) -> float:
        """Its diameter at the face it is entered from. [mm]"""
        return self.from_size.nominal

    @property
    def bottom_diameter(self) -> float:
        """Its diameter at its depth. [mm]"""
        return self.to_size.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class InsideGroove(Inside):
    """A groove in a bore, its middle at `at` from the front face; `size` is its bottom's diameter."""

    size: Size = Size(0.0)
    width: Size = Size(0.0)
    at: Size = Size(0.0)
    at_from: str = "front"

    @property
    def mouth_diameter(self) -> float:
        """Its bottom diameter. [mm]"""
        return self.size.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball(Inside):
    """A ball let into an end face so that it stands out of it; `hole` is the diameter of its seat's hole."""

    ball: float = 0.0
    stand_out: Size = Size(0.0)
    hold: str = ""
    hole: Size = Size(0.0)

    @property
    def mouth_diameter(self) -> float:
        """The diameter of its hole. [mm]"""
        return self.hole.nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class Across(Feature):
    """Holes off the axis: along it (hole-circle) or across it (cross-hole)."""

    size: Size | None = None
    thread: Thread | None = None
    tolerance: str = ""
    depth: Size | None = None
    through: bool = False
    end: End = "front"
    countersink: Mouth | None = None

    @property
    def bore(self) -> float:
        """The diameter of its hole or thread. [mm]"""
        return self.thread.diameter if self.thread else self.size.nominal if self.size else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleCircle(Across):
    """Holes on a circle round the axis, running along it."""

    holes: int = 0
    diameter: Size = Size(0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossHole(Across):
    """A hole square to the axis; `z` is its middle from the front face, whatever `at` is counted from."""

    at: Size = Size(0.0)
    at_from: str = "front"
    z: float = 0.0
    walls: Walls = "both"


@dataclass(frozen=True, slots=True, kw_only=True)
class EndFace(Feature):
    """An end of the part, `front` or `back`, and what stands on it."""

    slot: Slot | None = None
    figures: Figures | None = None
    centre: Centre | None = None
    finish: Finish | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """A heat treatment: its way in words, where, and the hardness asked for."""

    way: str = ""
    where: str = ""
    hardness: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Truth:
    """Two features that must run true to each other within so much (the clock's whole reading). `implied`:
    nobody wrote it.
    """

    feature: str
    to: str
    within: float
    implied: bool
    why: str = ""
    face: End | None = None  # the truth of that face of the feature, not of its surface


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part as its drawing says it: what it is made from and its features from front to back."""

    title: str
    unit: Literal["mm", "inch"]
    material: str
    bar: Bar
    make: int = 1
    length: Size | None = None
    edges: Size | None = None
    general: str = ""
    outside: tuple[Outside, ...] = ()
    inside: tuple[Inside, ...] = ()
    across: tuple[Across, ...] = ()
    front: EndFace = EndFace(name="front")
    back: EndFace = EndFace(name="back")
    heat: Heat | None = None
    finish: str = ""
    truths: tuple[Truth, ...] = ()
    about: str = ""

    @property
    def overall(self) -> float:
        """The sum of its outside lengths. [mm]"""
        return self.outside[-1].stop if self.outside else 0.0

    @property
    def largest(self) -> float:
        """Its largest diameter (across corners where the bar is left as bought). [mm]"""
        return max((one.largest for one in self.outside), default=0.0)

    def features(self) -> Iterator[Feature]:
        """Every feature, each followed by what stands on it, in the order of the file."""
        for one in (*self.outside, *self.inside, *self.across, self.front, self.back):
            yield one
            yield from one.standing

    def feature(self, name: str) -> Feature:
        """One feature by its name; KeyError if the part does not have it."""
        for one in self.features():
            if one.name == name:
                return one
        raise KeyError(name)

    def outside_at(self, place: float) -> Outside | None:
        """The outside feature at a place from the front face; at a step the one behind it, None off the
        part.
        """
        for one in self.outside:
            if one.start <= place < one.stop or (one is self.outside[-1] and place == one.stop):
                return one
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFile:
    """What one part file holds: one part, or several different pieces from one bar."""

    parts: tuple[Part, ...]

    @property
    def part(self) -> Part:
        """The first part."""
        return self.parts[0]


Holding = Literal[
    "three-jaw", "four-jaw", "soft jaws", "collet", "between centres", "faceplate", "threaded stub", "threaded bush",
    "arbor", "dividing head", "vice", "V-block", "hand",
]  # fmt: skip
Support = Literal["none", "centre", "fixed steady", "travelling steady"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkState:
    """One moment of the making: what a step's drawing shows. Places are from the front face of the drawing,
    as in the part.

    `made` are the features that exist before the step, `making` those it finishes. `bar_from` and `bar_to` are where
    the raw bar begins and ends now (before the front face: less than 0; behind the back face: the stub still on).
    `grip_from` and `grip_to` are where jaws, collet, stub or arbor hold it. `turned_round`: the drawing's back end is
    at the tailstock. `zero` is the place of the face that the dial is zeroed on. `spigot` is how thick the bar that
    stands before the end made first is turned, to be gripped by. `now` are the diameters that features not finished
    yet are turned to by the end of the step. `finishes`: whether what the step works on is finished by it; if not,
    `leaves` is the diameter it leaves. `reach` is how far the tool goes from the zero face, where that is not to the
    end of what is made. `tool_side`: where the tool stands and cuts. `room`: what lies between this cut's end and the
    jaws or the next shoulder.
    """

    part: Part
    title: str = ""
    made: frozenset[str] = frozenset()
    making: tuple[str, ...] = ()
    machine: Literal["lathe", "mill", "drill press", "bench"] = "lathe"
    holding: Holding = "three-jaw"
    driven_by: Holding | None = None  # what carries the stub or arbor, where the holding stands in a chuck
    grip_from: float | None = None
    grip_to: float | None = None
    grip_diameter: float | None = None
    between: str = ""
    support: Support = "none"
    steady_at: float | None = None
    stick_out: float | None = None
    turned_round: bool = False
    earlier_end: str = ""
    zero: float | None = None
    bar_from: float = 0.0
    bar_to: float = 0.0
    spigot: float | None = None
    now: tuple[tuple[str, float], ...] = ()
    finishes: bool = True
    leaves: float | None = None
    reach: float | None = None
    tool: str = ""
    tool_side: Literal["outside", "inside", "face", "across", "none"] = "outside"
    tool_at: float | None = None
    feed: Literal["to the headstock", "to the tailstock", "inwards", "none"] = "none"
    room: float | None = None
    measure: tuple[str, ...] = ()
    head_zero: str = ""
