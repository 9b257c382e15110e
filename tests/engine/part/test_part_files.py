"""Part files: read strictly, written back, changed one key at a time."""

import re

import pytest

from engine.base.files import BadFile
from engine.part import part as p
from engine.part.file import (
    moved_feature,
    read,
    read_file,
    read_keys,
    with_feature,
    with_feature_keys,
    with_key,
    without_feature,
    write,
)
from engine.part.keys import keys_of
from tests.engine.part.scenario import FOURTEEN, HEAD, SHIPPED, TOGETHER, load, outside, part_of, tables
from tests.rows import each_row

RING = outside('is = "diameter"; size = "25"; length = "5"')


@each_row("path", FOURTEEN + SHIPPED + TOGETHER, ids=lambda path: path.stem)
def test_files_are_read_and_written_back_the_same(path):
    found = load(path)
    assert read(write(found)) == found
    for part in found.parts:
        assert len({one.name for one in part.features()}) == len(list(part.features()))
        assert read_keys(keys_of(part)) == part


def test_fourteen_parts_and_six_of_the_router_table_are_there():
    assert len(FOURTEEN) == 14
    stems = "height-adjuster-nut lock-nut height-adjuster-screw lock-knob hexagon-spacer bearing-flange"
    assert set(stems.split()) == {path.stem for path in SHIPPED}


# name, what is asked of it, its answer: sums by hand
PLACES = [
    ("01-height-nut", lambda part: (part.overall, part.outside[1].start, part.outside[1].stop), (13, 5, 13)),
    ("07-clamp-knob", lambda part: part.inside[0].start, 8.7157),  # 20.7157 - 12
    ("08-feed-drum", lambda part: part.across[0].z, 24),
    ("10-clevis-pin", lambda part: part.across[0].z, 4),  # 28 from under the head at 32
    ("05-taper-collar", lambda part: round(part.inside[0].bottom_diameter, 6), 14.2),  # 16 - 18 / 10
    ("09-bearing-bush", lambda part: (part.inside[1].start, part.inside[1].size.nominal), (13.5, 11)),
    ("13-motor-flange", lambda part: (part.across[0].start, part.across[0].stop), (4, 12)),
    ("14-ball-screw", lambda part: (part.back.slot.start, round(part.inside[0].stop, 6)), (79.6, 3.5)),
    ("04-thin-nut", lambda part: round(part.outside[0].chamfer.long, 2), 0.99),
]


@pytest.mark.parametrize(("stem", "ask", "answer"), PLACES, ids=[row[0] for row in PLACES])
def test_places_along_the_axis(stem, ask, answer):
    assert ask(next(load(path).part for path in FOURTEEN if path.stem == stem)) == pytest.approx(answer, abs=1e-3)


def test_several_pieces_come_from_one_file():
    file = load(TOGETHER[0])
    assert [part.title for part in file.parts] == ["Height-adjuster nut", "Lock nut"]
    assert [part.make for part in file.parts] == [2, 1]
    assert {part.material for part in file.parts} == {"free-cutting brass"}


def test_bare_numbers_are_in_the_unit_of_the_file():
    inch = read(HEAD.replace('"mm"', '"inch"') + 'bar = "1"\n' + outside('is = "diameter"; size = 0.5; length = "1/4"'))
    assert (inch.part.outside[0].largest, inch.part.overall) == (12.7, 6.35)


def test_a_threads_mouths_are_countersunk_unless_told_otherwise():
    thread = 'is = "thread"; size = "M12x1.5"; through = true'
    plain = part_of(RING + tables("inside", thread)).inside[0]
    assert (plain.mouth.diameter, plain.mouth.angle, plain.mouth_back.at) == (12.6, 90, "back")
    sharp = part_of(RING + tables("inside", thread + '; mouth = "none"')).inside[0]
    assert sharp.mouth is None and sharp.mouth_back is not None
    sunk = part_of(RING + tables("inside", thread, 'is = "countersink"; diameter = "13"')).inside[0]
    assert sunk.mouth is None


def test_general_tolerances_stand_where_no_limits_do():
    part = part_of(RING, head='general = "m"')
    assert (part.outside[0].size.low, part.outside[0].size.high) == (24.8, 25.2)
    assert part.outside[0].size.general and read(write(p.PartFile(parts=(part,)))).part == part


def test_limits_beside_a_size():
    fitted = part_of(outside('is = "diameter"; size = "16"; length = "5"; fit = "p6"')).outside[0].size
    assert (round(fitted.low, 3), round(fitted.high, 3), fitted.fit) == (16.018, 16.029, "p6")  # ISO 286-2
    pair = part_of(outside('is = "diameter"; size = "16"; length = "5"; low = "15.9"; high = "16.02"')).outside[0].size
    assert (pair.low, pair.high) == (pytest.approx(15.9), pytest.approx(16.02))


