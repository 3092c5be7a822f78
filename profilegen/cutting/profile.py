"""Cutters of any silhouette: slot, ball, form and drawn cutters.

Owns the record of a cutting edge that is not a wedge, in the cutter's own frame: apex at the
origin, infeed along -y, the side towards the tooth that owns the face at +x. Refuses to know wheels
and poses.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from profilegen.geometry.arcs import points_at
from profilegen.geometry.chain import Chain, Role, chain
from profilegen.geometry.chain import join as join_chains
from profilegen.geometry.measure import bounds, fraction_facing
from profilegen.geometry.tolerance import SHORTEST_CHORD


@dataclass(frozen=True, slots=True)
class Profile:
    """A cutter by its drawn edge, one way round.

    Attributes:
        name: the cutter's name in the part file or drawer.
        kind: the part file's word.
        edge: the cutting edge from its +x side over the tip to its -x side, mm, a wider body's
            shoulders included; above both ends the cutter goes straight up.
        endless: whether the straight sides above the ends still cut.
    """

    name: str
    kind: str
    edge: Chain
    endless: bool = False

    @property
    def tip(self) -> complex:
        """Lowest real point from the apex, mm; the middle of a level bottom."""
        low = bounds(self.edge)[1]
        level = [z.real for z in self._candidates() if z.imag <= low + SHORTEST_CHORD]
        return complex((min(level) + max(level)) / 2, low)

    def _candidates(self) -> list[complex]:
        """Every point at which the edge can be lowest: its points and the bottoms of its arcs."""
        edge = self.edge
        bottom = fraction_facing(edge.starts, edge.ends, edge.bulges, -1j)
        at = ~np.isnan(bottom)
        arcs = points_at(edge.starts[at], edge.ends[at], edge.bulges[at], bottom[at])
        return [*edge.points.tolist(), *arcs.tolist()]

    def silhouette(self, height: float) -> Chain:
        """The edge with its sides straight up.

        Args:
            height: how far up, mm above the apex; an edge that goes higher stays as it is.

        Returns:
            From the +x side over the tip to the -x side, apex at the origin, mm.
        """
        start, end = complex(self.edge.points[0]), complex(self.edge.points[-1])
        role = Role.EDGE if self.endless else Role.BODY
        pieces = [self.edge]
        if start.imag < height - SHORTEST_CHORD:
            pieces.insert(0, chain([complex(start.real, height), start], roles=role))
        if end.imag < height - SHORTEST_CHORD:
            pieces.append(chain([end, complex(end.real, height)], roles=role))
        return join_chains(*pieces)
