"""What a solved wheel is: its space, its outline, its sizes.

Owns the records that every tooth form returns and that cutting, drawing and reports read.
Refuses to know any tooth form. Base orientation: wheel centre at the origin, seen from the front
face, space 1 just counter-clockwise of +x, the face tip of tooth 1 at (R, 0); that is a wheel
driven clockwise. The other hand is the mirror image in the x axis (`Wheel.wheel_from_base`).
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal, TypeVar, overload

from profilegen.figures import Quantity
from profilegen.findings.finding import Finding
from profilegen.geometry.chain import Chain, Contour, Role
from profilegen.geometry.moves import MIRROR_X, Move
from profilegen.part.how_measured import Measured

if TYPE_CHECKING:
    from profilegen.part.base import WheelTable

Rotation = Literal["clockwise", "counter-clockwise"]
Other = TypeVar("Other")

_FLANKS: Final = {"face": "first flank", "back": "second flank"}

_CREST: Final = {"land": "tip"}
"""Of teeth that have no land among their sizes."""

_NOTHING: Final = object()
"""Stands for an argument that is not given."""


@dataclass(frozen=True, slots=True)
class Size:
    """One thing known about the wheel.

    Attributes:
        key: the JSON key.
        value: mm, radians, a count, or a text, as `quantity` says; None where this wheel has none.
        quantity: `length`, `angle`, `count` or `text`.
        label: the trade's words for it, as a table prints them.
        source: `given` by the print or `solved` by the program.
        measured: how, or None where it is only told.
    """

    key: str
    value: float | int | str | None
    quantity: Quantity
    label: str
    source: Literal["given", "solved"]
    measured: Measured | None = None

    @property
    def number(self) -> float:
        """The value, mm, rad or a count.

        Raises:
            ValueError: it is a text, or there is none.
        """
        if not isinstance(self.value, int | float):
            raise ValueError(f"{self.key} is no number")
        return float(self.value)


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
        hand: the way it is driven, seen from the front; None for symmetrical teeth.
        thickness: mm.
        radius: of the blank, to the crests, mm.
        root_radius: from the axis to the deepest material really left, mm.
        outline: outer contour, counter-clockwise.
        bore: the centre hole, clockwise, or None.
        holes: all other holes, clockwise.
        space: space 1 in base orientation.
        sizes: everything known of the teeth, in the order in which it is told.
        measured: what is measured of the teeth, in order: keys of `sizes`, and readings that
            `gauging` takes of any teeth.
        pins_rest_on: what a pin laid in a space rests on where the size over pins is told.
        driving: key of the size that the depth of the cut sets and a trial cut shows; or empty.
        keys: the keys of the part file that it was solved from.
        bore_sizes: the same of the bore, `kind` first and `web` last.
        findings: what a careful machinist would object to.
        fit_error: mm by which the outline may stand off the true form; 0 for lines and arcs.
    """

    kind: str
    teeth: int
    hand: Rotation | None
    thickness: float
    radius: float
    root_radius: float
    outline: Contour
    bore: Contour | None
    holes: tuple[Contour, ...]
    space: Space
    sizes: tuple[Size, ...]
    bore_sizes: tuple[Size, ...]
    findings: tuple[Finding, ...] = ()
    fit_error: float = 0.0
    measured: tuple[str, ...] = ()
    driving: str = ""
    pins_rest_on: Literal["flanks", "root"] = "flanks"
    keys: WheelTable | None = None

    @property
    def angular_pitch(self) -> float:
        """rad."""
        return math.tau / self.teeth

    @property
    def wheel_from_base(self) -> Move:
        """From base orientation to the wheel seen from its front: a mirror for the other hand."""
        return MIRROR_X if self.hand == "counter-clockwise" else Move()

    @property
    def contours(self) -> tuple[Contour, ...]:
        """The outline and every hole: outer counter-clockwise, holes clockwise."""
        bore = () if self.bore is None else (self.bore,)
        return (self.outline, *bore, *self.holes)

    @property
    def crest_width(self) -> float:
        """Straight across one crest, mm; 0 where the teeth are pointed."""
        pitch = self.space.pitch
        land = pitch.roles == Role.LAND
        if not land.any():
            return 0.0
        return abs(complex(pitch.ends[land][-1]) - complex(pitch.starts[land][0]))

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

    def named(self, place: str) -> str:
        """What a place of a tooth is called.

        Args:
            place: `face` and `back` of symmetrical teeth are `first flank` and `second flank`, in
                the order in which they are cut; a `land` where the form has none is the `tip`;
                all else is called as it is.
        """
        if not self.has_lands:
            place = _CREST.get(place, place)
        return place if self.hand is not None else _FLANKS.get(place, place)

    @property
    def has_lands(self) -> bool:
        """Whether the land is a size of its teeth."""
        return any(size.key == "land" for size in self.sizes)

    @property
    def between_spaces(self) -> str:
        """What stands between two spaces, and is off by what their stops are: `land` or `tooth`."""
        return "land" if self.has_lands else "tooth"

    def size(self, key: str) -> Size | None:
        """One size of the teeth, mm, rad, a count or a text, by its key; or None."""
        return next((size for size in self.sizes if size.key == key), None)

    def gives(self, key: str) -> bool:
        """Whether the print gives this size, rather than that it follows from others."""
        return self.keys is not None and getattr(self.keys, key, None) is not None

    @overload
    def fact(self, key: str) -> float: ...
    @overload
    def fact(self, key: str, otherwise: Other) -> float | Other: ...
    def fact(self, key: str, otherwise: object = _NOTHING) -> object:
        """The number of one fact, or what is given for the case that this form has none.

        Args:
            key: of the size.
            otherwise: comes back where there is no such number.

        Returns:
            mm, rad or a count, as the size's `quantity` says.

        Raises:
            KeyError: there is no such number, and nothing is given for that case.
        """
        numbers = {f.key: f.number for f in self.sizes if isinstance(f.value, int | float)}
        if key in numbers:
            return numbers[key]
        if otherwise is _NOTHING:
            raise KeyError(f"this wheel has no number {key!r}, only {', '.join(numbers)}")
        return otherwise
