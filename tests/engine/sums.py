"""A reader of the sums in a working: it works them from the signs alone, no formula of the engine takes part."""

import math
import re

_UNITS = r"(?<=[\d)]) ?(?:mm|in|m/min|ft/min|N/mm²|MPa|psi|N·m|N|lbf|W|s)(?![a-z/·²])(?: a (?:turn|flute|tooth))?"
# Words that say what a number of a sum is, behind it and in front of it: 71 teeth x 0.2 a tooth; 3 x (12 + blade 2).
_AFTER = r"(?<=\d) (?:teeth|a tooth|rev/min|deep)(?= [x+÷-])"
_BEFORE = r"((?:^| [x+÷-] |\())(?:(?!x )[a-z-]+ )+(?=[\d.(])"
_FUNCTIONS = {
    "S": lambda degrees: math.sin(math.radians(degrees)),
    "C": lambda degrees: math.cos(math.radians(degrees)),
    "T": lambda degrees: math.tan(math.radians(degrees)),
    "A": lambda ratio: math.degrees(math.asin(ratio)),
    "N": lambda ratio: math.degrees(math.atan(ratio)),
    "R": math.sqrt,
}
_NAMES = {"sin": "S", "cos": "C", "tan": "T"}


def sums_of(working):
    """Every value that the sums in a working come to; the words between them are passed over.

    A result that a working writes behind "=" is cut out: it is the sum that has to give the value.
    """
    text = re.sub(r" = [\d.]+ MPa, x", " x", working)  # a product written in two steps
    text = re.sub(r" \((?:[a-z]+ wheel|as )[^)]*\)", "", text)
    text = re.sub(r"= [\d.]+", ";", text).replace("+ point ", "+ ")
    text = re.sub(r"\b(sin|cos|tan) ?\(([\d.]+)° ÷ (\d+)\)", lambda m: f"{_NAMES[m[1]]}({m[2]}/{m[3]})", text)
    text = re.sub(r"\b(sin|cos|tan) ?(?:\(([\d.]+)°\)|([\d.]+)°)", lambda m: f"{_NAMES[m[1]]}({m[2] or m[3]})", text)
    text = text.replace("square root of ", "R").replace("arc sine of ", "A")
    text = text.replace("arc tangent of ", "N")
    text = re.sub(r"([\d.]+)° ([\d.]+)'(?: ([\d.]+)\")?", _degrees, text)
    text = re.sub(_UNITS, "", text).replace("°", "").replace("kc ", "").replace("²", "**2")
    for words, sign in ((" squared", "**2"), (" cubed", "**3"), (" to the 4th", "**4"), ("^", "**")):
        text = text.replace(words, sign)
    text = re.sub(r" (?:left after [\d.]+|flutes|starts|for the depth|for forming \([a-z ]*\))", "", text)
    text = re.sub(r"line (\d+) of \d+, (?=[\d.])", r"\1 x ", text)
    text = text.replace(" lines of ", " x ").replace(", less ", " - ").replace("half of ", "0.5 * ")
    text = re.sub(r"\bpi\b", repr(math.pi), text)
    text = re.sub(_AFTER, "", text)
    text = re.sub(_BEFORE, r"\1", text)
    text = re.sub(r"(?<=\d) \(", "; (", text)  # a remark in brackets, not a product
    text = text.replace("÷", "/").replace(" x ", " * ")
    runs = re.findall(r"-?[\d(SCTANR][\d\s.+*/()SCTANR-]*", text)
    return [value for run in runs if (value := _worked(run)) is not None]


def _degrees(found):
    return repr(float(found[1]) + float(found[2]) / 60 + float(found[3] or 0) / 3600)


def _worked(text):
    """The value of the longest sum that a run of signs begins with."""
    for end in range(len(text), 0, -1):
        try:
            # nothing but digits, signs and those functions
            return float(eval(text[:end], {"__builtins__": {}}, _FUNCTIONS))
        except (SyntaxError, TypeError, NameError, ZeroDivisionError, OverflowError, ValueError):
            continue
    return None


def near(value, wanted):
    """Whether a sum of numbers written with few digits gives the value."""
    return math.isclose(value, wanted, rel_tol=6e-4, abs_tol=6e-5)
