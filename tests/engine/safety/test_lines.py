"""The wording: short, one hazard a line, the word carrying the meaning, every row reachable and sourced."""

import re
from pathlib import Path

import pytest

from engine.base.answer import Answer
from engine.base.operation import run
from engine.base.register import CATALOG, load
from engine.safety import deferral, general_rules, in_order, quiet_line
from engine.safety.finding import Finding
from engine.safety.hazards import every_hazard
from engine.safety.rows import caution_of, every_row
from engine.safety.rules import RULES
from engine.shop.file import sample
from engine.situation import Situation
from tests.engine.safety.moments import cautions_by_hand, cautions_for
from tests.rows import each_row
from tests.spoken import spoken

LOOK_UPS = {
    "thread-limits", "identify-thread", "thread-strength", "hand-dial", "error-budget", "clearance-hole", "drill-size",
    "key",
}  # fmt: skip
MOST_WORDS = 25  # common practice, no source: a line that is read at a glance
GLYPHS = re.compile(r"[ -~°µ×]*")


NAMES = set(re.findall(r"{(\w+)}", Path("engine/data/safety/cautions.csv").read_text(encoding="utf-8")))
BARE = ("speed", "top", "marked", "limit", "over", "whirl", "ratio", "share")


def Filled():
    """Any value a rule may fill in, as wide as a real one."""
    return {name: "123" if name in BARE else "12.3 mm" for name in NAMES}


def every_form():
    for row in every_row():
        yield row, spoken(caution_of(row, Finding("stands", Filled()), None))
        if row.question:
            yield row, spoken(caution_of(row, Finding("asked", Filled()), None))
            yield row, spoken(caution_of(row, Finding("asked", Filled()), True))
        if row.found:
            yield row, spoken(caution_of(row, Finding("raised", Filled()), None))


FORMS = list(every_form())


@each_row("row, caution", FORMS, ids=lambda part: getattr(part, "id", ""))
def test_every_line_is_short_plain_and_calm(row, caution):
    line = f"{caution.text} {caution.because}"
    assert len(line.split()) <= MOST_WORDS, f"{len(line.split())} words: {line}"
    assert len(caution.question.split()) <= MOST_WORDS
    for text in (line, caution.question, caution.source):
        assert GLYPHS.fullmatch(text), text
        assert "safe" not in text.lower() and "!" not in text and "be careful" not in text.lower()
        assert "http" not in text and "{" not in text and ".." not in text
    assert not re.search(r"\b[A-Z]{5,}\b", line), "only the signal word is in capitals"
    assert caution.text[0].isupper() or caution.text[0].isdigit()


@each_row("row", every_row(), ids=lambda row: row.id)
def test_every_row_is_whole(row):
    assert row.hazard and row.consequence and row.control and row.source
    assert row.rule in RULES and set(row.hazards) <= set(every_hazard()) and row.hazards
    assert row.word in ("DANGER", "WARNING", "CAUTION", "NOTICE")
    assert not (row.stop and row.word in ("CAUTION", "NOTICE"))
    assert bool(row.found) == bool(row.because), "a number that raises it is named"
    if row.word == "DANGER":
        assert row.stop, "what can kill is acknowledged"
    if row.question:
        assert row.question.rstrip().endswith(("?", "."))
        assert row.word in ("DANGER", "WARNING"), "a note is never a question"


def test_ids_are_unique_and_every_hazard_is_used():
    ids = [row.id for row in every_row()]
    assert len(ids) == len(set(ids)) and len(ids) > 150
    assert {tag for row in every_row() for tag in row.hazards} == set(every_hazard())


def test_every_operation_of_the_catalog_has_its_cautions():
    for entry in CATALOG:
        hazards = load(entry.id).hazards
        assert set(hazards) <= set(every_hazard()) and len(set(hazards)) == len(hazards), entry.id
        assert bool(hazards) != (entry.id in LOOK_UPS), entry.id


@pytest.mark.parametrize("operation_id", sorted(LOOK_UPS))
def test_a_look_up_shows_no_caution_of_work_that_is_not_done(operation_id):
    assert not run(operation_id, load(operation_id).example, sample("metric")).answer.cautions


def test_a_fit_shows_pressing_only_where_it_may_be_tight():
    def pressed(fit):
        done = run("fit", {"diameter": "12", "fit": fit}, sample("metric"))
        return any(caution.id.startswith("PRS") for caution in done.answer.cautions)

    assert not run("fit", {"diameter": "12", "fit": "H7/g6"}, sample("metric")).answer.cautions
    assert pressed("H7/k6") and pressed("H7/p6")  # ISO 286-2: clear, either, tight


def test_a_piece_held_one_way_shows_no_caution_of_the_others():
    only_pressed = Answer((), moments=(Situation(machine="bench", hold="press stake"),))
    ids = {c.id for c in cautions_for(load("ball-seat"), only_pressed, sample("metric"))}
    assert any(name.startswith("PRS") for name in ids)
    assert not any(name.startswith(("BRZ", "SLD", "ADH")) for name in ids)


@each_row("tag", every_hazard())
def test_every_hand_step_has_its_cautions_with_or_without_a_shop(tag):
    for shop in (None, sample("metric"), sample("inch")):
        cautions = cautions_by_hand((tag,), shop, {})
        assert cautions
        assert all(c.word != "DANGER" and not c.acknowledge for c in cautions if not c.because)
        answered = cautions_by_hand((tag,), shop, {c.id: True for c in cautions})
        assert not any(c.question for c in answered)
        denied = cautions_by_hand((tag,), shop, {c.id: False for c in cautions})
        assert not any(c.question for c in denied)


def test_danger_is_kept_for_what_is_known():
    for row in every_row():
        for finding in (Finding("stands", Filled()), Finding("asked", Filled())):
            before = caution_of(row, finding, None)
            assert before.word != "DANGER" and not before.acknowledge and not before.because
        known = caution_of(row, Finding("asked", Filled()), True)
        assert known.word == row.word and known.acknowledge == row.stop and known.because
        assert caution_of(row, Finding("asked", Filled()), False) is None


def test_unknown_kinds_of_work_are_passed_over():
    assert cautions_by_hand(("juggling",), None, {}) == ()


def test_general_rules_stand_and_are_not_repeated_by_operations():
    general = general_rules()
    assert len(general) > 15 and not any(c.because or c.question or c.word == "DANGER" for c in general)
    assert "GEN-01" in {c.id for c in general}
    shown = cautions_for(load("three-wires"), Answer(()), sample("metric"))
    assert "GEN-01" not in {c.id for c in shown}


def test_the_deferral_names_what_outranks_the_program():
    for needed in ("manual", "marked", "data sheets", "local codes", "licensed"):
        assert needed in deferral()
    assert "safe" not in deferral() + quiet_line()


def test_the_quiet_line_is_only_for_a_pane_without_a_number():
    standing = cautions_by_hand(("deburring",), None, {})
    assert quiet_line(standing) == "None of these comes from your numbers."
    assert quiet_line(cautions_by_hand(("polishing",), None, known=Situation(snags=True))) == ""


def test_two_lists_become_one_without_doubles():
    both = in_order(
        cautions_by_hand(("polishing",), None, {}),
        cautions_by_hand(("polishing", "filing"), None, known=Situation(snags=True)),
    )
    ids = [c.id for c in both]
    assert len(ids) == len(set(ids))
    assert both[0].id == "FIL-02" and both[0].word == "DANGER"
