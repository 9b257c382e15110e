"""From the part back to the keys of its file: what `engine.part.build` reads, this gives again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from engine.base.rounding import significant
from engine.part import part as p
from engine.part.sizes import number

Keys = dict[str, Any]


def keys_of(part: p.Part) -> Keys:
    """Every key of a part, in the order that a file has them."""
    unit = part.unit
    found: Keys = {
        "title": part.title,
        "about": part.about,
        "unit": unit,
        "material": part.material,
        **_bar(part, unit),
    }
    if part.make != 1:
        found["make"] = part.make
    found |= {"length": _size(part.length), "edges": _size(part.edges), "general": part.general, "finish": part.finish}
    for name in ("outside", "inside", "across"):
        found[name] = [feature_keys(one, unit) for one in getattr(part, name)]
    found |= {"front": _end(part.front, unit), "back": _end(part.back, unit)}
    if part.heat:
        found["heat"] = _kept({"way": part.heat.way, "where": part.heat.where, "hardness": part.heat.hardness})
    bar = part.bar
    tube_said = bar.written.startswith("tube")
    found["stock"] = _kept(
        {
            "length": _length(bar.stock_length, unit),
            "bore": "" if tube_said else _length(bar.bore, unit),
            "coating": bar.coating,
            "temper": bar.temper,
        }
    )
    return _kept(found)


def _kept(keys: Keys) -> Keys:
    """Without what says nothing."""
    return {key: value for key, value in keys.items() if value not in (None, "", [], {}, ())}


def _bar(part: p.Part, unit: str) -> Keys:
    bar = part.bar
    blank = "" if bar.blank is None else number(bar.blank, unit) + (" sawn" if bar.sawn else "")
    return {"bar": bar.written, "blank": blank}


def _size(size: p.Size | None) -> str:
    return size.written if size else ""


def _length(length: float | None, unit: str) -> str:
    return "" if length is None else number(length, unit)


def _angle(angle: float | None) -> str:
    return "" if angle is None else significant(angle, 9)


def feature_keys(one: p.Feature, unit: str) -> Keys:
    """The keys of one feature of the lists, `is` first."""
    kind, tell = _KINDS[type(one)]
    mate = one.mate
    common = {
        "turned": _angle(one.turned),
        "off_axis": _size(one.off_axis),
        "true_to": one.true_to,
        "within": _length(one.within, unit),
        "mate": mate and _kept({"part": mate.part, "feature": mate.feature, "aim": mate.aim}),
    }
    end = {"end": one.end} if isinstance(one, p.Inside | p.HoleCircle) and one.end == "back" else {}
    return _kept({"is": kind, **tell(one, unit), **end, **_standing(one, unit), **common})


def _standing(one: p.Feature, unit: str) -> Keys:
    found: Keys = {}
    for stands in one.standing:
        key = stands.name.rsplit(".", 1)[1]
        if isinstance(stands, p.Chamfer):
            found[key] = stands.written
        elif isinstance(stands, p.Round):
            found[key] = _length(stands.radius, unit)
        elif isinstance(stands, p.Finish):
            found[key] = stands.words
        elif isinstance(stands, p.Figures):
            found[key] = _figures(stands, unit)
        elif isinstance(stands, p.Mouth):
            found[key] = "" if stands.implied else f"{number(stands.diameter, unit)} x {_angle(stands.angle)}"
        elif isinstance(stands, p.Scale | p.Flats | p.Slot | p.Keyway):
            found[key] = {**dict(stands.inputs), **_kept({"turned": _angle(stands.turned)})}
        elif isinstance(stands, p.Relief):
            found[key] = "short" if stands.short else True
    if isinstance(one, p.InsideThread):
        found |= dict.fromkeys(one.sharp, "none")
    return found


def _figures(one: p.Figures, unit: str) -> Keys:
    return _kept({"every": one.every, "height": _length(one.height, unit), "reads": one.reads, "text": one.text})


def _end(face: p.EndFace, unit: str) -> Keys:
    truth = {"true_to": face.true_to, "within": _length(face.within, unit)}
    return _kept({"centre": face.centre, **_standing(face, unit), **truth})


def _deep(one: p.Inside | p.Across) -> Keys:
    return {"through": True} if one.through else {"depth": _size(one.depth)}


def _of_taper(one: Any, long: Keys) -> Keys:
    every = {"from": _size(one.from_size), "to": _size(one.to_size), **long, "angle": one.angle_written}
    given = {name.rstrip("_") for name in one.written_by} | {"through"}
    return {key: value for key, value in every.items() if key in given}


def _threaded(one: Any) -> Keys:
    """The tolerance class, where the thread's own writing does not hold it."""
    return {"tolerance": "" if one.tolerance == one.size.tolerance else one.tolerance}


