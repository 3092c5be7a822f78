"""Bore, hub and holes of any wheel, and what stands too near to what.

Owns the webs: bore to root, hole to root, hole to bore, hole to hole, hub against cutter. The least
web is common practice (half the thickness, or the tooth depth where that is less), no published
source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias, cast

import numpy as np

from profilegen.errors import CannotMakeError, Finding, Remedy, refused
from profilegen.figures import Quantity
from profilegen.forms import bore as bores
from profilegen.forms.say import Say
from profilegen.forms.wheel import Size
from profilegen.geometry.chain import Contour, Points
from profilegen.geometry.measure import contains, farthest, nearest_each
from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.part.base import BoreTable
    from profilegen.part.bores.d_bore import DBore
    from profilegen.part.bores.hexagon import HexagonBore
    from profilegen.part.bores.keyed import KeyedBore
    from profilegen.part.bores.round import RoundBore
    from profilegen.part.bores.square import SquareBore
    from profilegen.part.part import Part
    from profilegen.part.tables import Holes

_LABELS = {
    "diameter": "Bore diameter",
    "across_flats": "Across flats",
    "corner_radius": "Corner radius",
    "key_width": "Keyway width",
    "key_depth": "Keyway depth, from the bore",
    "flat_to_far_side": "Flat to far side",
    "angle": "Angle from tooth 1",
}

SHALLOW = 0.3
"""of the blank's radius: teeth whose roots lie deeper leave no room for a usual bore."""


@dataclass(frozen=True, slots=True)
class Features:
    """What stands inside the toothed rim.

    Attributes:
        bore: clockwise, or None.
        holes: clockwise.
        sizes: of the bore, `kind` first and `web` last.
        findings: cautions on webs and hub.
    """

    bore: Contour | None
    holes: tuple[Contour, ...]
    sizes: tuple[Size, ...]
    findings: tuple[Finding, ...]


Advice: TypeAlias = tuple[str, str | int | None]
"""A sentence with `{}` for the key path, and the value to write there where one mends it."""


def features_of(part: Part, say: Say, radius: float, root: float) -> Features:
    """Bore, hub and holes of a part whose blank and root radii (mm) are known.

    Raises:
        CannotMakeError: a bore or hole breaks out, or its sizes contradict each other.
    """
    bore = bore_contour(part.bore, say)
    reach = 0.0 if bore is None else farthest(bore, 0j)[0]
    least = least_web(part.wheel.thickness, radius - root)
    holes = tuple(
        hole
        for ring in part.holes
        for hole in bores.hole_circle(ring.count, ring.circle_diameter, ring.diameter, ring.angle)
    )
    findings = (
        *_bore_findings(part, say, reach, radius, root, least),
        *_hole_findings(part, say, bore, root, least),
        *_hub_findings(part, say, reach, root, least),
    )
    if refused(findings):
        raise CannotMakeError(*refused(findings))
    return Features(bore, holes, _bore_sizes(part.bore, reach, root), findings)


def least_web(thickness: float, depth: float) -> float:
    """The least web that carries the teeth, mm: between root and bore or hole.

    Args:
        thickness: of the wheel, mm; half of it is enough.
        depth: of the teeth, mm; as much is enough.
    """
    return min(thickness / 2, depth)


def bore_contour(bore: BoreTable, say: Say) -> Contour | None:
    """The bore's outline, clockwise, mm; None for no bore.

    Raises:
        CannotMakeError: its sizes contradict each other.
    """
    try:
        match bore.kind:
            case "round":
                return bores.round_bore(cast("RoundBore", bore).diameter)
            case "square" | "hexagon":
                flats = cast("SquareBore | HexagonBore", bore)
                sides = 4 if bore.kind == "square" else 6
                return bores.polygon_bore(
                    sides, flats.across_flats, flats.corner_radius, bore.angle
                )
            case "keyed":
                key = cast("KeyedBore", bore)
                return bores.keyed_bore(key.diameter, key.key_width, key.key_depth, bore.angle)
            case "d-bore":
                flat = cast("DBore", bore)
                return bores.d_bore(flat.diameter, flat.flat_to_far_side, bore.angle)
    except bores.ImpossibleBore as fault:
        where = f"bore.{fault.key}"
        value = float(getattr(bore, fault.key))
        less = f"less than {say.bound(fault.limit, 'at most')}"
        if value < fault.limit:
            less = f"at least {say.bound(fault.limit / 2, 'at least')}"
        text = f"{fault}: make {where} {less}"
        remedy = Remedy(where, say.typed(0.75 * fault.limit, "at most"))
        raise CannotMakeError(
            Finding("bore-impossible", "refused", text, where, value, fault.limit, remedy)
        ) from fault
    return None


