"""Many cutters shared out among the processor's cores, as every command that tries a drawer does.

Owns when it is worth it. Imports the worker processes (`pool`) only then: most parts have few
cutters, and starting is to be quick.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NoReturn, TypeVar

Given = TypeVar("Given")
Result = TypeVar("Result")

MANY = 60
"""Cutters tried in this process; more of them are shared out among the processor's cores."""


def on_all_cores(work: Callable[[Given], Result], cutters: Sequence[Given]) -> Iterable[Result]:
    """Try every cutter as `map` does; many of them on all cores, with a bar on stderr."""
    if len(cutters) <= MANY:
        return map(work, cutters)
    from profilegen.cli.pool import done_by_many

    return done_by_many(work, cutters, _lost, "trying cutters")


def _lost(_: object) -> NoReturn:
    raise MemoryError("the process that tried a cutter died: is there enough memory?")
