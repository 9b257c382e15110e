"""A plan written as a recipe, which the person can then edit and step through.

Every holding of the plan is one of the recipe's set-ups. A size that one step makes and another starts from is one of its
named sizes, for each piece its own, so that what is measured goes on. The part file's text goes along: the steps are
drawn from it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from engine.base.answer import Answer
from engine.base.records import dataclass, field
from engine.base.refusals import BadInput
from engine.base.rounding import short
from engine.base.units import parse_length
from engine.jobs.counting import DRY, DRY_WORDS, keys_of, steps_of
from engine.jobs.schema import MOST_STEPS, SCHEMA_VERSION
from engine.part.general import general_deviation
from engine.part.part import Diameter, Hole
from engine.part.plan import Plan, is_up
from engine.part.plan_steps import broken
from engine.part.routes_making import SLENDER
from engine.part.steps import Step, Why
from engine.part.together import in_order, needs_together
from engine.set_up import HELD_BY

_LONGEST_LINE = 290
_KNURL = "0.1"  # mm either way that a knurl may come out beside what its blank gives: common practice, no source
_MOST_LINES = 19
_STUB_OUT = 10.0  # mm of its bar that stand out with a stub: its shoulder and room before the jaws
_IN_JAWS = ("three-jaw", "four-jaw", "soft jaws", "collet")
_MACHINES = ("lathe", "mill", "bench")
_LIMITED = {"turn-to-size": "diameter", "bore-to-size": "bore", "face-to-length": "length"}
_GENERAL = "m"  # ISO 2768-1, where a drawing names no class: common practice, no source
_STARTS = ("from", "hole")  # inputs that take over what an earlier step left
_LARGE = {"ream": "rpm"}  # what is drilled before it is another step's
_NOUNS = {"figures": "figure"}


def _noun(step: Step) -> str:
    """The word for one of what a step by hand, or one for every hole, is done to."""
    return _NOUNS.get(step.kind, "hole" if step.operation else "time")


def as_recipe(plans: Sequence[Plan], part_text: str = "") -> str:
    """The text of a recipe that does these plans one after the other; `part_text` is the part file they come from.

    >>> from pathlib import Path
    >>> from engine.jobs.recipe import read
    >>> from engine.part.file import read as read_part
    >>> from engine.part.plan import plan
    >>> from engine.shop.file import sample
    >>> head = 'part_version = 1\\ntitle = "Pin"\\nunit = "mm"\\nmaterial = "mild steel"\\nbar = "16"\\n'
    >>> text = head + '[[outside]]\\nis = "diameter"\\nsize = "12"\\nlength = "20"'
    >>> recipe = read(as_recipe([plan(read_part(text).part, sample("metric"))], text), Path("pin.toml"))
    >>> recipe.title, recipe.set_ups[0].held_by, recipe.steps[0].set_up
    ('Pin', 'three-jaw', 0)
    """
    import tomlkit

    first = plans[0]
    sizes: dict[str, str] = {}
    held: list[dict[str, Any]] = []
    steps: list[dict[str, Any]] = []
    writers = []
    pieces = 0
    for number, plan in enumerate(plans):
        holdings = _holdings(plan)
        places = {phase: len(held) + place for place, phase in enumerate(holdings)}
        _since(plan, places, holdings)
        writers.append(_Writer(plan, number, places, sizes, pieces, several=len(plans) > 1, against=broken(plan)))
        held += holdings.values()
        pieces += plan.rounds
    seen: tuple[int, int, int] | None = None
    for number, step in in_order(plans):
        here = (number, step.round, step.set_up)
        if dry := writers[number].dry(step, opens=here != seen):
            steps.append(dry)
        steps.append(writers[number].written(step, opens=here != seen and not dry))
        seen = here
    if len(steps) > MOST_STEPS:
        raise BadInput(
            "make",
            first.part.make,
            "fewer pieces",
            f"make: {len(steps)} steps are more than the {MOST_STEPS} of a recipe; fewer pieces at a time would do.",
        )
    document = tomlkit.document()
    document.update(
        {
            "schema_version": SCHEMA_VERSION,
            "title": first.part.title[:80],
            "part": _line("; ".join(f"{plan.part.title}, {plan.part.make} off" for plan in plans)),
            "stock": _line(needs_together(plans)[0].what),
            "about": _about(plans),
            "unit": "mm",
            "make": pieces,
        }
    )
    if part_text:
        document["part_file"] = tomlkit.string(part_text, multiline=True)
    if sizes:
        document["sizes"] = sizes
    document.update({"set_ups": held, "steps": steps})
    return tomlkit.dumps(document)


def _about(plans: Sequence[Plan]) -> str:
    """What it is for, and how it was planned."""
    first = plans[0]
    minutes = short(sum(plan.minutes for plan in plans), 0)
    return _line(f"{first.part.about} Planned: {first.route.words}; about {minutes} minutes.")


def step_id(step: Step, number: int) -> str:
    """What a step of the plan of that number (from 0) is called in the recipe."""
    return f"{step.id[:36]}-p{number + 1}" if number else step.id


def dry_id(step: Step, number: int) -> str:
    """What the dry run before it is called."""
    return f"dry-{step_id(step, number)}"[:40]


def _line(text: str) -> str:
    """A line of a recipe; braces would name a figure there."""
    return (
        "".join(c if c.isprintable() else " " for c in text).replace("{", "(").replace("}", ")")[:_LONGEST_LINE].strip()
    )


Phase = tuple[int, str]  # a set-up, and what of it: the stub being made, before the centre is up, with it, after it


def _phase(plan: Plan, step: Step) -> Phase:
    """The part of its set-up that a step belongs to: how the work is held changes when a centre comes and goes."""
    if step.kind == "stub":
        return step.set_up, "stub"
    here = [one for one in plan.steps if (one.round, one.set_up) == (step.round, step.set_up)]
    kinds = [one.kind for one in here]
    if "support" not in kinds or not _is_long(plan, step.set_up):
        return step.set_up, ""
    place = next(i for i, one in enumerate(here) if one.id == step.id)
    if place < kinds.index("support"):
        return step.set_up, "before"
    gone = kinds.index("withdraw") if "withdraw" in kinds else len(kinds)
    return step.set_up, "up" if place < gone else "away"


def _is_long(plan: Plan, set_up: int) -> bool:
    """Whether it matters when the centre comes and goes: else the work stands by itself, and the knurl alone wants it."""
    return (plan.set_ups[set_up].stick_out or 0.0) > SLENDER * plan.part.bar.corners


def _holdings(plan: Plan) -> dict[Phase, dict[str, Any]]:
    """Every holding as the recipe's list has it. What has to be found out is asked at its end, the clock at its start."""
    phases = list(dict.fromkeys(_phase(plan, step) for step in plan.steps))
    found = {}
    for phase in phases:
        same = [one for one in phases if one[0] == phase[0] and one[1] != "stub"]
        found[phase] = (
            _held(plan, phase, first=phase == same[0], last=phase == same[-1]) if phase in same else _stub(plan, phase)
        )
    return found


