"""Many parts, or many cutters, on all cores of the processor.

Owns the worker processes: how many, how much is given to them at a time, what Ctrl-C does to them
(nothing: the parent ends them), what happens when one dies, and the bar that shows how far they
are. What is given out is bounded, so that memory does not grow with the count.
"""

from __future__ import annotations

import os
import signal
import sys
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import (
    FIRST_COMPLETED,
    BrokenExecutor,
    Executor,
    Future,
    ProcessPoolExecutor,
    wait,
)
from contextlib import contextmanager
from functools import partial
from multiprocessing import get_context
from typing import TYPE_CHECKING, Generic, TypeVar

import click

from profilegen.cli.saying import is_quiet

if TYPE_CHECKING:
    from click._termui_impl import ProgressBar

Given = TypeVar("Given")
Result = TypeVar("Result")

MOST_WORKERS = 61
"""Worker processes that Windows can wait for; no other system has a lower limit."""

PER_WORKER = 2
"""Orders that are given out for each worker: the one it does and the one it does next."""


class Line(Iterator[Given], Generic[Given]):
    """Orders that wait to be given out; what is put back comes first."""

    def __init__(self, orders: Iterable[Given]) -> None:
        self._orders = iter(orders)
        self._back: deque[Given] = deque()

    def __next__(self) -> Given:
        """The next order, taken off the line."""
        return self._back.popleft() if self._back else next(self._orders)

    def put_back(self, orders: Iterable[Given]) -> None:
        """Put orders that were taken in front of all others."""
        self._back.extendleft(reversed(list(orders)))


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
    finished: dict[int, Future[Result]] = {}
    due = 0
    with bar(len(orders), label) as shown:
        each = as_done(partial(_numbered, work), enumerate(orders), partial(_numbered, died))
        for (place, _), future in each:
            finished[place] = future
            while due in finished:
                yield finished.pop(due).result()
                due += 1
                shown.update(1)


def _numbered(work: Callable[[Given], Result], order: tuple[int, Given]) -> Result:
    return work(order[1])


def bar(length: int, label: str) -> ProgressBar[int]:
    """A bar on stderr; nothing at all where no terminal shows it, or where little is to be said."""
    hidden = is_quiet() or sys.stderr is None or not sys.stderr.isatty()
    return click.progressbar(length=length, label=label, file=sys.stderr, hidden=hidden)


def as_done(
    work: Callable[[Given], Result],
    orders: Iterable[Given],
    died: Callable[[Given], Result],
) -> Iterator[tuple[Given, Future[Result]]]:
    """Do the work on all cores; each order with what came of it, as soon as that is there.

    A death ends its whole pool. The first order that was then in work is tried by itself, and the
    rest go on in a new pool.

    Args:
        work: done in a process of its own.
        orders: what to do, taken one by one, a few ahead of the work.
        died: the result of an order whose process died under it.
    """
    line, workers = Line(orders), min(os.cpu_count() or 1, MOST_WORKERS)
    while True:
        in_work: dict[Future[Result], Given] = {}
        with _pool(workers) as pool:
            try:
                yield from kept_busy(pool, work, line, in_work, workers)
                return
            except BrokenExecutor:
                pass
        for future in [future for future in in_work if not _is_lost(future)]:
            yield in_work.pop(future), future
        suspect, *others = in_work.values()
        line.put_back(others)
        yield suspect, alone(work, suspect, died)


def kept_busy(
    executor: Executor,
    work: Callable[[Given], Result],
    line: Line[Given],
    in_work: dict[Future[Result], Given],
    workers: int,
    waited: Callable[[], None] = lambda: None,
) -> Iterator[tuple[Given, Future[Result]]]:
    """Give out orders as results come in, so that no worker waits and few orders are out.

    Args:
        executor: does the work.
        work: what is done.
        line: the orders.
        in_work: filled with the orders that are out; those left in it at the end are not told.
        workers: how many there are.
        waited: called after each second in which nothing was finished.

    Raises:
        BrokenExecutor: an order was lost, because its executor is broken.
    """
    while True:
        for _ in range(PER_WORKER * workers - len(in_work)):
            order = next(line, None)
            if order is None:
                break
            in_work[_given_out(executor, work, order)] = order
        if not in_work:
            return
        done, _ = wait(in_work, timeout=1.0, return_when=FIRST_COMPLETED)
        if not done:
            waited()
        for future in done:
            if _is_lost(future):
                raise BrokenExecutor
            yield in_work.pop(future), future


def _given_out(executor: Executor, work: Callable[[Given], Result], order: Given) -> Future[Result]:
    """An order on its way; one that is lost at once where the executor is broken."""
    try:
        with _held_off():
            return executor.submit(work, order)
    except BrokenExecutor as error:
        lost: Future[Result] = Future()
        lost.set_exception(error)
        return lost


def _is_lost(future: Future[Result]) -> bool:
    """Whether an order came to nothing because of its executor, or has not come back."""
    if future.cancelled() or not future.done():
        return True
    return isinstance(future.exception(), BrokenExecutor)


def alone(
    work: Callable[[Given], Result], order: Given, died: Callable[[Given], Result]
) -> Future[Result]:
    """What comes of one order in a process of its own, which may die under it."""
    with _pool(1) as pool:
        future = _given_out(pool, work, order)
        wait([future])
    if not _is_lost(future):
        return future
    told: Future[Result] = Future()
    told.set_result(died(order))
    return told


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
