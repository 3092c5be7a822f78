"""Work on all cores: results in order, and processes that die."""

from __future__ import annotations

import os
import time

import pytest

from profilegen.cli.pool import done_by_many

DEADLY = (3, 4, 11)


def work(order: int) -> tuple[int, int]:
    """The order and the process that did it; some orders kill theirs."""
    if order in DEADLY:
        os._exit(9)
    time.sleep(0.02)
    return order, os.getpid()


def lost(order: int) -> tuple[int, int]:
    """What is told of an order whose process died."""
    return -order, 0


def test_after_a_death_the_others_go_on_together(capsys: pytest.CaptureFixture[str]) -> None:
    """Each deadly order is lost by itself, order is kept, and the rest share new processes rather
    than have one each."""
    found = list(done_by_many(work, range(40), lost))
    assert [order for order, _ in found] == [-n if n in DEADLY else n for n in range(40)]
    after = [process for order, process in found if order > max(DEADLY)]
    assert len(set(after)) <= (os.cpu_count() or 1) * 2


def fails(order: int) -> int:
    """Work with a fault of its own."""
    return 1 // (order - 2)


def test_a_fault_of_the_work_is_no_death() -> None:
    """It comes through as it is."""
    results = done_by_many(fails, range(4), lambda order: order)
    assert (next(results), next(results)) == (-1, -1)
    with pytest.raises(ZeroDivisionError):
        next(results)
