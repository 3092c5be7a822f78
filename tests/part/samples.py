"""Where the sample part file is, what is in it, and how the tests ask for its problems."""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

import pytest

from profilegen.errors import InputError, Problem
from profilegen.part.load import loads
from profilegen.part.part import Part

TAKE_UP = Path(__file__).parent / "data" / "take-up.toml"
TEXT = TAKE_UP.read_text(encoding="utf-8")
_MAPPING = tomllib.loads(TEXT)


def take_up(**tables: Any) -> dict[str, Any]:
    """The sample as a mapping; a table or key set to None is left out."""
    mapping = {**copy.deepcopy(_MAPPING), **tables}
    return {key: value for key, value in mapping.items() if value is not None}


def wheel(**keys: Any) -> dict[str, Any]:
    """The sample with other keys in `[wheel]`; a key set to None is left out."""
    return take_up(wheel=_changed(_MAPPING["wheel"], keys))


def bore(**keys: Any) -> dict[str, Any]:
    """The sample with just these keys in `[bore]`."""
    return take_up(bore=keys)


def cutter(**keys: Any) -> dict[str, Any]:
    """The sample with other keys in its `[[cutter]]`; a key set to None is left out."""
    return take_up(cutter=[_changed(_MAPPING["cutter"][0], keys)])


def _changed(table: dict[str, Any], keys: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in {**table, **keys}.items() if value is not None}


def problems(mapping: Any) -> tuple[Problem, ...]:
    """What is wrong with a mapping; fails when nothing is."""
    with pytest.raises(InputError) as caught:
        Part.from_dict(mapping)
    return caught.value.problems


def only(mapping: Any) -> Problem:
    """The one problem of a mapping; fails when there are none or more."""
    found = problems(mapping)
    assert len(found) == 1, [str(problem) for problem in found]
    return found[0]


def text_problems(text: str) -> tuple[Problem, ...]:
    """What is wrong with the text of a file; fails when nothing is."""
    with pytest.raises(InputError) as caught:
        loads(text, Path("loom.toml"))
    return caught.value.problems
