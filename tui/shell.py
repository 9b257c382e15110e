"""The shell door: `tommybar work OPERATION name=value ...`. Textual is never imported here."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

from engine.base.answer import Answer, Caution, Cell, Figure, Table
from engine.base.declare import asks, told
from engine.base.operation import Done, run
from engine.base.quantity import DIMENSIONS, JSON_UNITS
from engine.base.records import asdict, dataclass, field
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, PANES, load
from engine.base.setting import Setting, setting_text
from engine.base.showing import cell_text, figure_text
from engine.base.words import write
from engine.set_up import read_set_up, situation_of, wanted
from engine.shop.file import load as load_shop
from tui.printing import head, print_answer, with_limits
from tui.wording import speak, speak_as_shop, spoken

if TYPE_CHECKING:
    from pathlib import Path

    from engine.shop.model import Shop

_OPTIONS = (
    "--json, --plain, --svg FILE, --dxf FILE, --force, --inch, --mm, --shop FILE, --trouble, --set-up TEXT, --part FILE, "
    "--yes ID or --no ID"
)


_ALONE = ("--json", "--plain", "--trouble", "--inch", "--mm")  # options that stand for themselves


@dataclass
class _Line:
    """What was asked at the shell."""

    operation: str = ""
    given: dict[str, str] | None = None
    json: bool = False
    plain: bool = False
    trouble: bool = False
    unit: str = ""  # "" until it is known: told, else the shop's
    shop: Path | None = None
    set_up: str = ""
    part: Path | None = None
    svg: Path | None = None
    dxf: Path | None = None
    force: bool = False
    taken: dict[str, str] = field(default_factory=dict)
    told: dict[str, bool] = field(default_factory=dict)


def _parse(words: list[str]) -> _Line:
    line = _Line(given={})
    rest = iter(words)
    for word in rest:
        if word in ("--json", "--plain", "--trouble", "--force"):
            setattr(line, word[2:], True)
        elif word in ("--inch", "--mm"):
            line.unit = word[2:]
        elif word == "--shop":
            line.shop = _file(next(rest, ""))
        elif word.startswith("--shop="):
            line.shop = _file(word[7:])
        elif word == "--set-up" or word.startswith("--set-up="):
            line.set_up = word[9:] if "=" in word else next(rest, "") or " "
        elif word == "--part" or word.startswith("--part="):
            line.part = _file(word[7:] if "=" in word else next(rest, ""), "--part")
        elif word.split("=", 1)[0] in ("--svg", "--dxf"):
            option = word[:5]
            setattr(line, option[2:], _file(word[6:] if "=" in word else next(rest, ""), option))
        elif word in ("--yes", "--no"):
            line.told[_asking(word, next(rest, ""))] = word == "--yes"
        elif word.startswith("--"):
            raise BadInput("option", word, _OPTIONS)
        elif "=" in word and line.operation:
            name, value = word.split("=", 1)
            assert line.given is not None
            line.given[name.replace("-", "_")] = value
        elif not line.operation:
            line.operation = word
        else:
            raise BadInput("input", word, "name=value, with quotes round a value that holds blanks")
    return line


def _unit_told(words: list[str]) -> str:
    """The unit that is asked for (the last word counts), "" where the shop's is meant."""
    return next((word[2:] for word in reversed(words) if word in ("--inch", "--mm")), "")


def _spelled_out(words: list[str]) -> list[str]:
    """A quick line (`M10 tap`) as the operation and the values that it means; anything else as it is."""
    spoken_words = [w for w in words if not w.startswith("--") and "=" not in w]
    named = next((entry.id for entry in CATALOG if spoken_words[:1] == [entry.id]), "")
    if (
        not spoken_words
        or (named and len(spoken_words) == 1)
        or len(words) != len(spoken_words) + sum(w in _ALONE for w in words)
    ):
        return words
    from tui.quick import destinations, given_for

    text = " ".join(spoken_words)
    places = [place for place in destinations(text) if place.operation and not place.command]
    if len(spoken_words) == 1 and not any(c.isdigit() for c in text) and len(text) > 1:
        return words  # one word that is no operation: its refusal names the near ones
    if named:  # `divide 37`: the operation's own name is one of its words
        places = [place for place in places if place.operation == named and given_for(place, "mm")]
        if not places:
            return words
    if not places:
        raise BadInput("quick line", text, "a size, a count, an operation or its words, such as M10 tap")
    unit = _unit_told(words) or load_shop().unit
    others = [f"{place.title} ({place.operation})" for place in places[1:4]]
    if "--json" not in words and others:
        print(spoken(f"{places[0].title}. Or: {'; '.join(others)}"), file=sys.stderr)
    given = [f"{name}={value}" for name, value in given_for(places[0], unit).items()]
    return [places[0].operation, *given, *(w for w in words if w in _ALONE)]


def _asking(option: str, name: str) -> str:
    """The id of a caution that asks something."""
    from engine.safety.rows import every_row

    if not any(row.id == name.upper() and row.question for row in every_row()):
        raise BadInput(option, name, "the name of a caution that asks something, such as BRZ-02")
    return name.upper()


