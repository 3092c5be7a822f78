"""What must hold of every ratchet, whatever its numbers: properties over drawn part files.

No published source is needed: each property compares the program with itself, seen another way.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from profilegen.findings.cannot_make import CannotMakeError
from profilegen.geometry.chain import Chain, Contour, chain, circle, close, is_like, join
from profilegen.geometry.measure import area, length, nearest
from profilegen.geometry.moves import MIRROR_X, moved, repeated, rotation
from profilegen.geometry.regions import intersect, unite
from profilegen.job import Job
from tests.parts import Keys, double, job, ratchet, single, vee

SAME = 1e-9


@st.composite
def parts(draw: st.DrawFn) -> tuple[Keys, Keys]:
    """A ratchet that can be made, lengths in mm, and a cutter that can form it in one lap or
    two."""
    teeth, diameter = draw(st.integers(8, 120)), draw(st.floats(8.0, 200.0))
    pitch = math.pi * diameter / teeth
    angle, hook = draw(st.floats(40.0, 80.0)), draw(st.floats(-8.0, 12.0))
    blunt = draw(st.sampled_from(["root_radius", "root_flat", None]))
    size = round(draw(st.floats(0.02, 0.08)) * pitch, 4)
    root: Keys = {"root_radius": None} if blunt is None else {"root_radius": None, blunt: size}
    wheel = ratchet(
        teeth=teeth,
        outside_diameter=diameter,
        thickness=draw(st.floats(0.3, 3.0)) * pitch,
        space_angle=angle,
        land=draw(st.floats(0.1, 0.3)) * pitch,
        hook_angle=hook,
        rotation=draw(st.sampled_from(["clockwise", "counter-clockwise"])),
        **root,
    )
    share = draw(st.sampled_from([1.0, 0.7]))
    kind = draw(st.sampled_from([vee, single]))
    return wheel, kind(angle * share, tip_radius=size if blunt == "root_radius" else 0.0)


def made(wheel: Keys, cutter: Keys, **tables: Any) -> Job:
    """The job of drawn tables; a wheel that cannot be made is drawn again."""
    try:
        return job(wheel, cutter, **tables)
    except CannotMakeError:
        assume(False)
        raise


def numbers(tree: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every leaf of a dictionary under its path."""
    if isinstance(tree, dict):
        for key, value in tree.items():
            yield from numbers(value, f"{path}.{key}")
    elif isinstance(tree, list):
        for number, value in enumerate(tree):
            yield from numbers(value, f"{path}[{number}]")
    else:
        yield path, tree


def without_words(tree: dict[str, Any]) -> dict[str, Any]:
    """All of a job's dictionary but the sentences, which are in the part's own unit."""
    told = (".message", ".remedy.value")
    return {path: value for path, value in numbers(tree) if not path.endswith(told)}


def space_of(made_job: Job) -> Contour:
    """Space 1 in base orientation, closed by the blank's edge, counter-clockwise or clockwise."""
    pitch = made_job.wheel.space.pitch
    flanks = Chain(pitch.points[:-1], pitch.bulges[:-1], pitch.roles[:-1])
    sweep = math.atan2(flanks.points[-1].imag, flanks.points[-1].real)
    edge = chain([flanks.points[-1], flanks.points[0]], [-math.tan(sweep / 4)])
    return close(join(flanks, edge))


@given(parts())
def test_spaces_and_wheel_make_the_blank(drawn: tuple[Keys, Keys]) -> None:
    """All spaces and the wheel together have the blank's area."""
    found = made(*drawn).wheel
    spaces = found.teeth * abs(area(space_of(made(*drawn))))
    assert spaces + area(found.outline) == pytest.approx(math.pi * found.radius**2, rel=1e-12)


