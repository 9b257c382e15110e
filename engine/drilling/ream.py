"""Reaming: the drill before a reamer, its speed, and the limits of the finished hole."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure, info, warning, words
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import Sum, leaf, mm, num
from engine.base.words import plain, put, say, shown
from engine.cutting.feeds import FeedRange, feed
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import SpeedRange, SpindleSpeed, surface_speed
from engine.cutting.speeds import Tool as Cutter
from engine.drilling.bench import MACHINES, Machine, at_work, machine_of, speed_figure, speed_notes, speed_on
from engine.drilling.hole_pictures import reamed_picture
from engine.drilling.ream_depth import depth_figures
from engine.drilling.reaming import KINDS, Kind, PreDrill, flutes_of, pre_drill
from engine.drilling.sizes import label, owned
from engine.joining.iso286 import Deviations, limits_of
from engine.shop.model import Shop
from engine.situation import Situation


@dataclass(frozen=True, slots=True, kw_only=True)
class ReamInputs:
    """What `ream` is told.

    diameter: Nominal size of the reamer.
    tolerance: A hole's code of ISO 286, such as H7, H8 or G7.
    material: Decides the speed; light metals want more left for the reamer.
    kind: Machine: high-speed steel. Carbide: tipped. Hand: turned with a wrench, takes least.
    leave: What the drill is to leave for the reamer, in place of what the tables say.
    machine: Whose speeds are used.
    depth: How deep it is to have its full size; through: how thick the work is.
    hole: Through: the reamer goes on until its lead is out at the far side.
    """

    diameter: float = ask.diameter("Finished diameter", low=0.2, high=200, example="8")
    tolerance: str = ask.text("Tolerance class", default="H7", example="H7")
    material: Material = ask.material("Material", from_shop=of_shop, empty="the shop's first", example="mild steel")
    kind: str = ask.choice("Reamer", KINDS, default="machine", example="machine")
    leave: float | None = ask.length("Leave on diameter", empty="by the tables", example="0.2", high=5)
    machine: str | None = ask.choice("On the", MACHINES, empty="lathe, else mill", example="lathe")
    depth: float | None = ask.length("Depth", low=0.1, high=500, empty="not given", example="20")
    hole: str = ask.choice("Kind of hole", ("through", "blind"), default="through", example="through")


def _work(inputs: ReamInputs, shop: Shop) -> Answer:
    kind: Kind = "carbide" if inputs.kind == "carbide" else "hand" if inputs.kind == "hand" else "machine"
    deviations = limits_of(inputs.tolerance, inputs.diameter)
    if not deviations.is_hole:
        raise BadInput("tolerance", inputs.tolerance, "a hole's code, with a capital letter (such as H7)")
    if inputs.leave is not None and not 0 < inputs.leave < inputs.diameter / 2:
        accepted = say("more than nothing and less than half of {d}", d=plain(inputs.diameter))
        raise BadInput("leave", plain(inputs.leave), accepted)
    drill = pre_drill(
        diameter=inputs.diameter, material=inputs.material, kind=kind, drills=shop.drills, leave=inputs.leave
    )
    cut = None if kind == "hand" else _cut(inputs, machine_of(shop, inputs.machine), kind)
    figures = (
        *_drill_figures(inputs, drill),
        *(_cut_figures(inputs, cut) if cut else ()),
        *_depths(inputs, shop, drill, kind),
        *_limits(inputs, deviations),
    )
    drawn = reamed_picture(diameter=inputs.diameter, drill=drill.tool.diameter, low=inputs.diameter + deviations.lower,
        high=inputs.diameter + deviations.upper)  # fmt: skip
    notes = tuple(_notes(inputs, shop, drill, cut))
    return Answer(figures, pictures=(drawn,), notes=notes, moments=(_now(inputs, cut),))


@dataclass(frozen=True, slots=True)
class _Cut:
    """A reamer turned by a machine: its published speed and the machine's, its feed a flute [mm] and flutes."""

    machine: Machine
    published: SpeedRange
    speed: SpindleSpeed
    rate: FeedRange
    flutes: int

    @property
    def feed(self) -> Sum:
        """Feed a turn. [mm]"""
        return leaf(self.rate.chosen, "feed") * num(self.flutes, "{} flutes")


def _cut(inputs: ReamInputs, machine: Machine, kind: Kind) -> _Cut:
    tool: Cutter = "carbide" if kind == "carbide" else "hss"
    published = surface_speed(material=inputs.material, operation="reaming", tool=tool)
    speed = speed_on(machine, diameter=inputs.diameter, surface_speed=published.chosen)
    rate = feed(kind="reaming", diameter=inputs.diameter)
    return _Cut(machine, published, speed, rate, flutes_of(inputs.diameter))


