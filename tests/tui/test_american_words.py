"""Every text that an American shop is shown, gone through once: no British word of the table and no British spelling is
left, and what the person has written stays as it was written."""

import re
from pathlib import Path

import pytest

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.register import CATALOG, load
from engine.base.tables import rows
from engine.base.words import in_words
from engine.shop.edit import sample_text
from engine.shop.file import sample, shop_path
from tests.tui.driving import driving
from tui.__main__ import main
from tui.form import Form
from tui.glyphs import own, plain
from tui.wording import speak

ROOT = Path(__file__).parents[2]
TABLE = {row["british"]: row["american"] for row in rows("words.csv")}
BRITISH = re.compile(r"\b(" + "|".join(map(re.escape, TABLE)) + r")\b", re.IGNORECASE)
# How British spellings end, and the words that end so in America too.
SPELT = re.compile(
    r"\b[a-z]+(?:ours?|oured|ises?|ised|ising|isation|yses?|ysed|tres?|elled|elling|ogue)\b", re.IGNORECASE
)
BOTH = re.compile(
    r"(f|h|y|p|)ours?|pour|treatise|(counter)?clockwise|otherwise|likewise|wise|(raise|rise|noise|precise|exercise|vise)[sd]?|"
    r"(p?re|sur|pro|com)?mises?|advises?|surprise",
    re.IGNORECASE,
)


@pytest.fixture(autouse=True)
def american():
    """The person's own shop is an inch bench; every door finds that out by itself."""
    path = shop_path()
    path.parent.mkdir(parents=True)
    path.write_text(sample_text("inch"), encoding="utf-8")
    speak("british")
    yield
    speak("british")


def left(text: str, own_words: tuple[str, ...] = ()) -> set[str]:
    """British words in a text, but those that stand in somebody's own."""
    found = {one[0].lower() for one in BRITISH.finditer(text) if "_" not in one[0]}
    found |= {one[0].lower() for one in SPELT.finditer(text) if not BOTH.fullmatch(one[0])}
    return {word for word in found if not any(word in one.lower() for one in own_words)}


def said(capsys, *words: str) -> str:
    """What a door says; the ids of operations are typed as they are, in every shop."""
    main(list(words))
    shown = capsys.readouterr()
    return re.sub(rf"\b({'|'.join(one.id for one in CATALOG)})\b", "", shown.out + shown.err)


@pytest.mark.parametrize("entry", CATALOG, ids=lambda e: e.id)
def test_an_operation_at_the_shell(entry, capsys):
    """What it takes, its answer, its cautions, what goes wrong with it."""
    declared = load(entry.id)
    questions = asks(declared.inputs)
    given = {n: questions[n].sort.with_unit(str(v), questions[n], "mm") for n, v in declared.example.items()}
    typed = tuple(given.values())
    text = said(capsys, "work", entry.id) + said(
        capsys, "work", entry.id, *(f"{n}={v}" for n, v in given.items()), "--plain", "--trouble"
    )
    # A line of `--set-up`, the name of an input and a value are typed as they are declared.
    text = re.sub(r"(?m)^Example: .*$|^  [a-z_]+ ", "", text)
    assert text.strip() and not left(text, typed)


@pytest.mark.parametrize("entry", CATALOG, ids=lambda e: e.id)
def test_a_choice_is_taken_by_the_word_that_is_shown(entry):
    """`compound` is what an American screen calls the top slide, so it may be typed."""
    for name, ask in asks(load(entry.id).inputs).items():
        for choice in ask.choices if ask.kind == "choice" else ():
            assert ask.read(name, in_words(choice, "american"), "inch") == choice


@pytest.mark.parametrize(
    "words",
    [["work"], ["--changes"], ["--help"], *([door, "--help"] for door in ("work", "sheet", "job", "part", "check"))],
    ids=" ".join,
)
def test_help_and_lists(words, capsys):
    assert not left(re.sub(r"off_centre", "", said(capsys, *words)))


def test_the_manual_page(capsys):
    text = re.sub(r"\\fI.*?\\fR|off_centre", "", said(capsys, "man"))
    assert "lathe" in text and not left(text)


@pytest.mark.parametrize("file", sorted((ROOT / "recipes" / "parts").glob("*.toml")), ids=lambda f: f.stem)
def test_a_part_that_ships_and_its_plan(file, capsys):
    text = said(capsys, "part", str(file), "--why")
    assert "minutes" in text and not left(text)


def test_the_card_with_all_behind_it(capsys):
    text = said(capsys, "sheet", "fence-scale-with-vernier", "--full", "--as", "text", "-o", "-")
    if "cannot be used" in text:
        text = said(capsys, "sheet", "fence-scale", "--full", "--as", "text", "-o", "-")
    assert "cannot be used" not in text and not left(text)


@pytest.mark.parametrize("table", ["safety/cautions.csv", "trouble/troubles.csv", "planning/rules.csv"])
def test_every_row_of_cautions_troubles_and_rules(table):
    for row in rows(table):
        for column, text in row.items():
            if column not in ("rule", "when", "unless", "hazards", "id", "do_not", "first", "second"):
                assert not left(in_words(text, "american").replace("_", " ")), (column, text)


@pytest.mark.parametrize(
    "words",
    [
        ["work", "face-to-length", "from=1.7", "slide=wheel"],
        ["work", "turning-speed", "diameter=x"],
        ["job", "at", "nowhere"],
        ["sheet", "nothing"],
        ["M10", "blub"],
    ],
    ids=" ".join,
)
def test_a_refusal(words, capsys):
    text = said(capsys, *words)
    assert text and not left(text)


def test_own_words_stay(capsys, tmp_path):
    """Names of files, notes, titles, what stands in a field: written by the person, never put into other words."""
    file = tmp_path / "vice-centre.toml"
    file.write_text((ROOT / "recipes" / "parts" / "lock-knob.toml").read_text(encoding="utf-8"), encoding="utf-8")
    assert "vice-centre.toml" in said(capsys, "check", str(file))
    assert "no-saddle.toml" in said(capsys, "part", str(tmp_path / "no-saddle.toml"))
    speak("american")
    assert plain("“grey bar by the vice” in the vice") == "“grey bar by the vice” in the vise"
    assert own("Centre plate") == "Centre plate"


def test_the_field_goes_through_the_choices_as_they_are_shown():
    speak("american")
    form = Form(load("face-to-length").inputs, {"from": "42"}, "inch")
    form.go(form.names.index("slide"))
    form.cycle(form.ask.choices)
    assert form.text("slide") == "compound"
    form.cycle(form.ask.choices)
    assert form.text("slide") == "carriage"
    answer = run("face-to-length", {"from": "42", "to": "40", "diameter": "25", "slide": "carriage"}, sample("metric"))
    assert answer.answer.lead.setting.wheel == "Saddle"


async def test_the_shop_and_the_list_of_jobs_on_the_screen():
    async with driving() as d:
        for key in ("space", "f12", "escape", "escape", "f8"):
            await d.press(key)
            assert not left(d.text), key


def test_a_clock_that_is_worked_by_is_no_verb():
    """The screen said "by the indicate along a known taper"."""
    assert in_words("by the clock along a taper", "american") == "by the indicator along a taper"
    assert in_words("Clock along it.", "american") == "Indicate along it."
