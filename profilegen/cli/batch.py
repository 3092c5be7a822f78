"""Many parts, one after the other or at once: what came of each, and its files written.

What is known of a part from its last run is looked up first; only the others are made, in this
process where they are few, else on all cores or on a cluster. Files are written by this process
alone.
"""

from __future__ import annotations

from collections.abc import Generator, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path
from typing import Literal

from profilegen.cli.cores import on_all_cores
from profilegen.cli.ending import fault_words
from profilegen.cli.orders import Made, Order, Ready, died, make_one, make_one_of_many, ready
from profilegen.cli.ours import Before, as_before, record, untouched
from profilegen.cli.producing import names_of
from profilegen.cli.saying import part_lines
from profilegen.cli.spare import put_right
from profilegen.cli.writing import Written, write_all
from profilegen.errors import OutputError, Problem, ProfilegenError, Worded

FEW = 4
"""Parts made one after the other; more of them are shared out among the processor's cores."""


@dataclass(frozen=True, slots=True)
class How:
    """How parts are made, whatever they are.

    Attributes:
        force: whether files that are not ours may be replaced.
        again: the command that would replace them, for the refusal.
        anew: whether a part is made that would come out as it stands.
        cluster: the address of a dask scheduler, or None.
    """

    force: bool
    again: str
    anew: bool
    cluster: str | None


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one part, its files written.

    Attributes:
        name: the part file as it is said.
        folder: of its files.
        state: whether its files were made, or stand there as they would come out, or neither.
        code: exit code, 0 when all is well.
        said: the lines said of every part, such as its outside diameter.
        findings: of the wheel and its setup.
        problems: why nothing could be made, or empty.
        fault: the program's own fault in one line, or empty.
        unwritten: why nothing could be written, or empty.
        written: the files that now stand there.
        left_over: files of an earlier run that are not of the part as it stands.
    """

    name: str
    folder: Path
    state: Literal["made", "unchanged", "failed"]
    code: int = 0
    said: tuple[str, ...] = ()
    findings: tuple[Worded, ...] = ()
    problems: tuple[Problem, ...] = ()
    fault: str = ""
    unwritten: tuple[Problem, ...] = ()
    written: tuple[Written, ...] = ()
    left_over: tuple[str, ...] = ()


def outcomes(orders: Sequence[Order], how: How) -> Generator[tuple[Order, Outcome], None, None]:
    """Each order with what came of it, as soon as that is known; many with a bar on stderr.

    Raises:
        InputError: the cluster cannot be used.
    """
    if len(orders) <= FEW:
        yield from _outcomes(orders, how)
        return
    from profilegen.cli.pool import bar

    with bar(len(orders), "making") as shown:
        for finished in _outcomes(orders, how):
            yield finished
            shown.update(1)


def _outcomes(orders: Sequence[Order], how: How) -> Iterator[tuple[Order, Outcome]]:
    known: list[tuple[Order, Outcome]] = []
    todo = _to_make(orders, how, known)
    for one, made in _made(todo, how, alone=len(orders) == 1):
        yield from _taken(known)
        yield one.order, _written(one, made, how)
    yield from _taken(known)


def _taken(known: list[tuple[Order, Outcome]]) -> Iterator[tuple[Order, Outcome]]:
    while known:
        yield known.pop(0)


def _to_make(
    orders: Sequence[Order], how: How, known: list[tuple[Order, Outcome]]
) -> Iterator[Ready]:
    """The orders that are to be made, read one by one; what came of the others goes to `known`."""
    for order in orders:
        found = _read(order, how, alone=len(orders) == 1)
        if isinstance(found, Ready):
            yield found
        else:
            known.append((order, found))


def _read(order: Order, how: How, alone: bool) -> Ready | Outcome:
    """An order that is to be made, or what came of it where there is nothing to make."""
    try:
        one = ready(order)
    except ProfilegenError as error:
        code = error.exit_code
        return Outcome(order.name, _folder(order), "failed", code, problems=error.problems)
    except Exception as error:
        if alone:
            raise
        return Outcome(order.name, _folder(order), "failed", 1, fault=fault_words(error))
    before = None if how.anew else _before(one)
    return one if before is None else _unchanged(one, before)


def _before(one: Ready) -> Before | None:
    """What the last run left of a part that would come out the same."""
    put_right(_folder(one.order))
    return as_before(_folder(one.order), one.about)


def _unchanged(one: Ready, before: Before) -> Outcome:
    """What came of a part whose files stand there as they would be made."""
    return Outcome(
        one.order.name,
        _folder(one.order),
        "unchanged",
        3 if any(finding.severity == "refused" for finding in before.findings) else 0,
        _lines(one),
        before.findings,
        left_over=_left_over(one.order, before.files),
    )


def _made(todo: Iterator[Ready], how: How, alone: bool) -> Iterator[tuple[Ready, Made]]:
    """Each with what was made of it: few here, many on all cores or on a cluster."""
    first = list(islice(todo, FEW + 1 if how.cluster is None else 1))
    if how.cluster is not None and first:
        from profilegen.cli.cluster import done_there

        shared = done_there(how.cluster, make_one_of_many, chain(first, todo), died)
    elif len(first) > FEW:
        from profilegen.cli.pool import as_done

        shared = as_done(make_one_of_many, chain(first, todo), died)
    else:
        make = make_one if alone else make_one_of_many
        yield from ((one, make(one, on_all_cores)) for one in first)
        return
    yield from ((one, future.result()) for one, future in shared)


def _written(one: Ready, made: Made, how: How) -> Outcome:
    """Write the files of one part, and tell what came of it."""
    order, code = one.order, made.code
    written: tuple[Written, ...] = ()
    unwritten: tuple[Problem, ...] = ()
    if made.files:
        put_right(_folder(order))
        ours = untouched(_folder(order))
        kept = record(_folder(order), made.files, one.about, made.findings)
        try:
            written = write_all((*made.files, kept), force=how.force, again=how.again, ours=ours)
        except OutputError as error:
            unwritten, code = error.problems, max(code, error.exit_code)
    return Outcome(
        order.name,
        _folder(order),
        "made" if written else "failed",
        code,
        _lines(one),
        made.findings,
        made.problems,
        made.fault,
        unwritten,
        written,
        _left_over(order, {item.path.name for item in written}) if written else (),
    )


def _folder(order: Order) -> Path:
    return order.base.parent


def _lines(one: Ready) -> tuple[str, ...]:
    return part_lines(one.part, Path(one.order.name).name)


def _left_over(order: Order, made: Iterable[str]) -> tuple[str, ...]:
    """Files in a part's folder that have the names of outputs and were not made for the part as it
    stands: they may belong to another wheel."""
    names = names_of(order.base).difference(made)
    folder = _folder(order)
    return tuple(sorted(path.name for path in folder.iterdir() if path.name in names))
