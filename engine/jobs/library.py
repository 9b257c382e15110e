"""The recipes on the shelf: those that ship and the person's own; and putting a step into one of the latter."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.base.declare import asks, is_empty
from engine.base.files import Unreadable, parse_toml, read_written, write_safely
from engine.base.kinds import Ask
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.register import entry, load
from engine.jobs import recipe
from engine.jobs.counting import Counted, steps_of
from engine.shop.file import data_folder

if TYPE_CHECKING:
    from engine.base.answer import Answer
    from engine.jobs.schema import Recipe
    from engine.shop.model import Shop


@dataclass(frozen=True, slots=True)
class Listed:
    """A recipe as it is listed, or a part that ships: those have no `path`. `problem` says why a head cannot be read."""

    name: str
    path: Path | None
    title: str
    about: str
    problem: str = ""
    planned: bool = False  # a part file that ships: it becomes a recipe when it is planned for the shop


def own_folder() -> Path:
    """The folder of the person's own recipes, in the data folder (XDG Base Directory Specification 0.8); it may not exist.

    >>> own_folder().name
    'recipes'
    """
    return data_folder() / "recipes"


def own_text(path: Path) -> str:
    """The text of one of the person's own recipes; BadInput if it cannot be read."""
    try:
        return read_written(path)
    except Unreadable as error:
        raise recipe.unreadable(path, str(error)) from None


def shelf() -> tuple[Listed, ...]:
    """Return every recipe and every part that ships, those that ship first.

    >>> "height-adjuster-nut" in [one.name for one in shelf()]
    True
    """
    import recipes

    planned = [_listed_part(name, recipes.part_text(name)) for name in recipes.PARTS]
    shipped = [*planned, *(_listed(name, None, recipes.text(name)) for name in recipes.NAMES)]
    own = []
    folder = own_folder()
    for path in sorted(folder.glob("*.toml")) if folder.is_dir() else ():
        try:
            own.append(_listed(path.stem, path, read_written(path)))
        except Unreadable:
            own.append(Listed(path.stem, path, _plain(path.stem), "", "it cannot be read"))
    return (*shipped, *own)


def _listed(name: str, path: Path | None, text: str) -> Listed:
    """From the lines above the first step, so that listing stays quick."""
    head = text.split("[[steps]]", 1)[0]
    try:
        given = parse_toml("recipe", Path(name), head)
    except BadInput:
        given = {}
    title = given.get("title")
    if not isinstance(title, str):
        return Listed(_plain(name), path, _plain(name), "", "it has mistakes: `tommybar check` lists them")
    return Listed(_plain(name), path, _plain(title)[:80], _plain(str(given.get("about", "")))[:2000])


def _listed_part(name: str, text: str) -> Listed:
    """A part file that ships; of several parts the first one is named."""
    document = parse_toml("part file", Path(name), text)
    first = {**document, **document["part"][0]} if "part" in document else document
    return Listed(name, None, first["title"], first.get("about", ""), planned=True)


def _plain(text: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in " ".join(text.split()))


def open_recipe(name: str, shop: Shop | None = None) -> tuple[Recipe, str]:
    """Return a recipe of the shelf by its name, or any by the path of its file, with its text. A part that ships is
    planned for the shop (without one: the shop in use); BadInput, naming the feature, where there is no plan of it.

    >>> open_recipe("hight-adjuster-nut")
    Traceback (most recent call last):
    engine.base.refusals.BadInput: recipe: there is no 'hight-adjuster-nut'. Did you mean height-adjuster-nut?
    """
    import recipes

    if name in recipes.NAMES:
        text = recipes.text(name)
        return recipe.read(text, Path(f"{name}.toml")), text
    if name in recipes.PARTS:
        text = planned(recipes.part_text(name), shop)
        return recipe.read(text, Path(f"{name}.toml")), text
    own = {listed.name: listed.path for listed in shelf() if listed.path}
    if own.get(name):
        return recipe.read_file(own[name] or Path(name))
    if name.endswith(".toml"):
        return recipe.read_file(Path(name))
    ready = [*recipes.PARTS, *recipes.NAMES, *own]
    near = get_close_matches(name[:60], ready, n=1)
    hint = f" Did you mean {near[0]}?" if near else f" There are: {', '.join(ready)}."
    raise BadInput("recipe", name, "a recipe", f"recipe: there is no {name[:60]!a}.{hint}")


