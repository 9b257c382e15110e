"""The README's table of keys, written from tui/keys.py: `python -m tests.readme_keys` puts it in anew."""

import re
from pathlib import Path

from tui.keys import table

README = Path(__file__).parents[1] / "README.md"
BEGIN, END = "<!-- keys -->\n", "<!-- /keys -->\n"

if __name__ == "__main__":
    text = README.read_text(encoding="utf-8")
    found = re.compile(re.escape(BEGIN) + ".*?" + re.escape(END), re.S)
    assert found.search(text), "the README has no place for it"
    README.write_text(found.sub(lambda _: f"{BEGIN}{table()}\n{END}", text), encoding="utf-8")
