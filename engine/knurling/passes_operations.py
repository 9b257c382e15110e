"""The operation `knurl-passes`: speed, feed, infeed and every move of the knurl on this lathe."""

from __future__ import annotations

from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Column, Figure, Note, Table
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.cutting.feeds import feed, feed_words
from engine.cutting.materials import of_shop
from engine.cutting.speeds import SpindleSpeed, ideal_text, spindle_speed, step_text, surface_speed
from engine.indexing.dials import slide_setting
from engine.knurling import passes
from engine.knurling.blank import form_of
from engine.knurling.blank_inputs import owned
from engine.shop.model import Shop

_WHEEL_WIDTH = 8.0  # mm: the middle width of a 20 mm wheel in DIN 403:1973
_SLENDER = (
    3.0  # diameters out of the chuck from which a one-sided knurl bends the work: a machinist's textbook
)


@dataclass(frozen=True, slots=True, kw_only=True)
class KnurlPassesInputs:
    """What `knurl-passes` is told."""

    diameter: float = ask.length("Diameter of the blank", low=1, high=500, example="18", help="As turned.")
    width: float = ask.length("Width of the knurl", low=0.2, high=1000, example="10", help="Along the bar.")
    pitch: float | None = ask.length(
        "Pitch of the wheel",
        low=0.2,
        high=5,
        required=False,
        example="0.8",
        empty="your first wheel's",
        help="Decides the infeed.",
    )
    material: Any = ask.material(
        "Material",
        from_shop=of_shop,
        example="free-cutting brass",
        empty="the shop's first",
        help="What is knurled.",
    )
    method: str = ask.choice(
        "Method",
        ("form", "cut"),
        default="form",
        example="form",
        help="Form: rolled in under pressure. Cut: the wheel takes metal away, fed along.",
    )
    form: str = ask.choice(
        "Form",
        ("axial", "diagonal", "diamond", "crossed"),
        default="axial",
        example="axial",
        help="Lines along the bar, slanting, slanting both ways, or along and round.",
    )
    holder: str = ask.choice(
        "Holder",
        ("strong", "weak"),
        example="weak",
        empty="as the shop's tool holding",
        from_shop=lambda shop: shop.lathe.tool_holder,
        help="Strong: the wheel can be fed along. Weak: it is plunged, moved and plunged again.",
    )
    wheel_width: float | None = ask.length(
        "Width of the wheel",
        low=0.5,
        high=60,
        required=False,
        example="8",
        empty="the owned wheel's, else 8 mm",
        help="Decides how far the wheel moves between plunges.",
    )
    start: float = ask.length(
        "Knurl begins",
        default=0.0,
        low=-1e-9,
        high=1000,
        example="5",
        help="From the end face; 0 at the end itself.",
    )


def _wheel(inputs: KnurlPassesInputs, shop: Shop) -> tuple[float, float, str]:
    """Pitch and width of the wheel, and where the pitch is from."""
    fitting = [
        w for w in shop.knurls if inputs.pitch is None or abs(w.pitch - inputs.pitch) <= 0.01 * inputs.pitch
    ]
    width = inputs.wheel_width or (fitting[0].width if fitting else _WHEEL_WIDTH)
    if inputs.pitch is not None:
        return inputs.pitch, width, "as given"
    if not fitting:
        raise BadInput(
            "pitch", "", "a pitch such as 0.8", "pitch: no owned wheel is known; give its pitch, such as 0.8."
        )
    wheel = owned(fitting[0], 0.0, unit=shop.unit)
    return wheel.pitch, width, wheel.name


