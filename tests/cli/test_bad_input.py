"""Everything that a user can type or point at wrongly ends with words and exit code 2, 3 or 4."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilegen.cli.program import COMMANDS
from tests.cli.support import changed, files_below, real, run

PART = "take-up-ratchet.toml"
TAKES_A_PART = [name for name in COMMANDS if name not in ("start", "words", "completion")]


def refused(*words: str, code: int = 2) -> str:
    """Run a command that must fail with this code, in plain words; return them."""
    before = files_below(Path.cwd())
    done = run(*words)
    assert done.exit_code == code, done.stderr
    assert "Traceback" not in done.output
    assert "profilegen itself is at fault" not in done.stderr
    assert files_below(Path.cwd()) == before
    return done.stderr


@pytest.mark.parametrize("command", TAKES_A_PART)
def test_missing_file(shop: Path, command: str) -> None:
    """A file that is not there."""
    assert "there is no such file" in refused(command, "nothing.toml")


@pytest.mark.parametrize("command", TAKES_A_PART)
def test_folder(shop: Path, command: str) -> None:
    """A folder in place of a file."""
    (shop / "parts").mkdir()
    assert "this is a folder" in refused(command, "parts")


@pytest.mark.parametrize("command", TAKES_A_PART)
def test_binary_file(shop: Path, command: str) -> None:
    """A file that is no text."""
    (shop / "picture.toml").write_bytes(bytes(range(256)) * 40)
    refused(command, "picture.toml")


def test_fifty_megabytes(shop: Path) -> None:
    """A file far too big is refused by its size, unread."""
    with (shop / "big.toml").open("wb") as file:
        file.truncate(50_000_000)
    assert "far too much for a part file" in refused("check", "big.toml")


@pytest.mark.parametrize(
    "name", ["", "x" * 5000, "a\0b.toml", "/dev/null", "..", "\N{WRENCH}.toml"]
)
def test_strange_file_names(shop: Path, name: str) -> None:
    """Names that no part file has."""
    refused("check", name)
    refused("make", name)


@pytest.mark.parametrize(
    ("teeth", "code"),
    [("0", 2), ("1", 2), ("1000000000", 2), ("-3", 2), ("30.5", 2), ("'30'", 2), ("9" * 500, 2)],
)
def test_numbers_of_teeth_that_no_wheel_has(shop: Path, teeth: str, code: int) -> None:
    """Counts out of range are input errors that name the key and the range."""
    changed(shop / PART, "teeth = 30", f"teeth = {teeth}")
    assert "teeth" in refused("make", PART, code=code)


@pytest.mark.parametrize("teeth", [2, 3, 1000])
def test_numbers_of_teeth_at_the_ends(shop: Path, teeth: int) -> None:
    """Counts at the ends of the range are solved, or refused as a wheel, never as a fault."""
    changed(shop / PART, "teeth = 30", f"teeth = {teeth}")
    done = run("check", "--json", PART)
    assert done.exit_code in (0, 3)
    assert "Traceback" not in done.output


@pytest.mark.parametrize(
    "size", ["nan", "inf", "-inf", "1e300", "0", "-1", "true", '"wide"', "[1]"]
)
@pytest.mark.parametrize("key", ["outside_diameter = 38.0", "thickness = 4.0", "land = 0.4"])
def test_sizes_that_are_none(shop: Path, key: str, size: str) -> None:
    """NaN, infinity, sizes beyond all wheels, zero and negative ones name their key; a land of 0 is
    read, and refused by the wheel, which knows its least land."""
    name = key.partition(" ")[0]
    changed(shop / PART, key, f"{name} = {size}")
    code = 3 if (name, size) == ("land", "0") else 2
    assert name in refused("make", PART, code=code)


@pytest.mark.parametrize("angle", ["0", "180", "270", "-10", "nan"])
def test_space_angles_that_are_none(shop: Path, angle: str) -> None:
    """Angles that no space has."""
    changed(shop / PART, 'space_angle = "60 deg"', f"space_angle = {angle}")
    assert "space_angle" in refused("check", PART)


@pytest.mark.parametrize("angle", ["45", "90", "-90", "1000"])
def test_hooks_that_are_none(shop: Path, angle: str) -> None:
    """Hooks out of range."""
    changed(shop / PART, 'hook_angle = "5 deg"', f"hook_angle = {angle}")
    assert "hook_angle" in refused("check", PART)


@pytest.mark.parametrize("title", ["<svg onload='x'>&amp;", "a/b\\\\c", "\N{WRENCH} Ø", "../../x"])
def test_strange_titles(shop: Path, title: str) -> None:
    """Markup, slashes and signs in a title make no fault and no other file."""
    changed(shop / PART, "Cloth take-up ratchet", title)
    assert run("make", PART).exit_code == 0
    assert [path.name for path in (shop / "out").iterdir()] == ["take-up-ratchet"]
    assert len(list((shop / "out" / "take-up-ratchet").glob("[!.]*"))) == 9


def test_title_with_a_line_break(shop: Path) -> None:
    """A line break in a title is an input error."""
    changed(shop / PART, "Cloth take-up ratchet", "two\\nlines")
    assert "line break" in refused("check", PART)


def test_deep_nesting(shop: Path) -> None:
    """Brackets without end are refused in words."""
    (shop / "deep.toml").write_text("x = " + "[" * 5000 + "]" * 5000)
    refused("check", "deep.toml")


def test_all_problems_at_once(shop: Path) -> None:
    """Three mistakes are told in one run, one block each."""
    changed(shop / PART, "teeth = 30", "teeth = 1")
    changed(shop / PART, "thickness = 4.0", "thikness = 4.0")
    changed(shop / PART, "included_angle", "angel")
    talk = refused("check", PART)
    assert "things to put right" in talk
    for key in ("teeth", "thickness", "included_angle"):
        assert key in talk


def test_a_problem_shows_its_line(shop: Path) -> None:
    """What TOML itself refuses is shown with line, caret and the corrected line."""
    changed(shop / PART, "outside_diameter = 38.0", "outside_diameter = .38")
    talk = refused("check", PART)
    assert "outside_diameter = .38" in talk
    assert "write | outside_diameter = 0.38" in talk


def test_never_a_traceback_in_a_process_of_its_own(shop: Path) -> None:
    """The same from outside: a real process ends with 2 and no traceback."""
    (shop / "latin.toml").write_bytes("title = 'Käfer'\n".encode("latin-1"))
    done = real("check", "latin.toml")
    assert (done.returncode, b"Traceback" in done.stderr) == (2, False)
