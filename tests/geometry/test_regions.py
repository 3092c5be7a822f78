"""Regions against hand-worked cases, the identities of sets, and polygons of fine chords."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry

from profilegen.geometry.arcs import radii
from profilegen.geometry.chain import Chain, Contour, Role, chain, circle, contour, reverse
from profilegen.geometry.measure import area, contains, length, nearest
from profilegen.geometry.moves import Move, moved
from profilegen.geometry.regions import clip, intersect, join, keep, split, subtract, unite
from profilegen.geometry.tolerance import FLATTEST_SAGITTA
from profilegen.geometry.validity import why_invalid
from tests import strategies as own
from tests.geometry.oracles import polygon

steady = settings(derandomize=True, deadline=None, max_examples=60)

SQUARE = contour([0, 2, 2 + 2j, 2j])


def total(region: tuple[Contour, ...]) -> float:
    """Area of a region, its holes taken off, mm2."""
    return sum(area(part) for part in region)


def check_identities(a: Contour, b: Contour, slack: float = 0.0) -> None:
    """The areas of all that two regions make add up, and every contour made is a simple one.

    They do to 1e-9 of the greater area, and `slack` mm2.
    """
    less, both, all_ = subtract(a, b), intersect(a, b), unite(a, b)
    slack += 1e-9 * max(area(a), area(b))
    assert total(less) + total(both) == pytest.approx(area(a), abs=slack)
    assert total(all_) == pytest.approx(area(a) + total(subtract(b, a)), abs=slack)
    assert total(all_) + total(both) == pytest.approx(area(a) + area(b), abs=slack)
    for made in (*less, *both, *all_):
        assert why_invalid(made if area(made) > 0 else reverse(made)) is None


def test_lens_of_two_circles_has_the_standard_area() -> None:
    """Two unit circles a radius apart share 2 pi / 3 - sqrt(3) / 2 (standard formula)."""
    (lens,) = intersect(circle(0, 1), circle(1, 1))
    assert area(lens) == pytest.approx(2 * math.pi / 3 - math.sqrt(3) / 2, rel=1e-14)
    assert radii(lens.starts, lens.ends, lens.bulges) == pytest.approx(1, rel=1e-14)


def test_wedge_cut_from_a_disc_leaves_lines_and_a_true_arc() -> None:
    """A quarter taken from a disc leaves three quarters, of two lines and arcs of its radius."""
    wedge = contour([0, 5, 5 + 5j, 5j], roles=int(Role.EDGE))
    (left,) = subtract(circle(0, 2, int(Role.LAND)), wedge)
    assert area(left) == pytest.approx(3 * math.pi, rel=1e-15)
    arcs = left.bulges != 0
    assert radii(left.starts, left.ends, left.bulges)[arcs] == pytest.approx(2, rel=1e-15)
    assert left.roles[arcs].tolist() == [Role.LAND] * int(arcs.sum())
    assert left.roles[~arcs].tolist() == [Role.EDGE] * 2
    (quarter,) = intersect(circle(0, 2), wedge)
    assert area(quarter) == pytest.approx(math.pi, rel=1e-15)


def test_apart_and_nested() -> None:
    """Regions apart stay as they are; one inside another becomes a clockwise hole."""
    outer, inner, far = circle(0, 3), circle(0.5, 1), circle(9, 1)
    assert subtract(outer, far) == (outer,)
    assert intersect(outer, far) == ()
    assert set(unite(outer, far)) == {outer, far}
    assert subtract(outer, inner) == (outer, reverse(inner))
    assert subtract(inner, outer) == ()
    assert intersect(outer, inner) == (inner,)
    assert unite(outer, inner) == (outer,)


def test_region_with_a_hole_is_worked_as_one() -> None:
    """A ring cut by a bar falls into two pieces; a plug fills its hole."""
    ring = (circle(0, 3), reverse(circle(0, 1)))
    bar = contour([-5 - 0.5j, 5 - 0.5j, 5 + 0.5j, -5 + 0.5j])
    halves = subtract(ring, bar)
    assert len(halves) == 2
    assert area(halves[0]) == pytest.approx(area(halves[1]), rel=1e-13)
    assert total(halves) + total(intersect(ring, bar)) == pytest.approx(8 * math.pi, rel=1e-13)
    assert total(unite(ring, circle(0, 1, start_angle=1))) == pytest.approx(9 * math.pi, rel=1e-13)
    assert total(intersect(ring, circle(0, 2))) == pytest.approx(3 * math.pi, rel=1e-13)


def test_touching_at_a_point_keeps_contours_apart() -> None:
    """Circles that touch stay two contours; a hole that touches the rim stays a hole."""
    assert [area(c) for c in unite(circle(0, 2), circle(4, 2))] == pytest.approx([4 * math.pi] * 2)
    made = subtract(circle(0, 2), circle(1, 1, start_angle=0.5))
    assert sorted(area(c) for c in made) == pytest.approx([-math.pi, 4 * math.pi])
    corner = unite(SQUARE, moved(SQUARE, Move(shift=2 + 2j)))
    assert [area(c) for c in corner] == [4, 4]


def test_equal_regions() -> None:
    """A region less itself is nothing, and with itself is itself, wherever its arcs are parted."""
    disc, turned = circle(1j, 2), circle(1j, 2, start_angle=1)
    for same in (disc, turned):
        assert subtract(disc, same) == ()
        assert total(intersect(disc, same)) == pytest.approx(4 * math.pi)
        assert total(unite(disc, same)) == pytest.approx(4 * math.pi)


def test_shared_edge_disappears_in_a_union() -> None:
    """Neighbours with a common stretch of edge become one contour; their common part is nothing."""
    beside = contour([2 - 1j, 3 - 1j, 3 + 1j, 2 + 1j])
    (both,) = unite(SQUARE, beside)
    assert area(both) == 6
    assert len(both) == 8
    assert [area(part) for part in subtract(SQUARE, beside)] == [4]
    assert intersect(SQUARE, beside) == ()


def test_shared_arc_disappears_in_a_union() -> None:
    """A plug in a half round notch, its arc on the notch's arc, makes the plate whole."""
    plate = contour([-3 - 3j, 3 - 3j, 3 + 0j, 1, -1, -3], [0, 0, 0, -1, 0, 0])
    plug = contour([-1, 1 + 0j], [1, 0])
    (whole,) = unite(plate, plug)
    assert area(whole) == pytest.approx(18, rel=1e-15)
    assert not whole.bulges.any()
    assert intersect(plate, plug) == ()
    big = circle(0, 1, start_angle=0.4)
    assert total(subtract(big, plug)) == pytest.approx(math.pi / 2, rel=1e-14)


