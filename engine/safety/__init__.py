"""The cautions of the open operation, chosen by the numbers on the screen."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from engine.answer import Answer, Caution

if TYPE_CHECKING:
    from engine.operation import Operation
    from engine.shop.model import Shop


def cautions_for(
    operation: Operation, inputs: Any, answer: Answer, shop: Shop, told: Mapping[str, bool]
) -> tuple[Caution, ...]:
    """Every caution that applies, the most pressing first.

    Parameters
    ----------
    operation : Operation
        The open operation.
    inputs : object
        Its inputs as read.
    answer : Answer
        Its figures.
    shop : Shop
        What this person owns.
    told : mapping
        Answers to the questions asked before: caution id to yes or no.

    Returns
    -------
    cautions : tuple of Caution
        In the order in which they are shown.

    Sources
    -------
    Each caution carries its own.

    Examples
    --------
    >>> from engine.catalog import load
    >>> cautions_for(load("hand-dial"), None, Answer(()), None, {})
    ()
    """
    return ()
