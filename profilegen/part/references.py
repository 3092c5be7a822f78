"""What a part or drawer names in other files: wheels and edges of cutters, dividing hardware.

Reads those files, relative to the file that names them, each once, and tells errors by key path. Of
the part file that a form cutter names only the wheel is wanted, so nothing that it names is read.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar, cast

from profilegen.errors import InputError, Problem
from profilegen.part.base import CutterTable, WheelTable
from profilegen.part.checking import check_table
from profilegen.part.cutter_tables import MOST_ROWS, DrawnCutter, FormCutter, Row
from profilegen.part.lines import printable, with_lines
from profilegen.part.model_errors import shown
from profilegen.part.named_file import NamedFile
from profilegen.part.part import Part
from profilegen.part.reading import bytes_of, named
from profilegen.units import Unit

if TYPE_CHECKING:
    from profilegen.dxf.reading import Drawn
    from profilegen.geometry.chain import Chain, Curve

MOST_FILES = 200
"""Different files that the cutters of one part or drawer may name."""

MOST_STEPS = 8
"""Files that may name each other, one the next, on the way to the hardware."""

LARGEST_DRAWING = 20_000_000
"""Bytes. A larger drawing is not one of a cutter's edge."""

MOST_LAYERS = 12
"""Layers of a drawing that are named when the one that is asked for is not among them."""

_DIVIDING_HINT = "profilegen start dividing writes examples"
_WHEEL_HINT = "name a part file, or write the wheel itself: of = { kind = ..., teeth = ... }"

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class _Files:
    """The files that one part or drawer names.

    Attributes:
        folder: where they are looked for.
        unit: of a drawing that names none.
        found: what was read, and the file -> what it holds, or the key that told it is wrong.
        read: the files that hold something, in order.
    """

    folder: Path
    unit: Unit
    found: dict[tuple[str, str], object] = field(default_factory=dict)
    read: list[Path] = field(default_factory=list)

    def file(self, where: str, name: str) -> NamedFile:
        """Return the file of a name."""
        return NamedFile(where, name, self.folder / name, self.folder)

    def once(self, file: NamedFile, what: str, read: Callable[[NamedFile], T]) -> T:
        """Return what a file holds, read now or before.

        Raises:
            InputError: it is wrong, or one too many.
        """
        place = (what, os.path.realpath(file.path))
        known = self.found.get(place)
        if isinstance(known, str):
            text = f"{named(file.path)} is wrong: see {known}, which names the same file"
            raise InputError(Problem(file.where, text))
        if known is not None:
            return cast(T, known)
        if len(self.found) >= MOST_FILES:
            text = "too many files are named"
            allowed = f"up to {MOST_FILES} different ones"
            hint = "put the cutters that this wheel needs into a drawer of their own"
            raise InputError(Problem(file.where, text, shown(file.name), allowed, hint))
        self.found[place] = file.where
        self.found[place] = fresh = read(file)
        self.read.append(file.path)
        return fresh


def with_files(
    cutters: Sequence[CutterTable], path: Path | None, unit: Unit
) -> tuple[tuple[CutterTable, ...], tuple[Path, ...]]:
    """Return the cutters with what their files hold in place of the files' names, and the files.

    Args:
        cutters: of one part file or drawer, in its order.
        path: that file; files named in it are looked for beside it. None is the current folder.
        unit: of a drawing that names none.

    Raises:
        InputError: with everything wrong with the files, by key path.
    """
    files = _Files(path.parent if path else Path(), unit)
    found: list[CutterTable] = []
    problems: list[Problem] = []
    for place, cutter in enumerate(cutters, 1):
        try:
            found.append(_with_file(cutter, f"cutter[{place}]", files))
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(*problems)
    return tuple(found), tuple(files.read)


def _with_file(cutter: CutterTable, label: str, files: _Files) -> CutterTable:
    match cutter:
        case FormCutter(of=str() as name):
            wheel = files.once(files.file(f"{label}.of", name), "wheel", _wheel)
            return cutter.model_copy(update={"of": wheel})
        case DrawnCutter(dxf=str() as name, layer=str() as layer):
            file = files.file(f"{label}.dxf", name)
            drawing = files.once(file, "drawing", lambda file: _drawing(file, files.unit))
            return _with_edge(cutter, _edge(drawing, f"{label}.layer", layer), f"{label}.dxf")
        case _:
            return cutter


