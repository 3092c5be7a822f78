"""Chords, polygons, spans, keyways: rows POL, SQR and SPL, and constructions of points."""

from __future__ import annotations

import cmath
import math

import pytest

from profilegen.gauging import spans

CHORDS = [
    # unit diameter, four places, printed (POL-01 to POL-28)
    *((3, 0.8660), (5, 0.5878), (6, 0.5000), (8, 0.3827), (9, 0.3420), (11, 0.2817)),
    *((12, 0.2588), (14, 0.2225), (16, 0.1951), (18, 0.1736), (19, 0.1646), (21, 0.1490)),
    *((23, 0.1362), (25, 0.1253), (27, 0.1161), (30, 0.1045), (36, 0.0872), (40, 0.0785)),
    (43, 0.0730),
]


@pytest.mark.parametrize(("divisions", "printed"), CHORDS)
def test_chords_of_unit_diameter(divisions: int, printed: float) -> None:
    """Handbook chords; the row for 15 (POL-30) is misprinted 0.2070 and left out."""
    assert round(spans.chord(1.0, divisions), 4) == printed


@pytest.mark.parametrize(
    ("divisions", "places"),
    [
        *((3, 0.866025), (7, 0.433884), (13, 0.239316), (17, 0.183750), (23, 0.136167)),
        *((29, 0.108119), (37, 0.084806), (41, 0.076549), (48, 0.065403), (53, 0.059241)),
        *((61, 0.051479), (64, 0.049068), (90, 0.034899), (96, 0.032719)),
    ],
)
def test_chords_to_six_places(divisions: int, places: float) -> None:
    """POL-40 to POL-59 (remembered)."""
    assert round(spans.chord(1.0, divisions), 6) == places


@pytest.mark.parametrize(
    ("divisions", "printed"),
    [(24, 0.2611), (14, 0.4450), (38, 0.1652), (46, 0.1365)],  # POL-34, 35, 37, 38, printed
)
def test_chords_of_unit_radius(divisions: int, printed: float) -> None:
    """Some tables go by a radius of 1: twice the chords of a diameter of 1."""
    assert round(spans.chord(2.0, divisions), 4) == printed


def test_handbook_examples() -> None:
    """POL-31: 56 divisions, factor 0.05607, chord 2.156, diameter 38.452; POL-32: 8 holes on 6."""
    assert round(spans.chord(1.0, 56), 5) == 0.05607
    assert round(2.156 / spans.chord(1.0, 56), 3) == 38.452
    assert round(spans.chord(6.0, 8), 3) == 2.296


def test_the_misprinted_chord() -> None:
    """POL-30: a printed table gives 0.2070 for 15; it is 0.2079."""
    assert round(spans.chord(1.0, 15), 4) == 0.2079


@pytest.mark.parametrize(
    ("size", "square", "hexagon"),
    [
        (4, 5.6569, 4.6188),
        (6, 8.4853, 6.9282),
        (8, 11.3137, 9.2376),
        (12.5, 17.6777, 14.4338),
    ],
)
def test_across_corners(size: float, square: float, hexagon: float) -> None:
    """SQR-09, 11, 12, 14 (remembered geometry)."""
    assert round(spans.across_corners(4, size), 4) == square
    assert round(spans.across_corners(6, size), 4) == hexagon


def test_across_rounded_corners() -> None:
    """SQR-16 (derived): a square of 6 with corners of 0.15; a hexagon by its corner circles."""
    assert round(spans.across_corners(4, 6, 0.15), 4) == 8.3610
    centre = (5 - 0.4) / math.cos(math.pi / 6)
    assert spans.across_corners(6, 10, 0.4) == pytest.approx(2 * (centre + 0.4), abs=1e-12)


def test_twelve_sided() -> None:
    """POL-62 and POL-64 (remembered geometry): across corners of 6 and 12 sides of AF 1."""
    assert round(spans.across_corners(6, 1), 5) == 1.15470
    assert round(spans.across_corners(12, 1), 5) == 1.03528


