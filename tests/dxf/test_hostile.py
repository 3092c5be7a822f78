"""Drawings that are damaged, odd or far too big: each is told in words, with entity and line."""

from __future__ import annotations

import math
import random
import sys
from itertools import pairwise

import numpy as np
import pytest

from profilegen.dxf.joining import JOINT, joined
from profilegen.dxf.reading import DxfError, read_layers
from profilegen.dxf.tags import MOST_ENTITIES, MOST_VERTICES
from profilegen.geometry.chain import Chain, Contour, chain, reverse
from profilegen.geometry.measure import length
from tests.dxf.drawings import Pairs, arc, entity, light, line, old, raw, ring

NOT_NUMBERS = ["nan", "inf", "-inf", "1e400", "9" * 400, "", "1,5", "1_0", "0x10", "\x1b[2J", "x"]
FAR = ["1e20", "-1e308", "1.7e308", "1000001"]
ROWS = [(0, 0), (1, 1), (2, 0)]


def told(*entities: Pairs) -> str:
    """What is told of the layer EDGE; fails when it can be read."""
    with pytest.raises(DxfError) as caught:
        read_layers(raw(*entities)).curves_on("EDGE")
    return str(caught.value)


@pytest.mark.parametrize("value", NOT_NUMBERS)
def test_what_is_no_finite_number_is_told_by_entity(value: str) -> None:
    """Coordinates, radii, angles, bulges, heights, flags and directions of all kinds."""
    for spoilt in (
        *(line({code: value}) for code in (10, 20, 11, 21, 30, 31)),
        *(arc({code: value}) for code in (10, 20, 40, 50, 51, 210, 220, 230)),
        *(ring({code: value}) for code in (10, 20, 40)),
        *(light([(0, 0, 0), (1, 1, 0), row]) for row in ((value, 0), (0, value), (3, 3, value))),
        *(old([(0, 0, 0), (1, 1, 0), row]) for row in ((value, 0), (0, value), (3, 3, value))),
        light(ROWS, value),
        old(ROWS, value),
    ):
        text = told(spoilt)
        assert "in line 16 of the drawing (handle 2F)" in text
        assert "not a number" in text


@pytest.mark.parametrize("value", FAR)
def test_what_lies_or_reaches_beyond_a_workshop_is_told(value: str) -> None:
    """1e20 and 1e308 are numbers, and no sizes; nothing overflows."""
    for spoilt in (
        *(line({code: value}) for code in (10, 20, 11, 21)),
        *(arc({code: value}) for code in (10, 20, 40)),
        *(ring({code: value}) for code in (10, 20, 40)),
        light([(0, 0, value), (10, 0)]),
        old([(0, 0), (value, 1)]),
        light([(0, 0), (1, value)]),
    ):
        text = told(spoilt)
        assert "1 km" in text or "radius is 0" in text


@pytest.mark.parametrize("value", ["0", "-1", "1e-300", "-0.0"])
def test_a_radius_of_nothing_is_told(value: str) -> None:
    """Zero, negative, too small to have a direction."""
    for spoilt in (arc({40: value}), ring({40: value})):
        assert "its radius is 0, less than 0" in told(spoilt)


@pytest.mark.parametrize(
    ("spoilt", "word"),
    [
        (arc({10: None}), "x of the centre is missing"),
        (ring({20: None}), "y of the centre is missing"),
        (ring({40: None}), "the radius is missing"),
        (arc({51: None}), "the end angle is missing"),
        (line({11: None}), "x of the end is missing"),
        (light([(0, 0), (1,)]), "y of the point is missing"),
        (line({30: 0, 31: 5}), "plane"),
        (arc({230: 0}), "plane"),
        (arc({210: 0.5, 230: 0.5}), "plane"),
        (old(ROWS, 8), "in space"),
        (old(ROWS, 4), "smoothed"),
        (entity("SPLINE", {70: 8}), "a spline"),
        (entity("INSERT", {2: "X"}), "explode"),
        (entity("VERTEX", {10: 0, 20: 0}), "no polyline"),
        (entity("3DSOLID", {}), "not a line, an arc or a polyline"),
        (entity("\x1b[31m", {}), "an unknown entity in line 16"),
    ],
)
def test_what_is_missing_or_no_plane_curve_is_told(spoilt: Pairs, word: str) -> None:
    """A missing centre too, which another reader takes for the origin."""
    assert word in told(spoilt)


