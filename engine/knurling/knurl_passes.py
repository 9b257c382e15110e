"""Run the knurl: first bite, speed, feed, infeed, and every move with its saddle and cross-slide settings."""

from __future__ import annotations

from math import pi
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Column, Figure, Note, Table, figure, heads, info, to_set, warning, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import mm, num
from engine.base.words import Text, bare, general, put, say, shown
from engine.base.words import figures as places
from engine.cutting.feeds import feed, low_end
from engine.cutting.materials import of_shop
from engine.cutting.speeds import SpindleSpeed, chosen_step, ideal_speed, spindle_speed, surface_speed
from engine.indexing.dials import on_slide, slide_setting
from engine.knurling import passes
from engine.knurling.blank import FEWEST_TEETH, form_of
from engine.knurling.knurl_blank import half_pitch, true_pitch
from engine.knurling.knurl_pictures import wheel_picture
from engine.knurling.wheels import only_swivelled, owned
from engine.shop.model import Shop
from engine.situation import Situation

_WHEEL_WIDTH = 8.0  # mm: the middle width of a 20 mm wheel in DIN 403:1973
_SLENDER = 3.0  # diameters out of the chuck from which a one-sided knurl bends the work: a machinist's textbook
_ROLL_SPEED = (10.0, 50.0)  # m/min at the work; a trade page on DIN 82 knurls


@dataclass(frozen=True, slots=True, kw_only=True)
class KnurlPassesInputs:
    """What `knurl-passes` is told.

    diameter: As turned.
    width: Along the bar.
    pitch: Decides the infeed.
    material: What is knurled.
    method: Form: rolled in under pressure. Cut: the wheel takes metal away, fed along.
    form: Lines along the bar, slanting, slanting both ways, or along and round.
    holder: Strong: the wheel can be fed along. Weak: it is plunged, moved and plunged again.
    wheel_width: Decides how far the wheel moves between plunges.
    start: From the end face; 0 at the end itself.
    """

    diameter: float = ask.length("Diameter of the blank", low=1, high=500, example="18")
    width: float = ask.length("Width of the knurl", low=0.2, high=1000, example="10")
    pitch: float | None = ask.length("Pitch of the wheel", low=0.2, high=5, example="0.8", empty="your first wheel's")
    material: Any = ask.material("Material", from_shop=of_shop, example="free-cutting brass", empty="the shop's first")
    method: str = ask.choice("Method", ("form", "cut"), default="form", example="form")
    form: str = ask.choice("Form", ("axial", "diagonal", "diamond", "crossed"), default="axial", example="axial")
    holder: str = ask.choice("Holder", ("strong", "weak"), example="weak", empty="as the shop's tool holding",
        from_shop=lambda shop: shop.lathe.tool_holder)  # fmt: skip
    wheel_width: float | None = ask.length(
        "Width of the wheel", low=0.5, high=60, example="8", empty="the owned wheel's, else 8 mm"
    )
    start: float = ask.length("Knurl begins", default=0.0, low=-1e-9, high=1000, example="5")


_EDGE_SOURCE = "half a pitch to a pitch at 45 degrees, to below the root: common practice, no source"


@dataclass(frozen=True, slots=True)
class _Wheel:
    """Pitch and width of the wheel [mm], where the pitch is from, and whether it only makes the form swivelled."""

    pitch: float
    width: float
    name: Text
    straight: bool


def _wheel(inputs: KnurlPassesInputs, shop: Shop) -> _Wheel:
    fitting = [w for w in shop.knurls if inputs.pitch is None or abs(w.pitch - inputs.pitch) <= 0.01 * inputs.pitch]
    width = inputs.wheel_width or (fitting[0].width if fitting else _WHEEL_WIDTH)
    if inputs.pitch is not None:
        return _Wheel(inputs.pitch, width, "as given", False)
    if not fitting:
        text = "pitch: no owned wheel is known; give its pitch, such as 0.8."
        raise BadInput("pitch", "", "a pitch such as 0.8", text)
    wheel = owned(fitting[0], 0.0)
    return _Wheel(wheel.pitch, width, wheel.name, only_swivelled(fitting[0], inputs.form))


