"""Proofs over many cases: a few of them in every run, the others beside it in the gate."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest


def few(cases: Iterable[Any], step: int) -> list[Any]:
    """Cases for `parametrize`: each `step`-th, the first among them, runs always, the others when
    the exhaustive proofs do.

    A step that shares no divisor with the length of a row of the cases takes a case of every column
    in as many rows.
    """
    return [
        pytest.param(
            *(case if isinstance(case, tuple) else (case,)),
            marks=() if number % step == 0 else pytest.mark.exhaustive,
        )
        for number, case in enumerate(cases)
    ]
