"""An answer as a door writes it: every text in it is a plain string in one unit."""

from dataclasses import fields, is_dataclass, replace

from engine.base.sums import Sum
from engine.base.words import Said, Shown, write
from engine.situation import Situation


def spoken(thing, unit="mm"):
    """The same answer, figure, note, caution or tuple of them with its texts written."""
    if isinstance(thing, Said | Shown | Sum):
        return write(thing, unit)
    if isinstance(thing, tuple):
        return tuple(spoken(one, unit) for one in thing)
    if is_dataclass(thing) and not isinstance(thing, Situation):
        return replace(thing, **{f.name: spoken(getattr(thing, f.name), unit) for f in fields(thing)})
    return thing
