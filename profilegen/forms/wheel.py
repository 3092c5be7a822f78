"""What a solved wheel is: its teeth or none, its outline, what the work is turned to, its sizes.

Owns the records that every form returns and that cutting, drawing and reports read.
Refuses to know any form. Base orientation: wheel centre at the origin, seen from the front
face, space 1 just counter-clockwise of +x; that of a wheel driven clockwise. What of tooth 1
stands at angle 0 each `Toothing` says, and is held to. The other hand is the mirror image in the
x axis (`Wheel.wheel_from_base`).
"""

from __future__ import annotations

import cmath
import math
from dataclasses import KW_ONLY, dataclass
from typing import TYPE_CHECKING, Final, Literal, TypeVar, overload

from profilegen.figures import Quantity
from profilegen.findings.finding import Finding
from profilegen.geometry.chain import Chain, Contour, Role
from profilegen.geometry.moves import MIRROR_X, Move
from profilegen.part.how_measured import Measured

if TYPE_CHECKING:
    from profilegen.part.base import WheelTable

Rotation = Literal["clockwise", "counter-clockwise"]
AtZero = Literal["face tip", "crest"]
Other = TypeVar("Other")

_FLANKS: Final = {"face": "first flank", "back": "second flank"}

_CREST: Final = {"land": "tip"}
"""Of teeth that have no land among their sizes."""

STANDS: Final = 1e-7
"""rad, or share of the radius, by which a toothing may stand off what it says of itself: what
solving in floating point leaves, far below a micrometre on any wheel."""

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
class Toothing:
    """The teeth of one ring, all alike, in base orientation (of the clockwise hand).

    Attributes:
        pitch: one pitch as an open chain: face, root, back, land. Of teeth without a hand face and
            back are the first and the second flank, and of all teeth the land is the crest.
        face: the flank that takes the load, or None when it is curved.
        back: the other flank, or None when it is curved.
        vertex: where face and back would meet if sharp, mm; of curved flanks any point of the root.
        root_radius: radius of the root drawn, mm; 0 when sharp or flat.
        root_flat: width of the flat across the root drawn, mm; 0 when sharp or round.
        bluntness: greatest length from the vertex along a flank that a cutter may leave unformed,
            mm; infinite when the print sets no limit.
        exact_root: whether the root must be just as drawn and not sharper.
        teeth: how many there are.
        at_zero: what of tooth 1 stands at angle 0: its face tip, or the middle of its crest.
        hand: the way it is driven, seen from the front; None for symmetrical teeth.
        inside: whether the teeth look inwards, as those of a splined bore.

    Raises:
        ValueError: the pitch does not stand, close or look as the others say.
    """

    pitch: Chain
    face: Flank | None
    back: Flank | None
    vertex: complex
    root_radius: float = 0.0
    root_flat: float = 0.0
    bluntness: float = math.inf
    exact_root: bool = False
    _: KW_ONLY
    teeth: int
    at_zero: AtZero
    hand: Rotation | None = None
    inside: bool = False

    def __post_init__(self) -> None:
        start, end = complex(self.pitch.points[0]), complex(self.pitch.points[-1])
        if abs(start * cmath.exp(1j * self.angular_pitch) - end) > STANDS * abs(start):
            raise ValueError(f"the pitch does not end one of {self.teeth} teeth on from its start")
        if (abs(self.vertex) > abs(start)) != self.inside:
            looks = "inwards" if self.inside else "outwards"
            raise ValueError(f"the teeth are said to look {looks}, and their root lies that way")
        stands = cmath.phase(start) if self.at_zero == "face tip" else self.crest_angle
        if abs(stands) > STANDS:
            raise ValueError(
                f"the {self.at_zero} of tooth 1 is said to stand at angle 0, and stands at "
                f"{stands:.6g} rad"
            )

    @property
    def angular_pitch(self) -> float:
        """rad."""
        return math.tau / self.teeth

    @property
    def angle(self) -> float:
        """Angle between face and back, rad; raises ValueError when a flank is curved."""
        if self.face is None or self.back is None:
            raise ValueError("a space with a curved flank has no space angle")
        return cmath.phase(self.back.outward / self.face.outward)

    @property
    def crest_width(self) -> float:
        """Straight across one crest, mm; 0 where the teeth are pointed."""
        ends = self._crest_ends()
        return 0.0 if ends is None else abs(ends[1] - ends[0])

    @property
    def crest_angle(self) -> float:
        """From +x to the middle of tooth 1's crest, rad, in base orientation.

        The crest is the run of land in the pitch of space 1, one pitch back; of pointed teeth it
        is the tip in which the pitch begins.
        """
        ends = self._crest_ends()
        if ends is None:
            return cmath.phase(complex(self.pitch.points[0]))
        start, end = ends
        half = cmath.phase(end / start) % math.tau / 2
        return cmath.phase(start * cmath.exp(1j * (half - self.angular_pitch)))

    def _crest_ends(self) -> tuple[complex, complex] | None:
        land = self.pitch.roles == Role.LAND
        if not land.any():
            return None
        return complex(self.pitch.starts[land][0]), complex(self.pitch.ends[land][-1])


