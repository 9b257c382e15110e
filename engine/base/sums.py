"""A number and its working as one expression: the value is worked at once, the words when a door asks for them.

    d2, P, w = mm(8.994), mm(1.5), mm(0.895)
    over = d2 - P / 2 * cot(deg(30)) + w * (1 + 1 / sin(deg(30)))
    over.value               10.379961894...
    write(over, "inch")      "0.354094 - 0.0590551 ÷ 2 x cot 30° + 0.0352362 x (1 + 1 ÷ sin 30°)"

A Sum knows its dimension: a power of length (0 a ratio, 1 a length, 2 an area ...) or a name of engine.base.quantity,
so that a length and a bare number cannot be added. The operations are those of the plain floats, in the same order:
the last digit is the same. A figure that has been shown is a leaf of later sums (`known`), or words would grow without
end. Solvers and table cells stay floats: the Sum is built once, at the end.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from engine.base.quantity import DIMENSIONS, MM_PER_INCH, worked
from engine.base.rounding import significant

Number = int | float | Fraction
_NAMES: dict[int | str, str] = {0: "ratio", 1: "length", 2: "area"}
_POWERS: dict[str, int | str] = {"ratio": 0, "count": 0, "length": 1, "area": 2}
_RANK = {"+": 1, "-": 1, "x": 2, "÷": 2, "^": 4}
_FUNCTION_RANK = 3


class Sum:
    """A value with its dimension and the expression that gave it. Compare with `.value`; a branch is a decision of its
    own and says its reason in a template."""

    __slots__ = ("args", "dim", "op", "symbol", "value", "words")

    def __init__(
        self, value: Number, dim: int | str = 0, op: str = "leaf", args: tuple[Any, ...] = (), words: str = "",
        symbol: str = "",
    ) -> None:  # fmt: skip
        self.value, self.dim, self.op, self.args = value, dim, op, args
        self.words, self.symbol = words, symbol

    def __repr__(self) -> str:
        return f"<{written(self)} = {significant(float(self.value), 9)} ({self.dimension})>"

    @property
    def dimension(self) -> str:
        """The key of engine.base.quantity.DIMENSIONS under which the value is shown."""
        return _NAMES.get(self.dim, str(self.dim))

    def __float__(self) -> float:
        return float(self.value)

    def __add__(self, other: Sum | Number) -> Sum:
        other = _same(self, other, "+")
        return Sum(self.value + other.value, self.dim, "+", (self, other))

    def __radd__(self, other: Number) -> Sum:
        return _sum(other) + self

    def __sub__(self, other: Sum | Number) -> Sum:
        other = _same(self, other, "-")
        return Sum(self.value - other.value, self.dim, "-", (self, other))

    def __rsub__(self, other: Number) -> Sum:
        return _sum(other) - self

    def __mul__(self, other: Sum | Number) -> Sum:
        other = _sum(other)
        return Sum(self.value * other.value, _product(self.dim, other.dim), "x", (self, other))

    def __rmul__(self, other: Number) -> Sum:
        return _sum(other) * self

    def __truediv__(self, other: Sum | Number) -> Sum:
        other = _sum(other)
        top, bottom = self.value, other.value
        value = Fraction(top, bottom) if isinstance(top, int) and isinstance(bottom, int) else top / bottom
        return Sum(value, _quotient(self.dim, other.dim), "÷", (self, other))

    def __rtruediv__(self, other: Number) -> Sum:
        return _sum(other) / self

    def __pow__(self, power: Number) -> Sum:
        dim = self.dim * power if isinstance(self.dim, int) else "mixed"
        whole = int(dim) if not isinstance(dim, str) and dim == int(dim) else "mixed"
        return Sum(self.value**power, whole, "^", (self, _sum(power)))

    def __neg__(self) -> Sum:
        return Sum(-self.value, self.dim, "minus", (self,))

    def as_(self, dimension: str) -> Sum:
        """The same sum, known to be of this dimension: m/min over mm is a speed."""
        return Sum(self.value, _POWERS.get(dimension, dimension), self.op, self.args, self.words, self.symbol)

    def known(self, words: str = "", symbol: str = "") -> Sum:
        """A leaf with this value: a figure already shown is a number in later sums."""
        return Sum(self.value, self.dim, "leaf", (), words, symbol or self.symbol)


def _sum(value: Sum | Number) -> Sum:
    return value if isinstance(value, Sum) else Sum(value)


def _same(one: Sum, other: Sum | Number, sign: str) -> Sum:
    other = _sum(other)
    if one.dim != other.dim:
        raise TypeError(f"{one.dimension} {sign} {other.dimension}")
    return other


def _product(one: int | str, other: int | str) -> int | str:
    if isinstance(one, int) and isinstance(other, int):
        return one + other
    return one if other == 0 else other if one == 0 else "mixed"


def _quotient(one: int | str, other: int | str) -> int | str:
    if isinstance(one, int) and isinstance(other, int):
        return one - other
    return 0 if one == other and one != "mixed" else one if other == 0 else "mixed"


# Leaves. `words` is a template that stands round the digits: "{} teeth", "blade {}".


def leaf(value: Number, dimension: str = "ratio", words: str = "", symbol: str = "") -> Sum:
    """A number of any dimension of engine.base.quantity, in that dimension's engine unit."""
    return Sum(value, _POWERS.get(dimension, dimension), "leaf", (), words, symbol)


