"""The refusals of the engine. Each is one sentence that names the field, the value and what would be accepted."""

from __future__ import annotations

from math import ceil, floor


class BadInput(ValueError):
    """A value that cannot be used; `str()` is one sentence, fit to be shown as it is.

    Parameters
    ----------
    field : str
        Name of the input, as the operation declares it (`size`, `diameter`).
    given : object
        What was given, as the person wrote it.
    accepted : str
        What would be accepted, in words that follow "accepted: ".
    text : str
        The whole sentence, where the usual one would read badly.

    Examples
    --------
    >>> print(BadInput("holes", "-3", "a whole number from 1 to 360"))
    holes: -3 cannot be used; accepted: a whole number from 1 to 360.
    """

    def __init__(self, field: str, given: object, accepted: str, text: str = "") -> None:
        self.field = field
        self.given = given
        self.accepted = accepted
        shown = "".join(c if c.isprintable() else " " for c in str(given)[:200]).strip()
        shown = (shown[:57] + "...") if len(shown) > 60 else shown
        super().__init__(text or f"{field}: {shown or 'nothing'} cannot be used; accepted: {accepted}.")


class OutOfRange(BadInput):
    """A number outside what a method or a table covers; the parts are kept.

    Examples
    --------
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
        if low is not None and high is not None:
            bounds = f"{low:g} to {high:g}{suffix}"
        elif low is not None:
            bounds = f"{low:g}{suffix} or more"
        else:
            bounds = f"{high:g}{suffix} or less"
        super().__init__(field, f"{value:g}{suffix}", bounds + (f" ({why})" if why else ""))

    def in_unit(self, unit: str) -> OutOfRange:
        """The same refusal in the unit on the screen, bounds rounded inwards; itself if it is no length."""
        if unit != "inch" or self.unit != "mm":
            return self
        low = None if self.low is None else ceil(self.low / 25.4 * 1e4 - 1e-6) / 1e4
        high = None if self.high is None else floor(self.high / 25.4 * 1e4 + 1e-6) / 1e4
        return OutOfRange(self.field, round(self.value / 25.4, 5), low, high, "in", self.why)


def check_range(
    field: str,
    value: float,
    *,
    low: float | None = None,
    high: float | None = None,
    unit: str = "",
    why: str = "",
) -> float:
    """Return a value that lies within its bounds, refuse any other, NaN included.

    Parameters
    ----------
    field : str
        Name of the input.
    value : float
        The value to check. [any]
    low : float or None
        Smallest accepted value, or None for no bound. [as value]
    high : float or None
        Largest accepted value, or None for no bound. [as value]
    unit : str
        Unit to name in the refusal.
    why : str
        Reason for the bounds.

    Returns
    -------
    value : float
        The value, unchanged. [as value]

    Raises
    ------
    OutOfRange
        If the value lies outside the bounds.

    Sources
    -------
    None: a comparison.

    Examples
    --------
    >>> check_range("pitch", 1.5, low=0.2, high=8, unit="mm")
    1.5
    """
    inside = (low is None or value >= low) and (high is None or value <= high)
    if not inside or value != value:
        raise OutOfRange(field, value, low, high, unit, why)
    return value