def _hole_size(one: p.Across) -> Keys:
    if one.thread is None:
        return {"hole" if isinstance(one, p.HoleCircle) else "size": _size(one.size)}
    return {"thread": str(one.thread), "tolerance": "" if one.tolerance == one.thread.tolerance else one.tolerance}


Tell = Callable[[Any, str], Keys]
_KINDS: dict[type[p.Feature], tuple[str, Tell]] = {
    p.Diameter: ("diameter", lambda o, u: {"size": _size(o.size), "length": _size(o.length)}),
    p.AsBought: ("bar", lambda o, u: {"length": _size(o.length)}),
    p.Taper: ("taper", lambda o, u: _of_taper(o, {"length": _size(o.length)})),
    p.OutsideThread: (
        "thread",
        lambda o, u: {"size": str(o.size), "length": _size(o.length), **_threaded(o), "runout": _size(o.runout)},
    ),
    p.Knurl: (
        "knurl",
        lambda o, u: {
            "near": _size(o.near),
            "length": _size(o.length),
            "form": o.form,
            "pitch": o.pitch,
            "tpi": o.tpi,
            "diametral_pitch": o.diametral_pitch,
            "near_is": "" if o.near_is == "finished" else o.near_is,
        },
    ),
    p.Groove: ("groove", lambda o, u: {"size": _size(o.size), "width": _size(o.length)}),
    p.Dome: (
        "dome",
        lambda o, u: {"radius": _length(o.sphere, u), "size": _size(o.base_size), "length": _size(o.length)},
    ),
    p.Hole: (
        "hole",
        lambda o, u: {
            "size": _size(o.size),
            **_deep(o),
            "hole_depth": _size(o.hole_depth),
            "bottom": "flat" if o.flat else "",
        },
    ),
    p.InsideThread: (
        "thread",
        lambda o, u: {"size": str(o.size), **_deep(o), **_threaded(o), "hole_depth": _size(o.hole_depth)},
    ),
    p.Counterbore: (
        "counterbore",
        lambda o, u: (
            {"size": o.fitting, "depth": _size(o.depth) if o.deep_said else ""}
            if o.fitting
            else {"diameter": _size(o.diameter), "depth": _size(o.depth)}
        ),
    ),
    p.Countersink: (
        "countersink",
        lambda o, u: {
            **({"size": o.fitting} if o.fitting else {"diameter": _size(o.diameter)}),
            "angle": "" if o.angle == 90.0 else _angle(o.angle),
        },
    ),
    p.InsideTaper: ("taper", lambda o, u: _of_taper(o, _deep(o))),
    p.InsideGroove: (
        "groove",
        lambda o, u: {
            "width": _size(o.width),
            **({"depth": _size(o.depth)} if o.depth else {"size": _size(o.size)}),
            "at": _size(o.at),
            "at_from": "" if o.at_from == "front" else o.at_from,
        },
    ),
    p.Ball: (
        "ball",
        lambda o, u: {
            "ball": _length(o.ball, u),
            "stand_out": _size(o.stand_out),
            "hold": o.hold,
            "hole": _size(o.hole),
        },
    ),
    p.HoleCircle: (
        "hole-circle",
        lambda o, u: {"holes": o.holes, "diameter": _size(o.diameter), **_hole_size(o), **_deep(o)},
    ),
    p.CrossHole: (
        "cross-hole",
        lambda o, u: {
            **_hole_size(o),
            "at": _size(o.at),
            "at_from": "" if o.at_from == "front" else o.at_from,
            "walls": "one" if o.walls == "one" and not o.depth else "",
            "depth": _size(o.depth),
        },
    ),
}
