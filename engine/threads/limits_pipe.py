"""Limits of pipe threads: G (parallel), R, Rp and Rc, and NPT (taper, at the gauge plane)."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.tables import rows
from engine.threads.limits_types import Limits
from engine.threads.thread import Thread
from engine.threads.tolerance import Classes

_ISO7 = "ISO 7-1:1994, at the gauge plane"
_FROM_MEMORY = f"{_ISO7} (tolerance from memory, agrees with its turns of thread)"


def _row(name: str, size: str) -> dict[str, str]:
    return next(row for row in rows(f"threads/{name}.csv") if row["size"] == size)


@dataclass(frozen=True, slots=True)
class Gauge:
    """The lengths of a taper pipe thread, in mm: where its diameters hold and how far they may shift.

    `length` is from the small end of the screw to the gauge plane, `shift` how far the plane may lie either way on
    the screw and `nut_shift` in the nut; `useful_length` is the full thread the screw needs.
    """

    length: float
    shift: float
    shift_turns: float
    nut_shift: float
    nut_shift_turns: float
    useful_length: float
    source: str


def gauge(thread: Thread) -> Gauge | None:
    """Return the gauging lengths of a taper pipe thread.

    Parameters
    ----------
    thread : Thread
        Any thread.

    Returns
    -------
    gauge : Gauge or None
        None for a thread that is not of a taper pipe family. [mm]

    Raises
    ------
    StopIteration
        Never: every such thread is in its table.

    Sources
    -------
    ISO 7-1:1994; ASME B1.20.1 (L1 tabulated, L2 = (0.80 D + 6.8) p, one turn either way from memory).

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> gauge(parse("R 1/2")).length
    8.2
    """
    if thread.family == "r":
        row = _row("iso7", thread.size)
        return Gauge(
            length=float(row["gauge_length"]),
            shift=float(row["t1"]),
            shift_turns=float(row["t1_turns"]),
            nut_shift=float(row["t2"]),
            nut_shift_turns=float(row["t2_turns"]),
            useful_length=float(row["useful_length"]),
            source="ISO 7-1:1994; tolerances from memory",
        )
    if thread.family == "npt":
        row = _row("npt", thread.size)
        pitch, outside = float(thread.pitch), float(row["outside"])
        useful = (0.8 * outside + 6.8) * pitch
        source = "ASME B1.20.1; one turn either way from memory"
        return Gauge(float(row["l1"]) * 25.4, pitch, 1.0, pitch, 1.0, useful, source)
    return None


def g_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the limits of a parallel pipe thread, screw of class A or B.

    Parameters
    ----------
    thread : Thread
        The thread.
    classes : Classes
        Classes asked for; None for the usual one.
    engagement : float or None
        Not used: these tolerances do not depend on it. [mm]

    Returns
    -------
    limits : Limits
        The limits. [mm]

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    ISO 228-1:2000 Table 1.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> found = g_limits(parse("G 1/4"), Classes(None, None), None)
    >>> found.ext_pitch_max, found.ext_pitch_min
    (12.301, 12.176)
    """
    row = {key: float(value) for key, value in _row("iso228", thread.size).items() if key != "size"}
    name = classes.screw or "A"
    major, pitch, minor = row["major"], row["pitch_diameter"], row["minor"]
    td2 = row["td2_a" if name == "A" else "td2_b"]
    return Limits(
        screw_class=name,
        nut_class="one class",
        major_basic=major,
        pitch_basic=pitch,
        minor_basic=minor,
        source="ISO 228-1:2000 Table 1",
        ext_major_max=major,
        ext_major_min=round(major - row["td"], 3),
        ext_pitch_max=pitch,
        ext_pitch_min=round(pitch - td2, 3),
        ext_minor_max=minor,
        int_minor_min=minor,
        int_minor_max=round(minor + row["td1_internal"], 3),
        int_pitch_min=pitch,
        int_pitch_max=round(pitch + row["td2_internal"], 3),
        int_major_min=major,
        allowance=0.0,
        working={
            "pitch_basic": "tabulated",
            "minor_basic": "tabulated",
            "ext_major_max": "basic size",
            "ext_major_min": f"basic - tolerance = {major:.3f} - {row['td']:.3f}",
            "ext_pitch_max": "basic size",
            "ext_pitch_min": f"basic - tolerance of class {name} = {pitch:.3f} - {td2:.3f}",
            "ext_minor_max": "basic size",
            "int_minor_min": "basic size",
            "int_minor_max": f"basic + tolerance = {minor:.3f} + {row['td1_internal']:.3f}",
            "int_pitch_min": "basic size",
            "int_pitch_max": f"basic + tolerance = {pitch:.3f} + {row['td2_internal']:.3f}",
            "int_major_min": "basic size",
            "allowance": "ISO 228-1 has none",
        },
    )


