"""Jobs that ship with the program: fittings for a woodworking router table. Data only; engine.jobs reads them.

What the part language can say is a part file, planned for the shop it is made in; the rest is a recipe.
"""

from importlib.resources import files

PARTS = ("height-adjuster-nut", "lock-nut", "height-adjuster-screw", "lock-knob", "hexagon-spacer", "bearing-flange")
NAMES = ("fence-scale",)


def text(name: str) -> str:
    """The text of a recipe, by its name in NAMES."""
    return files("recipes").joinpath(f"{name}.toml").read_text(encoding="utf-8")


def part_text(name: str) -> str:
    """The text of a part file, by its name in PARTS."""
    return files("recipes").joinpath("parts", f"{name}.toml").read_text(encoding="utf-8")
