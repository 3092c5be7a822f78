"""ISO 2768-1: rows SPL-59 (printed on two open pages), SPL-60 and SPL-61 (remembered)."""

from __future__ import annotations

import math

import pytest

from profilegen.part.iso286 import NoClass
from profilegen.part.iso2768 import angle, linear, radius


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("f", (0.05, 0.05, 0.1, 0.15, 0.2, 0.3)),
        ("m", (0.1, 0.1, 0.2, 0.3, 0.5, 0.8)),
        ("c", (0.2, 0.3, 0.5, 0.8, 1.2, 2)),
        ("v", (None, 0.5, 1, 1.5, 2.5, 4)),
    ],
)
def test_linear(name: str, row: tuple[float | None, ...]) -> None:
    """SPL-59; class c up to 6 mm is 0.2 and 0.3, not the 0.15 and 0.2 that one page prints."""
    for size, wanted in zip((3, 6, 30, 120, 400, 1000), row, strict=True):
        if wanted is None:
            with pytest.raises(NoClass, match="over 3 to"):
                linear(size, name)
        else:
            assert linear(size, name) == wanted


def test_radii() -> None:
    """SPL-60."""
    for names, row in (("fm", (0.2, 0.5, 1.0)), ("cv", (0.4, 1.0, 2.0))):
        for name in names:
            assert tuple(radius(size, name) for size in (0.5, 6, 7)) == row


def test_angles() -> None:
    """SPL-61, by the length of the shorter leg."""
    rows = {"f": (60, 30, 20, 10, 5), "m": (60, 30, 20, 10, 5), "c": (90, 60, 30, 15, 10)}
    rows["v"] = (180, 120, 60, 30, 20)
    for name, row in rows.items():
        found = [60 * math.degrees(angle(leg, name)) for leg in (10, 50, 120, 400, 401)]
        assert found == pytest.approx(row)


@pytest.mark.parametrize(("size", "name"), [(0.49, "m"), (4001, "m"), (2001, "f"), (10, "x")])
def test_what_the_standard_does_not_give(size: float, name: str) -> None:
    """Sizes and classes outside its tables are refused by name."""
    with pytest.raises(NoClass):
        linear(size, name)