@pytest.mark.exhaustive
@given(parts())
def test_other_hand_is_the_mirror_image(drawn: tuple[Keys, Keys]) -> None:
    """The other hand mirrors the outline and turns wheel angles round; every other dial stays."""
    wheel, cutter = drawn
    other = "clockwise" if wheel["rotation"] == "counter-clockwise" else "counter-clockwise"
    one, two = made(wheel, cutter), made({**wheel, "rotation": other}, cutter)
    assert is_like(moved(one.wheel.outline, MIRROR_X), two.wheel.outline, 0.0) or is_like(
        one.wheel.outline, moved(two.wheel.outline, MIRROR_X), 0.0
    )
    left, right = one.as_dict(), two.as_dict()
    for cut, twin in zip(left["cuts"], right["cuts"], strict=True):
        assert twin.pop("wheel_angle") == -cut.pop("wheel_angle")
        assert twin == cut
    for key in left["wheel"].keys() - {"rotation"}:
        assert left["wheel"][key] == right["wheel"][key], key
    assert left["outline"] == pytest.approx(right["outline"], rel=1e-14)


@pytest.mark.exhaustive
@given(parts())
def test_inch_and_mm_give_the_same_numbers(drawn: tuple[Keys, Keys]) -> None:
    """A part in inches and the same in mm give the same dictionary to 1e-9, sentences apart."""
    wheel, cutter = drawn
    in_inches = [_divided(table, 25.4) for table in (wheel, cutter)]
    left = without_words(made(wheel, cutter).as_dict())
    right = without_words(made(*in_inches, units="in").as_dict())
    assert _close(left, right)


LENGTHS = {
    "outside_diameter",
    "thickness",
    "land",
    "root_radius",
    "root_flat",
    "tip_radius",
    "tip_flat",
}


def _divided(table: Keys, by: float) -> Keys:
    return {key: value / by if key in LENGTHS else value for key, value in table.items()}


def _close(left: dict[str, Any], right: dict[str, Any]) -> bool:
    assert left.keys() == right.keys()
    for path, value in left.items():
        if isinstance(value, float):
            assert right[path] == pytest.approx(value, rel=SAME, abs=SAME), path
        else:
            assert right[path] == value, path
    return True


@pytest.mark.exhaustive
@given(parts(), st.floats(0.25, 4.0))
def test_scale_by_k_scales_lengths_by_k(drawn: tuple[Keys, Keys], k: float) -> None:
    """Lengths grow by k, the area by its square, angles and counts not at all."""
    small, large = made(*drawn), made(*(_divided(table, 1 / k) for table in drawn))
    left, right = small.as_dict(), large.as_dict()
    for table in (*zip(left["cuts"], right["cuts"], strict=True), (left["wheel"], right["wheel"])):
        for key, value in table[0].items():
            if isinstance(value, float):
                factor = 1.0 if "angle" in key or key == "angular_pitch" else k
                assert table[1][key] == pytest.approx(value * factor, rel=1e-9, abs=1e-9), key
            else:
                assert table[1][key] == value, key
    assert right["outline"]["area"] == pytest.approx(left["outline"]["area"] * k**2, rel=1e-11)
    assert right["outline"]["perimeter"] == pytest.approx(left["outline"]["perimeter"] * k)
    assert right["stops"] == left["stops"] or _close(
        dict(numbers(left["stops"])), dict(numbers(right["stops"]))
    )


@given(parts(), st.integers(1, 119))
def test_a_turn_by_pitches_maps_the_outline_onto_itself(
    drawn: tuple[Keys, Keys], pitches: int
) -> None:
    """Turned by any number of pitches, the outline is the same points, some places on."""
    wheel = made(*drawn).wheel
    turned = moved(wheel.outline, rotation(pitches * wheel.angular_pitch))
    per_tooth = len(wheel.outline) // wheel.teeth
    steps = pitches * per_tooth
    shift = np.roll(wheel.outline.points, -steps)
    assert np.max(np.abs(turned.points - shift)) < 1e-10
    assert np.array_equal(turned.bulges, np.roll(wheel.outline.bulges, -steps))
    assert np.array_equal(turned.roles, np.roll(wheel.outline.roles, -steps))


