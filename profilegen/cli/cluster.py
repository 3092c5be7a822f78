"""Many parts on the workers of a running dask scheduler.

Owns the way there and what can go wrong on it. Workers need this program in this version and
nothing else: they get parts and give back bytes, and see none of our files. What a worker leaves
undone, and all that is left when the cluster is gone, is made on this machine.
"""

from __future__ import annotations

import logging
import pkgutil
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import BrokenExecutor, Future
from contextlib import contextmanager, suppress
from functools import partial
from threading import Lock
from typing import TYPE_CHECKING, TypeVar

from profilegen import __version__
from profilegen.cli.pool import Line, alone, as_done, kept_busy
from profilegen.cli.saying import say
from profilegen.errors import InputError, Problem

if TYPE_CHECKING:
    from distributed import Client

Given = TypeVar("Given")
Result = TypeVar("Result")

PATIENCE = 10
"""Seconds in which a scheduler answers, and a lost worker comes back."""

_WHERE = "--cluster"
_ONE = Lock()


def done_there(
    address: str,
    work: Callable[[Given], Result],
    orders: Iterable[Given],
    died: Callable[[Given], Result],
) -> Iterator[tuple[Given, Future[Result]]]:
    """Do the work on a cluster; each order with what came of it, as soon as that is there.

    Args:
        address: of the scheduler, such as `tcp://10.0.0.7:8786`.
        work: done by a worker; what it raises counts as the worker's fault.
        orders: what to do, taken one by one, a few ahead of the work.
        died: the result of an order that no process survives, here neither.

    Raises:
        InputError: dask is not installed, nothing answers, or a worker does not fit.
    """
    line: Line[Given] = Line(orders)
    in_work: dict[Future[Result], Given] = {}
    with _client(address) as client:
        executor = client.get_executor(pure=False)
        there = partial(_at_worker, work, __version__)
        threads = sum(client.nthreads().values())
        try:
            for order, future in kept_busy(executor, there, line, in_work, threads, _Watch(client)):
                yield order, alone(work, order, died) if future.exception() else future
            return
        except BrokenExecutor:
            say("the cluster is gone: what is left is made on this machine")
        finally:
            with suppress(Exception):
                executor.shutdown(wait=False)
    line.put_back(in_work.values())
    yield from as_done(work, line, died)


def _at_worker(work: Callable[[Given], Result], version: str, order: Given) -> Result:
    """At a worker: do the work, one order at a time however many threads it has, since the
    libraries that write files are not made for threads.

    Raises:
        RuntimeError: it joined since the others were looked at, and has another version.
    """
    if version != __version__:
        raise RuntimeError(f"this worker has profilegen {__version__}")
    with _ONE:
        return work(order)


class _Watch:
    """Looks, while nothing comes back, whether anybody is still there.

    Raises:
        BrokenExecutor: nobody was, for a while.
    """

    def __init__(self, client: Client) -> None:
        self._client = client
        self._missed = 0

    def __call__(self) -> None:
        """Count another second of waiting."""
        self._missed = 0 if _workers(self._client) else self._missed + 1
        if self._missed >= PATIENCE:
            raise BrokenExecutor


def _workers(client: Client) -> dict[str, int]:
    """Address -> threads of the workers that are there."""
    try:
        return dict(client.nthreads()) if client.status == "running" else {}
    except Exception:
        return {}


@contextmanager
def _client(address: str) -> Iterator[Client]:
    """The way to a cluster whose scheduler and workers fit; its own talk is not heard meanwhile.

    Raises:
        InputError: as `done_there`.
    """
    try:
        from distributed import Client
    except ImportError:
        text = "this needs dask, which is not installed"
        raise InputError(
            Problem(_WHERE, text, hint="pip install 'profilegen[cluster]', here and at the workers")
        ) from None
    before = logging.root.manager.disable
    logging.disable(logging.CRITICAL)
    try:
        with _connected(Client, address) as client:
            _check(client, address)
            yield client
    finally:
        logging.disable(before)


def _connected(kind: type[Client], address: str) -> Client:
    from distributed.comm.addressing import resolve_address

    try:
        # of an empty address dask would make a cluster of its own, and of one that is none a client
        # that cannot be closed
        resolve_address(address)
        return kind(address, timeout=PATIENCE, set_as_default=False)
    except (OSError, ValueError, TypeError, RuntimeError):
        text = "no dask scheduler answers there"
        hint = "dask scheduler, and dask worker ADDRESS at each machine, start a cluster"
        raise InputError(
            Problem(_WHERE, text, address, "such as tcp://10.0.0.7:8786", hint)
        ) from None


def _check(client: Client, address: str) -> None:
    """Refuse a cluster where anybody lacks this program, or has another version of it.

    Raises:
        InputError: with everyone who does not fit.
    """
    asked = pkgutil.resolve_name, "profilegen:__version__"
    found = client.run(*asked, on_error="return")
    if not found:
        hint = f"dask worker {address} starts one"
        raise InputError(Problem(_WHERE, "this cluster has no workers", address, hint=hint))
    try:
        found["the scheduler"] = client.run_on_scheduler(*asked)
    except Exception as error:
        found["the scheduler"] = error
    problems = [
        Problem(_WHERE, _unfit(who, version), hint=f"put profilegen {__version__} there")
        for who, version in sorted(found.items())
        if version != __version__
    ]
    if problems:
        raise InputError(*problems)


def _unfit(who: str, version: object) -> str:
    if isinstance(version, str):
        return f"{who} has profilegen {version}, here is {__version__}"
    return f"{who} has no profilegen that can be used"
