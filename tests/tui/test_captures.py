"""The screens kept as text are those of today: a few of them, taken anew."""

import pytest

from tests import readme
from tests.captures import SIZES, file_of, taken


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_the_captures_are_fresh(size, tmp_path):
    """One pane, each operation with its answer and in large type; another would say the same at more cost."""
    kept = file_of("knurling", size).read_text(encoding="utf-8")
    assert taken("knurling", size, str(tmp_path)) == kept, "python -m tests.captures writes them anew; read the diff"


def test_the_readme_shows_two_of_them():
    text = readme.README.read_text(encoding="utf-8")
    assert text.count("<!-- screen -->") == len(readme.SHOWN)
    assert readme.with_screens(text) == text, "python -m tests.readme puts them in anew"
