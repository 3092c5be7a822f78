"""From a drawer file to the numbers that are set, against wheels and cutters drawn separately.

`drawn` and `measured` import nothing of the package: they draw polygons, look for the setting that
meets the requirement, cut the wheel and measure it. Drawn separately, no published source.
Tolerances, with what was found in brackets:

- settings and what the cut wheel shows: 2e-6 mm and degrees (8e-7), for the drawing's search ends
  at 1e-6 degrees; of the blunt cutter 1e-5 (8e-6 degrees, 2e-6 mm), where the package's ends;
- land per infeed and offset, mm per mm: the same (2e-7), by differences at the settings found;
- areas: 1e-6 mm2 (3e-7), for chords lie within 1e-7 mm; left by the blunt cutter 1e-4 (2e-6), for
  a setting that is 1e-5 mm off along flanks of 5 mm;
- trial cut: 1e-7 mm (1e-8), for a setting a little off moves both lands alike;
- heel: 2e-6 mm and degrees (6e-9), for its halving ends at 1e-10 and its corners are drawn exactly.
"""

from __future__ import annotations

import json
import math
from dataclasses import asdict, dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from shapely import Polygon

from profilegen import job_for, load
from profilegen.cutting.budget import budget_for
from profilegen.cutting.compare import compared
from profilegen.cutting.tools import tools_for
from profilegen.cutting.wedge import Wedge
from profilegen.forms.solve import solve
from profilegen.part.drawer import with_drawer
from profilegen.topics.dicts import budget_dict, cutter_list
from tests.cli.support import run
from tests.situations.drawn import COARSE, Bench, Cutter, Pose, Wheel, last
from tests.situations.measured import dials, farthest_left, finished, heel, land, slope

DRAWER = """
units = "mm"

[[cutter]]
name = "boring bar 60"
kind = "vee"
included_angle = "60 deg"
tip_radius = 0.2
sweep_diameter = 32.0
relief_angle = "11 deg"
edge_thickness = 3.97

[[cutter]]
name = "single-angle 45"
kind = "single-angle"
angle = "45 deg"
tip_radius = 0.1

[[cutter]]
name = "fly cutter 66"
kind = "vee"
included_angle = "66 deg"
tip_radius = 0.5
"""


@dataclass(frozen=True)
class Situation:
    """A wheel of the loom, a cutter of the drawer, and where the drawing looks for its setting.

    Attributes:
        title: of the part; its file is named after it.
        cutter: its name in the drawer.
        drawn: the same cutter as it stands.
        turns: between which the wheel stands, degrees, one pair a lap.
        near: mm and degrees, how well settings must agree.
        area: mm2, how well areas must agree.
        accept: what the part says to be usable, mm.
    """

    title: str
    wheel: Wheel
    cutter: str
    drawn: Cutter
    turns: tuple[tuple[float, float], ...]
    near: float = 2e-6
    area: float = 1e-6
    accept: float = 0.02

    @property
    def file(self) -> str:
        """Name of the part file."""
        return self.title.lower().replace(" ", "-") + ".toml"

    def text(self) -> str:
        """The part file."""
        wheel = self.wheel
        return f"""
title = "{self.title}"
units = "mm"
drawer = "drawer.toml"

[wheel]
kind = "ratchet"
teeth = {wheel.teeth}
outside_diameter = {wheel.diameter}
land = {wheel.land}
space_angle = "{wheel.space_angle} deg"
hook_angle = "{wheel.hook} deg"
root_radius = {wheel.root_radius}
thickness = 4.0

[setup]
cutter = "{self.cutter}"
accept = {self.accept}
"""


BAR = Situation(
    "Cloth take-up ratchet",
    Wheel(30, 38.0, 0.4, 60, 0, 0.2),
    "boring bar 60",
    Cutter(30, 30, 0.2),
    ((57, 64),),
)
FLAT_ON_FACE = Situation(
    "Warp beam ratchet",
    Wheel(24, 45.0, 0.5, 60, 10, 0.3),
    "single-angle 45",
    Cutter(0, 45, 0.1),
    ((78, 83), (63, 68)),
)
FLAT_ON_BACK = replace(FLAT_ON_FACE, drawn=Cutter(45, 0, 0.1), turns=((33, 38), (18, 23)))
BLUNT = Situation(
    "Let-off ratchet",
    Wheel(20, 32.0, 0.5, 60, 0, 0.2),
    "fly cutter 66",
    Cutter(33, 33, 0.5),
    ((60, 65),),
    near=1e-5,
    area=1e-4,
    accept=1.0,
)
ALL = pytest.mark.parametrize(
    "one", [BAR, FLAT_ON_FACE, FLAT_ON_BACK, BLUNT], ids=["bar", "face", "back", "blunt"]
)


