"""What the cuts of a plan meet: lengths from the face that the dial is zeroed on, diameters as earlier steps left them."""

from __future__ import annotations

import pytest

from engine.base.operation import run
from engine.part.words import spoken_of
from engine.shop.file import sample
from tests.engine.part.scenario import FOURTEEN, RULES, SHIPPED, load, planned
from tests.rows import each_row

METRIC = sample("metric")
FILES = (*FOURTEEN, *SHIPPED, *RULES)


def _turned(found):
    """Steps that turn one outside feature, with what the operation aims at."""
    for step in found.steps:
        if step.operation == "turn-to-size" and step.round == 1:
            done = run("turn-to-size", dict(step.inputs), METRIC, unit="mm")
            yield step, done.inputs, next(f.value for f in done.answer.figures if f.name == "target")


@each_row("path", FILES, ids=[path.stem for path in FILES])
def test_lengths_are_counted_from_the_zeroed_face_and_every_cut_begins_where_the_last_one_ended(path):
    for part in load(path).parts:
        found = planned(part, METRIC)
        left = dict.fromkeys((one.name for one in part.outside), part.bar.corners)
        for step, given, target in _turned(found):
            if step.kind == "spigot":
                continue  # no feature of the part; its own test has its sizes
            one = part.feature(step.about)
            reached = found.set_ups[step.set_up].reached or found.route.side.first
            far = one.stop if reached == "front" else part.overall - one.start
            assert given.length == pytest.approx(far, abs=1e-3)
            assert target < given.from_ <= part.bar.corners + 1e-3
            assert given.from_ >= left[one.name] - 1e-3
            for other in part.outside:  # what the tool passes over on its way from the face
                before = other.stop <= one.stop if reached == "front" else other.start >= one.start
                if before and (other is one or other.largest <= target):
                    left[other.name] = min(left[other.name], target)


def test_the_orders_by_hand_rough_the_shoulder_behind_first_and_from_the_face():
    """Orders by hand, a shouldered screw: 16 to the far shoulder (22) first, then the thread's diameter to 14."""
    found = planned(load(FOURTEEN[2]).part, METRIC)
    rough = [dict(step.inputs) for step in found.steps if step.kind == "rough" and step.round == 1]
    assert [(one["from"], one["to"], one["length"]) for one in rough] == [("16", "10.6", "22"), ("10.6", "8.6", "14")]


def test_ground_bar_within_the_limits_of_the_thread_is_not_turned():
    found = planned(load(FOURTEEN[5]).part, METRIC)
    assert "thread" in {step.kind for step in found.steps} and "major" not in {step.kind for step in found.steps}


@each_row("path", FILES, ids=[path.stem for path in FILES])
def test_no_step_speaks_of_a_feature_by_its_place_in_the_file(path):
    for part in load(path).parts:
        found = planned(part, METRIC)
        names = [one.name for one in part.features() if "." in one.name]
        words = [" ".join((step.title, *step.do, *step.measure)) for step in found.steps]
        words += [" ".join(one.gate_words) for one in found.set_ups]
        assert not [(name, said) for name in names for said in words if name in said.split()]


def test_alike_features_are_told_apart_by_their_place():
    part = load(FOURTEEN[5]).part
    assert spoken_of(part, "outside.3") == "Ø7 h7 (third from the front)"


def test_what_is_made_first_round_the_axis_is_the_origin_of_the_rest():
    found = planned(load(FOURTEEN[7]).part, METRIC)
    said = {step.kind: step.do[0] for step in found.steps if step.kind in ("cross_drill", "keyway_inside", "lines")}
    assert said["cross_drill"].startswith("Its place round the axis is free")
    assert said["keyway_inside"] == said["lines"] == "90 degrees back from the M4 cross hole."