def _now(inputs: ReamInputs, cut: _Cut | None) -> Situation:
    """The reamer at work: at the bench when it is turned by hand."""
    if cut is None:
        return Situation(machine="bench", material=inputs.material.name, tool_diameter=inputs.diameter, spindle_speed=0)
    return at_work(cut.machine, inputs.material, inputs.diameter, cut.speed, feed=float(cut.feed))


def _drill_figures(inputs: ReamInputs, drill: PreDrill) -> list[Figure]:
    kept, name = drill.allowance, label(drill.tool)
    whose = "owned" if drill.owned else "none owned will do"
    share = "what was asked, the tables say" if inputs.leave is not None else "the light part of"
    parts = {"size": put(inputs.diameter), "low": put(kept.low), "high": put(kept.high)}
    near = say("{whose}; nearest to {size} less {share} {low} to {high}", whose=whose, share=share, **parts)
    listed = "the shop's drills" if drill.owned else "drill series: ASME B94.11M; metric as BS 328"
    left = Figure("allowance", "Left on diameter", drill.left, "length", kept.source,
        mm(inputs.diameter) - mm(drill.tool.diameter), low=kept.low, high=kept.high)  # fmt: skip
    return [
        words("drill", "Drill first", name + ("" if drill.owned else " (not owned)"), kept.source, near),
        Figure("pre_drill", "Its diameter", drill.tool.diameter, "length", listed, f"the {name} drill"),
        left,
    ]


def _cut_figures(inputs: ReamInputs, cut: _Cut) -> list[Figure]:
    working = say("{sum} (their count: common practice)", sum=cut.feed)
    return [
        speed_figure(cut.machine, cut.published, cut.speed, diameter=inputs.diameter),
        figure("feed", "Feed", cut.feed, cut.rate.source, working),
    ]


def _depths(inputs: ReamInputs, shop: Shop, drill: PreDrill, kind: Kind) -> tuple[Figure, ...]:
    if inputs.depth is None:
        return ()
    return depth_figures(depth=inputs.depth, through=inputs.hole == "through", diameter=inputs.diameter,
        drill=drill.tool.diameter, kind=kind, machine=machine_of(shop, inputs.machine))  # fmt: skip


def _limits(inputs: ReamInputs, deviations: Deviations) -> list[Figure]:
    code, source = "".join(inputs.tolerance.split()), deviations.source
    return [
        figure("limit_low", f"{code}, smallest", _off(inputs.diameter, deviations.lower), source, side="up"),
        figure("limit_high", f"{code}, largest", _off(inputs.diameter, deviations.upper), source, side="down"),
    ]


def _off(diameter: float, deviation: float) -> Sum:
    return mm(diameter) - mm(-deviation) if deviation < 0 else mm(diameter) + mm(deviation)


def _notes(inputs: ReamInputs, shop: Shop, drill: PreDrill, cut: _Cut | None) -> list[Note]:
    notes = []
    if inputs.depth is not None:
        notes.append(info("Zero the dial where the drill's tip, then the reamer's front, touches the face."))
    if owned(inputs.diameter, shop.reamers) is None:
        notes.append(warning("The shop has no reamer of this size."))
    if not drill.owned:
        notes.append(warning(f"The shop has no {label(drill.tool)} drill, nor one that leaves the allowance."))
    kept = drill.allowance
    if not kept.low * (1 - 1e-9) <= drill.left <= kept.high * (1 + 1e-9):
        text = "{left} is left; the tables leave {low} to {high}: with less it rubs, with more it loads and cuts large."
        notes.append(warning(text, left=shown(drill.left), low=shown(kept.low), high=shown(kept.high)))
    if cut is None:
        return [*notes, info("By hand: turn it one way only, in and out, with oil; never back.")]
    notes += speed_notes(cut.machine, cut.speed, "reamer")
    return [*notes, info("Let the reamer float, feed it steadily and withdraw it turning the same way.")]


OPERATION = Operation(
    id="ream",
    pane="drilling",
    place=70,
    title="Ream a hole",
    words="reamer allowance H7 finish pre-drill undersize before reaming hand reamer machine reamer dowel bush close "
    "fit hole size",
    machine="lathe",
    inputs=ReamInputs,
    work=_work,
    tool="reamer",
    hazards=("reaming", "drilling"),
    example={"diameter": "8", "tolerance": "H7"},
    troubles={"DR-02": None, "DR-04": tells("the drilled hole leaves {allowance}")},
    help="Chooses the drill before a reamer, its speed and feed, how deep each goes, and the limits of the hole.",
)