def _wheel(file: NamedFile) -> WheelTable:
    """Return the wheel of a part file; all of it must be right, but for the files that it names.

    Raises:
        InputError: it cannot be read, or with what is wrong in it.
    """
    text = file.text()
    tables = file.tables(text, "wheel", _WHEEL_HINT)
    if isinstance(tables.get("dividing"), str):
        del tables["dividing"]
    try:
        return Part.from_dict(tables, file.path).wheel
    except InputError as error:
        raise file.error(with_lines(error.problems, text)) from None


def dividing_of(name: str, path: Path | None) -> tuple[object, tuple[Path, ...]]:
    """Return the table `[dividing]` of a file that a part names, or of one that this names in turn,
    and the files on the way.

    Args:
        name: as it stands in the part.
        path: the part's file; each name is looked for beside the file that holds it.

    Raises:
        InputError: at the key `dividing`: a file cannot be read, or holds no such table or a wrong
            one, or the files lead in a ring or too far.
    """
    tree = path.parent if path else Path()
    folder, passed = tree, list[Path]()
    for _ in range(MOST_STEPS):
        file = NamedFile("dividing", name, folder / name, tree)
        text = file.text()
        before = [path, *passed] if path else passed
        if os.path.realpath(file.path) in map(os.path.realpath, before):
            ring = ", ".join(map(named, (*before, file.path)))
            hint = "let the last of them hold a table [dividing]"
            text = f"the files name each other in a ring: {ring}"
            raise InputError(Problem("dividing", text, hint=hint))
        found = file.tables(text, "dividing", _DIVIDING_HINT)["dividing"]
        passed.append(file.path)
        if not isinstance(found, str):
            return _checked(found, file, text), tuple(passed)
        folder, name = file.path.parent, found
    text = f"{MOST_STEPS} files name each other, and none of them holds the hardware"
    hint = "name the file that has a table [dividing]"
    raise InputError(Problem("dividing", text, shown(name), hint=hint))


def _checked(table: object, file: NamedFile, text: str) -> object:
    """Return a table of hardware that is right.

    Raises:
        InputError: at the key that names its file, with its lines there.
    """
    problems = with_lines(check_table("dividing", "dividing", table, "mm").problems, text)
    if problems:
        raise file.error(problems)
    return table


def _drawing(file: NamedFile, unit: Unit) -> Drawn:
    """Return what is drawn in a file, by layer.

    Raises:
        InputError: it cannot be read.
    """
    from profilegen.dxf.reading import DxfError, read_layers

    try:
        data = bytes_of(file.path, LARGEST_DRAWING, "the drawing of an edge")
        return read_layers(data, unit)
    except InputError as error:
        raise file.error(error.problems) from None
    except DxfError as error:
        raise InputError(Problem(file.where, printable(str(error)), shown(file.name))) from None


def _edge(drawing: Drawn, where: str, layer: str) -> Chain:
    """Return the one open run of lines and arcs on a layer of a drawing, mm.

    Raises:
        InputError: at the key that names the layer.
    """
    from profilegen.dxf.reading import DxfError

    try:
        return _only_run(drawing.curves_on(layer))
    except DxfError as error:
        known = ", ".join(shown(found) for found in list(drawing.layers)[:MOST_LAYERS])
        raise InputError(Problem(where, str(error), shown(layer), known)) from None


def _only_run(curves: tuple[Curve, ...]) -> Chain:
    """Return the one open run of a layer.

    Raises:
        DxfError: there are more, it is closed, or it has more points than one may have.
    """
    from profilegen.dxf.reading import DxfError
    from profilegen.geometry.chain import Chain

    if len(curves) > 1:
        text = f"{len(curves)} separate curves stand on this layer: the edge is one run, alone"
        raise DxfError(text)
    run = curves[0]
    if not isinstance(run, Chain):
        raise DxfError("the curve on this layer is closed: a cutter's edge is open at the top")
    if len(run.points) > MOST_ROWS:
        text = f"the edge on this layer has {len(run.points)} points, up to {MOST_ROWS} can be read"
        raise DxfError(f"{text}: draw it with arcs, or with fewer lines")
    return run


def _with_edge(cutter: CutterTable, edge: Chain, where: str) -> CutterTable:
    """Return a drawn cutter with its points, after the check that every drawn edge passes."""
    points, bulges = edge.points.tolist(), [*edge.bulges.tolist(), 0.0]
    rows: tuple[Row, ...] = tuple((z.real, z.imag, b) for z, b in zip(points, bulges, strict=True))
    drawn = cutter.model_copy(update={"points": rows})
    problems = [Problem(where, rule.message, hint=rule.hint) for rule in drawn.value_rules()]
    if problems:
        raise InputError(*problems)
    return drawn
