"""The conditions that rules of order ask for: each a small function of the plan's setting and of two tasks.

A condition never looks at an operation's id or at words; it reads the part, the route and the tasks.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from engine.base.records import dataclass, field
from engine.part.checks import is_fitted as is_fine
from engine.part.part import Diameter, Feature, Knurl, Outside, Part
from engine.part.rules import Rule, rules_between
from engine.part.tasks import Bench, Task

Group = Literal["first", "second", "apart", "bench"]

THIN_WALL = 1 / 8  # of the diameter outside
KNURL_WALL = 3.0  # pitches of the knurl
CLOSE_WALL = 1 / 3  # of the diameter outside: a thinner wall closes under a knurl
THIN_END = 0.6  # of the knurl's diameter: a thinner end springs
STIFF_END = 2.0  # diameters long: a shorter end is stiff
LIGHT = 0.25  # of the bar's diameter: less is light work
NEAR = 0.75  # of the smaller diameter: cross holes nearer than this meet


def _zero(part: Part) -> str:
    """The feature from which angles are counted: line 0, else the first flat, else the first hole."""
    for one in part.outside:
        if one.scale:
            return one.scale.name
    for one in part.outside:
        if one.flats:
            return one.flats.name
    return part.across[0].name if part.across else ""


@dataclass(slots=True)
class Setting:
    """A route as the conditions see it: what each visit is, and what is known of the holding.

    `groups` is the group of each visit, `order` the outside features from the end made first.
    """

    bench: Bench
    order: tuple[Outside, ...]
    groups: tuple[Group, ...]
    free: str
    slender: tuple[bool, ...]  # for each visit: it stands out too far for a chuck alone
    knurl_supported: bool
    steady: bool
    arbor: tuple[bool, ...]  # for each visit: the work is on an arbor
    by_root: dict[str, Outside] = field(default_factory=dict)
    light: bool = False  # little comes off the bar
    zero: str = ""  # the feature from which angles are counted
    named: dict[str, Feature] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """What many pairs of tasks ask for is looked up once."""
        bar = self.bench.part.bar.corners
        self.light = bar - min((one.smallest for one in self.order), default=bar) <= LIGHT * bar
        self.zero = _zero(self.bench.part)
        self.named = self.bench.features

    def outside(self, task: Task) -> Outside | None:
        """The outside feature that a task belongs to."""
        return self.by_root.get(task.root)

    def index(self, task: Task) -> int:
        """Its place from the end made first; -1 for none."""
        one = self.outside(task)
        return self.order.index(one) if one else -1


Condition = Callable[[Setting, Task, Task], bool]


def _overlap(a: Task, b: Task) -> bool:
    return a.start < b.stop - 1e-9 and b.start < a.stop - 1e-9


def _knurl_and_bore(s: Setting, knurl: Task, hole: Task) -> tuple[Knurl, float] | None:
    one = s.outside(knurl)
    if not isinstance(one, Knurl) or not hole.hole or not _overlap(knurl, hole):
        return None
    return one, (one.largest - hole.bore) / 2


def _thin_under(s: Setting, a: Task, b: Task) -> bool:
    pair = (a, b) if a.kind == "knurl" else (b, a)
    found = _knurl_and_bore(s, *pair)
    return found is not None and found[1] < KNURL_WALL * 0.8


def _over_bore(s: Setting, a: Task, b: Task) -> bool:
    found = _knurl_and_bore(s, a, b)
    return found is not None and found[1] < CLOSE_WALL * found[0].largest


def _behind_thin(s: Setting, knurl: Task, thin: Task) -> bool:
    """`thin` lies between the knurl and the free end, and is much thinner."""
    k, t = s.index(knurl), s.index(thin)
    return 0 <= t < k and s.order[t].largest < THIN_END * s.order[k].largest


def _stiff(s: Setting, a: Task, b: Task) -> bool:
    """The thinner of the two stands out no more than two of its diameters."""
    thin = min((a, b), key=lambda task: task.diameter)
    index = s.index(thin)
    if index < 0:
        return False
    long = sum(one.long for one in s.order[: index + 1] if one.largest <= thin.diameter + 1e-6)
    return long <= STIFF_END * thin.diameter


def _neighbour(s: Setting, a: Task, b: Task) -> bool:
    i, j = s.index(a), s.index(b)
    return i >= 0 and j >= 0 and abs(i - j) == 1


def _meets_thread(s: Setting, a: Task, b: Task) -> bool:
    thread = s.outside(b)
    if thread is None:
        return False
    if a.root == b.root:
        return True
    return thread.start <= (a.start + a.stop) / 2 <= thread.stop


def _into_bore(s: Setting, a: Task, b: Task) -> bool:
    middle = (a.start + a.stop) / 2
    return b.start <= middle <= b.stop and a.root != b.root


def _crossing(s: Setting, a: Task, b: Task) -> bool:
    if a.about == b.about:
        return False
    apart = abs((a.start + a.stop) - (b.start + b.stop)) / 2
    return apart < NEAR * max(a.diameter, b.diameter)


def _counted(s: Setting, a: Task, b: Task) -> bool:
    if a.about == b.about or a.about != s.zero:
        return False
    feature = s.named.get(b.about)
    return feature is not None and feature.turned is not None


def _true(s: Setting, a: Task, b: Task) -> bool:
    one = s.outside(b)
    named = any(b.root in (t.feature.split(".scale")[0], t.to) for t in s.bench.part.truths)
    return b.fine or named or (one is not None and one.scale is not None)


def _off_axis(s: Setting, a: Task, b: Task) -> bool:
    one, other = s.named.get(a.root), s.named.get(b.root)
    return other is not None and other.off_axis is not None and (one is None or one.off_axis is None)


def _thin_wall(s: Setting, a: Task, b: Task) -> bool:
    return (
        bool(a.hole) and _overlap(a, b) and b.diameter > a.bore and (b.diameter - a.bore) / 2 < THIN_WALL * b.diameter
    )


def _larger_first(s: Setting, a: Task, b: Task) -> bool:
    return a.diameter > b.diameter + 1e-6


def _thinner_behind(s: Setting, a: Task, b: Task) -> bool:
    i, j = s.index(a), s.index(b)
    return 0 <= i < j and b.diameter < a.diameter


def _needs_centre(s: Setting, a: Task, b: Task) -> bool:
    if a.tool.startswith("die"):
        return False  # the die itself is held in the tailstock
    return s.slender[a.visit] or (s.knurl_supported and a.kind == "knurl")


def _fitted(s: Setting, a: Task, b: Task) -> bool:
    one = s.outside(b)
    return isinstance(one, Diameter) and is_fine(one.size)


CONDITIONS: dict[str, Condition] = {
    "same_visit": lambda s, a, b: a.visit == b.visit,
    "first_end": lambda s, a, b: s.groups[a.visit] == s.groups[b.visit] == "first",
    "second_end": lambda s, a, b: s.groups[a.visit] == s.groups[b.visit] == "second",
    "bar_hollow": lambda s, a, b: s.bench.part.bar.bore is not None,
    "long_out": lambda s, a, b: s.slender[b.visit] and not b.tool.startswith("die"),
    "knurl_far": lambda s, a, b: s.knurl_supported,
    "pinching_holder": lambda s, a, b: s.bench.shop.lathe is not None and s.bench.shop.lathe.pinching_knurl,
    "larger_than_centre": lambda s, a, b: s.knurl_supported,
    "supported_knurl": lambda s, a, b: s.knurl_supported,
    "same_hole": lambda s, a, b: bool(a.hole) and a.hole == b.hole,
    "same_axis_hole": lambda s, a, b: bool(a.hole) and a.hole == b.hole,
    "reamed_smaller": lambda s, a, b: a.bore < b.bore,
    "covers": lambda s, a, b: a.root == b.root,
    "same_feature": lambda s, a, b: a.root == b.root,
    "stands_on": lambda s, a, b: a.root == b.root,
    "light_work": lambda s, a, b: s.light,
    "thin_wall": _thin_wall,
    "larger_first": _larger_first,
    "knurl_behind_thin": lambda s, a, b: _behind_thin(s, a, b) if a.kind == "knurl" else _behind_thin(s, b, a),
    "stiff_end": _stiff,
    "neighbour": _neighbour,
    "thin_under_knurl": _thin_under,
    "over_bore": _over_bore,
    "second_end_thread": lambda s, a, b: s.groups[a.visit] == "second",
    "thinner_behind": _thinner_behind,
    "through_thread": _meets_thread,
    "breaks_surface": lambda s, a, b: a.start <= (b.start + b.stop) / 2 <= a.stop,
    "breaks_into_bore": _into_bore,
    "crossing": _crossing,
    "smaller": lambda s, a, b: a.diameter < b.diameter,
    "same_length": lambda s, a, b: _overlap(a, b) or a.start <= b.start <= a.stop,
    "fitted": _fitted,
    "counted_from": _counted,
    "on_arbor": lambda s, a, b: s.arbor[a.visit] or s.arbor[b.visit],
    "through_hole": lambda s, a, b: a.through,
    "between_centres": lambda s, a, b: s.free == "centres",
    "must_run_true": _true,
    "long_for_steady": lambda s, a, b: s.steady,
    "off_axis_last": _off_axis,
    "needs_centre": _needs_centre,
    "by_die": lambda s, a, b: b.tool.startswith("die"),
    "mended": lambda s, a, b: True,
}


def applies(rule: Rule, setting: Setting, before: Task, after: Task) -> bool:
    """Whether a rule holds between these two tasks."""
    return all(CONDITIONS[name](setting, before, after) for name in rule.when) and not any(
        CONDITIONS[name](setting, before, after) for name in rule.unless
    )


def holding_between(setting: Setting, before: Task, after: Task) -> list[Rule]:
    """The rules that ask for `before` to be done before `after`."""
    known = rules_between().get((before.kind, after.kind), ())
    return [rule for rule in known if applies(rule, setting, before, after)]
