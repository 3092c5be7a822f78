"""The line that is told for a missing key."""

from __future__ import annotations

import tomllib

import pytest

from profilegen.part import kinds
from profilegen.part.checking import check_table
from profilegen.part.missing_lines import USUAL, usual_line
from profilegen.part.nearest import all_keys

WANTED = sorted(
    (table, kind, key)
    for table, kind, _ in all_keys()
    for key, item in kinds.model(table, kind).model_fields.items()
    if item.is_required() and key != "kind"
)


@pytest.mark.parametrize(("table", "kind", "key"), WANTED)
def test_every_key_that_is_wanted_has_a_line_that_is_taken(table: str, kind: str, key: str) -> None:
    """The line stands in a file as it is told, in both units, and nothing is wrong with it."""
    for unit in ("mm", "in"):
        raw = tomllib.loads(usual_line(table, key, unit)) | ({"kind": kind} if kind else {})
        problems = check_table(table, table or "top", raw, unit).problems
        assert not [problem for problem in problems if problem.where.endswith(f".{key}")]


def test_no_line_is_left_over() -> None:
    """Every usual value is of a key that some table must have."""
    assert set(USUAL) == {f"{table}.{key}" if table else key for table, _, key in WANTED}


def test_lengths_are_in_the_unit_of_the_part() -> None:
    """38 mm is written as 1.496 in an inch part."""
    assert usual_line("wheel", "outside_diameter", "mm") == "outside_diameter = 38.0"
    assert usual_line("wheel", "outside_diameter", "in") == "outside_diameter = 1.496"
    assert usual_line("wheel", "land", "mm") == ""
