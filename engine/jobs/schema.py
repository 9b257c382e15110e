"""What a recipe file may say. Strict: a recipe leads to a cutter, so nothing is guessed and nothing is evaluated.

This module loads Pydantic; engine.jobs.recipe imports it when a recipe is opened, never before.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, PlainValidator, StringConstraints

from engine.jobs.measuring import Kind
from engine.jobs.slides import SlideName
from engine.jobs.wording import From, Size
from engine.set_up import HELD_BY, SUPPORTS

SCHEMA_VERSION = 3
MOST_STEPS = 200
MOST_ROWS = 1000


def _printable(text: str) -> str:
    if not text.isprintable():
        raise ValueError("only printable characters can be used, on one line.")
    return text


Line = Annotated[
    str, StringConstraints(strict=True, min_length=1, max_length=300, strip_whitespace=True), AfterValidator(_printable)
]
Name = Annotated[str, StringConstraints(strict=True, pattern=r"^[a-z][a-z0-9_-]{0,39}$")]


def _scalar(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        value = repr(value)
    if not isinstance(value, str) or len(value) > 200:
        raise ValueError("this must be text as it would be typed, of at most 200 characters, or a number.")
    return _printable(value)


def _reference(value: Mapping[str, object], *, own_step: bool) -> From:
    keys = {"from", "figure"}
    needed = {"figure"} if own_step else keys
    texts = all(isinstance(v, str) and v.isprintable() and len(v) <= 40 for v in value.values())
    if not (needed <= set(value) <= keys and texts):
        raise ValueError('a figure of an earlier step is taken as { from = "the step\'s id", figure = "its name" }.')
    return From(str(value.get("from", "")), str(value["figure"]))


def _given(value: object) -> str | From | Size:
    """An input of a step: text as typed, a size by its name, or a figure of an earlier step. A list is written as typed."""
    if isinstance(value, Mapping):
        if set(value) == {"size"} and isinstance(value["size"], str) and len(value["size"]) <= 40:
            return Size(value["size"])
        return _reference(value, own_step=False)
    if isinstance(value, list):
        return _scalar(", ".join(_scalar(one) for one in value[:200]))
    return _scalar(value)


def _limit(value: object) -> str | From | Size:
    if isinstance(value, Mapping):
        return _given(value) if "size" in value else _reference(value, own_step=True)
    return _scalar(value)


def _rows(value: object) -> int | From:
    if isinstance(value, Mapping):
        return _reference(value, own_step=True)
    if not isinstance(value, int) or isinstance(value, bool) or not 1 <= value <= MOST_ROWS:
        raise ValueError(f"this must be a whole number from 1 to {MOST_ROWS}, or a figure of a step.")
    return value


def _paragraph(text: str) -> str:
    """Words over several lines become one paragraph; control characters are refused."""
    return _printable(" ".join(text.split()))


Paragraph = Annotated[str, StringConstraints(strict=True, max_length=2000), AfterValidator(_paragraph)]


Scalar = Annotated[str, PlainValidator(_scalar)]


class _Strict(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Mate(_Strict):
    """What a measure is made to fit: a feature of another part, by its file's name, and how the two are to go together."""

    part: Line
    feature: Line
    aim: Line | None = None


class Measure(_Strict):
    """Something to measure in a step, with the limits it is judged by.

    Either `figure` names a figure of this step (or of the step `from`) that has limits, or is held `within` a length
    either way; or `low` and `high` are given, each a length, a size of the recipe or a figure. `slide` is the
    handwheel that takes off the rest, where it is not the kind's usual one; `none` where no handwheel does, as of what
    is filed. `size` names the size of the recipe whose reading it gives: steps that take that size then take the
    reading. `aim` is where in the limits the last cuts are to end, or `mate`: where it fits what `mate` names.
    """

    what: Line
    kind: Kind = "diameter"
    figure: Name | None = None
    from_step: Name | None = Field(default=None, alias="from")
    within: Annotated[str | From | Size, PlainValidator(_limit)] | None = None
    low: Annotated[str | From | Size, PlainValidator(_limit)] | None = None
    high: Annotated[str | From | Size, PlainValidator(_limit)] | None = None
    slide: Literal[SlideName, "none"] | None = None
    size: Name | None = None
    aim: Literal["largest", "middle", "smallest", "mate"] = "middle"
    mate: Mate | None = None
    over_cut: tuple[Line, ...] = Field(default=(), max_length=6)


