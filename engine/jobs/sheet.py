"""A job, or a recipe before it is started, as one self-contained page that prints well on A4 and Letter."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from html import escape
from itertools import compress

from engine.base.answer import Answer, Caution, Column, Figure, Line, Picture, Table
from engine.base.quantity import show
from engine.base.rounding import short
from engine.base.showing import bounds_text, cell_text, figure_text, head_text, limits_text
from engine.base.words import write
from engine.jobs.places import place_words
from engine.jobs.progress import Progress, Reading, when
from engine.jobs.run import Limits, Worked, WorkedStep
from engine.jobs.svg import svg
from engine.safety import arrange, deferral, general_rules, in_order

STRIP = 100.0  # mm: the strip that shows whether the page was printed at its true size
_BLANK_ROWS = 3  # lines to write readings on where none was taken

_STYLE = """
@page { margin: 15mm }
* { box-sizing: border-box }
body { font: 10pt/1.35 sans-serif; color: black; background: white; max-width: 180mm; margin: 0 auto }
h1 { font-size: 17pt; margin: 0 0 2mm } h2 { font-size: 12pt; margin: 6mm 0 1mm; border-top: 0.3mm solid black;
padding-top: 2mm; break-after: avoid } h3 { font-size: 10pt; margin: 2mm 0 1mm; break-after: avoid }
p { margin: 1mm 0 } table { border-collapse: collapse; margin: 1mm 0 2mm; font-size: 9pt }
th, td { border: 0.13mm solid black; padding: 0.5mm 1.5mm; text-align: left; vertical-align: top }
td.n { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums }
tr { break-inside: avoid } thead { display:
table-header-group } ul { margin: 1mm 0; padding-left: 0; list-style: none } li { margin: 0.5mm 0; padding-left:
6mm; text-indent: -6mm } .box { display: inline-block; width: 3.2mm; height: 3.2mm; border: 0.2mm solid black;
margin-right: 2.5mm; text-indent: 0; line-height: 3mm; text-align: center; font-size: 8pt; vertical-align: -0.3mm }
.lead { font-size: 15pt; font-weight: bold } .caution { border: 0.3mm solid black; padding: 1mm 2mm; margin: 1mm 0;
break-inside: avoid } .start { break-inside: avoid } .main { break-after: avoid }
.word { font-weight: bold } .small { font-size: 8pt } figure { margin: 2mm 0; break-inside:
avoid } svg { display: block; max-width: none } .wide { width: 38mm }
tr.blank { height: 7mm } svg text { font-family: sans-serif }
"""


def page(
    worked: Worked,
    *,
    unit: str,
    progress: Progress | None = None,
    part: int = 1,
    drawings: Mapping[str, tuple[Picture, ...]] | None = None,
) -> str:
    """Return the whole page; `drawings` are the work as it lies on the machine, by the id of the step.

    >>> from pathlib import Path
    >>> from engine.jobs.recipe import read
    >>> from engine.jobs.run import resolve
    >>> from engine.jobs.schema import example
    >>> from engine.jobs.library import new_text
    >>> from engine.shop.file import sample
    >>> worked = resolve(read(new_text("Shim <b>", "mm"), Path("shim.toml")), sample("metric"))
    >>> "<h1>Shim &lt;b&gt;</h1>" in page(worked, unit="mm")
    True
    """
    sources = _Sources()
    lies = drawings or {}
    steps = "".join(_step(step, unit, progress, sources, lies.get(step.step.id, ())) for step in worked.steps)
    title = escape(worked.recipe.title)
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
        f"<title>{title}</title><style>{_STYLE}</style></head><body>"
        f"<h1>{title}</h1>{_head(worked, unit, progress, part)}{_strip(unit)}"
        f"<h3>Before you begin</h3>{_listed(general_rules(), unit)}<p>{escape(deferral())}</p>"
        f"{steps}{_other_cautions(worked, unit)}{sources.listed()}</body></html>\n"
    )


def file_name(title: str) -> str:
    """Return a file name for a title: small letters, digits and hyphens, whatever the title holds.

    >>> file_name("../../Height-adjuster nut"), file_name("…")
    ('height-adjuster-nut.html', 'sheet.html')
    """
    words = re.findall(r"[a-z0-9]+", title.lower())
    return ("-".join(words)[:60].strip("-") or "sheet") + ".html"


class _Sources:
    """Every source once, by number."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def mark(self, source: str) -> str:
        """The number to print beside what came from this source."""
        if not source:
            return ""
        return f"[{self._numbers.setdefault(source, len(self._numbers) + 1)}]"

    def listed(self) -> str:
        if not self._numbers:
            return ""
        rows = "".join(f"<li>[{number}] {escape(source)}</li>" for source, number in self._numbers.items())
        return f'<h2>Sources</h2><ul class="small">{rows}</ul>'


