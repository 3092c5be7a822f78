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
