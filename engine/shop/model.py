"""What a person owns. Every field says what it is used for: the shop editor shows it, and so does the help.

Lengths are millimetres once read. Travel per turn and leads are exact Fractions of a millimetre.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from engine.base.declare import (
    angle,
    choice,
    count,
    flag,
    length,
    number,
    part,
    parts,
    quantity,
    several,
    text,
    travel,
)
from engine.base.lists import Tool
from engine.base.records import dataclass


def _power(label: str, help: str) -> Any:
    return quantity(label, "power", low=10, high=20_000, example="550 W", help=help)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """A slide or spindle moved by a handwheel with a dial."""

    travel_per_turn: Fraction = travel(
        "Travel per turn",
        example="2",
        low=0.1,
        high=50,
        help="How far one turn of the handwheel moves it. Used for turns and dial readings.",
    )
    divisions: int = count(
        "Lines on the dial",
        low=1,
        high=2000,
        example="100",
        help="How many lines the dial has. Used for dial readings.",
    )
    reads_diameter: bool = flag(
        "Dial reads diameter",
        default=False,
        example="no",
        help="Yes when one line of the dial takes its own value off the diameter, twice what the slide moves.",
    )
    backlash: float | None = length(
        "Backlash",
        low=-1e-9,
        high=10,
        empty="not measured",
        example="0.1",
        help="How far the handwheel turns before the slide follows. Used to say how far to back off.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadDial:
    """The dial on the apron that says when to close the half-nuts."""

    teeth: tuple[int, ...] = several(
        "counts",
        "Teeth of the dial's wheel",
        low=4,
        high=200,
        example="16",
        help="Teeth of the wheel that runs on the leadscrew (several if it has a set). Used for the dial rule.",
    )
    lines: int = count("Lines on the dial", low=1, high=64, example="8", help="Used for the dial rule.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Chuck:
    """The chuck in use."""

    marked_speed: float | None = quantity(
        "Marked maximum speed",
        "speed",
        low=50,
        high=20_000,
        empty="not marked",
        example="2000",
        help="The highest speed marked on the chuck. No speed above it is ever proposed.",
    )
    body_diameter: float | None = length(
        "Body diameter", low=20, high=400, empty="not measured", example="100", help="Used for jaw reach."
    )
    jaw_length: float | None = length(
        "Length of the jaws",
        low=5,
        high=100,
        empty="not measured",
        example="25",
        help="Used for grip length.",
    )
    screwed: bool | None = flag(
        "Screwed to the spindle",
        required=False,
        empty="not told",
        example="no",
        help="Yes if it screws on: it can unscrew when run backwards or braked.",
    )
    run_out: float | None = length(
        "Run-out as measured",
        low=-1e-9,
        high=1,
        empty="not measured",
        example="0.06",
        help="The clock's whole reading on a piece gripped again. A planning figure serves until it is measured.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Blade:
    """A parting blade."""

    width: float = length(
        "Width", low=0.3, high=8, example="2", help="Used for parting feeds and the bar plan."
    )
    reach: float | None = length(
        "Reach",
        low=1,
        high=100,
        empty="not measured",
        example="18",
        help="How deep it can cut from its holder.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Lathe:
    """The lathe."""

    speeds: tuple[float, ...] = several(
        "speeds",
        "Spindle speeds",
        low=5,
        high=10_000,
        example="130 300 600 1000 1500 2000",
        help="The speeds the spindle has, in rev/min. Every proposed speed is one of them.",
    )
    leadscrew: Fraction = travel(
        "Leadscrew lead", example="3", low=0.5, high=26, help="`3` or `8 tpi`. Used for change wheels."
    )
    change_wheels: tuple[int, ...] = several(
        "counts",
        "Change wheels",
        low=10,
        high=200,
        example="20 25 30 35 40 127",
        help="Teeth of every wheel; write a wheel twice if there are two. Used for change wheels.",
    )
    wheel_module: float = length(
        "Module of the wheels",
        default=1.0,
        low=0.3,
        high=5,
        example="1",
        help="Used to see that wheels clear the studs.",
    )
    stud_diameter: float = length(
        "Diameter of a stud's boss",
        default=14,
        low=1,
        high=60,
        example="14",
        help="Used to see that wheels clear the studs.",
    )
    thread_dial: ThreadDial | None = part("Thread dial", ThreadDial, help="Leave out if there is none.")
    cross_slide: Slide = part("Cross slide", Slide, required=True, help="Used for every depth.")
    top_slide: Slide = part("Top slide", Slide, required=True, help="Used for screwcutting along the flank.")
    top_slide_angle: float = angle(
        "Top slide set to",
        default=29.5,
        low=0,
        high=90,
        example="29.5",
        help="Degrees from the cross slide's line that it is kept at for screwcutting.",
    )
    saddle: Slide | None = part("Saddle handwheel", Slide, help="Used for lengths along the bar.")
    tailstock: Slide | None = part("Tailstock handwheel", Slide, help="Used for depths of drilling.")
    motor: float = _power("Motor power", "Used to say what share of the motor a cut takes.")
    spindle_bore: float | None = length(
        "Spindle bore",
        low=1,
        high=200,
        empty="not measured",
        example="20",
        help="Used for bars through the spindle.",
    )
    chuck: Chuck = part("Chuck", Chuck, required=True, help="Its marked speed caps every speed.")
    blade: Blade | None = part("Parting blade", Blade, help="Used for parting and the bar plan.")
    tool_holder: str = choice(
        "Knurl and tool holding",
        ("strong", "weak"),
        default="weak",
        example="weak",
        help="Weak: the tool post twists under a knurl's thrust, so the knurl is plunged and moved, not fed along.",
    )
    pinching_knurl: bool = flag(
        "Knurl holder that pinches",
        default=False,
        example="no",
        help="Yes if its two wheels pinch the work between them, so that it is not pushed aside.",
    )
    spindle_wheel: int = count(
        "Teeth of the spindle wheel",
        low=10,
        high=200,
        empty="none to index by",
        example="60",
        help="A toothed wheel on the spindle that a detent can hold. Used to divide when there is no head.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Mill:
    """The mill (or drilling machine with a table)."""

    speeds: tuple[float, ...] = several(
        "speeds",
        "Spindle speeds",
        low=5,
        high=30_000,
        example="200 500 1000 2000",
        help="Every proposed speed is one of them.",
    )
    x: Slide = part("Table, long way", Slide, required=True, help="Used for coordinates.")
    y: Slide = part("Table, cross way", Slide, required=True, help="Used for coordinates.")
    z: Slide = part("Quill or knee", Slide, required=True, help="Used for depths.")
    motor: float = _power("Motor power", "Used to say what share of the motor a cut takes.")


@dataclass(frozen=True, slots=True, kw_only=True)
class DividingHead:
    """The dividing head."""

    ratio: int = count(
        "Crank turns per rev",
        low=1,
        high=400,
        example="40",
        help="Turns of the crank to one of the spindle. Used for all dividing.",
    )
    plates: tuple[tuple[int, ...], ...] = several(
        "groups",
        "Hole circles",
        low=2,
        high=500,
        example="15,16,17,18,19,20;21,23,27,29,31,33",
        help="A group for each plate: commas between circles, semicolons between plates. Used for all dividing.",
    )
    gears: tuple[int, ...] = several(
        "counts",
        "Gears of the head",
        low=10,
        high=200,
        empty="none",
        example="24,24,28,32,40,44,48,56,64,72,86,100",
        help="For differential dividing: counts that no plate gives. Leave out if the head cannot be geared.",
    )
    direct: tuple[int, ...] = several(
        "counts",
        "Holes of the direct plate",
        low=2,
        high=400,
        empty="none",
        example="24",
        help="A plate on the spindle itself, worm out of mesh.",
    )
    takes_chuck: bool = flag(
        "Takes the lathe's chuck",
        default=True,
        example="yes",
        help="Yes if the lathe's chuck goes on its spindle, so that work can be carried over in it.",
    )
    extra_idler: bool = flag(
        "Head needs one idler more",
        default=False,
        example="no",
        help="Yes if, with the idlers shown, the plate turns the wrong way.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class RotaryTable:
    """The rotary table."""

    ratio: int = count(
        "Handwheel turns a rev", low=1, high=400, example="90", help="To one of the table. Used for settings."
    )
    dial_reads: float = angle(
        "One line of the dial",
        default=1 / 60,
        low=0.0001,
        high=10,
        example="0d 1m",
        help="Used for settings.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class KnurlWheel:
    """A pair (or one) of knurl wheels."""

    pitch: float = length(
        "Pitch across the teeth",
        low=0.2,
        high=4,
        example="0.8",
        help="`0.8`, or an inch size. Used for blanks.",
    )
    form: str = choice(
        "Teeth",
        ("straight", "left", "right", "diamond"),
        default="straight",
        example="straight",
        help="Used for blanks.",
    )
    diameter: float = length(
        "Outside diameter",
        low=5,
        high=60,
        empty="not known",
        example="20",
        help="With the teeth it gives the true pitch.",
    )
    teeth: int = count(
        "Teeth",
        low=10,
        high=400,
        empty="not known",
        example="63",
        help="Count them: the pitch stamped on a wheel is nominal.",
    )
    width: float = length("Width", low=2, high=40, default=8, example="8", help="Used for plunge and move.")


@dataclass(frozen=True, slots=True, kw_only=True)
class EndMill:
    """An end mill or slot drill."""

    diameter: float = length("Diameter", low=0.1, high=60, example="3", help="Used for slots.")
    flutes: int = count("Flutes", low=1, high=12, default=2, example="2", help="Used for feeds.")
    material: str = choice(
        "Made of", ("hss", "carbide"), default="hss", example="hss", help="Used for speed and bending."
    )
    flute_length: float = length(
        "Length of flute",
        low=0.2,
        high=200,
        empty="three diameters",
        example="8",
        help="Used for depth and bending.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnedChuck:
    """A chuck that can be put on the lathe."""

    kind: str = choice(
        "Kind",
        ("three-jaw", "four-jaw", "soft jaws"),
        default="three-jaw",
        example="four-jaw",
        help="Four-jaw: each jaw moved alone. Soft jaws: a three-jaw whose jaws are bored to the work.",
    )
    marked_speed: float | None = quantity(
        "Marked maximum speed",
        "speed",
        low=50,
        high=20_000,
        empty="not marked",
        example="2000",
        help="The highest speed marked on it. Unknown until you say so.",
    )
    jaw_length: float = length(
        "Depth of the jaws", low=3, high=100, default=25, example="25", help="Used for the length of grip."
    )
    run_out: float | None = length(
        "Run-out as measured",
        low=-1e-9,
        high=1,
        empty="not measured",
        example="0.06",
        help="The clock's whole reading on a piece gripped again. A planning figure serves until it is measured.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Collets:
    """A set of collets of one kind."""

    kind: str = text("Kind", default="ER25", example="ER25", help="As they are called: ER25, ER32, draw-in.")
    sizes: tuple[Tool, ...] = several(
        "drills",
        "Sizes",
        default=(),
        high=100,
        empty="none",
        example="2-16 x 1",
        help="The bore of each. Used to hold finished work.",
    )
    closes: float = length(
        "Closes by",
        low=-1e-9,
        high=3,
        default=0.5,
        example="1",
        help="How much smaller than its size the work may be: 1 mm for the larger ER kinds, 0.1 mm for draw-in.",
    )
    grip: float = length(
        "Length of the bore",
        low=3,
        high=100,
        default=30,
        example="30",
        help="Two thirds of it must be filled.",
    )
    run_out: float | None = length(
        "Run-out as measured",
        low=-1e-9,
        high=1,
        empty="not measured",
        example="0.02",
        help="The clock's whole reading near the collet. A planning figure serves until it is measured.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Steady:
    """A steady for long work."""

    kind: str = choice(
        "Kind",
        ("fixed", "travelling"),
        default="fixed",
        example="fixed",
        help="Fixed: stands on the bed. Travelling: goes with the saddle.",
    )
    largest: float = length(
        "Largest work", low=2, high=300, default=40, example="40", help="The largest diameter it takes."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class BoringTool:
    """A boring tool."""

    diameter: float = length(
        "Diameter of its bar", low=1, high=60, example="6", help="Used for how far it may reach."
    )
    reach: float = length("Reach", low=2, high=400, example="24", help="How deep it bores.")
    least_bore: float = length(
        "Smallest bore", low=1, high=200, example="8", help="The smallest hole that it goes into."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What the owner's own machines are out by; `error-budget` tells how to try them and works it out."""

    leadscrew: float | None = number(
        "Leadscrew error",
        dimension="ppm",
        low=-5000,
        high=5000,
        empty="not measured",
        example="200",
        help="Parts in a million, against a known bar. Used to say how good a thread will be.",
    )
    cross_slide: float | None = length(
        "Cross slide error",
        low=-1e-9,
        high=1,
        empty="not measured",
        example="0.01",
        help="Most that its dial was out against a clock. Used to say how good a diameter will be.",
    )
    head: float | None = number(
        "Dividing head error",
        dimension="seconds_of_arc",
        low=-1e-9,
        high=3600,
        empty="not measured",
        example="40",
        help="Seconds of arc, against a level bar. Used to say how good a divided drum will be.",
    )


