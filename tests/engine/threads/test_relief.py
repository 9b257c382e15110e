"""Relief and run-out against the rows of DIN 76-1."""

import pytest

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.shop.file import sample
from engine.threads.designation import parse
from engine.threads.limits import limits
from engine.threads.relief import relief
from engine.threads.series import entries, named
from tests.engine.threads.published import published
from tests.rows import each_row
from tests.spoken import spoken

# One thread of ISO 261 for each pitch of the table.
THREADS = {float(entry.pitch): entry for entry in entries("metric")}


@each_row("row", published("din76_screw"), ids=lambda r: r["P_mm"])
def test_screws(row):
    thread = named(THREADS[float(row["P_mm"])])
    found = relief(thread, "screw")
    assert found.exact
    assert found.run_out == float(row["runout_x1_max_normal"])
    assert found.run_out_short == float(row["runout_x2_max_short"])
    assert found.to_shoulder == float(row["a1_max_normal"])
    assert found.diameter == pytest.approx(thread.diameter + float(row["dg_minus_d"]))
    assert (found.floor, found.width) == (float(row["g1_min_formA"]), float(row["g2_max_formA"]))
    assert (found.floor_short, found.width_short) == (
        float(row["g1_min_formB_short"]),
        float(row["g2_max_formB_short"]),
    )
    assert found.radius == float(row["r_approx"])


@each_row("row", published("din76_nut"), ids=lambda r: r["P_mm"])
def test_nuts(row):
    thread = named(THREADS[float(row["P_mm"])])
    found = relief(thread, "nut")
    assert found.overrun == float(row["e1_normal"])
    assert found.overrun_short == float(row["e2_short"])
    assert found.diameter == pytest.approx(thread.diameter + float(row["dg_plus_D"]))
    assert (found.floor, found.width) == (float(row["g1_min_formC"]), float(row["g2_max_formC"]))
    assert found.run_out is None


@each_row("row", published("blind_overrun"), ids=lambda r: r["pitch"])
def test_overrun_of_blind_holes(row):
    assert relief(named(THREADS[float(row["pitch"])])).overrun == float(row["e1"])


@each_row("family", ["metric", "unified", "whitworth", "ba", "me", "brass", "cycle", "g", "acme", "tr"])
def test_a_groove_clears_the_thread(family):
    """The groove of a screw lies below its smallest root, that of a nut outside its thread."""
    for entry in entries(family):
        if not 0.2 <= entry.pitch <= 6:
            continue
        thread = named(entry)
        sizes = limits(thread)
        root = sizes.ext_minor_min or sizes.ext_minor_max
        if root is None:
            continue
        assert 0 < relief(thread, "screw").diameter < root + 1e-9, entry
        assert relief(thread, "nut").diameter > sizes.int_major_min, entry


def test_a_pitch_between_rows_takes_the_larger_and_says_so():
    found = relief(parse("1/4-20 UNC"))
    assert (found.row_pitch, found.exact) == (1.5, False)


@pytest.mark.parametrize("size", ["R 1/2", "1/8 NPT", "Tr40x10"])
def test_outside_the_table_is_refused(size):
    with pytest.raises(BadInput) as caught:
        relief(parse(size))
    assert caught.value.field == "size"


def _answer(size, **given):
    return spoken(run("thread-relief", {"size": size, **given}, sample("metric")).answer)


@pytest.mark.parametrize(("side", "way", "deep"), [("screw", "in", 1.15), ("nut", "out", 1.062)])
def test_the_plunge_of_the_groove_leads(side, way, deep):
    """M10: groove 7.7 from 10 is 1.15 a side; in the nut 10.5 from the minor diameter of 8.376 (DIN 76-1, ISO 724)."""
    lead = _answer("M10", side=side).lead
    assert (lead.setting.wheel, lead.setting.way) == ("Cross slide", way)
    assert lead.value == pytest.approx(deep, abs=1e-3)
    assert lead.setting.line * 0.025 == pytest.approx(deep, abs=0.0126)  # lines of 0.025 mm


@pytest.mark.parametrize(("size", "said"), [("M10", False), ("1/4-20", True), ("M10x1.4 special", True)])
def test_a_row_that_is_not_the_threads_own_is_told(size, said):
    assert any("taken from the row" in note.text for note in _answer(size).notes) == said