def _since(plan: Plan, places: Mapping[Phase, int], holdings: Mapping[Phase, dict[str, Any]]) -> None:
    """Say in a holding from which one on its allowance counts, where that is not the first."""
    for phase, table in holdings.items():
        home = plan.set_ups[phase[0]].since
        if home and "within" in table:
            table["since"] = min(place for one, place in places.items() if one[0] == home and one[1] != "stub")


def _stub(plan: Plan, phase: Phase) -> dict[str, Any]:
    """The bar that a stub, a bush or an arbor is turned on, before the work is on it."""
    one = plan.set_ups[phase[0]]
    long = plan.bench.said(one.grip_length + _STUB_OUT)
    title = f"{one.machine.capitalize()}, {one.driven_by or 'three-jaw'}; a piece of bar for the {one.held_by}"
    return {"title": _line(title), "machine": "lathe", "held_by": "three-jaw", "stick_out": long, "support": "none"}


def _held(plan: Plan, phase: Phase, *, first: bool, last: bool) -> dict[str, Any]:
    """One holding as the recipe's list of set-ups has it."""
    from engine.part.plan_text import gripped, held

    one, said = plan.set_ups[phase[0]], plan.bench.said
    words = {"up": "; the centre is up", "away": "; the centre is away"}.get(phase[1], "")
    table: dict[str, Any] = {"title": _line(held(plan, one) + words)}
    if one.machine in _MACHINES:
        table["machine"] = one.machine
    if one.machine == "bench":
        return table
    if one.held_by in HELD_BY:
        table["held_by"] = one.held_by
    goes = any(step.set_up == phase[0] and step.kind == "withdraw" for step in plan.steps)
    table |= {"grips": _line(gripped(plan.part, one)), "grip": said(one.grip_length)}
    if one.held_by in _IN_JAWS and one.grip_diameter:
        table["across"] = said(one.grip_diameter)
    up = phase[1] == "up" or (phase[1] == "" and not goes)  # where it comes and goes, the steps it is there for say so
    table["support"] = one.support if up else "none"
    if one.machine == "lathe" and any(step.kind == "saw" for step in plan.steps):
        table["rear"] = "0"
    if one.between:
        table["between"] = _line(one.between)
    if one.stick_out is not None:
        pushed = next((s.out for s in plan.steps if s.out is not None and _phase(plan, s) == phase), None)
        table["stick_out"] = said(one.stick_out if pushed is None else pushed)
    if one.turned_round:
        table["turned_round"] = True
    if one.zero:
        table["zero"] = one.zero
    if first:
        table["run_out"] = said(one.run_out)
        if one.limit is not None:
            table["within"] = said(one.limit)
    if last and one.gate_words:
        table["gate"] = [_line(words) for words in one.gate_words[:6]]
    return table


