"""Plane shapes of an exact kernel (`cadquery-ocp-novtk`): build, combine, measure.

Only `derive.py` imports this, in an environment that holds the kernel; the tests read its answers.
Nothing of the package under test is used here. Lengths in mm, angles in radians.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from importlib import import_module
from importlib.metadata import version
from typing import Any

PACKAGE = "cadquery-ocp-novtk"
Shape = Any


def kernel_version() -> str:
    """Of the installed kernel."""
    return version(PACKAGE)


def _room(name: str) -> Any:
    return import_module(f"OCP.{name}")


def _point(at: complex) -> Any:
    return _room("gp").gp_Pnt(at.real, at.imag, 0.0)


def disc(centre: complex, radius: float, seam: float = 0.37) -> Shape:
    """A full disc; `seam` turns the place where its edge begins away from the corners of others."""
    gp, made = _room("gp"), _room("BRepBuilderAPI")
    along = gp.gp_Dir(math.cos(seam), math.sin(seam), 0.0)
    axes = gp.gp_Ax2(_point(centre), gp.gp_Dir(0.0, 0.0, 1.0), along)
    edge = made.BRepBuilderAPI_MakeEdge(gp.gp_Circ(axes, radius)).Edge()
    wire = made.BRepBuilderAPI_MakeWire(edge).Wire()
    return made.BRepBuilderAPI_MakeFace(wire, True).Face()


def polygon(points: Sequence[complex]) -> Shape:
    """A face with straight sides."""
    return face_of([(point.real, point.imag, 0.0) for point in points])


def face_of(rows: Sequence[Sequence[float]]) -> Shape:
    """A face from rows of x, y and bulge, as a DXF polyline stores them."""
    made, arcs = _room("BRepBuilderAPI"), _room("GC")
    wire = made.BRepBuilderAPI_MakeWire()
    for (x0, y0, bulge), (x1, y1, _) in zip(rows, [*rows[1:], rows[0]], strict=True):
        start, end = complex(x0, y0), complex(x1, y1)
        if bulge == 0.0:
            edge = made.BRepBuilderAPI_MakeEdge(_point(start), _point(end))
        else:
            middle = (start + end) / 2 - 0.5j * bulge * (end - start)
            arc = arcs.GC_MakeArcOfCircle(_point(start), _point(middle), _point(end))
            edge = made.BRepBuilderAPI_MakeEdge(arc.Value())
        wire.Add(edge.Edge())
    return made.BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()


def rounded(face: Shape, corners: Iterable[complex], radius: float) -> Shape:
    """The face with some of its corners rounded by the kernel's own fillet."""
    fillet = _room("BRepFilletAPI").BRepFilletAPI_MakeFillet2d(face)
    wanted = list(corners)
    for vertex, at in _vertices(face):
        if any(abs(at - corner) < 1e-9 for corner in wanted):
            fillet.AddFillet(vertex, radius)
    fillet.Build()
    if not fillet.IsDone():
        raise RuntimeError("the kernel made no fillet")
    return fillet.Shape()


def _vertices(shape: Shape) -> list[tuple[Any, complex]]:
    """Every vertex once, with its place."""
    explorer = _room("TopExp").TopExp_Explorer(shape, _room("TopAbs").TopAbs_VERTEX)
    found: list[tuple[Any, complex]] = []
    while explorer.More():
        vertex = _room("TopoDS").TopoDS.Vertex(explorer.Current())
        at = _room("BRep").BRep_Tool.Pnt_s(vertex)
        place = complex(at.X(), at.Y())
        if all(abs(place - other) > 1e-9 for _, other in found):
            found.append((vertex, place))
        explorer.Next()
    return found


def turned(shape: Shape, angle: float) -> Shape:
    """The shape turned about the origin, counter-clockwise positive."""
    gp = _room("gp")
    move = gp.gp_Trsf()
    move.SetRotation(gp.gp_Ax1(_point(0j), gp.gp_Dir(0.0, 0.0, 1.0)), angle)
    return _transformed(shape, move)


def shifted(shape: Shape, by: complex) -> Shape:
    """The shape moved by a step."""
    gp = _room("gp")
    move = gp.gp_Trsf()
    move.SetTranslation(gp.gp_Vec(by.real, by.imag, 0.0))
    return _transformed(shape, move)


def _transformed(shape: Shape, move: Any) -> Shape:
    return _room("BRepBuilderAPI").BRepBuilderAPI_Transform(shape, move, True).Shape()


def combined(kind: str, shape: Shape, tools: Iterable[Shape]) -> Shape:
    """A boolean of one shape with others: `subtract`, `intersect` or `unite`."""
    rooms = _room("BRepAlgoAPI")
    names = {"subtract": "Cut", "intersect": "Common", "unite": "Fuse"}
    operation = getattr(rooms, f"BRepAlgoAPI_{names[kind]}")()
    lists = _room("collections").List_TopoDS_Shape
    first, second = lists(), lists()
    first.Append(shape)
    for tool in tools:
        second.Append(tool)
    operation.SetArguments(first)
    operation.SetTools(second)
    operation.Build()
    if not operation.IsDone():
        raise RuntimeError("the kernel made no boolean")
    whole = _room("ShapeUpgrade").ShapeUpgrade_UnifySameDomain(operation.Shape(), True, True, False)
    whole.Build()
    return whole.Shape()


