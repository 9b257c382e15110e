"""Knurl blank: the diameter that takes a whole number of teeth, and the size it comes out."""

from __future__ import annotations

from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Note, Table, figure, heads, info, warning, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import INCH, mm, num
from engine.base.words import Text, general, say, shown
from engine.base.words import figures as places
from engine.knurling import blank as blanks
from engine.knurling import wheels
from engine.knurling.knurl_pictures import closing_picture
from engine.knurling.wheels import Wheel
from engine.shop.model import KnurlWheel, Shop
from engine.situation import Situation

_FULL_FORM = 0.9  # of the full growth: where to stop rolling; common practice, no source
_STEEP = 1e-4  # of the pitch: a true pitch nearer to the stamped one is the same


@dataclass(frozen=True, slots=True, kw_only=True)
class KnurlBlankInputs:
    """What `knurl-blank` is told.

    near: Roughly how big the blank (or finished knurl) is to be.
    pitch: Across the teeth, as stamped. Left empty, your own wheel is used with its true pitch.
    tpi: Instead of the pitch: teeth per inch, square to the teeth.
    diametral_pitch: Instead of the pitch: teeth on one inch of blank diameter (64, 96, 128, 160).
    form: Lines along the bar, slanting, slanting both ways, or along and round.
    method: Form: rolled in under pressure, the diameter grows. Cut: the wheel takes metal away.
    material: Says whether the material can be rolled at all.
    points: Diamond and crossed knurls: points that stand up, or points pressed in.
    near_is: Of the turned blank, or of the finished knurl.
    wheel: Which of your wheels, by its place in the shop's list.
    wheel_teeth: With the wheel's diameter it gives the true pitch: the stamped one is nominal.
    wheel_diameter: With the teeth counted it gives the true pitch.
    helix: Diagonal and diamond: from the bar's axis.
    swivelled: Diagonal and diamond: yes when straight wheels are swivelled to the angle.
    """

    near: float = ask.length("Diameter wanted", high=1000, example="18")
    pitch: float | None = ask.length(
        "Pitch of the wheel", low=0.2, high=5, example="0.8", empty="an owned wheel, by its counted teeth"
    )
    tpi: float | None = ask.number("Teeth per inch", low=5, high=130, example="33", empty="not given so")
    diametral_pitch: float | None = ask.number("Diametral pitch", low=10, high=400, example="96", empty="not given so")
    form: str = ask.choice("Form", ("axial", "diagonal", "diamond", "crossed"), default="axial", example="axial")
    method: str = ask.choice("Method", ("form", "cut"), default="form", example="form")
    material: Any = ask.material("Material", example="free-cutting brass", empty="not given")
    points: str = ask.choice("Points", ("raised", "indented"), default="raised", example="raised")
    near_is: str = ask.choice("Wanted diameter is of", ("blank", "finished"), default="blank", example="blank")
    wheel: int | None = ask.count("Owned wheel", low=1, high=100, example="1", empty="the first that makes the form")
    wheel_teeth: int | None = ask.count("Teeth on the wheel", low=10, high=400, example="78", empty="not counted")
    wheel_diameter: float | None = ask.length(
        "Diameter of the wheel", low=3, high=100, example="20", empty="not measured"
    )
    helix: float = ask.angle("Angle of the lines", default=wheels.STANDARD_HELIX, low=5, high=60, example="30")
    swivelled: bool = ask.flag("Wheels swivelled", default=False, example="no")


def _slant(inputs: KnurlBlankInputs) -> float:
    """Angle of the knurl's lines to the axis: the helix of slanting forms, else 0. (DIN 82:1973)"""
    return inputs.helix if inputs.form in ("diagonal", "diamond") else 0.0


