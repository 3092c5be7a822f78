"""`trial`: from measured lands to the action to take."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any, Literal

import pytest

from profilegen import job_for, load
from tests.cli.support import changed, run
from tests.cutting.straight import land_at

MM, INCH = "take-up-ratchet.toml", "warp-beam-ratchet.toml"


def told(*words: str) -> dict[str, Any]:
    """The JSON of a trial."""
    done = run("trial", *words, "--json")
    assert done.exit_code == 0, done.stderr
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_json_is_unrounded_mm(shop: Path) -> None:
    """Infeed, land and run-out in mm, whatever the part's unit; one land shows no run-out."""
    job = job_for(load(MM))
    land = land_at(job.wheel, job.plan.cuts, 0.2)
    found = told(MM, "--land", repr(land))
    assert found["remaining_infeed"] == pytest.approx(0.2, abs=1e-9)
    assert found["expected_land"] == pytest.approx(0.4, abs=1e-9)
    assert found["runout"] is None
    assert told(INCH, "--land", "0.0600")["measured_land"] == pytest.approx(1.524)


def test_ends_with_the_action(shop: Path) -> None:
    """The last paragraph is what to do, in dial terms from the zero it names."""
    text = run("trial", MM, "--land", "0.62", "--dial", "2.80").stdout
    action = text.rpartition("Do now\n")[2]
    now, goal = (f'"1 turn, dial {figure}, growing"' for figure in ("0.80", "0.96"))
    assert f"Feed in 0.160 mm more, from {now} to {goal} on" in action
    assert "from the offset zero; the land says" in text


@pytest.mark.parametrize(("zero", "named"), [("top", "top zero"), ("Offset", "offset zero")])
def test_zero_may_be_named(shop: Path, zero: str, named: str) -> None:
    """`--zero` says which zero of the sheet the dial counts from."""
    text = run("trial", MM, "--land", "0.62", "--dial", "4.9", "--zero", zero).stdout
    assert f"on the dial, from the {named}" in text.replace("\n  ", " ")


@pytest.mark.parametrize("turn", ["2", "3.125", "0.5"])
@pytest.mark.parametrize("way", ["towards the operator", "towards the column"])
def test_the_dial_goes_its_own_way(shop: Path, way: str, turn: str) -> None:
    """What the dial shows at the depth that the land tells is read back to it, whichever way its
    numbers run, and the goal is where it stands after the infeed still to go: by a dial turned
    through every tenth of a division here."""
    changed(
        Path(MM),
        'per_turn = 2, increases = "towards the operator" }',
        f'per_turn = {turn}, increases = "{way}" }}',
    )
    depth, per = told(MM, "--land", "0.62")["dial_from_offset"], float(turn)
    grows = way == "towards the operator"

    def shows(travel: float) -> float:
        return travel % per if grows else -travel % per

    text = run("trial", MM, "--land", "0.62", "--dial", f"{shows(depth):.3f} mm").stdout
    text = text.replace("\n  ", " ")
    assert "and the land agrees with it" in text
    found = re.search(r'Feed in ([\d.]+) mm more, from "(.*?)" to "(.*?)" on the dial', text)
    assert found is not None
    goal = re.search(r"(?:(\d+) turns?, )?dial ([\d.]+), (growing|falling)", found[3])
    assert goal is not None
    travel = depth + float(found[1])
    assert float(goal[2]) == pytest.approx(shows(travel), abs=0.0035)
    assert int(goal[1] or 0) == int(travel / per)
    assert goal[3] == ("growing" if grows else "falling")


def test_dial_of_the_part_counts(shop: Path) -> None:
    """A dial that reads diameters, in divisions of 0.05, is read and written as it stands."""
    mine = 'dials.y = { division = 0.02, per_turn = 2, increases = "towards the operator" }'
    changed(Path(MM), mine, 'dials.y = { division = 0.05, reads = "diameter" }')
    text = run("trial", MM, "--land", "0.62", "--dial", "4.3").stdout.replace("\n  ", " ")
    assert "Feed in 0.150 mm more, from 4.300 mm to 4.600 mm on the dial" in text


def test_too_deep_says_so(shop: Path) -> None:
    """A land under the one wanted: nothing more is fed in, and the infeed left is negative."""
    done = run("trial", MM, "--land", "0.3")
    assert done.exit_code == 0
    assert "Too deep by" in done.stdout
    assert "Do now\n  Feed in no more" in done.stdout
    assert told(MM, "--land", "0.3")["remaining_infeed"] < 0


def test_within_a_step_of_depth(shop: Path) -> None:
    """What is under one step of the dial is left."""
    assert "Feed in no more: what is left is under" in run("trial", MM, "--land", "0.405").stdout


def test_run_out_from_lands_round_the_wheel(shop: Path) -> None:
    """Three lands spread round the wheel show run-out; the scatter of two is told."""
    words = [f"--land={space}:{size}" for space, size in ((1, 0.6), (11, 0.64), (21, 0.62))]
    found = told(MM, *words)
    assert found["runout"] > 0
    text = run("trial", MM, *words).stdout.replace("\n  ", " ")
    assert "once a turn the lands swing by" in text
    two = run("trial", MM, *words[:2]).stdout.replace("\n  ", " ")
    assert "These lands scatter by 0.040 mm" in two


