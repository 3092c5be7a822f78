"""Floor of `profilegen stops`: read the part as `check` has to, and print a thousand lines."""

import sys

import click

from tests.benchmarks.floors.read_part import read

if __name__ == "__main__":
    title = read(sys.argv[1]).title
    for stop in range(1000):
        click.echo(f"{stop + 1:4} {title} {stop * 0.36:9.4f}")