def mm(value: Number, words: str = "", symbol: str = "") -> Sum:
    """A length in millimetres."""
    return Sum(value, 1, "leaf", (), words, symbol)


def num(value: Number, words: str = "", symbol: str = "") -> Sum:
    """A count or a ratio."""
    return Sum(value, 0, "leaf", (), words, symbol)


def deg(value: Number, words: str = "", symbol: str = "") -> Sum:
    """An angle in degrees."""
    return Sum(value, "angle", "leaf", (), words, symbol)


def factor(metric: Number, inch: Number, dimension: str = "ratio") -> Sum:
    """A number that only joins units: 1000 mm to the metre, 12 in to the foot. A one is left out of the words."""
    return Sum(metric, _POWERS.get(dimension, dimension), "factor", (inch,))


INCH = Sum(MM_PER_INCH, 1, "factor", (1,))  # exact; in words 25.4, or 1 on an inch screen
PI = Sum(math.pi)


# Functions. Each takes a float as well, so that a solver runs on floats through the same formula.


def _function(name: str, of_value: Callable[[float], float], dim: int | str = 0) -> Callable[[Any], Any]:
    def apply(x: Any) -> Any:
        if not isinstance(x, Sum):
            return of_value(float(x))
        return Sum(of_value(float(x.value)), dim, "of", (x,), name)

    apply.__doc__ = f"{name} of a Sum or a float."
    return apply


sin = _function("sin", lambda a: math.sin(math.radians(a)))
cos = _function("cos", lambda a: math.cos(math.radians(a)))
tan = _function("tan", lambda a: math.tan(math.radians(a)))
cot = _function("cot", lambda a: 1 / math.tan(math.radians(a)))
arcsin = _function("arc sine of", lambda x: math.degrees(math.asin(x)), "angle")
arccos = _function("arc cosine of", lambda x: math.degrees(math.acos(x)), "angle")
arctan = _function("arc tangent of", lambda x: math.degrees(math.atan(x)), "angle")


def root(x: Sum) -> Sum:
    """The square root."""
    dim = x.dim // 2 if isinstance(x.dim, int) and x.dim % 2 == 0 else "mixed"
    return Sum(math.sqrt(x.value), dim, "of", (x,), "square root of")


def larger(*sums: Sum) -> Sum:
    """The largest of several; the words name them all."""
    best = max(sums, key=lambda s: s.value)
    return Sum(best.value, best.dim, "most", sums, "larger" if len(sums) == 2 else "largest")


def smaller(*sums: Sum) -> Sum:
    """The smallest of several; the words name them all."""
    best = min(sums, key=lambda s: s.value)
    return Sum(best.value, best.dim, "most", sums, "smaller" if len(sums) == 2 else "smallest")