def _work(inputs: KnurlPassesInputs, shop: Shop) -> Answer:
    wheel = _wheel(inputs, shop)
    if inputs.method == "cut" and inputs.form == "crossed":
        raise BadInput("method", "cut", "form", "method: a crossed knurl cannot be cut; form it.")
    factor = form_of(form=inputs.form, points="raised").growth_factor
    infeed = passes.infeed_for(pitch=wheel.pitch, growth_factor=factor, method=inputs.method)
    published = feed(kind="knurling", diameter=inputs.diameter)
    along = inputs.method == "cut" or inputs.holder == "strong"
    if along:
        moves = passes.fed_along(width=inputs.width, wheel=wheel.width, start=inputs.start, feed=published.chosen,
                                 cut=inputs.method == "cut")  # fmt: skip
    else:
        moves = passes.pressed(width=inputs.width, wheel=wheel.width, start=inputs.start)
    spindle, speed = _speed(inputs, shop)
    first = min(shop.lathe.speeds) if shop.lathe else None
    figures = (
        *_first_figures(first),
        speed,
        Figure("feed", "Feed along, when fed", published.chosen, "feed", published.source,
               low_end(published.low, published.high), low=published.low, high=published.high),
        *_depth_figures(inputs, shop, wheel, infeed, factor),
        *_edge_figures(inputs, wheel, moves[0].edge),
        words("lubricant", "Lubricant", passes.lubricant(inputs.material.group), "common practice, no source",
               f"for {inputs.material.label}"),
    )  # fmt: skip
    notes = _notes(inputs, wheel, along, first, moves)
    if spindle.too_fast:
        notes.append(warning("The lathe's lowest speed, {low} rev/min, is above the ideal {ideal}.",
            low=general(spindle.chosen), ideal=places(spindle.ideal)))  # fmt: skip
    common: dict[str, Any] = {"machine": "lathe", "work_diameter": inputs.diameter, "width": inputs.width,
        "material": inputs.material.name}  # fmt: skip
    moments = [Situation(spindle_speed=spindle.chosen, feed=published.chosen if along else None, **common)]
    if first is not None:
        moments.insert(0, Situation(spindle_speed=first, **common))
    drawn = wheel_picture(diameter=inputs.diameter, width=inputs.width, start=max(inputs.start, 0.0), wheel=wheel.width,
        infeed=infeed, edges=[move.edge for move in moves])  # fmt: skip
    return Answer(figures, (_table(shop, moves, infeed, first),), (drawn,), tuple(notes), moments=tuple(moments))


def _first_figures(first: float | None) -> list[Figure]:
    """The speed of the first bite: as slow as the lathe goes."""
    if first is None:
        return []
    source = "a knurling tool maker's sheet: low speed, then press; turning the chuck by hand is common practice"
    text = say("{low}, the lathe's lowest", low=places(first))
    return [Figure("first_rpm", "First bite at", first, "speed", source, text)]


def _speed(inputs: KnurlPassesInputs, shop: Shop) -> tuple[SpindleSpeed, Figure]:
    published = surface_speed(material=inputs.material, operation="knurling")
    lathe = shop.lathe
    mark = lathe.chuck.marked_speed if lathe else None
    if mark is not None and lathe and min(lathe.speeds) > mark:
        least = say("a marked speed of at least {low} rev/min, the lathe's lowest", low=general(min(lathe.speeds)))
        raise BadInput("chuck", say("{mark} rev/min", mark=general(mark)), least)
    spindle = spindle_speed(diameter=inputs.diameter, surface_speed=published.chosen,
        steps=lathe.speeds if lathe else (), ceiling=mark, top=published.high)  # fmt: skip
    ideal = ideal_speed(surface_speed=published.chosen, diameter=inputs.diameter)
    working = say("{ideal} = {value}; {step}", ideal=ideal, value=places(float(ideal)),
                  step=chosen_step(spindle, "lathe", ceiling=mark))  # fmt: skip
    return spindle, Figure("rpm", "Once it tracks, run at", spindle.chosen, "speed", published.source, working)


