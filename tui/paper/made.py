"""A card made and written: of a job, of a recipe or of a part's plan, in one of the formats."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from engine.base.files import Unreadable, parse_toml, read_written, stem_of
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import Text, in_words, write
from engine.jobs.card import Planned, card
from engine.jobs.progress import Progress
from engine.jobs.run import Worked, resolve
from engine.part.own import own_parts
from engine.part.sizes import with_mm
from engine.shop.model import Shop

if TYPE_CHECKING:
    from engine.jobs.schema import Recipe

Format = Literal["html", "pdf", "text"]
ENDINGS: dict[str, Format] = {".html": "html", ".htm": "html", ".pdf": "pdf", ".txt": "text", ".text": "text"}


@dataclass(frozen=True, slots=True)
class Asked:
    """How a card is wanted: its format, its unit, the paper of a PDF, and whether what stands behind it is added."""

    format: Format = "html"
    unit: str = "mm"
    paper: Literal["", "A4", "Letter"] = ""
    full: bool = False
    date: str = ""
    version: str = ""


@dataclass(frozen=True, slots=True)
class Source:
    """What a card is made from."""

    worked: Worked
    planned: Planned
    progress: Progress | None = None
    part: int = 1

    @property
    def name(self) -> str:
        """What a file of it is called, without its ending."""
        return self.worked.recipe.title + (f" {self.part}" if self.progress else "")


def stamp() -> tuple[str, str]:
    """Today's date and the program's version, as a card has them at its foot."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        known = version("tommybar")
    except PackageNotFoundError:  # run from its folder, not installed
        known = ""
    return date.today().strftime("%d %b %Y"), known


def file_name(title: str, kind: Format) -> str:
    """The file of a card where none is named.

    >>> file_name("Fence: stop/1", "text")
    'fence-stop-1.txt'
    """
    return f"{stem_of(title)}.{'txt' if kind == 'text' else kind}"


def of_job(number: int) -> Source:
    """A job under way, with its readings."""
    from engine.jobs import recipe
    from engine.jobs.journal import Journal

    journal = Journal()
    try:
        job = journal.open(number)
    finally:
        journal.close()
    plan = recipe.read(job.recipe_text, Path(job.recipe_name))
    ids = {number: step.id for number, step in enumerate(plan.steps, 1)}
    readings = {ids[step]: reading for step, reading in job.progress.standing.items() if step in ids}
    worked = resolve(plan, job.shop, told=job.progress.told, held=job.progress.held, readings=readings)
    return Source(worked, planned_of(worked), job.progress, job.part)


def of_name(name: str, shop: Shop) -> Source:
    """A recipe by its name or file, or the plan of a part by its file; a part of the person's own by its name too."""
    from engine.jobs.library import open_recipe, shelf

    kept = own_parts() / f"{name}.toml"
    own = kept.parent == own_parts() and kept.is_file() and name not in [one.name for one in shelf()]
    path = kept if own else Path(name)
    text = _part_text(str(path))
    plan = _recipe_of(text, shop, path) if text or own else open_recipe(name, shop)[0]
    worked = resolve(plan, shop)
    return Source(worked, planned_of(worked))


def written(source: Source, asked: Asked) -> bytes:
    """The card in the format that is asked for."""
    from engine.jobs.behind import behind

    shop = source.worked.shop
    words = shop.words_for(asked.unit)

    made = card(source.worked, source.planned, source.progress, source.part)
    both = made.words_in == "inch" and asked.unit == "mm"

    def say(text: Text) -> str:
        said = in_words(write(text, asked.unit), words)
        return with_mm(said) if both else said

    rest = behind(source.worked) if asked.full else None
    foot = f"{shop.name}, {asked.date}, Tommybar {asked.version}".rstrip()
    if asked.format == "text":
        from tui.paper.text import text

        return text(made, say, asked.unit, foot=foot, behind=rest).encode("ascii")
    from tui.paper.card_flow import fitted
    from tui.paper.flow import A4, BROWSER, LETTER

    if asked.format == "pdf":
        from tui.paper.full_flow import sides
        from tui.paper.pdf import as_pdf

        paper = LETTER if (asked.paper or ("Letter" if words == "american" else "A4")) == "Letter" else A4
        return as_pdf(sides(made, rest, say, asked.unit, paper, foot), paper, made.title)
    from tui.paper.html import page

    return page(made, say, asked.unit, size=fitted(made, say, asked.unit, BROWSER), foot=foot, behind=rest).encode()


def planned_of(worked: Worked) -> Planned:
    from engine.part.plan_card import planned

    return planned(worked.recipe.part_file, worked.shop, [step.step.id for step in worked.steps])


def _part_text(name: str) -> str:
    """The text of a part file; nothing where the file is none."""
    if not name.endswith(".toml"):
        return ""
    path = Path(name)
    try:
        text = read_written(path)
        return text if "part_version" in parse_toml("file", path, text) else ""
    except (Unreadable, BadInput):
        return ""  # the reader of recipes says it better


def _recipe_of(text: str, shop: Shop, path: Path) -> Recipe:
    """The plan of a part as the recipe that it is worked by."""
    from engine.jobs.recipe import read
    from engine.part.file import read as read_part
    from engine.part.plan_recipe import as_recipe
    from engine.part.together import plan_all

    return read(as_recipe(plan_all(read_part(text, path).parts, shop), text), path)
