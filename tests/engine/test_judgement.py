"""Fifty everyday questions: what the headline says beside what a skilled hand or a published table would set.

Each row: number, the question as it is asked, what has to be so, and the authority. A row that still disagrees is marked
with the reason.
"""

import re
from math import pi

from engine.base.operation import run
from engine.shop.file import sample
from tests.rows import each_row
from tests.spoken import spoken

SHOPS = {"metric": sample("metric"), "inch": sample("inch")}


class Said:
    """An answer, read by figure name, with all its notes in one text."""

    def __init__(self, answer):
        self.answer = answer
        self.notes = " ".join(note.text for note in answer.notes)

    def __getitem__(self, name):
        return self.answer.figure(name).value

    def text(self, name):
        return self.answer.figure(name).text

    def near(self, name, value, by=1e-3):
        return abs(self[name] - value) <= by

    def column(self, table, name):
        return self.answer.table(table).column(name)


def ask(call, bench="metric"):
    operation, *given = call.split()
    unit = "inch" if bench == "inch" else "mm"
    answer = run(operation, dict(one.split("=", 1) for one in given), SHOPS[bench], unit=unit).answer
    return Said(spoken(answer, unit))


def surface(said, diameter):
    return pi * diameter * said["rpm"] / 1000


QUESTIONS = [
    (1, "tap-drill size=M6", lambda s: s.near("drill_diameter", 5.0), "ISO 2306: 5.0 for M6"),
    (2, "tap-drill size=M6 depth=12 hole=blind", lambda s: 5.0 <= s["drill_diameter"] <= 5.153 and s.near("drill_depth", 17.1,
    0.6),
     "ISO 965-1, 6H minor to 5.153; DIN 76-1 e1 5.1 beyond the thread"),
    (3, "tap-drill size=M6 depth=12 hole=blind", lambda s: 14 <= s["tap_turns"] <= 20,
     "lead of a second tap 5 threads: 12 + 5 = 17 turns from the first bite (common practice)"),
    (4, "tap-drill size=M6 depth=40", lambda s: "goes in 30 mm" in s.notes,
     "DIN 371: an M6 tap has 30 mm of thread and neck"),
    (5, "tap-drill size=M3 depth=6 material=stainless", lambda s: 2.5 <= s["drill_diameter"] <= 2.6,
     "trade: 2.55 to 2.6 in stainless, 6H minor to 2.599"),
    (6, "tap-drill size=M10 depth=25 hole=blind material=aluminium", lambda s: 8.4 <= s["drill_diameter"] <= 8.7,
     "65 to 75 % in aluminium: a tap maker's table"),
    (7, "tap-drill size=M4 tap=form", lambda s: s.near("drill_diameter", 3.7, 0.03), "a forming tap maker's table"),
    (8, "tap-drill size=1/4-20", lambda s: 5.0 <= s["drill_diameter"] <= 5.25, "every chart: #7, 5.105"),
    (9, "tap-drill size=1/4-20 depth=0.5", lambda s: "#7" in s.text("drill") + s.notes, "every chart: #7"),
    (10, "tap-drill size=4BA material=brass", lambda s: s.near("drill_diameter", 3.0, 0.06), "BS 93 charts: 3.0"),
    (11, "clearance-hole size=1/4-20", lambda s: s.near("diameter", 9 / 32 * 25.4, 0.01), "ASME B18.2.8: 9/32 normal"),
    (12, "clearance-hole size=M6", lambda s: s.near("diameter", 6.6), "ISO 273"),
    (13, "countersink screw=M5", lambda s: s.near("diameter", 10.4, 0.03), "ISO 15065: 10.40 to 10.65"),
    (14, "countersink screw=1/4-20", lambda s: s.near("diameter", 0.507 * 25.4, 0.01) and s.near("angle", 82),
     "ASME B18.6.3: 82 degrees, 0.507 in"),
    (15, "counterbore size=M6", lambda s: s.near("bore", 11) and s.near("depth", 6.4, 0.5), "DIN 974-1"),
    (16, "ream diameter=8", lambda s: 7.7 <= s["pre_drill"] <= 7.9, "TM 1-420 0.13 to 0.25; a training course to 0.3"),
    (17, "ream diameter=3", lambda s: 2.8 <= s["pre_drill"] <= 2.95, "TM 1-420: 0.13 to 0.25"),
    (18, "ream diameter=6 material=aluminium", lambda s: 5.7 <= s["pre_drill"] <= 5.9, "TM 1-420: 0.13 to 0.25"),
    (19, "ream diameter=8", lambda s: 250 <= s["rpm"] <= 630, "TM 1-420 par. 37: half of drilling"),
    (20, "hole-plan diameter=8.5 depth=25", lambda s: 630 <= s["rpm"] <= 1000 and s["pecks"] <= 6,
    "US Navy 14345, drill table"),
    (21, "hole-plan diameter=10 depth=40", lambda s: _no_needle(s, 10), "no pilot to 10 to 13 mm in mild steel: shop notes"),
    (22, "hole-plan diameter=13 depth=30", lambda s: _no_needle(s, 13), "a pilot a quarter to a third: shop notes"),
    (23, "hole-plan diameter=3 depth=30", lambda s: 1000 <= s["rpm"] <= 2600 and s["pecks"] >= 4, "US Navy 14345"),
    (24, "turning-speed diameter=20", lambda s: 24.3 <= surface(s, 20) <= 30.5,
     "a machinist course: 80 to 100 ft/min; US Army OD 1645: a speed near the one wanted"),
    (25, "turning-speed diameter=10 material=brass", lambda s: s["rpm"] == 1600,
     "Mechanical Engineer's Data Handbook p. 192: 75 to 100 m/min; the lathe's fastest makes 50"),
    (26, "turning-speed diameter=50 material=cast_iron", lambda s: s["rpm"] == 100, "15.7 m/min inside 50 to 80 ft/min"),
    (27, "turning-speed diameter=6 material=silver-steel", lambda s: s["rpm"] == 630,
     "40 to 60 ft/min is 647 to 970 rev/min: the first slower, US Army OD 1645"),
    (28, "turning-speed diameter=20 tool=carbide", lambda s: s["rpm"] >= 1000 and s["share_of_motor"] <= 1,
     "300 to 500 ft/min, within 550 W"),
    (29, "turning-speed diameter=3 material=brass way=finish cut=0.1", lambda s: 0.05 <= s["feed"] <= 0.13,
     "a machinist course: finishing 0.002 to 0.005 in"),
    (30, "overhang diameter=6 length=18", lambda s: s.near("longest", 18), "3 diameters: a lathe maker's manual"),
    (31, "overhang diameter=20 length=200 support=centre", lambda s: s.near("longest", 160), "8 to 10 diameters"),
    (32, "overhang diameter=12 length=40 support=collet", lambda s: s.near("longest", 36) and "Longer than" in s.notes,
     "3 to 4 diameters, as the caution has it"),
    (33, "part-off diameter=25", lambda s: s["rpm"] <= 250 and s.near("feed", 0.0508) and s.near("blade_reach", 13),
     "TM 1-420 par. 32: 0.002 in; half of turning"),
    (34, "part-off diameter=25", lambda s: "widen the groove" in s.notes and "use a wider blade" not in s.notes,
     "a wider blade pushes harder: the power law of cutting force"),
    (35, "part-off diameter=25 tool=carbide", lambda s: s["share_of_motor"] <= 1 and "slower" in s.notes, "the motor's 550 W"),
    (36, "bar-plan parts=3 length=12 diameter=20", lambda s: s["stick_out"] <= 60 and s.column("cuts", "to") == (12, 26.5, 41),
     "arithmetic; 3 diameters"),
    (37, "bar-plan parts=3 length=40 drill=6", lambda s: "57.0 mm flute" in s.notes, "DIN 338: 6 mm, flute 57"),
    (38, "slot width=2 depth=2 length=8 diameter=8 material=brass", lambda s: s["step"] <= 1 and s.near("cutter", 2),
    "half a diameter a pass: common practice"),
    (39, "slot width=6 depth=3.5 length=20 diameter=20", lambda s: 630 <= s["rpm"] <= 1750, "70 to 120 ft/min"),
    (40, "key diameter=20", lambda s: s.near("width", 6) and s.near("height", 6), "DIN 6885: 6 x 6"),
    (41, "key diameter=0.5", lambda s: s.near("width", 0.125 * 25.4, 0.01), "ASME B17.1: 1/8 in"),
    (42, "fit diameter=3 fit=running", lambda s: s["clearance_min"] >= 0.01, "a hundredth at least: common practice"),
    (43, "fit diameter=8 fit=press", lambda s: 8.005 <= s["shaft_min"] < s["shaft_max"] <= 8.024,
     "a model engineers' pocket book: driving to forced; ISO p6 8.015 to 8.024"),
    (44, "fit diameter=12 fit=H7/g6", lambda s: s.near("clearance_min", 0.006) and s.near("clearance_max", 0.035), "ISO 286-1"),
    (45, "ball-seat ball=4 hole=4 stand_out=1.2", lambda s: s.near("depth", 2.8) and s.near("point_depth", 1.932), "geometry"),
    (46, "ball-seat ball=4 hole=4 stand_out=1.2", lambda s: "solder" not in s.text("hold"), "a solder maker: no press fits"),
    (47, "solder alloy=63/37 part=ball", lambda s: "60 to 61" in s.text("hardness") and "still hard enough" in s.notes,
     "two stockists' table of 52100: 61 to 62 at 200, 59 to 60 at 250 °C"),
    (48, "solder alloy=silver-solder", lambda s: s.near("gap_low", 0.1) and s.near("gap_high", 0.26, 0.01),
     "AWS A5.8: 0.002 to 0.005 in each side"),
    (49, "retain diameter=10", lambda s: s.near("gap_low", 0.025) and s.near("gap_high", 0.075), "ASTM D4562"),
    (50, "knurl-passes diameter=18 width=10 pitch=0.8", lambda s: s.answer.lead.name == "first_rpm" and s["first_rpm"] == 65
     and s.near("infeed", 0.2), "a knurling tool maker's sheet: low speed, then press"),
]  # fmt: skip
INCH_BENCH = (9, 14, 41)


def _no_needle(said, hole):
    """The centre is 2 mm or more; a pilot is a quarter of the hole or more, and no deeper than eight of its diameters."""
    for tool, depth in zip(said.column("steps", "tool"), said.column("steps", "depth"), strict=True):
        size = float(re.search(r"[\d.]+", tool)[0])
        if tool.startswith("centre") and size < 2:
            return False
        if tool.startswith("pilot") and not (size >= hole / 4 and depth <= 8 * size):
            return False
    return True


@each_row(("number", "call", "agrees", "authority"), QUESTIONS, ids=[f"{row[0]} {row[1]}" for row in QUESTIONS])
def test_a_skilled_hand_agrees(number, call, agrees, authority):
    bench = "inch" if number in INCH_BENCH else "metric"
    assert authority and agrees(ask(call, bench)), call


def test_all_fifty_are_asked():
    assert [row[0] for row in QUESTIONS] == list(range(1, 51))
