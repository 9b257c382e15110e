"""The README's screens, from those that are kept as text: `python -m tests.readme` puts them in anew."""

import re
from pathlib import Path

README = Path(__file__).parents[1] / "README.md"
NOW = Path(__file__).parent / "data" / "captures" / "now"
# Which capture stands in the README's first and second place, and how many of its lines.
SHOWN = (("threads-80x24.txt", "three-wires", 24), ("jobs-80x24.txt", "step 17 line 2", 17))
_PLACE = re.compile(r"<!-- screen -->\n```\n.*?```\n", re.S)


def screens() -> list[str]:
    """The screens as they are now."""
    found = []
    for file, name, lines in SHOWN:
        _, behind = (NOW / file).read_text(encoding="utf-8").split(f"==================== {name}\n", 1)
        found.append("\n".join(behind.split("\n")[:lines]))
    return found


def with_screens(text: str) -> str:
    """The README with the screens as they are now."""
    left = iter(screens())
    return _PLACE.sub(lambda _: f"<!-- screen -->\n```\n{next(left)}\n```\n", text)


if __name__ == "__main__":
    README.write_text(with_screens(README.read_text(encoding="utf-8")), encoding="utf-8")
