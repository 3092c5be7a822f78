"""The program: which commands there are, and which one a line of words means.

Owns the table of commands, the rule that `profilegen FILE` is `profilegen make FILE`, and what to
say to a mistyped command. Refuses imports: a command's module is loaded when it is called, not for
`--help`.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NoReturn

import click

from profilegen import __version__
from profilegen.cli.ending import exit_code, to_stdout
from profilegen.cli.options import COMPLETE, Command, file_names, write_examples

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

COMMANDS: Final[dict[str, tuple[str, str]]] = {
    "start": ("start:start", "Write a starter part file and a picture of its keys."),
    "check": ("check:check", "Solve the wheel; print its sizes and what to look out for."),
    "make": ("make:make", "Write everything: DXF, template, set-up sheet, numbers."),
    "dxf": ("single:dxf", "Write the DXF to send out."),
    "template": ("single:template", "Write the 1:1 check template."),
    "sheet": ("single:sheet", "Write the set-up sheet."),
    "stops": ("stops:stops", "Print the stops of the indexing head."),
    "trial": ("trial:trial", "Say how much deeper after measured trial cuts."),
    "cutters": ("cutters:cutters", "Compare the part's cutters on this wheel."),
    "gauge": ("gauge:gauge", "Print what to measure, over what, within which limits."),
    "completion": ("completion:completion", "Print the script that finishes words in your shell."),
    "words": ("words:words", "Say what a word, a key or a finding means at the bench."),
}
"""Name -> where the command is, below `profilegen.cli`, and its one line in `--help`."""

FIRST: Final = """\
From the numbers on a print to a toothed wheel. The first four commands to type:

  profilegen start ratchet         write a part file to fill in; with --ask, be asked instead
  profilegen check ratchet.toml    solve the wheel: its sizes, and what to look out for
  profilegen ratchet.toml          everything into out/ratchet/: DXF, template, set-up sheet
  profilegen words land            what a word means at the bench

profilegen --help shows every command."""

EXAMPLES: Final = (
    "profilegen make take-up-ratchet.toml",
    "profilegen make warp-beam-ratchet.toml --paper Letter",
)

_OWN_OPTIONS: Final = ("-h", "--help", "--version")

_FLAGS: Final = frozenset({"-q", "--quiet", "--force", "--open", "--json"})
"""Options that no value follows and that people type before the command."""

_NAMING: Final = frozenset({"--out", "--drawer", "--cutter", "--dxf", "--csv", "--example"})
"""Options behind which a word is a name, even where it is spelt as a command."""


class Program(click.Group):
    """The group of commands, each imported when it is called."""

    def main(self, args: Sequence[str] | None = None, *_: Any, **extra: Any) -> NoReturn:
        """Run one command and end the process with its exit code."""
        extra.update(standalone_mode=False, prog_name="profilegen", complete_var=COMPLETE)
        if COMPLETE in os.environ:
            import_module("profilegen.cli.completion")
        run = super().main
        sys.exit(exit_code(lambda: run(args, **extra)))

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Parse the words of the line, `make` put before a bare file; keep them in `ctx.obj`."""
        try:
            ctx.obj = routed(args)
        except click.UsageError:
            if not ctx.resilient_parsing:
                raise
            ctx.obj = ["make", *args]
        return super().parse_args(ctx, list(ctx.obj))

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, in the order in which they are of use."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import and return one command, or None."""
        if cmd_name not in COMMANDS:
            return None
        module, name = COMMANDS[cmd_name][0].split(":")
        command: Command = getattr(import_module(f"profilegen.cli.{module}"), name)
        return command

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """The commands that begin so, importing none; where none does, options or files."""
        from click.shell_completion import CompletionItem

        found = [
            CompletionItem(name, help=text)
            for name, (_, text) in COMMANDS.items()
            if name.startswith(incomplete)
        ]
        if incomplete.startswith("-"):
            return click.Command.shell_complete(self, ctx, incomplete)
        return found or file_names(ctx, self.params[0], incomplete)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands from the table, importing none."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, text) for name, (_, text) in COMMANDS.items()])

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """End the help with two examples."""
        write_examples(formatter, EXAMPLES)


def routed(words: Sequence[str]) -> list[str]:
    """The words of a line with the command in front; a file, or an option of `make`, means `make`.

    Raises:
        click.UsageError: the first word but options is neither a command nor a file.
    """
    place = _command_at(words)
    if place is not None:
        return [words[place], *words[:place], *words[place + 1 :]]
    if not words or words[0] in _OWN_OPTIONS:
        return list(words)
    first = next((word for word in words if word not in _FLAGS), "-")
    if first.startswith("-") or looks_like_file(first):
        return ["make", *words]
    raise click.UsageError(_no_such_command(first))


def _command_at(words: Sequence[str]) -> int | None:
    """Where the command stands: the first word, or behind options and what belongs to them."""
    for place, word in enumerate(words):
        before = words[place - 1] if place else ""
        if word in COMMANDS and before not in _NAMING:
            return place
        if word in _OWN_OPTIONS or not (word.startswith("-") or before.startswith("-")):
            return None
        if before in _FLAGS and not word.startswith("-"):
            return None
    return None


def looks_like_file(word: str) -> bool:
    """Whether a word is meant as a part file: by a dot, a folder mark, or because it is there."""
    if any(sign in word for sign in "./\\"):
        return True
    try:
        return Path(word).exists() or Path(f"{word}.toml").exists()
    except (OSError, ValueError):
        return False


def _no_such_command(word: str) -> str:
    from difflib import get_close_matches

    close = get_close_matches(word.lower(), COMMANDS, n=1, cutoff=0.5)
    guess = f" Did you mean {close[0]}?" if close else ""
    return (
        f"there is no command {word[:60]!r}.{guess}\n"
        f"Commands: {', '.join(COMMANDS)}. A part file is named whole, with its .toml."
    )


@click.group(
    cls=Program,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="profilegen", message="%(prog)s %(version)s")
@click.pass_context
def app(ctx: click.Context) -> None:
    """From the numbers on a print to a toothed wheel.

    One part file goes in; the outline, the cutter's poses, the DXF, a 1:1 template and a set-up
    sheet come out. `profilegen FILE` is the same as `profilegen make FILE`.
    """
    if ctx.invoked_subcommand is None:
        to_stdout(f"{FIRST}\n")


def main(args: Sequence[str] | None = None) -> NoReturn:
    """Run the program on `args`, or on the words typed, and end the process."""
    app.main(args)