def _bore_sizes(bore: BoreTable, reach: float, root: float) -> tuple[Size, ...]:
    sizes = [Size("kind", bore.kind, "text", "Bore", "given")]
    for key, label in _LABELS.items():
        if hasattr(bore, key) and bore.kind != "none":
            quantity: Quantity = "angle" if key == "angle" else "length"
            sizes.append(Size(key, getattr(bore, key), quantity, label, "given"))
    if hasattr(bore, "across_flats"):
        sizes.append(Size("across_corners", 2 * reach, "length", "Across corners", "solved"))
    if bore.kind != "none":
        sizes.append(Size("web", root - reach, "length", "Web, bore to root", "solved"))
    return tuple(sizes)


def _bore_findings(
    part: Part, say: Say, reach: float, radius: float, root: float, least: float
) -> Iterator[Finding]:
    """Whether a bore that reaches so far leaves a web under the roots.

    Args:
        part: with its bore.
        say: how the part writes lengths.
        reach: radius of the bore's farthest place, mm.
        radius: of the blank, mm; roots far down in it are the teeth's fault, not the bore's.
        root: radius of the deepest root, mm.
        least: the least web, mm.
    """
    web = root - reach
    if reach == 0.0 or web >= least - SAME_POINT:
        return
    where, advice, remedy = _smaller_bore(part.bore, say, reach, root, least)
    if web > 0:
        text = f"the web from bore to root is only {say.length(web)}: {advice}"
        yield Finding("web-thin", "caution", text, where, web, least, remedy)
    elif root < SHALLOW * radius:
        text = f"the teeth come down to {say.length(2 * root)} across the roots, into the bore"
        yield Finding("bore-breaks-out", "refused", text, "wheel", web, 0.0)
    else:
        text = f"the bore breaks out through the roots: {advice}"
        yield Finding("bore-breaks-out", "refused", text, where, web, 0.0, remedy)


def _smaller_bore(
    bore: BoreTable, say: Say, reach: float, root: float, least: float
) -> tuple[str, str, Remedy | None]:
    """The key of a bore to make smaller, the advice and the remedy: a bore that leaves the least
    web, or reaches half as far as the roots where there is no room for that."""
    key = "across_flats" if hasattr(bore, "across_flats") else "diameter"
    where = f"bore.{key}"
    passing = _bore_that_passes(bore, reach, max(root - least, root / 2), key)
    if passing <= max(getattr(bore, "key_width", 0.0), 2 * getattr(bore, "corner_radius", 0.0)):
        rest = "bore.key_width and bore.key_depth" if bore.kind == "keyed" else "bore.corner_radius"
        return where, f"make {where} smaller, and {rest} with it", None
    advice = f"make {where} at most {say.bound(passing, 'at most')}"
    return where, advice, Remedy(where, say.typed(passing, "at most"))


def _bore_that_passes(bore: BoreTable, reach: float, room: float, key: str) -> float:
    """The bore's main size with which its corners stay within `room` mm of the axis."""
    now = float(getattr(bore, key))
    if bore.kind == "keyed":
        keyed = cast("KeyedBore", bore)
        inside = max(room**2 - keyed.key_width**2 / 4, 0.0)
        return max(2 * (math.sqrt(inside) - keyed.key_depth), 0.0)
    if key == "across_flats":
        corner = cast("SquareBore | HexagonBore", bore).corner_radius
        half = math.pi / (4 if bore.kind == "square" else 6)
        return 2 * ((room - corner) * math.cos(half) + corner)
    return now * room / reach


def _hole_findings(
    part: Part, say: Say, bore: Contour | None, root: float, least: float
) -> Iterator[Finding]:
    for number, ring in enumerate(part.holes, start=1):
        for name, web, key, (advice, value) in _hole_webs(ring, say, bore, root, least):
            if web >= least - SAME_POINT:
                continue
            gone, where = web <= 0, f"holes[{number}].{key}"
            is_left = "gone" if gone else f"only {say.length(web)}"
            text = f"the web from hole to {name} is {is_left}: {advice.format(where)}"
            remedy = None if value is None else Remedy(where, value)
            if gone:
                yield Finding("hole-breaks-out", "refused", text, where, web, 0.0, remedy)
            else:
                yield Finding("web-thin", "caution", text, where, web, least, remedy)
    yield from _rings_that_meet(part)


