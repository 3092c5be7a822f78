"""Centre and second moments of an area, to be held against the kernel's.

Green's theorem along the boundary; lines and arcs are integrated to rounding.
"""

from __future__ import annotations

import numpy as np

from profilegen.geometry.arcs import lengths, points_at, sweeps
from profilegen.geometry.chain import Contour, Points
from profilegen.geometry.measure import area


def centroid(contour: Contour) -> complex:
    """Centre of the enclosed area, mm."""
    middle = complex(np.mean(contour.points))
    at, step = _boundary_nodes(contour, middle)
    first = np.sum(at.real**2 * step.imag) / 2 - 0.5j * np.sum(at.imag**2 * step.real)
    return middle + complex(first) / area(contour)


def second_moments(contour: Contour) -> tuple[float, float, float]:
    """Second moments of area about the origin, mm4: `(Ixx, Iyy, Ixy)`.

    `Ixx` is the integral of y squared, `Iyy` of x squared, `Ixy` of x y; they carry the sign of
    the area.
    """
    at, step = _boundary_nodes(contour, 0j)
    x, y = at.real, at.imag
    ixx = -np.sum(y**3 * step.real) / 3
    iyy = np.sum(x**3 * step.imag) / 3
    ixy = np.sum(x**2 * y * step.imag) / 2
    return float(ixx), float(iyy), float(ixy)


def _boundary_nodes(contour: Contour, datum: complex) -> tuple[Points, Points]:
    """Points on the boundary and weighted steps `dz`, for integrals by Green's theorem.

    Sixteen Gauss points a segment integrate a line's and an arc's moments to rounding.
    """
    node, weight = np.polynomial.legendre.leggauss(16)
    starts, ends = contour.starts[:, None] - datum, contour.ends[:, None] - datum
    bulges, fraction = contour.bulges[:, None], (node + 1) / 2
    chord = ends - starts
    heading = chord / np.abs(chord) * np.exp(1j * sweeps(bulges) * (fraction - 0.5))
    step = heading * lengths(starts, ends, bulges) * weight / 2
    return points_at(starts, ends, bulges, fraction), step