@cache
def bench(one: Situation) -> Bench:
    """The drawing of a situation."""
    return Bench(one.wheel, one.drawn)


@cache
def poses(one: Situation) -> tuple[Pose, ...]:
    """The settings that the drawing finds: one that leaves least of the space, or in two laps one
    that leaves least along the face and one along the back."""
    if len(one.turns) == 1:
        space = one.wheel.space(COARSE, COARSE)
        return (bench(one).best(lambda cut: space.difference(cut).area, *one.turns[0], 1e-6),)
    return tuple(_along(one, lap == 1, *turns) for lap, turns in enumerate(one.turns))


def _along(one: Situation, back: bool, low: float, high: float) -> Pose:
    """Least along one flank; a hundredth of the rest counts too, so that no search runs level."""
    strip, space = one.wheel.strip(back, 0.4), one.wheel.space(COARSE, COARSE, rounded=False)

    def left(cut: Polygon) -> float:
        return strip.difference(cut).area + 0.01 * space.difference(cut).area

    return bench(one).best(left, low, high, 1e-6)


@dataclass(frozen=True)
class Told:
    """What the package says: laps, their turns (rad), the budget's rows, the comparison's row."""

    cuts: list[dict[str, Any]]
    turns: list[float]
    rows: list[dict[str, Any]]
    match: dict[str, Any]


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the drawer and the parts."""
    folder = tmp_path_factory.mktemp("situations")
    (folder / "drawer.toml").write_text(DRAWER, encoding="utf-8")
    for one in (BAR, FLAT_ON_FACE, BLUNT):
        (folder / one.file).write_text(one.text(), encoding="utf-8")
    return folder


def ran(*words: str | Path) -> Any:
    """The JSON that a command prints."""
    done = run(*map(str, words), "--json")
    assert done.exit_code == 0, done.stderr
    return json.loads(done.stdout)


@cache
def told(one: Situation, shop: Path) -> Told:
    """From the command line, or for the way round that it does not choose from the library."""
    path = shop / one.file
    if one == FLAT_ON_BACK:
        return _turned_round(path, one.cutter)
    checked = ran("check", path)
    compared = ran("cutters", path, "--drawer", shop / "drawer.toml")
    turns = [cut.turn for cut in job_for(load(path)).plan.cuts]
    (match,) = (row for row in compared if row["cutter"] == one.cutter)
    return Told(checked["cuts"], turns, checked["budget"]["rows"], match)


def _turned_round(path: Path, name: str) -> Told:
    """A cutter of the drawer with its flanks changed over."""
    part, drawer = with_drawer(load(path))
    (table,) = (cutter for cutter in drawer.cutters if cutter.name == name)
    (usual,) = tools_for(table)
    assert isinstance(usual, Wedge)
    other = replace(usual, face_side=usual.back_side, back_side=usual.face_side)
    matches = compared(solve(part), [(other,)], part.setup)
    ((cuts,), (row,)) = (
        [match.cuts for match in matches],
        cutter_list(job_for(load(path)), matches, None),
    )
    rows = budget_dict(budget_for(solve(part), cuts))["rows"]
    return Told(row["cuts"], [cut.turn for cut in cuts], rows, row)


def near(value: Any, tolerance: float) -> Any:
    """Equal within a tolerance, mm or degrees."""
    return pytest.approx(value, rel=0, abs=tolerance)


@ALL
def test_every_dial(one: Situation, shop: Path) -> None:
    """Offsets, heights and infeeds from both zeros, lap by lap, and the root of each."""
    for cut, pose in zip(told(one, shop).cuts, poses(one), strict=True):
        expected = dials(bench(one), pose)
        assert {key: cut[key] for key in expected} == near(expected, one.near)


@ALL
def test_turn_of_the_wheel(one: Situation, shop: Path) -> None:
    """How the wheel stands, and how far the head turns between the laps."""
    found, drawn = told(one, shop), [pose.turn for pose in poses(one)]
    assert [math.degrees(turn) for turn in found.turns] == near(drawn, one.near)
    between = [turn - drawn[0] for turn in drawn]
    assert [cut["wheel_angle"] for cut in found.cuts] == near(between, one.near)


@ALL
def test_what_the_cut_wheel_shows(one: Situation, shop: Path) -> None:
    """Land, root, what is left and what is gouged, and in one word whether that will do."""
    row, wheel = told(one, shop).match, finished(bench(one), poses(one))
    left, at = farthest_left(bench(one), poses(one))
    assert row["land"] == near(land(bench(one), poses(one)), one.near)
    assert row["root_diameter"] == near(wheel.root_diameter, one.near)
    assert row["left_over_area"] == near(wheel.left_over_area, one.area)
    assert row["gouge_area"] == near(wheel.gouge_area, 1e-6)
    assert row["left_over"] == near(left, one.near)
    assert row["verdict"] == ("forms" if left <= one.accept else "leaves")
    assert row["left_over_at"] in (at if row["left_over"] else ("",))


@ALL
def test_what_each_setting_moves(one: Situation, shop: Path) -> None:
    """The land gained per mm of infeed and of offset, the depth kept from either zero."""
    moves = {"infeed": (-1j, False), "offset": (1, False), "offset_at_offset_zero": (1, True)}
    rows = {(row["source"], row["lap"]): row["land"] for row in told(one, shop).rows}
    laps = len(one.turns)
    for lap in range(laps):
        for source, move in moves.items():
            expected = slope(bench(one), poses(one), lap, *move)
            assert rows[source, lap + 1 if laps > 1 else None] == near(expected, one.near)


def test_trial_cut(shop: Path) -> None:
    """How much deeper from a land that is measured, and the depth from both zeros by then."""
    (pose,) = poses(BAR)

    def raised(rise: float) -> Pose:
        return Pose(pose.turn, pose.apex + 1j * rise)

    rise = last(lambda up: land(bench(BAR), [raised(up)]) <= 0.62, 0, 1)
    found = ran("trial", shop / BAR.file, "--land", "0.62")
    assert found["remaining_infeed"] == near(rise, 1e-7)
    expected = dials(bench(BAR), raised(rise))
    for key in ("infeed_from_top", "infeed_from_offset"):
        assert found[key] == near(expected[key], BAR.near)


def test_heel_of_the_bar(shop: Path) -> None:
    """A body swept depth by depth: whether it clears, and the limits of all three of its sizes."""
    (pose,) = poses(BAR)
    drawn, found = heel(bench(BAR), pose, 32.0, 11.0, 3.97), ran("check", shop / BAR.file)["relief"]
    assert found["clears"] is drawn.clears
    limits = {key: value for key, value in asdict(drawn).items() if key != "clears"}
    assert {key: found[key] for key in limits} == near(limits, BAR.near)
    assert found["margin"] == near(11.0 - drawn.least_relief_angle, BAR.near)


def test_nothing_better_was_drawn(shop: Path) -> None:
    """The blunt cutter's setting, cut on the drawing, gouges nothing, leaves what the package says
    it leaves, and no less than the best that the drawing found."""
    found = told(BLUNT, shop)
    (cut,), (turn,) = found.cuts, found.turns
    pose = Pose(math.degrees(turn), complex(cut["offset"], cut["apex_height"]))
    ours, best = finished(bench(BLUNT), [pose]), finished(bench(BLUNT), poses(BLUNT))
    assert ours.gouge_area < 1e-6
    assert found.match["left_over_area"] == near(ours.left_over_area, 1e-6)
    assert best.left_over_area - 1e-6 < ours.left_over_area < best.left_over_area + 1e-4


def test_blunt_cutter_is_not_set_up_unasked(tmp_path: Path) -> None:
    """Without `accept` it is compared all the same, but `check` refuses it, exit code 3."""
    (tmp_path / "drawer.toml").write_text(DRAWER, encoding="utf-8")
    path = tmp_path / BLUNT.file
    path.write_text(replace(BLUNT, accept=0.02).text(), encoding="utf-8")
    done = run("check", str(path), "--json")
    assert (done.exit_code, json.loads(done.stdout)["cuts"]) == (3, [])
    rows = {row["cutter"]: row["verdict"] for row in ran("cutters", path)}
    assert rows == {"boring bar 60": "forms", "single-angle 45": "forms", "fly cutter 66": "leaves"}