def planned(part_text: str, shop: Shop | None = None) -> str:
    """The recipe that a part file's text comes to in a shop; BadInput, naming the feature, where there is no plan."""
    from engine.part.file import read as read_part
    from engine.part.plan_recipe import as_recipe
    from engine.part.together import plan_all
    from engine.shop.file import load as load_shop

    return as_recipe(plan_all(read_part(part_text).parts, shop or load_shop(None)), part_text)


def new_text(title: str, unit: str) -> str:
    """Return the text of a new recipe, with one step to begin from.

    >>> new_text("Shim", "mm").splitlines()[1]
    'title = "Shim"'
    """
    import tomlkit

    from engine.jobs.schema import example

    document = tomlkit.document()
    for key, value in {**example(), "title": title, "unit": unit}.items():
        document[key] = value
    text = tomlkit.dumps(document)
    recipe.read(text, Path("new.toml"))
    return text


def with_step(
    text: str, operation: str, given: Mapping[str, str], *, unit: str, title: str = "", answer: Answer | None = None
) -> str:
    """Return a recipe's text with a step added at its end: an operation with its inputs as typed.

    `answer` is what it answers in this shop: what can be counted in it is counted, a dry run stands before the lines.

    >>> text = with_step(new_text("Shim", "inch"), "hand-dial", {"distance": "17.35"}, unit="mm")
    >>> text.splitlines()[-2:]
    ['[steps.inputs]', 'distance = "17.35 mm"']
    """
    import tomlkit

    path = Path("recipe.toml")
    before = recipe.read(text, path)
    questions = asks(load(operation).inputs)
    asked = {name: typed for name, typed in given.items() if name in questions and not is_empty(typed)}
    inputs = {name: _in_unit(name, questions[name], typed, unit, before.unit) for name, typed in asked.items()}
    document: Any = tomlkit.parse(text)
    taken = {one.id for one in before.steps}
    for counted in steps_of(answer) if answer else (Counted("", "{title}", (), {}),):
        step: Any = tomlkit.table()
        step["id"] = _fresh_id(f"{operation}{counted.suffix}", taken)
        step["title"] = counted.title.format(title=title or entry(operation).title)
        if counted.do:
            step["do"] = list(counted.do)
        step["operation"] = operation
        for name, value in counted.keys.items():
            step[name] = value
        if inputs:
            step["inputs"] = inputs
        document["steps"].append(step)
    after = tomlkit.dumps(document)
    recipe.read(after, path)
    return after


def _fresh_id(operation: str, taken: set[str]) -> str:
    names = (operation, *(f"{operation}-{number}" for number in range(2, len(taken) + 3)))
    return next(name for name in names if name not in taken)


def _in_unit(name: str, ask: Ask, typed: str, unit: str, other: str) -> str:
    """The same answer for a recipe of another unit: a bare number gets the unit it was typed in."""
    value = ask.read(name, typed, unit)
    if unit == other or ask.read(name, typed, other) == value:
        return typed
    again = ask.sort.with_unit(typed, ask, unit)
    try:
        same = bool(ask.read(name, again, other) == value)
    except BadInput:
        same = False
    if not same:
        text = f"{name}: write its unit beside it: this recipe is in {other}."
        raise BadInput(name, typed, "a value with its unit", text)
    return again


def save(path: Path, text: str) -> None:
    """Check a recipe and save it whole: BadFile where it has mistakes, and nothing is written then; BadInput where the disk
    refuses, and the old file is as it was.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     save(Path(folder, "shim.toml"), new_text("Shim", "mm"))
    ...     open_recipe(str(Path(folder, "shim.toml")))[0].title
    'Shim'
    """
    recipe.read(text, path)
    try:
        write_safely(path, text)
    except OSError as error:
        sentence = f"recipe: NOT SAVED: {path}: {error.strerror}."
        raise BadInput("recipe", path, "a file that can be written", sentence) from None
