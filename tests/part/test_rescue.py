"""What TOML refuses, answered in shop words with line, caret and the corrected line."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from profilegen.errors import Problem
from profilegen.part.toml_faults import MOST_PROBLEMS
from tests.part.samples import TEXT, text_problems


def corrected(problem: Problem) -> str:
    """The line to write that a problem offers, or an empty text."""
    rows = problem.excerpt.split("\n")
    start = next((i for i, row in enumerate(rows) if row.startswith(" write | ")), len(rows))
    return "\n".join(row.partition(" | ")[2] for row in rows[start:])


def one(text: str) -> Problem:
    """The one problem of a text."""
    found = text_problems(text)
    assert len(found) == 1, [str(problem) for problem in found]
    return found[0]


VALUES: list[tuple[str, str, Any, str]] = [
    (".015", "0.015", 0.015, "begins with a digit"),
    ("-.5", "-0.5", -0.5, "begins with a digit"),
    ("15.", "15.0", 15.0, "does not end with a point"),
    ("0,4", "0.4", 0.4, "decimal point, not a comma"),
    ("38,25", "38.25", 38.25, "decimal point, not a comma"),
    ("0,250", "0.250", 0.25, "decimal point, not a comma"),
    (",5", "0.5", 0.5, "decimal point, not a comma"),
    ("030", "30", 30, "does not begin with a 0"),
    ("007.5", "7.5", 7.5, "does not begin with a 0"),
    ("3/32 in", '"3/32 in"', "3/32 in", "takes quotes"),
    ("3/32", '"3/32"', "3/32", "takes quotes"),
    ("1-1/4", '"1-1/4"', "1-1/4", "takes quotes"),
    ("1 1/4 in", '"1 1/4 in"', "1 1/4 in", "takes quotes"),
    ("½ in", '"½ in"', "½ in", "takes quotes"),
    ("5 deg", '"5 deg"', "5 deg", "takes quotes"),
    ("5°", '"5°"', "5°", "takes quotes"),
    ("12°30'", '"12°30\'"', "12°30'", "takes quotes"),
    ("12°30'15\"", '"12°30\'15\\""', "12°30'15\"", "takes quotes"),
    ("12 deg 30 min", '"12 deg 30 min"', "12 deg 30 min", "takes quotes"),
    ("38.0mm", '"38.0mm"', "38.0mm", "takes quotes"),
    ("8,26 mm", '"8,26 mm"', "8,26 mm", "takes quotes"),
    ("5 thou", '"5 thou"', "5 thou", "takes quotes"),
    ('0.325"', "'0.325\"'", '0.325"', "takes quotes"),
    ('"0.325""', "'0.325\"'", '0.325"', "the inch mark ends the text"),
    ('"12°30\'15""', '"12°30\'15\\""', "12°30'15\"", 'write \\" inside'),
    ("“0.4 mm”", '"0.4 mm"', "0.4 mm", "curly quotes"),
    ("„0.4 mm“", '"0.4 mm"', "0.4 mm", "curly quotes"),
    ("‘0.4 mm’", "'0.4 mm'", "0.4 mm", "curly quotes"),
    ('“0.325"”', "'0.325\"'", '0.325"', "curly quotes"),
    ("“0.4 mm", '"0.4 mm"', "0.4 mm", "curly quotes"),
    ("'0.4 mm’", "'0.4 mm'", "0.4 mm", "curly quotes"),
    ('"0.4 mm', '"0.4 mm"', "0.4 mm", "closing quote is missing"),
    ('0.4 mm"', '"0.4 mm"', "0.4 mm", "opening quote is missing"),
    ('clockwise"', '"clockwise"', "clockwise", "opening quote is missing"),
    ("\"0.4 mm'", '"0.4 mm"', "0.4 mm", "do not match"),
    ("Ø40", "40", 40, "the marks of a drawing"),
    ("⌀ 40,5", "40.5", 40.5, "the marks of a drawing"),
    ("40Ø", "40", 40, "is no unit"),
    ('Ø1-1/2"', "'1-1/2\"'", '1-1/2"', "the marks of a drawing"),
    ("dia. 40 mm", '"40 mm"', "40 mm", "the marks of a drawing"),
    ("R0.3", "0.3", 0.3, "the marks of a drawing"),
    ("R.3", "0.3", 0.3, "the marks of a drawing"),
    ("R0,3 max.", "0.3", 0.3, "the marks of a drawing"),
    ("18T", "18", 18, "is no unit"),
    ("z = 18", "18", 18, "the marks of a drawing"),
    ('1/8"', "'1/8\"'", '1/8"', "takes quotes"),
    ("0.3 rad", '"0.3 rad"', "0.3 rad", "takes quotes"),
    ("clockwise", '"clockwise"', "clockwise", "a text takes quotes"),
    ("counter-clockwise", '"counter-clockwise"', "counter-clockwise", "a text takes quotes"),
    ("Yes", "true", True, "written true and false"),
    ("FALSE", "false", False, "written true and false"),
    ("30 teeth", "30", 30, '"teeth" behind the number is no unit'),
    ("30,", "30", 30, "nothing stands behind a value"),
    ("30;", "30", 30, "nothing stands behind a value"),
    ('"a";', '"a"', "a", "nothing stands behind a value"),
    ("[12 deg, 48 deg]", '["12 deg", "48 deg"]', ["12 deg", "48 deg"], "takes quotes"),
    ("(12, 48)", "[12, 48]", [12, 48], "square brackets"),
    ("12, 48", "[12, 48]", [12, 48], "square brackets"),
    ("[12, 48", "[12, 48]", [12, 48], "square brackets"),
    ("[\n  12 deg,\n  48 deg,\n]", '["12 deg", "48 deg"]', ["12 deg", "48 deg"], "takes quotes"),
    (r'"C:\parts\x.dxf"', r"'C:\parts\x.dxf'", r"C:\parts\x.dxf", "begins a code"),
    ("0.4 // thin", "0.4  # thin", 0.4, "a comment begins with #"),
    ("0.4 ; thin", "0.4  # thin", 0.4, "a comment begins with #"),
    ("0.4\u00a0", "0.4 ", 0.4, "an invisible sign"),
    ("0.4\u200b", "0.4", 0.4, "an invisible sign"),
]


@pytest.mark.parametrize(("value", "right", "meaning", "words"), VALUES)
def test_a_value_that_toml_refuses_is_answered_with_the_right_one(
    value: str, right: str, meaning: Any, words: str
) -> None:
    """One problem at its line: what is wrong, and a line that TOML reads as what was meant."""
    problem = one(f"a = 1\nland = {value}\nb = 2")
    assert problem.where == "loom.toml, line 2"
    assert words in problem.message
    assert corrected(problem) == f"land = {right}"
    assert tomllib.loads(corrected(problem)) == {"land": meaning}


@pytest.mark.parametrize("value", [row[0] for row in VALUES])
@pytest.mark.parametrize("comment", ["# it's the land", '  #  "thin" as drawn', "   # 0,4?"])
def test_a_comment_behind_a_bad_value_is_kept(value: str, comment: str) -> None:
    """What stands behind the # is not touched."""
    if "\n" in value or value.endswith(("//", ";")):
        value = ".4"
    problem = one(f"land = {value} {comment}")
    assert corrected(problem).endswith(comment.strip().removeprefix("#"))
    assert list(tomllib.loads(corrected(problem))) == ["land"]


