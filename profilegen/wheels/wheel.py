"""What a solved wheel is: its space, its outline, its facts.

Owns the records that every tooth form returns and that cutting, drawing and reports read.
Refuses to know any tooth form. Base orientation: wheel centre at the origin, seen from the front
face, space 1 just counter-clockwise of +x, the face tip of tooth 1 at (R, 0); that is a wheel
driven clockwise. The other hand is the mirror image in the x axis (`Wheel.wheel_from_base`).
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from typing import Final, Literal, TypeVar, overload

from profilegen.errors import Finding
from profilegen.geometry.chain import Chain, Contour, Role
from profilegen.geometry.moves import MIRROR_X, Move

Rotation = Literal["clockwise", "counter-clockwise"]
Quantity = Literal["length", "angle", "count", "text"]
Other = TypeVar("Other")

_NOTHING: Final = object()
"""Stands for an argument that is not given."""


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing known about the wheel.

    Attributes:
        key: the JSON key.
        value: mm, radians, a count, or a text, as `quantity` says.
        quantity: `length`, `angle`, `count` or `text`.
        label: the trade's words for it, as a table prints them.
        source: `given` by the print or `solved` by the program.
    """

    key: str
    value: float | int | str
    quantity: Quantity
    label: str
    source: Literal["given", "solved"]


@dataclass(frozen=True, slots=True)
class Flank:
    """A straight flank in base orientation.

    Attributes:
        tip: its outer end, mm.
        outward: unit direction from the root to the tip.
        length: straight length from the root vertex to the tip, mm.
    """

    tip: complex
    outward: complex
    length: float


@dataclass(frozen=True, slots=True)
class Space:
    """The gap between two teeth, in base orientation (of the clockwise hand).

    Attributes:
        pitch: one pitch as an open chain: face, root, back, land.
        face: the flank that takes the load, or None when it is curved.
        back: the other flank, or None when it is curved.
        vertex: where face and back would meet if sharp, mm.
        root_radius: radius of the root drawn, mm; 0 when sharp or flat.
        root_flat: width of the flat across the root drawn, mm; 0 when sharp or round.
        bluntness: greatest length from the vertex along a flank that a cutter may leave unformed,
            mm; infinite when the print sets no limit.
        exact_root: whether the root must be just as drawn and not sharper.
    """

    pitch: Chain
    face: Flank | None
    back: Flank | None
    vertex: complex
    root_radius: float = 0.0
    root_flat: float = 0.0
    bluntness: float = math.inf
    exact_root: bool = False

    @property
    def angle(self) -> float:
        """Angle between face and back, rad; raises ValueError when a flank is curved."""
        if self.face is None or self.back is None:
            raise ValueError("a space with a curved flank has no space angle")
        return cmath.phase(self.back.outward / self.face.outward)


@dataclass(frozen=True, slots=True)
class Wheel:
    """A solved wheel, seen from its front face.

    Attributes:
        kind: the part file's word for it.
        teeth: number of teeth.
        rotation: the way it is driven, seen from the front.
        thickness: mm.
        radius: of the blank, to the crests, mm.
        root_radius: from the axis to the deepest material really left, mm.
        outline: outer contour, counter-clockwise.
        bore: the centre hole, clockwise, or None.
        holes: all other holes, clockwise.
        space: space 1 in base orientation.
        facts: everything known of the teeth, in the order in which it is told.
        bore_facts: the same of the bore, `kind` first and `web` last.
        findings: what a careful machinist would object to.
        fit_error: mm by which the outline may stand off the true form; 0 for lines and arcs.
    """

    kind: str
    teeth: int
    rotation: Rotation
    thickness: float
    radius: float
    root_radius: float
    outline: Contour
    bore: Contour | None
    holes: tuple[Contour, ...]
    space: Space
    facts: tuple[Fact, ...]
    bore_facts: tuple[Fact, ...]
    findings: tuple[Finding, ...] = ()
    fit_error: float = 0.0

    @property
    def angular_pitch(self) -> float:
        """rad."""
        return math.tau / self.teeth

    @property
    def wheel_from_base(self) -> Move:
        """From base orientation to the wheel seen from its front: a mirror for the other hand."""
        return Move() if self.rotation == "clockwise" else MIRROR_X

    @property
    def contours(self) -> tuple[Contour, ...]:
        """The outline and every hole: outer counter-clockwise, holes clockwise."""
        bore = () if self.bore is None else (self.bore,)
        return (self.outline, *bore, *self.holes)

    @property
    def crest_angle(self) -> float:
        """From +x to the middle of tooth 1's crest, rad, in base orientation.

        The crest is the run of land in the pitch of space 1, one pitch back.
        """
        pitch = self.space.pitch
        land = pitch.roles == Role.LAND
        if not land.any():
            return 0.0
        ends = (
            cmath.phase(complex(pitch.starts[land][0])),
            cmath.phase(complex(pitch.ends[land][-1])),
        )
        return sum(ends) / 2 - self.angular_pitch

    @overload
    def fact(self, key: str) -> float: ...
    @overload
    def fact(self, key: str, otherwise: Other) -> float | Other: ...
    def fact(self, key: str, otherwise: object = _NOTHING) -> object:
        """The number of one fact (mm, rad or a count), or `otherwise` where this form has none.

        Raises:
            KeyError: there is no such number, and nothing is given for that case.
        """
        numbers = {f.key: float(f.value) for f in self.facts if not isinstance(f.value, str)}
        if key in numbers:
            return numbers[key]
        if otherwise is _NOTHING:
            raise KeyError(f"this wheel has no number {key!r}, only {', '.join(numbers)}")
        return otherwise
