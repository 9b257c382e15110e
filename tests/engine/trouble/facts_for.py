"""Facts made up for one rule: figures and inputs by name, a sample shop with parts changed."""

from dataclasses import replace
from fractions import Fraction
from types import SimpleNamespace

from engine.base.answer import Figure
from engine.shop.file import sample
from engine.threads.thread import Thread
from engine.trouble.facts import Facts

METRIC = sample("metric")


def thread(*, pitch="1", starts=1, left_hand=False, diameter=10.0):
    hand = "-LH" if left_hand else ""
    return Thread(
        "metric", "", diameter, Fraction(pitch), starts, left_hand, "", False, f"M{diameter:g}x{pitch}{hand}"
    )


def shop_with(*, chuck=None, lathe=None, mill_x=None, **shop):
    new_chuck = replace(METRIC.lathe.chuck, **(chuck or {}))
    new_lathe = replace(METRIC.lathe, chuck=new_chuck, **(lathe or {}))
    new_mill = replace(METRIC.mill, x=replace(METRIC.mill.x, **(mill_x or {})))
    return replace(METRIC, **{"lathe": new_lathe, "mill": new_mill, **shop})


def figure(name, value):
    words = isinstance(value, str)
    return Figure(
        name,
        name,
        None if words else value,
        "text" if words else "length",
        "",
        "",
        text=value if words else "",
    )


def facts(operation="", *, shop=METRIC, told=None, unit="mm", inputs=None, answer=None, **figures):
    return Facts(
        inputs=SimpleNamespace(**(inputs or {})),
        figures={name: figure(name, value) for name, value in figures.items()},
        shop=shop,
        told=told or {},
        operation=operation,
        unit=unit,
        answer=answer,
    )