@dataclass(frozen=True, slots=True)
class Round:
    """Places evenly spaced round the axis, which the work is turned to one after the other.

    Attributes:
        name: what stands there, in the plural, such as `teeth`, or of what, such as `circle 1`.
        count: of them.
        first: angle of the first, rad, from +x, counter-clockwise seen from the front.
        diameter: of the circle that they stand on, mm.
        size: diameter of each hole, mm; 0 where no holes are drilled.
        one: the name of one, for what stands between or at two stops.
    """

    name: str
    count: int
    first: float
    diameter: float
    size: float = 0.0
    one: str = "tooth"


@dataclass(frozen=True, slots=True)
class Wheel:
    """A solved wheel, seen from its front face.

    Attributes:
        kind: the part file's word for it.
        thickness: mm.
        radius: of the blank, mm: to the crests of teeth on the outside, or of the plain rim.
        root_radius: from the axis to the outermost circle that is solid all round, mm.
        outline: outer contour, counter-clockwise.
        sizes: everything known of the teeth, in the order in which it is told.
        toothing: its teeth; None for a wheel that has none, or none that is drawn.
        other_rounds: what the work is turned to, where it is no tooth.
        bore: the centre hole, clockwise, or None.
        holes: all other holes, clockwise.
        bore_sizes: the same of the bore, `kind` first and `web` last.
        findings: what a careful machinist would object to.
        fit_error: mm by which the outline may stand off the true form; 0 for lines and arcs.
        measured: what is measured of the teeth, in order: keys of `sizes`, and readings that
            `gauging` takes of any teeth.
        pins_rest_on: what a pin laid in a space rests on where the size over pins is told.
        driving: key of the size that the depth of the cut sets and a trial cut shows; or empty.
        keys: the keys of the part file that it was solved from.
    """

    kind: str
    thickness: float
    radius: float
    root_radius: float
    outline: Contour
    sizes: tuple[Size, ...]
    toothing: Toothing | None = None
    other_rounds: tuple[Round, ...] = ()
    bore: Contour | None = None
    holes: tuple[Contour, ...] = ()
    bore_sizes: tuple[Size, ...] = ()
    findings: tuple[Finding, ...] = ()
    fit_error: float = 0.0
    measured: tuple[str, ...] = ()
    driving: str = ""
    pins_rest_on: Literal["flanks", "root"] = "flanks"
    keys: WheelTable | None = None

    @property
    def space(self) -> Toothing:
        """The teeth, of a wheel that has some: what rooms ask that cut and gauge them.

        Raises:
            ValueError: it has none; `is_toothed` is asked first.
        """
        if self.toothing is None:
            raise ValueError("a wheel without teeth has no space between them")
        return self.toothing

    @property
    def is_toothed(self) -> bool:
        """Whether it has teeth on its outside, which a cutter forms as the work is divided."""
        return self.toothing is not None and not self.toothing.inside

    @property
    def teeth(self) -> int:
        """Number of teeth; 0 without a toothing."""
        return 0 if self.toothing is None else self.toothing.teeth

    @property
    def hand(self) -> Rotation | None:
        """The way it is driven, seen from the front; None for teeth without a hand, and none."""
        return None if self.toothing is None else self.toothing.hand

    @property
    def rounds(self) -> tuple[Round, ...]:
        """What the work is turned to, each by stops of its own: the teeth, and the other rounds."""
        if self.toothing is None:
            return self.other_rounds
        teeth = Round("teeth", self.teeth, 0.0, 2 * self.radius, 0.0, self.between_spaces)
        return (teeth, *self.other_rounds)

    @property
    def angular_pitch(self) -> float:
        """rad; raises ValueError for a wheel without teeth."""
        return self.space.angular_pitch

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
        """Straight across one crest, mm; 0 where the teeth are pointed, and without teeth."""
        return 0.0 if self.toothing is None else self.toothing.crest_width

    @property
    def crest_angle(self) -> float:
        """From +x to the middle of tooth 1's crest, rad, in base orientation; 0 without teeth."""
        return 0.0 if self.toothing is None else self.toothing.crest_angle

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
