"""The lowest versions that `pyproject.toml` declares, as constraints for pip, on standard output.

A line for each requirement of the program and of its tests: `name==version`.
"""

import re
import sys
import tomllib
from pathlib import Path


def constraints(text: str) -> list[str]:
    """The constraints of a project file; a requirement without a lowest version is an error."""
    project = tomllib.loads(text)["project"]
    found = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    lines = []
    for requirement in found:
        match = re.fullmatch(r"([A-Za-z0-9_.-]+)>=([0-9.]+)", requirement)
        if match is None:
            raise SystemExit(f"{requirement}: write it as name>=lowest")
        lines.append(f"{match[1]}=={match[2]}")
    return lines


if __name__ == "__main__":
    project_file = Path(__file__).parent.parent / "pyproject.toml"
    sys.stdout.write("\n".join(constraints(project_file.read_text("utf-8"))) + "\n")
