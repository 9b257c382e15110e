"""The numbers that tell one fault of a hole from another, shared by the operations that answer them."""

from __future__ import annotations

from typing import Any

from engine.base.answer import Answer
from engine.base.words import Text
from engine.shop.model import Shop


def spot_first(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """The first tool of the plan."""
    tools = [tool for table in answer.tables if table.name == "steps" for tool in table.column("tool")]
    return f"this plan starts with: {tools[0]}" if tools else ""
