"""Every rule: what raises it and what does not, at the limit."""

from dataclasses import replace

import pytest

from engine.safety.rules import RULES
from engine.slotting.slot import BEND_ALLOWED
from tests.engine.safety.facts_for import METRIC, facts, shop_with, thread

TURN = "turning-speed"
PART = "part-off"
NO_CHUCK_MARK = shop_with(chuck={"marked_speed": None})
SCREWED = shop_with(chuck={"screwed": True})
UNSCREWED = shop_with(chuck={"screwed": False})
STEEP = {"size": thread(pitch="3", diameter=12.0)}


def blind(**more):
    return {"size": thread(pitch="1"), "hole": "blind", "depth": 10.0, **more}


# rule, kind of finding or None, facts. Cases come in pairs at each limit; kinds: raised, asked, stands.
CASES = [
    ("always", "stands", facts()),
    ("ask", "asked", facts()),
    ("on-lathe", "stands", facts("tap-drill")),
    ("on-lathe", None, facts("hole-plan", inputs={"machine": "mill"})),
    ("on-mill", "stands", facts("hole-plan", inputs={"machine": "mill"})),
    ("on-mill", None, facts("hole-plan", inputs={"machine": "lathe"})),
    ("ask-on-mill", "asked", facts("hole-circle")),
    ("ask-on-mill", None, facts("hole-plan", inputs={"machine": None})),  # the bench has a lathe
    # the metric sample lathe's highest speed is 1600, its mill's 2500, the chuck is marked 2000
    ("over-machine-speed", "raised", facts(TURN, rpm=1601)),
    ("over-machine-speed", None, facts(TURN, rpm=1600)),
    ("over-machine-speed", "raised", facts("slot", rpm=2501)),
    ("over-machine-speed", None, facts("slot", rpm=2500)),
    ("over-machine-speed", None, facts(TURN)),
    ("over-machine-speed", None, facts("countersink", rpm=2500)),  # on either machine
    ("over-machine-speed", None, facts(TURN, rpm=9000, shop=None)),
    ("chuck-over-mark", "raised", facts(TURN, rpm=2001)),
    ("chuck-over-mark", None, facts(TURN, rpm=2000)),
    ("chuck-over-mark", None, facts(TURN, rpm=9000, shop=NO_CHUCK_MARK)),
    ("chuck-over-mark", None, facts("slot", rpm=2500)),
    ("chuck-unmarked", "raised", facts(TURN, rpm=100, shop=NO_CHUCK_MARK)),
    ("chuck-unmarked", None, facts(TURN, rpm=100)),
    # half of the grip is gone at sqrt(3/4) of the mark: 1732.05 of 2000 rev/min
    ("grip-share", "raised", facts(TURN, rpm=1733)),
    ("grip-share", None, facts(TURN, rpm=1732)),
    ("grip-share", None, facts(TURN, rpm=2001)),
    (
        "overhang-ratio",
        "raised",
        facts("overhang", inputs={"diameter": 10.0, "length": 30.1, "support": "chuck"}),
    ),
    (
        "overhang-ratio",
        None,
        facts("overhang", inputs={"diameter": 10.0, "length": 30.0, "support": "chuck"}),
    ),
    (
        "overhang-ratio",
        None,
        facts("overhang", inputs={"diameter": 10.0, "length": 99.0, "support": "centre"}),
    ),
    ("overhang-ratio", "asked", facts(TURN, inputs={"diameter": 10.0})),
    ("short-grip", "raised", facts("bar-plan", inputs={"diameter": 20.0, "grip": 19.9})),
    ("short-grip", None, facts("bar-plan", inputs={"diameter": 20.0, "grip": 20.0})),
    ("short-grip", "raised", facts(TURN, inputs={"diameter": 24.1})),  # the jaws are 24 mm long
    ("short-grip", "asked", facts(TURN, inputs={"diameter": 24.0})),
    ("jaws-past-body", "raised", facts(TURN, inputs={"diameter": 100.1})),  # the body is 100 mm
    ("jaws-past-body", "asked", facts(TURN, inputs={"diameter": 100.0})),
    ("jaws-past-body", "asked", facts(TURN, inputs={"diameter": 50.1})),
    ("jaws-past-body", None, facts(TURN, inputs={"diameter": 50.0})),
    ("rear-bar", "asked", facts(TURN, inputs={"diameter": 20.0})),
    ("rear-bar", None, facts(TURN, inputs={"diameter": 21.0})),  # does not go into the spindle's 21 mm bore
    ("rear-bar", "asked", facts(TURN, inputs={"diameter": 20.0, "rear": 0.1})),
    ("rear-bar", None, facts(TURN, inputs={"diameter": 20.0, "rear": 0.0})),
    # steel, 6 mm by 600 mm: 718 rev/min, half of it 359
    (
        "rear-whirl",
        "raised",
        facts(TURN, rpm=360, inputs={"diameter": 6.0, "rear": 600.0, "material": "mild steel"}),
    ),
    (
        "rear-whirl",
        None,
        facts(TURN, rpm=359, inputs={"diameter": 6.0, "rear": 600.0, "material": "mild steel"}),
    ),
    (
        "rear-whirl",
        "raised",
        facts(TURN, rpm=359, inputs={"diameter": 6.0, "rear": 600.0, "material": "plain brass"}),
    ),
    ("rear-whirl", "asked", facts(TURN, rpm=359, inputs={"diameter": 6.0}, told={"CHK-07": True})),
    ("rear-whirl", None, facts(TURN, rpm=359, inputs={"diameter": 6.0}, told={"CHK-07": False})),
    ("rear-whirl", None, facts(TURN, rpm=359, inputs={"diameter": 6.0})),
    # 0.1 kg at 10 mm pulls 10 N at 954.93 rev/min
    ("unbalance", "asked", facts(TURN, rpm=955)),
    ("unbalance", "stands", facts(TURN, rpm=954)),
    ("unbalance", None, facts("slot", rpm=2500)),
    ("screwed-chuck", "asked", facts("screwcutting", shop=SCREWED)),
    ("screwed-chuck", None, facts("screwcutting", shop=UNSCREWED)),
    ("screwed-chuck", "asked", facts(shop=None)),
    ("thread-hand", "raised", facts("bar-plan", inputs={"thread": thread(left_hand=True)})),
    ("thread-hand", None, facts("bar-plan", inputs={"thread": thread()})),
    ("thread-hand", "asked", facts()),
    ("little-thread", "asked", facts("bar-plan", inputs={"thread": thread()})),
    ("run-in", "raised", facts(TURN, rpm=600, feed=0.1, gap=0.99)),
    ("run-in", None, facts(TURN, rpm=600, feed=0.1, gap=1.0)),
    ("run-in", "asked", facts(TURN, rpm=600, feed=0.1)),
    ("run-in", "stands", facts("thread-relief")),
    # gap 1.5 mm, pitch 1 mm: 90 rev/min gives 1.0 s
    ("shoulder", "raised", facts("screwcutting", rpm=91, inputs={"size": thread(), "gap": 1.5})),
    ("shoulder", None, facts("screwcutting", rpm=90, inputs={"size": thread(), "gap": 1.5})),
    ("shoulder", "raised", facts("screwcutting", rpm=46, inputs={"size": thread(starts=2), "gap": 1.5})),
    ("shoulder", "raised", facts("screwcutting", rpm=90, time_to_shoulder=0.99)),
    ("shoulder", None, facts("screwcutting", rpm=90, time_to_shoulder=1.0)),
    ("shoulder", "asked", facts("screwcutting", rpm=90, inputs={"size": thread()})),
    ("shoulder-margin", "raised", facts("screwcutting", rpm=90, time_to_shoulder=1.0)),
    ("shoulder-margin", None, facts("screwcutting", rpm=90, time_to_shoulder=0.99)),
    ("shoulder-margin", "raised", facts("screwcutting", rpm=30, time_to_shoulder=2.99)),
    ("shoulder-margin", None, facts("screwcutting", rpm=30, time_to_shoulder=3.0)),
    # the sample's blade reaches 17 mm and is 2 mm wide
    ("blade-reach", "raised", facts(PART, inputs={"diameter": 33.1})),
    ("blade-reach", None, facts(PART, inputs={"diameter": 33.0})),
    ("blade-reach", None, facts(PART, inputs={"diameter": 43.0, "bore": 10.0})),
    ("blade-reach", "raised", facts(PART, blade_reach=17.1, inputs={"diameter": 33.0})),
    ("blade-reach", "asked", facts(PART, inputs={"diameter": 10.0}, shop=shop_with(lathe={"blade": None}))),
    ("blade-widths", "raised", facts(PART, blade_reach=16.1, inputs={"diameter": 30.0})),
    ("blade-widths", None, facts(PART, blade_reach=16.0, inputs={"diameter": 30.0})),
    ("blade-widths", None, facts(PART, blade_reach=16.1, inputs={"diameter": 30.0, "blade": 3.0})),
    ("far-from-jaws", "raised", facts(PART, inputs={"diameter": 10.0, "stick_out": 10.1})),
    ("far-from-jaws", None, facts(PART, inputs={"diameter": 10.0, "stick_out": 10.0})),
    ("far-from-jaws", "asked", facts(PART, inputs={"diameter": 10.0, "stick_out": None})),
    ("threaded-piece", "raised", facts("bar-plan", inputs={"thread": thread()})),
    ("threaded-piece", "asked", facts(PART)),
    ("parting-dry", "stands", facts(PART, inputs={"material": "mild steel"})),
    ("parting-dry", None, facts(PART, inputs={"material": "free-cutting brass"})),
    ("burning-swarf", "raised", facts(TURN, inputs={"material": "titanium alloy"})),
    ("burning-swarf", None, facts(TURN, inputs={"material": "mild steel"})),
    ("leaded", "raised", facts(TURN, inputs={"material": "free-cutting brass"})),
    ("leaded", None, facts(TURN, inputs={"material": "plain brass"})),
    ("knurl-overhang", "raised", facts("knurl-passes", inputs={"diameter": 10.0, "stick_out": 20.1})),
    ("knurl-overhang", None, facts("knurl-passes", inputs={"diameter": 10.0, "stick_out": 20.0})),
    ("knurl-overhang", None, facts("knurl-passes", inputs={"diameter": 10.0, "support": "centre"})),
    ("knurl-overhang", "asked", facts("knurl-passes", inputs={"diameter": 10.0})),
    ("knurl-overhang", "raised", facts("knurl-passes", inputs={"diameter": 10.0, "width": 20.1})),
    ("knurl-overhang", "asked", facts("knurl-passes", inputs={"diameter": 10.0, "width": 20.0})),
    ("deep-hole", "raised", facts("hole-plan", inputs={"diameter": 5.0, "depth": 15.1})),
    ("deep-hole", None, facts("hole-plan", inputs={"diameter": 5.0, "depth": 15.0})),
    ("deep-hole", "stands", facts("clearance-hole", diameter=5.0)),
    ("small-drill", "raised", facts("drill-size", diameter=1.99)),
    ("small-drill", None, facts("drill-size", diameter=2.0)),
    (
        "thin-sheet",
        "raised",
        facts("tap-drill", drill_diameter=5.0, inputs={"hole": "through", "depth": 4.9}),
    ),
    ("thin-sheet", None, facts("tap-drill", drill_diameter=5.0, inputs={"hole": "through", "depth": 5.0})),
    ("thin-sheet", None, facts("tap-drill", drill_diameter=5.0, inputs={"hole": "blind", "depth": 4.9})),
    ("thin-round-wall", "raised", facts("hole-plan", inputs={"diameter": 8.1, "outside": 10.0})),
    ("thin-round-wall", None, facts("hole-plan", inputs={"diameter": 8.0, "outside": 10.0})),
    ("breakthrough", "stands", facts("hole-plan", inputs={"hole": "through"})),
    ("breakthrough", None, facts("hole-plan", inputs={"hole": "blind"})),
    ("snatching", "raised", facts("hole-plan", inputs={"material": "free-cutting brass"})),
    ("snatching", None, facts("hole-plan", inputs={"material": "mild steel"})),
    ("snatching", "stands", facts("clearance-hole")),
    ("tap-bottoms", "asked", facts("tap-drill", drill_depth=12.9, inputs=blind())),
    ("tap-bottoms", None, facts("tap-drill", drill_depth=13.0, inputs=blind())),
    ("tap-bottoms", None, facts("tap-drill", drill_depth=12.9, inputs=blind(hole="through"))),
    ("tap-bottoms", None, facts("tap-drill", drill_depth=12.9, inputs=blind(), told={"TAP-02": False})),
    ("tap-bottoms", "asked", facts()),
    # lead 3 at the lathe's lowest 65 rev/min runs on 3.25 mm in a second
    ("tap-runs-on", "asked", facts("tap-drill", drill_depth=13.2, inputs=blind(**STEEP))),
    ("tap-runs-on", None, facts("tap-drill", drill_depth=13.25, inputs=blind(**STEEP))),
    (
        "tap-runs-on",
        None,
        facts("tap-drill", drill_depth=13.2, inputs=blind(**STEEP), told={"TAP-02": False}),
    ),
    ("tap-backs-out", "asked", facts("tap-drill", shop=SCREWED)),
    ("tap-backs-out", None, facts("tap-drill", shop=UNSCREWED)),
    ("tap-backs-out", None, facts("tap-drill", shop=SCREWED, told={"TAP-02": False})),
    ("tiny-cutter", "raised", facts("slot", cutter=3.0)),
    ("tiny-cutter", None, facts("slot", cutter=3.1)),
    ("deep-pass", "raised", facts("slot", cutter=2.0, step=1.01)),
    ("deep-pass", None, facts("slot", cutter=2.0, step=1.0)),
    ("deep-pass", "stands", facts("key")),
    ("bending-cutter", "raised", facts("slot", cutter=2.0, cutter_deflection=1.001 * BEND_ALLOWED)),
    ("bending-cutter", None, facts("slot", cutter=2.0, cutter_deflection=BEND_ALLOWED)),
    ("thin-wall", "raised", facts("slot", wall_left=1.99, inputs={"diameter": 8.0})),
    ("thin-wall", None, facts("slot", wall_left=2.0, inputs={"diameter": 8.0})),
    ("run-out", "asked", facts("slot", cutter=2.0, feed=20.0, rpm=1000)),
    ("run-out", "stands", facts("key")),
    ("climbing", "asked", facts("slot", shop=shop_with(mill_x={"backlash": 0.1}))),
    ("climbing", None, facts("slot", shop=shop_with(mill_x={"backlash": 0.0}))),
    ("climbing", "asked", facts("slot", shop=shop_with(mill=None))),
    ("indexed-in-lathe", "asked", facts("divide", shop=shop_with(lathe={"spindle_wheel": 60}))),
    ("indexed-in-lathe", None, facts("divide", shop=shop_with(lathe={"spindle_wheel": None}))),
    ("indexed-in-lathe", None, facts("divide", shop=replace(METRIC, lathe=None))),
    ("pin-left-in", "stands", facts("divide", shop=shop_with(lathe={"spindle_wheel": 60}))),
    ("pin-left-in", None, facts("divide", shop=shop_with(lathe={"spindle_wheel": None}))),
    ("brazing", "stands", facts("solder", liquidus=450.1)),
    ("brazing", None, facts("solder", liquidus=450.0)),
    ("soft", "stands", facts("solder", liquidus=450.0)),
    ("soft", None, facts("solder", liquidus=450.1)),
    ("lead", "raised", facts("solder", liquidus=183.0, inputs={"alloy": "Sn63Pb37"})),
    ("lead", "raised", facts("solder", liquidus=191.0, inputs={"alloy": "60/40"})),
    ("lead", None, facts("solder", liquidus=220.0, inputs={"alloy": "SAC305"})),
    ("lead", None, facts("solder", liquidus=652.0, inputs={"alloy": "BAg-7"})),
    ("lead", "asked", facts()),
    ("cadmium", "raised", facts("solder", liquidus=688.0, inputs={"alloy": "BAg-3"})),
    ("cadmium", None, facts("solder", liquidus=707.0, inputs={"alloy": "BAg-24"})),
    ("cadmium", None, facts("solder", liquidus=183.0, inputs={"alloy": "Sn63Pb37"})),
    ("cadmium", "asked", facts("solder", liquidus=680.0, inputs={"alloy": "silver solder"})),
    ("cadmium", "asked", facts()),
    ("hollow", "asked", facts("solder", liquidus=620.0)),
    ("hollow", "asked", facts()),
    ("over-temper", "raised", facts("solder", liquidus=221.0, inputs={"temper": 250.0})),
    ("over-temper", None, facts("solder", liquidus=221.0, inputs={"temper": 251.0})),
    ("over-temper", "raised", facts("solder", liquidus=183.0, inputs={"part": "bearing ball"})),
    ("over-temper", None, facts("solder", liquidus=183.0, inputs={"part": "brass bush"})),
    ("over-temper", None, facts("solder", liquidus=652.0, inputs={"temper": 150.0})),
    ("hardness-gone", "raised", facts("solder", liquidus=652.0, inputs={"temper": 250.0})),
    ("hardness-gone", None, facts("solder", liquidus=450.0, inputs={"temper": 250.0})),
    ("hardness-gone", None, facts("solder", liquidus=652.0, inputs={"part": "brass bush"})),
    ("hardness-gone", "stands", facts()),
    ("beryllium", "raised", facts("solder", inputs={"part": "beryllium copper spring"})),
    ("beryllium", None, facts("solder", inputs={"part": "brass bush"})),
    ("beryllium", "stands", facts()),
    ("coating", "raised", facts("solder", inputs={"part": "galvanised bracket"})),
    ("coating", "asked", facts("solder", inputs={"part": "bracket"})),
    ("small-part", "raised", facts("ball-seat", inputs={"ball": 5.9})),
    ("small-part", "stands", facts("ball-seat", inputs={"ball": 6.0})),
]


@pytest.mark.parametrize("rule, kind, given", CASES, ids=lambda part: part if isinstance(part, str) else "")
def test_a_rule_at_its_limit(rule, kind, given):
    finding = RULES[rule](given)
    assert (finding.kind if finding else None) == kind


def test_every_rule_has_a_case_that_brings_it_out_and_one_that_leaves_it():
    for name in RULES:
        kinds = {kind for rule, kind, _ in CASES if rule == name}
        assert kinds - {None}, name
        if name not in ("always", "ask", "little-thread", "hollow"):
            assert len(kinds) > 1, f"{name} is never left out"
