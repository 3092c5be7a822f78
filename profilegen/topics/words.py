"""What a word, a key or a finding code means at the bench.

Owns the gathering of four sources: the trade's words, the keys and the kinds of the part file (from
the models' own descriptions) and the finding codes; and what was probably meant by an unknown word.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Final, Literal

from profilegen.findings.catalogue import CATALOGUE
from profilegen.part import kinds, synonyms
from profilegen.part.kinds import bracketed
from profilegen.topics.columns import paragraph
from profilegen.topics.words_trade import TRADE

Sort = Literal["word", "key", "kind", "finding"]

HEADINGS: Final[dict[Sort, str]] = {
    "word": "Words of the trade",
    "key": "Keys of the part file",
    "kind": "Kinds of wheels, bores, cutters and dividing hardware",
    "finding": "Findings",
}


@dataclass(frozen=True, slots=True)
class Entry:
    """One meaning.

    Attributes:
        word: as it is written.
        sort: where it comes from.
        meaning: one or a few sentences.
        places: of a key or a kind: the tables it stands in.
    """

    word: str
    sort: Sort
    meaning: str
    places: tuple[str, ...] = ()


def entries() -> tuple[Entry, ...]:
    """Every entry: words, then keys and kinds in the order of the file, then findings by the
    alphabet."""
    words = (Entry(word, "word", meaning) for word, meaning in TRADE.items())
    codes = (Entry(code, "finding", one.means) for code, one in sorted(CATALOGUE.items()))
    return (*words, *_keys(), *_kinds(), *codes)


def find(word: str) -> tuple[Entry, ...]:
    """Every entry of a word; case, dashes, low lines and a table in front do not matter."""
    wanted = _plain(word.rpartition(".")[2] if "." in word else word)
    return tuple(entry for entry in entries() if _plain(entry.word) == wanted)


def guesses(word: str) -> tuple[str, ...]:
    """What was probably meant by a word that has no entry; a known synonym first."""
    plain = _plain(word)
    named = [
        names[plain.replace(" ", "_")].rpartition(".")[2]
        for names in synonyms.KEYS.values()
        if plain.replace(" ", "_") in names
    ]
    spelt = {_plain(entry.word): entry.word for entry in entries()}
    near = [spelt[found] for found in get_close_matches(plain[:80], spelt, n=4, cutoff=0.6)]
    inside = [known for key, known in spelt.items() if len(plain) > 2 and plain in key]
    return tuple(dict.fromkeys([*named, *near, *inside]))[:6]


def words_text(found: Iterable[Entry]) -> str:
    """Entries as plain text, a paragraph each."""
    lines: list[str] = []
    for entry in found:
        place = f" ({entry.sort}{_placed(entry)})"
        lines += [f"{entry.word}{place}", *paragraph(entry.meaning, "    ")]
    return "\n".join(lines) + "\n"


def all_words_text() -> str:
    """Every entry under the heading of its sort."""
    every = entries()
    parts = [
        f"{heading}\n\n" + words_text(entry for entry in every if entry.sort == sort)
        for sort, heading in HEADINGS.items()
    ]
    return "\n".join(parts)


def _placed(entry: Entry) -> str:
    return f", in {', '.join(entry.places)}" if entry.places else ""


def _plain(word: str) -> str:
    return " ".join(word.lower().replace("-", " ").replace("_", " ").split())


def _keys() -> Iterator[Entry]:
    """One entry for each key and meaning, with every table that has it."""
    found: dict[tuple[str, str], list[str]] = {}
    for table, kind in _models():
        place = bracketed(table) if table else "the top of the file"
        place += f" of kind {kind}" if kind else ""
        for key, field in kinds.model(table, kind).model_fields.items():
            if key != "kind":
                found.setdefault((key, field.description or ""), []).append(place)
        for key, each in kinds.model(table, kind).inner_lists.items():
            for name, field in each.model_fields.items():
                found.setdefault((name, field.description or ""), []).append(f"[[{table}.{key}]]")
    for (key, meaning), places in found.items():
        yield Entry(key, "key", meaning, _shortened(places))
    for table, names in kinds.KINDS.items():
        text = f"Which kind of {table}: {', '.join(names)}. It settles the other keys of the table."
        yield Entry("kind", "key", text, (bracketed(table),))


def _kinds() -> Iterator[Entry]:
    """One entry for each kind of a table, in its model's own words."""
    for table, names in kinds.KINDS.items():
        for name in names:
            meaning = kinds.model(table, name).model_fields["kind"].description or ""
            yield Entry(name, "kind", meaning, (bracketed(table),))


def _models() -> Iterator[tuple[str, str]]:
    yield "", ""
    for table in (*kinds.TABLES, *kinds.WITHIN):
        if table in kinds.KINDS:
            yield from ((table, kind) for kind in kinds.KINDS[table])
        else:
            yield table, ""


def _shortened(places: list[str]) -> tuple[str, ...]:
    """The places with a table named once when all its kinds have the key."""
    short: list[str] = []
    for place in places:
        table = place.partition(" of kind ")[0]
        count = len(kinds.KINDS.get(table.strip("[]"), {}))
        whole = count > 1 and sum(p.startswith(f"{table} of") for p in places) >= count
        name = table if whole else place
        if name not in short:
            short.append(name)
    return tuple(short)
