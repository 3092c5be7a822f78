"""What is said of contours that cannot be cut, and that long outlines cost little."""

from __future__ import annotations

import math

import numpy as np
import pytest

from profilegen.geometry.chain import Contour, chain, circle, contour, reverse
from profilegen.geometry.moves import repeated
from profilegen.geometry.validity import why_invalid


def saw(teeth: int, depth: float = 0.1) -> Contour:
    """A wheel of `teeth` saw teeth with an arc on each crest."""
    pitch = 2 * math.pi / teeth
    angles = np.array([0, 0.0, 0.8, 1.0]) * pitch
    radius = np.array([1, 1 - depth, 1, 1])
    at = (radius * np.exp(1j * angles)).tolist()
    return repeated(chain(at, [0, 0, math.tan(pitch * 0.2 / 4)]), teeth)


def test_plain_shapes_are_valid() -> None:
    """A square, a circle and a saw-toothed wheel have nothing wrong."""
    for good in (contour([0, 1, 1 + 1j, 1j]), circle(0, 3), saw(30)):
        assert why_invalid(good) is None


def test_clockwise_is_said() -> None:
    """A contour that runs clockwise is told so."""
    assert why_invalid(reverse(circle(0, 1))) == "it runs clockwise"


def test_crossing_is_said_with_its_place() -> None:
    """A contour that crosses itself is told where, in mm."""
    said = why_invalid(contour([0, 4, 1 + 3j, 3 + 3j]))
    assert said == "it crosses or touches itself at x 2.0000, y 2.0000 mm"
    assert why_invalid(contour([0, 2 + 2j, 2, 2j])) is not None


def test_touching_itself_is_said() -> None:
    """A vertex on another edge makes the contour touch itself."""
    said = why_invalid(contour([0, 4, 4 + 4j, 2, 4j]))
    assert said == "it crosses or touches itself at x 2.0000, y 0.0000 mm"


def test_turn_straight_back_is_said() -> None:
    """A spike of no width is told with its tip, of lines and of arcs."""
    said = why_invalid(contour([0, 4, 6, 4, 4 + 4j, 4j]))
    assert said == "it turns straight back at x 6.0000, y 0.0000 mm"
    cusp = contour([0, 4, 4 + 2j, 2j], [0, -1, 0, 0])
    assert why_invalid(cusp) == "it turns straight back at x 4.0000, y 0.0000 mm"


@pytest.mark.parametrize("pitches", [30, 15, 1])
def test_pitches_see_what_the_whole_sees(pitches: int) -> None:
    """A fault that every pitch has is found in one pitch between its neighbours."""
    assert why_invalid(saw(30), pitches) is None
    assert why_invalid(reverse(saw(30)), pitches) == "it runs clockwise"
    step = np.exp(1j * 2 * math.pi / 30)
    crossed = repeated(chain([1, 0.9 * step**1.3, 0.9 * step**-0.3, 1 * step]), 30)
    said = why_invalid(crossed, pitches)
    assert said is not None
    assert said.startswith("it crosses")


def test_pitches_must_divide_the_contour() -> None:
    """A number of pitches that the segments cannot share is refused."""
    with pytest.raises(ValueError, match="90 segments"):
        why_invalid(saw(30), 4)
