"""The order of the rooms and the house rules, read off the syntax trees; tests list offenders."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from graphlib import CycleError, TopologicalSorter
from itertools import pairwise
from pathlib import Path

import pytest

import profilegen
from profilegen.part.kinds import KINDS

ROOT = Path(profilegen.__file__).parent
FORMS = KINDS["wheel"]
ROOMS = [
    ("errors", "units"),
    ("figures",),
    ("findings",),
    ("geometry",),
    ("dxf",),
    ("part",),
    ("forms",),
    ("cutting",),
    ("dividing", "setting"),
    ("gauging",),
    ("job",),
    ("drawing",),
    ("topics",),
    ("views",),
    ("sheets",),
    ("output",),
    ("cli",),
]
"""A room imports only from rooms above it; those on one line do not import each other."""

RANK = {room: place for place, rooms in enumerate(ROOMS) for room in rooms}

MODULES = sorted(ROOT.rglob("*.py"))

ONLY_IN = {
    "ezdxf": {"dxf/"},
    "svgwrite": {"output/svg.py"},
    "reportlab": {"output/pdf.py"},
    "fontTools": {"drawing/lettering.py", "output/pdf.py"},
    "pydantic": {"part/", "forms/"},
    "click": {"cli/"},
    "distributed": {"cli/cluster.py"},
}
"""Package -> the only places that may import it."""

HEAVY = [
    "pydantic",
    "numpy",
    "shapely",
    "ezdxf",
    "reportlab",
    "fontTools",
    "svgwrite",
    "tomllib",
    "distributed",
]

BACK_ENDS = [path for path in MODULES if path.parent.name == "output" and path.stem != "registry"]
"""The formats; the registry beside them is the one place that joins a paper to a format."""

LONGEST_MODULE, LONGEST_FUNCTION = 500, 60
"""Lines."""


@cache
def tree(path: Path) -> ast.Module:
    """The syntax tree of a module."""
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


@cache
def imported(path: Path) -> tuple[tuple[int, str], ...]:
    """Line and full dotted name of all that a module imports, wherever and for whatever use."""
    return tuple(_imported(path))


def _imported(path: Path) -> Iterator[tuple[int, str]]:
    package = ["profilegen", *path.relative_to(ROOT).parent.parts]
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = package[: len(package) - node.level + 1] if node.level else []
            home = ".".join([*above, *([node.module] if node.module else [])])
            yield from ((node.lineno, f"{home}.{alias.name}") for alias in node.names)


def room_of(path: Path) -> str:
    """The room that a module of the package belongs to; empty for the package's own front door."""
    first = path.relative_to(ROOT).parts[0].removesuffix(".py")
    return "" if first in ("__init__", "__main__") else first


def rooms_of(*rooms: str) -> list[Path]:
    """The modules of some rooms."""
    return [path for path in MODULES if room_of(path) in rooms]


def told(path: Path, line: int, what: str) -> str:
    """One offence, with its place."""
    return f"{path.relative_to(ROOT).as_posix()}:{line} {what}"


