"""`completion`: the script by which a shell finishes words when the tab key is pressed.

The scripts for bash, zsh and fish are those of the command library; the one for PowerShell, and
what it asks the program for, is here.
"""

from __future__ import annotations

import os
from typing import Any

import click
from click.shell_completion import (
    CompletionItem,
    ShellComplete,
    add_completion_class,
    get_completion_class,
)

from profilegen.cli.ending import to_stdout
from profilegen.cli.options import COMPLETE, Command

SHELLS = ("bash", "zsh", "fish", "powershell")

_POWERSHELL = """\
Register-ArgumentCompleter -Native -CommandName %(prog_name)s -ScriptBlock {
    param($word, $line, $position)
    $before = @($line.CommandElements | Where-Object { $_.Extent.EndOffset -lt $position })
    $env:COMP_WORDS = ($before | ForEach-Object { $_.Extent.Text }) -join "`n"
    $env:COMP_WORD = $word
    $env:%(complete_var)s = 'powershell_complete'
    try {
        & $line.GetCommandName() | ForEach-Object {
            $type, $value, $help = $_ -split "`t", 3
            if ($type -eq 'plain') {
                [System.Management.Automation.CompletionResult]::new(
                    $value, $value, 'ParameterValue', $help)
            }
        }
    }
    finally {
        Remove-Item Env:COMP_WORDS, Env:COMP_WORD, Env:%(complete_var)s
    }
}
"""
"""Where nothing is offered PowerShell offers files by itself."""


class PowerShellComplete(ShellComplete):
    """Completion in PowerShell: whole words before the cursor, one a line, and the word begun."""

    name = "powershell"
    source_template = _POWERSHELL

    def get_completion_args(self) -> tuple[list[str], str]:
        """The whole words behind the program's name, and the word begun."""
        words = os.environ.get("COMP_WORDS", "").split("\n")
        return [_bare(word) for word in words[1:]], _bare(os.environ.get("COMP_WORD", ""))

    def format_completion(self, item: CompletionItem) -> str:
        """One offer: its type, the word, and a line about it, which PowerShell wants not empty."""
        return f"{item.type}\t{item.value}\t{item.help or item.value}"


def _bare(word: str) -> str:
    return word[1:-1] if len(word) > 1 and word[0] == word[-1] and word[0] in "'\"" else word


add_completion_class(PowerShellComplete)


@click.command(
    cls=Command,
    examples=("profilegen completion bash", "profilegen completion powershell"),
)
@click.argument("shell", type=click.Choice(SHELLS))
@click.pass_context
def completion(ctx: click.Context, shell: str) -> None:
    """Print the script by which a SHELL finishes commands, options and file names with the tab key.

    \b
    bash        a line in ~/.bashrc:  eval "$(profilegen completion bash)"
    zsh         a line in ~/.zshrc:   eval "$(profilegen completion zsh)"
    fish        profilegen completion fish > ~/.config/fish/completions/profilegen.fish
    powershell  a line in $PROFILE:   profilegen completion powershell | Out-String | iex
    """
    to_stdout(f"{script(shell, ctx.find_root().command)}\n".encode())


def script(shell: str, program: click.Command) -> str:
    """The script of one shell; without asking whether that shell is at hand."""
    kind: Any = get_completion_class(shell)
    return ShellComplete.source(kind(program, {}, "profilegen", COMPLETE)).strip("\n")
