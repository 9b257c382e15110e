"""Adding errors up: worked examples of the guide on uncertainty, and published growth and instrument rows."""

import pytest

from engine.accuracy.budget import EVEN, Share, budget_figures, budget_table, expanded, micrometer, warmth, worst
from tests.spoken import spoken


def test_the_guides_end_gauge():
    """JCGM 100:2008, H.1: components 25, 9.7, 2.9 and 16.6 nm combine to 32 nm (from memory)."""
    shares = [Share("", nm, "", divisor=1.0) for nm in (25, 9.7, 2.9, 16.6)]
    assert round(expanded(shares) / 2) == 32


def test_sum_of_squares_and_worst_case():
    """4, 3 and 5 make 7.07 together and 12 at the worst (arithmetic)."""
    shares = [Share(name, size, "", divisor=1.0) for name, size in (("a", 4), ("b", 3), ("c", 5))]
    assert expanded(shares) / 2 == pytest.approx(7.07107, abs=1e-5)
    assert worst(shares) == 12
    usual, most = budget_figures(shares, "Good to")
    assert (usual.value, most.value) == (pytest.approx(expanded(shares)), 12)
    assert spoken(usual).working == "2 x square root of (4² + 3² + 5²)"
    assert budget_table(shares).column("cause") == ("c", "a", "b")


def test_limits_alike_everywhere():
    """Half width over the root of 3: JCGM 100:2008, 4.3.7."""
    assert Share("", 0.004, "").standard == pytest.approx(0.0023094, abs=1e-7)
    assert pytest.approx(1.7320508) == EVEN


@pytest.mark.parametrize(
    ("size", "limit"), [(0, 4), (25, 4), (25.1, 4), (60, 5), (75, 5), (130, 6), (160, 7), (210, 8), (310, 10)]
)
def test_micrometers_of_din_863(size, limit):
    """DIN 863-1, accuracy table (two copies)."""
    assert micrometer(size).most * 1000 == pytest.approx(limit)


@pytest.mark.parametrize(
    ("growth", "size", "degrees", "micrometres"),
    [
        (11.5e-6, 10, 10, 1.15),
        (11.5e-6, 25, 5, 1.44),
        (11.5e-6, 50, 15, 8.62),
        (23.1e-6, 25, 10, 5.78),
        (11.5e-6, 300, 10, 34.5),
    ],
)
def test_growth_by_warmth(growth, size, degrees, micrometres):
    """Expansion of steel and aluminium: NIST Journal of Research 99 (1994), p. 31; more than 30 µm on 300 mm."""
    assert warmth(size, degrees, growth).most * 1000 == pytest.approx(micrometres, abs=0.01)
