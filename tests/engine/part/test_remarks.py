"""Comments in a part file stay where they were written while its lines are changed in the app."""

from __future__ import annotations

from engine.part import own
from engine.part.draft import moved, opened, with_row, without, worked
from tests.engine.part.scenario import FOURTEEN, SHIPPED

FILE = """# A pin for the fence.
# Second line.
part_version = 1
title = "Pin"  # as on the drawing
unit = "mm"
# The steel in the rack.
material = "mild steel"
bar = "16"

# Runs in the bush.
[[outside]]  # the journal
is = "diameter"
size = "12 h7"  # by the bush
length = "20"

[[outside]]
is = "bar"
# Long enough for the hand.
length = "8"
chamfer_back = "0.5"

[front]
centre = "may stay"  # small
# The end.
"""
SAID = [line[line.index("#") :] for line in FILE.splitlines() if "#" in line]


def _comments(text):
    return [line[line.index("#") :] for line in text.splitlines() if "#" in line]


def test_every_comment_is_kept_beside_what_it_was_written_to():
    text = worked(opened(FILE)).text
    assert sorted(_comments(text)) == sorted(SAID)
    lines = text.splitlines()
    assert 'size = "12 h7"  # by the bush' in lines and "[[outside]]  # the journal" in lines
    assert lines[lines.index("[[outside]]  # the journal") - 1] == "# Runs in the bush."
    assert lines[lines.index("# Long enough for the hand.") + 1].startswith("length")


def test_they_stay_when_a_line_is_changed_moved_and_kept_while_typed(tmp_path):
    draft = opened(FILE)
    at = next(i for i, row in enumerate(draft.rows) if row.text.startswith("12 h7"))
    changed = with_row(draft, at, "12 h6 x 22 chamfer 1")
    text = worked(changed).text
    assert sorted(_comments(text)) == sorted(SAID) and 'size = "12 h6"  # by the bush' in text
    turned, _ = moved(changed, at, 1)
    text = worked(turned).text
    assert text.index("Long enough") < text.index("Runs in the bush")
    half = with_row(changed, at, "12 h6 x")
    path = tmp_path / "pin.toml"
    own.keep(path, half, worked(half))
    again = with_row(own.load(path), at, "12 h6 x 24")
    assert sorted(_comments(worked(again).text)) == sorted(SAID)


def test_a_feature_that_is_taken_out_takes_its_comments_along():
    draft = opened(FILE)
    at = next(i for i, row in enumerate(draft.rows) if row.text.startswith("12 h7"))
    text = worked(without(draft, at)).text
    assert "the journal" not in text and "Long enough" in text


def test_every_file_keeps_all_of_its_comments():
    for path in (*FOURTEEN, *SHIPPED):
        text = path.read_text()
        wanted = [
            line[line.index("#") :] for line in text.splitlines() if line.lstrip().startswith("#") or "] " in line
        ]
        kept = worked(opened(text)).text
        assert all(words.strip() in kept for words in wanted if words.startswith("#"))
