"""Every rule: what raises it and what does not, at the limit; and that it reads what it says it needs."""

from dataclasses import fields, replace

from engine.base.operation import run
from engine.base.register import CATALOG, load
from engine.safety.rows import every_row
from engine.safety.rules import RULES
from engine.safety.rules_milling import BEND_ALLOWED
from engine.set_up import SetUp, situation_of
from engine.shop.file import sample
from engine.shop.situation import in_shop
from tests.chance import kept, said
from tests.engine.safety.moments import METRIC, milling, moment, shop_with, thread, turning
from tests.rows import each_row

NO_MARK = shop_with(chuck={"marked_speed": None})
SCREWED, UNSCREWED = shop_with(chuck={"screwed": True}), shop_with(chuck={"screwed": False})
WHEEL = shop_with(lathe={"spindle_wheel": 60})
BALL = {"liquidus": 183.0}

# rule, kind of finding or None, the moment. Cases come in pairs at each limit; kinds: raised, asked, stands.
CASES = [
    ("always", "stands", moment()),
    ("on-lathe", "stands", moment()),
    ("on-lathe", None, milling()),
    ("on-mill", "stands", milling()),
    ("on-mill", None, turning()),
    ("in-four-jaws", "stands", turning(held_by="four-jaw")),
    ("in-four-jaws", None, turning(held_by="three-jaw")),
    ("between-centres", "stands", turning(support="centre")),
    ("between-centres", None, turning(support="none")),
    ("with-carrier", "stands", turning(held_by="between centres")),
    ("with-carrier", None, turning(support="centre")),
    ("with-steady", "stands", turning(support="fixed steady")),
    ("with-steady", None, turning(support="centre")),
    ("boring", "stands", turning(bore=10.0)),
    ("boring", None, turning()),
    ("hardened", "stands", moment(hardened=True)),
    ("hardened", None, moment(hardened=False)),
    # the metric sample lathe's highest speed is 1600, its mill's 2500, the chuck is marked 2000
    ("over-machine-speed", "raised", turning(spindle_speed=1601)),
    ("over-machine-speed", None, turning(spindle_speed=1600)),
    ("over-machine-speed", "raised", milling(spindle_speed=2501)),
    ("over-machine-speed", None, milling(spindle_speed=2500)),
    ("over-machine-speed", None, turning()),
    ("over-machine-speed", None, moment(spindle_speed=2500)),  # on either machine
    ("over-machine-speed", None, turning(None, spindle_speed=9000)),
    ("chuck-over-mark", "raised", turning(spindle_speed=2001)),
    ("chuck-over-mark", None, turning(spindle_speed=2000)),
    ("chuck-over-mark", None, turning(NO_MARK, spindle_speed=9000)),
    ("chuck-over-mark", None, milling(spindle_speed=2500)),
    ("chuck-unmarked", "raised", turning(NO_MARK)),
    ("chuck-unmarked", None, turning()),
    ("chuck-unmarked", None, turning(None)),
    # half of the grip is gone at sqrt(3/4) of the mark: 1732.05 of 2000 rev/min
    ("grip-share", "raised", turning(spindle_speed=1733)),
    ("grip-share", None, turning(spindle_speed=1732)),
    ("grip-share", None, turning(spindle_speed=2001)),
    ("overhang-ratio", "raised", turning(work_diameter=10.0, stick_out=30.1)),
    ("overhang-ratio", None, turning(work_diameter=10.0, stick_out=30.0)),
    ("overhang-ratio", None, turning(work_diameter=10.0, stick_out=99.0, support="centre")),
    ("overhang-ratio", None, milling(work_diameter=10.0, stick_out=99.0)),
    ("overhang-ratio", "stands", turning(work_diameter=10.0)),
    ("short-grip", "raised", turning(grip=20.0, stick_out=30.1)),
    ("short-grip", None, turning(grip=20.0, stick_out=30.0)),
    ("short-grip", None, turning(work_diameter=75.0, grip=4.0, stick_out=6.0)),  # a disc on the jaws' steps
    ("short-grip", None, turning(grip=20.0, stick_out=90.0, support="centre")),
    ("short-grip", "stands", turning(work_diameter=40.0)),
    ("jaws-past-body", "raised", turning(work_diameter=100.1)),  # the body is 100 mm
    ("jaws-past-body", "stands", turning(work_diameter=100.0)),
    ("jaws-past-body", "stands", turning(work_diameter=50.1)),
    ("jaws-past-body", None, turning(work_diameter=50.0)),
    ("rear-bar", "stands", turning(work_diameter=20.0)),
    ("rear-bar", None, turning(work_diameter=21.0)),  # does not go into the spindle's 21 mm bore
    ("rear-bar", "raised", turning(work_diameter=20.0, rear=0.1)),
    ("rear-bar", None, turning(work_diameter=20.0, rear=0.0)),
    # steel, 6 mm by 600 mm: 718 rev/min, half of it 359
    ("rear-whirl", "raised", turning(spindle_speed=360, work_diameter=6.0, rear=600.0, material="mild steel")),
    ("rear-whirl", None, turning(spindle_speed=359, work_diameter=6.0, rear=600.0, material="mild steel")),
    ("rear-whirl", "raised", turning(spindle_speed=359, work_diameter=6.0, rear=600.0, material="plain brass")),
    ("rear-whirl", None, turning(spindle_speed=359, work_diameter=6.0)),
    # 0.1 kg at 10 mm pulls 10 N at 954.93 rev/min
    ("unbalance", "raised", turning(spindle_speed=955, off_centre=True)),
    ("unbalance", "stands", turning(spindle_speed=954, off_centre=True)),
    ("unbalance", "stands", turning(spindle_speed=955)),
    ("unbalance", None, turning(spindle_speed=955, off_centre=False)),
    ("unbalance", None, milling(spindle_speed=2500)),
    ("screwed-chuck", "raised", turning(SCREWED, reverse=True)),
    ("screwed-chuck", "stands", turning(SCREWED)),
    ("screwed-chuck", None, turning(SCREWED, reverse=False)),
    ("screwed-chuck", None, turning(UNSCREWED, reverse=True)),
    ("thread-hand", "raised", turning(thread=thread(left_hand=True))),
    ("thread-hand", "raised", turning(thread=thread(), reverse=True)),
    ("thread-hand", None, turning(thread=thread())),
    ("thread-hand", "stands", turning()),
    ("little-thread", "stands", turning(thread=thread())),
    ("run-in", "raised", turning(spindle_speed=600, feed=0.1, gap=0.99)),
    ("run-in", None, turning(spindle_speed=600, feed=0.1, gap=1.0)),
    ("run-in", "stands", turning(spindle_speed=600, feed=0.1)),
    ("run-in", None, milling(spindle_speed=600, feed=0.1)),
    # gap 1.5 mm, pitch 1 mm: 90 rev/min gives 1.0 s
    ("shoulder", "raised", turning(spindle_speed=91, thread=thread(), gap=1.5)),
    ("shoulder", None, turning(spindle_speed=90, thread=thread(), gap=1.5)),
    ("shoulder", "raised", turning(spindle_speed=46, thread=thread(starts=2), gap=1.5)),
    ("shoulder", "raised", turning(spindle_speed=90, time_to_shoulder=0.99)),
    ("shoulder", None, turning(spindle_speed=90, time_to_shoulder=1.0)),
    ("shoulder", "stands", turning(spindle_speed=90, thread=thread())),
    ("shoulder-margin", "raised", turning(spindle_speed=90, time_to_shoulder=1.0)),
    ("shoulder-margin", None, turning(spindle_speed=90, time_to_shoulder=0.99)),
    ("shoulder-margin", "raised", turning(spindle_speed=31, thread=thread(), gap=1.5)),
    ("shoulder-margin", None, turning(spindle_speed=30, thread=thread(), gap=1.5)),
    ("shoulder-margin", "raised", turning(spindle_speed=30, time_to_shoulder=2.99)),
    ("shoulder-margin", None, turning(spindle_speed=30, time_to_shoulder=3.0)),
    # the sample's blade reaches 17 mm and is 2 mm wide
    ("blade-reach", "raised", turning(work_diameter=33.1)),
    ("blade-reach", None, turning(work_diameter=33.0)),
    ("blade-reach", None, turning(work_diameter=43.0, bore=10.0)),
    ("blade-reach", "raised", turning(work_diameter=33.0, reach_needed=17.1)),
    ("blade-reach", "stands", turning(shop_with(lathe={"blade": None}), work_diameter=10.0)),
    ("blade-widths", "raised", turning(work_diameter=30.0, reach_needed=16.1)),
    ("blade-widths", "raised", turning(work_diameter=31.1)),  # half of it and 0.5 mm over eight widths of 2 mm
    ("blade-widths", None, turning(work_diameter=31.0)),
    ("blade-widths", None, turning(work_diameter=30.0, reach_needed=16.0)),
    ("blade-widths", None, turning(work_diameter=30.0, reach_needed=16.1, blade_width=3.0)),
    ("parted-by-both-ends", "raised", turning(support="centre")),
    ("parted-by-both-ends", "raised", turning(held_by="between centres")),
    ("parted-by-both-ends", "stands", turning()),
    ("parted-by-both-ends", None, turning(support="none")),
    ("far-from-jaws", "raised", turning(work_diameter=10.0, parted_at=10.1)),
    ("far-from-jaws", None, turning(work_diameter=10.0, parted_at=10.0)),
    ("far-from-jaws", "stands", turning(work_diameter=10.0)),
    ("threaded-piece", "raised", turning(thread=thread())),
    ("threaded-piece", "stands", turning()),
    ("parting-dry", "stands", turning(material="mild steel")),
    ("parting-dry", None, turning(material="free-cutting brass")),
    ("burning-swarf", "raised", turning(material="titanium alloy")),
    ("burning-swarf", None, turning(material="mild steel")),
    ("leaded", "raised", turning(material="free-cutting brass")),
    ("leaded", None, turning(material="plain brass")),
    ("knurl-overhang", "raised", turning(work_diameter=10.0, stick_out=20.1)),
    ("knurl-overhang", None, turning(work_diameter=10.0, stick_out=20.0)),
    ("knurl-overhang", None, turning(work_diameter=10.0, support="centre")),
    ("knurl-overhang", "stands", turning(work_diameter=10.0)),
    ("knurl-overhang", "raised", turning(work_diameter=10.0, width=20.1)),
    ("knurl-overhang", "stands", turning(work_diameter=10.0, width=20.0)),
    ("snags", "raised", moment(snags=True)),
    ("snags", "stands", moment()),
    ("deep-hole", "raised", moment(tool_diameter=5.0, depth=15.1)),
    ("deep-hole", None, moment(tool_diameter=5.0, depth=15.0)),
    ("deep-hole", "stands", moment(tool_diameter=5.0)),
    ("small-drill", "raised", moment(tool_diameter=1.99)),
    ("small-drill", None, moment(tool_diameter=2.0)),
    ("thin-sheet", "raised", milling(tool_diameter=5.0, hole="through", depth=4.9)),
    ("thin-sheet", None, milling(tool_diameter=5.0, hole="through", depth=5.0)),
    ("thin-sheet", None, milling(tool_diameter=5.0, hole="blind", depth=4.9)),
    ("thin-round-wall", "raised", moment(tool_diameter=8.1, outside=10.0)),
    ("thin-round-wall", None, moment(tool_diameter=8.0, outside=10.0)),
    ("breakthrough", "stands", moment(hole="through")),
    ("breakthrough", None, moment(hole="blind")),
    ("snatching", "raised", moment(material="free-cutting brass")),
    ("snatching", None, moment(material="mild steel")),
    ("snatching", "stands", moment()),
    ("tap-wrench", "raised", moment(power="on")),
    ("tap-wrench", "stands", moment()),
    ("tap-wrench", None, moment(power="unplugged")),
    ("tap-bottoms", "raised", moment(hole="blind", spare=2.9, thread=thread(), tap_driven_by="spindle")),
    ("tap-bottoms", None, moment(hole="blind", spare=3.0, thread=thread(), tap_driven_by="spindle")),
    ("tap-bottoms", "stands", moment(hole="blind", spare=2.9, thread=thread())),
    ("tap-bottoms", None, moment(hole="through", spare=2.9, thread=thread(), tap_driven_by="spindle")),
    ("tap-bottoms", None, moment(hole="blind", spare=2.9, thread=thread(), tap_driven_by="hand")),
    ("tap-bottoms", "stands", moment(tap_driven_by="spindle")),
    # lead 3 at the lathe's lowest 65 rev/min runs on 3.25 mm in a second
    ("tap-runs-on", "raised", turning(hole="blind", spare=3.2, thread=thread(pitch="3"), tap_driven_by="spindle")),
    ("tap-runs-on", None, turning(hole="blind", spare=3.25, thread=thread(pitch="3"), tap_driven_by="spindle")),
    ("tap-runs-on", None, turning(hole="blind", spare=3.2, thread=thread(pitch="3"), tap_driven_by="hand")),
    ("tap-runs-on", "stands", turning(hole="blind", spare=3.2, thread=thread(pitch="3"))),
    ("tap-backs-out", "raised", turning(SCREWED, tap_driven_by="spindle")),
    ("tap-backs-out", "stands", turning(SCREWED)),
    ("tap-backs-out", None, turning(UNSCREWED, tap_driven_by="spindle")),
    ("tap-backs-out", None, turning(SCREWED, tap_driven_by="hand")),
    ("held-by-hand", "raised", milling(held_by="hand")),
    ("held-by-hand", "stands", milling()),
    ("held-by-hand", None, milling(held_by="vice")),
    ("held-by-hand", None, turning(held_by="hand")),
    ("tiny-cutter", "raised", milling(tool_diameter=3.0)),
    ("tiny-cutter", None, milling(tool_diameter=3.1)),
    ("deep-pass", "raised", milling(tool_diameter=2.0, pass_depth=1.01)),
    ("deep-pass", None, milling(tool_diameter=2.0, pass_depth=1.0)),
    ("deep-pass", "stands", milling()),
    ("bending-cutter", "raised", milling(tool_diameter=2.0, cutter_deflection=1.001 * BEND_ALLOWED)),
    ("bending-cutter", None, milling(tool_diameter=2.0, cutter_deflection=BEND_ALLOWED)),
    ("thin-wall", "raised", milling(wall=1.99, work_diameter=8.0)),
    ("thin-wall", None, milling(wall=2.0, work_diameter=8.0)),
    ("climbing", "stands", milling(shop_with(mill_x={"backlash": 0.1}))),
    ("climbing", None, milling(shop_with(mill_x={"backlash": 0.0}))),
    ("climbing", "stands", milling(shop_with(mill=None))),
    ("indexed-in-lathe", "raised", moment(shop=WHEEL, power="on")),
    ("indexed-in-lathe", "stands", moment(shop=WHEEL)),
    ("indexed-in-lathe", None, moment(shop=WHEEL, power="unplugged")),
    ("indexed-in-lathe", None, moment(shop=WHEEL, machine="mill")),
    ("indexed-in-lathe", None, moment(shop=shop_with(lathe={"spindle_wheel": None}))),
    ("indexed-in-lathe", None, moment(shop=replace(METRIC, lathe=None))),
    ("pin-left-in", "stands", moment(shop=WHEEL)),
    ("pin-left-in", None, moment(shop=shop_with(lathe={"spindle_wheel": None}))),
    ("brazing", "stands", moment(liquidus=450.1)),
    ("brazing", None, moment(liquidus=450.0)),
    ("soft", "stands", moment(liquidus=450.0)),
    ("soft", None, moment(liquidus=450.1)),
    ("lead", "raised", moment(alloy="sn63pb37")),
    ("lead", "raised", moment(alloy="60/40")),
    ("lead", None, moment(alloy="sac305")),
    ("lead", None, moment(alloy="bag-7")),
    ("lead", "asked", moment()),
    ("cadmium", "raised", moment(liquidus=688.0, alloy="bag-3")),
    ("cadmium", None, moment(liquidus=707.0, alloy="bag-24")),
    ("cadmium", None, moment(liquidus=183.0, alloy="sn63pb37")),
    ("cadmium", "asked", moment(liquidus=680.0, alloy="silver solder")),
    ("cadmium", "asked", moment()),
    ("hollow", "asked", moment(liquidus=620.0)),
    ("hollow", "raised", moment(liquidus=620.0, hollow=True)),
    ("hollow", None, moment(liquidus=620.0, hollow=False)),
    ("hollow", "asked", moment()),
    ("hollow-quenched", "raised", moment(hollow=True, hardened=True)),
    ("hollow-quenched", "stands", moment(hardened=True)),
    ("hollow-quenched", None, moment(hollow=True, hardened=False)),
    ("over-temper", "raised", moment(liquidus=450.0, temper=150.0)),  # above 450 another caution speaks
    ("over-temper", "raised", moment(liquidus=221.0, temper=250.0)),
    ("over-temper", None, moment(liquidus=221.0, temper=251.0)),
    ("over-temper", "raised", moment(liquidus=183.0, part="bearing ball")),
    ("over-temper", None, moment(liquidus=183.0, part="brass bush")),
    ("over-temper", None, moment(liquidus=652.0, temper=150.0)),
    ("hardness-gone", "raised", moment(liquidus=652.0, temper=250.0)),
    ("hardness-gone", None, moment(liquidus=450.0, temper=250.0)),
    ("hardness-gone", None, moment(liquidus=652.0, part="brass bush")),
    ("hardness-gone", "raised", moment(liquidus=652.0, part="bearing ball")),
    ("hardness-gone", "stands", moment()),
    ("beryllium", "raised", moment(part="beryllium copper spring")),
    ("beryllium", None, moment(part="brass bush")),
    ("beryllium", "stands", moment()),
    ("coating", "raised", moment(part="galvanised bracket")),
    ("coating", "asked", moment(part="bracket")),
    ("coating", None, moment(coating="none")),
    ("small-part", "raised", moment(ball=5.9)),
    ("small-part", "stands", moment(ball=6.0)),
    ("pressed", "stands", moment(hold="stake, then retain")),
    ("pressed", None, moment(hold="solder")),
    ("pressed", None, moment(interference=False)),
]


