"""Starting speeds: worked figures, the metal by its words, and the cap on single points."""

from __future__ import annotations

import math

import pytest

from profilegen.cutting.speeds import FORM_SHARE, SINGLE_POINT_CAP, speed_for, surface_speed


def test_worked_figures() -> None:
    """Turns are 1000 v / (pi d): 20 m/min on 20 mm is 318, 15 on 40 is 119 (worked by hand)."""
    for surface, sweep, turns in ((20, 20, 318), (15, 40, 119), (60, 20, 955)):
        assert round(1000 * surface / (math.pi * sweep)) == turns
    found = speed_for("mild steel", 40, 12)
    assert found.turns == pytest.approx(1000 * FORM_SHARE * 25 / (math.pi * 40))
    assert found.turns is not None
    assert found.feed == pytest.approx(found.turns * 12 * 0.025)


@pytest.mark.parametrize(
    ("words", "metal"),
    [
        ("Medium-carbon steel, as supplied", "carbon steel"),
        ("silver steel", "tool steel"),
        ("303 stainless steel", "stainless steel"),
        ("leaded BRASS", "brass"),
        ("mild steel", "mild steel"),
        ("phosphor bronze", "bronze"),
        ("", "a metal not named: the slowest of the table"),
    ],
)
def test_metal_by_its_words(words: str, metal: str) -> None:
    """The material's words pick a row of the table; what is not known takes the slowest."""
    assert surface_speed(words)[1] == metal
    assert surface_speed(words)[0] >= surface_speed("")[0]


def test_single_points_are_capped_until_the_limit_is_stated() -> None:
    """A tool of one edge, or one that does not say, stays under the cap; a stated limit rules."""
    for teeth in (1, None):
        capped = speed_for("brass", 8, teeth)
        assert capped.turns == SINGLE_POINT_CAP
        assert capped.capped_from == pytest.approx(1000 * 24 / (math.pi * 8))
    assert speed_for("brass", 8, 1, limit=800).turns == 800
    assert speed_for("brass", 8, 1, limit=5000).turns == pytest.approx(954.93, abs=0.01)
    assert speed_for("brass", 8, 12).capped_from is None


def test_without_a_sweep_only_the_surface_speed_is_known() -> None:
    """No sweep, no turns."""
    found = speed_for("brass", None, 1)
    assert (found.turns, found.feed, found.surface) == (None, None, 24.0)
