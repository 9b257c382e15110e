"""What is written beside a feature in a drawing, in the part's own unit."""

from __future__ import annotations

from engine.base.records import replace
from engine.base.rounding import significant
from engine.part import part as p
from engine.part.sizes import limits_text, number

_SECTIONS = {"hex": "hexagon ", "square": "square ", "round": "Ø"}


def callout(one: p.Feature, part: p.Part) -> str:
    """The words that say what a feature is: its diameter and limits, its thread, its depth.

    >>> from engine.part.sizes import read_size
    >>> bar = p.Bar(size=28.0)
    >>> nut = p.Part(title="Nut", unit="mm", material="brass", bar=bar)
    >>> callout(p.Diameter(name="outside.1", size=read_size("25 h7", "mm")), nut)
    'Ø25 h7'
    """
    return _Words(part.unit).of(one)


def where(part: p.Part, name: str) -> str:
    """A feature's name with what it is, for a sentence: `inside.1 (M12x1.5 through)`."""
    if name in ("front", "back"):
        return f"the {name} face"
    try:
        said = callout(part.feature(name), part)
    except KeyError:
        return name
    return f"{name} ({said})" if said else name


_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def spoken_of(part: p.Part, name: str) -> str:
    """A feature as it is spoken of at the machine: what it is, and which one where another is alike.

    >>> from engine.part.sizes import read_size
    >>> ends = [p.Diameter(name=f"outside.{n}", size=read_size("7 h7", "mm")) for n in (1, 2)]
    >>> pin = p.Part(title="Pin", unit="mm", material="brass", bar=p.Bar(size=28.0), outside=tuple(ends))
    >>> spoken_of(pin, "outside.2"), spoken_of(pin, "front"), spoken_of(pin, "bar")
    ('Ø7 h7 (second from the front)', 'the front face', 'the bar')
    """
    if name in ("front", "back"):
        return f"the {name} face"
    try:
        one = part.feature(name)
    except KeyError:
        return "the bar" if name == "bar" else name
    said = _spoken(part, one)
    every = next((row for row in (part.outside, part.inside, part.across) if one in row), ())
    if sum(_spoken(part, other) == said for other in every) > 1:
        said += f" ({_ORDINALS[min(every.index(one), 9)]} from the front)"
    return said


def _spoken(part: p.Part, one: p.Feature) -> str:
    words = _Words(part.unit)
    if isinstance(one, p.Hole):
        return f"the Ø{words.size(one.size)} bore"
    if isinstance(one, p.OutsideThread | p.InsideThread):
        return f"the {one.size} thread"
    if isinstance(one, p.AsBought):
        return f"the {_SECTIONS[one.section]}{words.n(one.size)} bar".replace("Ø", "")
    if isinstance(one, p.Knurl):
        return f"the {words.n(one.near.nominal)} knurl"
    if isinstance(one, p.Keyway | p.Slot | p.Flats | p.Scale):
        noun = {p.Scale: "line 0", p.Flats: "the first flat", p.Slot: "the slot", p.Keyway: "the keyway"}
        return noun[type(one)]
    if isinstance(one, p.Chamfer):
        return f"the {words.of(one)} chamfer"
    if isinstance(one, p.Mouth):
        return f"the mouth {words.of(one)}"
    if isinstance(one, p.CrossHole):
        return f"the {words._bore(one)} cross hole"
    return words.of(replace(one, off_axis=None, turned=None)) or one.name