@each_row("rule, kind, given", CASES, ids=lambda part: part if isinstance(part, str) else "")
def test_a_rule_at_its_limit(rule, kind, given):
    finding = RULES[rule].judge(given)
    assert (finding.kind if finding else None) == kind


def test_every_rule_has_a_case_that_brings_it_out_and_one_that_leaves_it():
    for name in RULES:
        kinds = {kind for rule, kind, _ in CASES if rule == name}
        assert kinds - {None}, name
        if name not in ("always", "little-thread"):
            assert len(kinds) > 1, f"{name} is never left out"


class Watched:
    """A moment that keeps a list of what is read of it."""

    def __init__(self, given):
        self.given, self.read = given, set()

    def __getattr__(self, name):
        self.read.add(name)
        return getattr(self.given, name)


@each_row("name", RULES)
def test_a_rule_reads_what_it_needs_and_nothing_else(name):
    read = set()
    for rule, _, given in CASES:
        if rule == name:
            watched = Watched(given)
            RULES[name].judge(watched)
            read |= watched.read
    assert read == set(RULES[name].needs)


def test_every_need_is_filled_by_an_operation_a_set_up_the_shop_or_an_earlier_step():
    """A rule whose need nobody fills would be silent for ever."""
    filled = set()
    told = {f.name for f in fields(SetUp)}
    by_hand = {
        "hollow",
        "hardened",
        "coating",
        "snags",
        "outside",
        "interference",
    }  # words of a step, a part or an input that the examples leave out
    for entry in CATALOG:
        operation = load(entry.id)
        done = run(entry.id, operation.example, sample("metric"))
        for given in done.answer.moments:
            seen = in_shop(given, sample("metric"))
            filled |= {f.name for f in fields(seen) if getattr(seen, f.name) not in (None, "")}
    needed = {need for rule in RULES.values() for need in rule.needs}
    assert needed - filled - told - by_hand <= set()


