"""Every sum that is shown gives the figure it stands behind, in the unit it is shown in.

The arithmetic at the end of a working (after its last "=" before any ";") is worked here by a reader of its own: no
formula of the engine takes part. Workings in words only ("as designated") are passed over and counted.
"""

import math
import re

import pytest

from engine.base.operation import run
from engine.base.quantity import DIMENSIONS
from engine.shop.file import sample
from engine.threads.designation import parse
from engine.threads.strength import shear_areas
from tests.rows import each_row
from tests.spoken import spoken

SHOPS = {"mm": sample("metric"), "inch": sample("inch")}
SIZES = [
    *("M10", "M2.5x0.35", "M1", "M16xPh3P1.5", "M10x1.4 special", "M8x1 LH", "1/4-20 UNC", "#4-40", "1 1/16-12 UN"),
    *("3/8 BSW", "1/2 BSF close", "4 BA", "12 BA", "20 BA", "1/4 BSC", "1/4 BSB", "1/4-40 ME", "G 1/4", "Rp 1/2"),
    *("1/8 NPT", "Tr12x3", "Tr14x6(P3)", "3/4-6 ACME"),
]
_FUNCTIONS = {
    "cos": lambda x: math.cos(math.radians(x)),
    "sin": lambda x: math.sin(math.radians(x)),
    "tan": lambda x: math.tan(math.radians(x)),
    "cot": lambda x: 1 / math.tan(math.radians(x)),
    "arctan": lambda x: math.degrees(math.atan(x)),
    "root": math.sqrt,
    "pi": math.pi,
}


def worked_out(sums):
    """The value of a sum as it is written in a working; None if it is written in words."""
    sums = re.sub(r",? to \d decimals(?: of an inch)?|, to 0\.001 mm| to the nearest 0\.005 mm", "", sums).strip()
    sums = re.sub(r"(?<=[\d)²]) ?(?:mm²/mm|mm²|mm|in²/in|in²|in|MPa|psi|N|lbf|ppm|°|s)(?![a-z])", "", sums)
    sums = sums.replace("square root of ", "root").replace("arc tangent of ", "arctan")
    sums = re.sub(r"\b(cos|sin|tan|cot)² ([\d.]+)", r"(\1(\2))**2", sums)
    sums = re.sub(r"\b(cos|sin|tan|cot) ([\d.]+)", r"\1(\2)", sums)
    for sign, python in (("÷", "/"), (" x ", " * "), ("²", "**2"), ("^", "**")):
        sums = sums.replace(sign, python)
    if not re.fullmatch(r"[\d\s.+*/()-]*", re.sub("|".join(_FUNCTIONS), "", sums)) or not re.search(r"\d", sums):
        return None
    return eval(sums, {"__builtins__": {}}, _FUNCTIONS)  # nothing but digits, signs and the functions above


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("9.026 - 0.032 mm", 8.994),
        ("0.894 ÷ cos 60°", 1.788),
        ("2 x 3 ÷ 4 in, to 3 decimals", 1.5),
        ("0.5 x tan² 45° x cot 45°", 0.5),
        ("as designated", None),
    ],
)
def test_the_reader_of_sums(text, value):
    assert worked_out(text) == (None if value is None else pytest.approx(value))


def check(operation, given, unit):
    """How many sums of an answer were worked out."""
    answer = spoken(run(operation, given, SHOPS[unit], unit=unit).answer, unit)
    count = 0
    for figure in answer.figures:
        kind = DIMENSIONS[figure.dimension]
        other = kind.metric if unit == "inch" else kind.inch
        *_, sums = parts = figure.working.split(";")[0].split(" = ")
        told = unit
        if len(parts) > 1 and other != "" and re.fullmatch(rf"[\d.]+ {re.escape(other)}", sums):
            told = "mm" if unit == "inch" else "inch"  # a sum that ends with its result in its own unit
            result, before = worked_out(sums), worked_out(parts[-2])
            assert before is None or near(before, result, figure, told), (figure.name, figure.working)
        value = worked_out(sums)
        if figure.value is None or value is None:
            continue
        count += 1
        true = figure.value / kind.factor if told == "inch" else figure.value
        assert near(value, true, figure, told), (figure.name, figure.working, true)
    return count


def near(value, true, figure, unit):
    """Numbers are put in with six digits or as the standard rounds them: to half of the last place shown."""
    kind = DIMENSIONS[figure.dimension]
    places = kind.decimals if figure.decimals is None else figure.decimals
    if unit == "inch":
        places += kind.inch_decimals - kind.decimals
    slack = 2.5e-3 if "nearest 0.005" in figure.working else 0.5e-3 if "to 3 decimals" in figure.working else 0
    if rounded := re.search(r"to (\d) decimals of an inch", figure.working):
        slack = 0.5 * 10.0 ** -int(rounded[1]) * (25.4 if unit == "mm" else 1) * 1.001
    return abs(value - true) <= max(0.6 * 10.0**-places, slack) + abs(value) * 2e-5


