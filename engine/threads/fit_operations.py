"""The operation about a screw in its nut."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.answer import Answer, Figure, Note
from engine.base.declare import angle, length, number, thread
from engine.base.operation import Operation
from engine.base.quantity import worked
from engine.base.refusals import check_range
from engine.base.rounding import rounded
from engine.shop.model import Shop
from engine.threads.fit import Fit, fit, flank_effect, lead_effect
from engine.threads.form import Form, form
from engine.threads.limits import limits
from engine.threads.sides import addendum
from engine.threads.thread import Thread

_LEAD = "dE = cot a x the accumulated error of lead: a metrology course, whose worked example agrees"
_FLANK = "dE = 2 y da ÷ sin 2a for each flank: a metrology course, and derived"
_GEOMETRY = "geometry"


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadFitInputs:
    """What `thread-fit` is told."""

    size: Thread = thread("Thread", example="M10", help="The thread of both.")
    screw_pitch_diameter: float = length(
        "Pitch diameter of the screw", high=2000, example="8.92", help="As measured, over wires."
    )
    nut_pitch_diameter: float = length(
        "Pitch diameter of the nut", high=2000, example="9.08", help="As measured, or as the tap is marked."
    )
    lead_error_ppm: float = number(
        "Error of the lead",
        dimension="ppm",
        default=0.0,
        low=-200_000,
        high=200_000,
        example="500",
        empty="none",
        help="Screw against nut, in parts in a million: the change wheels' error. 500 is 0.05 mm in 100.",
    )
    engagement: float | None = length(
        "Length in the nut",
        high=5000,
        example="10",
        empty="one diameter",
        help="How much of the nut is filled.",
    )
    flank_error: float = angle(
        "Error of the flanks",
        default=0.0,
        low=-10,
        high=10,
        example="0.5",
        empty="none",
        help="Of each flank of the screw, minus when the thread is too sharp.",
    )


def _flanks(inputs: ThreadFitInputs, shape: Form) -> float:
    above = addendum(shape)
    one = flank_effect(
        flank_error=inputs.flank_error,
        half_angle=shape.half_angle,
        height_at_crest=above,
        height_at_root=shape.basic_depth - above,
    )
    return 2 * one


def _check_sizes(inputs: ThreadFitInputs) -> None:
    """Both pitch diameters lie near the thread's own: one pitch away, another thread was measured."""
    basic, pitch = limits(inputs.size).pitch_basic, float(inputs.size.pitch)
    for name in ("screw_pitch_diameter", "nut_pitch_diameter"):
        check_range(
            name,
            getattr(inputs, name),
            low=basic - pitch,
            high=basic + pitch,
            unit="mm",
            why=f"the basic size of {inputs.size} is {basic:.3f}",
        )


def _thread_fit(inputs: ThreadFitInputs, shop: Shop) -> Answer:
    size, shape = inputs.size, form(inputs.size)
    _check_sizes(inputs)
    engagement = inputs.engagement if inputs.engagement is not None else size.diameter
    flanks = _flanks(inputs, shape)
    found = fit(
        screw=inputs.screw_pitch_diameter,
        nut=inputs.nut_pitch_diameter,
        lead=float(size.lead),
        half_angle=shape.half_angle,
        engagement=engagement,
        lead_error_ppm=inputs.lead_error_ppm,
        flanks=flanks,
    )
    return Answer(
        figures=tuple(_figures(inputs, shape, found, engagement, flanks, shop.unit)),
        notes=_notes(inputs, found, engagement),
    )


