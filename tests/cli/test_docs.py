"""The README and the program agree on the commands."""

from __future__ import annotations

import re

import pytest

from profilegen.cli.program import COMMANDS, looks_like_file
from tests.cli.support import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_stands_in_the_readme(name: str) -> None:
    """No command is missing from the README."""
    assert re.search(rf"\bprofilegen {name}\b", README)


def test_the_readme_names_no_other_command() -> None:
    """Every line to type in the README begins with a command that there is, or a file."""
    blocks = re.findall(r"^```\w*\n(.*?)^```", README, re.DOTALL | re.MULTILINE)
    lines = [line.strip() for block in blocks for line in block.splitlines()]
    said = [line.split()[1] for line in lines if re.match(r"profilegen [^-]", line)]
    assert [word for word in said if word not in COMMANDS and not looks_like_file(word)] == []
