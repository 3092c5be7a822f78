"""What a part or drawer names in other files: a form cutter's wheel, a drawn cutter's edge.

Owns reading those files, relative to the file that names them, and the errors by key path. A part
file whose form cutter leads back to itself is an error. Refuses to know what is done with them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from profilegen.errors import InputError, Problem
from profilegen.part.base import CutterTable
from profilegen.part.cutters.drawn import DrawnCutter, Row
from profilegen.part.cutters.form import FormCutter
from profilegen.part.lines import printable
from profilegen.part.rewording import shown
from profilegen.units import Unit

if TYPE_CHECKING:
    from profilegen.geometry.chain import Chain, Curve

MOST_TOLD = 5
"""Problems of a named file that are told."""


def with_files(
    cutters: Sequence[CutterTable], path: Path | None, unit: Unit, seen: tuple[Path, ...] = ()
) -> tuple[CutterTable, ...]:
    """Return the cutters with what their files hold in place of the files' names.

    Args:
        cutters: of one part file or drawer, in its order.
        path: that file; files named in it are looked for beside it. None is the current folder.
        unit: of a drawing that names none.
        seen: the files whose form cutters led here.

    Raises:
        InputError: with everything wrong with the files, by key path.
    """
    folder = path.parent if path else Path()
    chain = (*seen, path.resolve()) if path else seen
    found: list[CutterTable] = []
    problems: list[Problem] = []
    for place, cutter in enumerate(cutters, 1):
        try:
            found.append(_with_file(cutter, f"cutter[{place}]", folder, unit, chain))
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(*problems)
    return tuple(found)


def _with_file(
    cutter: CutterTable, label: str, folder: Path, unit: Unit, seen: tuple[Path, ...]
) -> CutterTable:
    match cutter:
        case FormCutter(of=str() as name):
            return _with_wheel(cutter, name, f"{label}.of", folder / name, seen)
        case DrawnCutter(dxf=str() as name, layer=str() as layer):
            edge = _edge(folder / name, label, name, layer, unit)
            return _with_edge(cutter, edge, f"{label}.dxf")
        case _:
            return cutter


def _with_wheel(
    cutter: CutterTable, name: str, where: str, file: Path, seen: tuple[Path, ...]
) -> CutterTable:
    """Return a form cutter with the wheel of the part file that it names."""
    from profilegen.part.reading import load_within

    if file.resolve() in seen:
        through = " > ".join(printable(step.name) for step in (*seen, file.resolve()))
        text = "this form cutter leads back to the part file that names it"
        hint = f"{through}: write the wheel itself, of = {{ kind = ..., teeth = ... }}"
        raise InputError(Problem(where, text, shown(name), "another part file", hint))
    try:
        wheel = load_within(file, seen).wheel
    except InputError as error:
        raise InputError(*_from_below(error.problems, where)) from None
    return cutter.model_copy(update={"of": wheel})


def _from_below(problems: Iterable[Problem], where: str) -> Iterator[Problem]:
    for problem in list(problems)[:MOST_TOLD]:
        yield Problem(
            where,
            f"{problem.where}: {problem.message}",
            problem.got,
            problem.allowed,
            problem.hint,
            problem.excerpt,
        )


def _edge(file: Path, label: str, name: str, layer: str, unit: Unit) -> Chain:
    """Return the one open run of lines and arcs on a layer of a drawing, mm."""
    from profilegen.dxf.reading import DxfError, read_layers

    where = f"{label}.dxf"
    try:
        drawing = read_layers(_drawing(file, where, name), unit)
    except DxfError as error:
        raise InputError(Problem(where, str(error), shown(name))) from None
    try:
        return _only_run(drawing.curves_on(layer))
    except DxfError as error:
        known = ", ".join(shown(printable(found)) for found in drawing.layers)
        raise InputError(Problem(f"{label}.layer", str(error), shown(layer), known)) from None


def _drawing(file: Path, where: str, name: str) -> bytes:
    from profilegen.part.reading import bytes_of

    try:
        return bytes_of(file, LARGEST_DRAWING, "the drawing of an edge")
    except InputError as error:
        problem = error.problems[0]
        text = f"{problem.where}: {problem.message}"
        raise InputError(Problem(where, text, shown(name), hint=problem.hint)) from None


LARGEST_DRAWING = 20_000_000
"""Bytes. A larger drawing is not one of a cutter's edge."""


def _only_run(curves: tuple[Curve, ...]) -> Chain:
    """Return the one open run of a layer.

    Raises:
        DxfError: there are more, or it is closed.
    """
    from profilegen.dxf.reading import DxfError
    from profilegen.geometry.chain import Chain

    if len(curves) > 1:
        text = f"{len(curves)} separate curves stand on this layer: the edge is one run, alone"
        raise DxfError(text)
    run = curves[0]
    if not isinstance(run, Chain):
        raise DxfError("the curve on this layer is closed: a cutter's edge is open at the top")
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
