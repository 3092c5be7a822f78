"""Many parts, or many cutters, on all cores of the processor.

Owns the worker processes: how many, what Ctrl-C does to them (nothing: the parent ends them), what
happens when one dies, and the bar that shows how far they are.
"""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing import get_context
from typing import TYPE_CHECKING, TypeVar

import click

from profilegen.cli.saying import is_quiet

if TYPE_CHECKING:
    from click._termui_impl import ProgressBar

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
    with _bar(len(orders), label) as bar:
        for result in _in_order(work, orders, died):
            yield result
            bar.update(1)


def _bar(length: int, label: str) -> ProgressBar[int]:
    """A bar on stderr; nothing at all where no terminal shows it, or where little is to be said."""
    hidden = is_quiet() or sys.stderr is None or not sys.stderr.isatty()
    return click.progressbar(length=length, label=label, file=sys.stderr, hidden=hidden)


def _in_order(
    work: Callable[[Given], Result], orders: Sequence[Given], died: Callable[[Given], Result]
) -> Iterator[Result]:
    """The results in the order given.

    A death ends its whole pool. The first order that has no result is then tried by itself, and the
    rest go on in a new pool.
    """
    finished: dict[int, Result] = {}
    place = 0
    while place < len(orders):
        for result in _until_death(work, orders, place, finished):
            yield result
            place += 1
        if place < len(orders):
            known = place in finished
            yield finished.pop(place) if known else _alone(work, orders[place], died)
            place += 1


def _until_death(
    work: Callable[[Given], Result],
    orders: Sequence[Given],
    first: int,
    finished: dict[int, Result],
) -> Iterator[Result]:
    """The results from the first order on, until a process dies; what others had done by then is
    kept in `finished`, by place, and not done again."""
    places = range(first, len(orders))
    futures: dict[int, Future[Result]] = {}
    with _pool(min(os.cpu_count() or 1, len(places))) as pool:
        try:
            with _held_off():
                for place in places:
                    if place not in finished:
                        futures[place] = pool.submit(work, orders[place])
            for place in places:
                future = futures.pop(place, None)
                yield finished.pop(place) if future is None else future.result()
        except BrokenProcessPool:
            finished |= {n: f.result() for n, f in futures.items() if _is_finished(f)}


def _is_finished(future: Future[Result]) -> bool:
    return future.done() and future.exception() is None


def _alone(
    work: Callable[[Given], Result], order: Given, died: Callable[[Given], Result]
) -> Result:
    """The result of one order in a process of its own, which may die under it."""
    with _pool(1) as pool:
        try:
            with _held_off():
                future = pool.submit(work, order)
            return future.result()
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
