"""Short lines: what they say, what they are written as, how they are refused."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.refusals import BadInput
from engine.part.lines import EXAMPLES, Short, lines_of, read_line, with_line
from tests.engine.part.scenario import FOURTEEN, SHIPPED
from tests.rows import each_row

LINES = [
    ("knurl 26 x 8", "outside", {"is": "knurl", "near": "26", "length": "8"}),
    ("thread M12x1.5 through", "inside", {"is": "thread", "size": "M12x1.5", "through": True}),
    ("thread M12x1.5 x 18 relief", "outside", {"is": "thread", "size": "M12x1.5", "length": "18", "relief": True}),
    ("thread M6 depth 12 end back", "inside", {"is": "thread", "size": "M6", "depth": "12", "end": "back"}),
    ("25 x 5 chamfer 0.5", "outside", {"is": "diameter", "size": "25", "length": "5", "chamfer": "0.5"}),
    ("25x5", "outside", {"is": "diameter", "size": "25", "length": "5"}),
    ("10 h7 x 20 +-0.1", "outside", {"is": "diameter", "size": "10 h7", "length": "20 +-0.1"}),
    ("bar 24 chamfer to 16.2 x 30", "outside", {"is": "bar", "length": "24", "chamfer": "to 16.2 x 30"}),
    ("scale 0.05 on M12x1.5", "on", {"scale": {"per_line": "0.05", "size": "M12x1.5"}}),
    ("hole 8 H7 depth 20", "inside", {"is": "hole", "size": "8 H7", "depth": "20"}),
    ("hole F through", "inside", {"is": "hole", "size": "F", "through": True}),
    ("cross hole 4 at 12", "across", {"is": "cross-hole", "size": "4", "at": "12"}),
    (
        "cross hole M4 at 4 from back one wall turned 90",
        "across",
        {"is": "cross-hole", "thread": "M4", "at": "4", "at_from": "back", "walls": "one", "turned": "90"},
    ),
    (
        "6 holes 4.5 on 30",
        "across",
        {"is": "hole-circle", "holes": 6, "hole": "4.5", "diameter": "30", "through": True},
    ),
    ("flats 4 x 10", "on", {"flats": {"sides": "4", "across_flats": "10"}}),
    ("slot 1.5 x 2", "on", {"slot": {"width": "1.5", "depth": "2"}}),
    ("slot 2 x 2.4 across back", "back", {"slot": {"width": "2", "depth": "2.4"}}),
    ("slot 1.6 x 2 back end", "back", {"slot": {"width": "1.6", "depth": "2"}}),
    ("slot 1.6 x 2 across the back face", "back", {"slot": {"width": "1.6", "depth": "2"}}),
    ("figures say FRONT", "on", {"figures": {"text": "FRONT"}}),
    ("centre back may stay", "back", {"centre": "may stay"}),
    ("taper 12 to 8 x 20", "outside", {"is": "taper", "from": "12", "to": "8", "length": "20"}),
    (
        "bore taper 16 angle 1 in 10 through",
        "inside",
        {"is": "taper", "from": "16", "angle": "1 in 10", "through": True},
    ),
    ("groove 10 x 2", "outside", {"is": "groove", "size": "10", "width": "2"}),
    ("groove 11 x 2 at 14.5", "inside", {"is": "groove", "size": "11", "width": "2", "at": "14.5"}),
    ("screw M14x1 x 25", "outside", {"is": "thread", "size": "M14x1", "length": "25"}),
    ("ball 6 out 2 glue", "inside", {"is": "ball", "ball": "6", "stand_out": "2", "hold": "glue"}),
    ("countersink M5", "inside", {"is": "countersink", "size": "M5"}),
    ("chamfer back 0.5", "on", {"chamfer_back": "0.5"}),
]


@each_row(("line", "where", "keys"), LINES, ids=[row[0] for row in LINES])
def test_what_a_line_says(line, where, keys):
    assert read_line(line) == Short(where, keys)


@each_row("line", EXAMPLES)
def test_every_example_in_a_refusal_can_be_typed(line):
    assert read_line(line).keys


REFUSED = [
    ("knurrl 26 x 8", "a line as knurl 26 x 8"),
    ("knurl 26", "a line as knurl 26 x 8"),
    ("knurl 26 x 8 x 9", "a line as knurl 26 x 8"),
    ("25", "25 x 5"),
    ("", "thread M12x1.5 through"),
    ("hole 8", "depth, through"),
    ("hole 8 through through", "through once"),
    ("6 holes 4.5", "6 holes 4.5 on 30"),
    ("ball 6", "ball 6 out 2"),
    ("screw M14x1", "a line as thread M12x1.5 x 18"),
    ("gadget 3", "ball 6 out 2"),
    ("thread M12.3 through", "nearest are M11 and M12"),
    ("thread M12 depth", "a value after depth"),
    ("flats", "flats 4 x 10"),
    ("25 x 5 chamfer wide", "chamfer"),
]


@each_row(("line", "told"), REFUSED)
def test_a_refusal_says_in_one_sentence_what_would_do(line, told):
    with pytest.raises(BadInput) as refusal:
        read_line(line)
    assert told in str(refusal.value)
    assert str(refusal.value).startswith("line: ") and "\n" not in str(refusal.value)


@each_row("path", FOURTEEN + SHIPPED, ids=lambda path: path.stem)
def test_every_feature_of_a_file_is_a_line_and_back(path):
    document = tomllib.loads(path.read_text())
    unit = document["unit"]
    for piece in document.get("part", [document]):
        for where in ("outside", "inside", "across"):
            for keys in piece.get(where, []):
                found = []
                for line in lines_of(where, keys):
                    found = with_line(found, read_line(line, unit))
                assert [as_text(one) for one in found] == [as_text(keys)]
        for end in ("front", "back"):
            shorts = [read_line(line, unit) for line in lines_of(end, piece.get(end, {}))]
            keys = {key: value for short in shorts for key, value in short.keys.items()}
            assert as_text(keys) == as_text(piece.get(end, {}))


def as_text(keys):
    return {
        key: as_text(value) if isinstance(value, dict) else value if isinstance(value, bool) else str(value)
        for key, value in keys.items()
    }


size = st.integers(1, 400).map(lambda tenths: f"{tenths / 10:g}")
limited = st.one_of(size, size.map(lambda text: f"{text} +-0.1"), st.integers(2, 40).map(lambda whole: f"{whole} h7"))
thread = st.sampled_from(["M8", "M12x1.5", "Tr12x3", "1/4-20 UNC", "4BA"])
shared = {"chamfer": st.sampled_from(["0.3", "1.5 x 15", "to 0.4 x 30"]), "finish": st.sampled_from(["polished"])}
FEATURES = st.one_of(
    st.fixed_dictionaries({"is": st.just("diameter"), "size": limited, "length": size}, optional=shared),
    st.fixed_dictionaries({"is": st.just("bar"), "length": size}, optional=shared),
    st.fixed_dictionaries(
        {"is": st.just("thread"), "size": thread, "length": size},
        optional={"relief": st.sampled_from([True, "short"]), "runout": size, **shared},
    ),
    st.fixed_dictionaries(
        {"is": st.just("knurl"), "near": size, "length": size},
        optional={"form": st.sampled_from(["axial", "diamond"]), "pitch": st.just("0.8"), "near_is": st.just("blank")},
    ),
    st.fixed_dictionaries({"is": st.just("taper"), "from": size, "length": size, "angle": st.just("1 in 20")}),
    st.fixed_dictionaries({"is": st.just("groove"), "size": size, "width": limited}),
)


@given(FEATURES)
def test_lines_and_keys_say_the_same(keys):
    (line,) = lines_of("outside", keys)
    assert read_line(line) == Short("outside", keys)
