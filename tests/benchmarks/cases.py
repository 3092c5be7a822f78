"""What is timed, each beside its floor: the promise is a ratio, for milliseconds differ by machine.

A whole process is timed by starting it anew, ours and the floor in turn, and taking the least of
several rounds: what else the machine does only ever adds.
"""

from __future__ import annotations

import cmath
import itertools
import json
import math
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any, cast

import numpy as np
import shapely
import shapely.affinity

from profilegen.cli.orders import Order, make_one, ready
from profilegen.cli.ours import as_before, record
from profilegen.cli.producing import Choices
from profilegen.cli.writing import write_all
from profilegen.cutting.compare import compared_cutters
from profilegen.cutting.fit import fit_of
from profilegen.cutting.plunge import deepest_plunge
from profilegen.cutting.poses import Cut, posed_cut
from profilegen.cutting.wedge import Wedge
from profilegen.dividing.way import Way
from profilegen.dividing.ways import ways_for
from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Contour, circle
from profilegen.geometry.contact import first_contact
from profilegen.geometry.measure import tessellate
from profilegen.geometry.moves import Move, moved, rotation
from profilegen.geometry.regions import subtract
from profilegen.job import job_for
from profilegen.part.base import CutterTable
from profilegen.part.dividing_tables import DividingTable
from profilegen.part.drawer import load_drawer
from profilegen.part.kinds import model
from profilegen.part.part import Part
from profilegen.part.shipped import drawer_path
from profilegen.part.tables import Setup
from tests.cutting.test_fit import by_polygons

ROOT = Path(__file__).parents[2]
FLOORS = "tests.benchmarks.floors"
CHORDS = 1e-4
"""mm, error of the chords that stand in for arcs where a library of polygons does the same work."""

DIVIDING = model("dividing", "worm")

PART = """\
title = "take-up"
units = "mm"
[wheel]
kind = "ratchet"
teeth = 30
outside_diameter = 38.0
thickness = 4.0
space_angle = "60 deg"
land = 0.4
hook_angle = "5 deg"
root_radius = 0.2
[bore]
kind = "square"
across_flats = 9.0
corner_radius = 0.3
[[cutter]]
name = "vee"
kind = "vee"
included_angle = "60 deg"
tip_radius = 0.2
"""

HEAD = """\
[dividing]
kind = "worm"
ratio = 40
plates = [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]]
change_wheels = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]
"""


HEAD_KEYS = tomllib.loads(HEAD)["dividing"]


@dataclass(frozen=True)
class Case:
    """Two ways to do one thing.

    Attributes:
        name: what is done.
        floor: what it is held against.
        promise: the greatest ratio promised, or None where none is.
        ours: the package's way.
        theirs: the floor's way.
    """

    name: str
    floor: str
    promise: float | None
    ours: Callable[[], Any]
    theirs: Callable[[], Any]


def run(*words: str) -> Callable[[], Any]:
    """A whole process of this Python, started at the top of the checkout."""
    command = [sys.executable, *words]
    return lambda: subprocess.run(command, check=True, capture_output=True, cwd=ROOT)


def best(action: Callable[[], Any]) -> float:
    """Seconds of one run."""
    start = time.perf_counter()
    action()
    return time.perf_counter() - start


def least_times(case: Case, rounds: int = 15) -> tuple[float, float]:
    """Least seconds of ours and of the floor, run in turn after one run each to warm the disk."""
    case.ours()
    case.theirs()
    pairs = [(best(case.ours), best(case.theirs)) for _ in range(rounds)]
    return min(ours for ours, _ in pairs), min(theirs for _, theirs in pairs)


def folder() -> Path:
    """A folder that holds the part file and the polylines of its outline."""
    home = Path(tempfile.mkdtemp(prefix="bench-"))
    (home / "part.toml").write_text(PART, encoding="utf-8")
    (home / "divided.toml").write_text(PART + HEAD, encoding="utf-8")
    contours = job_for(_part()).wheel.contours
    rows = [np.column_stack((c.points.real, c.points.imag, c.bulges)).tolist() for c in contours]
    (home / "rows.json").write_text(json.dumps(rows), encoding="utf-8")
    return home


