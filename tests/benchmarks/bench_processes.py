"""Whole commands, each beside its floor. Nothing here fails on time; `ratios.py` prints the ratios.

Run with `pytest tests/benchmarks/bench_*.py`.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.benchmarks.cases import Case, folder, process_cases

NAMES = ["help", "check", "dxf", "stops"]


@pytest.fixture(scope="module")
def cases() -> Iterator[list[Case]]:
    """The cases over one folder that goes away again."""
    home = folder()
    yield process_cases(home)
    shutil.rmtree(home)


@pytest.mark.parametrize("side", ["ours", "theirs"])
@pytest.mark.parametrize("number", range(len(NAMES)), ids=NAMES)
def test_process(benchmark: BenchmarkFixture, cases: list[Case], number: int, side: str) -> None:
    """Time one whole process, anew each round."""
    benchmark.group = cases[number].name
    benchmark(getattr(cases[number], side))
