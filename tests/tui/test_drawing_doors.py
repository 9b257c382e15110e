"""Drawings at the shell: SVG files and DXF, read back; what is there is not written over; refusals in one line."""

from io import StringIO
from xml.etree import ElementTree

import pytest

from tests.engine.part.scenario import FOURTEEN
from tui.__main__ import main

SCALE = ["work", "straight-scale", "spacing=1", "lines=61"]
CIRCLE = ["work", "hole-circle", "holes=6", "diameter=50", "hole=5"]


def entities(text):
    ezdxf = pytest.importorskip("ezdxf")
    document = ezdxf.read(StringIO(text))
    assert document.header["$INSUNITS"] == 4 and not document.audit().errors
    return list(document.modelspace())


def test_a_picture_is_written_once_and_again_by_force(capsys, tmp_path):
    path = tmp_path / "seat.svg"
    words = ["work", "countersink", "hole=6.6", "diameter=12.6", "--svg", str(path)]
    assert main(words) == 0
    root = ElementTree.fromstring(path.read_text())
    assert any("Ø12.60 mm" in (text.text or "") for text in root.iter("{http://www.w3.org/2000/svg}text"))
    assert "3.00" in capsys.readouterr().out  # the answer is printed as ever
    assert main(words) == 2
    said = capsys.readouterr().err.strip()
    assert "is there already" in said and "\n" not in said
    assert main([*words, "--force"]) == 0


def test_a_strip_in_a_file_is_true_to_size(tmp_path):
    path = tmp_path / "rule.svg"
    assert main([*SCALE, "--svg", str(path)]) == 0
    root = ElementTree.fromstring(path.read_text())
    assert root.get("width").removesuffix("mm") == root.get("viewBox").split()[2]  # a unit is a millimetre
    strip = list(root)[-1]
    places = {
        round(float(line.get("x1")), 3)
        for line in strip
        if line.tag.endswith("line") and line.get("x1") == line.get("x2")
    }
    assert max(places) - min(places) == pytest.approx(60)


def test_minus_is_standard_output_and_nothing_else_is_on_it(capsys):
    assert main([*CIRCLE, "--svg", "-"]) == 0
    ElementTree.fromstring(capsys.readouterr().out)


def test_a_parts_drawing_on_standard_output_is_alone_there(capsys):
    assert main(["part", str(FOURTEEN[2]), "--svg", "-"]) == 0
    ElementTree.fromstring(capsys.readouterr().out)


def test_a_device_is_written_to(capsys):
    assert main([*CIRCLE, "--svg", "/dev/null"]) == 0


def test_holes_and_scales_are_read_back_from_dxf(capsys, tmp_path):
    assert main([*CIRCLE, "--dxf", "-"]) == 0
    circles = [e for e in entities(capsys.readouterr().out) if e.dxftype() == "CIRCLE"]
    holes = [c for c in circles if c.dxf.radius == 2.5]
    assert len(holes) == 6
    assert all((h.dxf.center.x**2 + h.dxf.center.y**2) ** 0.5 == pytest.approx(25) for h in holes)
    path = tmp_path / "rule.dxf"
    assert main([*SCALE, "--dxf", str(path)]) == 0
    lines = [e for e in entities(path.read_text()) if e.dxftype() == "LINE"]
    assert sorted(line.dxf.start.x for line in lines) == pytest.approx(list(range(61)))


def test_a_part_is_read_back_from_dxf(capsys, tmp_path):
    path = tmp_path / "part.dxf"
    assert main(["part", str(FOURTEEN[2]), "--dxf", str(path)]) == 0
    heavy = [e for e in entities(path.read_text()) if e.dxftype() == "LINE" and e.dxf.layer == "OUTLINE"]
    from engine.part.file import read_file

    (part,) = read_file(FOURTEEN[2])[0].parts
    places = [p.x for e in heavy for p in (e.dxf.start, e.dxf.end)]
    heights = [p.y for e in heavy for p in (e.dxf.start, e.dxf.end)]
    assert max(places) - min(places) == pytest.approx(part.overall)
    assert max(heights) - min(heights) == pytest.approx(part.largest)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ["work", "thread-fit", "size=M10", "screw_pitch_diameter=8.9", "nut_pitch_diameter=9", "--dxf", "-"],
            "no drawing to work",
        ),
        ([*CIRCLE, "--svg", __file__ + "/all.svg"], "cannot be written"),
        ([*CIRCLE, "--svg"], "--svg: the name of a"),
    ],
)
def test_what_cannot_be_drawn_or_written_is_one_line(words, said, capsys):
    assert main(words) == 2
    err = capsys.readouterr().err.strip()
    assert said in err and "\n" not in err


def test_without_the_library_the_refusal_says_what_to_install(monkeypatch, capsys):
    monkeypatch.setitem(__import__("sys").modules, "ezdxf.filemanagement", None)
    assert main([*CIRCLE, "--dxf", "-"]) == 2
    assert "pip install ezdxf" in capsys.readouterr().err
