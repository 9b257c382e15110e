"""Recipes: every mistake with its line, old versions read, hostile files refused quickly and harmlessly."""

import re
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.files import LARGEST, BadFile
from engine.base.refusals import BadInput
from engine.jobs.recipe import read, read_file
from engine.jobs.run import resolve
from engine.shop.file import sample
from tests.engine.jobs.plans import HEAD, by_hand
from tests.rows import each_row

BAD = Path(__file__).parents[2] / "data" / "bad_recipes"
NEEDED = "this is needed and is not there."

# What each bad file has to say, in whole.
SAYS = {
    "two_typos.toml": (
        "13: steps.1.inputs.distence: this is not an input of hand-dial. Did you mean 'distance'?",
        f"15: steps.2.title: {NEEDED}",
        "17: steps.2.titel: this is not a key of a recipe. Did you mean 'title'?",
    ),
    "unknown_operation.toml": ("11: steps.1.operation: there is no 'hand-dail'. Did you mean hand-dial?",),
    "from_the_future.toml": (
        "1: schema_version: this recipe is of version 9; this program reads up to 3. A newer program is needed.",
    ),
    "not_toml.toml": ("2: this is not TOML: invalid value.",),
    "no_steps.toml": ("7: steps: a recipe has at least one step.",),
    "figure_from_nowhere.toml": (
        "13: steps.1.inputs.distance: there is no earlier step 'blnk'.",
        "24: steps.3.inputs.distance: step 'blank' is done by hand and has no figures.",
    ),
    "bad_values.toml": (
        "13: steps.1.inputs.distance: seventeen cannot be used; accepted: a length above 0 mm, up to 100000 mm "
        "(such as 17.35).",
        "14: steps.1.inputs.divisions: -4 cannot be used; accepted: a whole number from 1, up to 2000 (such as 100).",
    ),
    "same_name_twice.toml": ("13: steps.2.id: an earlier step is already called 'move'.",),
    "hand_step_with_inputs.toml": (
        "11: steps.1.hazards: there is no kind of work 'soldring'. Did you mean 'soldering'?",
        "12: steps.1.count: only a step with an operation has this.",
        "13: steps.1.inputs: only a step with an operation has this.",
    ),
    "bad_measure.toml": (
        "13: steps.1.measure.kind: this must be 'diameter', 'bore', 'over wires', 'across flats', 'length', 'depth', "
        "'knurl' or 'blank'; found 'lenght'.",
        "14: steps.1.measure.low: -3 cannot be used; accepted: a length above 0 mm, up to 100000 mm (such as 2.5).",
        "19: steps.2.measure: this needs a figure, or a low or a high limit, to judge by.",
    ),
    "figures_in_words.toml": (
        "11: steps.1.do: this step has no operation, so it has no figures.",
        "11: steps.1.do: there is no earlier step 'face'.",
        "12: steps.1.large: this step has no operation, so it has no figures.",
        "17: steps.2.do: step 'saw' is done by hand and has no figures.",
        "18: steps.2.large: this step is not measured, so it has no limits.",
        "28: steps.3.measure.slide: this must be 'cross', 'top', 'saddle', 'tailstock', 'quill' or 'none'; "
        "found 'file'.",
    ),
    "everything_missing.toml": tuple(
        f" {key}: {NEEDED}" for key in ("schema_version", "part", "stock", "unit", "steps")
    ),
    "wrong_kinds.toml": (
        "1: schema_version: this must be 3; found 'two'.",
        "2: title: this must be text; found 3.",
        "4: stock: this must be text; found a list.",
        "6: unit: this must be 'mm' or 'inch'; found 'cm'.",
        "7: steps: this must be a list; found 'none'.",
    ),
    "control_characters.toml": (
        "10: steps.1.title: only printable characters can be used, on one line.",
        "11: steps.1.do: this must be a list; found 'Saw it off.'.",
    ),
    "expression.toml": (
        "13: steps.1.inputs.distance: a figure of an earlier step is taken as "
        '{ from = "the step\'s id", figure = "its name" }.',
        "13: steps.1.inputs.distance: there is no earlier step 'move'.",
    ),
}


@each_row("name", SAYS)
def test_every_mistake_is_said_with_its_line(name):
    with pytest.raises(BadFile) as caught:
        read_file(BAD / name)
    assert str(caught.value).splitlines() == [f"{name}:{row}" for row in SAYS[name]]


def test_every_bad_file_is_in_the_table_above():
    assert {path.name for path in BAD.iterdir()} == set(SAYS)


def test_an_old_version_is_read_as_the_newest_and_its_file_is_left_alone(tmp_path):
    old = tmp_path / "old.toml"
    text = by_hand(1).replace("schema_version = 3", "schema_version = 1")
    old.write_text(text + 'do = """Saw it off.\nFile the end."""\n')
    before = old.read_bytes()
    recipe, _ = read_file(old)
    assert recipe.steps[0].do == ("Saw it off.", "File the end.")
    assert recipe.schema_version == 3
    assert old.read_bytes() == before


def test_a_number_is_read_in_the_unit_of_the_recipe():
    step = '[[steps]]\nid = "a"\ntitle = "Move"\noperation = "hand-dial"\ninputs = { distance = 0.5 }\n'
    inch = read(HEAD.replace('"mm"', '"inch"') + step, Path("a.toml"))
    # 1 in = 25.4 mm (1959 agreement): half an inch on a dial of 2 mm a turn is 6 turns and 0.7 mm.
    answer = resolve(inch, sample("metric")).steps[0].answer
    assert answer.figure("turns").value == 6
    assert answer.figure("reading").value == pytest.approx(0.7)