@dataclass
class _Writer:
    """Writes the steps of one plan, and the sizes that go from one to the next."""

    plan: Plan
    number: int
    places: Mapping[Phase, int]
    sizes: dict[str, str]
    pieces: int = 0  # of the parts before this one
    left: dict[tuple[int, str], str] = field(default_factory=dict)  # (piece, feature) -> the size last made of it
    blanks: dict[tuple[int, str], str] = field(default_factory=dict)  # (piece, feature) -> the step of its blank
    several: bool = False  # whether other parts are made with it
    against: tuple[Why, ...] = ()  # the hard rules that its steps were moved over

    def written(self, step: Step, *, opens: bool) -> dict[str, Any]:
        """A step as the recipe has it; `opens`: the first one of its set-up."""
        return self.step(step, list(self.set_up_lines(step)) if opens else [])

    def set_up_lines(self, step: Step) -> Iterator[str]:
        from engine.part.plan_text import held

        if self.several:
            yield f"For the {self.plan.part.title}."
        if self.plan.rounds > 1:
            yield f"Piece {step.round} of {self.plan.rounds}."
        yield f"Set-up: {held(self.plan, self.plan.set_ups[step.set_up])}."

    def step(self, step: Step, lines: list[str]) -> dict[str, Any]:
        against = (f"Against a rule: {why.text}." for why in self.against if why.step == step.id)
        words = [*lines, *against, *step.do, *(f"Measure {line}." for line in step.measure)]
        words += [f"Do not let go before {gate}." for gate in self.plan.gates_after(step)]
        table: dict[str, Any] = {
            "id": step_id(step, self.number),
            "title": _line(step.title),
            "do": [_line(word) for word in words[:_MOST_LINES]],
            "set_up": self.places[_phase(self.plan, step)],
            "each": step.each,
        }
        if support := self.supported(step, self.plan.set_ups[step.set_up].support):
            table["support"] = support
        if self.several or self.plan.rounds > 1:
            table["piece"] = self.pieces + step.round
        if step.operation:
            table |= {"operation": step.operation, "inputs": self.inputs(step)}
        if large := self.large(step):
            table["large"] = large
        table |= self.counting(step)
        if step.hazards:
            table["hazards"] = list(step.hazards)
        if step.makes:
            table["makes"] = list(step.makes[:40])
        if step.why:
            table["why"] = [_line(f"{why.text} ({why.source})") for why in step.why[:20]]
        if measure := self.measure(step):
            table["measure"] = measure | self.mate(step)
        return table

    def large(self, step: Step) -> str:
        """The figure that stands large: of a ball whose hole was drilled, the depth that was drilled, no flat bottom's."""
        answer = _answer(self.plan, step) if step.operation == "ball-seat" else None
        return (
            "point_depth" if answer is not None and answer.has("point_depth") else _LARGE.get(step.operation or "", "")
        )

    def supported(self, step: Step, support: str) -> str:
        """What supports the work in a step of a holding that it comes to and goes from; "" where the holding says it."""
        if _phase(self.plan, step)[1] or support == "none":
            return ""
        here = [one for one in self.plan.steps if (one.round, one.set_up) == (step.round, step.set_up)]
        return support if any(one.kind == "withdraw" for one in here) and is_up(here, step) else ""

    def counting(self, step: Step) -> dict[str, Any]:
        """What is counted: the rows of the operation's table, every peck where it pecks, the turns of a tap, holes."""
        answer = _answer(self.plan, step)
        if answer is not None and step.count:
            if step.operation == "hole-plan":
                return keys_of(answer)
            if any(table.name == step.count for table in answer.tables):
                return {"count": step.count}
        if answer is not None and step.kind == "tap":
            return keys_of(answer)
        return {"counts": {"noun": _noun(step), "rows": step.counts}} if step.counts > 1 else {}

    def dry(self, step: Step, *, opens: bool) -> dict[str, Any] | None:
        """The dry run before a step that goes round: the same moves without a cut."""
        answer = _answer(self.plan, step) if step.count == "lines" else None
        if answer is None or not any(one.keys.get("count") == DRY for one in steps_of(answer)):
            return None
        lines = list(self.set_up_lines(step)) if opens else []
        table: dict[str, Any] = {"id": dry_id(step, self.number), "title": _line(f"Dry run: {step.title}")}
        table |= {
            "do": [*map(_line, lines), *DRY_WORDS],
            "set_up": self.places[_phase(self.plan, step)],
            "each": step.each,
        }
        return table | {"operation": step.operation, "inputs": self.inputs(step), "count": DRY, "planning": True}

    def inputs(self, step: Step) -> dict[str, Any]:
        """As planned, but what an earlier step of the same piece left goes in by its name."""
        given: dict[str, Any] = dict(step.inputs)
        piece = step.round
        if step.kind == "knurl" and (piece, step.about) in self.blanks:
            given["diameter"] = {"from": self.blanks[piece, step.about], "figure": "blank_diameter"}
        for key in _STARTS:
            size = self.left.get((piece, "part" if step.kind == "face2" else _feature(step.about)))
            if size and given.get(key) == self.sizes[size]:
                given[key] = {"size": size}
        return given

    def measure(self, step: Step) -> dict[str, Any]:
        """What is measured in a step, with its limits, and the size that the reading goes on as."""
        if step.kind == "blank" and step.operation == "knurl-blank":
            self.blanks[step.round, step.about] = step_id(step, self.number)
            small = self.one_fewer(step)
            return {"what": "Blank before knurling", "kind": "blank", "figure": "blank_diameter", **small}
        if step.kind == "knurl" and (step.round, step.about) in self.blanks:
            grown = {"figure": "finished_diameter", "from": self.blanks[step.round, step.about], "within": _KNURL}
            return {"what": "Over the crests of the knurl", "kind": "knurl", **grown}
        if step.operation == "screwcutting" and step.about in step.makes:
            return self.threaded(step)
        if step.kind == "rough":
            return self.roughed(step)
        if step.kind == "part_off" and "part" in step.makes:
            return self.parted(step)
        return self.finished(step)

    def one_fewer(self, step: Step) -> dict[str, Any]:
        """What a blank that came out too small is turned down to: the next that its wheel goes round evenly."""
        answer = _answer(self.plan, step)
        if answer is None:
            return {}
        blank, tooth = (float(answer.figure(name).value or 0) for name in ("blank_diameter", "per_tooth"))
        smaller = self.plan.bench.shown(blank - tooth)
        return {"over_cut": [f"Or turn it to {smaller}: one tooth fewer."]}

    def mate(self, step: Step) -> dict[str, Any]:
        """What the feature that a step finishes is made to fit: it is then what the last cuts aim at."""
        features = {one.name: one for one in self.plan.part.features()}
        mate = features[step.about].mate if step.about in step.makes and step.about in features else None
        if mate is None:
            return {}
        named = {"part": _line(mate.part), "feature": _line(mate.feature)} | (
            {"aim": _line(mate.aim)} if mate.aim else {}
        )
        return {"aim": "mate", "mate": named}

    def roughed(self, step: Step) -> dict[str, Any]:
        given = dict(step.inputs)
        if "to" not in given:
            return {}
        feature = self.plan.part.feature(step.about)
        if not isinstance(feature, Diameter):
            return {}
        least, size = self.plan.bench.said(feature.size.most), self.named(step, "roughed", given["to"])
        return {"what": "Roughed to", "kind": "diameter", "low": least, "size": size}

    def threaded(self, step: Step) -> dict[str, Any]:
        """A screw is measured over the owned wires, where wires can measure it."""
        from engine.base.operation import run

        given = {name: value for name, value in step.inputs if name in ("size", "tolerance")}
        try:
            answer = run("three-wires", given, self.plan.bench.shop).answer
        except BadInput:  # a nut, or a thread without flanks to lie on
            return {}
        if not (answer.has("over_wires_min") and answer.has("over_wires_max")):
            return {}
        low, high, wire = (
            self.plan.bench.said(float(answer.figure(name).value or 0))
            for name in ("over_wires_min", "over_wires_max", "wire")
        )
        return {"what": f"Over three wires of {wire} mm", "kind": "over wires", "low": low, "high": high}

    def parted(self, step: Step) -> dict[str, Any]:
        after = next((s for s in self.plan.steps if s.kind == "face2" and s.round == step.round), None)
        start = dict(after.inputs).get("from") if after else None
        if start is None:
            return {}
        size = self.named(step, "parted", start)
        length = self.plan.part.length
        least = length.most if length else self.plan.part.overall
        return {"what": "Length as parted", "kind": "length", "low": self.plan.bench.said(least), "size": size}

    def finished(self, step: Step) -> dict[str, Any]:
        given = dict(step.inputs)
        kind = _LIMITED.get(step.operation or "")
        if kind and "low" in given and "high" in given:
            what = "Length over all" if kind == "length" else self.size_of(step)
            return {"what": what, "kind": kind, "low": given["low"], "high": given["high"]}
        if kind and "to" in given and (kind == "length" or step.about in step.makes):
            return self.without_limits(step, kind, float(parse_length(given["to"], "mm") or 0))
        if step.kind != "ream" or step.about not in step.makes:
            return {}
        hole = self.plan.part.feature(step.about)
        if not isinstance(hole, Hole) or hole.size.low is None:
            return {}
        low, high = (self.plan.bench.said(one) for one in (hole.size.least, hole.size.most))
        return {"what": self.size_of(step), "kind": "bore", "low": low, "high": high}

    def without_limits(self, step: Step, kind: str, size: float) -> dict[str, Any]:
        """A finished size that the drawing gives no limits: by the general tolerance, medium where none is named."""
        grade = self.plan.part.general or _GENERAL
        off = general_deviation(size, grade)
        if off is None:
            return {}
        low, high = self.plan.bench.said(size - off), self.plan.bench.said(size + off)
        return {"what": f"{kind.capitalize()}, ISO 2768-{grade}", "kind": kind, "low": low, "high": high}

    def size_of(self, step: Step) -> str:
        """What is measured, as it is spoken of: not what was done to it."""
        said = self.plan.bench.spoken(step.about)
        return _line(f"Outside of {said}" if step.kind == "major" else said[:1].upper() + said[1:])

    def named(self, step: Step, what: str, text: str) -> str:
        """Give what a step leaves a name; the later steps on the same feature of the same piece start from it."""
        about = "part" if what == "parted" else _feature(step.about)
        name = "-".join(filter(None, (what, about.replace(".", "-") if what != "parted" else "")))
        name += f"-{step.round}" if self.plan.rounds > 1 else ""
        name += f"-p{self.number + 1}" if self.number else ""
        self.sizes[name] = text
        self.left[step.round, about] = name
        return name


def _feature(about: str) -> str:
    """The feature of a list that a name belongs to: `outside.1` of `outside.1.chamfer`."""
    return ".".join(about.split(".")[:2])


def _answer(plan: Plan, step: Step) -> Answer | None:
    """What the step's operation answers in this shop; None where it does not."""
    from engine.base.operation import run

    if step.operation is None:
        return None
    try:
        return run(step.operation, dict(step.inputs), plan.bench.shop).answer
    except BadInput:
        return None
