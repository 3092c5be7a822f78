"""The contract for programs: the dictionary of a job, key for key."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest

import profilegen
from profilegen.drawing.marks import Sheet
from profilegen.geometry.moves import moved
from profilegen.geometry.moves import rotation as rotation_by
from profilegen.sheets.setup_sheet import setup_sheets
from tests.geometry.oracles import polygon
from tests.parts import Keys, double, job, ratchet, single, vee

CONTRACT: dict[str, list[str]] = {
    "wheel": [
        "kind",
        "teeth",
        "angular_pitch",
        "outside_diameter",
        "root_diameter",
        "vertex_diameter",
        "tooth_depth",
        "land",
        "space_angle",
        "hook_angle",
        "rotation",
        "thickness",
    ],
    "outline": ["area", "perimeter", "segments", "fit_error"],
    "cuts": [
        "cutter",
        "forms",
        "lap",
        "wheel_angle",
        "offset",
        "tip_offset",
        "tip_height",
        "apex_height",
        "radial_depth",
        "infeed_from_top",
        "infeed_from_offset",
    ],
    "stops": ["stop", "lap", "angle"],
    "setup": ["hand_at_free_end", "enters_at", "pushes"],
    "touch_off": ["zero", "axis", "direction", "amount", "lap", "route"],
    "passes": ["lap", "pass", "kind", "spaces", "infeed"],
    "findings": ["code", "severity", "message", "where", "value", "limit", "remedy"],
}
"""The keys that programs may rely on, in their order."""

MORE: dict[str, list[str]] = {
    "wheel": ["root_radius", "root_flat", "face_length", "back_length", "circular_pitch"],
    "outline": [],
    "cuts": ["root_diameter"],
    "stops": [],
    "setup": ["front", "head", "cutter_side", "flat", "spindle"],
    "touch_off": ["sets", "touches", "dial"],
    "passes": ["from_contact", "from_offset", "from_top", "chip_area", "dial"],
    "findings": [],
}
"""What is told beyond the contract; a key added to the program is added here."""

TOP = [
    "schema",
    "title",
    "number",
    "wheel",
    "outline",
    "bore",
    "pilots",
    "slotting",
    "bore_stops",
    "cuts",
    "stops",
    "setup",
    "touch_off",
    "passes",
    "bar",
    "speed",
    "blank",
    "relief",
    "budget",
    "findings",
]

BORES: list[tuple[Keys, list[str]]] = [
    ({"kind": "round", "diameter": 6}, ["diameter"]),
    (
        {"kind": "square", "across_flats": 6, "corner_radius": 0.2},
        ["across_flats", "corner_radius", "across_corners"],
    ),
    (
        {"kind": "hexagon", "across_flats": 6, "corner_radius": 0},
        ["across_flats", "corner_radius", "across_corners"],
    ),
    (
        {"kind": "keyed", "diameter": 8, "key_width": 2, "key_depth": 1},
        ["diameter", "key_width", "key_depth"],
    ),
    ({"kind": "d-bore", "diameter": 6, "flat_to_far_side": 5}, ["diameter", "flat_to_far_side"]),
]

SETUPS = [(), (vee(),), (vee(45),), (single(),), (double(12, 48),), (vee(70),)]


@pytest.mark.parametrize("cutters", SETUPS)
def test_keys_of_the_contract(cutters: tuple[Keys, ...]) -> None:
    """Every table has just the keys promised, in order, with or without cuts and findings."""
    found = job(ratchet(land=0.1), *cutters).as_dict()
    assert list(found) == TOP
    for table, keys in CONTRACT.items():
        rows = found[table] if isinstance(found[table], list) else [found[table]]
        assert rows or table in {"cuts", "touch_off", "passes"}
        for row in rows:
            assert list(row) == keys + MORE[table]


@pytest.mark.parametrize(("bore", "keys"), BORES)
def test_keys_of_a_bore(bore: Keys, keys: list[str]) -> None:
    """A bore tells its kind, its keys, its angle and its web."""
    found = job(ratchet(), bore=bore).as_dict()["bore"]
    assert set(found) == {"kind", "web", "angle", *keys}
    assert next(iter(found)) == "kind"


def test_pilots_and_slotting() -> None:
    """A square tells its drills, one of them proposed, and how it is slotted; a hexagon drills
    only; a round bore neither. Corners in degrees, as the sheet has them."""
    square = job(ratchet(), bore={"kind": "square", "across_flats": 6, "corner_radius": 0.2})
    told = square.as_dict()
    (proposed,) = (row for row in told["pilots"] if row["proposed"])
    assert proposed["drill"] == "6.3 mm"
    left = 1 - math.sqrt((6.3 / 6) ** 2 - 1) - 0.4 / 6
    assert proposed["flat_left"] == pytest.approx(left)
    assert told["slotting"]["corners"] == pytest.approx([45, 135, 225, 315])
    travel = 6 / math.sqrt(2) - 0.2 * (math.sqrt(2) - 1) - 6.3 / 2
    assert told["slotting"]["travel"] == pytest.approx(travel)
    hexagon = job(ratchet(), bore={"kind": "hexagon", "across_flats": 6}).as_dict()
    assert hexagon["pilots"]
    assert hexagon["slotting"] is None
    plain = job(ratchet(), bore={"kind": "round", "diameter": 6}).as_dict()
    assert (plain["pilots"], plain["slotting"]) == ([], None)


def test_no_bore_says_so() -> None:
    """A wheel without a bore has a bore of kind none."""
    assert job(ratchet()).as_dict()["bore"]["kind"] == "none"


@pytest.mark.parametrize("cutters", SETUPS)
def test_dictionary_is_json(cutters: tuple[Keys, ...]) -> None:
    """Strict JSON gives the dictionary back, number for number."""
    found = job(ratchet(), *cutters).as_dict()
    assert json.loads(json.dumps(found, allow_nan=False)) == found


def test_same_part_from_file_and_dictionary(tmp_path: Path) -> None:
    """A part read from a file and the same without one give the same job."""
    path = tmp_path / "wheel.toml"
    path.write_text(
        'title = "take-up"\nunits = "mm"\n[wheel]\nkind = "ratchet"\nteeth = 30\n'
        'outside_diameter = 25.4\nthickness = 3\nspace_angle = "60 deg"\nland = 0.4\n'
        '[[cutter]]\nname = "v"\nkind = "vee"\nincluded_angle = 60\ntip_radius = 0.1\n'
    )
    mapping = {
        "title": "take-up",
        "units": "mm",
        "wheel": ratchet(root_radius=None, space_angle="60 deg"),
        "cutter": [{"name": "v", "kind": "vee", "included_angle": 60, "tip_radius": 0.1}],
    }
    from_file = profilegen.job_for(profilegen.load(path)).as_dict()
    assert from_file == profilegen.job_for(profilegen.Part.from_dict(mapping)).as_dict()


@pytest.mark.parametrize("cutter", [vee(), single(), double(12, 48), vee(45), single(40)])
@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
def test_depths_and_their_datums(cutter: Keys, rotation: str) -> None:
    """The three depths of a cut are what their datums say, and the longest way is from the top."""
    found = job(ratchet(hook_angle=5, rotation=rotation), cutter).as_dict()
    radius = found["wheel"]["outside_diameter"] / 2
    for cut in found["cuts"]:
        assert cut["infeed_from_top"] == radius - cut["tip_height"]
        assert cut["radial_depth"] == pytest.approx(radius - cut["root_diameter"] / 2, abs=1e-12)
        assert cut["radial_depth"] <= cut["infeed_from_offset"] <= cut["infeed_from_top"] + 1e-12
        assert cut["tip_height"] > cut["apex_height"]
        assert cut["root_diameter"] >= found["wheel"]["root_diameter"] - 1e-9


@pytest.mark.parametrize(("cutter", "laps"), [(vee(), 1), (vee(45), 2), (vee(70), 1)])
def test_stops_count_from_one_in_each_lap(cutter: Keys, laps: int) -> None:
    """Every lap has a stop a tooth; the first stands at 0, a second lap less than a pitch on,
    where its cut lies but for whole pitches."""
    found = job(ratchet(), cutter).as_dict()
    stops, pitch = found["stops"], found["wheel"]["angular_pitch"]
    assert [(s["lap"], s["stop"]) for s in stops] == [
        (lap, stop) for lap in range(1, laps + 1) for stop in range(1, 31)
    ]
    starts = [cut["wheel_angle"] % pitch for cut in found["cuts"]] or [0.0]
    for row in stops:
        wanted = starts[row["lap"] - 1] + pitch * (row["stop"] - 1)
        assert 0 <= row["angle"] < 360
        assert row["angle"] == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
@pytest.mark.parametrize("first", ["face", "back"])
def test_wheel_angle_counts_from_the_first_cut(first: str, rotation: str) -> None:
    """The first cut is at 0; the second is the spare angle on, its sign that of hand and order."""
    found = job(ratchet(rotation=rotation), vee(45), setup={"first": first}).as_dict()
    one, two = found["cuts"]
    sign = (1 if rotation == "clockwise" else -1) * (1 if first == "face" else -1)
    assert (one["forms"], one["wheel_angle"]) == (first, 0.0)
    assert two["wheel_angle"] == pytest.approx(-sign * 15.0, abs=1e-9)


@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
@pytest.mark.parametrize("first", ["face", "back"])
@pytest.mark.parametrize("cutter", [vee(), vee(45), single(40)])
def test_stop_angles_turn_the_wheel_counter_clockwise(
    cutter: Keys, first: str, rotation: str
) -> None:
    """The wheel turned counter-clockwise by each stop's angle has a space under the cutter.

    Only the first cut's place in the wheel is taken from the package; polygons see the rest.
    """
    wheel = ratchet(teeth=7, outside_diameter=20, rotation=rotation, hook_angle=4)
    made = job(wheel, cutter, setup={"first": first})
    wheel_from_setup = made.plan.cuts[0].wheel_from_setup(made.wheel)
    left = polygon(made.wheel.outline)
    for stop in made.as_dict()["stops"]:
        cut = made.plan.cuts[stop["lap"] - 1]
        in_wheel = rotation_by(-math.radians(stop["angle"])).after(wheel_from_setup)
        tool = polygon(moved(cut.silhouette(), in_wheel))
        assert left.intersection(tool).area < 1e-4, stop
        assert left.distance(tool) < 1e-4, stop


def test_refused_cutter_leaves_the_wheel() -> None:
    """A cutter that cannot form the space refuses the cut; the wheel and its numbers stay."""
    made = job(ratchet(), vee(70))
    assert made.is_refused
    assert made.as_dict()["cuts"] == []
    assert made.as_dict()["outline"] == job(ratchet(), vee(60)).as_dict()["outline"]


def test_findings_of_the_wheel_come_first() -> None:
    """Findings are told of the wheel first, then of the set-up."""
    made = job(ratchet(land=0.1), vee(45))
    codes = [finding["code"] for finding in made.as_dict()["findings"]]
    assert codes.index("land-thin") < codes.index("two-laps")
    assert codes == [finding.code for finding in (*made.wheel.findings, *made.plan.findings)]


@pytest.mark.parametrize("unknown", ["nothing", "dxf_bytes"])
def test_unknown_public_name(unknown: str) -> None:
    """A name that the package does not offer is an ordinary attribute error."""
    with pytest.raises(AttributeError, match=unknown):
        getattr(profilegen, unknown)


def test_public_names_resolve() -> None:
    """Every name the package lists is there."""
    named: list[Any] = [getattr(profilegen, name) for name in profilegen.__all__]
    assert all(callable(one) for one in named)
    assert set(profilegen.__all__) < set(dir(profilegen))


def test_a_pin_asked_for_that_does_not_serve_is_a_caution() -> None:
    """The wheel can be made, so it is no refusal here; without a pin asked for nothing is said."""
    made = job(ratchet(), vee(), gauge={"pin": 9})
    assert {f.code: f.severity for f in made.findings}["pin-on-tips"] == "caution"
    assert not made.is_refused
    assert not {f.code for f in job(ratchet(), vee()).findings if f.code.startswith("pin-")}


def test_sheets_are_laid_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """SVG and PDF of one paper are of the same sheets; another paper is laid out by itself."""
    made, papers = job(ratchet(), vee()), list[str | None]()

    def counted(each: profilegen.Job, paper: str | None = None) -> tuple[Sheet, ...]:
        papers.append(paper)
        return setup_sheets(each, paper)

    monkeypatch.setattr("profilegen.sheets.setup_sheet.setup_sheets", counted)
    for kind in ("svg", "pdf"):
        made.sheet(kind)
    made.sheet("pdf", "Letter")
    assert papers == [None, "Letter"]