def _depth_figures(
    inputs: KnurlPassesInputs, shop: Shop, wheel: _Wheel, infeed: float, growth_factor: float
) -> list[Figure]:
    pitch = mm(wheel.pitch)
    half = say("pitch {pitch} ({name}) ÷ 2", pitch=pitch, name=wheel.name)
    cut = inputs.method == "cut"
    rise = say("{half} - growth {factor} x {pitch} ÷ 2", half=half, factor=general(growth_factor), pitch=pitch)
    all_cut = say("{half}, all of it cut", half=half)
    source = "90 degree wheel: tooth half a pitch deep; DIN 82:1973 growth; a tool maker's sheet agrees"
    figures = [Figure("infeed", "Infeed from touch", infeed, "length", source, all_cut if cut else rise)]
    if shop.lathe:
        slide = shop.lathe.cross_slide
        stands = slide_setting(slide, infeed)
        dial = say("{infeed} at {turn} a turn in {lines} lines, to the nearest line{twice}", infeed=put(infeed),
            turn=shown(float(slide.travel_per_turn)), lines=slide.divisions,
            twice="; the dial reads diameter" if slide.reads_diameter else "")  # fmt: skip
        source = "arithmetic on the owned dial"
        setting = on_slide("Cross slide", slide, stands, "in", infeed)
        figures += [
            to_set("infeed_set", "Press in to", setting, source, dial),
            Figure("infeed_turns", "Cross slide: turns", stands.turns, "count", source, dial),
            Figure("infeed_reading", "Cross slide: dial", stands.reading, "length", source, dial),
        ]
    return figures


def _edge_figures(inputs: KnurlPassesInputs, wheel: _Wheel, first: float) -> list[Figure]:
    """What makes its edges clean: a chamfer or a groove before, where the wheel stands at first, a chamfer after.

    first: the wheel's chuck-side edge at the first touch, from the end face [mm]
    """
    pitch = mm(wheel.pitch, "pitch {}")
    over = mm(wheel.width, "wheel {}") - mm(first)
    figures = [
        figure("chamfer", "Chamfer first, least", num(passes.CHAMFER) * pitch,
               "a cut-knurl tool's manual: 30 to 45 degrees, half a pitch wide", decimals=2, side="up"),
        figure("groove_depth", "Or groove first, deep", num(passes.CHAMFER) * pitch, _EDGE_SOURCE, decimals=2, side="up"),
        figure("groove_width", "Its width, least", num(1) * pitch, _EDGE_SOURCE, decimals=2, side="up"),
        figure("chamfer_after", "Chamfer after, at most", num(1) * pitch, _EDGE_SOURCE, decimals=2, side="down"),
    ]  # fmt: skip
    if inputs.start <= 0 and float(over) >= 0:
        figures.append(figure("over_end", "Wheel over the end at first", over, "arithmetic", decimals=2))
    return figures


def _table(shop: Shop, moves: tuple[passes.Pass, ...], infeed: float, first: float | None) -> Table:
    saddle, cross = (shop.lathe.saddle, shop.lathe.cross_slide) if shop.lathe else (None, None)
    columns = [
        Column("pass", "Pass", "count"),
        *heads(what="What", edge=("Wheel's edge", "length", 2), depth=("In", "length")),
        *heads(work_turns=("Turns of work", "count")),
    ]
    if saddle:
        columns += [Column("saddle_turns", "Saddle turns", "count"), Column("saddle", "dial", "length", 2)]
    if cross:
        columns += [Column("cross_turns", "Cross turns", "count"), Column("cross", "dial", "length")]
    if first:
        columns.append(Column("seconds", "Takes", "duration", 0))
    if saddle:
        columns.append(Column("along", "Saddle"))
    if cross:
        columns.append(Column("set", "Cross slide"))
    rows: list[tuple[Cell, ...]] = []
    for number, move in enumerate(moves, 1):
        row: list[Cell] = [number, move.what, move.edge, infeed, move.turns]
        settings: list[Cell] = []
        for slide, way, wheel in ((saddle, move.edge, "Saddle"), (cross, infeed, "Cross slide")):
            if slide is None:
                continue
            stands = slide_setting(slide, way)
            row += [stands.turns, stands.reading]
            settings.append(on_slide(wheel, slide, stands, "in" if slide is cross else "", way))
        if first:
            row.append(60 * move.turns / first)
        rows.append((*row, *settings))
    lead = tuple(c.name for c in columns if c.name in ("along", "set"))
    return Table("passes", "Moves; the wheel's chuck-side edge from the end face", tuple(columns), tuple(rows), "pass",
        lead or ("edge", "depth"), "arithmetic on the owned dials; seconds at the speed of the first bite")  # fmt: skip


def _clean(inputs: KnurlPassesInputs, first: float) -> Text:
    """What to do for a clean edge, in the order in which it is done."""
    begins = (
        "Clean edges: chamfer the end or groove beside the knurl first, begin with the wheel's edge at {first}"
        if inputs.start <= 0
        else "Clean edges: groove or chamfer at both ends of the knurl first, begin with the wheel's edge at {first}"
    )
    return say(begins + "; a light chamfer afterwards takes off what it rolled over the edge.", first=shown(first))


