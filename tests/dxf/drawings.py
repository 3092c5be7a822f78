"""DXF texts written by hand, pair by pair, so that anything can be put into them."""

from __future__ import annotations

from collections.abc import Iterable

Pairs = Iterable[tuple[int, object]]


def raw(*entities: Pairs, unit: int = 4) -> bytes:
    """A drawing of entities, each a run of (code, value)."""
    header = [(0, "SECTION"), (2, "HEADER"), (9, "$INSUNITS"), (70, unit), (0, "ENDSEC")]
    begin, end = [(0, "SECTION"), (2, "ENTITIES")], [(0, "ENDSEC"), (0, "EOF")]
    pairs = [*header, *begin, *(pair for entity in entities for pair in entity), *end]
    return "".join(f"{code}\n{value}\n" for code, value in pairs).encode()


def entity(kind: str, values: dict[int, object], layer: str = "EDGE", handle: str = "2F") -> Pairs:
    """One entity by its values."""
    return [(0, kind), (5, handle), (8, layer), *values.items()]


def line(values: dict[int, object] | None = None, layer: str = "EDGE") -> Pairs:
    """A line from 0, 0 to 10, 0 with other values; None leaves one out."""
    return entity("LINE", _with({10: 0.0, 20: 0.0, 11: 10.0, 21: 0.0}, values), layer)


def arc(values: dict[int, object] | None = None, layer: str = "EDGE") -> Pairs:
    """A quarter arc of radius 2 about the origin with other values."""
    usual: dict[int, object] = {10: 0.0, 20: 0.0, 40: 2.0, 50: 0.0, 51: 90.0}
    return entity("ARC", _with(usual, values), layer)


def ring(values: dict[int, object] | None = None, layer: str = "EDGE") -> Pairs:
    """A circle of radius 2 about the origin with other values."""
    return entity("CIRCLE", _with({10: 0.0, 20: 0.0, 40: 2.0}, values), layer)


def light(rows: Iterable[tuple[object, ...]], flags: object = 0, layer: str = "EDGE") -> Pairs:
    """A light polyline of rows x, y and perhaps bulge."""
    points = [pair for row in rows for pair in zip((10, 20, 42), row, strict=False)]
    return [(0, "LWPOLYLINE"), (5, "2F"), (8, layer), (70, flags), *points]


def old(rows: Iterable[tuple[object, ...]], flags: object = 0, layer: str = "EDGE") -> Pairs:
    """A polyline whose points are entities of their own."""
    points = [
        pair
        for row in rows
        for pair in ((0, "VERTEX"), (8, layer), *zip((10, 20, 42), row, strict=False))
    ]
    return [(0, "POLYLINE"), (5, "2F"), (8, layer), (66, 1), (70, flags), *points, (0, "SEQEND")]


def _with(usual: dict[int, object], values: dict[int, object] | None) -> dict[int, object]:
    return {code: value for code, value in {**usual, **(values or {})}.items() if value is not None}
