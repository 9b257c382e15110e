"""Model engineer threads: 1/4-40 ME, ME 1/4x32."""

from engine.threads.families.whitworth import borrowing

FAMILY = borrowing(
    "me", "model engineer", 50, "the model engineer series", "Whitworth form, model engineer series",
    mark=r"m\.?e\.? | model\s?engineer", table="me", series="ME",
    why="Model engineer threads have no standard limits",
)  # fmt: skip
