"""Limits of the British, pipe and translating threads against published rows."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import BadInput
from engine.threads.designation import parse
from engine.threads.form import form
from engine.threads.limits import gauge, limits
from engine.threads.series import entries, named
from engine.threads.thread import FAMILIES
from tests.engine.threads.published import published
from tests.rows import each_row


def inches(value):
    """To four decimals, halves up, as the printed tables have them."""
    return Decimal(repr(round(value / 25.4, 8))).quantize(Decimal("0.0001"), ROUND_HALF_UP)


@each_row("row", published("whitworth"), ids=lambda r: f"{r['size']} {r['series']}")
def test_whitworth_basic_sizes(row):
    found = limits(parse(f"{row['size']}-{row['tpi']} {row['series']}"))
    assert inches(found.pitch_basic) == Decimal(row["effective"])
    assert inches(found.minor_basic) == Decimal(row["minor"])
    if row["table_effective"]:
        assert inches(found.pitch_basic) == Decimal(row["table_effective"]).quantize(Decimal("0.0001"))
        # the table prints 0.0903 for the minor of 1/8: digits changed over, 0.0930 is meant
        minor = "0.0930" if row["size"] == "1/8" else row["table_minor"]
        assert inches(found.minor_basic) == Decimal(minor).quantize(Decimal("0.0001"))
    if row["list_effective"]:  # this list does not round the depth first; its 6 in is 6.0002
        assert found.pitch_basic / 25.4 == pytest.approx(float(row["list_effective"]), abs=0.00026)
        assert found.minor_basic / 25.4 == pytest.approx(float(row["list_minor"]), abs=0.00026)


@each_row("row", published("bs84_tolerances"), ids=lambda r: f"{r['nominal_in']} {r['series']}")
def test_whitworth_tolerances(row):
    """Against the formulas of BS 84 Annex B; limits are given to 0.0001 in, so a tolerance is good to that."""
    thread = parse(f"{row['nominal_in']} {row['series']}")
    for name, key in (("close", "close_bolt"), ("medium", "medium_bolt"), ("free", "free_bolt")):
        found = limits(thread, name)
        effective = {
            "close": "eff_close_bolt",
            "medium": "eff_medium_bolt_or_nut",
            "free": "eff_free_bolt_or_normal_nut",
        }[name]
        assert (found.ext_pitch_max - found.ext_pitch_min) / 25.4 == pytest.approx(float(row[effective]), abs=0.00011)
        assert (found.ext_major_max - found.ext_major_min) / 25.4 == pytest.approx(
            float(row[f"major_{key}"]), abs=0.00011
        )
        assert (found.ext_minor_max - found.ext_minor_min) / 25.4 == pytest.approx(
            float(row[f"minor_{key}"]), abs=0.00011
        )
        wanted = 0.0 if name == "close" else float(row["allowance_med_free_bolt"])
        assert found.allowance / 25.4 == pytest.approx(wanted, abs=0.000051)
    medium, normal = limits(thread, "medium"), limits(thread, "normal")
    assert (normal.int_pitch_max - normal.int_pitch_min) / 25.4 == pytest.approx(
        float(row["eff_free_bolt_or_normal_nut"]), abs=0.00011
    )
    assert (medium.int_pitch_max - medium.int_pitch_min) / 25.4 == pytest.approx(
        float(row["eff_medium_bolt_or_nut"]), abs=0.00011
    )
    assert (normal.int_minor_max - normal.int_minor_min) / 25.4 == pytest.approx(
        float(row["minor_nut_all_classes"]), abs=0.00011
    )
    assert "0.0001 in of the printed table" in " ".join(normal.notes)


@each_row("row", published("ba"), ids=lambda r: f"{r['number']} BA")
def test_ba(row):
    thread = parse(f"{row['number']} BA")
    found = limits(thread)
    assert float(thread.pitch) == float(row["pitch_mm"])
    assert thread.diameter == float(row["major_mm"])
    assert form(thread).depth == pytest.approx(float(row["depth_mm"]), abs=1e-9)
    assert found.pitch_basic == pytest.approx(float(row["effective_mm"]), abs=1e-9)
    assert found.minor_basic == pytest.approx(float(row["minor_mm"]), abs=1e-9)
    if int(row["number"]) > 16:
        assert found.ext_pitch_max is None
        return
    for name in ("close", "normal"):
        found = limits(thread, name)
        # the file's tolerances are rounded to 0.001 mm, those of the standard's formulas are not
        for where, part in (("major", "major"), ("eff", "pitch"), ("minor", "minor")):
            tolerance = found.size(f"ext_{part}_max") - found.size(f"ext_{part}_min")
            assert tolerance == pytest.approx(float(row[f"tol_{where}_{name}"]), abs=0.00076), where
    assert found.allowance == pytest.approx(float(row["allowance_normal"]))
    assert found.int_pitch_max - found.int_pitch_min == pytest.approx(float(row["nut_tol_eff"]), abs=0.00051)
    assert found.int_minor_max - found.int_minor_min == pytest.approx(float(row["nut_tol_minor"]), abs=0.00051)


@pytest.mark.parametrize(("table", "series"), [("me", "ME"), ("brass", "BSB"), ("cycle", "BSC")])
def test_basic_sizes_of_the_small_series(table, series):
    for row in published(table):
        found = limits(parse(f"{row['size']}-{row['tpi']} {series}"))
        assert found.pitch_basic / 25.4 == pytest.approx(float(row["effective"]), abs=0.000051), row
        assert found.minor_basic / 25.4 == pytest.approx(float(row["minor"]), abs=0.000051), row
        # 1 3/8 of the published cycle table is a misprint: it gives 1.625 outside and 1.326 for the minor
        if row.get("table_minor") and row["size"] != "1 3/8":
            assert found.minor_basic / 25.4 == pytest.approx(float(row["table_minor"]), abs=0.0006), row
        assert "common practice" in " ".join(found.notes)


@each_row("row", published("iso228"), ids=lambda r: f"G {r['size']}")
def test_g(row):
    thread = parse(f"G {row['size']}")
    assert float(thread.pitch) == pytest.approx(float(row["pitch_mm"]), abs=0.00051)
    for name, key in (("A", "Td2_class_A"), ("B", "Td2_class_B")):
        found = limits(thread, name)
        assert found.ext_major_max == found.int_major_min == float(row["major"])
        assert found.ext_pitch_max == found.int_pitch_min == float(row["pitch_dia"])
        assert found.int_minor_min == float(row["minor"])
        assert found.ext_pitch_min == pytest.approx(float(row["pitch_dia"]) - float(row[key]), abs=1e-9)
        assert found.ext_major_min == pytest.approx(float(row["major"]) - float(row["Td_major_ext"]), abs=1e-9)
        assert found.int_pitch_max == pytest.approx(float(row["pitch_dia"]) + float(row["TD2_internal"]), abs=1e-9)
        assert found.int_minor_max == pytest.approx(float(row["minor"]) + float(row["TD1_minor_int"]), abs=1e-9)


@each_row("row", published("iso7"), ids=lambda r: f"R {r['size']}")
def test_taper_pipe(row):
    thread = parse(f"R {row['size']}")
    found, lengths = limits(thread), gauge(thread)
    assert found.pitch_basic == float(row["pitch_dia_gauge_plane"])
    assert found.ext_pitch_max - found.pitch_basic == pytest.approx(float(row["T1_ext_pm_mm"]) / 16)
    assert found.int_pitch_max - found.pitch_basic == pytest.approx(float(row["T2_int_pm_mm"]) / 16)
    # T1 and T2 are so many turns of thread, printed to 0.1 mm
    assert lengths.shift == pytest.approx(float(row["T1_turns"]) * float(thread.pitch), abs=0.051)
    assert lengths.nut_shift == pytest.approx(float(row["T2_turns"]) * float(thread.pitch), abs=0.051)
    assert lengths.length == float(row["gauge_length"])
    assert lengths.useful_length == float(row["useful_length_basic"])
    parallel = limits(parse(f"Rp {row['size']}"))
    assert parallel.int_pitch_max - parallel.pitch_basic == pytest.approx(float(row["Rp_dia_tol_pm"]))
    # "Rp diameter tolerance = T2 / 16": in whole turns, so the unrounded T2
    assert float(row["Rp_dia_tol_pm"]) == pytest.approx(lengths.nut_shift_turns * float(thread.pitch) / 16, abs=0.0011)


@each_row("row", published("npt"), ids=lambda r: f"{r['size']} NPT")
def test_npt(row):
    thread = parse(f"{row['size']} NPT")
    found, lengths = limits(thread), gauge(thread)
    assert thread.diameter / 25.4 == pytest.approx(float(row["OD_pipe_in"]))
    assert found.pitch_basic / 25.4 == pytest.approx(float(row["E1"]), abs=6e-5)
    assert lengths.length / 25.4 == pytest.approx(float(row["L1_handtight"]))
    assert lengths.useful_length / 25.4 == pytest.approx(float(row["L2_effective"]), abs=6e-5)
    assert form(thread).depth / 25.4 == pytest.approx(float(row["h_max_0.8p"]), abs=6e-6)


TRAPEZOIDAL = {
    "d_max": "ext_major_max",
    "d_min_4h": "ext_major_min",
    "d2_max_7e": "ext_pitch_max",
    "d2_min_7e": "ext_pitch_min",
    "d3_max": "ext_minor_max",
    "d3_min_7e": "ext_minor_min",
    "D2_min_7H": "int_pitch_min",
    "D2_max_7H": "int_pitch_max",
    "D1_min": "int_minor_min",
    "D1_max_4H": "int_minor_max",
    "D4": "int_major_min",
}


@each_row("row", published("trapezoidal"), ids=lambda r: r["designation"])
def test_trapezoidal(row):
    found = limits(parse(row["designation"]))
    for column, name in TRAPEZOIDAL.items():
        assert found.size(name) == pytest.approx(float(row[column]), abs=0.00051), column


ACME = {
    "major_max": "ext_major_max",
    "major_min": "ext_major_min",
    "pitch_max": "ext_pitch_max",
    "pitch_min": "ext_pitch_min",
    "minor_max": "ext_minor_max",
    "minor_min": "ext_minor_min",
    "int_major_min": "int_major_min",
    "int_pitch_min": "int_pitch_min",
    "int_pitch_max": "int_pitch_max",
    "int_minor_min": "int_minor_min",
    "int_minor_max": "int_minor_max",
    "allowance": "allowance",
}
# Exact halves (0.21475 and 0.22925 in) that the file rounds the other way; both roundings are within 0.00005 in.
ACME_HALVES = {("1/4-16", "pitch_max"), ("1/4-16", "int_pitch_max")}
# This list takes the allowance of 1 3/4 from its own size; the printed one is that of the middle of its range, 1.71875.
ACME_HALVES |= {("1 3/4-4", name) for name in ACME}


@each_row("row", published("acme"), ids=lambda r: r["designation"])
def test_acme(row):
    special = "" if row["series"] == "standard series" else " special"
    found = limits(parse(f"{row['designation']} ACME{special}"))
    for column, name in ACME.items():
        allowed = 0.000101 if (row["designation"], column) in ACME_HALVES else 1e-7
        assert found.size(name) / 25.4 == pytest.approx(float(row[column]), abs=allowed), column


@each_row("row", published("acme_form"), ids=lambda r: f"{r['tpi']} tpi")
def test_acme_form(row):
    tpi = float(row["tpi"])
    shape = form(parse(f"{'3' if tpi < 8 else '1/2'}-{tpi:g} ACME special"))
    # the print gives 4 decimals, rounded one way or the other
    assert shape.depth / 25.4 == pytest.approx(float(row["height"]), abs=0.0001)
    assert shape.crest_flat / 25.4 == pytest.approx(float(row["crest_flat"]), abs=0.0001)
    assert shape.root_flat / 25.4 == pytest.approx(float(row["root_flat"]), abs=0.0001)


@pytest.mark.parametrize(
    ("size", "tolerance"),
    [
        *(("4 BA", "free"), ("3/8 BSW", "2A"), ("G 1/4", "C"), ("Tr12x3", "6e")),
        *(("3/4-6 ACME", "5G"), ("R 1/2", "A"), ("1/8 NPT", "2A")),
    ],
)
def test_a_class_of_another_family_is_refused(size, tolerance):
    with pytest.raises(BadInput) as caught:
        limits(parse(size), tolerance)
    assert caught.value.field == "tolerance"


ALL = [entry for family in FAMILIES if family not in ("r", "npt") for entry in entries(family)]


@given(st.sampled_from(ALL))
@settings(max_examples=80)
def test_limits_nest_and_every_one_says_where_it_comes_from(entry):
    found = limits(named(entry))
    if found.ext_pitch_max is None:
        return
    assert found.ext_major_min < found.ext_major_max <= found.int_major_min + 1e-9
    assert found.ext_pitch_min < found.ext_pitch_max <= found.int_pitch_min + 1e-9
    assert found.int_pitch_min < found.int_pitch_max
    assert found.ext_minor_max <= found.int_minor_min + 1e-9 < found.int_minor_max
    for name in ("ext_major_max", "ext_pitch_min", "int_minor_max", "int_pitch_max"):
        assert found.source_of(name)
        assert found.working[name]


def test_figures_from_memory_say_so():
    assert "memory" in limits(parse("Tr40x7")).source_of("int_pitch_max")
    assert "unconfirmed" in limits(parse("M10"), "6a").source_of("ext_pitch_max")
    assert "memory" in limits(parse("R 1/2")).source
    assert "memory" in limits(parse("3/4-6 ACME")).source_of("int_pitch_max")
    assert "memory" not in limits(parse("M10")).source_of("ext_pitch_min")
