"""An answer as a card: what to set large, the figures in named groups, limits beside what they limit and drawn.

Which group a figure stands in is decided here alone, by what it is and by its name.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from engine.base.answer import Figure
from engine.base.records import replace
from engine.base.showing import figure_text, limits_text
from tui.glyphs import plain
from tui.lines import Line, fitted, heading, line, width_of, wrapped
from tui.widgets.big import LINED_TALL
from tui.widgets.setting_type import has_number, head_and_setting, typed_large, typed_lined

GROUPS = ("Set", "Check", "Wires", "Work")
TWO_COLUMNS = 74  # cells from which the groups stand in two columns
_LABEL = 24
_BAR = 7  # cells between the ends of a limit's bar, both counted
_LARGE = (26, 50)  # rows and cells from which what to set is drawn in blocks

# What is worth knowing but is neither set, made nor measured now.
_BEHIND = (
    r"force|power|share|torque|thrust|uncertainty|worst_case|ideal|actual|stress_area|starts|lead_angle|ppm|correction"
    r"|sideways|shave|relief_(?:leading|following)|slenderness|ratio|tool_radius|spindle_give|mismatch|deflection"
    r"|_basic$|_short$|minutes$|degrees_per|rounding|left_over|reach$|cutting_time|wire_m(?:in|ax)|breaks|edge_drop"
)
# The same setting once more as bare numbers: recipes and the shell use them, a person has the setting.
_AGAIN = r"(?:^|_)(?:turns|reading|dial|dial_line|line|depth_dial|circle|holes)$"
_CHECK = r"_m(?:in|ax)$|^to_|state|error|tolerance|inside|clearance|limit|closes|readable|kind|over_|play|left"
# One side of a size of a screw or its nut: `Screw: major, largest (6g)`.
_LIMITED = r"(Screw|Nut): (.+), (largest|smallest)(?: \((.+)\))?"
_SET = r"rpm|^feed|finish_feed|^drill|cutter|blank|slide_angle|stick_out|^bar|knurl$|train|method|packing|hole$"


def group_of(figure: Figure, leads_with_setting: bool) -> str:
    """The group of a figure; "" for one that waits behind a key.

    >>> group_of(Figure("rpm", "Spindle", 400, "speed", "", ""), True), group_of(Figure("force", "", 1, "force", "", ""), True)
    ('Set', '')
    """
    name = figure.name
    if figure.setting is not None:
        return "Set"
    if re.search(_BEHIND, name) or (leads_with_setting and re.search(_AGAIN, name)):
        return ""
    if "wire" in name:
        return "Wires"
    if figure.low is not None or figure.high is not None or re.search(_CHECK, name):
        return "Check"
    return "Set" if re.search(_SET, name) or figure.dimension in ("speed", "feed", "feed_rate") else "Work"


def lead_lines(figure: Figure, width: int, unit: str, room: int) -> list[Line]:
    """What to set or make, three rows high or more where there is room; words as they are."""
    text = plain(figure_text(figure, unit))
    wheel, setting = head_and_setting(text)
    label = plain(figure.label)
    if room < LINED_TALL + 3 or not has_number(setting):
        return _plain_lead(label, text, width)
    head = [(label, "lead"), (wheel, "strong")] if wheel else [(label, "lead")]
    if room >= _LARGE[0] and width >= _LARGE[1]:
        body = typed_large(setting, width, 7)
        if len(body) >= 7:
            words = " · ".join(t for t, _ in head)
            return [[("■ ", "lead"), (words, "lead")], *body]
    side = max(len(t) for t, _ in head) + 5
    body = typed_lined(setting, width - side, LINED_TALL)
    if len(body) == LINED_TALL and side + width_of(body[0]) <= width:
        names: list[Line] = [[("■ ", "lead"), head[0]], [("  ", "text"), *head[1:]], []]
        return [[*fitted(names[y], side), *body[y]] for y in range(LINED_TALL)]
    body = typed_lined(setting, width - 2, LINED_TALL)
    if len(body) != LINED_TALL:
        return _plain_lead(label, text, width)
    words = " · ".join(t for t, _ in head)
    return [[("■ ", "lead"), (words, "lead")], *([("  ", "text"), *runs] for runs in body)]


def _plain_lead(label: str, text: str, width: int) -> list[Line]:
    if len(label) + len(text) + 4 <= width:
        return [[("■ ", "lead"), (f"{label}  ", "lead"), (text, "lead")]]
    return [[("■ ", "lead"), (label, "lead")], *wrapped(text, width, "lead", first="  ")]


def group_lines(figures: Sequence[Figure], width: int, unit: str, unfolded: bool, key: str) -> list[Line]:
    """The figures after the lead in their groups; those behind the key are counted, or are there too."""
    lead = figures[0]
    grouped: dict[str, list[Figure]] = {name: [] for name in (*GROUPS[:2], "")}
    for block, figure in _limits_together(figures, unit):
        if figure is not lead:
            grouped.setdefault(block or group_of(figure, lead.setting is not None), []).append(figure)
    behind = grouped.pop("")
    grouped = {name: grouped.get(name, []) for name in dict.fromkeys((*grouped, *GROUPS))}
    for last in GROUPS[2:]:
        grouped[last] = grouped.pop(last)
    if sum(map(len, grouped.values())) == 0 or len(behind) == 1:
        grouped["Work"] += behind
        behind = []
    blocks = [(name, found) for name, found in grouped.items() if found]
    if unfolded and behind:
        blocks.append(("More", behind))
        behind = []
    alone = len(blocks) == 1
    columns = 2 if width >= TWO_COLUMNS and sum(len(found) for _, found in blocks) > 2 else 1
    each = (width - 2 * (columns - 1)) // columns
    drawn = [_block("" if alone else name, found, each, unit) for name, found in blocks]
    out = _in_columns(drawn, columns, each)
    if behind:
        few = ", ".join(plain(f.label) for f in behind)
        said = f"+ {len(behind)} more: {key}"
        names = f" ({few})"
        out.append(line(said + (names if len(said) + len(names) <= width else ""), "hint"))
    return out


def _limits_together(figures: Sequence[Figure], unit: str) -> list[tuple[str, Figure]]:
    """Each figure with the block that its label asks for, else "": the largest and the smallest of a screw's or a nut's
    size stand in one line of its own block."""
    said = [re.fullmatch(_LIMITED, plain(figure.label)) for figure in figures]
    sides = {(m[1], m[2], m[4], m[3]): f for f, m in zip(figures, said, strict=True) if m}
    out: list[tuple[str, Figure]] = []
    for figure, m in zip(figures, said, strict=True):
        if m is None:
            out.append(("", figure))
            continue
        block, size = f"{m[1]} {m[4] or ''}".strip(), m[2][:1].upper() + m[2][1:]
        low, high = (sides.get((m[1], m[2], m[4], side)) for side in ("smallest", "largest"))
        if low is None or high is None:
            out.append((block, figure if figure is figures[0] else replace(figure, label=f"{size}, {m[3]}")))
        elif figure is low:
            between = f"{figure_text(low, unit).rpartition(' ')[0]} to {figure_text(high, unit)}"
            out.append((block, replace(low, label=size, dimension="text", value=None, text=between)))
    return out


def _in_columns(blocks: list[list[Line]], columns: int, width: int) -> list[Line]:
    """Blocks under one another, or in two columns of about one height."""
    lines = [runs for block in blocks for runs in block]
    if columns == 1:
        return lines
    if len(blocks) == 1:
        cut = (len(lines) + 1) // 2
    else:
        ends = [sum(map(len, blocks[: i + 1])) for i in range(len(blocks) - 1)]
        cut = min(ends, key=lambda end: max(end, len(lines) - end))
    left, right = lines[:cut], lines[cut:]
    right = [*right, *[[]] * (len(left) - len(right))]
    left = [*left, *[[]] * (len(right) - len(left))]
    return [[*fitted(a, width), ("  ", "text"), *fitted(b, width)] for a, b in zip(left, right, strict=True)]


def _block(name: str, figures: Sequence[Figure], width: int, unit: str) -> list[Line]:
    longest = min(max(len(plain(f.label)) for f in figures), max(_LABEL, width - _LABEL))
    texts = [plain(figure_text(f, unit)) for f in figures]
    whole = [_whole(t) for t, f in zip(texts, figures, strict=True) if f.value is not None and f.setting is None]
    before_point = max(whole, default=0)
    out = [heading(name, width)] if name else []
    for figure, text in zip(figures, texts, strict=True):
        number = figure.value is not None and figure.setting is None
        placed = " " * (before_point - _whole(text)) + text if number else text
        out += _figure(figure, placed, longest, width, unit)
    return out


def _whole(text: str) -> int:
    return len(text.split(" ")[0].split(".")[0])


def _figure(figure: Figure, text: str, label_width: int, width: int, unit: str) -> list[Line]:
    """One figure; a label, a value or a pair of limits too long for the line goes on in the next."""
    label, limits, bar = plain(figure.label), limits_text(figure, unit), limit_bar(figure)
    role = "caution" if figure.name == "state" else "value"
    if len(label) > label_width:
        out = [line(f"  {label}", "label")]
        label = ""
    else:
        out = []
    front = f"  {label:<{label_width}}  "
    if len(front) + len(text) > width:
        if label:
            out.append(line(front.rstrip(), "label"))
        out += wrapped(text.strip(), width, role, first="    ")
    else:
        out.append([(front, "label"), (text, role)])
    tail = "  ".join(filter(None, (limits, bar)))
    if tail and width_of(out[-1]) + 2 + len(tail) <= width:
        out[-1] = [*out[-1], (f"  {tail}", "hint")]
    elif tail:
        out.append([(f"{tail:>{width - 1}}"[:width], "hint")])
    return out


def limit_bar(figure: Figure) -> str:
    """A pair of limits as a bar with the value on it, or beside it where it is outside.

    >>> limit_bar(Figure("d", "", 5.0, "length", "", "", low=4.0, high=6.0))
    '├──■──┤'
    >>> limit_bar(Figure("d", "", 7.0, "length", "", "", low=4.0, high=6.0))
    '├─────┤ ■'
    """
    low, high, value = figure.low, figure.high, figure.value
    if low is None or high is None or value is None or not high > low:
        return ""
    bar = "├" + "─" * (_BAR - 2) + "┤"
    if value < low:
        return f"■ {bar}"
    if value > high:
        return f"{bar} ■"
    at = round((value - low) / (high - low) * (_BAR - 1))
    return bar[:at] + "■" + bar[at + 1 :]
