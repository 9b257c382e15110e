"""The numbers put into a working give the value that it stands behind, in the unit on the screen (or in N and mm).

Joining, slotting, turning, knurling and indexing; drilling and threads have tests of their own. The sums are read and
worked in tests/engine/sums.py; no formula of the engine takes part. A figure whose working has no sum is listed in
WORDS, so that none slips through unread.
"""

import math
import re

import pytest

from engine.base.operation import run
from engine.base.quantity import DIMENSIONS
from engine.shop.file import sample
from tests.engine.sums import near, sums_of
from tests.rows import each_row
from tests.spoken import spoken

SHOPS = {"mm": sample("metric"), "inch": sample("inch")}
# Read from a table, counted, searched for or chosen: their workings say which row, or why.
WORDS = {
    "solder": {"liquidus", "limit", "cadmium"},
    "key": {"width", "height", "shaft_depth", "hub_depth", "key_diameter"},
    "slot": {"cutter"},
    "divide": {
        "circle",
        "holes",
        "sector_holes",
        "error_seconds",
        "gear_spindle",
        "gear_worm",
        "idlers",
        "worst_seconds",
    },
    "rotary-table": {"error_seconds"},
    "scale-lines": {"error_seconds", "sector_holes", "figure_height"},
    "straight-scale": {"error", "figure_height"},
    "flats": {"error_seconds", "sector_holes"},
}
ROUNDED = {"turns": math.floor, "tap_turns": math.ceil}  # whole turns of a sum that has a rest
DIALS = {("bar-plan", "drill"): "next line past it", ("knurl-passes", "infeed"): "to the nearest line"}
CALLS = [
    ("fit", "diameter=12mm fit=H7/g6 hole=12.01mm"),
    ("fit", "diameter=250mm fit=H7/p6"),
    ("fit", "diameter=0.75in fit=K7/h6 hole=0.7502in"),
    ("fit", "diameter=10mm fit=press"),
    ("fit", "diameter=1in fit=force hole=1.0005in"),
    ("fit", "diameter=8mm fit=running"),
    ("ball-seat", "ball=5mm hole=5.1mm stand_out=1.5mm"),
    ("ball-seat", "ball=10mm hole=8mm stand_out=7mm"),
    ("ball-seat", "ball=10mm hole=9.98mm stand_out=5.2mm"),
    ("ball-seat", "ball=0.25in hole=0.2496in stand_out=0.08in"),
    ("solder", "alloy=63/37 temper=150°C"),
    ("solder", "alloy=BAg-3"),
    ("retain", "diameter=8mm length=6mm"),
    ("retain", "diameter=10mm load=500N length=8mm gap=0.08mm"),
    ("retain", "diameter=0.375in load=150lbf length=0.3in"),
    ("key", "diameter=12mm"),
    ("key", "diameter=1.5in"),
    ("key", "diameter=1in standard=asme"),
    ("key", "diameter=1in standard=asme form=woodruff"),
    ("key", "diameter=20mm standard=iso form=woodruff"),
    ("slot", "width=2mm depth=2mm length=8mm diameter=8mm"),
    ("slot", "width=2mm depth=3mm length=12mm diameter=12mm bore=5mm"),
    ("slot", "width=0.125in depth=0.2in length=0.5in diameter=0.5in material=brass"),
    ("overhang", "diameter=10mm length=40mm"),
    ("overhang", "diameter=0.5in length=3in material=brass"),
    ("part-off", "diameter=20mm"),
    ("part-off", "diameter=1in material=aluminium"),
    ("turning-speed", "diameter=20mm cut=0.5mm"),
    ("turning-speed", "diameter=0.75in cut=0.02in material=brass tool=carbide"),
    ("bar-plan", "parts=3 length=12mm drill=10.5mm thread=M12x1.5"),
    ("knurl-blank", "near=18mm pitch=0.8mm"),
    ("knurl-blank", "near=0.75in pitch=1mm"),
    ("knurl-passes", "diameter=18mm width=10mm"),
    ("knurl-passes", "diameter=0.75in width=0.5in material=brass"),
    ("overhang", "diameter=12mm length=60mm support=centre"),
    ("overhang", "diameter=10mm length=40mm force=50N bore=5mm"),
    ("part-off", "diameter=20mm bore=10mm blade=1.5mm"),
    ("bar-plan", "parts=5 length=0.5in drill=6mm diameter=0.5in end_waste=5mm"),
    ("knurl-blank", "near=20mm tpi=21 form=diamond helix=30 wheel_diameter=19mm wheel_teeth=60"),
    ("knurl-blank", "near=0.5in diametral_pitch=96"),
    ("knurl-blank", "near=12mm pitch=1mm method=cut"),
    ("divide", "divisions=7"),
    ("divide", "divisions=127"),
    ("divide", "angle=33.3"),
    ("rotary-table", "divisions=7 ratio=90"),
    ("rotary-table", "angle=33.3 ratio=90"),
    ("scale-lines", "lead=1.5mm per_line=0.05mm diameter=24mm line_width=0.2mm"),
    ("scale-lines", "lead=0.1in per_line=0.001in diameter=1in"),
    ("hand-dial", "distance=17.35mm"),
    ("hand-dial", "distance=0.683in"),
    ("flats", "sides=6 across_flats=13mm"),
    ("flats", "sides=4 across_flats=0.5in diameter=0.625in"),
    ("flats", "sides=5 across_flats=10mm"),
    ("vernier", "division=1mm parts=10"),
    ("vernier", "division=0.05mm parts=10 lines=60"),
    ("scale-lines", "lead=2mm per_line=0.1mm diameter=30mm feed_dial=18mm/180 short_length=1.5mm"),
    ("scale-lines", "lead=2mm per_line=0.1mm diameter=30mm feed_dial=18mm/180"),
    ("scribe", "line_width=0.3mm material=brass"),
    ("straight-scale", "spacing=1mm lines=61"),
    ("straight-scale", "spacing=0.05in lines=41 feed_dial=0.2in/100"),
    ("scribe", "line_width=0.012in tip_flat=0.001in material=mild steel"),
    ("vernier", "division=0.025in parts=25"),
    ("knurl-blank", "near=1in diametral_pitch=64 form=diamond"),
    ("scale-lines", "lead=2mm per_line=0.1mm diameter=30mm short_length=1.5mm"),
    ("scale-lines", "lead=2mm per_line=0.1mm diameter=30mm long_length=6mm"),
    ("flats", "sides=6 across_flats=13mm diameter=15mm"),
]


