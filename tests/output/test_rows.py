"""Rows and dicts: CSV and JSON, read back by standard readers."""

from __future__ import annotations

import csv
import json
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilegen.output.csv_rows import csv_bytes
from profilegen.output.json_text import json_text
from profilegen.output.numbers import grey_colour, number

CELLS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\r\0"), max_size=9)


@given(st.lists(st.lists(CELLS, min_size=2, max_size=2), min_size=1, max_size=5))
def test_csv_reads_back(rows: list[list[str]]) -> None:
    """Every cell comes back as it was: commas, quotes, line breaks and all."""
    text = csv_bytes(rows).decode()
    assert list(csv.reader(StringIO(text, newline=""))) == rows


def test_csv_is_rfc_4180() -> None:
    """Lines end in CR LF and quotes stand only where they must."""
    assert csv_bytes([["stop", "angle"], ["1", '5,0 "x"']]) == b'stop,angle\r\n1,"5,0 ""x"""\r\n'


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_json_numbers_are_unrounded(value: float) -> None:
    """A number reads back as the very same number."""
    assert json.loads(json_text({"x": value}))["x"] == value


def test_json_is_for_people_too() -> None:
    """Letters stay letters and keys keep their order; NaN is refused."""
    assert json_text({"b": "Ø ☐", "a": 1}) == '{\n  "b": "Ø ☐",\n  "a": 1\n}\n'
    with pytest.raises(ValueError, match="not JSON compliant"):
        json_text({"x": float("nan")})


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.1 + 0.2, "0.3"), (-1e-9, "0"), (100.0, "100"), (1e7, "10000000"), (-2.50004, "-2.5")],
)
def test_drawing_numbers(value: float, text: str) -> None:
    """Numbers in drawings: rounded to a tenth of a micrometre, no exponent, no minus zero."""
    assert number(value) == text


def test_greys_are_clamped() -> None:
    """0 is black, 1 is white, and nothing is beyond."""
    assert [grey_colour(g) for g in (-1, 0, 0.5, 1, 2)] == [
        "#000000", "#000000", "#808080", "#ffffff", "#ffffff",
    ]  # fmt: skip
