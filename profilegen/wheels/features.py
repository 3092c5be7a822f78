"""Bore, hub and holes of any wheel, and what stands too near to what.

Owns the webs: bore to root, hole to root, hole to bore, hole to hole, hub against cutter. The least
web is common practice (half the thickness, or the tooth depth where that is less), no published source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

import numpy as np

from profilegen.errors import CannotMakeError, Finding
from profilegen.geometry.chain import Contour
from profilegen.geometry.measure import farthest, nearest
from profilegen.wheels import bores
from profilegen.wheels.say import Say
from profilegen.wheels.wheel import Fact, Quantity

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


@dataclass(frozen=True, slots=True)
class Features:
    """What stands inside the toothed rim.

    Attributes:
        bore: clockwise, or None.
        holes: clockwise.
        facts: of the bore, `kind` first and `web` last.
        findings: cautions on webs and hub.
    """

    bore: Contour | None
    holes: tuple[Contour, ...]
    facts: tuple[Fact, ...]
    findings: tuple[Finding, ...]


def features_of(part: Part, say: Say, radius: float, root: float) -> Features:
    """Bore, hub and holes of a part whose blank and root radii (mm) are known.

    Raises:
        CannotMakeError: a bore or hole breaks out, or its sizes contradict each other.
    """
    bore = bore_contour(part.bore)
    reach = 0.0 if bore is None else farthest(bore, 0j)[0]
    least = least_web(part.wheel.thickness, radius - root)
    holes = tuple(
        hole
        for ring in part.holes
        for hole in bores.hole_circle(ring.count, ring.circle_diameter, ring.diameter, ring.angle)
    )
    findings = (
        *_bore_findings(part, say, reach, root, least),
        *_hole_findings(part, say, bore, root, least),
        *_hub_findings(part, say, reach, root),
    )
    refused = [finding for finding in findings if finding.severity == "refused"]
    if refused:
        raise CannotMakeError(*refused)
    return Features(bore, holes, _bore_facts(part.bore, reach, root), findings)


def least_web(thickness: float, depth: float) -> float:
    """The least web that carries the teeth, mm."""
    return min(thickness / 2, depth)


def bore_contour(bore: BoreTable) -> Contour | None:
    """The bore's outline, clockwise; None for no bore.

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
                return bores.polygon_bore(sides, flats.across_flats, flats.corner_radius, bore.angle)
            case "keyed":
                key = cast("KeyedBore", bore)
                return bores.keyed_bore(key.diameter, key.key_width, key.key_depth, bore.angle)
            case "d-bore":
                flat = cast("DBore", bore)
                return bores.d_bore(flat.diameter, flat.flat_to_far_side, bore.angle)
    except bores.ImpossibleBore as fault:
        where = f"bore.{fault.key}"
        text = f"{fault}: make {where} less than {fault.limit:.4g} mm"
        value = float(getattr(bore, fault.key))
        raise CannotMakeError(
            Finding("bore-impossible", "refused", text, where, value, fault.limit)
        ) from fault
    return None


def _bore_facts(bore: BoreTable, reach: float, root: float) -> tuple[Fact, ...]:
    facts = [Fact("kind", bore.kind, "text", "Bore", "given")]
    for key, label in _LABELS.items():
        if hasattr(bore, key) and bore.kind != "none":
            quantity: Quantity = "angle" if key == "angle" else "length"
            facts.append(Fact(key, getattr(bore, key), quantity, label, "given"))
    if hasattr(bore, "across_flats"):
        facts.append(Fact("across_corners", 2 * reach, "length", "Across corners", "solved"))
    facts.append(Fact("web", root - reach, "length", "Web, bore to root", "solved"))
    return tuple(facts)


