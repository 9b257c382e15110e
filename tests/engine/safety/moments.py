"""Moments made up for one rule, on the metric sample bench or on one with parts changed."""

from dataclasses import replace
from fractions import Fraction

from engine.safety import choose, chosen_by_hand
from engine.shop.file import sample
from engine.shop.situation import in_shop
from engine.situation import Situation
from engine.threads.thread import Thread

METRIC = sample("metric")


def thread(*, pitch="1", starts=1, left_hand=False, diameter=10.0):
    hand = "-LH" if left_hand else ""
    return Thread("metric", "", diameter, Fraction(pitch), starts, left_hand, "", False, f"M{diameter:g}x{pitch}{hand}")


def shop_with(*, chuck=None, lathe=None, mill_x=None, **shop):
    new_chuck = replace(METRIC.lathe.chuck, **(chuck or {}))
    new_lathe = replace(METRIC.lathe, chuck=new_chuck, **(lathe or {}))
    new_mill = replace(METRIC.mill, x=replace(METRIC.mill.x, **(mill_x or {})))
    return replace(METRIC, **{"lathe": new_lathe, "mill": new_mill, **shop})


def moment(machine="", shop=METRIC, **known):
    """A moment as a rule sees it: what is given, filled up by the shop."""
    return in_shop(Situation(machine=machine, **known), shop)


def turning(shop=METRIC, **known):
    return moment("lathe", shop, **known)


def milling(shop=METRIC, **known):
    return moment("mill", shop, **known)


def cautions_for(*about, **more):
    """The cautions alone."""
    return choose(*about, **more).cautions


def cautions_by_hand(*about, **more):
    """The cautions of work by hand alone."""
    return chosen_by_hand(*about, **more).cautions
