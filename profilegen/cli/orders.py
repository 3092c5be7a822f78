"""One part to make as plain data, and what comes of it, in this process or in another.

The files of a part are read here, in the process that was asked, and nowhere else: a worker gets
the part itself, so that it need not see the same disk.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from time import time_ns
from typing import TYPE_CHECKING

from profilegen.cli.ending import fault_words
from profilegen.cli.ours import about, digest
from profilegen.cli.producing import Choices, kinds_for, produce
from profilegen.cli.standard_input import called
from profilegen.cli.writing import Outgoing
from profilegen.errors import Problem, ProfilegenError, Worded
from profilegen.findings.cannot_make import CannotMakeError

if TYPE_CHECKING:
    from profilegen.cli.ours import About
    from profilegen.cutting.compare import Each
    from profilegen.part.part import Part


@dataclass(frozen=True, slots=True)
class Order:
    """One part to make.

    Attributes:
        file: the part file.
        base: folder and name without ending of what is written.
        units: unit of what is written, or None for the part's.
        decimal: decimal mark, or None for the part's.
        choices: DXF version and paper.
        text: what came from standard input, where that is the file.
    """

    file: str
    base: Path
    units: str | None
    decimal: str | None
    choices: Choices
    text: str | None = None

    @property
    def name(self) -> str:
        """The file as it is said, not endlessly long."""
        return called(self.file)[:200]


@dataclass(frozen=True, slots=True)
class Ready:
    """An order whose files have been read: all that another process needs to make it.

    Attributes:
        order: what was asked.
        part: with the cutters of its drawer, where it has none of its own.
        about: what its files depend on, as their record keeps it.
    """

    order: Order
    part: Part
    about: About


@dataclass(frozen=True, slots=True)
class Made:
    """What came of making a part.

    Attributes:
        files: what to write, empty after a failure.
        findings: of the wheel and its setup.
        problems: why nothing could be made, or empty.
        fault: the program's own fault in one line, or empty.
        code: exit code, 0 when all is well.
    """

    files: tuple[Outgoing, ...] = ()
    findings: tuple[Worded, ...] = ()
    problems: tuple[Problem, ...] = ()
    fault: str = ""
    code: int = 0


def ready(order: Order) -> Ready:
    """Read the files of a part, its drawer too.

    Raises:
        InputError: one cannot be read or understood.
    """
    from profilegen.cli.opening import opened

    since = time_ns()
    part = opened(order.file, order.units, order.decimal, order.text)
    if not part.cutters:
        from profilegen.part.drawer import has_drawer, with_drawer

        part = with_drawer(part)[0] if has_drawer(part) else part
    return Ready(order, part, about(_inputs(part, order, since), _options(order)))


def make_one(ready: Ready, each: Each = map) -> Made:
    """Make the bytes of one part; what is wrong with the part comes back as data.

    `each` tries the cutters of its drawer, as `map` does.
    """
    from profilegen.findings.telling import worded
    from profilegen.job import job_for

    try:
        job = job_for(ready.part, each)
        order = ready.order
        files = tuple(produce(job, kind, order.choices, order.base) for kind in kinds_for(job))
    except CannotMakeError as error:
        return Made(findings=worded(error.findings, error.figures), code=error.exit_code)
    except ProfilegenError as error:
        return Made(problems=error.problems, code=error.exit_code)
    found = worded(job.findings, ready.part.figures)
    return Made(files, found, code=3 if job.is_refused else 0)


def make_one_of_many(ready: Ready, each: Each = map) -> Made:
    """Make the bytes of one part; a fault of the program too comes back as data."""
    try:
        return make_one(ready, each)
    except Exception as error:
        return Made(fault=fault_words(error), code=1)


def died(_: Ready) -> Made:
    """What comes of a part whose process was ended from outside, or by a fault below Python."""
    return Made(fault="the process that made this part died: is there enough memory?", code=1)


def _inputs(part: Part, order: Order, since: int) -> dict[str, str]:
    """Digests of the part file, or of what came from standard input, and of every file that was
    read for it, by name as seen from its folder.

    Args:
        part: as read.
        order: of what it was read.
        since: when reading began, ns.
    """
    folder = Path(order.file).parent
    if order.text is None:
        own = {Path(order.file).name: _read(Path(order.file), since)}
    else:
        own = {order.name: digest(order.text.encode())}
    return own | {_name_from(folder, path): _read(path, since) for path in part.files}


def _read(path: Path, since: int) -> str:
    """The digest of a file; of one that was changed since it was read, what no file ever has."""
    changed = path.stat().st_mtime_ns
    return f"changed at {changed}" if changed >= since else digest(path.read_bytes())


def _name_from(folder: Path, path: Path) -> str:
    """A file's name as seen from a folder; in full where no way leads there, on another drive."""
    try:
        return Path(os.path.relpath(path, folder)).as_posix()
    except ValueError:
        return path.as_posix()


def _options(order: Order) -> dict[str, str | None]:
    """What was chosen on the command line, as the record keeps it."""
    choices = order.choices
    return {
        "dxf_version": choices.version,
        "paper": choices.paper,
        "units": order.units,
        "decimal": order.decimal,
    }