def _file(word: str, option: str = "--shop") -> Path:
    if not word:
        raise BadInput(option, "", "a file", f"{option}: the name of a {option[2:]} file is needed.")
    from pathlib import Path  # where a file is named: most answers name none

    return Path(word)


def work(words: list[str]) -> int:
    """Answer one line of the shell; return the exit code."""
    as_json = "--json" in words
    unit = _unit_told(words) or "mm"
    try:
        line = _parse(_spelled_out(words))
        if not line.operation:
            _list()
            return 0
        shop = load_shop(line.shop)
        unit = line.unit = _unit_told(words) or shop.unit
        speak(shop.words_for(unit))
        if line.part:
            _take_from_part(line, line.part)
        if not line.given and not line.json:
            _describe(line.operation, unit)
            return 0
        known = situation_of(read_set_up(line.set_up, unit)) if line.set_up else None
        done = run(line.operation, line.given or {}, shop, unit=unit, told=line.told, known=known)
        troubles = _troubles(done, shop, unit) if line.trouble else None
        drawn = _drawn(done.answer, line)
    except BadInput as refusal:
        return _refuse(refusal, as_json, unit)
    if drawn:
        _print_cautions(done, line.unit)
    elif line.json:
        import json

        data = as_data(done, line.given or {}, line.unit)
        if line.part:
            data["from_part"] = line.taken
        print(json.dumps(data | ({"trouble": troubles} if line.trouble else {}), indent=1))
    else:
        _print(done, line, troubles or [])
    return 0


def _drawn(answer: Answer, line: _Line) -> bool:
    """Write the picture to the files asked for; whether standard output is taken by one."""
    if line.svg is None and line.dxf is None:
        return False
    from tui.saving import save

    if not answer.pictures:
        raise BadInput("--svg", line.operation, "an operation with a picture", "This answer has no picture.")
    if line.svg is not None:
        from engine.jobs.svg import drawing_file

        save(line.svg, spoken(drawing_file(answer.pictures, line.unit)), door="--svg", force=line.force)
    if line.dxf is not None:
        save(line.dxf, _dxf(answer, line), door="--dxf", force=line.force)
    return "-" in (str(line.svg), str(line.dxf))


def _dxf(answer: Answer, line: _Line) -> str:
    """The picture that is at true size or true in all its parts; others are for the eye."""
    from engine.jobs.dxf import TRUE, dxf

    found = [picture for picture in answer.pictures if picture.name in TRUE]
    if not found:
        said = f"--dxf: {line.operation} has no drawing to work from; scale strips and holes on a circle have one."
        raise BadInput("--dxf", line.operation, "scale-lines, straight-scale or hole-circle", said)
    return dxf(found[0].shapes, line.unit)


def _take_from_part(line: _Line, path: Path) -> None:
    """What is not given comes from the part, as the bench's empty fields take it from the part in hand; it is said."""
    from tui.in_hand import of_file

    title, held = of_file(path)
    known = asks(load(line.operation).inputs)
    assert line.given is not None
    line.taken = {name: told for name, told in held.fills(known).items() if name not in line.given}
    line.given |= line.taken
    if not line.json:
        words = ", ".join(f"{known[name].label.lower()} {told}" for name, told in line.taken.items())
        print(_printable(f"From {title}: {spoken(words) or 'nothing that is asked here'}."), file=sys.stderr)


def _refuse(refusal: BadInput, as_json: bool, unit: str) -> int:
    if as_json:
        import json

        error = {
            "field": refusal.field,
            "given": str(refusal.given),
            "accepted": write(refusal.accepted_text, unit),
            "text": refusal.written(unit),
        }
        print(json.dumps({"error": error}))
    for line in refusal.written(unit).splitlines():
        print(spoken(_printable(line)), file=sys.stderr)
    return 2


def _printable(text: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in text)


def _unit(dimension: str) -> str:
    return JSON_UNITS.get(dimension, DIMENSIONS[dimension].metric)


def as_data(done: Done, given: dict[str, str], unit: str) -> dict[str, Any]:
    """An answer as the JSON that DEVELOPERS.md describes."""
    from engine.safety import general_rules

    answer = done.answer
    return {
        "operation": done.operation.id,
        "inputs": {name: _input(told(done.inputs, name)) for name in given},
        "figures": [_figure(f, unit) for f in answer.figures] + [_renamed(f, unit) for f in answer.figures if f.was],
        "tables": [_table(t, unit) for t in answer.tables],
        "notes": [{"level": n.level, "text": write(n.text, unit)} for n in answer.notes],
        "cautions": [_caution(c, unit) for c in answer.cautions],
        "general": [_caution(c, unit) for c in general_rules()],
    }


def _input(value: object) -> object:
    if isinstance(value, int | float | str | bool) or value is None:
        return value
    if isinstance(value, tuple):
        return [_input(v) for v in value]
    return str(value)