def _bore_findings(
    part: Part, say: Say, reach: float, root: float, least: float
) -> Iterator[Finding]:
    web = root - reach
    if reach == 0.0 or web >= least:
        return
    key = "across_flats" if hasattr(part.bore, "across_flats") else "diameter"
    passing = _bore_that_passes(part.bore, reach, root - least, key)
    if web <= 0:
        message = "the bore breaks out through the roots"
        yield say.sized(
            "bore-breaks-out", "refused", message, f"bore.{key}", web, 0.0, passing, "at most"
        )
    else:
        message = f"the web from bore to root is only {say.length(web)}"
        yield say.sized(
            "web-thin", "caution", message, f"bore.{key}", web, least, passing, "at most"
        )


def _bore_that_passes(bore: BoreTable, reach: float, room: float, key: str) -> float:
    """The bore's main size with which its corners stay within `room` mm of the axis."""
    now = float(getattr(bore, key))
    if bore.kind == "keyed":
        keyed = cast("KeyedBore", bore)
        inside = max(room**2 - keyed.key_width**2 / 4, 0.0)
        return max(2 * (math.sqrt(inside) - keyed.key_depth), 0.0)
    return now * room / reach


def _hole_findings(
    part: Part, say: Say, bore: Contour | None, root: float, least: float
) -> Iterator[Finding]:
    for number, ring in enumerate(part.holes, start=1):
        where = f"holes[{number}]"
        for name, web, key, passing in _hole_webs(ring, bore, root, least):
            if web >= least:
                continue
            gone = web <= 0
            code = "hole-breaks-out" if gone else "web-thin"
            severity = "refused" if gone else "caution"
            message = f"the web from hole to {name} is {'gone' if gone else 'only ' + say.length(web)}"
            than = "at least" if passing > getattr(ring, key) else "at most"
            limit = 0.0 if gone else least
            yield say.sized(
                code, severity, message, f"{where}.{key}", web, limit, passing, than
            )
    yield from _rings_that_meet(part)


def _hole_webs(
    ring: Holes, bore: Contour | None, root: float, least: float
) -> Iterator[tuple[str, float, str, float]]:
    """Name, web, key and passing value of each web of one circle of holes (mm)."""
    radius, half = ring.circle_diameter / 2, ring.diameter / 2
    yield "root", root - radius - half, "circle_diameter", 2 * (root - half - least)
    if ring.count > 1:
        chord = 2 * radius * math.sin(math.pi / ring.count)
        yield "hole", chord - ring.diameter, "diameter", max(chord - least, 0.0)
    if bore is not None:
        angles = ring.angle + math.tau * np.arange(ring.count) / ring.count
        gaps = [nearest(bore, complex(radius * np.exp(1j * at)))[0] - half for at in angles]
        reach = farthest(bore, 0j)[0]
        web = min(gaps) if radius > reach / 2 else radius - half - reach
        yield "bore", web, "circle_diameter", 2 * (reach + half + least)


def _rings_that_meet(part: Part) -> Iterator[Finding]:
    """Two circles of holes whose holes run into each other."""
    rings = [
        ring.circle_diameter / 2 * np.exp(1j * (ring.angle + math.tau * np.arange(ring.count) / ring.count))
        for ring in part.holes
    ]
    for late in range(len(rings)):
        for early in range(late):
            gap = float(np.min(np.abs(rings[late][:, None] - rings[early][None, :])))
            need = (part.holes[late].diameter + part.holes[early].diameter) / 2
            if gap <= need:
                where = f"holes[{late + 1}].circle_diameter"
                message = f"its holes run into those of holes[{early + 1}]: move {where} away"
                yield Finding("holes-meet", "refused", message, where, gap, need)


def _hub_findings(part: Part, say: Say, reach: float, root: float) -> Iterator[Finding]:
    if part.hub is None:
        return
    if part.hub.diameter / 2 <= reach:
        message = "the bore takes the whole hub away"
        yield say.sized(
            "hub-gone", "refused", message, "hub.diameter", part.hub.diameter, 2 * reach, 2.2 * reach
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
            message = "the holes run into the side of the hub"
            away = part.hub.diameter + 1.2 * ring.diameter
            yield say.sized(
                "hole-at-hub", "caution", message, where, ring.circle_diameter, away
            )
