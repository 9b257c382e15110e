"""The declared inputs as Pydantic models: they find every mistake of a written file at once, each with its place.

Pydantic is imported when a file is checked, never before the first answer is on the screen. The readers of the fields
are those of engine.base.declare, so a value is read in one way only.
"""

from __future__ import annotations

from functools import cache
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, ValidationInfo, create_model

from engine.base.declare import asks, is_empty
from engine.base.kinds import Ask
from engine.base.refusals import BadInput


def _reader(name: str, ask: Ask) -> Any:
    def read(given: object, info: ValidationInfo) -> Any:
        if is_empty(given) and not ask.required:
            return None
        unit = (info.context or {}).get("unit", "mm")
        try:
            return ask.read(name, given, unit)
        except BadInput as refusal:
            raise ValueError(str(refusal).removeprefix(f"{name}: ")) from None

    return read


@cache
def model_of(inputs: type) -> type[BaseModel]:
    """Return the Pydantic model of an inputs declaration.

    >>> from engine.indexing.hand_dial import HandDialInputs
    >>> model_of(HandDialInputs).model_validate({"distance": "3/8in", "divisions": 100}).distance
    9.525
    """
    fields: dict[str, Any] = {}
    for name, ask in asks(inputs).items():
        if ask.part is not None:
            nested = model_of(ask.part)
            kind: Any = tuple[nested, ...] if ask.many else nested  # type: ignore[valid-type]
        else:
            kind = Annotated[Any, BeforeValidator(_reader(name, ask))]
        fields[name] = (
            (kind, ...) if ask.required and ask.from_shop is None else (kind | None if ask.part else kind, None)
        )
    config = ConfigDict(extra="forbid", frozen=True)
    return create_model(inputs.__name__, __config__=config, **fields)
