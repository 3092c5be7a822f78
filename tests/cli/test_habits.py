"""What people expect of a command: standard input, quiet, colour, completion, slips forgiven."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from profilegen.cli.completion import SHELLS
from profilegen.cli.program import COMMANDS
from profilegen.units import UnitsError, parse_scale
from tests.cli.support import changed, files_below, real, run

PART = "take-up-ratchet.toml"
THICK = ("land = 0.4", "land = 0.05")
"""A change that makes the example's land too thin: a caution or refusal, for what is said of it."""

needs_terminal = pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminal there")


def test_a_dash_reads_standard_input(shop: Path) -> None:
    """Every command that takes a part takes it from standard input, and prints the same."""
    text = (shop / PART).read_text()
    for words in (["check", "--json"], ["stops"], ["gauge", "--json"], ["cutters", "--json"]):
        named = run(words[0], PART, *words[1:])
        piped = run(words[0], "-", *words[1:], answers=text)
        assert (piped.exit_code, piped.stdout) == (named.exit_code, named.stdout)
    trial = run("trial", "-", "--land", "0.62", "--json", answers=text)
    assert trial.stdout == run("trial", PART, "--land", "0.62", "--json").stdout
    assert (
        run("dxf", "-", "--out", "-", answers=text).stdout == run("dxf", PART, "--out", "-").stdout
    )


@pytest.mark.parametrize(
    ("number", "title", "stem"),
    [
        ('"LM 07/b"', '"Ratchet"', "LM-07-b"),
        ("", '"Take-up: 2nd"', "Take-up-2nd"),
        ('"../.."', '"../etc"', "etc"),
        ("", "", "part"),
        ('"..."', '"???"', "part"),
    ],
)
def test_what_is_made_of_standard_input_is_called_by_number_or_title(
    shop: Path, number: str, title: str, stem: str
) -> None:
    """Its number, or else its title, as a file name of letters, digits and dashes, or `part`."""
    lines = (shop / PART).read_text().split("\n")
    kept = [line for line in lines if not line.startswith(("number =", "title ="))]
    head = [f"{key} = {text}" for key, text in (("number", number), ("title", title)) if text]
    text = "\n".join([*head, *kept])
    done = run("-", answers=text)
    assert done.exit_code == 0, done.stderr
    assert (shop / "out" / stem / f"{stem}.dxf").is_file()
    assert run("sheet", "-", "--pdf", "--force", answers=text).exit_code == 0
    assert [path.name for path in (shop / "out").iterdir()] == [stem]


def test_one_of_many_may_come_from_standard_input(shop: Path) -> None:
    """Beside five files, which other processes make, the sixth is read from the pipe once."""
    text = (shop / PART).read_text()
    for n in range(5):
        (shop / f"{n}.toml").write_text(text)
    done = real("make", "-", *(f"{n}.toml" for n in range(5)), answers=text.encode())
    assert done.returncode == 0, done.stderr.decode()
    assert len(list((shop / "out").iterdir())) == 6


def test_standard_input_that_is_no_part(shop: Path) -> None:
    """It is called by its name in every message, with lines; nothing is written."""
    before = files_below(shop)
    for text, said in (
        ("", "this file is empty"),
        ("teeth 3 4", "line 1"),
        ("\0\1" * 9 + "\2", "UTF-16"),
    ):
        for words in (("check", "-"), ("make", "-")):
            done = run(*words, answers=text)
            assert done.exit_code == 2
            assert done.stderr.startswith("standard input")
            assert said in done.stderr
    assert files_below(shop) == before


def test_files_that_a_piped_part_names_are_in_the_current_folder(shop: Path) -> None:
    """A drawer that it names, and `drawer.toml` there, count as beside it."""
    text = (shop / PART).read_text().partition("[[cutter]]")[0]
    run("start", "drawer")
    said = run("cutters", "-", answers=text).stderr
    assert "cutters: drawer.toml" in said
    run("start", "drawer", "--out", "mine.toml")
    said = run("cutters", "-", answers=f'drawer = "mine.toml"\n{text}').stderr
    assert "cutters: mine.toml" in said


def test_nothing_can_be_asked_when_the_part_is_piped(shop: Path) -> None:
    """`trial -` without a land says so instead of reading the part as an answer."""
    done = run("trial", "-", answers=(shop / PART).read_text())
    assert done.exit_code == 2
    assert "no land can be asked for" in done.stderr


