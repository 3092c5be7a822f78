"""Which command a line means, and what the program says before any command runs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from profilegen import __version__
from profilegen.cli.program import COMMANDS, looks_like_file, routed
from tests.cli.support import real, run

LOADED = """
import atexit, json, sys
from profilegen.cli import main
atexit.register(lambda: print("MODULES" + json.dumps(sorted(sys.modules)), file=sys.stderr))
main(sys.argv[1:])
"""

HEAVY = {
    "pydantic", "numpy", "shapely", "ezdxf", "reportlab", "fontTools", "svgwrite",
    "tomllib", "fractions", "multiprocessing", "importlib.metadata", "importlib.resources",
}  # fmt: skip


def loaded_by(*words: str) -> set[str]:
    """The modules loaded by the time a command has ended."""
    done = real(*words, code=LOADED)
    return set(json.loads(done.stderr.decode().rpartition("MODULES")[2]))


def test_help_imports_click_and_next_to_nothing() -> None:
    """`--help` loads the table of commands, not the commands, and no heavy library."""
    loaded = loaded_by("--help")
    assert not loaded & HEAVY
    assert {name for name in loaded if name.startswith("profilegen")} == {
        "profilegen",
        "profilegen.cli",
        "profilegen.cli.colour",
        "profilegen.cli.ending",
        "profilegen.cli.program",
        "profilegen.cli.saying",
        "profilegen.cli.options",
        "profilegen.cli.stopping",
        "profilegen.errors",
    }


@pytest.mark.parametrize("name", COMMANDS)
def test_help_of_a_command_is_light(name: str) -> None:
    """The help of one command loads its own module and no heavy library."""
    assert not loaded_by(name, "--help") & (HEAVY - {"importlib.resources"})


def test_check_leaves_the_writers_alone(shop: Path) -> None:
    """`check` loads no library that only writes files."""
    loaded = loaded_by("check", "take-up-ratchet.toml")
    assert not loaded & {"ezdxf", "reportlab", "fontTools", "svgwrite", "multiprocessing"}


PLAIN = """\
units = "mm"
[wheel]
kind = "ratchet"
teeth = 30
outside_diameter = 38
thickness = 4
space_angle = 60
land = 0.4
hook_angle = 5
[bore]
kind = "round"
diameter = 9
[[cutter]]
name = "vee"
kind = "vee"
included_angle = 60
tip_radius = 0
"""

UNASKED = (
    "profilegen.dividing", "profilegen.gauging", "profilegen.drawing", "profilegen.views",
    "profilegen.sheets", "profilegen.output",
    "profilegen.cutting.relief", "profilegen.cutting.heel", "profilegen.cutting.ground",
    "profilegen.cutting.compare", "profilegen.cutting.fit", "profilegen.cutting.plunge",
    "profilegen.cutting.land_tolerance", "profilegen.cutting.engagement",
    "profilegen.geometry.regions",
    "profilegen.part.allowance", "profilegen.part.limits", "profilegen.part.iso286",
    "profilegen.part.iso2768", "profilegen.part.measuring",
    "profilegen.setting.touchoff", "profilegen.setting.passes",
    "profilegen.topics.dicts", "profilegen.topics.index_text",
)  # fmt: skip
"""What the text of a plain part has no use for: hardware, relief, limits and papers."""


def test_check_loads_no_room_that_the_part_does_not_ask_for(tmp_path: Path) -> None:
    """`check` of a ratchet that a vee cutter fits, without hardware, relief and tolerances."""
    part = tmp_path / "plain.toml"
    part.write_text(PLAIN, encoding="utf-8")
    loaded = loaded_by("check", str(part))
    assert "profilegen.job" in loaded
    assert sorted(name for name in loaded if name.startswith(UNASKED)) == []


def test_bare_program_shows_four_commands() -> None:
    """Without words the first four commands to type are shown, and all is well."""
    done = run()
    lines = [line for line in done.stdout.splitlines() if line.startswith("  profilegen ")]
    assert (done.exit_code, len(lines)) == (0, 4)


def test_version() -> None:
    """`--version` names the program and its version."""
    assert run("--version").stdout == f"profilegen {__version__}\n"


def test_every_command_stands_in_the_help() -> None:
    """`--help` lists every command with its line, and each has a help of its own."""
    text = run("--help").stdout
    for name, (_, line) in COMMANDS.items():
        assert f"  {name}" in text
        assert line in text
        done = run(name, "-h")
        assert (done.exit_code, done.stderr) == (0, "")
        assert done.stdout.startswith(f"Usage: profilegen {name} ")


def test_module_and_command_are_the_same() -> None:
    """`python -m profilegen` calls itself profilegen."""
    done = real("--help")
    assert done.returncode == 0
    assert done.stdout.decode() == run("--help").stdout


@pytest.mark.parametrize(
    ("words", "meant"),
    [
        (["part.toml"], ["make", "part.toml"]),
        (["a/b"], ["make", "a/b"]),
        (["--force", "part.toml"], ["make", "--force", "part.toml"]),
        (["check", "part.toml"], ["check", "part.toml"]),
        (["-q", "cutters", "part.toml"], ["cutters", "-q", "part.toml"]),
        (["--json", "-q", "check", "a.toml"], ["check", "--json", "-q", "a.toml"]),
        (["--units", "in", "check", "a.toml"], ["check", "--units", "in", "a.toml"]),
        (["--out", "x", "--force", "make", "a.toml"], ["make", "--out", "x", "--force", "a.toml"]),
        (["--out", "check", "part.toml"], ["make", "--out", "check", "part.toml"]),
        (["--out", "check", "dxf", "a.toml"], ["dxf", "--out", "check", "a.toml"]),
        (["-q", "part.toml", "check"], ["make", "-q", "part.toml", "check"]),
        (["-q", "--help"], ["make", "-q", "--help"]),
        (["--help"], ["--help"]),
        ([], []),
    ],
)
def test_a_bare_file_means_make(words: list[str], meant: list[str]) -> None:
    """A file, or an option of `make`, in the place of the command means `make`."""
    assert routed(words) == meant


def test_options_may_stand_before_the_command(shop: Path) -> None:
    """Typed before the command they mean what they mean behind it; a slip in it is told."""
    part = "take-up-ratchet.toml"
    before, behind = run("-q", "cutters", part), run("cutters", part, "-q")
    assert (
        (before.exit_code, before.output) == (behind.exit_code, behind.output) == (0, before.output)
    )
    done = run("-q", "chek", part)
    assert (done.exit_code, "Did you mean check?" in done.stderr) == (2, True)


def test_a_file_without_an_ending_is_known_by_being_there(shop: Path) -> None:
    """A word is a file when a file of that name is there, also short of its .toml."""
    assert looks_like_file("take-up-ratchet")
    assert not looks_like_file("take-up")
    assert not looks_like_file("x" * 5000)


def test_mistyped_command_is_guessed() -> None:
    """A mistyped command is answered with the likely one, exit code 2."""
    done = run("chekc", "part.toml")
    assert done.exit_code == 2
    assert "Did you mean check?" in done.stderr


def test_bare_missing_file_is_the_missing_file_error(shop: Path) -> None:
    """`profilegen FILE` with a wrong name says what file is near, exit code 2."""
    done = run("take-up-rachet.toml")
    assert done.exit_code == 2
    assert "there is no such file" in done.stderr
    assert "did you mean take-up-ratchet.toml?" in done.stderr
