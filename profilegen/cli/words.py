"""`words`: what a word, a key or a finding code means at the bench."""

from __future__ import annotations

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.options import Command
from profilegen.errors import InputError, Problem


@click.command(
    cls=Command, examples=("profilegen words land", "profilegen words hook_angle web-thin")
)
@click.argument("words", metavar="[WORD]...", nargs=-1)
def words(words: tuple[str, ...]) -> None:
    """Say what a WORD means at the bench: of the trade, a key of the part file, a finding's code.

    Without a WORD every one is listed.
    """
    from profilegen.topics.words import all_words_text, find, words_text

    if not words:
        to_stdout(all_words_text())
        return
    asked = " ".join(words)
    whole = find(asked)
    found = {asked: whole} if whole else {word: find(word) for word in words}
    unknown = [word for word, entries in found.items() if not entries]
    if unknown:
        raise InputError(*map(_unknown, unknown))
    to_stdout(words_text(entry for entries in found.values() for entry in entries))


def _unknown(word: str) -> Problem:
    from profilegen.part.model_errors import shown
    from profilegen.topics.words import guesses

    close = guesses(word)
    hint = f"did you mean {', '.join(close)}?" if close else "profilegen words lists all of them"
    return Problem("words", "this word is not known here", shown(word), hint=hint)
