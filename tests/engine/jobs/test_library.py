"""The shelf of recipes, and putting the open operation into one's own."""

import pytest

from engine.base.declare import asks
from engine.base.files import BadFile
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.jobs.library import new_text, open_recipe, own_folder, save, shelf, with_step
from engine.jobs.run import resolve
from engine.shop.file import sample
from tests.engine.jobs.plans import HEAD


def test_a_step_is_added_and_comments_stay():
    text = "# my stop\n" + HEAD + '[[steps]]\nid = "saw"  # the big saw\ntitle = "Saw"\n\n# the end\n'
    added = with_step(text, "hand-dial", {"distance": "17.35", "divisions": ""}, unit="mm", title="Move it")
    for comment in ("# my stop", "# the big saw", "# the end"):
        assert comment in added
    again = with_step(added, "hand-dial", {"distance": "3/8in"}, unit="mm")
    assert again.count("[[steps]]") == 3
    assert 'id = "hand-dial-2"' in again


@pytest.mark.parametrize(
    ("operation", "name", "typed", "unit", "other"),
    [
        ("hand-dial", "distance", "17.35", "mm", "inch"),
        ("hand-dial", "distance", "0.5", "inch", "mm"),
        ("hand-dial", "distance", "3/8in", "mm", "inch"),
        ("hand-dial", "per_turn", "0.1", "inch", "mm"),
        ("hand-dial", "divisions", "80", "mm", "inch"),
        ("turning-speed", "material", "mild steel", "mm", "inch"),
        ("flats", "across_flats", "13", "mm", "inch"),
        ("flats", "across_flats", "1/2", "mm", "mm"),
        ("tap-drill", "size", "M10x1.25", "mm", "inch"),
    ],
)
def test_what_was_typed_means_the_same_in_a_recipe_of_the_other_unit(operation, name, typed, unit, other):
    given = {**load(operation).example, name: typed}
    given = {key: value for key, value in given.items() if key == name or not value[:1].isdigit()}
    needed = {"hand-dial": {"distance": "3 mm"}, "turning-speed": {"diameter": "20 mm"}, "flats": {"sides": "6"}}
    text = with_step(new_text("Stop", other), operation, {**needed.get(operation, {}), **given}, unit=unit)
    path = own_folder() / "stop.toml"
    save(path, text)
    recipe, _ = open_recipe("stop")
    ask = asks(load(operation).inputs)[name]
    assert ask.read(name, recipe.steps[-1].inputs[name], other) == ask.read(name, typed, unit)
    assert resolve(recipe, sample("metric")).problems == ()


def test_what_cannot_be_used_is_refused_and_nothing_changes():
    with pytest.raises(BadInput, match="distance: seventeen cannot be used"):
        with_step(new_text("Stop", "mm"), "hand-dial", {"distance": "seventeen"}, unit="mm")
    with pytest.raises(BadFile):
        with_step("not toml", "hand-dial", {"distance": "3"}, unit="mm")
    with pytest.raises(BadFile):
        new_text("\x1b[31m", "mm")


def test_saving_checks_first_and_keeps_the_old_file():
    path = own_folder() / "stop.toml"
    save(path, new_text("Stop", "mm"))
    before = path.read_bytes()
    with pytest.raises(BadFile, match=r"stop\.toml:2"):
        save(path, "schema_version = 2\ntitle =")
    assert path.read_bytes() == before
    assert [p.name for p in path.parent.iterdir()] == ["stop.toml"]


def test_a_disk_that_refuses_is_said(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(BadInput, match="recipe: NOT SAVED: "):
        save(tmp_path / "file" / "stop.toml", new_text("Stop", "mm"))


def test_ones_own_recipes_are_on_the_shelf_broken_ones_too():
    save(own_folder() / "stop.toml", new_text("Stop", "mm"))
    (own_folder() / "broken.toml").write_text("title =")
    (own_folder() / "latin.toml").write_bytes(b"title = '\xb0'")
    own = {one.name: one for one in shelf() if one.path}
    assert own["stop"].title == "Stop"
    assert "mistakes" in own["broken"].problem
    assert "cannot be read" in own["latin"].problem


def test_a_recipe_that_is_not_there_offers_the_nearest():
    with pytest.raises(BadInput, match="Did you mean lock-knob"):
        open_recipe("lock-knop")
