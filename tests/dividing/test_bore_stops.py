"""The head's reading at a bore's corner, against a wheel that is placed and turned by shapely.

The construction knows the printed settings only: where the cutter stands, which face looks at the
free end, which way the work turns. It finds by trial how the wheel stands at stop 1, turns it there
by the reading, and looks where the corner lies. No published source; derived.
"""

from __future__ import annotations

import cmath
import math
import re
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from shapely import affinity
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from profilegen.cutting.poses import Cut
from profilegen.geometry.measure import tessellate
from profilegen.job import Job
from profilegen.topics.setting_words import slotting_sections
from profilegen.topics.topic import Pair, written
from tests.parts import Keys, job, ratchet, single, vee
from tests.situations.drawn import golden, last

SAGITTA = 1e-4
"""mm, of the chords."""

HAIR = 1e-3
"""mm by which the cutter is made smaller, so that chords and rounding do not touch."""

BORES: list[Keys] = [
    {"kind": "square", "across_flats": 6},
    {"kind": "hexagon", "across_flats": 6},
    {"kind": "keyed", "diameter": 6, "key_width": 2, "key_depth": 1},
    {"kind": "d-bore", "diameter": 6, "flat_to_far_side": 5},
]

HARDWARE: list[Keys | None] = [
    None,
    {"kind": "worm", "ratio": 40, "plates": [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33]]},
    {"kind": "worm", "ratio": 90, "plates": [[15, 16, 17, 18, 19, 20], [22, 24, 28, 30]]},
    {"kind": "plate", "holes": 360},
    {"kind": "table", "ratio": 90, "graduation": "1 min"},
    {"kind": "motor", "steps": 200, "microsteps": 16, "ratio": 12},
]


def random_parts(count: int) -> list[dict[str, Any]]:
    """Wheels, hands, cutters, laps, sides, hardware, bores by chance."""
    rng = np.random.default_rng(8)

    def pick(*ones: Any) -> Any:
        return ones[int(rng.integers(len(ones)))]

    found = []
    for at in range(count):
        teeth = pick(12, 15, 18, 20, 24, 30)
        wheel = ratchet(
            teeth=teeth,
            hook_angle=float(rng.uniform(-3, 9)),
            land=float(rng.uniform(0.3, 1.0)),
            rotation=pick("clockwise", "counter-clockwise"),
        )
        cutter = pick(vee(60), vee(50), single(60), single(42))
        tables: dict[str, Any] = {
            "bore": {**BORES[at % len(BORES)], "angle": float(rng.uniform(0, 360))},
            "setup": {
                "front": pick("free end", "head"),
                "head": pick("left", "right"),
                "cutter_side": pick("above", "behind", "in front"),
                "first": pick("face", "back"),
            },
        }
        hardware = pick(*HARDWARE)
        if hardware is not None:
            increases = pick("clockwise", "counter-clockwise")
            tables["dividing"] = {**hardware, "dial_increases": increases}
        found.append({"wheel": wheel, "cutter": cutter, "tables": tables})
    return found


def shape(points: Any) -> Polygon:
    """A polygon of complex points."""
    return Polygon(list(zip(points.real, points.imag, strict=True)))


def from_free_end(made: Job) -> BaseGeometry:
    """The finished teeth as the machinist sees them, tooth 1's face tip still on +x or, with the
    front at the head, at 180 degrees."""
    teeth = shape(tessellate(made.made.outline, SAGITTA))
    if made.plan.frame.front == "free end":
        return teeth
    return affinity.scale(teeth, -1, 1, origin=(0, 0))


def line_of(made: Job) -> complex:
    """Where the cutter stands, seen from the free end: the column is right of a head on the left,
    left of one on the right."""
    setup = made.part.setup
    if setup.cutter_side == "above":
        return 1j
    column = 1.0 if setup.head == "left" else -1.0
    return complex(column if setup.cutter_side == "behind" else -column)


def cutter_of(made: Job, cut: Cut) -> BaseGeometry:
    """The cutter at its printed offset and depth, in the view. Its flank that makes the face looks
    the way in which the faces push: of a wheel that is seen to run clockwise, clockwise of it."""
    edge = tessellate(cut.tool.silhouette(2 * cut.blank_radius), SAGITTA)
    towards = line_of(made)
    rear = -1 if made.plan.frame.hand_at_free_end == "clockwise" else 1
    across = 1j * rear * towards
    placed = (edge.real + cut.offset) * across + (edge.imag + cut.apex_height) * towards
    return shape(placed)


