"""The shipped part files are found wherever the package stands."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilegen.cli.templates import example_names, starter_kinds
from profilegen.part import shipped
from profilegen.part.shipped import templates_folder


def test_found_in_the_source_tree() -> None:
    """In the source tree they stand beside the package, and there are some of each sort."""
    assert (templates_folder() / "starters").is_dir()
    assert "ratchet" in starter_kinds()
    assert len(example_names()) >= 2


def test_found_in_an_installed_package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In an installed package they stand inside it, and those are taken first."""
    (tmp_path / "profilegen" / "templates" / "starters").mkdir(parents=True)
    (tmp_path / "templates" / "starters").mkdir(parents=True)
    monkeypatch.setattr(shipped, "files", lambda _: tmp_path / "profilegen")
    assert templates_folder() == tmp_path / "profilegen" / "templates"


def test_a_package_that_is_not_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without them the fault names the place."""
    monkeypatch.setattr(shipped, "files", lambda _: tmp_path / "profilegen")
    with pytest.raises(FileNotFoundError, match="no shipped part files"):
        templates_folder()


def test_no_file_but_part_files_is_shipped_here() -> None:
    """All three folders hold TOML files only."""
    for folder in ("starters", "examples", "drawers"):
        assert {path.suffix for path in (templates_folder() / folder).iterdir()} == {".toml"}
