"""What the rules may look at: the inputs and figures of the open operation, the shop, and what the person has told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Any, Literal

from engine.base.answer import Answer, Figure
from engine.base.quantity import show
from engine.base.records import dataclass
from engine.base.words import write

if TYPE_CHECKING:
    from engine.shop.model import Chuck, Lathe, Mill, Shop
    from engine.threads.thread import Thread

_LATHE_WORK = ("turning-speed", "overhang", "part-off", "bar-plan", "knurl-blank", "knurl-passes")
_MILL_WORK = ("slot", "key", "flats", "hole-circle", "divide", "rotary-table")
# Speed of sound along a bar, m/s: square root of modulus over density. Steel: 207 GPa, 7850 kg/m3; the others from
# memory, unconfirmed.
_SOUND = {
    "brass": 3500.0,
    "bronze": 3500.0,
    "copper": 3600.0,
    "iron": 3900.0,
    "acetal": 1400.0,
    "nylon": 1500.0,
}
_SOUND_STEEL = 5135.0


@dataclass(frozen=True, slots=True)
class Facts:
    """Everything a rule knows. A name that the operation does not have reads as None, never as an error."""

    inputs: Any = None
    figures: Mapping[str, Figure] = field(default_factory=dict)
    shop: Shop | None = None
    told: Mapping[str, bool] = field(default_factory=dict)
    operation: str = ""
    unit: str = "mm"
    answer: Answer | None = None

    def given(self, name: str) -> Any:
        """An input as read, or None."""
        return getattr(self.inputs, name, None)

    def number(self, *names: str) -> float | None:
        """The first of these that is a number, looked for among the figures, then the inputs."""
        for value in self._candidates(names):
            if isinstance(value, int | float) and not isinstance(value, bool):
                return float(value)
        return None

    def _candidates(self, names: tuple[str, ...]) -> Iterator[Any]:
        for name in names:
            if name in self.figures:
                yield self.figures[name].value
            yield self.given(name)

    def words(self, name: str) -> str:
        """A figure's or an input's words in lower case, or ""."""
        figure = self.figures.get(name)
        if figure is not None and figure.text:
            return write(figure.text).lower()
        value = self.given(name)
        return "" if value is None else str(getattr(value, "name", value)).lower()

    @property
    def lathe(self) -> Lathe | None:
        """The lathe owned, if any."""
        return self.shop.lathe if self.shop is not None else None

    @property
    def mill(self) -> Mill | None:
        """The mill owned, if any."""
        return self.shop.mill if self.shop is not None else None

    @property
    def chuck(self) -> Chuck | None:
        """The lathe's chuck, if any."""
        return self.lathe.chuck if self.lathe is not None else None

    @property
    def machine(self) -> Literal["lathe", "mill", ""]:
        """Which machine does the work, "" when either may."""
        chosen = self.words("machine")
        if "mill" in chosen or "drill" in chosen:
            return "mill"
        if "lathe" in chosen or self.operation in (*_LATHE_WORK, "screwcutting", "thread-relief"):
            return "lathe"
        if self.operation == "hole-plan":  # it takes the lathe if there is one
            return "lathe" if self.lathe else "mill"
        return "mill" if self.operation in _MILL_WORK else ""

    @property
    def speed(self) -> float | None:
        """Spindle speed of the work in hand. [rev/min]"""
        return self.number("rpm")

    @property
    def lathe_speed(self) -> float | None:
        """The same, when it is known to be the lathe's. [rev/min]"""
        return self.speed if self.machine == "lathe" else None

    @property
    def diameter(self) -> float | None:
        """Diameter of the work held in the lathe, None where the operation's diameter is a hole's. [mm]"""
        if self.operation == "screwcutting" and self.thread is not None:
            return self.thread.diameter
        return self.number("diameter", "blank_diameter", "near") if self.operation in _LATHE_WORK else None

    @property
    def thread(self) -> Thread | None:
        """The thread that the operation is about, if there is one."""
        for name in ("size", "thread"):
            value = self.given(name)
            if hasattr(value, "left_hand"):
                found: Thread = value
                return found
        return None

    @property
    def material(self) -> str:
        """The material's name in lower case, or ""."""
        return self.words("material")

    @property
    def sound(self) -> float:
        """Speed of sound along a bar of the material, steel's when it is not known. [m/s]"""
        return next((value for word, value in _SOUND.items() if word in self.material), _SOUND_STEEL)

    def length(self, value: float, *, side: Literal["nearest", "down", "up"] = "nearest") -> str:
        """A length with one decimal and its unit, as the screen shows lengths."""
        return show(value, "length", self.unit, decimals=1, side=side)


@dataclass(frozen=True, slots=True)
class Finding:
    """What a rule says of a caution that is not out of the question; `values` go into the caution's words.

    `raised`: the numbers say so. `asked`: a fact that matters is missing, the person is asked. `stands`: it belongs to
    the work whatever the numbers are. `measured`: an asked one that, once answered yes, can name its number.
    """

    kind: Literal["raised", "asked", "stands"]
    values: Mapping[str, str] = field(default_factory=dict)
    measured: bool = False

    @classmethod
    def raised(cls, **values: str) -> Finding:
        """The numbers raise it."""
        return cls("raised", values)

    @classmethod
    def asked(cls, **values: str) -> Finding:
        """A fact that matters is missing."""
        return cls("asked", values)

    @classmethod
    def measured_but(cls, **values: str) -> Finding:
        """One fact is missing, the number is at hand: a yes raises it with its number."""
        return cls("asked", values, measured=True)


STANDS = Finding("stands")
