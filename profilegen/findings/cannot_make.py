"""What is raised where a wheel or a cut cannot be made as asked."""

from __future__ import annotations

from profilegen.errors import Problem, ProfilegenError
from profilegen.figures import MM, Figures
from profilegen.findings.finding import Finding


class CannotMakeError(ProfilegenError, ValueError):
    """The wheel or the cut cannot be made as asked.

    Attributes:
        findings: the `refused` findings that say why.
        figures: how they are written: the part's unit and decimal mark.
    """

    exit_code = 3

    def __init__(self, *findings: Finding, figures: Figures = MM) -> None:
        super().__init__()
        self.args = findings
        self.findings = findings
        self.figures = figures

    @property
    def problems(self) -> tuple[Problem, ...]:
        """The findings in words, each with its place."""
        from profilegen.findings.telling import told

        return tuple(Problem(one.where, told(one, self.figures)) for one in self.findings)
