"""`check`: what people and programs read."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from profilegen import job_for, load
from tests.cli.support import changed, run

PART = "take-up-ratchet.toml"


def test_json_is_the_job(shop: Path) -> None:
    """`check --json` is `Job.as_dict()`, key for key and number for number."""
    done = run("check", "--json", PART)
    assert done.exit_code == 0
    assert json.loads(done.stdout) == job_for(load(PART)).as_dict()


def test_json_does_not_follow_the_unit(shop: Path) -> None:
    """JSON is mm and degrees whatever unit is asked for."""
    assert run("check", "--json", PART, "--units", "in").stdout.count("38.0") > 0


def test_text_in_the_unit_and_mark_asked_for(shop: Path) -> None:
    """`--units` and `--decimal` change how sizes are written, not the sizes."""
    text = run("check", PART, "--units", "in", "--decimal", "comma").stdout
    assert "1,4961 in (38,000 mm)" in text


def test_diameter_on_stderr(shop: Path) -> None:
    """Where the data has no units the outside diameter is said in both of them on stderr."""
    assert run("check", PART).stderr == ""
    assert run("check", PART, "--json").stderr == "outside diameter 38.000 mm (1.4961 in)\n"


@pytest.mark.parametrize("name", ["take-up-ratchet", "warp-beam-ratchet"])
def test_examples_have_nothing_to_object_to(shop: Path, name: str) -> None:
    """The shipped parts have no caution and no refusal."""
    found = json.loads(run("check", "--json", f"{name}.toml").stdout)["findings"]
    assert {item["severity"] for item in found} <= {"note"}


def test_refused_wheel_as_json(shop: Path) -> None:
    """A wheel that does not exist gives its title and findings, exit code 3."""
    changed(shop / PART, "land = 0.4", "land = 4.4")
    done = run("check", "--json", PART)
    told = json.loads(done.stdout)
    assert done.exit_code == 3
    assert (told["schema"], told["title"]) == (1, "Cloth take-up ratchet")
    assert [item["severity"] for item in told["findings"]] == ["refused"]
    keys = {"code", "severity", "message", "where", "value", "limit", "remedy"}
    assert set(told["findings"][0]) == keys


def test_a_finding_tells_programs_what_mends_it(shop: Path) -> None:
    """`remedy` has the key and the value as it is typed there, with its unit."""
    changed(shop / PART, "land = 0.4", "land = 0.1")
    (found,) = [
        item
        for item in json.loads(run("check", "--json", PART).stdout)["findings"]
        if item["code"] == "land-thin"
    ]
    assert found["remedy"] == {"key": "wheel.land", "value": "0.200 mm"}


def test_refused_wheel_as_text(shop: Path) -> None:
    """The same for people: title, size, and the finding with the key to change."""
    changed(shop / PART, "land = 0.4", "land = 4.4")
    done = run("check", PART)
    assert done.exit_code == 3
    assert "refused: space-gone" in done.stdout
    assert "wheel.land" in done.stdout
    assert "outside diameter 38.000 mm (1.4961 in)" in done.stdout


def test_refused_cutter_prints_all_the_same(shop: Path) -> None:
    """With a refused cutter everything known of the wheel is printed, exit code 3."""
    changed(shop / PART, 'included_angle = "60 deg"', "included_angle = 70")
    done = run("check", "--json", PART)
    told = json.loads(done.stdout)
    assert (done.exit_code, told["cuts"], told["wheel"]["teeth"]) == (3, [], 30)
    text = run("check", PART)
    assert (text.exit_code, "Root diameter" in text.stdout) == (3, True)


@pytest.mark.parametrize("command", ["check", "dxf", "sheet", "gauge", "cutters", "make"])
def test_what_cannot_be_measured_is_told_by_every_command(shop: Path, command: str) -> None:
    """A span past half the wheel and a tolerance as big as its size: lines, and nothing written."""
    text = (shop / PART).read_text() + '\n[gauge]\nspan_teeth = 40\n[tolerance]\nland = "0.4"\n'
    (shop / PART).write_text(text)
    count = len(text.splitlines())
    done = run(command, PART)
    assert done.exit_code == 2
    assert f"gauge.span_teeth, line {count - 2}" in done.stderr
    assert f"tolerance.land, line {count}" in done.stderr
    assert not (shop / "out").exists()


@pytest.mark.parametrize("verb", ["check", "gauge"])
def test_the_outside_diameter_is_told_once_in_both_units(shop: Path, verb: str) -> None:
    """On the terminal, both streams together; with JSON, which has no units, on stderr."""
    done = run(verb, "take-up-ratchet.toml")
    assert (done.stdout + done.stderr).count("1.4961 in") == 1
    assert "1.4961 in" in done.stdout
    assert "1.4961 in" in run(verb, "take-up-ratchet.toml", "--json").stderr


BAD_FORM = """
[[cutter]]
name = "mate's form"
kind = "form"
[cutter.of]
kind = "ratchet"
teeth = 30
outside_diameter = 38
thickness = 4
space_angle = 60
land = 9
"""


def test_a_form_cutter_that_is_not_set_up_is_checked_too(shop: Path) -> None:
    """What `cutters` refuses `check` refuses, though another cutter is set up."""
    path = shop / "take-up-ratchet.toml"
    assert run("check", path.name).exit_code == 0
    path.write_text(path.read_text(encoding="utf-8") + BAD_FORM, encoding="utf-8")
    done = run("check", path.name, "--json")
    assert done.exit_code == run("cutters", path.name).exit_code == 3
    told = [one for one in json.loads(done.stdout)["findings"] if one["severity"] == "refused"]
    assert [one["code"] for one in told] == ["space-gone"]
    assert "mate's form" in told[0]["message"]
    assert told[0]["remedy"] is None


def test_a_tolerance_of_a_feature_that_is_not_there_is_told(shop: Path) -> None:
    """It would be used nowhere without a word; taken out, nothing is said."""
    path = shop / "take-up-ratchet.toml"
    before = path.read_text(encoding="utf-8")
    path.write_text(before + '\n[tolerance]\nkey_width = "P9"\n', encoding="utf-8")
    done = run("check", path.name, "--json")
    assert done.exit_code == 0
    found = [
        one for one in json.loads(done.stdout)["findings"] if one["code"] == "tolerance-unused"
    ]
    assert [one["remedy"] for one in found] == [{"key": "tolerance.key_width", "value": None}]
