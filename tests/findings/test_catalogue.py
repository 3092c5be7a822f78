"""The catalogue of findings against what the rooms make: codes, cases, facts and phrases."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from string import Formatter

from profilegen.findings.catalogue import CATALOGUE
from profilegen.findings.phrases import PHRASES
from tests.findings.made import Made, made, made_in

MADE = [*made()]
FINDINGS = [one for one in MADE if one.maker != "Phrase"]
OF_PHRASES = [one for one in MADE if one.maker == "Phrase"]

GIVEN_LATER = {"tooth-slender", "back-dips", "hand-contradiction"}
"""Codes whose facts are not written in the call that makes them: a part that has each is in
`tests/forms/test_findings.py`, and its sentence is read there."""


def sentences(code: str) -> dict[str, str]:
    """The sentences of a code by case."""
    says = CATALOGUE[code].says
    return {"": says} if isinstance(says, str) else dict(says)


def named_in(words: str) -> set[str]:
    """The facts that words name."""
    return {name for _, name, _, _ in Formatter().parse(words) if name is not None}


def test_every_code_has_an_entry_and_every_entry_a_finding() -> None:
    """No finding can reach a user whose code the catalogue does not know; no entry is left over."""
    assert {code for one in FINDINGS for code in one.codes} == set(CATALOGUE)


def test_every_case_has_a_sentence_and_every_sentence_a_case() -> None:
    """The same of codes that have several sentences; where the source does not show the case, all
    that the code has."""
    used = {
        (code, case)
        for one in FINDINGS
        for code in one.codes
        for case in (sentences(code) if one.cases is None else one.cases)
    }
    assert used == {(code, case) for code in CATALOGUE for case in sentences(code)}


def test_every_phrase_is_worded_and_used() -> None:
    """The same of the phrases."""
    assert {name for one in OF_PHRASES for name in one.codes} == set(PHRASES)


def test_a_finding_gives_every_fact_that_its_sentence_names() -> None:
    """A fact that is named and not given would be a fault of the program in front of the user."""
    assert [told for one in FINDINGS for told in _lacking(one)] == []


def _lacking(one: Made) -> Iterator[str]:
    if one.facts is None:
        yield from (f"{one.place} {code}: unknown facts" for code in one.codes - GIVEN_LATER)
        return
    for code in one.codes:
        for case in sentences(code) if one.cases is None else one.cases:
            lacks = named_in(sentences(code)[case]) - one.facts
            yield from (f"{one.place} {code} {case}: no {name}" for name in lacks)


def test_a_phrase_has_just_the_facts_that_its_words_name() -> None:
    """None is missing, none is given for nothing."""
    assert [
        f"{one.place} {name}"
        for one in OF_PHRASES
        for name in one.codes
        if one.facts is None or named_in(PHRASES[name]) != set(one.facts)
    ] == []


def test_sentences_and_meanings_are_told_as_they_stand_in_text() -> None:
    """A sentence goes on in another and has no full stop; a meaning is whole sentences."""
    for code, entry in CATALOGUE.items():
        assert all(says and not says.endswith(".") for says in sentences(code).values()), code
        assert entry.means.endswith("."), code


def test_what_is_not_written_in_a_call_is_seen_as_such(tmp_path: Path) -> None:
    """The reader of the source knows names, choices and dictionaries put together, and says where
    it does not know."""
    path = tmp_path / "room.py"
    path.write_text(
        "def f(a, b):\n"
        "    facts = {'x': 1}\n"
        "    code, case = 'one' if a else 'two', 'c'\n"
        "    Finding(code, 'note', b, facts={**facts, 'y': 2}, case=case)\n"
        "    Finding('three', 'note', b, facts=g())\n"
    )
    first, second = made_in(path, path.name)
    assert first.codes == frozenset({"one", "two"})
    assert first.cases == frozenset({"c"})
    assert first.facts == frozenset({"x", "y"})
    assert second.cases == frozenset({""})
    assert second.facts is None
