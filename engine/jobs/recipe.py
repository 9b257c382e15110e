"""Reading a recipe: everything wrong with it at once, each mistake with its line. Old versions are read as new ones."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.base import files
from engine.base.declare import as_typed, asks
from engine.base.declare import read as declared
from engine.base.files import BadFile, Place, Problem, place_name
from engine.base.refusals import BadInput, did_you_mean
from engine.base.register import load
from engine.jobs.pieces import expanded
from engine.jobs.wording import SIZES, named_figures

if TYPE_CHECKING:
    from engine.jobs.schema import Recipe

_NO_FIGURES = "this step has no operation, so it has no figures."


def read(text: str, path: Path) -> Recipe:
    """Read a recipe from its text (TOML 1.0.0), checked in everything that can be known without a shop. BadFile has every
    problem found, in the order of their lines, under the name of `path`.

    >>> text = 'schema_version = 2\\ntitle = "Shim"\\npart = "Shim"\\nstock = "Brass"\\nabout = ""\\nunit = "mm"\\n'
    >>> read(text + '[[steps]]\\nid = "saw"\\ntitle = "Saw it off"', Path("shim.toml")).steps[0].title
    'Saw it off'
    >>> read(text + '[[steps]]\\nid = "saw"\\ntitel = "Saw it off"', Path("shim.toml"))
    Traceback (most recent call last):
    engine.base.files.BadFile: shim.toml:7: steps.1.title: this is needed and is not there.
    shim.toml:9: steps.1.titel: this is not a key of a recipe. Did you mean 'title'?
    """
    from pydantic import ValidationError

    from engine.jobs import schema

    given = files.parse_toml("recipe", path, text)
    lines = files.line_numbers(text)
    document = _migrated(given, path, lines)
    found: list[Problem] = []
    recipe = None
    try:
        recipe = schema.Recipe.model_validate(document)
    except ValidationError as error:
        known = {key for keys in schema.keys().values() for key in keys}
        found.extend(
            files.problems_of(error, file=path.name, lines=lines, known=sorted(known), what="a key of a recipe")
        )
    found.extend(_step_problems(document, path.name, lines, schema.MOST_STEPS))
    if found or recipe is None:
        raise BadFile("recipe", path, files.few(found, path.name))
    try:
        return expanded(recipe)
    except BadInput as refusal:
        raise BadFile("recipe", path, (Problem(path.name, lines.get(("make",)), str(refusal)),)) from None


def read_file(path: Path) -> tuple[Recipe, str]:
    """Read a recipe from a file, and return it with its text.

    >>> read_file(Path("/no/such.toml"))
    Traceback (most recent call last):
    engine.base.refusals.BadInput: recipe: such.toml cannot be read: No such file or directory.
    """
    try:
        text = files.read_written(path)
    except files.Unreadable as error:
        raise unreadable(path, str(error)) from None
    return read(text, path), text


def unreadable(path: Path, reason: str) -> BadInput:
    """The refusal of a file that cannot be read."""
    name = place_name((path.name,))
    return BadInput("recipe", path, "a recipe file", f"recipe: {name} cannot be read: {reason}.")


def _from_version_1(document: dict[str, Any]) -> dict[str, Any]:
    """Version 1 wrote what to do as one text, with a line break between two things."""

    def renewed(step: object) -> object:
        if isinstance(step, dict) and isinstance(step.get("do"), str):
            return {**step, "do": [line for line in step["do"].splitlines() if line.strip()]}
        return step

    steps = document.get("steps")
    renewed_steps = [renewed(step) for step in steps] if isinstance(steps, list) else steps
    return {**document, "schema_version": 2, "steps": renewed_steps}


def _from_version_2(document: dict[str, Any]) -> dict[str, Any]:
    """Version 3 only adds: set-ups, named sizes, counts by hand, how often a step is done, reasons."""
    return {**document, "schema_version": 3}


_MIGRATIONS = {1: _from_version_1, 2: _from_version_2}


def _migrated(document: dict[str, Any], path: Path, lines: Mapping[Place, int]) -> dict[str, Any]:
    from engine.jobs.schema import SCHEMA_VERSION

    version = document.get("schema_version")
    if isinstance(version, int) and not isinstance(version, bool):
        if version > SCHEMA_VERSION:
            text = f"schema_version: this recipe is of version {version}; this program reads up to {SCHEMA_VERSION}. "
            text += "A newer program is needed."
            raise BadFile("recipe", path, (Problem(path.name, lines.get(("schema_version",)), text),))
        while version in _MIGRATIONS:
            document = _MIGRATIONS[version](document)
            version = document["schema_version"]
    return document


def _step_problems(document: Mapping[str, Any], file: str, lines: Mapping[Place, int], most: int) -> list[Problem]:
    """What the operations and the other steps have to say about each step."""
    steps = document.get("steps")
    checker = _Checker(file, lines, document)
    checker.stock(document.get("stock"))
    if steps == []:
        checker.say(("steps",), "a recipe has at least one step.")
    for index, step in enumerate(steps[:most] if isinstance(steps, list) else ()):
        if isinstance(step, Mapping):
            checker.step(("steps", index), step)
    return checker.problems


class _Checker:
    """Walks the steps in order and remembers which steps came before."""

    def __init__(self, file: str, lines: Mapping[Place, int], document: Mapping[str, Any]) -> None:
        self.file, self.lines = file, lines
        unit, sizes, set_ups = (document.get(key) for key in ("unit", "sizes", "set_ups"))
        self.unit = unit if unit in ("mm", "inch") else "mm"
        self.sizes = sizes if isinstance(sizes, Mapping) else {}
        self.set_ups = len(set_ups) if isinstance(set_ups, list) else 0
        self.problems: list[Problem] = []
        self.earlier: dict[str, bool] = {}  # id to whether the step has figures

    def say(self, place: Place, text: str) -> None:
        line = next((self.lines[place[:n]] for n in range(len(place), 0, -1) if place[:n] in self.lines), None)
        self.problems.append(Problem(self.file, line, f"{place_name(place)}: {text}"))

    def stock(self, line: object) -> None:
        for named in named_figures(line) if isinstance(line, str) else ():
            if named.step == SIZES:
                self.size(("stock",), named.figure)

    def step(self, place: Place, step: Mapping[str, Any]) -> None:
        operation = step.get("operation")
        if isinstance(operation, str):
            self.operation(place, step, operation)
        else:
            self.counts((*place, "counts"), step.get("counts"))
            for key in ("inputs", "count"):
                if step.get(key):
                    self.say((*place, key), "only a step with an operation has this.")
        self.held((*place, "set_up"), step.get("set_up"))
        self.words((*place, "do"), step.get("do"), has_figures=isinstance(operation, str))
        self.large((*place, "large"), step, has_figures=isinstance(operation, str))
        self.hazards((*place, "hazards"), step.get("hazards"))
        self.set_up((*place, "set_up"), step.get("set_up"))
        self.measure((*place, "measure"), step.get("measure"), has_figures=isinstance(operation, str))
        self.remember(place, step, isinstance(operation, str))

    def held(self, place: Place, index: object) -> None:
        if isinstance(index, int) and not isinstance(index, bool) and index >= self.set_ups:
            self.say(place, f"there are {self.set_ups} set-ups, counted from 0: set_up {index} is none of them.")

    def counts(self, place: Place, counts: object) -> None:
        if isinstance(counts, Mapping) and isinstance(counts.get("noun"), str) and not counts["noun"].strip():
            self.say((*place, "noun"), "what is counted needs a name, such as turn.")
        rows = counts.get("rows") if isinstance(counts, Mapping) else None
        if isinstance(rows, Mapping) and isinstance(rows.get("from"), str):
            self.reference((*place, "rows"), rows["from"])

    def hazards(self, place: Place, hazards: object) -> None:
        from engine.safety.hazards import every_hazard

        for hazard in hazards if isinstance(hazards, list) else ():
            if isinstance(hazard, str) and hazard not in every_hazard():
                hint = did_you_mean(hazard, every_hazard(), f" There are: {', '.join(every_hazard())}.")
                self.say(place, f"there is no kind of work {hazard[:40]!a}.{hint}")

    def set_up(self, place: Place, given: object) -> None:
        from engine.set_up import SetUp

        if isinstance(given, Mapping):
            try:
                declared(SetUp, as_typed(given), unit=self.unit)
            except BadInput as refusal:
                self.say((*place, refusal.field), str(refusal).partition(": ")[2] or str(refusal))

    def remember(self, place: Place, step: Mapping[str, Any], has_figures: bool) -> None:
        name = step.get("id")
        if isinstance(name, str):
            if name in self.earlier:
                self.say((*place, "id"), f"an earlier step is already called {name[:40]!a}.")
            self.earlier[name] = has_figures

    def operation(self, place: Place, step: Mapping[str, Any], operation: str) -> None:
        try:
            declared = load(operation).inputs
        except BadInput as refusal:
            self.say((*place, "operation"), str(refusal).removeprefix("operation: "))
            return
        inputs = step.get("inputs", {})
        if not isinstance(inputs, Mapping):
            return
        taken = {name: value for name, value in inputs.items() if isinstance(value, Mapping)}
        self.inputs((*place, "inputs"), inputs, taken, declared, operation)
        for name, value in taken.items():
            if isinstance(value.get("from"), str):
                self.reference((*place, "inputs", name), value["from"])
            elif isinstance(value.get("size"), str):
                self.size((*place, "inputs", name), value["size"])

    def inputs(
        self, place: Place, inputs: Mapping[str, Any], taken: Mapping[str, Any], declared: type, operation: str
    ) -> None:
        from pydantic import ValidationError

        from engine.base.models import model_of

        typed = {str(name): None if name in taken else as_typed(value) for name, value in inputs.items()}
        try:
            model_of(declared).model_validate(typed, context={"unit": self.unit})
        except ValidationError as error:
            known, what = asks(declared), f"an input of {operation}"
            self.problems += files.problems_of(
                error, file=self.file, lines=self.lines, known=known, what=what, under=place, elsewhere=taken
            )

    def words(self, place: Place, lines: object, *, has_figures: bool) -> None:
        for line in lines if isinstance(lines, list) else ():
            for named in named_figures(line) if isinstance(line, str) else ():
                if named.step == SIZES:
                    self.size(place, named.figure)
                elif named.step:
                    self.reference(place, named.step)
                elif not has_figures:
                    self.say(place, _NO_FIGURES)

    def large(self, place: Place, step: Mapping[str, Any], *, has_figures: bool) -> None:
        wanted = step.get("large")
        if wanted == "limits" and not isinstance(step.get("measure"), Mapping):
            self.say(place, "this step is not measured, so it has no limits.")
        elif isinstance(wanted, str) and wanted != "limits" and not has_figures:
            self.say(place, _NO_FIGURES)

    def size(self, place: Place, name: str) -> None:
        if name not in self.sizes:
            self.say(place, f"the recipe has no size {name[:40]!a} under [sizes].{did_you_mean(name, self.sizes)}")

    def reference(self, place: Place, step: str) -> None:
        if self.earlier.get(step):
            return
        if step in self.earlier:
            self.say(place, f"step {step!a} is done by hand and has no figures.")
            return
        self.say(place, f"there is no earlier step {step[:40]!a}.{did_you_mean(step, self.earlier)}")

    def measure(self, place: Place, measure: object, *, has_figures: bool) -> None:
        if not isinstance(measure, Mapping):
            return
        if measure.get("figure") is None and measure.get("low") is None and measure.get("high") is None:
            self.say(place, "this needs a figure, or a low or a high limit, to judge by.")
        if measure.get("figure") is not None and "from" not in measure and not has_figures:
            self.say((*place, "figure"), _NO_FIGURES)
        if isinstance(measure.get("from"), str):
            self.reference((*place, "from"), measure["from"])
        if isinstance(measure.get("size"), str):
            self.size((*place, "size"), measure["size"])
        for key in ("low", "high", "within"):
            self.limit((*place, key), measure.get(key), has_figures)

    def limit(self, place: Place, value: object, has_figures: bool) -> None:
        from engine.base.kinds import Ask

        if isinstance(value, Mapping):
            if isinstance(value.get("size"), str):
                self.size(place, value["size"])
            elif isinstance(value.get("from"), str):
                self.reference(place, value["from"])
            elif not has_figures:
                self.say(place, _NO_FIGURES)
        elif value is not None:
            ask = Ask("Limit", "length", "", "2.5", True, low=0.0, high=1e5, dimension="length")
            try:
                ask.read(str(place[-1]), as_typed(value), self.unit)
            except BadInput as refusal:
                self.say(place, str(refusal).removeprefix(f"{place[-1]}: "))
