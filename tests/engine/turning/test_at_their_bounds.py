"""Figures, notes and refusals of turning exactly at their bounds: just under, at, and just over.

Bounds that have no authority are common practice, as the program says; what is held here is that they are where it says.
"""

import pytest

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.showing import cell_text
from engine.shop.edit import sample_text, without_part
from engine.shop.file import parse, sample
from tests.rows import each_row
from tests.spoken import spoken

METRIC = sample("metric")


def work(operation, **given):
    given = {name.rstrip("_"): str(value) for name, value in given.items()}
    return spoken(run(operation, given, METRIC).answer)


def notes(operation, **given):
    return " ".join(note.text for note in work(operation, **given).notes)


@pytest.mark.parametrize("to", [20, 24])
def test_a_picture_of_a_bore_has_every_cut(to):
    answer = work("bore-to-size", hole=18, to=to, depth=25)
    cuts = len(answer.table("cuts").rows)
    assert {shape.row for shape in answer.pictures[0].shapes if getattr(shape, "row", 0)} == set(range(1, cuts + 1))


@pytest.mark.parametrize(("bore", "refused"), [(9.9, False), (10, True), (10.1, True)])
def test_a_tube_has_a_wall(bore, refused):
    if refused:
        with pytest.raises(BadInput, match=r"a bore smaller than the diameter of 10\.000 mm"):
            work("overhang", diameter=10, length=30, bore=bore)
    else:
        assert work("overhang", diameter=10, length=30, bore=bore).figures


@pytest.mark.parametrize("angle", ["0 in 20", "1 in 0"])
def test_a_taper_of_nothing_is_refused(angle):
    with pytest.raises(BadInput, match="angle"):
        work("taper", from_=20, length=50, angle=angle)


@pytest.mark.parametrize(("length", "said"), [(12.009, False), (12.011, True), (12.091, False), (12.089, True)])
def test_a_cut_out_of_place_by_a_hundredth(length, said):
    """The sample saddle's lines are 0.1 mm: 12.011 is 0.011 past one, 12.089 as much before the next."""
    text = notes("bar-plan", parts=1, length=length, blade=2, facing=0.5, end_waste=5)
    assert ("out of place" in text) is said


@each_row(
    ("operation", "given", "said", "there"),
    [
        # the sample blade reaches 17 mm: half the bar and half a millimetre
        ("part-off", {"diameter": 33}, "The blade reaches 17.0 mm", False),
        ("part-off", {"diameter": 33.1}, "The blade reaches 17.0 mm", True),
        # six widths deep on a light lathe, eight at the most in steel
        ("part-off", {"diameter": 24, "blade": 2}, "deep as wide, slender", False),
        ("part-off", {"diameter": 24.1, "blade": 2}, "deep as wide, slender", True),
        ("part-off", {"diameter": 32, "blade": 2}, "above what steel bears", False),
        ("part-off", {"diameter": 32.1, "blade": 2}, "above what steel bears", True),
        # no thicker than the blade
        ("part-off", {"diameter": 1.9}, "no thicker than the blade", True),
        ("part-off", {"diameter": 2}, "no thicker than the blade", True),
        ("part-off", {"diameter": 2.01}, "no thicker than the blade", False),
        # boring bars: four diameters of steel (an insert maker's boring guide)
        ("bore-to-size", {"hole": 18, "to": 20, "depth": 25, "bar": "10x40"}, "diameters", False),
        ("bore-to-size", {"hole": 18, "to": 20, "depth": 25, "bar": "10x40.1"}, "diameters", True),
    ],
)
def test_notes_at_their_limits(operation, given, said, there):
    assert (said in notes(operation, **given)) is there, notes(operation, **given)


@pytest.mark.parametrize(
    ("size", "beyond"),
    # DIN 76-1, e1 normal: 4.2 at P 0.8, 5.1 at P 1, 6.2 at P 1.25, 7.3 at P 1.5
    [("M5", "4.2"), ("M6", "5.1"), ("M8", "6.2"), ("M10", "7.3")],
)
def test_a_bars_hole_says_what_the_taps_lead_asks_for(size, beyond):
    figure = work("bar-plan", parts=2, length=12, thread=size).figure("drill_depth")
    assert f"26.5 + {beyond} beyond it for the tap's lead" in figure.working


def test_magnesium_is_told_of_by_its_fire():
    """Feeds over 0.25 mm: an alloy maker's data sheet; fire and what puts it out: TM 43-0106, par. 4-22."""
    for operation in ("turning-speed", "part-off"):
        text = notes(operation, diameter=20, material="magnesium")
        assert "0.25 mm/rev or more" in text and "Class D powder" in text and "never water" in text
        assert "Magnesium" not in notes(operation, diameter=20, material="aluminium")


@pytest.mark.parametrize(("depth", "refused"), [(39.9, False), (40, False), (40.1, True)])
def test_a_boring_bar_reaches_as_deep_as_it_is_long(depth, refused):
    given = {"hole": 18, "to": 20, "depth": depth, "bar": "12x40"}
    if refused:
        with pytest.raises(BadInput, match="reach"):
            work("bore-to-size", **given)
    else:
        assert work("bore-to-size", **given).figures


def test_without_a_saddles_dial_no_cut_is_out_of_place():
    shop = parse(without_part(sample_text("metric"), ("lathe", "saddle")))
    answer = spoken(run("bar-plan", {"parts": "1", "length": "12.05", "blade": "2", "facing": "0.5"}, shop).answer)
    assert not any("out of place" in note.text for note in answer.notes)
    assert [column.name for column in answer.table("cuts").columns] == ["part", "from", "to", "kerf_end"]


def test_a_taper_is_read_to_hundredths_along_it():
    table = work("taper", from_=20, to=15, length=50).table("checks")
    along = next(column for column in table.columns if column.name == "along")
    assert along.decimals == 2 and cell_text(12.5, along, "mm") == "12.50"


@pytest.mark.parametrize(("between", "refused"), [(49.9, True), (50, False), (50.1, False)])
def test_a_taper_is_no_longer_than_its_piece(between, refused):
    given = {"from_": 20, "to": 15, "length": 50, "between_centres": between}
    if refused:
        with pytest.raises(BadInput, match=r"at least the taper's length of 50\.000 mm"):
            work("taper", **given)
    else:
        assert work("taper", **given).figure("set_over").value == pytest.approx(between * 5 / 50 / 2)


def test_a_bar_that_fills_its_hole_is_named_by_both_sizes():
    text = notes("bore-to-size", hole=11, to=14, depth=25, bar="10.5x40")
    assert "A bar of 10.5 mm fills the hole of 11.0 mm: chips jam" in text