class SetUpKeys(_Strict):
    """One holding of the work: how it is held, as engine.set_up asks for it, and what it has to keep.

    `grips` and `between` say what is gripped and what lies between, `across` its diameter, `zero` the face the dial is
    zeroed on, `run_out` what the clock is planned to show, `within` what may lie between this holding and the first in
    all, `since` the place in the list of the holding that it counts from instead, `gate` what has to be so before the
    work is let go.
    """

    title: Line | None = None
    machine: Literal["lathe", "mill", "bench"] | None = None
    held_by: Literal[HELD_BY] | None = None  # type: ignore[valid-type]
    grips: Line | None = None
    grip: Scalar | None = None
    across: Scalar | None = None
    between: Line | None = None
    stick_out: Scalar | None = None
    support: Literal[SUPPORTS] | None = None  # type: ignore[valid-type]
    rear: Scalar | None = None
    power: Literal["on", "unplugged"] | None = None
    tap_driven_by: Literal["hand", "spindle"] | None = None
    turned_round: bool = False
    zero: Line | None = None
    run_out: Scalar | None = None
    within: Scalar | None = None
    since: Annotated[int, Field(ge=0, le=100)] | None = None
    gate: tuple[Line, ...] = Field(default=(), max_length=6)


class Counts(_Strict):
    """Work that is counted by hand: what is counted, and how many, as a number or a figure that says it."""

    noun: Line
    rows: Annotated[int | From, PlainValidator(_rows)]


class Step(_Strict):
    """One step: an operation with its inputs, or work by hand; what to do, what to count, what to measure.

    `each` says how often it is done, `piece` for which piece (0: for none of its own, or for all); `counts` is work by hand
    that is counted; `makes` what of a part it finishes and `why` the reasons that put it here.

    A line of `do` may name a figure of this step, `{rpm}`, or of an earlier one, `{blank.blank_diameter}`. `large`
    names the figure of this step that is shown in large characters, or is `limits`: those of its measure. `set_up` says
    how the work is held from this step on: the place of a holding in the recipe's list, from 0, or a table of what
    engine.set_up asks for; without it, as before. `support` is what supports the work in this step alone, as a centre that
    is up for the knurl and goes before the drill. `planning`: nothing is cut in this step, so nothing stops it.
    """

    id: Name
    title: Line
    do: tuple[Line, ...] = Field(default=(), max_length=20)
    operation: Name | None = None
    inputs: dict[str, Annotated[str | From | Size, PlainValidator(_given)]] = Field(default={}, max_length=40)
    count: Name | None = None
    large: Name | None = None
    hazards: tuple[Line, ...] = Field(default=(), max_length=10)
    planning: bool = Field(default=False, strict=True)
    set_up: Annotated[int, Field(ge=0, le=100)] | dict[str, Scalar] | None = None
    support: Literal[SUPPORTS] | None = None  # type: ignore[valid-type]
    each: Literal["part", "bar", "lot"] = "part"
    piece: Annotated[int, Field(ge=0, le=1000)] = 0
    counts: Counts | None = None
    makes: tuple[Line, ...] = Field(default=(), max_length=40)
    why: tuple[Line, ...] = Field(default=(), max_length=20)
    measure: Measure | None = None


class Recipe(_Strict):
    """A job plan: what the part is, what it is made from, and its steps in order.

    `batch` says how `make` pieces are made of the steps of one: in `rounds`, each piece through all of them, or `steps`, each
    step for every piece. Without it the steps are those of all pieces already. `part_file` is the text of the part file that
    it was planned from: the steps are drawn from it. `stock` may name sizes as a line of `do` does.
    """

    schema_version: Literal[3]
    title: Annotated[Line, StringConstraints(max_length=80)]
    part: Line
    stock: Line
    about: Paragraph = ""
    unit: Literal["mm", "inch"]
    make: int = Field(default=1, ge=1, le=1000)
    batch: Literal["rounds", "steps"] | None = None
    part_file: Annotated[str, StringConstraints(strict=True, max_length=65536)] = ""
    sizes: dict[Name, Scalar] = Field(default={}, max_length=60)
    set_ups: tuple[SetUpKeys, ...] = Field(default=(), max_length=40)
    steps: tuple[Step, ...] = Field(max_length=MOST_STEPS)


def keys() -> dict[str, tuple[str, ...]]:
    """Return every key that a recipe, a step and a measurement may hold.

    >>> keys()["step"][:3]
    ('id', 'title', 'do')
    """
    models: dict[str, type[BaseModel]] = {"recipe": Recipe, "set_up": SetUpKeys, "step": Step, "counts": Counts}
    models |= {"measure": Measure, "mate": Mate}
    return {name: tuple(one.alias or key for key, one in kind.model_fields.items()) for name, kind in models.items()}


def example() -> dict[str, Any]:
    """Return the least recipe there can be, to begin one's own from.

    >>> Recipe.model_validate(example()).unit
    'mm'
    """
    head = {"schema_version": SCHEMA_VERSION, "title": "New part", "part": "What it is"}
    steps = [{"id": "begin", "title": "Read the drawing"}]
    return {**head, "stock": "What it is made from", "about": "", "unit": "mm", "steps": steps}
