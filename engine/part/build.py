"""From the keys of a part file to the part: every feature with its name, its place along the axis and its
sizes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import cos, radians, sqrt, tan
from typing import Any, TypeVar

from engine.base.kinds import Ask
from engine.base.quantity import INCH_MM
from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.base.rounding import significant
from engine.part import part as p
from engine.part.general import with_general
from engine.part.of_threads import minor, relief_size
from engine.part.sizes import Cone, Edge, number, read_size, with_fit
from engine.threads.thread import Thread

M = TypeVar("M")
K = Any  # the keys of a feature: one of the models of engine.part.schema, which is loaded when a part is read
_MOUTH = 1.05  # of the thread's diameter; common practice, no source


class Unbuildable(BadInput):
    """A feature whose keys are each well written and still give no feature; `field` is its name."""

    def __init__(self, name: str, text: str) -> None:
        super().__init__(name, "", "", f"{name}: {text}")


def build(keys: K, features: Mapping[str, Sequence[K]]) -> tuple[p.Part, list[Unbuildable]]:
    """Build the part. What could not be built is told beside it, and left out of it."""
    return _Builder(keys).part(features)


class _Builder:
    """Builds one part: holds its unit, general tolerance and what has been built so far."""

    def __init__(self, keys: K) -> None:
        self.keys = keys
        self.unit: str = keys.unit
        self.problems: list[Unbuildable] = []
        self.outside: list[p.Outside] = []
        self.inside: list[p.Inside] = []
        self.overall = 0.0

    def part(self, features: Mapping[str, Sequence[K]]) -> tuple[p.Part, list[Unbuildable]]:
        keys = self.keys
        bar = self.bar()
        listed = features.get("outside", ())
        for index, feature in enumerate(listed, 1):
            self.trying(
                lambda f, n: self.outside.append(self.one_outside(f, n, bar, listed)), feature, f"outside.{index}"
            )
        self.outside = [self.in_corner(i, one) for i, one in enumerate(self.outside)]
        self.overall = self.outside[-1].stop if self.outside else 0.0
        by_depth = sorted(
            enumerate(features.get("inside", ()), 1), key=lambda one: one[1].is_ in ("countersink", "groove")
        )
        for index, feature in by_depth:
            self.trying(lambda f, n: self.inside.append(self.one_inside(f, n)), feature, f"inside.{index}")
        self.inside.sort(key=lambda one: int(one.name.split(".")[1]))
        self.inside = [self.with_mouths(one) for one in self.inside]
        across: list[p.Across] = []
        for index, feature in enumerate(features.get("across", ()), 1):
            self.trying(lambda f, n: across.append(self.one_across(f, n)), feature, f"across.{index}")
        heat = keys.heat
        made = p.Part(
            title=keys.title, unit=keys.unit, material=keys.material, bar=bar, make=keys.make,
            length=self.limited(keys.length), edges=keys.edges, general=keys.general or "", outside=tuple(self.outside),
            inside=tuple(self.inside), across=tuple(across), front=self.end_face("front"), back=self.end_face("back"),
            heat=heat and p.Heat(way=heat.way, where=heat.where or "", hardness=heat.hardness or ""),
            finish=keys.finish or "", about=keys.about or "",
        )  # fmt: skip
        return made, self.problems

    def in_corner(self, index: int, one: p.Outside) -> p.Outside:
        """Put a fillet or a relief in the corner against the larger neighbour: behind, else before."""
        after = self.outside[index + 1].front_diameter if index + 1 < len(self.outside) else 0.0
        before = self.outside[index - 1].back_diameter if index else 0.0
        behind = after > one.back_diameter or before <= one.front_diameter
        if one.fillet is not None and not behind:
            one = replace(one, fillet=replace(one.fillet, start=one.start, stop=one.start + one.fillet.radius))
        if isinstance(one, p.OutsideThread) and one.relief is not None:
            wide = min(relief_size(one)[0], one.long)
            start = one.stop - wide if behind else one.start
            one = replace(one, relief=replace(one.relief, start=start, stop=start + wide))
        return one

    def trying(self, make: Callable[[K, str], None], feature: K, name: str) -> None:
        try:
            make(feature, name)
        except Unbuildable as problem:
            self.problems.append(problem)
        except BadInput as refusal:
            self.problems.append(Unbuildable(name, str(refusal).removeprefix(f"{refusal.field}: ")))

    def bar(self) -> p.Bar:
        keys, blank, stock = self.keys, self.keys.blank, self.keys.stock
        bar: p.Bar | None = keys.bar or (blank and blank.bar)
        if bar is None:
            self.problems.append(
                Unbuildable("bar", 'this is needed (bar = "28"), or a blank with its bar (blank = "75 x 14 sawn").')
            )
            bar = p.Bar(size=1.0)
        elif keys.bar and blank and blank.bar:
            self.problems.append(Unbuildable("blank", "the bar is given twice; give the blank's length only."))
        more: dict[str, Any] = {
            "coating": stock.coating or "",
            "temper": stock.temper or "",
            "stock_length": stock.length,
        }
        if blank:
            more |= {"blank": blank.long, "sawn": blank.sawn}
        if stock.bore:
            more["bore"] = stock.bore
        return replace(bar, **more)

    def mm(self, length: float) -> str:
        """A length in the words of the file's own unit."""
        return number(length, self.unit) + (" in" if self.unit == "inch" else " mm")

    def limited(self, size: M) -> M:
        """A size with the general tolerance where it has no limits of its own; None stays None."""
        return with_general(size, self.keys.general or "") if isinstance(size, p.Size) else size  # type: ignore[return-value]

    def with_limits(self, keys: K) -> p.Size:
        """The size of a feature with the limits that stand beside it put in."""
        size: p.Size = keys.size
        if keys.fit:
            size = replace(with_fit(size, keys.fit), written=f"{size.written} {keys.fit}")
        elif keys.low is not None:
            per = INCH_MM if self.unit == "inch" else 1.0
            up, down = (round((limit - size.nominal) / per, 9) for limit in (keys.high, keys.low))
            size = read_size(
                f"{size.written} {significant(up, 9, sign='+')}/{significant(down, 9, sign='+')}", self.unit
            )
        return self.limited(size)

    def common(self, keys: K, name: str, start: float, stop: float) -> dict[str, Any]:
        """What any feature has."""
        mate = keys.mate
        return {
            "name": name, "start": start, "stop": stop, "turned": keys.turned, "off_axis": keys.off_axis,
            "true_to": keys.true_to or "", "within": keys.within,
            "mate": mate and p.Mate(part=mate.part, feature=mate.feature, aim=mate.aim or ""),
        }  # fmt: skip

    # outside

    def one_outside(self, keys: K, name: str, bar: p.Bar, listed: Sequence[K]) -> p.Outside:
        start = self.outside[-1].stop if self.outside else 0.0
        made: p.Outside = getattr(self, f"outside_{keys.is_}")(keys, name, start, bar, listed)
        return self.with_standing(made, keys)

    def spread(self, keys: K, name: str, start: float, length: p.Size) -> dict[str, Any]:
        return {**self.common(keys, name, start, start + length.nominal), "length": self.limited(length)}

    def outside_diameter(self, keys: K, name: str, start: float, *_: Any) -> p.Outside:
        return p.Diameter(**self.spread(keys, name, start, keys.length), size=self.with_limits(keys))

    def outside_bar(self, keys: K, name: str, start: float, bar: p.Bar, *_: Any) -> p.Outside:
        return p.AsBought(**self.spread(keys, name, start, keys.length), size=bar.size, section=bar.section)

    def outside_taper(self, keys: K, name: str, start: float, *_: Any) -> p.Outside:
        length = keys.length.nominal if keys.length else None
        small, large, long = _cone(keys.from_, keys.to, length, keys.angle)
        found = keys.length or p.Size(long, written=significant(long))
        return p.Taper(
            **self.spread(keys, name, start, found), from_size=self.limited(small), to_size=self.limited(large),
            **_angled(keys),
        )  # fmt: skip

    def outside_thread(self, keys: K, name: str, start: float, *_: Any) -> p.Outside:
        spread = self.spread(keys, name, start, keys.length)
        relief = None
        if keys.relief:
            relief = p.Relief(
                name=f"{name}.relief", stands_on=name, start=start, stop=start, short=keys.relief == "short"
            )
        return p.OutsideThread(**spread, size=keys.size, tolerance=_class(keys), relief=relief, runout=keys.runout)

    def outside_knurl(self, keys: K, name: str, start: float, *_: Any) -> p.Outside:
        return p.Knurl(
            **self.spread(keys, name, start, keys.length), near=keys.near, near_is=keys.near_is, form=keys.form or "",
            pitch=keys.pitch or "", tpi=keys.tpi or "", diametral_pitch=keys.diametral_pitch or "",
        )  # fmt: skip

    def outside_groove(self, keys: K, name: str, start: float, *_: Any) -> p.Outside:
        return p.Groove(**self.spread(keys, name, start, keys.width), size=self.with_limits(keys))

    def outside_dome(self, keys: K, name: str, start: float, bar: p.Bar, listed: Sequence[K]) -> p.Outside:
        closes: p.End = "back" if self.outside else "front"
        if self.outside and keys is not listed[-1]:
            raise Unbuildable(name, "a dome closes an end; put it first or last in the list.")
        base = keys.size.nominal if keys.size else self.beside(closes, listed, bar)
        if keys.radius < base / 2:
            raise Unbuildable(
                name,
                f"a radius of {self.mm(keys.radius)} is less than half of its {self.mm(base)}; give "
                f"{self.mm(base / 2)} or more.",
            )
        whole = keys.radius - sqrt(keys.radius**2 - base**2 / 4)
        length = keys.length or p.Size(whole, written="")
        if length.nominal > whole + 1e-6:
            raise Unbuildable(name, f"this dome is whole at {self.mm(whole)}; give a length up to that, or none.")
        return p.Dome(
            **self.spread(keys, name, start, length), sphere=keys.radius, base=base, base_size=keys.size, closes=closes
        )

    def beside(self, closes: p.End, listed: Sequence[K], bar: p.Bar) -> float:
        """The diameter that a dome stands on: its neighbour's facing end."""
        if closes == "back":
            return self.outside[-1].back_diameter
        after = listed[1] if len(listed) > 1 else None
        if after is None or after.is_ == "bar":
            return bar.size
        if after.is_ == "taper":
            length = after.length.nominal if after.length else None
            return _cone(after.from_, after.to, length, after.angle)[0].nominal
        size = after.near if after.is_ == "knurl" else after.size
        if size is None:  # a second dome: both stand on the bar
            return bar.size
        return float(size.diameter if isinstance(size, Thread) else size.nominal)

    def with_standing(self, made: p.Outside, keys: K) -> p.Outside:
        """Put on a feature what stands on it."""
        name, start, stop = made.name, made.start, made.stop
        on: dict[str, Any] = {"stands_on": name}
        more: dict[str, Any] = {}
        if keys.chamfer:
            more["chamfer"] = _chamfer(keys.chamfer, f"{name}.chamfer", name, "front", start, made.front_diameter)
        if keys.chamfer_back:
            more["chamfer_back"] = _chamfer(
                keys.chamfer_back, f"{name}.chamfer_back", name, "back", stop, made.back_diameter
            )
        if keys.radius and keys.is_ != "dome":
            more["radius"] = p.Round(
                name=f"{name}.radius", **on, start=start, stop=start + keys.radius, kind="radius", radius=keys.radius
            )
        if keys.fillet:
            more["fillet"] = p.Round(
                name=f"{name}.fillet", **on, start=stop - keys.fillet, stop=stop, kind="fillet", radius=keys.fillet
            )
        if keys.finish:
            more["finish"] = p.Finish(name=f"{name}.finish", **on, start=start, stop=stop, words=keys.finish)
        if keys.scale:
            more["scale"] = self.scale(keys.scale, made)
        figures = keys.figures or (keys.scale and keys.scale.figures)
        if figures:
            more["figures"] = _figures(figures, f"{name}.figures", name, start, stop)
        if keys.flats:
            more["flats"] = self.flats(keys.flats, made)
        if keys.slot:
            more["slot"] = self.slot(p.Slot, keys.slot, f"{name}.slot", name, start, made.long)
        if keys.keyway:
            at = keys.keyway.at.nominal if keys.keyway.at else 0.0
            more["keyway"] = self.slot(p.Keyway, keys.keyway, f"{name}.keyway", name, start + at, made.long - at)
        return replace(made, **more)

    def scale(self, keys: K, on: p.Outside) -> p.Scale:
        from engine.indexing.scales import closing
        from engine.threads.designation import parse

        name = f"{on.name}.scale"
        given = _inputs(keys)
        size = parse(keys.size) if keys.size else None
        if (size is None) == (keys.lead is None):
            raise Unbuildable(name, "the screw it reads is given once: as size (M12x1.5) or as lead (1.5).")
        lead = size.lead if size else travel("lead", keys.lead, self.unit)
        per_line = travel("per_line", keys.per_line, self.unit)
        found = closing(lead, per_line)
        if not found.closes or found.lines < 2:
            whole = max(found.lines, 2)
            near, turn = self.mm(float(lead) / whole), self.mm(float(lead))
            text = (
                f"lines of {keys.per_line} do not go round a lead of {turn} evenly; {near} a "
                f"line would ({whole} lines)."
            )
            raise Unbuildable(name, text)
        return p.Scale(
            name=name, stands_on=on.name, start=on.start, stop=on.stop, turned=keys.turned, size=size, lead=float(lead),
            per_line=float(per_line), lines=found.lines, diameter=on.front_diameter, inputs=given,
        )  # fmt: skip

    def flats(self, keys: K, on: p.Outside) -> p.Flats:
        long = keys.length.nominal if keys.length else on.long
        return p.Flats(
            name=f"{on.name}.flats", stands_on=on.name, start=on.start, stop=on.start + long, turned=keys.turned,
            sides=int(keys.sides), across_flats=self.limited(keys.across_flats), length=keys.length,
            inputs=_inputs(keys),
        )  # fmt: skip

    def slot(self, kind: Callable[..., M], keys: K, name: str, on: str, start: float, room: float) -> M:
        long = keys.length.nominal if keys.length else room
        return kind(
            name=name, stands_on=on, start=start, stop=start + long, turned=keys.turned, width=self.limited(keys.width),
            depth=self.limited(keys.depth), length=keys.length, inputs=_inputs(keys),
        )  # fmt: skip

    # inside

    def one_inside(self, keys: K, name: str) -> p.Inside:
        made: p.Inside = getattr(self, f"inside_{keys.is_}")(keys, name)
        if keys.finish:
            finish = p.Finish(
                name=f"{name}.finish", stands_on=name, start=made.start, stop=made.stop, words=keys.finish
            )
            made = replace(made, finish=finish)
        return made

    def bored(self, keys: K, name: str, depth: p.Size | None, through: bool = False) -> dict[str, Any]:
        """What any inside feature has: its place by the end it is entered from."""
        deep = self.overall if through or depth is None else depth.nominal
        start = 0.0 if keys.end == "front" else self.overall - deep
        common = self.common(keys, name, start, start + deep)
        return {**common, "end": keys.end, "depth": None if through else self.limited(depth), "through": through}

    def inside_hole(self, keys: K, name: str) -> p.Inside:
        bored = self.bored(keys, name, keys.depth, keys.through)
        size = self.with_limits(keys)
        made = p.Hole(**bored, size=size, hole_depth=keys.hole_depth, flat=keys.bottom == "flat")
        more: dict[str, Any] = {}
        near, far = (made.start, made.stop) if made.end == "front" else (made.stop, made.start)
        other: p.End = "back" if made.end == "front" else "front"
        if keys.chamfer:
            more["chamfer"] = _chamfer(keys.chamfer, f"{name}.chamfer", name, made.end, near, size.nominal, hole=True)
        if keys.chamfer_back:
            more["chamfer_back"] = _chamfer(
                keys.chamfer_back, f"{name}.chamfer_back", name, other, far, size.nominal, hole=True
            )
        if keys.keyway:
            at = keys.keyway.at.nominal if keys.keyway.at else 0.0
            more["keyway"] = self.slot(p.Keyway, keys.keyway, f"{name}.keyway", name, made.start + at, made.long - at)
        return replace(made, **more)

    def inside_thread(self, keys: K, name: str) -> p.Inside:
        bored = self.bored(keys, name, keys.depth, keys.through)
        made = p.InsideThread(**bored, size=keys.size, tolerance=_class(keys), hole_depth=keys.hole_depth)
        more: dict[str, Any] = {}
        for key, at in self.mouths_of(made):
            given = key in keys.model_fields_set
            asked = getattr(keys, key) if given else (round(_MOUTH * keys.size.diameter, 3), 90.0)
            if asked:
                place = made.start if at == "front" else made.stop
                more[key] = p.Mouth(
                    name=f"{name}.{key}", stands_on=name, at=at, start=place, stop=place, diameter=asked[0],
                    angle=asked[1], implied=not given,
                )  # fmt: skip
        return replace(
            made,
            **more,
            sharp=tuple(k for k in ("mouth", "mouth_back") if k in keys.model_fields_set and getattr(keys, k) is None),
        )

    @staticmethod
    def mouths_of(made: p.InsideThread) -> list[tuple[str, p.End]]:
        other: p.End = "back" if made.end == "front" else "front"
        return [("mouth", made.end), *([("mouth_back", other)] if made.through else [])]

    def with_mouths(self, one: p.Inside) -> p.Inside:
        """Give each mouth its depth; drop one nobody asked for where the person countersank that end
        themselves.
        """
        if not isinstance(one, p.InsideThread):
            return one
        more: dict[str, Any] = {}
        for key in ("mouth", "mouth_back"):
            mouth: p.Mouth | None = getattr(one, key)
            if mouth is None:
                continue
            wider = [
                other
                for other in self.inside
                if other is not one and other.end == mouth.at and other.largest > one.size.diameter
            ]
            floor = max((other.long for other in wider if not isinstance(other, p.InsideGroove)), default=0.0)
            if any(isinstance(other, p.Countersink) for other in wider) and mouth.implied:
                more[key] = None
                continue
            deep = max(mouth.diameter - minor(one.size), 0.0) / 2 / tan(radians(mouth.angle / 2))
            start = floor if mouth.at == "front" else self.overall - floor - deep
            more[key] = replace(mouth, start=start, stop=start + deep)
        return replace(one, **more)

    def inside_counterbore(self, keys: K, name: str) -> p.Inside:
        diameter, depth = keys.diameter, keys.depth
        said = depth is not None
        if keys.size:
            from engine.drilling.seats import counterbore

            seat = counterbore(keys.size)
            diameter = p.Size(seat.bore, written=f"{significant(seat.bore)} mm")
            depth = depth or p.Size(seat.depth, written=f"{significant(seat.depth)} mm")
        bored = self.bored(keys, name, depth)
        chamfer = None
        if keys.chamfer:
            place = 0.0 if keys.end == "front" else self.overall
            chamfer = _chamfer(keys.chamfer, f"{name}.chamfer", name, keys.end, place, diameter.nominal, hole=True)
        return p.Counterbore(
            **bored, diameter=self.limited(diameter), fitting=str(keys.size or ""), deep_said=said, chamfer=chamfer
        )

    def inside_countersink(self, keys: K, name: str) -> p.Inside:
        diameter = keys.diameter
        if keys.size:
            from engine.drilling.seats import countersink_for

            seat = countersink_for(keys.size, "flat")
            diameter = p.Size(seat.diameter, written=f"{significant(seat.diameter)} mm")
        angle = keys.angle or 90.0
        under = [_bore(one) for one in self.inside if one.end == keys.end or one.through]
        bottom = min(under, default=0.0)
        if bottom >= diameter.nominal:
            raise Unbuildable(
                name,
                f"{self.mm(diameter.nominal)} is no larger than its hole of {self.mm(bottom)}; a larger one would do.",
            )
        deep = (diameter.nominal - bottom) / 2 / tan(radians(angle / 2))
        bored = {**self.bored(keys, name, p.Size(deep)), "depth": None}
        return p.Countersink(
            **bored, diameter=self.limited(diameter), angle=angle, bottom=bottom, fitting=str(keys.size or "")
        )

    def inside_taper(self, keys: K, name: str) -> p.Inside:
        deep = self.overall if keys.through else keys.depth and keys.depth.nominal
        mouth, bottom, long = _cone(keys.from_, keys.to, deep, keys.angle, narrows=True)
        depth = keys.depth or p.Size(long, written=significant(long))
        return p.InsideTaper(
            **self.bored(keys, name, depth, keys.through), from_size=self.limited(mouth), to_size=self.limited(bottom),
            **_angled(keys),
        )  # fmt: skip

    def inside_groove(self, keys: K, name: str) -> p.Inside:
        z = self.place(name, keys.at, keys.at_from)
        bores = [_bore(one) for one in self.inside if one.start <= z <= one.stop]
        if not bores:
            raise Unbuildable(
                name, f"there is no bore at {self.mm(z)}; list the hole it is cut in, or move the groove."
            )
        size = keys.size or p.Size(max(bores) + 2 * keys.depth.nominal, written="")
        half = keys.width.nominal / 2
        common = {**self.common(keys, name, z - half, z + half), "end": keys.end}
        return p.InsideGroove(
            **common,
            size=self.limited(size),
            depth=keys.depth,
            width=self.limited(keys.width),
            at=keys.at,
            at_from=keys.at_from,
        )

    def inside_ball(self, keys: K, name: str) -> p.Inside:
        hole = keys.hole or p.Size(keys.ball, written="")
        if keys.stand_out.nominal >= keys.ball:
            raise Unbuildable(
                name,
                f"it cannot stand out {self.mm(keys.stand_out.nominal)}; less than its "
                f"{self.mm(keys.ball)} would do, half of it or less is usual.",
            )
        bored = {**self.bored(keys, name, p.Size(keys.ball - keys.stand_out.nominal)), "depth": None}
        return p.Ball(**bored, ball=keys.ball, stand_out=self.limited(keys.stand_out), hold=keys.hold or "", hole=hole)

    # across and ends

    def place(self, name: str, at: p.Size, at_from: str) -> float:
        """A place from the front face, whatever it was counted from."""
        if at_from == "front":
            return at.nominal
        if at_from == "back":
            return self.overall - at.nominal
        for one in (*self.outside, *self.inside):
            if one.name == at_from:
                return one.stop - at.nominal
        raise Unbuildable(name, f"at_from: there is no {at_from}; give front, back or a feature of this part.")

    def one_across(self, keys: K, name: str) -> p.Across:
        made = self.hole_circle(keys, name) if keys.is_ == "hole-circle" else self.cross_hole(keys, name)
        if keys.countersink:
            sink = p.Mouth(
                name=f"{name}.countersink", stands_on=name, at=made.end, start=made.start, stop=made.stop,
                diameter=keys.countersink[0], angle=keys.countersink[1],
            )  # fmt: skip
            made = replace(made, countersink=sink)
        return made

    def drilled(self, keys: K, size: p.Size | None) -> dict[str, Any]:
        if size and keys.fit:
            size = replace(with_fit(size, keys.fit), written=f"{size.written} {keys.fit}")
        return {"size": self.limited(size), "thread": keys.thread, "tolerance": _class(keys, keys.thread)}

    def hole_circle(self, keys: K, name: str) -> p.Across:
        floor = self.floor_of(keys)
        deep = self.overall - floor if keys.through else keys.depth.nominal
        start = floor if keys.end == "front" else self.overall - floor - deep
        return p.HoleCircle(
            **self.common(keys, name, start, start + deep), **self.drilled(keys, keys.hole),
            depth=self.limited(keys.depth),
            through=keys.through, end=keys.end, holes=keys.holes, diameter=self.limited(keys.diameter),
        )  # fmt: skip

    def floor_of(self, keys: K) -> float:
        """How far behind the end face the holes of a circle begin: at the first face that reaches out to
        them.
        """
        reach = keys.diameter.nominal / 2
        steps = self.outside if keys.end == "front" else list(reversed(self.outside))
        for one in steps:
            if one.largest / 2 > reach:
                return one.start if keys.end == "front" else self.overall - one.stop
        return 0.0

    def cross_hole(self, keys: K, name: str) -> p.Across:
        z = self.place(name, keys.at, keys.at_from)
        drilled = self.drilled(keys, keys.size)
        bore = keys.thread.diameter if keys.thread else keys.size.nominal
        return p.CrossHole(
            **self.common(keys, name, z - bore / 2, z + bore / 2), **drilled,
            depth=self.limited(keys.depth), at=keys.at, at_from=keys.at_from, z=z,
            walls="one" if keys.depth else keys.walls,
            through=keys.walls == "both" and not keys.depth,
        )  # fmt: skip

    def end_face(self, end: p.End) -> p.EndFace:
        keys = getattr(self.keys, end)
        place = 0.0 if end == "front" else self.overall
        more: dict[str, Any] = {}
        if keys.slot:
            deep = keys.slot.depth.nominal
            start = 0.0 if end == "front" else self.overall - deep
            more["slot"] = replace(
                self.slot(p.Slot, keys.slot, f"{end}.slot", end, start, deep), start=start, stop=start + deep
            )
        if keys.figures:
            more["figures"] = _figures(keys.figures, f"{end}.figures", end, place, place)
        if keys.finish:
            more["finish"] = p.Finish(name=f"{end}.finish", stands_on=end, start=place, stop=place, words=keys.finish)
        more |= {"true_to": keys.true_to or "", "within": keys.within}
        return p.EndFace(name=end, start=place, stop=place, centre=keys.centre, **more)


