"""A setting: what the hand sets on the machine, as a kind of number of its own.

It is always said in the machine's own unit, whatever the screen's: a metric dial shows millimetres on an inch screen
too.
"""

from __future__ import annotations

from typing import Literal

from engine.base.records import dataclass


@dataclass(frozen=True, slots=True)
class Setting:
    """A handwheel, crank or slide as it is set.

    `wheel` is what is turned ("Cross slide", "Crank"), `way` the direction ("in", "out", "on", ""), `turns` whole
    turns, `on_dial` what the dial shows then (in `unit`, doubled where the dial reads diameter), `line` the line it is.
    For a crank: `holes` of `circle` beyond the whole turns. `distance` is what it moves (mm, or degrees of the work for
    a crank or a table). A dial in `minutes` holds degrees and is written in degrees, minutes and seconds.
    """

    wheel: str
    turns: int = 0
    way: str = ""
    on_dial: float | None = None
    line: int = 0
    unit: Literal["mm", "inch", "degrees", "minutes"] = "mm"
    decimals: int = 2
    distance: float = 0.0
    holes: int = 0
    circle: int = 0
    dimension: str = "length"


_LENGTHS = {"mm": " mm", "inch": " in"}  # what is written behind the reading of a dial


def setting_text(setting: Setting, *, wheel: bool = True, unit: str = "") -> str:
    """A setting as every door writes it; on a screen in another `unit` than its dial's the dial's own is said.

    >>> setting_text(Setting("Cross slide", 1, "in", on_dial=0.25, line=25))
    'Cross slide in: 1 turn, dial 0.25'
    >>> setting_text(Setting("Crank", 1, holes=13, circle=39, dimension="angle"))
    'Crank: 1 turn + 13 holes of 39'
    >>> setting_text(Setting("Cross slide", 0, "in", on_dial=0.25), wheel=False)
    '0 turns, dial 0.25'
    >>> setting_text(Setting("Cross slide", on_dial=0.25), unit="inch"), setting_text(Setting("Saddle", 2), unit="inch")
    ('Cross slide: 0 turns, dial 0.25 mm', 'Saddle: 2 turns')
    >>> setting_text(Setting("Table", 12, on_dial=3 + 26 / 60, unit="minutes", dimension="angle"))
    "Table: 12 turns, dial 3° 26'"
    """
    turns = f"{setting.turns} turn{'' if setting.turns in (1, -1) else 's'}"
    if setting.circle:
        holes = f"{setting.holes} hole{'' if setting.holes == 1 else 's'} of {setting.circle}"
        rest = f"{turns} + {holes}" if setting.turns and setting.holes else holes if setting.holes else turns
    elif setting.on_dial is not None:
        other = unit and setting.unit in _LENGTHS and unit != setting.unit
        rest = f"{turns}, dial {_dial(setting, setting.on_dial)}" + (_LENGTHS[setting.unit] if other else "")
    else:
        rest = turns
    head = " ".join(filter(None, (setting.wheel, setting.way)))
    return f"{head}: {rest}" if wheel and head else rest


def _dial(setting: Setting, shows: float) -> str:
    from engine.base.rounding import rounded

    if setting.unit != "minutes":
        return rounded(shows, setting.decimals) + ("°" if setting.unit == "degrees" else "")
    minutes, rest = divmod(round(shows * 3600 * 10), 600)  # to a tenth of a second
    seconds = f"{rest // 10}.{rest % 10}" if rest % 10 else f"{rest // 10}"
    return f"{minutes // 60}° {minutes % 60}'" + (f' {seconds}"' if rest else "")
