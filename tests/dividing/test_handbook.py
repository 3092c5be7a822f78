"""The handbooks' tables, row by row: simple, angular, compound and differential dividing at 40:1.

Rows IDX. "Stored" sources were read as printed; "remembered" ones were not at hand. Every row is
also checked by exact fractions, which is how remembered rows are known to be right.
"""

from __future__ import annotations

from fractions import Fraction
from math import gcd

import pytest

from profilegen.dividing.differential import on_circle, trains_of
from profilegen.dividing.hardware import Scale, scales
from profilegen.dividing.readings import idlers, move_words, shown
from profilegen.dividing.way import Move, Way
from profilegen.dividing.ways import ways_for
from tests.dividing.hardware import PLATES, SPIN, WHEELS, exact_counts, head, made

REVERSIBLE = [
    [24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43],
    [46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66],
]
"""IDX-02: one plate, two sides; stored, an army manual of 1944."""

SIMPLE: dict[int, tuple[int, str, str]] = {
    6: (6, "10/15 12/18 14/21 18/27 22/33 26/39",
        "16/24 20/30 26/39 28/42 34/51 36/54 38/57 44/66"),
    9: (4, "8/18 12/27", "24/54"),
    11: (3, "21/33", "42/66"),
    13: (3, "3/39", "3/39"),
    17: (2, "6/17", "12/34 18/51"),
    19: (2, "2/19", "4/38 6/57"),
    22: (1, "27/33", "54/66"),
    23: (1, "17/23", "34/46"),
    26: (1, "21/39", "21/39"),
    28: (1, "9/21 21/49", "12/28 18/42 21/49"),
    29: (1, "11/29", "22/58"),
    32: (1, "4/16 5/20", "6/24 7/28"),
    33: (1, "7/33", "14/66"),
    37: (1, "3/37", "3/37"),
    42: (0, "20/21", "40/42"),
    43: (0, "40/43", "40/43"),
    48: (0, "15/18", "20/24 25/30 35/42 45/54 55/66"),
    50: (0, "12/15 16/20", "20/25 24/30"),
    54: (0, "20/27", "40/54"),
    60: (0, "10/15 12/18 14/21 18/27 22/33 26/39",
         "16/24 20/30 26/39 28/42 34/51 36/54 38/57 44/66"),
    66: (0, "20/33", "40/66"),
    78: (0, "20/39", "20/39"),
    80: (0, "8/16 9/18 10/20",
         "12/24 14/28 15/30 17/34 19/38 21/42 23/46 27/54 29/58 31/62 33/66"),
    100: (0, "6/15 8/20", "10/25 12/30"),
}  # fmt: skip
"""N -> whole turns, holes on the three plates, holes on the reversible plate.

IDX-09, 11, 12, 14, 16, 17, 19, 20, 22, 24, 25, 27, 28, 30, 32, 33, 35, 36, 38, 39, 41, 43, 44, 46:
handbook tables, remembered. IDX-47 (stored) has 6, 15 and 42 of them."""


@pytest.mark.parametrize("teeth", SIMPLE)
@pytest.mark.parametrize("plates", [0, 1])
def test_simple_indexing(teeth: int, plates: int) -> None:
    """Just the circles of the table are found, with its turns and holes."""
    turns, *holes = SIMPLE[teeth]
    table = head(plates=REVERSIBLE) if plates else head()
    ways = [way for way in ways_for(table, teeth) if way.method == "plain"]
    parts = [(divmod(int(way.per_stop), way.scale.circle), way.scale.circle) for way in ways]
    assert {turn for (turn, _), _ in parts} == {turns}
    assert {f"{rest}/{circle}" for (_, rest), circle in parts} == set(holes[plates].split())


def test_coverage_as_printed() -> None:
    """IDX-04 (a printed claim, stored): all to 50, even ones to 100 except 96. IDX-05 (remembered):
    the reversible plate makes all to 60, and even ones and multiples of 5 to 120."""
    three, two = set(exact_counts(head())), set(exact_counts(head(plates=REVERSIBLE)))
    assert set(range(2, 51)) <= three
    assert set(range(52, 101, 2)) - three == {96}
    assert set(range(2, 61)) <= two
    assert {n for n in range(61, 121) if n % 2 == 0 or n % 5 == 0} <= two