def _figures(
    inputs: ThreadFitInputs, shape: Form, found: Fit, engagement: float, flanks: float, unit: str
) -> list[Figure]:
    a, ppm = f"{shape.half_angle:g}°", inputs.lead_error_ppm
    in_lead = lead_effect(length=engagement, lead_error_ppm=ppm, half_angle=shape.half_angle)
    screw, nut, lead, angles, clearance, advance = (
        worked(size, unit)
        for size in (
            inputs.screw_pitch_diameter,
            inputs.nut_pitch_diameter,
            in_lead,
            flanks,
            found.clearance,
            float(inputs.size.lead),
        )
    )
    figures = [
        Figure(
            "state",
            "State",
            None,
            "text",
            _LEAD,
            f"functional screw {worked(found.functional_screw, unit)} "
            f"in functional nut {worked(found.functional_nut, unit)}",
            text=found.state,
        ),
        Figure(
            "diametral_clearance",
            "Clearance on pitch diameter",
            found.clearance,
            "length",
            _GEOMETRY,
            f"{nut} - {screw}",
        ),
        Figure(
            "functional_screw",
            "Screw as the nut feels it",
            found.functional_screw,
            "length",
            f"{_LEAD}; {_FLANK}",
            f"{screw} + {lead} + {angles}; the lead over the length {worked(engagement, unit)}, then the flanks",
        ),
        Figure(
            "functional_nut",
            "Nut as the screw feels it",
            found.functional_nut,
            "length",
            "as measured: the errors are counted on the screw",
            f"the pitch diameter {nut}",
        ),
    ]
    if found.clearance > 0:
        figures.insert(
            2,
            Figure(
                "axial_play",
                "Play along the axis",
                found.axial_play,
                "length",
                _GEOMETRY,
                f"{clearance} x tan {a}",
            ),
        )
    if found.turns_to_bind is not None and found.to_bind is not None:
        room = worked(max(0.0, found.clearance - flanks), unit)
        working = f"{room} x tan {a} ÷ ({abs(ppm):g} ÷ 1000000)"
        figures += [
            Figure(
                "turns_to_bind",
                "Turns until it binds",
                found.turns_to_bind,
                "ratio",
                _LEAD,
                f"{working} ÷ {advance}; the clearance left, and the lead last",
                decimals=1,
                side="down",
            ),
            Figure(
                "to_bind",
                "Length until it binds",
                found.to_bind,
                "length",
                _LEAD,
                f"{working}; the clearance left",
                decimals=1,
                side="down",
            ),
        ]
    return figures


def _notes(inputs: ThreadFitInputs, found: Fit, engagement: float) -> tuple[Note, ...]:
    notes = []
    sizes = limits(inputs.size)
    most, least = sizes.ext_pitch_max, sizes.int_pitch_min
    if most is not None and found.functional_screw > most + 1e-9:
        notes.append(
            Note(
                "info",
                f"A GO ring gauge of class {sizes.screw_class} would not pass the screw's whole length.",
            )
        )
    if least is not None and found.functional_nut < least - 1e-9:
        notes.append(Note("info", f"A GO plug gauge of class {sizes.nut_class} would not enter the nut."))
    if found.state == "binds" and found.turns_to_bind is not None:
        whole = engagement / float(inputs.size.lead)
        words = f"It goes on for {rounded(found.turns_to_bind, 1, 'down')} turns of the {whole:.1f}"
        notes.append(Note("warning", f"{words}, then binds: shorten the nut, or open it, or mend the lead."))
    if found.state == "will not start":
        words = (
            "The screw is as thick as the nut or thicker: measure both, then the flanks."
            if found.clearance <= 0
            else "The pitch diameters would pass, but the flanks take all the clearance: mend the thread's angle."
        )
        notes.append(Note("warning", words))
    return tuple(notes)


OPERATIONS = {
    "thread-fit": Operation(
        id="thread-fit",
        inputs=ThreadFitInputs,
        work=_thread_fit,
        hazards=("measuring", "deburring"),
        example={
            "size": "M10",
            "screw_pitch_diameter": "8.92",
            "nut_pitch_diameter": "9.08",
            "lead_error_ppm": "500",
        },
        help="Says whether a screw runs in its nut, how loose it is, and after how many turns it binds.",
    )
}
