"""Remedies: the key that is blamed is the one that is wrong, and the value written mends it.

What a remedy promises is tried on random parts of every sort, by writing it into the part's tables
and reading, solving and planning them anew. The parts are those that the attack makes.
"""

from __future__ import annotations

import copy
import random
from dataclasses import replace

import pytest

from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding, refused
from profilegen.findings.telling import told, typed
from profilegen.forms.solve import solve
from profilegen.job import job_for
from profilegen.part.part import Part
from profilegen.units import Unit
from tests.attack.dictionaries import plausible_part
from tests.forms.remedies import findings_of, taken
from tests.parts import Keys, ratchet, vee

SEEDS = range(70)


def part(wheel: Keys, units: str = "mm", **tables: object) -> Keys:
    """The tables of a part."""
    return {"units": units, "wheel": wheel, **tables}


def first(tables: Keys) -> Finding:
    """The first finding of a part."""
    return findings_of(tables)[0]


def mended(tables: Keys, found: Finding) -> tuple[Finding, ...]:
    """The findings with the remedy written into the tables."""
    assert found.remedy is not None, found
    value = typed(found.remedy, tables["units"])
    return findings_of(taken(tables, found.remedy.key, value))


def places(findings: tuple[Finding, ...]) -> set[tuple[str, str]]:
    """Code and key of each finding."""
    return {(found.code, found.where) for found in findings}


def findings_or_none(tables: Keys) -> tuple[Finding, ...]:
    """The findings of a part; none when it cannot be read."""
    try:
        return job_for(Part.from_dict(copy.deepcopy(tables))).findings
    except CannotMakeError as refusal:
        return refusal.findings
    except InputError:
        return ()


@pytest.mark.exhaustive
def test_every_remedy_of_random_parts_holds() -> None:
    """With the remedy written the finding is gone and nothing is refused that was not before."""
    tried: set[str] = set()
    for seed in SEEDS:
        tables = plausible_part(random.Random(7_000_000 + seed))
        before = findings_or_none(tables)
        for found in before:
            if found.remedy is not None:
                after = mended(tables, found)
                assert (found.code, found.where) not in places(after), (seed, found)
                assert places(refused(after)) <= places(refused(before)), (seed, found)
                tried.add(found.code)
    assert len(tried) > 12


@pytest.mark.parametrize("diameter", [25.4, 38, 120])
@pytest.mark.parametrize("radius", [3, 8, 20])
def test_a_root_radius_too_big_is_blamed_itself(diameter: float, radius: float) -> None:
    """However the depth is given, the radius that no space holds is the key that is named."""
    depth = 0.04 * diameter
    for given in ({"tooth_depth": depth}, {"root_diameter": diameter - 2 * depth}):
        keys = {**given, "land": None, "outside_diameter": diameter, "root_radius": radius}
        found = first(part(ratchet(**keys)))
        if found.severity != "refused":
            continue
        assert (found.code, found.where) == ("root-too-big", "wheel.root_radius")
        assert not refused(mended(part(ratchet(**keys)), found))


@pytest.mark.parametrize("teeth", [5, 6, 7])
def test_teeth_that_reach_a_plain_bore_are_blamed_and_no_key_that_it_lacks(teeth: int) -> None:
    """A round bore has no keyway; where the roots come down to the axis no bore is small enough,
    so the teeth change."""
    tables = part(ratchet(teeth=teeth), bore={"kind": "round", "diameter": 8})
    found = first(tables)
    assert "key_" not in told(found)
    assert found.where.startswith("wheel." if teeth < 7 else ("wheel.", "bore."))
    assert not refused(mended(tables, found))


@pytest.mark.parametrize("diameter", [12, 38, 150])
@pytest.mark.parametrize(
    "given",
    [
        {},
        {"hook_angle": 10},
        {"hook_angle": -10},
        {"root_radius": 0},
        {"space_angle": None, "root_diameter": 10},
        {"land": None, "tooth_depth": 7},
        {"land": None, "tooth_depth": 3},
    ],
)
def test_three_teeth_are_told_a_value_that_passes(diameter: float, given: Keys) -> None:
    """Every refusal of three teeth has a remedy that leaves none."""
    tables = part(ratchet(teeth=3, outside_diameter=diameter, **given))
    found = refused(findings_of(tables))
    if found:
        assert not refused(mended(tables, found[0]))


@pytest.mark.parametrize("diameter", [3, 8, 9.9, 10, 40])
@pytest.mark.parametrize("zero", [0, "0", "0 in"])
def test_no_land_is_told_with_the_least_land(diameter: float, zero: object) -> None:
    """0.2 mm, or 2 % of a diameter under 10 mm, in one sentence; written, nothing objects to it."""
    keys = {"outside_diameter": diameter, "root_radius": None, "thickness": 0.1 * diameter}
    tables = part(ratchet(land=zero, **keys))
    (found,) = refused(findings_of(tables))
    least = 0.2 if diameter >= 10 else 0.02 * diameter
    assert found.where == "wheel.land"
    assert told(found).endswith(f"make wheel.land at least {least:.3f} mm")
    assert ". " not in told(found)
    assert "land-thin" not in {one.code for one in mended(tables, found)}


