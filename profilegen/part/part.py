"""`Part`: one validated part file, and the rules between its tables.

Owns: gathering the tables, every problem at once, names that tables use of each other.
Refuses: files and text (`reading`), and whether the wheel can be made (`wheels`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from profilegen.errors import InputError, Problem
from profilegen.figures import Figures
from profilegen.part import kinds
from profilegen.part.base import BoreTable, CutterTable, Table, WheelTable
from profilegen.part.checking import Checked, check_table
from profilegen.part.kinds import is_table
from profilegen.part.tables import Blank, Head, Holes, Hub, Setup
from profilegen.units import DecimalMark, Unit

if TYPE_CHECKING:
    from profilegen.part.dials import Dial
    from profilegen.part.dividing_tables import DividingTable
    from profilegen.part.measuring import Gauge, Tolerance

BESIDE = "drawer.toml"
"""The drawer that is found without being named: beside the part file."""

THIS_WHEEL = "this wheel"
"""What a form cutter's `of` says in place of a file when it has the space of the part's wheel."""

MOST_TABLES = 100
"""Cutters, or circles of holes, in one file."""


def stem_of(path: Path) -> str:
    """Return the name of a part file without its endings: `wheel` of wheel.toml.txt too, as an
    editor may have saved it."""
    stem = path.stem
    while stem.lower().endswith(".toml"):
        stem = stem[: -len(".toml")]
    return stem


@dataclass(frozen=True, slots=True)
class Part:
    """One part, lengths in mm and angles in radians.

    Attributes:
        title: what the part is; the file's name, or `untitled`, when the file has no title.
        number: drawing number, or empty.
        units: the unit of bare lengths and of everything printed.
        material: what the wheel is made of, or empty.
        decimal: the decimal mark in print.
        wheel: the wheel's keys, by kind.
        bore: the bore's keys, by kind; `kind` is `none` without a bore.
        hub: the hub, or None.
        holes: circles of holes, in the order of the file.
        cutters: the cutters, in the order of the file, no two of one name.
        setup: how the wheel stands on the machine, defaults where nothing was given.
        path: the file read, or None.
        blank: the blank as it really is, defaults where nothing was given.
        dials: how the dial of an axis (`x`, `y`, `z`) reads, for those given.
        dividing: what turns the work through equal shares, or None.
        gauge: over what the teeth are measured, or None.
        tolerance: how far each feature may stand off its nominal size, or None.
        drawer: the file of cutters that the part names, as it names it, or empty.
        lines: the line of each table and key in the file, by key path; empty without a text.
        files: what was read besides the part's own file: the drawer, hardware, wheels and edges of
            cutters that it names, and what these name in turn.
        cutters_from: the name of the drawer that the cutters are from; empty when they are its own.
        typed_in: the unit of bare lengths in the file, where it is printed in another; else None.
    """

    title: str
    number: str
    units: Unit
    material: str
    decimal: DecimalMark
    wheel: WheelTable
    bore: BoreTable
    hub: Hub | None
    holes: tuple[Holes, ...]
    cutters: tuple[CutterTable, ...]
    setup: Setup
    path: Path | None = None
    blank: Blank = field(default_factory=Blank)
    dials: Mapping[str, Dial] = field(default_factory=dict)
    dividing: DividingTable | None = None
    gauge: Gauge | None = None
    tolerance: Tolerance | None = None
    drawer: str = ""
    lines: Mapping[str, int] = field(default_factory=dict, compare=False)
    files: tuple[Path, ...] = field(default=(), compare=False)
    cutters_from: str = ""
    typed_in: Unit | None = field(default=None, compare=False)

    @property
    def file_units(self) -> Unit:
        """The unit of bare lengths in the file, however the part is printed."""
        return self.typed_in or self.units

    @property
    def figures(self) -> Figures:
        """How its numbers are written for people: in its unit, with its decimal mark."""
        return Figures(self.units, self.decimal)

    @property
    def pitch_on_bar(self) -> float:
        """What one wheel takes along the bar, mm: thickness, hub, lapping and parting off."""
        hub = self.hub.length if self.hub else 0.0
        blank = self.blank
        return self.wheel.thickness + hub + blank.lapping_allowance + blank.parting_width

    @classmethod
    def from_dict(cls, mapping: Mapping[str, Any], path: Path | None = None) -> Part:
        """Return the part that a mapping in the shape of the file describes.

        Args:
            mapping: table -> keys; bare lengths are in the unit that `units` names, bare angles in
                degrees.
            path: the file it came from, beside which files that it names are; or None.

        Raises:
            InputError: with every problem found, in the order of the tables.
        """
        if not isinstance(mapping, Mapping):
            raise InputError(Problem("the file", "a table of keys is wanted"))
        found, problems = _check_all(mapping)
        problems += _unknown_tables(mapping)
        problems += _name_problems(mapping, path)
        if problems:
            raise InputError(*problems)
        return _assembled(found, path)


def bare_part(wheel: WheelTable) -> Part:
    """Return a part of a wheel and nothing else, not even a bore; its unit is mm."""
    return Part(
        title="untitled",
        number="",
        units="mm",
        material="",
        decimal="point",
        wheel=wheel,
        bore=cast(BoreTable, _no_bore()),
        hub=None,
        holes=(),
        cutters=(),
        setup=Setup(),
    )


def _check_all(mapping: Mapping[str, Any]) -> tuple[dict[str, list[Table]], list[Problem]]:
    """Check every table; return what is good by table name, and what is wrong."""
    unit: Unit = "in" if mapping.get("units") == "in" else "mm"
    found: dict[str, list[Table]] = {}
    problems: list[Problem] = []
    for name, checked in _each(mapping, unit):
        problems += checked.problems
        if checked.table is not None:
            found.setdefault(name, []).append(checked.table)
    return found, problems


def _each(mapping: Mapping[str, Any], unit: Unit) -> Iterator[tuple[str, Checked]]:
    yield "", check_table("", "", _head(mapping), unit)
    for name in kinds.TABLES:
        if name not in mapping:
            continue
        raw = mapping[name]
        if name == "setup" and isinstance(raw, Mapping) and "dials" in raw:
            from profilegen.part.dials import check_dials

            yield from ((f"setup.dials.{at}", dial) for at, dial in check_dials(raw["dials"], unit))
            raw = {key: value for key, value in raw.items() if key != "dials"}
        if (name in kinds.LISTS) != isinstance(raw, list) and is_table(raw):
            yield name, _wrong_brackets(name)
        elif name in kinds.LISTS and isinstance(raw, list):
            if len(raw) > MOST_TABLES:
                text = f"{kinds.bracketed(name)} stands {len(raw)} times"
                many = Problem(name, text, allowed=f"up to {MOST_TABLES} of them")
                yield name, Checked(None, (many,))
            for place, item in enumerate(raw[:MOST_TABLES], 1):
                yield name, check_table(name, f"{name}[{place}]", item, unit)
        else:
            yield name, check_table(name, name, raw, unit)
    if "wheel" not in mapping:
        text = "the part has no wheel"
        hint = 'add a line [wheel] and below it kind = "ratchet"'
        yield "wheel", Checked(None, (Problem("wheel", text, hint=hint),))


def _head(mapping: Mapping[str, Any]) -> dict[str, Any]:
    """Return the keys above all tables, with every key that is no table."""
    return {
        str(key): value
        for key, value in mapping.items()
        if key in Head.model_fields or (key not in kinds.TABLES and not is_table(value))
    }


def _wrong_brackets(name: str) -> Checked:
    many = name in kinds.LISTS
    text = (
        f"[{name}] may stand more than once, so it takes double brackets"
        if many
        else f"a part has one {name}, so it takes single brackets"
    )
    return Checked(None, (Problem(name, text, hint=f"write {kinds.bracketed(name)}"),))


def _unknown_tables(mapping: Mapping[str, Any]) -> list[Problem]:
    unknown = [
        str(key)
        for key, value in mapping.items()
        if key not in kinds.TABLES and key not in Head.model_fields and is_table(value)
    ]
    if not unknown:
        return []
    from profilegen.part import refusals

    return [refusals.unknown_table(key) for key in unknown[:MOST_TABLES]]


def _name_problems(mapping: Mapping[str, Any], path: Path | None) -> list[Problem]:
    """Return what is wrong between tables: two cutters of one name, an unknown cutter.

    The cutter of a part that has a drawer and none of its own is looked for in the drawer.
    """
    raw, setup = mapping.get("cutter"), mapping.get("setup")
    names = [_name(item, "name") for item in raw[:MOST_TABLES]] if isinstance(raw, list) else []
    given = [name for name in names if name]
    beside = path is not None and (path.parent / BESIDE).is_file()
    in_drawer = not raw and ("drawer" in mapping or beside)
    wanted = "" if in_drawer else _name(setup, "cutter")
    if len(given) == len(set(given)) and (not wanted or wanted in names):
        return []
    from profilegen.part import refusals

    return [*refusals.same_names(names), *refusals.unknown_cutter(wanted, given)]


def _name(table: object, key: str) -> str:
    """Return a name in a table that is not checked yet, or an empty text."""
    value = table.get(key) if isinstance(table, Mapping) else None
    return value.strip(" ") if isinstance(value, str) else ""


def _assembled(found: dict[str, list[Table]], path: Path | None) -> Part:
    head = cast(Head, found[""][0])
    return Part(
        title=head.title or (stem_of(path) if path else "untitled"),
        number=head.number or "",
        units=head.units,
        material=head.material or "",
        decimal=head.decimal,
        wheel=cast(WheelTable, found["wheel"][0]),
        bore=cast(BoreTable, _first(found, "bore") or _no_bore()),
        hub=cast("Hub | None", _first(found, "hub")),
        holes=tuple(cast("list[Holes]", found.get("holes", []))),
        cutters=_of_this_wheel(
            cast("list[CutterTable]", found.get("cutter", [])), cast(WheelTable, found["wheel"][0])
        ),
        setup=cast(Setup, _first(found, "setup") or Setup()),
        path=path,
        blank=cast(Blank, _first(found, "blank") or Blank()),
        dials={at: cast("Dial", _first(found, f"setup.dials.{at}")) for at in _axes(found)},
        dividing=cast("DividingTable | None", _first(found, "dividing")),
        gauge=cast("Gauge | None", _first(found, "gauge")),
        tolerance=cast("Tolerance | None", _first(found, "tolerance")),
        drawer=head.drawer or "",
    )


def _axes(found: dict[str, list[Table]]) -> list[str]:
    return [name.rpartition(".")[2] for name in found if name.startswith("setup.dials.")]


def _first(found: dict[str, list[Table]], name: str) -> Table | None:
    tables = found.get(name)
    return tables[0] if tables else None


def _no_bore() -> Table:
    return kinds.model("bore", "none")()


def _of_this_wheel(cutters: list[CutterTable], wheel: WheelTable) -> tuple[CutterTable, ...]:
    """The cutters; a form cutter of "this wheel" has the part's own wheel in its place."""
    return tuple(
        cutter.model_copy(update={"of": wheel})
        if getattr(cutter, "of", None) == THIS_WHEEL
        else cutter
        for cutter in cutters
    )
