"""Many parts on all cores of the processor.

Owns the worker processes: how many, what Ctrl-C does to them (nothing: the parent ends them), and
the bar that shows how far they are.
"""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from multiprocessing import get_context
from typing import NoReturn, TypeVar

import click

Given = TypeVar("Given")
Result = TypeVar("Result")


def done_by_many(
    work: Callable[[Given], Result],
    orders: Sequence[Given],
    died: Callable[[Given], Result],
    label: str = "making",
) -> Iterator[Result]:
    """Do the work on every order, with a bar on stderr; results come in the order given.

    Args:
        work: done in a process of its own.
        orders: what to do.
        died: the result of an order whose process died under it; the others go on.
        label: what the bar says.
    """
    workers = min(os.cpu_count() or 1, len(orders))
    with _pool(workers) as pool:
        with _held_off():
            futures = [pool.submit(work, order) for order in orders]
        with click.progressbar(length=len(orders), label=label, file=sys.stderr) as bar:
            for order, future in zip(orders, futures, strict=True):
                yield _result(future, work, order, died)
                bar.update(1)


MANY = 60
"""Cutters tried in this process; more of them are shared out among the processor's cores."""


def on_all_cores(work: Callable[[Given], Result], cutters: Sequence[Given]) -> Iterable[Result]:
    """Try every cutter as `map` does; many of them on all cores, with a bar on stderr."""
    if len(cutters) <= MANY:
        return map(work, cutters)
    return done_by_many(work, cutters, _lost, "trying cutters")


def _lost(_: object) -> NoReturn:
    raise MemoryError("the process that tried a cutter died: is there enough memory?")


def _result(
    future: Future[Result],
    work: Callable[[Given], Result],
    order: Given,
    died: Callable[[Given], Result],
) -> Result:
    """What came of an order; after a death, which ends the whole pool, it is tried by itself."""
    with suppress(BrokenProcessPool):
        return future.result()
    with _pool(1) as alone:
        with _held_off():
            again = alone.submit(work, order)
        try:
            return again.result()
        except BrokenProcessPool:
            return died(order)


@contextmanager
def _pool(workers: int) -> Iterator[ProcessPoolExecutor]:
    """Worker processes that are gone, and what waits for them with them, however this ends."""
    pool = ProcessPoolExecutor(workers, get_context("spawn"), initializer=_leave_signals)
    try:
        yield pool
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
