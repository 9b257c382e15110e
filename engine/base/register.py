"""The one ordered list of operations. Listing them loads nothing; the module that declares an operation loads when
the operation is asked for.

`python -m engine.base.register` makes the list (engine/base/registered.py) anew from the declarations; a test holds it
to them.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from engine.base.entry import Entry, Pane
from engine.base.refusals import BadInput
from engine.base.registered import CATALOG

__all__ = ["CATALOG", "PANES", "Entry", "Pane", "declared", "entry", "listing", "load"]

if TYPE_CHECKING:
    from engine.base.operation import Operation

PANES = (
    Pane("threads", "f2", "Threads"),
    Pane("drilling", "f3", "Drilling"),
    Pane("indexing", "f4", "Indexing"),
    Pane("knurling", "f5", "Knurling"),
    Pane("turning", "f6", "Turning"),
    Pane("joining", "f7", "Slots and joining"),
)


def entry(operation_id: str) -> Entry:
    """How an operation is listed; BadInput, with the nearest name, if there is none of that one.

    >>> entry("tap-drill").title
    'Tapping drill'
    """
    for known in CATALOG:
        if known.id == operation_id:
            return known
    from difflib import get_close_matches

    near = get_close_matches(operation_id, [e.id for e in CATALOG], n=1)
    hint = f" Did you mean {near[0]}?" if near else " `tommybar work` lists them."
    shown = ascii(operation_id[:40])
    raise BadInput("operation", operation_id, "an operation", f"operation: there is no {shown}.{hint}")


def load(operation_id: str) -> Operation:
    """The declaration of an operation; its module loads if it was not loaded yet. BadInput if there is none.

    >>> load("hand-dial").id
    'hand-dial'
    """
    module = import_module(entry(operation_id).module)
    operation: Operation = module.OPERATION
    return operation


def declared() -> tuple[Entry, ...]:
    """Every operation as its own file declares it, in the order of the panes: loads them all."""
    from pathlib import Path

    engine = Path(__file__).parents[1]
    found = []
    for file in sorted(engine.glob("*/*.py")):
        if "\nOPERATION = Operation(" in file.read_text(encoding="utf-8"):
            module = ".".join(("engine", file.parent.name, file.stem))
            one: Operation = import_module(module).OPERATION
            listed = takes(one.inputs), " ".join(one.troubles), " ".join(one.hazards)
            found.append(Entry(one.id, one.pane, one.place, module, one.title, one.words, *listed))
    order = [pane.id for pane in PANES]
    return tuple(sorted(found, key=lambda e: (order.index(e.pane), e.place)))


def takes(inputs: type) -> str:
    """The kinds of value that an operation has a field for, for the line that finds it.

    >>> from engine.joining.fit import FitInputs
    >>> takes(FitInputs)
    'fit number'
    """
    from engine.base.declare import asks

    questions = asks(inputs)
    kinds = {ask.kind for ask in questions.values()}
    found = kinds & {"thread", "material"}
    if kinds & {"length", "diameter", "number", "count", "travel", "angle", "quantity"}:
        found.add("number")
    if any(name in ("fit", "tolerance") for name in questions):
        found.add("fit")
    if any(ask.kind == "thread" and ask.required for ask in questions.values()):
        found.add("needs-thread")
    return " ".join(sorted(found))


def listing() -> str:
    """The text of engine/base/registered.py."""
    from dataclasses import astuple

    head = "Every operation as it is listed. Generated: `python -m engine.base.register` writes it anew."
    rows = []
    for known in declared():
        words = ", ".join(f'"{v}"' if isinstance(v, str) else str(v) for v in astuple(known))
        rows.append(f"    Entry({words}),\n")
    opening = "from engine.base.entry import Entry\n\n# fmt: off\nCATALOG = (\n"
    return f'"""{head}"""\n\n{opening}{"".join(rows)})\n'


if __name__ == "__main__":
    from pathlib import Path

    Path(__file__).with_name("registered.py").write_text(listing(), encoding="utf-8")
