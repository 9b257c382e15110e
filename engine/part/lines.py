"""Short lines for features: `knurl 26 x 8`, `thread M12x1.5 through`, `25 x 5 chamfer 0.5`, `scale 0.05 on M12x1.5`.

A line gives the keys that a part file has for the same thing, and keys give their line back. What stands on
a feature
(a scale, flats, a slot) has a line of its own, after that of its feature.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Literal

from engine.base.records import dataclass, field
from engine.base.refusals import BadInput
from engine.part.sizes import read_size

Where = Literal["outside", "inside", "across", "on", "front", "back"]
Keys = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Short:
    """What a line says: the list its keys belong to. `on`: they are put to the feature before it; `front`,
    `back`: to that end.
    """

    where: Where
    keys: Keys = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Clause:
    """Words after the head of a line that give one key: with a value, or (`value`) standing for one
    themselves.
    """

    words: str
    key: str
    value: Any = None


_COMMON = (
    _Clause("turned", "turned"), _Clause("off axis", "off_axis"), _Clause("true to", "true_to"),
    _Clause("within", "within"), _Clause("finish", "finish"),
)  # fmt: skip
_OUTSIDE = (
    _Clause("chamfer", "chamfer"), _Clause("chamfer back", "chamfer_back"), _Clause("radius", "radius"),
    _Clause("fillet", "fillet"), *_COMMON,
)  # fmt: skip
_LIMITS = (_Clause("fit", "fit"), _Clause("low", "low"), _Clause("high", "high"))
_DEEP = (_Clause("depth", "depth"), _Clause("through", "through", True))
_BACK = (_Clause("end back", "end", "back"), _Clause("end front", "end", "front"))
_HOLE_DEPTH = (_Clause("no deeper than", "hole_depth"),)
_CLASS = (_Clause("class", "tolerance"),)
_PLACE = (_Clause("at", "at"), _Clause("from", "at_from"))
_SUNK = (_Clause("countersunk", "countersink"),)


@dataclass(frozen=True, slots=True)
class _Form:
    """How the line of one kind is written: its first words, what follows them, the clauses it may have."""

    where: Where
    kind: str
    words: tuple[str, ...]
    head: tuple[str, ...]
    clauses: tuple[_Clause, ...]
    example: str


_SCREWS = ("screw", "screw thread", "outside thread", "external thread", "male thread")
_BEVEL = (_Clause("chamfer", "chamfer"), _Clause("chamfer back", "chamfer_back"))
_ANGLE = (_Clause("angle", "angle"),)
_FORMS: tuple[_Form, ...] = (
    _Form("outside", "diameter", ("", "diameter"), ("size", "length"), (*_LIMITS, *_OUTSIDE), "25 x 5 chamfer 0.5"),
    _Form("outside", "bar", ("bar",), ("length",), _OUTSIDE, "bar 24"),
    _Form("outside", "taper", ("taper",), ("from", "to", "length"), (*_ANGLE, *_OUTSIDE), "taper 12 to 8 x 20"),
    _Form("outside", "thread", ("thread", *_SCREWS), ("size", "length"), (
        *_CLASS, _Clause("relief short", "relief", "short"), _Clause("relief", "relief", True),
        _Clause("runout", "runout"), *_OUTSIDE,
    ), "thread M12x1.5 x 18"),
    _Form("outside", "knurl", ("knurl",), ("near", "length"), (
        _Clause("diamond", "form", "diamond"), _Clause("axial", "form", "axial"), _Clause("crossed", "form", "crossed"),
        _Clause("pitch", "pitch"), _Clause("tpi", "tpi"), _Clause("diametral pitch", "diametral_pitch"),
        _Clause("blank", "near_is", "blank"), *_OUTSIDE,
    ), "knurl 26 x 8"),
    _Form("outside", "groove", ("groove",), ("size", "width"), (*_LIMITS, *_OUTSIDE), "groove 10 x 2"),
    _Form("outside", "dome", ("dome",), ("radius",), (
        _Clause("on", "size"), _Clause("length", "length"), *_OUTSIDE,
    ), "dome 30"),
    _Form("inside", "thread", ("thread", "inside thread"), ("size",), (
        *_DEEP, *_CLASS, *_HOLE_DEPTH, *_BACK, _Clause("mouth", "mouth"), _Clause("mouth back", "mouth_back"), *_COMMON,
    ), "thread M12x1.5 through"),
    _Form("inside", "hole", ("hole",), ("size",), (
        *_LIMITS, *_DEEP, *_HOLE_DEPTH, _Clause("flat bottom", "bottom", "flat"), *_BACK, *_BEVEL, *_COMMON,
    ), "hole 8 H7 depth 20"),
    _Form("inside", "counterbore", ("counterbore",), ("size|diameter",), (
        _DEEP[0], *_BACK, _BEVEL[0], *_COMMON,
    ), "counterbore 18 depth 5"),
    _Form("inside", "countersink", ("countersink",), ("size|diameter", "angle"), (
        *_BACK, *_COMMON,
    ), "countersink 12.4 x 90"),
    _Form("inside", "taper", ("bore taper",), ("from", "to"), (
        *_ANGLE, *_DEEP, *_BACK, *_COMMON,
    ), "bore taper 16 to 14 depth 18"),
    _Form("inside", "groove", ("bore groove",), ("size", "width"), (
        _Clause("deep", "depth"), *_PLACE, *_BACK, *_COMMON,
    ), "bore groove 11 x 2 at 14.5"),
    _Form("inside", "ball", ("ball",), ("ball",), (
        _Clause("out", "stand_out"), _Clause("hole", "hole"), _Clause("press", "hold", "press"),
        _Clause("glue", "hold", "glue"), _Clause("stake", "hold", "stake"), _Clause("solder", "hold", "solder"),
        *_BACK, *_COMMON,
    ), "ball 6 out 2"),
    _Form("across", "cross-hole", ("cross hole", "cross-hole"), ("size|thread",), (
        _LIMITS[0], *_CLASS, *_PLACE, _DEEP[0], _Clause("one wall", "walls", "one"),
        _Clause("both walls", "walls", "both"), *_SUNK, *_COMMON,
    ), "cross hole 4 at 12"),
    _Form("across", "hole-circle", ("holes", "hole circle"), ("hole|thread",), (
        _LIMITS[0], *_CLASS, _Clause("on", "diameter"), *_DEEP, *_BACK, *_SUNK, *_COMMON,
    ), "6 holes 4.5 on 30"),
)  # fmt: skip

_SLOT = (
    _Clause("length", "length"), _Clause("cutter", "cutter"), _Clause("deepest pass", "step"),
    _Clause("turned", "turned"),
)  # fmt: skip
_STANDING: tuple[_Form, ...] = (
    _Form("on", "scale", ("scale",), ("per_line",), (
        _Clause("on", "size"), _Clause("lead", "lead"), _Clause("long every", "long_every"),
        _Clause("middle every", "middle_every"), _Clause("long lines", "long_length"),
        _Clause("middle lines", "middle_length"), _Clause("short lines", "short_length"),
        _Clause("line width", "line_width"), _Clause("cutter angle", "cutter_angle"), _Clause("tip flat", "tip_flat"),
        _Clause("feed dial", "feed_dial"), _Clause("numbers run", "numbering"),
        _Clause("on the diameter", "reads_diameter", True), _Clause("turned", "turned"),
    ), "scale 0.05 on M12x1.5"),
    _Form("on", "flats", ("flats",), ("sides", "across_flats"), (_SLOT[0], _SLOT[3]), "flats 4 x 10"),
    _Form("on", "slot", ("slot",), ("width", "depth"), _SLOT, "slot 1.5 x 2"),
    _Form("on", "keyway", ("keyway",), ("width", "depth"), (
        _Clause("at", "at"), *_SLOT,
    ), "keyway 3 JS9 x 1.4 length 20"),
    _Form("on", "figures", ("figures",), (), (
        _Clause("every", "every"), _Clause("high", "height"), _Clause("read", "reads"), _Clause("say", "text"),
    ), "figures every 10 high 1.5"),
    _Form("on", "mate", ("fits",), ("feature",), (
        _Clause("of", "part"), _Clause("aim", "aim"),
    ), "fits outside.1 of screw.toml"),
)  # fmt: skip
# across back, on the front end, back face: how people say which end a slot or a figure is cut into
_ENDS = re.compile(
    r"(?i)(?:(slot .*?)(?: across| on| in)?|(figures .*?) (?:across|on|in))(?: the| its)? (front|back)(?: end| face)?"
)
_LOOSE = ("chamfer back", "chamfer", "radius", "fillet", "finish", "turned", "off axis", "true to", "within")
EXAMPLES = (*(form.example for form in (*_FORMS, *_STANDING)), "slot 1.5 x 2 across back")
_LONGEST = 200


def read_line(text: str, unit: str = "mm") -> Short:
    """Read a short line; BadInput in one sentence where it cannot be understood.

    >>> read_line("knurl 26 x 8").keys
    {'is': 'knurl', 'near': '26', 'length': '8'}
    >>> read_line("thread M12x1.5 through"), read_line("slot 2 x 2.4 across back").where
    (Short(where='inside', keys={'is': 'thread', 'size': 'M12x1.5', 'through': True}), 'back')
    """
    words = " ".join(text.replace("×", "x").replace("⌀", "").replace("Ø", "").split())
    if not words or len(words) > _LONGEST or not words.isprintable():
        raise _refuse(text, _some_examples())
    if end := _ENDS.fullmatch(words):
        return Short("front" if end[3].lower() == "front" else "back", _read(end[1] or end[2], unit).keys)
    if centre := re.fullmatch(r"(?i)cent(?:re|er) (?:on |at )?(front|back) (stays|may stay|none)", words):
        return Short("front" if centre[1].lower() == "front" else "back", {"centre": centre[2].lower()})
    short = _read(words, unit)
    _validated(short, text, unit)
    return short


def _some_examples() -> str:
    """Enough of them to find a feature by; help has all."""
    some = "25 x 5 chamfer 0.5, knurl 26 x 8, thread M12x1.5 x 18, thread M12x1.5 through, hole 8 H7 depth 20, ball 6 out 2"
    return f"a line as {some}"


def _refuse(text: str, accepted: str) -> BadInput:
    return BadInput("line", text, accepted)


def _read(words: str, unit: str) -> Short:
    if re.fullmatch(r"(?i)(?:scale )?\d+ (?:scale )?lines?.*", words):
        raise _refuse(
            words, "with the line of its screw, such as M12x1.5; or what one line is worth, as scale 0.05 on M12x1.5"
        )
    count = re.match(r"(\d+) (?:holes?) (.*)", words)
    if count:
        keys = _keys(_form("hole-circle"), count[2], unit)
        keys = {"is": "hole-circle", "holes": int(count[1]), **keys}
        if "depth" not in keys and "through" not in keys:
            keys["through"] = True
        return Short("across", keys)
    loose = next((one for one in _LOOSE if words.lower().startswith(one + " ")), None)
    if loose:
        return Short("on", _keys(_Form("on", "", ("",), (), _OUTSIDE, ""), words, unit))
    form, rest = _form_of(words)
    keys = _keys(form, rest, unit)
    if form.where == "on":
        return Short("on", {form.kind: keys})
    return Short(form.where, {"is": form.kind, **keys})


def _form(kind: str) -> _Form:
    return next(form for form in _FORMS if form.kind == kind)


def _form_of(words: str) -> tuple[_Form, str]:
    """The form of a line and what follows its first words."""
    low = words.lower()
    if re.match(r"[\d.]", low):
        return _FORMS[0], words
    found = [
        (len(first), form)
        for form in (*_FORMS, *_STANDING)
        for first in form.words
        if first and (low == first or low.startswith(first + " "))
    ]
    if not found:
        first = low.split()[0]
        from difflib import get_close_matches

        known = [word for form in (*_FORMS, *_STANDING) for word in form.words if word]
        near = get_close_matches(first, known, n=1)
        example = next((form.example for form in (*_FORMS, *_STANDING) if near and near[0] in form.words), "")
        raise _refuse(words, f"a line as {example}" if example else _some_examples())
    longest = max(length for length, _ in found)
    forms = [form for length, form in found if length == longest]
    form = forms[0]
    if len(forms) > 1 and not _has_length(words):  # a thread: outside with its length, inside with its depth
        form = forms[1]
    if form.kind == "groove" and form.where == "outside" and " at " in low:
        form = next(one for one in _FORMS if one.words == ("bore groove",))
    return form, words[longest:].strip()


def _has_length(words: str) -> bool:
    return bool(re.search(r"\sx\s", words.split(" chamfer")[0].split(" mouth")[0]))


def _keys(form: _Form, text: str, unit: str) -> Keys:
    head, found = _clauses(form, text)
    return {**_head(form, head, text, unit), **found}


def _clauses(form: _Form, text: str) -> tuple[str, Keys]:
    """The words before the first clause, and the keys of the clauses."""
    words, keys = text.split(), {}
    starts: list[tuple[int, int, _Clause]] = []
    i = 0
    while i < len(words):
        clause = _clause_at(form.clauses, words, i)
        if clause:
            size = len(clause.words.split())
            starts.append((i, i + size, clause))
            i += size
        else:
            i += 1
    head = " ".join(words[: starts[0][0]] if starts else words)
    for n, (_, begin, clause) in enumerate(starts):
        until = starts[n + 1][0] if n + 1 < len(starts) else len(words)
        value = " ".join(words[begin:until])
        if clause.key in keys:
            raise _refuse(text, f"{clause.words} once")
        if (clause.value is None) != bool(value):
            wanted = f"a value after {clause.words}" if clause.value is None else f"nothing more after {clause.words}"
            raise _refuse(value or clause.words, f"{wanted}, as in: {form.example}")
        keys[clause.key] = value if clause.value is None else clause.value
    return head, keys


def _clause_at(clauses: tuple[_Clause, ...], words: list[str], i: int) -> _Clause | None:
    """The longest clause whose words stand at a place."""
    best = None
    for clause in clauses:
        parts = clause.words.split()
        same = [word.lower() for word in words[i : i + len(parts)]] == parts
        if same and (best is None or len(parts) > len(best.words.split())):
            best = clause
    return best


def _head(form: _Form, head: str, text: str, unit: str) -> Keys:
    """The keys of what stands first, with `x` (or `to`, in a taper) between them."""
    if form.kind == "taper":
        return _taper_head(form, head, text)
    parts = [part.strip() for part in re.split(r"\s+x\s+", head)] if head else []
    if len(parts) == 1 and len(form.head) > 1 and form.kind not in ("thread", "counterbore"):
        parts = re.split(r"(?<=[\d\"])x(?=[\d.])", parts[0])
    if form.kind == "bar" and parts and parts[0].lower().startswith("x "):
        parts[0] = parts[0][2:]
    may_lack = form.kind in ("countersink",) or (form.kind == "groove" and form.where == "inside")
    if len(parts) > len(form.head) or (len(parts) < len(form.head) and not may_lack) or (form.head and not all(parts)):
        raise _refuse(text or form.words[0], f"a line as {form.example}")
    keys: Keys = {}
    names = (
        form.head if len(parts) == len(form.head) else form.head[-len(parts) :] if form.kind == "groove" else form.head
    )
    for name, part in zip(names, parts, strict=False):
        keys[_either(name, part, unit)] = part
    return keys


def _either(name: str, value: str, unit: str) -> str:
    """The key of a value that may be a thread or a size."""
    if "|" not in name:
        return name
    one, other = name.split("|")
    sized, threaded = (one, other) if other == "thread" else (other, one)
    try:
        read_size(value, unit)
    except BadInput:
        return sized if re.fullmatch(r"#\d+|[A-Za-z]", value) else threaded
    return sized


def _taper_head(form: _Form, head: str, text: str) -> Keys:
    found = re.fullmatch(r"(?:(?P<start>(?!to\b).+?)\s*)?(?:\bto\s+(?P<to>.+?))?(?:\s+x\s+(?P<length>.+))?", head)
    keys: Keys = {}
    if found:
        named = {"from": found["start"], "to": found["to"], "length": found["length"]}
        keys = {key: value for key, value in named.items() if value}
    if not keys or (form.where == "inside" and "length" in keys):
        raise _refuse(text or "taper", f"a line as {form.example}")
    return keys


def _validated(short: Short, text: str, unit: str) -> None:
    """Have the keys read as a part file's are, and refuse the first that cannot be."""
    from pydantic import ValidationError

    from engine.part.schema import KINDS, OutsideKeys

    on = short.where not in KINDS
    model = OutsideKeys if on else KINDS[short.where][short.keys["is"]]
    keys = {"is": "diameter", **short.keys} if on else short.keys
    try:
        model.model_validate(keys, context={"unit": unit})
    except ValidationError as error:
        raise _invalid(error.errors(include_url=False)[0], short, text) from None


