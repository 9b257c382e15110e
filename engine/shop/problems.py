"""Every mistake of a shop file at once, each with its line. Loads Pydantic, so only a refused file comes here."""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from engine.base.declare import as_typed, asks
from engine.base.files import Problem, line_numbers, parse_toml, problems_of
from engine.base.models import model_of
from engine.shop.model import Shop


def _known(model: type) -> set[str]:
    found: set[str] = set()
    for name, ask in asks(model).items():
        found.add(name)
        if ask.part is not None:
            found |= _known(ask.part)
    return found


def problems(path: Path, text: str) -> tuple[Problem, ...]:
    """Return every mistake in the text of a shop file.

    >>> for problem in problems(Path("shop.toml"), 'unit = "mm"\\n\\n[rotary_table]\\nratoi = 90\\n'):
    ...     print(problem)
    shop.toml:3: rotary_table.ratio: this is needed and is not there.
    shop.toml:4: rotary_table.ratoi: this is not a key of the shop file. Did you mean 'ratio'?
    """
    given = parse_toml("shop file", path, text)
    unit = given.get("unit") if given.get("unit") in ("mm", "inch") else "mm"
    try:
        model_of(Shop).model_validate(as_typed(given), context={"unit": unit})
    except ValidationError as error:
        return problems_of(
            error, file=path.name, lines=line_numbers(text), known=sorted(_known(Shop)), what="a key of the shop file"
        )
    return ()