def _hole_webs(
    ring: Holes, say: Say, bore: Contour | None, root: float, least: float
) -> Iterator[tuple[str, float, str, Advice]]:
    """Name, web (mm), key and advice of each web of one circle of holes."""
    radius, half = ring.circle_diameter / 2, ring.diameter / 2
    reach = 0.0 if bore is None else farthest(bore, 0j)[0] + least
    inner, outer = reach + half, root - least - half
    key, room = "circle_diameter", root - least - reach
    if bore is not None and inner > outer:
        key = "diameter"
    smaller = _to(say, "at most", room)
    if room <= 0:
        smaller = "there is no room for {} of any size", None
    out, back = _to(say, "at least", 2 * inner), _to(say, "at most", 2 * outer)
    if outer <= 0:
        key = "diameter"
    yield "root", root - radius - half, key, smaller if key == "diameter" else back
    if ring.count > 1:
        yield _web_between(ring, say, least)
    if bore is not None:
        centres = _centres(ring)
        sides = np.where(contains(bore, centres), -1.0, 1.0)
        web = float(np.min(sides * nearest_each(bore, centres)[0])) - half
        yield "bore", web, key, smaller if key == "diameter" else out


def _to(say: Say, than: str, mm: float) -> Advice:
    """To make a size at least or at most so big."""
    return f"make {{}} {than} {say.bound(mm, than)}", say.typed(mm, than)


def _web_between(ring: Holes, say: Say, least: float) -> tuple[str, float, str, Advice]:
    """The web between neighbours of one circle: smaller holes mend it, or else fewer."""
    chord = ring.circle_diameter * math.sin(math.pi / ring.count)
    if chord > 1.5 * least:
        return "hole", chord - ring.diameter, "diameter", _to(say, "at most", chord - least)
    share = min((ring.diameter + least) / ring.circle_diameter, 1.0)
    fewer = max(math.floor(math.pi / math.asin(share)), 1) if share < 1 else 1
    return "hole", chord - ring.diameter, "count", (f"make {{}} at most {fewer}", fewer)


def _centres(ring: Holes) -> Points:
    """Middles of one circle of holes, mm."""
    turns = ring.angle + math.tau * np.arange(ring.count) / ring.count
    return np.asarray(ring.circle_diameter / 2 * np.exp(1j * turns))


def _rings_that_meet(part: Part) -> Iterator[Finding]:
    """Two circles of holes whose holes run into each other."""
    rings = [_centres(ring) for ring in part.holes]
    for late in range(len(rings)):
        for early in range(late):
            gap = float(np.min(np.abs(rings[late][:, None] - rings[early][None, :])))
            need = (part.holes[late].diameter + part.holes[early].diameter) / 2
            if gap <= need:
                where = f"holes[{late + 1}].circle_diameter"
                message = f"its holes run into those of holes[{early + 1}]: move {where} away"
                yield Finding("holes-meet", "refused", message, where, gap, need)


def _hub_findings(
    part: Part, say: Say, reach: float, root: float, least: float
) -> Iterator[Finding]:
    if part.hub is None:
        return
    if part.hub.diameter / 2 <= reach:
        message = "the bore takes the whole hub away"
        yield say.sized(
            "hub-gone",
            "refused",
            message,
            "hub.diameter",
            part.hub.diameter,
            2 * reach,
            2.2 * reach,
        )
    if part.hub.diameter / 2 >= root:
        message = "the hub stands in the cutter's way, unless it is fitted after the teeth are cut"
        yield say.sized(
            "hub-in-the-way",
            "caution",
            message,
            "hub.diameter",
            part.hub.diameter,
            2 * root,
            1.95 * root,
            "at most",
        )
    for number, ring in enumerate(part.holes, start=1):
        if abs(ring.circle_diameter - part.hub.diameter) < ring.diameter:
            where = f"holes[{number}].circle_diameter"
            advice = _beside_hub(say, where, ring, part.hub.diameter, reach, root - least)
            text = f"the holes run into the side of the hub: {advice}"
            found = ring.circle_diameter, part.hub.diameter
            yield Finding("hole-at-hub", "caution", text, where, *found)


def _beside_hub(say: Say, where: str, ring: Holes, hub: float, reach: float, most: float) -> str:
    """Where a circle of holes would clear the hub: outside it, inside it, or nowhere.

    Args:
        say: how the part writes lengths.
        where: the key of the circle's diameter.
        ring: the holes.
        hub: its diameter, mm.
        reach: radius of the bore's farthest place, mm.
        most: greatest radius that leaves the least web under the root, mm.
    """
    outside, inside = hub + 1.2 * ring.diameter, hub - 1.2 * ring.diameter
    if outside + ring.diameter < 2 * most:
        return f"make {where} at least {say.bound(outside, 'at least')}"
    if inside > 2 * reach + ring.diameter:
        return f"make {where} at most {say.bound(inside, 'at most')}"
    return "there is no room for them beside it, so change hub.diameter"
