"""Every finding of wheels and cutting: a part that has it, a neighbour that has not, its cure.

The limits are common practice, no published source; what stands here is that they are kept, and
that the value which a message names is one that passes.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import replace

import pytest

from profilegen.cutting.plunge import deepest_plunge
from profilegen.cutting.poses import NoPose, cuts_for
from profilegen.cutting.profile import Profile
from profilegen.cutting.wedge import Wedge
from profilegen.findings.finding import Finding
from profilegen.findings.telling import told
from profilegen.geometry.chain import chain
from tests.findings.made import made
from tests.forms.remedies import advice_of, codes_of, findings_of, taken
from tests.parts import Keys, double, job, ratchet, single, vee


def tables(wheel: Keys | None = None, *cutters: Keys, **more: object) -> Keys:
    """The tables of a part in mm."""
    cutter = {"cutter": list(cutters)} if cutters else {}
    return {"units": "mm", "wheel": wheel or ratchet(), **cutter, **more}


def deep(**changes: object) -> Keys:
    """A ratchet by space angle and depth."""
    return ratchet(**{"land": None, "tooth_depth": 2.0, **changes})


def by_land(**changes: object) -> Keys:
    """A ratchet by land and root diameter."""
    return ratchet(**{"space_angle": None, "root_diameter": 22.0, **changes})


def sprocket(**changes: object) -> Keys:
    """A sprocket of 17 teeth for a small chain."""
    return {"kind": "sprocket", "teeth": 17, "thickness": 4, "chain": "06B", **changes}


def gear(**changes: object) -> Keys:
    """A gear of module 1 and 20 teeth."""
    return {"kind": "spur-gear", "teeth": 20, "thickness": 6, "module": 1, **changes}


def form_cut(**changes: object) -> Keys:
    """The same, as a cutter of a set makes it."""
    return gear(kind="form-cut-gear", **changes)


def clock(**changes: object) -> Keys:
    """A clock wheel of module 1 and 60 teeth for a pinion of 8 leaves."""
    wheel = {"kind": "clock-wheel", "teeth": 60, "thickness": 2, "module": 1, "mate_teeth": 8}
    return {key: value for key, value in (wheel | changes).items() if value is not None}


def pinion(**changes: object) -> Keys:
    """A clock pinion of module 1 and 8 leaves for a wheel of 60 teeth."""
    keys = {"kind": "clock-pinion", "teeth": 8, "thickness": 5, "mate_teeth": 60}
    return clock(**(keys | changes))


def holes(count: int, circle: float, diameter: float) -> Keys:
    """One circle of holes."""
    return {"count": count, "circle_diameter": circle, "diameter": diameter}


def hub(diameter: float) -> Keys:
    """A hub on the front."""
    return {"diameter": diameter, "length": 5, "side": "front"}


def bore(kind: str, **keys: object) -> Keys:
    """A bore."""
    return {"kind": kind, **keys}


def flat_tip(angle: float, width: float) -> Keys:
    """A symmetric cutter with a flat tip."""
    return {"name": "vee", "kind": "vee", "included_angle": angle, "tip_flat": width}


FLY: Keys = {"sweep_diameter": 12, "relief_angle": 7, "edge_thickness": 3.97}
"""A tool bit spun on a small circle."""

ROUND, SIX = bore("round", diameter=8), holes(6, 16, 2)

CASES: list[tuple[str, Keys, Keys]] = [
    ("thickness-low", tables(ratchet(thickness=0.3)), tables()),
    ("thickness-high", tables(ratchet(thickness=40)), tables(ratchet(thickness=10))),
    ("land-thin", tables(ratchet(land=0.19)), tables(ratchet(land=0.2))),
    (
        "land-thin",
        tables(ratchet(outside_diameter=8, land=0.15, root_radius=0.05)),
        tables(ratchet(outside_diameter=8, land=0.16, root_radius=0.05)),
    ),
    ("land-thin", tables(deep(tooth_depth=1.60)), tables(deep(tooth_depth=1.50))),
    (
        "land-thin",
        tables(deep(tooth_depth=None, root_diameter=22.2)),
        tables(deep(tooth_depth=None, root_diameter=22.4)),
    ),
    ("hook-negative", tables(ratchet(hook_angle=-1)), tables(ratchet(hook_angle=0))),
    ("hook-steep", tables(ratchet(hook_angle=16)), tables(ratchet(hook_angle=15))),
    (
        "tooth-slender",
        tables(ratchet(teeth=12, hook_angle=10, space_angle=20, land=3)),
        tables(ratchet(teeth=12, hook_angle=0, space_angle=60, land=3)),
    ),
    (
        "back-dips",
        tables(ratchet(hook_angle=30, land=1, root_radius=None)),
        tables(ratchet(hook_angle=15, land=1, root_radius=None)),
    ),
    ("root-sharp", tables(ratchet(root_radius=None)), tables()),
    ("root-too-big", tables(ratchet(root_radius=2)), tables()),
    (
        "root-too-big",
        tables(ratchet(root_radius=None, root_flat=3)),
        tables(ratchet(root_radius=None, root_flat=0.3)),
    ),
    ("land-gone", tables(deep(tooth_depth=4)), tables(deep(tooth_depth=1.4))),
    ("space-gone", tables(ratchet(land=3)), tables()),
    ("land-gone", tables(ratchet(land=0)), tables(ratchet(land=0.2))),
    ("flanks-miss", tables(ratchet(teeth=6, hook_angle=30, space_angle=140)), tables()),
    (
        "root-below-axis",
        tables(ratchet(teeth=6, hook_angle=-30)),
        tables(ratchet(teeth=6, hook_angle=-30, space_angle=100)),
    ),
    ("root-below-axis", tables(deep(tooth_depth=13)), tables(deep(tooth_depth=1))),
    ("root-below-face", tables(by_land(hook_angle=30, root_diameter=10)), tables(by_land())),
    ("root-outside-blank", tables(by_land(root_diameter=25.4)), tables(by_land())),
    ("root-outside-blank", tables(by_land(root_diameter=30, root_radius=None)), tables(by_land())),
    (
        "root-unreachable",
        tables(by_land(teeth=6, hook_angle=-44, land=1, root_diameter=24.8, root_radius=None)),
        tables(by_land(teeth=6, hook_angle=0, land=1, root_diameter=20, root_radius=None)),
    ),
    (
        "teeth-overlap",
        tables(ratchet(teeth=3, hook_angle=30, space_angle=100, land=0.3)),
        tables(ratchet(teeth=30, hook_angle=10, space_angle=60, land=0.3)),
    ),
    ("gear-undercut", tables(gear(teeth=12)), tables(gear(teeth=18))),
    ("gear-undercut", tables(gear(teeth=3)), tables(gear(teeth=12, profile_shift=0.3))),
    (
        "gear-interference",
        tables(gear(rack={"addendum": 1, "dedendum": 1.1, "tip_radius": 0.4})),
        tables(gear(rack={"addendum": 1, "dedendum": 1.25, "tip_radius": 0.38})),
    ),
    ("gear-bottoms", tables(gear(outside_diameter=22.6)), tables(gear(outside_diameter=22.4))),
    ("tip-thin", tables(gear(teeth=10, profile_shift=0.6)), tables(gear(profile_shift=0.4))),
    ("tip-past-point", tables(gear(outside_diameter=30)), tables(gear(outside_diameter=22))),
    ("tip-past-point", tables(gear(profile_shift=2)), tables(gear(teeth=100, profile_shift=2))),
    ("tooth-gone", tables(gear(thinning=1.6)), tables(gear(thinning=0.4))),
    ("flank-gone", tables(gear(outside_diameter=18.8)), tables(gear(outside_diameter=18.9))),
    ("root-below-axis", tables(gear(teeth=2)), tables(gear(teeth=3))),
    (
        "undercut-through",
        tables(gear(teeth=3, profile_shift=1.75, pressure_angle=14.5)),
        tables(gear(teeth=4, pressure_angle=14.5)),
    ),
    ("addendum-corner", tables(clock(teeth=6)), tables(clock())),
    ("mate-missing", tables(clock(mate_teeth=None)), tables(clock())),
    ("clock-teeth-few", tables(clock(teeth=3)), tables(clock(teeth=8))),
    ("leaves-few", tables(clock(mate_teeth=5)), tables(clock())),
    (
        "leaves-few",
        tables(pinion(teeth=5, dedendum_factor=1.8)),
        tables(pinion(teeth=6, dedendum_factor=1.8)),
    ),
    ("ten-leaves", tables(pinion(teeth=10)), tables(pinion(teeth=10, leaf_width=1.25))),
    (
        "ten-leaves",
        tables(pinion(teeth=10, proportions="BS 978-2")),
        tables(pinion(teeth=8, proportions="BS 978-2")),
    ),
    ("arc-past-tip", tables(pinion(leaf_width=2)), tables(pinion(leaf_width=1.25))),
    (
        "arc-short",
        tables(pinion(leaf_width=2, addendum_factor=0.4, leaf_form="semicircular")),
        tables(pinion(leaf_width=1.05, addendum_factor=0.525, leaf_form="semicircular")),
    ),
    ("space-filled", tables(clock(tooth_thickness=3.2)), tables(clock(tooth_thickness=1.6))),
    (
        "root-over-pitch",
        tables(pinion(dedendum_factor=0.8, leaf_width=0.5, root_form="round")),
        tables(pinion(dedendum_factor=1.9, root_form="round")),
    ),
    (
        "root-below-axis",
        tables(pinion(teeth=4, dedendum_factor=2.2)),
        tables(pinion(teeth=4, dedendum_factor=1.6)),
    ),
    ("cutter-range", tables(gear(teeth=11)), tables(gear(teeth=12))),
    ("flank-proud", tables(form_cut(made_for=26)), tables(form_cut(made_for=20))),
    ("cutter-hollow", tables(form_cut(teeth=13)), tables(form_cut(teeth=17))),
    ("shift-by-depth", tables(form_cut(profile_shift=0.2)), tables(form_cut())),
    ("shift-by-depth", tables(form_cut(profile_shift=-0.2)), tables(form_cut())),
    ("tip-low", tables(sprocket(tip_diameter=54)), tables(sprocket(tip_diameter=54.2))),
    ("tip-high", tables(sprocket(tip_diameter=57.5)), tables(sprocket(tip_diameter=57.3))),
    ("tip-below-seat", tables(sprocket(tip_diameter=46)), tables(sprocket(tip_diameter=55))),
    ("teeth-few", tables(sprocket(teeth=8)), tables(sprocket(teeth=9))),
    ("teeth-many", tables(sprocket(teeth=151)), tables(sprocket(teeth=150))),
    ("chain-rough", tables(sprocket(teeth=16)), tables(sprocket())),
    ("teeth-wide", tables(sprocket(thickness=5.4)), tables(sprocket(thickness=5.3))),
    (
        "hub-under-chain",
        tables(sprocket(), hub={"diameter": 42, "length": 6, "side": "front"}),
        tables(sprocket(), hub={"diameter": 41, "length": 6, "side": "front"}),
    ),
    ("seats-drilled", tables(sprocket()), tables(gear())),
    ("bore-breaks-out", tables(bore=bore("round", diameter=23)), tables(bore=ROUND)),
    (
        "tolerance-unused",
        tables(tolerance={"key_width": "P9"}),
        tables(tolerance={"land": "0.05"}),
    ),
    (
        "tolerance-unused",
        tables(bore=ROUND, tolerance={"across_flats": "H11"}),
        tables(bore=ROUND, tolerance={"bore_diameter": "H7"}),
    ),
    ("size-unit", tables(ratchet(outside_diameter=1.5748)), tables(ratchet(outside_diameter=40))),
    ("size-unit", tables(ratchet(thickness=0.1575)), tables(ratchet(thickness=4))),
    (
        "bore-breaks-out",
        tables(ratchet(teeth=6), bore=bore("round", diameter=6)),
        tables(ratchet(teeth=12), bore=bore("round", diameter=6)),
    ),
    (
        "bore-breaks-out",
        tables(bore=bore("keyed", diameter=18, key_width=6, key_depth=4)),
        tables(bore=bore("keyed", diameter=12, key_width=4, key_depth=1.8)),
    ),
    (
        "bore-impossible",
        tables(bore=bore("square", across_flats=8, corner_radius=4)),
        tables(bore=bore("square", across_flats=8, corner_radius=3.9)),
    ),
    (
        "bore-impossible",
        tables(bore=bore("keyed", diameter=8, key_width=8, key_depth=1)),
        tables(bore=bore("keyed", diameter=8, key_width=3, key_depth=1)),
    ),
    (
        "bore-impossible",
        tables(bore=bore("d-bore", diameter=8, flat_to_far_side=8.5)),
        tables(bore=bore("d-bore", diameter=8, flat_to_far_side=7)),
    ),
    ("web-thin", tables(bore=bore("round", diameter=20.5)), tables(bore=ROUND)),
    (
        "web-thin",
        tables(bore=bore("hexagon", across_flats=18, corner_radius=0.2)),
        tables(bore=bore("hexagon", across_flats=12, corner_radius=0.2)),
    ),
    ("web-thin", tables(holes=[holes(6, 19.5, 2)]), tables(holes=[SIX])),
    ("web-thin", tables(bore=ROUND, holes=[holes(6, 11, 2)]), tables(bore=ROUND, holes=[SIX])),
    ("web-thin", tables(holes=[holes(8, 12, 4)]), tables(holes=[SIX])),
    ("web-thin", tables(holes=[holes(12, 4.2, 0.5)]), tables(holes=[holes(5, 4.2, 0.5)])),
    ("hole-breaks-out", tables(holes=[holes(6, 22, 2)]), tables(holes=[SIX])),
    (
        "hole-breaks-out",
        tables(bore=ROUND, holes=[holes(6, 9, 2)]),
        tables(bore=ROUND, holes=[SIX]),
    ),
    (
        "hole-breaks-out",
        tables(bore=bore("round", diameter=16), holes=[holes(2, 9, 1)]),
        tables(bore=bore("round", diameter=6), holes=[holes(2, 14, 1)]),
    ),
    ("hole-breaks-out", tables(holes=[holes(20, 16, 3)]), tables(holes=[SIX])),
    ("holes-meet", tables(holes=[SIX, holes(3, 14, 1.5)]), tables(holes=[SIX, holes(3, 9, 1.5)])),
    ("hub-gone", tables(bore=ROUND, hub=hub(8)), tables(bore=ROUND, hub=hub(12))),
    ("hub-in-the-way", tables(hub=hub(24)), tables(hub=hub(20))),
    ("hole-at-hub", tables(hub=hub(15), holes=[SIX]), tables(hub=hub(12), holes=[SIX])),
    ("no-cutter", tables(), tables(None, vee())),
    ("cutter-too-wide", tables(None, vee(61)), tables(None, vee(60))),
    ("cutter-too-wide", tables(None, double(20, 50)), tables(None, double(12, 48))),
    ("island-left", tables(None, vee(19.9)), tables(None, vee(20))),
    ("island-left", tables(None, single(19.9)), tables(None, single(20))),
    ("root-too-tight", tables(None, vee(tip_radius=0.21)), tables(None, vee(tip_radius=0.2))),
    ("root-too-tight", tables(None, flat_tip(60, 0.5)), tables(None, flat_tip(60, 0.3))),
    (
        "root-not-exact",
        tables(ratchet(root_exact=True), vee(tip_radius=0.15)),
        tables(ratchet(root_exact=True), vee(tip_radius=0.2)),
    ),
    (
        "root-not-exact",
        tables(ratchet(root_exact=True), flat_tip(60, 0.1)),
        tables(ratchet(root_exact=True), vee()),
    ),
    ("edge-short", tables(None, vee(edge_length=0.1)), tables(None, vee(edge_length=4))),
    ("edge-short", tables(None, vee(edge_length=1.5)), tables(None, vee(edge_length=4))),
    ("edge-short", tables(None, vee(body_width=0.2)), tables(None, vee(body_width=6))),
    ("edge-short", tables(None, vee(body_width=1.5)), tables(None, vee(body_width=6))),
    (
        "hand-contradiction",
        tables(None, single(), setup={"flat": "up"}),
        tables(None, single(), setup={"flat": "down"}),
    ),
    (
        "tip-assumed-sharp",
        tables(None, vee(tip_radius=None)),
        tables(None, vee(tip_radius=0)),
    ),
    ("root-deeper", tables(None, vee(tip_radius=0.1)), tables(None, vee(tip_radius=0.2))),
    (
        "root-deeper",
        tables(ratchet(root_radius=None, root_flat=0.3), vee(tip_radius=0.1)),
        tables(ratchet(root_radius=None, root_flat=0.3), flat_tip(60, 0.3)),
    ),
    (
        "root-rounded",
        tables(ratchet(root_radius=None), vee()),
        tables(ratchet(root_radius=None), vee(tip_radius=0)),
    ),
    (
        "root-rounded",
        tables(ratchet(root_radius=None), flat_tip(60, 0.2)),
        tables(ratchet(root_radius=None, root_flat=0.2), flat_tip(60, 0.2)),
    ),
    (
        "heel-rubs",
        tables(None, vee(**FLY)),
        tables(None, vee(**{**FLY, "sweep_diameter": 30})),
    ),
    (
        "heel-rubs",
        tables(None, vee(**{**FLY, "relief_angle": 0, "sweep_diameter": 40})),
        tables(None, vee(**{**FLY, "relief_angle": 12, "sweep_diameter": 40})),
    ),
    (
        "relief-tight",
        tables(None, vee(**{**FLY, "relief_angle": 6, "sweep_diameter": 30})),
        tables(None, vee(**{**FLY, "relief_angle": 8, "sweep_diameter": 30})),
    ),
    ("two-laps", tables(None, vee(45)), tables(None, vee(60))),
    (
        "cut-pulls-out",
        tables(None, vee(), setup={"cutter_side": "in front", "head": "left"}),
        tables(None, vee(), setup={"cutter_side": "behind", "head": "left"}),
    ),
    (
        "cutter-leaves",
        tables(None, {"name": "slot", "kind": "slot", "width": 0.8}),
        tables(None, {"name": "slot", "kind": "slot", "width": 0.8}, setup={"accept": 5}),
    ),
    (
        "cutter-usable",
        tables(None, {"name": "slot", "kind": "slot", "width": 0.8}, setup={"accept": 5}),
        tables(None, {"name": "slot", "kind": "slot", "width": 0.8}),
    ),
    (
        "cutter-usable",
        tables(None, vee(tip_radius=0.21), setup={"accept": 0.05}),
        tables(None, vee(tip_radius=0.2), setup={"accept": 0.05}),
    ),
    (
        "root-too-tight",
        tables(None, vee(tip_radius=0.3), setup={"accept": 0.05}),
        tables(None, vee(tip_radius=0.21), setup={"accept": 0.05}),
    ),
    (
        "feeler-thick",
        tables(None, vee(), setup={"feeler": 1.27}),
        tables(None, vee(), setup={"feeler": 0.05}),
    ),
    (
        "blank-unit",
        tables(None, vee(), blank={"diameter": 1.0}),
        tables(None, vee(), blank={"diameter": "1 in"}),
    ),
    (
        "holder-touches",
        tables(None, vee(sweep_diameter=30, holder_diameter=26)),
        tables(None, vee(sweep_diameter=30, holder_diameter=20)),
    ),
    (
        "jaws-in-the-way",
        tables(None, vee(sweep_diameter=30), hub={**hub(12), "side": "back"}),
        tables(None, vee(sweep_diameter=30), hub=hub(12)),
    ),
    (
        "edge-off-line",
        tables(None, vee(**{**FLY, "edge_ahead": 3})),
        tables(None, vee(**{**FLY, "edge_ahead": 0.3})),
    ),
    ("plain-wheel", tables(None, vee()), tables(None, vee(), hub=hub(12))),
    (
        "flat-unused",
        tables(None, vee(), setup={"flat": "up"}),
        tables(None, single(), setup={"flat": "down"}),
    ),
    ("blank-differs", tables(None, vee(), blank={"diameter": 25.3}), tables(None, vee())),
    *(
        (code, tables(None, vee(), blank={"diameter": size}), tables(None, vee()))
        for code, size in (("blank-small", 25.2), ("blank-large", 25.5))
    ),
    (
        "blank-refused",
        tables(deep(tooth_depth=1.4), vee(), blank={"diameter": 14}),
        tables(deep(tooth_depth=1.4), vee(), blank={"diameter": 25.3}),
    ),
    (
        "blank-runs-out",
        tables(None, vee(), blank={"run_out": 0.05}),
        tables(None, vee(), blank={"run_out": 0.02}),
    ),
    (
        "stick-out-long",
        tables(None, vee(sweep_diameter=30), blank={"count": 12}),
        tables(None, vee(sweep_diameter=30), blank={"count": 3}),
    ),
    (
        "speed-capped",
        tables(None, vee(sweep_diameter=8, teeth=1), material="leaded brass"),
        tables(None, vee(sweep_diameter=30, teeth=1), material="leaded brass"),
    ),
    (
        "speed-capped",
        tables(None, vee(sweep_diameter=8, teeth=1), material="brass"),
        tables(None, vee(sweep_diameter=8, teeth=1), material="brass", setup={"speed_limit": 900}),
    ),
    (
        "cutter-soft",
        tables(None, vee(material="silver steel"), material="mild steel"),
        tables(None, vee(material="silver steel"), material="brass"),
    ),
    (
        "metal-hardened",
        tables(None, vee(), material="silver steel, hardened"),
        tables(None, vee(), material="silver steel, to be hardened after cutting"),
    ),
    (
        "metal-hardened",
        tables(None, vee(material="high-speed steel"), material="tool steel, 60 HRC"),
        tables(None, vee(material="carbide"), material="tool steel, 60 HRC"),
    ),
]

SAID_ELSEWHERE = {
    "groove-unknown",
    "cutter-needless",
    "form-without-teeth",
    "blank-fixed",
    "flank-curved",
    "cutter-misses",
    "cutter-cannot-enter",
    "land-unreachable",
    "cutter-chosen",
    "pin-none",
    "pin-not-seated",
}
"""Codes that no ratchet alone can have; they have a test of their own, here or elsewhere."""

NO_CURE_NEEDED = {
    "seats-drilled",
    "no-cutter",
    "two-laps",
    "cut-pulls-out",
    "plain-wheel",
    "flat-unused",
    "holes-meet",
    "speed-capped",
    "cutter-soft",
    "cutter-usable",
    "cutter-hollow",
    "shift-by-depth",
    "metal-hardened",
    "tolerance-unused",
    "addendum-corner",
    "mate-missing",
    "ten-leaves",
}
"""Codes whose message names a thing to do and no value."""

ids = [f"{code}-{number}" for number, (code, _, _) in enumerate(CASES)]


@pytest.mark.parametrize(("code", "bad", "good"), CASES, ids=ids)
def test_the_one_has_it_and_its_neighbour_has_not(code: str, bad: Keys, good: Keys) -> None:
    """A part just past the limit has the finding and its neighbour within has not; value and limit
    of every finding are numbers that JSON can hold, or nothing."""
    told, well = findings_of(bad), findings_of(good)
    assert code in {found.code for found in told}
    assert code not in {found.code for found in well}
    for found in (*told, *well):
        for number in (found.value, found.limit):
            assert number is None or math.isfinite(number), found


@pytest.mark.parametrize(("code", "bad", "good"), CASES, ids=ids)
def test_where_is_a_key_of_the_part_file(code: str, bad: Keys, good: Keys) -> None:
    """A finding names the key to change, and its message names that key or a table."""
    (found,) = [finding for finding in findings_of(bad) if finding.code == code][:1]
    assert found.where.split(".")[0].split("[")[0] in {
        "wheel",
        "bore",
        "holes",
        "hub",
        "cutter",
        "setup",
        "blank",
        "material",
        "tolerance",
    }
    assert told(found)
    assert not told(found).endswith(".")
    assert found.where in told(found) or found.code in NO_CURE_NEEDED
    del good


CURED = [(code, bad) for code, bad, _ in CASES if code not in NO_CURE_NEEDED]


def named_value(bad: Keys, code: str) -> tuple[Finding, tuple[str, object] | None]:
    """The first finding of a code and what it tells to do."""
    found = next(finding for finding in findings_of(bad) if finding.code == code)
    return found, advice_of(found)


@pytest.mark.parametrize(("code", "bad"), CURED, ids=[f"{c}-{n}" for n, (c, _) in enumerate(CURED)])
def test_the_value_named_passes(code: str, bad: Keys) -> None:
    """Done as the message says, to the digits printed, the finding is gone."""
    found, advice = named_value(bad, code)
    if advice is None:
        assert code in {
            "tip-assumed-sharp",
            "teeth-overlap",
            "blank-unit",
            "undercut-through",
        } or "angles add up" in told(found)
        return
    after = findings_of(taken(bad, *advice))
    assert not [one for one in after if (one.code, one.where) == (found.code, found.where)]


def grid() -> Iterator[Keys]:
    """Ratchets and bores all over what a part file allows, most of them faulty."""
    hooks, angles, lands = (-30, -8, 0, 14, 30), (20, 60, 100, 140), (0.1, 0.4, 3)
    for teeth, hook, angle, land in itertools.product((4, 12, 30), hooks, angles, lands):
        yield tables(ratchet(teeth=teeth, hook_angle=hook, space_angle=angle, land=land))
    for teeth, hook, angle, depth in itertools.product(
        (6, 30), (-20, 0, 20), (40, 70), (0.5, 2, 8)
    ):
        yield tables(deep(teeth=teeth, hook_angle=hook, space_angle=angle, tooth_depth=depth))
    for kind, flats, corner in itertools.product(("square", "hexagon"), (8, 14.7, 18), (0, 0.5, 7)):
        yield tables(bore=bore(kind, across_flats=flats, corner_radius=corner))
    for count, circle, size in itertools.product((1, 4, 12), (4, 9, 14, 20, 22), (1, 3, 6)):
        yield tables(bore=ROUND, holes=[holes(count, circle, size)])
        yield tables(hub=hub(12), holes=[holes(count, circle, size)])
    for opening, nose, edge in itertools.product(
        (20, 33.3, 47, 66.6), (0.05, 0.31, 0.7), (0.3, 1.4)
    ):
        yield tables(None, vee(opening, tip_radius=nose, edge_length=edge))
        yield tables(None, single(opening, tip_radius=nose, body_width=edge))


@pytest.mark.exhaustive
def test_values_named_pass_everywhere() -> None:
    """All over the grid what a message tells to do takes the finding away.

    A web has several causes: there, cured or not, the cure must not bring the same finding back.
    """
    tried = 0
    for bad in grid():
        for found in findings_of(bad):
            advice = advice_of(found)
            if advice is None:
                continue
            tried += 1
            after = findings_of(taken(bad, *advice))
            same = [
                told(one) for one in after if (one.code, one.where) == (found.code, found.where)
            ]
            assert told(found) not in same, (bad, told(found))
            assert not same or found.code in {"web-thin", "hole-breaks-out"}, (told(found), same)
    assert tried > 300


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("thickness", [0.3, 0.7123])
def test_printed_limit_is_rounded_to_the_passing_side(units: str, thickness: float) -> None:
    """A limit that does not end at the last printed digit is rounded to where it passes."""
    bad = tables(ratchet(teeth=17, thickness=f"{thickness} mm", land="0.4123 mm"))
    bad["wheel"] |= {"outside_diameter": "33.333 mm", "root_radius": "0.2 mm"}
    bad["units"] = units
    _, advice = named_value(bad, "thickness-low")
    assert advice is not None
    assert "thickness-low" not in codes_of(taken(bad, *advice))


def test_curved_flank_is_refused() -> None:
    """A wedge forms straight flanks only."""
    wheel = job(ratchet()).wheel
    curved = replace(wheel, toothing=replace(wheel.space, back=None))
    with pytest.raises(NoPose) as refusal:
        cuts_for(curved, Wedge("v", "vee", 0.5, 0.5))
    assert refusal.value.code == "flank-curved"


def test_cutter_that_misses_is_refused() -> None:
    """A pose beside the blank is no cut."""
    wheel = replace(job(ratchet(root_radius=None)).wheel, radius=0.001)
    half = wheel.space.angle / 2
    with pytest.raises(NoPose) as refusal:
        cuts_for(wheel, Wedge("v", "vee", half, half))
    assert refusal.value.code == "cutter-misses"


def test_cutter_that_cannot_enter_is_refused() -> None:
    """A broad flat cutter stops at the crests."""
    edge = chain([30 + 40j, 30, -30, -30 + 40j])
    with pytest.raises(NoPose) as refusal:
        deepest_plunge(job(ratchet()).wheel, Profile("broad", "slot", edge))
    assert refusal.value.code == "cutter-cannot-enter"


def codes_in_source() -> set[str]:
    """Every code of the rooms of wheels and cutting; pins have their own tests."""
    rooms = [one for one in made("forms", "cutting", "setting", "gauging") if one.maker != "Phrase"]
    pins = {code for one in rooms if one.maker == "BadPin" for code in one.codes}
    return {code for one in rooms for code in one.codes} - pins


def test_every_code_has_a_case() -> None:
    """A code without a part that has it fails here, and a case whose code is gone."""
    assert codes_in_source() == {code for code, _, _ in CASES} | SAID_ELSEWHERE


@pytest.mark.parametrize("hook", [-5, 0, 12])
@pytest.mark.parametrize("given", [{"tooth_depth": 4}, {"root_diameter": 17}])
def test_a_land_that_is_gone_is_cured_by_the_nearest_root(given: Keys, hook: int) -> None:
    """The root named leaves the least land that survives; 0.02 mm deeper it is thinner."""
    bad = tables(deep(**{"tooth_depth": None, "hook_angle": hook, **given}))
    found, advice = named_value(bad, "land-gone")
    assert advice is not None, told(found)
    key, value = advice
    assert not codes_of(taken(bad, key, value)) & {"land-gone", "land-thin"}
    deeper = float(str(value).split()[0]) + (0.02 if key.endswith("depth") else -0.02)
    assert "land-thin" in codes_of(taken(bad, key, deeper))
