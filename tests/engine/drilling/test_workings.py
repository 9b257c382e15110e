"""The numbers put into a working give the value that it stands behind, in the unit on the screen or in mm and N·m.

The sums are read and worked here; no formula of the engine takes part. A figure whose working has no sum is listed in
WORDS, so that none slips through unread.
"""

import re
from math import ceil

from engine.base.operation import run
from engine.base.quantity import DIMENSIONS
from engine.shop.file import sample
from tests.engine.sums import near, sums_of
from tests.rows import each_row
from tests.spoken import spoken

SHOPS = {"mm": sample("metric"), "inch": sample("inch")}
# Read from a table, counted, or chosen: their workings say which row or which drill.
WORDS = {
    *("drill", "owned", "inside_limits", "drill_diameter", "pre_drill", "pecks", "diameter", "hole", "bore"),
    *("head_diameter", "head_height", "run_past", "turns", "reading", "dial", "rpm", "tap_reach", "setting"),
}
OF_THE_LIMITS = {"minor_min", "minor_max"}  # of parallel threads: the threads pane's own workings, tested there
CALLS = [
    ("tap-drill", "size=M6 depth=12mm"),
    ("tap-drill", "size=M10x1 depth=15mm hole=through material=brass percent=65"),
    ("tap-drill", "size=1/4-20 depth=12.7mm"),
    ("tap-drill", "size=M16xPh3P1.5 depth=12mm"),
    ("tap-drill", "size=M8 tap=form depth=10mm"),
    ("tap-drill", "size=1/8 NPT depth=8mm"),
    ("tap-drill", "size=Rc1/4"),
    ("tap-drill", "size=4BA material=stainless depth=9mm"),
    ("tap-drill", "size=G1/4"),
    ("tap-drill", "size=3/4-6 ACME depth=20mm"),
    ("drill-size", "size=#7"),
    ("drill-size", "size=13/64in"),
    ("drill-size", "size=5.23mm"),
    ("clearance-hole", "size=M6"),
    ("clearance-hole", "size=#8-32 fit=close"),
    ("clearance-hole", "size=4BA fit=loose"),
    ("countersink", "hole=6.6mm diameter=12.6mm"),
    ("countersink", "hole=5mm diameter=10mm angle=82 machine=lathe"),
    ("countersink", "screw=M5 head=socket"),
    ("counterbore", "size=M8"),
    ("counterbore", "size=1/4-20"),
    ("ream", "diameter=8mm"),
    ("ream", "diameter=3/8in tolerance=N7 kind=carbide"),
    ("ream", "diameter=10mm kind=hand tolerance=JS6"),
    ("hole-plan", "diameter=8.5mm depth=25mm outside=20mm stock=40mm"),
    ("hole-plan", "diameter=13mm depth=60mm hole=through material=stainless machine=mill"),
    ("hole-plan", "diameter=#7 depth=30mm point=135 finish=ream"),
    ("hole-plan", "diameter=0.5in depth=1in material=brass pilot=3mm"),
    ("hole-circle", "holes=7 diameter=44.5mm start_angle=15 hole=5mm"),
]


def _given(call):
    return dict(word.split("=", 1) for word in re.split(r" (?=\w+=)", call))


def _answer(operation, call, unit):
    return spoken(run(operation, _given(call), SHOPS[unit], unit=unit).answer, unit)


@each_row("unit", ["mm", "inch"])
@each_row(("operation", "call"), CALLS)
def test_the_numbers_give_the_value(operation, call, unit):
    for figure in _answer(operation, call, unit).figures:
        if (
            figure.value is None
            or figure.name in WORDS
            or (figure.name in OF_THE_LIMITS and not figure.label.startswith("Minor"))
        ):
            continue
        values = sums_of(figure.working)
        if figure.name == "tap_turns":
            values = [ceil(value - 1e-4) for value in values]
        shown = figure.value
        if unit == "inch":
            shown /= DIMENSIONS[figure.dimension].factor
        if figure.name == "minor_max":
            continue  # the basic size at the gauge plane, of the threads pane
        assert any(near(value, shown) or near(value, figure.value) for value in values), (
            figure.name,
            shown,
            figure.working,
            values,
        )


@each_row("unit", ["mm", "inch"])
@each_row(("operation", "call"), [c for c in CALLS if c[0] in ("hole-plan", "countersink", "ream")])
def test_a_dial_and_a_speed_by_their_own_numbers(operation, call, unit):
    """Turns and lines give back the distance short of one line; the ideal speed stands above the step."""
    answer = _answer(operation, call, unit)
    if answer.has("turns"):
        figure = answer.figure("turns")
        sizes = [float(number) for number in re.findall(r"[\d.]+", figure.working)]
        depth, travel, turns, lines, line = sizes
        assert turns == figure.value and lines * line < travel
        assert abs(turns * travel + lines * line - depth) <= line + 1e-4
        dial = answer.figure("dial" if answer.has("dial") else "reading")
        assert near(lines * line, dial.value / (25.4 if unit == "inch" else 1))
    if answer.has("rpm"):
        figure = answer.figure("rpm")
        ideal = float(re.search(r"= (\d+)", figure.working)[1])
        assert any(abs(value - ideal) <= max(1, ideal * 5e-4) for value in sums_of(figure.working))
        assert figure.value <= ideal + 1 or "lowest" in figure.working
        assert figure.working.endswith(f"{figure.value:g}")


def test_the_unit_on_the_screen_changes_no_value():
    for operation, call in CALLS:
        for unit in ("mm", "inch"):
            one = run(operation, _given(call), SHOPS["mm"], unit="mm").answer
            values = [(f.name, f.value, f.text) for f in one.figures]
            tables = [table.rows for table in one.tables]
            if unit == "mm":
                first = values, tables
        assert (values, tables) == first, operation
