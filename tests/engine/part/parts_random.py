"""Parts made up at random for the properties of plans; some cannot be, and are then skipped where they are read."""

from __future__ import annotations

from random import Random

_THREADS = (("M4", 4), ("M5", 5), ("M6", 6), ("M8", 8), ("M10", 10), ("M12x1.5", 12), ("M16", 16))
_MATERIALS = ("free-cutting brass", "mild steel", "aluminium 6082", "silver steel")


def text_of(seed: int, *, most: int = 5) -> str:
    """The text of a part file."""
    dice = Random(seed)
    bar = dice.choice((10, 12, 16, 20, 25, 28, 32, 40))
    make = dice.choice((1, 1, 2, 3))
    head = f'part_version = 1\ntitle = "Part {seed}"\nunit = "mm"\nbar = "{bar}"\nmake = {make}\n'
    lines = [head + f'material = "{dice.choice(_MATERIALS)}"']
    sizes = []
    for _ in range(dice.randint(1, most)):
        size, text = _outside(dice, bar)
        sizes.append(size)
        lines.append(text)
    smallest = min(sizes)
    if dice.random() < 0.6:
        lines.append(_inside(dice, smallest))
    if dice.random() < 0.3:
        lines.append(f'[[across]]\nis = "cross-hole"\nsize = "2"\nat = "3"\nwalls = "{dice.choice(("one", "both"))}"')
    if dice.random() < 0.15:
        lines.append('[back]\nslot = { width = "1.6", depth = "1.5" }')
    return "\n\n".join(lines) + "\n"


def _outside(dice: Random, bar: int) -> tuple[float, str]:
    kind = dice.choices(("diameter", "knurl", "thread", "bar", "taper"), (6, 1.5, 2, 1, 0.7))[0]
    wide = round(dice.uniform(0.4, 0.98) * bar, 1)
    rows = ["[[outside]]"]
    if kind == "diameter":
        fit = dice.choice(("", "", "", "", " h7", " f7", " p6"))
        wide = float(max(4, round(wide))) if fit else wide
        long = dice.choice((4, 6, 10, 16, 24, 30))
        rows += ['is = "diameter"', f'size = "{wide:g}{fit}"', f'length = "{long}"']
        if dice.random() < 0.25 and long > 4:
            rows.append('scale = { size = "M12x1.5", per_line = "0.05" }')
        if dice.random() < 0.15 and long > 5:
            rows.append(f'flats = {{ sides = {dice.choice((2, 4, 6))}, across_flats = "{wide * 0.8:.1f}" }}')
    elif kind == "knurl":
        rows += ['is = "knurl"', f'near = "{wide}"', f'length = "{dice.choice((6, 8, 12))}"']
    elif kind == "thread":
        name, wide = dice.choice([t for t in _THREADS if t[1] <= bar])
        rows += ['is = "thread"', f'size = "{name}"', f'length = "{dice.choice((10, 14, 20))}"']
        if dice.random() < 0.4:
            rows.append("relief = true")
    elif kind == "bar":
        wide = float(bar)
        rows += ['is = "bar"', f'length = "{dice.choice((5, 10, 20))}"']
    else:
        rows += ['is = "taper"', f'from = "{wide}"', f'to = "{wide * 0.85:.1f}"', f'length = "{dice.choice((8, 15))}"']
    rows += ['chamfer = "0.3"'] if dice.random() < 0.3 else []
    rows += ['chamfer_back = "0.3"'] if dice.random() < 0.3 else []
    return wide, "\n".join(rows)


def _inside(dice: Random, smallest: float) -> str:
    deep = dice.choice(("through = true", 'depth = "6"', 'depth = "6"\nend = "back"'))
    names = [name for name in ("M3", "M4", "M5", "M6", "M8") if float(name[1:]) < smallest * 0.6]
    if names and dice.random() < 0.33:
        return f'[[inside]]\nis = "thread"\nsize = "{dice.choice(names)}"\nmouth = "none"\n{deep}'
    fit = dice.choice(("", " H7", " H7"))
    return f'[[inside]]\nis = "hole"\nsize = "{max(3, round(smallest * 0.4))}{fit}"\n{deep}'
