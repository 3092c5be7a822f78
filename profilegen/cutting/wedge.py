"""Wedge cutters as silhouettes: vee, single-angle, double-angle, with a nose or a flat.

Owns the shape of the cutting point in the cutter's own frame: apex at the origin, infeed along -y,
the flank that forms the wheel's face towards +x. Refuses to know wheels and poses.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from profilegen.geometry.chain import Chain, Role, chain
from profilegen.geometry.chain import join as join_chains
from profilegen.geometry.tolerance import SHORTEST_CHORD

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable
    from profilegen.part.cutter_tables import DoubleAngleCutter, SingleAngleCutter, VeeCutter


@dataclass(frozen=True, slots=True)
class Wedge:
    """A wedge cutter, one way round.

    Attributes:
        name: the cutter's name in the part file.
        kind: the part file's word.
        face_side: flank angle from the infeed towards +x, rad; it forms the face.
        back_side: flank angle from the infeed towards -x, rad; it forms the back.
        nose: tip radius, mm, 0 when sharp or flat.
        flat: width of the tip, square to the infeed, mm, 0 when sharp or round.
        edge_length: how far the edges reach up from the tip, along the infeed, mm; infinite when
            not given.
        body_width: across both edges where the body begins, mm; infinite when not given.
    """

    name: str
    kind: str
    face_side: float
    back_side: float
    nose: float = 0.0
    flat: float = 0.0
    edge_length: float = math.inf
    body_width: float = math.inf

    @property
    def angle(self) -> float:
        """Included angle, rad."""
        return self.face_side + self.back_side

    @property
    def face_edge(self) -> complex:
        """Unit direction of the face-side edge, away from the apex."""
        return 1j * cmath.exp(-1j * self.face_side)

    @property
    def back_edge(self) -> complex:
        """Unit direction of the back-side edge, away from the apex."""
        return 1j * cmath.exp(1j * self.back_side)

    @property
    def nose_centre(self) -> complex:
        """Centre of the nose from the apex, mm; 0 when there is none."""
        bisector = 1j * cmath.exp(0.5j * (self.back_side - self.face_side))
        return bisector * self.nose / math.sin(self.angle / 2)

    @property
    def flat_height(self) -> float:
        """Height of a flat tip above the apex, mm."""
        return self.flat / (math.tan(self.face_side) + math.tan(self.back_side))

    @property
    def tip(self) -> complex:
        """Lowest real point from the apex, mm; the middle of a flat."""
        if self.flat:
            lean = (math.tan(self.face_side) - math.tan(self.back_side)) / 2
            return self.flat_height * complex(lean, 1.0)
        return self.nose_centre - 1j * self.nose

    @property
    def edge_top(self) -> float:
        """Height above the apex at which the edges end and the body begins, mm; may be infinite."""
        spread = math.tan(self.face_side) + math.tan(self.back_side)
        return min(self.body_width / spread, self.tip.imag + self.edge_length)

    def edge_starts(self) -> tuple[complex, complex]:
        """Where the straight edges begin above nose or flat, face side first, mm from the apex."""
        along = self.nose / math.tan(self.angle / 2)
        face = along + self.flat_height / math.cos(self.face_side)
        back = along + self.flat_height / math.cos(self.back_side)
        return face * self.face_edge, back * self.back_edge

    def silhouette(self, height: float) -> Chain:
        """The cutting point from its face side over the tip to its back side, apex at the origin,
        mm.

        The edges run to the height, or to the end of the edge or the body's width, whichever comes
        first, and the body straight on from there.

        Args:
            height: how far up it is drawn, mm above the apex.
        """
        on_face, on_back = self.edge_starts()
        top = min(self.edge_top, height)
        face_end = self.face_edge * (top / self.face_edge.imag)
        back_end = self.back_edge * (top / self.back_edge.imag)
        sides = [
            chain([face_end, on_face], roles=Role.EDGE),
            chain([on_back, back_end], roles=Role.EDGE),
        ]
        if on_face != on_back:
            bulge = -math.tan((math.pi - self.angle) / 4) if self.nose else 0.0
            sides.insert(1, chain([on_face, on_back], [bulge], Role.EDGE))
        if top < height - SHORTEST_CHORD:
            sides.insert(0, chain([complex(face_end.real, height), face_end], roles=Role.BODY))
            sides.append(chain([back_end, complex(back_end.real, height)], roles=Role.BODY))
        return join_chains(*sides)


def is_wedge_kind(cutter: CutterTable) -> bool:
    """Whether a cutter of the part file is a wedge."""
    return cutter.kind in ("vee", "single-angle", "double-angle")


def ways_round(cutter: CutterTable) -> tuple[Wedge, ...]:
    """Every way round in which a cutter of the part file can stand, the usual one first; angles in
    rad from the infeed, sizes in mm.

    A single-angle cutter has its flat, the flank along the infeed, on the face; a double-angle
    cutter is tried both ways round, its steeper flank on the face first.
    """
    return tuple(
        Wedge(
            cutter.name,
            cutter.kind,
            face_side,
            back_side,
            nose=cutter.tip_radius or 0.0,
            flat=cutter.tip_flat or 0.0,
            edge_length=cutter.edge_length or math.inf,
            body_width=cutter.body_width or math.inf,
        )
        for face_side, back_side in _flank_angles(cutter)
    )


def _flank_angles(cutter: CutterTable) -> tuple[tuple[float, float], ...]:
    """Face-side and back-side flank angles of each way round, rad."""
    match cutter.kind:
        case "vee":
            half = cast("VeeCutter", cutter).included_angle / 2
            return ((half, half),)
        case "single-angle":
            return ((0.0, cast("SingleAngleCutter", cutter).angle),)
        case "double-angle":
            steep, slack = sorted(cast("DoubleAngleCutter", cutter).angles)
            return ((steep, slack), (slack, steep)) if steep != slack else ((steep, slack),)
        case other:
            raise ValueError(f"no wedge cutter: {other}")