def _bore(one: p.Inside) -> float:
    """The hole that an inside feature leaves: a thread's minor diameter, else its smallest."""
    return minor(one.size) if isinstance(one, p.InsideThread) else one.smallest


def _chamfer(
    edge: Edge, name: str, on: str, at: p.End, place: float, diameter: float, *, hole: bool = False
) -> p.Chamfer:
    long, depth = edge.on(diameter, hole=hole)
    if depth <= 0:
        what = "larger" if hole else "smaller"
        raise Unbuildable(name, f"{edge.written} takes nothing off this edge; give a {what} diameter.")
    start = place if at == "front" else place - long
    return p.Chamfer(
        name=name,
        stands_on=on,
        start=start,
        stop=start + long,
        at=at,
        depth=depth,
        angle=edge.angle,
        to=edge.to,
        written=edge.written,
    )


def _figures(keys: K, name: str, on: str, start: float, stop: float) -> p.Figures:
    return p.Figures(
        name=name, stands_on=on, start=start, stop=stop, every=keys.every or "", height=keys.height,
        reads=keys.reads or "", text=keys.text or "",
    )  # fmt: skip


def _inputs(keys: K) -> tuple[tuple[str, str], ...]:
    """The inputs of an operation as they were typed."""
    found = []
    for key in type(keys).model_fields:
        value = getattr(keys, key)
        if isinstance(value, p.Size):
            found.append((key, value.written))
        elif isinstance(value, str):
            found.append((key, value))
    return tuple(found)