def test_span_between_corners() -> None:
    """The span is the distance of two points turned out on the blank."""
    radius, teeth, land = 19.0, 30, 0.4
    crest = 2 * math.asin(land / 2 / radius)
    for spanned in (1, 2, 6, 14):
        end = cmath.rect(radius, (spanned - 1) * math.tau / teeth + crest)
        assert spans.crest_span(radius, teeth, land, spanned) == pytest.approx(abs(end - radius))
    assert spans.crest_span(radius, teeth, land, 1) == pytest.approx(land)
    assert spans.greatest_span(radius, teeth, land) == 15


def test_levelled_face_is_below_for_a_hook() -> None:
    """Turning the face level by points: its tip then lies below the axis for a positive hook."""
    for hook in (-0.1, 0.0, 0.087, 0.3):
        level = 19.0 * cmath.exp(-1j * hook)
        assert spans.levelled_face(19.0, hook) == pytest.approx(level.imag)
    assert spans.levelled_face(19.0, 0.1) < 0


@pytest.mark.parametrize(
    ("shaft", "key", "s", "t"),
    [
        (1 / 2, 1 / 8, 0.430, 0.560),  # SPL-27
        (5 / 8, 3 / 16, 0.517, 0.709),  # SPL-29
        (3 / 4, 3 / 16, 0.644, 0.837),  # SPL-31
        (13 / 16, 3 / 16, 0.708, 0.900),  # SPL-32
        (15 / 16, 1 / 4, 0.796, 1.051),  # SPL-34
        (1 + 1 / 8, 1 / 4, 0.986, 1.241),  # SPL-36
        (1 + 1 / 4, 1 / 4, 1.112, 1.367),  # SPL-37
    ],
)
def test_keyseat_controls(shaft: float, key: float, s: float, t: float) -> None:
    """S and T of ANSI B17.1 as printed, three places: keyseat floor to the far side of the shaft,
    keyway floor to the far side of the bore, with 0.005 in over a square key."""
    low = shaft - spans.keyway_rise(shaft, key)
    assert round(low - key / 2, 3) == s
    assert round(low + key / 2 + 0.005, 3) == t


@pytest.mark.parametrize(
    ("bore", "height", "in_shaft", "in_hub", "over"),
    [
        (8, 2, 1.2, 1.0, 0.2),  # SPL-11, printed
        (12, 4, 2.5, 1.8, 0.3),  # SPL-13, printed
        (17, 5, 3.0, 2.3, 0.3),  # SPL-14, printed
        (30, 7, 4.0, 3.3, 0.3),  # SPL-16, remembered
        (44, 8, 5.0, 3.3, 0.3),  # SPL-18, printed
        (50, 9, 5.5, 3.8, 0.3),  # SPL-19, printed
    ],
)
def test_keyways_leave_room_over_the_key(
    bore: float, height: float, in_shaft: float, in_hub: float, over: float
) -> None:
    """DIN 6885-1 depths: hub's size less the shaft's is the key and a little room above it.

    The shaft's size is `d - t1`, the same sum with a depth that goes the other way.
    """
    hub = spans.keyway_to_far_side(bore, in_hub)
    shaft = spans.keyway_to_far_side(bore, -in_shaft)
    assert hub - shaft - height == pytest.approx(over)


@pytest.mark.parametrize(
    ("bore", "width", "depth", "far", "rise"),
    [(12, 4, 1.8, 13.80, 0.3431), (25, 8, 3.3, 28.30, 0.6573)],  # SPL-21, SPL-23 (derived)
)
def test_keyway_by_two_measurements(
    bore: float, width: float, depth: float, far: float, rise: float
) -> None:
    """Floor to far side, and floor to where the side meets the bore."""
    assert spans.keyway_to_far_side(bore, depth) == pytest.approx(far)
    assert round(spans.keyway_rise(bore, width), 4) == rise
    assert spans.keyway_wall(bore, width, depth) == pytest.approx(depth + rise, abs=5e-5)
