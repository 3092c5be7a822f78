"""Everything said on stderr: problems, findings, the size in both units, what was written.

Owns the words and their order. Refuses stdout, which is for data.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING
from unicodedata import category

import click

from profilegen.cli.colour import coloured
from profilegen.errors import Problem

if TYPE_CHECKING:
    from profilegen.cli.writing import Written
    from profilegen.errors import Worded
    from profilegen.figures import Figures
    from profilegen.findings.finding import Finding
    from profilegen.part.part import Part


QUIET = "profilegen.quiet"
"""Where the run's context notes that only what is wrong is to be said."""


def talk(text: str) -> None:
    """Say what is good to know but asks for nothing; under `--quiet` not at all."""
    if not is_quiet():
        say(text)


def is_quiet() -> bool:
    """Whether only what is wrong is to be said."""
    run = click.get_current_context(silent=True)
    return run is not None and bool(run.meta.get(QUIET))


def say(text: str, end: str = "\n") -> None:
    """Say one thing on stderr, what would steer the terminal shown as signs; a closed or full
    stderr is not worth an error."""
    with suppress(OSError, ValueError):
        click.echo(f"{coloured(shown(text), sys.stderr)}{end}", nl=False, err=True)


def shown(text: str) -> str:
    """A text with every control character but line ends written out, such as `\\x1b`.

    Signs that turn the direction of writing or take no room count too.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(
        sign if sign == "\n" or category(sign) not in ("Cc", "Cf", "Cs") else _written_out(sign)
        for sign in text
    )


def _written_out(sign: str) -> str:
    return ascii(sign)[1:-1]


def answer_to(prompt: str) -> str | None:
    """One line from standard input, asked for on stderr; None when there is no more.

    Raises:
        UnicodeDecodeError: it is no text.
    """
    say(prompt, end="")
    line = ""
    with suppress(OSError):
        line = sys.stdin.readline() if sys.stdin is not None else ""
    if not line:
        say("")
        return None
    if not sys.stdin.isatty():
        say(line.rstrip("\r\n"))
    return line.strip()


def problem_block(problem: Problem) -> str:
    """One problem: where, what is wrong, what was given, what is allowed, what to do next."""
    rows = [problem.where, _wrapped(problem.message)]
    for name, text in (
        ("got", problem.got),
        ("allowed", problem.allowed),
        ("next", problem.hint),
    ):
        if text:
            rows.append(_wrapped(f"{name + ':':<9}{text}", hang=9))
    if problem.excerpt:
        rows.append(problem.excerpt)
    return "\n".join(rows)


def say_problems(problems: Sequence[Problem], file: str = "") -> None:
    """Say every problem, one block each; `file` is named where a problem does not name it."""
    of_file = f"{file}: " if file and not problems[0].where.startswith(file) else ""
    many = len(problems) > 1
    if of_file or many:
        say(f"{of_file}{len(problems)} thing{'s' if many else ''} to put right:\n")
    say("\n\n".join(map(problem_block, problems)))


def finding_block(finding: Worded) -> str:
    """One finding: how grave it is, its code, and its sentence."""
    return f"{finding.severity}: {finding.code}\n{_wrapped(finding.message)}"


def say_findings(findings: Iterable[Finding], figures: Figures) -> None:
    """Say refusals and cautions whole; notes are only counted.

    Args:
        findings: with their facts in mm and rad.
        figures: of their part: the unit and the decimal mark in which they are told.
    """
    from profilegen.findings.telling import worded

    say_worded(worded(findings, figures))


def say_worded(findings: Iterable[Worded]) -> None:
    """Say refusals and cautions whole; notes are only counted."""
    notes = 0
    for finding in findings:
        if finding.severity == "note":
            notes += 1
        else:
            say(finding_block(finding))
    if notes:
        talk(f"{notes} note{'s' if notes > 1 else ''}: see profilegen check")


def part_lines(part: Part, name: str = "", tells_size: bool = False) -> tuple[str, ...]:
    """What is said of every part: its outside diameter in both units, so that a slip of 25.4 shows,
    and each sign that no sheet can letter. `tells_size` where what is printed has that size."""
    of = f"{name}: " if name else ""
    diameter = None if tells_size else getattr(part.wheel, "outside_diameter", None)
    said = [] if diameter is None else [_diameter_line(part, diameter)]
    return tuple(of + line for line in (*said, *_unlettered(part)))


def _diameter_line(part: Part, diameter: float) -> str:
    return f"outside diameter {part.figures.both(diameter)}"


def _unlettered(part: Part) -> Iterator[str]:
    """A line for each text of the part with signs that the lettering of the sheets lacks."""
    texts = {"title": part.title, "number": part.number, "material": part.material}
    texts |= {f"cutter[{n}].name": cutter.name for n, cutter in enumerate(part.cutters, 1)}
    for key, text in texts.items():
        if text.isascii():
            continue
        from profilegen.drawing.lettering import lacks

        missing = lacks(text)
        if missing:
            signs = ", ".join(f"{sign} (U+{ord(sign):04X})" for sign in missing)
            yield f"{key}: sheets have no letter for {signs} and show ? in its place"


def say_written(written: Sequence[Written]) -> None:
    """List what was written, folder by folder, each file with its use."""
    folder: Path | None = None
    for item in written:
        if item.path.parent != folder:
            folder = item.path.parent
            talk("in this folder:" if folder == Path(".") else f"in {folder}:")
        state = " (unchanged)" if item.state == "unchanged" else ""
        words = f": {item.words}" if item.words else ""
        talk(f"  {item.use:<8} {item.path.name}{state}{words}")


def _wrapped(text: str, hang: int = 0) -> str:
    from profilegen.topics.columns import paragraph

    return "\n".join(paragraph(text, "    ", " " * hang))