def count(shape: Shape, kind: str = "WIRE") -> int:
    """How many wires (or edges) bound the shape."""
    explorer = _room("TopExp").TopExp_Explorer(shape, getattr(_room("TopAbs"), f"TopAbs_{kind}"))
    number = 0
    while explorer.More():
        number += 1
        explorer.Next()
    return number


def measured(shape: Shape) -> dict[str, float]:
    """Area, perimeter, centroid, second moments about the origin, and the number of wires."""
    surface = _room("GProp").GProp_GProps(_point(0j))
    edges = _room("GProp").GProp_GProps(_point(0j))
    _room("BRepGProp").BRepGProp.SurfaceProperties_s(shape, surface)
    _room("BRepGProp").BRepGProp.LinearProperties_s(shape, edges)
    area, centre, central = surface.Mass(), surface.CentreOfMass(), surface.MatrixOfInertia()
    x, y = centre.X(), centre.Y()
    return {
        "wires": count(shape),
        "area": area,
        "perimeter": edges.Mass(),
        "x": x,
        "y": y,
        "ixx": central.Value(1, 1) + area * y * y,
        "iyy": central.Value(2, 2) + area * x * x,
        "ixy": -central.Value(1, 2) + area * x * y,
    }


def distance_from_axis(shape: Shape) -> float:
    """Least distance from the origin to the shape."""
    axis = _room("BRepBuilderAPI").BRepBuilderAPI_MakeVertex(_point(0j)).Vertex()
    return float(_room("BRepExtrema").BRepExtrema_DistShapeShape(axis, shape).Value())


def edges_of(shape: Shape) -> Shape:
    """The edges of a shape alone, so that a distance is one from its outline."""
    only = _room("TopoDS").TopoDS_Compound()
    builder = _room("BRep").BRep_Builder()
    builder.MakeCompound(only)
    for edge in _edges(shape):
        builder.Add(only, edge)
    return only


def _edges(shape: Shape) -> list[Any]:
    explorer = _room("TopExp").TopExp_Explorer(shape, _room("TopAbs").TopAbs_EDGE)
    found = []
    while explorer.More():
        found.append(_room("TopoDS").TopoDS.Edge(explorer.Current()))
        explorer.Next()
    return found


def feet(outline: Shape, at: complex) -> tuple[float, list[complex]]:
    """Distance of a place from an outline, and every place of the outline that is so near."""
    vertex = _room("BRepBuilderAPI").BRepBuilderAPI_MakeVertex(_point(at)).Vertex()
    found = _room("BRepExtrema").BRepExtrema_DistShapeShape(vertex, outline)
    points = [found.PointOnShape2(k + 1) for k in range(found.NbSolution())]
    return float(found.Value()), [complex(point.X(), point.Y()) for point in points]


def farthest(region: Shape, outline: Shape) -> list[tuple[float, complex]]:
    """The places of a region's edges that lie farthest from an outline, with their distances.

    Every edge is sampled, and each interval that can hold the greatest distance (none changes
    faster than its place) is narrowed by golden section. First the farthest.
    """
    sampled = [_sampled(edge, outline) for edge in _edges(region)]
    top = max(gap for _, rows in sampled for _, _, gap in rows)
    found = []
    for curve, rows in sampled:
        for (low, start, gap), (high, end, other) in itertools.pairwise(rows):
            if (gap + other + 1.01 * abs(end - start)) / 2 >= top:
                found += [(gap, start), (other, end), _narrowed(curve, outline, low, high)]
    return sorted(found, key=lambda row: -row[0])


def _sampled(edge: Any, outline: Shape) -> tuple[Any, list[tuple[float, complex, float]]]:
    """An edge's curve, and its samples: parameter, place and distance from the outline."""
    curve, count = _room("BRepAdaptor").BRepAdaptor_Curve(edge), 32
    first, last = curve.FirstParameter(), curve.LastParameter()
    parameters = [first + (last - first) * k / count for k in range(count + 1)]
    places = [_on(curve, parameter) for parameter in parameters]
    return curve, [(u, at, feet(outline, at)[0]) for u, at in zip(parameters, places, strict=True)]


def _on(curve: Any, parameter: float) -> complex:
    at = curve.Value(parameter)
    return complex(at.X(), at.Y())


def _narrowed(curve: Any, outline: Shape, low: float, high: float) -> tuple[float, complex]:
    """The farthest place between two parameters, by golden section to 1e-9 of the interval."""
    golden = (math.sqrt(5) - 1) / 2
    inner = [high - golden * (high - low), low + golden * (high - low)]
    gaps = [feet(outline, _on(curve, parameter))[0] for parameter in inner]
    for _ in range(43):
        left_is_better = gaps[0] > gaps[1]
        if left_is_better:
            high, inner[1], gaps[1] = inner[1], inner[0], gaps[0]
        else:
            low, inner[0], gaps[0] = inner[0], inner[1], gaps[1]
        moved = 0 if left_is_better else 1
        inner[moved] = high - golden * (high - low) if moved == 0 else low + golden * (high - low)
        gaps[moved] = feet(outline, _on(curve, inner[moved]))[0]
    return gaps[0], _on(curve, inner[0])


def lowest(shape: Shape) -> complex:
    """The lowest point of a shape: where a level line far below it first finds it."""
    made = _room("BRepBuilderAPI")
    floor = made.BRepBuilderAPI_MakeEdge(_point(-1e3 - 1e3j), _point(1e3 - 1e3j)).Edge()
    nearest = _room("BRepExtrema").BRepExtrema_DistShapeShape(floor, shape)
    at = nearest.PointOnShape2(1)
    return complex(at.X(), at.Y())
