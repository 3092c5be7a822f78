"""The sorts of cases: what each makes, what is done with it, and what must hold.

Whatever goes in: what comes out is a result or an error of the program's own that says where and
what, in signs that can be printed. Anything else, a warning too, is a fault.
"""

from __future__ import annotations

import json
import os
import random
import signal
import traceback
import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from profilegen.cutting.tools import tools_for
from profilegen.dxf.reading import DxfError, read_layers
from profilegen.errors import ProfilegenError
from profilegen.findings.telling import told
from profilegen.geometry.validity import why_invalid
from profilegen.job import job_for
from profilegen.part.decoding import decode
from profilegen.part.drawer import load_drawer
from profilegen.part.load import loads
from profilegen.part.part import Part
from tests.attack import kills
from tests.attack.dictionaries import part_of, plausible_part
from tests.attack.drawings import drawing_of
from tests.attack.texts import text_of, toml
from tests.cli.support import run

MOST_SECONDS = 60
"""Of the processor's own time that one case may take; loaded machines do not matter."""

ENDS_WELL = (0, 2, 3)
"""Exit codes of a run on any input: done, told, cannot be made."""


@dataclass(frozen=True, slots=True)
class Found:
    """A fault: the kind of error and the place it comes from, and the whole of it for people."""

    kind: str
    text: str


def case_of(sort: str, seed: int, number: int) -> Found | None:
    """Run one case; what is wrong with what came out, or None."""
    rng = random.Random(f"{seed} {sort} {number}")
    with TemporaryDirectory() as folder:
        try:
            with _in_time(), warnings.catch_warnings():
                warnings.simplefilter("error")
                warnings.filterwarnings(
                    "ignore", category=DeprecationWarning, module="(?!profilegen)"
                )
                SORTS[sort](rng, Path(folder))
        except (Exception, TooLong) as error:
            return Found(_kind(error), "".join(traceback.format_exception(error)))
    return None


class TooLong(BaseException):
    """A case that takes more than `MOST_SECONDS`."""