LINES: list[tuple[str, str, str]] = [
    ("land: 0.4", "land = 0.4", "parted by =, not by :"),
    ("land := 0.4", "land = 0.4", "not by :="),
    ("land == 0.4", "land = 0.4", "not by =="),
    ("land 0.4", "land = 0.4", "not by a blank"),
    ("land: .4 mm", 'land = ".4 mm"', "takes quotes"),
    ("title: Take-up", 'title = "Take-up"', "a text takes quotes"),
    ("outside diameter = 38", "outside_diameter = 38", "a key has no blanks"),
    ("Outside Diameter: 38 mm", 'outside_diameter = "38 mm"', "a key has no blanks"),
    ("[wheel", "[wheel]", "brackets"),
    ("[wheel]]", "[wheel]", "brackets"),
    ("(wheel)", "[wheel]", "brackets"),
    ("[[cutter]", "[[cutter]]", "brackets"),
    ("[cutter", "[[cutter]]", "brackets"),
    ("[ [cutter] ]  # first", "[[cutter]]  # first", "brackets"),
    ('[bore] kind = "round"', '[bore]\nkind = "round"', "on a line of its own"),
    ("  land = .4", "  land = 0.4", "begins with a digit"),
]


@pytest.mark.parametrize(("line", "right", "words"), LINES)
def test_a_line_that_toml_refuses_is_answered_with_the_right_one(
    line: str, right: str, words: str
) -> None:
    """Signs of assignment, blanks in keys and brackets are put right."""
    problem = one(line)
    assert words in problem.message
    assert corrected(problem) == right
    tomllib.loads(corrected(problem))


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("land = 1,250", "1250 or as 1.250"),
        ("land =", "nothing stands behind the ="),
        ("land = @#!", "cannot be read"),
        ("?", "cannot be read"),
        ("= 3", "cannot be read"),
        ("land = 1.2.3", "cannot be read"),
        ("land = 0.4 0.5", "cannot be read"),
    ],
)
def test_what_nobody_can_know_is_told_without_a_correction(line: str, words: str) -> None:
    """Where two readings are possible, or none, no line is offered."""
    problem = one(f"{line}\nb = 2")
    assert words in problem.message
    assert problem.where == "loom.toml, line 1"
    assert not corrected(problem)
    assert problem.hint


