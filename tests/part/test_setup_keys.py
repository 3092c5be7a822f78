"""`[setup]` touch-off keys, dials and `[blank]`: what is read and what is told by key path."""

from __future__ import annotations

from typing import Any

import pytest

from profilegen.errors import InputError
from tests.parts import Keys, part, ratchet


def wrong(units: str = "mm", **tables: Any) -> list[tuple[str, str]]:
    """Key path and text of every problem."""
    with pytest.raises(InputError) as error:
        part(ratchet(), units=units, **tables)
    return [(problem.where, str(problem)) for problem in error.value.problems]


def test_defaults() -> None:
    """A part that says nothing touches on top, metal to metal, and accepts 0.02 mm."""
    found = part()
    setup, blank = found.setup, found.blank
    assert (setup.touch, setup.feeler, setup.accept, found.dials) == ("top", None, 0.02, {})
    assert (blank.diameter, blank.hold, blank.count) == (None, None, 1)


def test_what_is_read() -> None:
    """Sizes in the part's unit, divisions in the dial's own."""
    dials: Keys = {
        "z": {"unit": "mm", "division": 0.02, "reads": "diameter", "increases": "down"},
        "y": {"division": 0.001},
    }
    setup = {"touch": "offset", "feeler": 0.001, "accept": 0.002, "dials": dials}
    found = part(ratchet(), units="in", setup=setup, blank={"diameter": "25.3 mm", "hold": "root"})
    assert found.setup.feeler == pytest.approx(0.0254)
    assert found.setup.accept == pytest.approx(0.0508)
    assert found.dials["z"].division == 0.02
    assert found.dials["y"].division == pytest.approx(0.0254)
    assert (found.dials["z"].reads, found.dials["y"].reads) == ("diameter", "travel")
    assert (found.blank.diameter, found.blank.hold) == (25.3, "root")


@pytest.mark.parametrize("feeler", ["paper", "cigarette paper", "foil", "a shim"])
def test_paper_without_a_thickness_is_an_error(feeler: str) -> None:
    """A name is no thickness: the error says to measure and what is usual."""
    ((where, text),) = wrong(setup={"feeler": feeler})
    assert where == "setup.feeler"
    assert "measure yours" in text


@pytest.mark.parametrize(
    ("setup", "where", "word"),
    [
        ({"feeler": -0.1}, "setup.feeler", "0 to 2 mm"),
        ({"feeler": 5}, "setup.feeler", "0 to 2 mm"),
        ({"feeler": True}, "setup.feeler", "true or false"),
        ({"touch": "side"}, "setup.touch", "top"),
        ({"paper": 0.02}, "setup.paper", "write feeler"),
        ({"speed_limit": 0}, "setup.speed_limit", "turns a minute"),
        ({"speed_limit": 2.5}, "setup.speed_limit", "whole turns"),
        ({"dials": 3}, "setup.dials", "a line [setup.dials.z]"),
        ({"dials": {"w": {"division": 1}}}, "setup.dials.w", "x, y, z"),
        ({"dials": {"z": 0.02}}, "setup.dials.z", "table"),
        ({"dials": {"z": {}}}, "setup.dials.z.division", "missing"),
        ({"dials": {"z": {"division": 0}}}, "setup.dials.z.division", "more than 0"),
        ({"dials": {"z": {"division": 50}}}, "setup.dials.z.division", "10 mm"),
        ({"dials": {"z": {"division": 0.02, "per_turn": 0}}}, "setup.dials.z.per_turn", "100 mm"),
        (
            {"dials": {"z": {"division": 0.02, "per_turn": 0.01}}},
            "setup.dials.z.per_turn",
            "one division",
        ),
        (
            {"dials": {"z": {"division": 0.02, "lead": 2}}},
            "setup.dials.z.lead",
            "write per_turn",
        ),
        (
            {"dials": {"z": {"division": 0.02, "reads": "radius"}}},
            "setup.dials.z.reads",
            '"travel", "diameter"',
        ),
        (
            {"dials": {"z": {"division": 0.02, "increases": "left"}}},
            "setup.dials.z.increases",
            '"up" or "down"',
        ),
        (
            {"dials": {"z": {"division": 0.02, "direction": "up"}}},
            "setup.dials.z.direction",
            "write increases",
        ),
    ],
)
def test_setup_is_told_by_key_path(setup: Keys, where: str, word: str) -> None:
    """Every slip is told where it stands, with what is allowed or what to write."""
    told = wrong(setup=setup)
    assert [path for path, _ in told] == [where]
    assert word in told[0][1]


@pytest.mark.parametrize(
    ("blank", "where", "word"),
    [
        ({"diameter": 0}, "blank.diameter", "more than 0"),
        ({"hold": "depth"}, "blank.hold", '"land", "root"'),
        ({"od": 25}, "blank.od", "write diameter"),
        ({"run_out": -1}, "blank.run_out", "0 or more"),
        ({"count": 0}, "blank.count", "1 to 1000"),
    ],
)
def test_blank_is_told_by_key_path(blank: Keys, where: str, word: str) -> None:
    """Every slip is told where it stands, with what is allowed or what to write."""
    ((path, text),) = wrong(blank=blank)
    assert path == where
    assert word in text


def test_all_slips_at_once() -> None:
    """A slip in a dial does not hide one in the set-up or in the blank."""
    setup = {"touch": "x", "dials": {"q": {}, "z": {"division": -1}}}
    paths = [where for where, _ in wrong(setup=setup, blank={"count": 0})]
    assert sorted(paths) == [
        "blank.count",
        "setup.dials.q",
        "setup.dials.z.division",
        "setup.touch",
    ]