def test_counts_that_three_plates_do_not_reach() -> None:
    """IDX-06 (derived, no published source): the counts to 100 that need another way."""
    missing = set(range(2, 101)) - set(exact_counts(head(), 100))
    said = "51 53 57 59 61 63 67 69 71 73 77 79 81 83 87 89 91 93 96 97 99"
    assert missing == set(map(int, said.split()))


HIGH = [
    [30, 48, 69, 91, 99, 117, 129, 147, 171, 177, 189],
    [36, 67, 81, 97, 111, 127, 141, 157, 169, 183, 199],
    [34, 46, 79, 93, 109, 123, 139, 153, 167, 181, 197],
    [32, 44, 77, 89, 107, 121, 137, 151, 163, 179, 193],
    [26, 42, 73, 87, 103, 119, 133, 149, 161, 175, 191],
    [28, 38, 71, 83, 101, 113, 131, 143, 159, 173, 187],
]
"""IDX-03: three high-number plates, both sides of each; remembered from a handbook."""


def test_high_number_plates() -> None:
    """IDX-03 (the circles remembered, what they reach derived): with them every count to 200, every
    even one to 400, and every multiple of 5 to 400 but four, by plain dividing."""
    reached = set(exact_counts(head(plates=HIGH), 400))
    assert set(range(2, 201)) <= reached
    assert set(range(202, 401, 2)) <= reached
    assert set(range(205, 401, 5)) - reached == {225, 275, 325, 375}
    ways = ways_for(head(plates=HIGH), 127)
    assert [(w.method, w.scale.circle, w.scale.plate) for w in ways[:1]] == [("plain", 127, 2)]


def test_printed_examples() -> None:
    """IDX-47 (stored: an army manual and a practice sheet): 15 stops are 2 turns and 18 holes of
    27, or 24 of 36; 6 are 6 turns and 12 of 18, or 26 of 39; 42 are 40 of 42, or 20 of 21."""
    table = head(plates=[[18, 21, 27, 36, 39, 42]])
    for teeth, turns, parts in (
        (15, 2, {(18, 27), (24, 36)}),
        (6, 6, {(12, 18), (26, 39)}),
        (42, 0, {(40, 42), (20, 21)}),
    ):
        ways = [w for w in ways_for(table, teeth) if w.method == "plain"]
        found = {(divmod(int(w.per_stop), w.scale.circle), w.scale.circle) for w in ways}
        assert {((turns, holes), circle) for holes, circle in parts} <= found