def _wheel_meant(inputs: KnurlBlankInputs, shop: Shop) -> Wheel:
    helix = _slant(inputs)
    ways = [n for n in ("pitch", "tpi", "diametral_pitch", "wheel") if getattr(inputs, n) is not None]
    if len(ways) > 1:
        text = f"{ways[1]}: give the wheel by its {ways[0]} or by its {ways[1]}, not by both."
        raise BadInput(ways[1], getattr(inputs, ways[1]), f"nothing, as {ways[0]} is given", text)
    if (inputs.wheel_teeth is None) != (inputs.wheel_diameter is None):
        missing = "wheel_teeth" if inputs.wheel_teeth is None else "wheel_diameter"
        raise BadInput(missing, "", "the wheel's teeth and its outside diameter together")
    if inputs.wheel_teeth is not None and inputs.wheel_diameter is not None:
        own = 0.0 if inputs.swivelled else helix
        return wheels.from_count(teeth=inputs.wheel_teeth, diameter=inputs.wheel_diameter, wheel_helix=own, helix=helix)
    if inputs.pitch is not None:
        return wheels.from_pitch(pitch=inputs.pitch, helix=helix)
    if inputs.tpi is not None:
        name = say("{tpi} teeth per inch", tpi=general(inputs.tpi))
        pitch = INCH / num(inputs.tpi)
        return wheels.from_pitch(pitch=float(pitch), helix=helix, name=name, pitch_working=pitch)
    if inputs.diametral_pitch is not None:
        return wheels.from_diametral_pitch(
            diametral_pitch=inputs.diametral_pitch, helix=helix, swivelled=inputs.swivelled
        )
    return wheels.owned(_chosen(inputs, shop), helix, swivelled=inputs.swivelled)


def _chosen(inputs: KnurlBlankInputs, shop: Shop) -> KnurlWheel:
    if inputs.wheel is not None:
        if inputs.wheel > len(shop.knurls):
            raise BadInput("wheel", inputs.wheel, f"1 to {len(shop.knurls)}, the wheels of the shop")
        wheel = shop.knurls[inputs.wheel - 1]
        if not wheels.makes(wheel, inputs.form):
            raise BadInput("form", inputs.form, f"a form that a {wheel.form} wheel makes")
        return wheel
    fitting = [wheel for wheel in shop.knurls if wheels.makes(wheel, inputs.form)]
    for wheel in sorted(fitting, key=lambda w: wheels.only_swivelled(w, inputs.form) and not inputs.swivelled):
        return wheel
    text = f"pitch: no owned wheel makes a knurl of form {inputs.form}; give a pitch, tpi or diametral_pitch."
    raise BadInput("pitch", "", "a pitch such as 0.8", text)


@dataclass(frozen=True, slots=True)
class _Job:
    """A knurl settled: form, wheel, the blank chosen, and the blank that was wanted [mm]."""

    form: blanks.Form
    wheel: Wheel
    best: blanks.Blank
    growth: float
    target: float
    counted_at: float  # teeth that the wanted blank would take


def _job(inputs: KnurlBlankInputs, form: blanks.Form, wheel: Wheel) -> _Job:
    growth = blanks.growth_of(form, pitch=wheel.pitch, method=inputs.method)
    target = inputs.near - (growth if inputs.near_is == "finished" else 0.0)
    best = blanks.blank_near(near=target, wheel=wheel, growth=growth)
    return _Job(form, wheel, best, growth, target, target / wheel.step)


def _work(inputs: KnurlBlankInputs, shop: Shop) -> Answer:
    if inputs.method == "cut" and (inputs.form == "crossed" or inputs.points == "indented"):
        text = "method: only axial, diagonal and raised diamond knurls can be cut; form this one."
        raise BadInput("method", "cut", "form", text)
    job = _job(inputs, blanks.form_of(form=inputs.form, points=inputs.points), _wheel_meant(inputs, shop))
    moment = Situation(
        machine="lathe", work_diameter=job.best.diameter, material=inputs.material.name if inputs.material else ""
    )
    notes = tuple(_notes(inputs, shop, job))
    drawn = closing_picture(
        teeth=job.best.teeth, blank=job.best.diameter, finished=job.best.diameter + job.growth, wanted=job.counted_at
    )
    return Answer(_figures(inputs, job), _tables(inputs, shop, job), (drawn,), notes, moments=(moment,))


