"""Opening a part file: what is said when there is none, and where its problems are."""

from __future__ import annotations

import os
import stat
import tomllib
from pathlib import Path

import pytest

from profilegen.errors import InputError, Problem
from profilegen.part.load import load, loads
from profilegen.part.reading import LARGEST_FILE, LONGEST_LINE
from tests.part.samples import TAKE_UP, TEXT, text_problems
from tests.part.test_rescue import corrected
from tests.parts import teeth_of


def _told(path: Path) -> Problem:
    with pytest.raises(InputError) as caught:
        load(path)
    assert len(caught.value.problems) == 1
    assert caught.value.exit_code == 2
    return caught.value.problems[0]


def test_the_sample_file_is_read() -> None:
    """The example of a part file gives a part that knows its file."""
    part = load(TAKE_UP)
    assert part.title == "Cloth take-up ratchet"
    assert part.path == TAKE_UP
    assert load(str(TAKE_UP)) == part


def test_a_missing_file_beside_its_double_ending_is_told(tmp_path: Path) -> None:
    """`take-up.toml.txt` is named when `take-up.toml` is asked for."""
    (tmp_path / "take-up.toml.txt").write_text(TEXT)
    problem = _told(tmp_path / "take-up.toml")
    assert problem.message == "there is no such file"
    assert "take-up.toml.txt" in problem.hint


@pytest.mark.parametrize(
    ("asked", "hint"),
    [
        ("take-up", "take-up.toml"),
        ("takeup.toml", "did you mean take-up.toml?"),
        ("Take-Up.TOML", "did you mean take-up.toml?"),
        ("other.toml", "in this folder: take-up.toml"),
        ("no/such/folder.toml", "there is no folder"),
    ],
)
def test_a_missing_file_is_told_with_what_is_there(tmp_path: Path, asked: str, hint: str) -> None:
    """The nearest name in the folder is offered."""
    (tmp_path / "take-up.toml").write_text(TEXT)
    assert hint in _told(tmp_path / asked).hint


def test_a_folder_is_told_with_a_file_in_it(tmp_path: Path) -> None:
    """A folder is no part file, but a part file may be in it."""
    assert _told(tmp_path).message == "this is a folder, not a file"
    (tmp_path / "take-up.toml").write_text(TEXT)
    assert "take-up.toml" in _told(tmp_path).hint


def test_a_huge_file_is_refused_by_its_size(tmp_path: Path) -> None:
    """50 MB are not read at all; a file just in the limit is."""
    path = tmp_path / "huge.toml"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    assert "50 MB" in _told(path).message
    path.write_text(TEXT + "# a comment\n" * ((LARGEST_FILE - len(TEXT)) // 12))
    assert teeth_of(load(path).wheel) == 30


def test_an_endless_file_is_told() -> None:
    """A device or a pipe is no part file."""
    assert _told(Path(os.devnull)).message == "this is no ordinary file"


def test_a_file_that_may_not_be_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A refusal of the system is told in plain words."""
    path = tmp_path / "take-up.toml"
    path.write_text(TEXT)

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert stat.S_ISREG(path.stat().st_mode)
    assert _told(path).message == "you may not read this file"


@pytest.mark.parametrize("name", ["a\0b.toml", "x" * 5000, "take-up.toml/x.toml"])
def test_a_name_that_no_file_can_have_is_told(tmp_path: Path, name: str) -> None:
    """Names that the system refuses are input errors; control signs are not printed."""
    (tmp_path / "take-up.toml").write_text(TEXT)
    problem = _told(tmp_path / name)
    assert problem.message
    assert "\0" not in str(problem)


@pytest.mark.parametrize("text", ["", "\n", "  \n\t\n"])
def test_an_empty_file_is_told_with_how_to_begin(text: str) -> None:
    """An empty file is answered with the command that writes one."""
    (problem,) = text_problems(text)
    assert problem.message == "this file is empty"
    assert "profilegen start ratchet" in problem.hint


def test_problems_carry_their_lines_in_the_order_of_the_file() -> None:
    """Each problem names the line of its key, or of the table that misses it."""
    text = TEXT.replace("teeth = 30\n", "").replace("land = 0.4", "land = -1")
    text = text.replace('number = "LM-07"', 'nubmer = "LM-07"').replace('"vee"', '"vee"\nwidth = 3')
    text += '\n[[cutter]]\nname = "b"\nkind = "vee"\ntip_flat = 0\n'
    assert [problem.where for problem in text_problems(text)] == [
        "nubmer, line 2",
        "wheel.teeth, line 5",
        "wheel.land, line 10",
        "cutter[1].width, line 24",
        "cutter[2].included_angle, line 31",
    ]


def test_a_single_cutter_in_single_brackets_is_told() -> None:
    """TOML reads `[cutter]` once without a word; the part file wants `[[cutter]]`."""
    (problem,) = text_problems(TEXT.replace("[[cutter]]", "[cutter]"))
    assert problem.where == "cutter, line 22"
    assert problem.hint == "write [[cutter]]"


def test_backslashes_that_toml_swallowed_are_told() -> None:
    r"""`\n` and `\t` in a path became a line break and a tab; the line to write is shown."""
    (problem,) = text_problems(TEXT.replace('"LM-07"', r'"C:\new\table.dxf"'))
    assert problem.where == "number, line 2"
    assert "a line break" in problem.message
    assert corrected(problem) == r"number = 'C:\new\table.dxf'"
    assert tomllib.loads(corrected(problem))["number"] == r"C:\new\table.dxf"


def test_a_line_of_thousands_of_signs_is_refused() -> None:
    """Lines that no person wrote are not handed to the parser."""
    (problem,) = text_problems(TEXT + "#" * (LONGEST_LINE + 1))
    assert "far too many" in problem.message


def test_a_text_without_a_file_is_read_the_same() -> None:
    """Text from anywhere gives the same part, without a file."""
    assert loads(TEXT).path is None
    assert loads(TEXT).wheel == load(TAKE_UP).wheel
