"""What the user probably meant by a key, a table or a word that does not exist.

Owns: the order of guesses: another name in the same table, the same key in another table, a
near spelling, another name elsewhere.
Refuses: taking a guess as an answer; a guess only ever becomes a hint.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import pairwise

from profilegen.part import kinds, synonyms
from profilegen.part.kinds import bracketed
from profilegen.part.missing_lines import usual_line

LONGEST = 80
"""Characters of a word that are looked at."""

LIKENESS = 0.72
"""Least likeness (0 to 1, of `difflib`) at which a spelling counts as near."""


@dataclass(frozen=True, slots=True)
class Guess:
    """What was probably meant.

    Attributes:
        hint: the sentence for the user.
        key: the key of the same table that was meant, or empty.
    """

    hint: str
    key: str = ""


def near(word: str, known: Iterable[str]) -> str:
    """Return the likeliest of `known` for a misspelt word, or an empty text.

    A word of the other sense is never returned, however much alike it is spelt: `decreases` is no
    misspelt `increases`.
    """
    found = get_close_matches(word[:LONGEST], list(known), n=1, cutoff=LIKENESS)
    return found[0] if found and _same_sense(word[:LONGEST], found[0]) else ""


def _same_sense(word: str, guess: str) -> bool:
    """Whether a guess differs from what was written by its spelling only."""
    written, meant = _words(word), _words(guess)
    for one, other in (*synonyms.OPPOSITES, *((b, a) for a, b in synonyms.OPPOSITES)):
        if one in word.lower() and other in guess and one not in guess:
            return False
    whole, before = "".join(meant), len("".join(written)) - len("".join(meant))
    if before > 1 and "".join(written).endswith(whole):
        return False
    known = [*meant, *(a + b for a, b in pairwise(meant)), whole]
    return all(len(one) <= 3 or get_close_matches(one, known, 1, LIKENESS) for one in written)


def _words(text: str) -> list[str]:
    """The words of a name or a value, in lower case."""
    return re.findall(r"[^\W_]+", text.lower())


def plain(word: str) -> str:
    """Return a key in the spelling of part files: lower case, low lines, whole words, one
    spelling."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])", "_", word.strip()[:LONGEST])
    words = parted.lower().replace("-", "_").replace(" ", "_").split("_")
    text = "_".join(synonyms.SHORT.get(each, each) for each in words)
    for other, ours in synonyms.SPELLINGS:
        text = text.replace(other.replace("-", "_"), ours.replace("-", "_"))
    return text


def heading(table: str) -> str:
    """Return where the keys of a table stand, such as `under [wheel]`."""
    if not table:
        return "at the top of the file, above all tables"
    return f"under [[{table}]]" if table in kinds.LISTS else f"under [{table}]"


def key_guess(key: str, table: str, own: Iterable[str]) -> Guess:
    """Guess what an unknown key of a table stands for.

    Args:
        key: the key as written.
        table: the table it stands in, empty for the top of the file.
        own: the keys that this table of this kind has.
    """
    word, known = plain(key), frozenset(own)
    if word in known:
        return Guess(f"write {word}", word)
    named = synonyms.KEYS.get(table, {}).get(word, "")
    if named in known:
        return Guess(f"write {named}", named)
    if f"{word}s" in known:
        line = usual_line(table, f"{word}s", "mm") or f"{word}s"
        return Guess(f"write {line}, with your own values", f"{word}s")
    elsewhere = _elsewhere(word, table)
    if elsewhere:
        return Guess(elsewhere)
    spelt = near(word, known)
    if spelt:
        return Guess(f"did you mean {spelt}?", spelt)
    return Guess(_far(word, table, named))


def _far(word: str, table: str, named: str) -> str:
    """Return a hint that leads out of the table, or an empty text."""
    if "." in named:
        home, key = named.split(".")
        return f"write {key} {heading(home)}"
    if word in synonyms.NOTES:
        return synonyms.NOTES[word]
    for other, names in synonyms.KEYS.items():
        target = names.get(word, "")
        if target and other != table and "." not in target:
            return f"write {target} {heading(other)}"
    return ""


def _elsewhere(word: str, table: str) -> str:
    """Return where a real key belongs when it stands in the wrong table or kind."""
    for other, kind, keys in all_keys():
        if word in keys:
            of_kind = f' of kind "{kind}"' if kind and table == other else ""
            return f"{word} belongs {heading(other)}{of_kind}"
    return ""


def all_keys() -> list[tuple[str, str, frozenset[str]]]:
    """Return (table, kind, keys) of every model; imports all kinds, for error texts only."""
    singles = [(table, "") for table in kinds.SINGLE]
    kinded = [(table, kind) for table, names in kinds.KINDS.items() for kind in names]
    wheels = [pair for pair in kinded if pair[0] == "wheel"]
    rest = [pair for pair in kinded if pair[0] != "wheel"]
    return [
        (table, kind, frozenset(kinds.model(table, kind).model_fields))
        for table, kind in wheels + rest + singles
    ]


def table_guess(name: str) -> str:
    """Return a hint for an unknown table, or an empty text."""
    word = plain(name)
    found = word if word in kinds.TABLES else synonyms.TABLES.get(word, "")
    found = found or near(word, kinds.TABLES)
    return f"write {bracketed(found)}" if found else ""


def meant_word(value: object, choices: Iterable[str]) -> str:
    """Return the choice that a word in another spelling or of the same meaning stands for."""
    if not isinstance(value, str):
        return ""
    words, text = frozenset(choices), value[:LONGEST].strip().lower()
    spelt = (text, text.replace("_", "-"), text.replace("_", " "), text.replace(" ", "-"))
    forms = [_our_spelling(form) for form in spelt]
    meant = [word for form in forms for word in (form, synonyms.VALUES.get(form, ""))]
    return next((word for word in meant if word in words), "")


def _our_spelling(text: str) -> str:
    for other, ours in synonyms.SPELLINGS:
        text = text.replace(other, ours)
    return text


def word_guess(value: object, choices: Iterable[str]) -> str:
    """Return a hint for a word that is not among the choices, or an empty text."""
    words = tuple(choices)
    meant = meant_word(value, words)
    if meant:
        return f'write "{meant}"'
    spelt = near(value.strip().lower(), words) if isinstance(value, str) else ""
    return f'did you mean "{spelt}"?' if spelt else ""
