"""Floor of `profilegen check`: import what it needs, and read the TOML through one model."""

import sys
import tomllib
from pathlib import Path

import click
import numpy as np
from pydantic import BaseModel


class Part(BaseModel):
    """As little of a part file as a model can say."""

    title: str
    units: str
    wheel: dict[str, object]


def read(path: str) -> Part:
    """Read the file through the libraries that are counted."""
    return Part.model_validate(tomllib.loads(Path(path).read_text(encoding="utf-8")))


if __name__ == "__main__":
    click.echo(f"{read(sys.argv[1]).title} {np.pi}")
