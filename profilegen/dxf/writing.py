"""Layers of contours as the bytes of a DXF file.

Owns the mapping of a contour to one closed polyline with bulges (a full circle to a CIRCLE), of a
label to a TEXT, the layer table, the units and the extents. R12 has no units and no light
polylines: there the unit stands in a comment. The same layers give the same bytes on the same
version of the library.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import ezdxf
import numpy as np
from ezdxf import units as dxf_units
from ezdxf.document import Drawing

from profilegen.geometry.arcs import radii
from profilegen.geometry.chain import Chain, Contour, Curve
from profilegen.geometry.measure import bounds

if TYPE_CHECKING:
    from ezdxf.layouts import Modelspace

Version = Literal["R12", "R2000", "R2010"]
OUTLINE, HOLES, CUTTER = "OUTLINE", "HOLES", "CUTTER-NOT-FOR-CUTTING"
GOUGE, LEFT_OVER, SHEET = "GOUGE", "LEFT-OVER", "SHEET"

DECIMALS = 12
"""Of a circle's radius. What stands behind is the noise of the sums: a bore of 3/8 in would have
the radius 0.18749999999999997."""

_UNITS = {"mm": (dxf_units.MM, 1, 1.0), "in": (dxf_units.IN, 0, 25.4)}


@dataclass(frozen=True, slots=True)
class Label:
    """One line of text, its left foot at a point, the height of its capitals in mm."""

    at: complex
    string: str
    height: float


@dataclass(frozen=True, slots=True)
class Layer:
    """Curves and labels on one layer, mm."""

    name: str
    curves: tuple[Curve, ...]
    labels: tuple[Label, ...] = ()


def dxf_bytes(
    layers: tuple[Layer, ...], unit: Literal["mm", "in"], version: Version = "R2010"
) -> bytes:
    """The layers as a DXF file at nominal size.

    Args:
        layers: curves and labels in mm, whatever the unit of the file.
        unit: of the coordinates in the file.
        version: R12 has no place for a unit: there a comment tells it.

    Raises:
        ValueError: there is no curve, so the drawing would be empty.
    """
    curves = [curve for layer in layers for curve in layer.curves]
    if not curves:
        raise ValueError("a DXF without curves")
    code, measurement, scale = _UNITS[unit]
    with _fixed_metadata():
        document = Drawing.new(version)
        if version != "R12":  # which has no unit, and the library says so on stderr
            document.units = code
        document.header["$MEASUREMENT"] = measurement
        _set_extents(document, curves, scale)
        for layer in layers:
            document.layers.add(layer.name, color=7, linetype="CONTINUOUS")
            for curve in layer.curves:
                _add(document.modelspace(), curve, layer.name, scale, version)
            for label in layer.labels:
                _write(document.modelspace(), label, layer.name, scale)
        _declare_classes(document)
        stream = io.StringIO()
        document.write(stream)
    comment = f"999\nnominal size, lengths in {'millimetres' if unit == 'mm' else 'inches'}\n"
    text = comment + stream.getvalue() if version == "R12" else stream.getvalue()
    return text.encode(document.output_encoding, errors="dxfreplace")


def _declare_classes(document: Drawing) -> None:
    """Enter the classes in order; the library would take them from a set, in any order."""
    for name in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(name)


def _add(space: Modelspace, curve: Curve, layer: str, scale: float, version: Version) -> None:
    points = curve.points / scale
    attributes = {"layer": layer}
    if isinstance(curve, Contour) and len(curve) == 2 and np.all(np.abs(curve.bulges) == 1.0):
        centre = complex(points.mean())
        radius = round(float(radii(curve.starts, curve.ends, curve.bulges)[0]) / scale, DECIMALS)
        space.add_circle((centre.real, centre.imag), radius, attributes)
        return
    bulges = np.append(curve.bulges, 0.0) if isinstance(curve, Chain) else curve.bulges
    rows = np.column_stack((points.real, points.imag, bulges)).tolist()
    closed = isinstance(curve, Contour)
    if version == "R12":
        space.add_polyline2d(rows, format="xyb", close=closed, dxfattribs=attributes)
    else:
        space.add_lwpolyline(rows, format="xyb", close=closed, dxfattribs=attributes)


def _write(space: Modelspace, label: Label, layer: str, scale: float) -> None:
    place = label.at / scale
    text = space.add_text(label.string, height=label.height / scale, dxfattribs={"layer": layer})
    text.set_placement((place.real, place.imag))


def _set_extents(document: Drawing, curves: list[Curve], scale: float) -> None:
    boxes = np.array([bounds(curve) for curve in curves]) / scale
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    document.header["$EXTMIN"] = (*low.tolist(), 0.0)
    document.header["$EXTMAX"] = (*high.tolist(), 0.0)
    document.modelspace().reset_extents((*low.tolist(), 0.0), (*high.tolist(), 0.0))


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Switch off dates and random identifiers for one file; the switch is global in the library."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
