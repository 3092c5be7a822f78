"""What a nose or a flat takes off the depth of a pointed cutter: printed and derived rows."""

from __future__ import annotations

import math

import pytest

from profilegen.cutting.wedge import Wedge

# VEE-20, 22, 23, 25, 27, 29, 30: depth lost to a nose in a symmetric V, over its radius; derived,
# no published source: 1 / sin(A / 2) - 1.
LOST = [
    (29, 2.99393),
    (45, 1.61313),
    (47.5, 1.48295),
    (60, 1.00000),
    (80, 0.55572),
    (90, 0.41421),
    (100, 0.30541),
]

# VEE-04, 06, 07, 09, 11, 12, 14, 16, 17: total depth of cut of an internal 60 degree thread by the
# nose of the insert, printed to 0.01 mm in the pass table of a turning catalogue (2016-17, internal
# 60 degree partial profile, p. 535): three quarters of the sharp height less what the nose takes.
PRINTED = [
    (1.00, 0.05, 0.60),
    (1.50, 0.05, 0.92),
    (1.50, 0.10, 0.87),
    (2.00, 0.05, 1.25),
    (2.50, 0.05, 1.57),
    (2.50, 0.10, 1.52),
    (3.00, 0.10, 1.85),
    (3.50, 0.05, 2.22),
    (3.50, 0.10, 2.17),
]

# VEE-32, 34: depth lost to a flat tip, w / (2 tan(A / 2)); derived, no published source.
FLATS = [(60, 0.2, 0.1732), (45, 0.3, 0.3621)]


def vee(angle: float, nose: float = 0.0, flat: float = 0.0) -> Wedge:
    """A symmetric wedge; angle in degrees."""
    half = math.radians(angle) / 2
    return Wedge("vee", "vee", half, half, nose, flat)


def lowest(wedge: Wedge) -> float:
    """Lowest point of the drawn silhouette, by points along its segments."""
    edge = wedge.silhouette(5.0)
    inside = [complex(z) for z in edge.points]
    for start, end, bulge in zip(edge.starts, edge.ends, edge.bulges, strict=True):
        middle = (start + end) / 2 - 0.5j * bulge * (end - start)
        inside.append(complex(middle))
    return min(z.imag for z in inside)


@pytest.mark.parametrize(("angle", "share"), LOST)
def test_nose_takes_off_depth(angle: float, share: float) -> None:
    """The tip stands above the apex by the row's share of the nose, in numbers and as drawn."""
    wedge = vee(angle, nose=0.4)
    assert wedge.tip.imag / 0.4 == pytest.approx(share, abs=5e-6)
    assert lowest(wedge) == pytest.approx(wedge.tip.imag, abs=1e-12)


@pytest.mark.parametrize(("pitch", "nose", "depth"), PRINTED)
def test_depth_of_a_thread_as_printed(pitch: float, nose: float, depth: float) -> None:
    """From three quarters of the sharp height the real tip goes as deep as the table says."""
    sharp = 0.75 * math.sqrt(3) / 2 * pitch
    assert sharp - vee(60, nose).tip.imag == pytest.approx(depth, abs=0.005 + 1e-9)


@pytest.mark.parametrize(("angle", "flat", "lost"), FLATS)
def test_flat_takes_off_depth(angle: float, flat: float, lost: float) -> None:
    """The same for a flat tip."""
    wedge = vee(angle, flat=flat)
    assert wedge.tip.imag == pytest.approx(lost, abs=5e-5)
    assert lowest(wedge) == pytest.approx(wedge.tip.imag, abs=1e-12)