def _invalid(first: Any, short: Short, text: str) -> BadInput:
    """The first mistake that was found in the keys of a line, in one sentence."""
    name = str(first["loc"][-1]).replace("_", " ") if first["loc"] else ""
    kinds = (short.keys.get("is"), *short.keys)
    forms = [form for form in (*_FORMS, *_STANDING) if form.kind in kinds and form.where == short.where]
    example = f"; a line as {forms[0].example}" if forms else ""
    if first["type"] == "missing":
        return BadInput("line", text, "", f"line: {text} lacks its {name}{example}.")
    reason = str(first["ctx"]["error"]) if first["type"] == "value_error" else str(first["msg"])
    before = f"{name}: " if name else ""
    return BadInput("line", text, "", f"line: {before}{reason.rstrip('.')}" + ("." if name else f"{example}."))


def lines_of(where: str, keys: Mapping[str, Any]) -> tuple[str, ...]:
    """Write the keys of a feature, or of an end (`front`, `back`), as short lines: its own, then what stands on it.

    >>> flats = {"sides": "2", "across_flats": "22"}
    >>> lines_of("outside", {"is": "diameter", "size": "25", "length": "5", "chamfer": "0.5", "flats": flats})
    ('25 x 5 chamfer 0.5', 'flats 2 x 22')
    """
    if where in ("front", "back"):
        return tuple(_end_lines(where, keys))
    form = next(form for form in _FORMS if form.where == where and form.kind == keys["is"])
    own = {key: value for key, value in keys.items() if not isinstance(value, Mapping)}
    first = _written(form, own)
    standing = [
        _written(_on(key), value) for key, value in keys.items() if isinstance(value, Mapping) and key != "scale"
    ]
    scale = keys.get("scale")
    if isinstance(scale, Mapping):
        figures = scale.get("figures")
        plain = {key: value for key, value in scale.items() if key != "figures"}
        standing = [_written(_on("scale"), plain), *([_written(_on("figures"), figures)] if figures else []), *standing]
    return (first, *standing)