def r_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the sizes of a taper pipe thread at the gauge plane; the axial tolerance as a change of diameter.

    Parameters
    ----------
    thread : Thread
        The thread.
    classes : Classes
        Not used: there is one class.
    engagement : float or None
        Not used: these tolerances do not depend on it. [mm]

    Returns
    -------
    limits : Limits
        The limits. [mm]

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    ISO 7-1:1994; tolerances from memory.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> found = r_limits(parse("R 1/2"), Classes(None, None), None)
    >>> found.pitch_basic
    19.793
    """
    row = {key: float(value) for key, value in _row("iso7", thread.size).items() if key != "size"}
    major, pitch, minor = row["major"], row["pitch_diameter"], row["minor"]
    screw = row["t1"] / 16
    parallel = thread.series == "Rp"
    nut = row["rp_tolerance"] if parallel else row["t2"] / 16
    nut_sum = ("tolerance", f"{nut:.3f}") if parallel else ("T2 ÷ 16", f"{row['t2']:g} ÷ 16")
    working = {
        "pitch_basic": "tabulated",
        "minor_basic": "tabulated",
        **{
            f"{side}_{where}_{end}": f"basic {sign} {name} = {size:.3f} {sign} {sums}"
            for side, (name, sums) in (("ext", ("T1 ÷ 16", f"{row['t1']:g} ÷ 16")), ("int", nut_sum))
            for where, size in (("major", major), ("pitch", pitch), ("minor", minor))
            for end, sign in (("max", "+"), ("min", "-"))
        },
    }
    kind = "parallel nut, Rp" if parallel else "taper nut, Rc"
    return Limits(
        screw_class="R",
        nut_class="Rp" if parallel else "Rc",
        major_basic=major,
        pitch_basic=pitch,
        minor_basic=minor,
        source=_FROM_MEMORY,
        ext_major_max=major + screw,
        ext_major_min=major - screw,
        ext_pitch_max=pitch + screw,
        ext_pitch_min=pitch - screw,
        ext_minor_max=minor + screw,
        ext_minor_min=minor - screw,
        int_minor_min=minor - nut,
        int_minor_max=minor + nut,
        int_pitch_min=pitch - nut,
        int_pitch_max=pitch + nut,
        int_major_min=major - nut,
        notes=(
            f"taper screw 1 in 16, {kind}: diameters at the gauge plane, the tolerance is where the plane lies",
        ),
        working=working,
    )


def npt_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the sizes of an American taper pipe thread at the hand-tight plane, and the change of one turn.

    Parameters
    ----------
    thread : Thread
        The thread.
    classes : Classes
        Not used: there is one class.
    engagement : float or None
        Not used: these tolerances do not depend on it. [mm]

    Returns
    -------
    limits : Limits
        The limits. [mm]

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    ASME B1.20.1: E0 = D - (0.05 D + 1.1) p, E1 = E0 + L1/16; one turn either way from memory.

    Examples
    --------
    1/8: E1 0.37360 in (ASME B1.20.1).

    >>> from engine.threads.designation import parse
    >>> found = npt_limits(parse("1/8 NPT"), Classes(None, None), None)
    >>> round(found.pitch_basic / 25.4, 4)
    0.3736
    """
    lengths = gauge(thread)
    assert lengths is not None
    pitch = float(thread.pitch)
    small_end = thread.diameter - (0.05 * thread.diameter / 25.4 + 1.1) * pitch
    plane = small_end + lengths.length / 16
    turn = pitch / 16
    first, inch, rise = small_end / 25.4, pitch / 25.4, lengths.length / 25.4
    tight = f"{plane / 25.4:.5f}"
    return Limits(
        screw_class="NPT",
        nut_class="NPT",
        major_basic=plane + 0.8 * pitch,
        pitch_basic=plane,
        minor_basic=plane - 0.8 * pitch,
        source="ASME B1.20.1, at the hand-tight plane (one turn either way from memory)",
        ext_pitch_max=plane + turn,
        ext_pitch_min=plane - turn,
        int_pitch_min=plane - turn,
        int_pitch_max=plane + turn,
        notes=("taper 1 in 16: diameters at the hand-tight plane, where screw and nut meet by hand",),
        working={
            "pitch_basic": f"E1 = E0 + L1 ÷ 16 = {first:.5f} + {rise:.4f} ÷ 16 in; "
            f"E0 = D - (0.05 D + 1.1) p, D = {thread.diameter / 25.4:g}, p = {inch:.5f}",
            "major_basic": f"E1 + 0.8 p = {tight} + 0.8 x {inch:.5f} in",
            "minor_basic": f"E1 - 0.8 p = {tight} - 0.8 x {inch:.5f} in",
            **{
                f"{side}_pitch_{end}": f"E1 {sign} one turn, p ÷ 16 = {tight} {sign} {inch:.5f} ÷ 16 in"
                for side in ("ext", "int")
                for end, sign in (("max", "+"), ("min", "-"))
            },
        },
    )
