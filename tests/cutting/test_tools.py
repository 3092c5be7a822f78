"""Every cutter as it stands: silhouettes of slot, ball, form and drawn cutters."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from profilegen.cutting.compare import compared
from profilegen.cutting.poses import closed
from profilegen.cutting.profile import Profile
from profilegen.cutting.tools import mirrored, tools_for
from profilegen.cutting.wedge import ways_round
from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.forms.solve import solve
from profilegen.geometry.chain import Role, is_like
from profilegen.geometry.measure import area, bounds, tessellate
from profilegen.part.base import CutterTable
from profilegen.part.tables import Setup
from tests.parts import double, part, ratchet, vee


def cutter(**keys: object) -> CutterTable:
    """One cutter of these keys."""
    return part(None, {"name": "it", **keys}).cutters[0]


def only(**keys: object) -> Profile:
    """The one way round of a cutter that is no wedge."""
    (tool,) = tools_for(cutter(**keys))
    assert isinstance(tool, Profile)
    return tool


def test_wedges_come_as_before() -> None:
    """Vee, single-angle and double-angle cutters are those of `ways_round`."""
    for keys in (vee(), double(10, 30)):
        table = part(None, keys).cutters[0]
        assert tools_for(table) == ways_round(table)


def test_a_slot_is_its_width_with_round_corners() -> None:
    """Area of the closed silhouette: width times height less 2 (1 - pi / 4) r^2 at the corners."""
    tool = only(kind="slot", width=2.0, corner_radius=0.3)
    assert tool.tip == 0
    lost = 2 * (1 - math.pi / 4) * 0.3**2
    assert area(closed(tool.silhouette(5.0))) == pytest.approx(-(2.0 * 5.0 - lost), abs=1e-12)
    assert not (tool.silhouette(5.0).roles == Role.BODY).any()


def test_a_sharp_slot_and_one_that_is_all_corner() -> None:
    """Without corners the bottom is the whole width; all corner, it is a ball."""
    assert bounds(only(kind="slot", width=2.0).edge) == (-1.0, 0.0, 1.0, 0.0)
    round_end = only(kind="slot", width=2.0, corner_radius=1.0).edge
    assert is_like(round_end, only(kind="ball", radius=1.0).edge, 1e-12)


def test_a_ball_is_a_half_circle_and_goes_straight_up() -> None:
    """Every point below its middle is one radius from it."""
    edge = only(kind="ball", radius=1.5).edge
    assert np.allclose(abs(tessellate(edge) - 1.5j), 1.5, atol=1e-12)
    assert bounds(edge) == pytest.approx((-1.5, 0.0, 1.5, 1.5))


def test_a_body_wider_than_the_edge_begins_where_the_edge_ends() -> None:
    """The shoulder is level, at the edge length above the tip, and is no edge."""
    tool = only(kind="slot", width=1.0, edge_length=4.0, body_width=6.0)
    silhouette = tool.silhouette(9.0)
    body = silhouette.roles == Role.BODY
    assert bounds(silhouette) == (-3.0, 0.0, 3.0, 9.0)
    assert silhouette.points[~np.append(body, True)].imag.max() == 4.0


@pytest.mark.parametrize("teeth", [12, 30, 60])
@pytest.mark.parametrize("hook", [0, -5])
def test_a_form_cutter_forms_its_own_wheel(teeth: int, hook: int) -> None:
    """Plunged into a blank of that wheel it gouges nothing and leaves nothing."""
    wheel = ratchet(teeth=teeth, hook_angle=hook)
    tools = tools_for(cutter(kind="form", of=wheel))
    assert len(tools) == 2
    (match,) = compared(solve(part(wheel)), [tools], Setup(accept=1e-4))
    assert match.verdict == "forms"
    assert match.fit is not None
    assert max(match.fit.gouge.value, match.fit.left_over.value) < 1e-5


def test_a_form_cutter_looks_up_with_its_apex_on_the_infeed_line() -> None:
    """Its two upper ends lie at one height and one distance from the middle, its lowest at 0."""
    edge = tools_for(cutter(kind="form", of=ratchet()))[0]
    assert isinstance(edge, Profile)
    first, last = complex(edge.edge.points[0]), complex(edge.edge.points[-1])
    assert first == pytest.approx(-last.conjugate(), abs=1e-12)
    assert first.real > 0
    assert bounds(edge.edge)[1] == pytest.approx(0.0, abs=1e-12)


def test_a_form_cutter_of_a_wheel_that_cannot_be_made() -> None:
    """The refusal names the cutter and its own keys, also in what is to be done; none of the
    part's wheel, which is another one."""
    for keys in ({"root_radius": 30}, {"land": 9}, {"teeth": 400}):
        with pytest.raises(CannotMakeError) as caught:
            tools_for(cutter(kind="form", of=ratchet(**keys)), "cutter[2]")
        for finding, problem in zip(caught.value.findings, caught.value.problems, strict=True):
            assert finding.where.startswith("cutter[2].of.")
            assert "the wheel of the form cutter it" in problem.message
            assert "cutter[2].of." in problem.message
            assert "wheel." not in problem.message


def test_a_drawn_cutter_stands_both_ways_round_when_they_differ() -> None:
    """The first as drawn, the second its mirror image; a symmetric one stands one way."""
    first, second = tools_for(cutter(kind="drawn", points=[[-4, 6], [-1, 0], [1, 0], [3, 6]]))
    assert isinstance(first, Profile)
    assert isinstance(second, Profile)
    assert first.edge.points[0] == 3 + 6j
    assert second.edge.points[0] == 4 + 6j
    assert is_like(mirrored(second.edge), first.edge, 1e-12)
    assert len(tools_for(cutter(kind="drawn", points=[[3, 6], [0, 0], [-3, 6]]))) == 1


def test_mirroring_keeps_arcs_bulging_outwards() -> None:
    """A silhouette and its mirror image have the same area, run the same way round."""
    rows = [[3, 2], [1, 0, -0.4], [-1, 0.2], [-2, 2]]
    first, second = tools_for(cutter(kind="drawn", points=rows))
    assert area(closed(first.silhouette(5.0))) == pytest.approx(
        area(closed(second.silhouette(5.0))), abs=1e-12
    )
    assert area(closed(first.silhouette(5.0))) < 0


def test_the_tip_of_an_arc_is_its_lowest_point() -> None:
    """Also where the lowest point lies within an arc and the arc is not even about the infeed."""
    rows = [[2.0, 3.0], [1.0, 0.0, -math.tan(math.pi / 8)], [0.0, -0.4], [-2.0, 3.0]]
    tool = tools_for(cutter(kind="drawn", points=rows))[0]
    fine = tessellate(tool.silhouette(5.0), 1e-7)
    lowest = fine[np.argmin(fine.imag)]
    assert tool.tip.imag == pytest.approx(lowest.imag, abs=1e-6)
    assert tool.tip.real == pytest.approx(lowest.real, abs=1e-2)


def test_a_file_that_was_not_read_is_told() -> None:
    """A mapping that names a file gives no silhouette until reading has looked into it."""
    for keys in ({"kind": "form", "of": "m.toml"}, {"kind": "drawn", "dxf": "a", "layer": "b"}):
        with pytest.raises(InputError, match="has not been read"):
            tools_for(cutter(**keys))


def test_only_the_table_of_forms_knows_a_form_by_name() -> None:
    """A form cutter works for every form that the table has."""
    text = Path(tools_for.__code__.co_filename).read_text(encoding="utf-8")
    assert "ratchet" not in text
