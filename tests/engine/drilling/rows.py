"""The check tables of tests/data/drilling."""

import csv
from pathlib import Path

DATA = Path(__file__).parents[2] / "data" / "drilling"


def published(name):
    """Every row of a table; its first lines name the source."""
    lines = [line for line in (DATA / name).read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))
