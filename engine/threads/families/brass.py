"""Brass threads, 26 to the inch at every size: 1/4 BSB, 1/4 brass."""

from engine.threads.families.whitworth import borrowing

FAMILY = borrowing(
    "brass", "brass", 60, "the brass series", "Whitworth form, 26 threads per inch",
    mark=r"b\.?s\.?b(?:rass)?\.? | brass", table="brass", series="BSB", why="Brass threads have no standard limits",
)  # fmt: skip
