"""What a person owns. Every field says what it is used for: the shop editor shows it, and so does the help.

Lengths are millimetres once read. Travel per turn and leads are exact Fractions of a millimetre.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from engine.base import declare as ask
from engine.base.records import dataclass
from engine.base.tool import Tool

if TYPE_CHECKING:
    from engine.threads.thread import Thread


def _owned(kind: str, label: str, **more: Any) -> Any:
    """Ask for a list of what there may be none of."""
    return ask.several(kind, label, default=(), **more)


def _marked() -> Any:
    return ask.quantity("Marked maximum speed", "speed", low=50, high=20_000, empty="not marked", example="2000")


def _power(label: str, help: str) -> Any:
    return ask.quantity(label, "power", low=10, high=20_000, example="550 W", help=help)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """A slide or spindle moved by a handwheel with a dial.

    travel_per_turn: How far one turn of the handwheel moves it. Used for turns and dial readings.
    divisions: How many lines the dial has. Used for dial readings.
    reads_diameter: Yes when one line of the dial takes its own value off the diameter, twice what the slide moves.
    backlash: How far the handwheel turns before the slide follows. Used to say how far to back off.
    """

    travel_per_turn: Fraction = ask.travel("Travel per turn", example="2", low=0.1, high=50)
    divisions: int = ask.count("Lines on the dial", low=1, high=2000, example="100")
    reads_diameter: bool = ask.flag("Dial reads diameter", default=False, example="no")
    backlash: float | None = ask.length("Backlash", low=-1e-9, high=10, empty="not measured", example="0.1")


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadDial:
    """The dial on the apron that says when to close the half-nuts.

    teeth: Teeth of the wheel that runs on the leadscrew (several if it has a set). Used for the dial rule.
    lines: Used for the dial rule.
    """

    teeth: tuple[int, ...] = ask.several("counts", "Teeth of the dial's wheel", low=4, high=200, example="16")
    lines: int = ask.count("Lines on the dial", low=1, high=64, example="8")


@dataclass(frozen=True, slots=True, kw_only=True)
class Chuck:
    """The chuck in use.

    marked_speed: The highest speed marked on the chuck. No speed above it is ever proposed.
    body_diameter: Used for jaw reach.
    jaw_length: Used for grip length.
    screwed: Yes if it screws on: it can unscrew when run backwards or braked.
    run_out: The clock's whole reading on a piece gripped again. A planning figure serves until it is measured.
    """

    marked_speed: float | None = _marked()
    body_diameter: float | None = ask.length("Body diameter", low=20, high=400, empty="not measured", example="100")
    jaw_length: float | None = ask.length("Length of the jaws", low=5, high=100, empty="not measured", example="25")
    screwed: bool | None = ask.flag("Screwed to the spindle", empty="not told", example="no")
    run_out: float | None = ask.length("Run-out as measured", low=-1e-9, high=1, empty="not measured", example="0.06")


@dataclass(frozen=True, slots=True, kw_only=True)
class Blade:
    """A parting blade.

    width: Used for parting feeds and the bar plan.
    reach: How deep it can cut from its holder.
    """

    width: float = ask.length("Width", low=0.3, high=8, example="2")
    reach: float | None = ask.length("Reach", low=1, high=100, empty="not measured", example="18")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lathe:
    """The lathe.

    speeds: The speeds the spindle has, in rev/min. Every proposed speed is one of them.
    leadscrew: `3` or `8 tpi`. Used for change wheels.
    change_wheels: Teeth of every wheel; write a wheel twice if there are two. Used for change wheels.
    wheel_module: Used to see that wheels clear the studs.
    stud_diameter: Used to see that wheels clear the studs.
    thread_dial: Leave out if there is none.
    cross_slide: Used for every depth.
    top_slide: Used for screwcutting along the flank.
    top_slide_angle: Degrees from the cross slide's line that it is kept at for screwcutting.
    saddle: Used for lengths along the bar.
    tailstock: Used for depths of drilling.
    spindle_bore: Used for bars through the spindle.
    chuck: Its marked speed caps every speed.
    blade: Used for parting and the bar plan.
    tool_holder: Weak: the tool post twists under a knurl's thrust, so the knurl is plunged and moved, not fed along.
    pinching_knurl: Yes if its two wheels pinch the work between them, so that it is not pushed aside.
    spindle_wheel: A toothed wheel on the spindle that a detent can hold. Used to divide when there is no head.
    """

    speeds: tuple[float, ...] = ask.several(
        "speeds", "Spindle speeds", low=5, high=10_000, example="130 300 600 1000 1500 2000"
    )
    leadscrew: Fraction = ask.travel("Leadscrew lead", example="3", low=0.5, high=26)
    change_wheels: tuple[int, ...] = ask.several(
        "counts", "Change wheels", low=10, high=200, example="20 25 30 35 40 127"
    )
    wheel_module: float = ask.length("Module of the wheels", default=1.0, low=0.3, high=5, example="1")
    stud_diameter: float = ask.length("Diameter of a stud's boss", default=14, low=1, high=60, example="14")
    thread_dial: ThreadDial | None = ask.part("Thread dial", ThreadDial)
    cross_slide: Slide = ask.part("Cross slide", Slide, required=True)
    top_slide: Slide = ask.part("Top slide", Slide, required=True)
    top_slide_angle: float = ask.angle("Top slide set to", default=29.5, low=0, high=90, example="29.5")
    saddle: Slide | None = ask.part("Saddle handwheel", Slide)
    tailstock: Slide | None = ask.part("Tailstock handwheel", Slide)
    motor: float = _power("Motor power", "Used to say what share of the motor a cut takes.")
    spindle_bore: float | None = ask.length("Spindle bore", low=1, high=200, empty="not measured", example="20")
    chuck: Chuck = ask.part("Chuck", Chuck, required=True)
    blade: Blade | None = ask.part("Parting blade", Blade)
    tool_holder: str = ask.choice("Knurl and tool holding", ("strong", "weak"), default="weak", example="weak")
    pinching_knurl: bool = ask.flag("Knurl holder that pinches", default=False, example="no")
    spindle_wheel: int = ask.count(
        "Teeth of the spindle wheel", low=10, high=200, empty="none to index by", example="60"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Mill:
    """The mill (or drilling machine with a table).

    speeds: Every proposed speed is one of them.
    x: Used for coordinates.
    y: Used for coordinates.
    z: Used for depths.
    """

    speeds: tuple[float, ...] = ask.several("speeds", "Spindle speeds", low=5, high=30_000, example="200 500 1000 2000")
    x: Slide = ask.part("Table, long way", Slide, required=True)
    y: Slide = ask.part("Table, cross way", Slide, required=True)
    z: Slide = ask.part("Quill or knee", Slide, required=True)
    motor: float = _power("Motor power", "Used to say what share of the motor a cut takes.")


@dataclass(frozen=True, slots=True, kw_only=True)
class DividingHead:
    """The dividing head.

    ratio: Turns of the crank to one of the spindle. Used for all dividing.
    plates: A group for each plate: commas between circles, semicolons between plates. Used for all dividing.
    gears: For differential dividing: counts that no plate gives. Leave out if the head cannot be geared.
    direct: A plate on the spindle itself, worm out of mesh.
    takes_chuck: Yes if the lathe's chuck goes on its spindle, so that work can be carried over in it.
    extra_idler: Yes if, with the idlers shown, the plate turns the wrong way.
    """

    ratio: int = ask.count("Crank turns per rev", low=1, high=400, example="40")
    plates: tuple[tuple[int, ...], ...] = ask.several(
        "groups", "Hole circles", low=2, high=500, example="15,16,17,18,19,20;21,23,27,29,31,33"
    )
    gears: tuple[int, ...] = ask.several(
        "counts", "Gears of the head", low=10, high=200, empty="none", example="24,24,28,32,40,44,48,56,64,72,86,100"
    )
    direct: tuple[int, ...] = ask.several(
        "counts", "Holes of the direct plate", low=2, high=400, empty="none", example="24"
    )
    takes_chuck: bool = ask.flag("Takes the lathe's chuck", default=True, example="yes")
    extra_idler: bool = ask.flag("Head needs one idler more", default=False, example="no")


@dataclass(frozen=True, slots=True, kw_only=True)
class RotaryTable:
    """The rotary table.

    ratio: To one of the table. Used for settings.
    dial_reads: Used for settings.
    """

    ratio: int = ask.count("Handwheel turns a rev", low=1, high=400, example="90")
    dial_reads: float = ask.angle("One line of the dial", default=1 / 60, low=0.0001, high=10, example="0d 1m")


@dataclass(frozen=True, slots=True, kw_only=True)
class KnurlWheel:
    """A pair (or one) of knurl wheels.

    pitch: `0.8`, or an inch size. Used for blanks.
    form: Used for blanks.
    diameter: With the teeth it gives the true pitch.
    teeth: Count them: the pitch stamped on a wheel is nominal.
    width: Used for plunge and move.
    """

    pitch: float = ask.length("Pitch across the teeth", low=0.2, high=4, example="0.8")
    form: str = ask.choice("Teeth", ("straight", "left", "right", "diamond"), default="straight", example="straight")
    diameter: float = ask.length("Outside diameter", low=5, high=60, empty="not known", example="20")
    teeth: int = ask.count("Teeth", low=10, high=400, empty="not known", example="63")
    width: float = ask.length("Width", low=2, high=40, default=8, example="8")


@dataclass(frozen=True, slots=True, kw_only=True)
class EndMill:
    """An end mill or slot drill.

    diameter: Used for slots.
    flutes: Used for feeds.
    material: Used for speed and bending.
    flute_length: Used for depth and bending.
    """

    diameter: float = ask.length("Diameter", low=0.1, high=60, example="3")
    flutes: int = ask.count("Flutes", low=1, high=12, default=2, example="2")
    material: str = ask.choice("Made of", ("hss", "carbide"), default="hss", example="hss")
    flute_length: float = ask.length("Length of flute", low=0.2, high=200, empty="three diameters", example="8")


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnedChuck:
    """A chuck that can be put on the lathe.

    kind: Four-jaw: each jaw moved alone. Soft jaws: a three-jaw whose jaws are bored to the work.
    marked_speed: The highest speed marked on it. Unknown until you say so.
    jaw_length: Used for the length of grip.
    run_out: The clock's whole reading on a piece gripped again. A planning figure serves until it is measured.
    """

    kind: str = ask.choice("Kind", ("three-jaw", "four-jaw", "soft jaws"), default="three-jaw", example="four-jaw")
    marked_speed: float | None = _marked()
    jaw_length: float = ask.length("Depth of the jaws", low=3, high=100, default=25, example="25")
    run_out: float | None = ask.length("Run-out as measured", low=-1e-9, high=1, empty="not measured", example="0.06")


@dataclass(frozen=True, slots=True, kw_only=True)
class Collets:
    """A set of collets of one kind.

    kind: As they are called: ER25, ER32, draw-in.
    sizes: The bore of each. Used to hold finished work.
    closes: How much smaller than its size the work may be: 1 mm for the larger ER kinds, 0.1 mm for draw-in.
    grip: Two thirds of it must be filled.
    run_out: The clock's whole reading near the collet. A planning figure serves until it is measured.
    """

    kind: str = ask.text("Kind", default="ER25", example="ER25")
    sizes: tuple[Tool, ...] = _owned("drills", "Sizes", high=100, empty="none", example="2-16 x 1")
    closes: float = ask.length("Closes by", low=-1e-9, high=3, default=0.5, example="1")
    grip: float = ask.length("Length of the bore", low=3, high=100, default=30, example="30")
    run_out: float | None = ask.length("Run-out as measured", low=-1e-9, high=1, empty="not measured", example="0.02")


@dataclass(frozen=True, slots=True, kw_only=True)
class Steady:
    """A steady for long work.

    kind: Fixed: stands on the bed. Travelling: goes with the saddle.
    largest: The largest diameter it takes.
    """

    kind: str = ask.choice("Kind", ("fixed", "travelling"), default="fixed", example="fixed")
    largest: float = ask.length("Largest work", low=2, high=300, default=40, example="40")


@dataclass(frozen=True, slots=True, kw_only=True)
class BoringTool:
    """A boring tool.

    diameter: Used for how far it may reach.
    reach: How deep it bores.
    least_bore: The smallest hole that it goes into.
    """

    diameter: float = ask.length("Diameter of its bar", low=1, high=60, example="6")
    reach: float = ask.length("Reach", low=2, high=400, example="24")
    least_bore: float = ask.length("Smallest bore", low=1, high=200, example="8")


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillAtHand:
    """A drill that is not of the usual length, or whose length was measured.

    diameter: A length or a drill's name. Used for its reach.
    series: Whose standard flute it has where its own is not told.
    flute: From the corner of the point. Used for how deep chips still get out.
    """

    diameter: float = ask.diameter("Drill", high=100, example="6")
    series: str = ask.choice("Series", ("stub", "jobber", "long"), default="long", example="long")
    flute: float | None = ask.length("Length of the flutes", low=1, high=1000, empty="the series' own", example="91")


TAP_KINDS = ("hand set", "taper", "second", "bottoming", "spiral point", "spiral flute", "forming")


@dataclass(frozen=True, slots=True, kw_only=True)
class TapAtHand:
    """A tap by its kind and reach.

    size: What it cuts.
    kind: Hand set: taper, second and bottoming. A spiral point pushes its chips ahead, a spiral flute draws them out.
    reach: From its tip to where its shank or its wrench meets the work. Used for deep threads.
    """

    size: Thread = ask.thread("Thread", example="M6")
    kind: str = ask.choice("Kind", TAP_KINDS, default="hand set", example="hand set")
    reach: float | None = ask.length("Goes in by", low=1, high=1000, empty="as the standards have it", example="60")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What the owner's own machines are out by; `error-budget` tells how to try them and works it out.

    leadscrew: Parts in a million, against a known bar. Used to say how good a thread will be.
    cross_slide: Most that its dial was out against a clock. Used to say how good a diameter will be.
    head: Seconds of arc, against a level bar. Used to say how good a divided drum will be.
    """

    leadscrew: float | None = ask.number(
        "Leadscrew error", dimension="ppm", low=-5000, high=5000, empty="not measured", example="200"
    )
    cross_slide: float | None = ask.length("Cross slide error", low=-1e-9, high=1, empty="not measured", example="0.01")
    head: float | None = ask.number(
        "Dividing head error", dimension="seconds_of_arc", low=-1e-9, high=3600, empty="not measured", example="40"
    )


