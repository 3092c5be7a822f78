"""A DXF drawing as curves in mm, layer by layer.

Owns the layers and the unit: the file is taken apart in `tags`, an entity understood in `curves`,
runs joined in `joining`. The only door to reading DXF. Only the layer that is asked for is looked
at, and what cannot be read on it is told entity by entity.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from profilegen.dxf.curves import curve_of
from profilegen.dxf.joining import joined
from profilegen.dxf.tags import DxfError, Entity, tagged
from profilegen.geometry.chain import Curve

__all__ = ["Drawn", "DxfError", "read_layers"]

_MM = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 8: 25.4e-6, 9: 0.0254, 13: 1e-3, 14: 100.0}
"""$INSUNITS -> mm (the DXF reference's list; the units a workshop could mean)."""

MOST_TOLD = 3
"""Entities that cannot be read that are told of a layer."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing taken apart.

    Attributes:
        layers: name -> what is drawn on it, as it stands in the file.
        scale: mm per unit of the drawing.
    """

    layers: Mapping[str, tuple[Entity, ...]]
    scale: float

    def curves_on(self, layer: str) -> tuple[Curve, ...]:
        """The curves of one layer, joined end to end, mm.

        Args:
            layer: its name, in capitals or not.

        Raises:
            DxfError: there is no such layer, there is no curve on it, or something on it cannot be
                read.
        """
        found = [
            entity
            for name, entities in self.layers.items()
            if name.lower() == layer.lower()
            for entity in entities
        ]
        if not found:
            raise DxfError("there is no such layer with lines or arcs on it")
        curves = joined(self._all_of(found))
        if not curves:
            raise DxfError("there is nothing on this layer that is longer than 0.001 mm")
        return curves

    def _all_of(self, entities: list[Entity]) -> list[Curve]:
        curves: list[Curve] = []
        faults: list[str] = []
        for entity in entities:
            try:
                curve = curve_of(entity, self.scale)
            except DxfError as error:
                faults.append(str(error))
            else:
                curves += [curve] if curve is not None else []
        if faults:
            more = len(faults) - MOST_TOLD
            told = [*faults[:MOST_TOLD], *([f"and {more} more"] if more > 0 else [])]
            raise DxfError(f"this layer cannot be read; {'; '.join(told)}")
        return curves


def read_layers(data: bytes, unit: Literal["mm", "in"] = "mm") -> Drawn:
    """Take a drawing apart layer by layer.

    Args:
        data: the bytes of a DXF file in text form, of any version.
        unit: of a drawing that names none; what our own R12 files say in a comment comes first.

    Raises:
        DxfError: the bytes are no DXF drawing, it is too big, or its unit is not one of lengths.
    """
    drawing = tagged(data)
    layers: dict[str, list[Entity]] = {}
    for entity in drawing.entities:
        layers.setdefault(entity.layer, []).append(entity)
    scale = _mm_per_unit(drawing.unit, data, unit)
    return Drawn({name: tuple(found) for name, found in layers.items()}, scale)


def _mm_per_unit(code: int, data: bytes, unit: Literal["mm", "in"]) -> float:
    if code:
        if code not in _MM:
            raise DxfError("the unit of this drawing is not one of the workshop")
        return _MM[code]
    if b"lengths in inches" in data[:200]:
        return 25.4
    if b"lengths in millimetres" in data[:200]:
        return 1.0
    return 25.4 if unit == "in" else 1.0
