"""What stands along the wheel axis, from the free end to the chuck, as cylinders.

For pictures of the set-up: rims, hubs, what the work is gripped by, jaws and chuck. Lengths are
those of `bar`; where the sweep of the cutter is not known, so that they are not either, half the
blank's diameter stands for them. No published source: plain adding up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from profilegen.setting.bar import Bar, Grip, grip_of, hub_end

if TYPE_CHECKING:
    from profilegen.cutting.frame import Frame
    from profilegen.forms.wheel import Wheel
    from profilegen.part.part import Part

Name = Literal["bar", "neck", "hub", "rim", "jaws", "chuck"]


@dataclass(frozen=True, slots=True)
class Piece:
    """One cylinder true with the wheel axis.

    Attributes:
        name: what it is.
        start: from the free end of the work, mm.
        end: the same of its other end, nearer to the head, mm.
        radius: mm; None where the part does not give it.
    """

    name: Name
    start: float
    end: float
    radius: float | None


def pieces(part: Part, wheel: Wheel, frame: Frame, bar: Bar | None) -> tuple[Piece, ...]:
    """Everything from the free end to the face of the chuck, what lies under something else first.

    Args:
        part: for hub, bar, count and what is given of chuck and jaws.
        wheel: on the blank at hand.
        frame: for the end at which the hub stands.
        bar: lengths along the axis, mm; None without a cut.
    """
    at, hub = hub_end(part, frame), part.hub
    free = hub.length if hub and at == "free end" else 0.0
    ends = free + (part.blank.count - 1) * part.pitch_on_bar + wheel.thickness
    grips = grip_of(part, frame)
    face = ends + _behind(part, wheel, bar, grips, at)
    held = () if grips == "hub" else tuple(_held(part, wheel, bar, free, ends, face))
    return (*held, *_rims(part, wheel, at, free, face), *_chuck(part, face))


def _behind(part: Part, wheel: Wheel, bar: Bar | None, grips: Grip, at: str | None) -> float:
    """From the last rim to the jaws, mm; never more than the hub that they grip."""
    hub = part.hub.length if part.hub and at == "head" else 0.0
    known = bar.behind if bar is not None else None
    if grips == "hub":
        return hub / 2 if known is None else min(known, hub)
    return hub + wheel.radius if known is None else known


def _held(
    part: Part, wheel: Wheel, bar: Bar | None, free: float, ends: float, face: float
) -> Iterator[Piece]:
    """The bar or arbor; of a bar thicker than the roots its neck behind the wheels, and between
    them."""
    given = part.blank.bar_diameter
    thick = given / 2 if given else wheel.radius
    neck = bar.neck_diameter / 2 if bar else wheel.root_radius
    if thick <= neck:
        yield Piece("bar", free, face, thick)
        return
    long = bar.neck_length if bar and bar.neck_length is not None else wheel.radius / 2
    hub = part.hub.length if part.hub and free == 0.0 else 0.0
    turned = min(ends + max(long, hub), face)
    yield Piece("neck", free, turned, neck)
    if turned < face:
        yield Piece("bar", turned, face, thick)


def _rims(part: Part, wheel: Wheel, at: str | None, free: float, face: float) -> Iterator[Piece]:
    """Every rim with its hub; a hub that is gripped is seen as far as the jaws."""
    hub = part.hub
    for number in range(part.blank.count):
        front = free + number * part.pitch_on_bar
        back = front + wheel.thickness
        yield Piece("rim", front, back, wheel.radius)
        if hub is None:
            continue
        span = (front - hub.length, front) if at == "free end" else (back, back + hub.length)
        yield Piece("hub", span[0], min(span[1], face), hub.diameter / 2)


def _chuck(part: Part, face: float) -> Iterator[Piece]:
    """Jaws and chuck. Jaws that do not stand out, such as a collet's nose, are the end of a chuck
    that is not given; where nothing is given there is a chuck of no known size."""
    setup = part.setup
    back, size = face, setup.chuck_diameter or setup.jaw_diameter
    if setup.jaw_diameter is not None and setup.jaw_length > 0:
        back, size = face + setup.jaw_length, setup.chuck_diameter
        yield Piece("jaws", face, back, setup.jaw_diameter / 2)
    yield Piece("chuck", back, back, None if size is None else size / 2)