def _answer(operation, call, unit):
    given = dict(word.split("=", 1) for word in re.split(r" (?=\w+=)", call))
    return spoken(run(operation, given, SHOPS[unit], unit=unit).answer, unit)


def _shown(figure, unit):
    kind = DIMENSIONS[figure.dimension]
    return figure.value / kind.factor + kind.offset if unit == "inch" else figure.value


def _without_a_sum(operation, figure):
    """Text, a figure of WORDS, one as it was told, or a dial: turns and reading have a test of their own."""
    dials = {f"{dial}_{part}" for _, dial in DIALS for part in ("turns", "reading")}
    told = figure.working.startswith(("as ", "none counted"))
    without = figure.value is None or figure.setting is not None
    return without or told or figure.name in WORDS.get(operation, set()) | dials


@each_row("unit", ["mm", "inch"])
@each_row(("operation", "call"), CALLS)
def test_the_numbers_give_the_value(operation, call, unit):
    summed = 0
    for figure in _answer(operation, call, unit).figures:
        if _without_a_sum(operation, figure):
            continue
        values = sums_of(figure.working)
        if figure.name in ROUNDED and figure.dimension == "count":
            values = [ROUNDED[figure.name](value) for value in values]
        tenth = re.search(r", to ([\d.]+)$", figure.working)  # a length chosen to a tenth of a millimetre
        slack = 0.51 * float(tenth[1]) if tenth else 0.0
        shown = _shown(figure, unit)
        assert any(
            near(value, shown) or near(value, figure.value) or abs(value - shown) <= slack for value in values
        ), (figure.name, shown, figure.working, values)
        summed += 1
    assert summed >= 1


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize(("operation", "call"), [c for c in CALLS if c[0] in ("bar-plan", "knurl-passes")])
def test_turns_and_reading_make_up_the_travel(operation, call, unit):
    """Travel, travel a turn and lines a turn stand in the working: they give back the travel to one line."""
    answer = _answer(operation, call, unit)
    for (of, dial), how in DIALS.items():
        if of != operation or not answer.has(f"{dial}_turns"):
            continue
        reading, turns = answer.figure(f"{dial}_reading"), answer.figure(f"{dial}_turns").value
        travel, per_turn, lines = map(float, re.findall(r"\d[\d.]*", reading.working)[:3])
        line, made = per_turn / lines, turns * per_turn + _shown(reading, unit)
        assert reading.working.endswith(how)
        low, high = (-1e-4, line + 1e-4) if how == "next line past it" else (-line / 2, line / 2)
        assert low <= made - travel <= high


@pytest.mark.parametrize(
    ("working", "value"),
    [
        ("3 x (12 + back 0 + blade 2 + facing 0.5) + waste 10.4545", 53.9545),
        ("500 N ÷ (3.14159 x 10 mm x 5 MPa)", 3.183102),
        ("2 - 1.2 + 2 ÷ sin 59° - 2 ÷ tan 59°", 1.931546),  # tables of sines and tangents: 0.857167, 1.664279
        ("arc sine of (8 ÷ 10), hole by ball", 53.130102),  # the 3-4-5 triangle
        ("5 + square root of (5² - 4²) - 7", 1),
        ("(0.2 - 0) ÷ (2 x tan(30°))", 0.173205),
        ("10 N x 40 mm cubed ÷ (3 x 206000 MPa)", 1.035599),
        ("71 teeth x 0.254648 a tooth (0.8 ÷ 3.14159 = 0.254648)", 18.080008),
        ("51° 25' 42.9\" ÷ 4° 0' a turn", 12.857146),
    ],
)
def test_the_reader_of_sums(working, value):
    assert any(math.isclose(found, value, rel_tol=1e-6) for found in sums_of(working))


@pytest.mark.parametrize("working", ["2 x 3", "10 - 1", "as asked", "row BAg-3"])
def test_the_reader_finds_no_other_value(working):
    assert not any(near(found, 5) for found in sums_of(working))
