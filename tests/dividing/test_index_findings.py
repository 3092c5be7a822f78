"""What is said of stops on hardware: one rule for those that are not exact, and what would do."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import Any

import pytest

from profilegen.dividing.index_findings import index_findings
from profilegen.dividing.of_part import plan_of
from profilegen.findings.finding import Finding, Remedy, refused
from profilegen.findings.telling import told
from profilegen.job import job_for
from tests.dividing.hardware import PLATES, WHEELS
from tests.parts import Keys, job, part, ratchet, vee


def findings_of(table: Keys, **wheel: Any) -> tuple[Finding, ...]:
    """What is said of the stops of a wheel of 38 mm diameter on hardware, in one lap."""
    keys = ratchet(outside_diameter=38, space_angle=None, root_diameter=37, land=0.2, **wheel)
    found = job(keys, dividing=table).findings
    return tuple(finding for finding in found if finding.code.startswith("index-"))


PLATE40 = {"kind": "plate", "holes": 40}


def test_one_rule_for_stops_that_are_not_exact() -> None:
    """More than a land may be off is refused, less is a caution, and both tell the error in mm. 24
    stops on 40 holes are 5/3 holes each, so that one comes out a whole hole and the next two: 2/3
    of 9 degrees too near, 6 degrees of a radius of 19 mm."""
    motor = {"kind": "motor", "steps": 6400}
    (coarse,), (fine,) = findings_of(PLATE40, teeth=24), findings_of(motor, teeth=24)
    assert (coarse.severity, fine.severity) == ("refused", "caution")
    assert coarse.value == pytest.approx(math.radians(6) * 19)
    assert "1.990 mm" in told(coarse)
    assert fine.value is not None
    assert fine.value == pytest.approx(2 / 3 / 6400 * math.tau * 19)


def test_what_is_allowed_is_listed_with_a_caution() -> None:
    """Only who asks for it gets such a list."""
    part_ = part(ratchet(teeth=24), vee(), dividing=PLATE40)
    made_of = job_for(part_)
    plan = plan_of(part_, made_of.wheel, made_of.plan.frame, made_of.plan.cuts)
    assert [f.severity for f in index_findings(part_, plan)] == ["refused"]
    plan = replace(plan, allowed=True)
    assert [f.severity for f in index_findings(part_, plan)] == ["caution"]
    assert plan.is_listed_inexact
    assert made_of.index.way is None


@pytest.mark.parametrize(
    ("table", "teeth", "advice"),
    [
        (PLATE40, 24, "24, 48 or 72 positions in a turn would be exact: make dividing.holes 24"),
        ({"kind": "notched", "notches": 60}, 17, "17, 34 or 51 positions in a turn would be exact"),
        ({"kind": "worm", "ratio": 40, "plates": [[20]]}, 63, "a multiple of 63 holes would be"),
        ({"kind": "worm", "ratio": 40, "plates": [[20]]}, 84, "a multiple of 21 holes would be"),
        ({"kind": "worm", "ratio": 40}, 21, "a multiple of 21 holes would be"),
        (
            {"kind": "motor", "steps": 400},
            21,
            "a multiple of 21 positions in a turn would be exact",
        ),
    ],
)
def test_the_advice_names_what_would_do(table: Keys, teeth: int, advice: str) -> None:
    """By hand: 40 to 1 and 84 stops are 10/21 of a turn, so 21 holes and their multiples; never is
    another tooth count the advice, and with the first of what is named the finding goes."""
    (found,) = findings_of(table, teeth=teeth)
    assert advice in told(found)
    assert "teeth" not in told(found)
    first = int(re.findall(r"(\d+)(?:, \d+ or \d+)? (?:holes|positions)", told(found))[0])
    better: dict[str, Keys] = {
        "plate": {"holes": first},
        "notched": {"notches": first},
        "worm": {"plates": [[first]]},
        "motor": {"steps": first},
    }
    assert findings_of({**table, **better[table["kind"]]}, teeth=teeth) == ()
    assert found.remedy in (None, Remedy(found.where, first))


@pytest.mark.exhaustive
def test_the_advice_counts_the_turn_between_laps() -> None:
    """24 stops, the second lap 25 degrees off: 25 and 15 degrees go into 72 positions, and into no
    fewer, by trying every plate; on 24 holes the lands are 5 degrees off, 3.9 mm of a diameter of
    90."""
    keys = ratchet(teeth=24, outside_diameter=90, space_angle=70, land=3)
    made_of = job(keys, vee(45), dividing={"kind": "plate", "holes": 24})
    (found,) = [f for f in made_of.findings if f.code == "index-inexact"]
    assert made_of.plan.cuts[1].wheel_angle == pytest.approx(math.radians(-25))
    assert found.value == pytest.approx(math.radians(5) * 45)
    assert "72, 144 or 216 positions in a turn would be exact" in told(found)
    assert found.remedy == Remedy("dividing.holes", 72)
    for holes in range(24, 144):
        of = job(keys, vee(45), dividing={"kind": "plate", "holes": holes})
        said = {f.code for f in of.findings}
        assert ("index-inexact" in said) == (holes != 72)


def test_a_lap_at_an_odd_angle_is_advised_what_comes_within() -> None:
    """Where no plate of a thousand holes is exact, the least that come within what a land may be
    off are named, by trying every plate."""
    keys = ratchet(teeth=20, land=0.4)
    table = {"kind": "notched", "notches": 20}
    found = next(f for f in job(keys, vee(43.217), dividing=table).findings if "index" in f.code)
    named = [int(n) for n in re.findall(r"(\d+), (\d+) or (\d+) positions", told(found))[0]]
    passing = [
        n
        for n in range(20, named[-1] + 1, 20)
        if not refused(job(keys, vee(43.217), dividing={**table, "notches": n}).findings)
    ]
    assert "would keep every land within its limits" in told(found)
    assert named == passing


def test_a_way_that_is_asked_for_follows_the_same_rule() -> None:
    """Of a worm head the second lap suits the circle of 18 and not that of 15: named, the latter is
    refused with the way that is exact, or taken with a caution where it comes within."""
    keys, table = ratchet(space_angle=64.5), {"kind": "worm", "ratio": 40, "plates": [[15, 18]]}
    made_of = job(keys, vee(60), dividing=table)
    assert (made_of.index.exact, made_of.index.number) == (True, 1)
    given = job(keys, vee(60), dividing={**table, "way": 2})
    (found,) = [f for f in given.findings if f.code == "index-inexact"]
    assert (found.severity, given.index.way) == ("refused", None)
    assert "way 1 (plain) is exact: make dividing.way 1" in told(found)
    assert found.remedy == Remedy("dividing.way", 1)
    wide = {"land": "+1 -0.39"}
    given = job(keys, vee(60), dividing={**table, "way": 2}, tolerance=wide)
    (found,) = [f for f in given.findings if f.code == "index-inexact"]
    assert (found.severity, given.index.number) == ("caution", 2)


def test_compound_and_differential_moves_come_with_a_caution() -> None:
    """It tells how the moves are made; a plain way has none."""
    table = {"kind": "worm", "ratio": 40, "plates": PLATES, "change_wheels": WHEELS}
    for teeth, method in ((77, "compound"), (127, "differential"), (30, "plain")):
        said = {f.code: f for f in findings_of(table, teeth=teeth)}
        assert list(said) == ([] if method == "plain" else [f"index-{method}"])
        for found in said.values():
            assert found.severity == "caution"
            assert "pin" in told(found)


def test_more_stops_than_positions() -> None:
    """A plate with fewer holes than stops is refused with what it has and what would do."""
    (found,) = findings_of({"kind": "notched", "notches": 24})
    assert (found.code, found.severity) == ("index-too-coarse", "refused")
    assert "only 24 positions" in told(found)
    assert "30, 60 or 90 positions in a turn would be exact" in told(found)
    assert found.remedy == Remedy("dividing.notches", 30)


@pytest.mark.parametrize(
    ("land", "limit"),
    [
        ("+0.3 -0.3", 0.3),
        ("+0.1 -0.3", 0.1),
        ("+0.3 -0.01", 0.01),
        ("+0.4 -0", 0.2),
        ("-0.1 -0.3", 0.1),
        (None, 0.05),
    ],
)
def test_the_tolerance_of_the_land_is_what_counts(land: str | None, limit: float) -> None:
    """A stop that is off makes one land as much wider as the next narrower: the lesser side counts,
    or half the range of limits that leave the nominal out. 32 stops on 360 are 0.061 mm off."""
    hardware = {"kind": "notched", "notches": 360}
    tolerance = {} if land is None else {"tolerance": {"land": land}}
    made_of = job(ratchet(teeth=32, land=0.4), vee(), dividing=hardware, **tolerance)
    (found,) = [f for f in made_of.findings if f.code == "index-inexact"]
    assert found.limit == pytest.approx(limit)
    assert found.severity == ("caution" if limit > 0.166 else "refused")