@given(parts())
def test_outline_is_the_space_repeated(drawn: tuple[Keys, Keys]) -> None:
    """The outline is space 1 at every pitch, in the hand of the wheel, bit for bit."""
    wheel = made(*drawn).wheel
    assert moved(repeated(wheel.space.pitch, wheel.teeth), wheel.wheel_from_base) == wheel.outline


@pytest.mark.exhaustive
@given(parts())
def test_segments_per_tooth(drawn: tuple[Keys, Keys]) -> None:
    """Four segments a tooth with a root, three when it is sharp."""
    wheel, cutter = drawn
    blunt = "root_radius" in wheel or "root_flat" in wheel
    assert made(wheel, cutter).as_dict()["outline"]["segments"] == wheel["teeth"] * (3 + blunt)


@pytest.mark.exhaustive
@given(parts())
def test_root_diameter_is_of_the_real_material(drawn: tuple[Keys, Keys]) -> None:
    """`root_diameter` is twice the least distance from the axis to the outline."""
    found = made(*drawn)
    least = nearest(found.wheel.outline, 0j)[0]
    facts = found.as_dict()["wheel"]
    assert facts["root_diameter"] == pytest.approx(2 * least, rel=1e-12)
    assert facts["tooth_depth"] == pytest.approx(found.wheel.radius - least, rel=1e-10)


@pytest.mark.exhaustive
@given(parts())
@example((ratchet(), double(12, 48)))
@example((ratchet(hook_angle=5), single(45)))
def test_no_minus_zero_and_no_nan(drawn: tuple[Keys, Keys]) -> None:
    """Every number that programs read is finite, and none is minus zero."""
    bore = {"kind": "round", "diameter": drawn[0]["outside_diameter"] / 8}
    for path, value in numbers(made(*drawn, bore=bore).as_dict()):
        if isinstance(value, float):
            assert math.isfinite(value), path
            assert value != 0.0 or math.copysign(1.0, value) > 0, path


@given(parts())
def test_land_between_neighbouring_spaces(drawn: tuple[Keys, Keys]) -> None:
    """The land told is the chord between two neighbouring crest corners of the outline."""
    wheel = made(*drawn).wheel
    per_tooth = len(wheel.outline) // wheel.teeth
    on_rim = np.abs(np.abs(wheel.outline.points) - wheel.radius) < 1e-9 * wheel.radius
    assert np.count_nonzero(on_rim) == 2 * wheel.teeth
    corners = wheel.outline.points[on_rim]
    chords = np.abs(np.roll(corners, -1) - corners)
    assert min(np.ptp(chords[::2]), np.ptp(chords[1::2])) < 1e-9
    assert any(abs(side - wheel.fact("land")) < 1e-9 for side in chords[:2])
    assert per_tooth in (3, 4)


@given(parts())
def test_no_cut_enters_the_wheel_and_together_they_clear_a_space(drawn: tuple[Keys, Keys]) -> None:
    """Cutters with the root's own tip take out just the spaces: exact booleans of lines and arcs.

    Their edges lie on the wheel's flanks, so that the booleans meet shared edges all along.
    """
    found = made(*drawn)
    assume(found.plan.cuts and "root_flat" not in drawn[0])
    wheel = found.wheel
    tools = [moved(cut.silhouette(), cut.wheel_from_setup(wheel)) for cut in found.plan.cuts]
    for tool in tools:
        assert sum(area(piece) for piece in intersect(wheel.outline, tool)) < 1e-9 * wheel.radius**2
    tool_of_all = (tools[0],) if len(tools) == 1 else unite(*tools)
    taken = intersect(circle(0j, wheel.radius), tool_of_all)
    wanted = abs(area(space_of(found)))
    assert sum(area(piece) for piece in taken) == pytest.approx(wanted, rel=1e-9)


@pytest.mark.exhaustive
@given(parts())
def test_perimeter_is_the_sum_of_one_pitch(drawn: tuple[Keys, Keys]) -> None:
    """The perimeter told is one pitch's length times the teeth."""
    found = made(*drawn)
    one = length(found.wheel.space.pitch)
    assert found.as_dict()["outline"]["perimeter"] == pytest.approx(one * found.wheel.teeth)
