"""How the tests of the command line run it: in this process, or as a user does."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from click.testing import CliRunner, Result

from profilegen.cli.program import app

ROOT = Path(__file__).resolve().parents[2]


def run(*words: str, answers: str | bytes | None = None) -> Result:
    """Run one command in this process; `answers` come from standard input."""
    return CliRunner().invoke(app, list(words), input=answers)


def real(
    *words: str, code: str = "", answers: bytes = b"", **extra: str
) -> subprocess.CompletedProcess[bytes]:
    """Run `python -m profilegen`, or the Python text `code`, as a process of its own.

    `answers` come from standard input; other names are put into its environment.
    """
    start = ["-c", code] if code else ["-m", "profilegen"]
    return subprocess.run(
        [sys.executable, *start, *words],
        capture_output=True,
        input=answers,
        env=environment() | extra,
        check=False,
        timeout=120,
    )


def environment() -> dict[str, str]:
    """The environment in which a process finds the package under test."""
    return {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}


def files_below(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, hidden ones too, by its path."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def changed(path: Path, old: str, new: str) -> None:
    """Change one piece of a text file that must be there."""
    text = path.read_text(encoding="utf-8")
    if old not in text:
        raise AssertionError(f"{old!r} is not in {path}")
    path.write_text(text.replace(old, new), encoding="utf-8")
