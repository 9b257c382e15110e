"""Every string that was found wrong was decided: the old one is gone, the new one stands."""

import csv
from functools import cache
from pathlib import Path

import pytest

from engine.base.operation import run
from engine.base.quantity import show
from engine.base.register import CATALOG, load
from engine.base.showing import cell_text, figure_text
from engine.shop.file import sample
from tests.rows import each_row
from tui.form import Form
from tui.panes.bench_state import BenchState
from tui.panes.bench_view import bench_lines
from tui.session import OpenOperation, Session

ROOT = Path(__file__).parents[2]
TABLE = ROOT / "tests" / "data" / "tui" / "wording.csv"
ROWS = list(csv.DictReader(line for line in TABLE.read_text(encoding="utf-8").splitlines() if line[:1] != "#"))


@cache
def sources(where: str) -> str:
    """The text of a file, or of every file of a folder."""
    place = ROOT / where
    files = [place] if place.is_file() else sorted((*place.rglob("*.py"), *place.rglob("*.csv")))
    return "\n".join(file.read_text(encoding="utf-8") for file in files)


@each_row("row", ROWS, ids=lambda row: row["number"])
def test_what_was_wrong_is_gone_and_what_was_decided_stands(row):
    assert row["decision"] == "taken" or (row["decision"] == "other" and row["why"])
    if row["was"]:
        for where in ("engine", "tui"):
            assert row["was"] not in sources(where), where
    assert row["now"] in sources(row["where"])


def test_none_is_left_out():
    assert [int(row["number"]) for row in ROWS] == list(range(1, 73))


@pytest.mark.parametrize("entry", CATALOG, ids=lambda e: e.id)
def test_what_cannot_be_used_is_refused_in_the_form_by_its_label(entry):
    """accepted by its label: no name of the shell's stands in a form."""
    session = Session()
    one = session.open(entry)
    assert isinstance(one, OpenOperation) and isinstance(one.form, Form)
    name = next((n for n, ask in one.form.asks.items() if ask.kind in ("length", "diameter", "number", "count")), "")
    if not name:
        return
    session.open_by_id(entry.id, {**load(entry.id).example, name: "wide"})
    one = session.here()
    session.reckon(one, 30)
    shown = "\n".join("".join(t for t, _ in runs) for runs in bench_lines(session, BenchState(), 100, 40).lines)
    assert one.refusal and f"! {name}:" not in shown
    assert one.form.asks[name].label.split(":")[0] in shown.partition("! ")[2]


@pytest.mark.parametrize("unit", ["mm", "inch"])
def test_seconds_of_arc_never_look_like_inches(unit):
    """A second's mark stands only behind degrees and minutes; seconds alone have their name."""
    assert show(12.0, "seconds_of_arc", unit) == "12.0 arcsec"
    shop = sample("metric")
    for name in ("rotary-table", "divide", "scale-lines", "vernier"):
        answer = run(name, load(name).example, shop).answer
        texts = [figure_text(f, unit) for f in answer.figures]
        rows = [(t.columns, row) for t in answer.tables for row in t.rows[:4]]
        texts += [cell_text(v, c, unit) for columns, row in rows for v, c in zip(row, columns, strict=True)]
        for text in texts:
            assert '"' not in text or "° " in text, text