@contextmanager
def _in_time() -> Iterator[None]:
    def late(*_: object) -> None:
        raise TooLong(f"over {MOST_SECONDS} s")

    before = signal.signal(signal.SIGVTALRM, late)
    signal.setitimer(signal.ITIMER_VIRTUAL, MOST_SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
        signal.signal(signal.SIGVTALRM, before)


def _kind(error: BaseException) -> str:
    """Kind and last place of an error within the package, so that like faults are counted once."""
    frames = [f for f in traceback.extract_tb(error.__traceback__) if "profilegen" in f.filename]
    inside = [frame for frame in frames if "tests" not in Path(frame.filename).parts]
    place = f" in {Path(inside[-1].filename).name}, {inside[-1].name}" if inside else ""
    return f"{type(error).__name__}{place or f': {str(error)[:40]!r}'}"


@contextmanager
def _told_well() -> Iterator[None]:
    """Let the program's own errors pass that say something, in signs that can be printed."""
    try:
        yield
        return
    except ProfilegenError as error:
        problems = error.problems
    assert problems, "an error without a problem"
    for problem in problems:
        assert problem.where, problem
        assert problem.message, problem
        _can_be_printed(str(problem))


def _can_be_printed(text: str) -> None:
    odd = {sign for sign in text if not sign.isprintable() and sign not in "\n"}
    assert not odd, f"signs that cannot be printed: {odd!r} in {text!r}"


def _dictionary(rng: random.Random, folder: Path) -> None:
    """From a dictionary to every number."""
    with _told_well():
        _solved(Part.from_dict(part_of(rng)))


def _solved(part: Part) -> None:
    """Solve a part and ask for all that is known of it."""
    job = job_for(part)
    json.dumps(job.as_dict(), allow_nan=False)
    why = why_invalid(job.wheel.outline, max(job.wheel.teeth, 1))
    assert why is None, why
    for finding in job.findings:
        assert finding.code, finding
        _can_be_printed(told(finding))
    assert job.gauges.features


def _text(rng: random.Random, folder: Path) -> None:
    """From the bytes of a part file to every number; as a drawer too."""
    data = text_of(rng)
    with _told_well():
        loads(decode(data, "attack.toml"), folder / "attack.toml")
    if rng.random() < 0.3:
        (folder / "drawer.toml").write_bytes(data)
        with _told_well():
            load_drawer(folder / "drawer.toml")


_EDGE = '[[cutter]]\nname = "d"\nkind = "drawn"\ndxf = "edge.dxf"\nlayer = "EDGE"\n'


def _drawing(rng: random.Random, folder: Path) -> None:
    """From the bytes of a DXF to a drawn cutter."""
    data = drawing_of(rng)
    with suppress(DxfError):
        drawn = read_layers(data, "mm")
        for layer in drawn.layers:
            with suppress(DxfError):
                drawn.curves_on(layer)
    (folder / "edge.dxf").write_bytes(data)
    (folder / "drawer.toml").write_text(_EDGE, encoding="utf-8")
    with _told_well():
        for cutter in load_drawer(folder / "drawer.toml"):
            tools_for(cutter)


COMMANDS: tuple[tuple[str, ...], ...] = (
    ("check", "p.toml"),
    ("check", "p.toml", "--json", "--units", "in"),
    ("gauge", "p.toml"),
    ("gauge", "p.toml", "--json"),
    ("cutters", "p.toml"),
    ("cutters", "p.toml", "--json"),
    ("cutters", "p.toml", "--out", "best.pdf"),
    ("stops", "p.toml"),
    ("stops", "p.toml", "--json"),
    ("stops", "p.toml", "--allow-error"),
    ("trial", "p.toml", "--land", "0.3"),
    ("trial", "p.toml", "--land", "0.3", "--zero", "offset"),
    ("template", "p.toml", "--scale", "10", "--force"),
    ("template", "p.toml", "--of", "cutter", "--force"),
    ("sheet", "p.toml", "--units", "in", "--decimal", "comma", "--force"),
    ("dxf", "p.toml", "--dxf-version", "R12", "--force"),
)


def _make(rng: random.Random, folder: Path) -> None:
    """From a part file to every file and two more commands, as the command line does it."""
    part = plausible_part(rng) if rng.random() < 0.8 else part_of(rng)
    with _inside(folder):
        Path("p.toml").write_bytes(toml(part))
        _ended_well("make", "p.toml")
        for path in Path("out").rglob("*.json"):
            json.loads(path.read_bytes(), parse_constant=_no_number)
        for path in Path("out").rglob("*.dxf"):
            _readable(path.read_bytes())
        for words in rng.sample(COMMANDS, 2):
            _ended_well(*words)


def _no_number(word: str) -> Any:
    raise AssertionError(f"{word} in JSON")


def _readable(data: bytes) -> None:
    drawn = read_layers(data)
    assert drawn.layers
    assert drawn.curves_on("OUTLINE")


def _ended_well(*words: str) -> None:
    ended = run(*words)
    told = f"{words}: exit code {ended.exit_code}\n{ended.output}"
    assert ended.exit_code in ENDS_WELL, told
    odd = {sign for sign in ended.stderr if not sign.isprintable() and sign not in "\n"}
    assert not odd, f"{odd!r} {told!r}"


@contextmanager
def _inside(folder: Path) -> Iterator[None]:
    """Within a folder, with tracebacks told."""
    here, before = Path.cwd(), os.environ.get("PROFILEGEN_TRACEBACK")
    os.chdir(folder)
    os.environ["PROFILEGEN_TRACEBACK"] = "1"
    try:
        yield
    finally:
        os.chdir(here)
        del os.environ["PROFILEGEN_TRACEBACK"]
        if before is not None:
            os.environ["PROFILEGEN_TRACEBACK"] = before


SORTS: dict[str, Callable[[random.Random, Path], None]] = {
    "dictionary": _dictionary,
    "text": _text,
    "drawing": _drawing,
    "make": _make,
    "kill": kills.attack,
}
"""Sort -> what it does with a random source and an empty folder, raising what is wrong."""
