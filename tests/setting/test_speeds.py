"""Starting speeds: worked figures, the metal by its words, and the cap on single points."""

from __future__ import annotations

import math

import pytest

from profilegen.job import Job
from profilegen.setting.metals import METALS, is_hardened, metal_of
from profilegen.setting.speeds import FORM_SHARE, SINGLE_POINT_CAP, Speed, speed_for
from profilegen.topics.topic import told
from profilegen.topics.touchoff_rows import before_you_cut
from tests.parts import Keys, job, ratchet, vee


def speed(*given: object, **more: object) -> Speed:
    """A speed that there is."""
    found = speed_for(*given, **more)  # type: ignore[arg-type]
    assert found is not None
    return found


def test_worked_figures() -> None:
    """Turns are 1000 v / (pi d): 20 m/min on 20 mm is 318, 15 on 40 is 119, 60 on 20 is 955 (worked
    by hand); the metal of a part that gives its surface speed does not matter."""
    for surface, sweep, turns in ((20, 20, 318), (15, 40, 119), (60, 20, 955)):
        found = speed("kryptonite", sweep, 12, surface=surface)
        assert (round(found.turns or 0), found.metal) == (turns, "")
    found = speed("mild steel", 40, 12)
    assert found.turns == pytest.approx(1000 * FORM_SHARE * 25 / (math.pi * 40))
    assert found.turns is not None
    assert found.feed == pytest.approx(found.turns * 12 * 0.025)


KNOWN = {
    "Medium-carbon steel, as supplied": "medium-carbon steel",
    "silver steel": "tool steel",
    "303 stainless steel": "stainless steel",
    "X5CrNi18-10": "stainless steel",
    "1.4305": "stainless steel",
    "leaded BRASS": "brass",
    "half hard brass CZ120": "brass",
    "mild steel": "mild steel",
    "low-carbon steel": "mild steel",
    "phosphor bronze": "bronze",
    "D2 steel": "high-alloy tool steel",
    "D2 tool steel": "high-alloy tool steel",
    "A2 tool steel": "high-alloy tool steel",
    "4140": "alloy steel",
    "AISI 4140, normalised": "alloy steel",
    "42CrMo4+QT": "alloy steel",
    "EN24T": "alloy steel",
    "C45": "medium-carbon steel",
    "EN 8": "medium-carbon steel",
    "080M40 (EN8)": "medium-carbon steel",
    "1018": "mild steel",
    "EN1A": "mild steel",
    "gauge plate (O1), annealed": "tool steel",
    "EN AW-6082-T6": "aluminium",
    "brass or mild steel": "mild steel",
}


@pytest.mark.parametrize("words", KNOWN)
def test_a_grade_is_known_by_whole_words(words: str) -> None:
    """Grades and names lead to their group; of several the slowest. Groups remembered, as told."""
    found = metal_of(words)
    assert found is not None
    assert found.name == KNOWN[words]
    assert speed_for(words, 30, 12) is not None


@pytest.mark.parametrize(
    "words",
    [
        *("", "steel", "kryptonite", "delrin", "titanium", "spring steel", "A2", "iron"),
        *("aluminium bronze", "beryllium copper", "HSS", "alloy", "ironwood", "brassy", "bronzed"),
        *("10180", "steel no. 7", "steel D22", "part 41400"),
    ],
)
def test_what_is_not_known_is_not_guessed(words: str) -> None:
    """No speed at all, and the sheet asks for the key that gives one; with it there is a speed."""
    assert speed_for(words, 30, 12) is None
    made = with_material(words)
    assert made.setting.speed is None
    assert made.as_dict()["speed"] is None
    assert "Give setup.surface_speed" in said(made)
    given = with_material(words, surface_speed="12 m/min")
    assert given.setting.speed is not None
    assert given.setting.speed.surface == 12
    assert "by setup.surface_speed" in said(given)


def test_no_name_stands_for_two_metals() -> None:
    """Every name is in lower case and of one group only."""
    names = [name for metal in METALS for name in metal.names]
    assert len(names) == len(set(names))
    assert all(name == name.lower() == " ".join(name.split()) for name in names)


HARD = [
    *(
        "hardened 60 HRC",
        "silver steel, hardened",
        "O1 HRC 58-60",
        "D2 HRC62",
        "O1 62HRC",
        "tool steel 600 HV",
    ),
    *("case-hardened mild steel", "4140, 450 HB", "O1 58-60 HRC"),
]
SOFT = [
    *(
        "4140",
        "unhardened gauge plate",
        "silver steel, to be hardened to 60 HRC",
        "half hard brass",
    ),
    *("O1, hardened after cutting", "EN24T 28 HRC", "pre-hardened P20", "4140, 250 HB"),
    *("O1, not hardened", "16MnCr5, case-hardened later", "annealed D2"),
]


@pytest.mark.parametrize("material", HARD)
def test_a_hardened_wheel_is_refused_to_high_speed_steel(material: str) -> None:
    """Neither a speed nor a cut; carbide may, at the speed that its maker says."""
    assert is_hardened(material)
    for metal in (None, "high-speed steel", "silver steel"):
        made = with_material(material, cutter_material=metal)
        assert made.setting.speed is None
        (found,) = [one for one in made.findings if one.code == "metal-hardened"]
        assert (found.severity, found.where) == ("refused", "material")
    made = with_material(material, cutter_material="solid carbide")
    assert not made.is_refused
    assert "no speed is known for a hardened metal" in said(made)


@pytest.mark.parametrize("material", SOFT)
def test_what_is_still_soft_is_not_refused(material: str) -> None:
    """Words of later hardening, or a hardness that high-speed steel cuts, refuse nothing."""
    assert not is_hardened(material)
    assert not with_material(material).is_refused


def with_material(material: str, cutter_material: str | None = None, **setup: object) -> Job:
    """A job of a wheel of this material."""
    more: Keys = {"material": cutter_material} if cutter_material else {}
    tables = {"material": material} if material else {}
    return job(ratchet(), vee(sweep_diameter=30, teeth=12, **more), setup=setup, **tables)


def said(made: Job) -> str:
    """What the sheet says before the cut."""
    return " ".join(map(str, told(before_you_cut(made), made.part.figures)))


def test_single_points_are_capped_until_the_limit_is_stated() -> None:
    """A tool of one edge, or one that does not say, stays under the cap; a stated limit rules."""
    for teeth in (1, None):
        capped = speed("brass", 8, teeth)
        assert capped.turns == SINGLE_POINT_CAP
        assert capped.capped_from == pytest.approx(1000 * 24 / (math.pi * 8))
    assert speed("brass", 8, 1, limit=800).turns == 800
    assert speed("brass", 8, 1, limit=5000).turns == pytest.approx(954.93, abs=0.01)
    assert speed("brass", 8, 12).capped_from is None


def test_without_a_sweep_only_the_surface_speed_is_known() -> None:
    """No sweep, no turns."""
    found = speed("brass", None, 1)
    assert (found.turns, found.feed, found.surface) == (None, None, 24.0)
