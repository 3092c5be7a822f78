"""Ways to N stops against the handbooks' tables and against trying everything."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilegen.dividing.hardware import scales
from profilegen.dividing.rounding import worst_rounding
from profilegen.dividing.way import Way
from profilegen.dividing.ways import ways_for
from tests.dividing.hardware import PLATES, SPIN, WHEELS, head


def of(ways: tuple[Way, ...], method: str) -> list[Way]:
    """The ways of one method."""
    return [way for way in ways if way.method == method]


@pytest.mark.parametrize("teeth", [77, 87, 93])
def test_compound_against_trying_every_pair(teeth: int) -> None:
    """IDX-66, 67, 69 (remembered): the pairs are those that trying every two counts of holes
    finds, and each found movement is 40/N exactly."""
    pairs = set()
    for plate in PLATES:
        for first in plate:
            for second in plate:
                sums = (
                    Fraction(a, first) + Fraction(s * b, second)
                    for a in range(1, first)
                    for b in range(1, second)
                    for s in (1, -1)
                )
                if first < second and Fraction(40, teeth) in sums:
                    pairs.add((first, second))
    found = [way.move for way in of(ways_for(head(), teeth), "compound") if way.move]
    single = [move for move in found if move.spaces == 1]
    assert {tuple(sorted(move.circles)) for move in single} == pairs
    assert all(move.holes[0] > 0 for move in single)
    assert all(move.crank == Fraction(40, teeth) for move in single)


@pytest.mark.parametrize(
    ("teeth", "with_crank", "train"),
    [(59, True, (2, 3)), (61, False, (2, 3)), (127, False, (7, 3))],
)
def test_differential_as_the_tables_have_it(
    teeth: int, with_crank: bool, train: tuple[int, int]
) -> None:
    """IDX-77, 78, 94 (remembered): value and sense of the train are among those found."""
    found = set()
    for way in of(ways_for(head(change_wheels=WHEELS), teeth), "differential"):
        if way.move is None:
            continue
        value = 40 - teeth * way.move.crank
        wheels = way.move.wheels
        turned = Fraction(wheels[0], wheels[1])
        if len(wheels) == 4:
            turned *= Fraction(wheels[2], wheels[3])
        assert abs(value) == turned
        assert way.move.with_crank == (value > 0)
        found.add((way.move.with_crank, turned))
    assert (with_crank, Fraction(*train)) in found


def test_127_is_reached_by_change_wheels_alone() -> None:
    """127 is prime and on no circle of this head: the exact ways, by change wheels, come first."""
    ways = ways_for(head(change_wheels=WHEELS), 127)
    assert ways[0].method == "differential"
    assert {way.method for way in ways if way.exact} == {"differential"}


def test_worst_rounding_is_that_of_every_stop() -> None:
    """The closed form is the greatest error when every stop is rounded, for every 7th N to 1000."""
    for teeth in range(2, 1001, 7):
        for scale in scales(SPIN):
            places = (Fraction(k * scale.count, teeth) for k in range(teeth))
            worst = max(abs(round(place) - place) for place in places) * scale.step
            assert worst_rounding(teeth, scale) == worst


def test_exact_ways_come_first_and_the_simple_ones_of_these() -> None:
    """Over every count to 200: exact before not, plain before compound before differential, and of
    those that are not exact the least error of spacing first; the first is taken."""
    table, order = head(change_wheels=WHEELS), ["plain", "compound", "differential"]
    seen = set()
    for teeth in range(2, 201):
        ways = ways_for(table, teeth)
        exact = [order.index(way.method) for way in ways if way.exact]
        others = [way.spacing for way in ways if not way.exact]
        assert [way.exact for way in ways] == [True] * len(exact) + [False] * len(others)
        assert exact == sorted(exact)
        assert others == sorted(others)
        seen.add(ways[0].method)
    assert seen == set(order)
