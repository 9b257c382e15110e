"""The card on paper: how many sides, true size, nothing from outside, every word as text, one card in three formats."""

import math
import re
import shutil
import subprocess
import zlib
from functools import cache
from pathlib import Path

import pytest

import recipes
from engine.base.layout import Stroke
from engine.base.words import in_words, write
from engine.jobs.card import card
from engine.jobs.journal import Journal
from engine.part.plan_card import planned
from engine.shop.file import sample
from tests.engine.jobs.plans import HEAD, worked
from tests.pages import Seen
from tui.paper.card_flow import SIDES, Layout, card_pages, drawn_rooms, fitted
from tui.paper.flow import A4, LETTER, Drawn, Words
from tui.paper.letters import width
from tui.paper.made import Asked, Source, of_name, written
from tui.paper.text import WIDE

NAMES = sorted((*recipes.NAMES, *recipes.PARTS))
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


@cache
def source(name, shop="metric"):
    return of_name(name, sample(shop))


def plain(progress=None, text=HEAD + STEPS):
    done = worked(text)
    return Source(done, planned("", done.shop, []), progress)


def page(which, **asked):
    return written(which, Asked("html", **asked)).decode()


# How many sides


@pytest.mark.parametrize("name", NAMES)
def test_every_job_that_ships_takes_two_sides_in_letters_read_at_arms_length(name):
    made = card(source(name).worked, source(name).planned)
    for paper in (A4, LETTER):
        size = fitted(made, write, "mm", paper)
        assert size >= 7.5  # pt: read standing, at arm's length; common practice, no source
        assert len(card_pages(made, write, "mm", paper, size)) <= SIDES


@pytest.mark.parametrize("name", ["height-adjuster-nut", "bearing-flange"])
def test_inches_and_american_words_take_two_sides_too(name):
    which = source(name, "inch")

    def say(text):
        return in_words(write(text, "inch"), "american")

    made = card(which.worked, which.planned)
    assert len(card_pages(made, say, "inch", LETTER, fitted(made, say, "inch", LETTER))) <= SIDES


def test_nothing_is_printed_beyond_the_paper_and_no_row_is_cut():
    made = card(source("fence-scale").worked)
    for paper in (A4, LETTER):
        for marks in card_pages(made, write, "mm", paper, 8.0):
            for mark in marks:
                if isinstance(mark, Words):
                    end = mark.x + width(mark.text, mark.size, mark.bold)
                    assert paper.side - 0.1 <= mark.x and end <= paper.wide - paper.side + 1.0, mark.text
                    assert mark.y <= paper.high - paper.foot + 0.1, mark.text


# True size


def test_the_line_is_100_mm_long_and_the_scale_goes_once_round_the_drum():
    made = card(source("height-adjuster-nut").worked)
    drawn = [mark for marks in card_pages(made, write, "mm", A4, 8.0) for mark in marks if isinstance(mark, Drawn)]
    true = [mark.sheet.marks for mark in drawn if mark.sheet.scale == 1.0]
    lengths = [max(xs) - min(xs) for marks in true for xs in map(across, marks) if xs]
    assert min(abs(length - 100) for length in lengths) < 1e-6
    assert min(abs(length - math.pi * 25) for length in lengths) < 1e-6  # the drum of the recipe


def across(mark):
    """The places of a mark across the paper; words have none."""
    if hasattr(mark, "points"):
        return [x for x, _ in mark.points]
    return [mark.x1, mark.x2] if hasattr(mark, "x1") else []


# The page


def test_the_page_is_well_formed_and_refers_to_nothing_outside():
    html = page(source("hexagon-spacer"), full=True)
    seen = Seen(html)
    assert seen.open == []
    assert not {tag for tag, _ in seen.tags} & {"script", "img", "link", "iframe", "object", "embed", "a"}
    for _, attributes in seen.tags:
        assert not attributes.keys() & {"src", "href", "onload", "onclick"}
    assert "url(" not in html and "@import" not in html


def test_the_page_is_for_a_phone_too_and_its_ticks_can_be_ticked():
    seen = Seen(page(source("height-adjuster-nut")))
    assert ("meta", {"name": "viewport", "content": "width=device-width, initial-scale=1"}) in seen.tags
    boxes = [attributes for tag, attributes in seen.tags if tag == "input"]
    assert len(boxes) > 60
    assert all(box.get("aria-label") for box in boxes)
    tags = [tag for tag, _ in seen.tags]
    assert tags.count("table") == tags.count("caption")
    assert all(attributes.get("scope") for tag, attributes in seen.tags if tag == "th")


def test_every_word_of_a_recipe_is_text():
    html = page(plain())
    words = "".join(Seen(html).words)
    assert "Turn <i>it</i> & stop" in words
    assert 'Chuck "it" <script>alert(1)</script>' in words
    assert "<script>" not in html


def test_workings_sources_and_all_cautions_come_on_request_only():
    short, full = ("".join(Seen(page(plain(), full=full)).words) for full in (False, True))
    assert "outrank this program" in short and "10.000 to 10.100" in short
    assert "Sources" not in short and "Sources" in full
    assert full.count("WARNING") > 5 * short.count("WARNING")


def test_the_foot_has_shop_date_and_version_and_counts_the_pages():
    html = page(plain(), date="04 May 2031", version="9.9")
    assert re.search(r'@bottom-left \{ content: "[^"]*04 May 2031, Tommybar 9.9"', html)
    assert 'counter(page) " of " counter(pages)' in html