def _figures(inputs: KnurlBlankInputs, job: _Job) -> tuple[Figure, ...]:
    wheel, best = job.wheel, job.best
    tolerance = blanks.tolerance_of(wheel)
    step, near, growth = mm(wheel.step), mm(inputs.near), mm(job.growth, "growth {}")
    wanted = near - growth if inputs.near_is == "finished" else near
    diameter = num(best.teeth, "{} teeth") * mm(wheel.step, "{} a tooth")
    return (
        figure("blank_diameter", "Turn the blank to", diameter, wheel.source,
               say("{sum} ({step})", sum=diameter, step=wheel.working), low=best.diameter - tolerance,
               high=best.diameter + tolerance),
        Figure("teeth", "Teeth on the work", best.teeth, "count", wheel.source,
               say("{sum} = {at}, nearest whole number {teeth}", sum=wanted / step, at=places(job.counted_at, 2),
               teeth=best.teeth)),
        figure("finished_diameter", "Finished, full form", mm(best.diameter, "blank {}") + growth,
               _growth_source(inputs, wheel), decimals=2),
        Figure("growth", "Growth on the diameter", job.growth, "length", *_growth_words(inputs, job)),
        Figure("mismatch", "Teeth off, at the wanted size", job.counted_at - best.teeth, "ratio", "arithmetic",
               say("{at} - {teeth} teeth; within {most} it tracks", at=general(job.counted_at), teeth=best.teeth,
               most=general(blanks.TRACKS_WITHIN)), decimals=2),
        Figure("tolerance", "Blank tolerance, ±", tolerance, "length", _tolerance_source(wheel),
               _tolerance_words(wheel, tolerance), side="down"),
        Figure("per_tooth", "One tooth more or less", wheel.step, "length", wheel.source, wheel.working),
        Figure("wheel_pitch", "Pitch across the teeth", wheel.pitch, "length", wheel.source, wheel.pitch_working,
               decimals=4),
        words("knurl", "Knurl", say("{code}, with {wheels}; wheel: {name}", code=job.form.code, wheels=_wheels(inputs,
               job.form), name=wheel.name), "DIN 82:1973-01", f"a knurl of form {inputs.form}, points {inputs.points}"),
    )  # fmt: skip


def _wheels(inputs: KnurlBlankInputs, form: blanks.Form) -> Text:
    if not inputs.swivelled or inputs.form not in ("diagonal", "diamond"):
        return form.wheels
    each = ", one each way" if inputs.form == "diamond" else ""
    return say("straight wheels swivelled {angle}°{each}", angle=general(inputs.helix), each=each)


def _growth_source(inputs: KnurlBlankInputs, wheel: Wheel) -> str:
    if inputs.method == "cut":
        return "common practice, no source: a cut knurl hardly raises the diameter"
    low, high = blanks.DIN_PITCHES
    if low - 0.02 <= wheel.pitch <= high + 0.02:
        return "DIN 82:1973-01 clause 2.4 (full form, 90 degree wheel)"
    return "rule of DIN 82:1973-01 clause 2.4 carried beyond its pitches of 0.5 to 1.6 mm (volume stays the same)"


def _growth_words(inputs: KnurlBlankInputs, job: _Job) -> tuple[str, Text]:
    if inputs.method == "cut":
        return _growth_source(inputs, job.wheel), "none counted: the metal is cut away"
    return _growth_source(inputs, job.wheel), num(job.form.growth_factor) * mm(job.wheel.pitch, "pitch {}")


def _tolerance_source(wheel: Wheel) -> str:
    if wheel.tolerance is not None:
        return "ASME B94.6 class I blank tolerance (Machinery's Handbook, 31st ed., p. 1059)"
    return "a tenth of a tooth, which the class I tolerances of ASME B94.6 come to (8 to 10 %)"


def _tolerance_words(wheel: Wheel, tolerance: float) -> Text:
    if wheel.tolerance is not None:
        return say("{sum} for this diametral pitch", sum=num(tolerance / float(INCH)) * INCH)
    return num(blanks.TRACKS_WITHIN) * mm(wheel.step, "{} a tooth")


