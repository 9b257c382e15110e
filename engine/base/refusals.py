"""The refusals of the engine. Each is one sentence that names the field, the value and what would be accepted."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor

from engine.base.quantity import INCH_MM
from engine.base.rounding import significant
from engine.base.sums import Sum
from engine.base.words import Said, Shown, Text, write


class BadInput(ValueError):
    """A value that cannot be used; `str()` is one sentence in metric, `written(unit)` the same for a screen's unit.

    field: Name of the input, as the operation declares it (`size`, `diameter`).
    given: What was given, as the person wrote it.
    accepted: What would be accepted, in words that follow "accepted: ".
    text: The whole sentence, where the usual one would read badly.

    >>> print(BadInput("holes", "-3", "a whole number from 1 to 360"))
    holes: -3 cannot be used; accepted: a whole number from 1 to 360.
    """

    def __init__(self, field: str, given: object, accepted: Text, text: Text = "") -> None:
        self.field = field
        self.given = given
        self.accepted_text = accepted
        usual = Said(
            "{field}: {given} cannot be used; accepted: {accepted}.",
            {"field": field, "given": _given(given), "accepted": accepted},
        )
        self.said: Text = text or usual
        super().__init__(write(self.said))

    @property
    def accepted(self) -> str:
        """What would be accepted, in metric."""
        return write(self.accepted_text)

    def written(self, unit: str) -> str:
        """The sentence in the unit of a screen."""
        return write(self.said, unit)


def _given(given: object) -> Text:
    """What was given, short enough for a sentence and with nothing in it that does not print."""
    if isinstance(given, Said | Shown | Sum):
        return given
    shown = "".join(c if c.isprintable() else " " for c in str(given)[:200]).strip()
    return ((shown[:57] + "...") if len(shown) > 60 else shown) or "nothing"


class OutOfRange(BadInput):
    """A number outside what a method or a table covers; the parts are kept.

    >>> print(OutOfRange("angle", 50, 0, 45, "deg", "above it a small error grows"))
    angle: 50 deg cannot be used; accepted: 0 to 45 deg (above it a small error grows).
    >>> print(OutOfRange("depth", 12.7, None, 8.0, "mm", "deeper cuts through").in_unit("inch"))
    depth: 0.5 in cannot be used; accepted: 0.3149 in or less (deeper cuts through).
    """

    def __init__(
        self, field: str, value: float, low: float | None, high: float | None, unit: str, why: str = ""
    ) -> None:
        self.value, self.low, self.high, self.unit, self.why = value, low, high, unit, why
        suffix = f" {unit}" if unit else ""
        ends = [significant(end) for end in (low, high) if end is not None]
        bounds = f"{' to '.join(ends)}{suffix}" + ("" if len(ends) == 2 else " or more" if high is None else " or less")
        super().__init__(field, f"{significant(value)}{suffix}", bounds + (f" ({why})" if why else ""))

    def written(self, unit: str) -> str:
        """The sentence in the unit of a screen, bounds rounded inwards."""
        return str(self.in_unit(unit))

    def in_unit(self, unit: str) -> OutOfRange:
        """The same refusal in the unit on the screen, bounds rounded inwards; itself if it is no length."""
        if unit != "inch" or self.unit != "mm":
            return self
        low = None if self.low is None else ceil(self.low / INCH_MM * 1e4 - 1e-6) / 1e4
        high = None if self.high is None else floor(self.high / INCH_MM * 1e4 + 1e-6) / 1e4
        return OutOfRange(self.field, round(self.value / INCH_MM, 5), low, high, "in", self.why)


def did_you_mean(word: str, known: Iterable[str], otherwise: str = "") -> str:
    """What follows a refusal of a word, a blank before it: the one of those known that is nearest, else something else.

    >>> did_you_mean("hexagn", ("hexagon", "square"))
    " Did you mean 'hexagon'?"
    """
    from difflib import get_close_matches

    near = get_close_matches(word[:40], list(known), n=1)
    return f" Did you mean {near[0]!r}?" if near else otherwise


def check_range(
    field: str, value: float, *, low: float | None = None, high: float | None = None, unit: str = "", why: str = ""
) -> float:
    """Return a value that lies within its bounds, refuse any other, NaN included.

    >>> check_range("pitch", 1.5, low=0.2, high=8, unit="mm")
    1.5
    """
    inside = (low is None or value >= low) and (high is None or value <= high)
    if not inside or value != value:
        raise OutOfRange(field, value, low, high, unit, why)
    return value
