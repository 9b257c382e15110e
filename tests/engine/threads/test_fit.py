"""Errors of lead and flank against clearance."""

from math import tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import OutOfRange
from engine.threads.fit import fit, flank_effect, lead_effect

H = 0.8660254


def test_published_lead_effects():
    """A textbook's worked example: 0.09 mm of accumulated pitch error is 0.155 mm of diameter on the screw.

    Its value for the nut's 0.03 mm, printed 0.51, is a slip for 0.05.
    """
    assert lead_effect(length=9, lead_error_ppm=10_000, half_angle=30) == pytest.approx(0.155, abs=0.001)
    assert lead_effect(length=3, lead_error_ppm=10_000, half_angle=30) == pytest.approx(0.05, abs=0.0025)


@pytest.mark.parametrize(("sign", "factor"), [(-1, 0.01309), (1, 0.00873)], ids=["too small", "too large"])
def test_flank_effect_of_sixty_degrees(sign, factor):
    """0.01309 P a degree when the flank angle is too small, 0.00873 P when too large (from memory, a textbook form)."""
    pitch = 1.5
    found = flank_effect(
        flank_error=sign * 1.0, half_angle=30, height_at_crest=3 / 8 * H * pitch, height_at_root=H * pitch / 4
    )
    assert found == pytest.approx(factor * pitch, rel=1e-3)


def test_mean_form_for_both_flanks():
    """dE = 0.36 P a, a in radians, the mean of the two flanks: a textbook form, read; 0.3636 by derivation."""
    pitch, minutes = 1.0, 10.0
    small = flank_effect(flank_error=-minutes / 60, half_angle=30, height_at_crest=3 / 8 * H, height_at_root=H / 4)
    large = flank_effect(flank_error=minutes / 60, half_angle=30, height_at_crest=3 / 8 * H, height_at_root=H / 4)
    # 0.073 P (3 a1 + 2 a2) micrometres for minutes: the same form in shop units.
    assert (small + large) * 1000 == pytest.approx(0.073 * pitch * (3 * minutes + 2 * minutes), rel=0.005)


def test_ring_gauge_example():
    """M10x1.5-6g of 8.900 mm, lead 0.05 % long over 15 mm, flanks +20 and -30 minutes: functional size 8.927 mm."""
    flanks = flank_effect(
        flank_error=20 / 60, half_angle=30, height_at_crest=0.375 * H * 1.5, height_at_root=0.25 * H * 1.5
    ) + flank_effect(
        flank_error=-30 / 60, half_angle=30, height_at_crest=0.375 * H * 1.5, height_at_root=0.25 * H * 1.5
    )
    found = fit(screw=8.900, nut=9.026, lead=1.5, half_angle=30, engagement=15, lead_error_ppm=500, flanks=flanks)
    assert found.functional_screw == pytest.approx(8.927, abs=0.0005)
    assert flanks == pytest.approx(0.0142, abs=0.0001)


def test_axial_play_of_m10():
    """Clearance 0.032 to 0.344 of M10 6H/6g plays 0.018 to 0.199 mm: clearance times tan 30."""
    for clearance, play in ((0.032, 0.018), (0.344, 0.199)):
        found = fit(screw=9.026 - clearance, nut=9.026, lead=1.5, half_angle=30, engagement=8)
        assert found.axial_play == pytest.approx(play, abs=0.0006)
        assert found.turns_to_bind is None


@settings(max_examples=60, deadline=None)
@given(
    st.floats(-0.1, 0.5),
    st.floats(0.2, 6),
    st.sampled_from([14.5, 15.0, 23.75, 27.5, 30.0]),
    st.floats(1, 50),
    st.floats(-5000, 5000),
    st.floats(0, 0.1),
)
def test_it_binds_where_the_functional_sizes_meet(clearance, lead, half_angle, engagement, ppm, flanks):
    found = fit(
        screw=10 - clearance,
        nut=10,
        lead=lead,
        half_angle=half_angle,
        engagement=engagement,
        lead_error_ppm=ppm,
        flanks=flanks,
    )
    room = found.functional_nut - found.functional_screw
    if found.state == "fits":
        assert room >= -1e-9
    if found.state == "binds":
        assert room < 1e-9
        assert found.turns_to_bind == pytest.approx(found.to_bind / lead)
    if found.state == "binds" and found.to_bind > 1e-3:
        again = fit(
            screw=10 - clearance,
            nut=10,
            lead=lead,
            half_angle=half_angle,
            engagement=found.to_bind,
            lead_error_ppm=ppm,
            flanks=flanks,
        )
        assert again.functional_screw == pytest.approx(again.functional_nut, abs=1e-9)
    if found.state == "will not start":
        assert clearance - flanks <= 1e-12
    assert found.axial_play == pytest.approx(max(0, clearance) * tan(half_angle * 3.141592653589793 / 180))


def test_no_engagement_is_refused():
    with pytest.raises(OutOfRange, match="engagement"):
        fit(screw=9, nut=9.1, lead=1.5, half_angle=30, engagement=0)