class _Words:
    def __init__(self, unit: str) -> None:
        self.unit = unit

    def of(self, one: p.Feature) -> str:
        said = getattr(self, f"_{type(one).__name__.lower()}", None)
        text = said(one) if said else ""
        if one.off_axis is not None:
            text += f", {limits_text(one.off_axis, self.unit)} off the axis"
        if one.turned is not None:
            text += f" at {significant(one.turned)}°"
        return text

    def size(self, size: p.Size | None) -> str:
        if size is None:
            return ""
        return number(size.nominal, self.unit) if size.general else limits_text(size, self.unit)

    def n(self, length: float) -> str:
        return number(length, self.unit)

    def _diameter(self, one: p.Diameter) -> str:
        return f"Ø{self.size(one.size)}"

    def _asbought(self, one: p.AsBought) -> str:
        return f"{_SECTIONS[one.section]}{self.n(one.size)} as bought"

    def _taper(self, one: p.Taper) -> str:
        return f"Ø{self.size(one.from_size)} to Ø{self.size(one.to_size)}"

    def _thread(self, designation: str, tolerance: str) -> str:
        return designation if not tolerance or tolerance in designation else f"{designation} {tolerance}"

    def _outsidethread(self, one: p.OutsideThread) -> str:
        text = self._thread(str(one.size), one.tolerance)
        return text + (f", run-out {self.size(one.runout)}" if one.runout else "")

    def _knurl(self, one: p.Knurl) -> str:
        near = f"Ø{self.size(one.near)}" + (" blank" if one.near_is == "blank" else "")
        return f"{one.form or 'axial'} knurl {near}"

    def _groove(self, one: p.Groove) -> str:
        return f"Ø{self.size(one.size)} groove"

    def _dome(self, one: p.Dome) -> str:
        return f"R{self.n(one.sphere)}"

    def _deep(self, one: p.Inside | p.Across) -> str:
        if one.through:
            return " through"
        return f", {self.size(one.depth)} deep" if one.depth else ""

    def _hole(self, one: p.Hole) -> str:
        return f"Ø{self.size(one.size)}{self._deep(one)}" + (", flat" if one.flat else "")

    def _insidethread(self, one: p.InsideThread) -> str:
        return self._thread(str(one.size), one.tolerance) + self._deep(one)

    def _counterbore(self, one: p.Counterbore) -> str:
        return f"Ø{self.size(one.diameter)}, {self.n(one.long)} deep"

    def _countersink(self, one: p.Countersink) -> str:
        return f"Ø{self.size(one.diameter)} x {significant(one.angle)}°"

    def _insidetaper(self, one: p.InsideTaper) -> str:
        return f"Ø{self.size(one.from_size)} to Ø{self.size(one.to_size)}, {self.n(one.long)} deep"

    def _insidegroove(self, one: p.InsideGroove) -> str:
        return f"groove Ø{self.size(one.size)} x {self.size(one.width)} at {self.size(one.at)}"

    def _ball(self, one: p.Ball) -> str:
        return f"ball Ø{self.n(one.ball)}, out {self.size(one.stand_out)}"

    def _bore(self, one: p.Across) -> str:
        return self._thread(str(one.thread), one.tolerance) if one.thread else f"Ø{self.size(one.size)}"

    def _holecircle(self, one: p.HoleCircle) -> str:
        return f"{one.holes} x {self._bore(one)} on Ø{self.size(one.diameter)}{self._deep(one)}"

    def _crosshole(self, one: p.CrossHole) -> str:
        walls = self._deep(one) if one.depth else ", one wall" if one.walls == "one" else ""
        from_ = (
            ""
            if one.at_from == "front"
            else f" from the {one.at_from}"
            if one.at_from == "back"
            else f" from the shoulder of {one.at_from}"
        )
        return f"{self._bore(one)} at {self.size(one.at)}{from_}{walls}"

    def _chamfer(self, one: p.Chamfer) -> str:
        if one.to is not None:
            return f"bevel to Ø{self.n(one.to)} x {significant(one.angle)}°"
        return f"{self.n(one.long)} x {significant(one.angle)}°"

    def _round(self, one: p.Round) -> str:
        return f"R{self.n(one.radius)}" + (" corner" if one.kind == "fillet" else "")

    def _finish(self, one: p.Finish) -> str:
        return one.words

    def _scale(self, one: p.Scale) -> str:
        return f"{one.lines} lines of {self.n(one.per_line)}"

    def _figures(self, one: p.Figures) -> str:
        return "figures" + (f" every {one.every}" if one.every else f" {one.text}" if one.text else "")

    def _flats(self, one: p.Flats) -> str:
        whole = "" if one.length is None else f", {self.size(one.length)} long"
        return f"{one.sides} flats {self.size(one.across_flats)} across{whole}"

    def _slot(self, one: p.Slot) -> str:
        return f"slot {self.size(one.width)} x {self.size(one.depth)}"

    def _keyway(self, one: p.Keyway) -> str:
        return f"keyway {self.size(one.width)} x {self.size(one.depth)}"

    def _relief(self, one: p.Relief) -> str:
        return "short relief" if one.short else "relief"

    def _mouth(self, one: p.Mouth) -> str:
        return f"Ø{self.n(one.diameter)} x {significant(one.angle)}°"


def notes(part: p.Part, *, why: bool = True) -> tuple[str, ...]:
    """What holds for the whole part, each in one line: edges, general tolerance, heat, finish, what runs
    true to what.
    """
    found = []
    if part.edges is not None:
        found.append(f"Every edge not given otherwise {limits_text(part.edges, part.unit)}.")
    if part.general:
        found.append(f"Sizes without limits: ISO 2768-{part.general}.")
    if part.heat is not None:
        more = ", ".join(word for word in (part.heat.where, part.heat.hardness) if word)
        found.append(f"Heat: {part.heat.way}" + (f" ({more})." if more else "."))
    if part.finish:
        found.append(f"Finish: {part.finish}.")
    for end in (part.front, part.back):
        if end.centre:
            found.append(f"Centre hole in the {end.name}: {end.centre if end.centre != 'none' else 'none may stay'}.")
    found += [truth_text(part, truth, why=why) for truth in part.truths]
    return tuple(found)


def truth_text(part: p.Part, truth: p.Truth, *, why: bool = True) -> str:
    """One truth as a line; an implied one says so and why it is, unless there is no room for that."""
    what = _true_of(part, truth.feature)
    if truth.face and truth.feature not in ("front", "back"):
        what = f"the {truth.face} face of {what}"
    unit = "in" if part.unit == "inch" else "mm"
    within = f"within {number(truth.within, part.unit, 3)} {unit}"
    line = f"{what[0].upper()}{what[1:]} true to {_true_of(part, truth.to)} {within}"
    return f"{line} (implied: {truth.why})." if truth.implied and why else f"{line}."


def _true_of(part: p.Part, name: str) -> str:
    """What runs true, as it is spoken of: of lines and flats all of them, not the first."""
    every = {one.name: one for one in part.features()}
    whole = {p.Scale: "the scale", p.Flats: "the flats"}
    return whole.get(type(every.get(name))) or spoken_of(part, name)
