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

from profilegen.figures import Quantity
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding, Make, Phrase, Remedy, Than, bounded, mm, refused
from profilegen.forms import bore as bores
from profilegen.forms.wheel import Size
from profilegen.geometry.chain import Contour, Points
from profilegen.geometry.measure import contains, farthest, nearest_each
from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.part.base import BoreTable
    from profilegen.part.bore_tables import DBore, HexagonBore, KeyedBore, RoundBore, SquareBore
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


Advice: TypeAlias = tuple[Make | Phrase, Remedy | None]
"""What to do, and the value that does it where one is known."""


def features_of(part: Part, radius: float, root: float) -> Features:
    """Bore, hub and holes of a part whose blank and root radii (mm) are known.

    Raises:
        CannotMakeError: a bore or hole breaks out, or its sizes contradict each other.
    """
    bore = bore_contour(part.bore)
    reach = 0.0 if bore is None else farthest(bore, 0j)[0]
    depth = radius - root
    edge = "root" if depth > SAME_POINT else "rim"
    least = least_web(part.wheel.thickness, depth if depth > SAME_POINT else math.inf)
    holes = tuple(
        hole
        for ring in part.holes
        for hole in bores.hole_circle(ring.count, ring.circle_diameter, ring.diameter, ring.angle)
    )
    findings = (
        *_bore_findings(part, reach, radius, root, least),
        *_hole_findings(part, bore, root, least, edge),
        *_hub_findings(part, reach, root, least),
    )
    if refused(findings):
        raise CannotMakeError(*refused(findings))
    return Features(bore, holes, _bore_sizes(part.bore, reach, root, edge), findings)


def least_web(thickness: float, depth: float) -> float:
    """The least web that carries the teeth, mm: between root and bore or hole.

    Args:
        thickness: of the wheel, mm; half of it is enough.
        depth: of the teeth, mm; as much is enough. Infinite without teeth.
    """
    return min(thickness / 2, depth)


def bore_contour(bore: BoreTable) -> Contour | None:
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
        raise CannotMakeError(_impossible(bore, fault)) from fault
    return None


def _impossible(bore: BoreTable, fault: bores.ImpossibleBore) -> Finding:
    """The refusal of a bore whose sizes contradict each other."""
    where, value = f"bore.{fault.key}", float(getattr(bore, fault.key))
    make = Make(where, "less than", mm(fault.limit, "less than"))
    if value < fault.limit:
        make = Make(where, "at least", mm(fault.limit / 2, "at least"))
    return Finding(
        "bore-impossible",
        "refused",
        where,
        value,
        fault.limit,
        Remedy(where, mm(0.75 * fault.limit, "at most")),
        case=fault.key,
        advice=make,
    )


def _bore_sizes(bore: BoreTable, reach: float, root: float, edge: str) -> tuple[Size, ...]:
    sizes = [Size("kind", bore.kind, "text", "Bore", "given")]
    for key, label in _LABELS.items():
        if hasattr(bore, key) and bore.kind != "none":
            quantity: Quantity = "angle" if key == "angle" else "length"
            if key == "angle" and edge == "rim":
                label = "Angle from +x"
            sizes.append(Size(key, getattr(bore, key), quantity, label, "given"))
    if hasattr(bore, "across_flats"):
        sizes.append(Size("across_corners", 2 * reach, "length", "Across corners", "solved"))
    if bore.kind != "none":
        sizes.append(Size("web", root - reach, "length", f"Web, bore to {edge}", "solved"))
    return tuple(sizes)


def _bore_findings(
    part: Part, reach: float, radius: float, root: float, least: float
) -> Iterator[Finding]:
    """Whether a bore that reaches so far leaves a web under the roots.

    Args:
        part: with its bore.
        reach: radius of the bore's farthest place, mm.
        radius: of the blank, mm; roots far down in it are the teeth's fault, not the bore's.
        root: radius of the deepest root, mm.
        least: the least web, mm.
    """
    web = root - reach
    if reach == 0.0 or web >= least - SAME_POINT:
        return
    where, (advice, remedy) = _smaller_bore(part.bore, reach, root, least)
    if web > 0:
        yield Finding(
            "web-thin",
            "caution",
            where,
            web,
            least,
            remedy,
            {"web": mm(web), "name": "root" if root < radius - SAME_POINT else "rim"},
            case="bore",
            advice=advice,
        )
    elif root < SHALLOW * radius:
        facts = {"across": mm(2 * root)}
        yield Finding("bore-breaks-out", "refused", "wheel", web, 0.0, facts=facts, case="teeth")
    else:
        case = "" if root < radius - SAME_POINT else "rim"
        yield Finding(
            "bore-breaks-out", "refused", where, web, 0.0, remedy, case=case, advice=advice
        )


def _smaller_bore(bore: BoreTable, reach: float, root: float, least: float) -> tuple[str, Advice]:
    """The key of a bore to make smaller, and what to make it: a bore that leaves the least web, or
    reaches half as far as the roots where there is no room for that."""
    key = "across_flats" if hasattr(bore, "across_flats") else "diameter"
    where = f"bore.{key}"
    passing = _bore_that_passes(bore, reach, max(root - least, root / 2), key)
    if passing <= max(getattr(bore, "key_width", 0.0), 2 * getattr(bore, "corner_radius", 0.0)):
        rest = "bore.key_width and bore.key_depth" if bore.kind == "keyed" else "bore.corner_radius"
        return where, (Phrase("smaller-with", {"key": where, "rest": rest}), None)
    return where, _make(where, "at most", passing)


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
    part: Part, bore: Contour | None, root: float, least: float, edge: str
) -> Iterator[Finding]:
    for number, ring in enumerate(part.holes, start=1):
        for web in _hole_webs(f"holes[{number}]", ring, bore, root, least, edge):
            if web.size < least - SAME_POINT:
                yield _hole_finding(web, least)
    yield from _rings_that_meet(part)


