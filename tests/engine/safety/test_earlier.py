"""What a job knows from its earlier steps is not asked again."""

from engine.base.operation import run
from engine.safety import cautions_for_hand_step
from engine.safety.earlier import told_by_steps
from engine.shop.file import sample

METRIC = sample("metric")


def done(operation_id, **given):
    return run(operation_id, given, METRIC)


def test_a_tapped_part_is_not_caught_when_it_comes_off():
    told = told_by_steps([done("turning-speed", diameter="20"), done("tap-drill", size="M12")])
    assert told == {"PRT-02": True, "FIL-02": True}
    off = run("part-off", {"diameter": "20"}, METRIC, told=told).answer.cautions
    line = next(c for c in off if c.id == "PRT-02")
    assert line.word == "WARNING" and line.acknowledge and not line.question and line == off[0]


def test_a_plain_part_is_still_asked_about():
    told = told_by_steps([done("turning-speed", diameter="20"), done("bar-plan", parts="2", length="12")])
    assert told == {}
    off = run("part-off", {"diameter": "20"}, METRIC, told=told).answer.cautions
    assert next(c for c in off if c.id == "PRT-02").question


def test_a_slot_or_a_flat_is_not_polished_over():
    for earlier in (
        done("slot", width="2", depth="2", length="8", diameter="8"),
        done("flats", sides="6", diameter="15"),
    ):
        told = told_by_steps([earlier])
        assert told == {"FIL-02": True}
        polish = cautions_for_hand_step(("polishing",), METRIC, told)
        assert polish[0].id == "FIL-02" and polish[0].word == "DANGER"


def test_a_left_hand_thread_unscrews_from_its_stud():
    told = told_by_steps([done("tap-drill", size="M12-LH")])
    assert told["STU-01"]
    assert "STU-01" not in told_by_steps([done("tap-drill", size="M12")])
    stud = cautions_for_hand_step(("stud",), METRIC, told)
    assert stud[0].id == "STU-01" and stud[0].acknowledge
