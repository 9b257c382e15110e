"""A slot in a round bar: what the round of the bar does to it, and how deep each pass may go."""

from __future__ import annotations

from math import ceil, sqrt

from engine.base.refusals import OutOfRange, check_range
from engine.base.tables import rows
from engine.cutting.deflection import deflection, second_moment
from engine.cutting.forces import milling_load
from engine.cutting.materials import Material

BEND_ALLOWED = 0.01  # mm at the tip of the cutter: common practice
EFFECTIVE = 0.8  # of its diameter bends like a round bar, as the flutes are cut away: common practice
MOST_PASSES = 100  # down one line; beyond it the cutter is the wrong one
MODULUS = {"hss": 210_000.0, "carbide": 600_000.0}  # MPa; carbide 550 to 650 GPa, from memory, unconfirmed


def crown(*, diameter: float, width: float) -> float:
    """Return how far the edges of a slot lie below the top of a round bar.

    diameter: Of the bar, above 0. [mm]
    width: Of the slot, 0 to the diameter. [mm]
    Returns: (D - square root of (D^2 - W^2)) / 2. [mm]
    Raises: OutOfRange if the slot is wider than the bar.
    Source: Geometry of the circle; the chord height A of keyway tables.

    Shaft 1 in, key 1/4 in: 0.0159 in (ASME B17.1, from memory: keyseat 0.859 in = 1 - 0.125 - 0.016).

    >>> crown(diameter=25.4, width=6.35) / 25.4
    0.0159
    """
    check_range("width", width, low=0, high=diameter, unit="mm")
    return (diameter - sqrt(diameter**2 - width**2)) / 2


def depth_share(material: Material) -> float:
    """Return the depth of a pass over the cutter's diameter that a light mill bears.

    material: What is slotted.
    Returns: Depth over diameter. [-]
    Source: A college's design tables (half a diameter at most); the lower figures common practice, no source.

    >>> from engine.cutting.materials import find
    >>> depth_share(find("mild steel")), depth_share(find("free-cutting brass"))
    (0.25, 0.5)
    """
    table = {row["group"]: float(row["share"]) for row in rows("slotting/depth_rules.csv")}
    return table.get(material.group, table["other"])


def tip_deflection(
    *,
    material: Material,
    cutter: float,
    width: float,
    depth: float,
    feed: float,
    teeth: int,
    flute_length: float,
    made_of: str,
) -> float:
    """Return how far a cut bends the tip of a cutter.

    material: What is cut.
    cutter, width, depth, feed: Diameter of the cutter, width (up to that) and depth of the cut, feed a tooth. [mm]
    teeth: Teeth of the cutter.
    flute_length: Length that bends. [mm]
    made_of: `hss` or `carbide`.
    Returns: At the tip, under the largest force on one tooth. [mm]
    Raises: OutOfRange if a number lies outside its range.
    Source: The power law of cutting force and beam theory; 0.8 of the diameter bends: common practice, no source.

    >>> from engine.cutting.materials import find
    >>> at = dict(material=find("mild steel"), cutter=1.5, width=1.5, depth=0.375, feed=0.012, teeth=2)
    >>> tip_deflection(flute_length=4.5, made_of="carbide", **at)
    0.008
    """
    load = milling_load(material=material, cutter=cutter, width=width, depth=depth, feed=feed, teeth=teeth, speed=1.0)
    return deflection(
        force=load.tooth_force, length=flute_length, modulus=MODULUS[made_of], moment=second_moment(EFFECTIVE * cutter)
    )


def step_for(*, share_depth: float, bend_at_share: float) -> float:
    """Return the depth of a pass: what the material allows, less if the cutter would bend too far.

    >>> step_for(share_depth=0.5, bend_at_share=0.02)
    0.25
    """
    check_range("share_depth", share_depth, low=1e-9, unit="mm")
    return share_depth * min(1.0, BEND_ALLOWED / bend_at_share) if bend_at_share > 0 else share_depth


def pass_depths(*, depth: float, step: float) -> tuple[float, ...]:
    """Split a depth into equal passes none of which is deeper than a step.

    >>> pass_depths(depth=1.0, step=0.4)
    (0.3333, 0.6667, 1.0)
    """
    check_range("depth", depth, low=1e-9, unit="mm")
    check_range("step", step, low=1e-9, unit="mm")
    passes = ceil(depth / step - 1e-9)
    if passes > MOST_PASSES:
        raise OutOfRange("step", step, depth / MOST_PASSES, None, "mm", f"at most {MOST_PASSES} passes")
    return (*(depth * k / passes for k in range(1, passes)), depth)  # a last product may be a hair off the depth
