"""A drawer: a file of cutters, and which one a part's cutters are taken from.

Owns reading a drawer, with every problem at once, and the order in which cutters are looked for.
Refuses to choose a cutter.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from profilegen.errors import InputError, Problem
from profilegen.part.base import CutterTable
from profilegen.part.checking import check_model, check_table
from profilegen.part.kinds import is_table
from profilegen.part.lines import at_lines, printable
from profilegen.part.model_errors import shown_key
from profilegen.part.named_file import NamedFile
from profilegen.part.part import BESIDE
from profilegen.part.reading import named, parsed, placed, text_of
from profilegen.part.references import with_files
from profilegen.part.shipped import drawer_path
from profilegen.part.tables import DrawerHead
from profilegen.units import Unit

if TYPE_CHECKING:
    from profilegen.part.part import Part

MOST_CUTTERS = 500
"""Cutters in one drawer."""

_HINT = "profilegen start drawer writes a drawer to begin with"


@dataclass(frozen=True, slots=True)
class Drawer:
    """The cutters that are tried on a part.

    Attributes:
        name: where they come from, in words that can be printed: a file's name as the part has it,
            so that nothing written depends on the folder, or as it is asked for; `the part's own
            cutters`, `the shipped metric drawer` or `the shipped inch drawer`.
        cutters: in the order of the file, no two of one name.
        path: the drawer's file; None for the part's own cutters.
        files: that file and those that its cutters name.
    """

    name: str
    cutters: tuple[CutterTable, ...]
    path: Path | None = None
    files: tuple[Path, ...] = ()


def choose_drawer(part: Part, option: str | Path | None = None) -> Drawer:
    """Return the first of these that there is: the drawer that is asked for; the part's own
    cutters; the one that the part names as `drawer` (from the part's folder); `drawer.toml` beside
    the part; the shipped drawer of the part's unit.

    Args:
        part: its unit, mm or in, chooses among the shipped ones.
        option: a file, from the current folder, that goes before all others; or None.

    Raises:
        InputError: the drawer cannot be read, or with every problem found in it.
    """
    if option is not None:
        path = Path(option)
        return _loaded(named(path), path)
    if part.cutters:
        return Drawer("the part's own cutters", part.cutters)
    folder = part.path.parent if part.path else Path()
    if part.drawer:
        return _named_by(part, NamedFile("drawer", part.drawer, folder / part.drawer, folder))
    if (folder / BESIDE).is_file():
        return _named_by(part, NamedFile(BESIDE, BESIDE, folder / BESIDE, folder))
    path = drawer_path(part.units)
    return _loaded(f"the shipped {path.stem} drawer", path)


def has_drawer(part: Part) -> bool:
    """Whether the part names a drawer, or one lies beside its file."""
    return bool(part.drawer) or (part.path is not None and (part.path.parent / BESIDE).is_file())


def is_of_part(drawer: Drawer, part: Part) -> bool:
    """Whether it is from a drawer that the part's cutter is set up: its own cutters, else the
    drawer that it names or that lies beside it, if the cutter that it asks for is there."""
    if part.setup.cutter not in (None, *(cutter.name for cutter in drawer.cutters)):
        return False
    if part.cutters or drawer.path is None:
        return bool(part.cutters) and drawer.path is None
    folder = part.path.parent if part.path else Path()
    known = folder / (part.drawer or BESIDE)
    return has_drawer(part) and known.is_file() and known.samefile(drawer.path)


def with_drawer(part: Part) -> tuple[Part, Drawer]:
    """Return the part with the cutters of the drawer that `choose_drawer` finds, and the drawer.

    Raises:
        InputError: as `choose_drawer`, or the set-up names a cutter that is not in it.
    """
    drawer = choose_drawer(part)
    names = [cutter.name for cutter in drawer.cutters]
    wanted = part.setup.cutter
    if wanted is not None and wanted not in names:
        from profilegen.part import refusals

        (problem,) = refusals.unknown_cutter(wanted, names)
        text = f"{drawer.name}: {problem.message}"
        raise InputError(replace(problem, message=text))
    files = (*part.files, *drawer.files)
    return replace(part, cutters=drawer.cutters, cutters_from=drawer.name, files=files), drawer


def _named_by(part: Part, file: NamedFile) -> Drawer:
    """Return the drawer that a part names; what keeps it from being read is told by that key."""
    try:
        text = file.text("a drawer")
        tables = file.tables(text, "cutter", _HINT)
    except InputError as error:
        raise InputError(*at_lines(error.problems, part.lines)) from None
    cutters, files = _cutters_in(tables, text, file.path)
    return Drawer(printable(file.name), cutters, file.path, files)


def load_drawer(path: str | Path) -> tuple[CutterTable, ...]:
    """Return the cutters in a drawer, in the order of the file, sizes in mm and angles in radians.

    Args:
        path: drawings and wheels that its cutters name are looked for beside it.

    Raises:
        InputError: the file cannot be read, or with every problem found in it.
    """
    return _loaded("", Path(path)).cutters


def _loaded(name: str, path: Path) -> Drawer:
    """Return a drawer under a name; raises InputError as `load_drawer`."""
    text = text_of(path, "a drawer")
    cutters, files = _cutters_in(parsed(text, named(path), _HINT), text, path)
    return Drawer(name, cutters, path, files)


def _cutters_in(
    tables: Mapping[str, Any], text: str, path: Path
) -> tuple[tuple[CutterTable, ...], tuple[Path, ...]]:
    """Return the cutters in the tables of a drawer, and its files.

    Raises:
        InputError: with every problem found, by file, key path and line.
    """
    try:
        cutters, unit = _checked(tables)
        cutters, files = with_files(cutters, path, unit)
    except InputError as error:
        problems = placed(error.problems, text)
        raise InputError(*(_within(path, problem) for problem in problems)) from None
    return cutters, (path, *files)


def _within(file: Path, problem: Problem) -> Problem:
    """Return a problem with the drawer's name in front of its key path."""
    return replace(problem, where=f"{named(file)}: {problem.where}")


def _checked(mapping: Mapping[str, Any]) -> tuple[tuple[CutterTable, ...], Unit]:
    """Return the cutters and the unit of a drawer.

    Raises:
        InputError: with everything that is wrong.
    """
    unit: Unit = "in" if mapping.get("units") == "in" else "mm"
    head = {str(key): value for key, value in mapping.items() if _is_of_head(key, value)}
    problems = [*check_model(DrawerHead, "", "", head, unit).problems, *_no_drawer(mapping)]
    raw = mapping.get("cutter")
    tables = raw[:MOST_CUTTERS] if isinstance(raw, list) else []
    checked = [check_table("cutter", f"cutter[{n}]", t, unit) for n, t in enumerate(tables, 1)]
    problems += [problem for item in checked for problem in item.problems]
    problems += _same_names(tables)
    if problems:
        raise InputError(*problems)
    return tuple(cast(CutterTable, item.table) for item in checked), unit


def _is_of_head(key: str, value: object) -> bool:
    return key in DrawerHead.model_fields or (key != "cutter" and not is_table(value))


def _no_drawer(mapping: Mapping[str, Any]) -> Iterator[Problem]:
    """Yield what keeps the tables of a file from being those of a drawer."""
    for key, value in mapping.items():
        if key != "cutter" and key not in DrawerHead.model_fields and is_table(value):
            hint = "this is a part file" if key == "wheel" else ""
            text = f"a drawer has no table {shown_key(key)}"
            yield Problem(shown_key(key), text, allowed="[[cutter]]", hint=hint)
    raw = mapping.get("cutter")
    if not raw:
        yield Problem("cutter", "there is no cutter in this drawer", "", "[[cutter]]", _HINT)
    elif not isinstance(raw, list):
        text = "a drawer holds many cutters, so each takes double brackets"
        yield Problem("cutter", text, hint="write [[cutter]]")
    elif len(raw) > MOST_CUTTERS:
        text = f"[[cutter]] stands {len(raw)} times"
        yield Problem("cutter", text, allowed=f"up to {MOST_CUTTERS} of them")


def _same_names(tables: list[Any]) -> Iterator[Problem]:
    names = [table.get("name") if isinstance(table, Mapping) else None for table in tables]
    given = [name.strip(" ") if isinstance(name, str) else "" for name in names]
    if len(set(filter(None, given))) < len(list(filter(None, given))):
        from profilegen.part import refusals

        yield from refusals.same_names(given)