def _head(worked: Worked, unit: str, progress: Progress | None, part: int) -> str:
    recipe = worked.recipe
    rows = [("Part", recipe.part), ("Stock", recipe.stock), ("For", worked.shop.name)]
    rows.append(("Lengths in", "inch" if unit == "inch" else "mm"))
    if progress is not None:
        rows.append(("Job", f"{progress.job}, part {part}, {progress.state}"))
        rows.append(("Stands at", place_words(progress.plan, progress.place)))
    about = f"<p>{escape(recipe.about)}</p>" if recipe.about else ""
    return about + "".join(f"<p><b>{escape(name)}:</b> {escape(text)}</p>" for name, text in rows)


def _strip(unit: str) -> str:
    """A line of known length: whoever measures it knows whether the pictures are true to size."""
    ends = (Line(0, 0, STRIP, 0, 1), Line(0, -2, 0, 2, 1), Line(STRIP, -2, STRIP, 2, 1))
    strip = Picture("strip", "Strip", ends, f"A line {short(STRIP)} mm long.", true_size=True)
    length = show(STRIP, "length", unit, decimals=0 if unit == "mm" else 2)
    note = f"Measure this line: at true size it is {length} long. Print at 100 %, not fitted to the page."
    return f"<figure>{svg(strip)[0]}<figcaption class='small'>{escape(note)}</figcaption></figure>"


def _step(step: WorkedStep, unit: str, progress: Progress | None, sources: _Sources, lies: tuple[Picture, ...]) -> str:
    done = progress is not None and progress.place.step > step.number
    # The cautions stay on one page with what they are about.
    do = "".join(f"<li>{_box(done)}{escape(write(line, unit))}</li>" for line in step.do)
    parts = [
        f'<div class="start"><h2>{_box(done)}{step.number}. {escape(step.step.title)}</h2>'
        f"{_cautions(arrange(step.cautions)[0], unit)}{f'<ul>{do}</ul>' if do else ''}</div>"
    ]
    parts += [_picture(one, unit) for one in lies]
    if step.problem:
        parts.append(
            f"<p><b>This step cannot be worked for this shop:</b> {escape(write(step.problem, unit))} "
            f"{escape(step.remedy)}</p>"
        )
    if step.answer:
        parts.append(_answer(step, step.answer, unit, progress, sources))
    if step.limits:
        parts.append(_measure(step, step.limits, unit, progress))
    return "<section>" + "".join(parts) + "</section>"


def _box(ticked: bool) -> str:
    return f'<span class="box">{"X" if ticked else ""}</span>'


def _cautions(cautions: Iterable[Caution], unit: str) -> str:
    """Each in full: word, hazard, the number that raised it, a question to answer by hand."""
    found = []
    for caution in cautions:
        because = f" ({escape(write(caution.because, unit))})" if caution.because else ""
        asked = f" <i>{escape(write(caution.question, unit))}</i> {_box(False)}yes {_box(False)}no"
        question = asked if caution.question else ""
        found.append(
            f'<p class="caution"><span class="word">{escape(caution.word)}</span> '
            f"{escape(write(caution.text, unit))}{because}{question}</p>"
        )
    return "".join(found)


def _listed(cautions: Iterable[Caution], unit: str) -> str:
    """In small type, a line each."""
    rows = "".join(f"<li><b>{escape(c.word)}</b> {escape(write(c.text, unit))}</li>" for c in cautions)
    return f'<ul class="small">{rows}</ul>'


def _other_cautions(worked: Worked, unit: str) -> str:
    """Those that a step's few lines had no room for, once, after the steps."""
    beside = {c.id for step in worked.steps for c in arrange(step.cautions)[0]}
    rest = {c.id: c for step in worked.steps for c in step.cautions if c.id not in beside}
    return f"<h2>More cautions for this work</h2>{_listed(in_order(rest.values()), unit)}" if rest else ""


