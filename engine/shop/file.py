"""Finding and reading the shop's file. The light reader here loads no Pydantic; a file that it refuses is read again
by engine.shop.problems, which lists every mistake with its line."""

from __future__ import annotations

import os
from functools import cache
from typing import TYPE_CHECKING

from engine.base.declare import as_typed, read
from engine.base.files import BadFile, Problem, Unreadable, parse_toml, read_written
from engine.base.refusals import BadInput
from engine.shop.model import Shop

if TYPE_CHECKING:
    from pathlib import Path

SAMPLES = ("metric", "inch")


def _folder(variable: str, otherwise: str) -> str:
    base = os.environ.get(variable, "")
    return os.path.join(base if os.path.isabs(base) else os.path.expanduser(otherwise), "tommybar")


# A first answer asks for names alone: a Path takes longer to load than the files to read.
def config_file(name: str) -> str:
    """The name of a file in the folder of `config_folder`."""
    return os.path.join(_folder("XDG_CONFIG_HOME", "~/.config"), name)


def data_file(name: str) -> str:
    """The name of a file in the folder of `data_folder`."""
    return os.path.join(_folder("XDG_DATA_HOME", "~/.local/share"), name)


def config_folder() -> Path:
    """The folder where this user's shop file belongs: `$XDG_CONFIG_HOME/tommybar`, else `~/.config/tommybar` (XDG Base
    Directory Specification 0.8). It may not exist.

    >>> config_folder().name
    'tommybar'
    """
    from pathlib import Path

    return Path(config_file(""))


def data_folder() -> Path:
    """The folder where this user's jobs are kept: `$XDG_DATA_HOME/tommybar`, else `~/.local/share/tommybar`. It may not
    exist.

    >>> data_folder().name
    'tommybar'
    """
    from pathlib import Path

    return Path(data_file(""))


def shop_path() -> Path:
    """Where this user's own shop file is, or would be.

    >>> shop_path().name
    'shop.toml'
    """
    return config_folder() / "shop.toml"


def parse(text: str, path: str | Path = "shop.toml") -> Shop:
    """Read a shop from the text of its file (TOML 1.0.0); BadFile has every mistake and its line, under the name of `path`.

    >>> parse('name = "Shed"').name
    'Shed'
    """
    given = parse_toml("shop file", path, text)
    unit = given.get("unit", "mm")
    try:
        return read(Shop, as_typed(given), unit=unit if unit in ("mm", "inch") else "mm")
    except BadInput as refusal:
        from pathlib import Path

        from engine.shop.problems import problems  # loads Pydantic: only for a file with a mistake in it

        found = problems(Path(path), text) or (Problem(os.path.basename(path), None, str(refusal)),)
        raise BadFile("shop file", path, found) from None


@cache
def sample(name: str) -> Shop:
    """Return a shop that ships with the program.

    >>> sample("metric").dividing_head.ratio, float(sample("inch").lathe.leadscrew)
    (40, 3.175)
    """
    with open(os.path.join(os.path.dirname(__file__), f"{name}.toml"), encoding="utf-8") as file:
        return parse(file.read())


def load(path: Path | None = None) -> Shop:
    """Return the shop in a file; without one, the user's own, else the metric sample.

    >>> from importlib.resources import files
    >>> load(files("engine.shop").joinpath("inch.toml")).unit
    'inch'
    """
    where = path or config_file("shop.toml")
    if path is None and not os.path.exists(where):
        return sample("metric")
    try:
        text = read_written(where)
    except Unreadable as error:
        problem = Problem(str(where), None, f"this cannot be read: {error}.")
        raise BadFile("shop file", where, (problem,)) from None
    return parse(text, where)
