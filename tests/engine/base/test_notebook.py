"""An answer in a notebook: whole, well formed, and without anything that could run."""

from xml.etree import ElementTree

from engine.base.operation import run
from engine.base.register import CATALOG, load
from engine.shop.file import sample
from tests.rows import each_row


@each_row("operation", [entry.id for entry in CATALOG])
def test_every_answer_shows_itself_whole(operation):
    done = run(operation, dict(load(operation).example), sample("metric"))
    page = ElementTree.fromstring(f"<div>{done._repr_html_()}</div>")
    cells = [cell.text or "" for cell in page.iter("td")]
    assert all(figure.label in cells for figure in done.answer.figures)
    assert len(list(page.iter("table"))) == 1 + len(done.answer.tables)
    assert len(list(page.iter("li"))) == len(done.answer.cautions)


def test_it_is_in_the_unit_that_was_asked_in():
    given = {"size": "1/4-20"}
    assert "0.2" in run("tap-drill", given, sample("inch"), unit="inch")._repr_html_()
    assert "mm</td>" in run("tap-drill", given, sample("inch"))._repr_html_()