def _answer(step: WorkedStep, answer: Answer, unit: str, progress: Progress | None, sources: _Sources) -> str:
    parts = [f"<h3>{escape(step.heading)}</h3>"]
    if lead := step.lead:
        parts.append(
            f'<p class="main">{escape(lead.label)}: <span class="lead">{escape(figure_text(lead, unit))}</span></p>'
        )
    parts.append(_figures(answer.figures, unit, sources))
    parts.extend(f"<p>{escape(write(note.text, unit))}</p>" for note in answer.notes)
    tables = [table for table in answer.tables if table is step.table or not table.aside]
    parts.extend(_table(table, table is step.table, step, unit, progress, sources) for table in tables)
    parts.extend(_picture(picture, unit) for picture in answer.pictures)
    return "".join(parts)


def _figures(figures: tuple[Figure, ...], unit: str, sources: _Sources) -> str:
    limited = any(limits_text(f, unit) for f in figures)
    limits = [f'<td class="n">{escape(limits_text(f, unit))}</td>' if limited else "" for f in figures]
    rows = "".join(
        f"<tr><td>{escape(f.label)}</td><td{_number_cell(f)}>{escape(figure_text(f, unit))}</td>"
        f"{between}<td>{escape(write(f.working, unit))}</td>"
        f"<td>{sources.mark(f.source)}</td></tr>"
        for f, between in zip(figures, limits, strict=True)
    )
    column = "<th>Limits</th>" if limited else ""
    head = f"<tr><th>Figure</th><th>Value</th>{column}<th>How</th><th>Source</th></tr>"
    return f"<table><thead>{head}</thead><tbody>{rows}</tbody></table>"


def _number_cell(figure: Figure) -> str:
    return "" if figure.value is None else ' class="n"'


def _table(
    table: Table, stepped: bool, step: WorkedStep, unit: str, progress: Progress | None, sources: _Sources
) -> str:
    """A table, its empty columns left out; one whose rows are done one at a time has a box before each."""
    ticks = bool(table.count_noun)
    kept = [any(row[i] not in (None, "") for row in table.rows) for i in range(len(table.columns))]
    head = ("<th>Done</th>" if ticks else "") + "".join(
        f"<th>{escape(head_text(column, unit))}</th>" for column in compress(table.columns, kept)
    )
    rows = []
    for number, row in enumerate(table.rows, 1):
        cells = "".join(
            f"<td{_numeric(column)}>{escape(cell_text(cell, column, unit))}</td>"
            for column, cell in compress(zip(table.columns, row, strict=True), kept)
        )
        box = f"<td>{_box(stepped and _row_done(step.number, number, progress))}</td>" if ticks else ""
        rows.append(f"<tr>{box}{cells}</tr>")
    mark = sources.mark(table.source)
    title = f"<h3>{escape(table.label)} {mark}</h3>"
    return f"{title}<table><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"


def _numeric(column: Column) -> str:
    return "" if column.dimension == "text" else ' class="n"'


def _row_done(step: int, row: int, progress: Progress | None) -> bool:
    if progress is None:
        return False
    return progress.place.step > step or (progress.place.step == step and progress.place.row > row)


def _picture(picture: Picture, unit: str) -> str:
    drawn = "".join(svg(picture, unit))
    if not drawn:
        return ""
    size = " At true size when printed at 100 %." if picture.true_size else " Not to scale."
    caption = f"{escape(picture.title)}.{size}"
    return f'<figure>{drawn}<figcaption class="small">{caption}</figcaption></figure>'


def _measure(step: WorkedStep, limits: Limits, unit: str, progress: Progress | None) -> str:
    between = bounds_text(limits.low, limits.high, unit)
    taken = [r for r in progress.readings if r.step == step.number] if progress else []
    rows = (
        "".join(_reading(r, unit) for r in taken) + "<tr class='blank'><td></td><td></td><td></td></tr>" * _BLANK_ROWS
    )
    head = '<tr><th class="wide">Reading</th><th class="wide">Dial</th><th class="wide">When</th></tr>'
    name = "inch" if unit == "inch" else "mm"
    return (
        f"<h3>Measure: {escape(limits.what)}, {escape(between)} {name}</h3>"
        f"<table><thead>{head}</thead><tbody>{rows}</tbody></table>"
    )


def _reading(reading: Reading, unit: str) -> str:
    was = "".join(f" <s>{escape(show(old, 'length', unit))}</s>" for old in reading.was)
    dial = "" if reading.dial is None else show(reading.dial, "length", unit)
    size = show(reading.reading, "length", unit)
    return (
        f'<tr><td class="n">{escape(size)}{was}</td><td class="n">{escape(dial)}</td>'
        f"<td>{escape(when(reading.at))}</td></tr>"
    )
