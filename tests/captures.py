"""Every screen as text, to be read by eye: `python -m tests.captures` writes tests/data/captures/now anew.

A file a pane or kind of screen and a size; tests/data/captures/before holds the same screens as they were before the
card, the large type and the words of the trade (commit 9b9c6c3), for comparing. The README shows two of today's.
`console-80x24.ans` is a picture of a few screens in the eight colours of a Linux console: `cat` shows it.
"""

from __future__ import annotations

import asyncio
import os
import re
import sys
import tempfile
from collections.abc import Awaitable, Callable
from pathlib import Path

from engine.base.register import CATALOG, PANES
from engine.jobs.places import Place
from tests import readme
from tests.tui.driving import Driver, driving
from tui import keys

FOLDER = Path(__file__).parent / "data" / "captures"
SIZES = ((80, 24), (120, 40))
JOB = "height-adjuster-nut"
_STEPS = 24  # of a job: the first piece of a plan, every kind of step
RULE = "=" * 20

Shots = list[tuple[str, str]]  # what a screen is, and what stands on it


async def _bench(size: tuple[int, int], pane: str) -> Shots:
    """Each operation of a pane with its example: the answer, and in large type."""
    shots: Shots = []
    async with driving(size) as d:
        d.app.session.first_page_read = True
        for entry in CATALOG:
            if entry.pane == pane:
                await d.open(entry.id)
                shots.append((entry.id, d.text))
                await d.press("escape", "l")
                shots.append((f"{entry.id}, large", d.text))
                await d.press("escape")
    return shots


async def _views(size: tuple[int, int]) -> Shots:
    """The views of one operation, the line that goes anywhere, the set-up, the part in hand, and what adds a step."""
    shots: Shots = []
    async with driving(size) as d:
        shots.append(("first page", d.text))
        await d.open("screwcutting")
        await d.press("space")
        for name, key in (("working", "ctrl+w"), ("table", "ctrl+r"), ("picture", "ctrl+p"), ("trouble", "ctrl+t"),
                          ("cautions", "ctrl+k"), ("large", "ctrl+l")):  # fmt: skip
            await d.press(key)
            shots.append((name, d.text))
            await d.press("escape", "escape")
            await d.open("screwcutting")
        for name, key in (("set-up", "ctrl+a"), ("in hand", "ctrl+b"), ("add a step", "ctrl+s")):
            await d.press(key)
            shots.append((name, d.text))
            await d.press("escape")
        await d.press("ctrl+g")
        await d.type("tap m10")
        shots.append(("go to", d.text))
    return shots


async def _settled(d: Driver) -> None:
    for _ in range(400):
        await d.settled()
        busy = getattr(d.app.screen, "reading", None) or getattr(d.app.screen, "in_hand", None)
        if not isinstance(busy, asyncio.Task):
            return
        await asyncio.sleep(0.02)


async def _stand(d: Driver, place: Place) -> None:
    """Go to a place of the job that is open."""
    d.app.screen.job.go(place)
    d.app.screen.redraw()
    await _settled(d)


async def _jobs(size: tuple[int, int]) -> Shots:
    """The list, every step of one recipe with its rows begun, the readings, the views, the end."""
    shots: Shots = []
    async with driving(size) as d:
        await d.press("f8")
        await _settled(d)
        shots.append(("jobs", d.text))
        screen = d.app.screen
        screen.at = next(i for i, one in enumerate(screen.choices) if getattr(one, "name", "") == JOB)
        await d.press("enter")
        await _settled(d)
        shots.append(("before the first step", d.text))
        await d.press("space")
        await _settled(d)
        job = d.app.screen.job
        for step in job.worked.steps[:_STEPS]:
            for row in (1, 2) if step.rows and step.rows > 1 else (1,):
                await _stand(d, Place(step.number, row if step.rows else 0))
                shots.append((f"step {step.number}" + (f" line {row}" if step.rows else ""), d.text))
        await _stand(d, Place(2, 0))
        for name, key in (
            ("plan", "o"),
            ("what to do", "v"),
            ("large", "l"),
            ("history", "k"),
            ("help", "question_mark"),
        ):
            await d.press(key)
            await _settled(d)
            shots.append((name, d.text))
            if d.app.screen.view:
                await d.press("escape")
        step = next(s for s in job.worked.steps if s.limits is not None and not s.rows)
        await _stand(d, Place(step.number, 0))
        high = step.limits.high or step.limits.low
        for name, reading in (("too big", high + 0.3), ("in limits", high - 0.005)):
            await d.press("m")
            shots.append((f"to be measured, {name}", d.text))
            await d.type(f"{reading:.3f}")
            await d.press("enter")
            await _settled(d)
            shots.append((f"measured, {name}", d.text))
    return shots