def test_a_shop_with_quotes_in_its_name_does_not_leave_the_style_sheet():
    done = plain()
    html = written(done, Asked("html", date='"</style><b>')).decode()
    assert html.count("</style>") == 1


def test_a_job_shows_what_is_done_and_what_was_read(tmp_path):
    journal = Journal(tmp_path / "jobs.db")
    job = journal.start(worked(HEAD + STEPS), HEAD + STEPS, "stop.toml")
    journal.noted(job.id, 1, 0, "Shim of 0.1 used")
    reading = journal.measured(job.id, 1, 10.24, dial=1.3, slide="cross").readings[0]
    journal.corrected(job.id, reading.seq, 10.04)
    progress = journal.done(job.id, job.progress.seq)
    seen = Seen(page(plain(progress)))
    boxes = {a["aria-label"]: a for tag, a in seen.tags if tag == "input"}
    assert "checked" in boxes["Step 1, piece 1"] and "checked" not in boxes["Step 2, piece 1"]
    assert boxes["Reading of step 1, piece 1"]["value"] == "10.040 mm"
    assert "step 2 of 2, Saw it off" in "".join(seen.words)
    assert "“Shim of 0.1 used”" in seen.words
    text = written(plain(progress), Asked("text")).decode()
    assert " 1 [x] Turn" in text and "read 10.040 mm" in text and " 2 [ ] Saw" in text


# Lines of text


@pytest.mark.parametrize("full", [False, True])
def test_the_text_is_plain_and_no_wider_than_a_line_printer(full):
    text = written(source("height-adjuster-screw"), Asked("text", full=full, date="04 May 2031")).decode("ascii")
    assert max(map(len, text.splitlines())) <= WIDE
    pages = text.split("\f")
    assert all(len(one.strip("\n").splitlines()) <= 66 for one in pages)  # 11 in at 6 lines an inch
    assert f"page {len(pages)} of {len(pages)}" in pages[-1]


@pytest.mark.parametrize("name", NAMES)
def test_a_line_printer_prints_every_job_that_ships_on_three_pages_at_the_most(name):
    assert written(source(name), Asked("text", date="04 May 2031")).decode("ascii").count("\f") < 3


# The file to print


def test_the_pdf_has_the_pages_of_the_layout_and_its_words():
    pytest.importorskip("pydyf", reason="the package pydyf makes the PDF")
    data = written(source("bearing-flange"), Asked("pdf", paper="A4", date="04 May 2031"))
    assert data.startswith(b"%PDF-") and data.rstrip().endswith(b"%%EOF")
    assert len(re.findall(rb"/Type /Page\b(?!s)", data)) <= SIDES
    streams = [zlib.decompress(one) for one in re.findall(rb"stream\n(.*?)\nendstream", data, re.S)]
    shown = b" ".join(streams)
    assert b"(Bearing flange, 1 off) Tj" in shown and b"(Page 1 of 2) Tj" in shown and b"04 May 2031" in shown


def test_the_full_pdf_is_the_card_with_the_rest_behind_it():
    pytest.importorskip("pydyf", reason="the package pydyf makes the PDF")
    short, full = (written(source("hexagon-spacer"), Asked("pdf", full=one)) for one in (False, True))
    pages = [len(re.findall(rb"/Type /Page\b(?!s)", data)) for data in (short, full)]
    assert pages[0] <= SIDES < pages[1]


# In a browser


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
def test_a_browser_prints_the_longest_job_on_two_sides_true_to_size(tmp_path, paper):
    html = page(source("height-adjuster-nut")).replace("@page { ", f"@page {{ size: {paper}; ")
    printed_to = printed(html, tmp_path)
    told = subprocess.run(["pdfinfo", printed_to], capture_output=True, text=True, timeout=60).stdout
    assert int(re.search(r"Pages:\s+(\d+)", told)[1]) <= SIDES
    lengths = widths(printed_to)
    assert min(abs(length - 100) for length in lengths) < 0.1
    assert min(abs(length - math.pi * 25) for length in lengths) < 0.1  # the drum of the recipe


def test_a_plan_in_inches_has_the_mm_behind_on_a_card_for_dials_in_mm():
    which = source("lock-knob", "inch")
    words = " ".join(written(which, Asked("text", unit="mm")).decode().split())
    both = re.findall(r"([\d.]+) in \(([\d.]+) mm\)", words)
    assert len(both) > 20 and "mm behind them; limits" in words
    assert all(abs(float(inch) * 25.4 - float(mm)) <= 0.0051 for inch, mm in both)  # 25.4 mm exactly: ISO 80000-3
    assert not re.search(r" in \([\d.]+ mm\)", written(which, Asked("text", unit="inch")).decode())


def test_a_part_in_inches_has_a_card_in_mm_on_a_metric_bench():
    words = written(source("lock-knob"), Asked("text", unit="mm")).decode()
    assert not re.search(r"\d\.\d+ in\b", words.replace("(0.2 in)", ""))  # a caution says both


def test_the_drawing_of_a_short_part_has_room_for_its_words_in_letters_of_any_size():
    """The knob's words stood over one another: its card has large letters, its room was as wide as for small ones."""
    made = card(source("lock-knob").worked, source("lock-knob").planned)
    for size in (7.0, 8.5, 10.0):
        _, (drawn,) = Layout(lambda text: write(text, "mm"), "mm", size).picture(
            made.parts[0], *drawn_rooms(made, size)
        )
        ends = [x for one in drawn.sheet.marks if isinstance(one, Stroke) and one.weight == 1 for x in (one.x1, one.x2)]
        assert max(ends) - min(ends) > 1.9 * size, size  # mm: as wide as some eleven letters of its words