def _end_lines(where: str, keys: Mapping[str, Any]) -> list[str]:
    found = [f"{_written(_on(key), value)} across {where}" for key, value in keys.items() if isinstance(value, Mapping)]
    if "centre" in keys:
        found.append(f"centre {where} {keys['centre']}")
    return found


def _on(kind: str) -> _Form:
    return next(form for form in _STANDING if form.kind == kind)


def _written(form: _Form, keys: Mapping[str, Any]) -> str:
    words = [form.words[0]]
    if form.kind == "hole-circle":
        words = [str(keys["holes"]), "holes"]
    used = {"is", "holes"}
    if form.kind == "taper":
        words.append(_written_taper(keys))
        used |= {"from", "to", "length"}
    else:
        given = [key for name in form.head for key in name.split("|") if key in keys]
        words.append(" x ".join(_plain(keys[key]) for key in given))
        used |= set(given)
    for clause in form.clauses:
        if clause.key in keys and clause.key not in used and clause.value in (None, keys[clause.key]):
            words.append(clause.words if clause.value is not None else f"{clause.words} {_plain(keys[clause.key])}")
            used.add(clause.key)
    return " ".join(word for word in words if word)


def _written_taper(keys: Mapping[str, Any]) -> str:
    text = _plain(keys.get("from", ""))
    text += f" to {_plain(keys['to'])}" if "to" in keys else ""
    return (text + (f" x {_plain(keys['length'])}" if "length" in keys else "")).strip()


def _plain(value: Any) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def with_line(features: list[Keys], short: Short) -> list[Keys]:
    """Put what a line says to the features of a list: a new one at its end, or keys on the last."""
    if short.where != "on":
        return [*features, short.keys]
    if not features:
        raise BadInput("line", "", "", "line: this stands on a feature; give the feature first, as 25 x 5.")
    return [*features[:-1], {**features[-1], **short.keys}]
