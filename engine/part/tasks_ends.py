"""The tasks that belong to the whole piece: sawing, facing, centres, parting, bench work, measuring."""

from __future__ import annotations

from engine.part.part import Chamfer, End, Outside, Part, Size
from engine.part.tasks import Bench, Task, aimed, limits_of, operation_of

_FACE_OFF = 1.0  # mm left for facing a sawn end: published 0.8 to 1.6
_FACE_PARTED = 0.3  # mm left for facing a parted end: common practice 0.2 to 0.4


def end_size(part: Part, end: End) -> float:
    """The diameter of an end face. [mm]"""
    return part.outside[0].front_diameter if end == "front" else part.outside[-1].back_diameter


def place_of(part: Part, end: End) -> float:
    """Where an end face stands, from the front. [mm]"""
    return 0.0 if end == "front" else part.overall


def kerf(bench: Bench) -> float:
    """Width of the parting blade. [mm]"""
    lathe = bench.shop.lathe
    return lathe.blade.width if lathe and lathe.blade else 2.0


def sawn(bench: Bench, pieces: int, per_part: bool, long: float) -> Task:
    """Sawing off what goes into the chuck."""
    one = "a piece" if per_part or pieces == 1 else f"a piece for {pieces} parts"
    return Task(
        kind="saw",
        title=f"Saw off {one}, {bench.shown(long)} long",
        do=(f"Saw square, {bench.shown(long)} long; take the burr off.",),
        hazards=("hand-work", "deburring"),
        element="saw",
        each="part" if per_part else "bar",
    )


def faced(bench: Bench, end: End, kind: str, *, to_length: bool, off: float = _FACE_OFF) -> Task:
    """Facing an end; the second end to its length."""
    part = bench.part
    last = part.outside[0 if end == "front" else -1]
    diameter = part.bar.corners if kind == "face" else last.largest
    length = part.length or Size(part.overall)
    along = "top slide" if bench.shop.lathe and bench.shop.lathe.top_slide else "saddle"
    given = {
        "diameter": bench.said(diameter),
        "material": part.material,
        "cut": "0.3",
        "in_by": "0.3",
        "in_with": along,
    }
    choices = [("turning-speed", given)]
    if to_length:
        given = {"from": bench.said(part.overall + off), "diameter": bench.said(diameter), "material": part.material}
        choices.insert(0, ("face-to-length", given | aimed(bench, length)))
    operation, inputs = operation_of(*choices)
    title = f"Face the {end} end" + (f" to {bench.size(length) if part.length else bench.shown(part.overall)} long"
                                    if to_length else "")  # fmt: skip
    return Task(
        kind=kind,
        about=end,
        title=title,
        operation=operation,
        inputs=inputs,
        measure=(limits_of(bench, "length", length) or ("length over all",)) if to_length else (),
        element="face" if kind == "face" else "face2",
        start=place_of(part, end),
        stop=place_of(part, end),
        diameter=diameter,
        end=end,
    )


def centred(bench: Bench, end: End, kind: str = "centre") -> Task:
    """A centre hole, for a drill to start in or for the tailstock."""
    diameter = end_size(bench.part, end)
    return Task(
        kind=kind,
        about=end,
        title=f"Centre drill the {end} end",
        do=(f"Cone about {bench.shown(max(1.0, min(5.0, round(diameter / 5, 1))))} wide, oiled.",),
        hazards=("drilling", "chuck"),
        element="centre",
        start=place_of(bench.part, end),
        stop=place_of(bench.part, end),
        diameter=diameter,
        end=end,
    )


def supported(end: End) -> list[Task]:
    """Bringing the tailstock centre up, and taking it away."""
    return [
        Task(kind="support", title="Bring the tailstock centre up", do=("Oiled, without shake; lock the barrel.",),
             hazards=("turning",), element="support", end=end),
        Task(kind="withdraw", title="Take the tailstock centre away", do=("Quill back and the tailstock clear.",),
             element="support", often=0.5, end=end),
    ]  # fmt: skip


def plunged(bench: Bench, end: End) -> Task:
    """Going in with the blade part of the way, to make room for the back edge."""
    part = bench.part
    deep = max((c.depth for c in (part.outside[0].chamfer, part.outside[-1].chamfer_back) if c), default=1.0)
    deep += (part.bar.corners - end_size(part, end)) / 2
    return Task(
        kind="part_groove",
        title=f"Plunge the blade {bench.shown(deep + 2)} deep behind the part",
        operation="part-off",
        inputs=(("diameter", bench.said(part.bar.corners)), ("material", part.material)),
        hazards=("parting",),
        element="chamfer",
        start=place_of(part, end),
        stop=place_of(part, end),
        diameter=end_size(part, end),
        end=end,
    )


def bore_through(bench: Bench) -> float:
    """The hole that runs through the whole part; 0 for none. [mm]"""
    return min((one.smallest for one in bench.part.inside if one.through), default=bench.part.bar.bore or 0.0)


def _blade_placed(bench: Bench) -> str:
    """How the saddle is zeroed for parting, with the one zero that the step's own setting is counted from; by how much
    it differs where the blade's chuck side was touched on the end instead."""
    on = bench.shown(kerf(bench))
    return f"Saddle's zero: the blade's tailstock side level with the end face; if its chuck side touched there, {on} more."


