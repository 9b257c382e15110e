"""Cautions and trouble at the shell: few on stderr, all in the JSON, questions answered by name."""

import json

from tui.shell import work

LINE = ["part-off", "diameter=38", "stick_out=45"]


def test_three_lines_the_rest_counted_and_the_deferral_last(capsys):
    assert work(LINE) == 0
    said = capsys.readouterr()
    lines = said.err.splitlines()
    assert [line.split()[0] for line in lines[:3]] == ["WARNING"] * 3
    assert lines[3].endswith("--json lists them all.")
    assert lines[4].startswith("Set-up  grip, support: not told.") and "--set-up" in lines[4]
    assert lines[5].startswith("Before any work: key away") and "outrank this program" in lines[6]
    assert len(lines) == 7
    assert "WARNING" not in said.out and "safe" not in said.err


def test_json_holds_every_caution_with_the_number_that_raised_it(capsys):
    assert work([*LINE, "--json"]) == 0
    said = capsys.readouterr()
    cautions = json.loads(said.out)["cautions"]
    assert said.err == "" and len(cautions) > 5
    reach = next(c for c in cautions if c["id"] == "PRT-03")
    assert "19.5 mm" in reach["text"] and "2.5 mm short" in reach["because"] and reach["acknowledge"]


def test_a_question_is_answered_by_its_name(capsys):
    work(["solder", "alloy=BAg-7", "--json", "--yes", "brz-02", "--no", "BRZ-04"])
    cautions = {c["id"]: c for c in json.loads(capsys.readouterr().out)["cautions"]}
    assert cautions["BRZ-02"]["acknowledge"] and not cautions["BRZ-02"]["question"]
    assert "BRZ-04" not in cautions


def test_the_set_up_answers_in_quantities(capsys):
    work([*LINE, "--json", "--set-up", "grip=20, support=none, rear=0"])
    cautions = {c["id"]: c for c in json.loads(capsys.readouterr().out)["cautions"]}
    assert "20.0 mm" in cautions["CHK-05"]["text"] and "PRT-01" not in cautions
    work([*LINE, "--json"])
    told_nothing = {c["id"]: c for c in json.loads(capsys.readouterr().out)["cautions"]}
    assert told_nothing["PRT-01"]["not_told"] == ["support"] and not told_nothing["CHK-05"]["because"]


def test_a_set_up_that_cannot_be_used_is_one_sentence(capsys):
    for wrong in ("grip", "girp=20", "grip=many", "support=string", "", "grip=-3"):
        assert work([*LINE, "--set-up", wrong]) == 2
        said = capsys.readouterr()
        assert said.out == "" and len(said.err.splitlines()) == 1, wrong


def test_the_general_rules_are_named_and_listed(capsys):
    work([*LINE, "--json"])
    general = [c["id"] for c in json.loads(capsys.readouterr().out)["general"]]
    assert {"GEN-01", "GEN-02", "GEN-03", "GEN-04", "GEN-08"} <= set(general)
    work(["thread-limits", "thread=M10"])  # a look-up: no machine turns
    assert "Before any work" not in capsys.readouterr().err


def test_a_name_that_asks_nothing_is_refused(capsys):
    for wrong in (["--yes", "PRT-99"], ["--no"], ["--yes", "PRT-06"]):
        assert work([*LINE, *wrong]) == 2
        assert "such as BRZ-02" in capsys.readouterr().err


def test_trouble_is_said_when_asked_for(capsys):
    work([*LINE, "--trouble", "--plain"])
    assert "Chatter when parting: " in capsys.readouterr().out
    work([*LINE, "--trouble", "--json"])
    trouble = json.loads(capsys.readouterr().out)["trouble"]
    assert "19.5 mm" in next(t["number"] for t in trouble if t["id"] == "PA-01")
    work([*LINE, "--json"])
    assert "trouble" not in json.loads(capsys.readouterr().out)


def test_the_name_of_an_operation_and_a_bare_value_are_a_quick_line(capsys):
    """`divide 37` as people say it: 60 / 37 = 1 turn and 23/37; a word that is no value is refused as before."""
    assert work(["divide", "37", "--plain"]) == 0
    assert "of 37" in capsys.readouterr().out.splitlines()[0]
    assert work(["divide", "x"]) == 2
    assert "x cannot be used" in capsys.readouterr().err