_COLUMNS = (
    *heads(teeth=("Teeth", "count"), blank_diameter=("Blank", "length")),
    *heads(finished_diameter=("Finished", "length", 2), difference=("From wanted", "length")),
)


def _tables(inputs: KnurlBlankInputs, shop: Shop, job: _Job) -> tuple[Table, ...]:
    near = [
        blanks.blank_of(teeth, wheel=job.wheel, growth=job.growth)
        for teeth in range(max(blanks.FEWEST_TEETH, job.best.teeth - 2), job.best.teeth + 3)
    ]
    rows = tuple((b.teeth, b.diameter, b.finished, b.diameter - job.target) for b in near)
    choices = Table("choices", "Whole numbers of teeth near it", _COLUMNS, rows, source=job.wheel.source)
    others = _wheel_rows(inputs, shop, job.form)
    if not others:
        return (choices,)
    source = "each wheel's own pitch, by its counted teeth where they are known: circumference ÷ pitch (geometry)"
    return choices, Table(
        "wheels", "With each of your wheels", (Column("wheel", "Wheel"), *_COLUMNS), others, source=source
    )


def _wheel_rows(inputs: KnurlBlankInputs, shop: Shop, form: blanks.Form) -> tuple[tuple[Text | int | float, ...], ...]:
    rows = []
    for one in shop.knurls:
        if not wheels.makes(one, inputs.form):
            continue
        wheel = wheels.owned(one, _slant(inputs), swivelled=inputs.swivelled)
        growth = blanks.growth_of(form, pitch=wheel.pitch, method=inputs.method)
        if inputs.near - (growth if inputs.near_is == "finished" else 0.0) < blanks.FEWEST_TEETH * wheel.step:
            continue
        job = _job(inputs, form, wheel)
        best = job.best
        rows.append((wheel.name, best.teeth, best.diameter, best.finished, best.diameter - job.target))
    return tuple(rows)


def _notes(inputs: KnurlBlankInputs, shop: Shop, job: _Job) -> list[Note]:
    notes = []
    off = abs(job.counted_at - job.best.teeth)
    if off > blanks.TRACKS_WITHIN:
        beyond = off > blanks.DOUBLES_BEYOND
        text = say("A blank of {wanted} is {off} of a tooth off: it {may} double.", wanted=shown(job.target),
            off=places(off, 2), may="would" if beyond else "may")  # fmt: skip
        notes.append(Note("warning" if beyond else "info", text))
    notes += _true_pitch_note(inputs, shop, job.form, job.target)
    notes += _straight_wheels(inputs, shop)
    if not job.wheel.counted and job.wheel.tolerance is None:
        notes.append(info("The stamped pitch is nominal: count the wheel's teeth and measure its diameter."))
    if inputs.method == "form":
        notes.append(info("Growth is the most a full form gives; try a scrap piece before the part matters."))
    if inputs.material is not None and inputs.material.group == "cast_iron":
        notes.append(warning("Cast iron crumbles under a knurl wheel: cut the knurl, or choose another."))
    return notes


def _straight_wheels(inputs: KnurlBlankInputs, shop: Shop) -> list[Note]:
    """A slanting form asked of wheels that are all straight and not swivelled."""
    told = (inputs.pitch, inputs.tpi, inputs.diametral_pitch, inputs.wheel_teeth)
    if (
        inputs.swivelled
        or any(one is not None for one in told)
        or not wheels.only_swivelled(_chosen(inputs, shop), inputs.form)
    ):
        return []
    text = say("Your wheels are straight: a {form} knurl needs {wheels}, or straight ones swivelled {angle}° (answer "
        "yes to that).", form=inputs.form, wheels=blanks.form_of(form=inputs.form, points=inputs.points).wheels,
        angle=general(inputs.helix))  # fmt: skip
    return [warning(text)]