def law(value: Number, dimension: str, words: str, metric: bool = True) -> Sum:
    """An empirical law, always said in its own unit; `words` is the sum as written there, and the result is converted
    behind it for a screen in the other unit."""
    return Sum(value, _POWERS.get(dimension, dimension), "law", (metric,), words)


def digits(value: Number, dim: int | str, unit: str) -> str:
    """A number as it is put into a working: in the unit on the screen, six digits at most, fractions exact."""
    if isinstance(dim, str):
        name = "°" if dim == "angle" else ""
        return (significant(float(value)) if dim == "angle" else worked(float(value), unit, _known(dim))) + name
    if isinstance(value, Fraction) and not dim and _endless(value):
        return f"{value.numerator}/{value.denominator}"
    if unit == "inch" and dim:
        value = value / (MM_PER_INCH**dim if isinstance(value, int | Fraction) else float(MM_PER_INCH) ** dim)
    return worked(float(value), "mm")


def _known(dim: str) -> str:
    return dim if dim in DIMENSIONS else "ratio"


def _endless(value: Fraction) -> bool:
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return rest != 1


def written(x: Sum, unit: str = "mm", *, symbols: bool = False) -> str:
    """The words of a sum in a unit: numbers, or the symbols of its leaves where they have one.

    >>> d, depth = mm(20, symbol="d"), mm(1.5)
    >>> written(d - 2 * depth), written(d - 2 * depth, "inch"), written((d - 2 * depth) / 2, symbols=True)
    ('20 - 2 x 1.5', '0.787402 - 2 x 0.0590551', '(d - 2 x 1.5) ÷ 2')
    """
    return _Writer(unit, symbols).text(x, 0, False)


class _Writer:
    """Writes one sum: `outer` is the rank of the sign outside, `right` whether it stands to the left."""

    __slots__ = ("symbols", "unit")

    def __init__(self, unit: str, symbols: bool) -> None:
        self.unit, self.symbols = unit, symbols

    def text(self, x: Sum, outer: int, right: bool) -> str:
        if x.op == "leaf":
            return self._leaf(x)
        if x.op in _RANK:
            return self._signed(x, outer, right)
        if x.op == "of":
            of = x.args[0]
            inside = self.text(of, 0, False)
            words = f"{x.words} {inside}" if of.op == "leaf" and not of.words else f"{x.words}({inside})"
            words = words.replace(" of(", " of (")
            return f"({words})" if outer > _FUNCTION_RANK else words
        if x.op == "minus":
            return f"-{self.text(x.args[0], _FUNCTION_RANK, True)}"
        if x.op == "factor":
            return worked(float(x.value if self.unit == "mm" else x.args[0]), "mm")
        if x.op == "most":
            return f"the {x.words} of " + " and ".join(self.text(arg, 0, False) for arg in x.args)
        return self._law(x)

    def _leaf(self, x: Sum) -> str:
        if self.symbols and x.symbol:
            return x.symbol
        number = digits(x.value, x.dim, self.unit)
        return x.words.replace("{}", number) if x.words else number

    def _signed(self, x: Sum, outer: int, right: bool) -> str:
        one, other = x.args
        if x.op in ("x", "÷") and self._is_one(other):
            return self.text(one, outer, right)
        if x.op == "x" and self._is_one(one):
            return self.text(other, outer, right)
        rank = _RANK[x.op]
        if x.op == "^":
            power = {2: "²", 3: "³"}.get(other.value, f"^{self.text(other, 0, False)}")
            words = f"{self.text(one, rank, False)}{power}"
        else:
            words = f"{self.text(one, rank, False)} {x.op} {self.text(other, rank, True)}"
        return f"({words})" if rank < outer or (right and rank == outer) else words

    def _is_one(self, x: Sum) -> bool:
        """A factor that joins nothing in this unit."""
        return x.op == "factor" and (x.value if self.unit == "mm" else x.args[0]) == 1

    def _law(self, x: Sum) -> str:
        own = "mm" if x.args[0] else "inch"
        if own == self.unit:
            return x.words
        kind = DIMENSIONS[x.dimension]
        name = kind.inch if self.unit == "inch" else kind.metric
        return f"{x.words} = {digits(x.value, x.dim, self.unit)} {name}".rstrip()