def _notes(
    inputs: KnurlPassesInputs, wheel: _Wheel, along: bool, first: float | None, moves: tuple[passes.Pass, ...]
) -> list[Note]:
    notes = [
        info("Zero the saddle with the wheel's chuck-side edge level with the end face, the cross slide at the touch."),
        info(_clean(inputs, moves[0].edge)),
    ]
    teeth = pi * inputs.diameter / wheel.pitch
    if teeth < FEWEST_TEETH:
        notes.append(warning("This blank carries only {teeth} teeth: fewer than {fewest} are splines, not a knurl. "
            "Take a finer wheel.", teeth=places(teeth), fewest=FEWEST_TEETH))  # fmt: skip
    if wheel.straight:
        template = "Your wheel is straight: a {form} knurl needs slanting wheels, or straight ones swivelled."
        notes.append(warning(template, form=inputs.form))
    if inputs.width > wheel.width and not along:
        notes.append(info("Back the wheel out, move it, and let it find its own teeth before it goes in again."))
    if along and inputs.holder == "weak":
        notes.append(info("A cut knurl has little thrust: it is fed along even in a weak holder."))
    if inputs.method == "form":
        notes.append(info(_bite(first)))
    if inputs.method == "cut" and inputs.start > 0:
        notes.append(warning("A cut knurl begins at the end, or at a groove: the wheel cuts with its edge."))
    if inputs.width > inputs.diameter:
        notes.append(warning("The knurl is wider than the blank's {across}: support the end with a centre.",
            across=shown(inputs.diameter, decimals=1)))  # fmt: skip
    elif inputs.start + inputs.width > _SLENDER * inputs.diameter:
        notes.append(warning("The knurl is over three diameters out: support the end with a centre."))
    if inputs.method == "form" and inputs.material.group == "cast_iron":
        notes.append(warning("Cast iron crumbles under a knurl wheel: cut the knurl instead."))
    return notes


def _bite(first: float | None) -> Text:
    turn = say(" ({s} at {rpm} rev/min)", s=shown(60 / first, "duration"), rpm=general(first)) if first else ""
    return say("Bite firmly at once at the lowest speed, or turning the chuck by hand, the spindle switched off: after "
        "one turn{turn} back out and look: twice the lines means it is doubling. The tool post springs: go on by the "
        "look of the teeth, not past the infeed.", turn=turn)  # fmt: skip


def _at_work(inputs: KnurlPassesInputs, answer: Answer, shop: Shop) -> Text:
    speed = answer.figure("rpm").value or 0.0
    low, high = _ROLL_SPEED
    return say("{v} at {speed}; {low} to {high} is usual", v=shown(pi * inputs.diameter * speed / 1000, "surface_speed"),
               speed=shown(speed, "speed"), low=bare(low, "surface_speed"), high=shown(high, "surface_speed"))  # fmt: skip


def _three_diameters(inputs: KnurlPassesInputs, answer: Answer, shop: Shop) -> Text:
    return say("three diameters are {far}", far=shown(_SLENDER * inputs.diameter, decimals=1, side="down"))


def _per_tooth(inputs: KnurlPassesInputs, answer: Answer, shop: Shop) -> Text:
    return say("one tooth is {step} on the diameter", step=shown(inputs.pitch / pi)) if inputs.pitch else ""


OPERATION = Operation(
    id="knurl-passes",
    pane="knurling",
    place=20,
    title="Run the knurl",
    words="knurl knurling feed speed infeed plunge press wheel passes depth first bite clamp rpm oil lubricant double roll",
    machine="lathe",
    inputs=KnurlPassesInputs,
    work=_work,
    tool="knurl wheel",
    hazards=("knurling", "chuck", "fluids"),
    example={"diameter": "18", "width": "10", "pitch": "0.8", "material": "mild steel"},
    troubles={
        "KN-01": _per_tooth, "KN-02": true_pitch, "KN-03": None, "KN-04": None, "KN-05": None, "KN-06": _at_work,
        "KN-07": _three_diameters, "KN-08": None, "KN-09": half_pitch,
    },
    help="Speed, feed and infeed of a knurl, and each move with its saddle and cross-slide settings.",
)  # fmt: skip