def parted(bench: Bench, end: End) -> Task:
    """Parting the piece off its bar: the blade goes in behind the piece, where the bar is as it was bought."""
    part = bench.part
    diameter, bore = part.bar.corners, bore_through(bench)
    given = {"diameter": bench.said(max(diameter, 0.5)), "material": part.material}
    if 0 < bore < diameter:
        given["bore"] = bench.said(bore)
    given["length"] = bench.said(part.overall + _FACE_PARTED)
    return Task(
        kind="part_off",
        about="part",
        title=f"Part off at {bench.shown(part.overall + _FACE_PARTED)}",
        makes=("part",),
        operation="part-off",
        inputs=tuple(given.items()),
        do=(_blade_placed(bench), "Saddle locked, close to the jaws; a hook in the bore catches the piece." if bore else
            "Saddle locked, close to the jaws; slower towards the middle."),
        hazards=("parting", "chuck"),
        element="part_off",
        start=place_of(part, end),
        stop=place_of(part, end),
        diameter=diameter,
        end=end,
    )  # fmt: skip


def cut_longer(bench: Bench, edge: Chamfer) -> str:
    """How long a back edge is cut before parting: the face behind it is not yet where it will be."""
    long = bench.shown(edge.long + _FACE_PARTED)
    return f"Cut it {long} long: {bench.shown(_FACE_PARTED)} of it goes when the face is brought to length."


def by_hand(kind: str, title: str, words: tuple[str, ...], element: str, **more: object) -> Task:
    """A task of the bench, in plain words."""
    return Task(kind=kind, title=title, do=words, element=element, **more)  # type: ignore[arg-type]


def seat(what: str, end: End, holder: str = "jaws") -> Task:
    """A clean seat before the piece is gripped again by `what`, with `holder`."""
    return by_hand(
        "seat",
        "Clean the seat",
        (f"Burrs off {what}; wipe {holder} and work: a burr between them tilts the work.",),
        "seat",
        end=end,
        hazards=("deburring",),
    )


def set_true(bench: Bench, what: str, limit: float | None, end: End, *, flat: bool = False) -> Task:
    """Reading the clock after a new grip; `what` is gripped, `flat`: its sides are, and a clock cannot run round them."""
    asked = f"; {bench.shown(limit)} at most" if limit is not None else ""
    how = (
        "the highest reading over each flat; write down by how much they differ"
        if flat
        else "write the whole reading down"
    )
    operation, inputs = None, ()
    return Task(
        kind="set_true",
        title="Set true and read the clock",
        operation=operation,
        inputs=inputs,
        do=(f"Clock on {what}, spindle turned by hand: {how}{asked}.",),
        measure=(f"run-out{asked}",),
        hazards=("measuring",),
        element="set_true",
        end=end,
    )


def finishing(bench: Bench) -> list[Task]:
    """What ends every piece at the bench: burrs, heat, finish, measuring."""
    part = bench.part
    edges = f" to {bench.size(part.edges)}" if part.edges else ""
    tasks = [
        by_hand("deburr", "Take off all burrs", (f"Every edge that has no chamfer{edges}.",), "deburr",
                hazards=("deburring", "hand-work"))
    ]  # fmt: skip
    if part.heat:
        where = f" {part.heat.where}" if part.heat.where else ""
        hard = f" to {part.heat.hardness}" if part.heat.hardness else ""
        tasks.append(by_hand("harden", f"Heat: {part.heat.way or 'harden'}{where}{hard}",
                             ("Eye and face covered, dry tongs; quench at arm's length.",), "harden",
                             hazards=("heat",)))  # fmt: skip
        if "temper" in part.heat.way.lower() or (
            "harden" in part.heat.way.lower() and "case" not in part.heat.way.lower()
        ):
            tasks.append(by_hand("temper", "Draw the temper", ("Polish it bright and watch the colour.",), "temper",
                                 hazards=("heat",)))  # fmt: skip
    tasks.append(
        Task(
            kind="measure",
            title="Measure the finished part",
            do=("At rest and cold, every size that has limits.",),
            measure=tuple(
                one
                for feature in (*part.outside, *part.inside)
                for one in _sized(bench, feature)
            ),
            hazards=("measuring",),
            element="measure",
        )
    )  # fmt: skip
    return [*tasks, *(zero_line(bench, one) for one in part.outside if one.scale)]


def zero_line(bench: Bench, one: Outside) -> Task:
    """Scribing the line that a scale is read against, on the part that it turns on."""
    assert one.scale is not None
    part, given = bench.part, dict(one.scale.inputs)
    given.setdefault("diameter", bench.said(one.front_diameter))
    mates = [feature.mate.part.removesuffix(".toml") for feature in (*part.inside, *part.outside) if feature.mate]
    on = f"its mate, {mates[0]}" if mates else "what it turns on"
    long, shim = (bench.number("scale-lines", given, name) for name in ("mate_line", "mate_shim"))
    length = f"{bench.shown(long)} long " if long else ""
    words = [f"On {on}, where it is to read 0, line 0 up: scribe beside it, {length}from the drum's edge."]
    if shim:
        words.append(f"A washer of {bench.shown(shim)} under its stop turns it by a line.")
    return by_hand("zero_line", "Scribe the zero line on the mate", tuple(words), "line", hazards=("hand-work",))


def _sized(bench: Bench, feature: object) -> tuple[str, ...]:
    size = getattr(feature, "size", None)
    name = getattr(feature, "name", "")
    return limits_of(bench, bench.spoken(name), size) if isinstance(size, Size) and not size.general else ()