def texts_of(path: Path) -> Iterator[tuple[int, str]]:
    """Every name and text of a module that is not a docstring."""
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    docs = {
        id(node.body[0].value)
        for node in ast.walk(tree(path))
        if isinstance(node, documented) and node.body and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.lineno, node.value
        elif isinstance(node, ast.Name):
            yield node.lineno, node.id


def functions(path: Path) -> Iterator[tuple[ast.FunctionDef, int]]:
    """Every function of a module with its lines."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.FunctionDef):
            yield node, (node.end_lineno or node.lineno) - node.lineno + 1


def circle_in(graph: Mapping[str, set[str]]) -> list[str]:
    """One circle of a graph, or nothing."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        found: list[str] = error.args[1]
        return found
    return []


def test_rooms_and_modules_import_downwards() -> None:
    """Imports for types count too; only the front door may reach anywhere, and does so lazily.

    Every room has its place; no circle of rooms or of modules stands.
    """
    assert {room_of(path) for path in MODULES} - {""} == set(RANK)
    offences = [
        told(path, line, name)
        for path in MODULES
        for line, name in imported(path)
        if _is_upward(room_of(path), name.split("."))
    ]
    assert offences == []
    names = {_dotted(path) for path in MODULES}
    graph = {_dotted(path): _modules(path, names) - {_dotted(path)} for path in MODULES}
    assert circle_in(graph) == []


def _is_upward(room: str, name: list[str]) -> bool:
    """Whether an import goes to a room above, or to a sibling."""
    if not room or name[0] != "profilegen" or len(name) < 2 or name[1] not in RANK:
        return False
    if name[1] == room or {room, name[1]} == {"errors", "units"}:
        return False
    return RANK[name[1]] >= RANK[room]


def _dotted(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(("profilegen", *(part for part in parts if part != "__init__")))


def _modules(path: Path, names: set[str]) -> set[str]:
    """The modules of the package that a module imports; its packages' own doors left out."""
    found = set()
    for _, name in imported(path):
        while name and name not in names:
            name = name.rpartition(".")[0]
        if name and name != "profilegen" and not (ROOT.parent / name.replace(".", "/")).is_dir():
            found.add(name)
    return found


def test_packages_that_have_one_home() -> None:
    """Each outside package is known to one place, and is used there."""
    users = {
        package: {
            path.relative_to(ROOT).as_posix()
            for path in MODULES
            for _, name in imported(path)
            if name.split(".")[0] == package
        }
        for package in ONLY_IN
    }
    assert all(users.values())
    assert [
        f"{user} imports {package}"
        for package, places in users.items()
        for user in places
        if not user.startswith(tuple(ONLY_IN[package]))
    ] == []


def test_only_the_cli_talks() -> None:
    """Nothing prints, reads the clock, writes to a stream or ends the process below `cli`, and the
    cli itself speaks through one place, never through a bare print."""
    assert [offence for path in MODULES for offence in _talk_of(path)] == []


def _talk_of(path: Path) -> Iterator[str]:
    below = room_of(path) not in ("cli", "")
    barred = {"print", "input", "exit", "quit", "breakpoint"} if below else {"print"}
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            if node.func.id in barred:
                yield told(path, node.lineno, node.func.id)
        elif below and isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            name = f"{node.value.id}.{node.attr}"
            if name in ("sys.stdout", "sys.stderr", "sys.exit", "os.environ"):
                yield told(path, node.lineno, name)
    for line, name in imported(path) if below else ():
        if name.split(".")[0] in ("datetime", "time", "random", "logging"):
            yield told(path, line, name)


def test_no_two_computing_rooms_have_a_module_of_one_name() -> None:
    """So that a name says which thought is meant."""
    rooms = ("geometry", "cutting", "setting", "dividing", "gauging")
    names = [path.stem for path in rooms_of(*rooms) if path.stem != "__init__"]
    assert [name for name in sorted(set(names)) if names.count(name) > 1] == []


def test_rooms_do_not_know_what_is_not_theirs() -> None:
    """Forms do not know each other; the rooms after them name no form; back ends see no wheel;
    `drawing` never asks for a hand."""
    assert [*_strange_forms(), *_named_forms(), *_seen_by_back_ends(), *_hands_in_drawing()] == []


def _strange_forms() -> Iterator[str]:
    stems = [module.rsplit(".", 1)[1] for module in FORMS.values()]
    for own in stems:
        one, folder = ROOT / "forms" / f"{own}.py", ROOT / "forms" / own
        for path in [one] if one.exists() else sorted(folder.rglob("*.py")):
            for line, name in imported(path):
                parts = name.split(".")
                others = {stem for stem in stems if stem != own}
                if parts[:2] == ["profilegen", "forms"] and others & set(parts[2:3]):
                    yield told(path, line, name)


def _named_forms() -> Iterator[str]:
    for path in rooms_of("cutting", "setting", "dividing", "gauging"):
        for kind, module in FORMS.items():
            for line, text in texts_of(path):
                if kind in text.lower():
                    yield told(path, line, text)
            for line, name in imported(path):
                if name.startswith((module, "profilegen.part.wheels")):
                    yield told(path, line, name)


def _seen_by_back_ends() -> Iterator[str]:
    barred = ("part", "forms", "cutting", "setting", "dividing", "gauging", "job", "findings",
              "topics", "views", "sheets")  # fmt: skip
    for path in BACK_ENDS:
        for line, name in imported(path):
            if name.startswith(tuple(f"profilegen.{room}" for room in barred)):
                yield told(path, line, name)


def _hands_in_drawing() -> Iterator[str]:
    for path in rooms_of("drawing"):
        for line, text in texts_of(path):
            if "clockwise" in text:
                yield told(path, line, text)


def test_modules_and_functions_are_short_and_say_what_they_are() -> None:
    """A module opens with a sentence; none is over 500 lines, no function over 60; nine functions
    in ten are under 25 and half under 12; no `assert` checks an argument."""
    assert [offence for path in MODULES for offence in _size_faults(path)] == []
    lengths = sorted(length for path in MODULES for _, length in functions(path))
    assert lengths[int(0.9 * len(lengths))] <= 25
    assert lengths[len(lengths) // 2] <= 12


def _size_faults(path: Path) -> Iterator[str]:
    text = (ast.get_docstring(tree(path)) or "").rstrip()
    if len(text) <= 15 or not text.endswith((".", "`", ")")):
        yield told(path, 1, "has no opening sentence")
    lines = len(path.read_text(encoding="utf-8").splitlines())
    if lines > LONGEST_MODULE:
        yield told(path, lines, "is too long")
    for node, length in functions(path):
        if length > LONGEST_FUNCTION:
            yield told(path, node.lineno, f"{node.name}: {length} lines")
    for statement in ast.walk(tree(path)):
        if isinstance(statement, ast.Assert):
            yield told(path, statement.lineno, "assert")


@pytest.mark.parametrize("module", ["profilegen", "profilegen.cli", "profilegen.errors"])
def test_start_is_light(module: str) -> None:
    """Importing the front doors brings in nothing heavy (a fresh process, nothing else loaded)."""
    code = f"import sys, {module}; print(*(name for name in {HEAVY} if name in sys.modules))"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.split() == []


def test_circles_are_found() -> None:
    """The finder of circles finds one that stands, and none where there is none."""
    ring = circle_in({"a": {"b"}, "b": {"c"}, "c": {"a"}})
    assert all(left != right for left, right in pairwise(ring))
    assert set(ring) == {"a", "b", "c"}
    assert circle_in({"a": {"b"}, "b": {"c"}, "c": set()}) == []
