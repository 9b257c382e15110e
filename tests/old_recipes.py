"""Recipes as earlier versions shipped them, written out step by step: they still open, and tests step through them."""

from __future__ import annotations

from pathlib import Path

from engine.jobs import recipe
from engine.jobs.library import own_folder

FOLDER = Path(__file__).parent / "data" / "recipes"
OLD = ("height-adjuster-nut", "height-adjuster-screw", "lock-knob", "hexagon-spacer", "bearing-flange")


def old_recipe(name):
    """A recipe with its text."""
    text = (FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    return recipe.read(text, Path(f"{name}.toml")), text


def put_on_the_shelf(name):
    """Make an old recipe one of the person's own, named as it was, and return its name there."""
    own_folder().mkdir(parents=True, exist_ok=True)
    (own_folder() / f"old-{name}.toml").write_text(old_recipe(name)[1], encoding="utf-8")
    return f"old-{name}"
