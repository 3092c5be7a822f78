"""A pose that the set-up holds: the cutter goes as deep as it may there, no flank matched."""

from __future__ import annotations

import math

import pytest

from profilegen.cutting.fit import fit_of
from profilegen.cutting.relief import swept_error
from profilegen.cutting.wedge import Wedge
from profilegen.findings.telling import told
from tests.parts import Keys, job, ratchet, vee


def held(cutter: Keys, **setup: object) -> tuple[float, float, float, float]:
    """Offset, angle of the face from the infeed (deg), gouge and left-over of the first cut."""
    made = job(ratchet(hook_angle=8, space_angle=50), cutter, setup=setup)
    (cut,) = made.plan.cuts
    assert cut.forms == "space"
    face = made.wheel.space.face
    assert face is not None
    stands = cut.setup_from_base.direction(face.outward)
    fit = fit_of(made.wheel, (cut,))
    angle = math.degrees(math.atan2(stands.real, stands.imag))
    return cut.offset, angle, fit.gouge.value, fit.left_over.value


def test_the_matching_pose_held_forms_the_space() -> None:
    """Held where flank matching puts it, the deepest plunge leaves the cut that matching gives."""
    (matched,) = job(ratchet(hook_angle=8, space_angle=50), vee(50)).plan.cuts
    offset, angle, gouge, left = held(vee(50), offset=matched.offset, face_angle=25)
    assert (offset, angle) == pytest.approx((matched.offset, 25))
    assert gouge < 1e-6
    assert left < 1e-6


@pytest.mark.parametrize("setup", [{"offset": 5.5}, {"face_angle": 24}])
def test_one_held_leaves_the_other_free(setup: Keys) -> None:
    """What is held stays, the other is sought; nothing is gouged, and less is left than with both
    held off."""
    offset, angle, gouge, left = held(vee(50), **setup)
    assert gouge < 1e-6
    assert offset == pytest.approx(setup.get("offset", offset))
    assert angle == pytest.approx(setup.get("face_angle", angle))
    assert left < held(vee(50), offset=5.5, face_angle=24)[3]


@pytest.mark.parametrize(("off", "depth"), [(2.0, 1.5), (-3.0, 2.5)])
def test_swept_error_is_what_points_of_the_edge_sweep(off: float, depth: float) -> None:
    """Each point of the edge turned about the spindle, against the straight flank of the edge."""
    half, radius = math.radians(30), 15.0
    tall = math.sqrt(radius**2 - off**2)
    worst = 0.0
    for step in range(1001):
        height = depth * step / 1000
        swept = radius - math.hypot(tall - height, off)
        across = height * math.tan(half)
        worst = max(worst, across * math.cos(half) - swept * math.sin(half))
    told = swept_error(Wedge("v", "vee", half, half), radius, off, depth)
    assert told == pytest.approx(worst, abs=1e-9)


def test_a_pose_that_cannot_be_is_told_by_the_key_that_holds_it() -> None:
    """The refusal names the held key, not the cutter."""
    made = job(ratchet(), vee(60), setup={"offset": 400})
    (found,) = [one for one in made.findings if one.severity == "refused"]
    assert (found.code, found.where) == ("cutter-cannot-enter", "setup.offset")
    assert "hold another value" in told(found)
