"""The shell door `tommybar part FILE`: the plan of a part, to read, as JSON, as a recipe, and its drawing."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.base.records import dataclass, field
from engine.base.refusals import BadInput
from engine.shop.file import load as load_shop
from tui.saving import save
from tui.wording import speak_as_shop, spoken

if TYPE_CHECKING:
    from engine.base.answer import Shape
    from engine.part.part import Part
    from engine.part.plan import Plan

USAGE = "tommybar part FILE [--json] [--why] [-o RECIPE] [--svg DRAWING] [--dxf DRAWING] [--force] [--shop FILE]"


@dataclass
class _Line:
    path: Path = field(default_factory=Path)
    json: bool = False
    why: bool = False
    force: bool = False
    out: Path | None = None
    svg: Path | None = None
    dxf: Path | None = None
    shop: Path | None = None


def part(words: list[str]) -> int:
    """Plan every part of a file and print it; return the exit code."""
    line = _Line()
    try:
        line = _parse(words)
        speak_as_shop(line.shop)
        _written(line)
    except BadInput as refusal:
        for row in str(refusal).splitlines():
            print(_plain(spoken(row)), file=sys.stderr)
        if line.json:
            error = {"field": refusal.field, "given": str(refusal.given), "accepted": refusal.accepted}
            print(json.dumps({"error": error | {"text": str(refusal)}}, ensure_ascii=False, indent=2))
        return 2
    return 0


def _parse(words: list[str]) -> _Line:
    line, rest, files = _Line(json="--json" in words), iter(words), list[str]()
    for word in rest:
        if word in ("--json", "--why", "--force"):
            line.why, line.force = line.why or word == "--why", line.force or word == "--force"
        elif word in ("-o", "--out"):
            line.out = Path(next(rest, ""))
        elif word in ("--svg", "--dxf"):
            setattr(line, word[2:], Path(next(rest, "")))
        elif word == "--shop":
            line.shop = Path(next(rest, ""))
        elif word.startswith("--shop="):
            line.shop = Path(word[7:])
        elif word.startswith("-") and word != "-":
            raise BadInput("option", word, "--json, --why, -o FILE, --svg FILE, --dxf FILE, --force or --shop FILE")
        else:
            files.append(word)
    if len(files) != 1:
        raise BadInput("file", " ".join(files), "one file", f"file: name one part file: {USAGE}")
    line.path = Path(files[0])
    return line


def _written(line: _Line) -> None:
    from engine.part.file import read_file
    from engine.part.together import plan_all

    file, text = read_file(line.path)
    shop = load_shop(line.shop)
    plans = list(plan_all(file.parts, shop))
    if line.svg is not None:
        save(line.svg, _file(file.parts), door="part", force=line.force)
    if line.dxf is not None:
        save(line.dxf, _dxf(file.parts), door="part", force=line.force)
    if line.out is not None:
        save(line.out, _recipe(plans, text), door="part", force=line.force)
    if "-" in map(str, (line.svg, line.dxf, line.out)):
        return  # standard output is taken
    print(json.dumps(_json(plans), ensure_ascii=False, indent=2) if line.json else _text(plans, line.why))


def _json(plans: list[Plan]) -> dict[str, Any]:
    """One part as itself; several from one bar under `parts`, the first one's keys beside them, and their one order."""
    from engine.part.plan_json import as_json, together_json

    found = [as_json(plan) | {"drawing": _drawing(plan.part)} for plan in plans]
    return found[0] if len(found) == 1 else found[0] | {"parts": found, "together": together_json(plans)}


def _text(plans: list[Plan], why: bool) -> str:
    from engine.part.plan_text import as_text

    return "\n".join(_plain(spoken(row)) for row in as_text(plans, why=why))


def _drawing(one: Part) -> str:
    from engine.jobs.svg import svg
    from engine.part.drawing import drawing

    return spoken("\n".join(svg(drawing(one), one.unit)))


def _file(parts: Sequence[Part]) -> str:
    from engine.jobs.svg import drawing_file
    from engine.part.drawing import drawing

    return spoken(drawing_file([drawing(one) for one in parts], parts[0].unit))


def _dxf(parts: Sequence[Part]) -> str:
    """The parts' sections one under the other, without hatching."""
    from engine.base.answer import Line
    from engine.base.outlines import moved
    from engine.jobs.dxf import dxf
    from engine.part.drawing import Frame, section

    shapes: list[Shape] = []
    down = 0.0
    for one in parts:
        down -= one.largest
        shapes += [moved(shape, down) for shape in section(one, Frame(1.0, 1.0), hatched=False)]
        shapes.append(Line(-0.1 * one.overall, down, 1.1 * one.overall, down, 2))
        down -= one.largest
    return dxf(shapes, parts[0].unit)


def _recipe(plans: list[Plan], text: str) -> str:
    from engine.part.plan_recipe import as_recipe

    return as_recipe(plans, text)


def _plain(text: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in text)
