"""Flats on round bar: squares, hexagons and any other count."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sqrt, tan

from engine.base.quantity import show
from engine.base.refusals import BadInput


@dataclass(frozen=True, slots=True)
class Flats:
    """A regular prism on round bar. Lengths in mm.

    `across_flats` is twice the distance from the axis to a flat (what a caliper spans when the count is even);
    `across_corners` is what the bar leaves of the corners; `flat_to_corner` is the span when the count is odd;
    `cut_depth` is taken from the touched top of the bar.
    """

    sides: int
    bar: float
    across_flats: float
    across_corners: float
    sharp_corners: float
    flat_to_corner: float
    flat_width: float
    cut_depth: float


def flats_on(
    *, sides: int, across_flats: float | None = None, bar: float | None = None, unit: str = "mm"
) -> Flats:
    """Sizes of flats: from the size wanted, from the bar, or from both.

    Parameters
    ----------
    sides : int
        How many flats, 2 or more.
    across_flats : float or None
        Size across the flats; None for the largest that the bar gives with sharp corners. [mm]
    bar : float or None
        Diameter of the bar; None for the smallest that leaves sharp corners. [mm]
    unit : str
        `mm` or `inch`: what a refusal is written in.

    Returns
    -------
    flats : Flats
        All sizes. [mm]

    Raises
    ------
    BadInput
        If neither size is given, or the flats would not cut the bar.

    Sources
    -------
    Geometry: across corners = across flats ÷ cos(180° ÷ sides). Hexagon 1.1547 and square 1.4142: handbook tables of
    distances across corners.

    Examples
    --------
    >>> f = flats_on(sides=6, across_flats=13)
    >>> f.across_corners, f.cut_depth
    (15.0111, 1.0056)
    """
    ratio = cos(pi / sides) if sides > 2 else 0.0
    if across_flats is None:
        if bar is None:
            raise BadInput(
                "across_flats", "", "a size across flats, or a bar's diameter",
                "across_flats: give the size across flats, or diameter (the bar's), or both.",
            )  # fmt: skip
        if sides == 2:
            raise BadInput(
                "across_flats",
                "",
                "a size",
                "across_flats: two flats need their size (such as across_flats=8).",
            )
        across_flats = bar * ratio
    elif bar is None:
        if sides == 2:
            raise BadInput(
                "diameter",
                "",
                "the bar's diameter",
                "diameter: two flats need the bar's diameter (such as diameter=10).",
            )
        bar = across_flats / ratio
    if across_flats >= bar:
        size, round_ = show(across_flats, "length", unit), show(bar, "length", unit)
        text = f"across_flats: {size} leaves nothing to cut on a bar of {round_}."
        raise BadInput("across_flats", size, f"less than the bar's {round_}", text)
    sharp = across_flats / ratio if ratio else float("inf")
    corners = min(sharp, bar)
    full = across_flats * tan(pi / sides) if sides > 2 else float("inf")
    width = min(full, sqrt(max(bar**2 - across_flats**2, 0.0)))
    return Flats(
        sides=sides,
        bar=bar,
        across_flats=across_flats,
        across_corners=corners,
        sharp_corners=sharp,
        flat_to_corner=(across_flats + corners) / 2,
        flat_width=width,
        cut_depth=(bar - across_flats) / 2,
    )
