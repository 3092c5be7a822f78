"""The order of the rooms and the house rules, read off the syntax trees."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import profilegen
from profilegen.wheels.solve import FORMS

ROOT = Path(profilegen.__file__).parent
ROOMS = [
    "errors",
    "units",
    "geometry",
    "dxf",
    "part",
    "wheels",
    "cutting",
    "gauging",
    "job",
    "drawing",
    "reports",
    "output",
    "cli",
]
"""A room imports only from rooms to its left; `errors` and `units` are for all."""

MODULES = sorted(ROOT.rglob("*.py"))
NAMES = [str(path.relative_to(ROOT)) for path in MODULES]

ONLY_IN = {
    "ezdxf": {"dxf/writing.py"},
    "svgwrite": {"output/svg.py"},
    "reportlab": {"output/pdf.py"},
    "fontTools": {"drawing/lettering.py", "output/pdf.py"},
    "pydantic": {"part/"},
    "click": {"cli/"},
}
"""Package -> the only places that may import it."""

HEAVY = ["pydantic", "numpy", "shapely", "ezdxf", "reportlab", "fontTools", "svgwrite", "tomllib"]

BACK_ENDS = [path for path in MODULES if path.parent.name == "output" and path.stem != "registry"]
"""The formats; the registry beside them is the one place that joins a report to a format."""

LONGEST_MODULE, LONGEST_FUNCTION = 500, 60
"""Lines."""


@cache
def tree(path: Path) -> ast.Module:
    """The syntax tree of a module."""
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def imported(path: Path) -> Iterator[tuple[int, str]]:
    """Line and full dotted name of all that a module imports, wherever and for whatever use."""
    package = ".".join(("profilegen", *path.relative_to(ROOT).parent.parts))
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = package.split(".")[: len(package.split(".")) - node.level + 1]
            home = (
                ".".join([*above, node.module or ""]).strip(".")
                if node.level
                else node.module or ""
            )
            yield from ((node.lineno, f"{home}.{alias.name}") for alias in node.names)


def room_of(path: Path) -> str:
    """The room that a module of the package belongs to; empty for the package's own front door."""
    first = path.relative_to(ROOT).parts[0].removesuffix(".py")
    return "" if first in ("__init__", "__main__") else first


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


def test_every_module_has_a_room() -> None:
    """A new room takes its place in the order before it is used."""
    assert {room_of(path) for path in MODULES} - {""} == set(ROOMS)


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_rooms_import_leftwards_only(path: Path) -> None:
    """Imports for types count too; only the front door may reach anywhere, and does so lazily."""
    room = room_of(path)
    if not room:
        return
    left = {*ROOMS[: ROOMS.index(room) + 1], "errors", "units"}
    for line, name in imported(path):
        parts = name.split(".")
        if parts[0] == "profilegen" and len(parts) > 1 and parts[1] in ROOMS:
            assert parts[1] in left, f"line {line}: {room} imports {name}"
    if room in ("errors", "units"):
        others = [name for _, name in imported(path) if name.startswith("profilegen.")]
        assert all(name.split(".")[1] in ("errors", "units") for name in others)


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_only_the_job_goes_round_by_the_front_door(path: Path) -> None:
    """The files of `Job.dxf` and its like are built behind it; others may ask for the version."""
    front = {
        name
        for _, name in imported(path)
        if name.split(".")[0] == "profilegen" and not {*name.split(".")[1:2]} & {*ROOMS}
    }
    if room_of(path) not in ("job", ""):
        assert front <= {"profilegen.__version__"}


@pytest.mark.parametrize("package", ONLY_IN)
def test_packages_that_have_one_home(package: str) -> None:
    """Each outside package is known to one place, and is used there."""
    users = {
        path.relative_to(ROOT).as_posix()
        for path in MODULES
        for _, name in imported(path)
        if name.split(".")[0] == package
    }
    assert users
    for user in users:
        assert any(user.startswith(home) for home in ONLY_IN[package]), user


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_only_the_cli_talks(path: Path) -> None:
    """Nothing prints, reads the clock, writes to a stream or ends the process below `cli`."""
    if room_of(path) in ("cli", ""):
        return
    calls = [node for node in ast.walk(tree(path)) if isinstance(node, ast.Call)]
    names = {node.func.id for node in calls if isinstance(node.func, ast.Name)}
    assert not names & {"print", "input", "exit", "quit", "breakpoint"}
    modules = {name.split(".")[0] for _, name in imported(path)}
    assert not modules & {"datetime", "time", "random", "logging"}
    parts = {
        f"{node.value.id}.{node.attr}"
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name)
    }
    assert not parts & {"sys.stdout", "sys.stderr", "sys.exit", "os.environ"}


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_nothing_prints_anywhere(path: Path) -> None:
    """Even the cli speaks through one place of its own, never through a bare print."""
    calls = [node for node in ast.walk(tree(path)) if isinstance(node, ast.Call)]
    assert not [c.lineno for c in calls if isinstance(c.func, ast.Name) and c.func.id == "print"]