def placed_at_stop_1(made: Job) -> float:
    """How far the wheel is turned, counter-clockwise, from the print to stop 1, rad.

    The cutter stands in space 1, which has the face of tooth 1. The wheel is turned to where the
    cutter, a hair smaller, cuts least metal, and from there until the flank that lap 1 makes
    touches; where it makes both, to the middle between the two touches.
    """
    cut, pitch = made.plan.cuts[0], made.made.angular_pitch
    teeth, cutter = from_free_end(made), cutter_of(made, cut).buffer(-HAIR)
    hand = 1 if made.plan.frame.hand_at_free_end == "clockwise" else -1
    tip = -1.0 if made.plan.frame.front == "head" else 1.0
    in_space_1 = tip * cmath.exp(1j * hand * pitch / 3)
    middle = made.made.radius * in_space_1
    near_by = teeth.intersection(
        Point(middle.real, middle.imag).buffer(2 * made.made.radius * pitch)
    )
    start = cmath.phase(line_of(made) * cmath.exp(-1j * hand * cut.tip.real / abs(cut.tip)))

    def cuts(turn: float) -> float:
        placed = affinity.rotate(near_by, turn, (0, 0), use_radians=True)
        return float(placed.intersection(cutter).area)

    around = start - cmath.phase(in_space_1) + np.linspace(-0.5, 0.5, 101) * pitch
    near = min(map(float, around), key=cuts)
    near = golden(cuts, near - pitch / 100, near + pitch / 100, 1e-7)
    ways = {"face": (hand,), "back": (-hand,)}.get(cut.forms, (1, -1))
    ends = [last(lambda turn: cuts(turn) == 0, near, near + way * pitch / 2) for way in ways]
    return sum(ends) / len(ends)


def farthest_places(made: Job) -> list[complex]:
    """The corners, the middle of the keyway or of the flat, as the print draws them."""
    bore = made.made.bore
    assert bore is not None
    outline = shape(tessellate(bore, SAGITTA)).exterior
    points = np.array([complex(x, y) for x, y in outline.coords[:-1]])
    kind = made.part.bore.kind
    if kind in ("square", "hexagon"):
        return list(points)
    if kind == "d-bore":
        foot = nearest_points(outline, Point(0, 0))[0]
        return [complex(foot.x, foot.y)]
    floor = [point for point in points if abs(point) > 3.1]
    return [sum(floor) / len(floor)]


@dataclass(frozen=True)
class Printed:
    """What the sheet says: turns of the work, deg, each with the hardware's own (None without),
    and whether they go counter-clockwise."""

    angles: list[float]
    readings: list[str]
    is_counter_clockwise: bool


DEGREE = "\N{DEGREE SIGN}"
PLACE = re.compile(rf"(Corner [1-6]|Keyway|Flat|[0-9.]+{DEGREE})$")
ANGLE = re.compile(rf"\d+\.\d+{DEGREE}")


def printed(made: Job) -> Printed:
    """The lines of the sheet."""
    said = [
        line for one in written(slotting_sections(made), made.part.figures) for line in one.lines
    ]
    rows = [line for line in said if isinstance(line, Pair) and PLACE.match(line.label)]
    (how,) = (line for line in said if isinstance(line, str) and "turn the work" in line)
    degrees = [
        float(angle[0].removesuffix(DEGREE))
        if (angle := ANGLE.findall(f"{row.label} {row.value}"))
        else shown(made, row.value)
        for row in rows
    ]
    values = [row.value for row in rows]
    return Printed(degrees, values, "turn the work counter-clockwise" in how)


def shown(made: Job, reading: str) -> float:
    """The turn of the work that a reading stands for, deg."""
    table: Any = made.part.dividing
    numbers = [float(one) for one in re.findall(r"[\d.]+", reading)]
    match table.kind:
        case "worm":
            turns = numbers[0] + (numbers[1] / numbers[2] if numbers[1:] else 0)
            return 360 * turns / int(table.ratio)
        case "table":
            return numbers[0] + numbers[1] / 60 + numbers[2] / 3600
        case "plate":
            return numbers[0] * 360 / int(table.holes)
        case _:
            return numbers[0] * 360 / (200 * 16 * 12)