def test_cutter_on_both_flanks_of_its_space_leaves_nothing() -> None:
    """A wheel less a cutter that lies on the flanks of a finished space is the wheel as it was."""
    blank = circle(0, 12.7)
    wedge = contour([11.0, 15.0 + 2j, 15 + 4j])
    (wheel,) = subtract(blank, wedge)
    for angle in np.linspace(0, 6, 13):
        turn = Move(turn=complex(np.exp(1j * angle)))
        there, cutter = moved(wheel, turn), moved(wedge, turn)
        assert intersect(there, cutter) == ()
        assert total(subtract(there, cutter)) == pytest.approx(area(wheel), rel=1e-13)
        beyond = area(wedge) - total(intersect(moved(blank, turn), cutter))
        whole = area(blank) + beyond
        assert total(unite(there, cutter)) == pytest.approx(whole, rel=1e-13)


def test_split_keeps_arcs_and_roles() -> None:
    """A cut circle is arcs of the same radius that join at the cuts and carry their roles."""
    disc = circle(0, 2, int(Role.BORE))
    pieces = split(disc, [0, 1], [0.25, 0.5])
    assert [len(piece) for piece in pieces] == [2, 2]
    assert pieces[0].points[-1] == pieces[1].points[0]
    assert pieces[0].points[0] == pytest.approx(math.sqrt(2) * (1 + 1j), abs=1e-15)
    assert sum(length(piece) for piece in pieces) == pytest.approx(4 * math.pi, rel=1e-15)
    for piece in pieces:
        assert radii(piece.starts, piece.ends, piece.bulges) == pytest.approx(2, rel=1e-15)
        assert set(piece.roles.tolist()) == {Role.BORE}
    assert [len(p) for p in split(disc, [], [])] == [2]
    assert len(split(chain([0, 4]), [0, 0], [0.5, 0.5])) == 2


