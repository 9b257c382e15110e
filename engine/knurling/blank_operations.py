"""The operation `knurl-blank`: which blank takes a whole number of teeth."""

from __future__ import annotations

from engine.base.answer import Answer, Column, Figure, Note, Table
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.knurling import blank as blanks
from engine.knurling.blank_inputs import KnurlBlankInputs, makes, owned, slant, wheel_meant
from engine.knurling.wheels import Wheel
from engine.shop.model import Shop


def _work(inputs: KnurlBlankInputs, shop: Shop) -> Answer:
    if inputs.method == "cut" and (inputs.form == "crossed" or inputs.points == "indented"):
        text = "method: only axial, diagonal and raised diamond knurls can be cut; form this one."
        raise BadInput("method", "cut", "form", text)
    form = blanks.form_of(form=inputs.form, points=inputs.points)
    wheel = wheel_meant(inputs, shop)
    growth = blanks.growth_of(form, pitch=wheel.pitch, method=inputs.method)
    target = inputs.near - (growth if inputs.near_is == "finished" else 0.0)
    best = blanks.blank_near(near=target, wheel=wheel, growth=growth)
    return Answer(
        figures=_figures(inputs, form, wheel, best, target, shop.unit),
        tables=_tables(inputs, shop, form, wheel, best, target),
        notes=tuple(_notes(inputs, shop, form, wheel, best, target)),
    )


def _figures(
    inputs: KnurlBlankInputs, form: blanks.Form, wheel: Wheel, best: blanks.Blank, target: float, unit: str
) -> tuple[Figure, ...]:
    tolerance = blanks.tolerance_of(wheel)
    growth = best.finished - best.diameter
    at, step = target / wheel.step, worked(wheel.step, unit)
    diameter, wanted = worked(best.diameter, unit), worked(target, unit)
    if inputs.near_is == "finished":
        wanted = f"({worked(inputs.near, unit)} - growth {worked(growth, unit)})"
    return (
        Figure(
            "blank_diameter",
            "Turn the blank to",
            best.diameter,
            "length",
            wheel.source,
            f"{best.teeth} teeth x {step} a tooth ({wheel.working})",
            low=best.diameter - tolerance,
            high=best.diameter + tolerance,
        ),
        Figure(
            "teeth",
            "Teeth on the work",
            best.teeth,
            "count",
            wheel.source,
            f"{wanted} ÷ {step} = {at:.2f}, nearest whole number {best.teeth}",
        ),
        Figure(
            "finished_diameter",
            "Finished diameter, full form",
            best.finished,
            "length",
            _growth_source(inputs, wheel),
            f"blank {diameter} + growth {worked(growth, unit)}",
            decimals=2,
        ),
        Figure(
            "growth", "Growth on the diameter", growth, "length", *_growth_words(inputs, form, wheel, unit)
        ),
        Figure(
            "mismatch",
            "The wanted diameter is off by (teeth)",
            at - best.teeth,
            "ratio",
            "arithmetic",
            f"{at:.6g} - {best.teeth} teeth; within {blanks.TRACKS_WITHIN:g} it tracks",
            decimals=2,
        ),
        Figure(
            "tolerance",
            "Tracks within, plus and minus",
            tolerance,
            "length",
            _tolerance_source(wheel),
            _tolerance_working(wheel, tolerance, unit),
            side="down",
        ),
        Figure("per_tooth", "One tooth more or less", wheel.step, "length", wheel.source, wheel.working),
        Figure(
            "wheel_pitch",
            "Pitch square to the teeth",
            wheel.pitch,
            "length",
            wheel.source,
            _pitch_working(wheel, inputs, unit),
            decimals=4,
        ),
        Figure(
            "knurl",
            "Knurl",
            None,
            "text",
            "DIN 82:1973-01",
            f"a knurl of form {inputs.form}, points {inputs.points}",
            text=f"{form.code}, with {_wheels(inputs, form)}; wheel: {wheel.name}",
        ),
    )


def _wheels(inputs: KnurlBlankInputs, form: blanks.Form) -> str:
    if inputs.swivelled and inputs.form in ("diagonal", "diamond"):
        return f"straight wheels swivelled {inputs.helix:g}°" + (
            ", one each way" if inputs.form == "diamond" else ""
        )
    return form.wheels


def _growth_source(inputs: KnurlBlankInputs, wheel: Wheel) -> str:
    if inputs.method == "cut":
        return "common practice, no source: a cut knurl hardly raises the diameter"
    low, high = blanks.DIN_PITCHES
    if low - 0.02 <= wheel.pitch <= high + 0.02:
        return "DIN 82:1973-01 clause 2.4 (full form, 90 degree wheel)"
    return "rule of DIN 82:1973-01 clause 2.4 carried beyond its pitches of 0.5 to 1.6 mm (volume stays the same)"


def _growth_words(inputs: KnurlBlankInputs, form: blanks.Form, wheel: Wheel, unit: str) -> tuple[str, str]:
    if inputs.method == "cut":
        return _growth_source(inputs, wheel), "none counted: the metal is cut away"
    return _growth_source(inputs, wheel), f"{form.growth_factor:g} x pitch {worked(wheel.pitch, unit)}"


def _tolerance_source(wheel: Wheel) -> str:
    if wheel.tolerance is not None:
        return "ASME B94.6 class I blank tolerance (Machinery's Handbook, 31st ed., p. 1059)"
    return "a tenth of a tooth, which the class I tolerances of ASME B94.6 come to (8 to 10 %)"


