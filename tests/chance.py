"""What every rule of caution says of moments made up by chance: `python -m tests.chance` writes it down anew.

A moment has each field that the rule needs four times in five, so that every fact is missing with every other. One line a
rule: a letter for each moment (raised, asked, stands, or . for none), and eight that stand for all the numbers in them.
"""

import csv
import random
from pathlib import Path

from engine.safety.rules import RULES
from engine.situation import Situation
from engine.threads.designation import parse
from tests.pins import _digest

FILE = Path(__file__).parent / "data" / "rules_by_chance.csv"
MOMENTS = 150
_WORDS = {
    "machine": ("lathe", "lathe", "mill", "bench"),
    "held_by": (
        "three-jaw",
        "four-jaw",
        "soft jaws",
        "collet",
        "between centres",
        "arbor",
        "vise",
        "vice",
        "clamps",
        "faceplate",
    ),
    "support": ("none", "centre", "fixed steady", "travelling steady"),
    "power": ("on", "unplugged"),
    "tap_driven_by": ("hand", "spindle"),
    "material": (
        "mild steel",
        "plain brass",
        "free-cutting brass",
        "aluminium 6082",
        "cast iron",
        "acetal",
        "magnesium",
        "unheard of",
    ),
    "part": ("ball", "brass pin", "magnet", "bearing", "silver steel", "shaft"),
    "hold": ("press", "stake", "retain", "solder", "press solder"),
    "coating": ("zinc", "zinc plated", "cadmium", "chromium", "paint", "none"),
    "hole": ("through", "blind"),
    "alloy": ("63/37", "BAg-3", "BAg-7", "CuP 284", "silver solder"),
    "thread": ("M10", "M6x0.75", "M12 LH", "Tr20x8(P4)", "1/4-20", "M3", "M24"),
}
# from the least to the most of what is met, spread evenly over powers of ten
_SPANS = {
    "spindle_speed": (150, 4000), "machine_top_speed": (500, 3000), "machine_slowest": (20, 300), "chuck_mark": (800, 4000),
    "feed": (0.02, 5), "feed_rate": (5, 600), "gap": (0.2, 60), "time_to_shoulder": (0.2, 20), "tool_diameter": (0.5, 30),
    "pass_depth": (0.05, 15), "cutter_deflection": (0.001, 0.3), "depth": (1, 150), "spare": (0.1, 20), "wall": (0.1, 10),
    "width": (1, 40), "blade_width": (1, 6), "reach_needed": (2, 60), "blade_reach": (5, 40), "parted_at": (1, 80),
    "temper": (100, 700), "bears": (80, 900), "liquidus": (110, 900), "ball": (0.5, 40), "rear": (0.5, 900),
    "table_backlash": (0.005, 0.5), "cutter_flutes": (1, 6),
}  # fmt: skip
_COUNTS = ("cutter_flutes",)


def _known(name, drawn):
    """A value of a field."""
    if name in _WORDS:
        word = drawn.choice(_WORDS[name])
        return parse(word) if name == "thread" else word
    if str(Situation.__annotations__[name]).startswith("bool"):
        return drawn.random() < 0.5
    low, high = _SPANS.get(name, (2, 200))
    value = low * (high / low) ** drawn.random()
    return round(value) if name in _COUNTS else float(f"{value:.3g}")


def moments(rule):
    """The moments that one rule is shown."""
    drawn = random.Random(rule.name)
    for _ in range(MOMENTS):
        yield Situation(**{name: _known(name, drawn) for name in rule.needs if drawn.random() < 0.8})


def said(rule):
    """What a rule makes of its moments."""
    found = [rule.judge(moment) for moment in moments(rule)]
    return "".join(one.kind[0] if one else "." for one in found), _digest(tuple(found), "mm")


def kept():
    """What is written down, by rule."""
    with FILE.open(encoding="utf-8", newline="") as file:
        return {name: (kinds, numbers) for name, kinds, numbers in csv.reader(file)}


if __name__ == "__main__":
    with FILE.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows((name, *said(RULES[name])) for name in sorted(RULES))
