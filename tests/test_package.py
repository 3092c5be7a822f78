"""What the package says of itself: versions, licence, types; and the gate's own two scripts."""

from __future__ import annotations

import runpy
import tomllib
from typing import Any

import pytest

from tests.cli.support import ROOT

TEXT = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
PROJECT: dict[str, Any] = tomllib.loads(TEXT)["project"]


def script(name: str) -> dict[str, Any]:
    """The names of a script of the gate."""
    return runpy.run_path(str(ROOT / ".ci" / name))


def test_every_requirement_is_held_at_its_lowest_version() -> None:
    """One constraint each, of the program and of its tests."""
    found = script("lowest.py")["constraints"](TEXT)
    wanted = [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["test"]]
    assert [line.replace("==", ">=") for line in found] == wanted


@pytest.mark.parametrize("requirement", ["numpy", "numpy<3", "numpy>=1,<2", "numpy==1.0"])
def test_a_requirement_without_a_lowest_version_is_told(requirement: str) -> None:
    """Nothing is passed over."""
    text = TEXT.replace('"svgwrite>=', f'"{requirement}",\n    "svgwrite>=')
    with pytest.raises(SystemExit, match="name>=lowest"):
        script("lowest.py")["constraints"](text)


def test_wheels_that_differ_are_told_by_file() -> None:
    """Other contents, a file in one only, one that must be there, one that must not."""
    same = script("same_wheel.py")
    whole = dict.fromkeys(same["NEEDED"], b"x")
    assert same["differences"](whole, whole) == []
    (other,) = same["differences"]({**whole, "a.py": b"1"}, {**whole, "a.py": b"2"})
    assert other.startswith("a.py: not the same")
    (lacks,) = same["differences"](whole, {**whole, "b.py": b""})
    assert lacks.startswith("b.py")
    less = {name: data for name, data in whole.items() if "py.typed" not in name}
    assert same["differences"](less, less) == ["profilegen/py.typed: missing"]
    more = {**whole, "tests/x.py": b""}
    assert same["differences"](more, more) == ["tests/x.py: no part of the program"]


def test_the_package_is_typed_and_says_so() -> None:
    """The marker that type checkers look for, and the classifier."""
    assert (ROOT / "profilegen" / "py.typed").is_file()
    assert "Typing :: Typed" in PROJECT["classifiers"]


def test_the_lowest_python_is_the_one_that_linter_and_type_checker_hold_to() -> None:
    """One number in four places."""
    tool = tomllib.loads(TEXT)["tool"]
    lowest = PROJECT["requires-python"].removeprefix(">=")
    assert f"Programming Language :: Python :: {lowest}" in PROJECT["classifiers"]
    assert tool["mypy"]["python_version"] == lowest
    assert tool["ruff"]["target-version"] == f"py{lowest.replace('.', '')}"
