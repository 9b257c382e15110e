"""What a shop says of a moment at one of its machines."""

from __future__ import annotations

from engine.shop.model import Shop
from engine.situation import Situation


def in_shop(moment: Situation, shop: Shop | None) -> Situation:
    """The moment with the machine's speeds, the chuck's mark and the like, as far as this shop knows them.

    >>> from engine.shop.file import sample
    >>> in_shop(Situation(machine="lathe"), sample("metric")).chuck_mark
    2000.0
    """
    if shop is None:
        return moment
    lathe, mill = shop.lathe, shop.mill
    owned = {"lathe": (lathe,), "mill": (mill,)}.get(moment.machine, (lathe, mill))
    speeds = [speed for machine in owned if machine is not None for speed in machine.speeds]
    chuck, blade = (lathe.chuck, lathe.blade) if lathe is not None else (None, None)
    headed = shop.dividing_head is not None or shop.rotary_table is not None
    by_wheel = lathe is not None and lathe.spindle_wheel is not None
    return moment.filled(
        machine_top_speed=max(speeds, default=None),
        machine_slowest=min(speeds, default=None),
        chuck_owned=chuck is not None,
        chuck_mark=chuck.marked_speed if chuck else None,
        chuck_body=chuck.body_diameter if chuck else None,
        jaw_length=chuck.jaw_length if chuck else None,
        chuck_screwed=chuck.screwed if chuck else None,
        spindle_bore=lathe.spindle_bore if lathe else None,
        blade_reach=blade.reach if blade else None,
        blade_width=blade.width if blade else None,
        table_backlash=mill.x.backlash if mill else None,
        indexed_in_lathe=lathe is not None and (by_wheel or not headed),
        cutter_flutes=_flutes(shop, moment.tool_diameter),
    )


def _flutes(shop: Shop, cutter: float | None) -> int | None:
    """Flutes of the owned cutter of that size."""
    if cutter is None:
        return None
    return next((mill.flutes for mill in shop.end_mills if abs(mill.diameter - cutter) < 1e-6), None)
