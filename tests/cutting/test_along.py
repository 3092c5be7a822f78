"""What stands along the wheel axis, against the lengths that the sheet prints."""

from __future__ import annotations

from typing import Any

import pytest

from profilegen.drawing.boxes import Box, bounds
from profilegen.drawing.marks import Stroke
from profilegen.job import Job
from profilegen.setting.along import Name, Piece, pieces
from profilegen.views.plan_view import plan_view
from tests.parts import Keys, job, ratchet, vee

HUB: Keys = {"diameter": 12, "length": 20, "side": "back"}


def along(made: Job, name: Name) -> list[Piece]:
    """The pieces of a name."""
    found = pieces(made.part, made.made, made.plan.frame, made.setting.bar)
    return [one for one in found if one.name == name]


def test_a_hub_in_the_jaws_is_no_bar() -> None:
    """Gripped by its hub: the hub from the rim to the jaws, as much of it as the sheet asks for,
    jaws and chuck behind it with their sizes, and no bar."""
    setup = {"jaw_diameter": 30, "jaw_length": 8, "chuck_diameter": 80}
    made = job(ratchet(), vee(sweep_diameter=20), hub=HUB, setup=setup)
    bar = made.setting.bar
    assert bar is not None
    assert bar.behind is not None
    (hub,), (rim,), (jaws,), (chuck,) = (along(made, n) for n in ("hub", "rim", "jaws", "chuck"))
    assert along(made, "bar") == along(made, "neck") == []
    assert (hub.start, hub.radius) == (rim.end, 6)
    assert hub.end - hub.start == pytest.approx(bar.behind)
    assert (jaws.start, jaws.end, jaws.radius) == (hub.end, hub.end + 8, 15)
    assert (chuck.start, chuck.radius) == (jaws.end, 40)


@pytest.mark.parametrize("length", [3, 9])
def test_a_hub_that_is_too_short_ends_at_the_jaws(length: float) -> None:
    """It is drawn with its own length, the jaws at its end: that they are in the way is seen."""
    made = job(ratchet(), vee(sweep_diameter=20), hub={**HUB, "length": length})
    (hub,), (chuck,) = along(made, "hub"), along(made, "chuck")
    assert hub.end - hub.start == pytest.approx(length)
    assert chuck.start == hub.end
    assert chuck.radius is None


@pytest.mark.parametrize(
    ("tables", "ends"),
    [
        ({"hub": {**HUB, "side": "front"}}, [(0, 20)]),
        ({"hub": {**HUB, "length": 5}, "blank": {"bar_diameter": 26, "count": 2}}, [(3, 8)]),
    ],
)
def test_hubs_stand_on_their_side(tables: dict[str, Any], ends: list[tuple[float, float]]) -> None:
    """Before the rim at the free end, or behind each on the bar; the stick-out is the sheet's."""
    made = job(ratchet(), vee(sweep_diameter=20), **tables)
    hubs, rims, (chuck,) = along(made, "hub"), along(made, "rim"), along(made, "chuck")
    pitch = made.part.pitch_on_bar
    assert [(one.start, one.end) for one in hubs] == [
        (start + k * pitch, end + k * pitch) for k in range(len(rims)) for start, end in ends
    ]
    assert made.setting.bar is not None
    assert made.setting.bar.stick_out == pytest.approx(chuck.start)
    assert along(made, "bar")[0].end == chuck.start


def test_an_arbor_has_no_neck() -> None:
    """Thinner than the roots it goes through as it is."""
    made = job(ratchet(), vee(sweep_diameter=20), blank={"bar_diameter": 8})
    (arbor,) = along(made, "bar")
    assert (arbor.radius, along(made, "neck")) == (4, [])


@pytest.mark.parametrize("length", [None, 0, 1e-6])
def test_jaws_that_do_not_stand_out_are_not_drawn(length: float | None) -> None:
    """Flush with the chuck, as they are when only their diameter is given: one box fewer than with
    jaws of some length."""
    drawn = []
    for given in (length, 8):
        setup = {"jaw_diameter": 30.0, "chuck_diameter": 80.0, "jaw_length": given}
        made = job(ratchet(), vee(), setup={k: v for k, v in setup.items() if v is not None})
        drawn.append(len(plan_view(made, Box(0, 0, 90, 46)).marks))
    assert drawn[1] - drawn[0] == 2  # its fill and its outline


@pytest.mark.parametrize("cutters", [(), (vee(),), (vee(sweep_diameter=20),)])
def test_the_plan_draws_the_hub(cutters: tuple[Keys, ...]) -> None:
    """A box with the hub's diameter beside one with the rim's, to one scale, sweep known or not."""
    made = job(ratchet(), *cutters, hub=HUB)
    marks = plan_view(made, Box(0, 0, 90, 46)).marks
    boxes = [
        bounds(map(complex, curve.points))
        for mark in marks
        if isinstance(mark, Stroke)
        for curve in mark.curves
        if len(curve.points) == 4
    ]
    heights = [box.height for box in boxes]
    rim = max(heights[: len(along(made, "rim")) + 1])
    assert any(height == pytest.approx(rim * 12 / 25.4) for height in heights)


JAWS: list[Keys] = [{}, {"jaw_diameter": 30}, {"jaw_diameter": 30, "chuck_diameter": 80}]


@pytest.mark.parametrize("setup", JAWS)
@pytest.mark.parametrize("hub", [None, {**HUB, "length": 0.0001}, HUB])
@pytest.mark.parametrize("blank", [{}, {"bar_diameter": 8}, {"bar_diameter": 26, "count": 40}])
def test_every_stand_is_drawn(setup: Keys, hub: Keys | None, blank: Keys) -> None:
    """Jaws that do not stand out, hubs of next to nothing, forty wheels: each has its picture; a
    collet's nose is the end of a chuck that is not given."""
    tables: dict[str, Any] = {"setup": setup, "blank": blank}
    if hub is not None:
        tables["hub"] = hub
    for cutters in ((), (vee(sweep_diameter=20),)):
        made = job(ratchet(), *cutters, **tables)
        assert plan_view(made, Box(0, 0, 90, 46)).marks
        (chuck,) = along(made, "chuck")
        size = setup.get("chuck_diameter", setup.get("jaw_diameter"))
        assert chuck.radius == (None if size is None else size / 2)
        found = pieces(made.part, made.made, made.plan.frame, made.setting.bar)
        assert all(one.end > one.start for one in found if one.name != "chuck")