def _figure(figure: Figure, unit: str) -> dict[str, Any]:
    setting = {"setting": asdict(figure.setting)} if figure.setting is not None else {}
    return setting | {
        "name": figure.name,
        "label": figure.label,
        "value": figure.value,
        "unit": _unit(figure.dimension),
        "low": figure.low,
        "high": figure.high,
        "text": figure_text(figure, unit),
        "source": figure.source,
        "working": write(figure.working, unit),
    }


def _renamed(figure: Figure, unit: str) -> dict[str, Any]:
    """A figure once more under the name it had, for whoever reads the JSON; `now` is the name to go on with."""
    return _figure(figure, unit) | {"name": figure.was, "now": figure.name}


def _table(table: Table, unit: str) -> dict[str, Any]:
    columns = [{"name": c.name, "label": c.label, "unit": _unit(c.dimension)} for c in table.columns]
    return {
        "name": table.name,
        "label": table.label,
        "columns": columns,
        "rows": [[_cell(cell, unit) for cell in row] for row in table.rows],
    }


def _cell(cell: Cell, unit: str) -> object:
    """A cell as data: a number as it is, words in the unit asked for, a setting with what it sets."""
    if cell is None or isinstance(cell, int | float):
        return cell
    return asdict(cell) | {"text": setting_text(cell)} if isinstance(cell, Setting) else write(cell, unit)


def _caution(caution: Caution, unit: str) -> dict[str, Any]:
    return {
        "id": caution.id,
        "word": caution.word,
        "text": write(caution.text, unit),
        "because": write(caution.because, unit),
        "source": caution.source,
        "question": write(caution.question, unit),
        "acknowledge": caution.acknowledge,
        "not_told": list(caution.tell),
    }


def _list() -> None:
    speak_as_shop(None)
    for pane in PANES:
        print(spoken(pane.title))
        for known in CATALOG:
            if known.pane == pane.id:
                print(f"  {known.id:<18}{spoken(known.title)}")


def _describe(operation_id: str, unit: str) -> None:
    operation = load(operation_id)
    print(spoken(f"{operation_id}: {operation.help}".strip()))
    for name, ask in asks(operation.inputs).items():
        empty = "" if ask.required and not ask.from_shop else f" (empty: {write(ask.empty, unit) or 'left out'})"
        print(f"  {name:<16}{spoken(f'{ask.label}. {ask.help}{empty}')}")
    example = " ".join(
        f"{k}='{v}'" if " " in v or ";" in v or '"' in v else f"{k}={v}" for k, v in operation.example.items()
    )
    print(f"Example: tommybar work {operation_id} {example}")


def _troubles(done: Done, shop: Shop, unit: str) -> list[dict[str, str]]:
    from engine.trouble import trouble_for

    found = trouble_for(done.operation.id, done.answer, done.inputs, shop)
    return [asdict(trouble) | {"number": write(trouble.number, unit)} for trouble in found]


def _print(done: Done, line: _Line, troubles: list[dict[str, str]]) -> None:
    if line.plain:
        _print_plain(done.answer, line.unit)
    else:
        print_answer(done.answer, line.unit)
    for trouble in troubles:
        number = f" Here: {trouble['number']}." if trouble["number"] else ""
        print(spoken(f"{trouble['symptom']}: {trouble['cause']}. Check: {trouble['check_first']}.{number}"))
    _print_cautions(done, line.unit)


def _print_cautions(done: Done, unit: str) -> None:
    """The most pressing few on stderr, so that they neither mix with the figures nor bury one another."""
    from engine.safety import arrange, deferral, general_line, quiet_line

    cautions = done.answer.cautions
    shown, more = arrange(cautions)
    lines = [_caution_line(c, unit) for c in shown]
    if quiet := quiet_line(cautions):
        lines.insert(0, quiet)
    if more:
        lines.append(f"{len(more)} more: --json lists them all.")
    if missing := wanted(done.moment, cautions):
        lines.append(f"Set-up  {missing}: not told. --set-up says it, as in --set-up 'grip=20, stick_out=40'.")
    if done.moment.machine:
        lines.append(general_line())
    print(spoken("\n".join([*lines, deferral()])), file=sys.stderr)


def _caution_line(caution: Caution, unit: str) -> str:
    because = f" ({write(caution.because, unit)})" if caution.because else ""
    asked = f" {write(caution.question, unit)} (--yes {caution.id} or --no {caution.id})" if caution.question else ""
    return f"{caution.word}  {write(caution.text, unit)}{because}{asked}"


def _print_plain(answer: Answer, unit: str) -> None:
    for figure in answer.figures:
        print(spoken(f"{figure.label}: {with_limits(figure, unit)}"))
    for table in answer.tables:
        print(spoken(table.label))
        for row in table.rows:
            cells = zip(table.columns, row, strict=True)
            print(
                "  " + "; ".join(f"{head(c, unit)}: {spoken(cell_text(v, c, unit))}" for c, v in cells if v is not None)
            )
    for note in answer.notes:
        print(spoken(f"{note.level}: {write(note.text, unit)}"))
