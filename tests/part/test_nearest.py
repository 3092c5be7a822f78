"""Guesses at what was meant: the table of other names holds only real keys."""

from __future__ import annotations

import pytest

from profilegen.part import kinds, synonyms
from profilegen.part.dials import WAYS
from profilegen.part.nearest import all_keys, key_guess, near, table_guess, word_guess

KEYS = {table: set[str]() for table in ("", *kinds.TABLES, *kinds.WITHIN)}
for _table, _kind, _keys in all_keys():
    KEYS[_table] |= _keys

HANDS = ("clockwise", "counter-clockwise")

PAIRS = [(t, other, ours) for t, names in synonyms.KEYS.items() for other, ours in names.items()]


SHARED = {
    table: set.intersection(*(set(keys) for name, _, keys in all_keys() if name == table))
    for table in synonyms.KEYS
}
"""Table -> the keys that all its kinds have."""


def is_of_a_real_key(table: str, other: str, ours: str) -> bool:
    """Whether what is told to write exists, and the other name is no key that all kinds have."""
    home, _, key = ours.rpartition(".")
    is_there = key in KEYS[home or table] and (not home or home in kinds.TABLES)
    return is_there and other == other.lower() and other not in SHARED[table]


def test_another_name_leads_to_a_real_key() -> None:
    """What is told to write exists; a real key is never another name in all its kinds."""
    assert len(PAIRS) > 200
    assert [pair for pair in PAIRS if not is_of_a_real_key(*pair)] == []


def test_another_name_of_a_table_leads_to_a_real_table() -> None:
    """What is told to write is a table."""
    names = synonyms.TABLES
    assert [one for one, ours in names.items() if ours not in kinds.TABLES] == []
    assert [one for one in names if one in kinds.TABLES or not table_guess(one)] == []


def test_a_name_of_another_table_is_led_there() -> None:
    """A synonym that fits no key here leads to the table that has it."""
    assert key_guess("pcd", "wheel", KEYS["wheel"]).hint == "write circle_diameter under [[holes]]"
    assert key_guess("qqq", "wheel", KEYS["wheel"]).hint == ""


@pytest.mark.parametrize(
    "key",
    [
        *("Outside Diameter", "OutsideDiameter", "outsideDiameter", "outside-diameter"),
        *("outer_dia", "outer_diameter", "outside_dia", "Outer Diam", "OD", "dia"),
    ],
)
def test_other_spellings_of_a_key_are_told_to_be_written_right(key: str) -> None:
    """Capitals, blanks and short words lead to the key itself, which then is not missing too."""
    found = key_guess(key, "wheel", KEYS["wheel"])
    assert (found.hint, found.key) == ("write outside_diameter", "outside_diameter")


def test_one_angle_of_a_double_angle_cutter_leads_to_both() -> None:
    """The key of another kind of cutter is told as the list that this kind has."""
    own = kinds.model("cutter", "double-angle").model_fields
    found = key_guess("angle", "cutter", own)
    assert found.key == "angles"
    assert found.hint == 'write angles = ["15 deg", "45 deg"], with your own values'


@pytest.mark.parametrize(
    ("word", "choices", "hint"),
    [
        ("LEFT", ("left", "right"), 'write "left"'),
        ("in_front", ("above", "in front"), 'write "in front"'),
        ("counter clockwise", ("clockwise", "counter-clockwise"), 'write "counter-clockwise"'),
        ("anti_clockwise", ("clockwise", "counter-clockwise"), 'write "counter-clockwise"'),
        ("anti clockwise", ("clockwise", "counter-clockwise"), 'write "counter-clockwise"'),
        ("counterclokwise", HANDS, 'did you mean "counter-clockwise"?'),
        ("away from the operator", WAYS["y"], 'write "towards the column"'),
        ("toward the operater", WAYS["y"], 'did you mean "towards the operator"?'),
        ("lef", ("left", "right"), 'did you mean "left"?'),
        ("zzz", ("left", "right"), ""),
        (3, ("left", "right"), ""),
    ],
)
def test_a_word_is_led_to_the_choice_it_means(
    word: object, choices: tuple[str, ...], hint: str
) -> None:
    """Other spellings are told to be written right; nonsense gets no hint."""
    assert word_guess(word, choices) == hint


OTHER_SENSE = {
    "away from the operater": (WAYS["y"], "towards the operator"),
    "away from the operator's side": (WAYS["y"], "towards the operator"),
    "from the column": (WAYS["y"], "towards the column"),
    "from the operator": (WAYS["y"], "towards the operator"),
    "contraclockwise": (HANDS, "clockwise"),
    "unclockwise": (HANDS, "clockwise"),
    "not clockwise": (HANDS, "clockwise"),
    "counter to clockwise": (HANDS, "clockwise"),
    "reverse clockwise": (HANDS, "clockwise"),
    "decreases": (("increases",), "increases"),
    "inside_diameter": (("outside_diameter",), "outside_diameter"),
    "max_land": (("min_land",), "min_land"),
}
"""A word, and what it must not be taken for."""


@pytest.mark.parametrize("word", OTHER_SENSE)
def test_the_opposite_is_never_suggested(word: str) -> None:
    """A word of the other sense is no misspelling, however many letters agree."""
    choices, opposite = OTHER_SENSE[word]
    assert near(word, choices) != opposite
    assert f'"{opposite}"' not in word_guess(word, choices)


def test_a_dial_that_decreases_is_told_the_way_that_counts() -> None:
    """The key of the other sense is explained, not taken for the one that is spelt like it."""
    own = kinds.model("setup.dials", "").model_fields
    found = key_guess("decreases", "setup.dials", own)
    assert (found.key, "opposite way" in found.hint) == ("", True)


def test_a_very_long_word_is_compared_in_short() -> None:
    """A word of a megabyte costs no time."""
    assert near("x" * 1_000_000, ["land"]) == ""