@pytest.mark.parametrize("one", random_parts(36))
def test_the_printed_reading_brings_the_corner_to_the_line(one: dict[str, Any]) -> None:
    """Placed at stop 1 and turned as printed, the corner (keyway, flat) lies on the line on which
    the cutter came in: within 0.03 deg, what the hair takes off, and half a step of the hardware.
    The first one is the first that comes."""
    made = job(one["wheel"], one["cutter"], **one["tables"])
    assert made.plan.cuts, made.findings
    told, places = printed(made), farthest_places(made)
    assert len(told.angles) == len(places)
    assert 0 <= told.angles[0] < 360 / len(places) + 1e-9
    stop_1 = placed_at_stop_1(made)
    for angle, value in zip(told.angles, told.readings, strict=True):
        assert off_line(made, places, stop_1, angle, told) < 0.03
        if made.index.way is not None:
            half = 180 / made.index.way.scale.count
            assert off_line(made, places, stop_1, shown(made, value), told) < 0.03 + half


def off_line(made: Job, places: list[complex], stop_1: float, angle: float, told: Printed) -> float:
    """How far the nearest corner is off the line when the work is turned so far, deg."""
    turn = stop_1 + math.radians(angle if told.is_counter_clockwise else -angle)
    mirrored = made.plan.frame.front == "head"
    seen = [-place.conjugate() if mirrored else place for place in places]
    line = line_of(made)
    return min(
        abs(math.degrees(cmath.phase(place * cmath.exp(1j * turn) / line))) for place in seen
    )


def test_the_usual_case() -> None:
    """Tooth 1 lies half the space angle and the hook off the cutter line: 30 + 5 deg, on the side
    that the work turns to; so a corner at 45 deg from it comes after 90 - 10 (derived)."""
    bore = {"kind": "square", "across_flats": 6}
    found = job(ratchet(hook_angle=5), vee(), bore=bore).as_dict()["bore_stops"]
    assert [stop["angle"] for stop in found["stops"]] == pytest.approx([80, 170, 260, 350])
    assert (found["place"], found["turn"]) == ("corner", "counter-clockwise")
    turned = job(ratchet(hook_angle=5), vee(), bore={**bore, "angle": -10}).as_dict()
    assert turned["bore_stops"]["stops"][0]["angle"] == pytest.approx(0, abs=1e-9)


def test_no_line_without_a_cut_or_a_corner() -> None:
    """No cutter, or a round bore: nothing is read at the head."""
    assert job(ratchet(), bore=BORES[0]).bore_stops is None
    assert job(ratchet(), vee(), bore={"kind": "round", "diameter": 6}).bore_stops is None
    assert job(ratchet(), vee()).as_dict()["bore_stops"] is None


@pytest.mark.parametrize(("holes", "is_even"), [(60, True), (30, False), (90, False)])
def test_a_plate_without_quarter_turns_is_told(holes: int, is_even: bool) -> None:
    """30 and 90 holes have no quarter turn: a corner is half a hole off against the next."""
    made = job(
        ratchet(hook_angle=5), vee(), bore=BORES[0], dividing={"kind": "plate", "holes": holes}
    )
    found = made.bore_stops
    assert found is not None
    hole = math.tau * 3 * math.sqrt(2) / holes
    assert found.uneven == pytest.approx(0 if is_even else hole / 2)
    said = [
        line for one in written(slotting_sections(made), made.part.figures) for line in one.lines
    ]
    assert any("no even share" in str(line) for line in said) != is_even


def test_a_compound_second_lap_has_no_reading() -> None:
    """There the crank has begun anew and counts no longer from stop 1 of lap 1: the angle alone."""
    tables: dict[str, Any] = {
        "bore": BORES[0],
        "dividing": {"kind": "worm", "ratio": 40, "plates": [[21, 23, 27, 29, 31, 33]]},
    }
    wheel = ratchet(teeth=69, outside_diameter=60)
    for cutter, has_reading in ((vee(60), True), (vee(50), False)):
        made = job(wheel, cutter, **tables)
        assert made.index.method == "compound"
        assert made.bore_stops is not None
        assert (made.bore_stops.stops[0].reading is not None) == has_reading