def _work(inputs: KnurlPassesInputs, shop: Shop) -> Answer:
    pitch, wheel_width, wheel_words = _wheel(inputs, shop)
    if inputs.method == "cut" and inputs.form == "crossed":
        raise BadInput("method", "cut", "form", "method: a crossed knurl cannot be cut; form it.")
    form = form_of(form=inputs.form, points="raised")
    infeed = passes.infeed_for(pitch=pitch, growth_factor=form.growth_factor, method=inputs.method)
    published = feed(kind="knurling", diameter=inputs.diameter)
    along = inputs.method == "cut" or inputs.holder == "strong"
    if along:
        moves = passes.fed_along(
            width=inputs.width,
            wheel=wheel_width,
            start=inputs.start,
            feed=published.chosen,
            cut=inputs.method == "cut",
        )
    else:
        moves = passes.pressed(width=inputs.width, wheel=wheel_width, start=inputs.start)
    spindle, speed = _speed(inputs, shop)
    figures = (
        speed,
        Figure(
            "feed",
            "Feed along, when fed",
            published.chosen,
            "feed",
            published.source,
            feed_words(published.low, published.high, shop.unit),
            low=published.low,
            high=published.high,
        ),
        *_depth_figures(inputs, shop, pitch, infeed, form.growth_factor, wheel_words),
        Figure(
            "lubricant",
            "Lubricant",
            None,
            "text",
            "common practice, no source",
            f"for {inputs.material.label}",
            text=passes.lubricant(inputs.material.group),
        ),
    )
    table = _table(shop, moves, infeed)
    notes = _notes(inputs, shop, along, wheel_width)
    if spindle.too_fast:
        text = (
            f"The lathe's lowest speed, {spindle.chosen:g} rev/min, is above the ideal {spindle.ideal:.0f}."
        )
        notes.append(Note("warning", text))
    return Answer(figures, tables=(table,), notes=tuple(notes))


def _speed(inputs: KnurlPassesInputs, shop: Shop) -> tuple[SpindleSpeed, Figure]:
    published = surface_speed(material=inputs.material, operation="knurling")
    lathe = shop.lathe
    mark = lathe.chuck.marked_speed if lathe else None
    if mark is not None and lathe and min(lathe.speeds) > mark:
        raise BadInput(
            "chuck",
            f"{mark:g} rev/min",
            f"a marked speed of at least {min(lathe.speeds):g} rev/min, the lathe's lowest",
        )
    spindle = spindle_speed(
        diameter=inputs.diameter,
        surface_speed=published.chosen,
        steps=lathe.speeds if lathe else (),
        ceiling=mark,
    )
    ideal = ideal_text(surface_speed=published.chosen, diameter=inputs.diameter, unit=shop.unit)
    step = step_text(spindle, "lathe", ceiling=mark)
    words = f"{ideal}; {step}"
    return spindle, Figure("rpm", "Set the spindle to", spindle.chosen, "speed", published.source, words)


def _depth_figures(
    inputs: KnurlPassesInputs, shop: Shop, pitch: float, infeed: float, growth_factor: float, wheel: str
) -> list[Figure]:
    unit, across = shop.unit, worked(pitch, shop.unit)
    if inputs.method == "form":
        words = f"pitch {across} ({wheel}) ÷ 2 - growth {growth_factor:g} x {across} ÷ 2"
    else:
        words = f"pitch {across} ({wheel}) ÷ 2, all of it cut"
    figures = [
        Figure(
            "infeed",
            "In from the touch, on the radius",
            infeed,
            "length",
            "90 degree wheel: tooth half a pitch deep; DIN 82:1973 growth; a tool maker's sheet agrees",
            words,
        )
    ]
    if shop.lathe:
        slide = shop.lathe.cross_slide
        setting = slide_setting(slide, infeed)
        turn = show(float(slide.travel_per_turn), "length", unit)
        dial = f"{worked(infeed, unit)} at {turn} a turn in {slide.divisions} lines, to the nearest line"
        dial += "; the dial reads diameter" if slide.reads_diameter else ""
        figures += [
            Figure(
                "infeed_turns",
                "Cross slide: whole turns",
                setting.turns,
                "count",
                "arithmetic on the owned dial",
                dial,
            ),
            Figure(
                "infeed_reading", "then to", setting.reading, "length", "arithmetic on the owned dial", dial
            ),
        ]
    figures.append(
        Figure(
            "chamfer",
            "Chamfer the ends at least",
            passes.CHAMFER * pitch,
            "length",
            "a cut-knurl tool's manual: 30 to 45 degrees, half a pitch wide",
            f"{passes.CHAMFER:g} x {across}",
            decimals=2,
            side="up",
        )
    )
    return figures


