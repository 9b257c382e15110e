"""A shop kept with a job, exactly: lengths as they are, leads as fractions. Nothing is read again as text."""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from engine.base.declare import asks
from engine.base.records import asdict, fields
from engine.base.tool import Tool
from engine.shop.model import Shop


def to_text(shop: Shop) -> str:
    """Return a shop as JSON.

    >>> from engine.shop.file import sample
    >>> from_text(to_text(sample("inch"))) == sample("inch")
    True
    """
    return json.dumps(asdict(shop), default=_fraction, ensure_ascii=False)


def _fraction(value: object) -> object:
    if isinstance(value, Fraction):
        return {"of": [value.numerator, value.denominator]}
    raise TypeError(f"a shop holds no {type(value).__name__}")


def from_text(text: str) -> Shop:
    """Return the shop that `to_text` wrote.

    >>> from_text('{"name": "Shed", "unit": "mm"}').name
    'Shed'
    """
    try:
        shop: Shop = _model(Shop, json.loads(text))
    except (TypeError, KeyError, AttributeError) as error:
        raise ValueError(f"this is not a kept shop: {error}") from None
    return shop


def _model(model: type, data: Mapping[str, Any]) -> Any:
    questions = asks(model)
    kept = {f.name: data[f.name] for f in fields(model) if f.name in data}
    return model(**{name: _value(questions[name].part, value) for name, value in kept.items()})


def _value(part: type | None, value: Any) -> Any:
    if isinstance(value, list):
        return tuple(_value(part, one) for one in value)
    if not isinstance(value, dict):
        return value
    if part is not None:
        return _model(part, value)
    if "of" in value:
        return Fraction(*value["of"])
    return Tool(**value)
