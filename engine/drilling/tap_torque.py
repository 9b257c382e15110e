"""What turns a tap: torque by the hole as it was drilled."""

from __future__ import annotations

from functools import cache
from math import radians, tan
from typing import Literal

from engine.base.records import dataclass
from engine.base.tables import rows
from engine.base.words import Said, Shown, Text, own, put, say
from engine.cutting.forces import specific_force, tapping_torque
from engine.cutting.materials import Material
from engine.threads.form import form
from engine.threads.thread import Thread

Lead = Literal["plug", "bottoming", "spiral flute", "spiral point"]  # of the catalogue; threads of their leads below
_LEADS: dict[Lead, str] = {"plug": "5", "bottoming": "1.5", "spiral flute": "2.5", "spiral point": "5"}
_TAP_CHIP = 0.1  # mm: chip at which the older formula's specific force is meant
_CAST = ("cast_iron", "aluminium")
_BRASS = ("brass", "bronze", "copper")


@dataclass(frozen=True, slots=True)
class TapTorque:
    """Torque of a sharp cutting tap in N·m, and how it comes about."""

    value: float
    working: Said
    source: str


@cache
def _forces() -> dict[str, tuple[float, str]]:
    return {row["material"]: (float(row["kc"]), row["row"]) for row in rows("drilling/tapping_kc.csv")}


def _factor(material: Material, thread: Thread, lead: Lead) -> float:
    """The catalogue's factor K of a tap."""
    group = "cast" if material.group in _CAST else "brass" if material.group in _BRASS else "steel"
    pitch = "coarse" if thread.series in ("coarse", "UNC", "BSW") else "fine"
    return next(
        float(row[pitch]) for row in rows("drilling/tapping_k.csv") if (row["group"], row["tap"]) == (group, lead)
    )


def lead_of(name: str) -> Lead:
    """The catalogue's tap for one of a shop's: those of longer leads, and one that is not named, are its plug.

    >>> lead_of("taper"), lead_of("spiral flute")
    ('plug', 'spiral flute')
    """
    known: dict[str, Lead] = {"bottoming": "bottoming", "spiral flute": "spiral flute", "spiral point": "spiral point"}
    return known.get(name, "plug")


def torque_of(*, kc: float, k: float, diameter: float, hole: float, half_angle: float = 30.0) -> float:
    """Torque of a cutting tap in a hole.

    kc: The catalogue's specific force, which belongs to this formula alone. [MPa]
    k: Its factor of the tap. [-]
    diameter: Major diameter. [mm]
    hole: Diameter of the hole, less than the major diameter. [mm]
    half_angle: Angle of a flank. [deg]
    Returns: tan(half angle) kc K (D - Do)² (D + 2 Do) / 24000. [N·m]
    Source: A tap maker's catalogue, page on tapping torque (editions of 2016 and 2021, 60 degree threads); other angles
        derived from it. A blunt tap, or a long thread without oil, may ask for twice as much (common practice).

    M10 in C45 at 8.5 mm.

    >>> round(torque_of(kc=3900, k=1.35, diameter=10, hole=8.5), 2)
    7.69
    """
    return tan(radians(half_angle)) * kc * k * (diameter - hole) ** 2 * (diameter + 2 * hole) / 24000


def tap_torque(*, thread: Thread, material: Material, hole: float, lead: Lead, forming: float = 1.0) -> TapTorque:
    """Torque of a cutting tap for a thread: by its hole where the catalogue reaches, else by the older formula.

    thread: Any thread; the catalogue's formula is for parallel V forms.
    material: What is tapped; plastics and titanium have no row in the catalogue.
    hole: Diameter of the hole. [mm]
    lead: The catalogue's name for the tap.
    forming: How many times as much a forming tap asks for in its own hole, 1 for a cutting tap. [-]
    Returns: An estimate for a sharp tap, times its starts. [N·m]
    Source: As for `torque_of`; else kc P² D / 8000, a tap maker's formula fixed at some 77 % of thread.

    >>> from engine.cutting.materials import find
    >>> from engine.threads.designation import parse
    >>> steel, thread = find("mild steel"), parse("M10")
    >>> [round(tap_torque(thread=thread, material=steel, hole=d, lead="plug").value, 2) for d in (8.4, 8.6)]
    [8.25, 6.41]
    """
    known = _forces().get(material.name)
    more = f" x {thread.starts} starts" if thread.starts > 1 else ""
    times: Text = more
    if forming != 1:
        times = say("{more} x {n} for forming (two to three times)", more=more, n=_metric(forming, "ratio"))
    many = thread.starts * forming
    if known is None or not thread.kind.charted or thread.taper:
        return _older(thread, material, many, times)
    kc, row = known
    k, half = _factor(material, thread, lead), form(thread).half_angle
    value = torque_of(kc=kc, k=k, diameter=thread.diameter, hole=hole, half_angle=half) * many
    working = say("tan {half}° x {kc} N/mm² x {k} x ({d} mm - {hole} mm)² x ({d} mm + 2 x {hole} mm) ÷ 24000{times} = "
        "{m} N·m", half=_metric(half, "ratio"), kc=_metric(kc, "ratio"), k=_metric(k, "ratio"),
        d=_metric(thread.diameter), hole=_metric(hole), times=times, m=_metric(value, "torque"))  # fmt: skip
    source = f"a tap maker's catalogue, kc {row}, sharp {lead} tap of some {_LEADS[lead]} threads"
    return TapTorque(value, working, source)


def _older(thread: Thread, material: Material, many: float, times: Text) -> TapTorque:
    kc, pitch = specific_force(material, _TAP_CHIP), float(thread.pitch)
    value = tapping_torque(specific=kc, diameter=thread.diameter, pitch=pitch) * many
    working = say("kc {kc} N/mm² x ({p} mm)² x {d} mm ÷ 8000{times} = {m} N·m", kc=_metric(kc, "stress"),
        p=_metric(pitch), d=_metric(thread.diameter), times=times, m=_metric(value, "torque"))  # fmt: skip
    return TapTorque(value, working, "a tap maker's formula, kc P² D ÷ 8000; an estimate for a sharp tap")


def _metric(value: float, dimension: str = "length") -> Shown:
    return own(put(value, dimension), "mm")