def test_keep_sorts_pieces_by_side() -> None:
    """Pieces of a line across a square are outside, inside, outside; an edge's piece is on it."""
    pieces = split(chain([-2 + 1j, 4 + 1j]), [0, 0], [1 / 3, 2 / 3])
    assert keep(pieces, SQUARE, "inside") == (pieces[1],)
    assert keep(pieces, SQUARE, "outside") == (pieces[0], pieces[2])
    assert len(keep([chain([0.5, 1.5])], SQUARE, "on")) == 1


def test_join_refuses_pieces_that_do_not_meet() -> None:
    """Pieces whose ends differ by one bit are not joined in silence."""
    good = (chain([0, 1, 1 + 1j]), chain([1 + 1j, 0]))
    assert len(join(good)) == 1
    with pytest.raises(ValueError, match="do not close"):
        join((good[0], chain([1 + 1j + 1e-15, 0])))


def test_clip_tells_the_parts_of_a_hatching_line() -> None:
    """A line across a ring is kept in two stretches, and in three outside."""
    ring = (circle(0, 3), reverse(circle(0, 1)))
    inside = clip(chain([-5, 5]), ring)
    assert [part.points.tolist() for part in inside] == [[-3, -1], [1, 3]]
    outside = clip(chain([-5, 5]), ring, inside=False)
    assert [part.points.tolist() for part in outside] == [[-5, -3], [-1, 1], [3, 5]]
    assert clip(chain([-5 + 9j, 5 + 9j]), ring) == ()


def test_a_touch_does_not_part_a_clipped_chain() -> None:
    """A chain that touches the edge from inside stays in one piece."""
    (part,) = clip(chain([0.5, 1 + 2j, 1.5]), SQUARE)
    assert part == chain([0.5, 1 + 2j, 1.5])


@steady
@given(own.contours(), own.contours())
def test_areas_add_up(a: Contour, b: Contour) -> None:
    """|A - B| + |A and B| = |A|, and the same round, for any two contours.

    Arcs cut so short that they rise less than `FLATTEST_SAGITTA` become lines: hence the slack.
    """
    check_identities(a, b, FLATTEST_SAGITTA * (length(a) + length(b)))


@steady
@given(own.discs_and_wedges())
def test_wedges_cut_discs(pair: tuple[Contour, Contour]) -> None:
    """A wedge cuts a disc, and again the disc so cut, whose flanks now lie on its own."""
    disc, wedge = pair
    check_identities(disc, wedge)
    for wheel in subtract(disc, wedge):
        check_identities(wheel, wedge)
        check_identities(wedge, wheel)
        assert total(subtract(wheel, wedge)) == pytest.approx(area(wheel), rel=1e-9)
        assert total(intersect(wheel, wedge)) == pytest.approx(0, abs=1e-9 * area(disc))


@steady
@given(own.discs_and_wedges(), own.moves(), st.integers(3, 9))
def test_wheels_cut_in_laps(pair: tuple[Contour, Contour], move: Move, teeth: int) -> None:
    """A disc cut all round, then cut again by the same wedges computed anew, loses no more."""
    disc, wedge = pair
    wheel: tuple[Contour, ...] = (disc,)
    for k in range(teeth):
        wheel = subtract(wheel, moved(wedge, Move(turn=complex(np.exp(2j * np.pi * k / teeth)))))
    there = tuple(moved(part, move) for part in wheel)
    again = there
    for k in range(teeth):
        turn = Move(turn=complex(np.exp(2j * np.pi * (k - teeth) / teeth)))
        cutter = moved(wedge, move.after(turn))
        assert total(intersect(there, cutter)) == pytest.approx(0, abs=1e-9 * area(disc))
        again = subtract(again, cutter)
    assert total(again) == pytest.approx(total(wheel), rel=1e-9)


@steady
@given(own.contours(), st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), max_size=4))
def test_parts_that_share_edges_with_the_whole(shape: Contour, cuts: list[tuple[int, int]]) -> None:
    """A contour cut in two along a diagonal is whole again as the union of its halves."""
    for i, j in cuts:
        i, j = sorted((i % len(shape), j % len(shape)))
        part = [*range(i, j + 1)]
        if j - i < 2 or len(part) == len(shape):
            continue
        half = contour(shape.points[part].tolist(), [*shape.bulges[part[:-1]].tolist(), 0.0])
        if why_invalid(half) is None:
            check_identities(shape, half, FLATTEST_SAGITTA * length(shape))
            rest = subtract(shape, half)
            assert total(unite(rest, half)) == pytest.approx(total(unite(shape, half)), rel=1e-9)