@pytest.mark.parametrize(
    ("line", "column"),
    [("land = .015", 7), ("land = 0,4", 8), ("teeth = 030", 8), ("land = 3/32 in", 7)],
)
def test_the_caret_points_at_the_first_wrong_sign(line: str, column: int) -> None:
    """The caret stands where the line and the corrected line part."""
    first, caret, _ = one(line).excerpt.split("\n")
    assert first.partition(" | ")[2] == line
    assert caret.partition(" | ")[2] == " " * column + "^"


def test_all_bad_lines_are_told_at_once() -> None:
    """One slip in each of many lines gives one problem a line, in their order."""
    slips = [row[0] for row in VALUES if "\n" not in row[0]][: MOST_PROBLEMS - 2]
    text = "\n".join(f"a{place} = {value}" for place, value in enumerate(slips))
    found = text_problems(f"[wheel]\n{text}\n[wheel]\n[cutter\n")
    lines = [int(problem.where.rpartition(" ")[2]) for problem in found]
    assert lines == [*range(2, len(slips) + 4)]


def test_a_cutter_in_single_brackets_twice_takes_double_brackets() -> None:
    """Both heads are told, each with the head to write."""
    text = '[cutter]\nname = "a"\n\n[cutter]  # second\nname = "b"\n'
    found = text_problems(text)
    assert [problem.where for problem in found] == ["loom.toml, line 1", "loom.toml, line 4"]
    assert [corrected(problem) for problem in found] == ["[[cutter]]", "[[cutter]]  # second"]


def test_a_cutter_in_single_and_double_brackets_is_told() -> None:
    """A head in single brackets among double ones is the slip."""
    for text, line in (("[cutter]\n[[cutter]]\n", 1), ("[[cutter]]\n[cutter]\n", 2)):
        problem = one(text)
        assert problem.where == f"loom.toml, line {line}"
        assert corrected(problem) == "[[cutter]]"


def test_a_table_or_key_that_stands_twice_is_told_with_the_first() -> None:
    """Both lines are named, in any table, also in a second cutter."""
    problem = one("[wheel]\nteeth = 30\n[bore]\n[wheel]\n")
    assert problem.where == "loom.toml, line 4"
    assert "the first stands in line 1" in problem.hint
    problem = one(
        "land = 1\n[wheel]\nland = 2\n[[cutter]]\nland = 3\n[[cutter]]\nland = 4\nland = 5"
    )
    assert problem.where == "loom.toml, line 8"
    assert "the first stands in line 7" in problem.hint


def test_values_over_several_lines_are_no_slips() -> None:
    """Lists and texts that run over lines are left alone; the slip beside them is told."""
    text = 'a = [\n  1, # one\n  2,\n]\nb = """\nx = .5\n"""\nc = {d = 1}\nland = .5\n'
    assert one(text).where == "loom.toml, line 9"


def test_a_good_file_with_one_slip_gives_just_that_problem() -> None:
    """Spoiling one line of the sample gives one problem, at that line."""
    for number, line in enumerate(TEXT.split("\n"), 1):
        if " = " in line:
            rows = TEXT.split("\n")
            rows[number - 1] = line.replace(" = ", " : ", 1)
            problem = one("\n".join(rows))
            assert problem.where == f"loom.toml, line {number}"
            assert tomllib.loads(corrected(problem)) == tomllib.loads(line)


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 1900,
        "a = " + "[\n" * 50_000,
        "a = " + "{a = " * 350,
        "[[[\n" * 50_000,
        "a = [\n" * 50_000,
        "k = 1\n" * 50_000,
        "a = " + "9" * 1900,
        "a = 1" + " " * 1900 + "x",
        'a = "' + '\\" ' * 600,
        "\0" * 50,
        '"""' * 99,
    ],
)
def test_hostile_texts_are_refused_quickly_and_briefly(text: str) -> None:
    """Nesting and repetition end in a few problems, not in a hang or a fault."""
    assert 0 < len(text_problems(text)) <= MOST_PROBLEMS