@pytest.mark.parametrize("spoilt", [ring({40: 0}), arc({10: "nan"}), entity("SPLINE", {})])
def test_what_stands_on_other_layers_does_not_matter(spoilt: Pairs) -> None:
    """Nor does what stands on a sheet round the drawing."""
    other = [(code, "NOTES" if code == 8 else value) for code, value in spoilt]
    sheet = [*spoilt, (67, 1)]
    (run,) = read_layers(raw(line(), other, sheet)).curves_on("edge")
    assert length(run) == pytest.approx(10.0)


def test_a_layer_of_many_faults_tells_the_first_few() -> None:
    """And how many more there are."""
    text = told(*(ring({40: 0}) for _ in range(20)))
    assert text.count("CIRCLE") == 3
    assert text.endswith("and 17 more")
    assert "CIRCLE in line 28" in text


def test_texts_and_what_programs_keep_for_themselves_are_no_curves() -> None:
    """Codes from 1000 on, what stands behind code 101, texts, points and dimensions."""
    own: Pairs = [*line(), (1001, "ACAD"), (1010, "nan"), (101, "Embedded Object"), (10, "nan")]
    notes = [entity(kind, {10: "nan"}) for kind in ("TEXT", "POINT", "DIMENSION", "HATCH")]
    (run,) = read_layers(raw(own, *notes)).curves_on("EDGE")
    assert length(run) == pytest.approx(10.0)


def test_too_many_curves_or_points_are_told() -> None:
    """Before they are understood."""
    assert f"more than {MOST_ENTITIES} curves" in told(*[line()] * (MOST_ENTITIES + 2))
    assert f"{MOST_VERTICES} points" in told(light([(0, 0)] * (MOST_VERTICES + 1)))
    empty: Pairs = [*list(old(ROWS))[:-1], *[(0, "VERTEX")] * (MOST_VERTICES + 1)]
    assert f"{MOST_VERTICES} points" in told(empty)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_end_in_any_way_and_begin_with_any_mark(end: str) -> None:
    """Of any system, behind a byte order mark and comments."""
    data = b"\xef\xbb\xbf999\nby hand\n" + raw(line())
    (run,) = read_layers(data.replace(b"\n", end.encode())).curves_on("EDGE")
    assert length(run) == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("head", "written"),
    [
        ("AC1009\n9\n$DWGCODEPAGE\n3\nANSI_1252", "Kante \u00fc".encode("cp1252")),
        ("AC1009\n9\n$DWGCODEPAGE\n3\nANSI_1251", "Kante \u042f".encode("cp1251")),
        ("AC1015", b"Kante \\U+00FC"),
        ("AC1024", "Kante \u00fc".encode()),
    ],
)
def test_the_names_of_layers_are_read_in_the_encoding_of_the_file(
    head: str, written: bytes
) -> None:
    """Code pages before 2007, UTF-8 since, escaped signs in both (the DXF reference)."""
    version = f"9\n$ACADVER\n1\n{head}\n9\n$INSUNITS".encode()
    data = raw(line(layer="LAYER")).replace(b"9\n$INSUNITS", version, 1)
    drawn = read_layers(data.replace(b"LAYER", written))
    assert len(drawn.curves_on("KANTE \u042f" if b"1251" in version else "KANTE \u00dc")) == 1


