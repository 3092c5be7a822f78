"""Print the contributor guide's table of ratios: `python -m tests.benchmarks.ratios`."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterable, Iterator

from tests.benchmarks.cases import Case, folder, least_times, library_cases, process_cases


def rows(cases: Iterable[Case]) -> Iterator[str]:
    """One row a case."""
    for case in cases:
        ours, theirs = least_times(case)
        promise = "" if case.promise is None else f"at most {case.promise:g}"
        times = f"{1000 * ours:.1f} ms | {1000 * theirs:.1f} ms | {ours / theirs:.3g}"
        yield f"| {case.name} | {case.floor} | {times} | {promise} |"


def main() -> None:
    """Time every case and print its row."""
    home = folder()
    try:
        sys.stdout.write(
            "| ours | floor | ours | floor | ratio | promise |\n|---|---|---|---|---|---|\n"
        )
        for row in rows([*process_cases(home), *library_cases(home)]):
            sys.stdout.write(f"{row}\n")
            sys.stdout.flush()
    finally:
        shutil.rmtree(home)


if __name__ == "__main__":
    main()