@steady
@given(own.contours(), own.contours())
def test_areas_agree_with_polygons(a: Contour, b: Contour) -> None:
    """What is left, common and united has the area that fine polygons have."""
    p, q = polygon(a), polygon(b)
    slack = 2e-5 * (length(a) + length(b))
    assert total(subtract(a, b)) == pytest.approx(p.difference(q).area, abs=slack)
    assert total(intersect(a, b)) == pytest.approx(p.intersection(q).area, abs=slack)
    assert total(unite(a, b)) == pytest.approx(p.union(q).area, abs=slack)


@steady
@given(own.contours(), own.contours(), own.moves())
def test_regions_go_with_the_plane(a: Contour, b: Contour, move: Move) -> None:
    """Moving or mirroring both regions moves what they make and changes no area."""
    here = total(intersect(a, b))
    assert total(intersect(moved(a, move), moved(b, move))) == pytest.approx(
        here, abs=1e-9 * area(a)
    )


@steady
@given(own.chains(), own.contours())
def test_clipped_parts_make_up_the_chain(curve: Chain, shape: Contour) -> None:
    """What is inside and what is outside together are as long as the chain, each on its side."""
    inside, outside = clip(curve, shape), clip(curve, shape, inside=False)
    whole = sum(length(part) for part in (*inside, *outside))
    assert whole == pytest.approx(length(curve), abs=1e-6)
    for parts, side in ((inside, True), (outside, False)):
        for part in parts:
            middles = (part.starts + part.ends) / 2 - 0.5j * part.bulges * (part.ends - part.starts)
            clear = [nearest(shape, complex(m))[0] > 1e-6 for m in middles]
            assert (contains(shape, middles)[clear] == side).all()


@steady
@given(own.grid_contours(), own.grid_contours(), own.moves())
def test_touching_and_coincident_regions(a: Contour, b: Contour, move: Move) -> None:
    """Shapes that share edges, arcs and corners keep the identities, exact or a rounding apart."""
    for first, second in (
        (a, b),
        (moved(a, move), moved(moved(b, move.inverse()), move.after(move))),
    ):
        less, both, all_ = subtract(first, second), intersect(first, second), unite(first, second)
        assert total(less) + total(both) == pytest.approx(area(first), abs=1e-8)
        assert total(all_) == pytest.approx(total(less) + area(second), abs=1e-8)
        assert total(intersect(less, second)) == pytest.approx(0, abs=1e-8)
        assert total(unite(less, second)) == pytest.approx(total(all_), abs=1e-8)


@steady
@given(own.grid_contours(), st.lists(st.tuples(own.grid_contours(), own.angles), max_size=5))
def test_many_cuts_one_after_another(first: Contour, others: list[tuple[Contour, float]]) -> None:
    """Regions of several contours that touch one another are cut as their polygons are."""
    region: tuple[Contour, ...] = (first,)
    rough: BaseGeometry = polygon(first, 1e-4)
    for number, (other, angle) in enumerate(others):
        there, back = (Move(complex(math.cos(a), math.sin(a))) for a in (angle, -angle))
        again = moved(moved(other, there), back)
        if number % 2:
            region, rough = subtract(region, again), rough.difference(polygon(other, 1e-4))
        else:
            one_side, other_side = subtract(region, again), subtract(again, region)
            region = unite(one_side, other_side)
            rough = rough.symmetric_difference(polygon(other, 1e-4))
        assert total(region) == pytest.approx(rough.area, abs=1e-2)
        for part in region:
            said = why_invalid(part if area(part) > 0 else reverse(part))
            assert said is None or "straight back" in said


def test_plug_of_a_hole_that_touches_the_rim() -> None:
    """A hole cut off centre touches the rim; its plug, parted elsewhere, fills it wholly."""
    plug = circle(2 + 0j, 1, start_angle=math.pi)
    plate = circle(2 + 2j, 3)
    rest = subtract(plate, plug)
    assert len(rest) == 2
    assert intersect(rest, plug) == ()
    assert total(unite(rest, plug)) == pytest.approx(area(plate), rel=1e-14)
