"""Reading DXF: our own files come back as they went, others by lines, arcs and polylines."""

from __future__ import annotations

import io
import math

import ezdxf
import numpy as np
import pytest
from ezdxf.document import Drawing

from profilegen.dxf.reading import DxfError, read_layers
from profilegen.dxf.writing import Layer, dxf_bytes
from profilegen.geometry.chain import Chain, Contour, chain, circle, is_like
from profilegen.geometry.measure import area, length
from tests.parts import job


def drawing(units: int = 4, version: str = "R2010") -> Drawing:
    """An empty drawing."""
    return ezdxf.new(version, units=units)


def data(document: Drawing) -> bytes:
    """The drawing as bytes."""
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding)


@pytest.mark.parametrize("version", ["R12", "R2000", "R2010"])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_our_own_files_come_back(version: str, unit: str) -> None:
    """Outline, bore and an open chain are read as they were written, in mm."""
    wheel = job(None, bore={"kind": "round", "diameter": 6}).wheel
    edge = chain([4 + 6j, 1 + 0j, -1 + 0j, -4 + 6j], [0.0, -0.4, 0.0])
    layers = (Layer("OUTLINE", wheel.contours), Layer("EDGE", (edge,)))
    drawn = read_layers(dxf_bytes(layers, unit, version))  # type: ignore[arg-type]
    outline, bore = drawn.curves_on("outline")
    assert isinstance(outline, Contour)
    assert isinstance(bore, Contour)
    assert np.abs(outline.points - wheel.outline.points).max() < 1e-9
    assert np.abs(outline.bulges - wheel.outline.bulges).max() < 1e-9
    assert area(bore) == pytest.approx(math.pi * 9)
    (back,) = drawn.curves_on("EDGE")
    assert isinstance(back, Chain)
    assert np.abs(back.points - edge.points).max() < 1e-9


def test_lines_and_arcs_are_joined_end_to_end() -> None:
    """Drawn in any order and direction, with ends that miss by less than a micrometre."""
    document = drawing()
    space = document.modelspace()
    space.add_line((-5, 8), (-1, 1e-7))
    space.add_line((5, 8), (1, 0))
    space.add_arc((0, 0), 1, 180, 360)
    (run,) = read_layers(data(document)).curves_on("0")
    assert isinstance(run, Chain)
    assert length(run) == pytest.approx(2 * math.hypot(4, 8) + math.pi, abs=1e-6)
    assert {complex(run.points[0]).imag, complex(run.points[-1]).imag} == {8.0}


def test_a_closed_run_of_lines_and_arcs_is_a_contour() -> None:
    """A slot of two lines and two half circles, the arcs split, has the area of one."""
    document = drawing()
    space = document.modelspace()
    space.add_line((0, 1), (4, 1))
    space.add_line((0, -1), (4, -1))
    space.add_arc((0, 0), 1, 90, 270)
    space.add_arc((4, 0), 1, 270, 90)
    (slot,) = read_layers(data(document)).curves_on("0")
    assert isinstance(slot, Contour)
    assert abs(area(slot)) == pytest.approx(8 + math.pi)


def test_where_three_ends_meet_nothing_is_joined() -> None:
    """A fork has no one way on."""
    document = drawing()
    for end in ((1, 0), (0, 1), (-1, 0)):
        document.modelspace().add_line((0, 0), end)
    assert len(read_layers(data(document)).curves_on("0")) == 3


@pytest.mark.parametrize(("code", "mm"), [(1, 25.4), (4, 1.0), (5, 10.0), (6, 1000.0)])
def test_the_unit_of_the_drawing_counts(code: int, mm: float) -> None:
    """Inches, millimetres, centimetres and metres."""
    document = drawing(code)
    document.modelspace().add_line((0, 0), (2, 0))
    (run,) = read_layers(data(document)).curves_on("0")
    assert length(run) == pytest.approx(2 * mm)


def test_a_drawing_without_a_unit_takes_the_given_one() -> None:
    """And a drawing in miles is refused."""
    document = drawing(0)
    document.modelspace().add_line((0, 0), (2, 0))
    assert length(read_layers(data(document), "in").curves_on("0")[0]) == pytest.approx(50.8)
    with pytest.raises(DxfError, match="unit"):
        read_layers(data(drawing(3)))


def test_bulges_over_half_a_turn_are_split() -> None:
    """A polyline arc of three quarters of a turn keeps its length."""
    document = drawing()
    bulge = math.tan(math.radians(270) / 4)
    document.modelspace().add_lwpolyline([(1, 0, bulge), (0, -1, 0)], format="xyb")
    (run,) = read_layers(data(document)).curves_on("0")
    assert length(run) == pytest.approx(1.5 * math.pi)


def test_what_is_drawn_on_the_back_of_the_plane_is_turned_over() -> None:
    """Extrusion 0, 0, -1 mirrors x, of circles, arcs and polylines alike (the DXF reference)."""
    document = drawing()
    back = {"extrusion": (0, 0, -1)}
    document.modelspace().add_circle((3, 1), 0.5, back)
    (ring,) = read_layers(data(document)).curves_on("0")
    assert is_like(ring, circle(-3 + 1j, 0.5), 1.0)
    document = drawing()
    document.modelspace().add_arc((0, 0), 1, 0, 90, dxfattribs=back)
    (arc,) = read_layers(data(document)).curves_on("0")
    assert {round(z.real) for z in (arc.points[0], arc.points[-1])} == {-1, 0}


def test_splines_and_blocks_are_refused_by_layer() -> None:
    """The layer that holds one cannot be read and is told; others can."""
    document = drawing()
    space = document.modelspace()
    space.add_spline([(0, 0), (1, 1), (2, 0)], dxfattribs={"layer": "SMOOTH"})
    space.add_ellipse((0, 0), (2, 0), 0.5, dxfattribs={"layer": "OVAL"})
    space.add_line((0, 0), (1, 0), {"layer": "GOOD"})
    space.add_text("edge", dxfattribs={"layer": "GOOD"})
    drawn = read_layers(data(document))
    assert len(drawn.curves_on("GOOD")) == 1
    with pytest.raises(DxfError, match="a spline"):
        drawn.curves_on("smooth")
    with pytest.raises(DxfError, match="an ellipse"):
        drawn.curves_on("OVAL")
    with pytest.raises(DxfError, match="no such layer"):
        drawn.curves_on("NONE")


@pytest.mark.parametrize("junk", [b"", b"not a drawing", b"  0\nSECTION\n  2\n", bytes(range(256))])
def test_what_is_no_drawing_is_told(junk: bytes) -> None:
    """Empty, text, half a file, random bytes."""
    with pytest.raises(DxfError):
        read_layers(junk).curves_on("0")