@pytest.mark.parametrize(
    ("wheel", "units", "key", "value"),
    [
        (ratchet(outside_diameter=1.5748), "mm", "outside_diameter", "1.5748 in"),
        (ratchet(outside_diameter=1.5748, root_radius=None), "mm", "outside_diameter", "1.5748 in"),
        (ratchet(thickness=0.125), "mm", "thickness", "0.125 in"),
        (ratchet(land=0.016), "mm", "land", "0.016 in"),
        (
            ratchet(outside_diameter=38, thickness=0.15, land=0.016, root_radius=0.01),
            "in",
            "outside_diameter",
            "38 mm",
        ),
        (
            ratchet(outside_diameter=1.5, thickness=4, land=0.016, root_radius=0.01),
            "in",
            "thickness",
            "4 mm",
        ),
        (
            ratchet(outside_diameter=1.5, thickness=0.15, land=0.4, root_radius=0.01),
            "in",
            "land",
            "0.4 mm",
        ),
    ],
)
def test_one_size_in_the_other_unit_is_named(
    wheel: Keys, units: Unit, key: str, value: str
) -> None:
    """A size typed in the other unit is told with its own number and that unit, the caution or the
    refusal that it makes goes, and nothing else comes."""
    tables = part(wheel, units)
    (found,) = [one for one in findings_of(tables) if one.code == "size-unit" and one.remedy]
    assert found.remedy is not None
    assert (found.remedy.key, typed(found.remedy, units)) == (f"wheel.{key}", value)
    after = mended(tables, found)
    assert not {one.code for one in after} & {"size-unit", "land-thin", "thickness-low"}
    assert not refused(after)


@pytest.mark.parametrize(("units", "by"), [("mm", 1 / 25.4), ("in", 1.0)])
def test_a_whole_wheel_in_the_other_unit_is_a_caution(units: str, by: float) -> None:
    """All sizes of a wheel of 40 mm typed in inches in a file in mm, or the reverse: a caution that
    names units; with them changed it is gone."""
    sizes = {"outside_diameter": 40, "thickness": 4, "land": 0.4, "root_radius": 0.2}
    wheel = ratchet(**{key: size * by for key, size in sizes.items()})
    (found,) = [one for one in findings_of(part(wheel, units)) if one.code == "size-unit"]
    assert (found.severity, found.where) == ("caution", "units")
    other = "in" if units == "mm" else "mm"
    assert f'make units "{other}"' in told(found)
    assert "size-unit" not in {one.code for one in findings_of(part(wheel, other))}


@pytest.mark.parametrize(("units", "diameter"), [("mm", 4), ("mm", 8), ("in", 0.5), ("in", 14)])
def test_a_wheel_of_a_usual_size_has_no_word_about_units(units: str, diameter: float) -> None:
    """Small watch wheels and big ones for a winch are what they are."""
    sizes = {"land": 0.02, "thickness": 0.1, "root_radius": 0.005}
    wheel = ratchet(
        outside_diameter=diameter, **{key: size * diameter for key, size in sizes.items()}
    )
    assert "size-unit" not in {one.code for one in findings_of(part(wheel, units))}


def test_a_tip_too_blunt_for_a_root_flat_names_no_root_radius() -> None:
    """A root is round or flat, never both: the advice keeps to the one that the print has."""
    wheel = ratchet(root_radius=None, root_flat=0.1)
    found = refused(findings_of(part(wheel, cutter=[vee(tip_radius=0.4)])))[0]
    assert found.code == "root-too-tight"
    assert "root_radius" not in told(found)
    assert "wheel.root_flat bigger" in told(found)


@pytest.mark.parametrize("kind", ["ratchet", "serrated"])
def test_what_is_said_of_a_wheel_does_not_depend_on_a_drawer(kind: str) -> None:
    """A cutter of the part itself says how big a root may be told; one of a drawer does not."""
    wheel = ratchet(root_radius=None)
    if kind == "serrated":
        wheel = {key: wheel[key] for key in wheel if key not in ("hook_angle", "rotation")}
        wheel["kind"] = kind
    bare = Part.from_dict(part(wheel))
    own = Part.from_dict(part(wheel, cutter=[vee(tip_radius=0.5)]))
    drawn = replace(own, cutters_from="shop.toml")
    assert solve(drawn).findings == solve(bare).findings
    assert solve(own).findings != solve(bare).findings
