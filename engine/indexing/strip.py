"""A scale unrolled at true size, as SVG: print it at 100 %, wrap it round the drum, check it or follow it by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from math import pi

_MARGIN = 8.0  # mm of paper round the strip
_GAUGE = 50.0  # mm, to check the printer by


@dataclass(frozen=True, slots=True)
class Mark:
    """One line of a scale: its length in mm, and what is written at it ("" for nothing)."""

    length: float
    label: str


def strip_svg(marks: Sequence[Mark], *, diameter: float, line_width: float, title: str) -> str:
    """Draw a scale unrolled, at true size, with a gauge line to check the printer by.

    Parameters
    ----------
    marks : sequence of Mark
        Every line in order, the first standing at the left edge; the edge on the right is the first line again.
    diameter : float
        Diameter of the drum. [mm]
    line_width : float
        Width of a line. [mm]
    title : str
        Written under the strip; any text, it is escaped.

    Returns
    -------
    svg : str
        A whole SVG document whose unit is the millimetre.

    Sources
    -------
    W3C Scalable Vector Graphics 1.1: width and height in mm with a viewBox of the same numbers print at true size.

    Examples
    --------
    >>> svg = strip_svg([Mark(4, "0"), Mark(2, "")], diameter=20, line_width=0.2, title="a < b")
    >>> 'width="78.832mm"' in svg, "a &lt; b" in svg
    (True, True)
    """
    round_length = pi * diameter
    tallest = max((mark.length for mark in marks), default=1.0)
    high = tallest + 4.0  # room for figures over the longest line
    width, height = max(round_length, _GAUGE) + 2 * _MARGIN, high + 2 * _MARGIN + 10
    foot = _MARGIN + high
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm" '
        f'viewBox="0 0 {width:.3f} {height:.3f}">',
        f"<title>{escape(title)}</title>",
        f'<rect x="{_MARGIN:.3f}" y="{_MARGIN:.3f}" width="{round_length:.3f}" height="{high:.3f}" '
        'fill="none" stroke="#000" stroke-width="0.1" stroke-dasharray="1 1"/>',
        f'<g stroke="#000" stroke-width="{line_width:.3f}">',
    ]
    places = [_MARGIN + round_length * i / len(marks) for i in range(len(marks))]
    parts += [
        f'<line x1="{x:.4f}" y1="{foot:.3f}" x2="{x:.4f}" y2="{foot - mark.length:.3f}"/>'
        for x, mark in zip(places, marks, strict=True)
    ]
    parts.append('</g><g font-family="sans-serif" font-size="2.5" text-anchor="middle">')
    parts += [
        f'<text x="{x:.3f}" y="{foot - mark.length - 0.8:.3f}">{escape(mark.label)}</text>'
        for x, mark in zip(places, marks, strict=True)
        if mark.label
    ]
    parts.append("</g>")
    gauge = foot + 5
    parts.append(
        f'<line x1="{_MARGIN:.3f}" y1="{gauge:.3f}" x2="{_MARGIN + _GAUGE:.3f}" y2="{gauge:.3f}" '
        'stroke="#000" stroke-width="0.2"/>'
    )
    parts.append(
        f'<text x="{_MARGIN:.3f}" y="{gauge + 4:.3f}" font-family="sans-serif" font-size="2.5">'
        f"{escape(title)}; round the drum {round_length:.2f} mm; the line above is {_GAUGE:g} mm</text></svg>"
    )
    return "\n".join(parts)