def test_half_of_a_sign_in_a_name_stays_escaped() -> None:
    """It could not be printed."""
    assert list(read_layers(raw(line(layer="\\U+D800"))).layers) == ["\\U+D800"]


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"AutoCAD Binary DXF\r\n\x1a\x00", "binary"),
        (raw(line())[:-20], "cut short"),
        (raw(line())[:60], "cut short"),
        (raw(), "no such layer"),
        (b"0\nSECTION\n2\nHEADER\n0\nENDSEC\n0\nEOF\n", "nothing drawn"),
        (raw(line()).replace(b"\n4\n", b"\nfour\n"), "no whole number"),
        (raw(line()).replace(b"\n10\n", b"\nten\n"), "line 21 holds no group code"),
        (b"9" * 5000 + b"\n0\n", "no DXF drawing"),
    ],
)
def test_a_damaged_file_is_told(data: bytes, word: str) -> None:
    """Cut short, binary, empty, without codes."""
    with pytest.raises(DxfError, match=word):
        read_layers(data).curves_on("EDGE")


def test_runs_that_vanish_at_a_joint_are_left_out() -> None:
    """Ends that lie as near each other as the run is long: a bit of 0.6 um between two lines."""
    bit = [(10 + 0.0004, 0), (10 + 0.001, 0.00001)]
    runs = [line(), light([*bit, (10 + 0.0011, 0)]), line({10: 10.0012, 20: 0, 11: 20, 21: 0})]
    for order in (runs, runs[::-1]):
        found = read_layers(raw(*order)).curves_on("EDGE")
        assert sum(map(length, found)) == pytest.approx(20, abs=0.01)


def test_a_closed_run_may_end_in_a_bit_that_closing_swallows() -> None:
    """The last point comes back to the first within the joint, the one before lies on it."""
    rows = [(0, 0), (10, 0), (10, 10), (0, 0), (0.0005, 0.0)]
    (found,) = read_layers(raw(light(rows))).curves_on("EDGE")
    assert isinstance(found, Contour)
    assert len(found) == 3


def test_a_tiny_arc_of_a_big_circle_is_nothing() -> None:
    """A sweep without length; just a full turn is a circle."""
    assert "nothing on this layer" in told(arc({51: 1e-9}))
    (found,) = read_layers(raw(arc({50: 30, 51: 390}))).curves_on("EDGE")
    assert isinstance(found, Contour)
    assert length(found) == pytest.approx(4 * math.pi)


def _cut_up(rng: random.Random, count: int) -> list[Chain]:
    """A spiral of lines and arcs cut into single runs, shuffled, some turned round."""
    turns = np.linspace(0.0, 12.0, count + 1)
    at = (5 + turns) * np.exp(1j * turns)
    pieces = []
    for start, end in pairwise(at.tolist()):
        off = [complex(rng.uniform(-1, 1), rng.uniform(-1, 1)) * JOINT / 10 for _ in range(2)]
        piece = chain([start + off[0], end + off[1]], [rng.choice([0.0, 0.05, -0.05])])
        pieces.append(reverse(piece) if rng.random() < 0.5 else piece)
    rng.shuffle(pieces)
    return pieces


def test_the_work_of_joining_grows_with_the_number_of_runs() -> None:
    """Counted in calls, not in seconds: twice the runs take about twice the steps."""
    rng = random.Random(4)
    steps = []
    for count in (400, 800, 1600):
        pieces = _cut_up(rng, count)
        calls, (run,) = _calls_of(pieces)
        assert isinstance(run, Chain)
        assert len(run) == count
        steps.append(calls)
    assert steps[2] - steps[1] < 2.2 * (steps[1] - steps[0])


def _calls_of(pieces: list[Chain]) -> tuple[int, tuple[Chain | Contour, ...]]:
    """How many calls joining makes, of any function, and what comes out."""
    count = 0

    def heard(frame: object, event: str, arg: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(heard)
    try:
        found = joined(pieces)
    finally:
        sys.setprofile(before)
    return count, found


def test_many_runs_apart_stay_apart() -> None:
    """Each its own."""
    apart = [line({10: k, 11: k + 0.5}) for k in range(3000)]
    assert len(read_layers(raw(*apart)).curves_on("EDGE")) == 3000
