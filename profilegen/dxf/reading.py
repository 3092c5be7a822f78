"""Lines, arcs and polylines of a DXF drawing as curves in mm, layer by layer.

Owns the mapping of LINE, ARC, CIRCLE and polylines to chains and contours, the units, and the
joining of runs end to end. The only reader of DXF. Refuses splines, ellipses and blocks: a curve
that is not lines and arcs would have to be guessed at, and what is refused is told by layer.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Literal, cast

import ezdxf
import numpy as np
from ezdxf import recover

from profilegen.geometry.arcs import middles
from profilegen.geometry.chain import Chain, Contour, Curve, Role, chain, circle, close, reverse
from profilegen.geometry.moves import Move, moved, scaled
from profilegen.geometry.tolerance import SHORTEST_CHORD

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities import DXFEntity, LWPolyline
    from ezdxf.entities.polyline import Polyline

JOINT = 1e-3
"""mm. Ends nearer than this are one point: what drawing programs leave between two runs that were
snapped to each other, common practice, no published source."""

_MM = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 8: 25.4e-6, 9: 0.0254, 13: 1e-3, 14: 100.0}
"""$INSUNITS -> mm (the DXF reference's list; the units a workshop could mean)."""

_CURVED = ("SPLINE", "ELLIPSE", "INSERT", "HELIX", "MLINE", "3DFACE", "REGION")
"""Entities that draw something and are refused; texts, points and dimensions are passed over."""

_WORDS = {"INSERT": "a block (explode it)", "SPLINE": "a spline", "ELLIPSE": "an ellipse"}


class DxfError(ValueError):
    """A drawing, or what stands on one of its layers, cannot be read."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing that was read.

    Attributes:
        layers: name -> its curves as they are drawn, mm.
        refused: name -> what stands on the layer that cannot be read, in words.
    """

    layers: Mapping[str, tuple[Curve, ...]]
    refused: Mapping[str, str]

    def curves_on(self, layer: str) -> tuple[Curve, ...]:
        """The curves of one layer, its name in any case, joined end to end, mm.

        Raises:
            DxfError: there is no such layer, or something on it is not lines and arcs.
        """
        low = {name.lower(): name for name in (*self.layers, *self.refused)}
        name = low.get(layer.lower())
        if name is None:
            raise DxfError("there is no such layer with lines or arcs on it")
        if name in self.refused:
            raise DxfError(f"on this layer stands {self.refused[name]}: only lines and arcs count")
        return joined(self.layers[name])


def read_layers(data: bytes, unit: Literal["mm", "in"] = "mm") -> Drawn:
    """Read every layer of a drawing.

    Args:
        data: the bytes of a DXF file, of any version.
        unit: of a drawing that names none; what our own R12 files say in a comment comes first.

    Raises:
        DxfError: the bytes are no DXF drawing, or its unit is not one of lengths.
    """
    document = _document(data)
    scale = _mm_per_unit(document, data, unit)
    runs: dict[str, list[Curve]] = {}
    refused: dict[str, str] = {}
    for entity in document.modelspace():
        layer = str(entity.dxf.get("layer", "0"))
        try:
            runs.setdefault(layer, []).extend(_scaled(c, scale) for c in _curves(entity))
        except DxfError as error:
            refused.setdefault(layer, str(error))
    return Drawn({name: tuple(found) for name, found in runs.items() if found}, refused)


def joined(curves: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """Runs put end to end where just two ends meet within `JOINT`; closed ones as contours.

    Where three or more meet they are left as they are; a single line shorter than that is dropped.
    """
    done: list[Curve] = [curve for curve in curves if isinstance(curve, Contour)]
    runs = [curve for curve in curves if isinstance(curve, Chain) and _is_long(curve)]
    nodes = _nodes([complex(z) for run in runs for z in (run.points[0], run.points[-1])])
    at: dict[int, list[int]] = {}
    for place, node in enumerate(nodes):
        at.setdefault(node, []).append(place)
    mate = {ends[0]: ends[1] for ends in at.values() if len(ends) == 2}
    mate |= {second: first for first, second in mate.items()}
    left = dict.fromkeys(range(len(runs)))
    while left:
        done.append(_whole(runs, mate, left))
    return tuple(done)


def _is_long(run: Chain) -> bool:
    return len(run) > 1 or abs(run.points[-1] - run.points[0]) > JOINT


def _nodes(ends: list[complex]) -> list[int]:
    """A number for each end, the same for ends within `JOINT` of the first of them."""
    cells: dict[tuple[int, int], list[int]] = {}
    numbers: list[int] = []
    for place, z in enumerate(ends):
        x, y = math.floor(z.real / JOINT), math.floor(z.imag / JOINT)
        around = (n for i in (-1, 0, 1) for j in (-1, 0, 1) for n in cells.get((x + i, y + j), ()))
        near = next((n for n in around if abs(ends[n] - z) <= JOINT), None)
        if near is None:
            cells.setdefault((x, y), []).append(place)
        numbers.append(place if near is None else near)
    return numbers


def _whole(runs: list[Chain], mate: Mapping[int, int], left: dict[int, None]) -> Curve:
    """The first run left with all that follow it, then all that lead to it; taken out of `left`.

    Run k has the ends 2 k (its start) and 2 k + 1; `mate` says which end lies on which.
    """
    first = next(iter(left))
    del left[first]
    after, end = _following(runs, mate, left, 2 * first + 1)
    if mate.get(end) == 2 * first:
        return _as_contour(_end_to_end([runs[first], *after]))
    before, _ = _following(runs, mate, left, 2 * first)
    return _end_to_end([*(reverse(run) for run in before[::-1]), runs[first], *after])


def _following(
    runs: list[Chain], mate: Mapping[int, int], left: dict[int, None], end: int
) -> tuple[list[Chain], int]:
    """The runs that go on from an end, each turned the way it is run, and the end reached."""
    found: list[Chain] = []
    while end in mate and mate[end] // 2 in left:
        start = mate[end]
        del left[start // 2]
        run = runs[start // 2]
        found.append(reverse(run) if start % 2 else run)
        end = start ^ 1
    return found, end


def _end_to_end(pieces: list[Chain]) -> Chain:
    points = [pieces[0].points[:1], *(piece.points[1:] for piece in pieces)]
    bulges = np.concatenate([piece.bulges for piece in pieces])
    return chain(np.concatenate(points), bulges.tolist())


def _as_contour(run: Chain) -> Curve:
    """A run whose ends meet as a contour; a lone arc or line stays as it is."""
    if len(run) < 2:
        return run
    return close(chain([*run.points[:-1], run.points[0]], run.bulges.tolist()))


def _document(data: bytes) -> Drawing:
    try:
        document, _ = recover.read(io.BytesIO(data))
    except (ezdxf.DXFError, ValueError, LookupError, TypeError, AttributeError, OSError) as error:
        raise DxfError("this is no DXF drawing, or it is damaged") from error
    return document


def _mm_per_unit(document: Drawing, data: bytes, unit: Literal["mm", "in"]) -> float:
    code = int(document.header.get("$INSUNITS", 0))
    if code:
        if code not in _MM:
            raise DxfError("the unit of this drawing is not one of the workshop")
        return _MM[code]
    if b"lengths in inches" in data[:200]:
        return 25.4
    if b"lengths in millimetres" in data[:200]:
        return 1.0
    return 25.4 if unit == "in" else 1.0


def _curves(entity: DXFEntity) -> Iterator[Curve]:
    """The curves of one entity in the drawing's own unit; none for what draws nothing.

    Raises:
        DxfError: it is a curve that is not lines and arcs, or does not lie in the plane.
    """
    kind = entity.dxftype()
    if kind in _CURVED:
        raise DxfError(_WORDS.get(kind, f"a {kind}"))
    match kind:
        case "LINE":
            start, end = entity.dxf.start, entity.dxf.end
            yield from _run([(start.x, start.y, 0.0), (end.x, end.y, 0.0)], False)
        case "ARC":
            yield from _from_behind(entity, _arc(entity))
        case "CIRCLE":
            centre = complex(entity.dxf.center.x, entity.dxf.center.y)
            yield from _from_behind(entity, (circle(centre, entity.dxf.radius),))
        case "LWPOLYLINE":
            light = cast("LWPolyline", entity)
            rows = [tuple(map(float, row)) for row in light.get_points("xyb")]
            yield from _from_behind(entity, _run(rows, bool(light.closed)))
        case "POLYLINE":
            yield from _from_behind(entity, _polyline(cast("Polyline", entity)))


def _from_behind(entity: DXFEntity, curves: Iterator[Curve] | tuple[Curve, ...]) -> Iterator[Curve]:
    """Curves of an entity that may be drawn on the back of the plane (extrusion 0, 0, -1)."""
    out = entity.dxf.get("extrusion", (0.0, 0.0, 1.0))
    if abs(abs(out[2]) - 1.0) > 1e-9:
        raise DxfError("a curve that does not lie in the plane of the drawing")
    for curve in curves:
        yield _turned_over(curve) if out[2] < 0 else curve


def _turned_over(curve: Curve) -> Curve:
    """A curve seen from the front that was drawn on the back: its x the other way."""
    over = Move(turn=-1.0 + 0j, flip=True)
    match curve:
        case Contour():
            return moved(curve, over)
        case _:
            return moved(curve, over)


def _scaled(curve: Curve, factor: float) -> Curve:
    match curve:
        case Contour():
            return scaled(curve, factor)
        case _:
            return scaled(curve, factor)


def _arc(entity: DXFEntity) -> Iterator[Curve]:
    """Counter-clockwise from the start angle to the end angle, in pieces under a third turn."""
    start = math.radians(entity.dxf.start_angle)
    sweep = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360.0) or math.tau
    centre = complex(entity.dxf.center.x, entity.dxf.center.y)
    count = max(1, math.ceil(sweep / (math.pi / 1.5)))
    step = sweep / count
    points = [
        centre + entity.dxf.radius * complex(math.cos(a), math.sin(a))
        for a in (start + k * step for k in range(count + 1))
    ]
    yield chain(points, [math.tan(step / 4)] * count, Role.NONE)


def _polyline(entity: Polyline) -> Iterator[Curve]:
    if not entity.is_2d_polyline or entity.dxf.get("flags", 0) & 6:
        raise DxfError("a polyline smoothed into a curve, or one in space")
    rows: list[tuple[float, ...]] = [
        (v.dxf.location.x, v.dxf.location.y, float(v.dxf.get("bulge", 0.0)))
        for v in entity.vertices
    ]
    yield from _run(rows, bool(entity.is_closed))


def _run(rows: list[tuple[float, ...]], closed: bool) -> Iterator[Curve]:
    """A polyline as a chain, closed by its first point; doubled points merged, big arcs halved."""
    points = [complex(row[0], row[1]) for row in rows]
    bulges = [row[2] for row in rows]
    if closed and points:
        points.append(points[0])
        bulges.append(0.0)
    steps: list[tuple[complex, float]] = []
    for (start, end), bulge in zip(pairwise(points), bulges, strict=False):
        steps += _steps(start, end, bulge)
    if not steps:
        return
    whole = chain([points[0], *(end for end, _ in steps)], [bulge for _, bulge in steps])
    back = whole.points[0] == whole.points[-1] and len(whole) > 1
    yield close(whole) if back else whole


def _steps(start: complex, end: complex, bulge: float) -> Iterator[tuple[complex, float]]:
    """End point and bulge of each piece of one segment, none when it has no length."""
    if abs(end - start) < SHORTEST_CHORD:
        return
    if abs(bulge) <= 1.0:
        yield end, bulge
        return
    ends = np.array([start]), np.array([end])
    middle = complex(middles(*ends, np.array([bulge]))[0])
    half = math.tan(math.atan(bulge) / 2)
    yield middle, half
    yield end, half