def _true_pitch_note(inputs: KnurlBlankInputs, shop: Shop, form: blanks.Form, target: float) -> list[Note]:
    """A stamped pitch that an owned wheel bears although its teeth say otherwise: what that wheel would need."""
    pitch = inputs.pitch if inputs.pitch is not None else float(INCH) / inputs.tpi if inputs.tpi else None
    if pitch is None or inputs.wheel_teeth is not None:
        return []
    for place, one in enumerate(shop.knurls, 1):
        if not wheels.makes(one, inputs.form) or not one.teeth or abs(one.pitch - pitch) > 0.01 * pitch:
            continue
        true = wheels.owned(one, _slant(inputs), swivelled=inputs.swivelled)
        if abs(true.pitch - pitch) < _STEEP * pitch or target < blanks.FEWEST_TEETH * true.step:
            continue
        growth = blanks.growth_of(form, pitch=true.pitch, method=inputs.method)
        best = blanks.blank_near(near=target, wheel=true, growth=growth)
        text = say("Your own wheel {place} of that pitch has {teeth} teeth, a true pitch of {pitch}: it needs {need} "
            "teeth on {diameter}. Give wheel={place} instead of the pitch to work with it.", place=place,
            teeth=one.teeth, pitch=shown(true.pitch, decimals=4), need=best.teeth,
            diameter=shown(best.diameter))  # fmt: skip
        return [warning(text)]
    return []


def _per_tooth(inputs: KnurlBlankInputs, answer: Answer, shop: Shop) -> Text:
    teeth, step = answer.figure("teeth").value or 0, answer.figure("per_tooth").value or 0.0
    return say("{teeth} teeth at {blank}; one tooth is {step} on the diameter", teeth=int(teeth),
               blank=shown(answer.figure("blank_diameter").value or 0.0), step=shown(step))  # fmt: skip


def stamped(inputs: Any) -> float | None:
    """The pitch that the wheel is known by. [mm]"""
    tpi = getattr(inputs, "tpi", None)
    return inputs.pitch if inputs.pitch is not None else float(INCH) / tpi if tpi else None


def true_pitch(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """Pitch of an owned wheel by its teeth and diameter, beside the stamped one."""
    pitch = stamped(inputs)
    for wheel in shop.knurls if pitch else ():
        if pitch and wheel.diameter and wheel.teeth and abs(wheel.pitch - pitch) < 0.06 * pitch:
            across, true = shown(wheel.diameter), shown(wheels.owned(wheel, 0.0).pitch)
            return say("your {n} teeth on {across} are {true} apart", n=wheel.teeth, across=across, true=true)
    return ""


def _nine_tenths(inputs: KnurlBlankInputs, answer: Answer, shop: Shop) -> Text:
    growth, blank = answer.figure("growth").value or 0.0, answer.figure("blank_diameter").value or 0.0
    text = "stop at {stop} outside, full form is {full}"
    return say(text, stop=shown(blank + _FULL_FORM * growth), full=shown(blank + growth))


def half_pitch(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """Least width of the lead chamfer."""
    pitch = stamped(inputs)
    return say("at least {wide} wide, half the pitch", wide=shown(pitch / 2)) if pitch else ""


def _three_diameters(inputs: Any, answer: Answer, shop: Shop) -> Text:
    far = shown(3 * (answer.figure("blank_diameter").value or 0.0), decimals=1, side="down")
    return say("three diameters are {far}", far=far)


OPERATION = Operation(
    id="knurl-blank",
    pane="knurling",
    place=10,
    title="Blank for a knurl",
    words="knurl knurling diameter teeth tracks double growth wheel pitch diamond straight diagonal blank size grip "
        "pattern tpi DIN 82",
    machine="lathe",
    inputs=KnurlBlankInputs,
    work=_work,
    hazards=("knurling", "turning", "chuck"),
    example={"near": "18", "pitch": "0.8", "form": "axial"},
    troubles={
        "KN-01": _per_tooth, "KN-02": true_pitch, "KN-03": None, "KN-04": None, "KN-05": _nine_tenths, "KN-06": None,
        "KN-07": _three_diameters, "KN-09": half_pitch,
    },
    help="Finds the blank diameter on which a knurl closes on itself, and the size it comes out.",
)  # fmt: skip