def answer(*words: str) -> str:
    """The text of a trial, its paragraphs unbroken."""
    done = run("trial", *words)
    assert done.exit_code == 0, done.stderr
    return done.stdout.replace("\n  ", " ")


@pytest.mark.parametrize("touch", ["top", "offset"])
def test_dial_counts_through_the_feeler_as_the_sheet_does(
    shop: Path, touch: Literal["top", "offset"]
) -> None:
    """At the infeed of the sheet's last pass the land wanted agrees with the dial; without the
    feeler's thickness it does not."""
    changed(Path(MM), "feeler = 0.05 ", "feeler = 0.1 ")
    job = job_for(load(MM))
    sheet = job.passes[-1].from_zero(touch)
    land = f"--land={land_at(job.wheel, job.plan.cuts, 0.0)!r} mm"
    said = answer(MM, land, "--dial", f"{sheet} mm", "--zero", touch)
    assert f"from the {touch} zero, and the land agrees with it" in said
    assert "Feeler, counted in from both 0.100 mm" in " ".join(said.split())
    bare = answer(MM, land, "--dial", f"{sheet - 0.1} mm", "--zero", touch)
    assert "the land says 0.100 mm more than that is cut" in bare
    found, cut = told(MM, land), job.plan.cuts[-1]
    assert found[f"dial_from_{touch}"] == pytest.approx(sheet, abs=1e-9)
    assert found["infeed_from_top"] == pytest.approx(cut.infeed_from_top, abs=1e-9)
    assert found["infeed_from_offset"] == pytest.approx(cut.infeed_from_offset, abs=1e-9)


SMALL = """title = "Temple ratchet"
units = "in"
[wheel]
kind = "ratchet"
teeth = 36
outside_diameter = 1.5
thickness = 0.156
space_angle = "60 deg"
land = 0.015
hook_angle = 0
root_radius = 0.008
rotation = "clockwise"
[[cutter]]
name = "angle cutter 60"
kind = "single-angle"
angle = "60 deg"
tip_radius = 0.008
[tolerance]
land = "+0.004 -0.002"
"""


def small(*lands: str) -> tuple[str, str]:
    """What a trial on a small inch wheel tells, and what is to be done now."""
    Path("small.toml").write_text(SMALL, encoding="utf-8")
    said, _, action = answer("small.toml", *(f"--land={land}" for land in lands)).partition(
        "Do now"
    )
    return said, action


def test_blank_is_set_true_before_the_depth(shop: Path) -> None:
    """Lands that run-out would take under their low limit: first true, then depth."""
    said, action = small("1:0.02050", "10:0.02425", "19:0.02550", "28:0.02175")
    first, _, second = action.partition("2. Only then correct the depth")
    assert first.startswith(" 1. Stop, and feed in nothing yet: the least land at depth would be")
    assert "under its limit 0.0130 in" in first
    assert "at the land after space 34, between stops 34 and 35" in first
    assert "Bring that side in by half of the reading" in first
    assert "Cut the trial spaces again at the infeed they were cut at" in first
    assert "0.0055 in more" in second
    assert "Feed in 0" not in action
    assert "0.0130 in to 0.0190 in: the least is under them" in said
    assert "behind space" not in said


def test_run_out_over_the_usual_comes_first_too(shop: Path) -> None:
    """Lands that would all be good, on a blank that runs out more than 0.02 mm."""
    said, action = small("1:0.0220", "13:0.0240", "25:0.0230")
    assert "0.0130 in to 0.0190 in: both are within" in said
    assert "1. Stop, and feed in nothing yet: the blank runs out by more than the" in action
    assert "until the indicator shows 0.0007 in or less" in action


def test_true_blank_is_fed_in(shop: Path) -> None:
    """A swing within the usual and within tolerance leaves the depth as what to do."""
    said, action = small("1:0.0228", "13:0.0232", "25:0.0230")
    assert "both are within" in said
    assert action.startswith(" Feed in 0.0055 in more")


def test_stops_are_looked_at_before_the_depth(shop: Path) -> None:
    """Scatter that is no swing once a turn, and big for the tolerance: stops and burrs first."""
    said, action = small("1:0.0205", "10:0.0255", "19:0.0205", "28:0.0255")
    assert "the least is under them" in said
    assert "no high spot can be told" in said
    assert action.startswith(" Stop, and feed in nothing yet: lands are up to 0.0025 in off mean")
    assert "see that every stop seats" in action
    _, action = small("0.020", "0.027")
    assert "three or more spread all round the wheel" in action


def test_single_land_against_its_limits(shop: Path) -> None:
    """The land to expect is told to be within; one too small is told to be under, and spoilt."""
    said, action = small("0.023")
    assert "0.0130 in to 0.0190 in: it is within" in said
    assert "Feed in 0.0055 in more" in action
    said, action = small("0.0125")
    assert "it is under them" in said
    assert "The spaces cut cannot be put right" in action
    said, action = small("0.0145")
    assert "under the one wanted, but within its limits. Lock the infeed" in action