@pytest.mark.parametrize("words", [["make", PART], ["dxf", PART], ["check", PART, "--json"]])
def test_quiet_says_nothing_when_all_is_well(shop: Path, words: list[str]) -> None:
    """With `--quiet` a good part leaves stderr empty; data on stdout stay."""
    loud = run(*words)
    quiet = run(*words, "--quiet", "--force") if words[0] != "check" else run(*words, "-q")
    assert (loud.stderr != "", quiet.stderr) == (True, "")
    assert quiet.stdout == loud.stdout


def test_quiet_still_says_what_is_wrong(shop: Path) -> None:
    """Problems, refusals and cautions are said all the same, and the exit code stays."""
    changed(shop / PART, "teeth = 30", "teeth = 1")
    assert "this count is too small" in run("check", PART, "-q").stderr
    changed(shop / PART, "teeth = 1", "teeth = 300")
    done = run("-q", PART)
    assert done.exit_code == 3
    assert "refused: " in done.stderr
    assert "outside diameter" not in done.stderr


def test_every_command_can_be_quiet() -> None:
    """`--quiet` is an option of all of them."""
    for name in COMMANDS:
        assert "-q, --quiet" in run(name, "--help").stdout


def test_no_colour_where_it_is_no_terminal(shop: Path) -> None:
    """What goes to a file or a pipe has no escape codes."""
    changed(shop / PART, "teeth = 30", "teeth = 300")
    for words in (("check", PART), ("dxf", PART)):
        done = real(*words)
        assert b"refused" in done.stdout + done.stderr
        assert b"\x1b" not in done.stdout + done.stderr


