"""The library in one process, each case beside its floor. Nothing here fails on time.

Run with `pytest tests/benchmarks/bench_*.py`.
"""

from __future__ import annotations

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.benchmarks.cases import Case, library_cases

CASES = library_cases()


@pytest.mark.parametrize("side", ["ours", "theirs"])
@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case.name))
def test_library(benchmark: BenchmarkFixture, case: Case, side: str) -> None:
    """Time one call."""
    benchmark.group = case.name
    benchmark(getattr(case, side))
