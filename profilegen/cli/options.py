"""What every command looks like: two examples at the end of its help, and the shared options.

Owns the options that mean the same everywhere. Refuses to do anything.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

import click

from profilegen.cli.saying import QUIET

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

F = TypeVar("F", bound=Callable[..., Any])

COMPLETE = "_PROFILEGEN_COMPLETE"
"""The name in the environment by which a shell asks for the words that may come next."""


def file_names(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """What makes a shell offer the files that are there, to a word that was begun."""
    from click.shell_completion import CompletionItem

    return [CompletionItem(begun, type="file")]


LEAST_SCALE, MOST_SCALE = 0.1, 100.0


def scale_read(ctx: click.Context, param: click.Parameter, text: str | None) -> float | None:
    """A scale such as `2`, `10:1` or `1:2` as times full size, mm on paper for each mm of the part.

    Raises:
        click.BadParameter: it is none, or out of range.
    """
    from profilegen.units import UnitsError, parse_scale

    if text is None:
        return None
    try:
        scale = parse_scale(text)
    except UnitsError as error:
        allowed = f"; allowed: {error.allowed}" if error.allowed else ""
        raise click.BadParameter(f"{text[:40]!r}: {error.message}{allowed}.") from None
    if not LEAST_SCALE <= scale <= MOST_SCALE:
        raise click.BadParameter(f"{text[:40]!r} is out of range; allowed: 1:10 to 100:1.")
    return scale


def _be_quiet(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    ctx.meta[QUIET] = wanted


class Command(click.Command):
    """A command whose help ends with two examples, inch and mm, on the shipped parts."""

    def __init__(self, *args: Any, examples: Sequence[str] = (), **extra: Any) -> None:
        super().__init__(*args, **extra)
        self.examples = tuple(examples)
        self.params.append(
            click.Option(
                ["-q", "--quiet"],
                is_flag=True,
                expose_value=False,
                is_eager=True,
                callback=_be_quiet,
                help="Say only what is wrong or needs a look.",
            )
        )

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """End the help with the examples."""
        write_examples(formatter, self.examples)


def write_examples(formatter: click.HelpFormatter, examples: Sequence[str]) -> None:
    """Write example lines as they are, never wrapped, so that they can be typed."""
    on_parts = any("-ratchet.toml" in line for line in examples)
    source = ", on parts that `profilegen start --example NAME` writes" if on_parts else ""
    formatter.write(f"\nExamples{source}:\n")
    for line in examples:
        formatter.write(f"  {line}\n")


def command(*examples: str) -> Callable[[Callable[..., Any]], Command]:
    """Make a function a command with these examples in its help."""
    return click.command(cls=Command, examples=examples)


def file_argument(function: F) -> F:
    """`FILE`: one part file, `-` for standard input, not opened by click, so that our own words
    say what is wrong."""
    return click.argument("file", metavar="FILE", shell_complete=file_names)(function)


def look_options(function: F) -> F:
    """`--units`, `--decimal`: how sizes are written; the sizes themselves stay."""
    function = click.option(
        "--decimal",
        type=click.Choice(["point", "comma"]),
        help="Decimal mark in what people read; that of the part file when left out.",
    )(function)
    return click.option(
        "--units",
        type=click.Choice(["mm", "in"]),
        help="Unit of what is written; that of the part file when left out.",
    )(function)


def version_option(function: F) -> F:
    """`--dxf-version`."""
    return click.option(
        "--dxf-version",
        "version",
        type=click.Choice(["R12", "R2000", "R2010"], case_sensitive=False),
        metavar="[R12|R2000|R2010]",
        default="R2010",
        show_default=True,
        help="DXF version; R12 carries no units, so a comment in the file says them.",
    )(function)


def paper_option(function: F) -> F:
    """`--paper`."""
    return click.option(
        "--paper",
        type=click.Choice(["A4", "Letter"], case_sensitive=False),
        metavar="[A4|Letter]",
        help="Paper size; A4 for mm parts and Letter for inch parts when left out.",
    )(function)


def force_option(function: F) -> F:
    """`--force`."""
    return click.option(
        "--force", is_flag=True, help="Replace files that are there with other contents."
    )(function)


def open_option(function: F) -> F:
    """`--open`."""
    return click.option(
        "--open", "show", is_flag=True, help="Open what was written in its usual program."
    )(function)


def command_typed(ctx: click.Context, *more: str) -> str:
    """The whole line as typed, quoted for the shell, with `more` behind the command."""
    from shlex import join

    words = list(ctx.find_root().obj)
    return join(["profilegen", words[0], *more, *words[1:]])


def command_again(ctx: click.Context) -> str:
    """The whole line as typed, quoted for the shell, with `--force` behind the command."""
    return command_typed(ctx, "--force")
