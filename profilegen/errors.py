"""The one error tree.

Owns: what went wrong as data (`Problem`), and the exit code of each kind of failure. What a wheel
cannot be made for is a `findings.cannot_make.CannotMakeError`, of this tree too.
Refuses: printing, and any knowledge of where text goes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


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
class Worded:
    """A finding as it is said, without what only the program needs.

    Attributes:
        code: its word code.
        severity: `refused`, `caution` or `note`.
        message: its sentence.
    """

    code: str
    severity: Literal["refused", "caution", "note"]
    message: str


class ProfilegenError(Exception):
    """Base of every error that this package raises on purpose.

    Attributes:
        exit_code: what the command line ends with.
    """

    exit_code = 1

    def __init__(self, *problems: Problem) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self._problems = problems

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong, in the order found; never empty."""
        return self._problems

    def __str__(self) -> str:
        return "\n".join(str(problem) for problem in self.problems)


class InputError(ProfilegenError, ValueError):
    """The part file or the command line cannot be understood or is not allowed."""

    exit_code = 2


class OutputError(ProfilegenError, OSError):
    """A file cannot be written, or exists and may not be replaced."""

    exit_code = 4
