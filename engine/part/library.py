"""The part files that come with the program."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from engine.base.refusals import BadInput
from engine.part.file import read
from engine.part.part import PartFile


def shipped() -> tuple[str, ...]:
    """The names of the part files that come with the program.

    >>> "lock-knob" in shipped()
    True
    """
    folder = files("recipes").joinpath("parts")
    return tuple(sorted(one.name.removesuffix(".toml") for one in folder.iterdir() if one.name.endswith(".toml")))


def read_shipped(name: str) -> tuple[PartFile, str]:
    """Read a part file that comes with the program, and return it with its text; BadInput if there is none.

    >>> read_shipped("hexagon-spacer")[0].part.title
    'Hexagon spacer'
    """
    if name not in shipped():
        raise BadInput("part", name, f"one of {', '.join(shipped())}")
    text = files("recipes").joinpath("parts", f"{name}.toml").read_text(encoding="utf-8")
    return read(text, Path(f"{name}.toml")), text