def _table(shop: Shop, moves: tuple[passes.Pass, ...], infeed: float) -> Table:
    saddle = shop.lathe.saddle if shop.lathe else None
    cross = shop.lathe.cross_slide if shop.lathe else None
    columns = [
        Column("pass", "Pass", "count"),
        Column("what", "What"),
        Column("edge", "Wheel's edge", "length", 2),
        Column("depth", "In", "length"),
        Column("work_turns", "Turns of work", "count"),
    ]
    if saddle:
        columns += [
            Column("saddle_turns", "Saddle, turns", "count"),
            Column("saddle", "then to", "length", 2),
        ]
    if cross:
        columns += [Column("cross_turns", "Cross, turns", "count"), Column("cross", "then to", "length")]
    rows: list[tuple[Cell, ...]] = []
    for number, move in enumerate(moves, 1):
        row: list[Cell] = [number, move.what, move.edge, infeed, move.turns]
        if saddle:
            along = slide_setting(saddle, move.edge)
            row += [along.turns, along.reading]
        if cross:
            depth = slide_setting(cross, infeed)
            row += [depth.turns, depth.reading]
        rows.append(tuple(row))
    setting = [c.name for c in columns if c.name in ("saddle_turns", "saddle", "cross_turns", "cross")]
    return Table(
        "passes",
        "Moves; the wheel's chuck-side edge from the end face",
        tuple(columns),
        tuple(rows),
        count_noun="pass",
        setting=tuple(setting) or ("edge", "depth"),
        source="arithmetic on the owned dials",
    )


def _notes(inputs: KnurlPassesInputs, shop: Shop, along: bool, wheel_width: float) -> list[Note]:
    notes = [
        Note(
            "info",
            "Zero the saddle with the wheel's chuck-side edge level with the end face, the cross slide at the touch.",
        )
    ]
    if inputs.width > wheel_width and not along:
        notes.append(
            Note(
                "info", "Back the wheel out, move it, and let it find its own teeth before it goes in again."
            )
        )
    if along and inputs.holder == "weak":
        notes.append(Note("info", "A cut knurl has little thrust: it is fed along even in a weak holder."))
    if inputs.method == "form":
        notes.append(
            Note(
                "info",
                "Bite firmly at once, then stop after one turn and look: twice the lines means it is doubling. "
                "The tool post springs: go on by the look of the teeth, not past the infeed.",
            )
        )
    if inputs.method == "cut" and inputs.start > 0:
        text = "A cut knurl begins at the end, or at a groove: the wheel cuts with its edge."
        notes.append(Note("warning", text))
    if inputs.width > inputs.diameter:
        across = show(inputs.diameter, "length", shop.unit, decimals=1)
        text = f"The knurl is wider than the blank's {across}: support the end with a centre."
        notes.append(Note("warning", text))
    elif inputs.start + inputs.width > _SLENDER * inputs.diameter:
        notes.append(Note("warning", "The knurl is over three diameters out: support the end with a centre."))
    if inputs.method == "form" and inputs.material.group == "cast_iron":
        notes.append(Note("warning", "Cast iron crumbles under a knurl wheel: cut the knurl instead."))
    return notes


OPERATIONS = {
    "knurl-passes": Operation(
        id="knurl-passes",
        inputs=KnurlPassesInputs,
        work=_work,
        hazards=("knurling", "chuck"),
        example={"diameter": "18", "width": "10", "pitch": "0.8", "material": "mild steel"},
        help="Speed, feed and infeed of a knurl, and each move with its saddle and cross-slide readings.",
    )
}
