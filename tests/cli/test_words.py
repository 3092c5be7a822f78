"""`words`: what a word, key or code means at the bench."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import profilegen
from profilegen.findings.catalogue import CATALOGUE
from profilegen.findings.phrases import PHRASES
from profilegen.part import kinds
from profilegen.topics.words import entries, find
from profilegen.topics.words_trade import TRADE
from tests.cli.support import run

PACKAGE = Path(profilegen.__file__).parent


def test_every_hyphenated_string_is_known() -> None:
    """A code raised in some other way is found too: every word-code in these rooms is known, as a
    finding or as a phrase."""
    other = {"counter-clockwise", "cannot-enter", "run-out"} | {
        kind for names in kinds.KINDS.values() for kind in names
    }
    strange = set()
    for room in ("forms", "cutting", "setting", "dividing", "gauging"):
        for path in (PACKAGE / room).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Constant) and isinstance(node.value, str):
                    strange |= (
                        {node.value} if re.fullmatch("[a-z]+(-[a-z]+)+", node.value) else set()
                    )
    assert strange - other <= set(CATALOGUE) | set(PHRASES)


def test_every_key_has_its_words() -> None:
    """Every key of every table of a part file can be looked up."""
    known = {entry.word for entry in entries() if entry.sort == "key"}
    for table, names in kinds.KINDS.items():
        for kind in names:
            assert set(kinds.model(table, kind).model_fields) <= known
    for table in kinds.SINGLE:
        assert set(kinds.model(table).model_fields) <= known


@pytest.mark.parametrize(
    "word", ["land", "LAND", "wheel.land", "hook_angle", "hook-angle", "web-thin"]
)
def test_found_in_any_spelling(word: str) -> None:
    """Case, dashes, low lines and a table in front do not matter."""
    done = run("words", word)
    assert done.exit_code == 0
    assert done.stderr == ""


@pytest.mark.parametrize(
    "word",
    [
        *("vee", "single-angle", "double-angle", "form", "drawn", "slot", "ball", "tooth"),
        *(
            "stick-out",
            "reach",
            "relief",
            "run-out",
            "gouge",
            "top zero",
            "offset zero",
            "square",
            "worm",
            "ratchet",
        ),
    ],
)
def test_words_of_sheets_and_kinds_are_known(word: str) -> None:
    """What the sheets and the part file say can be looked up: kinds, and words that are no key."""
    done = run("words", word)
    assert done.exit_code == 0
    assert f"{word} (" in done.stdout


def test_a_word_of_two_words() -> None:
    """A term of two words may be typed without quotes."""
    assert run("words", "hook", "angle").stdout == run("words", "hook angle").stdout


def test_several_words() -> None:
    """Several words are answered one after the other."""
    text = run("words", "land", "web-thin").stdout
    assert "land (word)" in text
    assert "web-thin (finding)" in text


def test_all_words() -> None:
    """Without a word every entry is listed."""
    text = run("words").stdout
    for word in (*TRADE, *CATALOGUE):
        assert f"\n{word} (" in text


@pytest.mark.parametrize(
    ("word", "meant"), [("od", "outside_diameter"), ("lnad", "land"), ("web-thn", "web-thin")]
)
def test_did_you_mean(word: str, meant: str) -> None:
    """An unknown word is answered with what was probably meant, exit code 2."""
    done = run("words", word)
    assert (done.exit_code, meant in done.stderr) == (2, True)


def test_words_refer_to_words() -> None:
    """What an entry says to see is there to be seen."""
    for meaning in TRADE.values():
        for seen in re.findall(r"See ([a-z, -]+)\.", meaning):
            assert all(find(word) for word in seen.split(", "))