@pytest.mark.parametrize("form", FORMS.values())
def test_tooth_forms_do_not_know_each_other(form: str) -> None:
    """A form's modules import no other form and none of its parts."""
    stems = [module.rsplit(".", 1)[1] for module in FORMS.values()]
    own = form.rsplit(".", 1)[1]
    for path in sorted((ROOT / "wheels").glob(f"{own}*.py")):
        for line, name in imported(path):
            parts = name.split(".")
            if parts[:2] == ["profilegen", "wheels"] and len(parts) > 2:
                stranger = any(parts[2].startswith(stem) for stem in stems if stem != own)
                assert not stranger, f"line {line}: {name}"


@pytest.mark.parametrize(
    "path", sorted((ROOT / "cutting").glob("*.py")), ids=lambda path: path.name
)
def test_cutting_knows_no_tooth_form(path: Path) -> None:
    """`cutting` sees `Wheel` and `Space`: it names no form in its code and imports none."""
    for kind, module in FORMS.items():
        for line, text in texts_of(path):
            assert kind not in text.lower(), f"line {line}: {text}"
        for line, name in imported(path):
            assert not name.startswith((module, "profilegen.part.wheels")), f"line {line}: {name}"


@pytest.mark.parametrize(
    "path",
    sorted(set((ROOT / "output").glob("*.py")) - {ROOT / "output" / "registry.py"}),
    ids=lambda path: path.name,
)
def test_back_ends_see_no_wheel(path: Path) -> None:
    """Back ends translate marks, rows and dictionaries; only the registry knows the reports."""
    barred = ("part", "wheels", "cutting", "job", "reports")
    for line, name in imported(path):
        assert not name.startswith(tuple(f"profilegen.{room}" for room in barred)), (
            f"line {line}: {name}"
        )


@pytest.mark.parametrize(
    "path", sorted((ROOT / "drawing").glob("*.py")), ids=lambda path: path.name
)
def test_drawing_never_asks_for_the_hand(path: Path) -> None:
    """The set-up frame's one move serves every view: no word for a hand stands in `drawing`."""
    for line, text in texts_of(path):
        assert "clockwise" not in text, f"line {line}: {text}"


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_every_module_says_what_it_owns(path: Path) -> None:
    """A module opens with a docstring of a sentence or more."""
    text = ast.get_docstring(tree(path)) or ""
    assert len(text) > 15
    assert text.rstrip().endswith((".", "`", ")"))


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_modules_and_functions_are_short(path: Path) -> None:
    """No module over 500 lines, no function over 60."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST_MODULE
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.FunctionDef):
            length = (node.end_lineno or node.lineno) - node.lineno + 1
            assert length <= LONGEST_FUNCTION, f"{node.name}: {length} lines"


def function_lengths() -> list[int]:
    """Lines of every function of the package."""
    return [
        (node.end_lineno or node.lineno) - node.lineno + 1
        for path in MODULES
        for node in ast.walk(tree(path))
        if isinstance(node, ast.FunctionDef)
    ]


def test_nine_functions_in_ten_are_under_25_lines() -> None:
    """Most functions fit in a glance."""
    lengths = sorted(function_lengths())
    assert lengths[int(0.9 * len(lengths))] <= 25
    assert lengths[len(lengths) // 2] <= 12


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_no_assert_checks_an_argument(path: Path) -> None:
    """What a user can cause raises an error of its own; `assert` is for tests."""
    assert not [node.lineno for node in ast.walk(tree(path)) if isinstance(node, ast.Assert)]


@pytest.mark.parametrize("module", ["profilegen", "profilegen.cli", "profilegen.errors"])
def test_start_is_light(module: str) -> None:
    """Importing the front doors brings in nothing heavy (a fresh process, nothing else loaded)."""
    code = f"import sys, {module}; print(*(name for name in {HEAVY} if name in sys.modules))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.split() == []