def _pitch_working(wheel: Wheel, inputs: KnurlBlankInputs, unit: str) -> str:
    """A pitch counted on a wheel or from a diametral pitch has a sum of its own; any other is the wheel's name."""
    if wheel.counted:
        return wheel.working.partition("; ")[0]
    if inputs.diametral_pitch:
        turned = f" x cos {slant(inputs):g}°" if slant(inputs) else ""
        return f"3.14159 x {worked(wheel.step, unit)}{turned}"
    if inputs.tpi:
        return f"{worked(25.4, unit)} ÷ {inputs.tpi:g}"
    return f"{worked(wheel.pitch, unit)}, the pitch it is known by"


def _tolerance_working(wheel: Wheel, tolerance: float, unit: str) -> str:
    if wheel.tolerance is not None:
        return f"{tolerance / 25.4:.4f} in{'' if unit == 'inch' else ' x 25.4'} for this diametral pitch"
    return f"{blanks.TRACKS_WITHIN:g} x {worked(wheel.step, unit)} a tooth"


def _tables(
    inputs: KnurlBlankInputs, shop: Shop, form: blanks.Form, wheel: Wheel, best: blanks.Blank, target: float
) -> tuple[Table, ...]:
    growth = best.finished - best.diameter
    near = [
        blanks.blank_of(teeth, wheel=wheel, growth=growth)
        for teeth in range(max(blanks.FEWEST_TEETH, best.teeth - 2), best.teeth + 3)
    ]
    columns = (
        Column("teeth", "Teeth", "count"),
        Column("blank_diameter", "Blank", "length"),
        Column("finished_diameter", "Finished", "length", 2),
        Column("difference", "From wanted", "length"),
    )
    rows = tuple((b.teeth, b.diameter, b.finished, b.diameter - target) for b in near)
    choices = Table("choices", "Whole numbers of teeth near it", columns, rows, source=wheel.source)
    others = _wheel_rows(inputs, shop, form)
    if not others:
        return (choices,)
    wheels = Table(
        "wheels",
        "With each of your wheels",
        (Column("wheel", "Wheel"), *columns),
        others,
        source="each wheel's own pitch, by its counted teeth where they are known: circumference ÷ pitch (geometry)",
    )
    return (choices, wheels)


def _wheel_rows(
    inputs: KnurlBlankInputs, shop: Shop, form: blanks.Form
) -> tuple[tuple[str | int | float, ...], ...]:
    rows = []
    for one in shop.knurls:
        if not makes(one, inputs.form):
            continue
        wheel = owned(one, slant(inputs), swivelled=inputs.swivelled, unit=shop.unit)
        growth = blanks.growth_of(form, pitch=wheel.pitch, method=inputs.method)
        target = inputs.near - (growth if inputs.near_is == "finished" else 0.0)
        if target < blanks.FEWEST_TEETH * wheel.step:
            continue
        b = blanks.blank_near(near=target, wheel=wheel, growth=growth)
        rows.append((wheel.name, b.teeth, b.diameter, b.finished, b.diameter - target))
    return tuple(rows)


def _notes(
    inputs: KnurlBlankInputs, shop: Shop, form: blanks.Form, wheel: Wheel, best: blanks.Blank, target: float
) -> list[Note]:
    notes = []
    off = abs(target / wheel.step - best.teeth)
    wanted = show(target, "length", shop.unit)
    if off > blanks.DOUBLES_BEYOND:
        notes.append(Note("warning", f"A blank of {wanted} is {off:.2f} of a tooth off: it would double."))
    elif off > blanks.TRACKS_WITHIN:
        notes.append(Note("info", f"A blank of {wanted} is {off:.2f} of a tooth off: it may double."))
    notes.extend(_true_pitch_note(inputs, shop, form, target))
    if not wheel.counted and wheel.tolerance is None:
        notes.append(
            Note("info", "The stamped pitch is nominal: count the wheel's teeth and measure its diameter.")
        )
    if inputs.method == "form":
        notes.append(
            Note("info", "Growth is the most a full form gives; try a scrap piece before the part matters.")
        )
    if inputs.material is not None and inputs.material.group == "cast_iron":
        notes.append(
            Note("warning", "Cast iron crumbles under a knurl wheel: cut the knurl, or choose another.")
        )
    return notes


def _true_pitch_note(inputs: KnurlBlankInputs, shop: Shop, form: blanks.Form, target: float) -> list[Note]:
    """A stamped pitch that an owned wheel bears although its teeth say otherwise: what that wheel would need."""
    pitch = inputs.pitch if inputs.pitch is not None else 25.4 / inputs.tpi if inputs.tpi else None
    if pitch is None or inputs.wheel_teeth is not None:
        return []
    for place, one in enumerate(shop.knurls, 1):
        if not makes(one, inputs.form) or not one.teeth or abs(one.pitch - pitch) > 0.01 * pitch:
            continue
        true = owned(one, slant(inputs), swivelled=inputs.swivelled)
        if abs(true.pitch - pitch) < 1e-4 * pitch or target < blanks.FEWEST_TEETH * true.step:
            continue
        growth = blanks.growth_of(form, pitch=true.pitch, method=inputs.method)
        best = blanks.blank_near(near=target, wheel=true, growth=growth)
        diameter = show(best.diameter, "length", shop.unit)
        text = (
            f"Your own wheel {place} of that pitch has {one.teeth} teeth, a true pitch of "
            f"{show(true.pitch, 'length', shop.unit, decimals=4)}: it needs {best.teeth} teeth on {diameter}. "
            f"Give wheel={place} instead of the pitch to work with it."
        )
        return [Note("warning", text)]
    return []


OPERATIONS = {
    "knurl-blank": Operation(
        id="knurl-blank",
        inputs=KnurlBlankInputs,
        work=_work,
        hazards=("knurling", "turning", "chuck"),
        example={"near": "18", "pitch": "0.8", "form": "axial"},
        help="Finds the blank diameter on which a knurl closes on itself, and the size it comes out.",
    )
}