def test_rotary_table_of_ninety() -> None:
    """IDX-109 (common practice, no published source): 7 and 13 at 90:1; 127 on no circle."""
    table = head(ratio=90)
    found = [
        (int(way.per_stop) // way.scale.circle, int(way.per_stop) % way.scale.circle)
        for teeth, circle in ((7, 21), (13, 39))
        for way in ways_for(table, teeth)
        if way.method == "plain" and way.scale.circle == circle
    ]
    assert found == [(12, 18), (6, 36)]
    assert not ways_for(table, 127)[0].exact


@pytest.mark.parametrize(
    ("degrees", "circle", "shows"),
    [
        (Fraction(1), 18, "0 turns, hole 2 of 18"),
        (Fraction(1), 27, "0 turns, hole 3 of 27"),
        (Fraction(1, 2), 18, "0 turns, hole 1 of 18"),
        (Fraction(1, 3), 27, "0 turns, hole 1 of 27"),
        (Fraction(35), 18, "3 turns, hole 16 of 18"),
        (Fraction(23, 2), 18, "1 turn, hole 5 of 18"),
        (Fraction(19), 54, "2 turns, hole 6 of 54"),
        (Fraction(45), 15, "5 turns, hole 0 of 15"),
        (8 + Fraction(50, 60), 54, "0 turns, hole 53 of 54"),
        (Fraction(54, 60), 20, "0 turns, hole 2 of 20"),
    ],
)
def test_angular_indexing(degrees: Fraction, circle: int, shows: str) -> None:
    """IDX-48 (stored: a handbook of 1916, a school's page, an army manual)."""
    scale = Scale("crank", 40 * circle, circle, 40, 1)
    place = degrees / 360 * scale.count
    assert place.denominator == 1
    assert shown(scale, int(place)) == shows


def test_an_angle_that_no_hole_makes() -> None:
    """IDX-49 (stored): 24 minutes by one hole of the 23 circle is 23.478 minutes."""
    scale = Scale("crank", 920, 23, 40)
    holes = round(Fraction(24, 21600) * scale.count)
    assert holes == 1
    assert float(holes * scale.step * 21600) == pytest.approx(23.478, abs=5e-4)


@pytest.mark.parametrize(
    ("holes", "circles", "turns"),
    [
        ((17, -12), (39, 49), "0.1910"),
        ((10, -5), (19, 15), "0.1930"),
        ((1, 5), (23, 33), "0.1950"),
        ((21, -10), (49, 43), "0.1960"),
        ((11, -3), (39, 37), "0.2010"),
        ((23, -14), (41, 39), "0.2020"),
        ((2, 2), (16, 20), "0.2250"),
        ((11, -2), (39, 37), "0.2280"),
        ((24, -13), (41, 37), "0.2340"),
    ],
)
def test_compound_movements(holes: tuple[int, ...], circles: tuple[int, ...], turns: str) -> None:
    """IDX-51, 53, 55, 56, 58, 59, 61, 63, 64: a printed table of crank movements, stored."""
    assert f"{float(Move(0, holes, circles).crank):.4f}" == turns


@pytest.mark.parametrize(
    ("teeth", "holes", "circles"),
    [(77, (9, 3), (21, 33)), (87, (23, -11), (29, 33)), (93, (3, 11), (31, 33))],
)
def test_compound_ways(teeth: int, holes: tuple[int, ...], circles: tuple[int, ...]) -> None:
    """IDX-66, 67, 69 (remembered; exact by fractions): found on just these circles and holes."""
    moves = [way.move for way in ways_for(head(), teeth) if way.method == "compound"]
    assert Move(0, holes, circles) in moves


def test_compound_obeys_its_formula() -> None:
    """IDX-50 (the formula stored): both circles on one plate, the two movements together m x 40/N,
    the m spaces coprime to N, for every count to 130 that has an exact compound way."""
    seen = set()
    for teeth in range(2, 131):
        for way in ways_for(head(), teeth):
            if way.method == "compound" and way.even and way.move:
                move = way.move
                assert set(move.circles) <= set(PLATES[way.scale.plate - 1])
                assert move.crank == Fraction(40 * move.spaces, teeth)
                assert gcd(move.spaces, teeth) == 1
                seen.add(teeth)
    assert {77, 87, 93} <= seen


def test_compound_that_is_nearly_exact() -> None:
    """IDX-71 (a printed table, stored as quoted): 106 by five spaces at a time is 0.38 seconds off
    a move; what is found here is no worse."""
    printed = Move(1, (7, 29), (39, 41), 5)
    off = abs(printed.crank - Fraction(5 * 40, 106)) / 40 * 1296000
    assert float(off) == pytest.approx(0.38, abs=0.005)
    (found,) = [way for way in ways_for(head(), 106) if way.method == "compound"]
    assert found.worst / 105 * 1296000 <= off
    assert move_words(printed) == "1 turn + 7/39 + 29/41"


DIFFERENTIAL = [
    (51, 14, 17, 48, 24, 2),
    (53, 35, 49, 72 * 40, 24 * 56, 0),
    (59, 26, 39, 32, 48, 1),
    (61, 26, 39, 32, 48, 2),
    (67, 28, 49, 48, 28, 1),
    (69, 12, 20, 56, 40, 2),
    (73, 12, 21, 48, 28, 2),
    (81, 10, 20, 24, 48, 2),
    (83, 10, 20, 48, 32, 2),
    (97, 8, 20, 48, 40, 1),
    (101, 8, 20, 48 * 24, 40 * 72, 1),
    (113, 13, 39, 56, 24, 1),
    (121, 13, 39, 24, 72, 2),
    (127, 13, 39, 56, 24, 2),
]
"""N, holes, circle, product of drivers and of driven wheels, idlers. IDX-74, 75, 77, 78, 80, 81,
83, 85, 86, 88, 89, 91, 93, 94: a handbook's table, remembered; the principle (IDX-73) is stored."""


@pytest.mark.parametrize(("teeth", "holes", "circle", "over", "under", "count"), DIFFERENTIAL)
def test_differential_rows(
    teeth: int, holes: int, circle: int, over: int, under: int, count: int
) -> None:
    """The row's movement is found, with a train of the row's value and as many idlers, if the
    train has as many wheels."""
    scale = Scale("crank", 40 * circle, circle, 40)
    found = list(on_circle(40, teeth, scale, trains_of(tuple(sorted(WHEELS)))))
    moves = [way.move for way in found if way.move and way.move.crank == Fraction(holes, circle)]
    (move,) = moves
    assert _value(move) == Fraction(over, under)
    assert move.with_crank == (40 - teeth * Fraction(holes, circle) > 0)
    if (over > 100) == (len(move.wheels) == 4):
        assert idlers(move) == count


def _value(move: Move) -> Fraction:
    wheels = move.wheels
    value = Fraction(wheels[0], wheels[1])
    return value * Fraction(wheels[2], wheels[3]) if len(wheels) == 4 else value


@pytest.mark.parametrize(
    ("teeth", "near", "with_crank", "idle"),
    [(59, 60, True, 1), (61, 60, False, 2), (97, 100, True, 1), (121, 120, False, 2)],
)
def test_differential_formula(teeth: int, near: int, with_crank: bool, idle: int) -> None:
    """IDX-73 (remembered; its principle stored): the crank moves as for a count A near N, the train
    is (A - N) 40 / A; for A above N the plate turns with the crank and two wheels take one idler,
    for A below N against it and they take two."""
    found = [way.move for way in ways_for(head(change_wheels=WHEELS), teeth) if way.move]
    moves = [m for m in found if m.wheels and m.crank == Fraction(40, near)]
    assert moves
    for move in moves:
        assert _value(move) == abs(Fraction(40 * (near - teeth), near))
        assert (len(move.wheels), move.with_crank, idlers(move)) == (2, with_crank, idle)


def test_differential_against_turning_the_crank() -> None:
    """Turning it out, N moves of the crank and what the train turns the plate make just one turn
    of the work, for every way of every count that plain dividing does not make to 130."""
    plain = exact_counts(head(), 130)
    ways: list[Way] = []
    for teeth in set(range(2, 131)) - set(plain):
        ways += [w for w in ways_for(head(change_wheels=WHEELS), teeth) if w.move and w.move.wheels]
    assert len({way.teeth for way in ways}) == 130 - 1 - len(plain)
    for way in ways:
        move = way.move
        if move is None:
            continue
        plate = _value(move) * (1 if move.with_crank else -1)
        assert (way.teeth * move.crank + plate) / 40 == 1


@pytest.mark.parametrize(
    ("holes", "counts"),
    [
        (24, (2, 3, 4, 6, 8, 12, 24)),
        (30, (2, 3, 5, 6, 10, 15, 30)),
        (36, (2, 3, 4, 6, 9, 12, 18, 36)),
    ],
)
def test_direct_plates(holes: int, counts: tuple[int, ...]) -> None:
    """IDX-95 (stored: 15 degrees a hole; its counts remembered), IDX-96 (remembered), IDX-98 (a
    stored article, the counts of 36 holes)."""
    assert exact_counts(made("plate", holes=holes)) == counts
    (scale,) = scales(made("plate", holes=holes))
    assert scale.step * 360 == Fraction(360, holes)


def test_spin_indexer_counts() -> None:
    """IDX-97 (a stored article has the 36 holes and 10 positions): just the divisors of 360."""
    said = "2 3 4 5 6 8 9 10 12 15 18 20 24 30 36 40 45 60 72 90 120 180 360"
    assert exact_counts(SPIN) == tuple(map(int, said.split()))
