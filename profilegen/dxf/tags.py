"""The entities of a DXF drawing as they stand in the file, not yet understood.

Owns the grammar of the text: lines in pairs of a code and a value, the sections, the unit of the
header, the encoding. What an entity means is the business of `curves`. Reads only what it keeps,
once and in order, and stops at the limits below: time and memory grow with the file, no faster.
Source: the published DXF reference (group codes, header variables, `ENTITIES` section).
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

MOST_ENTITIES = 50_000
"""Lines, arcs and polylines of one drawing. A part or a cutter has hundreds."""

MOST_VERTICES = 200_000
"""Points of all its polylines."""

_TEXTS = ("ATTDEF", "ATTRIB", "MTEXT", "TEXT", "ACAD_TABLE")
_SIZES = ("ARC_DIMENSION", "DIMENSION", "LARGE_RADIAL_DIMENSION", "TOLERANCE")
_NOTES = ("LEADER", "MULTILEADER", "HATCH", "IMAGE", "POINT", "SEQEND", "VIEWPORT", "WIPEOUT")
PASSED_OVER = frozenset((*_TEXTS, *_SIZES, *_NOTES))
"""Entities that say something about curves and are none."""

_BINARY = b"AutoCAD Binary DXF"
_HEAD = 100_000
"""Bytes in which the version and the code page of a drawing are looked for."""

_OWN_DATA = 1000
"""Codes from here on, and what stands behind code 101, belong to programs, not to the curve."""


class DxfError(ValueError):
    """A drawing, or what stands on one of its layers, cannot be read."""


@dataclass(slots=True)
class Entity:
    """One entity as it stands in the file.

    Attributes:
        kind: its name, such as `LINE`.
        line: of that name in the file, from 1.
        handle: its name within the drawing, empty when there is none that can be printed.
        layer: its layer.
        on_paper: whether it stands on a sheet round the drawing, not in the drawing.
        pairs: (code, value) in order, without comments and what programs keep for themselves.
        vertices: of an old polyline.
    """

    kind: str
    line: int
    handle: str = ""
    layer: str = "0"
    on_paper: bool = False
    pairs: list[tuple[int, str]] = field(default_factory=list)
    vertices: list[Entity] = field(default_factory=list)

    def __str__(self) -> str:
        handle = f" (handle {self.handle})" if self.handle else ""
        return f"{self.kind} in line {self.line} of the drawing{handle}"


@dataclass(frozen=True, slots=True)
class Tagged:
    """A drawing taken apart: the code of its unit (`$INSUNITS`, 0 for none) and its entities."""

    unit: int
    entities: tuple[Entity, ...]


def tagged(data: bytes) -> Tagged:
    """Take a drawing apart.

    Args:
        data: the bytes of a DXF file in text form, of any version.

    Raises:
        DxfError: it is no such file, it is cut short, or it holds more than the limits.
    """
    if data.startswith(_BINARY):
        raise DxfError("this is a binary DXF: save it as a DXF in text form (ASCII)")
    found: list[Entity] = []
    unit = 0
    pairs = _pairs(data)
    for name in _sections(pairs):
        if name == "HEADER":
            unit = _unit(pairs)
        elif name == "ENTITIES":
            found = list(_entities(pairs))
            break
    return Tagged(unit, tuple(found))


Pair = tuple[int, int, str]
"""Line of the code from 1, code, value."""


def _pairs(data: bytes) -> Iterator[Pair]:
    """The pairs of the file without comments.

    Raises:
        DxfError: a line that should hold a code does not, or the last value is missing.
    """
    text = io.TextIOWrapper(io.BytesIO(data), _encoding(data[:_HEAD]), "replace", newline=None)
    lines = iter(text)
    line = 1
    for code_text in lines:
        try:
            code = int(code_text)
        except ValueError:
            raise DxfError(_no_code(line)) from None
        value = next(lines, None)
        if value is None:
            return
        if code != 999:
            yield line, code, value.strip("\r\n")
        line += 2


def _no_code(line: int) -> str:
    """What is told of a line that holds no code; of the first it shows that this is no DXF."""
    if line == 1:
        return "this is no DXF drawing"
    return f"this is no DXF drawing, or it is damaged: line {line} holds no group code"


def _encoding(head: bytes) -> str:
    """UTF-8 from version AC1021 (2007) on, the code page of the header before."""
    version = re.search(rb"\$ACADVER\s+1\s+AC(\d{4})", head)
    if head.startswith(b"\xef\xbb\xbf") or (version and int(version[1]) >= 1021):
        return "utf-8-sig"
    page = re.search(rb"\$DWGCODEPAGE\s+3\s+ANSI_(\d+)", head, re.IGNORECASE)
    known = {b"874", b"932", b"936", b"949", b"950", *(b"%d" % n for n in range(1250, 1259))}
    return f"cp{page[1].decode()}" if page and page[1] in known else "cp1252"


def _sections(pairs: Iterator[Pair]) -> Iterator[str]:
    """The name of each section, with the pairs standing behind it; what is not read is skipped.

    Raises:
        DxfError: the file ends before its entities do, or has none.
    """
    begun = False
    for _, code, value in pairs:
        word = value.strip()
        if begun and code == 2:
            yield word
        if code == 0 and word == "EOF":
            raise DxfError("there is nothing drawn in this drawing")
        begun = code == 0 and word == "SECTION"
    raise DxfError("this is no DXF drawing, or it is cut short: its end is missing")


def _unit(pairs: Iterator[Pair]) -> int:
    """The code of the unit in the header, which is read to its end; 0 when it says none."""
    unit, name = 0, ""
    for line, code, value in pairs:
        if code == 0:
            break
        if code == 9:
            name = value.strip()
        elif name == "$INSUNITS" and code == 70:
            unit = _whole(value, line)
    return unit


def _whole(value: str, line: int) -> int:
    try:
        return int(value)
    except ValueError:
        text = f"this drawing is damaged: line {line + 1} holds no whole number"
        raise DxfError(text) from None


def _entities(pairs: Iterator[Pair]) -> Iterator[Entity]:
    """Every entity that draws something, up to the end of the section.

    Raises:
        DxfError: the file ends before the section does, or there are too many.
    """
    current: Entity | None = None
    top: Entity | None = None
    count = vertices = 0
    for line, code, value in pairs:
        _refuse_too_many(count, vertices)
        if code:
            vertices += current is not None and _kept(current, code, value)
        else:
            kind = value.strip()
            current = Entity(_printed(kind), line + 1)
            if kind == "VERTEX" and top is not None and top.kind == "POLYLINE":
                top.vertices.append(current)
                vertices += 1
                continue
            if top is not None and top.kind not in PASSED_OVER and not top.on_paper:
                count += 1
                yield top
            if kind == "ENDSEC":
                return
            top = current
    raise DxfError("this drawing is cut short: the end of its entities is missing")


def _refuse_too_many(count: int, vertices: int) -> None:
    if count > MOST_ENTITIES or vertices > MOST_VERTICES:
        raise DxfError(
            f"this drawing has more than {MOST_ENTITIES} curves or {MOST_VERTICES} points: "
            "save the curves that are wanted as a drawing of their own"
        )


def _printed(kind: str) -> str:
    return kind if re.fullmatch(r"[A-Z0-9_]{1,30}", kind) else "an unknown entity"


def _kept(entity: Entity, code: int, value: str) -> bool:
    """Keep a pair with its entity; whether it begins a point of a light polyline."""
    if code >= _OWN_DATA or (entity.pairs and entity.pairs[-1][0] == 101):
        return False
    match code:
        case 5 if re.fullmatch(r"\s*[0-9A-Fa-f]{1,16}\s*", value):
            entity.handle = value.strip()
        case 8:
            entity.layer = _text(value)
        case 67:
            entity.on_paper = value.strip() == "1"
        case _ if entity.kind not in PASSED_OVER:
            entity.pairs.append((code, value))
    return code == 10 and entity.kind == "LWPOLYLINE"


def _text(value: str) -> str:
    """A text with its escaped signs (`\\U+00B0`) as they are; halves of a sign stay escaped."""
    sign = r"\\U\+((?![Dd][89A-Fa-f])[0-9A-Fa-f]{4})"
    return re.sub(sign, lambda found: chr(int(found[1], 16)), value.strip())
