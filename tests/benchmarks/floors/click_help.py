"""Floor of `profilegen --help`: a bare click program with as many commands."""

import click


@click.group()
def program() -> None:
    """Do nothing, in nine ways."""


for name in ("start", "check", "make", "dxf", "template", "sheet", "stops", "cutters", "words"):
    program.command(name, help="Do nothing.")(lambda: None)

if __name__ == "__main__":
    program(["--help"])
