"""The sheet: nothing from outside, everything escaped, ticks and readings of a job, true size on paper."""

import math
import re
import shutil
import subprocess
from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.answer import Circle, Label, Line, Picture, Polygon
from engine.jobs.journal import Journal
from engine.jobs.library import open_recipe
from engine.jobs.run import resolve
from engine.jobs.sheet import file_name, page
from engine.jobs.svg import WIDEST, svg
from engine.shop.file import sample
from tests.engine.jobs.plans import HEAD, worked

STEPS = """
[[steps]]
id = "turn"
title = "Turn <i>it</i> & stop"
do = ["Chuck \\"it\\" <script>alert(1)</script>"]
operation = "hand-dial"
hazards = ["measuring"]
[steps.inputs]
distance = 17.35
[steps.measure]
what = "Width"
low = 10
high = 10.1
[[steps]]
id = "off"
title = "Saw it off"
hazards = ["filing"]
"""


class Seen(HTMLParser):
    """Tags and attributes of a page; the text between them."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.open, self.words = [], [], []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in ("meta", "br", "circle", "line", "polygon"):
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.words.append(data)


def sheet(text=HEAD + STEPS, **more):
    return page(worked(text), unit="mm", **more)


def test_the_page_is_well_formed_and_refers_to_nothing_outside():
    seen = Seen(sheet())
    assert seen.open == []
    names = {tag for tag, _ in seen.tags}
    assert not names & {"script", "img", "link", "iframe", "object", "embed", "a"}
    for _, attributes in seen.tags:
        assert not attributes.keys() & {"src", "href", "onload", "onclick"}
    assert "url(" not in sheet()
    assert "@import" not in sheet()


def test_no_column_is_empty_and_cautions_stay_with_what_they_are_about():
    assert "<th>Limits</th>" not in sheet()  # hand-dial's figures have none
    drum = HEAD + '[[steps]]\nid = "a"\ntitle = "Blank"\noperation = "knurl-blank"\ninputs = { near = 20 }\n'
    assert "<th>Limits</th>" in sheet(drum)
    moves = HEAD + '[[steps]]\nid = "a"\ntitle = "Move"\noperation = "hand-dial"\ninputs = { moves = "1, 1" }\n'
    assert "first past" not in sheet(moves)  # nothing is backed off here
    start = re.search(r'<div class="start">.*?</div>', sheet())[0]
    assert "<h2>" in start and 'class="caution"' in start and "Chuck" in start


def test_every_word_of_a_recipe_is_text():
    words = "".join(Seen(sheet()).words)
    assert "Turn <i>it</i> & stop" in words
    assert 'Chuck "it" <script>alert(1)</script>' in words
    assert "<script>" not in sheet()


def test_figures_limits_cautions_and_sources_are_there():
    words = "".join(Seen(sheet()).words)
    assert "Measure: Width, 10.000 to 10.100 mm" in words
    assert "Sources" in words
    assert "outrank this program" in words


def test_a_job_shows_what_is_done_and_what_was_read(tmp_path):
    plan = worked(HEAD + STEPS)
    journal = Journal(tmp_path / "jobs.db")
    job = journal.start(plan, HEAD + STEPS, "stop.toml")
    reading = journal.measured(job.id, 1, 10.24, dial=1.3, slide="cross").readings[0]
    journal.corrected(job.id, reading.seq, 10.04)
    progress = journal.done(job.id, job.progress.seq)
    words = "".join(Seen(page(plan, unit="mm", progress=progress)).words)
    assert "X1. Turn" in words  # ticked
    assert "X2. Saw" not in words
    assert "10.040 mm 10.240 mm1.300 mm" in words  # now, struck out, dial
    assert "step 2 of 2, Saw it off" in words


def test_a_step_that_cannot_be_worked_says_so_on_paper():
    text = (
        HEAD + '[[steps]]\nid = "a"\ntitle = "A"\noperation = "hand-dial"\ncount = "nothing"\ninputs = { distance = 3 }'
    )
    assert "This step cannot be worked for this shop:" in sheet(text)


def test_the_file_name_is_never_a_path():
    assert file_name("../../Fence: stop/№ 1") == "fence-stop-1.html"


SHAPES = st.one_of(
    st.builds(Line, *[st.floats(allow_nan=True)] * 4),
    st.builds(Circle, *[st.floats(-1e3, 1e3)] * 3),
    st.builds(Label, st.floats(-1e3, 1e3), st.floats(-1e3, 1e3), st.text(max_size=20)),
    st.builds(Polygon, st.lists(st.tuples(st.floats(-99, 99), st.floats(-99, 99)), min_size=1, max_size=5).map(tuple)),
)


@settings(max_examples=60, deadline=None)
@given(st.lists(SHAPES, max_size=6).map(tuple), st.booleans())
def test_any_picture_is_drawn_without_a_number_that_svg_cannot_read(shapes, true_size):
    for element in svg(Picture("p", "P", shapes, "A <picture>", true_size=true_size)):
        Seen(element)
        assert "nan" not in element.split("<title>")[0]
        assert "inf" not in element.split("<title>")[0]


def test_a_long_true_strip_is_cut_into_pieces_that_fit_the_paper():
    strip = Picture("s", "Strip", (Line(0, 0, 400, 0),), "A strip.", true_size=True)
    pieces = [float(re.search(r'width="([\d.]+)mm"', one)[1]) for one in svg(strip)]
    assert sum(pieces) == pytest.approx(402)  # 1 mm of margin at either end
    assert max(pieces) <= WIDEST


# On paper


def widths(path: Path) -> list[float]:
    """The width in mm of every straight-sided shape on the pages of a PDF."""
    told = subprocess.run(["pdfinfo", path], capture_output=True, text=True, timeout=60).stdout
    found = []
    for number in range(1, int(re.search(r"Pages:\s+(\d+)", told)[1]) + 1):
        line = ["pdftocairo", "-svg", "-f", str(number), "-l", str(number), str(path), "-"]
        drawn = subprocess.run(line, capture_output=True, text=True, timeout=60).stdout
        for d, scale in re.findall(r'<path[^>]* d="([^"C]+)"[^>]*transform="matrix\(([\d.]+),', drawn):
            xs = [float(x) for x in re.findall(r"[ML] (\S+) \S+", d)]
            found.append((max(xs) - min(xs)) * float(scale) * 25.4 / 72)  # a point is 1/72 in
    return found


def printed(html: str, folder: Path) -> Path:
    browser = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if browser is None:
        pytest.skip("no Chromium here to print the sheet with: install the package chromium")
    if shutil.which("pdftocairo") is None or shutil.which("pdfinfo") is None:
        pytest.skip("no pdftocairo here to measure the printed sheet with: install the package poppler-utils")
    source, target = folder / "sheet.html", folder / "sheet.pdf"
    source.write_text(html, encoding="utf-8")
    flags = "--headless --no-sandbox --disable-gpu --no-first-run --disable-background-networking"
    more = "--disable-component-update --disable-sync --no-pdf-header-footer"
    line = [browser, *flags.split(), *more.split(), f"--user-data-dir={folder / 'profile'}"]
    done = subprocess.run(
        [*line, f"--print-to-pdf={target}", source.as_uri()], capture_output=True, text=True, timeout=120
    )
    assert target.exists(), done.stderr
    return target


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_on_paper_the_strip_is_100_mm_long_and_the_scale_goes_once_round_the_drum(tmp_path, paper):
    recipe, _ = open_recipe("height-adjuster-nut")
    plan = resolve(recipe, sample("metric"))
    html = page(plan, unit="mm").replace("@page { ", f"@page {{ size: {paper}; ")
    lengths = widths(printed(html, tmp_path))
    assert min(abs(length - 100) for length in lengths) < 0.1
    around = math.pi * 25  # the drum of the recipe
    assert min(abs(length - around) for length in lengths) < 0.1
