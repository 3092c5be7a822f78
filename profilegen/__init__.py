"""From the numbers on a print to a toothed wheel: outline, cutter poses, set-up sheet, template,
DXF.

The public names, resolved when first used, so that importing the package costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from profilegen.errors import InputError, OutputError, Problem, ProfilegenError
    from profilegen.findings.cannot_make import CannotMakeError
    from profilegen.findings.finding import Finding
    from profilegen.findings.telling import told
    from profilegen.job import Job, job_for
    from profilegen.output.registry import Kind, Options, Paper, Version, build
    from profilegen.part.load import load
    from profilegen.part.part import Part
    from profilegen.topics.dicts import job_dict

__version__ = "0.1.0"

_HOMES = {
    "CannotMakeError": "findings.cannot_make",
    "Finding": "findings.finding",
    "InputError": "errors",
    "Job": "job",
    "Kind": "output.registry",
    "Options": "output.registry",
    "OutputError": "errors",
    "Paper": "output.registry",
    "Part": "part.part",
    "Problem": "errors",
    "ProfilegenError": "errors",
    "Version": "output.registry",
    "build": "output.registry",
    "job_dict": "topics.dicts",
    "job_for": "job",
    "load": "part.load",
    "told": "findings.telling",
}

__all__ = [
    "CannotMakeError",
    "Finding",
    "InputError",
    "Job",
    "Kind",
    "Options",
    "OutputError",
    "Paper",
    "Part",
    "Problem",
    "ProfilegenError",
    "Version",
    "build",
    "job_dict",
    "job_for",
    "load",
    "told",
]


def __getattr__(name: str) -> object:
    if name not in _HOMES:
        raise AttributeError(f"module 'profilegen' has no attribute '{name}'")
    return getattr(import_module(f"profilegen.{_HOMES[name]}"), name)


def __dir__() -> list[str]:
    return [*__all__, "__version__"]
