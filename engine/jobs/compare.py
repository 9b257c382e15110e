"""What came out against what was planned, over the last jobs: by machine and operation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import sqrt
from typing import Any

from engine.base.records import dataclass
from engine.base.words import Text, bare, counted, say, shown

_LAST = 8  # readings that are compared: what a machine did long ago says little of it now; common practice, no source


@dataclass(frozen=True, slots=True)
class CameOut:
    """What one operation gave on one machine: how far the sizes lay from those planned, larger above 0. [mm]

    `off` are the newest, the newest first; `material` where all of them are of one.
    """

    machine: str
    operation: str
    kind: str
    off: tuple[float, ...]
    material: str = ""

    @property
    def mean(self) -> float:
        """The mean. [mm]"""
        return sum(self.off) / len(self.off)

    @property
    def doubt(self) -> float:
        """How far one of them may lie from the mean, 19 times in 20, as far as they tell; 0 for a single one. [mm]"""
        if len(self.off) < 2:
            return 0.0
        return 2 * sqrt(sum((one - self.mean) ** 2 for one in self.off) / (len(self.off) - 1))


def machine_name(shop: str, machine: str) -> str:
    """What a machine is called in what is compared.

    >>> machine_name("My shop", "lathe")
    'My shop, lathe'
    """
    return f"{shop}, {machine}" if machine else shop


def compared(entries: Iterable[tuple[int, int, str, Mapping[str, Any], int, int]]) -> tuple[CameOut, ...]:
    """Compare readings with what was planned, from the entries of all jobs in the order they were made.

    An entry is its job, its number, its kind (`measured` or `corrected`), what it says, its step and row. Only the last
    reading of a step counts: what was measured on the way there was not meant to be the size.

    >>> said = {"reading": 18.23, "planned": 18.2, "machine": "Lathe", "operation": "knurl-blank", "kind": "diameter"}
    >>> found = compared([(1, 4, "measured", said, 3, 0), (2, 4, "measured", {**said, "reading": 18.25}, 3, 0)])
    >>> found[0].operation, len(found[0].off), round(found[0].mean, 3)
    ('knurl-blank', 2, 0.04)
    """
    last: dict[tuple[int, int, int], Mapping[str, Any]] = {}
    place: dict[tuple[int, int], tuple[int, int, int]] = {}
    for job, seq, kind, data, step, row in entries:
        if kind == "corrected":
            key = place.get((job, data["of"]))
            if key in last and key is not None:
                last[key] = {**last[key], "reading": data["reading"]}
        elif data.get("operation") and data.get("planned") is not None:
            key = place[job, seq] = (job, step, row)
            last.pop(key, None)  # the newest stands last
            last[key] = data
    return _grouped(reversed(last.values()))


def _grouped(newest_first: Iterable[Mapping[str, Any]]) -> tuple[CameOut, ...]:
    groups: dict[tuple[str, str, str], list[Mapping[str, Any]]] = {}
    for data in newest_first:
        groups.setdefault((data["machine"], data["operation"], data["kind"]), []).append(data)
    found = []
    for (machine, operation, kind), every in groups.items():
        newest = every[:_LAST]
        materials = {data.get("material", "") for data in newest}
        off = tuple(data["reading"] - data["planned"] for data in newest)
        found.append(CameOut(machine, operation, kind, off, materials.pop() if len(materials) == 1 else ""))
    return tuple(found)


def came_out(found: Iterable[CameOut], *, machine: str, operation: str, kind: str = "") -> CameOut | None:
    """What an operation gave on a machine, of one kind of measure or of any."""
    here = (one for one in found if (one.machine, one.operation) == (machine, operation))
    return next((one for one in here if kind in ("", one.kind)), None)


def came_out_words(one: CameOut) -> Text:
    """What came out, in a sentence.

    >>> from engine.base.words import write
    >>> write(came_out_words(CameOut("Lathe", "knurl-blank", "diameter", (0.05, 0.03), "brass")))
    'The last 2 times it came out 0.040 mm larger than planned, give or take 0.028 (brass).'
    >>> write(came_out_words(CameOut("Mill", "hole-plan", "bore", (-0.02,))))
    'The last time it came out 0.020 mm smaller than planned.'
    """
    count = len(one.off)
    times = "time" if count == 1 else counted(count, "time")
    way = "larger" if one.mean >= 0 else "smaller"
    around = ", give or take {doubt}" if count > 1 else ""
    of = f" ({one.material})" if one.material else ""
    return say(f"The last {{times}} it came out {{off}} {{way}} than planned{around}{{of}}.", times=times,
        off=shown(abs(one.mean)), way=way, doubt=bare(one.doubt), of=of)  # fmt: skip
