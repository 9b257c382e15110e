"""Everyday questions about holes, and what a skilled hand would set: the headline beside its authority.

Standards, army and training manuals, trade practice. A row that is argued says why in its comment.
"""

import pytest

from engine.base.operation import run
from engine.base.showing import figure_text
from engine.shop.file import sample
from tests.rows import each_row
from tests.spoken import spoken

# question, bench, call, figure: what is answered, authority
QUESTIONS = [
    ("drill for M6", "metric", "tap-drill size=M6", "drill", "5 mm", "ISO 2306"),
    ("M6, 12 mm blind", "metric", "tap-drill size=M6 depth=12", "drill", "5.1 mm", "inside 6H; the chart has 5.0"),
    ("how deep", "metric", "tap-drill size=M6 depth=12", "drill_depth", "17.10 mm", "DIN 76-1, e1"),
    ("its tip", "metric", "tap-drill size=M6 depth=12", "tip_depth", "18.63 mm", "geometry, 118 degrees"),
    ("turns of the tap", "metric", "tap-drill size=M6 depth=12", "tap_turns", "17", "12 and the second tap's 5 of lead"),
    ("M6, 40 mm deep", "metric", "tap-drill size=M6 depth=40", "tap_reach", "30 mm", "DIN 371: thread and neck"),
    # argued: trade takes 2.55 to 2.6 against broken taps; 2.6 is 0.001 mm outside 6H, so it is left to the person
    ("M3 x 6 in stainless", "metric", "tap-drill size=M3 depth=6 material=stainless", "drill", "2.5 mm", "ISO 965-1, 6H"),
    ("M10, 25 mm, aluminium", "metric", "tap-drill size=M10 depth=25 material=aluminium", "drill", "8.6 mm", "60 to 70 %"),
    ("M4 forming tap", "metric", "tap-drill size=M4 tap=form", "drill", "3.7 mm", "a tap maker's table"),
    ("1/4-20, metric bench", "metric", "tap-drill size=1/4-20", "drill", "5.1 mm", "drill charts: #7, 5.105 mm"),
    ("1/4-20, inch bench", "inch", "tap-drill size=1/4-20", "drill", "#7", "drill charts"),
    ("4 BA in brass", "metric", "tap-drill size=4BA material=brass", "drill", "3 mm", "BA charts"),
    ("clearance 1/4 in", "inch", "clearance-hole size=1/4", "drill", "9/32 in", "ASME B18.2.8 normal"),
    ("the same, close", "inch", "clearance-hole size=1/4 fit=close", "drill", "17/64 in", "ASME B18.2.8 close"),
    ("clearance M6", "metric", "clearance-hole size=M6", "diameter", "6.600 mm", "ISO 273"),
    ("countersink M5", "metric", "countersink screw=M5", "diameter", "10.40 mm", "ISO 15065"),
    ("countersink 1/4 in", "inch", "countersink screw=1/4", "diameter", "0.507 in", "ASME B18.6.3, 82 degrees"),
    ("counterbore M6", "metric", "counterbore size=M6", "bore", "11.00 mm", "DIN 974-1"),
    ("its depth", "metric", "counterbore size=M6", "depth", "6.40 mm", "DIN 974-1"),
    ("before an 8 mm reamer", "metric", "ream diameter=8", "drill", "7.8 mm", "TM 1-420: 0.13 to 0.25 mm"),
    ("before a 3 mm reamer", "metric", "ream diameter=3", "drill", "2.9 mm", "home practice"),
    ("before 6 mm, aluminium", "metric", "ream diameter=6 material=aluminium", "drill", "5.7 mm", "home practice"),
    ("speed to ream 8 mm", "metric", "ream diameter=8", "rpm", "400 rev/min", "TM 1-420: half of drilling"),
    ("8.5 x 25, mild steel", "metric", "hole-plan diameter=8.5 depth=25", "pecks", "3", "a drill dealer's tips"),
    ("its speed", "metric", "hole-plan diameter=8.5 depth=25", "rpm", "1000 rev/min", "US Navy 14345: 913 to 1256"),
    ("3 x 30, mild steel", "metric", "hole-plan diameter=3 depth=30", "rpm", "1600 rev/min", "1552 to 2134, less 40 % so deep"),
]  # fmt: skip

# tools of a hole: a centre or spotting drill for the hole, no pilot under 3/8 to 1/2 in, else a third, short when slender
PLANS = [
    ("hole-plan diameter=9.9 depth=30", ("centre drill ISO 2.5", "drill, 9.9 mm")),
    ("hole-plan diameter=10 depth=40", ("centre drill ISO 2.5", "drill, 10 mm")),
    ("hole-plan diameter=12 depth=40", ("centre drill ISO 3.15", "drill, 12 mm")),
    ("hole-plan diameter=13 depth=30", ("centre drill ISO 3.15", "pilot, 4.3 mm", "drill, 13 mm")),
    ("hole-plan diameter=10.5 depth=52 material=brass", ("centre drill ISO 3.15", "drill, 10.5 mm")),
    ("hole-plan diameter=11 depth=30", ("centre drill ISO 3.15", "drill, 11 mm")),
]


def _answer(bench, call):
    operation, *given = call.split()
    shop = sample(bench)
    unit = "inch" if bench == "inch" else "mm"
    return run(operation, dict(word.split("=", 1) for word in given), shop, unit=unit).answer


@each_row(("question", "bench", "call", "figure", "wanted", "authority"), QUESTIONS)
def test_a_headline_is_what_a_skilled_hand_sets(question, bench, call, figure, wanted, authority):
    shown = figure_text(_answer(bench, call).figure(figure), "inch" if bench == "inch" else "mm")
    assert shown == wanted, (question, authority)


@pytest.mark.parametrize(("call", "tools"), PLANS)
def test_the_tools_of_a_hole(call, tools):
    assert _answer("metric", call).table("steps").column("tool") == tools


def test_a_plan_never_warns_of_itself():
    # the same rule judges a pilot that is asked for and the plan's own drills: info, or a warning where metal grabs
    for diameter in (6, 8.5, 10, 12, 13):
        notes = spoken(_answer("metric", f"hole-plan diameter={diameter} depth=30").notes)
        assert not [note.text for note in notes if note.level == "warning"]
