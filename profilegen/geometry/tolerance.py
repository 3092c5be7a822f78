"""The named tolerances of the whole program, each with its size and its reason.

Owns every length or angle below which two things count as the same.
"""

from __future__ import annotations

SHORTEST_CHORD = 1e-7
"""mm. A shorter segment has no trustworthy direction and no reader keeps it."""

FLATTEST_SAGITTA = 1e-9
"""mm. An arc that rises less than this above its chord is stored as a line."""

SAME_POINT = 1e-9
"""mm. Two computed points nearer than this are one point: some hundred roundings of a 100 mm
part."""

CHORD_ERROR = 1e-4
"""mm. Greatest sagitta of the chords when a curve is handed to a reader of polygons only."""

SAME_ANGLE = 1e-12
"""rad. Two flank angles nearer than this are equal: a thousandth of 1e-9 mm on a 1 m flank."""

SPIKE_ANGLE = 1e-9
"""rad. A corner sharper than this has no inside: 1e-9 mm wide at 1 mm from its tip."""