def _part(teeth: int = 30) -> Part:
    diameter = 38.0 * teeth / 30
    wheel = {
        "kind": "ratchet",
        "teeth": teeth,
        "outside_diameter": diameter,
        "thickness": 4.0,
        "space_angle": 60,
        "land": 0.4,
        "hook_angle": 5,
        "root_radius": 0.2,
    }
    cutter = {"name": "vee", "kind": "vee", "included_angle": 60, "tip_radius": 0.2}
    return Part.from_dict({"units": "mm", "wheel": wheel, "cutter": [cutter]})


def process_cases(home: Path) -> list[Case]:
    """The commands, whole processes each."""
    part, rows = str(home / "part.toml"), str(home / "rows.json")
    divided = str(home / "divided.toml")
    ours, theirs = str(home / "ours.dxf"), str(home / "theirs.dxf")
    program = ("-m", "profilegen")
    return [
        Case(
            "`profilegen --help`",
            "a bare click program",
            1.5,
            run(*program, "--help"),
            run("-m", f"{FLOORS}.click_help"),
        ),
        Case(
            "`profilegen check`",
            "import click, tomllib, pydantic, numpy; read the TOML through one model",
            1.5,
            run(*program, "check", part),
            run("-m", f"{FLOORS}.read_part", part),
        ),
        Case(
            "`profilegen dxf`",
            "the same, and ezdxf writing the same polylines",
            1.3,
            run(*program, "dxf", part, "--out", ours, "--force"),
            run("-m", f"{FLOORS}.write_dxf", part, rows, theirs),
        ),
        Case(
            "`profilegen stops --teeth 1000`",
            "import click, pydantic, numpy; read the TOML through one model; print 1000 lines",
            1.5,
            run(*program, "stops", divided, "--teeth", "1000", "--allow-error"),
            run("-m", f"{FLOORS}.print_stops", part),
        ),
    ]


def everything(part: Part) -> dict[str, Any]:
    """Solve, check, plan and tell."""
    return job_for(part).as_dict()


def every_way() -> tuple[Way, ...]:
    """All ways to 127 stops, compound and differential ones too, on the head read anew."""
    return ways_for(cast(DividingTable, DIVIDING.model_validate(HEAD_KEYS)), 127)


def sums() -> Fraction:
    """Ten thousand sums of fractions, one after the other."""
    total = Fraction(0)
    for n in range(10_000):
        total = Fraction(n % 49, 49) + Fraction(n % 33, 33)
    return total


DRAWER = 60
"""Cutters in the drawer that is tried on a wheel of 60 teeth."""


def sixty_cutters() -> tuple[CutterTable, ...]:
    """The shipped drawer over and over, up to `DRAWER` cutters of every kind."""
    shipped = load_drawer(drawer_path("mm"))
    return tuple(itertools.islice(itertools.cycle(shipped), DRAWER))


def array_loop() -> float:
    """Two hundred thousand turns of five hundred points, one after the other."""
    points, total = np.exp(1j * np.linspace(0.0, 1.0, 500)), 0.0
    for n in range(200_000):
        total += float(np.abs(points * np.exp(1j * n) - 1.0).max())
    return total


def one_fit(teeth: int) -> Callable[[], Any]:
    """The fit of a cutter too wide for the space, plunged and 0.15 mm deeper than it may go."""
    wheel, cut = too_deep(teeth)
    return lambda: fit_of(wheel, (cut,))


def too_deep(teeth: int) -> tuple[Wheel, Cut]:
    """A wheel and a cut that gouges it and leaves metal in the space."""
    wheel = job_for(_part(teeth)).wheel
    wedge = Wedge("wide", "vee", math.radians(37.5), math.radians(37.5), 0.1)
    cut = deepest_plunge(wheel, wedge)
    apex = (cut.apex - 0.15j) * cmath.exp(-1j * cut.turn)
    return wheel, posed_cut(wheel, wedge, "space", 1, cut.turn, apex)