def _angled(keys: K) -> dict[str, Any]:
    cone: Cone | None = keys.angle
    angle, written = (cone.angle, cone.written) if cone else (None, "")
    return {"angle": angle, "angle_written": written, "written_by": _given(keys)}


def _given(keys: K) -> tuple[str, ...]:
    """Which of the sizes of a taper were given; the fourth follows from them."""
    return tuple(name for name in ("from_", "to", "length", "depth", "angle") if getattr(keys, name, None) is not None)


def _class(keys: K, thread: Thread | None = None) -> str:
    """The tolerance class asked for, as a key or in the thread's own writing."""
    own = thread or getattr(keys, "size", None)
    return keys.tolerance or (own.tolerance if isinstance(own, Thread) else "")


def travel(name: str, text: str, unit: str) -> Fraction:
    """A travel as it was typed, exactly. [mm]"""
    ask = Ask(name, "travel", "", "", True, dimension="length")
    found: Fraction = ask.read(name, text, unit)
    return found


def _cone(
    start: p.Size | None, end: p.Size | None, long: float | None, cone: Cone | None, *, narrows: bool = False
) -> tuple[p.Size, p.Size, float]:
    """Both diameters and the length of a cone, of which three of four were given. It widens, or `narrows`,
    from its start.
    """
    slope = 2 * tan(radians(cone.angle / 2)) if cone else 0.0
    way = -1.0 if narrows else 1.0
    if start and end:
        if long is None:
            long = abs(end.nominal - start.nominal) / slope
        if abs(end.nominal - start.nominal) < 1e-9:
            raise BadInput("taper", "", "", "taper: both diameters are alike; this is a diameter, not a taper.")
        return start, end, long
    assert long is not None
    if start:
        far = start.nominal + way * slope * long
        end = p.Size(far, written="")
    else:
        assert end is not None
        far = end.nominal - way * slope * long
        start = p.Size(far, written="")
    if far <= 0:
        raise BadInput(
            "taper", "", "", "taper: it comes to a point before its end; a shorter one or a smaller angle would do."
        )
    return start, end, long


def corners(across_flats: float, sides: int) -> float:
    """The circle round a polygon of so many sides. [mm]"""
    return across_flats / cos(radians(180 / sides)) if sides > 2 else across_flats
