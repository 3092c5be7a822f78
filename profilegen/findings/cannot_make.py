"""What is raised where a wheel or a cut cannot be made as asked."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from profilegen.errors import Problem, ProfilegenError

if TYPE_CHECKING:
    from profilegen.figures import Figures
    from profilegen.findings.finding import Finding


class CannotMakeError(ProfilegenError, ValueError):
    """The wheel or the cut cannot be made as asked.

    Attributes:
        findings: the `refused` findings that say why.
    """

    exit_code = 3

    def __init__(self, *findings: Finding, figures: Figures | None = None) -> None:
        super().__init__()
        self.args = findings
        self.findings = findings
        self._figures = figures

    @property
    def figures(self) -> Figures:
        """How they are written: the part's unit and decimal mark; mm where nobody has said."""
        from profilegen.figures import MM

        return self._figures or MM

    @property
    def problems(self) -> tuple[Problem, ...]:
        """The findings in words, each with its place."""
        from profilegen.findings.telling import told

        return tuple(Problem(one.where, told(one, self.figures)) for one in self.findings)


@contextmanager
def told_in(figures: Figures) -> Iterator[None]:
    """Tell with these figures, their unit and decimal mark, what cannot be made within."""
    try:
        yield
    except CannotMakeError as refusal:
        raise CannotMakeError(*refusal.findings, figures=figures) from refusal