def _by_polygons(teeth: int) -> Callable[[], Any]:
    wheel, cut = too_deep(teeth)
    return lambda: by_polygons(wheel, (cut,))


def _polygon(contour: Contour) -> shapely.Polygon:
    at = tessellate(contour, CHORDS)
    return shapely.Polygon(np.stack((at.real, at.imag), axis=1))


def _fall(tool: shapely.Geometry, blank: shapely.Geometry) -> float:
    """First contact coming down, by bisection over distances of polygons, to 1e-6 mm."""
    low, high = 0.0, 60.0
    while high - low > 1e-6:
        middle = (low + high) / 2
        touching = shapely.intersects(shapely.affinity.translate(tool, 0.0, -middle), blank)
        low, high = (low, middle) if touching else (middle, high)
    return low


def made_before(home: Path) -> tuple[Callable[[], Any], Callable[[], Any]]:
    """Looking up a part whose files stand as they were made, and making it."""
    order = Order(str(home / "part.toml"), home / "out" / "part", None, None, Choices())
    one, folder = ready(order), order.base.parent
    made = make_one(one)
    kept = record(folder, made.files, one.about, made.findings)
    write_all((*made.files, kept), force=True, again="")

    def looked_up() -> None:
        if as_before(folder, ready(order).about) is None:
            raise AssertionError("it is to be made again")

    return looked_up, lambda: make_one(ready(order))


def library_cases(home: Path) -> list[Case]:
    """Inside one process: growth with the teeth, and the two algorithms beside another library."""
    few, many, made = _part(30), _part(1000), job_for(_part(30))
    cut, wheel = made.plan.cuts[0], made.wheel
    blank, tool = circle(0j, wheel.radius), cut.silhouette()
    raised = moved(tool, Move(shift=2j))
    tools = [moved(tool, cut.wheel_from_setup(wheel, stop)) for stop in range(wheel.teeth)]
    other = moved(wheel.outline, rotation(math.radians(1.0)))
    cutters, sixty = sixty_cutters(), job_for(_part(60)).wheel
    return [
        Case(
            "a part of a batch that is unchanged: read it, look it up",
            "make it",
            0.05,
            *made_before(home),
        ),
        Case(
            "1000 teeth: solve, validity, plan, dictionary",
            "30 teeth",
            20.0,
            lambda: everything(many),
            lambda: everything(few),
        ),
        Case(
            "all ways to 127 stops at 40:1, three plates and change wheels",
            "10 000 sums of fractions",
            1.0,
            every_way,
            sums,
        ),
        Case(
            f"a drawer of {DRAWER} cutters on a wheel of 60 teeth",
            "200 000 turns of 500 points by numpy",
            5.0,
            lambda: compared_cutters(sixty, cutters, Setup()),
            array_loop,
        ),
        Case(
            "fit of one cutter, 1000 teeth",
            "60 teeth",
            1.2,
            one_fit(1000),
            one_fit(60),
        ),
        Case(
            "fit of one cutter, 60 teeth: areas, greatest deviations, exact",
            "shapely at every stop, the same from fine chords",
            0.05,
            one_fit(60),
            _by_polygons(60),
        ),
        Case(
            "first contact, cutter on blank, exact",
            "shapely, bisection on chords, 1e-6 mm",
            None,
            lambda: first_contact(raised, blank, -1j),
            lambda: _fall(_polygon(raised), _polygon(blank)),
        ),
        Case(
            "one cutter taken out of the blank, exact",
            f"shapely, chords within {CHORDS:g} mm",
            None,
            lambda: subtract(blank, tools[0]),
            lambda: _polygon(blank).difference(_polygon(tools[0])),
        ),
        Case(
            "a wheel less the same one turned by 1 degree, exact",
            f"shapely, chords within {CHORDS:g} mm",
            None,
            lambda: subtract(wheel.outline, other),
            lambda: _polygon(wheel.outline).difference(_polygon(other)),
        ),
    ]