WORDS = ("british", "american")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """Everything a person owns that a number depends on.

    name: Shown at the top of the screen.
    unit: What a bare number means; F9 switches.
    words: Whether it is a vice or a vise, a spanner or a wrench.
    materials: The first is proposed.
    lathe: Used for turning, screwcutting, drilling and knurling.
    mill: Used for slots and hole circles.
    dividing_head: Used for dividing.
    rotary_table: Used for dividing.
    drills: Used for every hole: these come first.
    drill_lengths: Each size listed has these lengths alone; every other drill is taken as a jobber drill.
    centre_drills: Such as A2.5 (ISO), No. 3 (ASME), spot 6. Used to start holes.
    countersinks: Their angle and largest diameter, such as 90 x 12. Used to say what to lay out.
    reamers: Used for reaming.
    taps: Used for tapping.
    tap_kinds: Each thread listed has these taps alone; every other is taken as a hand set of standard length.
    wires: Used for measuring threads.
    knurls: Used for knurling.
    end_mills: Used for slots.
    chucks: Beside the chuck in use. Used to plan how a part is held.
    collets: Used to plan how a part is held.
    steadies: Used for long work.
    boring_tools: Used for bores.
    arbors: Plain arbors by the bore they take. Without one an arbor is turned in place.
    carriers: The largest work each takes. Used between centres.
    dies: Used for screw threads.
    broaches: By their width. Used for keyways in bores.
    measuring_tools: Such as micrometer 0-25, calliper, clock, depth gauge. Used to say what to lay out.
    pictures: Images need Pillow and a terminal that shows them; fine and plain are drawn in characters.
    voice: Yes to hear it from a speech program of this machine, and a bell at a count's end. ! switches it.
    none_of: What the owner has said that there is none of.
    measured: What your machines are out by. Used to say how good work will be.
    """

    name: str = ask.text("Name", default="My shop", example="My shop")
    unit: str = ask.choice("Display unit", ("mm", "inch"), default="mm", example="mm")
    words: str | None = ask.choice(
        "Words of the trade", WORDS, empty="as the unit: mm British, inch American", example="british"
    )
    materials: tuple[str, ...] = _owned(
        "words", "Materials in use", empty="all", example="mild steel, free-cutting brass"
    )
    lathe: Lathe | None = ask.part("Lathe", Lathe)
    mill: Mill | None = ask.part("Mill", Mill)
    dividing_head: DividingHead | None = ask.part("Dividing head", DividingHead)
    rotary_table: RotaryTable | None = ask.part("Rotary table", RotaryTable)
    drills: tuple[Tool, ...] = _owned("drills", "Drills", high=100, empty="none", example="1-10 x 0.5, #7, F")
    drill_lengths: tuple[DrillAtHand, ...] = ask.parts("Drills of other lengths", DrillAtHand)
    centre_drills: tuple[str, ...] = _owned(
        "words", "Centre and spotting drills", empty="the usual", example="A2, A3.15, spot 6"
    )
    countersinks: tuple[str, ...] = _owned("words", "Countersinks", empty="not told", example="90 x 12, 60 x 8")
    reamers: tuple[Tool, ...] = _owned("drills", "Reamers", high=100, empty="none", example="4, 6, 8")
    taps: tuple[str, ...] = _owned("words", "Taps", empty="none", example="M4, M5, M6")
    tap_kinds: tuple[TapAtHand, ...] = ask.parts("Taps by kind and reach", TapAtHand)
    wires: tuple[float, ...] = _owned("lengths", "Measuring wires", high=20, empty="none", example="0.455, 0.53, 0.895")
    knurls: tuple[KnurlWheel, ...] = ask.parts("Knurl wheels", KnurlWheel)
    end_mills: tuple[EndMill, ...] = ask.parts("End mills", EndMill)
    chucks: tuple[OwnedChuck, ...] = ask.parts("Other chucks", OwnedChuck)
    collets: tuple[Collets, ...] = ask.parts("Collets", Collets)
    steadies: tuple[Steady, ...] = ask.parts("Steadies", Steady)
    boring_tools: tuple[BoringTool, ...] = ask.parts("Boring tools", BoringTool)
    arbors: tuple[Tool, ...] = _owned("drills", "Arbors", high=100, empty="none", example="6, 8, 10")
    carriers: tuple[Tool, ...] = _owned("drills", "Carriers", high=200, empty="none", example="12, 20")
    dies: tuple[str, ...] = _owned("words", "Dies", empty="none", example="M4, M5, M6")
    broaches: tuple[Tool, ...] = _owned("drills", "Broaches", high=30, empty="none", example="3, 4")
    measuring_tools: tuple[str, ...] = _owned(
        "words", "Measuring tools", empty="not told", example="micrometer 0-25, calliper, clock"
    )
    pictures: str | None = ask.choice(
        "Pictures", ("images", "fine", "plain"), empty="as fine as the terminal shows", example="plain"
    )
    voice: bool = ask.flag("Speak the next setting", default=False, example="no")
    none_of: tuple[str, ...] = _owned("words", "There is none of", empty="nothing said", example="mill")
    measured: Measured | None = ask.part("As measured", Measured)

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
