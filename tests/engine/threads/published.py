"""Reading the check tables of this folder: the first comment lines name the source, then comes the CSV."""

import csv
from itertools import dropwhile
from pathlib import Path

DATA = Path(__file__).parents[2] / "data" / "threads"


def published(name):
    """Every row of a check table; a size such as #10-32 in a row is no comment."""
    lines = dropwhile(lambda line: line.startswith("# "), (DATA / f"{name}.csv").read_text().splitlines())
    return list(csv.DictReader(lines))
