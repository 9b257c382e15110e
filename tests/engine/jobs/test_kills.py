"""kill -9 at random moments: no acknowledged step is ever lost, no file is ever spoiled."""

import json
import subprocess
import sys


def rounds(count, folder, writer):
    folder.mkdir()
    line = [sys.executable, "-m", "tests.engine.jobs.kills", str(count), str(folder), writer]
    done = subprocess.run(line, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_200_kills_lose_nothing(tmp_path):
    found = rounds(200, tmp_path / "kills", "journal")
    assert found["faults"] == 0, found["first"]
    assert found["rounds"] == 200
    assert found["acknowledged"] > 500  # the loop did save between the kills


def test_the_loop_catches_a_careless_writer(tmp_path):
    assert rounds(40, tmp_path / "control", "in-place")["faults"] > 0
