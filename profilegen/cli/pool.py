"""Many parts on all cores of the processor.

Owns the worker processes: how many, what Ctrl-C does to them (nothing: the parent ends them), and
the bar that shows how far they are.
"""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from typing import TypeVar

import click

Given = TypeVar("Given")
Result = TypeVar("Result")


def done_by_many(work: Callable[[Given], Result], orders: Sequence[Given]) -> list[Result]:
    """Do the work on every order, with a bar on stderr; the results are in the order given."""
    workers = min(os.cpu_count() or 1, len(orders))
    pool = ProcessPoolExecutor(workers, get_context("spawn"), initializer=_leave_signals)
    try:
        with _held_off():
            results = pool.map(work, orders)
        with click.progressbar(results, length=len(orders), label="making", file=sys.stderr) as bar:
            return list(bar)
    finally:
        pool.shutdown(cancel_futures=True)


@contextmanager
def _held_off() -> Iterator[None]:
    """Hold Ctrl-C off while workers start: they inherit it, the parent hears it right after."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _leave_signals() -> None:
    """In a worker, where nothing is inherited: leave Ctrl-C to the parent."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
