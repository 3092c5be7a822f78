"""Where keys stand in a text, and how a line is shown."""

from __future__ import annotations

from profilegen.part.lines import WIDEST, excerpt, key_lines
from tests.part.samples import TEXT


def test_every_key_of_the_sample_is_found_at_its_line() -> None:
    """The line of a key path holds that key."""
    rows = TEXT.split("\n")
    found = key_lines(TEXT)
    assert found["wheel.teeth"] == 7
    assert found["cutter[1].name"] == 23
    for path, number in found.items():
        name = path.rpartition(".")[2].partition("[")[0]
        assert name in rows[number - 1]


def test_keys_inside_a_long_text_are_not_keys() -> None:
    """A text over several lines may hold what looks like a key."""
    assert key_lines('a = """\nb = 1\n[c]\n"""\nd = 1') == {"a": 1, "d": 5}


def test_an_excerpt_of_a_long_line_shows_the_place() -> None:
    """A long line is cut to the part round the caret, which still points at its sign."""
    line = "x" * 300 + "!" + "y" * 300
    first, caret = excerpt(1, line, 300).split("\n")
    assert first[caret.index("^")] == "!"
    assert len(first) < WIDEST + 20


def test_an_excerpt_shows_no_control_signs() -> None:
    """A terminal cannot be driven by a part file."""
    assert "\x1b" not in excerpt(1, "a = \x1b[31m", 4)