async def _shop(size: tuple[int, int]) -> Shots:
    """The choice of a bench, the groups, a question, one in error."""
    shots: Shots = []
    async with driving(size) as d:
        await d.press("f12")
        shots.append(("first choice", d.text))
        await d.press("3")
        shots.append(("one's own", d.text))
        await d.press("enter", "down", "enter")
        shots.append(("a question", d.text))
    return shots


async def _own(size: tuple[int, int]) -> Shots:
    """A part that ships, its lines and drawing, and its plan."""
    shots: Shots = []
    async with driving(size) as d:
        await d.press("f8")
        await _settled(d)
        screen = d.app.screen
        screen.at = next(i for i, one in enumerate(screen.choices) if getattr(one, "name", "") == JOB)
        await d.press("e")
        await _settled(d)
        shots.append(("part", d.text))
        await d.press("ctrl+p")
        await _settled(d)
        shots.append(("its drawing", d.text))
        await d.press("escape", "ctrl+o")
        await _settled(d)
        shots.append(("its plan", d.text))
    return shots


def _coloured(d: Driver) -> str:
    """What is painted, with the codes of eight colours and of bold, which a console shows as bright."""
    rows = []
    for strip in d.app.screen._compositor.render_strips():
        row = ""
        for text, style, _ in strip:
            front, back = (style.color, style.bgcolor) if style else (None, None)
            codes = ["0", *(["1"] if style and style.bold else []), *(["7"] if style and style.reverse else [])]
            codes += [f"3{front.number}"] if front and front.number is not None and front.number < 8 else []
            codes += [f"4{back.number}"] if back and back.number is not None and back.number < 8 else []
            row += f"\x1b[{';'.join(codes)}m{text}"
        rows.append(f"{row}\x1b[0m")
    return "\n".join(rows)


async def _console(size: tuple[int, int]) -> Shots:
    """A few screens in the eight colours of a console."""
    shots: Shots = []
    async with driving(size) as d:
        await d.open("part-off")
        shots.append(("the first page", _coloured(d)))
        await d.press("space")
        await d.open("three-wires")
        shots.append(("a reading against its limits", _coloured(d)))
        await d.open("part-off")
        shots.append(("cautions beside an answer", _coloured(d)))
        await d.press("escape", "l")
        shots.append(("large type", _coloured(d)))
        await d.press("f12", "3")
        shots.append(("the shop", _coloured(d)))
    return shots


KINDS: dict[str, Callable[[tuple[int, int]], Awaitable[Shots]]] = {
    **{pane.id: lambda size, pane=pane.id: _bench(size, pane) for pane in PANES},
    "views": _views,
    "jobs": _jobs,
    "shop": _shop,
    "parts": _own,
    "console": _console,
}


def _folders(where: str) -> None:
    """Nobody's own shop, jobs or recipes are looked at or changed."""
    for name in ("CONFIG", "DATA", "CACHE"):
        os.environ[f"XDG_{name}_HOME"] = str(Path(where) / name.lower())


def _timeless(shown: str, home: str) -> str:
    """A screen without what differs from one day to the next."""
    return re.sub(r"\d\d [A-Z][a-z]{2} \d{4} \d\d:\d\d", "day and time     ", shown.replace(home, "~"))


def taken(kind: str, size: tuple[int, int], home: str) -> str:
    """The captures of a kind at a size as one text; `home` is where files are kept meanwhile."""
    keys._ARRIVED.clear()  # as in a terminal of a desktop, of which no key has been pressed yet
    shots = asyncio.run(KINDS[kind](size))
    return "\n".join(f"{RULE} {name}\n{_timeless(shown, home)}" for name, shown in shots) + "\n"


def file_of(kind: str, size: tuple[int, int]) -> Path:
    """Where they are kept."""
    return FOLDER / "now" / f"{kind}-{size[0]}x{size[1]}.{'ans' if kind == 'console' else 'txt'}"


def main(wanted: list[str]) -> None:
    """Write the captures of the kinds that are named, or of all."""
    (FOLDER / "now").mkdir(parents=True, exist_ok=True)
    for kind in KINDS:
        for size in SIZES:
            if (wanted and kind not in wanted) or (kind == "console" and size != SIZES[0]):
                continue
            with tempfile.TemporaryDirectory() as home:
                _folders(home)
                file_of(kind, size).write_text(taken(kind, size, home), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
    readme.README.write_text(readme.with_screens(readme.README.read_text(encoding="utf-8")), encoding="utf-8")
