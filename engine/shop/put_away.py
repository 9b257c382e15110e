"""Parts of the shop that were taken out, kept beside the shop file as they were, so that putting them back loses
nothing."""

from __future__ import annotations

from pathlib import Path

import tomlkit

from engine.base.files import Place, Unreadable, parse_toml, read_written, write_safely
from engine.base.refusals import BadInput


def _beside(shop_file: Path) -> Path:
    return shop_file.with_name(f"{shop_file.stem}-put-away.toml")


def _key(place: Place, unit: str) -> str:
    """A part of an inch bench is none of a metric one: its bare numbers would be read otherwise."""
    return f"{unit} {'.'.join(map(str, place))}"


def _all(shop_file: Path) -> dict[str, str]:
    """Everything that is put away; nothing where the file is not there or is broken."""
    path = _beside(shop_file)
    try:
        found = parse_toml("file", path, read_written(path)) if path.exists() else {}
    except (Unreadable, BadInput):
        return {}
    return {name: text for name, text in found.items() if isinstance(text, str)}


def keep(shop_file: Path, place: Place, unit: str, part: str) -> None:
    """Put a part away; OSError if it cannot be written."""
    if part:
        write_safely(_beside(shop_file), tomlkit.dumps(_all(shop_file) | {_key(place, unit): part}))


def kept(shop_file: Path, place: Place, unit: str) -> str:
    """A part that was put away, as text; "" if there is none."""
    return _all(shop_file).get(_key(place, unit), "")