WORDS = ("british", "american")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """Everything a person owns that a number depends on."""

    name: str = text("Name", default="My shop", example="My shop", help="Shown at the top of the screen.")
    unit: str = choice(
        "Display unit",
        ("mm", "inch"),
        default="mm",
        example="mm",
        help="What a bare number means; F9 switches.",
    )
    words: str | None = choice(
        "Words of the trade",
        WORDS,
        empty="as the unit: mm British, inch American",
        example="british",
        help="Whether it is a vice or a vise, a spanner or a wrench.",
    )
    materials: tuple[str, ...] = several(
        "words",
        "Materials in use",
        default=(),
        empty="all",
        example="mild steel, free-cutting brass",
        help="The first is proposed.",
    )
    lathe: Lathe | None = part("Lathe", Lathe, help="Used for turning, screwcutting, drilling and knurling.")
    mill: Mill | None = part("Mill", Mill, help="Used for slots and hole circles.")
    dividing_head: DividingHead | None = part("Dividing head", DividingHead, help="Used for dividing.")
    rotary_table: RotaryTable | None = part("Rotary table", RotaryTable, help="Used for dividing.")
    drills: tuple[Tool, ...] = several(
        "drills",
        "Drills",
        default=(),
        high=100,
        empty="none",
        example="1-10 x 0.5, 10.2",
        help="Used for every hole: these come first.",
    )
    centre_drills: tuple[str, ...] = several(
        "words",
        "Centre and spotting drills",
        default=(),
        empty="the usual",
        example="A2, A3.15, spot 6",
        help="Such as A2.5 (ISO), No. 3 (ASME), spot 6. Used to start holes.",
    )
    reamers: tuple[Tool, ...] = several(
        "drills", "Reamers", default=(), high=100, empty="none", example="4, 6, 8", help="Used for reaming."
    )
    taps: tuple[str, ...] = several(
        "words", "Taps", default=(), empty="none", example="M4, M5, M6", help="Used for tapping."
    )
    wires: tuple[float, ...] = several(
        "lengths",
        "Measuring wires",
        default=(),
        high=20,
        empty="none",
        example="0.455, 0.53, 0.895",
        help="Used for measuring threads.",
    )
    knurls: tuple[KnurlWheel, ...] = parts("Knurl wheels", KnurlWheel, help="Used for knurling.")
    end_mills: tuple[EndMill, ...] = parts("End mills", EndMill, help="Used for slots.")
    chucks: tuple[OwnedChuck, ...] = parts(
        "Other chucks", OwnedChuck, help="Beside the chuck in use. Used to plan how a part is held."
    )
    collets: tuple[Collets, ...] = parts("Collets", Collets, help="Used to plan how a part is held.")
    steadies: tuple[Steady, ...] = parts("Steadies", Steady, help="Used for long work.")
    boring_tools: tuple[BoringTool, ...] = parts("Boring tools", BoringTool, help="Used for bores.")
    arbors: tuple[Tool, ...] = several(
        "drills",
        "Arbors",
        default=(),
        high=100,
        empty="none",
        example="6, 8, 10",
        help="Plain arbors by the bore they take. Without one an arbor is turned in place.",
    )
    carriers: tuple[Tool, ...] = several(
        "drills",
        "Carriers",
        default=(),
        high=200,
        empty="none",
        example="12, 20",
        help="The largest work each takes. Used between centres.",
    )
    dies: tuple[str, ...] = several(
        "words", "Dies", default=(), empty="none", example="M4, M5, M6", help="Used for screw threads."
    )
    broaches: tuple[Tool, ...] = several(
        "drills",
        "Broaches",
        default=(),
        high=30,
        empty="none",
        example="3, 4",
        help="By their width. Used for keyways in bores.",
    )
    measured: Measured | None = part(
        "As measured", Measured, help="What your machines are out by. Used to say how good work will be."
    )

    @property
    def standard(self) -> str:
        """Whose standards the bench works to: `iso`, or `asme` on an inch bench."""
        return "asme" if self.unit == "inch" else "iso"

    def words_for(self, unit: str) -> str:
        """The words of the trade on a screen in `mm` or `inch`.

        >>> Shop().words_for("inch"), Shop(words="british").words_for("inch")
        ('american', 'british')
        """
        return self.words or ("american" if unit == "inch" else "british")
