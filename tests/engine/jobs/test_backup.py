"""A backup holds everything and brings it back; what is no backup, or was damaged, changes nothing."""

import json
import zipfile

import pytest

from engine.base.refusals import BadInput
from engine.jobs.backup import backup, restore
from engine.jobs.journal import Journal
from engine.jobs.library import own_folder
from engine.shop.edit import sample_text
from engine.shop.file import data_folder, load, shop_path
from tests.engine.jobs.plans import by_hand, worked


@pytest.fixture
def bench(tmp_path, monkeypatch):
    """A person with a shop, a recipe, a part and a job that has moved; then a fresh machine."""
    shop_path().parent.mkdir(parents=True)
    shop_path().write_text(sample_text("inch"))
    for folder, name in (("recipes", "knob.toml"), ("parts", "knob.toml")):
        (data_folder() / folder).mkdir(parents=True)
        (data_folder() / folder / name).write_text(by_hand(2))
    journal = Journal()
    progress = journal.start(worked(by_hand(4)), by_hand(4), "stop.toml").progress
    journal.done(progress.job, progress.seq)
    file = tmp_path / "mine.zip"
    assert backup(file) == "the shop, 1 recipe, 1 part, 1 job"  # while a program has the jobs open
    journal.close()
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "other" / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "other" / "data"))
    return file


def test_another_machine_has_it_all(bench):
    assert restore(bench) == "Restored: the shop, 1 recipe, 1 part, 1 job."
    assert load().unit == "inch" and (own_folder() / "knob.toml").read_text() == by_hand(2)
    journal = Journal()
    assert journal.notice == "" and journal.open(1).progress.place.step == 2
    journal.close()


def test_what_is_there_is_not_replaced_unasked_and_kept_when_it_is(bench):
    shop_path().parent.mkdir(parents=True)
    shop_path().write_text(sample_text("metric"))
    with pytest.raises(BadInput, match="--force replaces them"):
        restore(bench)
    assert load().unit == "mm"
    assert "What was here before is in" in restore(bench, force=True)
    assert load().unit == "inch"
    (kept,) = data_folder().glob("before-restore-*.zip")
    restore(kept, force=True)
    assert load().unit == "mm"


def rewritten(file, change):
    """The same backup with its manifest and entries changed."""
    with zipfile.ZipFile(file) as archive:
        entries = {name: archive.read(name) for name in archive.namelist()}
    manifest = json.loads(entries.pop("manifest.json"))
    change(manifest, entries)
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("manifest.json", json.dumps(manifest))
        for name, raw in entries.items():
            archive.writestr(name, raw)


def outside(manifest, entries):
    manifest["sha256"]["recipes/../../evil"] = manifest["sha256"].pop("recipes/knob.toml")
    entries["recipes/../../evil"] = entries.pop("recipes/knob.toml")


CHANGES = {
    "an entry changed": lambda manifest, entries: entries.update({"shop.toml": b"unit = 'mm'"}),
    "an entry gone": lambda manifest, entries: entries.pop("jobs.db"),
    "an entry more": lambda manifest, entries: entries.update({"extra": b""}),
    "another format": lambda manifest, entries: manifest.update(format="?"),
    "a newer version": lambda manifest, entries: manifest.update(version=99),
    "no sums": lambda manifest, entries: manifest.pop("sha256"),
    "a path that leads out": outside,
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_a_backup_that_was_changed_is_refused_whole(bench, change):
    rewritten(bench, change)
    with pytest.raises(BadInput, match=r"mine\.zip cannot be used"):
        restore(bench)
    assert not shop_path().exists() and not data_folder().exists()


@pytest.mark.parametrize("place", [0.1, 0.3, 0.5, 0.7, 0.9])
def test_a_flipped_byte_changes_nothing(bench, place):
    raw = bytearray(bench.read_bytes())
    raw[int(len(raw) * place)] ^= 0xFF
    bench.write_bytes(raw)
    with pytest.raises(BadInput):
        restore(bench)
    assert not shop_path().exists() and not data_folder().exists()


@pytest.mark.parametrize("raw", [b"", b"PK", b"no zip at all" * 100])
def test_what_is_no_backup_is_said(tmp_path, raw):
    (tmp_path / "x.zip").write_bytes(raw)
    with pytest.raises(BadInput, match=r"x\.zip cannot be used"):
        restore(tmp_path / "x.zip")


def test_nothing_to_keep_and_nowhere_to_keep_it_are_said(tmp_path, bench):
    with pytest.raises(BadInput, match="there is no shop file"):
        backup(tmp_path / "empty.zip")
    assert not (tmp_path / "empty.zip").exists()
    restore(bench)
    with pytest.raises(BadInput, match="No such file or directory"):
        backup(tmp_path / "no" / "such" / "folder.zip")
