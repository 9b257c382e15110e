"""The card as one self-contained page: it prints well, its ticks are real boxes, and a phone shows it without scrolling
sideways. With what stands behind it, if that is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from html import escape
from itertools import compress

from engine.base.answer import Caution, Column, Picture, Table
from engine.base.quantity import bounds_text
from engine.base.showing import cell_text, figure_text, head_text, limits_text
from engine.jobs.behind import Behind, Working
from engine.jobs.card import Card, Row, Strip
from engine.jobs.svg import svg
from engine.jobs.ticks import Ticks
from engine.safety import deferral
from tui.paper.card_flow import (
    COLUMNS,
    HEADS,
    WIDE,
    Layout,
    drawn_rooms,
    held_room,
    small_room,
    step_columns,
    told_inside,
)
from tui.paper.letters import POINT
from tui.paper.style import style
from tui.paper.true import TRUE_TEXT, true_strips
from tui.paper.words import (
    Say,
    before_words,
    caution_words,
    cautions,
    head_words,
    laid_out_words,
    measured_words,
    tick_words,
    title_of,
)


def page(card: Card, say: Say, unit: str, *, size: float, foot: str, behind: Behind | None = None) -> str:
    """The whole page; `size` are its letters on paper [pt], `foot` what stands under every page."""
    made = _Page(say, unit, size)
    sheet = style(size, drawn_rooms(card, size)[0], _css(foot))
    rest = made.behind(behind) if behind else ""
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
        f"<title>{escape(card.title)}</title><style>{sheet}</style></head><body>"
        f'<main class="card">{made.head(card)}{made.before()}{made.grid(card)}'
        f"{made.true(card)}</main>{rest}<p class='foot'>{escape(foot)}</p></body></html>\n"
    )


def _css(text: str) -> str:
    """A text as a string of a style sheet."""
    return re.sub(r'[\\"<>]|[^ -~]', lambda found: f"\\{ord(found[0]):x} ", text)


def _box(done: bool, name: str) -> str:
    return f'<input type="checkbox" aria-label="{escape(name)}"{" checked" if done else ""}>'


def _field(name: str, value: str = "") -> str:
    return f'<input type="text" inputmode="decimal" aria-label="{escape(name)}" value="{escape(value)}">'


class _Page:
    """Writes the parts of the page in one unit and one set of words."""

    def __init__(self, say: Say, unit: str, size: float) -> None:
        self.say, self.unit, self.size = say, unit, size
        self.lay = Layout(say, unit, size)

    def words(self, text: object) -> str:
        return escape(self.say(text))  # type: ignore[arg-type]

    def picture(self, picture: Picture, wide: float, tall: float) -> str:
        said = svg(picture, self.unit, widest=wide, tallest=tall, text=self.size * 0.9 * POINT)
        return "".join(said)

    # The head

    def head(self, card: Card) -> str:
        drawn = "".join(f"<div>{self.picture(one, *drawn_rooms(card, self.size))}</div>" for one in card.parts)
        told = [f"<p>{escape(text)}</p>" for text in head_words(card, self.say, self.unit)]
        title = f"<h1>{self.words(title_of(card))}</h1>"
        listed = "".join(
            f"<li><label>{_box(False, self.say(one.what))} {escape(laid_out_words(one, self.say))}</label></li>"
            for one in card.lay_out
        )
        lay_out = f"<p><b>Lay out, in the order of use:</b></p><ul>{listed}</ul>" if listed else ""
        words = f'<div class="told">{title if drawn else ""}{"".join(told)}{lay_out}</div>'
        kind = {0: "plain", 1: "one"}.get(len(card.parts), "more")
        return f'{"" if drawn else title}<div class="head {kind}">{drawn}{words}</div>'

    def before(self) -> str:
        return f'<p class="small">{escape(before_words(self.say))}</p>'

    # The grid, a strip for each set-up

    def grid(self, card: Card) -> str:
        widths = "".join(f'<col style="width:{100 * wide / WIDE:.2f}%">' for wide in COLUMNS)
        heads = "".join(f'<th scope="col">{head or "No"}</th>' for head in HEADS)
        strips = "".join(self.strip(one) for one in card.strips)
        caption = "<caption>The steps, by set-up</caption>"
        return f"<table>{caption}<colgroup>{widths}</colgroup><thead><tr>{heads}</tr></thead>{strips}</table>"

    def strip(self, strip: Strip) -> str:
        facts = "".join(self.fact(name, self.say(value)) for name, value in strip.facts)
        drawn = self.picture(strip.picture, *held_room(self.size)) if strip.picture and facts else ""
        title = f"<h2>{strip.number}&ensp;{self.words(strip.title)}</h2>"
        held = f'<div class="held">{f"<div>{drawn}</div>" if drawn else ""}<div class="told">{title}<dl>{facts}</dl></div></div>'
        then = " ".join(self.words(line) for line in strip.after)
        last = len(strip.gates) - 1
        gates = "".join(
            f'<p class="gate"><label>{_box(gate.done, gate.words)} Do not let go {self.words(gate.says)}'
            f"{f' {then}' if i == last else ''}</label></p>"
            for i, gate in enumerate(strip.gates)
        )
        after = f'<p class="gate">{then}</p>' if then and not gates else ""
        too_far = f"<p>{' '.join(self.words(line) for line in strip.too_far)}</p>" if strip.too_far else ""
        span = f'colspan="{len(COLUMNS)}"'
        foot = f'<tbody class="foot-of"><tr><td {span}>{gates}{after}{too_far}</td></tr></tbody>'
        head = f'<tbody class="strip"><tr><th scope="rowgroup" {span}>{held}</th></tr></tbody>'
        rows = "".join(self.row(row) for row in strip.rows)
        return f"{head}{rows}{foot if gates or too_far or after else ''}"

    def fact(self, name: str, value: str) -> str:
        said = escape(value) if value else _field(name)
        return f"<div><dt>{escape(self.say(name))}</dt><dd>{said}</dd></div>"

    # A row

    def row(self, row: Row) -> str:
        drawn = self.picture(row.picture, *small_room(row, self.lay)) if row.picture else ""
        boxes = "".join(_box(done, f"Step {row.number}, piece {i}") for i, done in enumerate(row.done, 1))
        do = f"<p>{' '.join(self.words(line) for line in row.do)}</p>" if row.do else ""
        do += "".join(f"<p>{escape(note)}</p>" for note in row.notes)
        problem = f"<p><b>Cannot be worked here: {self.words(row.problem)}</b></p>" if row.problem else ""
        said = [f"<b>{self.words(one)}</b>" if i == 0 else self.words(one) for i, one in enumerate(row.sets)]
        sets = " ".join(f'<span class="set">{one}</span>' for one in said)
        tool = f'<span class="tool">{self.words(row.tool)}</span> ' if row.tool else ""
        cells = ((3, f"{tool}{sets}"), (4, self.limits(row)))
        one = " one" if row.measured and len(row.measured.readings) == 1 else ""
        columns = step_columns(row)
        named = [f' data-head="{HEADS[i]}"' if cell else "" for i, cell in cells]
        tds = "".join(f'<td class="c{i}{one}"{name}>{cell}</td>' for (i, cell), name in zip(cells, named, strict=True))
        tds = "" if columns == 4 else tds
        warned = "".join(f"<p>{escape(one)}</p>" for one in cautions(row, self.say))
        wide = f' colspan="{columns}"' if columns > 1 else ""
        beside = f" ({self.words(row.tool)})" if row.tool and columns == 4 else ""
        inside = told_inside(row, self.lay)
        below = [] if inside or not warned else [self.below("warned", warned)]
        below += [self.below("ticks", self.ticks(row.ticks))] if row.ticks else []
        more = ' class="main more"' if below else ' class="main"'
        main = (
            f"<tr{more}><td><b>{row.number}</b> {boxes}</td>"
            f'<th scope="row"{wide}>{self.words(row.title)}{beside}{do}{problem}{warned if inside else ""}</th>'
            f"{f'<td>{drawn}</td>' if drawn else ''}{tds}</tr>"
        )
        return f"<tbody>{main}{''.join(below)}</tbody>"

    def below(self, kind: str, words: str) -> str:
        """A line of a row that is as wide as the card: its cautions, its ticks."""
        return f'<tr class="{kind}"><td colspan="{len(COLUMNS)}">{words}</td></tr>'

    def limits(self, row: Row) -> str:
        measured = row.measured
        if measured is None:
            return ""
        between = escape(bounds_text(measured.low, measured.high, self.unit))
        fields = "".join(
            _field(f"Reading of step {row.number}, piece {i}", self.say(reading))
            for i, reading in enumerate(measured.readings, 1)
        )
        what = measured_words(row, self.say)
        return f"{f'{escape(what)}<br>' if what else ''}<b>{between}</b><br>{fields}"

    def ticks(self, ticks: Ticks) -> str:
        head, each = tick_words(ticks, self.say)
        rows = "".join(self.tick(ticks.noun, *one) for one in each)
        return f'<b class="small">{escape(head)}</b> {rows}'

    def tick(self, noun: str, number: int, done: Iterable[bool], words: str) -> str:
        boxes = "".join(_box(one, f"{noun} {number}, piece {i}") for i, one in enumerate(done, 1))
        bare = "" if words else " bare"
        return f'<span class="tick{bare}"><b class="small">{number}</b>{boxes} {escape(words)}</span>'

    # The end

    def true(self, card: Card) -> str:
        return "".join(
            f"<figure>{''.join(svg(one, self.unit, widest=WIDE, text=TRUE_TEXT))}"
            f"<figcaption>{self.words(words)}</figcaption></figure>"
            for one, words in true_strips(card.true, self.unit)
        )

    # What stands behind it

    def behind(self, behind: Behind) -> str:
        rules = f"<h2>Before any work</h2>{self.listed(behind.rules)}<p>{self.words(deferral())}</p>"
        workings = "".join(self.working(one, behind) for one in behind.workings)
        sources = "".join(f"<li>[{number}] {escape(source)}</li>" for source, number in behind.sources.items())
        listed = f'<h2>Sources</h2><ul class="small">{sources}</ul>' if sources else ""
        return f'<section class="behind"><h1>Workings, cautions and sources</h1>{rules}{workings}{listed}</section>'

    def listed(self, ones: Iterable[Caution]) -> str:
        return f"<ul>{''.join(f'<li>{self.words(line)}</li>' for line in map(self.caution, ones))}</ul>"

    def caution(self, one: Caution) -> str:
        return caution_words(one, self.unit)

    def working(self, one: Working, behind: Behind) -> str:
        notes = "".join(f"<p>{self.words(note)}</p>" for note in one.notes)
        tables = "".join(self.table(table, behind) for table in one.tables)
        figures = self.figures(one, behind) if one.figures else ""
        return f"<h2>{one.number}. {self.words(one.title)}</h2>{figures}{notes}{tables}{self.listed(one.cautions)}"

    def figures(self, one: Working, behind: Behind) -> str:
        rows = "".join(
            f'<tr><th scope="row">{self.words(figure.label)}</th><td class="n">{self.words(figure_text(figure, self.unit))}'
            f'</td><td class="n">{escape(limits_text(figure, self.unit))}</td><td>{self.words(figure.working)}</td>'
            f"<td>{_mark(figure.source, behind)}</td></tr>"
            for figure in one.figures
        )
        head = "".join(f'<th scope="col">{name}</th>' for name in ("Figure", "Value", "Limits", "How", "Source"))
        return f"<table><caption>Figures</caption><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"

    def table(self, table: Table, behind: Behind) -> str:
        kept = [any(cell not in (None, "") for cell in table.column(column.name)) for column in table.columns]
        heads = "".join(
            f'<th scope="col">{self.words(head_text(c, self.unit))}</th>' for c in compress(table.columns, kept)
        )
        rows = "".join(f"<tr>{''.join(self.cells(table.columns, row, kept))}</tr>" for row in table.rows)
        caption = f"<caption>{self.words(table.label)} {_mark(table.source, behind)}</caption>"
        return f"<table>{caption}<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"

    def cells(self, columns: tuple[Column, ...], row: tuple[object, ...], kept: list[bool]) -> Iterator[str]:
        for column, cell in compress(zip(columns, row, strict=True), kept):
            number = "" if column.dimension == "text" else ' class="n"'
            yield f"<td{number}>{self.words(cell_text(cell, column, self.unit))}</td>"  # type: ignore[arg-type]


def _mark(source: str, behind: Behind) -> str:
    return f"[{behind.sources[source]}]" if source else ""
