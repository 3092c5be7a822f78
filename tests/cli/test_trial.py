"""`trial`: from measured lands to the action to take."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

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
    assert "Feed in 0.160 mm more, from 2.800 mm to 2.960 mm on the dial (zero B)" in action
    assert "zero B; the land says" in text


@pytest.mark.parametrize(("zero", "named"), [("A", "zero A"), ("b", "zero B")])
def test_zero_may_be_named(shop: Path, zero: str, named: str) -> None:
    """`--zero` says which zero of the sheet the dial counts from."""
    text = run("trial", MM, "--land", "0.62", "--dial", "4.9", "--zero", zero).stdout
    assert f"on the dial ({named})" in text.replace("\n  ", " ")


def test_dial_of_the_part_counts(shop: Path) -> None:
    """A dial that reads diameters, in divisions of 0.05, is read and written as it stands."""
    mine = 'dials.y = { division = 0.02, increases = "towards the operator" }'
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
    text = run("trial", MM, "--land", "0.62", "--units", "in", "--dial", "2.2").stdout
    assert "0.0244 in (0.620 mm)" in text
    assert "0.0866 in" in text


def test_asks_when_given_nothing(shop: Path) -> None:
    """Lands and dial are asked for on stderr; what will not do is asked again."""
    done = run("trial", MM, answers="0.024\n0.62\n\n0.1\n2.1\n")
    assert done.exit_code == 0
    assert "Feed in 0.160 mm more, from 2.100 mm to 2.260 mm" in done.stdout
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