def test_limits_are_those_that_gauge_tells(shop: Path) -> None:
    """A land that follows from the root's tolerance is held to those limits, not to the usual."""
    job = job_for(load(INCH))
    land = job.gauges.feature("land")
    assert land is not None
    found = told(INCH, "--land", f"{land.limits.high + 0.1} mm")
    allowed = found["least_land_allowed"], found["greatest_land_allowed"]
    assert allowed == pytest.approx((land.limits.low, land.limits.high), abs=1e-6)
    assert allowed[0] > land.limits.nominal - 0.049


@pytest.mark.parametrize(
    ("file", "land", "said"),
    [
        (INCH, "0.62", '"0.62 mm"'),
        (MM, "0.024", '"0.024 in"'),
        (MM, "4.2", "under 3.972 mm"),
        (MM, "-0.4", "more than nothing"),
        (MM, "0", "more than nothing"),
        (MM, "31:0.6", "1 to 30"),
        (MM, "x:0.6", "1 to 30"),
        (MM, "0.6:", "empty"),
        (MM, "wide", "not a length"),
    ],
)
def test_land_that_will_not_do(shop: Path, file: str, land: str, said: str) -> None:
    """Each is refused with what would be taken, exit code 2, nothing on stdout."""
    done = run("trial", file, f"--land={land}")
    assert (done.exit_code, done.stdout) == (2, "")
    assert said in done.stderr


def test_land_that_the_second_lap_cannot_leave(shop: Path) -> None:
    """A land that only the first lap leaves is refused with the limits, exit code 3."""
    changed(Path(INCH), "[setup]\n", '[setup]\ncutter = "vee 45"\n')
    changed(Path(INCH), 'flat = "down"\n', "")
    done = run("trial", INCH, "--land", "0.38 in")
    assert done.exit_code == 3
    assert "land-unreachable" in done.stderr


def test_sizes_that_will_not_do_are_told_in_the_unit_and_mark_of_the_part(shop: Path) -> None:
    """Inches first, with a comma, whether the size is refused as read or by the geometry."""
    for words in (("--land", "0.9 in"), ("--take", "over_pins=9 in")):
        done = run("trial", INCH, *words, "--decimal", "comma")
        assert done.exit_code in (2, 3)
        assert re.search(r"\d,\d{4} in \(\d+,\d{3} mm\)", done.stderr)
        assert not re.search(r"\d\.\d{3,}", done.stderr)


def test_unit_behind_the_number_settles_it(shop: Path) -> None:
    """With its unit any land that this geometry can leave is taken."""
    assert told(INCH, "--land", "2.1 mm")["measured_land"] == pytest.approx(2.1)
    assert told(MM, "--land", "0.06 mm")["remaining_infeed"] < 0


def test_dial_in_doubt_is_asked_back(shop: Path) -> None:
    """A dial that only makes sense in the other unit is refused by naming both."""
    done = run("trial", MM, "--land", "0.62", "--dial", "0.1")
    assert done.exit_code == 2
    assert '"0.1 in" or "0.1 mm"' in done.stderr


def test_bare_sizes_are_in_the_unit_of_the_part(shop: Path) -> None:
    """`--units` changes what is written, not what a bare land means."""
    changed(Path(MM), "per_turn = 2, ", "")
    text = run("trial", MM, "--land", "0.62", "--units", "in", "--dial", "2.2").stdout
    assert "0.0244 in (0.620 mm)" in text
    assert "0.0866 in" in text


def test_asks_when_given_nothing(shop: Path) -> None:
    """Lands and dial are asked for on stderr; what will not do is asked again."""
    done = run("trial", MM, answers="0.024\n0.62\n\n0.1\n2.1\n")
    assert done.exit_code == 0
    assert 'from "1 turn, dial 0.10, growing" to "1 turn, dial 0.26, growing"' in done.stdout
    assert done.stderr.count("a size with its unit") == 2
    assert "land:" not in done.stdout


def test_asking_may_end_early(shop: Path) -> None:
    """Answers that end after a land will do; none at all is an input error."""
    assert run("trial", MM, answers="0.62").exit_code == 0
    assert run("trial", MM, answers="").exit_code == 2


@pytest.mark.parametrize(("old", "new", "code"), [('"60 deg"', "70", 3), ("[[cutter]]", "#", 2)])
def test_part_without_cuts(shop: Path, old: str, new: str, code: int) -> None:
    """Without a cutter, or with one that cannot form the wheel, there is nothing to correct."""
    text = Path(MM).read_text(encoding="utf-8")
    if code == 3:
        changed(Path(MM), f"included_angle = {old}", f"included_angle = {new}")
    else:
        head, _, rest = text.partition("[[cutter]]")
        Path(MM).write_text(
            head
            + "[setup]"
            + rest.partition("[setup]")[2].replace('cutter = "single-point 60"\n', ""),
            encoding="utf-8",
        )
    assert run("trial", MM, "--land", "0.62").exit_code == code