# Hostile files: each is refused, or read as plain text, at once. Counted in processor time: a busy machine is no fault.

STEP = '[[steps]]\nid = "{0}"\ntitle = "{1}"\n'
DIAL = '[[steps]]\nid = "a"\ntitle = "A"\noperation = "hand-dial"\n[steps.inputs]\ndistance = {0}\n'
HOSTILE = {
    "ten thousand steps": HEAD + "".join(STEP.format(f"s{i}", "x") for i in range(10_000)),
    "three hundred steps": HEAD + "".join(STEP.format(f"s{i}", "x") for i in range(300)),
    "deep arrays": HEAD + "x = " + "[" * 900 + "]" * 900,
    "deep arrays over lines": HEAD + "x = " + "[\n" * 50_000,
    "deep tables": HEAD + "title." + ".".join("a" * 900) + " = 1",
    "deep inline tables": HEAD + "x = " + "{a=" * 400 + "1" + "}" * 400,
    "deep input": HEAD + DIAL.format("[" * 300 + "]" * 300),
    "one endless key": HEAD + ".".join("a" * 60_000) + " = 1",
    "huge whole number": HEAD + DIAL.format("9" * 1900),
    "huge hexadecimal number": HEAD + DIAL.format("0x" + "f" * 1900),
    "number too long for Python": HEAD + DIAL.format("9" * 5000),
    "not a number": HEAD + DIAL.format("nan"),
    "endless number": HEAD + DIAL.format("-inf"),
    "huge exponent": HEAD + DIAL.format('"1e99"'),
    "a date": HEAD + DIAL.format("1979-05-27"),
    "a path for a title": HEAD.replace("Fence stop", "../../etc/passwd") + STEP.format("a", "../../x"),
    "a path for an id": HEAD + STEP.format("../../a", "x"),
    "a path for an operation": HEAD + STEP.format("a", "x") + 'operation = "../../os"',
    "a module for an operation": HEAD + STEP.format("a", "x") + 'operation = "os.system"',
    "escape sequence in a key": HEAD + '"\\u001b[2J" = 1\n' + STEP.format("a", "x"),
    "escape sequence in a title": HEAD + STEP.format("a", "\\u001b]0;x\\u0007"),
    "escape sequence in a value": HEAD + DIAL.format('"\\u001b[31m3"'),
    "right to left": HEAD + STEP.format("a", "\\u202Etxet"),
    "markup": HEAD + STEP.format("a", "[bold red]x[/] <script>alert(1)</script>"),
    "expression": HEAD + DIAL.format("\"__import__('os').getcwd()\""),
    "a long line behind line separators": HEAD + ".".join(['"\u2028"' + ".a" * 900] * 100) + " = 1",
    "too long a line": HEAD + f'x = "{"y" * 100_000}"',
    "too long a file": HEAD + "# " + "\n# ".join("z" * 60 for _ in range(10_000)),
    "nothing": "",
    "noughts": "\0" * 1000,
}


@each_row("name", HOSTILE)
def test_a_hostile_recipe_does_nothing_bad(name):
    begun = time.process_time()
    try:
        recipe = read(HOSTILE[name], Path("stop.toml"))
        worked = resolve(recipe, sample("metric"))
        texts = [worked.recipe.title, *(s.step.title for s in worked.steps), *worked.problems]
    except BadFile as refusal:
        texts = str(refusal).splitlines()
        assert len(texts) <= 51
    assert time.process_time() - begun < 3
    for text in texts:
        assert text.isprintable()
        assert len(text) < 1000


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=300))
def test_any_text_is_read_or_refused(text):
    with pytest.raises(BadFile):
        read(text, Path("stop.toml"))
    try:
        read(HEAD + text, Path("stop.toml"))
    except BadFile as refusal:
        assert all(row.isprintable() for row in str(refusal).splitlines())


VALUES = st.one_of(st.text(max_size=30), st.integers(), st.floats(), st.booleans(), st.lists(st.integers(), max_size=3))


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from(["id", "title", "do", "operation", "count", "measure", "hazards"]), VALUES))
def test_any_step_is_read_or_refused(step):
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        text = HEAD + tomlkit.dumps({"steps": [step]})
    except (TOMLKitError, UnicodeEncodeError, ValueError):
        return  # not writable as TOML at all
    try:
        read(text, Path("stop.toml"))
    except BadFile as refusal:
        assert str(refusal)


def test_a_file_that_cannot_be_read_is_named(tmp_path):
    for name, content, said in (
        ("gone.toml", None, "No such file"),
        ("latin.toml", "title = 'gauge \xb0'".encode("latin-1"), "not UTF-8"),
    ):
        path = tmp_path / name
        if content is not None:
            path.write_bytes(content)
        with pytest.raises(BadInput, match=f"recipe: {re.escape(name)} cannot be read: .*{said}"):
            read_file(path)
    with pytest.raises(BadInput, match="cannot be read"):
        read_file(tmp_path)
    big = tmp_path / "big.toml"
    big.write_bytes("é".encode() * LARGEST)
    with pytest.raises(BadInput, match="longer than 256 kB"):
        read_file(big)
