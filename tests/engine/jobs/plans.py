"""Small recipes for the tests of jobs."""

from pathlib import Path

from engine.jobs.recipe import read
from engine.jobs.run import Worked, resolve
from engine.shop.file import sample

HEAD = 'schema_version = 3\ntitle = "Fence stop"\npart = "Stop"\nstock = "Brass"\nabout = ""\nunit = "mm"\n'


def by_hand(steps: int) -> str:
    """A recipe of so many steps done by hand."""
    return HEAD + "".join(f'[[steps]]\nid = "s{i}"\ntitle = "Step {i}"\n' for i in range(1, steps + 1))


def worked(text: str, shop: str = "metric") -> Worked:
    """A recipe's text worked out on a sample bench."""
    return resolve(read(text, Path("stop.toml")), sample(shop))
