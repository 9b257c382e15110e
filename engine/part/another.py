"""A part once more in another size: its lines with other words and sizes in them."""

from __future__ import annotations

import re

from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.part.draft import Draft, Row

_BETWEEN = re.compile(r"\s*;\s*|,\s+")  # a comma in a number has no blank behind it
_CHANGE = re.compile(r"(.+?)\s+(?:to|->|>)\s+(.+)")
_EXAMPLE = "M14 to M10, 25 to 20, brass to mild steel"
_FIXED = ("unit", "make", "part")  # lines of the head that no size stands in


def another(draft: Draft, changes: str) -> Draft:
    """The lines of a part with each change (`M14 to M10, brass to mild steel`) made wherever its words stand.

    A material is meant whole, and the title is told apart from the old one; BadInput for a change that is none, or
    whose words stand in no line.

    >>> from engine.part.draft import blank
    >>> part = replace(blank(unit="mm", material="brass", bar="28"), rows=(Row("nut", "title"), Row("M14x1"), Row("14 x 5")))
    >>> [row.text for row in another(part, "M14 to M10, 5 to 6").rows]
    ['nut, M10', 'M10x1', '14 x 6']
    """
    rows = list(draft.rows)
    became = []
    for change in filter(None, _BETWEEN.split(changes.strip())):
        found = _CHANGE.fullmatch(change)
        if not found:
            raise BadInput("changes", change, f"what becomes what, such as {_EXAMPLE}")
        old, new = found.groups()
        changed = [_changed(row, old, new) for row in rows]
        if changed == rows:
            raise BadInput("changes", old, f"words or a size that stand in the part's lines, such as {_EXAMPLE}")
        rows = changed
        became.append(new)
    if not became:
        raise BadInput("changes", changes, f"what becomes what, such as {_EXAMPLE}")
    titles = {row.text for row in draft.rows if row.head == "title"}
    rows = [replace(row, text=f"{row.text}, {became[0]}") if row.head == "title" and row.text in titles else row
            for row in rows]  # fmt: skip
    return replace(draft, rows=tuple(rows))


def _changed(row: Row, old: str, new: str) -> Row:
    if row.head in _FIXED:
        return row
    # Not in the middle of a number or a word; behind a size x may follow: M14 in M14x1, 25 in 25x5.
    whole = re.compile(rf"(?<![\w.,]){re.escape(old)}(?!\d|[.,]\d|(?![xX]\s?\d)\w)", re.IGNORECASE)
    if not whole.search(row.text):
        return row
    if row.head == "material":
        return replace(row, text=new)
    return replace(row, text=whole.sub(lambda _: new, row.text), short=None)
