"""The one error tree and the findings.

Owns: what went wrong as data (`Problem`), what a careful machinist would object to
(`Finding`), and the exit code of each kind of failure.
Refuses: printing, and any knowledge of where text goes.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Severity = Literal["refused", "caution", "note"]


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong, where it is, and what to do about it.

    Attributes:
        where: key path in the part file (`wheel.teeth`, `cutter[2].name`) or a file name,
            with `, line 7` behind it when a line is known.
        message: one sentence that says what is wrong.
        got: the value as it was given, or empty.
        allowed: what would be accepted, or empty.
        hint: the next step to take, or empty.
        excerpt: lines to show as they stand (the line, a caret, the corrected line), or empty.
    """

    where: str
    message: str
    got: str = ""
    allowed: str = ""
    hint: str = ""
    excerpt: str = ""

    def __str__(self) -> str:
        parts = [f"{self.where}: {self.message}"]
        if self.got:
            parts.append(f"got {self.got}")
        if self.allowed:
            parts.append(f"allowed: {self.allowed}")
        if self.hint:
            parts.append(self.hint)
        text = "; ".join(parts)
        return f"{text}\n{self.excerpt}" if self.excerpt else text


@dataclass(frozen=True, slots=True)
class Remedy:
    """One value that mends a finding, written at one key of the part file.

    Attributes:
        key: the key path, `wheel.land` or `cutter[2].tip_radius`, lists counted from 1.
        value: as a person would type it there: a size with its unit (`"0.2 mm"`, `"14 deg"`),
            rounded to the side that passes; a whole number for a count; a word; true or false.
            None when the key is to be taken out.
    """

    key: str
    value: str | int | bool | None


@dataclass(frozen=True, slots=True)
class Finding:
    """Something about the wheel or its making that the user should know.

    Attributes:
        code: a fixed word code, such as `land-thin`.
        severity: `refused` (cannot be made as asked), `caution`, or `note`.
        message: one sentence that ends with the key to change and a value that would pass.
        where: the key path to change.
        value: the value found, mm or degrees, or None.
        limit: the value it is held against, in the same unit, or None.
        remedy: a value that mends it, or None where no single value is known to: with it written
            the finding goes and nothing new is refused.
    """

    code: str
    severity: Severity
    message: str
    where: str
    value: float | None = None
    limit: float | None = None
    remedy: Remedy | None = None


def refused(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Those that say what cannot be made as asked, in order."""
    return tuple(finding for finding in findings if finding.severity == "refused")


class Refusal(ValueError):
    """What cannot be, found inside a computation; a room to the right words it as a `Finding`.

    Attributes:
        code: the finding's word code.
        value: what was found, mm or an angle, or None.
        limit: what it is held against, same unit, or None.
    """

    def __init__(
        self, code: str, message: str, value: float | None = None, limit: float | None = None
    ) -> None:
        super().__init__(message)
        self.code = code
        self.value = value
        self.limit = limit


class ProfilegenError(Exception):
    """Base of every error that this package raises on purpose.

    Attributes:
        problems: what is wrong, in the order found; never empty.
        exit_code: what the command line ends with.
    """

    exit_code = 1

    def __init__(self, *problems: Problem) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems

    def __str__(self) -> str:
        return "\n".join(str(problem) for problem in self.problems)


class InputError(ProfilegenError, ValueError):
    """The part file or the command line cannot be understood or is not allowed."""

    exit_code = 2


class CannotMakeError(ProfilegenError, ValueError):
    """The wheel or the cut cannot be made as asked.

    Attributes:
        findings: the `refused` findings that say why.
    """

    exit_code = 3

    def __init__(self, *findings: Finding) -> None:
        super().__init__(*(Problem(f.where, f.message) for f in findings))
        self.findings = findings


class OutputError(ProfilegenError, OSError):
    """A file cannot be written, or exists and may not be replaced."""

    exit_code = 4
