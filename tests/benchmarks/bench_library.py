"""The library in one process, each case beside its floor. Nothing here fails on time.

Run with `pytest tests/benchmarks/bench_*.py`.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.benchmarks.cases import Case, folder, library_cases

HOME = folder()
CASES = library_cases(HOME)


@pytest.fixture(scope="module", autouse=True)
def home() -> Iterator[None]:
    """The folder of the cases goes away again."""
    yield
    shutil.rmtree(HOME)


@pytest.mark.parametrize("side", ["ours", "theirs"])
@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case.name))
def test_library(benchmark: BenchmarkFixture, case: Case, side: str) -> None:
    """Time one call."""
    benchmark.group = case.name
    benchmark(getattr(case, side))