@each_row("unit", ["mm", "inch"])
@each_row("size", SIZES)
def test_limits(size, unit):
    assert check("thread-limits", {"size": size}, unit) >= 5


@each_row("unit", ["mm", "inch"])
@each_row("size", [s for s in SIZES if "Rp" not in s] + ["R 1/2", "Tr8x8(P2)"])
def test_three_wires(size, unit):
    assert check("three-wires", {"size": size, "force": "5 N"}, unit) >= 2


@each_row("unit", ["mm", "inch"])
@each_row("slide", ["top", "cross"])
@each_row("size", ["M10", "M10-6H", "1/4-20 UNC", "3/8 BSW", "Tr12x3", "1/8 NPT", "4 BA"])
def test_screwcutting(size, slide, unit):
    assert check("screwcutting", {"size": size, "slide": slide, "gap": "3 mm"}, unit) >= 5


@each_row("unit", ["mm", "inch"])
@each_row("side", ["screw", "nut"])
@each_row("size", ["M10", "1/4-20 UNC", "Tr12x3", "4 BA"])
def test_relief(size, side, unit):
    assert check("thread-relief", {"size": size, "side": side}, unit) >= 8


def test_the_infeed_picture_speaks_in_the_unit_on_the_screen():
    answer = spoken(run("screwcutting", {"size": "1/4-20 UNC"}, SHOPS["mm"], unit="inch").answer, "inch")
    assert re.search(r"a depth of 0\.0\d{3} in,", answer.pictures[0].alt)


@each_row("unit", ["mm", "inch"])
@each_row("engagement", ["3 mm", "20 mm"])
@each_row("size", ["M10", "M2.5", "1/4-20 UNC", "3/8 BSW", "4 BA", "Tr12x3", "3/4-6 ACME", "20 BA"])
def test_strength(size, engagement, unit):
    assert check("thread-strength", {"size": size, "engagement": engagement}, unit) >= 5


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize("size", ["M10", "1/4-20 UNC", "3/8 BSW", "3/4-6 ACME"])
def test_areas_in_shear(size, unit):
    for area in spoken(shear_areas(parse(size)), unit):
        assert worked_out(area.working) == pytest.approx(area.value / (25.4 if unit == "inch" else 1), rel=2e-5)


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize(
    ("given", "sums"),
    [
        ({"size": "M10"}, 3),
        ({"size": "M10", "leadscrew": "8 tpi", "wheels": "20,30,40,50,60,63,80"}, 5),
        ({"tpi": "11.5", "leadscrew": "3 mm", "wheels": "20,30,40,50,60,63,80", "clearance": "0.1 mm"}, 6),
        ({"size": "1/4-20 UNC", "leadscrew": "2 mm", "wheels": "20,25,30,40,50,60,63,80"}, 6),
    ],
)
def test_change_gears(given, sums, unit):
    assert check("change-gears", given, unit) >= sums


@each_row("unit", ["mm", "inch"])
@each_row("ppm", ["500", "-20000"])
@each_row("flanks", ["0", "0.5", "3"])
def test_fit(ppm, flanks, unit):
    sizes = {"screw_pitch_diameter": "8.92 mm", "nut_pitch_diameter": "9.08 mm"}
    given = {"size": "M10", **sizes, "lead_error_ppm": ppm, "flank_error": flanks}
    assert check("thread-fit", given, unit) >= 5


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize(
    "given", [{"major": "6.3 mm", "tpi": "20"}, {"major": "8.5 mm", "pitch": "1.51 mm", "side": "nut"}]
)
def test_identify(given, unit):
    assert check("identify-thread", given, unit) == 2


MEASURED = {"screw_pitch_diameter": "8.92 mm", "nut_pitch_diameter": "9.08 mm", "lead_error_ppm": "9000"}
IN_WORDS = [
    ("change-gears", {"size": "M16xPh3P1.5", "leadscrew": "3 mm"}),
    ("change-gears", {"tpi": "11", "leadscrew": "8 tpi"}),
    ("thread-fit", {"size": "M10", **MEASURED}),
    ("identify-thread", {"major": "6.3 mm", "tpi": "20"}),
    ("screwcutting", {"size": "M10-6H"}),
    ("thread-strength", {"size": "M10", "engagement": "3 mm"}),
]


@pytest.mark.parametrize(("operation", "given"), IN_WORDS)
def test_words_have_no_millimetres_on_an_inch_screen(operation, given):
    answer = spoken(run(operation, given, SHOPS["inch"], unit="inch").answer, "inch")
    texts = [figure.working for figure in answer.figures if figure.name != "stress_area"]
    texts += [figure.text for figure in answer.figures] + [note.text for note in answer.notes]
    texts += [picture.alt for picture in answer.pictures]
    assert not [text for text in texts if re.search(r"\b(mm|N|MPa|m/min)\b", text)]