@needs_terminal
@pytest.mark.parametrize(
    ("extra", "is_coloured"),
    [({}, True), ({"NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False), ({"NO_COLOR": ""}, True)],
)
def test_colour_on_a_terminal(shop: Path, extra: dict[str, str], is_coloured: bool) -> None:
    """At a terminal a refusal is red, unless the user or the terminal wants none; a title that
    would steer the terminal stays harmless."""
    from tests.cli.terminal import Terminal

    changed(shop / PART, "teeth = 30", "teeth = 300")
    seen = Terminal("check", PART, folder=shop, **extra)
    assert seen.ends() == 3
    assert ("\x1b[31mrefused\x1b[0m:" in seen.shown) == is_coloured
    assert ("\x1b" in seen.shown) == is_coloured


@pytest.mark.parametrize("shell", SHELLS)
def test_a_script_for_each_shell(shell: str) -> None:
    """It names the program and where the words come from, and asks for no shell to be at hand."""
    done = real("completion", shell, PATH="")
    text = done.stdout.decode()
    assert (done.returncode, done.stderr) == (0, b"")
    assert "profilegen" in text
    assert f"{shell}_complete" in text


def test_an_unknown_shell_is_told() -> None:
    """With the ones that there are."""
    done = run("completion", "tcsh")
    assert done.exit_code == 2
    assert "powershell" in done.stderr


def offered(shell: str, *words: str) -> list[str]:
    """What the program offers for the last of the words, a line each."""
    asked = {"_PROFILEGEN_COMPLETE": f"{shell}_complete"}
    if shell == "powershell":
        asked |= {"COMP_WORDS": "\n".join(["profilegen", *words[:-1]]), "COMP_WORD": words[-1]}
    else:
        line = " ".join(["profilegen", *words])
        asked |= {
            "COMP_WORDS": line,
            "COMP_CWORD": str(len(words)) if shell == "bash" else words[-1],
        }
    done = real(code="", answers=b"", **asked)
    assert done.stderr == b""
    return done.stdout.decode().splitlines()


@pytest.mark.parametrize("shell", ["bash", "powershell"])
def test_words_that_are_offered(shop: Path, shell: str) -> None:
    """Commands, options and choices by how they begin; where a file is meant, files."""
    mark = "," if shell == "bash" else "\t"

    def words(*line: str) -> set[str]:
        return {row.split(mark)[1] for row in offered(shell, *line) if row.startswith("plain")}

    assert words("ch") == {"check"}
    assert words("") == set(COMMANDS)
    assert words("check", PART, "--un") == {"--units"}
    assert words("check", "--units", "m") == {"mm"}
    assert words(PART, "--pap") == {"--paper"}
    assert "--version" in words("--")
    assert words("nonsense", "--zzz") == set()
    for line in (("take",), ("check", "take"), ("cutters", PART, "--drawer", "dr")):
        assert [row.split(mark)[0] for row in offered(shell, *line)] == ["file"]


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash to ask")
def test_the_script_of_bash_works_in_bash(shop: Path) -> None:
    """Sourced, it fills in the command that was begun."""
    script = real("completion", "bash").stdout.decode()
    here = shop / "profilegen"
    here.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m profilegen "$@"\n')
    here.chmod(0o755)
    asked = (
        "COMP_WORDS=(profilegen sta); COMP_CWORD=1; _profilegen_completion profilegen;"
        'echo "<${COMPREPLY[@]}>"'
    )
    done = subprocess.run(
        ["bash", "-c", f"{script}\n{asked}"],
        capture_output=True,
        check=False,
        timeout=60,
        env=os.environ | {"PATH": f"{shop}:{os.environ['PATH']}"},
    )
    assert b"<start>" in done.stdout, done.stderr


@pytest.mark.parametrize(
    "words",
    [
        (PART, "check"),
        ("make", PART, "check"),
        ("check.toml", "stops", PART),
        ("--force", PART, "dxf"),
    ],
)
def test_a_command_behind_the_file_writes_nothing(shop: Path, words: tuple[str, ...]) -> None:
    """`profilegen part.toml check` is told the line to type, before anything is made."""
    before = files_below(shop)
    done = run(*words)
    assert done.exit_code == 2
    assert "the command comes first: profilegen " in done.stderr
    assert files_below(shop) == before


@pytest.mark.usefixtures("no_sheets")
def test_a_file_with_the_name_of_a_command_is_made(shop: Path) -> None:
    """A part file called check, which is there, is no slip."""
    (shop / "check").write_text((shop / PART).read_text())
    assert run("make", PART, "check").exit_code == 0


@pytest.mark.parametrize(
    ("text", "scale"),
    [
        ("10:1", 10),
        ("1:2", 0.5),
        ("2", 2),
        ("1/2", 0.5),
        ("0,5", 0.5),
        (" 5 : 1 ", 5),
        ("2.5:1", 2.5),
    ],
)
def test_a_scale_is_read_as_it_is_written_on_prints(shop: Path, text: str, scale: float) -> None:
    """Enlarged and reduced, with a colon, a fraction or a plain number."""
    assert parse_scale(text) == scale
    plain = run("template", PART, "--scale", str(scale), "--out", "-").stdout
    assert run("template", PART, "--scale", text, "--out", "-").stdout == plain


@pytest.mark.parametrize("text", ["", ":", "10:", "0", "1:0", "ten", "1:2:3", "-2", "nan", "1 mm"])
def test_what_is_no_scale(shop: Path, text: str) -> None:
    """Each is told with what would do, exit code 2."""
    with pytest.raises(UnitsError):
        parse_scale(text)
    done = run("template", PART, "--scale", text)
    assert done.exit_code == 2
    assert "--scale" in done.stderr


def test_a_scale_out_of_range_is_told() -> None:
    """From a tenth to a hundred times."""
    assert "1:10 to 100:1" in run("template", PART, "--scale", "1:20").stderr


@pytest.mark.parametrize(
    "text",
    [
        json.dumps({"units": "mm", "wheel": {"teeth": 24}}, indent=2),
        json.dumps({"units": "mm"}),
        '{"units": "mm", "wheel": {',
        "[{}]",
        '[\n  {"teeth": 24}\n]',
        "[1, 2]",
        '["a", "b"]',
    ],
)
@pytest.mark.parametrize("drawer", [False, True])
def test_pasted_json_is_told_in_one_sentence(shop: Path, text: str, drawer: bool) -> None:
    """One problem, not one for each line."""
    (shop / "pasted.toml").write_text(text)
    words = ("cutters", PART, "--drawer", "pasted.toml") if drawer else ("check", "pasted.toml")
    said = run(*words).stderr
    assert "this is JSON" in said
    assert "to put right" not in said


@pytest.mark.parametrize("text", ["<?xml version='1.0'?>", "<!doctype html>\n<p>", "\n  <svg/>"])
def test_a_page_is_told_in_one_sentence(shop: Path, text: str) -> None:
    """XML and pages of the web are told as such."""
    (shop / "page.toml").write_text(text)
    assert "XML or a web page" in run("check", "page.toml").stderr


@pytest.mark.parametrize(
    "head", ["[wheel]", '["wheel"]', "[[cutter]]", "[ wheel ]", "[wheel", "(wheel)"]
)
def test_the_head_of_a_table_is_no_json(shop: Path, head: str) -> None:
    """Neither a good head nor a slip in one is taken for JSON."""
    (shop / "head.toml").write_text(f"{head}\nteeth = 24\n")
    assert "JSON" not in run("check", "head.toml").stderr