def _hole_finding(web: _Web, least: float) -> Finding:
    """The finding of a web that is gone, or thinner than the least (mm)."""
    (advice, remedy), name = web.advice, web.name
    if web.size <= 0:
        return Finding(
            "hole-breaks-out",
            "refused",
            web.where,
            web.size,
            0.0,
            remedy,
            {"name": name},
            advice=advice,
        )
    return Finding(
        "web-thin",
        "caution",
        web.where,
        web.size,
        least,
        remedy,
        {"web": mm(web.size), "name": name},
        case="hole",
        advice=advice,
    )


@dataclass(frozen=True, slots=True)
class _Web:
    """What is left between a hole and its neighbour.

    Attributes:
        name: of the neighbour.
        size: mm; negative where they cut into each other.
        where: the key to change.
        advice: what to do with it.
    """

    name: str
    size: float
    where: str
    advice: Advice


def _hole_webs(
    table: str, ring: Holes, bore: Contour | None, root: float, least: float, edge: str
) -> Iterator[_Web]:
    """Each web of one circle of holes, its table given as a key path; `edge` names what lies at the
    root radius."""
    radius, half = ring.circle_diameter / 2, ring.diameter / 2
    reach = 0.0 if bore is None else farthest(bore, 0j)[0] + least
    inner, outer = reach + half, root - least - half
    key, room = "circle_diameter", root - least - reach
    if bore is not None and inner > outer:
        key = "diameter"
    if outer <= 0:
        key = "diameter"
    where = f"{table}.{key}"
    smaller = _make(where, "at most", room)
    if room <= 0:
        smaller = Phrase("no-room", {"key": where}), None
    out, back = _make(where, "at least", 2 * inner), _make(where, "at most", 2 * outer)
    yield _Web(edge, root - radius - half, where, smaller if key == "diameter" else back)
    if ring.count > 1:
        yield _web_between(table, ring, least)
    if bore is not None:
        centres = _centres(ring)
        sides = np.where(contains(bore, centres), -1.0, 1.0)
        web = float(np.min(sides * nearest_each(bore, centres)[0])) - half
        yield _Web("bore", web, where, smaller if key == "diameter" else out)


def _make(where: str, than: Than, size: float) -> Advice:
    """To make a size (mm) at least or at most so big."""
    make = Make(where, than, mm(size, than))
    return make, make.remedy


def _web_between(table: str, ring: Holes, least: float) -> _Web:
    """The web between neighbours of one circle: smaller holes mend it, or else fewer."""
    chord = ring.circle_diameter * math.sin(math.pi / ring.count)
    if chord > 1.5 * least:
        where = f"{table}.diameter"
        advice = _make(where, "at most", chord - least)
        return _Web("hole", chord - ring.diameter, where, advice)
    share = min((ring.diameter + least) / ring.circle_diameter, 1.0)
    fewer = max(math.floor(math.pi / math.asin(share)), 1) if share < 1 else 1
    make = Make(f"{table}.count", "at most", fewer)
    return _Web("hole", chord - ring.diameter, make.key, (make, make.remedy))


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
                where, other = f"holes[{late + 1}].circle_diameter", f"holes[{early + 1}]"
                yield Finding(
                    "holes-meet",
                    "refused",
                    where,
                    gap,
                    need,
                    facts={"other": other},
                    advice=Phrase("move-away", {"key": where}),
                )


def _hub_findings(part: Part, reach: float, root: float, least: float) -> Iterator[Finding]:
    if part.hub is None:
        return
    where, hub = "hub.diameter", part.hub.diameter
    if hub / 2 <= reach:
        make = Make(where, "at least", mm(2.2 * reach, "at least"))
        yield bounded("hub-gone", "refused", make, hub, 2 * reach)
    if hub / 2 >= root:
        make = Make(where, "at most", mm(1.95 * root, "at most"))
        yield bounded("hub-in-the-way", "caution", make, hub, 2 * root)
    for number, ring in enumerate(part.holes, start=1):
        if abs(ring.circle_diameter - hub) < ring.diameter:
            where = f"holes[{number}].circle_diameter"
            advice = _beside_hub(where, ring, hub, reach, root - least)
            yield Finding("hole-at-hub", "caution", where, ring.circle_diameter, hub, advice=advice)


def _beside_hub(where: str, ring: Holes, hub: float, reach: float, most: float) -> Make | Phrase:
    """Where a circle of holes would clear the hub: outside it, inside it, or nowhere.

    Args:
        where: the key of the circle's diameter.
        ring: the holes.
        hub: its diameter, mm.
        reach: radius of the bore's farthest place, mm.
        most: greatest radius that leaves the least web under the root, mm.
    """
    outside, inside = hub + 1.2 * ring.diameter, hub - 1.2 * ring.diameter
    if outside + ring.diameter < 2 * most:
        return _make(where, "at least", outside)[0]
    if inside > 2 * reach + ring.diameter:
        return _make(where, "at most", inside)[0]
    return Phrase("no-room-by-hub")