WRONG = """part_version = 1
title = "Ring"
unit = "mm"
material = "unobtainium"
bar = "28"
colour = "red"

[[outside]]
is = "diametre"
size = "25"

[[outside]]
is = "knurl"
nera = "26"
length = "long"

[[inside]]
is = "thread"
size = "M12.3"
through = true
depth = "5"

[[across]]
is = "cross-hole"
at = "5"
"""


def test_every_mistake_is_told_at_once_with_its_line():
    with pytest.raises(BadFile) as refusal:
        read(WRONG)
    told = str(refusal.value).splitlines()
    lines = {int(re.match(r"part.toml:(\d+): ", line)[1]) for line in told}
    assert {4, 6, 9, 12, 14, 15, 19, 23} == lines, told
    assert "Did you mean 'diameter'?" in str(refusal.value) and "Did you mean 'near'?" in str(refusal.value)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "part_version: this is needed and is 1"),
        ("part_version = 2", "this file is of version 2"),
        ("part_version = true", "part_version"),
        ("part_version = 1\nx =", "this is not TOML"),
        (HEAD + "bar = 28\nblank = 5\noutside = 3", "outside: this must be a list"),
        (HEAD, "bar: this is needed"),
        (HEAD + "bar = 28", "outside: a part has an outside"),
        (HEAD + 'bar = "28"\n[[part]]\n[[part]]\n' + RING, "stands under a part"),
    ],
)
def test_files_that_are_no_part_files(text, told):
    with pytest.raises(BadFile) as refusal:
        read(text)
    assert told in str(refusal.value)


def test_files_that_cannot_be_opened(tmp_path):
    for name, raw in (("big.toml", b"#" * 2_000_000), ("latin.toml", b'title = "\xe9"')):
        (tmp_path / name).write_bytes(raw)
        with pytest.raises(ValueError, match="part file: "):
            read_file(tmp_path / name)
    with pytest.raises(ValueError, match="cannot be read"):
        read_file(tmp_path / "none.toml")


COMMENTED = """# my nut
part_version = 1
title = "Nut"  # for the lift
unit = "mm"
material = "brass"
bar = "28"

# the collar
[[outside]]
is = "diameter"  # turned
size = "25"  # as the drawing says
length = "5"

# the grip
[[outside]]
is = "knurl"
near = "26"
length = "8"
"""


def test_a_change_keeps_comments_and_order():
    changed = with_key(COMMENTED, ("outside", 0, "size"), "24.5")
    assert changed == COMMENTED.replace('"25"  #', '"24.5"  #')
    assert with_key(changed, ("outside", 0, "size"), "25") == COMMENTED
    scaled = with_key(COMMENTED, ("outside", 0, "scale"), {"size": "M12x1.5", "per_line": "0.05"})
    assert read(scaled).part.outside[0].scale.lines == 30
    assert "# the grip" in scaled and with_key(scaled, ("outside", 0, "scale"), None).count("scale") == 0
    assert read(with_key(COMMENTED, ("back", "centre"), "stays")).part.back.centre == "stays"


def test_features_are_put_in_moved_and_taken_out():
    longer = with_feature(COMMENTED, "outside", 1, {"is": "groove", "size": "20", "width": "2"})
    assert [type(one) for one in read(longer).part.outside] == [p.Diameter, p.Groove, p.Knurl]
    bored = with_feature(COMMENTED, "inside", 0, {"is": "hole", "size": "10 H7", "through": True})
    assert read(bored).part.inside[0].through
    turned = moved_feature(longer, "outside", 2, 0)
    assert [type(one) for one in read(turned).part.outside] == [p.Knurl, p.Diameter, p.Groove]
    back = without_feature(longer, "outside", 1)
    assert read(back) == read(COMMENTED) and "# for the lift" in back
    assert "inside" not in without_feature(bored, "inside", 0)
    keys = {"is": "diameter", "size": "24", "length": "5"}
    assert "# as the drawing says" in with_feature_keys(COMMENTED, "outside", 0, keys)


def test_features_of_one_of_several_pieces():
    text = TOGETHER[0].read_text()
    keys = {"is": "diameter", "size": "20", "length": "2"}
    changed = read(with_feature(text, "outside", 1, keys, under=("part", 1)).replace('"6 +-0.2"', '"8 +-0.2"'))
    assert [len(part.outside) for part in changed.parts] == [2, 2]
