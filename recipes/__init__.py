"""Job plans that ship with the program: fittings for a woodworking router table. Data only; engine.jobs reads them."""

from importlib.resources import files

NAMES = ("height-adjuster-nut", "height-adjuster-screw", "lock-knob", "hexagon-spacer", "bearing-flange", "fence-scale")


def text(name: str) -> str:
    """The text of a recipe, by its name in NAMES."""
    return files("recipes").joinpath(f"{name}.toml").read_text(encoding="utf-8")
