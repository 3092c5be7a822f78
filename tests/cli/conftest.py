"""A folder with the shipped example parts, and nothing else, to run commands in."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from profilegen.cli import samples
from profilegen.cli.templates import example_bytes, example_names
from profilegen.output.registry import OUTPUTS


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The current folder, with every example in it."""
    monkeypatch.chdir(tmp_path)
    for name in example_names():
        (tmp_path / f"{name}.toml").write_bytes(example_bytes(name))
    return tmp_path


@pytest.fixture
def no_samples(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave out the samples that suit the wheel asked for: a dozen jobs are tried for them, and
    where the questions are what is tested nobody looks at them."""
    real = samples.samples_for
    monkeypatch.setattr(samples, "samples_for", lambda _, *rest: real(None, *rest))


@pytest.fixture
def no_sheets() -> Iterator[None]:
    """Have `make` write no sheets, which take most of its time, where any files will do; the order
    of the outputs, in which a record lists them, is put back as it was."""
    kept = dict(OUTPUTS)
    for name in ("sheet-svg", "sheet-pdf", "record-pdf"):
        del OUTPUTS[name]
    yield
    OUTPUTS.clear()
    OUTPUTS.update(kept)
