"""DXF drawings of a cutter's edge: built at random, and good ones spoilt pair by pair."""

from __future__ import annotations

import math
import random
from itertools import pairwise

from profilegen.dxf.writing import Layer, Version, dxf_bytes
from profilegen.geometry.chain import chain
from tests.attack.texts import spoilt
from tests.dxf.drawings import Pairs, arc, entity, light, line, old, raw, ring

NUMBERS: tuple[object, ...] = (
    *("nan", "inf", "-inf", "1e400", "1e308", "-1e308", "1e20", "5e-324", "1e-9", "0", "-0.0"),
    *("", " ", "x", "1,5", "9" * 400, 1.0, -1.0, 0.5, 3.14159, 90.0, 360.0, 1e6, 999999.9, "1e5"),
)
CODES = (0, 5, 8, 10, 11, 20, 21, 30, 40, 42, 50, 51, 67, 70, 100, 101, 102, 210, 220, 230, 1001)
KINDS = (
    "SPLINE",
    "ELLIPSE",
    "INSERT",
    "TEXT",
    "VERTEX",
    "SEQEND",
    "SECTION",
    "EOF",
    "\x1b[1m",
    "XLINE",
)
SNIPPETS = (
    *(
        b"0\nLINE\n",
        b"0\nENDSEC\n",
        b"0\nEOF\n",
        b"0\nSECTION\n2\nENTITIES\n",
        b"70\n1\n",
        b"8\nEDGE\n",
    ),
    *(b"nan\n", b"1e308\n", b"-1e400\n", b"\n", b"\r", b"\0", b"\xff", b"999\n", b"10\n0\n20\n0\n"),
    *(b"40\n0\n", b"42\n1e9\n", b"210\n1\n", b"$INSUNITS", b"70\n99\n", b"AutoCAD Binary DXF"),
)


def drawing_of(rng: random.Random) -> bytes:
    """A drawing with a layer EDGE: one that may be read, one that is hostile, or a spoilt one."""
    match rng.randrange(4):
        case 0:
            return raw(*_runs(rng), unit=rng.choice((0, 1, 4, 4, 4, 5, 6, 8, 14, 99, -1)))
        case 1:
            return raw(*(_any_entity(rng) for _ in range(rng.randint(1, 12))))
        case 2:
            return spoilt(rng, _ours(rng), SNIPPETS)
        case _:
            return spoilt(rng, raw(*_runs(rng)), SNIPPETS)


def _edge(rng: random.Random) -> list[complex]:
    """Points of an edge open at the top, in order."""
    width, height, count = rng.uniform(0.5, 8), rng.uniform(0.5, 12), rng.randint(1, 12)
    right = [complex(width * k / count, height * (k / count) ** 1.3) for k in range(count, 0, -1)]
    return [*right, 0j, *(complex(-z.real, z.imag) for z in right[::-1])]


def _ours(rng: random.Random) -> bytes:
    """A drawing as this program writes one."""
    points = _edge(rng)
    edge = chain(points, [rng.choice((0.0, 0.1, -0.2)) for _ in points[1:]])
    version: Version = rng.choice(("R12", "R2000", "R2010"))
    return dxf_bytes((Layer("EDGE", (edge,)),), rng.choice(("mm", "in")), version)


def _runs(rng: random.Random) -> list[Pairs]:
    """An edge as a drawing program leaves it: one polyline, or loose runs that nearly meet."""
    points = _edge(rng)
    rows = [(z.real, z.imag, rng.choice((0.0, 0.0, 0.1, 1.0, -2.0, 1e-9))) for z in points]
    match rng.randrange(4):
        case 0:
            return [light(rows, rng.choice((0, 0, 0, 1, 128)))]
        case 1:
            return [old(rows, rng.choice((0, 0, 0, 1, 2, 8)))]
    near = rng.choice((0.0, 1e-7, 1e-4, 9e-4, 1e-3, 0.1))
    pieces = [_piece(rng, a, b, near) for a, b in pairwise(points)]
    rng.shuffle(pieces)
    return [*pieces, *(_any_entity(rng, "NOTES") for _ in range(rng.choice((0, 0, 3))))]


def _piece(rng: random.Random, start: complex, end: complex, near: float) -> Pairs:
    """One line, or a half turn, between two points, its ends off by up to `near` mm."""
    a, b = (z + complex(rng.uniform(-1, 1), rng.uniform(-1, 1)) * near for z in (start, end))
    a, b = (b, a) if rng.random() < 0.5 else (a, b)
    if rng.random() < 0.9:
        return line({10: a.real, 20: a.imag, 11: b.real, 21: b.imag})
    middle, turn = (a + b) / 2, math.degrees(math.atan2((a - b).imag, (a - b).real))
    place: dict[int, object] = {10: middle.real, 20: middle.imag}
    return arc({**place, 40: abs(a - b) / 2, 50: turn, 51: turn + 180})


def _any_entity(rng: random.Random, layer: str = "EDGE") -> Pairs:
    """An entity with hostile numbers, codes that are missing, doubled or of another."""
    values: dict[int, object] = {}
    for _ in range(rng.choice((0, 0, 1, 2))):
        values[rng.choice(CODES)] = rng.choice((*NUMBERS, None))
    rows = [tuple(rng.choice(NUMBERS) for _ in range(3)) for _ in range(rng.randint(0, 6))]
    found: list[Pairs] = [
        line(values, layer),
        arc(values, layer),
        ring(values, layer),
        light(rows, rng.choice(NUMBERS), layer),
        old(rows, rng.choice((0, 1, rng.choice(NUMBERS))), layer),
        entity(rng.choice(KINDS), dict(values), layer),
    ]
    pairs = list(rng.choice(found))
    if pairs and rng.random() < 0.2:
        del pairs[rng.randrange(len(pairs))]
    return pairs
