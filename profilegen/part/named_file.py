"""A file that a key of a part or drawer names: where it is, what it holds, what is wrong with it.

What is wrong is told at the key that names the file. A file outside the folder of the part may hold
anything: of one that is no TOML only the place is told, never a line of it.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from profilegen.errors import InputError, Problem
from profilegen.part.kinds import bracketed
from profilegen.part.model_errors import shown
from profilegen.part.reading import named, parsed, text_of

MOST_TOLD = 5
"""Problems of a named file that are told."""


@dataclass(frozen=True, slots=True)
class NamedFile:
    """A file that a key names.

    Attributes:
        where: the key path that names it.
        name: as it stands there.
        path: where it is.
        tree: the folder of the part or drawer that led to it.
    """

    where: str
    name: str
    path: Path
    tree: Path

    @property
    def is_near(self) -> bool:
        """Whether it lies in the folder that led to it or below, links followed."""
        try:
            return Path(os.path.realpath(self.path)).is_relative_to(os.path.realpath(self.tree))
        except (OSError, ValueError):
            return False

    def text(self, what: str = "a part file") -> str:
        """Return its text; `what` a file of this sort is, for the message when it is too big.

        Raises:
            InputError: it cannot be read, or is no text.
        """
        try:
            return text_of(self.path, what)
        except InputError as error:
            near = self.is_near
            raise self.error(p if near else _without_lines(p) for p in error.problems) from None

    def tables(self, text: str, table: str, hint: str) -> dict[str, Any]:
        """Return the tables in its text, of which one is wanted.

        Args:
            text: what it holds.
            table: the one that must be there.
            hint: what to do when it is not.

        Raises:
            InputError: it is no TOML, or has no such table.
        """
        try:
            found = parsed(text, named(self.path), hint)
        except InputError as error:
            raise self.error(self._in_public(error.problems)) from None
        if table not in found:
            message = f"there is no table {bracketed(table)} in it"
            raise self.error((Problem(named(self.path), message, hint=hint),))
        return found

    def _in_public(self, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
        """Return what is wrong with a text that is no TOML; from far away only the first place."""
        if self.is_near:
            return problems
        return (Problem(problems[0].where, "this is no TOML"),)

    def error(self, problems: Iterable[Problem]) -> InputError:
        """Return the error at the key for what is wrong within the file."""
        return InputError(*(self._at_key(problem) for problem in list(problems)[:MOST_TOLD]))

    def _at_key(self, problem: Problem) -> Problem:
        inside = "" if problem.where.startswith(named(self.path)) else f"{named(self.path)}: "
        message = f"{inside}{problem.where}: {problem.message}"
        return replace(problem, where=self.where, message=message, got=problem.got or self._shown)

    @property
    def _shown(self) -> str:
        return shown(self.name)


def _without_lines(problem: Problem) -> Problem:
    """Return a problem without the line that it shows, and what was taken from it."""
    return replace(problem, got="", hint="", excerpt="") if problem.excerpt else problem
