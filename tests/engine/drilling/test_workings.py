"""The numbers put into a working give the value that it stands behind, in the unit on the screen or in mm and N·m.

The sums are read and worked here; no formula of the engine takes part. A figure whose working has no sum is listed in
WORDS, so that none slips through unread.
"""

import math
import re

import pytest

from engine.operation import run
from engine.quantity import DIMENSIONS
from engine.shop.file import sample

SHOPS = {"mm": sample("metric"), "inch": sample("inch")}
# Read from a table, counted, or chosen: their workings say which row or which drill.
WORDS = {
    *("drill", "owned", "inside_limits", "drill_diameter", "pre_drill", "pecks", "diameter", "hole", "bore"),
    *("head_diameter", "head_height", "run_past", "turns", "reading", "dial", "rpm"),
}
OF_THE_LIMITS = {
    "minor_min",
    "minor_max",
}  # of parallel threads: the threads pane's own workings, tested there
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
_UNITS = r"(?<=[\d)]) ?(?:mm|in|m/min|ft/min|N/mm²|N·m|N|W|s)(?![a-z/·])(?: a (?:turn|flute))?"
_FUNCTIONS = {"S": lambda degrees: math.sin(math.radians(degrees)), "R": math.sqrt}


def sums_of(working):
    """Every value that the sums in a working come to; the words between them are passed over."""
    text = re.sub(r"= [\d.]+", ";", working).replace(
        "+ point ", "+ "
    )  # the sum itself, not its written result
    text = re.sub(r"sin ?\(([\d.]+)° ÷ (\d+)\)", r"S(\1/\2)", text)
    text = re.sub(r"sin ([\d.]+)°", r"S(\1)", text).replace("square root of ", "R").replace(" squared", "**2")
    text = re.sub(_UNITS, "", text).replace("°", "").replace("kc ", "").replace("²", "**2")
    text = re.sub(r" (?:left after [\d.]+|flutes|starts|for the depth|for forming \([a-z ]*\))", "", text)
    text = text.replace("÷", "/").replace(" x ", " * ")
    return [
        value for run in re.findall(r"[\d(SR][\d\s.+*/()SR-]*", text) if (value := _worked(run)) is not None
    ]


def _worked(text):
    """The value of the longest sum that a run of signs begins with."""
    for end in range(len(text), 0, -1):
        try:
            # nothing but digits, signs and those two functions
            return float(eval(text[:end], {"__builtins__": {}}, _FUNCTIONS))
        except (SyntaxError, TypeError):
            continue
    return None


def _near(value, wanted):
    return math.isclose(value, wanted, rel_tol=6e-4, abs_tol=6e-5)


def _given(call):
    return dict(word.split("=", 1) for word in re.split(r" (?=\w+=)", call))


def _answer(operation, call, unit):
    return run(operation, _given(call), SHOPS[unit], unit=unit).answer


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize(("operation", "call"), CALLS)
def test_the_numbers_give_the_value(operation, call, unit):
    for figure in _answer(operation, call, unit).figures:
        if figure.name in WORDS or (figure.name in OF_THE_LIMITS and not figure.label.startswith("Minor")):
            continue
        values = sums_of(figure.working)
        shown = figure.value
        if unit == "inch":
            shown /= DIMENSIONS[figure.dimension].factor
        if figure.name == "minor_max":
            continue  # the basic size at the gauge plane, of the threads pane
        assert any(_near(value, shown) or _near(value, figure.value) for value in values), (
            figure.name,
            shown,
            figure.working,
            values,
        )


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize(
    ("operation", "call"), [c for c in CALLS if c[0] in ("hole-plan", "countersink", "ream")]
)
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
        assert _near(lines * line, dial.value / (25.4 if unit == "inch" else 1))
    if answer.has("rpm"):
        figure = answer.figure("rpm")
        ideal = float(re.search(r"= (\d+)", figure.working)[1])
        assert any(abs(value - ideal) <= max(1, ideal * 5e-4) for value in sums_of(figure.working))
        assert figure.value <= ideal + 1 or "lowest" in figure.working
        assert figure.working.endswith(f"{figure.value:g}")


def test_the_unit_on_the_screen_changes_no_value():
    for operation, call in CALLS:
        for unit in ("mm", "inch"):
            one = run(operation, _given(call), SHOPS["mm"], unit="mm", shown_in=unit).answer
            values = [(f.name, f.value, f.text) for f in one.figures]
            tables = [table.rows for table in one.tables]
            if unit == "mm":
                first = values, tables
        assert (values, tables) == first, operation
