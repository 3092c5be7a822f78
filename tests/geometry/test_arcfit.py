"""Curves followed by arcs: exact ones in one piece, others within a tolerance measured anew."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilegen.geometry.arcfit import Complexes, Fitted, Smooth, fit_arcs
from profilegen.geometry.arcs import end_tangents, start_tangents
from profilegen.geometry.chain import Chain, Reals
from profilegen.geometry.measure import nearest_each

steady = settings(derandomize=True, deadline=None, max_examples=40)


def involute(base: float) -> tuple[Callable[[Reals], Complexes], Callable[[Reals], Complexes]]:
    """The involute of a circle (mm) and its direction, by the turn of the unwound string, rad."""
    return (
        lambda turn: base * np.exp(1j * turn) * (1 - 1j * turn),
        lambda turn: np.exp(1j * turn),
    )


def circle(sweep: float) -> Smooth:
    """An arc of 5 mm round (3, 2), its parameter running from 0 to 1."""
    return Smooth(
        lambda t: 3 + 2j + 5 * np.exp(1j * t * sweep),
        lambda t: 1j * sweep * np.exp(1j * t * sweep),
        0.0,
        1.0,
    )


STILL = Smooth(lambda t: 0 * t + 2j, lambda t: 0 * t + 1 + 0j, 0.0, 1.0)
"""A place and no curve."""


def flank(outside: float = 11.0, base: float = 10 * math.cos(math.radians(20))) -> Smooth:
    """The flank of a gear of module 1, 20 teeth, 20 degrees, from its base circle to its tip."""
    return Smooth(*involute(base), 0.0, math.sqrt((outside / base) ** 2 - 1))


def stands_off(curve: Smooth, fitted: Fitted, places: int = 20_001) -> float:
    """Greatest distance of the curve from the arcs at a great many places, mm."""
    at = np.asarray(curve.point(np.linspace(curve.start, curve.end, places)), np.complex128)
    return float(nearest_each(fitted.chain(), at)[0].max())


def kinks(arcs: Chain) -> Reals:
    """Turn at each inner corner, rad, shape (n - 1,)."""
    arriving = end_tangents(arcs.starts, arcs.ends, arcs.bulges)[:-1]
    leaving = start_tangents(arcs.starts, arcs.ends, arcs.bulges)[1:]
    return np.asarray(np.angle(leaving / arriving))


def test_a_circle_and_a_line_come_back_as_one_piece() -> None:
    """Up to half a turn a circle is one arc with the bulge tan(sweep / 4); a line is one line."""
    for sweep in (0.001, 0.5, -1.7, math.pi):
        fitted = fit_arcs(circle(sweep), 1e-6)
        assert fitted.bulges == pytest.approx([math.tan(sweep / 4)], rel=1e-9)
        assert fitted.error < 1e-12
    line = Smooth(lambda t: (1 + 2j) * t, lambda t: 0 * t + 3 + 6j, -4.0, 9.0)
    fitted = fit_arcs(line, 1e-6)
    assert fitted.bulges.tolist() == [0.0]
    assert fitted.points.tolist() == [-4 - 8j, 9 + 18j]


def test_a_whole_circle_takes_two_half_turns() -> None:
    """No arc of a chain may pass a half turn."""
    fitted = fit_arcs(circle(math.tau))
    assert len(fitted.bulges) in (2, 3)
    assert fitted.error < 1e-12


def test_an_involute_flank_takes_at_most_six_arcs_at_a_thousandth() -> None:
    """From the base circle, where the involute bends without limit, to the tip; the curve is
    measured again at 20,001 places."""
    fitted = fit_arcs(flank(), 1e-3)
    assert len(fitted.bulges) <= 6
    assert fitted.error <= 1e-3
    assert stands_off(flank(), fitted) == pytest.approx(fitted.error, rel=2e-3)
    assert np.abs(kinks(fitted.chain())).max() < 1e-8


def test_counts_grow_as_the_cube_root_of_the_tolerance() -> None:
    """A thousandfold finer tolerance takes about ten times the arcs, fewer where a last short piece
    counts as one (the error of a biarc is of third order in its length)."""
    counts = [len(fit_arcs(flank(), tolerance).bulges) for tolerance in (1e-6, 1e-9)]
    assert counts[1] / counts[0] == pytest.approx(10, rel=0.15)


def test_pieces_are_short_where_the_curve_bends_fast() -> None:
    """On an ellipse of 10 by 1 the arcs crowd at its sharp ends, and no fewer pieces would do: two
    neighbours made one are out of tolerance."""
    ellipse = Smooth(
        lambda t: 10 * np.cos(t) + 1j * np.sin(t),
        lambda t: -10 * np.sin(t) + 1j * np.cos(t),
        0.0,
        math.pi,
    )
    fitted = fit_arcs(ellipse, 1e-4)
    lengths = np.abs(np.diff(fitted.points))
    assert lengths[0] < lengths[len(lengths) // 2] / 5
    assert stands_off(ellipse, fitted) <= 1e-4 * (1 + 1e-6)
    assert fitted.bulges.min() > 0


@given(st.floats(-2, 2), st.floats(-2, 2), st.floats(-1, 1), st.sampled_from([1e-2, 1e-3, 1e-5]))
@steady
def test_a_wavy_curve_stays_within_tolerance(
    bend: float, twist: float, tilt: float, tolerance: float
) -> None:
    """Curves with turning points of their bend: within tolerance, tangent at every joint, and the
    ends are the curve's own."""

    def point(t: Reals) -> Complexes:
        return np.asarray(4 * t + 1j * (tilt * t + bend * t**2 + twist * np.sin(3 * t)))

    curve = Smooth(
        point, lambda t: 4 + 1j * (tilt + 2 * bend * t + 3 * twist * np.cos(3 * t)), 0, 2
    )
    fitted = fit_arcs(curve, tolerance)
    assert fitted.error <= tolerance
    assert stands_off(curve, fitted, 4001) <= tolerance * 1.002
    ends = point(np.array([0.0, 2.0]))
    assert fitted.points[[0, -1]] == pytest.approx(ends)
    if len(fitted.bulges) > 1:
        assert np.abs(kinks(fitted.chain())).max() < 1e-6


def test_what_is_no_curve_and_no_tolerance_are_refused() -> None:
    """What no arcs follow is an error, not an endless list."""
    for nowhere in (Smooth(lambda t: t * math.nan + 0j, lambda t: 0j * t + 1, 0, 1), STILL):
        with pytest.raises(ValueError, match="no arcs follow"):
            fit_arcs(nowhere)
    for wrong in (0.0, -1e-3, math.nan):
        with pytest.raises(ValueError, match="tolerance"):
            fit_arcs(flank(), wrong)
