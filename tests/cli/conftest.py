"""A folder with the shipped example parts, and nothing else, to run commands in."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilegen.cli.templates import example_bytes, example_names


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The current folder, with every example in it."""
    monkeypatch.chdir(tmp_path)
    for name in example_names():
        (tmp_path / f"{name}.toml").write_bytes(example_bytes(name))
    return tmp_path