@each_row("entry", [e for e in CATALOG if not e.module.endswith("_operations")], ids=lambda e: e.id)
def test_an_operation_that_turns_a_spindle_fills_its_speed(entry):
    """A speed in a figure or a table that no moment knows is a caution lost in silence."""
    done = run(entry.id, load(entry.id).example, sample("metric"))
    answer = done.answer
    speeds = {
        f.value for f in answer.figures if f.dimension == "speed" and "limit" not in f.name and "ideal" not in f.name
    }
    for table in answer.tables:
        for column in table.columns:
            if column.dimension == "speed":
                speeds |= {cell for cell in table.column(column.name) if cell is not None}
    assert speeds <= {moment.spindle_speed for moment in answer.moments}


def test_every_rule_is_used_and_every_caution_can_be_reached():
    assert {row.rule for row in every_row()} == set(RULES)
    reached = {tag for entry in CATALOG for tag in load(entry.id).hazards} | {"general"}
    by_step = {"collet", "filing", "polishing", "deburring", "grinding", "magnets", "heat", "hand-work", "fluids"}
    for row in every_row():
        assert set(row.hazards) & (reached | by_step), row.id


def test_a_set_up_fills_the_moment_in_quantities():
    known = situation_of(SetUp(held_by="collet", stick_out=31.0, support="none"))
    finding = RULES["overhang-ratio"].judge(replace(known, work_diameter=10.0))
    assert finding.kind == "raised"


def test_every_rule_says_what_it_said_of_moments_made_up_by_chance():
    """The pairs above are the limits; here every fact is missing with every other (tests/chance.py)."""
    assert {name: said(rule) for name, rule in RULES.items()} == kept()
