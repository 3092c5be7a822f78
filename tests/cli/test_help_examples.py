"""Every example in every help text is typed and works."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from profilegen.cli.program import COMMANDS
from tests.cli.support import run


def examples(*words: str) -> list[list[str]]:
    """The example lines at the end of a help text, as words without the program's name."""
    text = run(*words, "--help").stdout
    lines = text.rpartition("\nExamples")[2].splitlines()[1:]
    return [shlex.split(line)[1:] for line in lines if line.startswith("  profilegen ")]


@pytest.mark.parametrize("name", ["", *COMMANDS])
def test_help_ends_with_two_examples_that_run(shop: Path, name: str) -> None:
    """Each help ends with two examples; each runs to exit code 0 in a folder with the shipped
    parts."""
    found = examples(*([name] if name else []))
    assert len(found) == 2
    for words in found:
        done = run(*words)
        assert (done.exit_code, "sorry" in done.stderr) == (0, False), done.stderr


@pytest.mark.parametrize(
    "name", [name for name in COMMANDS if name not in ("start", "words", "completion")]
)
def test_examples_are_of_both_units(name: str) -> None:
    """The examples of a command that takes a part are one of the mm part and one of the inch
    part."""
    parts = {word for words in examples(name) for word in words if word.endswith("ratchet.toml")}
    assert parts == {"take-up-ratchet.toml", "warp-beam-ratchet.toml"}


def test_help_promises_what_is_written(shop: Path) -> None:
    """`make` names every sort of file that it writes; where an SVG holds the first page only, help
    and the line that tells of the file say so; an R12 file names its unit in a comment, and in its
    name only where `dxf` gives it one."""
    told = " ".join(run("make", "--help").stdout.split())
    for sort in ("DXF", "check template", "set-up sheet", "record sheet", "CSV", "JSON"):
        assert sort in told
    for name in ("sheet", "stops", "gauge"):
        assert "first page" in " ".join(run(name, "--help").stdout.split())
    assert "first page" in run("sheet", "take-up-ratchet.toml").stderr
    assert "every page" in run("sheet", "take-up-ratchet.toml", "--pdf").stderr
    for words in (("--out", "own.dxf"), ()):
        assert run("dxf", "take-up-ratchet.toml", "--dxf-version", "R12", *words).exit_code == 0
    named = Path("out/take-up-ratchet/take-up-ratchet-R12-mm.dxf")
    for path in (Path("own.dxf"), named):
        text = path.read_text(encoding="utf-8")
        assert text.startswith("999\n")
        assert "millimetres" in text.splitlines()[1]
